package view

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// cutHead is the room of the words above a bar or a sheet.
const cutHead drawing.Unit = 620

// cutSide keeps the edges of a picture within it.
const cutSide drawing.Unit = 50

// CutBar draws how one formed cap is cut: pieces from the left with their marks
// and lengths, and the drop.
func CutBar(say words.Book, bar plan.CutBar, w drawing.Unit) drawing.Scene {
	st := length.Shop(bar.Metric)
	phrase := drawing.Letter(barWords(say, st, bar))
	s := drawing.Scene{
		Name:  "bar-" + strconv.Itoa(bar.N),
		Title: say.Say(words.CutBarTitle),
		Desc:  phrase,
		W:     w,
		H:     cutHead + 1150,
	}
	s.Text(
		drawing.Pt(0, 350),
		phrase,
		drawing.Style{
			Face: drawing.Bold,
			Fact: drawing.FactNames(bar.Key.Fact(""), bar.Key.Fact("-count"), bar.Key.Fact("-mark")),
		},
	)
	x := func(at length.Length) drawing.Unit {
		return cutSide + drawing.Unit(length.MulDiv(at, int64(w-2*cutSide), int64(bar.Length)))
	}
	box := drawing.Box(cutSide, cutHead, w-cutSide, cutHead+950)
	s.Fill(drawing.Light, drawing.Medium, box.Corners()...)
	p := place.New(drawing.Box(0, 0, w, 1<<20))
	p.Letter(drawing.Box(0, 0, w, cutHead-50))
	at := length.Length(0)
	var cells []drawing.Rect
	var names [][]string
	var facts []string
	for _, q := range bar.Cuts {
		cells = append(cells, drawing.Box(x(at), box.Min.Y, x(at+q.Long), box.Max.Y))
		names = append(names, []string{q.Mark, drawing.Letter(st.Long(q.Long))})
		facts = append(facts, q.Fact)
		at += q.Long + bar.Kerf
	}
	s.H = cellNames(&s, p, cells, nil, names, make([]string, len(cells)), facts, box)
	return s
}

// barWords say how often a cap is cut so, and what becomes of what is left.
func barWords(say words.Book, st length.Style, bar plan.CutBar) string {
	slots := []words.Slot{
		words.In("n", strconv.Itoa(bar.N)),
		words.In("from", BarFrom(say, bar.Mark)),
		words.In("count", strconv.Itoa(bar.Count)),
		words.In("length", st.InText(bar.Length)),
	}
	if bar.Drop <= 0 {
		return say.Say(words.CutBarWhole, slots...)
	}
	slots = append(slots, words.In("left", st.InText(bar.Drop)))
	if bar.Kept {
		return say.Say(words.CutBarKept, slots...)
	}
	return say.Say(words.CutBarScrap, slots...)
}

// BarFrom is the formed cap that is cut up, or that it is a drop in hand.
func BarFrom(say words.Book, mark string) string {
	if mark == "" {
		return say.Say(words.CutFromDrop)
	}
	return say.Say(words.CutFromCap, words.In("mark", mark))
}

// tick is where a cell is cut again, between two levels of the paper.
type tick struct{ x, top, foot drawing.Unit }

// cellNames draws cells white and letters them: inside where they fit, else on leaders
// under the picture. Where a cell is cut again, ticks at its foot leave room for its
// words. It returns the height of what was drawn.
func cellNames(
	s *drawing.Scene,
	p *place.Placer,
	cells []drawing.Rect,
	ticks []tick,
	names [][]string,
	heads, facts []string, // that the first line of each letters, and the others
	box drawing.Rect,
) drawing.Unit {
	for _, c := range cells {
		s.Fill(drawing.White, drawing.Medium, c.Corners()...)
	}
	for _, q := range ticks {
		ends := []drawing.Point{drawing.Pt(q.x, q.foot-min((q.foot-q.top)/6, 100)), drawing.Pt(q.x, q.foot)}
		s.Line(drawing.Medium, ends...)
		p.Stroke(40, ends...)
	}
	p.Stroke(60, append(box.Corners(), box.Min)...)
	for _, c := range cells {
		p.Stroke(40, append(c.Corners(), c.Min)...)
	}
	noted := map[string]string{} // look-up only: what stands under the picture for a label
	var wishes []place.Wish
	for i, c := range cells {
		lab := place.Label{Lines: names[i], Face: drawing.Bold, About: c.Centre()}
		for _, lines := range [][]string{names[i], {strings.Join(names[i], ":  ")}, parted(names[i]),
			strings.Fields(strings.Join(names[i], ": "))} {
			try := lab
			try.Lines = paired(lines)
			if w, h := try.Extent(); w+160 <= c.Width() && h+160 <= c.Height() {
				lab = try
				break
			}
		}
		lab.Facts = slices.Repeat([]string{facts[i]}, len(lab.Lines))
		noted[strings.Join(lab.Lines, " ")] = strings.Join(names[i], ":  ")
		if lab.Lines[0] == names[i][0] { // its mark on a line of its own
			lab.Facts[0] = heads[i]
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
		s.Text(drawing.Pt(0, y), strconv.Itoa(n.N)+": "+cmp.Or(noted[n.Words], n.Words), drawing.Style{Fact: n.Fact})
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
func paired(phrase []string) []string {
	var out []string
	for _, w := range phrase {
		if n := len(out); n > 0 &&
			(w == "×" || strings.Contains(w, "/") && !strings.ContainsAny(w, "ABCDEFGHIJKLMNOPQRSTUVWXYZ \u00a0")) {
			out[n-1] += " " + w
			continue
		}
		out = append(out, w)
	}
	return out
}

// CutSheet draws how one sheet is ripped into strips and the strips cut to blanks. The
// grain runs from left to right.
func CutSheet(say words.Book, r plan.CutSheet, w, h drawing.Unit) drawing.Scene {
	st := length.Shop(r.Metric)
	phrase := drawing.Letter(
		say.Say(
			words.CutSheetWords,
			words.In("n", strconv.Itoa(r.N)),
			words.In("count", strconv.Itoa(r.Count)),
			words.In("width", st.InText(r.Width)),
			words.In("length", st.InText(r.Length)),
			words.In("yield", strconv.Itoa(r.Yield)),
			words.In("rest", st.InText(r.Rest)),
		),
	)
	s := drawing.Scene{Name: "sheet-" + strconv.Itoa(r.N), Title: say.Say(words.CutSheetTitle), Desc: phrase, W: w}
	head := s.Paragraph(
		drawing.Pt(0, 350),
		phrase,
		w,
		drawing.Style{
			Face: drawing.Bold,
			Fact: drawing.FactNames(
				r.Key.Fact("count"),
				r.Key.Fact("size"),
				r.Key.Fact("yield-percent"),
				r.Key.Fact("rest"),
			),
		},
	)
	top := head.Max.Y + 200
	sc := Fit(
		st.Metric,
		length.Max(r.Length, length.MulDiv(r.Width, int64(w-2*cutSide), int64(max(h-top-500, 2000)))),
		w-2*cutSide,
	)
	box := drawing.Box(cutSide, top, cutSide+sc.Units(r.Length), top+sc.Units(r.Width))
	s.Fill(drawing.Light, drawing.Medium, box.Corners()...)
	p := place.New(drawing.Box(0, 0, w, 1<<20))
	p.Letter(drawing.Box(0, 0, w, top-50))
	trim, edge := sc.Units(r.EndTrim), sc.Units(r.EdgeTrim)
	var cells []drawing.Rect
	var ticks []tick
	var names [][]string
	var heads, facts []string
	y := box.Min.Y + edge
	for _, strip := range r.Strips {
		x := box.Min.X + trim
		for i := 0; i < len(strip.Cuts); {
			b := strip.Cuts[i]
			across, along := b.Girth, b.Length
			if b.Turned {
				across, along = along, across
			}
			from, n := x, 0
			for ; i < len(strip.Cuts) && strip.Cuts[i] == b; i, n = i+1, n+1 { // alike, and lettered once
				if n > 0 {
					ticks = append(ticks, tick{x, y, y + sc.Units(across)})
				}
				x += sc.Units(along)
			}
			cells = append(cells, drawing.Box(from, y, x, y+sc.Units(across)))
			names = append(names, []string{
				blankName(say, b, n),
				drawing.Letter(BlankStyle(r.Metric).Short(b.Girth) + " × " + BlankStyle(r.Metric).Long(b.Length)),
			})
			facts = append(facts, drawing.FactNames(b.Key.Fact("girth"), b.Key.Fact("length")))
			head := b.Key.Fact("mark")
			if b.Mark == "" {
				head = b.Key.Fact("length")
			}
			heads = append(heads, head)
		}
		y += sc.Units(strip.Width)
	}
	s.H = cellNames(&s, p, cells, ticks, names, heads, facts, box)
	return s
}

// blankName is what is lettered on so many alike blanks side by side.
func blankName(say words.Book, b plan.CutBlank, n int) string {
	name := b.Mark
	if b.Turned {
		name = say.Say(words.CutTurned, words.In("mark", name))
	}
	if n > 1 {
		name = say.Say(words.CutMany, words.In("n", strconv.Itoa(n)), words.In("mark", name))
	}
	return name
}
