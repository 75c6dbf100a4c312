package layout_test

import (
	"fmt"
	"testing"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

// whole is the test system with all that a job can state: a shop, sheets, bars,
// plywood and rates, so that every room has its work.
func whole() *job.Job {
	j := jobtest.Job()
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

// rough gives the runs of a job an uneven wall, the same every time.
func rough(j *job.Job) *job.Job {
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

func measure(b *testing.B, j *job.Job, runs int) {
	for b.Loop() {
		l, found := layout.Build(j)
		if found.HasErrors() || len(l.Runs()) != runs || len(l.Perimeters[0].Pieces) == 0 || l.Cutting == nil {
			b.Fatal("not solved")
		}
	}
}

// BenchmarkBuildStations is one roof whose first run has ever more readings: a
// foot apart or as dense as a survey may be, a half inch; with and without a grade.
func BenchmarkBuildStations(b *testing.B) {
	for _, grade := range []job.Slope{0, 5_208_333} {
		for _, dense := range []bool{false, true} {
			for _, n := range []int{200, 1250, 5000, 20_000} {
				b.Run(fmt.Sprintf("grade=%v/dense=%v/%d", grade > 0, dense, n), func(b *testing.B) {
					j := whole()
					j.Packing.Grade = grade
					step := 12 * in
					if dense {
						step = in / 2
					}
					p := jobtest.Rectangle(length.Length(n-1)*step, 480*in)
					p.Runs[0].Readings = nil
					for k := range n {
						p.Runs[0].Readings = append(p.Runs[0].Readings, job.Reading{Station: length.Length(k) * step, Width: 12 * in})
					}
					j.Perimeters = []job.Perimeter{p}
					measure(b, rough(j), 4)
				})
			}
		}
	}
}

// BenchmarkBuildRoofs is a job of ever more roofs of four runs, 20 ft by 15 ft.
func BenchmarkBuildRoofs(b *testing.B) {
	for _, n := range []int{100, 600, 2500, 10_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			j := whole()
			for i := range n / 4 {
				p := jobtest.Rectangle(240*in, 180*in)
				p.Name = fmt.Sprint("P", i)
				j.Perimeters = append(j.Perimeters, p)
			}
			measure(b, rough(j), n)
		})
	}
}

// BenchmarkBuildRuns is one roof with ever more jogs: its two long sides are
// stretches of 12 ft, each 4 ft before or behind the next.
func BenchmarkBuildRuns(b *testing.B) {
	for _, n := range []int{100, 600, 2500, 10_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			j := whole()
			j.Perimeters = []job.Perimeter{jogged(n)}
			measure(b, rough(j), n)
		})
	}
}

// BenchmarkBuildStanding is a job of twelve runs, and of more: its corner supports
// hook the cap, so that the legs of each corner are tried by all rules, or only
// bear, so that none stands by them.
func BenchmarkBuildStanding(b *testing.B) {
	for _, hooked := range []bool{true, false} {
		for _, n := range []int{12, 100, 1000} {
			b.Run(fmt.Sprintf("hooked=%v/%d", hooked, n), func(b *testing.B) {
				j := whole()
				j.System.Corner.Covered = nil
				if hooked {
					j.System.Corner.Support.Hook = &job.Hook{Allowable: 2000, By: "Test house", Document: "R-9"}
					j.System.Corner.Support.Fixing = &job.Fixing{Fastener: "wood screw", Count: 2}
				}
				j.Perimeters = []job.Perimeter{jogged(n)}
				measure(b, rough(j), n)
			})
		}
	}
}

// jogged is a roof of n runs, n a multiple of four.
func jogged(n int) job.Perimeter {
	const sq = 90 * job.Degree
	p := jobtest.Perimeter("ROOF", job.Roof)
	side := func(count int) { // an even count of jogs brings the side back to its line
		for i := range count {
			turn := -sq // out to the street and in again
			if i%2 == 1 {
				turn = sq
			}
			p.Runs = append(p.Runs, jobtest.Run("", 144*in, turn), jobtest.Run("", 48*in, -turn))
		}
		p.Runs = append(p.Runs, jobtest.Run("", 144*in, sq), jobtest.Run("", 600*in, sq))
	}
	side(n/4 - 1)
	side(n/4 - 1)
	for i := range p.Runs {
		p.Runs[i].Name = fmt.Sprint("R", i)
	}
	return p
}

// The jogged roof closes and is made whole, so that its benchmark measures what
// a user waits for.
func TestJoggedRoof(t *testing.T) {
	j := whole()
	j.Perimeters = []job.Perimeter{jogged(20)}
	l := build(t, rough(j))
	if c := l.Perimeters[0].Closure; c.Length != 0 || c.Angle != 0 {
		t.Errorf("misses its start by %v and %v", c.Length, c.Angle)
	}
	corners := 0
	for _, p := range l.Perimeters[0].Pieces {
		if p.Kind == cap.Corner {
			corners++
		}
	}
	if corners == 0 {
		t.Error("no corners")
	}
}
