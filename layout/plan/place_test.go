package plan

import (
	"math"
	"testing"

	"copingset/layout/length"
)

// The faces of two walls meet where their lines do, at a corner; at a kink, where
// that would be far along it, and over a break of slope, they step along the miter.
// On a seam of two widths, which does not halve the turn, lines alike behind both
// legs meet off it.
func TestLinesBesideTwoLegs(t *testing.T) {
	mm := func(x float64) length.Length { return length.FromMM(x) }
	for _, c := range []struct {
		turn       float64
		wide       [2]float64
		y          [2]float64
		end, begin [2]float64 // along the plan from the corner point, and behind
	}{
		{90, [2]float64{12, 12}, [2]float64{10, 10}, [2]float64{-10, 10}, [2]float64{-10, 10}},
		{90, [2]float64{12, 12}, [2]float64{10, 8}, [2]float64{-8, 10}, [2]float64{-8, 10}},
		{-90, [2]float64{12, 12}, [2]float64{10, 8}, [2]float64{8, 10}, [2]float64{8, 10}},
		{0, [2]float64{12, 12}, [2]float64{10, 8}, [2]float64{0, 10}, [2]float64{0, 8}},
		{0, [2]float64{12, 12}, [2]float64{10, 10}, [2]float64{0, 10}, [2]float64{0, 10}},
		// By hand: 10 tan 5 = 0.875 back along the one leg; 8 tan 5 = 0.700 along the
		// other, whose rear lies 8 off its front turned by 10 degrees: 0.700 cos 10 -
		// 8 sin 10 = -0.700 and 0.700 sin 10 + 8 cos 10 = 8.
		{10, [2]float64{12, 12}, [2]float64{10, 8}, [2]float64{-0.875, 10}, [2]float64{-0.700, 8}},
		{90, [2]float64{12, 14}, [2]float64{1, 1}, [2]float64{-1, 1}, [2]float64{-1, 1}},
	} {
		turn := length.Angle(c.turn * float64(length.Degree))
		legs := []CornerLeg{{From: 0, To: mm(30), At: Pt{X: -mm(30)}}, {From: 0, To: mm(30), Heading: turn}}
		for i := range legs {
			w, other := c.wide[i], c.wide[1-i]
			trim := w * math.Tan(c.turn/2*math.Pi/180)
			if w != other { // of a square corner
				trim = other
			}
			legs[i].Ring = Box(0, 0, mm(30), mm(w))
			legs[i].Ring[2+i].X = [2]length.Length{mm(30 - trim), mm(trim)}[i]
		}
		got := Beside(legs, mm(c.y[0]), mm(c.y[1]))
		for i, want := range [][2]float64{c.end, c.begin} {
			p := legs[i].Place(got[i][1-i])
			if math.Abs(p.X.MM()-want[0]) > 1e-3 || math.Abs(p.Y.MM()-want[1]) > 1e-3 {
				t.Errorf("%v degrees, %v wide, lines %v: leg %d at %.4f, %.4f, by hand %v", c.turn, c.wide, c.y, i, p.X.MM(), p.Y.MM(), want)
			}
		}
	}
}

func TestWideAt(t *testing.T) {
	g := CornerLeg{From: 0, To: 40, Rear: []Pt{{0, 10}, {10, 10}, {30, 14}, {40, 14}}}
	for _, c := range [][2]length.Length{{-5, 10}, {0, 10}, {10, 10}, {20, 12}, {30, 14}, {50, 14}} {
		if got := g.WideAt(c[0]); got != c[1] {
			t.Errorf("at %d it is %d wide, want %d", c[0], got, c[1])
		}
	}
}
