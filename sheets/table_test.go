package sheets

import (
	"fmt"
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
		for _, page := range flow([]block{tb}, func(int) []drawing.Rect { return []drawing.Rect{drawing.Box(0, 0, w, h)} }) {
			s := drawing.Scene{W: w, H: h}
			for _, p := range page {
				p.draw(&s, p.at)
			}
			heads := 0
			for _, x := range s.Texts() {
				if x.Words == "No." {
					heads++
				}
				if x.Words == fmt.Sprintf("r%d", next) {
					next++
				}
			}
			if heads != 1 {
				t.Fatalf("%d headings on a page", heads)
			}
		}
		if next != n {
			t.Fatalf("%d of %d rows are lettered", next, n)
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
