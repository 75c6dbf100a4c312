package sheets

import (
	"strings"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout/job"
)

// paper is a sheet in the way it is held.
type paper struct {
	w, h drawing.Unit
}

// sizes of the sheets: ANSI by ASME Y14.1, A4 to A2 by ISO 216; narrow side
// first.
func size(z job.PaperSize) (narrow, wide drawing.Unit) {
	switch z {
	case job.ANSIA:
		return 8*drawing.Inch + drawing.Inch/2, 11 * drawing.Inch
	case job.ANSIB:
		return 11 * drawing.Inch, 17 * drawing.Inch
	case job.ANSIC:
		return 17 * drawing.Inch, 22 * drawing.Inch
	case job.ANSID:
		return 22 * drawing.Inch, 34 * drawing.Inch
	case job.ISOA4:
		return 21000, 29700
	case job.ISOA3:
		return 29700, 42000
	case job.ISOA2:
		return 42000, 59400
	}
	panic("sheets: unknown paper")
}

func landscape(z job.PaperSize) paper {
	n, w := size(z)
	return paper{w, n}
}

func portrait(z job.PaperSize) paper {
	n, w := size(z)
	return paper{n, w}
}

const (
	margin     drawing.Unit = 1000 // printers leave 6.4 mm; this keeps clear of it
	pad        drawing.Unit = 500  // inside the border
	stripHigh  drawing.Unit = 4100
	stackHigh  drawing.Unit = 5880  // on paper too narrow for a title block of four rows
	blockWide  drawing.Unit = 18000 // ISO 7200: at most 180 mm
	blockLeast drawing.Unit = 12500
	barWide    drawing.Unit = 4*drawing.Inch + 900
	bannerHigh drawing.Unit = 1200
)

// border is the line round the sheet.
func (p paper) border() drawing.Rect { return drawing.Box(margin, margin, p.w-margin, p.h-margin) }

// broad sheets have room for check bar, notes and title block side by side.
func (p paper) broad() bool { return p.w-2*margin >= blockWide+barWide+7000 }

// narrow sheets, held upright, have a title block of many low rows.
func (p paper) narrow() bool { return p.w-2*margin < blockLeast+barWide }

func (p paper) strip() drawing.Unit {
	if p.narrow() {
		return stackHigh
	}
	return stripHigh
}

// room is what is left for the sheet's own matter.
func (p paper) room(banner bool) drawing.Rect {
	r := p.border().Inset(pad)
	r.Max.Y -= p.strip()
	if banner {
		r.Min.Y += bannerHigh + 250
	}
	return r
}

// draw makes the scene of a page in the order it is read aloud: what sheet it
// is, what is on hold, its matter, and last what every sheet says.
func (b *book) draw(p page, number string, refer func(string) string) drawing.Scene {
	s := drawing.Scene{Name: p.id, Title: p.title, Desc: p.about, W: p.paper.w, H: p.paper.h}
	if p.by != nil {
		b = p.by
	}
	m := b.matterOf(p, number, refer)
	if p.bare {
		s.Add(m.scene.Marks...)
		return s
	}
	s.Group(drawing.Frame, "title", func(g *drawing.Scene) { b.title(g, p.paper.block(), p, number, m) })
	if p.banner != "" {
		// Capitals have no descenders: the words stay large between the lines of the banner.
		said := strings.ToUpper(p.banner)
		if id := "findings"; p.kind != Findings && refer(id) != "" {
			// A sheet is called by its number: that keeps its small letters.
			before, after, _ := strings.Cut(b.say.Say(words.FrameSee, words.In("sheet", "\x00")), "\x00")
			said += " " + strings.ToUpper(before) + refer(id) + after
		}
		r := p.paper.border().Inset(pad)
		s.Group(drawing.Holds, "banner", func(g *drawing.Scene) {
			g.Draw(
				drawing.HoldBanner{
					Box:   drawing.Box(r.Min.X, r.Min.Y, r.Max.X, r.Min.Y+bannerHigh),
					Words: said,
				}.Figure(),
			)
		})
	}
	s.Add(m.scene.Marks...)
	b.revised(&s, p, m)
	s.Group(drawing.Frame, "frame", func(g *drawing.Scene) { b.frame(g, p) })
	return s
}

// block is the place of the title block.
func (p paper) block() drawing.Rect {
	r := p.border()
	r.Min.Y = r.Max.Y - p.strip()
	r.Min.X += barWide
	if p.broad() {
		r.Min.X = r.Max.X - blockWide
	}
	return r
}

// frame draws border and strip: check bar and notes. Where a page has a foot
// of its own, it stands in the middle and the notes under the bar.
func (b *book) frame(s *drawing.Scene, p page) {
	r := p.paper.border()
	s.Rect(drawing.Border, r)
	top := r.Max.Y - p.paper.strip()
	s.Line(drawing.Border, drawing.Pt(r.Min.X, top), drawing.Pt(r.Max.X, top))
	upright := func(x drawing.Unit) { s.Line(drawing.Medium, drawing.Pt(x, top), drawing.Pt(x, r.Max.Y)) }
	x := r.Min.X + barWide
	upright(x)
	got := s.Draw(drawing.CheckBar{At: drawing.Pt(r.Min.X+450, top+200), Words: b.say.Say(words.FrameCheck)}.Figure())
	under := drawing.Box(r.Min.X+300, got.Max.Y+150, x-300, r.Max.Y)
	if !p.paper.broad() {
		b.notes(s, under)
		return
	}
	block := p.paper.block()
	upright(block.Min.X)
	middle := drawing.Box(x+300, top+250, block.Min.X-300, r.Max.Y-200)
	if p.foot != nil {
		b.notes(s, under)
		p.foot(s, middle)
	} else {
		b.notes(s, middle)
	}
}

// notes letters the direction and the deference. The arrow shows on the sheet which
// way stations are measured; where the words fill the room they say it alone.
func (b *book) notes(s *drawing.Scene, r drawing.Rect) {
	const arrowHigh drawing.Unit = 400
	type para struct {
		face  drawing.Face
		lines []string
	}
	var ps []para
	z, apart := drawing.Note, drawing.Unit(55) // apart: between lines, hundredths of their height
	y := r.Min.Y + arrowHigh
	for ; ; z = drawing.Small {
		ps = []para{
			{drawing.Bold, drawing.Wrap(b.say.Say(words.FrameDirection), drawing.Bold, z, r.Width())},
			{drawing.Regular, drawing.Wrap(b.say.Say(words.FrameDeference), drawing.Regular, z, r.Width())},
		}
		n := drawing.Unit(len(ps[0].lines) + len(ps[1].lines))
		if said := b.translation(); said != "" {
			ps = append(ps, para{drawing.Bold, drawing.Wrap(said, drawing.Bold, z, r.Width())})
			n += drawing.Unit(len(ps[2].lines))
		}
		if y+n*drawing.Unit(z)*16/10+100 <= r.Max.Y-100 {
			break
		}
		if z == drawing.Small { // the arrow gives way, and the lines stand closer, before one is lost
			y, apart = r.Min.Y-40, 36
			break
		}
	}
	if y > r.Min.Y {
		at := drawing.Pt(r.Min.X, r.Min.Y+120)
		s.Draw(drawing.DirectionArrow{Tail: at, Head: at.Add(drawing.Pt(2200, 0))}.Figure())
		s.Text(at.Add(drawing.Pt(2450, drawing.Unit(drawing.Small)/2)), b.say.Say(words.FrameStations),
			drawing.Style{Size: drawing.Small, Face: drawing.Bold})
	}
	for _, q := range ps {
		for _, line := range q.lines {
			y += drawing.Unit(z)
			s.Text(drawing.Pt(r.Min.X, y), line, drawing.Style{Size: z, Face: q.face})
			y += drawing.Unit(z) * apart / 100
		}
		y += apart * 2
	}
}

// field of a title block.
type field struct {
	label, value string
	part         drawing.Unit // of the width of its row
	size         drawing.Size
	lines        int
}

// title draws the title block. ISO 7200 names what it has to hold.
func (b *book) title(s *drawing.Scene, r drawing.Rect, p page, no string, m *matter) {
	in := b.j.Info
	say := b.say.Say
	rev := say(words.FrameNone)
	if mark, day := b.revisionOf(m); len(in.Revisions) > 0 || b.tracked() {
		rev = say(words.FrameRevisionOf, words.In("mark", mark), words.In("date", day))
	}
	job := field{say(words.FrameJob), in.Name, 66, drawing.Head, 1}
	number := field{say(words.FrameNumber), in.Number, 34, drawing.Head, 1}
	address := field{say(words.FrameAddress), in.Address, 66, drawing.Note, 1}
	owner := field{say(words.FrameOwner), in.Owner, 50, drawing.Note, 1}
	by := field{say(words.FrameContractor), b.firm(), 50, drawing.Note, 1}
	title := field{say(words.FrameTitle), p.title, 100, drawing.Title, 1}
	sheet := field{say(words.FrameSheet), no, 34, drawing.Title, 1}
	scale := field{say(words.FrameScale), p.scale, 25, drawing.Note, 1}
	units := field{say(words.FrameUnits), b.units(), 25, drawing.Note, 1}
	prepared := field{say(words.FramePrepared), in.PreparedBy, 25, drawing.Note, 1}
	checked := field{say(words.FrameChecked), in.CheckedBy, 25, drawing.Note, 1}
	issued := field{say(words.FrameIssued), date(in.Issued), 25, drawing.Note, 1}
	revision := field{say(words.FrameRevision), rev, 25, drawing.Note, 1}
	if scale.value == "" {
		scale.value = say(words.FrameNone)
	}
	var rows [][]field
	var heights []drawing.Unit
	if !p.paper.narrow() {
		title.part, sheet.part = 76, 24
		job.part, number.part, address.part = 46, 17, 37
		owner.part, by.part = 32, 30
		revision.part, issued.part = 24, 14
		scale.part, units.part, prepared.part, checked.part = 30, 20, 25, 25
		rows = [][]field{
			{title, sheet},
			{job, number, address},
			{owner, by, issued, revision},
			{scale, units, prepared, checked},
		}
		heights = []drawing.Unit{1200, 1000, 950, 950}
	} else {
		title.size, title.lines, title.part = drawing.Head, 2, 70
		sheet.size, sheet.part = drawing.Head, 30
		job.part, address.part, owner.part, by.part = 100, 100, 100, 100
		number.part, scale.part, prepared.part, revision.part = 55, 55, 55, 55
		job.size, number.size = drawing.Note, drawing.Note
		rows = [][]field{
			{title, sheet},
			{job},
			{address},
			{owner},
			{by},
			{number, issued},
			{scale, units},
			{prepared, checked},
			{revision},
		}
		heights = []drawing.Unit{1400, 560, 560, 560, 560, 560, 560, 560, 560}
	}
	fieldRows(s, r, rows, heights)
	if p.kind.shopMarks() && b.isPreliminary() {
		w := r.Width()*title.part/100 - 240 - 300 - drawing.Width(drawing.Regular, title.label, drawing.Small)
		said := b.status()
		if drawing.Width(drawing.Bold, said, drawing.Note) > w {
			said = b.say.Say(words.LabelPreliminary, words.In("digest", b.shownDigest()))
		}
		s.Text(
			drawing.Pt(r.Min.X+r.Width()*title.part/100-120, r.Min.Y+130+drawing.Unit(drawing.Note)),
			said,
			drawing.Style{Size: drawing.Note, Face: drawing.Bold, Align: drawing.Right},
		)
	}
}

// fieldRows letters fields in rows, with lines between them.
func fieldRows(s *drawing.Scene, r drawing.Rect, rows [][]field, heights []drawing.Unit) {
	y := r.Min.Y
	for i, row := range rows {
		x := r.Min.X
		for k, f := range row {
			w := r.Width() * f.part / 100
			if k == len(row)-1 {
				w = r.Max.X - x
			}
			f.letter(s, drawing.Box(x, y, x+w, y+heights[i]))
			if k > 0 {
				s.Line(drawing.Thin, drawing.Pt(x, y), drawing.Pt(x, y+heights[i]))
			}
			x += w
		}
		y += heights[i]
		if i < len(rows)-1 {
			s.Line(drawing.Thin, drawing.Pt(r.Min.X, y), drawing.Pt(r.Max.X, y))
		}
	}
}

// letter writes the label in the upper left corner of a cell and the value
// below it, as large as fits up to its size. A value too long even for the
// smallest lettering is cut; the index sheet has it whole.
func (f field) letter(s *drawing.Scene, r drawing.Rect) {
	const side = 120
	said := prose(f.value)
	label := drawing.Width(drawing.Regular, f.label, drawing.Small)
	beside := r.Height() < 750 // a low row holds label and value side by side
	drop := 130 + drawing.Unit(drawing.Small)
	if beside {
		drop = 130 + drawing.Unit(drawing.Note)
	}
	s.Text(drawing.Pt(r.Min.X+side, r.Min.Y+drop), f.label, drawing.Style{Size: drawing.Small})
	if said == "" {
		return
	}
	w := r.Width() - 2*side
	x := r.Min.X + side
	if beside {
		x += label + 150
		w -= label + 150
	}
	z := f.size
	for z > drawing.Small && drawing.Width(drawing.Bold, said, z) > w {
		z -= 10
	}
	lines := []string{said}
	if drawing.Width(drawing.Bold, said, z) > w && f.lines > 1 {
		lines = drawing.Wrap(said, drawing.Bold, z, w)
		if len(lines) > f.lines {
			lines = append(lines[:f.lines-1:f.lines-1], lines[f.lines-1]+"...")
		}
	}
	for i, line := range lines {
		y := r.Max.Y - 150 - drawing.Unit(len(lines)-1-i)*drawing.Unit(z)*15/10
		if beside {
			y = r.Min.Y + 130 + drawing.Unit(drawing.Note)
		}
		s.Text(drawing.Pt(x, y), shorten(line, drawing.Bold, z, w), drawing.Style{Size: z, Face: drawing.Bold})
	}
}
