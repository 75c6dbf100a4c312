package view

import (
	"copingset/layout"
	"copingset/layout/fold"
)

// KeyLine is a run in plan at 1:1, in millimetres, x to the right and y up: its
// wall line and its cap line.
type KeyLine struct {
	Run                              *layout.Run
	WallFrom, WallTo, CapFrom, CapTo fold.Point
}

// KeyLines are the runs of a perimeter as the key plan draws them, adjusted so
// that they close.
func KeyLines(l *layout.Layout, p *layout.Perimeter) []KeyLine {
	k := keyShapeOf(p, &l.Job.System)
	caps := k.beside(func(r keyRun) float64 { return -r.CapOut.MM() })
	// The plan is in the layout's frame; machines have the right-handed one.
	at := func(q xy) fold.Point {
		v := fold.FromLayout(q.x, q.y, 0)
		return fold.Point{X: v.X, Y: v.Y}
	}
	var out []KeyLine
	for i, r := range k.runs {
		out = append(out, KeyLine{r.Run, at(r.o), at(r.at(r.long, 0)), at(caps[i][0]), at(caps[i][1])})
	}
	return out
}
