package cap

import (
	"copingset/layout/job"
	"copingset/layout/length"
)

// Taken is what an obstacle takes of a run: along its cap line, and behind it.
type Taken struct{ From, To, Front, Rear length.Length }

// RoomOf is the room of an obstacle on the run's wall; the wall's whole width where
// the job does not say its place across.
func (r *Run) RoomOf(s *job.System, o *job.Obstacle) Taken {
	at := r.ToCap(r.FrontStation(o.Station))
	f := r.FaceAt(s, at)
	q := Taken{at - o.Extent/2, at + o.Extent/2, f.Street, f.Roof}
	if o.Depth > 0 {
		mid := f.Street + o.FromFace
		q.Front, q.Rear = mid-o.Depth/2, mid+o.Depth/2
	}
	return q
}

// Quad is the room in the run's own frame.
func (q Taken) Quad() Quad { return arriving(-q.To, -q.From, q.Front, q.Rear) }

// BlocksChair reports whether no chair of the run can stand over an obstacle: it
// blocks one, and lies within what a chair takes across the wall.
func (r *Run) BlocksChair(s *job.System, o *job.Obstacle) bool {
	if !o.BlocksAChair() {
		return false
	}
	q := r.RoomOf(s, o)
	rear := length.Max(ChairRear(s, r.InsideAt(q.From)), ChairRear(s, r.InsideAt(q.To)))
	return q.Rear > ChairLine(s) && q.Front < rear
}
