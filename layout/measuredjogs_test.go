package layout_test

import (
	"fmt"
	"slices"
	"testing"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

// metricJog is a wall of 240 mm that steps back once: 6 m, a run of the given length and
// 5 m, between two free ends. Chairs 270 mm long, tested 530 mm apart; legs and ends of 480 mm,
// legs on steps of 10 mm up to 1250 mm, stock of 2620 mm and 7 mm at joints.
func metricJog(short length.Length) *job.Job {
	const mm = length.Millimetre
	j := jobtest.Job()
	j.Units = job.Metric
	s := &j.System
	s.Chair.Length, s.Chair.EndChair = 270*mm, 210*mm
	s.EndCap.Leg = 480 * mm
	s.Stock, s.LeastPiece, s.Remainder = 2620*mm, 640*mm, job.Left
	s.Joint.Gap = 7 * mm
	s.Splice.Length, s.Splice.Bearing = 164*mm, 36*mm
	s.Corner.Covered = nil
	s.Corner.Leg, s.Corner.LongestLeg, s.Corner.LegStep = 480*mm, 1250*mm, 10*mm
	s.Corner.Support.Length, s.Corner.Support.Width = 100*mm, 90*mm
	for i := range j.Assemblies {
		j.Assemblies[i].ChairSpacing = 530 * mm
	}
	run := func(name string, l length.Length, turn job.Angle) job.Run {
		r := job.Run{Name: name, Length: l, Right: job.End{Turn: turn}}
		for _, at := range []length.Length{0, l / 2, l} {
			r.Readings = append(r.Readings, job.Reading{Station: at, Width: 240 * mm})
		}
		return r
	}
	p := jobtest.Perimeter("JOG", job.Open, run("A", 6000*mm, 90*job.Degree), run("S", short, -90*job.Degree), run("Z", 5000*mm, 0))
	p.Starts = job.End{Kind: job.EndFree}
	p.Runs[2].Right = job.End{Kind: job.EndFree}
	j.Perimeters = []job.Perimeter{p}
	return j
}

// Jogs of 0.8 to 1.0 m and of 1.2 to 1.4 m were held where those of 1.1 and 1.5 m were
// clean: their one joint lay in the middle, and its chair on another. With supports that
// hold down all stand; with such as only bear, which no legs of this system mend, the
// pieces that turn are held for that, and no chair is in the way of another.
func TestMeasuredMetricJogs(t *testing.T) {
	for _, hooked := range []bool{true, false} {
		for short := 800 * length.Millimetre; short <= 1600*length.Millimetre; short += 100 * length.Millimetre {
			t.Run(fmt.Sprintf("hooked=%v/%v", hooked, short), func(t *testing.T) {
				j := metricJog(short)
				if hooked {
					j.System.Corner.Support.Hook = &job.Hook{Allowable: 4000, By: "Test house", Document: "R-9"}
					j.System.Corner.Support.Fixing = &job.Fixing{Fastener: j.Fasteners[0].Name, Count: 2}
				}
				l := build(t, j)
				for _, f := range l.Findings {
					if f.Severity != finding.Note && !(f.Code == "corner-unheld" && !hooked) {
						t.Error(f)
					}
				}
				for _, r := range l.Runs() {
					for i, c := range r.Chairs {
						if i > 0 && c.At-r.Chairs[i-1].At < j.System.Chair.Length {
							t.Errorf("chairs %s and %s overlap", r.Chairs[i-1].Name, c.Name)
						}
					}
				}
				if unheld := slices.ContainsFunc(l.Findings, func(f finding.Finding) bool { return f.Code == "corner-unheld" }); unheld == hooked {
					t.Errorf("corners unheld: %v", unheld)
				}
			})
		}
	}
}
