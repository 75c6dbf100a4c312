package view

import (
	"slices"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout/plan"
)

// shortPitch is the least mean distance between the readings of a run whose
// report shares a sheet, so that it reads as well as one that has a sheet to
// itself.
const shortPitch = 4 * reportPitch

// ShortWallReport draws the three plots of a short run for a sheet that several
// share: their marks are named by WallKeys once for all. It
// reports false where the readings would stand close together.
func ShortWallReport(say words.Book, of plan.WallReport, width, height drawing.Unit) (drawing.Scene, bool) {
	parts := WallParts(of, width)
	if len(parts) > 1 {
		return drawing.Scene{}, false
	}
	if len(of.Readings) > 1 && parts[0].Along.Units(of.Pitch()) < shortPitch {
		return drawing.Scene{}, false
	}
	draw := func(high drawing.Unit) (drawing.Scene, int) {
		v := newWallReport(say, of, parts[0], width)
		v.bare = true
		return v.drawn(high), len(v.unsaid)
	}
	s, unsaid := draw(height)
	if s.H > height { // what found no room stands in lines below
		s, _ = draw(height - drawing.Unit(unsaid+1)*reportRow)
	}
	return s, s.H <= height && s.Bounds().Max.X <= width
}

// WallKeys names the marks of the reports of some runs, one line a plot and
// more where they do not fit.
func WallKeys(say words.Book, runs []plan.WallReport, width drawing.Unit) drawing.Scene {
	out := drawing.Scene{
		Name:  "wall-keys",
		Title: say.Say(words.PlotKeys),
		W:     width,
		Desc:  say.Say(words.PlotKeysAbout),
	}
	names := [...]string{say.Say(words.PlotWidth), say.Say(words.PlotNameOffset), say.Say(words.PlotNameTop)}
	keys := make([][]wallKey, len(names))
	for _, r := range runs {
		for i, q := range newWallReport(say, r, WallParts(r, width)[0], width).plots {
			for _, k := range q.keys() {
				if !slices.ContainsFunc(keys[i], func(o wallKey) bool { return o.words == k.words }) {
					keys[i] = append(keys[i], k)
				}
			}
		}
	}
	left := drawing.Unit(0)
	for _, n := range names {
		left = max(left, drawing.Width(drawing.Bold, n, drawing.Note)+keyGap)
	}
	out.Group(drawing.Lettering, "", func(g *drawing.Scene) {
		for i, all := range keys {
			base := out.H + drawing.Unit(drawing.Note)
			g.Text(drawing.Pt(0, base), names[i], drawing.Style{Face: drawing.Bold})
			x := left
			for _, k := range all {
				w := keySample + 150 + drawing.Width(drawing.Regular, k.words, drawing.Note)
				if x+w > width && x > left {
					x, base = left, base+reportRow
				}
				k.draw(g, drawing.Box(x, base-drawing.Unit(drawing.Note), x+keySample, base))
				g.Text(drawing.Pt(x+keySample+150, base), k.words, drawing.Style{})
				x += w + keyGap
			}
			out.H = base - drawing.Unit(drawing.Note) + reportRow
		}
	})
	return out
}
