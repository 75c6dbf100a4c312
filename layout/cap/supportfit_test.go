package cap

import (
	"math"
	"testing"

	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall"
)

// How far a support stands out follows from plain distances at a square corner: its
// corners lie half its length and half its width away over 45 degrees.
func TestSupportsUnderLegs(t *testing.T) {
	const mm = length.Inch * 10 / 254
	s := &job.System{}
	s.Metal.Thickness = 2 * mm
	s.Corner.Supports = []job.SupportTier{{WidthTo: 10_000 * mm, At: []int{500}}}
	for _, c := range []struct {
		name       string
		turn       job.Angle
		long, wide length.Length
		inside     float64 // mm
	}{
		// The centre lies 152 before both rear mold lines and behind both front ones.
		{"outside, small", 90 * job.Degree, 100 * mm, 100 * mm, 300},
		{"outside, wide", 90 * job.Degree, 100 * mm, 400 * mm, 300},
		{"inside, wide", -90 * job.Degree, 100 * mm, 400 * mm, 300},
	} {
		corner := &wall.Corner{}
		corner.CapTurn, corner.Turn = c.turn, c.turn
		in := length.FromMM(c.inside)
		m := Seam{Corner: corner, Inside: [2]length.Length{in, in}}
		s.Corner.Support = job.Support{Length: c.long, Width: c.wide}
		for _, p := range Supports(s, m) {
			got := p.OutUnder(s, m).MM()
			want := (c.long.MM()+c.wide.MM())/2*math.Sqrt2/2 - c.inside/2
			if math.Abs(got-want) > 0.01 {
				t.Errorf("%s: %.2f mm out, want %.2f", c.name, got, want)
			}
		}
	}
}
