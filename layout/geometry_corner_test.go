package layout_test

import (
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
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

// turned are the pieces of a layout that are not straight.
func turned(l *layout.Layout) []*layout.Piece {
	var out []*layout.Piece
	for _, g := range l.CornerGroups() {
		out = append(out, g...)
	}
	return out
}

// A corner of the sample, by hand from its job file: 13 13/16 in inside and 0.05 in
// metal are 13.9125 in outside, which a square corner takes off each leg's rear; the
// chairs' front edge stands 1/8 in behind the metal, their rear edge 3/16 in before
// the rear leg's; a joint of 3/8 in, a chair of 14 in and a plate of 7 3/4 in stand
// about its middle; the support stands at 0.55 of the miter, on 45 degrees.
func TestCornerPlanByHand(t *testing.T) {
	j, found := job.Read(os.DirFS("../samples"), "rectangle/job.yaml")
	if found.HasErrors() {
		t.Fatal(found)
	}
	l, _ := solved(j)
	all := turned(l)
	i := slices.IndexFunc(all, func(q *layout.Piece) bool { return q.Mark == "N/E" })
	c := l.Corner(all[i])
	left, m := c.Legs[0], c.Miters[0]
	leg := left.Long.Real.Inch() // as long as its chairs ask for
	in := func(x float64) length.Length { return length.FromInches(x) }
	chair := left.Chairs[slices.IndexFunc(left.Chairs, func(k plan.LegChair) bool { return k.Carries })]
	lo, hi := chair.Ring.Bounds()
	joint := c.Joints[0]
	plateLo, plateHi := joint.Plate.Ring.Bounds()
	sup := c.Supports[0]
	for _, k := range []struct {
		what      string
		got, want length.Length
	}{
		{"left leg, rear", left.RearLong.Real, in(leg - 13.9125)},
		{"its left end", left.Ring[0].X - left.To, in(-leg)},
		{"its rear, at the miter", left.Ring[2].X - left.To, in(-13.9125)},
		{"outside", left.Outside.Real, in(13.9125)},
		{"string behind the cap line", c.StringBehind.Real, in(0.175)},
		{"strings cross, along", m.StringAt.X, in(-0.175)},
		{"strings cross, across", m.StringAt.Y, in(0.175)},
		{"chair from the corner point", chair.FromCorner.Real, in(leg + 3./16)},
		{"chair, left edge", lo.X - left.To, in(-(leg + 3./16 + 7))},
		{"chair, right edge", hi.X - left.To, in(-(leg + 3./16 - 7))},
		{"chair, front edge", lo.Y, in(0.175)},
		{"chair, rear edge", hi.Y, in(13.9125 - 0.05 - 3./16)},
		{"gap", joint.Gap.Real, in(3. / 8)},
		{"the next cap begins", joint.Far - left.From, in(-3. / 8)},
		{"plate, left end", plateLo.X - left.From, in(-3./16 - 7.75/2)},
		{"plate, rear edge", plateHi.Y, in(13.9125 - 0.05)},
		{"support back along the run", sup.Back.Real, in(0.55 * 13.9125)},
		{"support in from the cap line", sup.In.Real, in(0.55 * 13.9125)},
		{"rear of the miter, along", m.Rear.X, in(-13.9125)},
		{"rear of the miter, across", m.Rear.Y, in(13.9125)},
		{"end of the right leg, across", c.Outline[2].Y, in(leg)},
	} {
		if length.Abs(k.got-k.want) > 2 {
			t.Errorf("%s: %.5f in, by hand %.5f", k.what, k.got.Inch(), k.want.Inch())
		}
	}
	if m.Turn.Kind != plan.OutsideCorner || m.Turn.Turn != 90*length.Degree || m.Turn.Included != 90*length.Degree || !m.Outside {
		t.Errorf("the corner %v", m.Turn)
	}
}

// 12 in outside width, legs of 30 in. Outside 45 degrees: the rear is
// 12 tan 22.5 = 4.9706 in shorter; inside, longer by as much. Source of the
// tangent: AC 43.13-1B, table 4-7.
func TestCornerRearsByHand(t *testing.T) {
	const in = length.Inch
	for _, c := range []struct {
		turn job.Angle
		trim float64
	}{{45 * job.Degree, 4.9706}, {-45 * job.Degree, -4.9706}, {90 * job.Degree, 12}, {-90 * job.Degree, -12}} {
		p := jobtest.Perimeter("OPEN", job.Open, jobtest.Run("P", 240*in, c.turn), jobtest.Run("Q", 240*in, 0))
		p.Starts, p.Runs[1].Right = job.End{Kind: job.EndFree}, job.End{Kind: job.EndFree}
		j := jobtest.Job()
		j.Perimeters = []job.Perimeter{p}
		j.System.Metal.Thickness = 0
		j.System.Widths = job.Widths{Offered: []length.Length{12 * in, 13 * in}}
		l := build(t, j)
		i := slices.IndexFunc(turned(l), func(q *layout.Piece) bool { return len(q.Miters) > 0 })
		g := l.Corner(turned(l)[i]).Legs[0]
		want := c.trim * g.Outside.Real.Inch() / 12
		if got := (g.To - g.Ring[2].X).Inch(); math.Abs(got-want) > 1e-3 {
			t.Errorf("turn %s: the rear is %.4f in shorter, by hand %.4f", job.FormatAngle(c.turn), got, want)
		}
	}
}

// What a plan of a corner shows stands where the plans of its runs and the facts say.
func TestCornersAgreeWithRunsAndFacts(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		l, found := solved(anyJob(t))
		if found.HasErrors() {
			t.Skip("not a layout")
		}
		led := l.Facts()
		runs := map[string]plan.Run{}
		of := map[string]*layout.Run{}
		for _, r := range l.Runs() {
			runs[layout.FactOfRun(r)], of[layout.FactOfRun(r)] = l.Plan(r), r
		}
		for _, q := range turned(l) {
			c := l.Corner(q)
			for i, g := range c.Legs {
				legAgrees(t, q, c, i, runs[g.Of])
			}
			for _, u := range c.Supports {
				supportAgrees(t, led, runs[c.Legs[u.Miter].Of], u)
			}
			for _, x := range c.Joints {
				jointAgrees(t, led, of[c.Legs[x.Leg].Of], x)
			}
			valuesAreFacts(t, led, c)
			outlineHolds(t, q, c)
		}
	})
}

// legAgrees holds a leg against the plan of its run. A plan lays the legs of a weld
// over a break level, so that their rears reach the weld as the fronts do.
func legAgrees(t *rapid.T, q *layout.Piece, c plan.Corner, leg int, run plan.Run) {
	g := c.Legs[leg]
	i := slices.IndexFunc(run.Pieces, func(p plan.Piece) bool { return p.Mark == q.Mark && p.Front[0].X == g.From })
	if i < 0 {
		t.Fatalf("piece %s has no part on run %s from %v", q.Mark, g.Run, g.From)
	}
	byHand := len(q.Miters) > 2 // on hold, and not drawn
	if p := run.Pieces[i]; !c.Pitched() && !byHand && (!slices.Equal(p.Rear, g.Rear) || p.Front[1] != g.Ring[1]) {
		t.Errorf("piece %s on run %s: front to %v and rear %v, on the run %v and %v", q.Mark, g.Run, g.Ring[1], g.Rear, p.Front[1], p.Rear)
	}
	for _, k := range g.Chairs {
		i := slices.IndexFunc(run.Chairs, func(o plan.Chair) bool { return o.Mark == k.Mark })
		if i < 0 { // a kink's, of the run before
			if leg != 0 || c.Joints[0].Kind != plan.KinkJoint || k.At != 0 {
				t.Errorf("piece %s: chair %s stands on no run of its", q.Mark, k.Mark)
			}
			continue
		}
		if o := run.Chairs[i]; o.At != k.At || !slices.Equal(o.Ring, k.Ring) || !slices.Equal(o.Holes, k.Holes) {
			t.Errorf("piece %s: chair %s stands at %v and %v", q.Mark, k.Mark, k.Ring, o.Ring)
		}
	}
}

func supportAgrees(t *rapid.T, led fact.Ledger, run plan.Run, u plan.CornerSupport) {
	i := slices.IndexFunc(run.Supports, func(o plan.Support) bool { return o.Mark == u.Mark && o.Right })
	if i < 0 || !slices.Equal(run.Supports[i].Ring, u.Ring) {
		t.Errorf("support %s stands at %v, on its run %v", u.Mark, u.Ring, run.Supports)
	}
	var mid plan.Pt
	for _, p := range u.Ring {
		mid.X, mid.Y = mid.X+p.X/4, mid.Y+p.Y/4
	}
	if length.Abs(mid.X-u.Centre.X) > 4 || length.Abs(mid.Y-u.Centre.Y) > 4 {
		t.Errorf("support %s has its middle at %v, not %v", u.Mark, mid, u.Centre)
	}
	if led.Length(u.Mark, "from-corner-along") != -u.Back.Real || u.Centre.Y != u.In.Real {
		t.Errorf("support %s is said to stand elsewhere than %v back and %v in", u.Mark, u.Back.Real, u.In.Real)
	}
}

func jointAgrees(t *rapid.T, led fact.Ledger, r *layout.Run, x plan.CornerJoint) {
	lo, hi := x.Plate.Ring.Bounds()
	if hi.X-lo.X != led.Length(x.Name, "plate-length") {
		t.Errorf("joint %s: its plate is %v long, said to be %v", x.Name, hi.X-lo.X, led.Length(x.Name, "plate-length"))
	}
	if d := length.Abs(lo.X + (hi.X-lo.X)/2 - x.At); d > 1 {
		t.Errorf("joint %s: its plate lies %v off it", x.Name, d)
	}
	if x.Kind != plan.KinkJoint && x.Wide != r.OutsideAt(x.Far) {
		t.Errorf("joint %s: the next cap is drawn %v wide and is %v", x.Name, x.Wide, r.OutsideAt(x.Far))
	}
	if x.Kind != plan.KinkJoint && length.Abs(r.ToCrew(x.At)-led.Length(x.Name, "station")) > 1 {
		t.Errorf("joint %s at %v, said to be at %v", x.Name, r.ToCrew(x.At), led.Length(x.Name, "station"))
	}
}

// valuesAreFacts looks up all that a plan says to be a fact.
func valuesAreFacts(t *rapid.T, led fact.Ledger, c plan.Corner) {
	var all []plan.Value
	for _, g := range c.Legs {
		all = append(all, g.Long, g.RearLong, g.Outside)
		for _, e := range g.Edges {
			all = append(all, e.Long)
		}
	}
	for _, d := range c.Dims {
		all = append(all, d.Value)
		if long := d.To.X - d.From.X; d.Of != plan.RearOf && length.Abs(long) != d.Real {
			t.Errorf("piece %s: %v is lettered of what is %v long", c.Mark, d.Real, long)
		}
	}
	for _, x := range c.Joints {
		all = append(all, x.Gap)
	}
	for _, u := range c.Supports {
		all = append(all, u.In, u.Packing)
	}
	for _, m := range c.Miters {
		all = append(all, m.Arrive.Beyond, m.Arrive.Out, m.Leave.Beyond, m.Leave.Out, m.Over.Trim)
		all = append(append(all, m.Over.Fold[:]...), m.Over.RearFoot[:]...)
	}
	for _, e := range c.Ends {
		all = append(all, e.Clear, e.Upstand)
	}
	all = append(all, c.StringBehind, c.SpliceTape, c.SupportSize[0], c.SupportSize[1], c.Tee.Crew[0], c.Tee.Crew[1], c.Tee.Drop)
	x := c.Taper
	all = append(all, x.Wide[0], x.Wide[1], x.Narrow[0], x.Narrow[1], x.Inside[0], x.Inside[1], x.Long, x.Leg, x.FrontRises, x.RearFalls)
	for _, v := range all {
		i := slices.IndexFunc(led, func(f fact.Fact) bool { return f.Name() == v.Fact })
		if v.Fact != "" && (i < 0 || led[i].Length() != v.Real) {
			t.Errorf("piece %s: %v is not the fact %s", c.Mark, v.Real, v.Fact)
		}
	}
}

// outlineHolds holds the ring of a piece against the lengths it is cut to: it is as
// long round as they and its ends.
func outlineHolds(t *rapid.T, q *layout.Piece, c plan.Corner) {
	for i := range c.Legs {
		if i == 0 || c.Kind == plan.Branching {
			continue
		}
		last, g := c.Legs[i-1], c.Legs[i]
		for k := range 2 { // neighbours share their miter
			a, b := last.Place(last.Ring[k+1]), g.Place(g.Ring[3*k])
			if math.Hypot((a.X-b.X).MM(), (a.Y-b.Y).MM()) > 1e-4 {
				t.Errorf("piece %s: legs %d and %d do not meet at the miter: %v and %v", q.Mark, i-1, i, a, b)
			}
		}
	}
	if c.Kind == plan.Branching || c.Kind == plan.Tapering {
		return
	}
	around, want := 0.0, 0.0
	for i, p := range c.Outline {
		o := c.Outline[(i+1)%len(c.Outline)]
		around += math.Hypot((p.X - o.X).MM(), (p.Y - o.Y).MM())
	}
	for i, g := range c.Legs {
		rear := q.RearLength(i)
		for side, k := range []int{i, i - 1} {
			if k >= 0 && k < len(q.Miters) && q.Miters[k].Corner.Straight() {
				rear += q.Miters[k].Trim[side]
			}
		}
		if rear < 0 { // on hold; the ring crosses itself
			rear = -rear
		}
		want += (g.Long.Real + rear).MM()
	}
	want += (c.Legs[0].Outside.Real + c.Legs[len(c.Legs)-1].Outside.Real).MM()
	if math.Abs(around-want) > 1e-3 {
		t.Errorf("piece %s is %.4f mm round, by its lengths %.4f", q.Mark, around, want)
	}
}

// A mirrored job has the mirrored plans: all that they draw lies in the mirror.
func TestCornerPlansMirror(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		j := anyJob(t)
		a, found := solved(j)
		b, twins := solved(mirror(j))
		if found.HasErrors() || twins.HasErrors() {
			t.Skip("not a layout")
		}
		image := map[string][]mark{}
		for _, q := range turned(b) {
			c := b.Corner(q)
			image[place(b, q, true)] = marks(c, true)
		}
		for _, q := range turned(a) {
			if len(q.Miters) > 2 {
				continue // on hold, and detailed by hand: its sheet has no plan
			}
			x, y := marks(a.Corner(q), false), image[place(a, q, false)]
			if more := unlike(x, y); len(x) != len(y) || more != "" {
				t.Fatalf("piece %s, %d marks and %d in the mirror:\n%s", q.Mark, len(x), len(y), more)
			}
		}
	})
}

// place tells pieces of a layout apart, alike in the mirror.
func place(l *layout.Layout, q *layout.Piece, flip bool) string {
	var on []string
	for _, p := range q.Parts {
		from, to := p.From, p.To
		if flip {
			from, to = p.Run.Cap-p.To, p.Run.Cap-p.From
		}
		on = append(on, fmt.Sprintf("%s/%s %d..%d", p.Run.Perimeter.Job.Name, p.Run.Name, from, to))
	}
	slices.Sort(on)
	return fmt.Sprint(q.Kind, on)
}

// mark is a place of a plan in the frame of its left end, or in the mirror of its
// right end: along and behind in millimetres.
type mark struct {
	of            string
	along, behind float64
}

func marks(c plan.Corner, flip bool) []mark {
	g := c.Legs[0]
	if flip && c.Kind != plan.Branching {
		g = c.Legs[len(c.Legs)-1]
	}
	ux, uy := plan.Direction(g.Heading)
	var out []mark
	add := func(of string, ps ...plan.Pt) {
		for _, p := range ps {
			x, y := (p.X - g.At.X).MM(), (p.Y - g.At.Y).MM()
			along, behind := x*ux+y*uy, y*ux-x*uy
			if math.Abs(along) > 4e5 || math.Abs(behind) > 4e5 {
				continue // beyond what is shown
			}
			if flip {
				along = (g.To - g.From).MM() - along
			}
			out = append(out, mark{of, along, behind})
		}
	}
	kink := slices.ContainsFunc(c.Joints, func(j plan.CornerJoint) bool { return j.Kind == plan.KinkJoint })
	add("outline", c.Outline...)
	if c.Kind == plan.Branching {
		add("seam", c.Tee.Seam[:]...)
	}
	for i, k := range c.Legs {
		on := func(ps []plan.Pt) (q []plan.Pt) {
			for _, p := range ps {
				q = append(q, k.Place(p))
			}
			return q
		}
		add("street", on(k.Face.Street)...)
		add("roof", on(k.Face.Roof)...)
		add("string", on(k.String)...)
		for _, h := range k.Chairs {
			if !kink { // a kink's belongs to the arriving run, which is the other one in the mirror
				add("chair", on(h.Ring)...)
				add("hole", on(h.Holes)...)
			}
		}
		for _, x := range c.Joints {
			if x.Leg == i && !kink {
				add("plate", on(x.Plate.Ring)...)
			}
		}
		for _, u := range c.Supports {
			if u.Miter == i {
				add("support", on(u.Ring)...)
			}
		}
		if i < len(c.Miters) {
			m := c.Miters[i]
			add("miter", m.Front, m.Rear)
			add("string corner", k.Place(plan.Pt{X: k.To + m.StringAt.X, Y: m.StringAt.Y}))
		}
	}
	return out
}

// unlike lists what only one of two lists has, to two micrometres.
func unlike(a, b []mark) string {
	var out []string
	in := func(m mark, all []mark) bool {
		return slices.ContainsFunc(all, func(o mark) bool {
			return m.of == o.of && math.Abs(m.along-o.along) < 2e-3 && math.Abs(m.behind-o.behind) < 2e-3
		})
	}
	for _, m := range a {
		if !in(m, b) {
			out = append(out, fmt.Sprintf("only here %v", m))
		}
	}
	for _, m := range b {
		if !in(m, a) {
			out = append(out, fmt.Sprintf("only in the mirror %v", m))
		}
	}
	return strings.Join(out, "\n")
}

// The wall of a closed end stops where the cap's line says, and a higher wall begins
// there: not nearer than the job asks, and on the tape less than a step farther.
func TestCornerPlansOfEnds(t *testing.T) {
	ends := 0
	draws.CheckLayouts(t, func(t *rapid.T) {
		l, found := solved(jobtest.Random(t))
		if found.HasErrors() {
			t.Skip("not a layout")
		}
		metal := l.Job.System.Metal.Thickness
		for _, q := range turned(l) {
			c := l.Corner(q)
			for i, e := range c.Ends {
				if e.Kind == plan.Jointed {
					continue
				}
				ends++
				g := c.Legs[i*(len(c.Legs)-1)]
				street, roof := g.Face.Street[0], g.Face.Roof[0]
				clear := e.Wall - g.From
				if i == 1 {
					street, roof = g.Face.Street[len(g.Face.Street)-1], g.Face.Roof[len(g.Face.Roof)-1]
					clear = g.To - e.Wall
				}
				if e.Kind == plan.AgainstEnd {
					clear = -clear
				} else {
					clear -= metal
				}
				swing := length.FromMM(q.Parts[0].Run.WidthMost.MM() * 0.05)
				if str := g.String; i == 0 && str[0].X != g.From || i == 1 && str[len(str)-1].X != g.To {
					t.Errorf("piece %s: its string ends at %v beside an end at %v or %v", q.Mark, str, g.From, g.To)
				}
				if street.X != e.Wall || roof.X != e.Wall || clear < e.Clear.Real || clear >= e.Clear.Real+l.Grid+swing {
					t.Errorf("piece %s: the wall at its end stands at %v and %v, %v clear where %v is asked", q.Mark, street, roof, clear, e.Clear.Real)
				}
			}
		}
	})
	if ends == 0 {
		t.Error("no closed end was drawn")
	}
}

// Over a break of slope both rear legs are as long at fold and foot as the shop makes
// them, go out at their slopes, and meet in one line from fold to foot.
func TestCornerPlansOfBreaks(t *testing.T) {
	const in = length.Inch
	for _, rise := range []job.Slope{100_000_000, -100_000_000} { // of the middle run
		p := jobtest.Perimeter("GABLE", job.Open, jobtest.Run("P", 300*in, 0), jobtest.Run("Q", 300*in, 0))
		p.Starts, p.Runs[1].Right = job.End{Kind: job.EndFree}, job.End{Kind: job.EndFree}
		p.Runs[0].Right = job.End{Kind: job.EndPitch, Pitch: job.Peak}
		if rise < 0 {
			p.Runs[0].Right.Pitch = job.Valley
		}
		for i := range p.Runs {
			for k := range p.Runs[i].Readings {
				q := &p.Runs[i].Readings[k]
				x := q.Station
				if i == 0 {
					x = p.Runs[0].Length - x
				}
				q.TopOutside, q.TopInside = -rise.Rise(x), -rise.Rise(x)
			}
			p.Runs[i].Grade = &job.Grade{Most: 150_000_000}
		}
		j := jobtest.Job()
		j.System.PitchMiter = job.PitchMiter{Leg: 30 * in, ChangeMost: 40 * job.Degree}
		j.Perimeters = []job.Perimeter{p}
		l := build(t, j)
		i := slices.IndexFunc(turned(l), func(q *layout.Piece) bool { return q.Kind == cap.PitchMiter })
		if i < 0 {
			t.Fatalf("no pitch miter: %v", l.Findings)
		}
		c := l.Corner(turned(l)[i])
		o := c.Miters[0].Over
		long := func(a, b plan.Pt) float64 { return math.Hypot((a.X - b.X).MM(), (a.Y - b.Y).MM()) }
		for k, ring := range o.Legs {
			if fold, foot := long(ring[0], ring[1]), long(ring[2], ring[3]); math.Abs(fold-o.Fold[k].Real.MM()) > 1e-4 || math.Abs(foot-o.RearFoot[k].Real.MM()) > 1e-4 {
				t.Errorf("leg %d: fold %.4f and foot %.4f mm, made %.4f and %.4f", k, fold, foot, o.Fold[k].Real.MM(), o.RearFoot[k].Real.MM())
			}
			if up := ring[1].Y < ring[0].Y; up != (o.Incline[k] > 0) || up != (rise < 0) {
				t.Errorf("leg %d goes out %v at %s", k, ring[:2], job.FormatAngle(o.Incline[k]))
			}
		}
		if long(o.Legs[0][3], o.Legs[1][3]) > 1e-2 { // inclines are rounded to a hundredth of a degree each
			t.Errorf("the feet meet at %v and %v", o.Legs[0][3], o.Legs[1][3])
		}
		if peak := c.Miters[0].Break == plan.Peak; peak != (rise > 0) {
			t.Errorf("a rise of %v is a %v", rise, c.Miters[0].Break)
		}
	}
}

// A tee's branch lies square to its main, its two sides where its facts say.
func TestCornerPlanOfATee(t *testing.T) {
	const in = length.Inch
	for _, of := range []job.TeeFace{job.TeeLeft, job.TeeRight} {
		l := build(t, jobtest.Cross(600*in, 300*in, 240*in, of))
		for _, q := range turned(l) {
			if q.Kind != cap.Tee {
				continue
			}
			c := l.Corner(q)
			main, stub := c.Legs[0], c.Legs[1]
			lo, hi := plan.Ring(c.Tee.Seam[:]).Bounds()
			if lo.Y != main.Outside.Real || hi.Y != main.Outside.Real || hi.X-lo.X != stub.Outside.Real {
				t.Errorf("tee %s: its stub is welded from %v to %v", q.Mark, lo, hi)
			}
			if got := [2]length.Length{main.From + lo.X, main.From + hi.X}; got != q.Tee.Edge {
				t.Errorf("tee %s: the branch stands at %v, not %v", q.Mark, got, q.Tee.Edge)
			}
			// The wall under the branch is 12 in wide and runs on into the main's roof face.
			if wide := main.Opening[1] - main.Opening[0]; wide != 12*in || main.Opening[0] <= q.Tee.Edge[0] || main.Opening[1] >= q.Tee.Edge[1] {
				t.Errorf("tee %s: the main's wall is open from %v to %v", q.Mark, main.Opening[0], main.Opening[1])
			}
			end := stub.Face.Street[0]
			if !c.Tee.Starts {
				end = stub.Face.Street[len(stub.Face.Street)-1]
			}
			if at := stub.Place(end); at.Y != main.Middle[1] {
				t.Errorf("tee %s: the branch's wall begins %v behind the cap line, the main's ends at %v", q.Mark, at.Y, main.Middle[1])
			}
		}
	}
}
