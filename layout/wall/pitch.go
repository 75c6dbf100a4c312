package wall

import (
	"math"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// Straight reports whether the wall goes straight on in plan at a corner: it is
// a break in the slope of its top.
func (c *Corner) Straight() bool { return c.Pitch != job.NoPitch }

// Word names what the wall does at a corner: it turns, or its top breaks.
func (c *Corner) Word() string {
	if c.Straight() {
		return c.Pitch.String()
	}
	return "corner"
}

// graded reports whether a set surface may have a grade somewhere.
func (p *Perimeter) graded(j *job.Job) bool { return j.Packing.Grade > 0 || p.sloped }

// alongRise is the rise of a slope over a length taped along it:
// length x sin(atan slope).
func alongRise(s job.Slope, long length.Length) length.Length {
	k := float64(s) / 1e9
	return length.FromMM(long.MM() * k / math.Sqrt(1+k*k))
}

// Incline is the slope of the set surface along the run, positive where it
// rises from left to right, to a hundredth of a degree: the arc sine of the
// rise over the length taped along the top. Rounded once a run, as tilts are.
func (r *Run) Incline() job.Angle {
	rise := (r.SetRight - r.SetLeft).MM()
	if rise == 0 || math.Abs(rise) >= r.Front.MM() {
		return 0
	}
	return job.Angle(math.Round(math.Asin(rise/r.Front.MM())*180/math.Pi*float64(job.Degree/tiltStep))) * tiltStep
}

// PitchTrim is how much longer or shorter a line of a cap is on one leg of a
// break, at a height square to the run: height x tan(bend/2), the plane of the
// miter bisecting the change of slope.
func PitchTrim(height length.Length, bend job.Angle) length.Length {
	return length.FromMM(height.MM() * math.Tan(radians(bend)/2))
}

// Fold is the height of the front and of the rear fold of a cap, outside,
// above the set surface at the wall's two faces. The underside stands the
// chair's rise above the set surface at its low edge, the inside of the rear leg.
// With the slope formed in chair and cap the front fold is higher than the rear
// one by slope x outside width; with the slope in the packing, cap and set
// surface fall together, and only what lies in front of the wall adds its little.
func Fold(s *job.System, inside length.Length) (front, rear length.Length) {
	t, fall := s.Metal.Thickness, s.Profile.TopSlope
	if s.Profile.SlopeBy == job.SlopeByChair {
		rear = s.Chair.Rise + OverUnderside(s) - fall.Rise(t)
		return rear + fall.Rise(inside+2*t), rear
	}
	low := s.Chair.Rise + OverUnderside(s)
	return low + fall.Rise(t+s.FrontClearance), low
}

// OverUnderside is how far the finish face of a cap's top stands over its
// underside, plumb: its metal, square to the slope.
func OverUnderside(s *job.System) length.Length {
	return length.FromMM(s.Metal.Thickness.MM() * math.Hypot(1, float64(s.Profile.TopSlope)/1e9))
}

// breaks finds the change of slope at each break and carries the cap line to
// where its two front folds meet over it: the fold stands above the set
// surface, so it is longer than the wall top at a peak and shorter at a valley,
// by its height x tan(bend/2) on each leg. The height is that of a cap as wide
// as the greatest need beside the break; a cap wider by w would move it by
// w x slope x tan(bend/2), under a step of the grid.
//
// A change that leaves the plane of the one leg by no more than the job's
// twist over the length of the other is taken up by a plain joint.
func breaks(j *job.Job, p *Perimeter, grid length.Length, found *finding.Set) {
	for _, c := range p.Corners {
		if !c.Straight() {
			continue
		}
		a, b := c.Arrive, c.Leave
		c.Bend = a.Incline() - b.Incline()
		off := length.FromMM(j.System.PitchMiter.Leg.MM() * math.Sin(radians(abs(c.Bend))))
		c.Absorb = off <= j.Packing.Twist
		judgeBreak(j, c, off, found)
		if c.Absorb {
			continue
		}
		c.Pitch = c.made() // what is drawn is what is made
		front, _ := Fold(&j.System, length.Max(a.Need, b.Need)+j.System.FrontClearance+j.System.RearClearance)
		ext := length.RoundTo(PitchTrim(front, c.Bend), grid)
		a.Right.Ext, b.Left.Ext = ext, ext
		a.Cap += ext
		b.Cap += ext
		b.Datum += ext
	}
}

// made is the break that the set surface makes.
func (c *Corner) made() job.Pitch {
	if c.Bend < 0 {
		return job.Valley
	}
	return job.Peak
}

// judgeBreak holds a break that is not what the job says, or that the shop does
// not weld, and notes one that needs no piece.
func judgeBreak(j *job.Job, c *Corner, off length.Length, found *finding.Set) {
	at := c.Arrive.Job.Right.At
	put := func(sev finding.Severity, code, what, why, mend string) {
		on := []*Run{c.Arrive, c.Leave}
		if sev == finding.Note {
			on = on[:1]
		}
		for _, r := range on {
			found.Append(finding.Finding{Code: code, Severity: sev, At: at, Where: ref(r),
				What: "the " + c.Pitch.String() + " from run " + c.Arrive.Name + " to run " + c.Leave.Name + ": " +
					what, Why: why, Mend: mend})
		}
	}
	switch other := c.made(); {
	case len(c.Arrive.Readings) == 0 || len(c.Leave.Readings) == 0: // held elsewhere
	case c.Absorb:
		put(finding.Note, "pitch-absorbed",
			"the slope changes by "+job.FormatAngle(abs(c.Bend))+
				", and a plain joint over the break takes it up",
			"over a leg of a pitch miter it comes to "+job.Both(off)+", within the twist the job allows",
			"leave it so, or end one run where the other does")
	case other != c.Pitch:
		put(finding.Hold, "pitch-differs",
			"the set surface makes it a "+other.String()+" of "+job.FormatAngle(abs(c.Bend)),
			"the pieces would be bent the wrong way",
			"measure the tops beside the break again, correct `pitch:`, or say in `grade:` which way each run slopes")
	case abs(c.Bend) > j.System.PitchMiter.ChangeMost:
		put(finding.Hold, "pitch-over",
			"the slope changes by "+job.FormatAngle(abs(c.Bend))+
				", and the shop welds up to "+job.FormatAngle(j.System.PitchMiter.ChangeMost),
			"", "have the piece detailed by hand with the fabricator")
	}
}
