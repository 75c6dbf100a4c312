package view

import (
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/layout"
	"copingset/layout/cut"
	"copingset/layout/length"
	"copingset/layout/shop"
)

// cutHead is the room of the words above a bar or a sheet.
const cutHead drawing.Unit = 620

// cutSide keeps the edges of a picture within it.
const cutSide drawing.Unit = 50

// CutBar draws how one formed cap is cut: pieces from the left with their marks
// and lengths, and the drop.
func CutBar(l *layout.Layout, o shop.BarOrder, n int, w drawing.Unit) drawing.Scene {
	bar := o.Plan.Bars[n]
	st := Shop(l)
	long := o.Stocks[bar.Stock].Length
	words := drawing.Letter("Cap " + strconv.Itoa(n+1) + ": " + strconv.Itoa(bar.Count) + " × " + st.InText(long) + dropWords(l, bar.Drop, bar.Kept))
	s := drawing.Scene{Name: "bar-" + strconv.Itoa(n+1), Title: "How a formed cap is cut", Desc: words, W: w, H: cutHead + 1150}
	s.Text(drawing.Pt(0, 350), words, drawing.Style{Face: drawing.Bold})
	x := func(at length.Length) drawing.Unit {
		return cutSide + drawing.Unit(length.MulDiv(at, int64(w-2*cutSide), int64(long)))
	}
	box := drawing.Box(cutSide, cutHead, w-cutSide, cutHead+950)
	s.Fill(drawing.Light, drawing.Medium, box.Corners()...)
	p := place.New(drawing.Box(0, 0, w, 1<<20))
	p.Letter(drawing.Box(0, 0, w, cutHead-50))
	at := length.Length(0)
	var cells []drawing.Rect
	var names [][]string
	for _, c := range bar.Cuts {
		q := o.Closers[c]
		made := q.Length() + q.Allowance
		cells = append(cells, drawing.Box(x(at), box.Min.Y, x(at+made), box.Max.Y))
		names = append(names, []string{q.Mark, drawing.Letter(st.Long(made))})
		at += made + l.Job.Shop.Kerf
	}
	s.H = cellNames(&s, p, cells, names, box)
	return s
}

// dropWords say what becomes of what is left.
func dropWords(l *layout.Layout, drop length.Length, kept bool) string {
	switch {
	case drop <= 0:
		return ", nothing left"
	case kept:
		return ", drop " + Shop(l).InText(drop) + " KEPT"
	}
	return ", drop " + Shop(l).InText(drop) + " scrap"
}

// cellNames draws cells white and letters them: inside where they fit, else on
// leaders under the picture. It returns the height of what was drawn.
func cellNames(s *drawing.Scene, p *place.Placer, cells []drawing.Rect, names [][]string, box drawing.Rect) drawing.Unit {
	for _, c := range cells {
		s.Fill(drawing.White, drawing.Medium, c.Corners()...)
	}
	p.Stroke(60, append(box.Corners(), box.Min)...)
	for _, c := range cells {
		p.Stroke(40, append(c.Corners(), c.Min)...)
	}
	var wishes []place.Wish
	for i, c := range cells {
		lab := place.Label{Lines: names[i], Face: drawing.Bold, About: c.Centre()}
		for _, lines := range [][]string{names[i], {strings.Join(names[i], "  ")}, parted(names[i]), strings.Fields(strings.Join(names[i], " "))} {
			try := lab
			try.Lines = paired(lines)
			if w, h := try.Extent(); w+160 <= c.Width() && h+160 <= c.Height() {
				lab = try
				break
			}
		}
		spots := lab.Grid(c.Inset(50), c.Centre(), 150)
		for k := range drawing.Unit(8) {
			for _, dx := range []drawing.Unit{0, -600, 600, -1500, 1500} {
				spots = append(spots, place.Pointed(c.Centre().X+dx, box.Max.Y+400+k*520))
			}
		}
		wishes = append(wishes, place.Wish{Label: lab, Spots: spots})
	}
	for _, q := range p.PlaceAll(wishes) {
		s.Add(q.Marks...)
	}
	y := box.Max.Y + 200
	if got := s.Bounds(); got.Max.Y+150 > y {
		y = got.Max.Y + 150
	}
	for _, n := range p.Notes() {
		y += drawing.Note.Line()
		s.Text(drawing.Pt(0, y), strconv.Itoa(n.N)+": "+n.Words, drawing.Style{})
		y += 60
	}
	return y + 150
}

// parted is a mark, what is behind it, and the two sizes of a blank on lines of
// their own.
func parted(names []string) []string {
	var out []string
	for i, w := range names {
		by := " × "
		if i == 0 {
			by = " "
		}
		a, z, ok := strings.Cut(w, by)
		if !ok {
			out = append(out, w)
			continue
		}
		out = append(out, strings.TrimSpace(a+strings.TrimRight(by, " ")), z)
	}
	return out
}

// paired keeps a sign and a fraction with what they belong to.
func paired(words []string) []string {
	var out []string
	for _, w := range words {
		if n := len(out); n > 0 && (w == "×" || strings.Contains(w, "/") && !strings.ContainsAny(w, "ABCDEFGHIJKLMNOPQRSTUVWXYZ")) {
			out[n-1] += " " + w
			continue
		}
		out = append(out, w)
	}
	return out
}

// BlankName is what is lettered on a blank.
func BlankName(l *layout.Layout, b shop.Blank) string {
	if b.Family == nil {
		return "cap " + drawing.Letter(Shop(l).Long(b.Length))
	}
	if len(b.Family.Bodies) == 1 {
		return b.Mark
	}
	return b.Mark + " " + b.Family.Bodies[b.Body].Name
}

// CutSheet draws how one sheet is ripped into strips and the strips cut to
// blanks. The grain runs from left to right; no blank is turned.
func CutSheet(l *layout.Layout, lot *shop.Lot, n int, w, h drawing.Unit) drawing.Scene {
	r := lot.Sheets.Sheets[n]
	st := Shop(l)
	size := l.Job.Shop.Sheets[r.Stock]
	words := drawing.Letter("Sheet " + strconv.Itoa(n+1) + ": " + strconv.Itoa(r.Count) + " × " + st.InText(size.Width) + " × " + st.InText(size.Length) +
		" along the grain; " + strconv.Itoa(YieldOf(l, lot, r)) + " % used, " + st.InText(r.Rest) + " of the width left")
	s := drawing.Scene{Name: "sheet-" + strconv.Itoa(n+1), Title: "How a sheet is cut", Desc: words, W: w}
	head := s.Paragraph(drawing.Pt(0, 350), words, w, drawing.Style{Face: drawing.Bold})
	top := head.Max.Y + 200
	sc := Fit(st.Metric, length.Max(size.Length, length.MulDiv(size.Width, int64(w-2*cutSide), int64(max(h-top-500, 2000)))), w-2*cutSide)
	box := drawing.Box(cutSide, top, cutSide+sc.Units(size.Length), top+sc.Units(size.Width))
	s.Fill(drawing.Light, drawing.Medium, box.Corners()...)
	p := place.New(drawing.Box(0, 0, w, 1<<20))
	p.Letter(drawing.Box(0, 0, w, top-50))
	trim, edge := sc.Units(l.Job.Shop.EndTrim), sc.Units(l.Job.Shop.EdgeTrim)
	var cells []drawing.Rect
	var names [][]string
	y := box.Min.Y + edge
	for _, strip := range r.Strips {
		x := box.Min.X + trim
		high := sc.Units(strip.Width)
		for _, c := range strip.Cuts {
			b := lot.Blanks[c]
			wide := sc.Units(b.Length)
			cells = append(cells, drawing.Box(x, y, x+wide, y+high))
			names = append(names, []string{BlankName(l, b), drawing.Letter(Blank(l).Short(b.Girth) + " × " + Blank(l).Long(b.Length))})
			x += wide
		}
		y += high
	}
	s.H = cellNames(&s, p, cells, names, box)
	return s
}

// YieldOf is how much of a sheet its blanks take, in per cent, rounded down.
func YieldOf(l *layout.Layout, lot *shop.Lot, r cut.RippedSheet) int {
	size := l.Job.Shop.Sheets[r.Stock]
	var used float64
	for _, strip := range r.Strips {
		for _, c := range strip.Cuts {
			used += lot.Blanks[c].Girth.MM() * lot.Blanks[c].Length.MM()
		}
	}
	return int(100 * used / (size.Width.MM() * size.Length.MM()))
}
