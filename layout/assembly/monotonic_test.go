package assembly_test

import (
	"testing"

	"copingset/layout/assembly"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/wind"

	"pgregory.net/rapid"
)

// More demand never picks a weaker assembly: the same one, or one that resists
// more in a direction in which the other falls short, and never fewer chairs.
func TestMoreDemandNeverPicksAWeaker(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := jobtest.Job()
		n := func(lo, hi int, what string) float64 { return float64(rapid.IntRange(lo, hi).Draw(t, what)) }
		base := j.Assemblies[0]
		j.Assemblies = nil
		for range rapid.IntRange(1, 6).Draw(t, "assemblies") {
			a := base
			a.ChairSpacing = length.Length(n(13, 60, "spacing")) * length.Inch
			a.Up.Pa, a.Out.Pa, a.Cost = n(500, 8000, "up"), n(500, 8000, "out"), int64(n(0, 3, "cost"))
			j.Assemblies = append(j.Assemblies, a)
		}
		demand := func(up, out float64) wind.Demand {
			d := wind.Demand{Computed: rapid.Bool().Draw(t, "computed")}
			d.Stated = !d.Computed
			d.Up[wind.Edge] = job.Pressure{Pa: up, Level: job.Strength}
			d.Out[wind.Edge] = job.Pressure{Pa: out, Level: job.Strength}
			return d
		}
		up, out := n(100, 5000, "demand up"), n(100, 5000, "demand out")
		first := assembly.Choose(j, demand(up, out), wind.Edge, need(j))
		more := assembly.Choose(j, demand(up+n(0, 2000, "more up"), out+n(0, 2000, "more out")), wind.Edge, need(j))
		switch {
		case !more.Covers: // held
		case !first.Covers:
			t.Fatalf("covers more demand and not less")
		case more.Assembly == first.Assembly:
		case more.UpResists <= first.UpResists && more.OutResists <= first.OutResists:
			t.Fatalf("%.0f up and %.0f out for more demand, %.0f and %.0f for less", more.UpResists, more.OutResists, first.UpResists, first.OutResists)
		}
		if more.Covers {
			bays := func(a *job.Assembly) length.Length { return (j.System.Stock + a.ChairSpacing - 1) / a.ChairSpacing }
			if bays(more.Assembly) < bays(first.Assembly) {
				t.Fatalf("fewer chairs for more demand")
			}
		}
	})
}
