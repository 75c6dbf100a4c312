package layout

import (
	"fmt"

	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/metal"
)

// CodeCheck is one check that needs no judgement, as a compliance table shows
// it: what is asked, what the job has, and by whose rule.
type CodeCheck struct {
	What, Asked, Has string
	Source           string
	Passes           bool
	finding          finding.Finding // when it does not pass
}

// Extender is a piece below a leg that is taller than anything tested: the cap
// keeps the tested leg and the extender hangs from the wall under it.
type Extender struct {
	Run    *Run
	Face   job.Face
	Leg    length.Length  // the leg that would cover the face, with the job's lap
	Tested length.Length  // highest leg of the assemblies tested
	To     job.LegMeasure // of both
	Height length.Length  // of the extender, under the leg by the job's lap
	Along  length.Length  // the run, along the fold over that leg
}

// CodeChecks lists the checks of the job and its runs in order.
func (l *Layout) CodeChecks() []CodeCheck {
	s := &l.Job.System
	var out []CodeCheck
	add := func(c CodeCheck, sev finding.Severity, code string, at finding.Place, where finding.Ref, mend string) {
		out = append(out, l.judged(c, sev, code, at, where, mend))
	}
	for _, r := range l.Runs() {
		if !r.Surveyed {
			continue
		}
		wall, inside := tightest(r)
		add(CodeCheck{What: "run " + r.Name + ": inside of the cap no narrower than the wall", Asked: job.Both(wall),
			Has: job.Both(inside),
			Source: "IBC 2018 and 2021 section 1503.3, read in second sources: width not less than the wall's " +
				"thickness", Passes: inside >= wall},
			finding.Hold, "cap-narrow", r.Job.At, onRun(r), "offer wider caps, or survey the wall again")
	}
	add(CodeCheck{What: "the top drains to the roof", Asked: "a slope", Has: slopeWords(s.Profile.TopSlope),
		Source: "IBC 2021 section 1503.3, as a state's code prints it: the top drains positively",
		Passes: s.Profile.TopSlope > 0},
		finding.Hold, "top-level", s.At, finding.Ref{}, "give `top_slope` a fall to the roof")
	if least := s.Metal.Specified; least > 0 {
		add(CodeCheck{What: "thickness of the metal", Asked: thou(least), Has: thou(s.Metal.Thickness),
			Source: "the job's specification", Passes: s.Metal.Thickness >= least},
			finding.Hold, "metal-thin", s.At, finding.Ref{},
			"order the thickness specified, or have the specification changed")
	}
	// 0.019 in stands in the code in inches.
	const flashing = 19 * length.Inch / 1000
	add(CodeCheck{What: "thickness of metal flashing", Asked: thou(flashing), Has: thou(s.Metal.Thickness),
		Source: "IBC 2021 section 1503.2.1, as a state's code prints it: 0.019 in (0.48 mm), 26 gage galvanized",
		Passes: s.Metal.Thickness >= flashing},
		finding.Note, "flashing-thin", s.At, finding.Ref{}, "ask the building official if this metal may be thinner")
	out = append(out, l.contacts()...)
	out = append(out, l.holeChecks()...)
	out = append(out, l.factorChecks()...)
	out = append(out, l.engagements()...)
	for _, e := range l.Extenders() {
		add(CodeCheck{What: fmt.Sprintf("run %s: %s-side leg within the tested range", e.Run.Name, faceWord(e.Face)),
			Asked: job.Both(e.Leg) + " to " + e.To.String(), Has: job.Both(e.Tested),
			Source: "test reports of the job"},
			finding.Hold, "extender-needed", e.Run.Job.At, onRun(e.Run),
			fmt.Sprintf("schedule an extender piece %s high along the run and have its fastening stated, or name an "+
				"assembly tested with that leg", job.Both(e.Height)))
	}
	return out
}

// judged gives a check its finding where it does not pass, and letters it in the
// units of the job.
func (l *Layout) judged(c CodeCheck, sev finding.Severity, code string, at finding.Place, where finding.Ref,
	mend string) CodeCheck {
	if !c.Passes {
		c.finding = finding.New(sev, code, at, mend, "%s: asked %s, is %s", c.What, c.Asked, c.Has)
		c.finding.Why, c.finding.Where = c.Source, where
	}
	u := l.Job.Units
	c.What, c.Asked, c.Has, c.Source = u.InUnits(c.What), u.InUnits(c.Asked), u.InUnits(c.Has), u.InUnits(c.Source)
	return c
}

func thou(l length.Length) string {
	return length.Decimal(l, 3) + " (" + length.Millimetres(l, 2) + " mm)"
}

func slopeWords(s job.Slope) string {
	if s == 0 {
		return "level"
	}
	return fmt.Sprintf("%.2f per cent", float64(s)/1e7)
}

func faceWord(f job.Face) string {
	if f == job.Rear {
		return "roof"
	}
	return "street"
}

// tightest is the wall's width and the cap's inside where the cap has least over.
func tightest(r *Run) (wall, inside length.Length) {
	for i, q := range r.Readings {
		if in := r.InsideAt(r.ToCap(q.Station)); i == 0 || in-q.Width < inside-wall {
			wall, inside = q.Width, in
		}
	}
	return wall, inside
}

// Extenders finds the faces that ask for a leg higher than any assembly of the
// job was tested with.
func (l *Layout) Extenders() []Extender {
	var out []Extender
	for _, r := range l.Runs() {
		out = append(out, l.extendersOf(r)...)
	}
	return out
}

// extendersOf are those of one run, front first.
func (l *Layout) extendersOf(r *Run) []Extender {
	s := &l.Job.System
	var front, rear length.Length
	for i := range l.Job.Assemblies {
		front = length.Max(front, s.FrontTested(l.Job.Assemblies[i].FrontLegMost))
		rear = length.Max(rear, s.RearTested(l.Job.Assemblies[i].RearLegMost))
	}
	needF, needR := s.FrontFoot(), s.RearFoot()
	look := func(at, pf, pr length.Length) {
		f, q := r.LapsAt(s, at, pf, pr)
		needF = length.Max(needF, s.FrontFoot()-f+s.Lap.Front)
		needR = length.Max(needR, s.RearFoot()-q+s.Lap.Rear)
	}
	for _, c := range r.Chairs {
		look(c.At, c.PackFront, c.PackRear)
	}
	for _, q := range r.Readings {
		look(r.ToCap(q.Station), q.PackFront, q.PackRear)
	}
	along := [...]length.Length{job.Front: r.Cap, job.Rear: rearAlong(r)}
	var out []Extender
	for _, e := range []struct {
		face              job.Face
		to                job.LegMeasure
		need, tested, lap length.Length
	}{{job.Front, s.Profile.Drip.Foot(), needF, front, s.Lap.Front}, {job.Rear, s.Profile.RearHook.Foot(), needR, rear,
		s.Lap.Rear}} {
		if need := length.CeilTo(e.need, l.Grid); e.tested > 0 && e.need > e.tested {
			out = append(out, Extender{Run: r, Face: e.face, Leg: need, Tested: e.tested, To: e.to,
				Height: need - e.tested + e.lap, Along: along[e.face]})
		}
	}
	return out
}

// rearAlong is a run along its rear fold, which miters make shorter than the cap line or
// longer.
func rearAlong(r *Run) length.Length {
	out := r.Cap
	for _, x := range r.Parts {
		for i, p := range x.Piece.Parts {
			if p.Run == x.Run && p.From == x.From {
				out += x.Piece.RearLength(i) - p.Length()
			}
		}
	}
	return out
}

// moves checks the coefficient against printed ones, and the stock length
// against what the joint takes. The joints of the runs are checked where they
// are made.
func (l *Layout) moves() finding.List {
	var found finding.List
	s := &l.Job.System
	if e, ok := metal.ExpansionOf(s.Metal.Name); ok {
		if off := e.Off(s.Metal.Expansion); off < -metal.Band || off > metal.Band {
			f := finding.New(finding.Note, "expansion-differs", s.At, "check the coefficient and its degree, F or C",
				"the expansion of %s, %.2fe-6 /C (%.2fe-6 /F), lies %.0f per cent outside what is printed for %s, "+
					"%.2fe-6 to %.2fe-6 /C (%s)",
				s.Metal.Name, float64(s.Metal.Expansion)/1000, float64(s.Metal.Expansion)/1800, max(off, -off),
				e.Family,
				float64(e.Least)/1000, float64(e.Most)/1000, e.Source)
			f.Why = "every gap of the job follows from it"
			if off < -metal.Far || off > metal.Far {
				f.Severity = finding.Hold
			}
			found.Append(f)
		}
	}
	m := cap.MovementOf(s)
	if !m.Fits {
		why := "at the coldest metal its joint would pass the seal of the splice plate"
		if m.ByHeat {
			why = "at the hottest metal its joint would close past the least gap"
		}
		f := finding.New(finding.Note, "stock-moves", s.At,
			"a shorter stock length or longest leg, another nominal gap, or a longer splice plate",
			"the system can make caps of %s between fixed points, and the joint takes %s", job.Both(m.Longer),
			job.Both(m.Longest))
		f.Why = why + "; joints that do are on hold"
		found.Append(f)
	}
	return found
}

// checks are the findings of what is checked once all is laid out.
func (l *Layout) checks() finding.List {
	var found finding.Set
	found.Append(l.moves()...)
	for _, c := range l.CodeChecks() {
		if !c.Passes {
			found.Append(c.finding)
		}
	}
	found.Append(l.claims()...)
	found.Append(l.areas()...)
	found.Append(l.pulls()...)
	found.Append(l.lifts()...)
	found.Append(l.risers()...)
	found.Append(l.forming()...)
	return found.List()
}
