package sheets

import (
	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout"
)

// details are the ends of hems and bends of a family's blanks, where corners stand
// too close for a pattern to tell them apart: in rows, as many as there is room for.
func (b *book) details(f *layout.Family) []block {
	const wide, high, gap drawing.Unit = 3300, 5700, 300
	type detail struct {
		of   int
		view view.CornerGroup
	}
	var all []detail
	blanks := b.blanksOf(f)
	for i, x := range blanks {
		if x.Square {
			continue
		}
		for _, g := range view.CornerGroups(x.Blank) {
			if g.Shown() {
				all = append(all, detail{i, g})
			}
		}
	}
	if len(all) == 0 {
		return nil
	}
	type heading struct {
		lines []string
		high  drawing.Unit
	}
	head := func(w drawing.Unit) heading {
		lines := drawing.Wrap(b.say.Say(words.ShopCornersDetail), drawing.Bold, drawing.Head, w)
		return heading{lines, 200 + drawing.Unit(len(lines))*drawing.Head.Line()}
	}
	across := func(w drawing.Unit) int { return min(len(all), max(1, int((w+gap)/(wide+gap)))) }
	return []block{panelRows{least: wide, whole: whole{
		h: func(w drawing.Unit) drawing.Unit {
			n := across(w)
			return head(w).high + drawing.Unit((len(all)+n-1)/n)*(high+gap) - gap
		},
		draw: func(s *drawing.Scene, r drawing.Rect) {
			top := head(r.Width())
			for i, line := range top.lines {
				s.Text(
					drawing.Pt(r.Min.X, r.Min.Y+drawing.Unit(drawing.Head)+drawing.Unit(i)*drawing.Head.Line()),
					line,
					drawing.Style{Size: drawing.Head, Face: drawing.Bold},
				)
			}
			n := across(r.Width())
			for i, q := range all {
				at := drawing.Pt(r.Min.X+drawing.Unit(i%n)*(wide+gap), r.Min.Y+top.high+drawing.Unit(i/n)*(high+gap))
				place(s, view.CornerDetail(b.say, blanks[q.of].Blank, q.view, wide, high), at, "detail"+itoa(i))
			}
		},
	}}}
}
