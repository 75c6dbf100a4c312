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
	k := keyShapeOf(p, l.Job)
	// The plan is in the layout's frame; machines have the right-handed one.
	at := func(q xy) fold.Point {
		v := fold.FromLayout(q.x, q.y, 0)
		return fold.Point{X: v.X, Y: v.Y}
	}
	var out []KeyLine
	for _, r := range k.runs {
		// Over a break of slope the fold stands beyond or short along the slope, not in plan.
		left, right := r.Left.Ext, r.Right.Ext
		if c := r.Left.Corner; c != nil && c.Straight() {
			left = 0
		}
		if c := r.Right.Corner; c != nil && c.Straight() {
			right = 0
		}
		from := r.at(-left.MM(), -r.CapOutAt(0).MM())
		to := r.at(r.long+right.MM(), -r.CapOutAt(r.Front).MM())
		out = append(out, KeyLine{r.Run, at(r.o), at(r.at(r.long, 0)), at(from), at(to)})
	}
	return out
}
