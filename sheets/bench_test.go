package sheets

import (
	"fmt"
	"testing"

	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
)

// BenchmarkPacket makes the sheets of the samples, and of roofs of ever more runs.
func BenchmarkPacket(b *testing.B) {
	all, err := sampleLayouts()
	if err != nil {
		b.Fatal(err)
	}
	for _, name := range []string{"rectangle", "metric", "l-shape"} {
		b.Run(name, func(b *testing.B) { makePacket(b, all[name]) })
	}
	for _, n := range []int{36, 100, 400, 1000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			j := jobtest.Whole()
			j.Paper = job.Paper{Runs: job.ANSIB, Lists: job.ANSIA}
			j.Perimeters = []job.Perimeter{jobtest.Jogged(n)}
			l, found := layout.Build(jobtest.Rough(j))
			if found.HasErrors() {
				b.Fatal(found)
			}
			makePacket(b, l)
		})
	}
}

func makePacket(b *testing.B, l *layout.Layout) {
	sheets := 0
	b.ReportAllocs()
	for b.Loop() {
		sheets = len(Packet(l, Options{}))
	}
	b.ReportMetric(float64(sheets), "sheets")
}
