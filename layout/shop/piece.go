package shop

import (
	"copingset/layout/cap"
	"copingset/layout/fold"
	"copingset/layout/job"
)

// raw is a body before it is unfolded.
type raw struct {
	name   string
	metal  *fold.Sheet // one sheet along the run; nil: it is a tray
	winged *fold.Tray
	err    error      // why its section cannot be one sheet
	solid  fold.Solid // on the mold lines, for pictures
	holes  []cutout   // on the root
	rivets []rivetRow // at its seams
	// For reliefs: which ends are welded to another body, and whether its outline
	// is notched between its ends, to be closed by a weld.
	welded  [2]bool
	notched bool
	// Which ends are cut to one plane on the top and to another below its folds.
	planes [2]bool
}

// cutout is a hole: its outline, and where it is round its middle and diameter.
type cutout struct {
	ring     []fold.Vec
	at       fold.Vec
	diameter float64
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
	var out []raw
	for i, q := range p.Parts {
		m.slope = float64(q.Slope(b.s)) / 1e9
		sec := section{(q.Inside() + 2*b.s.Metal.Thickness).MM(), m.slope}
		x0, x1 := 0.0, q.Length().MM()
		allowance := p.Allowance.MM()
		switch {
		case allowance > 0 && p.CutAt == cap.LeftHand:
			x0 -= allowance
		case allowance > 0:
			x1 += allowance
		}
		left, right := fold.Cut{Seam: square(x0)}, fold.Cut{Seam: square(x1)}
		if i > 0 {
			left = b.cutOf(p.Miters[i-1], sec, x0, -1)
		}
		if i < len(p.Miters) {
			right = b.cutOf(p.Miters[i], sec, x1, 1)
		}
		first, last := i == 0, i == len(p.Parts)-1
		r := raw{name: legName(i, len(p.Parts)), welded: [2]bool{i > 0, i < len(p.Miters)}}
		r.planes = [2]bool{i > 0 && p.Miters[i-1].Two(), i < len(p.Miters) && p.Miters[i].Two()}
		r = b.sheet(r, m, sec, left, right)
		if i > 0 {
			r = b.lap(r, p.Miters[i-1], -1)
		}
		if i < len(p.Miters) {
			r = b.lap(r, p.Miters[i], 1)
		}
		if first && p.LeftEnd == job.EndWall {
			r = b.upstand(r, false)
		}
		if last && p.RightEnd == job.EndWall {
			r = b.upstand(r, true)
		}
		r.holes = b.holes(p, q, sec)
		out = append(out, r)
		for side, closed := range []bool{first && p.LeftEnd == job.EndFree, last && p.RightEnd == job.EndFree} {
			if closed {
				out = append(out, b.endPlate(r, side == 1))
			}
		}
	}
	return out
}

// tapered are the two bodies of a transition, from its left hand to its right.
func (b *builder) tapered(p *cap.Piece, m measures) []raw {
	t := 2 * b.s.Metal.Thickness
	wideRight := p.Hand == cap.RightHand
	tp := taper{m, (p.Wide + t).MM(), (p.Narrow + t).MM(), p.Length().MM(), b.s.Transition.Leg.MM(), wideRight}
	gap := b.shop.WeldGap.MM()
	side := -1.0
	if wideRight {
		side = 1
	}
	sec := section{tp.narrow, m.slope}
	free := fold.Cut{Seam: fold.Square(tp.x(0), !wideRight)}
	seam := fold.Cut{Seam: narrowSeam(sec, tp.x(tp.leg), side, tp.turn(), b.bend.Radius+b.bend.Thickness), Gap: gap}
	left, right := free, seam
	if !wideRight {
		left, right = seam, free
	}
	narrow := b.sheet(raw{name: "narrow end"}, m, sec, left, right)
	wide := raw{name: "taper and wide end", notched: true}.tray(tp.tray(b))
	narrow.welded[1], wide.welded[0] = wideRight, wideRight
	narrow.welded[0], wide.welded[1] = !wideRight, !wideRight
	narrow.planes, wide.planes = narrow.welded, wide.welded
	for _, h := range b.holes(p, p.Parts[0], sec) {
		// On the body whose straight front it lies over; a hole over the seam is on the larger.
		over := h.ring[1].X < tp.leg
		if !wideRight {
			over = h.ring[0].X > p.Length().MM()-tp.leg
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
		front: p.FrontLeg.Length.MM(), drip: p.Drip.Length.MM(), dripTurn: p.Drip.Angle.Degrees(),
		dripTo: measure(p.FrontLeg),
		rear:   p.RearLeg.Length.MM(), hook: p.RearHook.Length.MM(), hookTurn: p.RearHook.Angle.Degrees(),
		hookTo: measure(p.RearLeg),
		slope:  float64(p.TopSlope) / 1e9,
	}
}

// measure is what a leg, and the flange at its foot, are stated to.
func measure(l job.Leg) fold.Measure {
	if l.To == job.ToTangent {
		return fold.ToTangent
	}
	return fold.ToMoldLine
}

// holes are the cut-outs of a part, as corners on the top.
func (b *builder) holes(p *cap.Piece, q cap.Part, sec section) []cutout {
	var out []cutout
	for _, o := range p.Cutouts {
		c := q.Run.ToCap(q.Run.FrontStation(o.Station))
		if c < q.From || c > q.To || !ofRun(o, q) {
			continue
		}
		x := (c - q.From).MM()
		y := (q.Run.FaceAt(b.s, c).Street + o.FromFace).MM()
		w, d := o.Extent.MM()/2, o.Depth.MM()/2
		at := func(x, y float64) fold.Vec { return fold.FromLayout(x, y, -sec.slope*y) }
		out = append(out, cutout{ring: []fold.Vec{at(x-w, y+d), at(x+w, y+d), at(x+w, y-d), at(x-w, y-d)}})
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
