package wall

import (
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall/minimax"
)

// Line is the straight front-face line of a run.
type Line struct {
	Left, Right        length.Length // beyond the wall line at the plumbed corners, towards the street
	Held               bool          // stated by the job
	Bow, BowAt         length.Length // greatest distance of the face from its own chord, and where
	GapMost, GapMostAt length.Length // greatest gap between the line and the face, and where
	Parallel           length.Length // greatest gap the best line parallel to the wall line would leave
}

// Suspect is a reading that does not fit those beside it.
type Suspect struct {
	Reading         *Reading
	Measure         string        // width, street top, roof top, offset; width low, offset low; station
	Value, Expected length.Length // as read, and as the neighbours have it
	Limit           length.Length // how far it may stand from them before it is doubted
	Hint            string        // the slip it looks like, if it looks like one
	Whole           bool          // all readings of the run are doubted, as Hint says, and this one stands for them
	Cleared         *job.Cleared  // nil: to be measured again
}

// Limit is one published limit of wall tops beside what the readings show.
type Limit struct {
	Name, Source string
	Sure         string // how sure the figure is: verified, secondary, memory
	Allowed      length.Length
	Found        length.Length // the worst
	At, To       length.Length // between which stations
	Within       bool
}

// Unsound is a stretch of wall between the sound readings on both sides of one
// that is loose, rotten or wet.
type Unsound struct {
	From, To   length.Length // on the front face
	Reading    *Reading
	Conditions []job.Condition
	Cleared    *job.Cleared
}

// ShiftAt is how far the front-face line lies beyond the wall line at a
// station of the front face, towards the street.
func (r *Run) ShiftAt(station length.Length) length.Length { return r.Line.at(station, r.Front) }

// CapOutAt is how far the cap line lies beyond the wall line at a station of
// the front face, towards the street.
func (r *Run) CapOutAt(station length.Length) length.Length { return r.ShiftAt(station) + r.capOut }

// CapOut is how far the cap line lies beyond the wall's plumbed corner at the
// corner c, out from the run.
func (r *Run) CapOut(c *Corner) length.Length {
	if c == r.Left.Corner {
		return r.CapOutAt(0)
	}
	return r.CapOutAt(r.Front)
}

// at interpolates the line over a wall line of a length.
func (l Line) at(station, front length.Length) length.Length {
	switch {
	case front <= 0 || l.Left == l.Right:
		return length.Max(l.Left, l.Right)
	case l.Left < l.Right: // from the lower value up, so that a wall and its mirror round alike
		return l.Left + length.MulDiv(l.Right-l.Left, int64(station), int64(front))
	}
	return l.Right + length.MulDiv(l.Left-l.Right, int64(front-station), int64(front))
}

// fit strings the line of a run. The best line is the one-sided minimax line
// of package minimax over the face at the top, which the gap is measured to,
// and at its worst depth, which must be cleared. It is strung by tape, so both
// its ends go up to the grid the sheets letter: it still clears everything and
// its greatest gap grows by less than one step. A run that kinks into another
// keeps the same distance along its length (see shareAtKinks).
func fit(r *Run, grid length.Length) {
	points := make([]minimax.Point, 0, 2*len(r.Readings)+2)
	var most, least length.Length // of the face; its plumbed corners lie on the wall line
	left, right := minimax.Point{}, minimax.Point{X: r.Front}
	for _, q := range r.Readings {
		top := -q.Gap // not yet measured to the line
		points = append(points, minimax.Point{X: q.Station, Y: q.Offset}, minimax.Point{X: q.Station, Y: top})
		most, least = length.Max(most, q.Offset), length.Min(least, top)
	}
	points = minimax.Insert(points, left, right)
	parallel := length.CeilTo(most, grid)
	r.Line = Line{Left: parallel, Right: parallel, Parallel: parallel - least}
	switch k := r.Job.Line; {
	case k.Kind == job.LineHeld:
		r.Line.Left, r.Line.Right, r.Line.Held = k.Left, k.Right, true
	case k.Kind == job.LineFitted && r.Front > 0 && !r.kinked():
		best := minimax.Above(points)
		l := Line{Left: best.Y(0, grid), Right: best.Y(r.Front, grid)}
		var gap length.Length
		for _, q := range points {
			gap = length.Max(gap, l.at(q.X, r.Front)-q.Y)
		}
		// Where the grid takes what the tilt gains, the line stays parallel.
		if gap < r.Line.Parallel {
			r.Line.Left, r.Line.Right = l.Left, l.Right
		}
	}
}

// kinked reports whether a run meets a neighbour at a kink.
func (r *Run) kinked() bool {
	return r.Left.Corner != nil && r.Left.Corner.Kink || r.Right.Corner != nil && r.Right.Corner.Kink
}

// shareAtKinks gives runs that meet at a kink one distance there: nearly
// parallel lines at different distances would meet far from the wall's corner.
// They stay parallel to their walls. A held line is not moved; where it leaves
// its neighbour no common distance, that is a hold.
func shareAtKinks(p *Perimeter, found *finding.Set) {
	moved := true
	for pass := 0; moved && pass < len(p.Corners); pass++ { // a held line at each side may draw one to and fro
		moved = false
		for _, c := range p.Corners {
			if !c.Kink {
				continue
			}
			m := length.Max(c.Arrive.Line.Right, c.Leave.Line.Left)
			for _, r := range []*Run{c.Arrive, c.Leave} {
				if !r.Line.Held && (r.Line.Left != m || r.Line.Right != m) {
					moved = true
					r.Line.Left, r.Line.Right = m, m
				}
			}
		}
	}
	for _, c := range p.Corners {
		if d := length.Abs(c.Arrive.Line.Right - c.Leave.Line.Left); c.Kink && d > 0 {
			for _, r := range []*Run{c.Arrive, c.Leave} {
				r.holdWith(finding.Finding{
					Code: "line-kink", Severity: finding.Hold, At: r.Job.At, Where: ref(r),
					What: "run " + r.Name + ": at the kink " + c.Name + " its line and its neighbour's are held " +
						job.Both(d) + " apart",
					Why:  "at so small a turn they would meet far from the wall's corner",
					Mend: "write the same distance for both runs at that corner, or hold neither line",
				}, r.follow(), "its corners follow from the lines at the kink "+c.Name, found)
			}
		}
	}
}

// uncleared holds a run whose stated line does not clear a reading, and what
// moves with the line once it is moved out.
func uncleared(j *job.Job, r *Run, found *finding.Set) {
	for _, q := range r.Readings {
		over := q.Offset - r.ShiftAt(q.Station)
		if over <= 0 {
			continue
		}
		others := r.follow()
		if j.System.SplitsWidths() || r.Perimeter.Cross != 0 || r.group().need()+over >= r.sharing().need() {
			others = r.sharing()
		}
		r.holdWith(finding.Finding{
			Code: "line-not-clear", Severity: finding.Hold, At: r.Job.Line.At, Where: refAt(r, q.Station),
			What: "run " + r.Name + " at station " + job.Both(r.CrewAt(q.Station)) + ": the wall stands " +
				job.Both(over) +
				" towards the street of the line the job keeps",
			Why:  "the street-side leg would bear on the wall",
			Mend: "move the line out by that much there, or leave the line to be fitted",
		}, others, "its corners or its width follow from the line of run "+r.Name+", which does not clear its wall",
			found)
	}
}

// bow finds the greatest distance of the face from the chord between its first
// and its last reading.
func bow(r *Run) {
	n := len(r.Readings)
	if n < 2 {
		return
	}
	a, b := r.Readings[0], r.Readings[n-1]
	chord := Line{Left: a.Offset, Right: b.Offset}
	for _, q := range r.Readings {
		if d := length.Abs(q.Offset - chord.at(q.Station-a.Station, b.Station-a.Station)); d > r.Line.Bow {
			r.Line.Bow, r.Line.BowAt = d, q.Station
		}
	}
}
