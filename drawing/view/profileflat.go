package view

import (
	"strconv"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// ShopSection is the cross-section of a cap with its outside dimensions: street at
// the left, roof at the right, as one who looks along growing stations sees it. Of
// the top it letters what top says, unless that is nothing: a drawing for several
// widths.
func ShopSection(say words.Book, of plan.Profile, top string, w, h drawing.Unit) drawing.Scene {
	s := drawing.Scene{Name: "section-" + fileName(of.Name), Title: of.Title, W: w, H: h}
	s.Desc = say.Say(words.ProfileSectionAbout)
	if len(of.Faces) == 0 {
		return s
	}
	st := BlankStyle(of.Metric)
	lo, hi := of.Metal.Bounds()
	title := drawing.Said{Words: say.Say(words.ProfileSection)}
	under := drawing.Said{Words: say.Say(words.ProfileSectionSides)}
	const side, over = 2600, 700
	var probe drawing.Scene
	head := captioned(say, &probe, st.Metric, drawing.Pt(50, 50), w-100, title, under, Scales(st.Metric)[0]).Max.Y + 300
	ew, eh := hi.X-lo.X, hi.Y-lo.Y
	scale := Fit(st.Metric, length.Max(ew, length.MulDiv(eh, int64(w-2*side), max(int64(h-head-2*over), 1))), w-2*side)
	captioned(say, &s, st.Metric, drawing.Pt(50, 50), w-100, title, under, scale)
	m := paperMap{ratio: float64(scale.Ratio)}
	corner := m.up(plan.Pt{X: (lo.X + hi.X) / 2, Y: hi.Y})
	m.origin = drawing.Pt(w/2, head+over).Sub(corner)
	s.Group(drawing.Caps, "", func(g *drawing.Scene) {
		pen := drawing.NoPen
		if scale.Ratio > 2 { // thin sheet stays the heaviest line
			pen = drawing.Thin
		}
		g.Fill(drawing.Black, pen, m.ring(of.Metal)...)
	})
	p := place.New(drawing.Box(0, head-200, w, h))
	for _, f := range of.Faces {
		p.Stroke(90, m.up(f.From), m.up(f.To))
	}
	way := func(f plan.ProfileFace) xy { return xy{(f.To.X - f.From.X).MM(), -(f.To.Y - f.From.Y).MM()}.unit() }
	var wishes []place.Wish
	for _, f := range of.Faces {
		dir := way(f)
		lines, fact := []string{drawing.Letter(f.Name + " " + st.Short(f.Outside))}, f.Fact
		switch {
		case f.Root && top != "":
			lines[0], fact = drawing.Letter(f.Name+": "+top), ""
		case f.Tangent:
			lines = append(lines, say.Say(words.ProfileToTangent))
		}
		c := m.up(plan.Pt{X: (f.From.X + f.To.X) / 2, Y: (f.From.Y + f.To.Y) / 2})
		lab := place.Label{Lines: lines, Facts: []string{fact}, About: c, Face: drawing.Bold}
		outward := tenths(xy{dir.y, -dir.x}) // the outside lies to the left of one who goes from the street to the roof
		wishes = append(
			wishes,
			place.Wish{
				Label: lab,
				Spots: lab.Fan(place.Fan{Toward: outward, From: 150, To: 3500, Step: 100, Spread: 150, Reach: 260}),
			},
		)
	}
	for i, q := range of.Bends {
		lab := place.Label{
			Lines: []string{drawing.Letter(say.Say(words.ProfileIncluded, words.In("angle", Degrees(q.Included))))},
			Facts: []string{q.Fact},
			Size:  drawing.Small,
			About: m.up(q.At),
		}
		in := way(of.Faces[i+1]).sub(way(of.Faces[i]))
		wishes = append(
			wishes,
			place.Wish{
				Label: lab,
				Spots: lab.Fan(place.Fan{Toward: tenths(in), From: 200, To: 3500, Step: 100, Spread: 170, Reach: 300}),
			},
		)
	}
	for _, q := range p.PlaceAll(wishes) {
		s.Add(q.Marks...)
	}
	s.H = min(h, head+2*over+scale.Units(eh))
	noted(&s, p.Notes())
	if got := s.Bounds(); got.Max.Y+100 > s.H {
		s.H = got.Max.Y + 100
	}
	return s
}

// noted letters under a drawing what found no room on it.
func noted(s *drawing.Scene, notes []place.Note) {
	for _, n := range notes {
		s.Text(drawing.Pt(0, s.H+drawing.Unit(drawing.Note)), strconv.Itoa(n.N)+": "+n.Words,
			drawing.Style{Fact: n.Fact})
		s.H += drawing.Note.Line()
	}
}
