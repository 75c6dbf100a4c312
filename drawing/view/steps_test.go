package view

import (
	"slices"
	"strings"
	"sync"
	"testing"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"
	"copingset/layout/plan"

	"pgregory.net/rapid"
)

// stepScenarios adds the kinds of packing, a field closer and a concrete wall.
var stepScenarios = sync.OnceValue(func() []scenario {
	above := withPerimeters("packing above the membrane", rectangle(12*inch))
	above.job.Packing.Method, above.job.Packing.AboveMembrane = job.PackChairs, true
	below := withPerimeters("packing below the membrane", rectangle(12*inch))
	below.job.Packing.Method = job.PackChairs
	field := withPerimeters("field closers", rectangle(12*inch))
	field.job.System.Joint.FieldCloser, field.job.System.Joint.Allowance = true, 2*inch
	sloped := withPerimeters("slope in continuous packing, metric", rectangle(12*inch))
	sloped.job.System.Profile.SlopeBy, sloped.job.Units = job.SlopeByPacking, job.Metric
	thick := withPerimeters("thick wall", rectangle(26*inch))
	single := withPerimeters("one run with a wall end", jobtest.Perimeter("STUB", job.Open, jobtest.Run("P", 17*foot, 0)))
	single.job.Perimeters[0].Starts = job.End{Kind: job.EndWall}
	single.job.Perimeters[0].Runs[0].Right = job.End{Kind: job.EndFree}
	short := withPerimeters("one short run", jobtest.Perimeter("STUB", job.Open, jobtest.Run("P", 3*foot, 0)))
	short.job.Perimeters[0].Starts = job.End{Kind: job.EndFree}
	short.job.Perimeters[0].Runs[0].Right = job.End{Kind: job.EndFree}
	return append(slices.Clip(scenarios()), above, below, field, sloped, thick, single, short)
})

// worked is what the order of work of a run is drawn from.
func worked(l *layout.Layout, r *layout.Run) Steps {
	of := planned(l, r)
	return Steps{Name: r.Perimeter.Job.Name + " " + r.Name, Run: of, Work: l.Work(r, *of)}
}

// workOf is the order of work of a job.
func workOf(l *layout.Layout, lang words.Lang) []WorkStep {
	var all []Steps
	for _, r := range l.Runs() {
		s := worked(l, r)
		s.Say.Lang = lang
		all = append(all, s)
	}
	return WorkSteps(all)
}

// stepsTrue fails on pictures that a reader would stumble over, at each height they
// may have.
func stepsTrue(t interface {
	Helper()
	Errorf(string, ...any)
}, all []WorkStep, w drawing.Unit) {
	t.Helper()
	cols := WorkColumns(w)
	for row := range slices.Chunk(all, cols) {
		r := WorkRow{Steps: row, Cols: cols}
		wide := r.Width(w)
		if wide > w {
			t.Errorf("a row of %d takes %v of %v", len(row), wide, w)
		}
		for _, pic := range r.Pictures() {
			s := drawing.Scene{W: wide, H: r.Height(wide, pic)}
			r.Draw(&s, wide, s.H)
			faultless(t, s)
			if got := s.Bounds(); !drawing.Box(-20, -20, s.W+20, s.H+20).Contains(got) {
				t.Errorf("row of step %s takes %v of %v × %v", row[0].Number, got, s.W, s.H)
			}
			for _, q := range row {
				d := newStepDrawing(q.of, r.cell(wide)-2*stepMargin, pic-stepMargin)
				var one drawing.Scene
				d.picture(&one, q.kind)
				if got := one.Bounds(); !d.room.Inset(-stepMargin / 2).Contains(got) {
					t.Errorf("the picture of %q takes %v, it has %v", q.Caption, got, d.room)
				}
			}
			var again drawing.Scene
			r.Draw(&again, wide, s.H)
			again.W, again.H = s.W, s.H
			if again.Dump() != s.Dump() {
				t.Errorf("two drawings of step %s differ", row[0].Number)
			}
		}
	}
}

func TestWorkStepsAreFaultless(t *testing.T) {
	for _, s := range stepScenarios() {
		t.Run(s.name, func(t *testing.T) {
			l := solved(t, s)
			for _, w := range []drawing.Unit{18000, 26000, 40000} {
				for _, lang := range []words.Lang{words.English, words.Longer} {
					stepsTrue(t, workOf(l, lang), w)
				}
			}
		})
	}
}

func TestWorkStepsOfAnyJob(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		l, found := layout.Build(jobtest.Random(t))
		if found.HasErrors() {
			return
		}
		stepsTrue(t, workOf(l, words.English), drawing.Unit(rapid.IntRange(18000, 42000).Draw(t, "width")))
	})
}

// Every step that a run takes is told of it once, and no other is.
func TestWorkStepsCoverEveryRun(t *testing.T) {
	for _, s := range stepScenarios() {
		l := solved(t, s)
		all := workOf(l, words.English)
		seen := map[string]bool{} // look-up only
		for _, q := range all {
			if seen[q.Number] {
				t.Errorf("%s: two steps %s", s.name, q.Number)
			}
			seen[q.Number] = true
		}
		for _, r := range l.Runs() {
			of := worked(l, r)
			var got []plan.StepKind
			for _, q := range all {
				if len(q.Runs) == 0 || slices.Contains(q.Runs, of.Name) != q.But {
					got = append(got, q.kind)
				}
			}
			if !slices.Equal(got, of.Work.Steps) {
				t.Errorf("%s: run %s is told steps %v, it takes %v", s.name, r.Name, got, of.Work.Steps)
			}
		}
	}
}

// kindsOf are the steps of a run.
func kindsOf(l *layout.Layout, r *layout.Run) []plan.StepKind { return worked(l, r).Work.Steps }

// Rule 26: the order of work.
func TestStepsFollowTheOrderOfWork(t *testing.T) {
	whole := []plan.StepKind{plan.NailerStep, plan.MembraneStep, plan.MarkStep, plan.StringStep, plan.CornersStep, plan.ChairsStep, plan.TryStep, plan.InspectStep,
		plan.SplicesStep, plan.HookStep, plan.GapStep, plan.SnapStep, plan.CheckStep}
	with := func(k, before plan.StepKind) []plan.StepKind {
		return slices.Insert(slices.Clone(whole), slices.Index(whole, before), k)
	}
	want := map[string][]plan.StepKind{
		"packing above the membrane": with(plan.PackingStep, plan.MarkStep),
		"packing below the membrane": whole,
		"field closers":              with(plan.TrimStep, plan.HookStep),
		"thick wall":                 whole,
		"one run with a wall end":    whole,
		"one short run":              {plan.NailerStep, plan.MembraneStep, plan.MarkStep, plan.StringStep, plan.CornersStep, plan.TryStep, plan.InspectStep, plan.HookStep, plan.SnapStep, plan.CheckStep},
	}
	for _, s := range stepScenarios() {
		if k, ok := want[s.name]; ok {
			l := solved(t, s)
			if got := kindsOf(l, l.Runs()[0]); !slices.Equal(got, k) {
				t.Errorf("%s: steps %v, want %v", s.name, got, k)
			}
		}
	}
}

func TestStepWordsSayWhatTheJobSays(t *testing.T) {
	for _, s := range stepScenarios() {
		l := solved(t, s)
		r := l.Runs()[0]
		of := worked(l, r)
		packed := of.Work.Packed != plan.NotPacked
		all := ""
		for _, q := range WorkSteps([]Steps{of}) {
			all += q.Sentence + " "
		}
		says := func(words string, want bool) {
			if strings.Contains(all, words) != want {
				t.Errorf("%s: %q said: %v, want %v", s.name, words, !want, want)
			}
		}
		chairOnly := l.Job.Packing.Method == job.PackChairs
		says("ABOVE the membrane", chairOnly && l.Job.Packing.AboveMembrane && packed)
		says("BELOW the membrane", chairOnly && !l.Job.Packing.AboveMembrane && packed)
		says("No build-up", !packed)
		says("corner supports", slices.ContainsFunc(r.Parts, func(q layout.Part) bool { return len(q.Piece.Miters) > 0 }))
		says("Peel the film off", len(r.Chairs) > 0)
		says("Take the string line down", of.Work.Jointed)
		says("extra", slices.ContainsFunc(r.Parts, func(q layout.Part) bool { return q.Piece.Allowance > 0 }))
		says(of.small(l.Job.System.Splice.Tape)+" from the center line", of.Work.Jointed)
	}
}

// A drill is named, not measured: 5/32 in is no 3/16, nor 6.3 mm 6.
func TestStepDrillIsNotRounded(t *testing.T) {
	feet, metric := Steps{Run: &plan.Run{}}, Steps{Run: &plan.Run{Metric: true}}
	for _, c := range []struct {
		d          length.Length
		inches, mm string
	}{{5 * length.Inch / 32, "5/32″", "3.969 mm"}, {63 * length.Millimetre / 10, "0.248″", "6.3 mm"}} {
		if a, b := feet.drill(c.d), metric.drill(c.d); a != c.inches || b != c.mm {
			t.Errorf("%v: %s and %s", c.d, a, b)
		}
	}
}

// The numbers in the pictures are the job's.
func TestStepStripLettersTheJobsNumbers(t *testing.T) {
	for _, s := range stepScenarios() {
		l := solved(t, s)
		r := l.Runs()[0]
		of := worked(l, r)
		if !of.Work.Jointed || of.Work.Joint.Kind == plan.ExpansionJoint {
			continue
		}
		var strip drawing.Scene
		for _, q := range WorkSteps([]Steps{of}) {
			WorkRow{Steps: []WorkStep{q}, Cols: 1}.Draw(&strip, 8000, 9000)
		}
		for _, said := range []string{
			drawing.Letter(Crew(l).Short(l.Job.System.Splice.Tape)),
			drawing.Letter(Crew(l).Short(l.Job.System.Joint.Gap)) + " at " + of.degrees(plan.Temperature{Celsius: l.Job.System.Joint.Reference.Celsius(), Fahrenheit: l.Job.System.Joint.Reference.Fahrenheit()}),
		} {
			if _, ok := find(strip, said); !ok {
				t.Errorf("%s: the strip does not letter %q", s.name, said)
			}
		}
	}
}

// A hooked cap turns about its front foot and stands clear of the wall and the
// chair at the rear.
func TestHookedCapStandsClear(t *testing.T) {
	for _, s := range stepScenarios() {
		l := solved(t, s)
		d := newStepDrawing(worked(l, l.Runs()[0]), 3500, 2800)
		up := d.hooked(d.p.cap())
		foot := d.hooked([]xy{d.pivot()})[0]
		if foot.sub(d.pivot()).length() > 1e-6 {
			t.Errorf("%s: the front foot moves", s.name)
		}
		if last := up[len(up)-1]; last.y >= d.p.set(d.p.back) {
			t.Errorf("%s: the rear leg at %v is not above the set surface", s.name, last)
		}
		for _, q := range up {
			if at := d.m.at(q); !d.room.Holds(at) {
				t.Errorf("%s: hooked cap at %v is outside the picture", s.name, at)
			}
		}
	}
}
