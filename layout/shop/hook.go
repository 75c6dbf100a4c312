package shop

import (
	"fmt"
	"math"

	"copingset/layout/cap"
	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/length"
)

// seated is a chair under the cap over it, both laid where they stand, in millimetres:
// x from the street face of the cap, y up from the mold line of its front fold.
type seated struct {
	section, chair fold.Path
	hang, stands   fold.Laid
	mids           []fold.Point // along the middle of the chair's metal
}

// carries reports why a chair does not carry the cap over it: its hook finds nothing to
// catch or comes off it, its drip comes off the chair's kick, or metal of the chair
// stands in metal of the cap. Empty: it does. The chair stands on the set surface, or on
// the membrane over it, where its job has it between the inner faces of both legs.
func (b *partBuilder) carries(inside length.Length, chair fold.Path, before length.Length) string {
	m := b.measures()
	caps := builder{j: b.j, s: b.s, shop: b.shop}
	caps.bend = fold.Bend{Thickness: b.s.Metal.Thickness.MM(), Radius: b.s.Profile.InsideR.MM(), K: b.shop.K}
	wide := (inside + 2*b.s.Metal.Thickness).MM()
	section, err := caps.path(m, wide)
	if err != nil || m.hook == 0 {
		return "" // said of the caps, or there is no hook
	}
	t, fall := section.T, 0.0
	if b.s.Profile.SlopeBy == job.SlopeByPacking {
		fall = m.slope
	}
	// The underside stands the rise over the set surface at the inside of the rear
	// leg, which falls with the packing; what lies between lifts the chair.
	front := cap.ChairLine(b.s).MM()
	seat := -m.slope*(wide-t) + fall*(wide-t-front) - t*math.Hypot(1, m.slope) - b.s.Chair.Rise.MM()
	if b.j.Packing.MembraneOver() {
		seat += b.j.Membrane.Thickness.MM()
	}
	q := seated{section: section, chair: chair, hang: section.Lay(),
		stands: Made{chair, before}.Seated(front, seat, fall).Lay()}
	q.mids = middles(q.stands)
	for _, why := range []func(measures) string{b.catches(q), b.keepsDrip(q), q.apart} {
		if s := why(m); s != "" {
			return s
		}
	}
	return ""
}

// catches reports why the hook does not hold the rear of the chair. What is turned up
// past the level holds a foot that hangs in it, below its end; a level one holds what
// stands over it, as far as it is not pushed off to the roof: the cap goes so far as the
// chair's street-side edge stands from its front leg.
func (b *partBuilder) catches(q seated) func(measures) string {
	return func(m measures) string { // m is of the cap
		tip, foot, top := hookTip(q.section, q.hang), footOf(q.section, q.hang), math.Inf(-1)
		// What of the chair stands over the hook, and how low.
		reach, low := math.Inf(-1), math.Inf(1)
		for _, c := range q.mids {
			reach = math.Max(reach, c.X+q.chair.T/2)
			if c.X > tip {
				low = math.Min(low, c.Y-q.chair.T/2)
			}
		}
		for _, s := range q.hang.Places(chord) {
			for _, c := range both(q.hang.Skins(s)) {
				if s >= foot && c.X < reach {
					top = math.Max(top, c.Y)
				}
			}
		}
		over, play := low-top, b.s.Chair.FrontEdge.MM()
		switch {
		case reach <= tip:
			return "the hook ends " + thin(length.FromMM(tip-reach)) +
				" behind the chair's roof-side edge and catches nothing"
		case math.IsInf(low, 0) || math.IsInf(top, 0): // the skins of both edges touch, and no more
			return "the hook ends at the chair's roof-side edge and catches nothing"
		case over > m.hook:
			return "the lowest metal of the chair over the hook stands " + job.Both(length.FromMM(over)) +
				" above it: the roof-side leg lifts farther than its hook is long before it is held"
		case over > 0 && m.hookTurn > 90:
			return "the hook is turned up, and the chair's lowest metal stands " + thin(length.FromMM(over)) +
				" above its end: the foot does not hang in the hook, which lifts before it is held and comes off it"
		case m.hookTurn <= 90 && reach-tip <= play:
			return "the hook catches " + thin(length.FromMM(reach-tip)) + " of the chair's roof side, and a cap " +
				"pushed against the chair's street-side edge stands " + thin(length.FromMM(play)) +
				" farther to the roof: it comes off"
		}
		return ""
	}
}

// keepsDrip reports why the drip does not hold under a chair that hangs a leg at its
// street side: its kick does not reach over the drip, or comes off it where the cap is
// pushed to the street against the chair's roof-side edge.
func (b *partBuilder) keepsDrip(q seated) func(measures) string {
	return func(m measures) string {
		if m.drip == 0 || !q.hangs() {
			return ""
		}
		front, _ := edges(q.stands)
		holds, play := q.section.T-math.Max(front, dripTip(q.section, q.hang)), b.s.Chair.RearEdge.MM()
		switch {
		case holds <= 0:
			return "the chair's street-side leg has no kick over the cap's drip, and the drip catches nothing"
		case holds <= play:
			return "the chair's kick stands over " + thin(length.FromMM(holds)) + " of the cap's drip, and a cap " +
				"pushed against the chair's roof-side edge stands " + thin(length.FromMM(play)) +
				" farther to the street: it comes off"
		}
		return ""
	}
}

// hangs reports whether the chair has a leg at its street side that hangs below the
// middle of the cap's front leg, as one does that the drip hooks under.
func (q seated) hangs() bool {
	half := -q.section.Stated(q.section.Root-1) / 2
	for i := range q.chair.Root {
		from, to := q.stands.Span(i)
		if f, _ := q.stands.Skins((from + to) / 2); f.Y < half {
			return true
		}
	}
	return false
}

// edges are how far a laid section reaches across, at both skins.
func edges(l fold.Laid) (front, rear float64) {
	front, rear = math.Inf(1), math.Inf(-1)
	for _, q := range l.Ring(chord) {
		front, rear = math.Min(front, q.X), math.Max(rear, q.X)
	}
	return front, rear
}

// apart reports where metal of the chair stands deepest in metal of the cap.
func (q seated) apart(measures) string {
	most, at := bears, 0.0
	for _, c := range middles(q.hang) {
		for _, p := range q.mids {
			if deep := (q.section.T+q.chair.T)/2 - math.Hypot(c.X-p.X, c.Y-p.Y); deep > most {
				most, at = deep, c.X
			}
		}
	}
	if most <= bears {
		return ""
	}
	return fmt.Sprintf("its metal would stand %s in the cap's, %s behind the cap's street-side edge",
		thin(length.FromMM(most)), job.Both(length.FromMM(at)))
}

// atEdges reports where a chair, over its seat, does not reach from the front edge
// to the rear one that the job states; what hangs below may stand out, as a kick
// does. Empty: it does.
func (b *partBuilder) atEdges(inside length.Length, chair fold.Path, before length.Length) string {
	front, rear := cap.ChairLine(b.s).MM(), cap.ChairRear(b.s, inside).MM()
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, q := range (Made{chair, before}).Seated(front, 0, 0).Lay().Ring(chord) {
		if q.Y > -chord {
			lo, hi = math.Min(lo, q.X), math.Max(hi, q.X)
		}
	}
	const most = 1.5
	switch { // a web that nothing lies before, or behind, may stand back from the edge
	case chair.Root > 1 && math.Abs(lo-front) > most || lo < front-most:
		return "its street side stands " + job.Both(length.FromMM(math.Abs(lo-front))) +
			" from the chair's street-side edge as stated"
	case chair.Root+2 < len(chair.Segs) && math.Abs(hi-rear) > most || hi > rear+most:
		return "its roof side stands " + job.Both(length.FromMM(math.Abs(hi-rear))) +
			" from the chair's roof-side edge as stated"
	}
	return ""
}

// bears is how far a chair may stand in the cap it carries, millimetres: half a
// sixty-fourth, which is what outside dimensions are stated to.
const bears = 0.2

func both(a, b fold.Point) [2]fold.Point { return [2]fold.Point{a, b} }

// middles are places along the middle of a section's metal.
func middles(l fold.Laid) []fold.Point {
	var out []fold.Point
	const n = 600
	for k := range n + 1 {
		f, b := l.Skins(l.Path.Girth() * float64(k) / n)
		out = append(out, fold.Point{X: (f.X + b.X) / 2, Y: (f.Y + b.Y) / 2})
	}
	return out
}
