package layout

import (
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall"
)

// risers holds the steps in a wall top whose riser would not be covered. The
// upstand of the lower coping stands up from its top, with the top's slope; the
// end cap of the higher one hangs as far as its front leg, with a level foot.
// The foot must lap the upstand where that is lowest, by the lap of the front
// leg, and must not stand into the lower coping's top where that is highest.
func (l *Layout) risers() finding.List {
	var found finding.List
	s := &l.Job.System
	for _, r := range l.Runs() {
		step := r.Right.Step
		if step == nil {
			continue
		}
		next := l.runOf(step.Beyond)
		if next == nil || len(r.Readings) == 0 || len(next.Readings) == 0 {
			continue
		}
		low, lowSet, lowEnd := r, r.SetRight, r.Cap
		high, highSet, highEnd := next, next.SetLeft, length.Length(0)
		if !step.Up() {
			low, lowSet, lowEnd, high, highSet, highEnd = next, next.SetLeft, 0, r, r.SetRight, r.Cap
		}
		lowFront, lowRear := low.FoldAt(s, lowEnd)
		highFront, _ := high.FoldAt(s, highEnd)
		foot := highSet + highFront - s.Profile.FrontLeg
		hold := func(code, what, why string) {
			for _, run := range []*Run{r, next} {
				f := finding.New(finding.Hold, code, r.Job.Right.At, "detail the step by hand with the fabricator",
					"the step from run %s to run %s: %s", r.Name, next.Name, what)
				f.Why, f.Where = why, onRun(run)
				found.Append(f)
			}
		}
		upstand := lowSet + lowRear + s.WallEnd.Upstand
		switch {
		case foot < lowSet+lowFront:
			hold("step-foot", "the foot of the end cap of run "+high.Name+" would hang "+job.Both(lowSet+lowFront-foot)+" below the top of the coping of run "+low.Name,
				"the front leg is higher than the step, and the end cap would stand into the lower coping")
		case upstand-foot < s.Lap.Front:
			what := "the foot of the end cap of run " + high.Name + " laps the upstand of run " + low.Name + " by " + job.Both(upstand-foot)
			if upstand < foot {
				what = job.Both(foot-upstand) + " of the riser are bare between the end cap of run " + high.Name + " and the upstand of run " + low.Name
			}
			hold("step-bare", what+"; the job asks for a lap of "+job.Both(s.Lap.Front), "water is driven into a riser that no metal covers")
		}
	}
	return found
}

// runOf finds the solved run of a run of the wall.
func (l *Layout) runOf(w *wall.Run) *Run {
	for _, r := range l.Runs() {
		if r.Run.Run == w {
			return r
		}
	}
	return nil
}
