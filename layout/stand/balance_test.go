package stand_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"copingset/layout/length"
	"copingset/layout/stand"
)

// Three feet are determinate: moments about each side give what the opposite one
// holds. What only bears never pulls, and what it would have held the others do.
func TestBalance(t *testing.T) {
	p := func(x, y float64) stand.Point { return stand.Point{X: x, Y: y} }
	for _, c := range []struct {
		name string
		feet []stand.Foot
		at   stand.Point
		want []float64
		off  float64
		ok   bool
	}{
		{"three", []stand.Foot{{p(0, 0), true}, {p(4, 0), true}, {p(0, 4), true}}, p(1, 2), []float64{1, 1, 2}, 0, true},
		{"two on a line", []stand.Foot{{p(0, 0), true}, {p(4, 0), true}}, p(1, 0), []float64{3, 1}, 0, true},
		{"two, pulled beside their line", []stand.Foot{{p(0, 0), true}, {p(4, 0), true}}, p(1, 2), []float64{0, 0}, 2, false},
		{"two and one that only bears where it would pull",
			[]stand.Foot{{p(0, 0), true}, {p(4, 0), true}, {p(0, 4), false}}, p(1, 2), []float64{0, 0, 0}, 2, false},
		{"pried over by what bears", []stand.Foot{{p(0, 0), true}, {p(4, 0), true}, {p(2, -2), false}}, p(2, 1), []float64{3, 3, -2}, 1, false},
		{"none", nil, p(0, 0), nil, math.Inf(1), false},
	} {
		b := stand.Balance(c.feet, stand.Pull{N: 4, At: c.at})
		if b.OK != c.ok || b.Off != c.off {
			t.Errorf("%s: %+v", c.name, b)
		}
		for i, f := range c.want {
			if math.Abs(b.Forces[i]-f) > 1e-9 {
				t.Errorf("%s: %v, want %v", c.name, b.Forces, c.want)
			}
		}
	}
}

// What is balanced sums to the pull in force, and in both moments to a hundredth of
// a millimetre of its arm, which is what counts as on a line.
func TestBalanceSums(t *testing.T) {
	at := rapid.Custom(func(t *rapid.T) stand.Point {
		return stand.Point{X: rapid.Float64Range(-2000, 2000).Draw(t, "x"), Y: rapid.Float64Range(-2000, 2000).Draw(t, "y")}
	})
	rapid.Check(t, func(t *rapid.T) {
		var feet []stand.Foot
		for range rapid.IntRange(1, 8).Draw(t, "feet") {
			feet = append(feet, stand.Foot{At: at.Draw(t, "at"), Holds: rapid.Bool().Draw(t, "holds")})
		}
		up := stand.Pull{N: rapid.Float64Range(1, 5000).Draw(t, "n"), At: at.Draw(t, "up")}
		b := stand.Balance(feet, up)
		if !b.OK {
			return
		}
		var f, x, y float64
		for i, q := range feet {
			if !q.Holds && b.Forces[i] > 1e-6*up.N {
				t.Fatalf("what only bears pulls: %v", b.Forces)
			}
			f, x, y = f+b.Forces[i], x+b.Forces[i]*q.At.X, y+b.Forces[i]*q.At.Y
		}
		size := 0.0
		for _, g := range b.Forces {
			size = max(size, math.Abs(g))
		}
		if math.Abs(f-up.N) > 1e-6*max(up.N, size) || math.Abs(x-up.N*up.At.X) > 0.011*max(up.N, size) || math.Abs(y-up.N*up.At.Y) > 0.011*max(up.N, size) {
			t.Fatalf("%v of %v: %v %v %v", b.Forces, up, f, x, y)
		}
	})
}

// An outside corner of two legs of 27 in under caps of 12.6 in, held by the chairs
// at its leg ends alone: by hand its centroid lies 11.0 in from both faces, and
// the line through the chairs crosses there at 16.7.
func TestCornerOnItsLegEnds(t *testing.T) {
	const w, leg, chair = 12.6, 27., 27.16
	ring := []stand.Point{{-leg, 0}, {0, 0}, {0, leg}, {-w, leg}, {-w, w}, {-leg, w}}
	up := stand.Uplift([]stand.Patch{{Ring: ring, Pa: 1e6}})
	whole := leg*w*2 - w*w
	arm := (leg*w*leg/2 + (leg-w)*w*w/2) / whole
	if !near(up.N, whole) || !near(up.At.X, -arm) || math.Abs(arm-11) > 0.1 {
		t.Fatalf("%v, %v and %v by hand", up, whole, arm)
	}
	ends := []stand.Foot{{stand.Point{-chair, w / 2}, true}, {stand.Point{-w / 2, chair}, true}}
	b := stand.Balance(ends, up)
	if by := math.Sqrt2 * ((chair+w/2)/2 - arm); b.OK || math.Abs(b.Off-by) > 1e-9 || math.Abs(by-8) > 0.2 {
		t.Errorf("%v, %v by hand", b, by)
	}
	ends = append(ends, stand.Foot{At: stand.Point{X: -4.4, Y: 4.4}, Holds: true})
	if b = stand.Balance(ends, up); !b.OK || !near(b.Forces[0], b.Forces[1]) {
		t.Errorf("%v", b)
	}
}

// The bay round a miter: two legs of 36 in, chairs no nearer than 19 in. By hand:
// 46 in is more than 19 + 19, so each has one and may stand 23 in off; 37 in is
// less, and the least is 38.
func TestRound(t *testing.T) {
	leg := stand.Part{Spacing: 46 * in, Chair: 13 * in, Ends: [2]stand.End{{Near: 19 * in}, {Edge: 36 * in, At: 36*in + 5*in/32, Chair: true}}}
	other := leg
	other.Ends = [2]stand.End{{At: -5 * in / 32, Chair: true}, {Edge: 36 * in, At: 36 * in, Near: 19 * in}}
	out, _, ok := stand.Round([2]stand.Part{other, leg}, 46*in, g16, false)
	if !ok || out[0].Ends[1].Far != 23*in || out[1].Ends[0].Far != 23*in {
		t.Errorf("%+v %v", out, ok)
	}
	for i, want := range []length.Length{36*in - 23*in, 23 * in} {
		r, why := stand.Row(out[i], g16)
		if why != stand.Stands || len(r.At) != 1 || length.Abs(r.At[0]-want) > 23*in-18*in {
			t.Errorf("%v %v", r, why)
		}
	}
	if _, closest, ok := stand.Round([2]stand.Part{other, leg}, 37*in, g16, false); ok || length.Abs(closest-38*in) > g16 {
		t.Errorf("%v %v", closest, ok)
	}
	// 72 in of metal is within 80: no chair is needed.
	out, _, _ = stand.Round([2]stand.Part{other, leg}, 80*in, g16, false)
	if r, why := stand.Row(out[0], g16); why != stand.Stands || len(r.At) > 0 {
		t.Errorf("%v %v", r, why)
	}
}
