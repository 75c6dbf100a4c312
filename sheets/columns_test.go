package sheets

import (
	"archive/zip"
	"bytes"
	"encoding/csv"
	"encoding/xml"
	"fmt"
	"os/exec"
	"slices"
	"strconv"
	"strings"
	"testing"

	"copingset/layout/finding"
)

// Every column of every list is documented, in its order, and no other.
func TestColumnsAreDocumented(t *testing.T) {
	var want, got []string
	lists := append(Schedules(sampleLayout(t, "rectangle")), TakeoffList(sampleTakeoff(t)))
	for _, s := range lists {
		for _, h := range s.Header {
			want = append(want, strings.TrimSuffix(s.Name, ".csv")+": "+h)
		}
	}
	for _, c := range ListColumns() {
		got = append(got, c.List+": "+c.Name)
		if c.Means == "" {
			t.Errorf("%s, %s: nobody says what it means", c.List, c.Name)
		}
		if strings.HasSuffix(c.Name, " mm") && (c.Unit != "mm" || !c.Number) {
			t.Errorf("%s, %s is not a number of millimetres", c.List, c.Name)
		}
	}
	slices.Sort(want)
	slices.Sort(got)
	if !slices.Equal(want, got) {
		for i := range min(len(want), len(got)) {
			if want[i] != got[i] {
				t.Fatalf("documented %q, printed %q", got[i], want[i])
			}
		}
		t.Fatalf("%d columns documented, %d printed", len(got), len(want))
	}
}

// The workbook, read by a reader that shares nothing with its writer, holds the rows
// of the CSV files, with numbers where they are documented and nowhere a formula.
func TestWorkbookHoldsTheLists(t *testing.T) {
	all, err := sampleLayouts()
	if err != nil {
		t.Fatal(err)
	}
	for name, l := range all {
		lists := Schedules(l)
		data, err := Workbook(l.Job, lists)
		if err != nil {
			t.Fatal(err)
		}
		sheets := readSheets(t, data)
		if len(sheets) != len(lists) {
			t.Fatalf("%s: %d sheets for %d lists", name, len(sheets), len(lists))
		}
		for i, s := range lists {
			want := append([][]string{s.Header}, s.Rows...)
			for r, row := range want {
				for c, cell := range row {
					is := sheets[i][fmt.Sprintf("%s%d", columnLetters(c), r+1)]
					number := r > 0 && numbered(strings.TrimSuffix(s.Name, ".csv"))[s.Header[c]]
					if !sameCell(is, cell, number) {
						t.Fatalf("%s, %s, row %d, %s: %+v, the list has %q", name, s.Name, r, s.Header[c], is, cell)
					}
				}
			}
		}
	}
}

func sameCell(is readCell, want string, number bool) bool {
	v, err := strconv.ParseFloat(want, 64)
	if number && want != "" && err == nil {
		got, err := strconv.ParseFloat(is.value, 64)
		return err == nil && got == v && !is.words
	}
	return is.value == want && (want == "" || is.words)
}

// readCell is a cell as it stands in the file.
type readCell struct {
	value string
	words bool
}

// readSheets reads the cells of the sheets of a workbook by their names.
func readSheets(t *testing.T, data []byte) []map[string]readCell {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]readCell
	for n := 1; ; n++ {
		f, err := z.Open(fmt.Sprintf("xl/worksheets/sheet%d.xml", n))
		if err != nil {
			return out
		}
		var sheet struct {
			Cells []struct {
				R      string    `xml:"r,attr"`
				T      string    `xml:"t,attr"`
				V      string    `xml:"v"`
				F      *struct{} `xml:"f"`
				Inline string    `xml:"is>t"`
			} `xml:"sheetData>row>c"`
		}
		if err := xml.NewDecoder(f).Decode(&sheet); err != nil {
			t.Fatal(err)
		}
		f.Close()
		cells := map[string]readCell{}
		for _, c := range sheet.Cells {
			if c.F != nil {
				t.Errorf("sheet %d, %s holds a formula", n, c.R)
			}
			cells[c.R] = readCell{c.V, false}
			if c.T == "inlineStr" {
				cells[c.R] = readCell{c.Inline, true}
			}
		}
		out = append(out, cells)
	}
}

func columnLetters(i int) string {
	if i < 26 {
		return string(rune('A' + i))
	}
	return columnLetters(i/26-1) + columnLetters(i%26)
}

// A program of others reads the workbook, where one is installed.
func TestWorkbookOpensElsewhere(t *testing.T) {
	const script = `
import sys, io, openpyxl
b = openpyxl.load_workbook(io.BytesIO(sys.stdin.buffer.read()))
for s in b.worksheets:
    for row in s.iter_rows():
        for c in row:
            if c.data_type == 'f':
                sys.exit(s.title + ' ' + c.coordinate + ' is a formula')
    print(s.title, s.max_row, s.max_column)
`
	if err := exec.Command("python3", "-c", "import openpyxl").Run(); err != nil {
		t.Skip("python3 with openpyxl is not installed")
	}
	l := sampleLayout(t, "rectangle")
	data, err := Workbook(l.Job, Schedules(l))
	if err != nil {
		t.Fatal(err)
	}
	c := exec.Command("python3", "-c", script)
	c.Stdin = bytes.NewReader(data)
	got, err := c.CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, got)
	}
	var want strings.Builder
	for _, s := range Schedules(l) {
		fmt.Fprintln(&want, strings.TrimSuffix(s.Name, ".csv"), len(s.Rows)+1, len(s.Header))
	}
	if string(got) != want.String() {
		t.Errorf("read\n%swritten\n%s", got, want.String())
	}
}

// Words that somebody typed never become a formula, in CSV or in the workbook.
func TestNoCellIsAFormula(t *testing.T) {
	l := *sampleLayout(t, "rectangle")
	l.Findings = append(slices.Clone(l.Findings), finding.New(finding.Note, "note", finding.Place{}, "@mend",
		"=HYPERLINK(\"x\")"), finding.New(finding.Note, "note", finding.Place{}, "+A1", "-1+2"))
	lists := Schedules(&l)
	data, err := Workbook(l.Job, lists)
	if err != nil {
		t.Fatal(err)
	}
	readSheets(t, data) // complains of formulas
	for _, s := range lists {
		if s.Name != "findings.csv" {
			continue
		}
		var b bytes.Buffer
		if err := WriteCSV(&b, s); err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(&b).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		seen := 0
		for _, r := range rows {
			for _, cell := range r {
				if strings.HasPrefix(cell, "=") || strings.HasPrefix(cell, "@") || strings.HasPrefix(cell, "+") {
					t.Errorf("a spreadsheet works out %q", cell)
				}
				if strings.HasPrefix(cell, "'=") || strings.HasPrefix(cell, "'@") || strings.HasPrefix(cell, "'-1") {
					seen++
				}
			}
		}
		if seen < 3 {
			t.Errorf("%d cells are kept from working anything out", seen)
		}
	}
}
