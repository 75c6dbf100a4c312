package shop_test

import (
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
)

// Metal that would stand in metal is a hold that names its pieces.
func TestBadMetal(t *testing.T) {
	for _, c := range []struct {
		name, code, says string
		set              func(j *job.Job)
	}{
		{"a hemmed hook turned back on its leg", "metal-in-metal", "in one another", func(j *job.Job) {
			p := &j.System.Profile
			p.InsideR, p.HemReturn = in/64, 3*in/8
			p.RearHook.Angle = 165 * job.Degree
		}},
	} {
		j := jobtest.Job()
		j.Shop = tools()
		j.Shop.LeastRadius = in / 64
		j.Perimeters = []job.Perimeter{jobtest.Rectangle(700*in, 420*in)}
		c.set(j)
		l, found := layout.Build(j)
		if found.HasErrors() {
			t.Fatalf("%s: %v", c.name, found)
		}
		seen := false
		for _, f := range l.Findings {
			if f.Code == c.code {
				seen = true
				if f.Severity != finding.Hold || f.Mend == "" || namesItsPieces(t, f) == 0 || !strings.Contains(f.What+f.Why, c.says) {
					t.Errorf("%s: %v", c.name, f)
				}
			}
		}
		if !seen {
			t.Errorf("%s: no %s among %v", c.name, c.code, l.Findings)
		}
	}
}
