package cut

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"copingset/layout/length"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"
	"pgregory.net/rapid"
)

// everyPattern lists all patterns that take no more of a kind than is wanted.
func everyPattern(p *problem) []pattern {
	var out []pattern
	for s, st := range p.stocks {
		var visit func(k int, room int64, of []take)
		visit = func(k int, room int64, of []take) {
			if k == len(p.types) {
				if len(of) > 0 {
					out = append(out, pattern{s, slices.Clone(of)})
				}
				return
			}
			for n := 0; n <= p.types[k].demand && int64(n)*p.types[k].weight <= room; n++ {
				next := of
				if n > 0 {
					next = append(slices.Clone(of), take{k, n})
				}
				visit(k+1, room-int64(n)*p.types[k].weight, next)
			}
		}
		visit(0, st.capacity, nil)
	}
	return out
}

// dense solves the same programme by gonum's simplex, over all patterns.
func dense(p *problem) (float64, int, error) {
	all := everyPattern(p)
	var limits []int
	for i, s := range p.stocks {
		if limited(s.count) {
			limits = append(limits, i)
		}
	}
	rows := len(p.types) + len(limits)
	a := mat.NewDense(rows, len(all)+rows, nil)
	c, b := make([]float64, len(all)+rows), make([]float64, rows)
	for j, q := range all {
		c[j] = float64(p.stocks[q.stock].price)
		for _, t := range q.of {
			a.Set(t.kind, j, float64(t.n))
		}
		if at := slices.Index(limits, q.stock); at >= 0 {
			a.Set(len(p.types)+at, j, 1)
		}
	}
	for k, t := range p.types {
		b[k] = float64(t.demand)
		a.Set(k, len(all)+k, -1)
	}
	for i, s := range limits {
		b[len(p.types)+i] = float64(p.stocks[s].count)
		a.Set(len(p.types)+i, len(all)+len(p.types)+i, 1)
	}
	v, _, err := lp.Simplex(c, a, b, 1e-9, nil)
	return v, len(all), err
}

// Our programme, its columns found as they are wanted, has the value of the
// programme over all patterns; where gonum gives up it is passed over.
func TestProgrammeAgainstAllPatterns(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 3))
	checked, failed := 0, 0
	for draw := range 60 {
		stocks := []Stock{{Length: 60 * in, Price: 1000003}, {Length: length.Length(35+r.IntN(20)) * in, Price: int64(600000 + r.IntN(300000))}}[:1+draw%2]
		if draw%3 == 0 {
			stocks = append(stocks, Stock{Length: 40 * in, Price: int64(r.IntN(500000)), Count: 1 + r.IntN(3)})
		}
		var items []Item
		for range 2 + r.IntN(5) {
			items = append(items, Item{length.Length(12+r.IntN(40)) * in, 1 + r.IntN(6)})
		}
		p, err := newProblem(stocks, items, Rules{Kerf: in / 8})
		if err != nil {
			t.Fatal(err)
		}
		p.step = 1 // so that the programme does not stop before its optimum
		demand, counts := p.wanted()
		m := newMaster(p, demand, counts, new([]pattern), false)
		m.enough = math.MaxInt64
		m.run(math.MaxInt)
		want, patterns, err := dense(p)
		if err != nil {
			failed++
			t.Logf("draw %d: gonum, %d patterns: %v", draw, patterns, err)
			continue
		}
		checked++
		if d := m.value() - want; math.Abs(d) > 2 || float64(m.bound) > want+1 {
			t.Errorf("draw %d: value %.3f, bound %d; over all %d patterns %.3f", draw, m.value(), m.bound, patterns, want)
		}
	}
	if checked < 40 {
		t.Errorf("only %d programmes compared, %d failed in gonum", checked, failed)
	}
}

// The inverse in factors turns each column of its matrix into a unit, and rows
// times the matrix back into the rows.
func TestBasisInverts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 9).Draw(t, "rows")
		columns := make([]column, n)
		for j := range columns {
			for r := range n {
				if v := rapid.SampledFrom([]int{0, 0, 0, 1, 2, 3}).Draw(t, "entry"); v != 0 || r == j {
					columns[j].rows = append(columns[j].rows, int32(r))
					columns[j].of = append(columns[j].of, float64(max(v, 1)))
				}
			}
		}
		a := mat.NewDense(n, n, nil)
		for j, c := range columns {
			for i, r := range c.rows {
				a.Set(int(r), j, c.of[i])
			}
		}
		b := basis{n: n}
		placed, ok := b.invert(columns)
		if ok == (math.Abs(mat.Det(a)) < 1e-6) {
			t.Fatalf("invertible: %v, determinant %g", ok, mat.Det(a))
		}
		for r := range placed {
			v := make([]float64, n)
			for i, q := range placed[r].rows {
				v[q] = placed[r].of[i]
			}
			b.solve(v)
			e := make([]float64, n)
			e[r] = 1
			b.solveRow(e) // row r of the inverse
			for i := range n {
				want, times := 0.0, 0.0
				if i == r {
					want = 1
				}
				for k, q := range placed[i].rows {
					times += e[q] * placed[i].of[k]
				}
				if math.Abs(v[i]-want) > 1e-6 || math.Abs(times-want) > 1e-6 {
					t.Fatalf("column of row %d comes out %v; row %d times column %d is %g", r, v, r, i, times)
				}
			}
		}
	})
}

// Coarse or exact, no filling passes the uppers, and all fit and are worth what
// they say.
func TestFillings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		fine := rapid.SampledFrom([]int64{1, 999983}).Draw(t, "fine")
		p := &problem{stocks: []bar{{capacity: 100 * fine}, {index: 1, capacity: 70 * fine}}}
		var goods []good
		for k := range rapid.IntRange(1, 5).Draw(t, "kinds") {
			w := rapid.Int64Range(10*fine, 90*fine).Draw(t, "weight")
			p.types = append(p.types, kind{weight: w, demand: rapid.IntRange(1, 3).Draw(t, "demand")})
			goods = append(goods, good{k, w, rapid.Int64Range(0, 1000).Draw(t, "value"), p.types[k].demand})
		}
		o := p.fillings(goods, rapid.Bool().Draw(t, "exact"))
		for _, q := range everyPattern(p) {
			v := int64(0)
			for _, x := range q.of {
				v += goods[x.kind].value * int64(x.n)
			}
			if v > o.uppers[q.stock] {
				t.Fatalf("filling %v is worth %d, over %d", q, v, o.uppers[q.stock])
			}
		}
		best := make([]int64, len(p.stocks))
		for _, f := range o.fillings {
			var w, v int64
			for _, x := range o.of(f) {
				if x.n > goods[x.kind].most {
					t.Fatalf("%v takes more than is wanted", o.of(f))
				}
				w += goods[x.kind].weight * int64(x.n)
				v += goods[x.kind].value * int64(x.n)
			}
			if w > p.stocks[f.stock].capacity || v != f.value {
				t.Fatalf("filling %v of %v: weight %d, value %d", f, o.of(f), w, v)
			}
			best[f.stock] = max(best[f.stock], v)
		}
		if fine == 1 && !slices.Equal(best, o.uppers) {
			t.Fatalf("best %v, uppers %v", best, o.uppers)
		}
	})
}
