package layout

import (
	"fmt"
	"math"
	"strings"

	"copingset/layout/fact"
	"copingset/layout/length"
	"copingset/layout/plan"
	"copingset/layout/shop"
)

// ofShop is what the job's shop bends and joins by.
func (b *facts) ofShop() {
	s := b.l.Job.Shop
	if s == nil {
		return
	}
	b.about(fact.Job, "shop")
	b.number("k-factor", s.K)
	b.said("k-source", s.KSource)
	b.number("nil-deduction-degrees", b.l.NilTurn())
	b.length("weld-gap", s.WeldGap)
	b.length("least-drop", s.LeastDrop)
	b.some("relief-diameter", s.Relief.Diameter)
	b.some("relief-width", s.Relief.Width)
	b.some("relief-depth", s.Relief.Depth)
	b.said("film", s.Film)
	q := s.Seam
	if q == nil {
		return
	}
	b.words("seam-process", q.Process.String())
	b.said("seam-backer", q.Backer)
	b.yes("seam-finished-after", q.After)
	b.said("seam-bare", q.Bare)
	b.some("seam-cut-back", q.CutBack)
	if q.Lap != nil {
		b.length("lap-width", q.Lap.Width)
	}
	if v := q.Rivets; v != nil {
		b.length("rivets-diameter", v.Diameter)
		b.length("rivets-edge", v.Edge)
		b.length("rivets-pitch", v.Pitch)
	}
}

// FactOfTrial is what the facts of a trial strip are of, counted from nought.
func FactOfTrial(i int) string { return fmt.Sprintf("trial strip %d", i+1) }

// ofTrials are the strips that tell how much metal a bend takes up.
func (b *facts) ofTrials() {
	for i, t := range b.l.Trials() {
		b.about(fact.Make, FactOfTrial(i))
		b.count("number", i+1)
		b.number("turns-by-degrees", t.Turn)
		b.number("included-degrees", 180-t.Turn)
		b.length("length", t.Length)
		b.length("line", t.Line)
		b.length("leg", t.Leg)
		b.length("deduction", t.Deduction)
		b.yes("to-tangent", t.Tangent)
		b.words("of", strings.Join(t.Of, "; "))
		if t.Stated {
			b.length("deduction-stated", t.StatedDeduction)
			b.words("strip-stated", t.StatedStrip)
		}
	}
}

// cutKey is a body of a family or of a part.
type cutKey struct {
	of   any
	body int
}

// cutFiles are the files that bodies are cut by.
func (l *Layout) cutFiles() map[cutKey]string {
	out := map[cutKey]string{} // look-up only
	files, _ := l.MachineFiles()
	for _, c := range files {
		if c.Part != nil {
			out[cutKey{c.Part, 0}] = c.Name
		} else {
			out[cutKey{c.Family, c.Body}] = c.Name
		}
	}
	return out
}

// ofMadeBodies are the bodies of a family as outside programs need them to fold what
// is cut: legs, widths and front fold at both ends.
func (b *facts) ofMadeBodies(f *Family) {
	s := &b.l.Job.System
	p := f.Pieces[0]
	for i, x := range f.Bodies {
		k := fmt.Sprintf("body-%d-", i+1)
		left, right := b.l.MadeInside(f, i)
		b.length(k+"inside-left", left)
		b.length(k+"inside-right", right)
		b.slope(k+"slope", p.Parts[LegOf(f, i)].Slope(s))
		b.slope(k+"face-1-slope", p.Parts[LegOf(f, i)].Slope(s)) // as its root letters it
		b.length(k+"front-fold", b.l.MadeFront(f, i)+p.Allowance)
		b.ofMadeEnds(f, i, k)
		if x.Metal != nil {
			for n, d := range Deductions(x) {
				b.number(fmt.Sprintf("%sdeduction-%d-mm", k, n+1), d.Less)
				b.number(fmt.Sprintf("%sdeduction-%d-turn-degrees", k, n+1), d.Turn)
			}
		}
		if street, roof, ok := b.l.MadeLegs(f, i); ok {
			b.length(k+"street-leg-left", street[0])
			b.length(k+"street-leg-right", street[1])
			b.words(k+"street-leg-to", s.Profile.FrontLeg.To.String())
			b.length(k+"roof-leg-left", roof[0])
			b.length(k+"roof-leg-right", roof[1])
			b.words(k+"roof-leg-to", s.Profile.RearLeg.To.String())
		}
		if f.Laps() && x.Metal != nil && len(x.Bends) > 0 {
			b.words(k+"lap", strings.Join(lapsOf(f, i), " "))
			b.length(k+"lap-width", b.l.Job.Shop.Seam.Lap.Width)
		}
	}
	for i, m := range p.Miters {
		b.angle(fmt.Sprintf("turn-%d", i+1), m.Corner.CapTurn)
		if m.Corner.Straight() { // positive over a peak
			b.angle("change-of-slope", m.Corner.Bend)
		}
	}
}

// ofMadeEnds are the ends of a body of a family and its rear fold from one to the other.
func (b *facts) ofMadeEnds(f *Family, body int, k string) {
	if rear, ok := MadeRear(f, body); ok {
		b.length(k+"rear-fold", rear)
	}
	ends, ok := MadeEnds(f, body)
	for i, e := range ends {
		at := k + [...]string{"left-end", "right-end"}[i]
		switch {
		case !ok:
			continue
		case e.Is == endCorner:
			b.angle(at+"-turn", e.Turn)
		case e.Is == endBreak:
			b.angle(at+"-change-of-slope", e.Bends)
		}
		b.words(at, e.Is)
	}
}

// ofSeams are the seams of a family: how far the edges of each face stand apart that do
// not touch, what laps, what is cut back and the strips behind.
func (b *facts) ofSeams(f *Family) {
	rivets := 0
	for _, x := range f.Bodies {
		rivets += x.Riveted
	}
	if rivets > 0 {
		b.count("rivets", rivets)
	}
	for i, j := range f.Joints {
		for k, q := range SeamFaces(f, i) {
			n := fmt.Sprintf("seam-%d-face-%d", i+1, k+1)
			b.words(n, q.Name)
			switch {
			case q.Lap > 0:
				b.length(n+"-lap", q.Lap)
				b.words(n+"-over", q.Over)
			case q.Plain:
				b.words(n+"-edges", "plain butt")
			default:
				b.words(n+"-edges", map[bool]string{true: "back edges at the gap",
					false: "finish edges at the gap"}[q.Back])
				b.length(n+"-opening", q.Opening)
			}
		}
		b.said(fmt.Sprintf("seam-%d-cut-back", i+1), strings.Join(j.CutBack, ", "))
		for k, q := range j.Strips {
			n := fmt.Sprintf("seam-%d-strip-%d", i+1, k+1)
			b.words(n, q.Face)
			b.lengths(n+"-size", []length.Length{q.Width, q.Length})
			b.number(n+"-turn-degrees", q.Turn)
		}
	}
}

// FactsOfSeamFace name what is said of one face of a seam of a family, both counted
// from nought.
func FactsOfSeamFace(f *Family, seam, face int, q plan.SeamFace) string {
	of, n := FactOfFamily(f), fmt.Sprintf("seam-%d-face-%d", seam+1, face+1)
	switch {
	case q.Lap > 0:
		return AllNamed(Named(of, n), Named(of, n+"-lap"), Named(of, n+"-over"))
	case q.Plain:
		return AllNamed(Named(of, n), Named(of, n+"-edges"))
	}
	return AllNamed(Named(of, n), Named(of, n+"-edges"), Named(of, n+"-opening"))
}

// lapsOf says of each welded end of a leg, from its left, whether it lies over its
// neighbour or carries the tabs under it, or whether both meet in a butt.
func lapsOf(f *Family, body int) []string {
	var out []string
	leg := LegOf(f, body)
	for end, miter := range []int{leg - 1, leg} {
		switch {
		case miter < 0 || miter >= len(f.Joints):
		case f.Joints[miter].Faces[0].Lap == 0:
			out = append(out, "butt")
		case f.Bodies[body].TabbedAt(end == 1):
			out = append(out, "under")
		default:
			out = append(out, "over")
		}
	}
	return out
}

// ofBodies are the blanks of a family or a part, their bends and the stated places
// where an outline stands back from its seam. Places on a blank are millimetres to
// the right and up from its lower left corner, finish side up.
func (b *facts) ofBodies(of any, bodies []Body) {
	for i, x := range bodies {
		k := fmt.Sprintf("body-%d-", i+1)
		b.said(k+"name", x.Name)
		b.said(k+"file", b.files[cutKey{of, i}])
		b.length(k+"blank-length", x.Length)
		b.length(k+"blank-girth", x.Girth)
		b.count(k+"holes", len(x.Holes))
		for n, e := range x.Bends {
			b.ofBend(fmt.Sprintf("%sbend-%d-", k, n+1), e)
		}
		b.ofBlank(k, b.l.blankOf(x, ""))
		if front, rear, ok := x.Overall(); ok {
			b.length(k+"overall-front", front)
			b.length(k+"overall-rear", rear)
		}
		for n, c := range x.Notches(b.l.Job.Shop.Relief) {
			m := fmt.Sprintf("%snotch-%d-", k, n+1)
			b.words(m+"kind", c.Kind)
			for _, v := range []struct {
				what string
				mm   float64
			}{{"x1", c.Lo.X}, {"y1", c.Lo.Y}, {"x2", c.Hi.X}, {"y2", c.Hi.Y}} {
				b.number(m+v.what+"-mm", v.mm)
			}
		}
	}
}

// ofBlank are the distances that the drawing of a blank letters, to the step of the
// shop's rule.
func (b *facts) ofBlank(k string, x plan.Blank) {
	for i, e := range x.Edges {
		b.lengths(k+[...]string{"edge-street", "edge-roof"}[i], []length.Length{e.From, e.To - e.From, x.Length - e.To})
	}
	for n, q := range x.Bends {
		m := fmt.Sprintf("%sbend-%d-", k, n+1)
		if q.Across {
			b.lengths(m+"from-ends", []length.Length{q.FromLeft, x.Length - q.FromLeft})
			continue
		}
		ends := q.EndsFromStreet
		b.lengths(m+"ends-from-street", ends[:])
		b.lengths(m+"ends-from-roof", []length.Length{x.Girth - ends[0], x.Girth - ends[1]})
	}
	for n, h := range x.Holes {
		m := fmt.Sprintf("%shole-%d-", k, n+1)
		b.lengths(m+"from-left", []length.Length{h.Left, h.Right})
		b.lengths(m+"from-street", []length.Length{h.Street, h.Roof})
		lo, hi := x.Bounds()
		step := shop.Step(x.Metric)
		b.lengths(m+"centre", []length.Length{length.RoundTo(length.FromMM(h.Centre.X-lo.X), step),
			length.RoundTo(length.FromMM(hi.Y-h.Centre.Y), step)})
		b.lengths(m+"size", []length.Length{h.Right - h.Left, h.Roof - h.Street})
	}
	for n, f := range x.Faces {
		b.length(fmt.Sprintf("%sface-%d-outside", k, n+1), f.Outside)
	}
	for n, c := range x.Corners {
		m := fmt.Sprintf("%scorner-%d-", k, n+1)
		b.length(m+"from-left", c.FromLeft)
		b.length(m+"from-street", c.FromStreet)
	}
}

// FactOfFamily is what the facts of pieces made alike are of.
func FactOfFamily(f *Family) string { return "family " + f.Mark }

// FactOfPart is what the facts of a made part are of.
func FactOfPart(q *MadePart) string { return "part " + q.Mark }

// FactOfLot is what the facts of a lot of the cutting plan are of, counted from
// nought.
func FactOfLot(i int) string { return fmt.Sprintf("lot %d", i+1) }

func (b *facts) ofBend(k string, e Bend) {
	b.count(k+"order", e.Order)
	b.number(k+"turn-degrees", e.Line.Turn)
	b.number(k+"turns-by-degrees", math.Abs(e.Line.Turn))
	b.number(k+"included-degrees", e.Included())
	b.words(k+"way", map[bool]string{true: "up", false: "down"}[e.Up()])
	b.number(k+"radius-mm", e.Line.Radius)
	b.number(k+"arc-mm", e.Line.Arc)
	b.yes(k+"hem", e.Hem)
	b.words(k+"after-face", e.Line.Between[0])
	b.words(k+"to-face", e.Line.Between[1])
	b.length(k+"from-street", e.FromStreet)
	b.length(k+"from-roof", e.FromRoof)
	b.length(k+"gauge", e.Gauge)
	b.words(k+"gauge-edge", e.GaugeAt)
	from, to := e.Ends()
	b.number(k+"x1-mm", from.X)
	b.number(k+"y1-mm", from.Y)
	b.number(k+"x2-mm", to.X)
	b.number(k+"y2-mm", to.Y)
}

// MadeLegs are the legs of what a body of a family is of at its left and at its right
// end, as they are stated; it is not ok of a plate, which has none. A taper and the
// main of a tee have no one section: theirs are those of the metal that hangs on the
// edges of their tops.
func (l *Layout) MadeLegs(f *Family, body int) (street, roof [2]length.Length, ok bool) {
	b, p := f.Bodies[body], &l.Job.System.Profile
	if b.Name == endPlate {
		return street, roof, false
	}
	if b.Tray == nil {
		front, rear := p.FrontLeg.Length, p.RearLeg.Length
		return [2]length.Length{front, front}, [2]length.Length{rear, rear}, b.Metal != nil
	}
	first, last := math.Inf(1), math.Inf(-1) // stations that the rear wings reach
	corners := b.Tray.Face.Corners
	for _, w := range b.Tray.Wings {
		leg := length.FromMM(w.Path.Stated(1)) // its first straight is the top
		if w.Street {
			street = [2]length.Length{leg, leg}
			continue
		}
		a, c := corners[w.Edge].X, corners[(w.Edge+1)%len(corners)].X
		if lo := math.Min(a, c); lo < first {
			first, roof[0] = lo, leg
		}
		if hi := math.Max(a, c); hi > last {
			last, roof[1] = hi, leg
		}
	}
	return street, roof, true
}
