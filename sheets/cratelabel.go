package sheets

import (
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout/crate"
	"copingset/layout/plan"
)

// crateLabels are one large label for each crate, two to a sheet.
func (b *book) crateLabels() []page {
	if len(b.l.Crates) == 0 {
		return nil
	}
	p := page{id: b.id("crate-labels"), title: b.say.Say(words.LabelCrates), kind: CrateLabels, paper: b.lists,
		about: b.say.Say(words.LabelCratesAbout)}
	var blocks []block
	for _, c := range b.l.Crates {
		blocks = append(blocks, b.crateLabel(c, (p.paper.room(false).Height()-between)/2))
	}
	return b.pages(p, blocks, across)
}

// crateLabel is read from a few steps away: which crate, when it is opened, how
// heavy it is, what is in it, which way up.
func (b *book) crateLabel(c *crate.Crate, least drawing.Unit) whole {
	type para struct {
		said string
		face drawing.Face
		size drawing.Size
	}
	weight, lift := b.labelWeight(c)
	ps := []para{{weight, drawing.Bold, drawing.Title}, {lift, drawing.Bold, drawing.Title - 50}}
	const body = drawing.Head + 30
	if c.Kind == crate.Hardware {
		ps = append(ps, para{b.hardwareShort(c), drawing.Bold, body})
	} else {
		ps = append(ps, para{b.say.Count(words.LabelPiecesMarks, len(c.Items), words.In("n", itoa(len(c.Items))),
			words.In("marks", b.marksShort(c))), drawing.Bold, body},
			para{b.labelPlace(c), drawing.Regular, body})
	}
	if c.Longest > 0 {
		ps = append(ps, para{b.say.Say(words.CrateHoldsLongest, words.In("length", b.text(c.Longest))), drawing.Regular,
			body})
	}
	if len(c.Over) > 0 {
		ps = append(ps, para{b.say.Say(words.LabelOver), drawing.Bold, body})
	}
	for _, w := range b.labelCautions(c) {
		ps = append(ps, para{w, drawing.Regular, body})
	}
	type line struct {
		said string
		st   drawing.Style
	}
	const head drawing.Unit = 2650
	// As large as the label holds: it is read from a few steps away. At the least its
	// words are larger than those of any list.
	wrap := func(w drawing.Unit) (out []line, h drawing.Unit) {
		for larger := drawing.Size(16); larger >= 9; larger-- {
			out, h = nil, 0
			for _, p := range ps {
				z := p.size * larger / 10
				for _, l := range drawing.Wrap(p.said, p.face, z, w-600) {
					out = append(out, line{l, drawing.Style{Size: z, Face: p.face}})
					h += z.Line()
				}
			}
			if head+h+400 <= least {
				break
			}
		}
		return out, h
	}
	return whole{
		h: func(w drawing.Unit) drawing.Unit {
			_, h := wrap(w)
			return max(least, head+h+400)
		},
		draw: func(s *drawing.Scene, r drawing.Rect) {
			s.Rect(drawing.Border, r)
			x := r.Min.X + 300
			number := b.say.Say(words.LabelCrate, words.In("n", itoa(c.N)), words.In("of", itoa(len(b.l.Crates))))
			s.Text(drawing.Pt(x, r.Min.Y+1600), number, drawing.Style{Size: within(number, drawing.Bold, 1200,
				r.Width()-4200), Face: drawing.Bold})
			opened := b.openedWhen(c)
			s.Text(drawing.Pt(x, r.Min.Y+2530), opened, drawing.Style{Size: within(opened, drawing.Bold, 540,
				r.Width()-600), Face: drawing.Bold})
			thisWayUp(s, drawing.Pt(r.Max.X-3300, r.Min.Y+350))
			keepDry(s, drawing.Pt(r.Max.X-1100, r.Min.Y+350))
			y := r.Min.Y + head
			lines, _ := wrap(r.Width())
			for _, l := range lines {
				y += l.st.Size.Line()
				s.Text(drawing.Pt(x, y), l.said, l.st)
			}
		},
	}
}

// openedWhen is the turn of a crate: they are opened in the order of their numbers.
func (b *book) openedWhen(c *crate.Crate) string {
	kind := words.In("kind", b.crateKind(c))
	if c.Kind == crate.Caps {
		kind.Value = b.say.Say(words.LabelOpenCaps)
	}
	switch c.N {
	case 1:
		return b.say.Say(words.LabelOpenFirst, kind)
	case len(b.l.Crates):
		return b.say.Say(words.LabelOpenLast, kind)
	}
	return b.say.Say(words.LabelOpenTurn, words.In("n", itoa(c.N)), kind)
}

// labelWeight is the weight of a crate and how it is lifted, in two short lines.
func (b *book) labelWeight(c *crate.Crate) (weight, lift string) {
	switch {
	case c.Grams == 0:
		weight = b.say.Say(words.LabelGrossUnknown)
	case c.Gross() == 0:
		weight = b.say.Say(words.LabelGrossPieces, words.In("weight", b.weight(b.crateGrams(c))))
	default:
		weight = b.say.Say(words.LabelGross, words.In("weight", b.weight(c.Gross())))
	}
	how, known := b.l.LiftOfCrate(c)
	switch {
	case !known:
		lift = b.say.Say(words.LabelLiftUnknown)
	case how == plan.ByMachine:
		lift = b.say.Say(words.LabelLiftMachine)
	case how == plan.ByTwo:
		lift = b.say.Say(words.LabelLiftTwo)
	default:
		lift = b.say.Say(words.LabelLiftOne)
	}
	return weight, lift
}

// labelPlace says where the pieces of a crate go and of what lots they are.
func (b *book) labelPlace(c *crate.Crate) string {
	runs := c.Runs()
	said := []string{b.say.Say(words.LabelPerimeter, words.In("perimeter", prose(c.Perimeter))),
		b.say.Count(words.CrateHoldsRuns, len(runs), words.In("runs", strings.Join(runs, ", ")))}
	if lots := c.Lots(); len(lots) > 0 {
		said = append(said, b.say.Count(words.LabelLots, len(lots), words.In("lots", prose(strings.Join(lots, ", ")))))
	}
	return strings.Join(said, " ")
}

// labelCautions are short: this way up and dry are drawn besides.
func (b *book) labelCautions(c *crate.Crate) []string {
	out := []string{b.say.Say(words.LabelUp)}
	if c.Kind == crate.Hardware {
		return out
	}
	handed := false
	for _, x := range c.Items {
		f := b.l.FamilyOf(x.Piece)
		handed = handed || b.l.Made(x.Piece).Hand != "" || f != nil && f.Twin != nil
	}
	if handed {
		out = append(out, b.say.Say(words.LabelHands))
	}
	finish := b.say.Say(words.LabelFinish)
	if b.j.System.Metal.Directional {
		finish += " " + b.say.Say(words.LabelGrain)
	}
	return append(out, finish)
}

// hardwareShort counts hardware by its sort.
func (b *book) hardwareShort(c *crate.Crate) string {
	names := [...]words.Key{crate.Chair: words.LabelCountChair, crate.Support: words.LabelCountSupport,
		crate.Plate: words.LabelCountPlate, crate.Screw: words.LabelCountScrew,
		crate.Shim: words.LabelCountShim, crate.Tape: words.LabelCountTape}
	count := make([]int, len(names))
	for _, x := range c.Items {
		count[x.Sort] += x.Count
	}
	var out []string
	for i, n := range count {
		if n > 0 {
			out = append(out, b.say.Count(names[i], n, words.In("n", itoa(n))))
		}
	}
	return b.say.Say(words.LabelHardware, words.In("counts", strings.Join(out, ", ")))
}

// marksShort are the marks of a crate from the top down, those that follow one
// another as "N-01 to N-05".
func (b *book) marksShort(c *crate.Crate) string {
	type stretch struct {
		first, last string
		n, step     int
	}
	var all []stretch
	for _, x := range c.Items {
		if k := len(all); k > 0 {
			s := &all[k-1]
			if by := markStep(s.last, x.Mark); by != 0 && (s.step == 0 || s.step == by) {
				s.last, s.step, s.n = x.Mark, by, s.n+1
				continue
			}
		}
		all = append(all, stretch{first: x.Mark, last: x.Mark, n: 1})
	}
	var out []string
	for _, s := range all {
		switch s.n {
		case 1:
			out = append(out, s.first)
		case 2:
			out = append(out, s.first, s.last)
		default:
			out = append(out, b.say.Say(words.LabelMarksRange, words.In("first", s.first), words.In("last", s.last)))
		}
	}
	return strings.Join(out, ", ")
}

// markStep is 1 or -1 where two marks follow one another up or down, else 0.
func markStep(a, z string) int {
	pa, na, ok := strings.Cut(a, "-")
	pz, nz, okz := strings.Cut(z, "-")
	if !ok || !okz || pa != pz {
		return 0
	}
	x, err := strconv.Atoi(na)
	y, errz := strconv.Atoi(nz)
	if d := y - x; err == nil && errz == nil && (d == 1 || d == -1) {
		return d
	}
	return 0
}

// thisWayUp draws two arrows on a line, as crates are marked everywhere.
func thisWayUp(s *drawing.Scene, at drawing.Point) {
	for _, dx := range []drawing.Unit{0, 800} {
		x, y := at.X+dx, at.Y
		s.Fill(drawing.Black, drawing.NoPen, drawing.Pt(x, y), drawing.Pt(x+320, y+520), drawing.Pt(x+110, y+520),
			drawing.Pt(x+110, y+1250),
			drawing.Pt(x-110, y+1250), drawing.Pt(x-110, y+520), drawing.Pt(x-320, y+520))
	}
	s.Line(drawing.Thick, drawing.Pt(at.X-400, at.Y+1420), drawing.Pt(at.X+1200, at.Y+1420))
}

// keepDry draws an umbrella under rain.
func keepDry(s *drawing.Scene, at drawing.Point) {
	c := drawing.Pt(at.X, at.Y+900)
	pts := []drawing.Point{{X: c.X - 650, Y: c.Y}, {X: c.X - 600, Y: c.Y - 230}, {X: c.X - 430, Y: c.Y - 450},
		{X: c.X - 200, Y: c.Y - 560}, {X: c.X, Y: c.Y - 590},
		{X: c.X + 200, Y: c.Y - 560}, {X: c.X + 430, Y: c.Y - 450}, {X: c.X + 600, Y: c.Y - 230},
		{X: c.X + 650, Y: c.Y}}
	s.Fill(drawing.Black, drawing.NoPen, pts...)
	s.Line(drawing.Thick, c, drawing.Pt(c.X, c.Y+480), drawing.Pt(c.X+170, c.Y+480), drawing.Pt(c.X+170, c.Y+380))
	for _, dx := range []drawing.Unit{-450, -150, 150, 450} {
		s.Line(drawing.Medium, drawing.Pt(c.X+dx+60, at.Y), drawing.Pt(c.X+dx, at.Y+160))
	}
}
