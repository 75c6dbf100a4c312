// Package workbook writes and reads workbooks of a spreadsheet (Office Open XML,
// .xlsx). It is the only door to the library that does, and knows tables of words
// and numbers alone.
//
// What is written is the same bytes for the same tables. Words are written as words
// in cells of the text format, so that none can become a formula, now or when
// somebody edits the cell. What is read is never worked out: of a cell with a formula
// its last result is taken.
package workbook

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"
)

// Cell is words or a number.
type Cell struct {
	Words  string
	Number float64
	Is     bool // a number
}

// Words make a cell of words.
func Words(s string) Cell { return Cell{Words: s} }

// Number makes a cell of a number.
func Number(v float64) Cell { return Cell{Number: v, Is: true} }

// Parsed is a number where the words are one, else words. An empty text is an empty
// cell.
func Parsed(s string) Cell {
	if v, err := strconv.ParseFloat(s, 64); err == nil && strings.Trim(s, "+-.0123456789") == "" {
		return Number(v)
	}
	return Words(s)
}

// Table is one sheet of a workbook: a heading, which stays in sight, and rows.
type Table struct {
	Name string
	Head []string
	Rows [][]Cell
}

// The longest name of a sheet, and what the cells of the widest column show.
const (
	mostName = 31
	mostWide = 60
)

// Write makes a workbook of tables.
func Write(title string, tables []Table) (data []byte, err error) {
	f := excelize.NewFile()
	defer func() {
		if closed := f.Close(); err == nil {
			err = closed
		}
	}()
	// The library's own fixed day stands in the properties: a clock would make another
	// file each time.
	if err := f.SetDocProps(&excelize.DocProperties{Title: title, Creator: "copingset"}); err != nil {
		return nil, err
	}
	text, err := f.NewStyle(&excelize.Style{NumFmt: 49}) // text, also when it is edited
	if err != nil {
		return nil, err
	}
	head, err := f.NewStyle(&excelize.Style{NumFmt: 49, Font: &excelize.Font{Bold: true},
		Alignment: &excelize.Alignment{WrapText: true, Vertical: "top"}})
	if err != nil {
		return nil, err
	}
	for i, t := range tables {
		if n := utf8.RuneCountInString(t.Name); n == 0 || n > mostName {
			return nil, fmt.Errorf("the sheet %q: a name has 1 to %d letters", t.Name, mostName)
		}
		if i == 0 {
			err = f.SetSheetName(f.GetSheetName(0), t.Name)
		} else {
			_, err = f.NewSheet(t.Name)
		}
		if err == nil {
			err = write(f, t, head, text)
		}
		if err != nil {
			return nil, fmt.Errorf("the sheet %s: %w", t.Name, err)
		}
	}
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		return nil, err
	}
	return settled(b.Bytes())
}

// write fills one sheet.
func write(f *excelize.File, t Table, head, text int) error {
	w, err := f.NewStreamWriter(t.Name)
	if err != nil {
		return err
	}
	for i, wide := range widths(t) {
		if err := w.SetColWidth(i+1, i+1, float64(wide)); err != nil {
			return err
		}
	}
	frozen := excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"}
	if err := w.SetPanes(&frozen); err != nil {
		return err
	}
	row := make([]any, len(t.Head))
	for i, h := range t.Head {
		row[i] = excelize.Cell{StyleID: head, Value: h}
	}
	if err := w.SetRow("A1", row); err != nil {
		return err
	}
	for n, r := range t.Rows {
		if len(r) != len(t.Head) {
			return fmt.Errorf("row %d has %d cells under a heading of %d", n+1, len(r), len(t.Head))
		}
		row := make([]any, len(r))
		for i, c := range r {
			switch {
			case c.Is:
				row[i] = c.Number
			case c.Words != "":
				row[i] = excelize.Cell{StyleID: text, Value: c.Words}
			}
		}
		if err := w.SetRow("A"+strconv.Itoa(n+2), row); err != nil {
			return err
		}
	}
	return w.Flush()
}

// widths are as wide as what stands in a column.
func widths(t Table) []int {
	out := make([]int, len(t.Head))
	for i, h := range t.Head {
		for _, word := range strings.Fields(h) {
			out[i] = max(out[i], utf8.RuneCountInString(word))
		}
		for _, r := range t.Rows {
			if i < len(r) {
				out[i] = max(out[i], utf8.RuneCountInString(r[i].Words))
			}
		}
		out[i] = min(max(out[i], 8)+2, mostWide)
	}
	return out
}

// settled puts the parts of a workbook in one order and without a time.
func settled(data []byte) ([]byte, error) {
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, err
	}
	files := slices.Clone(z.File)
	slices.SortFunc(files, func(a, b *zip.File) int {
		first := func(f *zip.File) int {
			if f.Name == "[Content_Types].xml" { // readers look for it at the head
				return 0
			}
			return 1
		}
		if c := first(a) - first(b); c != 0 {
			return c
		}
		return strings.Compare(a.Name, b.Name)
	})
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for _, f := range files {
		r, err := f.Open()
		if err != nil {
			return nil, err
		}
		to, err := w.CreateHeader(&zip.FileHeader{Name: f.Name, Method: zip.Deflate})
		if err == nil {
			_, err = io.Copy(to, r)
		}
		if closed := r.Close(); err == nil {
			err = closed
		}
		if err != nil {
			return nil, err
		}
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}
