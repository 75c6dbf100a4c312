package shop

import (
	"math"

	"copingset/layout/cap"
	"copingset/layout/fold"
	"copingset/layout/job"
)

// raw is a body before it is unfolded.
type raw struct {
	name  string
	solid fold.Solid
	holes [][]fold.Vec // on the top
	// For reliefs: which ends are welded to another body, and whether its outline
	// is notched between its ends, to be closed by a weld.
	welded  [2]bool
	notched bool
}

// bodies of a piece: one for each leg, the plate of a closed end.
func (b *builder) bodies(p *cap.Piece) []raw {
	m := b.measures()
	switch p.Kind {
	case cap.Transition:
		return b.tapered(p, m)
	case cap.Tee:
		return b.tee(p, m)
	}
	gap := b.shop.WeldGap.MM() / 2
	var out []raw
	for i, q := range p.Parts {
		m.slope = float64(q.Slope(b.s)) / 1e9
		sec := sectionOf(m, (q.Inside() + 2*b.s.Metal.Thickness).MM())
		x0, x1 := 0.0, q.Length().MM()
		left, right := square(x0), square(x1)
		if i > 0 {
			left = b.miterOf(p.Miters[i-1], sec, x0, -1, gap)
		}
		if i < len(p.Miters) {
			right = b.miterOf(p.Miters[i], sec, x1, 1, gap)
		}
		allowance := p.Allowance.MM()
		switch {
		case allowance > 0 && p.CutAt == cap.LeftHand:
			left = square(x0 - allowance)
		case allowance > 0:
			right = square(x1 + allowance)
		}
		first, last := i == 0, i == len(p.Parts)-1
		r := raw{name: legName(i, len(p.Parts)), solid: b.prism(sec, left, right), welded: [2]bool{i > 0, i < len(p.Miters)}}
		if first && p.LeftEnd == job.EndWall {
			r.solid = withUpstand(r.solid, false, b.s.WallEnd.Upstand.MM())
		}
		if last && p.RightEnd == job.EndWall {
			r.solid = withUpstand(r.solid, true, b.s.WallEnd.Upstand.MM())
		}
		r.holes = b.holes(p, q, sec)
		out = append(out, r)
		for side, closed := range []bool{first && p.LeftEnd == job.EndFree, last && p.RightEnd == job.EndFree} {
			if closed {
				out = append(out, raw{name: "end plate", solid: endPlate(inner(sec, b.bend.Thickness), side == 1)})
			}
		}
	}
	return out
}

// tapered are the two bodies of a transition, from its left hand to its right.
func (b *builder) tapered(p *cap.Piece, m measures) []raw {
	t := 2 * b.s.Metal.Thickness
	wideRight := p.Hand == cap.RightHand
	hem := b.hemFlat()
	two := taper(m, (p.Wide + t).MM(), (p.Narrow + t).MM(), p.Length().MM(), b.s.Transition.Leg.MM(), b.shop.WeldGap.MM(), hem, wideRight)
	narrow, wide := raw{name: "narrow end", solid: two[0]}, raw{name: "taper and wide end", solid: two[1], notched: true}
	narrow.welded[1], wide.welded[0] = wideRight, wideRight
	narrow.welded[0], wide.welded[1] = !wideRight, !wideRight
	for _, h := range b.holes(p, p.Parts[0], sectionOf(m, (p.Narrow+t).MM())) {
		// On the body whose straight front it lies over; a hole over the seam is on the larger.
		seam := b.s.Transition.Leg.MM()
		over := h[1].X < seam
		if !wideRight {
			over = h[0].X > p.Length().MM()-seam
		}
		if over {
			narrow.holes = append(narrow.holes, h)
		} else {
			wide.holes = append(wide.holes, h)
		}
	}
	if wideRight {
		return []raw{narrow, wide}
	}
	return []raw{wide, narrow}
}

func legName(i, n int) string {
	switch {
	case n == 1:
		return "cap"
	case i == 0:
		return "left leg"
	case i == n-1:
		return "right leg"
	}
	return "middle"
}

// measures are the job's profile.
func (b *builder) measures() measures {
	p := &b.s.Profile
	return measures{
		front: b.s.FrontLeg(job.ToMoldLine).MM(), drip: p.Drip.Length.MM(), dripTurn: p.Drip.Angle.Degrees(),
		rear: b.s.RearLeg(job.ToMoldLine).MM(), hook: p.RearHook.Length.MM(), hookTurn: p.RearHook.Angle.Degrees(),
		slope: float64(p.TopSlope) / 1e9,
	}
}

// miterOf is the cut of a leg at a miter, at its right end (side +1, where it
// arrives) or its left. Half the gap of the weld comes off square to the plane of
// the cut, so along the leg it is gap / cos(turn/2), or with two widths gap over
// the cosine of the seam's own angle.
func (b *builder) miterOf(mt cap.Miter, sec section, x, side, gap float64) fold.End {
	if mt.Corner.Straight() {
		return pitchCut(x, side, gap, mt.Corner.Bend.Degrees())
	}
	half := madeTurn(mt).Degrees() / 2 * math.Pi / 180
	trim := mt.Trim[0].MM()
	if side < 0 {
		trim = mt.Trim[1].MM()
	}
	if !mt.Two() {
		return miter(x-side*gap/math.Cos(half), side, trim/sec.width)
	}
	return seam(sec, x-side*gap*math.Hypot(sec.width, trim)/sec.width, side, trim, math.Tan(half))
}

// prism folds a section between two ends, with its hems. A closed hem adds, on
// the flat beyond its fold, what fold.Bend.Hem says; it is laid out in the plane
// of the flange it is folded against, and cut to lie within the same end.
func (b *builder) prism(sec section, left, right fold.End) fold.Solid {
	s := fold.Prism(sec.profile, sec.top, left, right)
	h := b.s.Profile.HemReturn.MM()
	if h <= 0 {
		return s
	}
	p := sec.profile
	n := len(p.Y) - 1
	street, last := sec.top, len(s.Faces)-1 // the outermost faces, in the solid's order
	add := func(parent, edge, k, inner int) {
		dy, dz := p.Y[k]-p.Y[inner], p.Z[k]-p.Z[inner]
		l := math.Hypot(dy, dz)
		flat := b.bend.Hem(h)
		// On the flat the hem goes on beyond its fold; folded, it lies back on the
		// flange, so its ends are cut as the flange's are there.
		back := math.Min(flat, l)
		oy, oz := p.Y[k]+dy/l*flat, p.Z[k]+dz/l*flat
		by, bz := p.Y[k]-dy/l*back, p.Z[k]-dz/l*back
		at := func(e fold.End) fold.Vec { return fold.FromLayout(e(by, bz), oy, oz) }
		edgeOf := func(e fold.End) fold.Vec { return fold.FromLayout(e(p.Y[k], p.Z[k]), p.Y[k], p.Z[k]) }
		f := fold.Face{Name: "hem"}
		own := 0
		if edge == 2 { // beyond the street edge
			f.Corners = []fold.Vec{edgeOf(left), edgeOf(right), at(right), at(left)}
		} else {
			f.Corners = []fold.Vec{at(left), at(right), edgeOf(right), edgeOf(left)}
			own = 2
		}
		s.Faces = append(s.Faces, f)
		s.Folds = append(s.Folds, fold.Fold{A: parent, EdgeA: edge, B: len(s.Faces) - 1, EdgeB: own})
	}
	// In a prism the faces stand as: top, those towards the street one after the
	// other, then those towards the roof.
	add(street, 2, 0, 1)
	add(last, 0, n, n-1)
	return s
}

// inner is the section inside the metal, for a plate that stands between the
// legs under the top.
func inner(s section, t float64) section {
	n := s.top
	p := fold.Profile{
		Y:     []float64{t, t, s.width - t, s.width - t},
		Z:     []float64{s.profile.Z[n-1], -t - s.slope*t, -s.slope*(s.width-t) - t, s.profile.Z[n+2]},
		Names: []string{"front leg", "top", "rear leg"},
	}
	return section{profile: p, top: 1, width: s.width - 2*t, slope: s.slope}
}

// holes are the cut-outs of a part, as corners on the top.
func (b *builder) holes(p *cap.Piece, q cap.Part, sec section) [][]fold.Vec {
	var out [][]fold.Vec
	for _, o := range p.Cutouts {
		front := q.Run.FrontStation(o.Station)
		c := q.Run.ToCap(front)
		if c < q.From || c > q.To || !ofRun(o, q) {
			continue
		}
		x := (c - q.From).MM()
		y := (b.s.Metal.Thickness + b.s.FrontClearance + q.Run.At(front).Gap + o.FromFace).MM()
		w, d := o.Extent.MM()/2, o.Depth.MM()/2
		at := func(x, y float64) fold.Vec { return fold.FromLayout(x, y, -sec.slope*y) }
		out = append(out, []fold.Vec{at(x-w, y+d), at(x+w, y+d), at(x+w, y-d), at(x-w, y-d)})
	}
	return out
}

func ofRun(o *job.Obstacle, q cap.Part) bool {
	for i := range q.Run.Job.Obstacles {
		if &q.Run.Job.Obstacles[i] == o {
			return true
		}
	}
	return false
}
