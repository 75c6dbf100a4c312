package cap_test

import (
	"math"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

const in = length.Inch

const sq = 90 * job.Degree

func solve(t *testing.T, j *job.Job) (*layout.Layout, string) {
	t.Helper()
	l, found := layout.Build(j)
	var codes []string
	for _, f := range found {
		if f.Severity == finding.Error {
			t.Fatal(f)
		}
		codes = append(codes, f.Code)
	}
	return l, strings.Join(codes, " ")
}

func marks(p *layout.Perimeter) string {
	var out []string
	for _, q := range p.Pieces {
		out = append(out, q.Mark)
	}
	return strings.Join(out, " ")
}

// A pilaster: its 14 in face is shorter than two legs, and becomes one piece
// with both its corners; the 12 in returns do so too, which is more miters
// than one piece takes, and so a hold.
func TestShortRuns(t *testing.T) {
	jog := func(depth, face length.Length) *job.Job {
		j := jobtest.Job()
		j.Perimeters = []job.Perimeter{jobtest.Perimeter("P", job.Roof,
			jobtest.Run("A", 240*in, -sq), jobtest.Run("B", depth, sq), jobtest.Run("C", face, sq), jobtest.Run("D", depth, -sq),
			jobtest.Run("E", 240*in, sq), jobtest.Run("F", 200*in, sq), jobtest.Run("G", 480*in+face, sq), jobtest.Run("H", 200*in, sq))}
		return j
	}
	cases := []struct {
		name        string
		depth, face length.Length
		marks       string
		codes       string
	}{
		{"returns too short for two legs: double miters", 20 * in, 80 * in, "A-01 A-02 A/B/C C/D/E", ""},
		{"legs meet at one joint", 58 * in, 58 * in, "A-01 A-02 A/B B/C C/D D/E", ""},
		{"everything short", 12 * in, 14 * in, "A-01 A-02 A/B/C/D/E", "chairs-overlap leg-vanishes many-miters"},
	}
	for _, c := range cases {
		l, codes := solve(t, jog(c.depth, c.face))
		if got := marks(l.Perimeters[0]); !strings.HasPrefix(got, c.marks+" ") || codes != c.codes {
			t.Errorf("%s: %s, findings %q", c.name, got, codes)
		}
	}
}

func TestOneJointIsShared(t *testing.T) {
	j := jobtest.Job()
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*in, 70*in)}
	l, codes := solve(t, j)
	if codes != "" {
		t.Fatal(codes)
	}
	r := l.Runs()[1]
	if len(r.Parts) != 2 || len(r.Joints) != 1 {
		t.Fatalf("%d parts, %d joints", len(r.Parts), len(r.Joints))
	}
	a, b := r.Parts[0].Length(), r.Parts[1].Length()
	if a+b+r.Joints[0].Gap() != r.Cap || length.Abs(a-b) > length.Inch16 {
		t.Errorf("legs %v and %v of %v", a, b, r.Cap)
	}
}

// A turn the job lets a plain joint absorb has a joint at the kink, one chair
// and no corner piece; a larger kink is a shop piece.
func TestKinks(t *testing.T) {
	for _, c := range []struct {
		turn  job.Angle
		marks string
	}{
		{1 * job.Degree, "A-LE A-01 A-02 B-01 B-02 B-RE"},
		{6 * job.Degree, "A-LE A-01 A-02 A/B B-01 B-02 B-RE"},
	} {
		j := jobtest.Job()
		p := jobtest.Perimeter("P", job.Open, jobtest.Run("A", 240*in, c.turn), jobtest.Run("B", 240*in, 0))
		p.Starts.Kind = job.EndFree
		p.Runs[1].Right = job.End{Kind: job.EndWall}
		j.Perimeters = []job.Perimeter{p}
		l, codes := solve(t, j)
		if got := marks(l.Perimeters[0]); got != c.marks || codes != "" {
			t.Errorf("turn %s: %s %s", job.FormatAngle(c.turn), got, codes)
		}
		pieces := l.Perimeters[0].Pieces
		first, last := pieces[0], pieces[len(pieces)-1]
		if first.Kind != cap.EndCap || first.Hand != cap.LeftHand || last.Kind != cap.WallEnd || last.Hand != cap.RightHand {
			t.Errorf("ends: %v %v, %v %v", first.Kind, first.Hand, last.Kind, last.Hand)
		}
		if l.Runs()[0].Joints[len(l.Runs()[0].Joints)-1].Kind != cap.Kink && c.turn == job.Degree {
			t.Error("no joint at the kink")
		}
	}
}

// Sixteen inch chairs on twelve inch legs would overlap in plan: the legs grow
// until they do not.
func TestLegsGrowUntilChairsAreClear(t *testing.T) {
	j := jobtest.Job()
	s := &j.System
	s.Corner.Leg, s.Chair.Length, s.Corner.LegFace = 12*in, 16*in, job.Front
	s.LeastPiece = 20 * in
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*in, 240*in)}
	l, codes := solve(t, j)
	if codes != "" {
		t.Fatal(codes)
	}
	leg := l.Runs()[0].Parts[0].Length()
	// The chair of one leg begins half a chair before the joint's centre; the
	// other leg's chair reaches rear to inside width less its rear edge.
	reach := s.Metal.Thickness + l.Runs()[0].Inside - s.Chair.RearEdge
	if leg+s.Joint.Gap/2-s.Chair.Length/2 < reach {
		t.Errorf("leg %v: its chair begins under the other leg's chair, which reaches to %v", leg, reach)
	}
	if leg-s.Corner.LegStep+s.Joint.Gap/2-s.Chair.Length/2 >= reach+s.Corner.Support.Length {
		t.Errorf("leg %v is longer than it needs to be", leg)
	}
}

func TestObstaclesKeepJointsAway(t *testing.T) {
	j := jobtest.Job()
	p := jobtest.Rectangle(480*in, 240*in)
	j.Perimeters = []job.Perimeter{p}
	l, _ := solve(t, j)
	r := l.Runs()[0]
	at := r.ToFront(r.Joints[1].Centre())
	j.Perimeters[0].Runs[0].Obstacles = []job.Obstacle{{Name: "rod", Station: at, Extent: 4 * in, Does: job.BlocksJoint}}
	l, codes := solve(t, j)
	if codes != "" {
		t.Fatal(codes)
	}
	for _, q := range l.Runs()[0].Joints {
		if d := length.Abs(l.Runs()[0].ToFront(q.Centre()) - at); d < 2*in+j.System.Splice.Length/2 {
			t.Errorf("joint %s is %v from the rod", q.Name, d)
		}
	}
	// The same number of pieces still.
	if n := len(l.Runs()[0].Parts); n != len(r.Parts) {
		t.Errorf("%d pieces, %d without the rod", n, len(r.Parts))
	}
}

func TestFieldCloser(t *testing.T) {
	j := jobtest.Job()
	j.System.Joint.FieldCloser, j.System.Joint.Allowance = true, 3*in
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*in, 240*in)}
	l, _ := solve(t, j)
	n := 0
	for _, p := range l.Perimeters[0].Pieces {
		if p.Allowance > 0 {
			n++
			if !p.Closer || p.CutAt != cap.RightHand || p.Length() == j.System.Stock {
				t.Errorf("piece %s", p.Mark)
			}
		}
	}
	if n != 4 {
		t.Errorf("%d field closers on four runs", n)
	}
	// Trimmed to what is left, so laid last, wherever an obstacle has put it.
	j.Perimeters[0].Runs[0].Obstacles = []job.Obstacle{{Name: "rod", Station: 165 * in, Extent: 4 * in, Does: job.BlocksJoint}}
	l, _ = solve(t, j)
	last := 0
	for _, p := range l.Runs()[0].Parts {
		if p.Piece.Kind == cap.Straight {
			last = max(last, p.Piece.Laying)
		}
	}
	for _, p := range l.Runs()[0].Parts {
		if p.Piece.Allowance > 0 && p.Piece.Laying != last {
			t.Errorf("field closer %s is laid %d, the last of its run %d", p.Piece.Mark, p.Piece.Laying, last)
		}
	}
}

func TestWidthIsTheSmallestOffered(t *testing.T) {
	w := job.Widths{Least: 8 * in, Most: 20 * in, Step: in / 4}
	for _, c := range []struct {
		least, want length.Length
		ok          bool
	}{{7 * in, 8 * in, true}, {12*in + in/16, 12*in + in/4, true}, {12 * in, 12 * in, true}, {21 * in, 20 * in, false}} {
		if got, ok := cap.Offer(w, c.least); got != c.want || ok != c.ok {
			t.Errorf("%v: %v %v", c.least, got, ok)
		}
	}
	list := job.Widths{Offered: []length.Length{10 * in, 13 * in}}
	if got, ok := cap.Offer(list, 11*in); got != 13*in || !ok {
		t.Errorf("%v %v", got, ok)
	}
	if got, ok := cap.Offer(list, 14*in); got != 13*in || ok {
		t.Errorf("%v %v", got, ok)
	}
}

// A narrow place whose play the rear leg cannot take up is a hold there, and
// the run's pieces are not released.
func TestRearPlayHold(t *testing.T) {
	j := jobtest.Job()
	j.System.PlayMost = in
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*in, 240*in)}
	j.Perimeters[0].Runs[2].Readings[5].Width = 11 * in
	j.Perimeters[0].Runs[2].Cleared = []job.Cleared{{Station: 150 * in, Measure: job.MeasureWidth, By: "surveyor", Value: 11 * in}}
	l, codes := solve(t, j)
	if codes != "rear-play" || len(l.Withheld) == 0 {
		t.Fatalf("%q, %d withheld", codes, len(l.Withheld))
	}
	f := l.Findings[0]
	if f.Where.Run != "C" || f.Where.Station != 150*in {
		t.Errorf("%+v", f.Where)
	}
}

// The weight of a straight piece by hand: girth x length x thickness x density. With
// nothing known of how the shop bends, the girth is that of the middle of the metal:
// the outside lengths, less at each bend what they reach beyond its tangents, R + T to
// the tangent and (R + T) tan(turn/2) to the mold line, and more by its arc.
func TestWeight(t *testing.T) {
	j := jobtest.Job()
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*in, 240*in)}
	l, _ := solve(t, j)
	p := l.Runs()[0].Parts[1].Piece
	const outer, middle = 0.0625 + 0.05, 0.0625 + 0.025 // radii
	fall := math.Atan(0.041666667)
	girth := 5 + 0.5 + (p.Inside.Inch()+0.1)/math.Cos(fall) + 3 + 0.5
	for _, turn := range []float64{math.Pi / 6, math.Pi/2 + fall, math.Pi/2 - fall} {
		girth -= 2*outer*math.Tan(turn/2) - turn*middle
	}
	girth -= 2*outer - 5*math.Pi/6*middle                        // the hook, to the tangent
	girth = math.Ceil(girth*64-1e-6) / 64                        // as blanks are cut
	want := girth * p.Length().Inch() * 0.05 * 16.387064 * 2.740 // in3 to cm3, g/cm3
	if math.Abs(float64(l.Weight(p).Laid)-want) > 1 {
		t.Errorf("%d g, want %.1f", l.Weight(p).Laid, want)
	}
}
