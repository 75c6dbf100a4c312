package workbook

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"
)

// mostUnzipped is the largest workbook that is unpacked: a small file that unpacks to
// more is no survey.
const mostUnzipped = 48 << 20

// Got is a cell as it was read. Words are what stands in it: of a number the number
// itself, not how the cell shows it.
type Got struct {
	Words string
	Date  bool // the cell shows its number as a day
}

// Book is a workbook that is being read.
type Book struct {
	f     *excelize.File
	dates map[int]bool // look-up only: whether a style shows days, by its number
}

// Open reads a workbook. It unpacks it in memory and nowhere else.
func Open(data []byte) (b *Book, err error) {
	defer unreadable(&err)
	f, err := excelize.OpenReader(bytes.NewReader(data),
		excelize.Options{UnzipSizeLimit: mostUnzipped, UnzipXMLSizeLimit: mostUnzipped})
	if err != nil {
		return nil, err
	}
	return &Book{f: f, dates: map[int]bool{}}, nil
}

// unreadable turns a fault of the library over a damaged file into an error.
func unreadable(err *error) {
	if fault := recover(); fault != nil {
		*err = fmt.Errorf("the workbook is damaged: %v", fault)
	}
}

// Close lets go of it.
func (b *Book) Close() error { return b.f.Close() }

// Sheets are the names of its sheets, in their order.
func (b *Book) Sheets() []string { return b.f.GetSheetList() }

// Rows are the cells of a sheet, row by row; rows and cells behind the last that is
// filled are left out.
func (b *Book) Rows(sheet string) (out [][]Got, err error) {
	defer unreadable(&err)
	rows, err := b.f.GetRows(sheet, excelize.Options{RawCellValue: true})
	if err != nil {
		return nil, err
	}
	for r, row := range rows {
		cells := make([]Got, len(row))
		for c, text := range row {
			cells[c].Words = text
			if _, err := strconv.ParseFloat(text, 64); err != nil {
				continue
			}
			if cells[c].Date, err = b.day(sheet, c+1, r+1); err != nil {
				return nil, err
			}
			if !cells[c].Date {
				cells[c].Words = plain(text)
			}
		}
		out = append(out, cells)
	}
	return out, nil
}

// plain is a number without an exponent, and without the digits by which a binary
// fraction misses what was typed: 0.30000000000000004 is 0.3. Words of digits stay.
func plain(text string) string {
	if !strings.ContainsAny(text, ".eE") {
		return text
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return text
	}
	v, _ = strconv.ParseFloat(strconv.FormatFloat(v, 'g', 15, 64), 64)
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// day says whether a number is shown as a day.
func (b *Book) day(sheet string, col, row int) (bool, error) {
	name, err := excelize.CoordinatesToCellName(col, row)
	if err != nil {
		return false, err
	}
	kind, err := b.f.GetCellType(sheet, name)
	if err != nil || kind == excelize.CellTypeSharedString || kind == excelize.CellTypeInlineString {
		return false, err
	}
	if kind == excelize.CellTypeDate {
		return true, nil
	}
	id, err := b.f.GetCellStyle(sheet, name)
	if err != nil {
		return false, err
	}
	is, known := b.dates[id]
	if !known {
		style, err := b.f.GetStyle(id)
		if err != nil {
			return false, err
		}
		is = showsDays(style)
		b.dates[id] = is
	}
	return is, nil
}

// showsDays tells the formats of days: ISO/IEC 29500-1, 18.8.30, numbers 14 to 22 and
// those of the languages, and one of somebody's own with days or years in it.
func showsDays(s *excelize.Style) bool {
	if s.CustomNumFmt != nil {
		format := *s.CustomNumFmt
		for {
			open := strings.IndexByte(format, '"') // words in quotes are no letters of the format
			if open < 0 {
				break
			}
			shut := strings.IndexByte(format[open+1:], '"')
			if shut < 0 {
				break
			}
			format = format[:open] + format[open+shut+2:]
		}
		return strings.ContainsAny(strings.ToLower(format), "dy")
	}
	n := s.NumFmt
	return n >= 14 && n <= 17 || n == 22 || n >= 27 && n <= 36 || n >= 50 && n <= 58
}
