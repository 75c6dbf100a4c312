// Package fold folds and unfolds sheet: what a bend takes, and the flat pattern
// of a folded surface.
//
// Lengths are float64 millimetres, angles degrees. Solids stand in a
// right-handed frame; FromLayout is the one place where the layout's frame (x to
// the right, y to the roof, z up: left-handed) is turned into it. Faces lie on
// the outside mold lines, and are seen from the finish side.
//
// A Solid is flat faces joined along folds into a tree. Unfold lays it flat,
// taking each bend's deduction at its fold; Refold folds the pattern back, and
// must give the solid again.
package fold

import (
	"errors"
	"math"
)

// A Bend is made with one inside radius in one metal.
type Bend struct {
	Thickness float64
	Radius    float64 // inside
	K         float64 // distance of the neutral axis from the inside of the bend, in thicknesses
}

const radians = math.Pi / 180

// Allowance is the length of the neutral axis round a bend that turns through
// an angle: (pi/180) turn (R + K T). Machinery's Handbook, sheet metal bending.
func (b Bend) Allowance(turn float64) float64 {
	return radians * turn * (b.Radius + b.K*b.Thickness)
}

// Setback is the outside setback, from the tangent of the bend to the outside
// mold line: tan(turn/2) (R + T). FAA AC 43.13-1B, Table 4-7, lists tan(turn/2),
// which grows without limit towards 180 degrees.
func (b Bend) Setback(turn float64) float64 {
	return math.Tan(turn/2*radians) * (b.Radius + b.Thickness)
}

// Deduction is what outside dimensions on both sides of a bend sum to over the
// flat: 2 setbacks less the allowance. It is an error from 180 degrees on,
// where there is no mold line; a hem has a formula of its own.
func (b Bend) Deduction(turn float64) (float64, error) {
	if turn < 0 || turn >= 180 {
		return 0, errors.New("a bend turns less than 180 degrees")
	}
	return 2*b.Setback(turn) - b.Allowance(turn), nil
}

// Hem is the flat of a closed hem beyond the outside of its fold: the return h
// less 2 (R + T), and the half turn pi (R + K T). A closed hem is folded flat on
// itself, so R is 0 whatever the other bends have.
func (b Bend) Hem(h float64) float64 {
	return h - 2*b.Thickness + math.Pi*b.K*b.Thickness
}
