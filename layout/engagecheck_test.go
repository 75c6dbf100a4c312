package layout_test

import (
	"math"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// engaging is the rectangle with what its reports say of hook and snap, and the
// tolerances of its parts and setting.
func engaging(t *testing.T, hook, snap length.Length, tol *job.Tolerance) *job.Job {
	j := sampled(t, "rectangle")
	j.System.Chair.Tolerance = tol
	for i := range j.Assemblies {
		j.Assemblies[i].Engagement = &job.Engagement{Hook: hook, Snap: snap}
	}
	return j
}

// Hook and snap take hold as far as the section draws the one metal over the other,
// less both tolerances. Roughly by hand: the chair's kick of 5/8 in goes out at 38
// degrees from a face 0.125 in behind the cap's, 5/8 sin 38 - 0.125 = 0.26; the rear
// hook of 1 1/16 in goes in at 146, 1 1/16 sin 34 = 0.59, to within 3/16 of the chair
// and its leg's own thickness.
func TestEngagementByHand(t *testing.T) {
	tol := &job.Tolerance{Parts: in / 32, Setting: in / 16}
	l, _ := layout.Build(engaging(t, in/8, in/8, tol))
	r := l.Runs()[0]
	c := r.Chairs[2]
	p := l.Section(r, c.At, c, nil)
	caps, chair := p.Of(plan.CapMetal)[0].Ring, p.Of(plan.ChairMetal)[0].Ring
	lo, hi := chair.Bounds()
	tip := p.Outside
	for _, q := range caps {
		if q.X > p.Outside/2 && q.Y < -in {
			tip = length.Min(tip, q.X)
		}
	}
	hook, snap := p.Sheet.Thickness.Real-lo.X, hi.X-tip
	if math.Abs(hook.Inch()-0.26) > 0.06 || math.Abs(snap.Inch()-(0.59-0.1875)) > 0.1 {
		t.Errorf("drawn, the hook takes %.3f in and the snap %.3f", hook.Inch(), snap.Inch())
	}
	for code, want := range map[plan.Code]length.Length{plan.HookEngaged: hook, plan.SnapEngaged: snap} {
		k, ok := plan.Of(p.Checks, code)
		if d := k.Has - (want - in/32 - in/16); !ok || length.Abs(d) > in/500 || !k.Pass || k.Asked != in/8 {
			t.Errorf("%s: %+v, drawn %.4f in less 3/32", code, k, want.Inch())
		}
	}
}

// What takes hold by less than in the test is held at the report's own line, for each
// width; what no report states is not compared, and said so.
func TestEngagementIsHeld(t *testing.T) {
	tol := &job.Tolerance{Parts: in / 32, Setting: in / 16}
	silent := sampled(t, "rectangle")
	for i := range silent.Assemblies {
		silent.Assemblies[i].Engagement = nil
	}
	for _, c := range []struct {
		name string
		job  *job.Job
		says string
	}{
		{"enough", engaging(t, in/8, in/8, tol), ""},
		{"a hook tested deeper", engaging(t, in/2, in/8, tol), "hook over the drip, less tolerances: asked"},
		{"a snap tested deeper", engaging(t, in/8, in, tol), "snap under the chair's roof side, less tolerances: asked"},
		{"no tolerance", engaging(t, in/8, in/8, nil), "no tolerance stated"},
		{"nothing stated", silent, ""},
	} {
		for i := range c.job.Assemblies {
			if e := c.job.Assemblies[i].Engagement; e != nil {
				e.At.Line = 70 + i
			}
		}
		l, _ := layout.Build(c.job)
		f, held := coded(l, "engagement-short")
		if held != (c.says != "") || held && (!strings.Contains(f.What, c.says) || f.Severity != finding.Hold || f.At.Line < 70 || len(f.Where.Pieces) == 0) {
			t.Errorf("%s: %v %v", c.name, held, f)
		}
		said := false
		for _, s := range l.NotChecked() {
			said = said || strings.Contains(s, "hook and snap take hold")
		}
		if said != (c.job.Assemblies[0].Engagement == nil) {
			t.Errorf("%s: said not to be checked %v", c.name, said)
		}
	}
}
