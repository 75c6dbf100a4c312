package cap

import (
	"math"

	"copingset/layout/job"
	"copingset/layout/length"
)

// Girth is the stretch-out of a profile of the system: the sum of its outside
// dimensions, legs by the measure of their foot. Bend deductions make the blank
// a little narrower; a weight does not notice.
func Girth(s *job.System, slope job.Slope, outside length.Length) length.Length {
	p, k := &s.Profile, float64(slope)/1e9
	street, roof := p.Hems()
	top := length.FromMM(outside.MM() * math.Sqrt(1+k*k))
	return s.FrontFoot() + p.Drip.Length + top + s.RearFoot() + p.RearHook.Length + street.Return + roof.Return
}

// Girth of the part: that of its piece, but each leg of a corner of two widths
// and the stub of a tee have their own.
func (p Part) Girth(s *job.System) length.Length {
	switch {
	case p.Piece.Kind == Tee:
		return Girth(s, s.Profile.TopSlope, p.Inside()+2*s.Metal.Thickness)
	case p.Piece.Kind == Transition, p.Piece.Wide == p.Piece.Narrow:
		return p.Piece.Girth
	}
	return Girth(s, p.Slope(s), p.Inside()+2*s.Metal.Thickness)
}

// AllowanceGrams is the weight of what is cut off a piece on the roof.
func AllowanceGrams(s *job.System, p *Piece) int64 {
	return int64(math.Round(p.Girth.MM() * s.Metal.Thickness.MM() * p.Allowance.MM() * s.Metal.Density * 1e-6))
}

// Weight of a piece as laid, without its allowance, in grams: girth x mean of front and rear length x thickness x density.
func Weight(s *job.System, p *Piece) int64 {
	var mm3 float64
	for i, q := range p.Parts {
		mean := (q.Length().MM() + p.RearLength(i).MM()) / 2
		mm3 += q.Girth(s).MM() * mean * s.Metal.Thickness.MM()
	}
	return int64(math.Round(mm3 * s.Metal.Density / 1e6)) // kg/m3 = g per 1e6 mm3
}
