package cap

import (
	"copingset/layout/job"
	"copingset/layout/length"
)

// Faces are the faces of the wall at one station of a run, each as its distance
// behind the cap line.
type Faces struct {
	Street, Roof length.Length // at the wall's top, between the readings in straight lines
	Deepest      length.Length // the roof face at the worst depth, up to the grid: what rear play is counted from
	Foremost     length.Length // the street face at the worst depth
	Surveyed     bool          // else no reading says how wide the wall is, and the clearances are taken as kept
}

// Width of the wall at its top.
func (f Faces) Width() length.Length { return f.Roof - f.Street }

// FaceAt is where the faces of the wall lie at a cap station. Whoever draws the
// wall, drills it or cuts a hole over it asks here.
func (r *Run) FaceAt(s *job.System, station length.Length) Faces {
	q := r.At(r.ToFront(station))
	line := s.Metal.Thickness + s.FrontClearance
	f := Faces{Street: line + q.Gap, Surveyed: q.Width > 0}
	f.Roof, f.Deepest = f.Street+q.Width, line+q.Need
	f.Foremost = length.Min(f.Street, line+r.ShiftAt(r.ToFront(station))-q.Offset)
	if !f.Surveyed {
		f.Street = line
		f.Roof = s.Metal.Thickness + r.InsideAt(station) - s.RearClearance
		f.Foremost, f.Deepest = f.Street, f.Roof
	}
	return f
}

// PlayAt is the rear play at a cap station: from the wall's roof face at its
// worst depth to the inside of the rear leg.
func (r *Run) PlayAt(s *job.System, station length.Length) length.Length {
	return s.Metal.Thickness + r.InsideAt(station) - r.FaceAt(s, station).Deepest
}

// ChairLine is how far behind the cap line the chairs' front edges stand: the
// line that the crew's string follows.
func ChairLine(s *job.System) length.Length { return s.Metal.Thickness + s.Chair.FrontEdge }

// ChairRear is how far behind the cap line the rear edge of a chair stands under
// a cap of an inside width.
func ChairRear(s *job.System, inside length.Length) length.Length {
	return s.Metal.Thickness + inside - s.Chair.RearEdge
}

// ChairWidth is a chair across the wall, from its front edge to its rear one.
func ChairWidth(s *job.System, inside length.Length) length.Length {
	return ChairRear(s, inside) - ChairLine(s)
}

// StringToWall is how far behind the string the wall's street face lies at a cap
// station. Negative: the face stands in front of the string.
func (r *Run) StringToWall(s *job.System, station length.Length) length.Length {
	return r.FaceAt(s, station).Street - ChairLine(s)
}
