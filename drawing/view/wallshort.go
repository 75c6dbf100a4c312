package view

import (
	"slices"

	"copingset/drawing"
	"copingset/layout"
	"copingset/layout/length"
)

// shortPitch is the least mean distance between the readings of a run whose
// report shares a sheet, so that it reads as well as one that has a sheet to
// itself.
const shortPitch = 4 * reportPitch

// ShortWallReport draws the three plots of a short run for a sheet that several
// share: their marks are named by WallKeys once for all. It
// reports false where the readings would stand close together.
func ShortWallReport(l *layout.Layout, r *layout.Run, width, height drawing.Unit) (drawing.Scene, bool) {
	parts := WallParts(l, r, width)
	if len(parts) > 1 {
		return drawing.Scene{}, false
	}
	if n := len(r.Readings); n > 1 && parts[0].Along.Units((r.Readings[n-1].Station-r.Readings[0].Station)/length.Length(n-1)) < shortPitch {
		return drawing.Scene{}, false
	}
	draw := func(high drawing.Unit) (drawing.Scene, int) {
		v := newWallReport(l, r, parts[0], width)
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
func WallKeys(l *layout.Layout, runs []*layout.Run, width drawing.Unit) drawing.Scene {
	out := drawing.Scene{Name: "wall-keys", Title: "Marks of wall reports", W: width, Desc: "What the lines and marks of the plots stand for."}
	names := [...]string{"WIDTH", "FACE OFFSET", "WALL TOP"}
	keys := make([][]wallKey, len(names))
	for _, r := range runs {
		for i, q := range newWallReport(l, r, WallParts(l, r, width)[0], width).plots {
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
