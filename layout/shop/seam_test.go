package shop

import (
	"math"
	"testing"

	"copingset/layout/length"
)

// By hand: edges cut square to a sheet of 0.050 in that turns 90 degrees stand
// 2 x 0.050 x sin 45 farther apart on the face that turns away.
func TestSeamsOpen(t *testing.T) {
	for _, c := range []struct{ turn, want float64 }{{90, 0.0707}, {-90, 0.0707}, {60, 0.05}, {30, 0.0259}} {
		if got := opens(length.Inch/20, c.turn).Inch(); math.Abs(got-c.want) > 0.0001 {
			t.Errorf("turn %g: %.4f in, want %.4f", c.turn, got, c.want)
		}
	}
}
