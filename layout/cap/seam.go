package cap

import (
	"math"

	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall"
)

// Seam is a welded corner in plan: it runs from the outer corner point, where
// the front mold lines meet, to the inner one, where the rear ones do. The
// inside widths of its legs differ only where the job accepts it.
type Seam struct {
	Corner *wall.Corner
	Inside [2]length.Length // of the arriving and of the leaving leg
}

// One is the seam of a corner that has one width.
func One(c *wall.Corner, inside length.Length) Seam {
	return Seam{c, [2]length.Length{inside, inside}}
}

// Seams are those of the corners among the runs of a perimeter, by their
// widths there. The map is for looking up.
func Seams(runs []*Run) map[*wall.Corner]Seam {
	out := map[*wall.Corner]Seam{}
	for i, r := range runs {
		if c := r.Right.Corner; c != nil {
			out[c] = Seam{c, [2]length.Length{r.InsideAt(r.Cap), runs[(i+1)%len(runs)].InsideAt(0)}}
		}
	}
	return out
}

// Two reports whether the legs have two widths.
func (m Seam) Two() bool { return m.Inside[0] != m.Inside[1] }

// turned is the seam as its mirror image has it: the leaving leg arrives.
func (m Seam) turned() Seam {
	m.Inside[0], m.Inside[1] = m.Inside[1], m.Inside[0]
	return m
}

// PerWidth is how much shorter, for each unit of its width, a leg of an outside
// width is at its rear than at its front, where it meets one of another width:
// (other - width cos turn) / (width sin turn), from the two rear mold lines
// meeting at the inner corner point. Of equal widths that is tan(turn/2).
func PerWidth(width, other length.Length, turn job.Angle) float64 {
	if width == other {
		return math.Tan(turn.Degrees() * math.Pi / 360)
	}
	sin, cos := math.Sincos(turn.Degrees() * math.Pi / 180)
	return (other.MM()/width.MM() - cos) / sin
}

// MiterTrims are how much shorter the rear mold line of the arriving and of the
// leaving leg is than its front, for outside widths of the two. One of them is
// negative where its rear is the longer; it is made so, not cut to zero.
func MiterTrims(arrive, leave length.Length, turn job.Angle) [2]length.Length {
	return [2]length.Length{
		length.FromMM(arrive.MM() * PerWidth(arrive, leave, turn)),
		length.FromMM(leave.MM() * PerWidth(leave, arrive, turn)),
	}
}

// Trims are MiterTrims of a seam. Over a break of slope the rear fold lies lower
// than the front by slope x width, and is trimmed by that.
func (m Seam) Trims(s *job.System) [2]length.Length {
	t := 2 * s.Metal.Thickness
	if m.Corner.Straight() {
		l := wall.PitchTrim(s.Profile.TopSlope.Rise(m.Inside[0]+t), m.Corner.Bend)
		return [2]length.Length{l, l}
	}
	return MiterTrims(m.Inside[0]+t, m.Inside[1]+t, m.Corner.CapTurn)
}

// at is how far the seam has come along a leg, 0 arriving or 1 leaving, from
// the corner point at a distance behind the cap line.
func (m Seam) at(s *job.System, leg int, y length.Length) length.Length {
	t := 2 * s.Metal.Thickness
	return length.FromMM(y.MM() * PerWidth(m.Inside[leg]+t, m.Inside[1-leg]+t, m.Corner.CapTurn))
}

// EqualRise is the slope of the top of an outside width, where it rises as high
// as the profile does over the narrowest width of the piece: the tops of legs of
// two widths then meet along their seam.
func EqualRise(s *job.System, narrowest, width length.Length) job.Slope {
	if width == narrowest {
		return s.Profile.TopSlope
	}
	return job.Slope(math.Round(float64(s.Profile.TopSlope) * narrowest.MM() / width.MM()))
}

// Slope is the slope of the part's top. The narrowest part of a piece has the
// profile's; a wider one at a corner of two widths has less.
func (p Part) Slope(s *job.System) job.Slope {
	if p.Piece.Kind == Transition || p.Piece.Kind == Tee {
		return s.Profile.TopSlope
	}
	t := 2 * s.Metal.Thickness
	return EqualRise(s, p.Piece.Narrow+t, p.Inside()+t)
}

// Mismatch is how far a fold of the part stands from that of a cap of its width
// and the profile's slope: with the slope in chair and cap the front fold is so
// much lower; with the slope in the packing the rear fold is so much higher.
func (p Part) Mismatch(s *job.System) length.Length {
	if p.Piece.Kind == Transition || p.Piece.Kind == Tee {
		return 0
	}
	return s.Profile.TopSlope.Rise(p.Inside() - p.Piece.Narrow)
}

// accepts tells whether the job accepts a corner piece of these inside widths.
func accepts(s *job.System, narrowest, widest length.Length) bool {
	t, w := 2*s.Metal.Thickness, s.Corner.TwoWidths
	return narrowest == widest || w != nil && s.Profile.TopSlope.Rise(widest-narrowest) <= w.MismatchMost &&
		EqualRise(s, narrowest+t, widest+t) >= w.SlopeLeast
}

// twoWidths tells whether a corner may have the two widths of a seam: the job
// accepts them, it is neither a kink nor a break of slope nor left to a plain joint, and its chairs
// and supports have room.
func (b *builder) twoWidths(m Seam) bool {
	if m.Corner.Absorb || m.Corner.Kink || m.Corner.Straight() {
		return false
	}
	return accepts(b.sys, length.Min(m.Inside[0], m.Inside[1]), length.Max(m.Inside[0], m.Inside[1])) &&
		b.legsOf(m)[0].Clear
}
