package setplane_test

import (
	"math"
	"math/big"
	"slices"
	"testing"

	"copingset/layout/length"
	"copingset/layout/wall/setplane"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"
	"pgregory.net/rapid"
)

const (
	in   = length.Inch
	grid = length.Inch16
)

type (
	run   = setplane.Run
	point = setplane.Point
)

func pts(v ...length.Length) []point {
	var out []point
	for i := 0; i < len(v); i += 2 {
		out = append(out, point{At: v[i], Least: v[i+1]})
	}
	return out
}

func TestSolve(t *testing.T) {
	for _, c := range []struct {
		name   string
		runs   []run
		closed bool
		want   []length.Length
	}{
		{"level: the greatest reading serves all",
			[]run{{Length: 100 * in, Points: pts(0, 0, 50*in, 3*in)}, {Length: 80 * in, Points: pts(10*in, in)}}, true, []length.Length{3 * in, 3 * in}},
		{"one run follows a slope its grade allows",
			[]run{{Length: 100 * in, Points: pts(0, 0, 100*in, 2*in), Rise: 2 * in}}, false, []length.Length{0, 2 * in}},
		{"a steeper wall is packed at its low end",
			[]run{{Length: 100 * in, Points: pts(0, 0, 100*in, 4*in), Rise: in}}, false, []length.Length{3 * in, 4 * in}},
		// A hump in the middle can be cleared by any line through it; the mean of
		// the steepest either way is level.
		{"a hump is cleared level",
			[]run{{Length: 100 * in, Points: pts(0, 0, 50*in, 2*in, 100*in, 0), Rise: 4 * in}}, false, []length.Length{2 * in, 2 * in}},
		// The same hump off the middle: the far end sinks, the near one is low at the wall.
		{"a hump at a quarter tilts the surface",
			[]run{{Length: 100 * in, Points: pts(25*in, 4*in, 100*in, 0), Rise: 100 * in}}, false, []length.Length{16 * in / 3, 0}},
		{"two runs fall away from the corner between them",
			[]run{{Length: 96 * in, Points: pts(0, 0, 96*in, in), Rise: in}, {Length: 48 * in, Points: pts(0, in, 48*in, 0), Rise: in / 2}}, false,
			[]length.Length{0, in, in / 2}},
		// Round a loop, one high corner: each neighbour sinks by its run's rise.
		{"a loop with one high corner",
			[]run{{Length: 100 * in, Points: pts(0, 2*in, 100*in, 0), Rise: in}, {Length: 50 * in, Points: pts(0, 0, 50*in, 0), Rise: in},
				{Length: 100 * in, Points: pts(0, 0, 100*in, 0), Rise: in}, {Length: 50 * in, Points: pts(0, 0, 50*in, 2*in), Rise: in}}, true,
			[]length.Length{2 * in, in, 0, in}},
		{"runs without readings take what their neighbours leave them",
			[]run{{Length: 100 * in, Points: pts(0, 0, 100*in, in), Rise: in}, {Length: 100 * in, Rise: in / 2}}, false, []length.Length{0, in, in / 2}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, ok := setplane.Solve(c.runs, c.closed, grid)
			if !ok {
				t.Fatal("no surface")
			}
			want := make([]length.Length, len(c.want))
			for i, w := range c.want {
				want[i] = length.CeilTo(w, grid)
			}
			if !slices.Equal(s.Heights, want) {
				t.Fatalf("heights %v, want %v", s.Heights, want)
			}
		})
	}
	if _, ok := setplane.Solve([]run{{Length: in}}, false, grid); ok {
		t.Fatal("a surface over nothing")
	}
}

func TestHull(t *testing.T) {
	got := setplane.Hull(pts(30*in, 0, 0, in, 10*in, 3*in, 20*in, 2*in, 30*in, in/2, 15*in, 5*in/2, 0, 0))
	if want := pts(0, in, 10*in, 3*in, 20*in, 2*in, 30*in, in/2); !slices.Equal(got, want) {
		t.Fatalf("hull %v, want %v", got, want)
	}
}

// random draws a chain. With few sizes ties are common.
func random(t *rapid.T, most int) ([]run, bool) {
	closed := rapid.Bool().Draw(t, "closed")
	n := rapid.IntRange(1, most).Draw(t, "runs")
	if closed {
		n = max(n, 2)
	}
	var runs []run
	for range n {
		feet := rapid.IntRange(1, 12).Draw(t, "length")
		r := run{Length: length.Length(feet) * length.Foot, Rise: length.Length(rapid.IntRange(0, 24).Draw(t, "rise")) * grid,
			OneWay: rapid.SampledFrom([]int{0, 0, 0, 1, -1}).Draw(t, "one way")}
		for range rapid.IntRange(0, 5).Draw(t, "points") {
			r.Points = append(r.Points, point{
				At:    length.Length(rapid.IntRange(0, feet*4).Draw(t, "at")) * 3 * in,
				Least: length.Length(rapid.IntRange(-24, 24).Draw(t, "least")) * grid,
			})
		}
		runs = append(runs, r)
	}
	if !slices.ContainsFunc(runs, func(r run) bool { return len(r.Points) > 0 }) {
		runs[0].Points = pts(0, 0)
	}
	return runs, closed
}

// mirrored reverses a chain.
func mirrored(runs []run) []run {
	var out []run
	for _, r := range runs {
		q := run{Length: r.Length, Rise: r.Rise, OneWay: -r.OneWay}
		for _, p := range r.Points {
			q.Points = append(q.Points, point{At: r.Length - p.At, Least: p.Least})
		}
		out = append(out, q)
	}
	slices.Reverse(out)
	return out
}

// check holds a surface to what it promises: cleared everywhere, no steeper
// than allowed, rounded up by less than a step, mirrored exactly.
func check(t interface{ Fatalf(string, ...any) }, runs []run, closed bool) setplane.Surface {
	s, ok := setplane.Solve(runs, closed, grid)
	if !ok {
		t.Fatalf("no surface")
	}
	n := len(s.Heights)
	if n != setplane.Corners(len(runs), closed) {
		t.Fatalf("%d heights for %d runs", n, len(runs))
	}
	for i, r := range runs {
		k := (i + 1) % n
		for _, h := range [][2]*big.Rat{{s.Exact[i], s.Exact[k]}, {rat(s.Heights[i]), rat(s.Heights[k])}} {
			for _, p := range r.Points {
				left := new(big.Rat).Mul(h[0], rat(r.Length-p.At))
				left.Add(left, new(big.Rat).Mul(h[1], rat(p.At)))
				if left.Cmp(new(big.Rat).Mul(rat(p.Least), rat(r.Length))) < 0 {
					t.Fatalf("run %d: the surface %v lies below %v", i, s.Heights, p)
				}
			}
			d := new(big.Rat).Sub(h[0], h[1])
			if r.OneWay*d.Sign() > 0 {
				t.Fatalf("run %d goes the wrong way: %v", i, s.Heights)
			}
			if d.Abs(d).Cmp(rat(r.Rise)) > 0 {
				t.Fatalf("run %d rises by %v, allowed %v", i, d, r.Rise)
			}
		}
	}
	for i, h := range s.Heights {
		up := new(big.Rat).Sub(rat(h), s.Exact[i])
		if up.Sign() < 0 || up.Cmp(rat(grid)) >= 0 {
			t.Fatalf("corner %d: %v was taken up to %v", i, s.Exact[i], h)
		}
	}
	m, _ := setplane.Solve(mirrored(runs), closed, grid)
	for i, h := range m.Heights {
		k := n - 1 - i
		if closed {
			k = (n - i) % n
		}
		if h != s.Heights[k] || m.Exact[i].Cmp(s.Exact[k]) != 0 {
			t.Fatalf("the mirrored chain gives %v, not the mirror of %v", m.Heights, s.Heights)
		}
	}
	return s
}

func rat(l length.Length) *big.Rat { return new(big.Rat).SetInt64(int64(l)) }

// oracle solves the same task by the simplex method, in floating inches, with
// heights over one lower than any corner can have.
func oracle(t interface{ Fatalf(string, ...any) }, runs []run, closed bool) float64 {
	n := setplane.Corners(len(runs), closed)
	c := make([]float64, n)
	var rows [][]float64
	var rhs []float64
	base, total := 0.0, 0.0
	for _, r := range runs {
		base -= r.Rise.Inch()
		for _, p := range r.Points {
			base = min(base, p.Least.Inch())
		}
	}
	base *= float64(len(runs) + 1)
	add := func(b float64, at ...float64) { // pairs of place and value; row · x <= b
		row := make([]float64, n)
		for i := 0; i < len(at); i += 2 {
			row[int(at[i])] += at[i+1]
		}
		rows, rhs = append(rows, row), append(rhs, b)
	}
	for i, r := range runs {
		a, b := float64(i), float64((i+1)%n)
		l := r.Length.Inch()
		c[i] += l / 2
		c[(i+1)%n] += l / 2
		total += l * base
		for _, p := range r.Points {
			s := p.At.Inch() / l
			add(base-p.Least.Inch(), a, -(1 - s), b, -s)
		}
		up, down := r.Rise.Inch(), r.Rise.Inch()
		if r.OneWay > 0 {
			down = 0
		} else if r.OneWay < 0 {
			up = 0
		}
		add(down, a, 1, b, -1)
		add(up, a, -1, b, 1)
	}
	// Its dual, whose slacks are a first answer: the most that rows · heights
	// <= rhs add up to with weights no corner's cost falls short of.
	m := len(rows)
	full := mat.NewDense(n, m+n, nil)
	cost := make([]float64, m+n)
	slack := make([]int, n)
	for k, r := range rows {
		cost[k] = rhs[k]
		for i, v := range r {
			full.Set(i, k, -v)
		}
	}
	for i := range n {
		full.Set(i, m+i, 1)
		slack[i] = m + i
	}
	z, _, err := lp.Simplex(cost, full, c, 1e-9, slack)
	if err != nil {
		t.Fatalf("simplex: %v", err)
	}
	return total - z
}

func TestAgainstSimplex(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		runs, closed := random(t, 6)
		s := check(t, runs, closed)
		got, _ := setplane.Area(runs, s.Exact).Float64()
		got /= float64(in) * float64(in)
		if want := oracle(t, runs, closed); math.Abs(got-want) > 1e-6*(1+math.Abs(want)) {
			t.Fatalf("packed %v, the simplex method %v", got, want)
		}
	})
}

// TestAgainstEveryHeight tries every height of the corners of short chains on
// the grid: none packs less than the exact answer, and the one taken up to the
// grid packs no more than a step over the best of them.
func TestAgainstEveryHeight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		runs, closed := random(t, 2)
		for i := range runs {
			runs[i].Rise = length.Min(runs[i].Rise, 6*grid)
			for k := range runs[i].Points {
				runs[i].Points[k].Least /= 3
				runs[i].Points[k].Least = length.CeilTo(runs[i].Points[k].Least, grid)
			}
		}
		s := check(t, runs, closed)
		n := len(s.Heights)
		var best *big.Rat
		at := make([]length.Length, n)
		var try func(int)
		try = func(i int) {
			if i < n {
				for h := -20 * grid; h <= 20*grid; h += grid {
					at[i] = h
					try(i + 1)
				}
				return
			}
			exact := make([]*big.Rat, n)
			for k := range exact {
				exact[k] = rat(at[k])
			}
			for k, r := range runs {
				a, b := at[k], at[(k+1)%n]
				if length.Abs(a-b) > r.Rise || length.Length(r.OneWay)*(b-a) < 0 {
					return
				}
				for _, p := range r.Points {
					if (a-p.Least)*((r.Length-p.At)/in)+(b-p.Least)*(p.At/in) < 0 {
						return
					}
				}
			}
			if area := setplane.Area(runs, exact); best == nil || area.Cmp(best) < 0 {
				best = area
			}
		}
		try(0)
		if best == nil {
			return
		}
		exact := setplane.Area(runs, s.Exact)
		if exact.Cmp(best) > 0 {
			t.Fatalf("heights %v pack more than %v", s.Heights, at)
		}
		up := make([]*big.Rat, n)
		total := length.Length(0)
		for i, h := range s.Heights {
			up[i] = rat(h)
		}
		for _, r := range runs {
			total += r.Length
		}
		bound := new(big.Rat).Add(exact, new(big.Rat).Mul(rat(total), rat(grid)))
		if setplane.Area(runs, up).Cmp(bound) > 0 {
			t.Fatalf("heights %v pack a step or more over the least", s.Heights)
		}
	})
}

// long is a chain of many runs of fifty readings, the same every time.
func long(n int) []run {
	x := uint32(12345)
	next := func(most int) length.Length {
		x = x*1664525 + 1013904223
		return length.Length(int(x>>8) % most)
	}
	var runs []run
	for range n {
		feet := 20 + next(80)
		r := run{Length: feet * length.Foot, Rise: feet * in / 16}
		for k := range length.Length(50) {
			r.Points = append(r.Points, point{At: length.RoundTo(r.Length*k/49, grid), Least: next(33) * grid})
		}
		runs = append(runs, r)
	}
	return runs
}

func TestLong(t *testing.T) {
	for _, n := range []int{4, 60, 200} {
		check(t, long(n), true)
		check(t, long(n), false)
	}
}

func BenchmarkSolve(b *testing.B) {
	for _, n := range []int{4, 12, 60, 200} {
		runs := long(n)
		for _, c := range []struct {
			name   string
			closed bool
		}{{"open", false}, {"closed", true}} {
			b.Run(c.name+"-"+big.NewInt(int64(n)).String(), func(b *testing.B) {
				for b.Loop() {
					setplane.Solve(runs, c.closed, grid)
				}
			})
		}
	}
}
