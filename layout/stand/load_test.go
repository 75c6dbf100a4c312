package stand_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"copingset/layout/length"
	"copingset/layout/stand"
)

func near(a, b float64) bool { return math.Abs(a-b) <= 1e-9*max(1, math.Abs(a), math.Abs(b)) }

// draw a row of hold-downs and loads over and beyond it.
func drawLoads(t *rapid.T) (at []length.Length, loads []stand.Load) {
	x := length.Length(0)
	for range rapid.IntRange(1, 8).Draw(t, "n") {
		x += length.Length(rapid.Int64Range(int64(10*mm), int64(2000*mm)).Draw(t, "bay"))
		at = append(at, x)
	}
	from := at[0] - length.Length(rapid.Int64Range(0, int64(500*mm)).Draw(t, "over"))
	for from < at[len(at)-1] {
		to := from + length.Length(rapid.Int64Range(int64(mm), int64(3000*mm)).Draw(t, "load"))
		loads = append(loads, stand.Load{From: from, To: to, Per: rapid.Float64Range(0, 10).Draw(t, "per")})
		from = to
	}
	return at, loads
}

// What the hold-downs carry sums to the whole load, either way; as a beam its
// moment is held too, about any place.
func TestLoadsSum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at, loads := drawLoads(t)
		var all, moment, share, beam, held float64
		for _, l := range loads {
			f := l.Per * (l.To - l.From).MM()
			all += f
			moment += f * (l.From + l.To).MM() / 2
		}
		for i, c := range stand.Loads(at, loads) {
			share, beam, held = share+c.Share, beam+c.Beam, held+c.Beam*at[i].MM()
		}
		if !near(share, all) || !near(beam, all) || len(at) > 1 && math.Abs(held-moment) > 1e-6*max(1, math.Abs(moment)) {
			t.Fatalf("%v: shares %v, beam %v; moment %v, held %v", all, share, beam, moment, held)
		}
	})
}

func TestLoadsMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at, loads := drawLoads(t)
		n := len(at)
		back, turned := make([]length.Length, n), []stand.Load{}
		for i, x := range at {
			back[n-1-i] = -x
		}
		for _, l := range loads {
			turned = append(turned, stand.Load{From: -l.To, To: -l.From, Per: l.Per})
		}
		a, b := stand.Loads(at, loads), stand.Loads(back, turned)
		for i := range a {
			c := b[n-1-i]
			if !near(a[i].Share, c.Share) || math.Abs(a[i].Beam-c.Beam) > 1e-7*max(1, math.Abs(c.Beam)) {
				t.Fatalf("%v, mirrored %v", a, b)
			}
		}
	})
}
