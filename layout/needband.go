package layout

import "copingset/layout/length"

// NeedBand is the least and the greatest need of a wall that a cap of an inside
// width takes: what the front clearance and the rear play leave of it. A
// narrower wall leaves more play than the rear leg takes up, a wider one less
// than the cap needs to turn in.
func (l *Layout) NeedBand(inside length.Length) (least, most length.Length) {
	s := &l.Job.System
	room := inside - s.FrontClearance
	return room - s.PlayMost, room - length.Max(s.PlayLeast, s.RearClearance)
}
