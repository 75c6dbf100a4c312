package wall

import (
	"fmt"
	"testing"

	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

// roofs is n roofs of four runs of 50 readings, uneven in width, tops and
// face, the same every time.
func roofs(n int) *job.Job {
	j := jobtest.Job()
	seed := uint32(7)
	next := func(n uint32) length.Length {
		seed = seed*1664525 + 1013904223
		return length.Length(seed>>16%n) * length.Inch16
	}
	for i := range n {
		p := jobtest.Rectangle(49*30*in, 49*30*in)
		p.Name = fmt.Sprintf("P%d", i)
		for k := range p.Runs {
			q := p.Runs[k].Readings
			for m := range q {
				q[m].Width += next(6)
				q[m].TopOutside, q[m].TopInside = next(8), next(8)
				if m > 0 && m < len(q)-1 {
					q[m].Offset = next(5) - 2*length.Inch16
				}
			}
		}
		j.Perimeters = append(j.Perimeters, p)
	}
	return j
}

// BenchmarkBuild is all of Build: lines, corners, set surface, packing,
// zones, doubts and limits of 100, 1,000 and 10,000 runs of 50 readings, set
// level and with a grade.
func BenchmarkBuild(b *testing.B) {
	for _, runs := range []int{100, 1000, 10_000} {
		for _, grade := range []job.Slope{0, 5_208_333} {
			b.Run(fmt.Sprintf("runs=%d/grade=%v", runs, grade > 0), func(b *testing.B) {
				j := roofs(runs / 4)
				j.Packing.Grade = grade
				var walls []*Perimeter
				for b.Loop() {
					walls, _ = Build(j, length.Inch16)
				}
				if len(walls) != runs/4 || len(walls[0].Runs[0].Readings) != 50 || len(walls[0].Runs[0].BuildUp(job.PackContinuous, nil)) == 0 {
					b.Fatal("not solved")
				}
			})
		}
	}
}
