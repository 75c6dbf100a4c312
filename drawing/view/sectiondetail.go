package view

import (
	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// sectionWindow is the part of a section that a detail shows larger.
type sectionWindow struct {
	mark   string
	words  string
	lo, hi plan.Pt
}

// Details are shown at full size, in boxes of this size on paper.
const (
	detailWide drawing.Unit = 4300
	detailHigh drawing.Unit = 4100
	detailGap  drawing.Unit = 400
)

// detailsOf are the feet of both legs, where drip, hook, hems and chair meet.
func (s *sectionView) detailsOf() []sectionWindow {
	full := paperMap{ratio: 1}
	w, h := full.real(detailWide), full.real(detailHigh)
	const edge = 3 * length.Millimetre
	var out []sectionWindow
	for i, key := range []words.Key{words.SectionFootStreet, words.SectionFootRoof} {
		foot := s.of.Feet[i]
		low, left, right := foot.Y, foot.X, foot.X
		for _, p := range s.cap.Ring {
			if length.Abs(p.X-foot.X) < s.of.Outside/3 && p.Y < foot.Y+h/2 {
				low, left, right = length.Min(low, p.Y), length.Min(left, p.X), length.Max(right, p.X)
			}
		}
		at := sectionWindow{mark: string(rune('A' + i)), words: s.say.Say(key, words.In("mark", string(rune('A'+i)))),
			lo: plan.Pt{X: left - edge, Y: low - edge}}
		if i == 1 {
			at.lo.X = right + edge - w
		}
		at.hi = plan.Pt{X: at.lo.X + w, Y: at.lo.Y + h}
		out = append(out, at)
	}
	return out
}

// windows ring what the details show.
func (s *sectionView) windows(g *drawing.Scene, m paperMap) {
	for _, d := range s.detailsOf() {
		a, b := m.up(plan.Pt{X: d.lo.X, Y: d.hi.Y}), m.up(plan.Pt{X: d.hi.X, Y: d.lo.Y})
		g.Rect(drawing.Hidden, drawing.Box(a.X, a.Y, b.X, b.Y))
	}
}

// marks letter them, at the outer corner below.
func (s *sectionView) marks(g *drawing.Scene, m paperMap) {
	for i, d := range s.detailsOf() {
		at, st := m.up(d.lo).Add(drawing.Pt(0, 450)), drawing.Style{Face: drawing.Bold}
		if i == 1 {
			at.X, st.Align = m.up(d.hi).X, drawing.Right
		}
		g.Text(at, d.mark, st)
	}
}

// details draw the feet at full size, side by side.
func (s *sectionView) details() entry {
	return entry{detailHigh + 1350, func(g *drawing.Scene, at drawing.Point) {
		for i, d := range s.detailsOf() {
			box := drawing.Box(at.X, at.Y+120, at.X+detailWide,
				at.Y+120+detailHigh).Translate(drawing.Pt(drawing.Unit(i)*(detailWide+detailGap), 0))
			m := paperMap{ratio: 1}
			o := m.up(plan.Pt{X: d.lo.X, Y: d.hi.Y})
			m.origin = box.Min.Sub(o)
			in := func(r plan.Ring) plan.Ring { return r.In(d.lo, d.hi) }
			g.Group(drawing.Wall, "", func(g *drawing.Scene) {
				for _, p := range s.of.Of(plan.WallLayer) {
					if r := in(p.Ring); len(r) > 0 {
						k := layerHatch(p.Material)
						if p.Beyond {
							k = drawing.NoHatch
						}
						g.Hatch(k, drawing.Thin, m.ring(r)...)
					}
				}
			})
			s.parts(g, m, in)
			g.Rect(drawing.Hidden, box)
			for n, line := range drawing.Wrap(d.words, drawing.Regular, drawing.Note, detailWide) {
				g.Text(drawing.Pt(box.Min.X, box.Max.Y+450+drawing.Unit(n)*drawing.Note.Line()), line, drawing.Style{})
			}
		}
	}}
}
