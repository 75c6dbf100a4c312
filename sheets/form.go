package sheets

import (
	"io"
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/length"
)

// FormOptions choose what survey forms are printed. The zero FormOptions are
// those of every run, at the usual step, on the job's paper for lists.
type FormOptions struct {
	Every length.Length  // between stations; 0: the usual step
	Runs  []string       // names; none: every run
	Paper *job.PaperSize // nil: as the job says
	Lang  words.Lang
}

func (o FormOptions) wants(run string) bool { return len(o.Runs) == 0 || slices.Contains(o.Runs, run) }

// Forms are the blank sheets on which a survey is written down, one or more for
// each run. They need the job alone: no run has to be surveyed, and nothing is
// solved.
func Forms(j *job.Job, o FormOptions) []Sheet {
	f := newForms(j, o)
	var pages []formPage
	for i := range j.Perimeters {
		p := &j.Perimeters[i]
		for k := range p.Runs {
			if o.wants(p.Runs[k].Name) {
				pages = append(pages, f.on(p).run(p, k)...)
			}
		}
	}
	pages = f.shared(pages)
	out := make([]Sheet, len(pages))
	for i, q := range pages {
		title := f.b.say.Count(words.FormTitleRun, 1+len(q.with), words.In("run", q.names()))
		if q.of > 1 {
			title = f.b.say.Say(
				words.FormTitlePage, words.In("run", q.name), words.In("n", itoa(q.n)),
				words.In("of", itoa(q.of)),
			)
		}
		s := drawing.Scene{Name: f.b.id(append([]string{"survey", q.p.Name}, q.runs()...)...), Title: title,
			W: f.b.lists.w, H: f.b.lists.h,
			Desc: f.b.say.Count(words.FormAbout, 1+len(q.with), words.In("run", q.names()))}
		f.on(q.p).draw(&s, q, i+1, len(pages))
		out[i] = Sheet{ID: s.Name, Number: itoa(i + 1), Title: title, Kind: Form, Scene: s}
	}
	return out
}

// FormPDF writes forms as one document.
func FormPDF(w io.Writer, j *job.Job, forms []Sheet) error {
	dated := *j
	if dated.Info.Issued == (job.Date{}) {
		// A PDF has to have a date, and today's would make another file each day. What is
		// printed is not dated: nothing was issued yet.
		dated.Info.Issued = job.Date{Year: 2000, Month: 1, Day: 1}
	}
	return writePDF(w, &layout.Layout{Job: &dated}, forms, newForms(j, FormOptions{}).b.say.Say(words.FormPdf))
}

// forms are what every form is made from.
type forms struct {
	b     *book
	j     *job.Job
	o     FormOptions
	every length.Length
}

func newForms(j *job.Job, o FormOptions) *forms {
	f := &forms{b: newBook(&layout.Layout{Job: j}, Options{Lists: o.Paper, Lang: o.Lang}), j: j, o: o, every: o.Every}
	if f.every <= 0 {
		f.every = layout.SurveySteps(f.b.metric)
	}
	return f
}

// on are the forms of one perimeter, which name its outer side.
func (f *forms) on(p *job.Perimeter) *forms {
	g := *f
	g.b = f.b.on(p)
	return &g
}

func (f *forms) stations(p *job.Perimeter, r *job.Run) []layout.SurveyStation {
	return layout.SurveyStations(p, r, f.every, f.b.crew.Step())
}

// low reports whether the wall of a run is measured at leg depth too.
func (f *forms) low(p *job.Perimeter, r *job.Run) bool {
	name := r.Wall
	if name == "" {
		name = p.Wall
	}
	i := slices.IndexFunc(f.j.Walls, func(w job.Wall) bool { return w.Name == name })
	return i >= 0 && f.j.Walls[i].MeasureLow
}

// formColumn is a column of a form: what is written there, and its name in the
// survey's CSV.
type formColumn struct {
	head, csv string
	share     drawing.Unit // of the width
	most      drawing.Unit // no wider than a number needs; 0: takes what is left
}

func (f *forms) columns(low bool) []formColumn {
	unit, at := " (in)", " (ft-in)"
	if f.b.metric {
		unit, at = " (mm)", " (mm)"
	}
	const number, wide = 1700, 3200
	cols := []formColumn{
		{f.b.say.Say(words.FormStation), "station" + at, 2200, 3200},
		{f.b.say.Say(words.FormWidth), "width" + unit, number, wide},
		{f.b.say.Say(words.FormTopStreet), "street_top" + unit, number + 200, wide},
		{f.b.say.Say(words.FormTopRoof), "roof_top" + unit, number + 200, wide},
		{f.b.say.Say(words.FormOffset), "offset" + unit, number, wide},
	}
	if low {
		cols = append(
			cols, formColumn{f.b.say.Say(words.FormWidthLow), "width_low" + unit, number, wide},
			formColumn{f.b.say.Say(words.FormOffsetLow), "offset_low" + unit, number, wide},
		)
	}
	return append(
		cols, formColumn{f.b.say.Say(words.FormCondition), "condition", number + 300, wide},
		formColumn{f.b.say.Say(words.FormPhoto), "photo", 1300, 2400},
		formColumn{f.b.say.Say(words.FormNote), "note", 2500, 0},
	)
}

// formPage is one page of the form of a run.
type formPage struct {
	p        *job.Perimeter
	r        *job.Run
	at       int // of the run in its perimeter
	name     string
	n, of    int
	stations []layout.SurveyStation
	blank    int        // empty rows after them
	with     []formPage // of further short runs on the same sheet
}

// Measures of a form. Rows take a gloved hand with a pencil.
const (
	formRow   drawing.Unit = 900
	formLow   drawing.Unit = 800 // the lowest
	formTitle drawing.Unit = 1450
	formBox   drawing.Unit = 1150 // boxes for who, when and what with
	formStrip drawing.Unit = 3700 // the sketch
	formFoot  drawing.Unit = 1000
	formGap   drawing.Unit = 250
)

// run makes the pages of one run: the first has the sketch and says how to
// measure, the others go on with stations.
func (f *forms) run(p *job.Perimeter, at int) []formPage {
	r := &p.Runs[at]
	q := formPage{p: p, r: r, at: at, name: r.Name}
	if len(f.j.Perimeters) > 1 {
		q.name = p.Name + " " + r.Name
	}
	out := f.paged(q, formRow, 3)
	// Lower rows, and fewer of them left for stations of the surveyor's own,
	// are worth a page that would hold next to nothing.
	if low := f.paged(q, formLow, 1); len(low) < len(out) {
		out = low
	}
	for i := range out {
		out[i].of = len(out)
	}
	return out
}

// paged shares the stations of a run out among pages of rows not lower than
// high, with some empty rows at the end.
func (f *forms) paged(q formPage, high drawing.Unit, spare int) []formPage {
	left := f.stations(q.p, q.r)
	var out []formPage
	for n := 1; n == 1 || len(left) > 0 || out[len(out)-1].blank < spare; n++ {
		q.n = n
		rows := max(1, int((f.foot()-f.table(q)-f.head(q))/high))
		k := min(rows, len(left))
		q.stations, q.blank = left[:k], rows-k
		left = left[k:]
		out = append(out, q)
	}
	return out
}

// room is the sheet within its border.
func (f *forms) room() drawing.Rect { return f.b.lists.border().Inset(300) }

// foot is where the rows end.
func (f *forms) foot() drawing.Unit { return f.room().Max.Y - formFoot }

// table is where the table begins.
func (f *forms) table(q formPage) drawing.Unit {
	y := f.room().Min.Y + formTitle
	if q.n > 1 {
		return y + formBox + formGap
	}
	return y + f.boxRows(q)*formBox + formGap + formStrip + formGap + f.how(q).h + formGap
}

// how lays out the words and the picture that say how to measure, and under
// both the words for what is wrong with a wall top.
func (f *forms) how(q formPage) laid {
	low := f.low(q.p, q.r)
	figure := view.SurveySection(f.b.say, low)
	w := f.room().Width()
	side := w - figure.W - gutter
	n := max(1, int(side/14000)) // columns
	rules := list{items: f.rules(q, low), numbered: true}
	h := figure.H
	var got [][]placed
	for {
		got = f.b.flow(
			[]block{rules},
			func(int) []drawing.Rect { return columns(drawing.Box(0, 0, side, h), n, gutter) },
		)
		if len(got) == 1 {
			break
		}
		h += 100
	}
	codes := drawing.Wrap(prose(f.b.say.Say(words.FormConditions)), drawing.Regular, drawing.Note, w)
	return laid{
		w: w,
		h: h + 150 + drawing.Unit(len(codes))*drawing.Note.Line(),
		draw: func(s *drawing.Scene, at drawing.Point) {
			place(s, figure, at, "what")
			for _, x := range got[0] {
				x.draw(s, at.Add(drawing.Pt(figure.W+gutter, 0)).Add(x.at))
			}
			y := at.Y + h + 150 + drawing.Unit(drawing.Note)
			for i, l := range codes {
				s.Text(drawing.Pt(at.X, y+drawing.Unit(i)*drawing.Note.Line()), l, drawing.Style{})
			}
		},
	}
}

// rules say how to measure, the sign of each reading first of all.
func (f *forms) rules(q formPage, low bool) []string {
	step := f.b.say.Say(words.FormStepInch)
	if f.b.metric {
		step = f.b.say.Say(words.FormStepMm)
	}
	face := f.b.say.Say(words.FormStreetFace)
	if q.r.StationFace == job.Rear {
		face = f.b.say.Say(words.FormRoofFace)
	}
	points := f.b.say.Say(words.FormPointsNamed)
	if strings.TrimSpace(q.r.SurveyLine) == "" {
		points = f.b.say.Say(words.FormPointsFound)
	}
	out := []string{
		f.b.say.Say(words.FormRuleLine, words.In("points", points)),
		f.b.say.Say(words.FormRuleStations, words.In("face", face)), f.b.say.Say(words.FormRuleWidth),
		f.b.say.Say(words.FormRuleOffset), f.b.say.Say(words.FormRuleTops),
		f.b.say.Say(words.FormRuleRead, words.In("step", step)),
	}
	if low {
		out = append(
			out,
			f.b.say.Say(
				words.FormRuleLow, words.In("depth", f.b.small(f.j.System.FrontFoot())),
				words.In("to", f.b.measureName(f.j.System.Profile.Drip.Foot())),
			),
		)
	}
	return out
}

// draw makes a page.
func (f *forms) draw(s *drawing.Scene, q formPage, n, of int) {
	r := f.room()
	s.Group(drawing.Frame, "frame", func(g *drawing.Scene) {
		g.Rect(drawing.Border, f.b.lists.border())
		f.title(g, drawing.Box(r.Min.X, r.Min.Y, r.Max.X, r.Min.Y+formTitle-200), q, n, of)
		f.ending(g, drawing.Box(r.Min.X, r.Max.Y-formFoot+150, r.Max.X, r.Max.Y), q)
	})
	y := r.Min.Y + formTitle
	s.Group(drawing.Tables, "boxes", func(g *drawing.Scene) {
		all := f.boxLines(q)
		if len(q.with) > 0 {
			all = all[:1]
		}
		f.boxRowsAt(g, all, y, formBox)
	})
	if len(q.with) > 0 {
		f.drawShared(s, q)
		return
	}
	if q.n == 1 {
		y += f.boxRows(q)*formBox + formGap
		strip := view.SurveySketch(f.b.say, layout.Sketch(q.p, q.at, f.b.metric), r.Width()-200, formStrip-200)
		s.Rect(drawing.Medium, drawing.Box(r.Min.X, y, r.Max.X, y+formStrip))
		place(s, strip, drawing.Pt(r.Min.X+100, y+100), "sketch")
		y += formStrip + formGap
		f.how(q).draw(s, drawing.Pt(r.Min.X, y))
	}
	s.Group(drawing.Tables, "stations", func(g *drawing.Scene) { f.rule(g, q, f.table(q), f.foot()) })
}

// boxRowsAt draws rows of boxes under each other, and answers with where they end.
func (f *forms) boxRowsAt(g *drawing.Scene, all [][]field, y, high drawing.Unit) drawing.Unit {
	r := f.room()
	for _, row := range all {
		f.boxes(g, drawing.Box(r.Min.X, y, r.Max.X, y+high), row)
		y += high
	}
	return y
}

// points are the boxes for what the readings are taken from.
func (f *forms) points(q formPage) []field {
	if line := strings.TrimSpace(q.r.SurveyLine); line != "" {
		return []field{
			{label: f.b.say.Say(words.FormLineNamed), value: line, part: 54, size: drawing.Note, lines: 2},
			{label: f.b.say.Say(words.FormDatum), part: 46},
		}
	}
	return []field{
		{label: f.b.say.Say(words.FormLineFrom), part: 27},
		{label: f.b.say.Say(words.FormLineTo), part: 27},
		{label: f.b.say.Say(words.FormDatum), part: 46},
	}
}

// title names the form, the run and the job.
func (f *forms) title(g *drawing.Scene, r drawing.Rect, q formPage, n, of int) {
	name := f.b.say.Count(words.FormRun, 1+len(q.with), words.In("name", q.names()))
	g.Text(drawing.Pt(r.Min.X, r.Min.Y+600), name, drawing.Style{Size: drawing.Title + 100, Face: drawing.Bold})
	g.Text(
		drawing.Pt(r.Min.X, r.Min.Y+1150),
		f.b.say.Say(words.FormTitle),
		drawing.Style{Size: drawing.Note, Face: drawing.Bold},
	)
	page := f.b.say.Say(words.FormCount, words.In("n", itoa(n)), words.In("of", itoa(of)))
	run := ""
	if len(q.with) == 0 {
		run = f.b.say.Say(words.FormPage, words.In("name", q.name), words.In("n", itoa(q.n)),
			words.In("of", itoa(q.of)))
	}
	wide := max(drawing.Width(drawing.Bold, page, drawing.Head), drawing.Width(drawing.Regular, run, drawing.Note))
	g.Text(
		drawing.Pt(r.Max.X, r.Min.Y+450),
		page,
		drawing.Style{Size: drawing.Head, Face: drawing.Bold, Align: drawing.Right},
	)
	g.Text(drawing.Pt(r.Max.X, r.Min.Y+1050), run, drawing.Style{Align: drawing.Right})
	x := r.Min.X + max(
		drawing.Width(drawing.Bold, name, drawing.Title+100),
		drawing.Width(drawing.Bold, f.b.say.Say(words.FormTitle), drawing.Note),
	) + 600
	w := r.Max.X - wide - 500 - x
	for i, phrase := range []string{f.j.Info.Number + "  " + f.j.Info.Name, f.j.Info.Address} {
		if phrase = prose(strings.TrimSpace(phrase)); phrase == "" {
			continue
		}
		phrase = shorten(phrase, drawing.Regular, drawing.Note, w)
		g.Text(drawing.Pt(x, r.Min.Y+450+drawing.Unit(i)*600), phrase, drawing.Style{})
	}
	g.Line(drawing.Medium, drawing.Pt(r.Min.X, r.Max.Y), drawing.Pt(r.Max.X, r.Max.Y))
}

// ending says along the foot which hand is which and what becomes of the form.
func (f *forms) ending(g *drawing.Scene, r drawing.Rect, q formPage) {
	phrase := f.b.say.Count(words.FormEndingFirst, 1+len(q.with), words.In("name", q.surveyNames()))
	if q.n > 1 {
		phrase = f.b.say.Say(words.FormEndingNext)
	}
	z := drawing.Note
	lines := drawing.Wrap(prose(phrase), drawing.Regular, z, r.Width())
	for len(lines) > 2 && z > drawing.Small {
		z -= 10
		lines = drawing.Wrap(prose(phrase), drawing.Regular, z, r.Width())
	}
	y := r.Min.Y + drawing.Unit(z)
	for _, l := range lines {
		g.Text(drawing.Pt(r.Min.X, y), l, drawing.Style{Size: z})
		y += drawing.Unit(z) * 15 / 10
	}
}

// boxRows is how many rows of boxes head the first page of a run.
func (f *forms) boxRows(q formPage) drawing.Unit {
	return drawing.Unit(len(f.boxLines(q)))
}

// boxLines are the rows of boxes that head the first page of a run.
func (f *forms) boxLines(q formPage) [][]field {
	say := f.b.say.Say
	all := [][]field{{
		{label: say(words.FormMeasuredBy), part: 34},
		{label: say(words.FormDate), part: 20},
		{label: say(words.FormInstruments), part: 46},
	}, f.points(q)}
	if q.n > 1 {
		return all[:1]
	}
	if m := f.j.Benchmark; m != nil { // a survey that never comes back to its mark shows no slip of the rod
		all = append(all, []field{{label: say(words.FormRodFirst, words.In("what", prose(m.What))), part: 30},
			{label: say(words.FormMoveBefore), part: 24}, {label: say(words.FormMoveAfter), part: 20},
			{label: say(words.FormRodLast), part: 26}})
	}
	if corner := f.corner(q); len(corner) > 0 {
		all = append(all, corner)
	}
	return all
}

// corner are the boxes in which the corner at a run's right end is taped; none
// where the run does not turn.
func (f *forms) corner(q formPage) []field {
	closed := q.p.Kind != job.Open
	if q.r.Right.Kind != job.EndTurn || !closed && q.at == len(q.p.Runs)-1 {
		return nil
	}
	next := q.p.Runs[(q.at+1)%len(q.p.Runs)].Name
	return []field{{label: f.b.say.Say(words.FormCornerFrom, words.In("run", q.r.Name)), part: 28},
		{label: f.b.say.Say(words.FormCornerTo, words.In("run", next)), part: 24},
		{label: f.b.say.Say(words.FormDiagonal), part: 26}, {label: f.b.say.Say(words.FormFace), part: 22}}
}

// boxes are a row of labelled boxes to write in.
func (f *forms) boxes(g *drawing.Scene, r drawing.Rect, row []field) {
	x := r.Min.X
	g.Rect(drawing.Medium, r)
	for i, b := range row {
		w := r.Width() * b.part / 100
		if i == len(row)-1 {
			w = r.Max.X - x
		}
		if i > 0 {
			g.Line(drawing.Medium, drawing.Pt(x, r.Min.Y), drawing.Pt(x, r.Max.Y))
		}
		b.label = shorten(b.label, drawing.Regular, drawing.Small, w-200)
		b.letter(g, drawing.Box(x, r.Min.Y, x+w, r.Max.Y))
		x += w
	}
}

// widths shares the width of the sheet among the columns: what the numbers do
// not need goes to the note.
func (f *forms) widths(cols []formColumn) []drawing.Unit {
	w := f.room().Width()
	var sum drawing.Unit
	for _, c := range cols {
		sum += c.share
	}
	out := make([]drawing.Unit, len(cols))
	rest := w
	for i, c := range cols {
		out[i] = c.share * w / sum
		if c.most > 0 {
			out[i] = min(out[i], c.most)
			rest -= out[i]
		}
	}
	out[len(out)-1] = rest
	return out
}

// rule draws the table of stations.
func (f *forms) rule(g *drawing.Scene, q formPage, top, end drawing.Unit) {
	r := f.room()
	cols := f.columns(f.low(q.p, q.r))
	ws := f.widths(cols)
	head := f.head(q)
	rows := len(q.stations) + q.blank
	row := min((end-top-head)/drawing.Unit(rows), formRow*5/4)
	foot := top + head + drawing.Unit(rows)*row
	x := r.Min.X
	for i, c := range cols {
		f.heading(g, drawing.Box(x, top, x+ws[i], top+head), c)
		if i > 0 {
			pen := drawing.Thin
			if i == 1 {
				pen = drawing.Medium
			}
			g.Line(pen, drawing.Pt(x, top), drawing.Pt(x, foot))
		}
		x += ws[i]
	}
	g.Rect(drawing.Medium, drawing.Box(r.Min.X, top, r.Max.X, foot))
	g.Line(drawing.Medium, drawing.Pt(r.Min.X, top+head), drawing.Pt(r.Max.X, top+head))
	note := r.Max.X - ws[len(ws)-1]
	for i := range rows {
		y := top + head + drawing.Unit(i)*row
		if i > 0 {
			pen := drawing.Thin
			if i%5 == 0 { // the eye keeps to its row
				pen = drawing.Medium
			}
			g.Line(pen, drawing.Pt(r.Min.X, y), drawing.Pt(r.Max.X, y))
		}
		if i >= len(q.stations) {
			continue
		}
		s := q.stations[i]
		if s.Known {
			g.Text(
				drawing.Pt(r.Min.X+150, y+row/2+drawing.Unit(drawing.Head)/2),
				f.b.long(s.At),
				drawing.Style{Size: drawing.Head, Face: drawing.Bold},
			)
		}
		lines := drawing.Wrap(prose(f.standing(s)), drawing.Regular, drawing.Small, ws[len(ws)-1]-160)
		if len(lines) > 2 {
			lines = []string{
				lines[0],
				shorten(strings.Join(lines[1:], " "), drawing.Regular, drawing.Small, ws[len(ws)-1]-160),
			}
		}
		for k, l := range lines {
			if l != "" {
				g.Text(drawing.Pt(note+80, y+340+drawing.Unit(k)*390), l, drawing.Style{Size: drawing.Small})
			}
		}
	}
}

// heads are the lines of a column's heading, and those of its name in the CSV.
func (c formColumn) heads(w drawing.Unit) (phrase, name []string) {
	phrase = drawing.Wrap(c.head, drawing.Bold, drawing.Note, w-100)
	if drawing.Width(drawing.Regular, c.csv, drawing.Small) <= w-100 {
		return phrase, []string{c.csv}
	}
	return phrase, strings.SplitN(c.csv, " ", 2)
}

const (
	headLine drawing.Unit = 420 // of a heading
	nameLine drawing.Unit = 340 // of a name under it
)

// head is how tall the heading of the table is.
func (f *forms) head(q formPage) drawing.Unit {
	cols := f.columns(f.low(q.p, q.r))
	most := drawing.Unit(0)
	for i, w := range f.widths(cols) {
		phrase, name := cols[i].heads(w)
		most = max(most, drawing.Unit(len(phrase))*headLine+drawing.Unit(len(name))*nameLine)
	}
	return most + 330
}

// heading letters a column: its words, and small under them its name in the
// CSV.
func (f *forms) heading(g *drawing.Scene, r drawing.Rect, c formColumn) {
	phrase, name := c.heads(r.Width())
	y := r.Min.Y + 120 + drawing.Unit(drawing.Note)
	for _, l := range phrase {
		g.Text(drawing.Pt(r.Centre().X, y), l, drawing.Style{Face: drawing.Bold, Align: drawing.Middle})
		y += headLine
	}
	y = r.Max.Y - 110 - drawing.Unit(len(name)-1)*nameLine
	for _, l := range name {
		g.Text(drawing.Pt(r.Centre().X, y), l, drawing.Style{Size: drawing.Small, Align: drawing.Middle})
		y += nameLine
	}
}
