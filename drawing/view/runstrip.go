package view

import (
	"crypto/sha256"
	"fmt"

	"copingset/drawing"
	"copingset/drawing/block"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// RunStrip is a window of a run as its first sheet shows it: pieces with the way they
// are laid, the plan, under each chair a column of what the crew sets it by, and the
// elevation, all at one scale lengthwise. Its size follows from its words and the
// lengths of the run: it is a block.
type RunStrip struct {
	Say     words.Book
	Run     *plan.Run
	Win     Window
	Along   Scale
	Room    drawing.Unit // width it may take at most
	Rows    []RunRow
	Columns []RunColumn // of the window, from the left hand to the right
	Labels  []RunLabel  // what is said above the plan at its station
	Ends    [2]RunTag   // what the symbol at each end leads to
	Cuts    []RunCut    // sections of the run
	Times   Exaggeration
	Lines   bool                    // says at its foot what the lines of its elevation are
	laid    map[drawing.Unit]*strip // look-up only: by width
}

// RunLabel is something said above the plan, at its cap station.
type RunLabel struct {
	At          length.Length
	Words, Fact string
	Face        drawing.Face
}

// RunTag is a symbol that leads to another sheet. Wide are words as wide as the number
// of that sheet, which is not known while sheets are composed.
type RunTag struct {
	Name, Wide string
	Sheet      string // id of the sheet
}

// RunCut is a section that is true of a run: the symbol that leads to it, and where the
// run is cut, if it is this run.
type RunCut struct {
	RunTag
	At   length.Length
	Here bool
}

// Exaggeration is how much larger than lengthwise widths and heights are drawn, the
// same on all sheets of a packet. A run that would leave its lane has a lesser one.
type Exaggeration struct{ Across, Up int64 }

// The lanes of plan and elevation, and how much larger they are drawn at most: factors
// that bring usual scales to usual ones.
const (
	planLane                 drawing.Unit = 2600
	elevLane                 drawing.Unit = 1900
	acrossMost, acrossMostMM              = 4, 5
	upMost, upMostMM                      = 8, 10
)

// RunTimes is the exaggeration of runs drawn at scales: the greatest at which all keep
// to their lanes that have length enough beside their width.
func RunTimes(strips []*RunStrip) Exaggeration {
	t := Exaggeration{acrossMost, upMost}
	if len(strips) > 0 && strips[0].Run.Metric {
		t = Exaggeration{acrossMostMM, upMostMM}
	}
	for _, s := range strips {
		if s.Run.Cap.Real < runLong*s.Run.Outside {
			continue
		}
		t.Across = min(t.Across, s.timesIn(s.Run.Outside, planLane, t.Across))
		t.Up = min(t.Up, s.timesIn(s.Run.Elevation.Top-s.Run.Elevation.Low, elevLane, t.Up))
	}
	return Exaggeration{max(t.Across, 2), max(t.Up, 2)}
}

// runLong is how many times its width a run is long that the packet's exaggeration is
// chosen for.
const runLong = 12

// timesIn is the exaggeration, up to a greatest, at which a length keeps to a lane.
func (r *RunStrip) timesIn(l length.Length, lane drawing.Unit, most int64) int64 {
	for t := most; t > 1; t-- {
		if r.larger(t).Units(l) <= lane {
			return t
		}
	}
	return 1
}

// larger is a scale some times that along the run.
func (r *RunStrip) larger(times int64) stretched {
	return stretched{r.Along, times}
}

// strip is a RunStrip on paper.
type strip struct {
	*RunStrip
	plan    *runPlan
	elev    *runElev
	wide    drawing.Unit
	zones   drawing.Unit // heights from the top of the strip: band of zones
	labelAt drawing.Unit // labels
	pieceAt drawing.Unit // pieces
	planAt  drawing.Unit // cap line
	tableAt drawing.Unit
	numbers drawing.Unit // of the chairs over the elevation
	elevAt  drawing.Unit
	footAt  drawing.Unit
	high    drawing.Unit
	labels  runLabels
	pieces  runLabels
	chairs  runLabels
	table   runTable
	listed  []RunLabel // labels without room above the plan, numbered
	foot    []string   // lines of the words at the foot
	cuts    []Tag      // symbols of the sections
}

const (
	stripHead   drawing.Unit = headWide + 200 // column at the left
	runNameHigh drawing.Unit = 450            // of the run's name at the head of the column
	tagHigh     drawing.Unit = 1080
	tagSide     drawing.Unit = 120
	footHigh    drawing.Unit = 950
	footBar     drawing.Unit = 3400
	stripLeast  drawing.Unit = 8600
)

// tagWide is how wide a tag is; none is nothing.
func tagWide(t RunTag) drawing.Unit {
	if t.Name == "" {
		return 0
	}
	return 2*tagSide + max(drawing.Width(drawing.Bold, t.Name, drawing.Note), drawing.Width(drawing.Regular, t.Wide,
		drawing.Note))
}

// beyond is the paper beside the stretch shown: a neighbour's symbol, a break, the tag.
func (r *RunStrip) beyond(right bool) drawing.Unit {
	e, tag := r.Run.Left, r.Ends[0]
	shown := r.Win.From <= 0
	if right {
		e, tag, shown = r.Run.Right, r.Ends[1], r.Win.To >= r.Run.Cap.Real
	}
	w := drawing.Unit(250)
	switch {
	case !shown:
	case e.Kind == plan.EndWall:
		w = 650
	case e.Corner && e.Streetward:
		w = miterWide + 200
	}
	if right && tag.Name != "" {
		w += tagWide(tag) + 150
	}
	return w
}

// Width is the paper that the strip takes: heads, and the most of drawing, columns and
// labels of pieces.
func (r *RunStrip) Width() drawing.Unit {
	drawn := r.beyond(false) + r.Along.Units(r.Win.To) - r.Along.Units(r.Win.From) + r.beyond(true)
	f := &runFrame{of: r.Run, say: r.Say, win: r.Win, along: r.Along, tape: length.Crew(r.Run.Metric)}
	said := need(f.labelsAbove(r.Labels, 3200), 2*runApart)
	return max(stripLeast, stripHead+max(drawn, columnsWidth(r.Columns), need(f.pieceRow(r.Labels, false), runApart),
		min(said, labelsMost)))
}

// labelsMost is how wide a strip is made for the labels above its plan alone.
const labelsMost drawing.Unit = 9000

// Holding is the strip with those of a run's columns and labels that its window shows.
func (r *RunStrip) Holding(columns []RunColumn, labels []RunLabel) *RunStrip {
	f := &runFrame{of: r.Run, win: r.Win}
	shown := map[length.Length]bool{} // look-up only
	for _, c := range f.chairs() {
		shown[c.At] = true
	}
	for _, j := range f.joints() {
		shown[j.Centre] = true
	}
	for _, c := range columns {
		if shown[c.At] {
			r.Columns = append(r.Columns, c)
		}
	}
	for _, q := range labels {
		if f.shows(q.At) {
			r.Labels = append(r.Labels, q)
		}
	}
	return r
}

// Beside is the strip as it stands on a sheet with others.
func (r *RunStrip) Beside() *RunStrip {
	q := *r
	q.Lines, q.laid = false, nil
	return &q
}

// Fits says whether the strip stands in its room.
func (r *RunStrip) Fits() bool { return r.Width() <= r.Room }

// lay works out where everything stands in a width.
func (r *RunStrip) lay(wide drawing.Unit) *strip {
	s := &strip{RunStrip: r, wide: wide}
	a, b := r.beyond(false), r.beyond(true)
	drawn := a + r.Along.Units(r.Win.To) - r.Along.Units(r.Win.From) + b
	f := runFrame{of: r.Run, say: r.Say, win: r.Win, along: r.Along, left: stripHead + a +
		max(0, s.wide-stripHead-drawn)/2, tape: length.Crew(r.Run.Metric)}
	s.plan = newRunPlan(f, r.larger(r.timesIn(r.Run.Outside, planLane, r.Times.Across)))
	s.elev = newRunElev(f, r.larger(r.timesIn(r.Run.Elevation.Top-r.Run.Elevation.Low, elevLane, r.Times.Up)))
	s.above(&f)
	y := s.planAt + s.plan.deep + s.plan.under()
	s.table = newRunTable(r.Rows, r.Columns, f.x, stripHead, s.wide)
	s.tableAt = y + 100
	if len(r.Columns) > 0 {
		s.tableAt += 50 + s.table.at.jog()
	}
	y = s.tableAt + s.table.height() + 120
	s.numbers = y
	var numbers []runLabel
	for _, c := range f.chairs() {
		numbers = append(numbers, runLabel{at: f.x(c.At),
			lines: []RunLine{{Words: runTag(c.Mark), Face: drawing.Bold}}})
	}
	s.chairs = spreadLabels(numbers, 100, stripHead, s.wide)
	s.elevAt = y
	if len(numbers) > 0 {
		s.elevAt += s.chairs.high + 100 + s.chairs.jog() + 50
	}
	s.footAt = s.elevAt + s.elev.deep + 250
	s.layFoot()
	for i := range s.listed {
		s.high += drawing.Unit(len(s.listedLines(i)))*drawing.Note.Line() + 100
	}
	return s
}

// layFoot sets the words of the foot and the symbols of sections: at its right beside the
// words, or beside what stands over them, or under all where there is no room.
func (s *strip) layFoot() {
	tags := drawing.Unit(0)
	for _, c := range s.Cuts {
		tags += tagWide(c.RunTag) + tagSide
	}
	from := s.footFrom()
	least, room := s.wide-from, s.wide-s.readerTo()
	if from > 0 {
		room -= footLeast
		if tags <= room {
			least -= tags
		}
	}
	s.foot = drawing.Wrap(s.footWords(), drawing.Regular, drawing.Note, least)
	words := drawing.Unit(len(s.foot))*drawing.Note.Line() + 100
	s.high = s.footAt + max(footHigh, words)
	if from == 0 {
		s.high = s.footAt + footHigh + words
	}
	x, y := s.wide-tags+tagSide, s.footAt
	if tags > room {
		x, y = 0, s.high
	}
	for _, c := range s.Cuts {
		w := tagWide(c.RunTag)
		if x > 0 && x+w > s.wide {
			x, y = 0, y+cutHigh+tagSide
		}
		s.cuts = append(s.cuts, Tag{c.RunTag, drawing.Box(x, y, x+w, y+cutHigh)})
		x += w + tagSide
		s.high = max(s.high, y+cutHigh)
	}
}

const (
	footLeast drawing.Unit = 6000 // least width of the words at the foot beside symbols
	cutHigh   drawing.Unit = 920  // of the symbol of a section
)

// above sets zones, labels and pieces over the plan.
func (s *strip) above(f *runFrame) {
	y := drawing.Unit(0)
	if len(f.of.WindZones) > 0 {
		s.zones, y = y, y+300
	}
	y = max(y, runNameHigh)
	row := f.pieceRow(s.Labels, true)
	if need(row, runApart) > s.wide-stripHead {
		row = f.pieceRow(s.Labels, false)
	}
	s.pieces = spreadLabels(row, runApart, stripHead, s.wide)
	s.labelAt = y
	for _, wrap := range []drawing.Unit{6000, 4400, 3200, 2400, 0} {
		labels := f.labelsAbove(s.Labels, wrap)
		if wrap == 0 {
			s.listed = s.Labels
		}
		for i := range labels {
			k := 0
			for _, q := range s.pieces.all {
				if len(q.lines) > 0 {
					continue
				}
				if k == i {
					labels[i].at = q.placed
				}
				k++
			}
		}
		s.labels = spreadLabels(labels, 2*runApart, stripHead, s.wide)
		if s.labels.fits {
			break
		}
	}
	if len(s.Labels) > 0 {
		y += s.labels.high + 80 + s.labels.jog() + 100
	}
	s.pieceAt = y
	s.planAt = y + s.pieces.high + 100 + s.pieces.jog() + s.plan.over()
}

// labelsAbove are labels at their stations, wrapped to a width; to none, numbers that
// stand for them.
func (f *runFrame) labelsAbove(of []RunLabel, wrap drawing.Unit) []runLabel {
	var out []runLabel
	for i, q := range of {
		l := runLabel{at: f.x(q.At)}
		if wrap == 0 {
			l.lines = []RunLine{{Words: "(" + runCount(i+1) + ")", Face: drawing.Bold}}
		} else {
			for _, line := range drawing.Wrap(q.Words, q.Face, drawing.Note, wrap) {
				l.lines = append(l.lines, RunLine{Words: line, Fact: q.Fact, Face: q.Face})
			}
		}
		out = append(out, l)
	}
	return out
}

// pieceRow are the labels of pieces, and the leaders of labels that are led through
// between them.
func (f *runFrame) pieceRow(led []RunLabel, joined bool) []runLabel {
	out := f.pieceLabels(joined)
	for _, q := range led {
		out = append(out, runLabel{at: f.x(q.At)})
	}
	return out
}

// listedLines are the lines of a label that stands in a list, behind its number.
func (s *strip) listedLines(i int) []string {
	q := s.listed[i]
	return drawing.Wrap(q.Words, q.Face, drawing.Note, s.wide-listIndent)
}

const listIndent drawing.Unit = 900

// at is where everything stands in a width, worked out once.
func (r *RunStrip) at(wide drawing.Unit) *strip {
	s, ok := r.laid[wide]
	if !ok {
		if r.laid == nil {
			r.laid = map[drawing.Unit]*strip{}
		}
		s = r.lay(wide)
		r.laid[wide] = s
	}
	return s
}

// Key is a digest of all that the strip draws from.
func (r *RunStrip) Key() string {
	h := sha256.Sum256(fmt.Appendf(nil, "%+v %+v %v %v %v %v %v %v %v %v %v", *r.Run, r.Win.From, r.Win.To, r.Along,
		r.Rows, r.Columns, r.Labels, r.Ends, r.Cuts, r.Lines, r.Say))
	return fmt.Sprintf("run-strip-%x", h[:12])
}

// Sizes are the width that the strip takes at least, and greater ones in which its
// words break less and it is lower.
func (r *RunStrip) Sizes(drawing.Unit) []block.Size {
	wide := r.Width()
	out := []block.Size{r.size(wide)}
	for _, w := range []drawing.Unit{wide * 9 / 8, wide * 5 / 4, wide * 3 / 2, wide * 2} {
		if z := r.size(w / 2 * 2); z.W <= r.Room && z.H < out[len(out)-1].H-lowerBy {
			out = append(out, z)
		}
	}
	return out
}

// lowerBy is how much lower a wider strip has to be.
const lowerBy drawing.Unit = 300

func (r *RunStrip) size(wide drawing.Unit) block.Size {
	return block.Size{W: wide, H: r.at(wide).high, Scale: r.Along.Ratio}
}

// Draw draws the strip.
func (r *RunStrip) Draw(z block.Size) block.Drawn {
	s := r.lay(z.W)
	var g drawing.Scene
	g.W, g.H = s.wide, s.high
	s.draw(&g)
	return block.Drawn{Marks: g.Marks, About: r.Say.Say(words.ViewStripAbout, words.In("run", r.Run.Name))}
}

// Scene is the strip as a drawing of its own.
func (r *RunStrip) Scene() drawing.Scene {
	z := r.Sizes(0)[0]
	d := r.Draw(z)
	k := words.ViewStripTitle
	slots := []words.Slot{words.In("run", r.Run.Name)}
	if r.Win.Of > 1 {
		k, slots = words.ViewStripPart, append(slots, words.In("n", runCount(r.Win.N)),
			words.In("of", runCount(r.Win.Of)))
	}
	const edge = 200 // beside its outermost lines
	return drawing.Scene{Name: "run-" + r.Run.Name + "-" + runCount(r.Win.N), Title: r.Say.Say(k, slots...),
		Desc: d.About, W: z.W + 2*edge, H: z.H + 2*edge,
		Marks: drawing.Translate(d.Marks, drawing.Pt(edge, edge))}
}

// Tag is where the symbol that leads to another sheet stands on a strip.
type Tag struct {
	RunTag
	Box drawing.Rect
}

// Tags are the symbols at the ends of the strip in one of its sizes.
func (r *RunStrip) Tags(z block.Size) []Tag {
	s := r.lay(z.W)
	var out []Tag
	top := s.planAt + max(60, (s.plan.deep-tagHigh)/2)
	for i, t := range r.Ends {
		if t.Name == "" {
			continue
		}
		x := max(0, s.plan.x(r.Win.From)-r.beyond(false)-100-tagWide(t))
		if i == 1 {
			x = s.plan.x(r.Win.To) + r.beyond(true) - tagWide(t)
		}
		out = append(out, Tag{t, drawing.Box(x, top, x+tagWide(t), top+tagHigh)})
	}
	return append(out, s.cuts...)
}
