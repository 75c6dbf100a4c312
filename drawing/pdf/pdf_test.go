package pdf

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
	"unicode/utf16"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"

	"copingset/drawing"
	"copingset/drawing/internal/specimen"
)

var issued = time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC)

// sample is a document of three pages of three sizes.
func sample() Document {
	list := drawing.Scene{Name: "list", W: 27940, H: 21590}
	list.Text(drawing.Pt(2000, 3000), drawing.Letter(`CAP 12: 9'-11 3/4"`), drawing.Style{Face: drawing.Bold})
	list.Text(drawing.Pt(5000, 9000), "read (from) the right \\", drawing.Style{Rotate: 900})
	list.Link(drawing.Box(2000, 2500, 7000, 3100), "S-1")
	tall := drawing.Scene{Name: "tall", W: 21000, H: 29700}
	tall.Group(drawing.Wall, "", func(g *drawing.Scene) {
		g.Line(drawing.Thick, drawing.Pt(1000, 2000), drawing.Pt(11000, 2000))
		g.Group(drawing.Holds, "", func(h *drawing.Scene) { h.Circle(drawing.Hold, drawing.Pt(6000, 6000), 500) })
		g.Line(drawing.Thin, drawing.Pt(1000, 3000), drawing.Pt(11000, 3000))
	})
	return Document{
		Title: "Coping – north & east <roof>", Author: "Drawing room", Subject: "Shop drawings", Keywords: "coping, caps", Lang: "en-US", Date: issued,
		Pages: []Page{
			{Scene: specimen.Sheet(), ID: "specimen", Label: "S-1", Outline: "Specimen – Ø"},
			{Scene: list, ID: "S-2", Label: "L-1", Outline: "List"},
			{Scene: tall, ID: "S-1"},
		},
	}
}

func write(t *testing.T, d Document) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, d); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestDocumentIsValid(t *testing.T) {
	model.ConfigPath = "disable" // the validator must not write a configuration file
	for _, compress := range []bool{false, true} {
		d := sample()
		d.Compress = compress
		file := write(t, d)
		if !bytes.Equal(file, write(t, d)) {
			t.Error("two files differ")
		}
		conf := model.NewDefaultConfiguration()
		conf.ValidationMode = model.ValidationRelaxed
		if err := api.Validate(bytes.NewReader(file), conf); err != nil {
			t.Errorf("compressed %v: %v", compress, err)
		}
		dims, err := api.PageDims(bytes.NewReader(file), conf)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, p := range dims {
			got = append(got, fmt.Sprintf("%.2fx%.2f", p.Width, p.Height))
		}
		// A3, letter on its side and A4 in points of 1/72 in.
		if want := []string{"1190.55x841.89", "792.00x612.00", "595.28x841.89"}; !slices.Equal(got, want) {
			t.Errorf("pages of %v, want %v", got, want)
		}
	}
}

// words decodes the strings shown on the pages of an uncompressed file.
func words(t *testing.T, file []byte) []string {
	t.Helper()
	var all []string
	for _, m := range regexp.MustCompile(`(?s)Td \(((?:[^()\\]|\\.)*)\) Tj`).FindAllSubmatch(file, -1) {
		raw := regexp.MustCompile(`(?s)\\(.)`).ReplaceAllFunc(m[1], func(e []byte) []byte {
			if e[1] == 'r' {
				return []byte{'\r'}
			}
			return e[1:]
		})
		if len(raw)%2 != 0 {
			t.Fatalf("string %q is no UTF-16", raw)
		}
		var units []uint16
		for i := 0; i < len(raw); i += 2 {
			units = append(units, uint16(raw[i])<<8|uint16(raw[i+1]))
		}
		all = append(all, string(utf16.Decode(units)))
	}
	return all
}

func TestEveryTextCanBeCopied(t *testing.T) {
	d := sample()
	var got, want []string
	for _, w := range words(t, write(t, d)) {
		got = append(got, strings.TrimSuffix(w, " ")) // the space that parts it from the next text
	}
	for _, p := range d.Pages {
		for _, x := range p.Scene.Texts() {
			want = append(want, x.Words)
		}
	}
	slices.Sort(got)
	slices.Sort(want)
	if !slices.Equal(got, want) {
		t.Errorf("texts in the file\n%q\nwant\n%q", got, want)
	}
}

func TestMarksStandWhereTheyShould(t *testing.T) {
	s := drawing.Scene{Name: "marks", W: 25400, H: 12700} // 720 x 360 points
	s.Line(drawing.Border, drawing.Pt(2540, 2540), drawing.Pt(5080, 2540))
	s.Text(drawing.Pt(2540, 5080), "H", drawing.Style{Size: 702})
	s.Text(drawing.Pt(2540, 7620), "H", drawing.Style{Size: 702, Rotate: 900})
	file := string(write(t, Document{Date: issued, Pages: []Page{{Scene: s}}}))
	for _, part := range []string{
		"/MediaBox [0 0 720.00 360.00]",
		"1.98 w", // 0.7 mm
		"72.00 288.00 m\n144.00 288.00 l\nS",
		"28.35 Tf", // an em of 10 mm
		"BT 72.00 216.00 Td (\x00H) Tj ET",
		"0.00000 1.00000 -1.00000 0.00000 72.00000 144.00000 cm\nBT 0.00 0.00 Td (\x00H) Tj ET",
	} {
		if !strings.Contains(file, part) {
			t.Errorf("the file lacks %q", part)
		}
	}
}

// Marked content lies within a layer, never the other way round, and everything that paints is somebody's: content of the
// structure or an artifact.
func TestLayersAndMarkedContentOpenAndCloseInTurn(t *testing.T) {
	d := sample()
	d.Pages = append(d.Pages, Page{Scene: reader(), ID: "reader"})
	file := write(t, d)
	painted := 0
	var open []string
	for _, m := range regexp.MustCompile(`(?m)/OC /OC\d+ BDC|/\w+ <</MCID \d+>> BDC|/Artifact BMC|\bEMC$|^(?:S|f\*?|B|s)$|\) Tj`).FindAllString(string(file), -1) {
		switch {
		case m == "EMC":
			if len(open) == 0 {
				t.Fatal("something is closed twice")
			}
			open = open[:len(open)-1]
		case strings.HasPrefix(m, "/OC"):
			if len(open) != 0 {
				t.Fatalf("%s within %q", m, open)
			}
			open = append(open, "layer")
		case strings.HasSuffix(m, "BDC") || strings.HasSuffix(m, "BMC"):
			if slices.Contains(open, "mark") {
				t.Fatalf("%s within %q", m, open)
			}
			open = append(open, "mark")
		default:
			painted++
			if !slices.Contains(open, "mark") {
				t.Fatalf("%s is nobody's", m)
			}
		}
	}
	if len(open) != 0 {
		t.Errorf("%q stay open", open)
	}
	if painted < 100 {
		t.Errorf("only %d marks are painted", painted)
	}
	// On the third page: the wall, the hold in it, and the wall again.
	seq := regexp.MustCompile(`/OC /OC(\d+) BDC`).FindAllSubmatch(write(t, sample()), -1)
	last := seq[len(seq)-3:]
	if !bytes.Equal(last[0][1], last[2][1]) || bytes.Equal(last[0][1], last[1][1]) {
		t.Errorf("layers %q", last)
	}
}

// offsets reads the table at the end of the file and returns where each object is that is not packed in a stream; 0 for those.
func offsets(t *testing.T, file []byte) []int {
	t.Helper()
	m := regexp.MustCompile(`startxref\n(\d+)\n%%EOF\n$`).FindSubmatch(file)
	if m == nil {
		t.Fatal("no startxref")
	}
	start, _ := strconv.Atoi(string(m[1]))
	head, data, ok := bytes.Cut(file[start:], []byte("stream\n"))
	if !ok || !bytes.Contains(head, []byte("/Type /XRef ")) || !bytes.Contains(head, []byte("/W [1 4 4]")) {
		t.Fatalf("startxref points at %.40q", file[start:])
	}
	z, err := zlib.NewReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	table, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	if want := fmt.Sprintf("/Size %d ", len(table)/9); len(table)%9 != 0 || !bytes.Contains(head, []byte(want)) {
		t.Fatalf("%d bytes in the table, head %q", len(table), head)
	}
	var out []int
	for i := 9; i < len(table); i += 9 {
		at := 0
		if table[i] == 1 {
			at = int(binary.BigEndian.Uint32(table[i+1:]))
		}
		out = append(out, at)
	}
	return out
}

func TestTail(t *testing.T) {
	file := write(t, sample())
	offs := offsets(t, file)
	if len(offs) < 10 {
		t.Fatalf("%d objects", len(offs))
	}
	for i, o := range offs {
		if want := fmt.Sprintf("%d 0 obj\n", i+1); o != 0 && !bytes.HasPrefix(file[o:], []byte(want)) {
			t.Errorf("object %d is not where the table says", i+1)
		}
	}
	root, err := rootObject(file)
	if err != nil {
		t.Fatal(err)
	}
	catalog := string(file[offs[root-1]:])
	meta := regexp.MustCompile(`/Metadata (\d+) 0 R`).FindStringSubmatch(catalog)
	if meta == nil {
		t.Fatal("the catalog has no metadata")
	}
	n, _ := strconv.Atoi(meta[1])
	stream := string(file[offs[n-1]:])
	if !strings.Contains(stream[:strings.Index(stream, "endobj")], "Coping – north &amp; east &lt;roof&gt;") {
		t.Error("the metadata lack the title")
	}
	for _, part := range []string{
		"/Lang (en-US)", "/DisplayDocTitle true", "/PrintScaling /None",
		"0 <</P (S-1)>> 1 <</P (L-1)>> 2 <</P (3)>>",
		"/MarkInfo <</Marked true>>", "/StructTreeRoot " + strconv.Itoa(root+1) + " 0 R",
		"/Outlines", "/OCProperties",
	} {
		if !strings.Contains(catalog, part) {
			t.Errorf("the catalog lacks %s", part)
		}
	}
	id := regexp.MustCompile(`/ID \[<([0-9a-f]{32})> <([0-9a-f]{32})>\]`).FindStringSubmatch(catalog)
	if id == nil || id[1] != id[2] {
		t.Fatalf("identifier %v", id)
	}
	d := sample()
	d.Pages[1].Scene.Line(drawing.Thin, drawing.Pt(100, 100), drawing.Pt(200, 100))
	if bytes.Contains(write(t, d), []byte(id[1])) {
		t.Error("another document has the same identifier")
	}
	if !bytes.HasPrefix(file, []byte("%PDF-1.7\n%\xe2\xe3\xcf\xd3\n")) {
		t.Errorf("header %q", file[:16])
	}
}

func TestTargetsAreAtTheTopOfTheirPages(t *testing.T) {
	file := string(write(t, sample()))
	// Page n is object 1+2n. Outline entries of the first two pages, links to the first and the third.
	for _, part := range []string{"/Dest [3 0 R /XYZ 0 841.89 null]\n/Count", "/Dest [5 0 R /XYZ 0 612.00 null]\n/Count",
		"/Dest [3 0 R /XYZ 0 841.89 null]>>", "/Dest [7 0 R /XYZ 0 841.89 null]>>"} {
		if !strings.Contains(file, part) {
			t.Errorf("the file lacks %q", part)
		}
	}
}

func TestFinishRefusesAStrangeFile(t *testing.T) {
	d := sample()
	raw, structure, err := render(d)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := finish(raw, d, structure); err != nil {
		t.Fatal(err)
	}
	swap := func(from, to string) []byte { return bytes.Replace(raw, []byte(from), []byte(to), 1) }
	for name, file := range map[string][]byte{
		"empty":          nil,
		"cut short":      raw[:len(raw)-7],
		"other version":  swap("%PDF-1.", "%PDF-2."),
		"other trailer":  swap("trailer\n<<\n", "trailer <<\n"),
		"other catalog":  swap("/Type /Catalog", "/Type /Katalog"),
		"other root":     swap("/Root ", "/Root 1"),
		"no root":        swap("/Root ", "/Boot "),
		"other table":    swap(" 00000 n \n", " 00001 n \n"),
		"other page":     swap("/Type /Page\n", "/Type /Leaf\n"),
		"other size":     swap("/Size ", "/Size 1"),
		"other metadata": swap("/Type /Metadata", "/Type /Metabase"),
	} {
		if _, err := finish(file, d, structure); !errors.Is(err, errLayout) {
			t.Errorf("%s: error %v", name, err)
		}
	}
}

func TestWriteRefuses(t *testing.T) {
	tests := []struct {
		name string
		mar  func(d *Document)
		want string
	}{
		{"no page", func(d *Document) { d.Pages = nil }, "needs a page"},
		{"no date", func(d *Document) { d.Date = time.Time{} }, "issue date"},
		{"language", func(d *Document) { d.Lang = "en) /OpenAction (" }, "language tag"},
		{"id twice", func(d *Document) { d.Pages[1].ID = "S-1" }, "used twice"},
		{"no size", func(d *Document) { d.Pages[1].Scene.W = 0 }, "no size"},
		{"missing glyph", func(d *Document) { d.Pages[1].Scene.Text(drawing.Pt(0, 0), "☐ done", drawing.Style{}) }, "☐"},
		{"rune beyond the plane", func(d *Document) { d.Pages[1].Scene.Text(drawing.Pt(0, 0), "\U0001F600", drawing.Style{}) }, "no glyph"},
		{"broken text", func(d *Document) { d.Pages[1].Scene.Text(drawing.Pt(0, 0), "a\xff", drawing.Style{}) }, "no glyph"},
		{"broken title", func(d *Document) { d.Title = "a\xff" }, "U+FFFD"},
		{"title beyond the plane", func(d *Document) { d.Title = "\U0001F600" }, "U+1F600"},
		{"broken outline", func(d *Document) { d.Pages[0].Outline = "a\nb" }, "U+000A"},
		{"broken label", func(d *Document) { d.Pages[0].Label = "\U0001F600" }, "U+1F600"},
		{"link to nowhere", func(d *Document) { d.Pages[1].Scene.Link(drawing.Box(0, 0, 1, 1), "R-9") }, `"R-9"`},
		{"link to nothing", func(d *Document) { d.Pages[1].Scene.Link(drawing.Box(0, 0, 1, 1), "") }, `""`},
	}
	for _, tt := range tests {
		d := sample()
		tt.mar(&d)
		var b bytes.Buffer
		err := Write(&b, d)
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: error %v, want one with %q", tt.name, err, tt.want)
		}
		if b.Len() != 0 {
			t.Errorf("%s: %d bytes were written", tt.name, b.Len())
		}
	}
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, io.ErrClosedPipe }

func TestWriteErrorIsNotSwallowed(t *testing.T) {
	if err := Write(broken{}, sample()); !errors.Is(err, io.ErrClosedPipe) {
		t.Errorf("error %v", err)
	}
}

func TestPt(t *testing.T) {
	tests := map[drawing.Unit]float64{0: 0, drawing.Inch: 72, 100: 2.83, 42000: 1190.55, -2540: -72, -100: -2.83, 1: 0.03}
	for u, want := range tests {
		if got := pt(u); got != want {
			t.Errorf("pt(%d) = %v, want %v", u, got, want)
		}
	}
}
