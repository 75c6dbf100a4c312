package wall

import (
	"testing"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

// many is 250 rectangles: 1,000 runs of 50 readings, the same every time.
func many(b testing.TB) []*Perimeter {
	x := uint32(7)
	next := func(most int) length.Length {
		x = x*1664525 + 1013904223
		return length.Length(int(x>>8) % most)
	}
	var all []job.Perimeter
	for range 250 {
		p := jobtest.Rectangle(120*length.Foot, 90*length.Foot)
		for i := range p.Runs {
			r := &p.Runs[i]
			r.Readings = nil
			for k := range length.Length(50) {
				r.Readings = append(r.Readings, job.Reading{Station: length.RoundTo(r.Length*k/49, length.Inch16), Width: 12 * in,
					TopOutside: next(24) * length.Inch16, TopInside: next(24) * length.Inch16})
			}
		}
		all = append(all, p)
	}
	j := jobtest.Job()
	j.Perimeters = all
	ps, found := Build(j, length.Inch16)
	if found.HasErrors() {
		b.Fatal(found)
	}
	return ps
}

// The set surface, the packing and the zones of 1,000 runs of 50 readings.
func BenchmarkSurface(b *testing.B) {
	for _, c := range []struct {
		name  string
		grade job.Slope
	}{{"level", 0}, {"grade", 5_208_333}} {
		b.Run(c.name, func(b *testing.B) {
			ps := many(b)
			j := jobtest.Job()
			j.Packing.Grade = c.grade
			for b.Loop() {
				var found finding.Set
				for _, p := range ps {
					tops(j, p, length.Inch16, &found)
				}
			}
		})
	}
}
