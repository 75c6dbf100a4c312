package wall

import (
	"slices"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// atCorner is how near a reading must stand to a corner to say where the
// corner itself lies from the survey line.
const atCorner = length.Inch

// lines strings each run's front-face line: straight, clear of every reading at
// its worst depth, with the least greatest gap to the wall (see fit). From the
// lines follow the cap lines and the corner points where neighbouring cap
// lines meet.
func lines(j *job.Job, p *Perimeter, grid length.Length, found *finding.Set) {
	for _, r := range p.Runs {
		r.Readings = onFront(r)
		loose(r, found)
		fit(r, grid)
	}
	shareAtKinks(p, found)
	s := &j.System
	for _, r := range p.Runs {
		r.capOut = s.FrontClearance + s.Metal.Thickness
		for _, q := range r.Readings {
			r.WidthMost = length.Max(r.WidthMost, q.Width)
		}
	}
	turns(j, p, found)
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
	for _, r := range p.Runs {
		uncleared(j, r, found)
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
	survey := Line{Left: a.Offset, Right: b.Offset} // rounds alike in a mirror
	tied := tiedToCorners(r)
	for i := range out {
		q := &out[i]
		var base length.Length
		if tied {
			base = survey.at(q.Station-a.Station, b.Station-a.Station)
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
// survey line itself stands from the wall there is then unknown, and with it
// the corner points of the neighbours and the width they share.
func loose(r *Run, found *finding.Set) {
	if !r.untied() {
		return
	}
	r.holdWith(finding.Finding{
		Code: "survey-not-tied", Severity: finding.Hold, At: r.Job.At, Where: ref(r),
		What: "run " + r.Name + ": its face offsets begin or end away from its corners",
		Why: "the line of the coping is drawn from corner to corner; how far the survey line stands off there is " +
			"not known",
		Mend: "read the offset at both corners too, at the first and at the last station of the run",
	}, r.sharing(), "its corners and its width follow from where the face of run "+r.Name+" lies, which is not known",
		found)
}

func (r *Run) untied() bool {
	return !tiedToCorners(r) && slices.ContainsFunc(r.Job.Readings, func(q job.Reading) bool { return q.Offset != 0 })
}

// measure completes the readings against the front-face line and keeps the
// extremes a sheet has to show.
func measure(r *Run, grid length.Length) {
	for i := range r.Readings {
		q := &r.Readings[i]
		shift := r.ShiftAt(q.Station)
		q.Gap += shift
		// A need is what a sheet letters and a width is chosen by: up to the grid,
		// so that the two agree.
		q.Need = length.CeilTo(q.Need+shift, grid)
		if i == 0 || q.Need > r.Need {
			r.Need, r.NeedAt = q.Need, q.Station
		}
		if i == 0 || q.Gap > r.Line.GapMost {
			r.Line.GapMost, r.Line.GapMostAt = q.Gap, q.Station
		}
		if i == 0 || q.Width < r.WidthLeast {
			r.WidthLeast = q.Width
		}
	}
	bow(r)
}
