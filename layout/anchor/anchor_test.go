package anchor_test

import (
	"slices"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/anchor"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

func solve(t *testing.T, j *job.Job) (*layout.Layout, map[string]int) {
	t.Helper()
	l, found := layout.Build(j)
	codes := map[string]int{}
	for _, f := range found {
		if f.Severity == finding.Error {
			t.Fatal(f)
		}
		codes[f.Code]++
	}
	return l, codes
}

func TestShims(t *testing.T) {
	sizes := []length.Length{in / 2, in / 4, in / 8, in / 16}
	cases := []struct {
		t    length.Length
		want []length.Length
	}{
		{0, nil}, {in / 16, []length.Length{in / 16}}, {15 * in / 16, sizes}, {in, []length.Length{in / 2, in / 2}},
		{in / 40, nil}, {-in, nil}, {in / 25, []length.Length{in / 16}},
	}
	for _, c := range cases {
		got := anchor.Shims(c.t, sizes)
		if len(got) != len(c.want) {
			t.Errorf("%v: %v", c.t, got)
			continue
		}
		for i := range got {
			if got[i] != c.want[i] {
				t.Errorf("%v: %v", c.t, got)
			}
		}
	}
}

// A chair that an obstacle blocks moves to its nearer edge; the joint chairs
// beside it stay.
func TestBlockedChairMoves(t *testing.T) {
	j := jobtest.Job()
	j.Assemblies[0].ChairSpacing, j.Assemblies[1].ChairSpacing = 60*in, 60*in // room to move in a bay of 46 in
	p := jobtest.Rectangle(480*in, 240*in)
	j.Perimeters = []job.Perimeter{p}
	l, _ := solve(t, j)
	r := l.Runs()[0]
	var was *layout.Chair
	for _, c := range r.Chairs {
		if c.Kind == anchor.Between {
			was = c
			break
		}
	}
	at := r.ToFront(was.At) + 4*in
	j.Perimeters[0].Runs[0].Obstacles = []job.Obstacle{{Name: "post", Station: at, Extent: 3 * in, Does: job.BlocksChair}}
	l, codes := solve(t, j)
	if len(codes) > 0 {
		t.Fatal(codes)
	}
	for _, c := range l.Runs()[0].Chairs {
		if c.N == was.N {
			if want := was.At + 4*in - 8*in; c.At != want {
				t.Errorf("chair at %v, want %v", c.At, want)
			}
		}
	}
}

func TestNoFastenerLengthIsAHold(t *testing.T) {
	j := jobtest.Job()
	j.Fasteners[0].Lengths = []length.Length{3 * in / 2}
	p := jobtest.Rectangle(480*in, 240*in)
	p.Runs[0].Readings[4].TopInside = -in
	p.Runs[0].Cleared = []job.Cleared{{Station: 120 * in, Measure: job.MeasureTopInside, By: "surveyor", Value: -in}}
	j.Perimeters = []job.Perimeter{p}
	l, codes := solve(t, j)
	if codes["no-fastener-length"] == 0 {
		t.Fatal(codes)
	}
	for _, q := range l.Perimeters[0].Pieces {
		if onA := q.Parts[0].Run.Name == "A" || q.Parts[len(q.Parts)-1].Run.Name == "A"; onA == l.Held.Released(q) {
			t.Errorf("piece %s: released %v", q.Mark, l.Held.Released(q))
		}
	}
}

// The tip may not pass the wood less its cover.
func TestTooDeepIsAHold(t *testing.T) {
	j := jobtest.Job()
	j.Walls[0].Layers[0].Thickness = in + in/4
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*in, 240*in)}
	_, codes := solve(t, j)
	if codes["no-fastener-length"] == 0 {
		t.Fatal(codes)
	}
}

// Nor may the pilot hole, which is drilled beyond the tip, pass through the wood.
func TestPilotThroughTheBackIsAHold(t *testing.T) {
	j := jobtest.Job()
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*in, 240*in)}
	l, _ := solve(t, j)
	row := l.Runs()[0].Chairs[0].Rows[0]
	f := &j.Fasteners[0]
	f.Lengths = []length.Length{row.Length}
	for _, c := range []struct {
		name         string
		dia, beyond  length.Length
		below        length.Length // of the tip, in the wood
		code         bool
		pilot, cover string
	}{
		{"room for the pilot", in / 8, in / 2, in / 2, false, "", ""},
		{"the pilot passes through", in / 8, in / 2, in/2 - in/16, true, "pilot", ""},
		{"no pilot asked for", 0, in / 2, in/2 - in/16, false, "", ""},
		{"a cover deeper than the pilot", in / 8, in / 16, f.Cover - in/32, true, "", "tip must stay"},
	} {
		f.PilotDia, f.PilotBeyond = c.dia, c.beyond
		j.Walls[0].Layers[0].Thickness = row.Length - row.Above + c.below
		l, codes := solve(t, j)
		if (codes["no-fastener-length"] > 0) != c.code {
			t.Errorf("%s: %v", c.name, codes)
		}
		for _, h := range l.Holds() {
			if !strings.Contains(h.What, c.pilot) || !strings.Contains(h.What, c.cover) {
				t.Errorf("%s: %v", c.name, h)
			}
		}
	}
}

func TestExpansionJointChairs(t *testing.T) {
	j := jobtest.Job()
	m := in / 2
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*in, 240*in)}
	j.Perimeters[0].Runs[0].Expansion = []job.ExpansionJoint{{Station: 230 * in, Gap: in, Movement: &m}}
	l, codes := solve(t, j)
	if len(codes) > 0 {
		t.Fatal(codes)
	}
	r := l.Runs()[0]
	centre := r.ToCap(230 * in)
	gap := 5*in/16 + m
	var at []length.Length
	for _, c := range r.Chairs {
		if c.Kind == anchor.AtExpansion {
			at = append(at, c.At)
		}
	}
	if len(at) != 2 || at[0] != centre-gap/2-8*in || at[1] != centre-gap/2+gap+8*in {
		t.Errorf("chairs %v about %v", at, centre)
	}
	for _, q := range r.Joints {
		// 2 in on each cap still, when the movement and a stock length's 0.1282 in at the coldest are lost on the loose side.
		want := gap + 2*(2*in+m+128174*in/1000000)
		if q.Source != nil && length.Abs(q.Plate-want) > in/1000 {
			t.Errorf("cover plate %v, want %v", q.Plate, want)
		}
	}
	j.Perimeters[0].Runs[0].Expansion[0].Movement = nil
	if _, codes = solve(t, j); codes["movement-not-stated"] != 1 {
		t.Error(codes)
	}
}

// Two building expansion joints less than a chair apart: a chair beside either stands
// over the gap of the other, which is said of both and keeps the piece between; not
// where they stand apart.
func TestChairOverExpansionIsHeld(t *testing.T) {
	for _, c := range []struct {
		apart length.Length
		want  []string
	}{{10 * in, []string{"chair A-C8 stands over the gap of the building expansion joint A-J3", "chair A-C9 stands over the gap of the building expansion joint A-J4"}}, {100 * in, nil}} {
		j := jobtest.Job()
		j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*in, 240*in)}
		moves := in / 4
		j.Perimeters[0].Runs[0].Expansion = []job.ExpansionJoint{
			{Station: 200 * in, Gap: in, Movement: &moves}, {Station: 200*in + c.apart, Gap: in, Movement: &moves}}
		l, found := layout.Build(j)
		var said []string
		for _, f := range found {
			if f.Code != "chair-over-expansion" {
				continue
			}
			said = append(said, f.What)
			i := slices.IndexFunc(l.Perimeters[0].Pieces, func(p *layout.Piece) bool { return slices.Contains(f.Where.Pieces, p.Mark) })
			if i < 0 || f.Severity != finding.Hold || l.Held.Released(l.Perimeters[0].Pieces[i]) {
				t.Errorf("%v keeps no piece from release", f)
			}
		}
		if len(said) != len(c.want) {
			t.Fatalf("%v apart: %q", c.apart, said)
		}
		for i, w := range c.want {
			if !strings.Contains(said[i], w) {
				t.Errorf("%v apart: %s, want %s", c.apart, said[i], w)
			}
		}
	}
}
