package sheets

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"copingset/drawing"
)

// Whatever the rows and the room, each row is lettered once and in order, and
// every page has the heading.
func TestTableLosesNoRow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 120).Draw(t, "rows")
		tb := table{title: "T", cols: []column{{head: "No."}, {head: "Words", flex: true}, {head: "Done"}}}
		for i := range n {
			tb.rows = append(tb.rows, []string{fmt.Sprintf("r%d", i), rapid.StringMatching(`([a-z]{1,12} ){0,20}`).Draw(t, "words"), tickBox})
		}
		w := drawing.Unit(rapid.IntRange(5000, 40000).Draw(t, "w"))
		h := drawing.Unit(rapid.IntRange(3000, 30000).Draw(t, "h"))
		next := 0
		var counts []int
		for _, page := range flow([]block{tb}, func(int) []drawing.Rect { return []drawing.Rect{drawing.Box(0, 0, w, h)} }) {
			s := drawing.Scene{W: w, H: h}
			for _, p := range page {
				p.draw(&s, p.at)
			}
			heads, before := 0, next
			for _, x := range s.Texts() {
				if x.Words == "No." {
					heads++
				}
				if x.Words == fmt.Sprintf("r%d", next) {
					next++
				}
			}
			counts = append(counts, next-before)
			if heads != 1 {
				t.Fatalf("%d headings on a page", heads)
			}
		}
		if next != n {
			t.Fatalf("%d of %d rows are lettered", next, n)
		}
		if k := len(counts) - 1; k > 0 && counts[k] < 3 && counts[k-1] > 5 {
			t.Fatalf("%d rows stand alone on the last page, %d on the one before", counts[k], counts[k-1])
		}
	})
}

func TestFlowKeepsInsideItsRegions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var blocks []block
		for range rapid.IntRange(1, 12).Draw(t, "blocks") {
			switch rapid.IntRange(0, 2).Draw(t, "kind") {
			case 0:
				l := list{title: "L", numbered: true}
				for range rapid.IntRange(1, 15).Draw(t, "items") {
					l.items = append(l.items, rapid.StringMatching(`([a-z]{1,9} ){1,25}`).Draw(t, "item"))
				}
				blocks = append(blocks, l)
			case 1:
				f := facts("F", nil)
				for range rapid.IntRange(1, 20).Draw(t, "facts") {
					f.rows = append(f.rows, []string{"name", rapid.StringMatching(`([a-z]{1,9} ){1,12}`).Draw(t, "value")})
				}
				blocks = append(blocks, f)
			case 2:
				blocks = append(blocks, fixed(drawing.Unit(rapid.IntRange(100, 9000).Draw(t, "h")), func(s *drawing.Scene, r drawing.Rect) { s.Rect(drawing.Thin, r) }))
			}
		}
		room := drawing.Box(1000, 1000, 21000, 16000)
		for _, page := range flow(blocks, func(n int) []drawing.Rect { return columns(room, n%2+1, gutter) }) {
			s := drawing.Scene{W: 22000, H: 17000}
			for _, p := range page {
				p.draw(&s, p.at)
			}
			if b := s.Bounds(); !room.Contains(b) {
				t.Fatalf("marks reach %v, the room is %v", b, room)
			}
			if f := drawing.Check(s); len(f) > 0 {
				t.Fatal(f)
			}
		}
	})
}

func TestProse(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{`12'-3 1/2" at the manufacturer's mark`, `12′-3 1/2″ at the manufacturer’s mark`},
		{`the "old" wall`, `the "old" wall`},
		{"north 屋", "north ?"},
		{"", ""},
	} {
		if got := prose(c.in); got != c.want {
			t.Errorf("prose(%q) = %q, want %q", c.in, got, c.want)
		}
	}
}

func TestSlug(t *testing.T) {
	for in, want := range map[string]string{"Run N/E": "run-n-e", "  A--b ": "a-b", "屋": "x", "": "x"} {
		if got := slug(in); got != want {
			t.Errorf("slug(%q) = %q, want %q", in, got, want)
		}
	}
}

// A word is never cut, in a heading, a cell or a title, as long as the words
// of all columns can stand side by side.
func TestTableCutsNoWord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.StringMatching(`[a-z]{1,14}`)
		sentence := rapid.Custom(func(t *rapid.T) string { return strings.Join(rapid.SliceOfN(word, 1, 8).Draw(t, "words"), " ") })
		tb := table{title: sentence.Draw(t, "title") + " " + sentence.Draw(t, "title"), rows: [][]string{nil, nil, nil}}
		for range rapid.IntRange(1, 6).Draw(t, "columns") {
			tb.cols = append(tb.cols, column{head: sentence.Draw(t, "head"), flex: rapid.Bool().Draw(t, "flex")})
			for r := range tb.rows {
				tb.rows[r] = append(tb.rows[r], sentence.Draw(t, "cell"))
			}
		}
		var w drawing.Unit = 5000 // a title's words need as much
		for i := range tb.cols {
			w += tb.least(i)
		}
		got, rest := tb.take(w, 1<<20, true)
		if rest != nil || got.w > w {
			t.Fatalf("the table is %v wide in %v", got.w, w)
		}
		s := drawing.Scene{W: w + 2000, H: got.h + 2000}
		got.draw(&s, drawing.Pt(1000, 1000))
		have := map[string]int{} // look-up only
		for _, x := range s.Texts() {
			for _, word := range strings.Fields(x.Words) {
				have[word]++
			}
		}
		for _, words := range append(tb.rows, heads(tb), []string{tb.title}) {
			for _, cell := range words {
				for _, word := range strings.Fields(cell) {
					if have[word]--; have[word] < 0 {
						t.Fatalf("%q is cut", word)
					}
				}
			}
		}
		if f := drawing.Check(s); len(f) > 0 {
			t.Fatal(f)
		}
	})
}

func heads(t table) []string {
	var out []string
	for _, c := range t.cols {
		out = append(out, c.head)
	}
	return out
}

// A pair stands side by side only where it fits, and loses neither half.
func TestPairLosesNoTable(t *testing.T) {
	a := table{title: "A", cols: []column{{head: "left"}}, rows: [][]string{{"a1"}, {"a2"}}, whole: true}
	z := table{title: "Z", cols: []column{{head: "right"}}, rows: [][]string{{"z1"}}, whole: true}
	for _, w := range []drawing.Unit{2000, 9000} {
		for _, h := range []drawing.Unit{2600, 9000} {
			text := ""
			for _, page := range flow([]block{fixed(1500, func(s *drawing.Scene, r drawing.Rect) { s.Rect(drawing.Thin, r) }), pair{a, z}}, func(int) []drawing.Rect { return []drawing.Rect{drawing.Box(1000, 1000, 1000+w, 1000+h)} }) {
				s := drawing.Scene{W: w + 2000, H: h + 2000}
				for _, p := range page {
					p.draw(&s, p.at)
				}
				if f := drawing.Check(s); len(f) > 0 {
					t.Errorf("%v by %v: %v", w, h, f)
				}
				text += wordsOf(s)
			}
			for _, want := range []string{"a1", "a2", "z1"} {
				if strings.Count(text, want+"\n") != 1 {
					t.Errorf("%v by %v: %q stands %d times", w, h, want, strings.Count(text, want+"\n"))
				}
			}
		}
	}
}
