package assembly_test

import (
	"strings"
	"testing"

	"copingset/layout/assembly"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/wind"
)

func need(j *job.Job) assembly.Need {
	s := &j.System
	return assembly.Need{Metal: s.Metal.Name, Thickness: s.Metal.Thickness, FrontLeg: s.FrontLeg,
		RearLeg: s.RearLeg, Inside: 13 * length.Inch, Layers: j.Walls[0].Layers}
}

func TestFewestChairsThenCost(t *testing.T) {
	j := jobtest.Job()
	d, _ := wind.Build(j, nil)
	if c := assembly.Choose(j, d, wind.Edge, need(j)); c.Assembly.Name != "T1" || !c.Covers {
		t.Errorf("edge: %s", c.Assembly.Name)
	}
	if c := assembly.Choose(j, d, wind.Corner, need(j)); c.Assembly.Name != "T2" || !c.Covers {
		t.Errorf("corner: %s %v", c.Assembly.Name, c.Fails)
	}
	twin := j.Assemblies[0]
	twin.Name, twin.Cost = "T0", 900
	j.Assemblies = append(j.Assemblies, twin)
	if c := assembly.Choose(j, d, wind.Edge, need(j)); c.Assembly.Name != "T0" {
		t.Errorf("cheaper twin not taken: %s", c.Assembly.Name)
	}
}

// Demand and resistance are compared at one level.
func TestLevels(t *testing.T) {
	j := jobtest.Job()
	// Strength 3000 Pa is 1800 allowable; as-pulled 3600 over 2 is 1800: covered.
	j.Pressures.Edge.Up = job.Pressure{Pa: 3000, Level: job.Strength}
	d, _ := wind.Build(j, nil)
	c := assembly.Choose(j, d, wind.Edge, need(j))
	if c.Assembly.Name != "T1" || c.UpDemand != 1800 || c.UpResists != 1800 {
		t.Errorf("%s: %v against %v", c.Assembly.Name, c.UpDemand, c.UpResists)
	}
	// The same number stated as allowable is not, and asks for the stronger one.
	j.Pressures.Edge.Up = job.Pressure{Pa: 3000, Level: job.Allowable}
	d, _ = wind.Build(j, nil)
	if c := assembly.Choose(j, d, wind.Edge, need(j)); c.Assembly.Name != "T2" || !c.Covers {
		t.Errorf("%s covers 3000 Pa allowable: %v", c.Assembly.Name, c.Covers)
	}
	// As-pulled 7600 over 2 is 3800.
	j.Pressures.Edge.Up = job.Pressure{Pa: 3801, Level: job.Allowable}
	d, _ = wind.Build(j, nil)
	if c := assembly.Choose(j, d, wind.Edge, need(j)); c.Covers {
		t.Errorf("%s covers 3801 Pa allowable", c.Assembly.Name)
	}
	// An allowable resistance has its factor taken already.
	if got := assembly.AllowablePa(job.Pressure{Pa: 1400, Level: job.Allowable}, 2); got != 1400 {
		t.Errorf("allowable resistance %v", got)
	}
}

func TestEveryReasonIsGiven(t *testing.T) {
	j := jobtest.Job()
	n := need(j)
	j.System.Profile.FrontLeg.Length, j.System.Profile.RearLeg.Length = 8*length.Inch, 5*length.Inch
	n.Metal, n.Inside = "zinc", 40*length.Inch
	n.Thickness = length.Inch / 100
	n.Layers = []job.Layer{{Material: job.Concrete, Thickness: length.Foot}}
	d, _ := wind.Build(j, nil)
	c := assembly.Choose(j, d, wind.Corner, n)
	if c.Covers || c.Assembly.Name != "T2" {
		t.Fatalf("%+v", c)
	}
	all := strings.Join(c.Fails, "\n")
	for _, w := range []string{"T1: tested in aluminum", "metal and up", "street-side leg", "roof-side leg", "width tested",
		"tested in wood", "T1: resists"} {
		if !strings.Contains(all, w) {
			t.Errorf("no reason %q in:\n%s", w, all)
		}
	}
}
