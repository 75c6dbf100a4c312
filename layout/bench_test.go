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
					j := jobtest.Whole()
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
					measure(b, jobtest.Rough(j), 4)
				})
			}
		}
	}
}

// BenchmarkBuildRoofs is a job of ever more roofs of four runs, 20 ft by 15 ft.
func BenchmarkBuildRoofs(b *testing.B) {
	for _, n := range []int{100, 600, 2500, 10_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			j := jobtest.Whole()
			for i := range n / 4 {
				p := jobtest.Rectangle(240*in, 180*in)
				p.Name = fmt.Sprint("P", i)
				j.Perimeters = append(j.Perimeters, p)
			}
			measure(b, jobtest.Rough(j), n)
		})
	}
}

// BenchmarkBuildRuns is one roof with ever more jogs: its two long sides are
// stretches of 12 ft, each 4 ft before or behind the next.
func BenchmarkBuildRuns(b *testing.B) {
	for _, n := range []int{100, 600, 2500, 10_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			j := jobtest.Whole()
			j.Perimeters = []job.Perimeter{jobtest.Jogged(n)}
			measure(b, jobtest.Rough(j), n)
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
				j := jobtest.Whole()
				j.System.Corner.Covered = nil
				if hooked {
					j.System.Corner.Support.Hook = &job.Hook{Allowable: 2000, By: "Test house", Document: "R-9"}
					j.System.Corner.Support.Fixing = &job.Fixing{Fastener: "wood screw", Count: 2}
				}
				j.Perimeters = []job.Perimeter{jobtest.Jogged(n)}
				measure(b, jobtest.Rough(j), n)
			})
		}
	}
}

// The jogged roof closes and is made whole, so that its benchmark measures what
// a user waits for.
func TestJoggedRoof(t *testing.T) {
	j := jobtest.Whole()
	j.Perimeters = []job.Perimeter{jobtest.Jogged(20)}
	l := build(t, jobtest.Rough(j))
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

// BenchmarkBuildFreed is a wall with a short run that stands only once other places of its
// joints, longer legs or nearer chairs were searched for.
func BenchmarkBuildFreed(b *testing.B) {
	for _, mm := range []int{800, 900, 1000, 1200} {
		b.Run(fmt.Sprint(mm), func(b *testing.B) {
			j := metricJog(length.Length(mm) * length.Millimetre)
			j.System.Corner.Support.Hook = &job.Hook{Allowable: 4000, By: "Test house", Document: "R-9"}
			j.System.Corner.Support.Fixing = &job.Fixing{Fastener: j.Fasteners[0].Name, Count: 2}
			for b.Loop() {
				if l, _ := layout.Build(j); len(l.Holds()) > 0 {
					b.Fatal("held")
				}
			}
		})
	}
}
