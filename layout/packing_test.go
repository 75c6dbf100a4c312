package layout_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"
	"copingset/layout/wall"

	"pgregory.net/rapid"
)

const in = length.Inch

// buys states how plywood is bought and what work costs.
func buys(j *job.Job) {
	j.Packing.Sheet = job.Sheet{Width: 48 * in, Length: 96 * in, Kerf: in / 8}
	j.Packing.Nail = job.LayerNail{Name: "ring-shank nail", Spacing: 12 * in, Rows: 2}
	j.Packing.Rates = &job.Rates{Cut: 2000, Piece: 1500, Foot: 1000, Hour: 60_000, Sheet: 48_500, Shim: 200}
}

// splits makes a step in the middle of a run: what follows stands higher, up
// to the run's own end or to the next step.
func splits(t *rapid.T, p *job.Perimeter, k int, rise length.Length) bool {
	r := p.Runs[k]
	m := len(r.Readings) / 2
	if r.Length < 150*in || r.Face != r.StationFace || r.Face != job.Front || len(r.Obstacles)+len(r.Expansion) > 0 || m < 2 {
		return false
	}
	at := r.Readings[m].Station
	a, b := r, r
	b.Name = r.Name + "X"
	a.Right = job.End{Kind: job.EndStep, Step: rise}
	a.Length, b.Length = at, r.Length-at
	a.Readings, b.Readings = slices.Clone(r.Readings[:m+1]), slices.Clone(r.Readings[m:])
	for i := range b.Readings {
		b.Readings[i].Station -= at
	}
	// Both halves tied to their own survey line.
	for _, q := range []*job.Run{&a, &b} {
		q.Readings[0].Offset, q.Readings[len(q.Readings)-1].Offset = 0, 0
	}
	p.Runs = slices.Concat(p.Runs[:k], []job.Run{a, b}, p.Runs[k+1:])
	return true
}

func raise(runs []job.Run, by length.Length) {
	for i := range runs {
		for k := range runs[i].Readings {
			runs[i].Readings[k].TopOutside += by
			runs[i].Readings[k].TopInside += by
		}
	}
}

// packs draws a job with a grade, rates and steps in its wall top.
func packs(t *rapid.T) *job.Job {
	j := jobtest.Random(t)
	buys(j)
	if rapid.Bool().Draw(t, "grade") {
		j.Packing.Grade = job.Slope(rapid.IntRange(1_000_000, 20_000_000).Draw(t, "slope"))
		j.Packing.Twist = length.Length(rapid.IntRange(0, 8).Draw(t, "twist")) * length.Inch16
	}
	p := &j.Perimeters[0]
	rise := 10 * in
	k := rapid.IntRange(0, len(p.Runs)-1).Draw(t, "step on")
	switch {
	case !rapid.Bool().Draw(t, "steps"):
	case p.Kind == job.Open:
		if rapid.Bool().Draw(t, "down") {
			rise = -rise
		}
		if splits(t, p, k, rise) {
			raise(p.Runs[k+1:], rise)
		}
	case k+1 < len(p.Runs):
		// Up on one run and down on the next but one, the runs between high.
		if splits(t, p, k, rise) {
			if splits(t, p, k+2, -rise) {
				raise(p.Runs[k+1:k+3], rise)
			} else {
				raise(p.Runs[k+1:k+2], rise)
			}
		}
	}
	return j
}

func stepsMirrored(m *job.Job) *job.Job {
	for i := range m.Perimeters {
		for k := range m.Perimeters[i].Runs {
			m.Perimeters[i].Runs[k].Right.Step *= -1
		}
	}
	return m
}

func TestInvariantsWithGradeAndSteps(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		l := build(t, packs(t))
		checkTiling(t, l)
		checkJoints(t, l)
		checkBays(t, l)
		checkChairs(t, l)
		checkPieces(t, l)
		checkZones(t, l)
		checkBuildUp(t, l)
		checkCrates(t, l)
		checkWidths(t, l)
		checkPitch(t, l)
		for _, r := range l.Runs() {
			for _, c := range r.Chairs {
				if q := r.At(r.ToFront(c.At)); q.PackFront < -1 || q.PackRear < -1 {
					t.Fatalf("chair %s stands %v and %v over the set surface", c.Name, -q.PackFront, -q.PackRear)
				}
			}
		}
	})
}

// A corner piece on a grade is held, or twists by no more than the job allows.
func checkPitch(t *rapid.T, l *layout.Layout) {
	for _, p := range l.Perimeters {
		for _, q := range p.Pieces {
			off := length.Length(0)
			for _, x := range q.Parts {
				if len(q.Miters) > 0 {
					off = length.Max(off, length.Abs(x.Run.SetAt(x.Run.ToFront(x.To))-x.Run.SetAt(x.Run.ToFront(x.From))))
				}
			}
			if off > l.Job.Packing.Twist+1 && l.Held.Released(q) {
				t.Fatalf("piece %s leaves the set surface by %v and is released", q.Mark, off)
			}
		}
	}
}

func TestMirrorWithGradeAndSteps(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		j := packs(t)
		a, b := build(t, j), build(t, stepsMirrored(mirror(j)))
		for i, p := range a.Perimeters {
			q := b.Perimeters[i]
			for k, r := range p.Runs {
				s := q.Runs[len(p.Runs)-1-k]
				if x, y := describe(r, false), describe(s, true); !slices.Equal(x, y) {
					t.Fatalf("run %s is not the mirror of itself:\n%v\n%v", r.Name, x, y)
				}
				if r.SetLeft != s.SetRight || r.SetRight != s.SetLeft {
					t.Fatalf("run %s is set at %v to %v, mirrored at %v to %v", r.Name, r.SetLeft, r.SetRight, s.SetRight, s.SetLeft)
				}
				if len(r.Strips) != len(s.Strips) || r.Nails != s.Nails {
					t.Fatalf("run %s has %d strips and %d nails, mirrored %d and %d", r.Name, len(r.Strips), r.Nails, len(s.Strips), s.Nails)
				}
			}
			if x, y := p.Packing, q.Packing; !reflect.DeepEqual(x, y) {
				t.Fatalf("the comparison is not the mirror of itself:\n%+v\n%+v", x, y)
			}
		}
	})
}

func TestRecommended(t *testing.T) {
	low := func(method job.PackingMethod) *job.Job {
		j := jobtest.Job()
		buys(j)
		p := jobtest.Rectangle(480*in, 240*in)
		for i := range p.Runs {
			for k := range p.Runs[i].Readings {
				if i+k > 0 {
					p.Runs[i].Readings[k].TopOutside, p.Runs[i].Readings[k].TopInside = -3*in/2, -3*in/2
				}
			}
		}
		j.Perimeters = []job.Perimeter{p}
		j.Packing.Method = method
		return j
	}
	l := build(t, low(job.PackRecommended))
	if !l.Packing.Known || l.Packing.Taken != l.Packing.Recommended || l.Job.Packing.Method != l.Packing.Recommended || l.Packing.Overridden() {
		t.Fatalf("%+v", l.Packing)
	}
	if q := l.Packing; q.Recommended != job.PackChairs || q.Chairs.Money >= q.Continuous.Money || q.Continuous.Sheets == 0 || q.Continuous.Cuts == 0 {
		t.Fatalf("%+v", q)
	}
	for _, c := range l.Runs()[1].Chairs {
		if c.Layers != 0 || len(c.ShimFront) == 0 {
			t.Fatalf("chair %s has %d layers", c.Name, c.Layers)
		}
	}
	// Dear shims turn it.
	j := low(job.PackRecommended)
	j.Packing.Rates.Shim = 20_000
	l = build(t, j)
	if l.Packing.Recommended != job.PackContinuous || l.Packing.Taken != job.PackContinuous || l.Runs()[1].Chairs[1].Layers != 2 || len(l.Runs()[1].Strips) == 0 {
		t.Fatalf("%+v", l.Packing)
	}
	// The job may do otherwise, and the comparison is the same.
	j.Packing.Method = job.PackChairs
	o := build(t, j)
	if !o.Packing.Overridden() || !reflect.DeepEqual(o.Packing.Continuous, l.Packing.Continuous) || o.Packing.Chairs != l.Packing.Chairs {
		t.Fatalf("%+v", o.Packing)
	}
	j.Packing.Rates = nil
	if l = build(t, j); l.Packing.Known || !strings.Contains(l.Packing.Reason, "packing: rates") {
		t.Fatalf("%+v", l.Packing)
	}
	var _ wall.Packing = l.Packing
}

func TestPitchMiter(t *testing.T) {
	j := jobtest.Job()
	p := jobtest.Rectangle(480*in, 240*in)
	for i := range p.Runs[0].Readings {
		q := &p.Runs[0].Readings[i]
		q.TopOutside = -q.Station / 240
		q.TopInside = q.TopOutside
		c := &p.Runs[2].Readings[i]
		c.TopOutside = -2*in + c.Station/240
		c.TopInside = c.TopOutside
	}
	for i := range p.Runs[1].Readings {
		p.Runs[1].Readings[i].TopOutside, p.Runs[1].Readings[i].TopInside = -2*in, -2*in
	}
	j.Perimeters = []job.Perimeter{p}
	j.Packing.Grade, j.Packing.Twist = 5_000_000, in/4
	// Over a leg of 27 in the surface leaves the piece by 27/240 in.
	l := build(t, j)
	if len(l.Holds()) > 0 {
		t.Fatalf("%v", l.Holds())
	}
	j.Packing.Twist = in / 16
	l = build(t, j)
	n := 0
	for _, f := range l.Holds() {
		if f.Code == "pitch-miter" && f.Severity == finding.Hold && strings.Contains(f.What, "needs a pitch miter") {
			n++
		}
	}
	if n != 4 { // the legs on A and C
		t.Fatalf("%d holds: %v", n, l.Holds())
	}
}

// A chair under a kink stands on two walls, and each has a reading of its own where
// they meet: the lower top is packed to, whichever run comes first, and the narrower
// wall's edge is the one that counts.
func TestKinkChairStandsOnTwoWalls(t *testing.T) {
	open := func(low int) *job.Job {
		j := jobtest.Job()
		j.Packing.Method = job.PackChairs
		p := jobtest.Perimeter("OPEN", job.Open, jobtest.Run("P", 240*in, job.Degree), jobtest.Run("Q", 240*in, 0))
		p.Starts, p.Runs[1].Right = job.End{Kind: job.EndFree}, job.End{Kind: job.EndFree}
		k := [2]*job.Reading{&p.Runs[0].Readings[len(p.Runs[0].Readings)-1], &p.Runs[1].Readings[0]}
		k[low].TopOutside, k[low].TopInside = -in/2, -in/4
		k[1-low].TopOutside, k[1-low].TopInside = -in/4, -3*in/8
		k[low].Width = 23 * in / 2
		j.Perimeters = []job.Perimeter{p}
		return j
	}
	for low := range 2 {
		l := build(t, open(low))
		r := l.Runs()[0]
		c := r.Chairs[len(r.Chairs)-1]
		if c.Joint == nil || c.Joint.Kind != cap.Kink {
			t.Fatalf("the last chair of P stands at %v", c.Kind)
		}
		set := r.SetAt(r.Front)
		if c.PackFront != set+in/2 || c.PackRear != set+3*in/8 {
			t.Errorf("lower on run %d: packed %v and %v over a surface at %v", low, c.PackFront, c.PackRear, set)
		}
		other := build(t, open(1-low)).Runs()[0]
		if a, b := c.Rows[1].Edge, other.Chairs[len(other.Chairs)-1].Rows[1].Edge; a != b {
			t.Errorf("the rear row's edge is %v, and with the runs changed over %v", a, b)
		}
	}
}
