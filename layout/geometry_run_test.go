package layout_test

import (
	"fmt"
	"slices"
	"testing"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/fact"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"
	"copingset/layout/plan"

	"pgregory.net/rapid"
)

// said is one value of a run's plan, by what it is.
type said struct {
	what string
	is   length.Length
}

// told lists what a run's plan holds from one hand to the other, as its mirror
// would be if flip. Marks, stations from the start mark and laying numbers follow
// the order of stations and are no mirrors.
type told struct {
	p    plan.Run
	flip bool
	all  []said
}

func (d *told) put(what string, v ...length.Length) {
	for i, x := range v {
		d.all = append(d.all, said{fmt.Sprintf("%s/%d", what, i), x})
	}
}

func (d *told) x(at length.Length) length.Length {
	if d.flip {
		return d.p.Cap.Real - at
	}
	return at
}

// line is a line or an outline, from its least station on.
func (d *told) line(what string, of []plan.Pt) {
	out := slices.Clone(of)
	if d.flip {
		slices.Reverse(out)
	}
	for i, q := range out {
		d.put(fmt.Sprintf("%s, point %d", what, i), d.x(q.X), q.Y)
	}
}

// corners are those of an outline in no order.
func (d *told) corners(what string, of plan.Ring) {
	out := make([]plan.Pt, len(of))
	for i, q := range of {
		out[i] = plan.Pt{X: d.x(q.X), Y: q.Y}
	}
	slices.SortFunc(out, func(a, b plan.Pt) int {
		if d := a.X - b.X; d > 2 || d < -2 {
			return int(d / length.Length(max(1, int64(length.Abs(d)))))
		}
		return int((a.Y - b.Y) / max(1, length.Abs(a.Y-b.Y)))
	})
	for i, q := range out {
		d.put(fmt.Sprintf("%s, corner %d", what, i), q.X, q.Y)
	}
}

func number(b bool) length.Length {
	if b {
		return 1
	}
	return 0
}

// in order are the numbers of n things from the left hand of what is told.
func (d *told) inOrder(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
		if d.flip {
			out[i] = n - 1 - i
		}
	}
	return out
}

func (d *told) hand(h plan.Hand) length.Length {
	if d.flip && h != plan.NoHand {
		h = plan.LeftHand + plan.RightHand - h
	}
	return length.Length(h)
}

func (d *told) end(what string, e plan.End) {
	d.put(what, length.Length(e.Kind), e.Trim, number(e.Corner), number(e.Outside), number(e.Roofward), number(e.Streetward), number(e.Absorb), e.Offset.Beyond.Real, e.Offset.Out.Real)
	for i, line := range e.Stub { // from the miter outwards at either end
		for k, q := range line {
			d.put(fmt.Sprintf("%s, stub %d, point %d", what, i, k), d.x(q.X), q.Y)
		}
	}
}

func (d *told) stretch(from, to length.Length) []length.Length {
	a, b := d.x(from), d.x(to)
	return []length.Length{length.Min(a, b), length.Max(a, b)}
}

func (d *told) run() []said {
	p := d.p
	left, right := p.Left, p.Right
	if d.flip {
		left, right = right, left
	}
	d.end("left", left)
	d.end("right", right)
	d.put("widths", p.Inside, p.Outside, p.Cap.Real, p.Front.Real, p.Pinch.Play.Real)
	d.put("front", d.stretch(p.FrontFrom, p.FrontTo)...)
	for _, line := range []struct {
		what string
		of   []plan.Pt
	}{{"rear line", p.RearLine}, {"street", p.Street}, {"roof", p.Roof}, {"read", p.Read}, {"string", p.String},
		{"top at the street", p.Elevation.Street}, {"top at the roof", p.Elevation.Roof}, {"set at the street", p.Elevation.SetStreet}, {"set", p.Elevation.SetRoof}} {
		d.line(line.what, line.of)
	}
	d.put("laid towards", d.hand(p.Toward))
	d.put("heights", p.Elevation.Top, p.Elevation.Low, p.Elevation.Rise)
	for n, i := range d.inOrder(len(p.Pieces)) {
		d.piece(fmt.Sprintf("piece %d", n), p.Pieces[i], p.Elevation.Legs[i])
	}
	for n, i := range d.inOrder(len(p.Joints)) {
		j, what := p.Joints[i], fmt.Sprintf("joint %d", n)
		d.put(what, d.stretch(j.From, j.To)...)
		d.put(what+" is", length.Length(j.Kind), d.x(j.Centre), j.Gap.Real, j.WallGap, j.Movement.Real, number(j.Moves), j.Outside, d.hand(j.Held))
		d.corners(what, j.Plate)
	}
	for n, i := range d.inOrder(len(p.Chairs)) {
		d.chair(fmt.Sprintf("chair %d", n), p.Chairs[i])
	}
	for n, i := range d.inOrder(len(p.WindZones)) {
		z := p.WindZones[i]
		d.put(fmt.Sprintf("zone %d", n), append(d.stretch(z.From, z.To), number(z.Corner))...)
	}
	for n, i := range d.inOrder(len(p.BuildUps)) {
		z := p.BuildUps[i]
		d.put(fmt.Sprintf("build-up %d", n), append(d.stretch(z.From, z.To), length.Length(z.Plies), z.FrontLeast, z.FrontMost, z.RearLeast, z.RearMost)...)
	}
	for n, i := range d.inOrder(len(p.Obstacles)) {
		o := p.Obstacles[i]
		d.put(fmt.Sprintf("obstacle %d", n), d.x(o.At), number(o.BlocksChair), number(o.BlocksJoint), number(o.Pierces))
		d.corners(fmt.Sprintf("obstacle %d", n), o.Ring)
	}
	for n, i := range d.inOrder(len(p.Gaps)) {
		d.corners(fmt.Sprintf("gap %d", n), p.Gaps[i].Ring)
	}
	return d.all
}

func (d *told) piece(what string, q plan.Piece, leg plan.RearLeg) {
	left, right := q.Left, q.Right
	if d.flip {
		left, right = right, left
	}
	d.put(what, d.stretch(q.From, q.To)...)
	d.put(what+" is", length.Length(q.Kind), q.Long.Real, left.Trim, right.Trim, number(left.Here), number(right.Here), number(q.Pitched),
		number(q.Held), length.Length(q.Persons), q.Allowance, d.hand(q.CutAt))
	d.line(what+", front", q.Front)
	d.line(what+", rear", q.Rear)
	d.line(what+", fold", leg.Fold)
	d.line(what+", foot", leg.Foot)
}

func (d *told) chair(what string, c plan.Chair) {
	d.put(what, d.x(c.At), c.Set, c.UnderFront.Real, c.UnderRear.Real, c.StringToWall.Real, length.Length(c.Plies), c.Inside, number(c.First), number(c.AlongPiece))
	d.put(what+", packing", c.Front.Thick.Real, c.Front.Built, c.Rear.Thick.Real, c.Rear.Built)
	d.put(what+", shims front", c.Front.Shims...)
	d.put(what+", shims rear", c.Rear.Shims...)
	for i, w := range c.Rows {
		d.put(fmt.Sprintf("%s, row %d", what, i), length.Length(w.Count), w.Length, w.Pilot, w.Behind)
	}
	d.corners(what, c.Ring)
	d.corners(what+" from the roof", c.Side)
	for row, at := 0, 0; row < 2; row++ {
		n := c.Rows[row].Count
		d.line(fmt.Sprintf("%s, holes %d", what, row), c.Holes[at:at+n])
		at += n
	}
}

// kinked says that a joint of a run lies over a kink: it and its chair belong to the
// run that arrives there, which is the other one in the mirror.
func kinked(p plan.Run) bool {
	return p.Left.Absorb || p.Right.Absorb || slices.ContainsFunc(p.Joints, func(j plan.Joint) bool { return j.Kind == plan.KinkJoint })
}

// The plan of a run of a mirrored job is the mirror of its plan, to the two
// nanometres that halves may lose.
func TestPlanOfARunMirrors(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		j := jobtest.Random(t)
		a, found := solved(j)
		if found.HasErrors() {
			t.Skip("not a layout")
		}
		b, _ := solved(mirror(j))
		for i, p := range a.Perimeters {
			q := b.Perimeters[i]
			for k, r := range p.Runs {
				one, other := told{p: a.Plan(r)}, told{p: b.Plan(q.Runs[len(p.Runs)-1-k]), flip: true}
				if kinked(one.p) {
					continue
				}
				x, y := one.run(), other.run()
				if len(x) != len(y) {
					t.Fatalf("run %s has %d values, its mirror %d", r.Name, len(x), len(y))
				}
				for n := range x {
					if d := x[n].is - y[n].is; x[n].what != y[n].what || d > 2 || d < -2 {
						t.Errorf("run %s: %s is %v, in the mirror %s %v", r.Name, x[n].what, x[n].is, y[n].what, y[n].is)
					}
				}
			}
		}
	})
}

// agreed holds what a run's plan letters against a ledger.
type agreed struct {
	*rapid.T
	facts map[string]fact.Fact
}

func (t agreed) agree(of string, all ...plan.Value) {
	for _, v := range all {
		f, ok := t.facts[v.Fact]
		if !ok || f.Length() != v.Real {
			t.Errorf("%s is %v, its fact %q %v", of, v.Real, v.Fact, f.Value)
		}
	}
}

// What a run's plan letters is what its facts say, each under its name.
func TestPlanOfARunAgreesWithItsFacts(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		l, found := solved(anyJob(t))
		if found.HasErrors() {
			t.Skip("not a layout")
		}
		g := agreed{t, map[string]fact.Fact{}}
		for _, f := range l.Facts() {
			g.facts[f.Name()] = f
		}
		for _, r := range l.Runs() {
			p := l.Plan(r)
			g.line(r, p)
			g.stood(p)
			g.laid(p)
		}
	})
}

// line agrees on lines, widths, the ends and the string.
func (t agreed) line(r *layout.Run, p plan.Run) {
	v := p.Line
	t.agree("run "+r.Name, p.Cap, p.Front, p.Datum.Begins, v.WidthLeast, v.WidthMost, v.Need, v.NeedAt, v.Inside, v.Outside,
		v.PlayLeast, v.PlayMost, v.PackLeast, v.PackMost)
	for i, k := range v.Tapers {
		t.agree("taper", k.From, k.To)
		if k.Left.Real != r.Tapers[i].Left || k.Right.Real != r.Tapers[i].Right {
			t.Errorf("run %s tapers from %v to %v", r.Name, k.Left, k.Right)
		}
	}
	for _, e := range []plan.End{p.Left, p.Right} {
		if e.Offset.Run != "" {
			t.agree("an offset", e.Offset.Beyond, e.Offset.Out)
		}
	}
	if e := p.Elevation; !e.Slopes {
		t.agree("the set surface", e.Left, e.Right)
	}
	if p.ToWall.Here {
		t.agree("string to wall", p.ToWall.Left, p.ToWall.Right, p.ToWall.Most, p.ToWall.MostAt)
		if p.Pinch.Station.Fact != "" {
			t.agree("the pinch", p.Pinch.Station)
		}
		if p.Pinch.Play.Real != t.facts[layout.Named(layout.FactOfRun(r), "play-least")].Length() {
			t.Errorf("run %s: play at the pinch %v, least %v", r.Name, p.Pinch.Play.Real, r.PlayLeast)
		}
	}
	for _, n := range p.Notes {
		t.agree("a reading", n.Station)
		if n.Words != "" && t.facts[n.Fact].Value != n.Words {
			t.Errorf("a note says %q, its fact %q", n.Words, t.facts[n.Fact].Value)
		}
	}
}

// stood agrees on chairs and obstacles.
func (t agreed) stood(p plan.Run) {
	for _, c := range p.Chairs {
		t.agree(c.Mark, c.Station, c.Front.Thick, c.Rear.Thick, c.StringToWall, c.UnderFront, c.UnderRear)
		if at := p.ToCrew(c.At); at != c.Station.Real {
			t.Errorf("chair %s stands at %v and at %v", c.Mark, at, c.Station.Real)
		}
	}
	for _, o := range p.Obstacles {
		for _, name := range fact.Parted(o.Fact) {
			if _, ok := t.facts[name]; !ok {
				t.Errorf("obstacle %s has no fact %q", o.Mark, name)
			}
		}
	}
}

// laid agrees on joints and pieces.
func (t agreed) laid(p plan.Run) {
	for _, j := range p.Joints {
		t.agree(j.Mark, append(j.GapAt, j.Station, j.Gap)...)
		if j.Moves && j.Kind == plan.ExpansionJoint {
			t.agree(j.Mark, j.Movement)
		}
	}
	for _, q := range p.Pieces {
		if q.Long.Fact != "" {
			t.agree(q.Mark, q.Long)
		}
		if t.facts[q.MarkFact].Value != q.Mark || q.LaidWith == "" && t.facts[q.LayingFact].Value != fmt.Sprint(q.Laying) {
			t.Errorf("piece %s, laid as %d: its facts say %q and %q", q.Mark, q.Laying, t.facts[q.MarkFact].Value, t.facts[q.LayingFact].Value)
		}
	}
}

// The order of work of a mirrored run has the same steps, and its string is pulled
// between the mirrors of the same chairs.
func TestOrderOfWorkMirrors(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		j := jobtest.Random(t)
		a, found := solved(j)
		if found.HasErrors() {
			t.Skip("not a layout")
		}
		b, _ := solved(mirror(j))
		for i, p := range a.Perimeters {
			for k, r := range p.Runs {
				other := b.Perimeters[i].Runs[len(p.Runs)-1-k]
				pa, pb := a.Plan(r), b.Plan(other)
				if kinked(pa) {
					continue
				}
				x, y := a.Work(r, pa), b.Work(other, pb)
				if !slices.Equal(x.Steps, y.Steps) || x.Packed != y.Packed || x.Supports != y.Supports || x.Below != y.Below || x.Joint.Kind != y.Joint.Kind || x.Closer.Allowance != y.Closer.Allowance {
					t.Errorf("run %s: steps %v, in the mirror %v", r.Name, x.Steps, y.Steps)
				}
				if x.Cut.FoldFront != y.Cut.FoldFront && pa.Line.Tapers == nil {
					t.Errorf("run %s: fold %v, in the mirror %v", r.Name, x.Cut.FoldFront, y.Cut.FoldFront)
				}
			}
		}
	})
}

// A chair's underside stands over the wall top by its packing, as lettered: to half
// a step of the sheets, and where nothing is to be packed not below it. Of the two walls
// under a kink's chair the lower counts.
func TestUndersidesStandOnTheirPacking(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		l, found := solved(anyJob(t))
		if found.HasErrors() {
			t.Skip("not a layout")
		}
		for _, r := range l.Runs() {
			if len(r.Readings) == 0 {
				continue
			}
			for i, c := range l.Plan(r).Chairs {
				q := r.At(r.ToFront(c.At))
				over := [2]length.Length{c.UnderFront.Real - q.TopOutside, c.UnderRear.Real - q.TopInside}
				if j := r.Chairs[i].Joint; j != nil && j.Kind == cap.Kink {
					beyond := r.Right.Corner.Leave.At(0)
					over = [2]length.Length{length.Max(over[0], beyond.PackFront), length.Max(over[1], beyond.PackRear)}
				}
				for _, e := range []struct {
					face         string
					over, packed length.Length
				}{{"street", over[0], c.Front.Thick.Real}, {"roof", over[1], c.Rear.Thick.Real}} {
					if d := e.over - e.packed; 2*length.Abs(d) > l.Grid+4 && (e.packed > 0 || d > 0) {
						t.Errorf("chair %s, %s face: %v over the wall top, packing %v", c.Mark, e.face, e.over, e.packed)
					}
				}
			}
		}
	})
}

// A surveyor's note stands at its station, conditions with it.
func TestNotesStandAtTheirStations(t *testing.T) {
	j := jobtest.Job()
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*length.Inch, 240*length.Inch)}
	q := &j.Perimeters[0].Runs[0].Readings[2]
	q.Note, q.Conditions = "block rocks; reset before packing", []job.Condition{job.Loose}
	l, _ := solved(j)
	r := l.Runs()[0]
	p := l.Plan(r)
	if len(p.Notes) != 1 {
		t.Fatalf("%d notes", len(p.Notes))
	}
	n := p.Notes[0]
	if n.Words != q.Note || n.At != r.ToCap(r.Readings[2].Station) || n.Station.Real != r.ToCrew(n.At) || !slices.Equal(n.Conditions, []string{string(job.Loose)}) {
		t.Errorf("%+v", n)
	}
	if other := l.Plan(l.Runs()[1]).Notes; len(other) != 0 {
		t.Errorf("another run has %+v", other)
	}
}
