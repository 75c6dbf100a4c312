package wall

import (
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// atCorner is how near a reading must stand to a corner to say where the
// corner itself lies from the survey line.
const atCorner = length.Inch

// lines finds each run's front-face line: the line through the wall's own
// corners, moved out until it clears every reading at its worst depth. The
// coping keeps that distance along the whole run, and runs that meet at a kink
// share it. From it follow the cap line and the corner points where
// neighbouring cap lines meet.
func lines(j *job.Job, p *Perimeter, grid length.Length, found *finding.List) {
	for _, r := range p.Runs {
		r.Readings = onFront(r)
		loose(r, found)
		for _, q := range r.Readings {
			r.Shift = length.Max(r.Shift, q.Offset)
		}
		// A line is strung by tape: keep it on the grid the sheets letter.
		r.Shift = length.CeilTo(r.Shift, grid)
	}
	shareAtKinks(p)
	s := &j.System
	for _, r := range p.Runs {
		r.CapOut = r.Shift + s.FrontClearance + s.Metal.Thickness
	}
	for _, r := range p.Runs {
		r.Left.Ext = extend(s, r, r.Left, true, grid)
		r.Right.Ext = extend(s, r, r.Right, false, grid)
		r.Cap = r.Front + r.Left.Ext + r.Right.Ext
		r.Datum = r.Left.Ext
		if r.Job.Datum.Mark != "" {
			// On the grid, so that stations from it and lengths of pieces print alike.
			r.Datum += length.RoundTo(r.onFrontFace(r.Job.Datum.At), grid)
		}
		if r.Cap <= 0 {
			found.Append(finding.Finding{Code: "run-vanishes", Severity: finding.Error, At: r.Job.At, Where: ref(r),
				What: "run " + r.Name + ": nothing is left of its cap line between its corner points",
				Mend: "check the length of the run and the turns at its ends"})
		}
		measure(r, grid)
	}
}

// onFrontFace brings a station measured on the run's station face to the front.
func (r *Run) onFrontFace(s length.Length) length.Length {
	if r.Job.StationFace == job.Rear {
		return s + r.Trim.Left
	}
	return s
}

// FrontStation brings a job station (an obstacle's, an expansion joint's) to
// the front face.
func (r *Run) FrontStation(s length.Length) length.Length { return r.onFrontFace(s) }

// onFront brings readings to the front face and their offsets to the wall
// line. Where readings stand at both corners, the survey line's own distance
// from the corners is taken out; otherwise the survey line is taken to join
// the corners.
func onFront(r *Run) []Reading {
	rd := r.Job.Readings
	out := make([]Reading, 0, len(rd))
	for i := range rd {
		q := &rd[i]
		out = append(out, Reading{
			Job: q, Station: r.onFrontFace(q.Station), Offset: q.Offset, Width: q.Width,
			TopOutside: q.TopOutside, TopInside: q.TopInside,
		})
	}
	if len(out) < 2 {
		for i := range out {
			out[i].Gap, out[i].Need = -out[i].Offset, out[i].Width-out[i].Offset
		}
		return out
	}
	a, b := out[0], out[len(out)-1]
	tied := tiedToCorners(r)
	for i := range out {
		q := &out[i]
		var base length.Length
		if tied {
			base = a.Offset + length.MulDiv(b.Offset-a.Offset, int64(q.Station-a.Station), int64(b.Station-a.Station))
		}
		rear := q.Offset - q.Width
		front := q.Offset
		q.Gap = -(q.Offset - base) // completed by measure; the top face is what is drilled
		if q.Job.OffsetLow != nil {
			front = length.Max(front, *q.Job.OffsetLow)
			w := q.Width
			if q.Job.WidthLow != nil {
				w = *q.Job.WidthLow
			}
			rear = length.Min(rear, *q.Job.OffsetLow-w)
		}
		q.Offset = front - base
		q.Need = -(rear - base) // completed by measure, once the line is known
	}
	return out
}

// tiedToCorners reports whether readings stand at both corners of the wall:
// abreast of the front corner, of the rear one, or between the two.
func tiedToCorners(r *Run) bool {
	rd := r.Job.Readings
	if len(rd) < 2 {
		return false
	}
	a, b := r.onFrontFace(rd[0].Station), r.onFrontFace(rd[len(rd)-1].Station)
	at := func(s, trim length.Length) bool { // s from the front corner, inwards
		return s >= length.Min(0, trim)-atCorner && s <= length.Max(0, trim)+atCorner
	}
	if r.Job.StationFace == job.Front {
		return at(a, 0) && at(r.Front-b, 0)
	}
	return at(a, r.Trim.Left) && at(r.Front-b, r.Trim.Right)
}

// loose holds a run whose offsets are not tied to its corners: how far the
// survey line itself stands from the wall there is then unknown.
func loose(r *Run, found *finding.List) {
	if tiedToCorners(r) {
		return
	}
	for _, q := range r.Job.Readings {
		if q.Offset != 0 {
			found.Append(finding.Finding{
				Code: "survey-not-tied", Severity: finding.Hold, At: r.Job.At, Where: ref(r),
				What: "run " + r.Name + ": its face offsets begin or end away from its corners",
				Why:  "the line of the coping is drawn from corner to corner; how far the survey line stands off there is not known",
				Mend: "read the offset at both corners too, at the first and at the last station of the run",
			})
			return
		}
	}
}

// shareAtKinks gives runs that meet at a kink one front-face line distance:
// nearly parallel lines at different distances would meet far from the wall's
// corner.
func shareAtKinks(p *Perimeter) {
	for range p.Corners {
		for _, c := range p.Corners {
			if c.Kink {
				m := length.Max(c.Arrive.Shift, c.Leave.Shift)
				c.Arrive.Shift, c.Leave.Shift = m, m
			}
		}
	}
}

func extend(s *job.System, r *Run, e End, left bool, grid length.Length) length.Length {
	switch e.Kind {
	case job.EndFree:
		return length.CeilTo(s.EndCap.Clearance+s.Metal.Thickness, grid)
	case job.EndWall:
		return -length.CeilTo(s.WallEnd.Clearance, grid)
	}
	other := e.Corner.Leave
	if left {
		other = e.Corner.Arrive
	}
	return length.RoundTo(Extension(r.CapOut, other.CapOut, e.Corner.Turn), grid)
}

// measure completes the readings against the front-face line and keeps the
// extremes a sheet has to show.
func measure(r *Run, grid length.Length) {
	for i := range r.Readings {
		q := &r.Readings[i]
		q.Gap += r.Shift
		// A need is what a sheet letters and a width is chosen by: up to the grid,
		// so that the two agree.
		q.Need = length.CeilTo(q.Need+r.Shift, grid)
		if i == 0 || q.Need > r.Need {
			r.Need, r.NeedAt = q.Need, q.Station
		}
		if i == 0 || q.Gap > r.GapMost {
			r.GapMost, r.GapMostAt = q.Gap, q.Station
		}
		if i == 0 || q.Width < r.WidthLeast {
			r.WidthLeast = q.Width
		}
		r.WidthMost = length.Max(r.WidthMost, q.Width)
	}
	lo, hi := length.Length(0), length.Length(0)
	for i, q := range r.Readings {
		if i == 0 {
			lo, hi = q.Offset, q.Offset
		}
		lo, hi = length.Min(lo, q.Offset), length.Max(hi, q.Offset)
	}
	r.Bow = hi - lo
}
