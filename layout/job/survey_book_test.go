package job

import (
	"os"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"copingset/layout/finding"
	"copingset/layout/workbook"
)

// heronBook is the survey of the good job as a sheet of a workbook, with rows above it,
// and what a test changes of it.
func heronBook(t *testing.T, sheets []string, edit func(rows [][]string)) []byte {
	t.Helper()
	text, err := os.ReadFile("testdata/good/heron.csv")
	if err != nil {
		t.Fatal(err)
	}
	var tables []workbook.Table
	for _, name := range sheets {
		var rows [][]string
		for line := range strings.Lines(string(text)) {
			rows = append(rows, splitCells(strings.TrimSpace(line)))
		}
		if edit != nil {
			edit(rows)
		}
		table := workbook.Table{Name: name, Head: rows[0]}
		for _, r := range rows[1:] {
			cells := make([]workbook.Cell, len(rows[0]))
			for i := range r[:min(len(r), len(cells))] {
				cells[i] = workbook.Parsed(r[i])
			}
			table.Rows = append(table.Rows, cells)
		}
		tables = append(tables, table)
	}
	data, err := workbook.Write("survey", tables)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// splitCells parts a line of the test's CSV, whose quotes stand round whole cells.
func splitCells(line string) []string {
	var out []string
	quoted, cell := false, ""
	for i := 0; i < len(line); i++ {
		switch c := line[i]; {
		case c == '"' && quoted && i+1 < len(line) && line[i+1] == '"':
			cell += `"`
			i++
		case c == '"':
			quoted = !quoted
		case c == ',' && !quoted:
			out, cell = append(out, cell), ""
		default:
			cell += string(c)
		}
	}
	return append(out, cell)
}

// readHeron reads the good job with another survey.
func readHeron(t *testing.T, name string, files map[string][]byte) (*Job, finding.List) {
	t.Helper()
	text, err := os.ReadFile("testdata/good/heron.yaml")
	if err != nil {
		t.Fatal(err)
	}
	fsys := fstest.MapFS{"heron.yaml": {Data: []byte(edit(t, string(text), "survey: heron.csv", "survey: "+name))}}
	for n, data := range files {
		fsys[n] = &fstest.MapFile{Data: data}
	}
	return Read(fsys, "heron.yaml")
}

// A survey says the same as a sheet of a workbook as it does as CSV.
func TestSurveyOfAWorkbook(t *testing.T) {
	want := readGood(t, "heron.yaml")
	for name, sheets := range map[string][]string{"heron.xlsx": {"ROOF"}, "heron.xlsx#roof": {"notes", "ROOF"}} {
		got, found := readHeron(t, name, map[string][]byte{"heron.xlsx": heronBook(t, sheets, nil)})
		if got == nil {
			t.Fatal(found)
		}
		if got.Digest() != want.Digest() {
			t.Errorf("%s says something else than the CSV", name)
		}
		at := got.Perimeters[0].Runs[0].Readings[1].At
		if at.String() != name+":3:1" {
			t.Errorf("the reading stands at %s", at)
		}
		if s := got.Sources[1]; s.Name != "heron.xlsx" || s.Kind != surveyFile {
			t.Errorf("read from %+v", s)
		}
	}
}

func codesOf(all finding.List) []string {
	var out []string
	for _, f := range all {
		out = append(out, f.Code)
	}
	return out
}

func TestSheetsOfAWorkbookAreNamed(t *testing.T) {
	two := map[string][]byte{"heron.xlsx": heronBook(t, []string{"ROOF", "WELL"}, nil)}
	for name, want := range map[string]string{
		"heron.xlsx":      "which is the survey is not said",
		"heron.xlsx#ROFF": "did you mean heron.xlsx#ROOF?",
		"heron.xlsx#none": "has no sheet",
	} {
		_, found := readHeron(t, name, two)
		if len(found) == 0 || found[0].Code != "workbook-sheet" || !strings.Contains(found[0].String(), want) {
			t.Errorf("%s: %v", name, found)
		}
	}
	_, found := readHeron(t, "heron.xlsx", map[string][]byte{"heron.xlsx": []byte("run,station\n")})
	if !slices.Contains(codesOf(found), "workbook-unreadable") {
		t.Errorf("a CSV named as a workbook: %v", found)
	}
	_, found = readHeron(t, "none.xlsx", nil)
	if !slices.Contains(codesOf(found), "file-missing") {
		t.Errorf("no workbook: %v", found)
	}
}

// Days in place of fractions are told once a column, with what was likely typed.
func TestDaysInPlaceOfFractions(t *testing.T) {
	csvText, err := os.ReadFile("testdata/good/heron.csv")
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(string(csvText), "\n")
	for i := 2; i < 5; i++ {
		cells := splitCells(lines[i])
		cells[5], cells[1] = "16-Jan", `"`+strings.ReplaceAll(cells[1], `"`, `""`)+`"`
		lines[i] = strings.Join(cells, ",")
	}
	_, found := readHeron(t, "heron.csv", map[string][]byte{"heron.csv": []byte(strings.Join(lines, "\n"))})
	n := 0
	for _, f := range found {
		if f.Code == "csv-date" {
			n++
			if f.At.Line != 3 || !strings.Contains(f.String(), "1/16") || !strings.Contains(f.String(), "2 cells below") {
				t.Errorf("%v", f)
			}
		}
	}
	if n != 1 {
		t.Errorf("told %d times: %v", n, found)
	}
}

func TestFractionOfADay(t *testing.T) {
	for text, want := range map[string][2]int{"16-Jan": {1, 16}, "Jan-16": {1, 16}, "8. Mai": {5, 8}, "2026-03-16": {3, 16},
		"2026-01-08 00:00:00": {1, 8}, "3/16/2026": {3, 16}, "16.03.2026": {3, 16}, "5 ene": {1, 5}} {
		if m, d, ok := fractionOf(text); !ok || m != want[0] || d != want[1] {
			t.Errorf("%s: %d/%d, %v", text, m, d, ok)
		}
	}
	for _, text := range []string{"12 1/16", "1/16", `2'-6"`, "-1/8", "305", "12.0625", "3 mm", "12 in", "0"} {
		if _, _, ok := fractionOf(text); ok {
			t.Errorf("%s is taken for a day", text)
		}
	}
}

// Rows of words above the heading are said once, and the survey is read below them.
func TestTitleAboveTheHeading(t *testing.T) {
	text, err := os.ReadFile("testdata/good/heron.csv")
	if err != nil {
		t.Fatal(err)
	}
	titled := "Heron Street, roof\nmeasured by D. Quill, 24 February\n\n" + string(text)
	got, found := readHeron(t, "heron.csv", map[string][]byte{"heron.csv": []byte(titled)})
	if got == nil || len(found) != 1 || found[0].Code != "csv-title" || found[0].At.Line != 1 {
		t.Fatalf("%v", found)
	}
	if got.Digest() != readGood(t, "heron.yaml").Digest() {
		t.Error("the survey says something else below its title")
	}
	semicolons := "Heron Street, roof\n" + strings.ReplaceAll(strings.ReplaceAll(string(text), ",", ";"), "; ", ", ")
	if got, found := readHeron(t, "heron.csv", map[string][]byte{"heron.csv": []byte(semicolons)}); got == nil {
		t.Errorf("%v", found)
	}
	_, found = readHeron(t, "heron.csv", map[string][]byte{"heron.csv": []byte("a title\nno heading\n1,2\n")})
	if !slices.Contains(codesOf(found), "csv-heading") {
		t.Errorf("no heading: %v", found)
	}
}
