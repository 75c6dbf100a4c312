package jobtest

import (
	"fmt"

	"copingset/layout/job"
	"copingset/layout/length"
)

// Whole is the test system with all that a job can state: a shop, sheets, bars,
// plywood and rates, so that every room has its work.
func Whole() *job.Job {
	j := Job()
	j.System.RearClearance = 3 * length.Inch / 8 // its hook reaches in so far
	j.Shop = &job.Shop{K: 0.4, LeastFlange: in / 4, Brake: 200 * in, MostTurn: 170 * job.Degree, WeldGap: in / 32,
		Effort: 400,
		Sheets: []job.ShopSheet{{Width: 48 * in, Length: 144 * in,
			Price: 90_000}}, Bars: []job.ShopBar{{Length: 138 * in, Price: 60_000}},
		Kerf: in / 8, LeastDrop: 28 * in}
	j.Packing.Sheet = job.Sheet{Width: 48 * in, Length: 96 * in, Kerf: in / 8}
	j.Packing.Nail = job.LayerNail{Name: "nail", Spacing: 12 * in, Rows: 2}
	j.Packing.Rates = &job.Rates{Cut: 2000, Piece: 1500, Foot: 1000, Hour: 58_000, Sheet: 46_000, Shim: 250}
	return j
}

// Rough gives the runs of a job an uneven wall, the same every time.
func Rough(j *job.Job) *job.Job {
	seed := uint32(7)
	next := func(n uint32) length.Length {
		seed = seed*1664525 + 1013904223
		return length.Length(seed>>16%n) * length.Inch16
	}
	for i := range j.Perimeters {
		for k := range j.Perimeters[i].Runs {
			q := j.Perimeters[i].Runs[k].Readings
			for m := range q {
				q[m].Width += next(6)
				q[m].TopOutside, q[m].TopInside = next(8), next(8)
				if m > 0 && m < len(q)-1 {
					q[m].Offset = next(5) - 2*length.Inch16
				}
			}
		}
	}
	return j
}

// Jogged is a roof of n runs, n a multiple of four.
func Jogged(n int) job.Perimeter {
	const sq = 90 * job.Degree
	p := Perimeter("ROOF", job.Roof)
	side := func(count int) { // an even count of jogs brings the side back to its line
		for i := range count {
			turn := -sq // out to the street and in again
			if i%2 == 1 {
				turn = sq
			}
			p.Runs = append(p.Runs, Run("", 144*in, turn), Run("", 48*in, -turn))
		}
		p.Runs = append(p.Runs, Run("", 144*in, sq), Run("", 600*in, sq))
	}
	side(n/4 - 1)
	side(n/4 - 1)
	for i := range p.Runs {
		p.Runs[i].Name = fmt.Sprint("R", i)
	}
	return p
}
