package cut

import (
	"math"
	"slices"
)

// A basis is the inverse of a square matrix as a product of columns (the
// product form: each factor is the identity but for one column). The matrices
// of cutting plans hold two to five entries a column, and so do nearly all
// factors; an inverse written out would hold rows times rows.
//
// Every product that is added to is rounded first (float64(a*b)), so that
// processors that fuse the two operations give the same plan as those that do
// not.
type basis struct {
	n       int
	factors []factor
	rows    []int32 // of all factors, the pivot's row left out
	values  []float64
}

type factor struct {
	row      int32
	from, to int32 // in rows and values
	pivot    float64
}

const (
	negligible = 1e-12
	leastPivot = 1e-7
)

// push adds a factor: column d, pivoting on a row.
func (b *basis) push(row int, d []float64) {
	from := int32(len(b.rows))
	for i, v := range d {
		if i != row && math.Abs(v) > negligible {
			b.rows = append(b.rows, int32(i))
			b.values = append(b.values, v)
		}
	}
	b.factors = append(b.factors, factor{int32(row), from, int32(len(b.rows)), d[row]})
}

// solve turns a column v into inverse times v, by row of the pivots.
func (b *basis) solve(v []float64) {
	for _, f := range b.factors {
		x := v[f.row]
		if x == 0 {
			continue
		}
		x /= f.pivot
		v[f.row] = x
		for i := f.from; i < f.to; i++ {
			v[b.rows[i]] -= float64(x * b.values[i])
		}
	}
}

// solveRow turns a row v into v times inverse.
func (b *basis) solveRow(v []float64) {
	for k := len(b.factors) - 1; k >= 0; k-- {
		f := b.factors[k]
		x := v[f.row]
		for i := f.from; i < f.to; i++ {
			if y := v[b.rows[i]]; y != 0 {
				x -= float64(y * b.values[i])
			}
		}
		v[f.row] = x / f.pivot
	}
}

// invert factors the columns anew. It returns them by the row each pivots on,
// and false where they do not span.
//
// Columns that stand alone in a row go first and those with a single row of
// their own last, so that their factors are the columns as they are; what is
// left between them is eliminated, shortest column first.
func (b *basis) invert(columns []column) ([]column, bool) {
	b.factors, b.rows, b.values = b.factors[:0], b.rows[:0], b.values[:0]
	n := b.n
	inRow := make([][]int32, n) // columns by row
	width := make([]int, n)     // of a column, in rows still open
	height := make([]int, n)    // of a row, in columns still open
	for j, c := range columns {
		width[j] = len(c.rows)
		for _, r := range c.rows {
			inRow[r] = append(inRow[r], int32(j))
			height[r]++
		}
	}
	at := make([]int, n)       // row of each column, or -1
	open := make([]bool, n)    // rows
	var first, last, mid []int // columns in order
	var queue []int
	for j := range at {
		at[j], open[j] = -1, true
		if width[j] == 1 {
			queue = append(queue, j)
		}
	}
	assign := func(j int, r int32) {
		at[j], open[r] = int(r), false
	}
	openRow := func(c column) int32 {
		for _, r := range c.rows {
			if open[r] {
				return r
			}
		}
		return -1
	}
	for len(queue) > 0 {
		j := queue[0]
		queue = queue[1:]
		r := openRow(columns[j])
		if r < 0 {
			return nil, false
		}
		assign(j, r)
		last = append(last, j)
		for _, k := range inRow[r] {
			if width[k]--; at[k] < 0 && width[k] == 1 {
				queue = append(queue, int(k))
			}
		}
	}
	for _, j := range last {
		for _, r := range columns[j].rows {
			height[r]--
		}
	}
	for r, h := range height {
		if open[r] && h == 1 {
			queue = append(queue, r)
		}
	}
	for len(queue) > 0 {
		r := queue[0]
		queue = queue[1:]
		j := slices.IndexFunc(inRow[r], func(j int32) bool { return at[j] < 0 })
		if j < 0 {
			return nil, false
		}
		c := int(inRow[r][j])
		assign(c, int32(r))
		first = append(first, c)
		for _, q := range columns[c].rows {
			if height[q]--; open[q] && height[q] == 1 {
				queue = append(queue, int(q))
			}
		}
	}
	for j := range columns {
		if at[j] < 0 {
			mid = append(mid, j)
		}
	}
	slices.SortStableFunc(mid, func(a, c int) int { return width[a] - width[c] })
	out := make([]column, n)
	d := make([]float64, n)
	spread := func(c column) {
		clear(d)
		for i, r := range c.rows {
			d[r] = c.of[i]
		}
	}
	raw := func(j int) {
		c := columns[j]
		f := factor{row: int32(at[j]), from: int32(len(b.rows))}
		for i, r := range c.rows {
			if r == f.row {
				f.pivot = c.of[i]
				continue
			}
			b.rows = append(b.rows, r)
			b.values = append(b.values, c.of[i])
		}
		f.to = int32(len(b.rows))
		b.factors = append(b.factors, f)
		out[f.row] = c
	}
	for _, j := range first {
		raw(j)
	}
	for _, j := range mid {
		spread(columns[j])
		b.solve(d)
		most := 0.0
		for r, v := range d {
			if open[r] {
				most = max(most, math.Abs(v))
			}
		}
		if most < leastPivot {
			return nil, false
		}
		r := -1
		for i, v := range d {
			if open[i] && math.Abs(v) >= 0.1*most && (r < 0 || height[i] < height[r]) {
				r = i
			}
		}
		assign(j, int32(r))
		b.push(r, d)
		out[r] = columns[j]
	}
	for _, j := range slices.Backward(last) {
		raw(j)
	}
	return out, true
}
