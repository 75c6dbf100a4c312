package layout

import (
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/wall"
)

// risers holds the steps in a wall top whose riser would not be covered. The
// upstand of the lower coping stands up from its top, with the top's slope; the
// end cap of the higher one hangs as far as its front leg, with a level foot.
// The foot must lap the upstand where that is lowest, by the lap of the front
// leg, or a step riser must lap both; and it must not stand into the lower
// coping's top where that is highest.
func (l *Layout) risers() finding.List {
	var found finding.Set
	s := &l.Job.System
	for _, t := range l.steps() {
		hold := func(code, what, why string) {
			for _, run := range []*Run{t.run, t.next} {
				f := finding.New(finding.Hold, code, t.run.Job.Right.At, "detail the step by hand with the fabricator",
					"the step from run %s to run %s: %s", t.run.Name, t.next.Name, what)
				f.Why, f.Where = why, onRun(run)
				found.Append(f)
			}
		}
		switch {
		case t.foot < t.lowFront:
			hold("step-foot", "the foot of the end cap of run "+t.high.Name+" would hang "+
				job.Both(t.lowFront-t.foot)+" below the top of the coping of run "+t.low.Name,
				"the street-side leg is higher than the step, and the end cap would stand into the lower coping")
		case t.open(s) && s.StepRiser != nil && l.Job.Shop != nil:
			if why := t.riserFault(s); why != "" {
				hold("riser-lap", why, "water is driven into a riser that no metal covers")
			}
		case t.bare(s):
			what := "the foot of the end cap of run " + t.high.Name + " laps the upstand of run " + t.low.Name +
				" by " + job.Both(t.upstand-t.foot)
			if t.upstand < t.foot {
				what = job.Both(t.foot-t.upstand) + " of the riser are bare between the end cap of run " + t.high.Name +
					" and the upstand of run " + t.low.Name
			}
			hold("step-bare", what+"; the job asks for a lap of "+job.Both(s.Lap.Front),
				"water is driven into a riser that no metal covers")
		}
	}
	return found.List()
}

// runOf finds the solved run of a run of the wall.
func (l *Layout) runOf(w *wall.Run) *Run {
	for _, p := range l.Perimeters {
		if p.Perimeter == w.Perimeter {
			return p.Runs[w.Index]
		}
	}
	return nil
}
