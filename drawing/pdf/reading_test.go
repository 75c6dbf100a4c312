package pdf

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"
	"pgregory.net/rapid"

	"copingset/drawing"
)

// reader is a sheet whose view is drawn in an order that nobody would read it in.
func reader() drawing.Scene {
	s := drawing.Scene{Name: "reader", Title: "Run A", W: 30000, H: 20000}
	s.Group(drawing.Frame, "", func(g *drawing.Scene) {
		g.Text(drawing.Pt(20000, 19000), "SHEET", drawing.Style{})
		g.Text(drawing.Pt(20000, 19600), "Run A", drawing.Style{Face: drawing.Bold})
	})
	v := drawing.Scene{Title: "Plan of run A", Desc: "Run A seen from above (é).", W: 20000, H: 8000}
	v.Group(drawing.Dimensions, "", func(g *drawing.Scene) {
		g.Text(drawing.Pt(9000, 6000), drawing.Letter(`4'-6 5/16"`), drawing.Style{Halo: true})
		g.Text(drawing.Pt(1000, 6000), drawing.Letter(`2'-0"`), drawing.Style{})
	})
	v.Group(drawing.Wall, "", func(g *drawing.Scene) { g.Line(drawing.Thick, drawing.Pt(1000, 5000), drawing.Pt(19000, 5000)) })
	v.Group(drawing.Lettering, "", func(g *drawing.Scene) {
		g.Text(drawing.Pt(6000, 6250), "on end", drawing.Style{Rotate: 900}) // its middle stands in the row of the dimensions
		g.Text(drawing.Pt(12000, 1000), "C2", drawing.Style{})
		g.Paragraph(drawing.Pt(1000, 1000), "C1 stands on the joint and is counted once", 3000, drawing.Style{})
	})
	inner := drawing.Scene{W: 4000, H: 4000}
	inner.Text(drawing.Pt(100, 2000), "below", drawing.Style{})
	inner.Text(drawing.Pt(100, 400), "above", drawing.Style{})
	v.Place(inner, drawing.Pt(15000, 200))
	v.Text(drawing.Pt(100, 400), "last of the view", drawing.Style{})
	s.Place(v, drawing.Pt(1000, 1000))
	s.Group(drawing.Tables, "", func(g *drawing.Scene) {
		g.Text(drawing.Pt(1000, 12000), "Chairs", drawing.Style{Face: drawing.Bold})
		row := func(y drawing.Unit, head bool, words ...string) {
			var r drawing.Scene
			for i, w := range words {
				if w != "" {
					r.Paragraph(drawing.Pt(1100+drawing.Unit(i)*3000, y), w, 2600, drawing.Style{})
				}
			}
			g.Add(drawing.Group{Marks: r.Marks, Cells: []drawing.Unit{1000, 4000, 7000}, Head: head})
			g.Line(drawing.Thin, drawing.Pt(1000, y+300), drawing.Pt(10000, y+300))
		}
		row(13000, true, "Chair", "", "Station from the mark")
		row(15000, false, "C1", drawing.Letter(`2'-0 1/2"`), "")
		row(16000, false, "", "", drawing.Letter(`3/4"`))
	})
	s.Group(drawing.Lettering, "", func(g *drawing.Scene) {
		g.Text(drawing.Pt(12000, 13000), "1", drawing.Style{Face: drawing.Bold})
		g.Paragraph(drawing.Pt(12500, 13000), "Set the corner chairs first.", 3000, drawing.Style{})
		g.Text(drawing.Pt(12000, 15000), "2", drawing.Style{Face: drawing.Bold})
		g.Paragraph(drawing.Pt(12500, 15000), "Pull the string.", 3000, drawing.Style{})
	})
	return s
}

// what a reader is given, sheet by sheet.
const readerAloud = `Document
  Sect T="Run A"
    P "SHEET"
    P "Run A"
    Sect
      Figure Alt="Run A seen from above (é)."
      P "C1 stands on the joint and is counted once" "C2"
      P "2′-0″" "on end" "4′-6  5/16″"
      P "above"
      P "below"
      P "last of the view"
    P "Chairs"
    Table
      TR
        TH "Chair"
        TH
        TH "Station from the mark"
      TR
        TD "C1"
        TD "2′-0  1/2″"
        TD
      TR
        TD
        TD
        TD "3/4″"
    P "1 Set the corner chairs first."
    P "2 Pull the string."
`

// aloud reads the structure of a file with an independent reader: each element with its words, which are those of its marked
// content. Texts that lie more than a space apart are quoted apart.
func aloud(t *testing.T, file []byte) string {
	t.Helper()
	model.ConfigPath = "disable"
	ctx, err := api.ReadAndValidate(bytes.NewReader(file), model.NewDefaultConfiguration())
	if err != nil {
		t.Fatal(err)
	}
	content := map[int]map[int]string{} // by page object and number of the piece
	for i := range ctx.PageCount {
		_, ref, _, err := ctx.PageDict(i+1, false)
		if err != nil {
			t.Fatal(err)
		}
		r, err := pdfcpu.ExtractPageContent(ctx, i+1)
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		b.ReadFrom(r)
		content[ref.ObjectNumber.Value()] = pieces(t, b.Bytes())
	}
	catalog, err := ctx.Catalog()
	if err != nil {
		t.Fatal(err)
	}
	get := func(d types.Dict, key string) types.Object {
		o, ok := d.Find(key)
		if !ok {
			return nil
		}
		o, err := ctx.Dereference(o)
		if err != nil {
			t.Fatal(err)
		}
		return o
	}
	var b strings.Builder
	var walk func(o types.Object, indent string)
	walk = func(o types.Object, indent string) {
		o, err := ctx.Dereference(o)
		if err != nil {
			t.Fatal(err)
		}
		d := o.(types.Dict)
		b.WriteString(indent + *d.NameEntry("S"))
		for _, key := range []string{"T", "Alt"} {
			if o := get(d, key); o != nil {
				words, err := types.StringOrHexLiteral(o)
				if err != nil {
					t.Fatal(err)
				}
				fmt.Fprintf(&b, " %s=%q", key, *words)
			}
		}
		kids, ok := get(d, "K").(types.Array)
		if !ok {
			t.Fatalf("%v has no parts", d)
		}
		var parts []types.Object
		said := ""
		for _, k := range kids {
			n, ok := k.(types.Integer)
			if !ok {
				parts = append(parts, k)
				continue
			}
			page := d.IndirectRefEntry("Pg").ObjectNumber.Value()
			words, ok := content[page][n.Value()]
			if !ok {
				t.Errorf("content %d of page object %d is not there, or belongs to two", n, page)
			}
			delete(content[page], n.Value())
			said += words
		}
		if said != "" {
			b.WriteString(" " + said)
		}
		b.WriteByte('\n')
		for _, p := range parts {
			walk(p, indent+"  ")
		}
	}
	root, err := ctx.DereferenceDict(catalog["StructTreeRoot"])
	if err != nil || root == nil {
		t.Fatalf("no structure: %v", err)
	}
	walk(root["K"], "")
	for page, left := range content {
		if len(left) > 0 {
			t.Errorf("page object %d: %d pieces are no element's: %v", page, len(left), left)
		}
	}
	return b.String()
}

// pieces reads the words of each piece of marked content of a page.
func pieces(t *testing.T, content []byte) map[int]string {
	t.Helper()
	out := map[int]string{}
	for _, m := range regexp.MustCompile(`(?s)<</MCID (\d+)>> BDC\n(.*?)\nEMC\b`).FindAllSubmatch(content, -1) {
		n, _ := strconv.Atoi(string(m[1]))
		if _, ok := out[n]; ok {
			t.Errorf("piece %d is there twice", n)
		}
		out[n] = strings.Join(words(t, m[2]), "")
	}
	return out
}

func TestReadingOrder(t *testing.T) {
	s := reader()
	for _, compress := range []bool{false, true} {
		file := write(t, Document{Date: issued, Compress: compress, Pages: []Page{{Scene: s}}})
		got := regexp.MustCompile(`(?m)^(\s*(?:P|TD|TH)) (.+)$`).ReplaceAllString(aloud(t, file), `$1 "$2"`)
		// The quotes between the texts of a row are only there to be read.
		want := strings.ReplaceAll(strings.ReplaceAll(readerAloud, `" "`, " "), "  5/16", "\u00a0\u00a05/16")
		want = strings.ReplaceAll(want, "0  1/2", "0\u00a0\u00a01/2")
		if diff := cmp.Diff(strings.Split(want, "\n"), strings.Split(got, "\n")); diff != "" {
			t.Errorf("compressed %v (-want +got):\n%s", compress, diff)
		}
	}
}

// The strings stand in the file in the order they are read in, for a program that takes them as they come.
func TestTextsAreWrittenInReadingOrder(t *testing.T) {
	got := strings.Join(words(t, write(t, Document{Date: issued, Pages: []Page{{Scene: reader()}}})), "|")
	want := "SHEET|Run A|C1 stands on the |joint and is |counted once |C2|2′-0″ |on end |4′-6\u00a0\u00a05/16″|above|below|last of the view|" +
		"Chairs|Chair|Station from the |mark|C1|2′-0\u00a0\u00a01/2″|3/4″|1 |Set the corner |chairs first.|2 |Pull the string."
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// A knock-out keeps its turn: what is drawn after it stands on it, and it lies on what was drawn before.
func TestHaloKeepsItsTurn(t *testing.T) {
	s := drawing.Scene{Name: "halo", W: 25400, H: 12700}
	s.Line(drawing.Thin, drawing.Pt(0, 2540), drawing.Pt(5080, 2540))
	s.Text(drawing.Pt(2540, 2540), "H", drawing.Style{Halo: true})
	s.Line(drawing.Thick, drawing.Pt(0, 7620), drawing.Pt(5080, 7620))
	file := string(write(t, Document{Date: issued, Pages: []Page{{Scene: s}}}))
	var order []int
	for _, part := range []string{`\n0\.00 288\.00 m`, `\n7\d\.\d\d \S+ m\n(?:\S+ \S+ l\n){3}h\nf\n`, `\n0\.00 144\.00 m`, `\) Tj`} {
		at := regexp.MustCompile(part).FindStringIndex(file)
		if at == nil {
			t.Fatalf("the file lacks %s", part)
		}
		order = append(order, at[0])
	}
	if !slices.IsSorted(order) {
		t.Errorf("line, halo, line and letters are at %v", order)
	}
}

func TestFollows(t *testing.T) {
	first := drawing.NewText(drawing.Pt(1000, 1000), "one", drawing.Style{})
	line := drawing.Note.Line()
	turned := drawing.NewText(drawing.Pt(1000, 1000), "one", drawing.Style{Rotate: 900})
	tests := []struct {
		name string
		a, b drawing.Text
		want bool
	}{
		{"next line", first, drawing.NewText(drawing.Pt(1000, 1000+line), "two", drawing.Style{}), true},
		{"line above", first, drawing.NewText(drawing.Pt(1000, 1000-line), "two", drawing.Style{}), false},
		{"two lines on", first, drawing.NewText(drawing.Pt(1000, 1000+2*line), "two", drawing.Style{}), false},
		{"other margin", first, drawing.NewText(drawing.Pt(1100, 1000+line), "two", drawing.Style{}), false},
		{"other face", first, drawing.NewText(drawing.Pt(1000, 1000+line), "two", drawing.Style{Face: drawing.Bold}), false},
		{"beside", first, drawing.NewText(drawing.Pt(3000, 1000), "two", drawing.Style{}), false},
		{"next line on end", turned, drawing.NewText(drawing.Pt(1000+line, 1000), "two", drawing.Style{Rotate: 900}), true},
		{"above it on end", turned, drawing.NewText(drawing.Pt(1000, 1000-line), "two", drawing.Style{Rotate: 900}), false},
	}
	for _, tt := range tests {
		if got := follows(tt.a, tt.b); got != tt.want {
			t.Errorf("%s: %v", tt.name, got)
		}
	}
}

// Rows lose and double nothing, and each runs from left to right.
func TestRowsHoldEveryText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var in []lettered
		var want []string
		for i := range rapid.IntRange(0, 30).Draw(t, "texts") {
			at := drawing.Pt(drawing.Unit(rapid.IntRange(0, 20000).Draw(t, "x")), drawing.Unit(rapid.IntRange(0, 3000).Draw(t, "y")))
			w := strconv.Itoa(i)
			in = append(in, lettered{Text: drawing.NewText(at, w, drawing.Style{Rotate: rapid.SampledFrom([]int{0, 0, 900, 300}).Draw(t, "turn")})})
			want = append(want, w)
		}
		for name, rows := range map[string][]row{"as drawn": asDrawn(in), "as standing": asStanding(in)} {
			var got []string
			for _, r := range rows {
				for i, p := range r.passages {
					if i > 0 && p.box.Min.X < r.passages[i-1].box.Min.X {
						t.Fatalf("%s: a row runs back", name)
					}
					for _, l := range p.lines {
						got = append(got, l.Words)
					}
				}
			}
			if name == "as drawn" && !slices.Equal(got, want) {
				t.Fatalf("as drawn: %q became %q", want, got)
			}
			slices.Sort(got)
			sorted := slices.Clone(want)
			slices.Sort(sorted)
			if !slices.Equal(got, sorted) {
				t.Fatalf("%s: %q became %q", name, sorted, got)
			}
		}
	})
}

// A reader in common use gives the same words in the same order, with true fractions and primes.
func TestTextAsAnotherProgramReadsIt(t *testing.T) {
	program, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext is not installed: the text is read back by the other tests alone")
	}
	file := filepath.Join(t.TempDir(), "reader.pdf")
	if err := os.WriteFile(file, write(t, Document{Date: issued, Compress: true, Pages: []Page{{Scene: reader()}}}), 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(program, "-raw", "-enc", "UTF-8", file, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	got := strings.Join(strings.Fields(string(out)), " ")
	want := "SHEET Run A C1 stands on the joint and is counted once C2 2′-0″ on end 4′-6 5/16″ above below last of the view " +
		"Chairs Chair Station from the mark C1 2′-0 1/2″ 3/4″ 1 Set the corner chairs first. 2 Pull the string."
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}
