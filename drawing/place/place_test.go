package place

import (
	"fmt"
	"reflect"
	"testing"

	"copingset/drawing"

	"pgregory.net/rapid"
)

func word(s string, x, y drawing.Unit) Label {
	return Label{Lines: []string{s}, About: drawing.Pt(x, y)}
}

func TestFirstFreeSpotIsTaken(t *testing.T) {
	p := New(drawing.Box(0, 0, 10000, 10000))
	p.Block(drawing.Box(900, 900, 1100, 1100))
	got := p.Place(word("A-01", 1000, 1000), At(1000, 1000), At(3000, 1000), At(5000, 1000))
	if got.Leader || got.Note != 0 || got.Box.Centre() != drawing.Pt(3000, 1000) {
		t.Errorf("placed at %v, want the second spot, at 30,10", got.Box)
	}
}

func TestFallsBackToLeaderThenBalloonThenNote(t *testing.T) {
	p := New(drawing.Box(0, 0, 10000, 10000))
	p.Block(drawing.Box(4900, 4900, 5100, 5100))
	if got := p.Place(word("post", 5000, 5000), At(5000, 5000)); !got.Leader || got.Note != 0 {
		t.Errorf("with room around: %+v, want a leader", got)
	}
	p = New(drawing.Box(0, 0, 900, 900))
	got := p.Place(word("a long word that has no room here", 450, 450), At(450, 450))
	if got.Note != 1 || got.Box.Empty() {
		t.Errorf("with room for a balloon: %+v, want note 1 and its box", got)
	}
	l := word("another", 450, 450)
	l.Where = "at 3'-0\""
	if got = p.Place(l); got.Note != 2 || !got.Box.Empty() {
		t.Errorf("with no room at all: %+v, want note 2 alone", got)
	}
	want := []Note{{1, "a long word that has no room here"}, {2, `at 3'-0": another`}}
	if !reflect.DeepEqual(p.Notes(), want) {
		t.Errorf("notes %v, want %v", p.Notes(), want)
	}
}

func TestStrokesAreNotCrossed(t *testing.T) {
	p := New(drawing.Box(0, 0, 10000, 10000))
	p.Stroke(50, drawing.Pt(0, 0), drawing.Pt(10000, 10000))
	if _, ok := p.Try(word("mark", 0, 0), At(5000, 5000)); ok {
		t.Error("a label stands on a stroke")
	}
	if _, ok := p.Try(word("mark", 0, 0), At(7000, 3000)); !ok {
		t.Error("a label clear of the stroke was refused")
	}
}

func TestUprightLabelStandsInItsBox(t *testing.T) {
	p := New(drawing.Box(0, 0, 10000, 10000))
	l := Label{Lines: []string{"MATCH LINE", "to part 2"}, Turn: 900, About: drawing.Pt(5000, 5000)}
	got := p.Place(l, At(5000, 5000))
	inside(t.Errorf, got)
	if got.Box.Height() <= got.Box.Width() {
		t.Errorf("box %v of an upright label is not upright", got.Box)
	}
}

// inside checks that every text of a placement lies in its box.
func inside(fail func(string, ...any), got Placement) {
	for _, m := range got.Marks {
		if w, ok := m.(drawing.Text); ok {
			if q := drawing.BoundsOf([]drawing.Mark{w}); !got.Box.Inset(-clear / 3).Contains(q) {
				fail("text %q at %v leaves its box %v", w.Words, q, got.Box)
			}
		}
	}
}

func TestPlacedBoxesNeverOverlapAndEveryLabelComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := drawing.Unit(rapid.IntRange(600, 15000).Draw(t, "side"))
		p, again := New(drawing.Box(0, 0, side, side)), New(drawing.Box(0, 0, side, side))
		at := rapid.IntRange(0, int(side))
		block := drawing.Box(drawing.Unit(at.Draw(t, "bx")), 0, drawing.Unit(at.Draw(t, "bx2")), side/3)
		p.Block(block)
		again.Block(block)
		n := rapid.IntRange(1, 40).Draw(t, "labels")
		boxes, notes := []drawing.Rect{block}, 0
		for i := range n {
			l := word(fmt.Sprintf("label %d", i), drawing.Unit(at.Draw(t, "x")), drawing.Unit(at.Draw(t, "y")))
			if rapid.Bool().Draw(t, "upright") {
				l.Turn = 900
			}
			spot := At(drawing.Unit(at.Draw(t, "sx")), drawing.Unit(at.Draw(t, "sy")))
			got := p.Place(l, spot)
			if !reflect.DeepEqual(got, again.Place(l, spot)) {
				t.Fatal("the same calls gave another place")
			}
			inside(t.Fatalf, got)
			if got.Note > 0 {
				notes++
				if w := p.Notes()[got.Note-1]; w.Words != l.Lines[0] || w.N != notes {
					t.Fatalf("note %d is %v, want %q", got.Note, w, l.Lines[0])
				}
			}
			if got.Note == 0 && got.Box.Empty() {
				t.Fatalf("label %d is nowhere", i)
			}
			if got.Box.Empty() {
				continue
			}
			for k, b := range boxes {
				if got.Box.Intersects(b) {
					t.Fatalf("label %d at %v lies on box %d at %v", i, got.Box, k, b)
				}
			}
			boxes = append(boxes, got.Box)
		}
		if len(p.Notes()) != notes {
			t.Fatalf("%d notes listed, %d labels sent to one", len(p.Notes()), notes)
		}
	})
}
