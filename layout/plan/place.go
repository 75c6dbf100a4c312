package plan

import (
	"math"

	"copingset/layout/length"
)

// far is beyond all that a plan of a corner shows of a neighbour.
const far = 1000 * length.Metre

// vec is a place or a direction in millimetres.
type vec struct{ x, y float64 }

func (a vec) add(b vec) vec       { return vec{a.x + b.x, a.y + b.y} }
func (a vec) sub(b vec) vec       { return vec{a.x - b.x, a.y - b.y} }
func (a vec) by(k float64) vec    { return vec{a.x * k, a.y * k} }
func (a vec) dot(b vec) float64   { return float64(a.x*b.x) + float64(a.y*b.y) }
func (a vec) cross(b vec) float64 { return float64(a.x*b.y) - float64(a.y*b.x) }
func (a vec) roofward() vec       { return vec{-a.y, a.x} }
func (a vec) pt() Pt              { return Pt{length.FromMM(a.x), length.FromMM(a.y)} }

// Direction is the unit vector of an angle to the right of x, y to the roof. It is
// cut to nine decimals, so that every processor draws the same line.
func Direction(a length.Angle) (x, y float64) {
	sin, cos := math.Sincos(a.Degrees() * math.Pi / 180)
	return math.Round(cos*1e9) / 1e9, math.Round(sin*1e9) / 1e9
}

func (g CornerLeg) dir() vec {
	x, y := Direction(g.Heading)
	return vec{x, y}
}

func (g CornerLeg) place(p Pt) vec {
	d := g.dir()
	return vec{g.At.X.MM(), g.At.Y.MM()}.add(d.by((p.X - g.From).MM())).add(d.roofward().by(p.Y.MM()))
}

// Place brings a place of the leg's run into the plan of the piece.
func (g CornerLeg) Place(p Pt) Pt { return g.place(p).pt() }

// station is where a place of the plan lies along the leg.
func (g CornerLeg) station(p vec) length.Length {
	return g.From + length.FromMM(p.sub(vec{g.At.X.MM(), g.At.Y.MM()}).dot(g.dir()))
}

// trims are how much shorter the leg is at its rear than at its front, at its left
// end and at its right.
func (g CornerLeg) trims() [2]length.Length {
	return [2]length.Length{g.Ring[3].X - g.Ring[0].X, g.Ring[1].X - g.Ring[2].X}
}

// Beside is a line over legs that meet, behind each one's cap line by its own
// distance: one line for each leg, in its frame. It goes on beyond both ends. Where
// two distances meet far along a kink the line steps there, along the miter.
func Beside(legs []CornerLeg, y ...length.Length) [][]Pt {
	out := make([][]Pt, len(legs))
	for i, g := range legs {
		from, to := g.From-far, g.To+far
		if i > 0 {
			_, from = turning(legs[i-1], g, y[i-1], y[i])
		}
		if i < len(legs)-1 {
			to, _ = turning(g, legs[i+1], y[i], y[i+1])
		}
		out[i] = []Pt{{from, y[i]}, {to, y[i]}}
	}
	return out
}

// stepsFrom is how far from the miter, in what they stand apart, the lines of two
// legs may meet where they turn little: at 20 degrees, the sine of which is a third.
const stepsFrom = 3

// turning is where a line behind one leg ends and the line behind the next begins:
// both at the place where the two meet, or each at its own place on the miter.
func turning(a, b CornerLeg, ya, yb length.Length) (end, begin length.Length) {
	end = a.To - share(a.trims()[1], ya, a.Ring[2].Y)
	begin = b.From + share(b.trims()[0], yb, b.Ring[3].Y)
	o, p, d, e := a.place(Pt{end, ya}), b.place(Pt{begin, yb}), a.dir(), b.dir()
	den := d.cross(e)
	if math.Abs(den) < 1e-6 {
		return end, begin
	}
	k := p.sub(o).cross(e) / den // along the one line from its place on the miter
	if math.Abs(den) < 1./stepsFrom && math.Abs(k) > stepsFrom*math.Abs((yb-ya).MM())+1e-6 {
		return end, begin
	}
	return end + length.FromMM(k), b.station(o.add(d.by(k)))
}

// share is what of a miter's trim is reached at a distance behind the cap line.
func share(trim, y, wide length.Length) length.Length {
	return length.FromMM(trim.MM() * y.MM() / wide.MM())
}

// WideAt is how far behind the cap line the rear mold line of the leg lies at a
// station; beyond its ends as at them.
func (g CornerLeg) WideAt(x length.Length) length.Length {
	n := len(g.Rear)
	switch {
	case x <= g.Rear[0].X:
		return g.Rear[0].Y
	case x >= g.Rear[n-1].X:
		return g.Rear[n-1].Y
	}
	return Within(g.Rear, x, x)[0].Y
}
