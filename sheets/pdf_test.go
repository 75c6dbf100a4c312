package sheets

import (
	"bytes"
	"io"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"

	"copingset/drawing"
	"copingset/layout"
)

// most is the room a sheet may take in the file, so that a packet can be sent to a telephone on a roof.
const most = 150_000

// Every sample's packet, read back by an independent reader, can be used by those who do not see it, and is small.
func TestSamplePacketsCanBeReadAloud(t *testing.T) {
	all, err := samplePackets()
	if err != nil || len(all) < 3 {
		t.Fatalf("%d samples: %v", len(all), err)
	}
	for _, c := range all {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			readAloud(t, c.layout, c.sheets)
		})
	}
}

func readAloud(t *testing.T, l *layout.Layout, pages []Sheet) {
	t.Helper()
	var file bytes.Buffer
	if err := PDF(&file, l, pages); err != nil {
		t.Fatal(err)
	}
	if file.Len() > most*len(pages) {
		t.Errorf("%d bytes for %d sheets", file.Len(), len(pages))
	}
	model.ConfigPath = "disable"
	conf := model.NewDefaultConfiguration()
	ctx, err := api.ReadAndValidate(bytes.NewReader(file.Bytes()), conf)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(ctx.Title, l.Job.Info.Name) {
		t.Errorf("title %q", ctx.Title)
	}
	catalog, err := ctx.Catalog()
	if err != nil {
		t.Fatal(err)
	}
	if lang := catalog.StringEntry("Lang"); lang == nil || *lang != "en-US" {
		t.Errorf("language %v", lang)
	}
	outline, err := pdfcpu.Bookmarks(ctx)
	if err != nil || len(outline) != len(pages) {
		t.Fatalf("%d entries in the outline for %d sheets, %v", len(outline), len(pages), err)
	}
	led := 0
	for i, p := range pages {
		if b := outline[i]; b.PageFrom != i+1 || !strings.Contains(b.Title, p.Title) {
			t.Errorf("entry %d of the outline leads to page %d: %q", i+1, b.PageFrom, b.Title)
		}
		page, _, _, err := ctx.PageDict(i+1, false)
		if err != nil {
			t.Fatal(err)
		}
		drawn, _, err := ctx.DereferenceStreamDict(page["Contents"])
		if err != nil {
			t.Fatal(err)
		}
		if len(drawn.Raw) > most {
			t.Errorf("page %d: %d bytes", i+1, len(drawn.Raw))
		}
		notes, err := ctx.DereferenceArray(page["Annots"])
		if err != nil {
			t.Fatal(err)
		}
		links := 0
		p.Scene.Walk(func(_ drawing.Layer, m drawing.Mark) {
			if _, ok := m.(drawing.Link); ok {
				links++
			}
		})
		if len(notes) != links {
			t.Errorf("page %d: %d link areas for %d links", i+1, len(notes), links)
		}
		for _, n := range notes {
			d, err := ctx.DereferenceDict(n)
			if err != nil {
				t.Fatal(err)
			}
			to, err := ctx.DereferenceArray(d["Dest"])
			if err != nil || len(to) == 0 {
				t.Fatalf("page %d: a link without a target: %v", i+1, err)
			}
			if target, err := ctx.DereferenceDict(to[0]); err != nil || target.Type() == nil || *target.Type() != "Page" {
				t.Errorf("page %d: a link leads to %v", i+1, to[0])
			}
		}
		led += links
		spoken(t, ctx, i, p)
	}
	if led == 0 {
		t.Error("the packet has no link")
	}
	figures(t, ctx, pages)
}

// spoken holds the texts of a page against those of its sheet: all of them, lettered as they are on paper, the sheet's title and
// what is on hold first.
func spoken(t *testing.T, ctx *model.Context, i int, p Sheet) {
	t.Helper()
	r, err := pdfcpu.ExtractPageContent(ctx, i+1)
	if err != nil {
		t.Fatal(err)
	}
	content, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	var got, want []string
	for _, m := range regexp.MustCompile(`(?s)Td \(((?:[^()\\]|\\.)*)\) Tj`).FindAllSubmatch(content, -1) {
		raw := regexp.MustCompile(`(?s)\\(.)`).ReplaceAll(bytes.ReplaceAll(m[1], []byte(`\r`), []byte("\r")), []byte("$1"))
		var units []uint16
		for k := 0; k+1 < len(raw); k += 2 {
			units = append(units, uint16(raw[k])<<8|uint16(raw[k+1]))
		}
		got = append(got, strings.TrimSuffix(string(utf16.Decode(units)), " "))
	}
	for _, x := range p.Scene.Texts() {
		want = append(want, strings.TrimSuffix(x.Words, " "))
	}
	if len(got) < 2 || got[0] != "SHEET TITLE" || !strings.HasPrefix(p.Title, strings.TrimSuffix(strings.TrimSuffix(got[1], "..."), "…")) {
		t.Errorf("page %d begins with %.2q, not with its title %q", i+1, got, p.Title)
	}
	// What is on hold follows the title block.
	var title, banner []drawing.Text
	for _, m := range p.Scene.Marks {
		switch g, _ := m.(drawing.Group); g.ID {
		case "title":
			title = drawing.Scene{Marks: g.Marks}.Texts()
		case "banner":
			banner = drawing.Scene{Marks: g.Marks}.Texts()
		}
	}
	if len(banner) > 0 && (len(got) <= len(title) || got[len(title)] != banner[0].Words) {
		t.Errorf("page %d: %q does not follow the title block", i+1, banner[0].Words)
	}
	slices.Sort(got)
	slices.Sort(want)
	if !slices.Equal(got, want) {
		for k := range min(len(got), len(want)) {
			if got[k] != want[k] {
				t.Errorf("page %d: the page has %q where the sheet has %q", i+1, got[k], want[k])
				break
			}
		}
		t.Errorf("page %d: %d texts, the sheet has %d", i+1, len(got), len(want))
	}
}

// figures holds the words for what is drawn against the views of the sheets.
func figures(t *testing.T, ctx *model.Context, pages []Sheet) {
	t.Helper()
	var got, want []string
	var views func(marks []drawing.Mark)
	views = func(marks []drawing.Mark) {
		for _, m := range marks {
			if g, ok := m.(drawing.Group); ok {
				if g.View && g.Words != "" {
					want = append(want, g.Words)
				}
				views(g.Marks)
			}
		}
	}
	for _, p := range pages {
		views(p.Scene.Marks)
	}
	tables := 0
	for _, e := range ctx.Table {
		d, ok := e.Object.(types.Dict)
		if !ok || d.NameEntry("S") == nil {
			continue
		}
		switch *d.NameEntry("S") {
		case "Table":
			tables++
		case "Figure":
			words, err := types.StringOrHexLiteral(d["Alt"])
			if err != nil {
				t.Fatal(err)
			}
			got = append(got, *words)
		}
	}
	slices.Sort(got)
	slices.Sort(want)
	if len(want) == 0 || !slices.Equal(got, want) {
		t.Errorf("the words for what is drawn are\n%q\nwant\n%q", got, want)
	}
	if tables == 0 {
		t.Error("no table is tagged")
	}
}
