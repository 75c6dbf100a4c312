package sheets

import (
	"fmt"
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/layout/crate"
	"copingset/layout/plan"
)

// crateLabels are one large label for each crate, two to a sheet.
func (b *book) crateLabels() []page {
	if len(b.l.Crates) == 0 {
		return nil
	}
	p := page{id: b.id("crate-labels"), title: "Crate labels", kind: CrateLabels, paper: b.lists, about: "A label for each crate with its number, contents, weight and when it is opened."}
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
		words string
		face  drawing.Face
		size  drawing.Size
	}
	weight, lift := b.labelWeight(c)
	ps := []para{{weight, drawing.Bold, drawing.Title}, {lift, drawing.Bold, drawing.Title - 50}}
	const words = drawing.Head + 30
	if c.Kind == crate.Hardware {
		ps = append(ps, para{hardwareShort(c), drawing.Bold, words})
	} else {
		ps = append(ps, para{plural(len(c.Items), "piece") + ": " + marksShort(c), drawing.Bold, words}, para{b.labelPlace(c), drawing.Regular, words})
	}
	if c.Longest > 0 {
		ps = append(ps, para{"Longest piece " + b.text(c.Longest) + ".", drawing.Regular, words})
	}
	if len(c.Over) > 0 {
		ps = append(ps, para{"CAUTION: over the weight or length the job allows a crate.", drawing.Bold, words})
	}
	for _, w := range b.labelCautions(c) {
		ps = append(ps, para{w, drawing.Regular, words})
	}
	type line struct {
		words string
		st    drawing.Style
	}
	const head drawing.Unit = 2650
	// As large as the label holds: it is read from a few steps away.
	wrap := func(w drawing.Unit) (out []line, h drawing.Unit) {
		for larger := drawing.Size(16); larger >= 10; larger-- {
			out, h = nil, 0
			for _, p := range ps {
				z := p.size * larger / 10
				for _, l := range drawing.Wrap(p.words, p.face, z, w-600) {
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
			s.Text(drawing.Pt(x, r.Min.Y+1600), fmt.Sprintf("CRATE %d of %d", c.N, len(b.l.Crates)), drawing.Style{Size: 1200, Face: drawing.Bold})
			opened := b.openedWhen(c) + ": " + c.Kind.String()
			if c.Kind == crate.Caps {
				opened += ", lay from the top"
			}
			z := drawing.Size(600)
			for z > drawing.Head && drawing.Width(drawing.Bold, opened, z) > r.Width()-600 {
				z -= 10
			}
			s.Text(drawing.Pt(x, r.Min.Y+2500), opened, drawing.Style{Size: z, Face: drawing.Bold})
			thisWayUp(s, drawing.Pt(r.Max.X-3300, r.Min.Y+350))
			keepDry(s, drawing.Pt(r.Max.X-1100, r.Min.Y+350))
			y := r.Min.Y + head
			lines, _ := wrap(r.Width())
			for _, l := range lines {
				y += l.st.Size.Line()
				s.Text(drawing.Pt(x, y), l.words, l.st)
			}
		},
	}
}

// openedWhen is the turn of a crate: they are opened in the order of their numbers.
func (b *book) openedWhen(c *crate.Crate) string {
	switch c.N {
	case 1:
		return "OPEN FIRST"
	case len(b.l.Crates):
		return "OPEN LAST"
	}
	return "OPEN No. " + itoa(c.N)
}

// labelWeight is the weight of a crate and how it is lifted, in two short lines.
func (b *book) labelWeight(c *crate.Crate) (weight, lift string) {
	switch {
	case c.Grams == 0:
		weight = "GROSS NOT KNOWN: weigh before lifting"
	case c.Gross() == 0:
		weight = b.weight(b.crateGrams(c)) + " of pieces. GROSS NOT KNOWN"
	default:
		weight = "GROSS " + b.weight(c.Gross())
	}
	how, known := b.l.LiftOfCrate(c)
	switch {
	case !known:
		lift = "Lift by machine, or weigh it first"
	case how == plan.ByMachine:
		lift = mechanical + ", soft slings and a spreader"
	case how == plan.ByTwo:
		lift = "TWO persons to lift"
	default:
		lift = "One person may lift it"
	}
	return weight, lift
}

// labelPlace says where the pieces of a crate go and of what lots they are.
func (b *book) labelPlace(c *crate.Crate) string {
	runs := c.Runs()
	words := "Perimeter " + prose(c.Perimeter) + ", run"
	if len(runs) > 1 {
		words += "s"
	}
	words += " " + strings.Join(runs, ", ") + "."
	if lots := c.Lots(); len(lots) > 0 {
		words += " Lots: " + prose(strings.Join(lots, ", ")) + "."
	}
	return words
}

// labelCautions are short: this way up and dry are drawn besides.
func (b *book) labelCautions(c *crate.Crate) []string {
	out := []string{"THIS SIDE UP. KEEP DRY, covered, off the ground. Edges cut: wear gloves."}
	if c.Kind == crate.Hardware {
		return out
	}
	handed := false
	for _, x := range c.Items {
		f := b.l.FamilyOf(x.Piece)
		handed = handed || b.l.Made(x.Piece).Hand != "" || f != nil && f.Twin != nil
	}
	if handed {
		out = append(out, "LEFT and RIGHT pieces look alike: read the L and R of the label before a piece goes up.")
	}
	finish := "Finished faces: lift pieces, never drag them."
	if b.j.System.Metal.Directional {
		finish += " The finish has a grain: do not mix lots or turn pieces."
	}
	return append(out, finish)
}

// hardwareShort counts hardware by its sort.
func hardwareShort(c *crate.Crate) string {
	names := [...]string{crate.Cap: "piece", crate.Chair: "chair", crate.Support: "corner support", crate.Plate: "plate", crate.Screw: "fastener", crate.Shim: "shim", crate.Tape: "roll of tape"}
	count := make([]int, len(names))
	for _, x := range c.Items {
		count[x.Sort] += x.Count
	}
	var out []string
	for i, n := range count {
		switch {
		case n == 0:
		case n > 1 && crate.Sort(i) == crate.Tape:
			out = append(out, itoa(n)+" rolls of tape")
		default:
			out = append(out, plural(n, names[i]))
		}
	}
	return strings.Join(out, ", ") + ". Sizes: see the list."
}

// marksShort are the marks of a crate from the top down, those that follow one
// another as "N-01 to N-05".
func marksShort(c *crate.Crate) string {
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
			out = append(out, s.first+" to "+s.last)
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
		s.Fill(drawing.Black, drawing.NoPen, drawing.Pt(x, y), drawing.Pt(x+320, y+520), drawing.Pt(x+110, y+520), drawing.Pt(x+110, y+1250),
			drawing.Pt(x-110, y+1250), drawing.Pt(x-110, y+520), drawing.Pt(x-320, y+520))
	}
	s.Line(drawing.Thick, drawing.Pt(at.X-400, at.Y+1420), drawing.Pt(at.X+1200, at.Y+1420))
}

// keepDry draws an umbrella under rain.
func keepDry(s *drawing.Scene, at drawing.Point) {
	c := drawing.Pt(at.X, at.Y+900)
	pts := []drawing.Point{{X: c.X - 650, Y: c.Y}, {X: c.X - 600, Y: c.Y - 230}, {X: c.X - 430, Y: c.Y - 450}, {X: c.X - 200, Y: c.Y - 560}, {X: c.X, Y: c.Y - 590},
		{X: c.X + 200, Y: c.Y - 560}, {X: c.X + 430, Y: c.Y - 450}, {X: c.X + 600, Y: c.Y - 230}, {X: c.X + 650, Y: c.Y}}
	s.Fill(drawing.Black, drawing.NoPen, pts...)
	s.Line(drawing.Thick, c, drawing.Pt(c.X, c.Y+480), drawing.Pt(c.X+170, c.Y+480), drawing.Pt(c.X+170, c.Y+380))
	for _, dx := range []drawing.Unit{-450, -150, 150, 450} {
		s.Line(drawing.Medium, drawing.Pt(c.X+dx+60, at.Y), drawing.Pt(c.X+dx, at.Y+160))
	}
}
