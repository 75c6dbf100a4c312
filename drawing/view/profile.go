package view

import (
	"math"

	"copingset/drawing"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"
)

// profile is a cap in cross-section with what it stands on, in millimetres:
// x from the cap line towards the roof, y down from the set surface at the
// wall's front face.
type profile struct {
	sys             *job.System
	t               float64 // metal
	inside, outside float64
	face, back      float64 // front and rear face of the wall
	cross           float64 // fall of the set surface towards the roof
	packF, packR    float64 // set surface over the wall top at the faces
	foldF, foldR    float64 // outside folds of the cap
	footF, footR    float64
}

// profileAt is the cap over a wall whose front face lies face behind the cap
// line. Heights follow cap.Fold, as the laps do.
func profileAt(s *job.System, inside, face, width, packF, packR length.Length) profile {
	p := profile{
		sys: s, t: s.Metal.Thickness.MM(), inside: inside.MM(), outside: (inside + 2*s.Metal.Thickness).MM(),
		face: face.MM(), back: (face + width).MM(), packF: packF.MM(), packR: packR.MM(),
	}
	if s.Profile.SlopeBy == job.SlopeByPacking {
		p.cross = float64(s.Profile.TopSlope) / 1e9
	}
	p.setFolds(cap.Fold(s, inside))
	return p
}

// setFolds gives the cap the heights of its folds over the set surface.
func (p *profile) setFolds(front, rear length.Length) {
	p.foldF, p.foldR = -front.MM(), p.set(p.back)-rear.MM()
	p.footF, p.footR = p.foldF+p.sys.FrontFoot().MM(), p.foldR+p.sys.RearFoot().MM()
}

// set is the height of the set surface at a place across the wall.
func (p profile) set(x float64) float64 { return p.cross * (x - p.face) }

// top is the height of the wall top at a place across it.
func (p profile) top(x float64) float64 {
	f := (x - p.face) / math.Max(p.back-p.face, 1)
	a, b := p.packF, p.set(p.back)+p.packR
	return a + f*(b-a)
}

// under is the underside of the cap's top at a place across it.
func (p profile) under(x float64) float64 {
	return p.foldF + p.t + (p.foldR-p.foldF)*x/p.outside
}

// kick is the end of a flange at the foot of a leg: it turns by its angle from
// the line of the leg towards the street, which is outwards for the drip and
// inwards for the rear hook.
func kick(foot xy, k job.Kick) xy {
	s, c := math.Sincos(k.Angle.Degrees() * math.Pi / 180)
	return foot.add(xy{-s, c}.times(k.Length.MM()))
}

// cap is the middle line of the metal, from the drip over the top to the rear
// hook, moved by in to the inside of the profile.
func (p profile) cap(in float64) []xy {
	h := p.t/2 + in
	x0, x1 := h, p.outside-h
	y := func(x float64) float64 { return p.under(x) - p.t/2 + in }
	f, r := xy{x0, p.footF}, xy{x1, p.footR}
	path := []xy{f, {x0, y(x0)}, {x1, y(x1)}, r}
	if in > 0 {
		return path
	}
	pr := &p.sys.Profile
	if pr.Drip.Length > 0 {
		path = append([]xy{kick(f, pr.Drip)}, path...)
	}
	if pr.RearHook.Length > 0 {
		path = append(path, kick(r, pr.RearHook))
	}
	return path
}

// chairSpan is the chair across the wall: its front and its rear edge.
func (p profile) chairSpan() (a, b float64) {
	return cap.ChairLine(p.sys).MM(), cap.ChairRear(p.sys, length.FromMM(p.inside)).MM()
}

// chair is the chair in principle, in two bends of strip: the base plate on
// the set surface, its upstands as high as the cap less gap, with short tops
// along the cap's slope. Where the wall leaves room its edges turn down
// towards the drip and the rear hook, which they hold.
func (p profile) chair(lift, gap float64) (paths [][]xy) {
	a, b := p.chairSpan()
	base := func(x float64) float64 { return p.set(x) - lift }
	top := func(x float64) float64 { return math.Min(p.under(x)+gap, base(x)-1) }
	lip := math.Min(p.inside*0.16, 45)
	paths = append(paths, []xy{{a + lip, top(a + lip)}, {a, top(a)}, {a, base(a)}, {b, base(b)}, {b, top(b)}, {b - lip, top(b - lip)}})
	hold := p.sys.Chair.Thickness.MM() + 0.5
	if a+hold < p.face && p.sys.Profile.Drip.Length > 0 {
		end := kick(xy{a, p.footF - gap}, p.sys.Profile.Drip)
		end = xy{a, p.footF - gap}.between(end)
		paths = append(paths, []xy{{a, base(a)}, {a, p.footF - gap}, end})
	}
	if b-hold > p.back {
		paths = append(paths, []xy{{b, base(b)}, {b, math.Max(p.footR-12, base(b))}})
	}
	return paths
}

// thickened is the outline of a strip of thickness t about its middle line,
// mitered at the bends.
func thickened(path []xy, t float64) []xy {
	n := len(path)
	left, right := make([]xy, n), make([]xy, n)
	for i := range path {
		var d xy
		switch {
		case i == 0:
			d = path[1].sub(path[0]).unit()
		case i == n-1:
			d = path[n-1].sub(path[n-2]).unit()
		}
		off := d.roofward().times(t / 2)
		if i > 0 && i < n-1 {
			a, b := path[i].sub(path[i-1]).unit(), path[i+1].sub(path[i]).unit()
			m := a.roofward().add(b.roofward())
			k := float64(m.x*m.x) + float64(m.y*m.y)
			off = m.times(t / math.Max(k, 0.5)) // a sharp hook's miter is cut short
		}
		left[i], right[n-1-i] = path[i].add(off), path[i].sub(off)
	}
	return append(left, right...)
}

// asLine is the thickness on paper under which sheet is drawn as a thick line.
const asLine drawing.Unit = 70

// sheetMetal draws a strip of sheet: to its true thickness if the paper shows
// it, else as a thick line.
func sheetMetal(g *drawing.Scene, m paperMap, pen drawing.Pen, t float64, path []xy) {
	if drawing.Round(t/m.ratio) < asLine {
		g.Line(pen, m.all(path...)...)
		return
	}
	g.Fill(drawing.Dark, drawing.Thin, m.all(thickened(path, t)...)...)
}

// dashed draws a path in thick dashes: membrane.
func dashed(g *drawing.Scene, m paperMap, path []xy) {
	const on, gap = 260, 110
	pts := m.all(path...)
	left := float64(on)
	drawn := true
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		d := xy{float64(b.X - a.X), float64(b.Y - a.Y)}
		long, at := d.length(), 0.0
		for at < long {
			step := math.Min(left, long-at)
			p, q := off(a, d, drawing.Unit(math.Round(at))), off(a, d, drawing.Unit(math.Round(at+step)))
			if drawn && p != q {
				g.Line(drawing.Thick, p, q)
			}
			at += step
			if left -= step; left <= 0 {
				drawn = !drawn
				left = gap
				if drawn {
					left = on
				}
			}
		}
	}
}
