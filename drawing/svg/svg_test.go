package svg

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"

	"copingset/drawing"
	"copingset/drawing/internal/specimen"
)

func write(t *testing.T, s drawing.Scene, opt Options) string {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, s, opt); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// elements reads the whole file, which must be well-formed, and returns its start tags.
func elements(t *testing.T, file string) []xml.StartElement {
	t.Helper()
	var all []xml.StartElement
	d := xml.NewDecoder(strings.NewReader(file))
	d.Strict = true
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			return all
		}
		if err != nil {
			t.Fatalf("not well-formed: %v", err)
		}
		if e, ok := tok.(xml.StartElement); ok {
			all = append(all, e.Copy())
		}
	}
}

func get(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

func TestSpecimen(t *testing.T) {
	s := specimen.Sheet()
	for name, opt := range map[string]Options{"outlines": {}, "live": {LiveText: true}, "links": {Href: func(id string) string { return "?a=1&b=" + id }}} {
		t.Run(name, func(t *testing.T) {
			file := write(t, s, opt)
			if file != write(t, s, opt) {
				t.Error("two files differ")
			}
			all := elements(t, file)
			if get(all[0], "width") != "420.00mm" || get(all[0], "height") != "297.00mm" || get(all[0], "viewBox") != "0 0 42000 29700" {
				t.Errorf("root %v", all[0].Attr)
			}
			defined, ids := map[string]bool{}, map[string]int{}
			for _, e := range all {
				if id := get(e, "id"); id != "" {
					defined["#"+id] = true
					if ids[id]++; ids[id] > 1 {
						t.Errorf("id %q is there twice", id)
					}
				}
			}
			uses, links, labels := 0, 0, 0
			for _, e := range all {
				switch {
				case e.Name.Local == "use":
					uses++
					if !defined[get(e, "href")] {
						t.Errorf("glyph %q is not defined", get(e, "href"))
					}
				case e.Name.Local == "a":
					links++
					if got := get(e, "href"); got != "?a=1&b=specimen" {
						t.Errorf("link to %q", got)
					}
				case get(e, "aria-label") != "":
					labels++
				}
			}
			if (uses == 0) != opt.LiveText {
				t.Errorf("%d glyphs", uses)
			}
			if (links == 0) != (opt.Href == nil) {
				t.Errorf("%d links", links)
			}
			if texts := len(s.Texts()); !opt.LiveText && labels != texts {
				t.Errorf("%d texts carry their words, of %d", labels, texts)
			}
			if strings.Contains(file, "NaN") {
				t.Error("NaN in the file")
			}
		})
	}
}

func TestSmallFile(t *testing.T) {
	s := drawing.Scene{Name: "small", Title: `a < "b" & c`, Desc: "said", W: 1000, H: 2050}
	s.Group(drawing.Wall, `run "1" & 2`, func(g *drawing.Scene) {
		g.Line(drawing.Thick, drawing.Pt(10, 20), drawing.Pt(30, 40))
		g.Line(drawing.Thick, drawing.Pt(50, 60), drawing.Pt(70, 80))
		g.Polygon(drawing.Hidden, drawing.Pt(1, 2), drawing.Pt(3, 4), drawing.Pt(5, 6))
		g.Arc(drawing.Thick, drawing.Pt(500, 500), 100, 0, 900)
		g.Dot(drawing.Pt(500, 500), 20, drawing.Black)
	})
	s.Text(drawing.Pt(100, 200), "L<", drawing.Style{Rotate: 900, Face: drawing.Bold})
	want := `<g id="run &#34;1&#34; &amp; 2" data-layer="Wall" inkscape:groupmode="layer" inkscape:label="Wall" >
<path d="M10 20L30 40M50 60L70 80" class="cs-thick" />
<path d="M1 2L3 4L5 6Z" class="cs-hidden" />
<path d="M600 500A100 100 0 0 0 500 400" class="cs-thick" />
<circle cx="500" cy="500" r="20" class="cs-fill-black" />
</g>
<g class="cs-t" role="img" aria-label="L&lt;" transform="translate(100 200)rotate(-90)scale(0.42735)" >
<use x="0" y="0" xlink:href="#cs-b4c" />
<use x="387" y="0" xlink:href="#cs-b3c" />
</g>
</svg>
`
	file := write(t, s, Options{})
	if !strings.HasSuffix(file, want) {
		t.Errorf("got\n%s\nwant it to end\n%s", file, want)
	}
	for _, part := range []string{
		`width="10.00mm"`, `height="20.50mm"`, `viewBox="0 0 1000 2050"`,
		"<title>a &lt; &#34;b&#34; &amp; c</title>", "<desc>said</desc>",
		".cs-thick{fill:none;stroke:#000000;stroke-width:60;stroke-linejoin:round;stroke-linecap:round}",
		".cs-hidden{fill:none;stroke:#000000;stroke-width:25;stroke-linejoin:round;stroke-dasharray:220,120}",
	} {
		if !strings.Contains(file, part) {
			t.Errorf("the file lacks %s", part)
		}
	}
	live := write(t, s, Options{LiveText: true, SharedFont: true})
	want = `<text x="0" y="0" class="cs-t" transform="translate(100 200)rotate(-90)" font-size="427.35" font-weight="700" textLength="357" xml:space="preserve" >L&lt;</text>`
	if !strings.Contains(live, want) || strings.Contains(live, "@font-face") {
		t.Errorf("live text:\n%s\nwant\n%s", live, want)
	}
}

func TestIDsAreUnique(t *testing.T) {
	s := drawing.Scene{W: 100, H: 100}
	for _, id := range []string{"a", "a", "a-2", "a"} {
		s.Group(drawing.Wall, id, func(*drawing.Scene) {})
	}
	seen := map[string]bool{}
	for _, e := range elements(t, write(t, s, Options{})) {
		if id := get(e, "id"); id != "" {
			if seen[id] {
				t.Errorf("id %q is there twice", id)
			}
			seen[id] = true
		}
	}
	if len(seen) != 4 {
		t.Errorf("%d ids for 4 groups", len(seen))
	}
}

func TestMissingGlyphIsAnError(t *testing.T) {
	s := drawing.Scene{Name: "check-list", W: 1000, H: 1000}
	s.Group(drawing.Tables, "", func(g *drawing.Scene) { g.Text(drawing.Pt(0, 0), "☐ done", drawing.Style{}) })
	for _, opt := range []Options{{}, {LiveText: true}} {
		err := Write(io.Discard, s, opt)
		if err == nil || !strings.Contains(err.Error(), "check-list") || !strings.Contains(err.Error(), "☐") {
			t.Errorf("error %v", err)
		}
	}
}

// full fails after a number of bytes, like a disk.
type full struct{ left int }

var errFull = errors.New("disk full")

func (f *full) Write(p []byte) (int, error) {
	if len(p) > f.left {
		return 0, errFull
	}
	f.left -= len(p)
	return len(p), nil
}

func TestWriteErrorIsNotSwallowed(t *testing.T) {
	for _, room := range []int{0, 10000, 100000} {
		if err := Write(&full{room}, specimen.Sheet(), Options{}); !errors.Is(err, errFull) {
			t.Errorf("with room for %d bytes: %v", room, err)
		}
	}
}

func TestDecimal(t *testing.T) {
	tests := []struct {
		v, decimals int
		want        string
	}{{0, 3, "0"}, {5, 3, "0.005"}, {-900, 1, "-90"}, {-5, 1, "-0.5"}, {427350, 6, "0.42735"}, {1000000, 6, "1"}}
	for _, tt := range tests {
		if got := decimal(tt.v, tt.decimals); got != tt.want {
			t.Errorf("decimal(%d, %d) = %s, want %s", tt.v, tt.decimals, got, tt.want)
		}
	}
}
