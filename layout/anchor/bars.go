package anchor

import (
	"copingset/layout/length"
	"copingset/layout/stand"
)

// bars are where no chair's centre may lie on a run: what blocks a chair, and the
// opening in the rear leg of a tee, where a chair would have nothing to hold at
// its rear.
func (b *builder) bars(a *Run) []stand.Bar {
	var out []stand.Bar
	for i := range a.Job.Obstacles {
		o := &a.Job.Obstacles[i]
		if !a.BlocksChair(b.sys, o) {
			continue
		}
		q, half := a.RoomOf(b.sys, o), b.sys.Chair.Length/2
		out = append(out, stand.Bar{From: q.From - half, To: q.To + half})
	}
	for _, t := range a.Tees {
		out = append(out, stand.Bar{From: t.Edge[0] - b.sys.Chair.Length/2, To: t.Edge[1] + b.sys.Chair.Length/2})
	}
	return out
}

// blocked tells whether a chair's centre lies in a bar.
func (b *builder) blocked(a *Run, x length.Length) bool {
	for _, o := range b.bars(a) {
		if x > o.From && x < o.To {
			return true
		}
	}
	return false
}
