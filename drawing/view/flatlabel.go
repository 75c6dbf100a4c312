package view

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/drawing/words"
	"copingset/layout/fold"
	"copingset/layout/plan"
)

// bendLabels stand in a column at the right, in the order of the bends from
// the street edge down, each led to its line. Brief ones are numbers alone, for
// the table of bends. They end at x.
func (d *flat) bendLabels(brief bool) (far drawing.Unit) {
	box := d.box
	type row struct {
		tip    drawing.Point
		y      drawing.Unit
		number string
		dot    bool // the line begins on a bend that it crosses the blank from
		words  string
		of     plan.BlankBend
	}
	var rows []row
	for _, q := range d.Bends {
		r := q.Right
		if q.Across {
			r.Y = (q.Left.Y + q.Right.Y) / 2
		}
		rows = append(
			rows, row{tip: d.m.at(r), number: strconv.Itoa(q.Order), words: d.bendRow(q), dot: q.Across, of: q},
		)
	}
	slices.SortStableFunc(rows, func(a, b row) int { return cmp.Compare(a.tip.Y, b.tip.Y) })
	const gap drawing.Unit = 700
	want := make([]drawing.Unit, len(rows))
	for i, r := range rows {
		want[i] = r.tip.Y
	}
	for i, y := range spaced(want, gap) {
		rows[i].y = y
	}
	x := box.Max.X + 350
	col := x + 900
	far = box.Max.X
	for _, r := range rows {
		d.s.Line(drawing.Thin, drawing.Pt(r.tip.X+80, r.tip.Y), drawing.Pt(x, r.tip.Y), drawing.Pt(col, r.y))
		if r.dot {
			d.s.Dot(r.tip, 60, drawing.Black)
		}
		d.p.Stroke(50, drawing.Pt(r.tip.X+80, r.tip.Y), drawing.Pt(x, r.tip.Y), drawing.Pt(col, r.y))
		fig := drawing.Balloon{
			At:    drawing.Pt(col+330, r.y),
			Words: r.number,
			Size:  drawing.Note,
			Tip:   drawing.Pt(col+330, r.y),
			Fact:  r.of.Key.Fact("order"),
		}.Figure()
		d.s.Draw(fig)
		d.letter(fig.Marks)
		d.p.Letter(fig.Box)
		far = max(far, fig.Box.Max.X)
		if !brief {
			t := d.s.Text(
				drawing.Pt(col+780, r.y+drawing.Unit(drawing.Note)/2),
				r.words,
				drawing.Style{Face: drawing.Bold, Fact: bendFacts(r.of)},
			)
			d.letter([]drawing.Mark{t})
			far = max(far, t.At.X+t.Width)
		}
	}
	return far
}

// bendFacts are what the words of a bend letter.
func bendFacts(q plan.BlankBend) string {
	if q.Across {
		return drawing.FactNames(bendTurn(q), q.Key.Fact("from-ends"))
	}
	return bendTurn(q)
}

// bendTurn is what the words of a bend letter of its turn: of a hem nothing.
func bendTurn(q plan.BlankBend) string {
	if q.Hem {
		return ""
	}
	return q.Key.Fact("turns-by-degrees")
}

// bendRow is what the label of a bend says.
func (d *flat) bendRow(q plan.BlankBend) string {
	phrase := BendTo(d.say, q.Hem, q.Turn, q.Radius, "  ", q.Between[1])
	switch {
	case q.Across:
		phrase += ", " + d.say.Say(words.FlatFromLeft, words.In("length", BlankLength(d.Metric, q.FromLeft)))
	case !q.Level:
		phrase += " " + d.say.Say(words.FlatSlants) // the table of bends gives both its ends
	}
	return drawing.Letter(phrase)
}

// labelled is the room the labels of the bends take beside the blank.
func (d *flat) labelled(brief bool) drawing.Unit {
	if len(d.Bends) == 0 {
		return 0
	}
	var wide drawing.Unit
	if !brief {
		for _, q := range d.Bends {
			wide = max(wide, drawing.Width(drawing.Bold, d.bendRow(q), drawing.Note))
		}
		wide += 60
	}
	return 350 + 900 + 660 + wide
}

// dimensioned is the room the distances of the bends take beside the blank.
func (d *flat) dimensioned() drawing.Unit {
	wide := drawing.Width(drawing.Regular, drawing.Letter(d.st.Short(d.Girth)), drawing.Note)
	for _, q := range d.Bends {
		wide = max(wide, drawing.Width(drawing.Regular, drawing.Letter(d.st.Short(q.FromStreet)), drawing.Note))
	}
	return distAt + distLead + wide
}

// side letters which hand a side of the blank is, as large as it must be
// seen.
func (d *flat) side(phrase string, room drawing.Rect, near drawing.Point) {
	lab := place.Label{
		Lines: []string{phrase},
		Size:  drawing.Display,
		Face:  drawing.Bold,
		About: near,
		Where: d.say.Say(words.FlatSide, words.In("hand", phrase)),
	}
	if len(phrase) > 1 {
		lab.Size = drawing.Head
	}
	d.mark(d.p.Place(lab, append([]place.Spot{place.At(near.X, near.Y)}, lab.Grid(room, near, 100)...)...))
}

// spaced moves places apart to a least step, each as near its own as can be,
// keeping their order: neighbours that would touch stand as one block about
// the mean of what they want.
func spaced(want []drawing.Unit, step drawing.Unit) []drawing.Unit {
	type block struct {
		sum float64 // of want less its rank in the block
		n   int
	}
	at := func(b block) float64 { return b.sum / float64(b.n) }
	var blocks []block
	for _, w := range want {
		blocks = append(blocks, block{float64(w), 1})
		for k := len(blocks) - 1; k > 0 && at(blocks[k]) < at(blocks[k-1])+float64(blocks[k-1].n)*float64(step); k-- {
			a, b := blocks[k-1], blocks[k]
			a.sum += b.sum - float64(b.n)*float64(a.n)*float64(step)
			a.n += b.n
			blocks = append(blocks[:k-1], a)
		}
	}
	var out []drawing.Unit
	for _, b := range blocks {
		for i := range b.n {
			out = append(out, drawing.Unit(math.Round(at(b)))+drawing.Unit(i)*step)
		}
	}
	return out
}

// faces letters what becomes of each face, where it is high enough: on one
// line or several, with as many of the words as there is room for. The list of
// bends names every face besides.
func (d *flat) faces() {
	for i, f := range d.Faces {
		box := boundsOf(d.m.all(f.Ring))
		if box.Height() < 620 || f.Name == "hem" {
			continue
		}
		name := strings.ToUpper(f.Name)
		deep := drawing.Letter(d.say.Say(words.FlatOutside, words.In("length", d.st.Short(f.Outside))))
		fall := ""
		tries := [][]string{{name + "  " + deep}, {name, deep}, {name}}
		if f.Name == "end plate" {
			tries = tries[2:]
		}
		if i == 0 {
			finish := strings.Split(d.say.Say(words.FlatFinish), "\n")
			film := d.say.Say(words.FlatFilm, words.In("film", d.Film))
			tries = append([][]string{
				{name + "  " + deep, finish[0] + " " + finish[1], film}, {name, deep, finish[0], finish[1], film},
				{name + "  " + deep, finish[0] + " " + finish[1]}, {name, deep, finish[0], finish[1]}, finish,
			}, tries...)
			if d.Falls && f.Name == "top" {
				fall = drawing.Letter(d.say.Say(words.FlatFalls,
					words.In("slope", LegSlopeWords(d.say, d.Metric, f.Slope))))
				tries = append(
					[][]string{
						{name + "  " + deep, fall, finish[0] + " " + finish[1], film}, {name + "  " + deep, fall},
						{name, deep, fall}, {fall},
					},
					tries...)
			}
		}
		for _, lines := range tries {
			lab := place.Label{
				Lines: lines,
				Facts: faceFacts(f, lines, deep, fall),
				Face:  drawing.Bold,
				About: box.Centre(),
				Where: f.Name,
			}
			if ring := d.m.all(f.Ring); len(ring) > 5 { // a leg with an opening
				lab.Only = func(box drawing.Rect) bool {
					return !slices.ContainsFunc(
						append(box.Corners(), box.Centre()),
						func(p drawing.Point) bool { return !holdsPoint(ring, p) },
					)
				}
			}
			if q, ok := d.p.Try(lab, lab.Grid(box.Inset(60), box.Centre(), 200)...); ok {
				d.mark(q)
				break
			}
		}
	}
}

// faceFacts names the depth of a face and its fall on the lines that letter them.
func faceFacts(f plan.BlankFace, lines []string, deep, fall string) []string {
	out := make([]string, len(lines))
	for i, w := range lines {
		switch {
		case strings.HasSuffix(w, deep):
			out[i] = f.Key.Fact("outside")
		case fall != "" && w == fall:
			out[i] = f.Key.Fact("slope")
		}
	}
	return out
}

func (d *flat) mark(q place.Placement) { d.s.Add(q.Marks...) }

// points letters the corners of a blank that is not a plain rectangle; the
// sheet lists them.
func (d *flat) points() {
	var wishes []place.Wish
	if !d.Square {
		for _, g := range CornerGroups(d.Blank) {
			if d.together(g) {
				wishes = append(wishes, d.point(g.Name, d.Corners[g.Of[len(g.Of)/2]].At))
				continue
			}
			for _, i := range g.Of {
				wishes = append(wishes, d.point(PointName(i), d.Corners[i].At))
			}
		}
	}
	for i, x := range d.Holes {
		if x.Rivet {
			continue // a row of them is told in words
		}
		box := boundsOf(d.m.all(x.Ring))
		lab := place.Label{
			Lines: []string{
				d.say.Say(words.FlatHole, words.In("n", strconv.Itoa(i+1))),
				drawing.Letter(d.st.Short(x.Right-x.Left) + " × " + d.st.Short(x.Roof-x.Street)),
			},
			Facts: []string{"", x.Key.Fact("size")},
			Face:  drawing.Bold,
			About: box.Centre(),
		}
		wishes = append(
			wishes,
			place.Wish{
				Label: lab,
				Spots: lab.Fan(
					place.Fan{
						Toward: 0,
						From:   box.Width()/2 + 150,
						To:     box.Width()/2 + 4000,
						Step:   150,
						Spread: 180,
						Reach:  box.Width()/2 + 900,
					},
				),
			},
		)
	}
	for _, q := range d.p.PlaceAll(wishes) {
		d.mark(q)
	}
}

// point is the label of a corner, or of several that stand together.
func (d *flat) point(name string, p fold.Point) place.Wish {
	lab := place.Label{
		Lines: []string{name},
		Face:  drawing.Regular,
		Size:  drawing.Small,
		About: d.m.at(p),
		Note:  d.say.Say(words.FlatCorner, words.In("name", name)),
	}
	out := 1800
	if p.X > (d.lo.X+d.hi.X)/2 {
		out = 0
	}
	return place.Wish{
		Label: lab,
		Spots: lab.Fan(place.Fan{Toward: out, From: 40, To: 3200, Step: 60, Spread: 170, Reach: 260}),
	}
}

// PointName letters a corner of an outline: a to z, then a1 and on.
func PointName(i int) string {
	s := string(rune('a' + i%26))
	if i >= 26 {
		s += strconv.Itoa(i / 26)
	}
	return s
}
