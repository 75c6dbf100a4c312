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

// pivoting is which row each column pivots on, as it is worked out, and in which order
// they are factored.
type pivoting struct {
	columns          []column
	inRow            [][]int32 // columns by row
	width            []int     // of a column, in rows still open
	height           []int     // of a row, in columns still open
	at               []int     // row of each column, or -1
	open             []bool    // rows
	first, last, mid []int     // columns in order
}

func newPivoting(n int, columns []column) *pivoting {
	p := &pivoting{
		columns: columns,
		inRow:   make([][]int32, n),
		width:   make([]int, n),
		height:  make([]int, n),
		at:      make([]int, n),
		open:    make([]bool, n),
	}
	for j, c := range columns {
		p.width[j] = len(c.rows)
		for _, r := range c.rows {
			p.inRow[r] = append(p.inRow[r], int32(j))
			p.height[r]++
		}
	}
	for j := range p.at {
		p.at[j], p.open[j] = -1, true
	}
	return p
}

func (p *pivoting) assign(j int, r int32) { p.at[j], p.open[r] = int(r), false }

func (p *pivoting) openRow(c column) int32 {
	for _, r := range c.rows {
		if p.open[r] {
			return r
		}
	}
	return -1
}

// narrow puts last the columns that have a single row of their own, and false where
// two have the same one.
func (p *pivoting) narrow() bool {
	var queue []int
	for j, w := range p.width {
		if w == 1 {
			queue = append(queue, j)
		}
	}
	for len(queue) > 0 {
		j := queue[0]
		queue = queue[1:]
		r := p.openRow(p.columns[j])
		if r < 0 {
			return false
		}
		p.assign(j, r)
		p.last = append(p.last, j)
		for _, k := range p.inRow[r] {
			if p.width[k]--; p.at[k] < 0 && p.width[k] == 1 {
				queue = append(queue, int(k))
			}
		}
	}
	for _, j := range p.last {
		for _, r := range p.columns[j].rows {
			p.height[r]--
		}
	}
	return true
}

// alone puts first the columns that stand alone in a row, and false where a row has
// none left.
func (p *pivoting) alone() bool {
	var queue []int
	for r, h := range p.height {
		if p.open[r] && h == 1 {
			queue = append(queue, r)
		}
	}
	for len(queue) > 0 {
		r := queue[0]
		queue = queue[1:]
		j := slices.IndexFunc(p.inRow[r], func(j int32) bool { return p.at[j] < 0 })
		if j < 0 {
			return false
		}
		c := int(p.inRow[r][j])
		p.assign(c, int32(r))
		p.first = append(p.first, c)
		for _, q := range p.columns[c].rows {
			if p.height[q]--; p.open[q] && p.height[q] == 1 {
				queue = append(queue, int(q))
			}
		}
	}
	return true
}

// between are the columns that are left, the shortest first.
func (p *pivoting) between() {
	for j := range p.columns {
		if p.at[j] < 0 {
			p.mid = append(p.mid, j)
		}
	}
	slices.SortStableFunc(p.mid, func(a, c int) int { return p.width[a] - p.width[c] })
}

// pivot is the open row that an eliminated column pivots on: of those near the
// greatest value the one with fewest columns; -1 where nothing is left of it.
func (p *pivoting) pivot(d []float64) int {
	most := 0.0
	for r, v := range d {
		if p.open[r] {
			most = max(most, math.Abs(v))
		}
	}
	r := -1
	if most < leastPivot {
		return r
	}
	for i, v := range d {
		if p.open[i] && math.Abs(v) >= 0.1*most && (r < 0 || p.height[i] < p.height[r]) {
			r = i
		}
	}
	return r
}

// invert factors the columns anew. It returns them by the row each pivots on,
// and false where they do not span.
//
// Columns that stand alone in a row go first and those with a single row of
// their own last, so that their factors are the columns as they are; what is
// left between them is eliminated, shortest column first.
func (b *basis) invert(columns []column) ([]column, bool) {
	b.factors, b.rows, b.values = b.factors[:0], b.rows[:0], b.values[:0]
	p := newPivoting(b.n, columns)
	if !p.narrow() || !p.alone() {
		return nil, false
	}
	p.between()
	out := make([]column, b.n)
	for _, j := range p.first {
		out[p.at[j]] = b.plain(columns[j], p.at[j])
	}
	d := make([]float64, b.n)
	for _, j := range p.mid {
		clear(d)
		for i, r := range columns[j].rows {
			d[r] = columns[j].of[i]
		}
		b.solve(d)
		r := p.pivot(d)
		if r < 0 {
			return nil, false
		}
		p.assign(j, int32(r))
		b.push(r, d)
		out[r] = columns[j]
	}
	for _, j := range slices.Backward(p.last) {
		out[p.at[j]] = b.plain(columns[j], p.at[j])
	}
	return out, true
}

// plain adds the factor of a column that is eliminated already, and returns it.
func (b *basis) plain(c column, row int) column {
	f := factor{row: int32(row), from: int32(len(b.rows))}
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
	return c
}
