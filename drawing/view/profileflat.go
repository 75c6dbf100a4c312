package view

import (
	"math"
	"strconv"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/layout"
	"copingset/layout/length"
	"copingset/layout/shop"
)

// ShopSection is the cross-section of a family's cap with its outside
// dimensions, from one of its bodies on: street at the left, roof at the right,
// as one who looks along growing stations sees it.
func ShopSection(l *layout.Layout, f *layout.Family, from int, w, h drawing.Unit) drawing.Scene {
	return ShopSectionOf(l, f, from, "", w, h)
}

// ShopSectionOf is the cross-section for several widths: of the top it letters
// what top says, unless that is nothing.
func ShopSectionOf(l *layout.Layout, f *layout.Family, from int, top string, w, h drawing.Unit) drawing.Scene {
	s := drawing.Scene{Name: "section-" + fileName(f.Mark), Title: "Section of " + f.Mark, W: w, H: h}
	if from > 0 {
		s.Name, s.Title = s.Name+"-"+strconv.Itoa(from+1), s.Title+", "+f.Bodies[from].Name
	}
	s.Desc = "Cross-section of the cap with outside dimensions, street at the left, roof at the right."
	st := Blank(l)
	sys := &l.Job.System
	// Of a transition, the straight end: the taper is no one section.
	var b layout.Body
	var path []xy
	var names []int
	for _, body := range f.Bodies[from:] {
		if path, names = sectionPath(body); len(path) >= 2 {
			b = body
			break
		}
	}
	if len(path) < 2 {
		return s
	}
	var e extent
	e.hold(path...)
	title := "Section, outside dimensions to the mold lines"
	const side, over = 2600, 700
	var probe drawing.Scene
	head := captioned(&probe, st.Metric, drawing.Pt(50, 50), w-100, title, "street at the left, roof at the right", Scales(st.Metric)[0]).Max.Y + 300
	ew, eh := e.size()
	scale := Fit(st.Metric, length.Max(ew, length.MulDiv(eh, int64(w-2*side), max(int64(h-head-2*over), 1))), w-2*side)
	captioned(&s, st.Metric, drawing.Pt(50, 50), w-100, title, "street at the left, roof at the right", scale)
	m := paperMap{ratio: float64(scale.Ratio), origin: drawing.Pt(w/2-drawing.Round((e.lo.x+e.hi.x)/2/float64(scale.Ratio)), head+over-drawing.Round(e.lo.y/float64(scale.Ratio)))}
	t := sys.Metal.Thickness.MM()
	mid := inwards(path, t/2)
	s.Group(drawing.Caps, "", func(g *drawing.Scene) { sheetMetal(g, m, drawing.Thick, t, mid) })
	p := place.New(drawing.Box(0, head-200, w, h))
	pts := m.all(path...)
	for i := 1; i < len(pts); i++ {
		p.Stroke(90, pts[i-1], pts[i])
	}
	var wishes []place.Wish
	for i, face := range names {
		a, z := path[i], path[i+1]
		dir := z.sub(a).unit()
		c := m.at(a.between(z))
		words := b.Solid.Faces[face].Name + " " + st.Short(b.Outside(face))
		if face == 0 && top != "" {
			words = b.Solid.Faces[face].Name + ": " + top
		}
		lab := place.Label{Lines: []string{drawing.Letter(words)}, About: c, Face: drawing.Bold}
		outward := tenths(xy{dir.y, -dir.x}) // the outside lies to the left of one who goes from the street to the roof
		wishes = append(wishes, place.Wish{Label: lab, Spots: lab.Fan(place.Fan{Toward: outward, From: 150, To: 3500, Step: 100, Spread: 150, Reach: 260})})
	}
	for i := 1; i+1 < len(path); i++ {
		if q, ok := bendBetween(b, names[i-1], names[i]); ok {
			lab := place.Label{Lines: []string{drawing.Letter("incl. " + Degrees(q.Included()))}, Size: drawing.Small, About: m.at(path[i])}
			in := path[i-1].sub(path[i]).unit().add(path[i+1].sub(path[i]).unit())
			wishes = append(wishes, place.Wish{Label: lab, Spots: lab.Fan(place.Fan{Toward: tenths(in), From: 200, To: 3500, Step: 100, Spread: 170, Reach: 300})})
		}
	}
	for _, q := range p.PlaceAll(wishes) {
		s.Add(q.Marks...)
	}
	s.H = min(h, head+2*over+scale.Units(eh))
	for _, n := range p.Notes() {
		s.Text(drawing.Pt(0, s.H+drawing.Unit(drawing.Note)), strconv.Itoa(n.N)+": "+n.Words, drawing.Style{})
		s.H += drawing.Note.Line()
	}
	if got := s.Bounds(); got.Max.Y+100 > s.H {
		s.H = got.Max.Y + 100
	}
	return s
}

// sectionPath is the outline of a body across its folds, from the street edge
// to the roof edge, and the face between each two places. Hems are left out.
func sectionPath(b layout.Body) (path []xy, faces []int) {
	at := func(i, corner int) xy {
		v := b.Solid.Faces[i].Corners[corner]
		return xy{-v.Y, -v.Z}
	}
	// In a prism the faces stand as the top, those to the street one after the
	// other, then those to the roof.
	var street, roof []int
	for _, f := range b.Solid.Folds {
		switch n := b.Solid.Faces[f.B].Name; {
		case n == "hem" || n == "upstand":
		case f.A == 0 && len(b.Solid.Faces[0].Corners) == 4 && f.EdgeA == 2, len(street) > 0 && f.A == street[len(street)-1]:
			street = append(street, f.B)
		case f.A == 0 && f.EdgeA == 0, len(roof) > 0 && f.A == roof[len(roof)-1]:
			roof = append(roof, f.B)
		}
	}
	if len(street) == 0 || len(roof) == 0 {
		return nil, nil
	}
	for k := len(street) - 1; k >= 0; k-- {
		path = append(path, at(street[k], 3))
		faces = append(faces, street[k])
	}
	path = append(path, at(0, 3), at(0, 0))
	faces = append(faces, 0)
	for _, i := range roof {
		path = append(path, at(i, 0))
		faces = append(faces, i)
	}
	return path, faces
}

func bendBetween(b layout.Body, i, k int) (shop.Bend, bool) {
	x, y := b.Solid.Faces[i].Name, b.Solid.Faces[k].Name
	for _, q := range b.Bends {
		if q.Line.Between == [2]string{x, y} || q.Line.Between == [2]string{y, x} {
			return q, true
		}
	}
	return shop.Bend{}, false
}

// inwards moves a path to the right of its direction by d, mitered.
func inwards(path []xy, d float64) []xy {
	n := len(path)
	out := make([]xy, n)
	for i := range path {
		switch {
		case i == 0:
			out[i] = path[0].add(path[1].sub(path[0]).unit().roofward().times(d))
		case i == n-1:
			out[i] = path[i].add(path[i].sub(path[i-1]).unit().roofward().times(d))
		default:
			a, b := path[i].sub(path[i-1]).unit(), path[i+1].sub(path[i]).unit()
			m := a.roofward().add(b.roofward())
			k := float64(m.x*m.x) + float64(m.y*m.y)
			out[i] = path[i].add(m.times(2 * d / math.Max(k, 0.5)))
		}
	}
	return out
}
