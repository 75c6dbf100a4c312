package wall

import (
	"fmt"
	"testing"

	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

// BenchmarkBuild1000RunsOf50 solves the walls of 250 roofs of four runs with 50
// readings each.
func BenchmarkBuild1000RunsOf50(b *testing.B) {
	j := jobtest.Job()
	seed := uint32(7)
	next := func(n uint32) length.Length {
		seed = seed*1664525 + 1013904223
		return length.Length(seed>>16%n) * length.Inch16
	}
	for i := range 250 {
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
	var walls []*Perimeter
	for b.Loop() {
		walls, _ = Build(j, length.Inch16)
	}
	if len(walls) != 250 || walls[0].Runs[0].Job.Basis != job.Measured {
		b.Fatal("not solved")
	}
}
