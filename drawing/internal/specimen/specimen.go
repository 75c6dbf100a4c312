// Package specimen draws one sheet with every pen, tone, pattern, lettering and composite there is. The back ends are
// tried on it.
package specimen

import "copingset/drawing"

// Sheet returns the specimen, an A3 sheet.
func Sheet() drawing.Scene {
	s := drawing.Scene{Name: "specimen", Title: "Specimen sheet", Desc: "Every pen, pattern and composite.",
		W: 420 * drawing.MM, H: 297 * drawing.MM}
	s.Group(drawing.Frame, "frame", func(g *drawing.Scene) {
		g.Rect(drawing.Border, drawing.Box(1000, 1000, 41000, 28700))
	})
	s.Group(drawing.Lettering, "pens", pens)
	s.Group(drawing.Zones, "patterns", patterns)
	s.Group(drawing.Lettering, "letters", letters)
	s.Group(drawing.Dimensions, "dimensions", dimensions)
	s.Group(drawing.Tables, "signs", signs)
	return s
}

func pens(g *drawing.Scene) {
	y := drawing.Unit(1800)
	for _, p := range drawing.Pens() {
		g.Line(p, drawing.Pt(1600, y), drawing.Pt(6600, y), drawing.Pt(6900, y-300), drawing.Pt(7200, y))
		g.Text(drawing.Pt(7500, y+120), p.String(), drawing.Style{Size: drawing.Small})
		y += 620
	}
	for t := drawing.White; t <= drawing.Black; t++ {
		x := 1600 + drawing.Unit(t-1)*1300
		g.Fill(t, drawing.Thin, drawing.Box(x, y, x+1200, y+700).Corners()...)
		g.TextIn(drawing.Box(x, y, x+1200, y+700), t.String(), drawing.Style{Size: drawing.Small,
			Reverse: t >= drawing.Dark})
	}
}

func patterns(g *drawing.Scene) {
	x, y := drawing.Unit(10800), drawing.Unit(1500)
	for i, k := range drawing.HatchKinds() {
		if i == 7 {
			x, y = 10800, 4400
		}
		g.Hatch(k, drawing.Medium, drawing.Pt(x, y), drawing.Pt(x+2900, y), drawing.Pt(x+3800, y+1100),
			drawing.Pt(x+3800, y+2000), drawing.Pt(x, y+2000))
		g.Text(drawing.Pt(x, y+2400), k.String(), drawing.Style{})
		x += 4250
	}
	// A hole, and two neighbours whose patterns meet.
	g.Add(drawing.Region{Rings: [][]drawing.Point{drawing.Box(10800, 7300, 14600, 8900).Corners(),
		drawing.Box(11600, 7700, 13000, 8500).Corners()},
		Hatch: drawing.Masonry, Pen: drawing.Medium})
	g.Hatch(drawing.Packing3, drawing.Thin, drawing.Box(15050, 7300, 16500, 8900).Corners()...)
	g.Hatch(drawing.Packing3, drawing.Thin, drawing.Box(16500, 7300, 18850, 8900).Corners()...)
	// Thin bodies as they come in a section.
	g.Hatch(drawing.Concrete, drawing.Thick, drawing.Box(19300, 8100, 24000, 8900).Corners()...)
	g.Hatch(drawing.Plywood, drawing.Medium, drawing.Box(19300, 7800, 24000, 8100).Corners()...)
	g.Hatch(drawing.Membrane, drawing.Medium, drawing.Box(19300, 7600, 24000, 7800).Corners()...)
	g.Hatch(drawing.Metal, drawing.Medium, drawing.Box(19300, 7480, 24000, 7600).Corners()...)
}

func letters(g *drawing.Scene) {
	x, y := drawing.Unit(25000), drawing.Unit(7900)
	for _, z := range []drawing.Size{drawing.Small, drawing.Note, drawing.Head, drawing.Title} {
		g.Text(drawing.Pt(x, y), drawing.Letter(`12'-3 13/16" MITER 24 GA. Il1 O0 8B 5S ±Ø×°–½`),
			drawing.Style{Size: z})
		y += z.Line()
	}
	g.Text(drawing.Pt(x, y+500), "DISPLAY Bold", drawing.Style{Size: drawing.Display, Face: drawing.Bold})
	g.Line(drawing.Thin, drawing.Pt(34000, 10400), drawing.Pt(40500, 10400))
	g.Text(drawing.Pt(35000, 10520), "halo", drawing.Style{Halo: true})
	g.Text(drawing.Pt(38000, 9800), "turned 20°", drawing.Style{Rotate: 200, Halo: true})
	g.Text(drawing.Pt(40300, 8800), "read from the right", drawing.Style{Rotate: 900, Align: drawing.Middle,
		Size: drawing.Small})
	g.Paragraph(drawing.Pt(25000, 11500),
		"A paragraph is broken into lines no wider than its width, and not a word of it is lost. & < > ( ) \\", 9000,
		drawing.Style{})
}

func dimensions(g *drawing.Scene) {
	feet := []string{`10'-0"`, `2'-0 13/16"`, `1/4"`, `9'-11 3/4"`, `10'-0"`, `3'-1 1/2"`}
	stops := []drawing.Unit{1800, 6200, 7200, 7400, 11800, 16200, 17500}
	object := drawing.Box(1800, 15000, 17500, 15800)
	g.Rect(drawing.Thick, object)
	g.Draw(drawing.Chain{At: 14000, Stops: stops, Labels: feet, From: []drawing.Unit{15000}, Ends: drawing.Ticks,
		Lo: 1200, Hi: 19000}.Figure())
	g.Draw(drawing.Linear(false, 12600, 1800, 17500, `35'-4 5/16"`, 15000, drawing.Ticks).Figure())
	g.Draw(drawing.Running{At: 16600, Stops: []drawing.Unit{1800, 3200, 3500, 3800, 4100, 6200, 7200, 7400, 11800,
		16200, 17500}, From: []drawing.Unit{15800},
		Labels: []string{`0'-0"`, `3'-2 1/4"`, `3'-10"`, `4'-6"`, `5'-2"`, `10'-0"`, `12'-0 13/16"`, `12'-1 1/16"`,
			`22'-0 13/16"`, `32'-0 13/16"`, `35'-2 5/16"`}, Lo: 1200, Hi: 19000}.Figure())

	metric := []string{"3000", "615", "6", "3000", "3000", "12", "450"}
	m := []drawing.Unit{21000, 25000, 25800, 25900, 29900, 33900, 33950, 34600}
	g.Rect(drawing.Thick, drawing.Box(21000, 15000, 34600, 15800))
	g.Draw(drawing.Chain{At: 14000, Stops: m, Labels: metric, From: []drawing.Unit{15000},
		Ends: drawing.Arrows}.Figure())
	g.Draw(drawing.Chain{At: 16800, Stops: m, Labels: metric, From: []drawing.Unit{15800},
		Ends: drawing.Arrows}.Figure())
	g.Draw(drawing.Running{At: 19000, Stops: []drawing.Unit{21000, 25000, 25800, 25900, 29900, 33900, 33950, 34600},
		From:   []drawing.Unit{15800},
		Labels: []string{"0", "3000", "3615", "3621", "6621", "9621", "9633", "10083"}, Ends: drawing.Arrows}.Figure())

	// Upright, on both sides.
	g.Rect(drawing.Thick, drawing.Box(36600, 14000, 37400, 20000))
	v := []drawing.Unit{14000, 16000, 16300, 18000, 20000}
	w := []string{"200", "30", "170", "200"}
	g.Draw(drawing.Chain{Vertical: true, At: 35900, Stops: v, Labels: w, From: []drawing.Unit{36600},
		Ends: drawing.Arrows}.Figure())
	g.Draw(drawing.Chain{Vertical: true, At: 38000, Stops: v, Labels: w, From: []drawing.Unit{37400},
		Ends: drawing.Ticks}.Figure())
	g.Draw(drawing.Running{Vertical: true, At: 39300, Stops: []drawing.Unit{20000, 18000, 16300, 16000, 14000},
		Labels: []string{"0", "200", "370", "400", "600"},
		From:   []drawing.Unit{37400}, Ends: drawing.Arrows}.Figure())

	// Many narrow bays with wide labels: the labels are turned.
	var many []drawing.Unit
	var words []string
	for i := range 16 {
		many = append(many, 2000+drawing.Unit(i)*620)
		if i > 0 {
			words = append(words, `1'-11 15/16"`)
		}
	}
	g.Rect(drawing.Thick, drawing.Box(2000, 23600, 11300, 24000))
	g.Draw(drawing.Chain{At: 23000, Stops: many, Labels: words, From: []drawing.Unit{23600}, Lo: 1200,
		Hi: 14000}.Figure())
}

func signs(g *drawing.Scene) {
	g.Draw(drawing.ScaleBar{At: drawing.Pt(13500, 21500), Stops: []drawing.Unit{0, 635, 1270, 2540, 5080},
		Labels: []string{"0", "1'", "2'", "4'", "8'"}, Words: `1/4" = 1'-0"`}.Figure())
	g.Draw(drawing.CheckBar{At: drawing.Pt(21000, 21700),
		Words: "CHECK BAR: measure it. If the print is not true to size, do not scale from it."}.Figure())
	g.Draw(drawing.NorthArrow{At: drawing.Pt(33500, 22600), R: 700, North: 1150}.Figure())
	g.Draw(drawing.DirectionArrow{Tail: drawing.Pt(13500, 24400), Head: drawing.Pt(18500, 24400),
		Words: "STATIONS"}.Figure())
	g.Draw(drawing.DirectionArrow{Tail: drawing.Pt(35500, 24000), Head: drawing.Pt(35500, 22000),
		Words: "OUTSIDE"}.Figure())
	g.Draw(drawing.Leader{Tip: drawing.Pt(3000, 26000), Knee: drawing.Pt(4000, 25200),
		Words: "edge of cap\nsecond line"}.Figure())
	g.Draw(drawing.Leader{Tip: drawing.Pt(11000, 26000), Knee: drawing.Pt(10200, 25400),
		Words: `on the surface, 3 1/2"`, Dot: true}.Figure())
	g.Draw(drawing.Balloon{At: drawing.Pt(12500, 26500), Words: "7", Tip: drawing.Pt(11500, 27200),
		Point: true}.Figure())
	g.Draw(drawing.Balloon{At: drawing.Pt(14000, 26500), Words: "128"}.Figure())
	g.Draw(drawing.HoldFlag{At: drawing.Pt(21000, 25800), Words: "HOLD 3", Tip: drawing.Pt(20000, 27500),
		Point: true}.Figure())
	g.Draw(drawing.HoldBanner{Box: drawing.Box(27500, 25600, 40500, 27400),
		Words: "HOLD – NOT FOR FABRICATION"}.Figure())
	g.Arc(drawing.Medium, drawing.Pt(17500, 27000), 800, 300, 1700)
	g.Arc(drawing.Thin, drawing.Pt(17500, 27000), 600, -450, 2250)
	g.Link(drawing.Box(27500, 25600, 40500, 27400), "specimen")
}
