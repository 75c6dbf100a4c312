package workbook

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"io"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

func sample() []Table {
	return []Table{
		{"pieces", []string{"mark", "length mm"}, [][]Cell{
			{Words("N-01"), Number(1234.5)},
			{Words(`=HYPERLINK("x","y")`), {}},
			{Words("+1"), Number(-2)},
			{Words("@cmd"), Number(0)},
			{Words("-4 & <5>"), Number(1e6)},
		}},
		{"findings", []string{"code"}, nil},
	}
}

func TestSameTablesSameBytes(t *testing.T) {
	a, err := Write("t", sample())
	if err != nil {
		t.Fatal(err)
	}
	for range 5 {
		b, err := Write("t", sample())
		if err != nil || !bytes.Equal(a, b) {
			t.Fatalf("another file: %v", err)
		}
	}
}

// A reader that knows the files of a workbook and nothing of ours: words are words, and
// no cell holds a formula.
func TestNothingIsAFormula(t *testing.T) {
	data, err := Write("t", sample())
	if err != nil {
		t.Fatal(err)
	}
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	part := func(name string) []byte {
		f, err := z.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		all, err := io.ReadAll(f)
		if err != nil {
			t.Fatal(err)
		}
		return all
	}
	var sheet struct {
		Rows []struct {
			Cells []struct {
				R      string  `xml:"r,attr"`
				T      string  `xml:"t,attr"`
				S      int     `xml:"s,attr"`
				V      string  `xml:"v"`
				F      *string `xml:"f"`
				Inline string  `xml:"is>t"`
			} `xml:"c"`
		} `xml:"sheetData>row"`
	}
	if err := xml.Unmarshal(part("xl/worksheets/sheet1.xml"), &sheet); err != nil {
		t.Fatal(err)
	}
	words, numbers := map[string]string{}, map[string]string{}
	for _, r := range sheet.Rows {
		for _, c := range r.Cells {
			switch {
			case c.F != nil:
				t.Errorf("%s holds a formula: %s", c.R, *c.F)
			case c.T == "inlineStr":
				words[c.R] = c.Inline
				if c.S == 0 {
					t.Errorf("%s is not of the text format", c.R)
				}
			default:
				numbers[c.R] = c.V
			}
		}
	}
	for at, want := range map[string]string{"A1": "mark", "A3": `=HYPERLINK("x","y")`, "A4": "+1", "A6": "-4 & <5>"} {
		if words[at] != want {
			t.Errorf("%s is %q, not %q", at, words[at], want)
		}
	}
	for at, want := range map[string]string{"B2": "1234.5", "B4": "-2", "B5": "0", "B6": "1000000"} {
		if numbers[at] != want && !(at == "B6" && numbers[at] == "1e+06") {
			t.Errorf("%s is %q, not %q", at, numbers[at], want)
		}
	}
}

func TestReadsWhatIsWritten(t *testing.T) {
	data, err := Write("t", sample())
	if err != nil {
		t.Fatal(err)
	}
	b, err := Open(data)
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	if got := strings.Join(b.Sheets(), " "); got != "pieces findings" {
		t.Errorf("sheets %s", got)
	}
	rows, err := b.Rows("pieces")
	if err != nil {
		t.Fatal(err)
	}
	if rows[1][1].Words != "1234.5" || rows[5][1].Words != "1000000" || rows[2][0].Words != `=HYPERLINK("x","y")` {
		t.Errorf("read %v", rows)
	}
}

// A day in place of a fraction is told by the format of its cell; a fraction is none.
func TestDaysAreTold(t *testing.T) {
	f := excelize.NewFile()
	own, quoted := "# ?/16", `0.00 "day"`
	for at, style := range map[string]*excelize.Style{"A1": {NumFmt: 16}, "A2": {NumFmt: 12}, "A3": {CustomNumFmt: &own},
		"A4": {CustomNumFmt: &quoted}, "A5": {NumFmt: 14}} {
		id, err := f.NewStyle(style)
		if err != nil {
			t.Fatal(err)
		}
		if err := f.SetCellValue("Sheet1", at, 12.0625); err != nil {
			t.Fatal(err)
		}
		if err := f.SetCellStyle("Sheet1", at, at, id); err != nil {
			t.Fatal(err)
		}
	}
	if err := f.SetCellValue("Sheet1", "A6", "46038"); err != nil { // words of digits
		t.Fatal(err)
	}
	var w bytes.Buffer
	if err := f.Write(&w); err != nil {
		t.Fatal(err)
	}
	b, err := Open(w.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	rows, err := b.Rows("Sheet1")
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []bool{true, false, false, false, true, false} {
		if rows[i][0].Date != want {
			t.Errorf("row %d: a day %v", i+1, rows[i][0].Date)
		}
	}
	if rows[1][0].Words != "12.0625" {
		t.Errorf("a fraction reads %s", rows[1][0].Words)
	}
}

func TestPlainNumbers(t *testing.T) {
	for in, want := range map[string]string{"0.30000000000000004": "0.3", "1E-3": "0.001", "12": "12",
		"12.1875": "12.1875", "1.5E3": "1500"} {
		if got := plain(in); got != want {
			t.Errorf("%s is %s, not %s", in, got, want)
		}
	}
}

// What is no workbook, or a damaged one, is an error and nothing worse.
func TestDamagedFilesAreErrors(t *testing.T) {
	data, err := Write("t", sample())
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Open([]byte("run,station\n")); err == nil {
		t.Error("a CSV opens as a workbook")
	}
	for at := 0; at < len(data); at += 97 {
		bad := bytes.Clone(data)
		bad[at] ^= 0x55
		b, err := Open(bad)
		if err != nil {
			continue
		}
		for _, s := range b.Sheets() {
			_, _ = b.Rows(s)
		}
		_ = b.Close()
	}
	if _, err := Open(bomb(t)); err == nil {
		t.Error("a file that unpacks to 60 MB opens")
	}
}

// bomb is a small workbook that unpacks to far more than is read.
func bomb(t *testing.T) []byte {
	t.Helper()
	data, err := Write("t", sample())
	if err != nil {
		t.Fatal(err)
	}
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for _, f := range z.File {
		to, err := w.Create(f.Name)
		if err != nil {
			t.Fatal(err)
		}
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		if _, err := io.Copy(to, r); err != nil {
			t.Fatal(err)
		}
		r.Close()
		if strings.HasSuffix(f.Name, "sheet1.xml") {
			blank := bytes.Repeat([]byte(" "), 1<<20)
			for range 60 {
				if _, err := to.Write(blank); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}
