package job

import (
	"encoding/csv"
	"errors"
	"io"
	"path"
	"slices"
	"strings"

	"copingset/layout/finding"
	"copingset/layout/length"
)

// Progress is what of the job is metal already, and what stands on the wall: two lists that
// people type as the work goes on. They belong to no issue, so the digest of the input says
// nothing of them.
type Progress struct {
	At        finding.Place
	MadeFile  string
	BuiltFile string
	MadeAt    finding.Place
	BuiltAt   finding.Place
	ChairPlay length.Length // how far a chair may stand from its station; zero: not stated
	GapPlay   length.Length // how far a gap may be from that of its temperature; zero: not stated
	Made      []Made
	Built     []Built
}

// Made is a piece that the shop has finished so far as its state says.
type Made struct {
	At    finding.Place
	Mark  string
	State State
	Rev   string // of the drawing it was made by; empty: the last issue
	On    *Date
	Note  string
}

// State is how far a piece is.
type State int

// The states, in their order.
const (
	Bent State = iota
	Welded
	ShippedOff
	Laid
)

func (s State) String() string { return states()[s] }

func states() []string { return []string{"bent", "welded", "shipped", "laid"} }

// Built is a chair or a joint as it stands on the wall.
type Built struct {
	At      finding.Place
	Mark    string
	Station *length.Length // nil: not read
	Gap     *length.Length
	Metal   *Temperature
	On      *Date
	By      string
}

func (p *Progress) keys(k keys) {
	p.At = k.at
	k.may().show().file("made", &p.MadeFile, "the list of pieces that are made: mark, state, rev, on, note", "made.csv")
	k.may().file("as_built", &p.BuiltFile,
		"the list of what is set: mark, station, gap, metal, on, by", "asbuilt.csv")
	k.may().unsaid().length("chair_play", &p.ChairPlay, "how far a chair may stand from its station", `1/4"`)
	k.may().unsaid().length("gap_play", &p.GapPlay, "how far a gap may be from that of its temperature", `1/16"`)
	p.MadeAt, p.BuiltAt = k.placeOf("made"), k.placeOf("as_built")
}

// The lists, as messages call them.
const (
	madeList  = "list of what is made"
	builtList = "list of what is set"
)

// progress reads both lists.
func (d *decoder) progress(j *Job) {
	p := j.Progress
	if p == nil {
		return
	}
	for _, r := range d.typedList(p.MadeFile, p.MadeAt, madeList, []string{"mark", "state", "rev", "on", "note"}, 2) {
		m := Made{At: r.at, Mark: r.text("mark"), Rev: r.text("rev"), On: r.date("on"), Note: r.text("note")}
		i := slices.Index(states(), strings.ToLower(r.text("state")))
		if i < 0 {
			d.errorf("made-state", r.place("state"), "write bent, welded, shipped or laid",
				"%s is no state of a piece", show(r.text("state")))
			continue
		}
		m.State = State(i)
		same := func(o Made) bool { return strings.EqualFold(o.Mark, m.Mark) && o.Rev == m.Rev }
		if i := slices.IndexFunc(p.Made, same); i >= 0 {
			d.twice(r, madeList, m.Mark, p.Made[i].At)
			continue
		}
		p.Made = append(p.Made, m)
	}
	columns := []string{"mark", "station", "gap", "metal", "on", "by", "asked", "what"}
	for _, r := range d.typedList(p.BuiltFile, p.BuiltAt, builtList, columns, 1) {
		q := Built{At: r.at, Mark: r.text("mark"), Station: r.length("station"), Gap: r.length("gap"),
			Metal: r.temperature("metal"), On: r.date("on"), By: r.text("by")}
		if q.Station == nil && q.Gap == nil { // a row of the form that nobody has filled in
			continue
		}
		same := func(o Built) bool { return strings.EqualFold(o.Mark, q.Mark) }
		if i := slices.IndexFunc(p.Built, same); i >= 0 {
			d.twice(r, builtList, q.Mark, p.Built[i].At)
			continue
		}
		p.Built = append(p.Built, q)
	}
}

// twice reports a mark that stands in a list already: nobody could tell which row holds.
func (d *decoder) twice(r typedRow, what, mark string, first finding.Place) {
	d.errorf("listed-twice", r.at, "keep the row that says how it is now",
		"%s is in the %s already, in line %d", mark, what, first.Line)
}

// typedRow is a row of a list by the names of its columns.
type typedRow struct {
	d     *decoder
	at    finding.Place
	cells map[string]typedCell // look-up only
}

type typedCell struct {
	text string
	at   finding.Place
	unit string // of the heading
}

func (r typedRow) text(name string) string         { return r.cells[name].text }
func (r typedRow) place(name string) finding.Place { return r.cells[name].at }

// failed reports what a cell cannot be read as.
func (r typedRow) failed(name, code, mend string, err error) {
	var p *problem
	if errors.As(err, &p) {
		r.d.errorf(p.code, r.place(name), p.mend, "column %s: %s", name, p.what)
		return
	}
	r.d.errorf(code, r.place(name), mend, "column %s: %s %s", name, show(r.text(name)), "cannot be read")
}

func (r typedRow) length(name string) *length.Length {
	c := r.cells[name]
	if c.text == "" {
		return nil
	}
	l, err := length.Parse(c.text)
	if u, bad := length.ParseUnit(c.unit); err != nil && bad == nil {
		l, err = length.ParseIn(c.text, u)
	}
	if err != nil {
		r.failed(name, "value-length", `write it with its unit, like 12'-3 1/4" or 3750 mm`, err)
		return nil
	}
	return &l
}

func (r typedRow) temperature(name string) *Temperature {
	c := r.cells[name]
	if c.text == "" {
		return nil
	}
	said := c.text
	if c.unit != "" && strings.Trim(said, "+-−0123456789. ") == "" {
		said += " " + c.unit
	}
	t, err := ParseTemperature(said)
	if err != nil {
		r.failed(name, "value-temperature", "write it with its scale, like 68 F or 20 C", err)
		return nil
	}
	return &t
}

func (r typedRow) date(name string) *Date {
	if r.text(name) == "" {
		return nil
	}
	t, err := ParseDate(r.text(name))
	if err != nil {
		r.failed(name, "value-date", "write it as year-month-day, like 2026-03-16", err)
		return nil
	}
	return &t
}

// typedList reads a list with a heading. The first so many of its columns must be there.
func (d *decoder) typedList(written string, asked finding.Place, what string, columns []string, must int) []typedRow {
	if written == "" {
		return nil
	}
	before := len(d.sources)
	name, ok := d.reach(path.Join(d.dir, asked.File), written, asked, what)
	if !ok {
		return nil
	}
	text, ok := d.load(name, asked, what)
	d.sources = d.sources[:before] // the job is not laid out from it
	if !ok {
		return nil
	}
	c := csv.NewReader(strings.NewReader(strings.Join(text.lines, "\n")))
	c.Comment, c.FieldsPerRecord, c.TrimLeadingSpace, c.LazyQuotes = '#', -1, true, true
	var names, units []string
	var out []typedRow
	for {
		cells, err := c.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		line, _ := c.FieldPos(0)
		at := finding.Place{File: text.file, Line: line, Col: 1}
		switch {
		case err != nil:
			d.errorf("csv-unreadable", at, "check the quotes and separators",
				"the %s cannot be read from here on", what)
			return out
		case names == nil:
			if names, units, ok = d.typedHeading(cells, at, what, columns, must); !ok {
				return nil
			}
		case strings.TrimSpace(strings.Join(cells, "")) == "":
		default:
			if r, ok := d.typedRow(c, cells, names, units, text.file, what); ok {
				out = append(out, r)
			}
		}
	}
	return out
}

// typedHeading reads the names of the columns and their units.
func (d *decoder) typedHeading(cells []string, at finding.Place, what string, columns []string,
	must int) (names, units []string, ok bool) {
	for _, c := range cells {
		name, unit := columnName(c)
		if !slices.Contains(columns, name) {
			mend := "the columns known here are " + strings.Join(columns, ", ")
			if near := finding.Suggest(name, columns); near != "" {
				mend = "did you mean `" + near + "`?"
			}
			d.errorf("csv-column", at, mend, "the column %s is not known here", show(c))
			return nil, nil, false
		}
		names, units = append(names, name), append(units, unit)
	}
	for _, name := range columns[:must] {
		if !slices.Contains(names, name) {
			d.errorf("csv-column-missing", at, "add it to the heading", "the %s has no column `%s`", what, name)
			return nil, nil, false
		}
	}
	return names, units, true
}

func (d *decoder) typedRow(c *csv.Reader, cells, names, units []string, file, what string) (typedRow, bool) {
	line, _ := c.FieldPos(0)
	r := typedRow{d: d, at: finding.Place{File: file, Line: line, Col: 1}, cells: map[string]typedCell{}}
	if len(cells) > len(names) {
		d.errorf("csv-ragged", r.at, "take out what stands under no column, or put a text with a comma in quotes",
			"the row has %d cells and the heading has %d", len(cells), len(names))
		return r, false
	}
	for i, cell := range cells {
		line, col := c.FieldPos(i)
		at := finding.Place{File: file, Line: line, Col: col}
		r.cells[names[i]] = typedCell{strings.TrimSpace(cell), at, units[i]}
	}
	if r.text("mark") == "" {
		d.errorf("value-missing", r.at, "write the mark in every row",
			"the row of the %s does not say of what it is", what)
		return r, false
	}
	return r, true
}

// SetJoints are the stations of the joints of a run that cannot move any more, as the crew
// tapes them in the last issue: those that are set, and those over a chair that is.
func (j *Job) SetJoints(perimeter, run string) []length.Length {
	if j.Progress == nil || j.Issued == nil {
		return nil
	}
	var out []length.Length
	facts := j.Issued.Facts
	for _, q := range j.Progress.Built {
		joint := q.Mark
		if of := facts.Value(q.Mark, "joint"); of != "" {
			joint = of
		}
		f, ok := facts.Get(joint, "station")
		if !ok || facts.Value(joint, "run") != "run "+perimeter+"/"+run || facts.Value(joint, "gap") == "" {
			continue
		}
		if at := f.Length(); !slices.Contains(out, at) {
			out = append(out, at)
		}
	}
	slices.Sort(out)
	return out
}
