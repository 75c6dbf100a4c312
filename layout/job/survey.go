package job

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"path"
	"slices"
	"strings"

	"copingset/layout/finding"
	"copingset/layout/length"
)

// readingTable is where the columns of a survey stand in the key table: the
// columns are the keys of an inline reading, and the run.
const readingTable = "perimeters[].runs[].readings[]"

// surveyed is a run and the rows a survey has for it.
type surveyed struct {
	run       *Run
	path      string // of the run in the job
	perimeter string
	mine      bool // its perimeter names this survey
	rows      []Reading
	said      [][]Entry       // what each row says, below the path of the row
	open      []finding.Place // rows of stations that nobody has measured yet
	told      bool            // that the rows do not belong here
	jumped    bool            // that two neighbouring tops lie too far apart
}

// column is a column of a survey.
type column struct {
	name    string
	at      finding.Place
	unit    length.Length // of bare numbers; zero: none
	noUnit  bool          // a bare number without a unit was reported
	skipped bool
	of      ofColumn
	days    []day // cells that a spreadsheet made a day of
}

// survey is one CSV file being read.
type survey struct {
	d         *decoder
	file      string
	lines     []string
	names     []string // of the runs, in the order of the job
	runs      map[string]*surveyed
	strangers []stranger // runs the job does not have
	columns   []column
	titles    []row // rows of words above the heading
}

// include makes the runs of a perimeter known. Rows for a run whose perimeter
// does not name this file are refused.
func (s *survey) include(p *Perimeter, path string, mine bool) {
	for i := range p.Runs {
		r := &p.Runs[i]
		if _, twice := s.runs[r.Name]; r.Name == "" || twice {
			continue
		}
		s.names = append(s.names, r.Name)
		s.runs[r.Name] = &surveyed{run: r, path: fmt.Sprintf("%s.runs[%d]", path, i), perimeter: p.Name, mine: mine}
	}
}

func (s *survey) fail(code string, at finding.Place, mend, format string, args ...any) {
	s.d.unsure = true
	s.d.errorf(code, at, mend, format, args...)
}

// row is one record with the places of its cells.
type row struct {
	cells []string
	at    []finding.Place
}

// separator is a comma, or a semicolon where the heading has only those, as
// programs write it that use the comma for decimals. A title may stand above it.
func (s *survey) separator() rune {
	first := ""
	for _, line := range s.lines[:min(len(s.lines), 3*mostTitles)] {
		t := strings.ToLower(strings.TrimSpace(line))
		if t == "" || t[0] == '#' {
			continue
		}
		if first == "" || strings.Contains(t, "run") && strings.Contains(t, "station") {
			first = t
		}
		if strings.Contains(first, "station") {
			break
		}
	}
	if strings.Contains(first, ";") && !strings.Contains(first, ",") {
		return ';'
	}
	return ','
}

func (s *survey) read() {
	r := csv.NewReader(strings.NewReader(strings.Join(s.lines, "\n")))
	r.Comma, r.Comment = s.separator(), '#'
	r.FieldsPerRecord = -1
	r.TrimLeadingSpace = true
	r.LazyQuotes = true // an inch mark inside a cell is no quote
	for {
		cells, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			line, _ := r.FieldPos(0)
			s.fail("csv-unreadable", finding.Place{File: s.file, Line: line}, "check the quotes and separators",
				"the survey cannot be read from here on")
			return
		}
		w := row{cells: cells, at: make([]finding.Place, len(cells))}
		for i := range cells {
			line, col := r.FieldPos(i)
			w.at[i] = finding.Place{File: s.file, Line: line, Col: s.runeCol(line, col)}
		}
		if s.blank(w) || s.unclosed(w) {
			continue
		}
		if !s.take(w) {
			return
		}
	}
	s.end()
}

// mostTitles is how many rows of words may stand above the heading.
const mostTitles = 10

// take reads a row: the heading first, then readings. It is false if nothing below can
// be meant for a survey.
func (s *survey) take(w row) bool {
	switch {
	case s.columns != nil:
		s.reading(w)
	case len(s.titles) > 0 && s.headed(w):
		f := finding.New(finding.Note, "csv-title", s.titles[0].at[0], "begin each with #, or take them out",
			"%s above the heading of the survey: no reading", plural(len(s.titles), "row"))
		s.d.add(f)
		return s.heading(w)
	case len(s.titles) > 0 || len(w.cells) <= mostColumns && !s.known(w):
		if s.titles = append(s.titles, w); len(s.titles) > mostTitles || s.elsewise(w) != "" {
			s.noHeading(s.titles[0])
			return false
		}
	default:
		return s.heading(w)
	}
	return true
}

// headed says that a row is a heading without a doubt: it names the run and the
// station.
func (s *survey) headed(w row) bool {
	var names []string
	for _, cell := range w.cells {
		name, _ := columnName(cell)
		names = append(names, name)
	}
	return slices.Contains(names, "run") && slices.Contains(names, "station")
}

// end tells what the whole survey shows.
func (s *survey) end() {
	s.units()
	s.dates()
	switch {
	case s.columns != nil:
	case len(s.titles) > 0:
		s.noHeading(s.titles[0])
		return
	default:
		s.fail("csv-empty", finding.Place{File: s.file, Line: 1, Col: 1},
			"write the heading "+strings.Join(s.wanted(true), ",")+" and a row for each reading",
			"the survey has no rows")
	}
	s.unmeasuredRows()
}

// runeCol turns a byte column into a letter column.
func (s *survey) runeCol(line, col int) int {
	if line < 1 || line > len(s.lines) || col < 1 || col-1 > len(s.lines[line-1]) {
		return col
	}
	if len(s.lines[line-1]) > 2000 {
		return col // no person wrote such a line
	}
	return len([]rune(s.lines[line-1][:col-1])) + 1
}

func (s *survey) blank(w row) bool {
	if strings.HasPrefix(strings.TrimSpace(w.cells[0]), "#") {
		return true
	}
	for _, c := range w.cells {
		if strings.TrimSpace(c) != "" {
			return false
		}
	}
	return true
}

// unclosed reports a quoted cell that runs on into the next lines.
func (s *survey) unclosed(w row) bool {
	for i, c := range w.cells {
		if strings.Contains(c, "\n") {
			s.fail("csv-quote", w.at[i],
				`inside quotes write an inch mark twice, "2'-6""", `+
					`or leave the quotes away; a remark stands on one line`,
				"a quote is opened here and not closed on its line, so the lines below cannot be told apart")
			return true
		}
	}
	return false
}

// wanted are the names of the columns, all or those a survey must have.
func (s *survey) wanted(required bool) []string {
	names := []string{"run"}
	for _, k := range s.d.keys.within[readingTable] {
		if k.Required || !required {
			names = append(names, k.Name())
		}
	}
	return names
}

// mostColumns of a survey: those known here are fewer than twenty.
const mostColumns = 100

// heading reads the names of the columns and their units. It is false if nothing
// below can be meant for a survey.
func (s *survey) heading(w row) bool {
	if len(w.cells) > mostColumns {
		s.fail("csv-columns", w.at[mostColumns], "check that it is the right file, and its separators",
			"the heading has %d columns, and no survey has more than %d", len(w.cells), mostColumns)
		return false
	}
	all := s.wanted(false)
	for i, cell := range w.cells {
		c := column{at: w.at[i]}
		var unit string
		c.name, unit = columnName(cell)
		switch {
		case c.name == "":
			c.skipped = true
		case !slices.Contains(all, c.name):
			c.skipped = true
			mend := "the columns known here are " + strings.Join(all, ", ")
			if near := finding.Suggest(c.name, all); near != "" {
				mend = "did you mean `" + near + "`?"
			}
			s.fail("csv-column", c.at, mend, "the column %s is not known here", show(cell))
		}
		if twice := s.find(c.name); !c.skipped && twice >= 0 {
			c.skipped = true
			s.d.unsure = true
			s.d.conflict("csv-column-twice", c.at, s.columns[twice].at, "keep one of the two",
				"the column %s stands here twice", show(c.name))
		}
		if unit != "" && !c.skipped && s.d.keys.byPath[readingTable+"."+c.name].Form == FormLength {
			c.unit = s.unit(&c, unit)
		}
		s.columns = append(s.columns, c)
	}
	for _, name := range s.wanted(true) {
		if s.find(name) < 0 {
			s.fail("csv-column-missing", w.at[0], "add it to the heading: "+strings.Join(s.wanted(true), ","),
				"the survey has no column `%s`", name)
		}
	}
	return true
}

// known says that a row has the name of a column of a survey, or nearly.
func (s *survey) known(w row) bool {
	all := s.wanted(false)
	for _, cell := range w.cells {
		name, _ := columnName(cell)
		if !strings.Contains(cell, "\t") && (slices.Contains(all, name) || finding.Suggest(name, all) != "") {
			return true
		}
	}
	return false
}

// elsewise tells a row that begins something else than a survey: a job file, or columns
// divided by tabs.
func (s *survey) elsewise(w row) string {
	switch first := strings.TrimSpace(w.cells[0]); {
	case strings.HasPrefix(first, "format:"), slices.Contains([]string{".yaml", ".yml"},
		strings.ToLower(path.Ext(s.file))):
		return "job"
	case strings.Contains(first, "\t"):
		return "tabs"
	}
	return ""
}

// noHeading reports a heading in which no column is one of a survey: its rows are none
// either.
func (s *survey) noHeading(w row) {
	mend := "begin it with the heading " + strings.Join(s.wanted(true), ",")
	what := "is no heading of a survey"
	switch s.elsewise(w) {
	case "job":
		what, mend = "does not begin a survey but a job file or a part of one", "name the CSV file with the readings"
	case "tabs":
		mend = "separate the columns by commas or semicolons, not tabs"
	}
	s.fail("csv-heading", w.at[0], mend, "the line %s %s", show(strings.Join(w.cells, ",")), what)
}

// columnName is the name of a column as the keys have it, and the unit behind it.
func columnName(cell string) (name, unit string) {
	name, unit = splitUnit(cell)
	name = strings.ToLower(strings.Join(strings.Fields(name), " "))
	name = strings.NewReplacer(" ", "_", "-", "_").Replace(name)
	switch name { // as forms printed before have them
	case "top_outside":
		name = "street_top"
	case "top_inside":
		name = "roof_top"
	}
	return name, unit
}

// splitUnit takes a heading like width (in) apart.
func splitUnit(cell string) (name, unit string) {
	cell = strings.TrimSpace(cell)
	open := strings.LastIndexAny(cell, "([")
	if open < 0 || !strings.HasSuffix(cell, ")") && !strings.HasSuffix(cell, "]") {
		return cell, ""
	}
	return cell[:open], strings.TrimSpace(cell[open+1 : len(cell)-1])
}

func (s *survey) unit(c *column, name string) length.Length {
	switch strings.NewReplacer(" ", "-", "_", "-", "feet", "ft", "inches", "in").Replace(strings.ToLower(name)) {
	case "ft-in", "ft-and-in", "ft+in", `'-"`:
		return 0 // each cell carries its marks
	}
	u, err := length.ParseUnit(name)
	if err != nil {
		s.fail("csv-unit", c.at, "write (in), (ft), (ft-in), (mm), (cm) or (m) after the name",
			"column %s: %s is not a unit known here", c.name, show(name))
		c.noUnit = true // its cells need no finding of their own
	}
	return u
}

// find is the position of a column; -1 if there is none.
func (s *survey) find(name string) int {
	return slices.IndexFunc(s.columns, func(c column) bool { return c.name == name && !c.skipped })
}

// reading takes one row to its run.
func (s *survey) reading(w row) {
	if !s.fits(w) {
		return
	}
	place := s.find("run")
	if place < 0 {
		return
	}
	target := s.target(strings.TrimSpace(w.cells[place]), w.at[place])
	if target == nil {
		return
	}
	if s.unmeasured(w) {
		target.open = append(target.open, w.at[0])
		return
	}
	n := s.mapping(w)
	if n == nil {
		return
	}
	// Which reading of its run it is, is known once all files are read.
	p := &part{d: s.d, n: n, at: n.at, table: readingTable, row: true}
	var r Reading
	before := len(s.d.said)
	r.keys(keys{part: p})
	said := slices.Clone(s.d.said[before:])
	s.d.said = s.d.said[:before]
	if p.sound() && s.ranges(w, target, &r) {
		target.rows, target.said = append(target.rows, r), append(target.said, said)
	} else {
		s.d.unsure = true
	}
}

// mapping makes of a row what an inline reading is: its filled cells under
// the names of their columns. It is nil if the row cannot be used.
func (s *survey) mapping(w row) *node {
	n := &node{kind: mappingNode, at: w.at[0]}
	whole := true
	for _, key := range s.d.keys.within[readingTable] {
		i := s.find(key.Name())
		if i < 0 {
			whole = whole && !key.Required
			continue
		}
		c, text := &s.columns[i], strings.TrimSpace(w.cells[i])
		switch {
		case text == "" && key.Required:
			whole = false
			s.fail("value-missing", w.at[i], "write the measured value, 0 if it is nothing",
				"column %s: the cell is empty", c.name)
		case text == "":
		case key.Form == FormLength && c.isDay(text, w.at[i]):
			whole = false
		case key.Form == FormLength && s.unitless(c, text, w.at[i]):
			whole = false
		default:
			n.fields = append(n.fields, field{key: c.name, at: w.at[i],
				value: &node{kind: scalarNode, at: w.at[i], text: text, unit: c.unit}})
		}
	}
	if !whole {
		return nil
	}
	return n
}

// unitless reports, once for each column, a bare number without a unit.
func (s *survey) unitless(c *column, text string, at finding.Place) bool {
	if c.unit > 0 {
		return false
	}
	if _, err := length.Parse(text); err == nil {
		return false
	}
	if _, err := length.ParseIn(text, length.Inch); err != nil {
		return false
	}
	s.d.unsure = true
	if !c.noUnit {
		c.noUnit = true
		s.d.conflict("csv-unit", at, c.at,
			"write the unit in the heading, for example `"+c.name+" (in)`, or after each number",
			"column %s: %s has no unit", c.name, show(text))
	}
	return true
}

// fits checks that a row has as many cells as the heading. A cell too few may
// have moved all the values after it, so nothing of the row is used.
func (s *survey) fits(w row) bool {
	n := len(s.columns)
	for i, c := range w.cells {
		if strings.TrimSpace(c) != "" && (i >= n || s.columns[i].name == "") {
			s.fail("csv-ragged", w.at[i], "take it out, or name its column in the heading",
				"the cell %s stands under no column", show(c))
			return false
		}
	}
	if len(w.cells) < n {
		s.fail("csv-ragged", w.at[0], "leave a cell empty between separators rather than out",
			"the row has %d cells and the heading has %d", len(w.cells), n)
		return false
	}
	return true
}

// target finds the run a row belongs to.
func (s *survey) target(name string, at finding.Place) *surveyed {
	r := s.runs[name]
	switch {
	case name == "":
		s.fail("value-missing", at, "write the run's name in every row", "the row does not say which run it belongs to")
		return nil
	case r == nil:
		s.d.unsure = true
		if !slices.ContainsFunc(s.strangers, func(o stranger) bool { return o.name == name }) {
			s.strangers = append(s.strangers, stranger{name, at, s})
		}
		return nil
	case !r.mine:
		if !r.told {
			r.told = true
			s.fail("csv-run", at, "name this survey in perimeter "+r.perimeter+" too, or take the rows out",
				"run %s belongs to perimeter %s, which does not name this survey", name, r.perimeter)
		}
		return nil
	case len(r.run.Readings) > 0:
		if !r.told {
			r.told = true
			s.d.conflict("survey-both", at, r.run.Readings[0].At, "keep one of the two",
				"run %s has readings in the job file and in the survey", name)
		}
		return nil
	}
	return r
}
