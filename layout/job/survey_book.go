package job

import (
	"path"
	"slices"
	"strconv"
	"strings"

	"copingset/layout/finding"
	"copingset/layout/workbook"
)

// A survey may be a sheet of a workbook: heron.xlsx, or heron.xlsx#ROOF where the
// workbook has several. Places in it are rows and columns of the sheet.

// sheetOf parts the name of a workbook from that of its sheet. It is not ok for a file
// that is no workbook.
func sheetOf(name string) (file, sheet string, ok bool) {
	file, sheet, _ = strings.Cut(name, "#")
	if !strings.EqualFold(path.Ext(file), ".xlsx") {
		return name, "", false
	}
	return file, sheet, true
}

// books are the workbooks that were read, by their names in the file system.
type books map[string]*workbook.Book

// close lets go of them.
func (b books) close() {
	for _, one := range b { // in any order: nothing is told of it
		_ = one.Close() // they are in memory
	}
}

// open reads a workbook, once.
func (b books) open(d *decoder, name string, asked finding.Place) (*workbook.Book, bool) {
	if one, known := b[name]; known {
		return one, true
	}
	data, ok := d.fetch(name, asked, surveyFile)
	if !ok {
		return nil, false
	}
	one, err := workbook.Open(data)
	if err != nil {
		d.errorf("workbook-unreadable", asked, "open it in the spreadsheet and save it again as .xlsx, or as CSV",
			"the survey %s cannot be read as a workbook", show(d.seen(name)))
		return nil, false
	}
	d.source(name, surveyFile, data)
	b[name] = one
	return one, true
}

// readBook reads the survey from the sheet of a workbook.
func (s *survey) readBook(b *workbook.Book, file, sheet string, asked finding.Place) {
	all := b.Sheets()
	at := slices.IndexFunc(all, func(n string) bool { return strings.EqualFold(n, sheet) })
	if sheet == "" && len(all) == 1 {
		at = 0
	}
	if at < 0 {
		s.noSheet(all, file, sheet, asked)
		return
	}
	rows, err := b.Rows(all[at])
	if err != nil {
		s.fail("workbook-unreadable", asked, "open it in the spreadsheet and save it again as .xlsx, or as CSV",
			"the sheet %s of the survey cannot be read", show(all[at]))
		return
	}
	for i, r := range rows {
		w, ok := s.bookRow(i+1, r)
		if !ok || s.blank(w) {
			continue
		}
		if !s.take(w) {
			return
		}
	}
	s.end()
}

// noSheet says which sheets a workbook has.
func (s *survey) noSheet(all []string, file, sheet string, asked finding.Place) {
	var names []string
	for _, n := range all {
		names = append(names, file+"#"+n)
	}
	mend := "write " + oneOf(names)
	if near := finding.Suggest(sheet, all); near != "" {
		mend = "did you mean " + file + "#" + near + "?"
	}
	if sheet == "" {
		s.fail("workbook-sheet", asked, mend, "the workbook %s has %s, and which is the survey is not said",
			show(file), plural(len(all), "sheet"))
		return
	}
	s.fail("workbook-sheet", asked, mend, "the workbook %s has no sheet %s", show(file), show(sheet))
}

// bookRow is a row of a sheet as one of a survey: cells behind the last that is filled
// are empty, days are written as such, and none has a line or a sign that nobody sees.
func (s *survey) bookRow(n int, cells []workbook.Got) (row, bool) {
	w := row{cells: make([]string, max(1, len(cells), len(s.columns))), at: nil}
	w.at = make([]finding.Place, len(w.cells))
	for i := range w.at {
		w.at[i] = finding.Place{File: s.file, Line: n, Col: i + 1}
	}
	for i, c := range cells {
		text := c.Words
		if v, err := strconv.ParseFloat(text, 64); err == nil && c.Date {
			text = dayOf(int64(v))
		}
		text = strings.Join(strings.Fields(text), " ")
		for _, r := range text {
			if hidden(r) {
				s.fail("file-control", w.at[i], "type the cell again", "a hidden control character (%U) stands here", r)
				return w, false
			}
		}
		w.cells[i] = text
	}
	return w, true
}
