package view

import (
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"copingset/drawing"
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
	return Steps{Run: of, Work: l.Work(r, *of)}
}

// stepsTrue fails on a strip that a reader would stumble over or that differs
// from the list.
func stepsTrue(t interface {
	Helper()
	Errorf(string, ...any)
}, l *layout.Layout, r *layout.Run, w drawing.Unit) {
	t.Helper()
	of := worked(l, r)
	least := StepStripHeight(of, w)
	words := StepWords(of)
	sheet := newStepSheet(of, w)
	d := newStepDrawing(of, sheet.cell-2*stepMargin, stepPic-stepMargin)
	for _, q := range sheet.steps {
		var pic drawing.Scene
		d.picture(&pic, q.kind)
		if got := pic.Bounds(); !d.room.Inset(-stepMargin / 2).Contains(got) {
			t.Errorf("run %s: the picture of %q takes %v, it has %v", r.Name, q.caption, got, d.room)
		}
	}
	for _, h := range []drawing.Unit{0, least, least + 3000} {
		s := StepStrip(of, w, h)
		faultless(t, s)
		if s.W != w || s.H < least || s.H > max(h, least) {
			t.Errorf("run %s: strip %v × %v in a room %v × %v, least height %v", r.Name, s.W, s.H, w, h, least)
		}
		if again := StepStrip(of, w, h); again.Dump() != s.Dump() {
			t.Errorf("run %s: two strips of one run differ", r.Name)
		}
		if n := len(stepNumbers(s)); n != len(words) {
			t.Errorf("run %s: %d pictures for %d sentences", r.Name, n, len(words))
		}
	}
}

// stepNumbers lists the numbers of the pictures in reading order.
func stepNumbers(s drawing.Scene) []string {
	var out []string
	for _, t := range s.Texts() {
		if t.Words == strconv.Itoa(len(out)+1) && t.Face == drawing.Bold && t.Align == drawing.Middle {
			out = append(out, t.Words)
		}
	}
	return out
}

func TestStepStripsAreFaultless(t *testing.T) {
	for _, s := range stepScenarios() {
		t.Run(s.name, func(t *testing.T) {
			l := solved(t, s)
			for _, r := range l.Runs() {
				for _, w := range []drawing.Unit{18000, 26000, 40000} {
					stepsTrue(t, l, r, w)
				}
			}
		})
	}
}

func TestStepStripsOfAnyJob(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		l, found := layout.Build(jobtest.Random(t))
		if found.HasErrors() {
			return
		}
		runs := l.Runs()
		r := runs[rapid.IntRange(0, len(runs)-1).Draw(t, "run")]
		stepsTrue(t, l, r, drawing.Unit(rapid.IntRange(18000, 42000).Draw(t, "width")))
	})
}

// kindsOf are the steps of a run.
func kindsOf(l *layout.Layout, r *layout.Run) []plan.StepKind { return worked(l, r).Work.Steps }

// Rule 26: the order of work.
func TestStepsFollowTheOrderOfWork(t *testing.T) {
	whole := []plan.StepKind{plan.NailerStep, plan.MembraneStep, plan.CornersStep, plan.StringStep, plan.ChairsStep, plan.SplicesStep, plan.HookStep, plan.GapStep, plan.SnapStep, plan.CheckStep}
	with := func(k, before plan.StepKind) []plan.StepKind {
		return slices.Insert(slices.Clone(whole), slices.Index(whole, before), k)
	}
	want := map[string][]plan.StepKind{
		"packing above the membrane": with(plan.PackingStep, plan.CornersStep),
		"packing below the membrane": whole,
		"field closers":              with(plan.TrimStep, plan.HookStep),
		"thick wall":                 whole,
		"one run with a wall end":    whole,
		"one short run":              {plan.NailerStep, plan.MembraneStep, plan.CornersStep, plan.HookStep, plan.SnapStep, plan.CheckStep},
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
		all := strings.Join(StepWords(of), " ")
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
		strip := StepStrip(of, 40000, 4500)
		for _, words := range []string{
			drawing.Letter(Crew(l).Short(l.Job.System.Splice.Tape)),
			drawing.Letter(Crew(l).Short(l.Job.System.Joint.Gap)) + " at " + of.degrees(plan.Temperature{Celsius: l.Job.System.Joint.Reference.Celsius(), Fahrenheit: l.Job.System.Joint.Reference.Fahrenheit()}),
		} {
			if _, ok := find(strip, words); !ok {
				t.Errorf("%s: the strip does not letter %q", s.name, words)
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
