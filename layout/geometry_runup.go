package layout

import (
	"math"

	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// setAtRoof is the height of the surface that the chairs sit on at the wall's roof
// face, at a station of the front face: it may rise or fall along the run, and
// across it.
func (l *Layout) setAtRoof(r *Run, front length.Length) length.Length {
	z := r.SetAt(front)
	if !setSlopes(r) {
		return z
	}
	q := r.At(front)
	return z - r.Perimeter.Cross.Rise(q.Gap+q.Width)
}

// setAtStreet is the same at the wall's street face: higher where the packing makes
// the slope of the top.
func (l *Layout) setAtStreet(r *Run, front length.Length) length.Length {
	z := r.SetAt(front)
	if !setSlopes(r) {
		return z
	}
	return z - r.Perimeter.Cross.Rise(r.At(front).Gap)
}

// setSlopes says that the two edges of the set surface are at different heights.
func setSlopes(r *Run) bool { return len(r.Readings) > 0 && r.Perimeter.Cross != 0 }

// elevation is a run as seen from the roof.
func (l *Layout) elevation(r *Run) plan.Elevation {
	s := &l.Job.System
	roof := func(front length.Length) length.Length { return l.setAtRoof(r, front) }
	street := func(front length.Length) length.Length { return l.setAtStreet(r, front) }
	of := func(what string) string { return Named(FactOfRun(r), what) }
	e := plan.Elevation{
		Surveyed: len(r.Readings) > 0, Slopes: setSlopes(r), Rise: s.Chair.Rise, Graded: r.Job.Grade != nil,
		Left: plan.Value{Real: roof(0)}, Right: plan.Value{Real: roof(r.Front)}, OnSlope: r.Front-r.InPlan(l.Grid) > 0,
	}
	if !e.Slopes {
		e.Left.Fact, e.Right.Fact = of("set-surface-left"), of("set-surface-right")
	}
	// At an inside corner the wall's roof face reaches beyond its front face.
	from, to := length.Min(0, r.Trim.Left), length.Max(r.Front, r.Front-r.Trim.Right)
	e.SetRoof = alongWall(r, from, to, roof)
	if e.Surveyed {
		e.Roof = alongWall(r, from, to, func(x length.Length) length.Length { return r.At(x).TopInside })
		e.Street = alongWall(r, 0, r.Front, func(x length.Length) length.Length { return r.At(x).TopOutside })
	}
	if e.Slopes {
		e.SetStreet = alongWall(r, 0, r.Front, street)
	}
	leg := func(front length.Length) (fold, foot length.Length) {
		fold = roof(front) + s.Chair.Rise + s.Metal.Thickness
		return fold, fold - s.RearFoot()
	}
	for _, q := range r.Parts {
		var k plan.Piece
		l.laid(r, q, &k)
		e.Legs = append(e.Legs, rearLeg(r, q.From+k.Left.Trim, q.To-k.Right.Trim, leg))
	}
	e.Beyond = beyondBreaks(r, leg)
	e.Top, e.Low = heights(r, leg, street, e.Beyond)
	return e
}

// alongWall is a height along a run between two stations of its front face, with a
// point at every reading.
func alongWall(r *Run, from, to length.Length, height func(front length.Length) length.Length) []plan.Pt {
	pt := func(front length.Length) plan.Pt { return plan.Pt{X: r.ToCap(front), Y: height(front)} }
	out := []plan.Pt{pt(from)}
	for _, q := range r.Readings {
		if q.Station > from && q.Station < to {
			out = append(out, pt(q.Station))
		}
	}
	return append(out, pt(to))
}

// rearLeg is the rear leg of metal between two cap stations.
func rearLeg(r *Run, from, to length.Length, leg func(front length.Length) (fold, foot length.Length)) plan.RearLeg {
	var k plan.RearLeg
	for _, x := range []length.Length{from, to} {
		fold, foot := leg(r.ToFront(x))
		k.Fold, k.Foot = append(k.Fold, plan.Pt{X: x, Y: fold}), append(k.Foot, plan.Pt{X: x, Y: foot})
	}
	return k
}

// beyondShown is how much of the next run's cap an elevation has beyond a break.
const beyondShown = 9 * length.Inch

// beyondBreaks are the rear legs of the next runs over the breaks of slope at a
// run's ends, outwards.
func beyondBreaks(r *Run, leg func(front length.Length) (fold, foot length.Length)) []plan.RearLeg {
	var out []plan.RearLeg
	put := func(c *Corner, at, dir length.Length, incline func() job.Angle) {
		if c == nil || !c.Straight() {
			return
		}
		rise := length.FromMM(beyondShown.MM() * math.Tan(incline().Degrees()*math.Pi/180))
		fold, foot := leg(r.ToFront(at))
		far := at + dir*beyondShown
		out = append(out, plan.RearLeg{Fold: []plan.Pt{{X: at, Y: fold}, {X: far, Y: fold + rise}},
			Foot: []plan.Pt{{X: at, Y: foot}, {X: far, Y: foot + rise}}})
	}
	put(r.Left.Corner, 0, -1, func() job.Angle { return -r.Left.Corner.Arrive.Incline() })
	put(r.Right.Corner, r.Cap, 1, func() job.Angle { return r.Right.Corner.Leave.Incline() })
	return out
}

// heights are the highest and the lowest of what an elevation shows, the same for
// every part of a run, with a little below.
func heights(r *Run, leg func(front length.Length) (fold, foot length.Length),
	street func(front length.Length) length.Length,
	beyond []plan.RearLeg) (top, low length.Length) {
	slopes := setSlopes(r)
	top, low = leg(0)
	hold := func(z length.Length) { top, low = length.Max(top, z), length.Min(low, z) }
	at := func(front length.Length) {
		fold, foot := leg(front)
		hold(fold)
		hold(foot)
		if slopes {
			top = length.Max(top, street(front))
		}
	}
	at(0)
	at(r.Front)
	for _, q := range r.Readings {
		at(q.Station)
		low = length.Min(low, length.Min(q.TopInside, q.TopOutside))
	}
	for _, k := range beyond {
		hold(k.Fold[1].Y)
		hold(k.Foot[1].Y)
	}
	return top, low - length.Inch/4
}
