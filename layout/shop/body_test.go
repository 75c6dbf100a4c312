package shop

import (
	"math"
	"testing"

	"copingset/layout/fold"
)

func cap300() measures {
	return measures{front: 120, drip: 12, dripTurn: 35, rear: 90, hook: 10, hookTurn: 150, slope: 1.0 / 32}
}

func TestTaperUnfolds(t *testing.T) {
	b := fold.Bend{Thickness: 1.2, Radius: 0.8, K: 0.4}
	for _, right := range []bool{true, false} {
		bodies := taper(cap300(), 360, 300, 1200, 200, 0, 8, right)
		var length float64
		for i, s := range bodies {
			f, err := fold.Unfold(s, b)
			if err != nil {
				t.Fatalf("right %v, body %d: %v", right, i, err)
			}
			if fold.Crosses(f.Outline) {
				t.Errorf("right %v, body %d crosses itself: %v", right, i, f.Outline)
			}
			if fold.Area(f.Outline) <= 0 {
				t.Errorf("right %v, body %d is inside out", right, i)
			}
			// Along the straight street edge; at the roof the taper's leg leans out on the flat.
			top := f.Faces[0]
			street := 2 // the edge from corner 2 to corner 3
			if len(top) == 5 {
				street = 3
				if !right {
					street = 2 // the twin's corners are told the other way round
				}
			}
			length += math.Abs(top[street+1].X - top[street].X)
		}
		if math.Abs(length-1200) > 1e-6 {
			t.Errorf("bodies are %.1f long together", length)
		}
	}
}
