package shop

import (
	"fmt"
	"math"

	"copingset/layout/cap"
	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/length"
)

// carries reports why a chair does not carry the cap over it: its hook finds
// nothing to catch, or metal of the chair stands in metal of the cap. Empty: it
// does. The chair stands on the set surface, or on the membrane over it, where its
// job has it between the inner faces of both legs.
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
	hang, stands := section.Lay(), Made{chair, before}.Seated(front, seat, fall).Lay()
	tip, foot, top := hookTip(section, hang), footOf(section, hang), math.Inf(-1)
	places := hang.Places(chord)
	// What of the chair stands over the hook, and how low.
	reach, low := math.Inf(-1), math.Inf(1)
	mids := middles(stands)
	for _, q := range mids {
		reach = math.Max(reach, q.X+chair.T/2)
		if q.X > tip {
			low = math.Min(low, q.Y-chair.T/2)
		}
	}
	for _, s := range places {
		for _, q := range both(hang.Skins(s)) {
			if s >= foot && q.X < reach {
				top = math.Max(top, q.Y)
			}
		}
	}
	switch {
	case reach <= tip:
		return "the hook ends " + thin(length.FromMM(tip-reach)) + " behind the chair's rear edge and catches nothing"
	case math.IsInf(low, 0) || math.IsInf(top, 0): // the skins of both edges touch, and no more
		return "the hook ends at the chair's rear edge and catches nothing"
	case low-top > m.hook:
		return "the lowest metal of the chair over the hook stands " + job.Both(length.FromMM(low-top)) +
			" above it: the rear leg lifts farther than its hook is long before it is held"
	}
	for _, c := range middles(hang) {
		for _, q := range mids {
			if deep := (t+chair.T)/2 - math.Hypot(c.X-q.X, c.Y-q.Y); deep > bears {
				return fmt.Sprintf("its metal would stand %s in the cap's, %s behind the cap's front edge",
					thin(length.FromMM(deep)), job.Both(length.FromMM(c.X)))
			}
		}
	}
	return ""
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
		return "its front stands " + job.Both(length.FromMM(math.Abs(lo-front))) +
			" from the chair's front edge as stated"
	case chair.Root+2 < len(chair.Segs) && math.Abs(hi-rear) > most || hi > rear+most:
		return "its rear stands " + job.Both(length.FromMM(math.Abs(hi-rear))) + " from the chair's rear edge as stated"
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
