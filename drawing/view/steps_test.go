package view

import (
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"copingset/drawing"
	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"

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

// stepsTrue fails on a strip that a reader would stumble over or that differs
// from the list.
func stepsTrue(t interface {
	Helper()
	Errorf(string, ...any)
}, l *layout.Layout, r *layout.Run, w drawing.Unit) {
	t.Helper()
	least := StepStripHeight(l, r, w)
	words := StepWords(l, r)
	sheet := newStepSheet(l, r, w)
	d := newStepDrawing(l, r, sheet.cell-2*stepMargin, stepPic-stepMargin)
	for _, q := range sheet.steps {
		var pic drawing.Scene
		d.picture(&pic, q.kind)
		if got := pic.Bounds(); !d.room.Inset(-stepMargin / 2).Contains(got) {
			t.Errorf("run %s: the picture of %q takes %v, it has %v", r.Name, q.caption, got, d.room)
		}
	}
	for _, h := range []drawing.Unit{0, least, least + 3000} {
		s := StepStrip(l, r, w, h)
		faultless(t, s)
		if s.W != w || s.H < least || s.H > max(h, least) {
			t.Errorf("run %s: strip %v × %v in a room %v × %v, least height %v", r.Name, s.W, s.H, w, h, least)
		}
		if again := StepStrip(l, r, w, h); again.Dump() != s.Dump() {
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
func kindsOf(l *layout.Layout, r *layout.Run) []stepKind {
	var out []stepKind
	for _, s := range stepsOf(l, r) {
		out = append(out, s.kind)
	}
	return out
}

// Rule 26: the order of work.
func TestStepsFollowTheOrderOfWork(t *testing.T) {
	whole := []stepKind{stepNailer, stepMembrane, stepCorners, stepString, stepChairs, stepSplices, stepHook, stepGap, stepSnap, stepCheck}
	with := func(k stepKind, before stepKind) []stepKind {
		return slices.Insert(slices.Clone(whole), slices.Index(whole, before), k)
	}
	want := map[string][]stepKind{
		"packing above the membrane": with(stepPacking, stepCorners),
		"packing below the membrane": whole,
		"field closers":              with(stepTrim, stepHook),
		"thick wall":                 whole,
		"one run with a wall end":    whole,
		"one short run":              {stepNailer, stepMembrane, stepCorners, stepHook, stepSnap, stepCheck},
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
		all := strings.Join(StepWords(l, r), " ")
		says := func(words string, want bool) {
			if strings.Contains(all, words) != want {
				t.Errorf("%s: %q said: %v, want %v", s.name, words, !want, want)
			}
		}
		chairOnly := l.Job.Packing.Method == job.PackChairs
		says("ABOVE the membrane", chairOnly && l.Job.Packing.AboveMembrane && stepPacked(r))
		says("BELOW the membrane", chairOnly && !l.Job.Packing.AboveMembrane && stepPacked(r))
		says("No packing", !stepPacked(r))
		says("corner supports", slices.ContainsFunc(r.Parts, func(q layout.Part) bool { return len(q.Piece.Miters) > 0 }))
		says("ships long", stepCloser(r) != nil)
		says(stepSmall(l, l.Job.System.Splice.Tape)+" from the centre line", stepJoint(l, r) != nil)
	}
}

// A drill is named, not measured: 5/32 in is no 3/16, nor 6.3 mm 6.
func TestStepDrillIsNotRounded(t *testing.T) {
	feet, metric := &layout.Layout{Job: &job.Job{}}, &layout.Layout{Job: &job.Job{Units: job.Metric}}
	for _, c := range []struct {
		d          length.Length
		inches, mm string
	}{{5 * length.Inch / 32, "5/32″", "3.969 mm"}, {63 * length.Millimetre / 10, "0.248″", "6.3 mm"}} {
		if a, b := stepDrill(feet, c.d), stepDrill(metric, c.d); a != c.inches || b != c.mm {
			t.Errorf("%v: %s and %s", c.d, a, b)
		}
	}
}

// The numbers in the pictures are the job's.
func TestStepStripLettersTheJobsNumbers(t *testing.T) {
	for _, s := range stepScenarios() {
		l := solved(t, s)
		r := l.Runs()[0]
		j := stepJoint(l, r)
		if j == nil || j.Kind == cap.Expansion {
			continue
		}
		strip := StepStrip(l, r, 40000, 4500)
		for _, words := range []string{
			drawing.Letter(Crew(l).Short(l.Job.System.Splice.Tape)),
			drawing.Letter(Crew(l).Short(l.Job.System.Joint.Gap)) + " at " + stepDegrees(l, l.Job.System.Joint.Reference),
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
		d := newStepDrawing(l, l.Runs()[0], 3500, 2800)
		up := d.hooked(d.p.cap(0))
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
