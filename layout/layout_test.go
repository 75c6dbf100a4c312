package layout_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/anchor"
	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"

	"pgregory.net/rapid"
)

func build(t interface{ Fatalf(string, ...any) }, j *job.Job) *layout.Layout {
	l, found := layout.Build(j)
	if found.HasErrors() {
		t.Fatalf("unexpected error: %v", found)
	}
	return l
}

func held(l *layout.Layout, run string, codes ...string) bool {
	return slices.ContainsFunc(l.Findings, func(f finding.Finding) bool {
		return f.Severity == finding.Hold && slices.Contains(codes, f.Code) && (f.Where.OnRun(run) || f.Where.Corner != "")
	})
}

// Every run: pieces and gaps tile its cap line exactly.
func checkTiling(t *rapid.T, l *layout.Layout) {
	for _, r := range l.Runs() {
		at := length.Length(0)
		if c := r.Left.Corner; c != nil && c.Absorb {
			at = l.Job.System.Joint.Gap / 2
		}
		sum := at
		for i, p := range r.Parts {
			if i > 0 {
				j := jointAt(r, at)
				if j == nil {
					t.Fatalf("run %s: no joint after %v", r.Name, at)
				}
				at = j.To
				sum += j.Gap()
			}
			if p.From != at || p.To <= p.From {
				t.Fatalf("run %s: part %s begins at %v, want %v", r.Name, p.Piece.Mark, p.From, at)
			}
			at = p.To
			sum += p.Length()
		}
		if c := r.Right.Corner; c != nil && c.Absorb {
			half := r.Cap - at
			if half != l.Job.System.Joint.Gap/2 {
				t.Fatalf("run %s: half a kink's joint is %v", r.Name, half)
			}
			sum += half
		}
		if sum != r.Cap {
			t.Fatalf("run %s: pieces and gaps make %v, the cap line is %v", r.Name, sum, r.Cap)
		}
	}
}

func jointAt(r *layout.Run, from length.Length) *layout.Joint {
	for _, j := range r.Joints {
		if j.From == from {
			return j
		}
	}
	return nil
}

// Every joint but one over a building expansion joint has one splice plate and
// one chair.
func checkJoints(t *rapid.T, l *layout.Layout) {
	for _, r := range l.Runs() {
		for _, j := range r.Joints {
			n := 0
			for _, c := range r.Chairs {
				if c.Joint == j {
					n++
					if j.Kind != cap.Expansion && c.At != j.Centre() {
						t.Fatalf("joint %s: its chair stands at %v, not %v", j.Name, c.At, j.Centre())
					}
				}
			}
			want, plate := 1, l.Job.System.Splice.Length
			if j.Kind == cap.Expansion {
				want, plate = 2, j.Plate
				checkOverExpansion(t, l, r, j)
			}
			if n != want || j.Plate != plate {
				t.Fatalf("joint %s: %d chairs and a plate of %v", j.Name, n, j.Plate)
			}
			if j.Left == nil || j.Right == nil {
				t.Fatalf("joint %s has no piece on one side", j.Name)
			}
		}
	}
}

// No chair crosses a building expansion joint, or stands over its gap in the wall
// or in the coping, unless a hold names both.
func checkOverExpansion(t *rapid.T, l *layout.Layout, r *layout.Run, j *layout.Joint) {
	from, to := length.Min(j.From, j.Centre()-j.Source.Gap/2), length.Max(j.To, j.Centre()+j.Source.Gap/2)
	for _, c := range r.Chairs {
		if c.Right(&l.Job.System) <= from || c.Left(&l.Job.System) >= to || c.Joint == j && held(l, r.Name, "expansion-chair") {
			continue
		}
		named := slices.ContainsFunc(l.Findings, func(f finding.Finding) bool {
			return f.Code == "chair-over-expansion" && f.Severity == finding.Hold && f.Where.Run == r.Name &&
				strings.Contains(f.What, "chair "+c.Name+" ") && strings.Contains(f.What, " "+j.Name+" ") && slices.Contains(f.Where.Pieces, c.Piece.Mark)
		})
		if !named {
			t.Fatalf("chair %s stands over the expansion joint %s", c.Name, j.Name)
		}
	}
}

// Metal length over bays within the tested spacing, unless the run says as a hold that
// chairs have no room: none is then laid on another.
func checkBays(t *rapid.T, l *layout.Layout) {
	for _, r := range l.Runs() {
		for _, p := range r.Parts {
			bays := 1
			for _, c := range r.Chairs {
				if c.Kind == anchor.Between && c.At > p.From && c.At < p.To {
					bays++
				}
			}
			if spacing := r.ChoiceFor(p.Piece.Zone, p.Inside()).Assembly.ChairSpacing; p.Length() > length.Length(bays)*spacing && !held(l, r.Name, "chairs-crowded", "chair-blocked") {
				t.Fatalf("piece %s: %v in %d bays passes the spacing %v", p.Piece.Mark, p.Length(), bays, spacing)
			}
		}
	}
}

// No two chairs of a run overlap, unless the run says so as a hold.
func checkChairs(t *rapid.T, l *layout.Layout) {
	for _, r := range l.Runs() {
		for i, c := range r.Chairs {
			if i > 0 && c.At-r.Chairs[i-1].At < l.Job.System.Chair.Length && !held(l, r.Name, "chairs-overlap") {
				t.Fatalf("chairs %s and %s overlap", r.Chairs[i-1].Name, c.Name)
			}
			if c.PackFront < 0 || c.PackRear < 0 {
				t.Fatalf("chair %s is not packed", c.Name)
			}
			for i := range r.Job.Obstacles {
				o := &r.Job.Obstacles[i]
				x := r.ToCap(r.FrontStation(o.Station))
				if o.Does&job.BlocksChair != 0 && length.Abs(c.At-x) < (o.Extent+l.Job.System.Chair.Length)/2 && !held(l, r.Name, "chair-blocked", "no-fit") {
					t.Fatalf("chair %s stands on %s", c.Name, o.Name)
				}
			}
		}
	}
}

// No straight piece under the least or over the stock, unless held.
func checkPieces(t *rapid.T, l *layout.Layout) {
	s := &l.Job.System
	marks := map[string]bool{}
	for _, p := range l.Perimeters {
		laying := map[int]bool{}
		for _, q := range p.Pieces {
			if marks[q.Mark] || laying[q.Laying] || q.Laying < 1 || q.Laying > len(p.Pieces) {
				t.Fatalf("piece %s, laying number %d: not its own", q.Mark, q.Laying)
			}
			marks[q.Mark], laying[q.Laying] = true, true
			if q.Kind == cap.Straight && (q.Length() < s.LeastPiece || q.Length() > s.Stock) && !held(l, q.Parts[0].Run.Name, "no-fit") {
				t.Fatalf("piece %s is %v long, least %v, stock %v", q.Mark, q.Length(), s.LeastPiece, s.Stock)
			}
			if l.Weight(q).Laid <= 0 {
				t.Fatalf("piece %s weighs nothing", q.Mark)
			}
		}
	}
}

// Shim zones cover each wall line exactly once.
func checkZones(t *rapid.T, l *layout.Layout) {
	for _, r := range l.Runs() {
		at := length.Length(0)
		for _, z := range r.BuildUp {
			if z.From != at || z.To <= z.From {
				t.Fatalf("run %s: a shim zone begins at %v, want %v", r.Name, z.From, at)
			}
			at = z.To
		}
		if at != r.Front {
			t.Fatalf("run %s: shim zones end at %v of %v", r.Name, at, r.Front)
		}
	}
}

// Every chair stands on one build-up, and is packed to the set surface by the
// layers and shims that are listed for it.
func checkBuildUp(t *rapid.T, l *layout.Layout) {
	for _, r := range l.Runs() {
		for _, c := range r.Chairs {
			lo, hi := r.ToFront(c.Left(&l.Job.System)), r.ToFront(c.Right(&l.Job.System))
			for _, z := range r.BuildUp {
				if z.From < hi && z.To > lo && z.Layers != c.Layers && !held(l, r.Name, "chairs-overlap", "chairs-crowded", "chair-blocked", "expansion-chair") {
					t.Fatalf("chair %s, on %d layers from %v to %v, stands in a zone of %d from %v to %v", c.Name, c.Layers, lo, hi, z.Layers, z.From, z.To)
				}
			}
			for _, m := range []struct{ want, made length.Length }{
				{c.PackFront, c.Made(&l.Job.Packing, c.ShimFront)}, {c.PackRear, c.Made(&l.Job.Packing, c.ShimRear)},
			} {
				if length.Abs(m.want-m.made) > l.Grid && !held(l, r.Name, "shim-missing") {
					t.Fatalf("chair %s: %v of packing, made up to %v", c.Name, m.want, m.made)
				}
			}
		}
	}
}

// What a hold touches travels in no crate, the rest exactly once.
func checkCrates(t *rapid.T, l *layout.Layout) {
	n := map[*layout.Piece]int{}
	for _, c := range l.Crates {
		for _, i := range c.Items {
			if i.Piece != nil {
				n[i.Piece]++
			}
		}
	}
	for _, p := range l.Perimeters {
		for _, q := range p.Pieces {
			want := 1
			if !l.Held.Released(q) {
				want = 0
			}
			if n[q] != want {
				t.Fatalf("piece %s travels %d times, want %d (holds %v)", q.Mark, n[q], want, l.Held[q])
			}
		}
	}
}

func TestInvariants(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		l := build(t, jobtest.Random(t))
		checkTiling(t, l)
		checkJoints(t, l)
		checkBays(t, l)
		checkChairs(t, l)
		checkPieces(t, l)
		checkZones(t, l)
		checkBuildUp(t, l)
		checkCrates(t, l)
		checkWidths(t, l)
	})
}

// mirror reverses the runs, turns stations x to L - x and swaps left and right
// in every option.
func mirror(j *job.Job) *job.Job {
	m := *j
	s := &m.System
	switch s.Closer {
	case job.CloserLeft:
		s.Closer = job.CloserRight
	case job.CloserRight:
		s.Closer = job.CloserLeft
	}
	s.Remainder = 1 - s.Remainder
	m.Perimeters = nil
	for _, p := range j.Perimeters {
		q := p
		n := len(p.Runs)
		q.Runs = nil
		for k := n - 1; k >= 0; k-- {
			r := p.Runs[k]
			r.Right = p.Runs[(k+n-1)%n].Right
			if g := r.Grade; g != nil && g.Way != job.EitherWay {
				r.Grade = &job.Grade{Most: g.Most, Way: job.Rising + job.Falling - g.Way}
			}
			if p.Kind == job.Open && k == 0 {
				r.Right = mirrorEnd(j, p.Starts)
			}
			l := r.Length
			r.Readings = slices.Clone(r.Readings)
			slices.Reverse(r.Readings)
			for i := range r.Readings {
				r.Readings[i].Station = l - r.Readings[i].Station
			}
			r.Obstacles = slices.Clone(r.Obstacles)
			slices.Reverse(r.Obstacles)
			for i := range r.Obstacles {
				r.Obstacles[i].Station = l - r.Obstacles[i].Station
			}
			r.Expansion = slices.Clone(r.Expansion)
			slices.Reverse(r.Expansion)
			for i := range r.Expansion {
				r.Expansion[i].Station = l - r.Expansion[i].Station
			}
			q.Runs = append(q.Runs, r)
		}
		if p.Kind == job.Open {
			q.Starts = mirrorEnd(j, p.Runs[n-1].Right)
		}
		// Seen in a mirror and walked the other way.
		last := p.Bearing
		for _, r := range p.Runs[:n-1] {
			last += r.Right.Turn
		}
		q.Bearing = (540*job.Degree - last) % (360 * job.Degree)
		m.Perimeters = append(m.Perimeters, q)
	}
	return &m
}

// mirrorEnd mirrors where an end meets another run.
func mirrorEnd(j *job.Job, e job.End) job.End {
	if e.Tee == nil {
		return e
	}
	t := *e.Tee
	for _, p := range j.Perimeters {
		for _, r := range p.Runs {
			if p.Name == t.Perimeter && r.Name == t.Run {
				t.At = r.Length - t.At
			}
		}
	}
	switch t.Of {
	case job.TeeLeft:
		t.Of = job.TeeRight
	case job.TeeRight:
		t.Of = job.TeeLeft
	}
	e.Tee = &t
	return e
}

func describe(r *layout.Run, flip bool) []string {
	var out []string
	at := func(x length.Length) length.Length {
		if flip {
			return r.Cap - x
		}
		return x
	}
	for _, p := range r.Parts {
		a, b := at(p.From), at(p.To)
		lw, rw := p.InsideAt(p.From), p.InsideAt(p.To)
		if flip {
			lw, rw = rw, lw
		}
		out = append(out, fmt.Sprintf("part %v..%v %v %v %v", min(a, b), max(a, b), p.Piece.Kind, lw, rw))
	}
	for _, c := range r.Chairs {
		if c.Joint != nil && c.Joint.Kind == cap.Kink {
			continue // belongs to the arriving run, which is the other one in the mirror
		}
		out = append(out, fmt.Sprintf("chair %v %v %v/%v %v", at(c.At), c.Kind, c.PackFront, c.PackRear, c.Inside))
	}
	slices.Sort(out)
	return out
}

func TestMirror(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		checkMirror(t, jobtest.Random(t))
	})
}

// A survey line that leaves the wall by 1/16 in over eight equal spans stands
// off it by a half nanometre at the first of them. Rounded from the left hand
// it lay a nanometre to one side in the mirror, and with it, up to the grid, a
// need or a line by 1/16 in: a wider cap, a corner that reaches farther.
func TestMirrorOfHalfNanometres(t *testing.T) {
	open := jobtest.Perimeter("OPEN", job.Open, jobtest.Run("R1", 240*in, 0))
	open.Starts = job.End{Kind: job.EndFree}
	open.Runs[0].Right = job.End{Kind: job.EndFree}
	roof := jobtest.Rectangle(240*in, 360*in)
	for name, c := range map[string]struct {
		perimeter job.Perimeter
		low, high length.Length // offsets at the two corners
		at        int
		offset    length.Length // there, beyond the survey line as rounded
	}{
		"the width of an open run":  {open, 0, length.Inch16, 1, -length.Inch16*4 + 198_437},
		"the other hand":            {open, length.Inch16, 0, 7, -length.Inch16*4 + 198_437},
		"the line round a corner":   {roof, 0, length.Inch16, 1, length.Inch16*4 + 198_438},
		"the corner, at other hand": {roof, length.Inch16, 0, 7, length.Inch16*4 + 198_438},
	} {
		t.Run(name, func(t *testing.T) {
			j := jobtest.Job()
			j.Perimeters = []job.Perimeter{c.perimeter}
			q := slices.Clone(c.perimeter.Runs[0].Readings)
			q[0].Offset, q[len(q)-1].Offset, q[c.at].Offset = c.low, c.high, c.offset
			j.Perimeters[0].Runs = slices.Clone(c.perimeter.Runs)
			j.Perimeters[0].Runs[0].Readings = q
			checkMirror(t, j)
		})
	}
}

func checkMirror(t interface{ Fatalf(string, ...any) }, j *job.Job) {
	a, found := solved(j)
	if found.HasErrors() {
		t.Fatalf("%v", found)
	}
	b, _ := solved(mirror(j))
	for i, p := range a.Perimeters {
		q := b.Perimeters[i]
		n := len(p.Runs)
		for k, r := range p.Runs {
			s := q.Runs[n-1-k]
			x, y := describe(r, false), describe(s, true)
			if !slices.Equal(x, y) {
				t.Fatalf("run %s is not the mirror of itself:\n%v\n%v", r.Name, x, y)
			}
		}
	}
}
