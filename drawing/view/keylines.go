package view

import (
	"copingset/layout/fold"
	"copingset/layout/plan"
)

// KeyLine is a run in plan at 1:1, in millimetres, x to the right and y up: its
// wall line and its cap line.
type KeyLine struct {
	Run                              plan.KeyRun
	WallFrom, WallTo, CapFrom, CapTo fold.Point
}

// KeyLines are the runs of a perimeter as the key plan draws them, adjusted so
// that they close.
func KeyLines(p plan.KeyPerimeter) []KeyLine {
	// The plan is in the layout's frame; machines have the right-handed one.
	at := func(q xy) fold.Point {
		v := fold.FromLayout(q.x, q.y, 0)
		return fold.Point{X: v.X, Y: v.Y}
	}
	var out []KeyLine
	for _, r := range keyShapeOf(p).runs {
		from := r.at(-r.Beyond[0].MM(), -r.Out[0].MM())
		to := r.at(r.long+r.Beyond[1].MM(), -r.Out[1].MM())
		out = append(out, KeyLine{r.KeyRun, at(r.o), at(r.at(r.long, 0)), at(from), at(to)})
	}
	return out
}
