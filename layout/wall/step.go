package wall

import (
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// Step is a step in the wall top where a run goes straight on into the next.
// The coping of the higher side ends over it with an end cap, that of the
// lower side dies into its riser with an upstand; each side has lines, widths
// and a set surface of its own.
type Step struct {
	Beyond *Run          // the run beyond the step
	Rise   length.Length // the top beyond is this much higher, as the job says; negative: lower
}

// Up reports whether the wall beyond is the higher one.
func (s *Step) Up() bool { return s.Rise > 0 }

// step ends a run and begins the next at a step between them.
func step(r, next *Run) {
	rise := r.Job.Right.Step
	end := func(rise length.Length, beyond *Run) End {
		kind := job.EndFree
		if rise > 0 {
			kind = job.EndWall
		}
		return End{Kind: kind, Step: &Step{Beyond: beyond, Rise: rise}}
	}
	r.Right, next.Left = end(rise, next), end(-rise, r)
}

// steps holds a step whose riser is not what the job says, or which leaves the
// upstand of the lower coping no room.
func steps(j *job.Job, p *Perimeter, found *finding.Set) {
	for _, r := range p.Runs {
		s := r.Right.Step
		if s == nil || len(r.Readings) == 0 || len(s.Beyond.Readings) == 0 {
			continue
		}
		at := r.Job.Right.At
		hold := func(code, what, why, mend string) {
			for _, run := range []*Run{r, s.Beyond} {
				found.Append(finding.Finding{Code: code, Severity: finding.Hold, At: at, Where: ref(run),
					What: "the step from run " + r.Name + " to run " + s.Beyond.Name + ": " + what, Why: why,
					Mend: mend})
			}
		}
		here, there := r.Readings[len(r.Readings)-1], s.Beyond.Readings[0]
		read := length.Max(there.TopOutside, there.TopInside) - length.Max(here.TopOutside, here.TopInside)
		if length.Abs(read-s.Rise) > j.Packing.Most {
			hold("step-differs", "its readings beside the step make it "+job.Both(read)+
				", and the job says "+job.Both(s.Rise),
				"the difference is more than may be packed", "measure both tops at the step again, and correct `step:`")
			continue
		}
		riser := s.Beyond.SetLeft - r.SetRight
		if !s.Up() {
			riser = -riser
		}
		if riser < j.System.WallEnd.Upstand {
			hold("step-low", "its riser stands "+job.Both(riser)+
				" above the lower set surface, and the upstand is "+job.Both(j.System.WallEnd.Upstand),
				"the upstand of the lower coping would stand up into the end of the higher",
				"have the wall top made good to one height, or detail the step by hand with the fabricator")
		}
	}
}
