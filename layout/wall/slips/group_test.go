package slips

import (
	"math"
	"math/rand/v2"
	"testing"

	"copingset/layout/length"
	"copingset/layout/length/draws"
)

// A plausible wall has no group of readings that stands apart from all the rest.
func TestTogetherLeavesPlausibleWallsAlone(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 2))
	for range draws.Times(5000) {
		v := noisy(r, 8+r.IntN(43), math.Abs(r.NormFloat64())/8)
		if f := Together(v, in); f != nil {
			t.Fatalf("%v of %v", f, v)
		}
	}
}

func TestTogether(t *testing.T) {
	flat := func(change ...length.Length) []Value {
		v := make([]Value, 12)
		for i := range v {
			v[i] = Value{length.Length(i) * 30 * in, 12 * in}
		}
		for i, d := range change {
			v[i].V += d
		}
		return v
	}
	const z = 0
	cases := []struct {
		name string
		v    []Value
		from int
		n    int
	}{
		{"flat", flat(), 0, 0},
		{"two", flat(z, z, z, 4*in, 4*in), 3, 2},
		{"three", flat(z, z, z, -4*in, -4*in, -4*in), 3, 3},
		{"one is a matter of Find", flat(z, z, z, 4*in), 0, 0},
		{"four are a bay of the wall", flat(z, z, z, 4*in, 4*in, 4*in, 4*in), 0, 0},
		{"less than an inch", flat(z, z, z, in, in), 0, 0},
		{"the rest is spread as far", flat(z, z, z, 4*in, 4*in, z, z, -4*in), 0, 0},
		{"at the end, where a wall may go on so", flat(z, 4*in, 4*in), 0, 0},
		{"a step", flat(z, z, z, z, z, z, z, z, z, z, 4*in, 4*in), 0, 0},
	}
	for _, c := range cases {
		f := Together(c.v, in)
		if len(f) != c.n || c.n > 0 && f[0].Index != c.from {
			t.Errorf("%s: %v", c.name, f)
		}
		for _, q := range f {
			if q.Expected != 12*in {
				t.Errorf("%s: expected %v", c.name, q.Expected)
			}
		}
	}
}
