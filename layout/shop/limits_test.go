package shop_test

import (
	"math"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

// At each limit of the shop a job passes, and a hair beyond it is held, with
// the words a fabricator needs and, where pieces differ, each piece named.
func TestLimits(t *testing.T) {
	const hair = in / 1000
	build := func(set func(*job.Job)) (*layout.Layout, finding.List) {
		j := jobtest.Job()
		j.Shop = tools()
		j.Perimeters = []job.Perimeter{jobtest.Rectangle(700*in, 420*in)}
		set(j)
		l, found := layout.Build(j)
		if found.HasErrors() {
			t.Fatal(found)
		}
		return l, found
	}
	plain, _ := build(func(*job.Job) {})
	var girth length.Length
	for _, f := range plain.Families {
		for _, b := range f.Bodies {
			girth = max(girth, b.Girth)
		}
	}
	// The greatest radius at which the hook, turned 150 degrees at one edge and
	// hemmed at the other, has room for both: (r + t) tan 75 + t is its depth.
	thick, hook := plain.Job.System.Metal.Thickness, plain.Job.System.Profile.RearHook.Length
	tight := length.FromMM(math.Floor((hook-thick).MM()/math.Tan(75*math.Pi/180)*1000)/1000) - thick

	cases := []struct {
		code  string
		set   func(j *job.Job, over length.Length) // over the limit by so much, or at it
		names bool
		says  []string
	}{
		{"flange-too-short", func(j *job.Job, over length.Length) { j.Shop.LeastFlange = in/2 + over }, true, []string{`drip is 0'-0 1/2"`, "the brake holds no less than"}},
		{"bends-meet", func(j *job.Job, over length.Length) {
			j.System.Profile.RearLeg.To = job.ToMoldLine
			j.System.Profile.HemReturn, j.System.Profile.InsideR = in/4, tight+over
		}, true, []string{"hook is ", "its bends take"}},
		{"hem-too-deep", func(j *job.Job, over length.Length) { j.System.Profile.HemReturn = in/2 + over }, false, []string{"the hem returns", `0'-0 1/2" (13 mm) on a `}},
		// The leaf is its return less T, the hook's flat its depth less R + T and the fold's T.
		{"hem-over-bend", func(j *job.Job, over length.Length) { j.System.Profile.HemReturn = hook - thick - in/16 + over }, true, []string{"the hem leaf lies", "long on the hook", "before its bend begins"}},
		{"radius-under-least", func(j *job.Job, over length.Length) { j.Shop.LeastRadius = j.System.Profile.InsideR + over }, false, []string{"1/16", "under the least this metal takes"}},
		{"longer-than-brake", func(j *job.Job, over length.Length) { j.Shop.Brake = j.System.Stock - over*40 }, true, []string{"bends over", "the brake takes"}},
		{"no-sheet", func(j *job.Job, over length.Length) { j.Shop.Sheets[0].Width = girth + 2*j.Shop.EdgeTrim - over }, true, []string{"the blank of the", "no sheet takes it"}},
		{"bend-over-most", func(j *job.Job, over length.Length) {
			j.Shop.MostTurn = j.System.Profile.RearHook.Angle
			if over > 0 {
				j.Shop.MostTurn--
			}
		}, false, []string{"further than the brake bends"}},
	}
	for _, c := range cases {
		t.Run(c.code, func(t *testing.T) {
			_, found := build(func(j *job.Job) { c.set(j, 0) })
			for _, f := range found {
				if f.Code == c.code {
					t.Errorf("at the limit: %v", f)
				}
			}
			l, found := build(func(j *job.Job) { c.set(j, hair) })
			n, named, held := 0, 0, 0
			for _, f := range found {
				if f.Code != c.code {
					continue
				}
				n++
				if f.Severity != finding.Hold || f.Mend == "" {
					t.Errorf("%v is no hold, or does not say how to mend it", f)
				}
				for _, s := range c.says {
					if !strings.Contains(f.What, s) {
						t.Errorf("%q does not say %q", f.What, s)
					}
				}
				if c.names {
					named += namesItsPieces(t, f)
				}
			}
			for _, p := range l.Perimeters {
				for _, q := range p.Pieces {
					if !l.Held.Released(q) {
						held++
					}
				}
			}
			if n == 0 || held == 0 {
				t.Errorf("beyond the limit: %d findings, %d pieces held", n, held)
			}
		})
	}
}
