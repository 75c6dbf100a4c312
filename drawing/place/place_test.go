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
	want := []Note{{N: 1, Words: "a long word that has no room here"}, {N: 2, Words: `at 3'-0": another`}}
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

func TestWhatKeepsLabelsAndLeadersOff(t *testing.T) {
	at := drawing.Box(4800, 2000, 5200, 3000)
	line := func(p *Placer) { p.Stroke(50, drawing.Pt(5000, 2000), drawing.Pt(5000, 3000)) }
	for _, c := range []struct {
		name           string
		put            func(p *Placer)
		label, covers  bool // may a label stand there, and one that covers
		leader, forced bool // may a leader pass, and one that has no other way
	}{
		{"block", func(p *Placer) { p.Block(at) }, false, false, false, true},
		{"area", func(p *Placer) { p.Area(at.Corners()...) }, false, false, true, true},
		{"stroke", line, false, false, true, true},
		{"hidden", func(p *Placer) { p.Hidden(20, drawing.Pt(5000, 2000), drawing.Pt(5000, 3000)) }, false, true, true, true},
		{"lettering", func(p *Placer) { p.Letter(at) }, false, false, false, false},
	} {
		fresh := func() *Placer {
			p := New(drawing.Box(0, 0, 10000, 6000))
			c.put(p)
			return p
		}
		l := word("C1", 1000, 2500)
		if got := fresh().Free(l, At(5000, 2500)); got != c.label {
			t.Errorf("%s: label free is %v, want %v", c.name, got, c.label)
		}
		l.Cover = true
		if got := fresh().Free(l, At(5000, 2500)); got != c.covers {
			t.Errorf("%s: covering label free is %v, want %v", c.name, got, c.covers)
		}
		if _, got := fresh().Try(l, Pointed(8000, 2500)); got != c.leader {
			t.Errorf("%s: leader passes is %v, want %v", c.name, got, c.leader)
		}
		got := fresh().Place(l, Pointed(8000, 2500))
		if there := got.Box.Centre() == drawing.Pt(8000, 2500); there != c.forced {
			t.Errorf("%s: placed at %v, over what is in the way is %v, want %v", c.name, got.Box, there, c.forced)
		}
	}
}

func TestLeadersDoNotCross(t *testing.T) {
	p := New(drawing.Box(0, 0, 10000, 10000))
	if _, ok := p.Try(word("N-01", 2000, 2000), Pointed(8000, 8000)); !ok {
		t.Fatal("no room for the first leader")
	}
	if _, ok := p.Try(word("N-02", 2000, 8000), Pointed(8000, 2000)); ok {
		t.Error("a leader crosses another")
	}
	if _, ok := p.Try(word("N-03", 2000, 2000), Pointed(2000, 8000)); !ok {
		t.Error("two leaders may not meet at what both are about")
	}
}

func TestFanLooksAheadFirstThenAside(t *testing.T) {
	l := word("C1", 5000, 5000)
	spots := l.Fan(Fan{Toward: 900, From: 200, To: 400, Step: 200, Spread: 30, Reach: 300})
	if len(spots) != 10 {
		t.Fatalf("%d spots, want 5 at either distance", len(spots))
	}
	if c := spots[0].Centre; c.X != 5000 || c.Y >= 5000 || spots[0].Leader {
		t.Errorf("first spot %v, leader %v: want straight above, without a leader", c, spots[0].Leader)
	}
	if !spots[5].Leader {
		t.Error("a spot beyond the reach has no leader")
	}
	if a, b := spots[1].Centre, spots[2].Centre; a.Y != b.Y || a.X+b.X != 10000 {
		t.Errorf("spots aside at %v and %v, want them alike on both sides", a, b)
	}
}

func TestGridStartsNearest(t *testing.T) {
	l, near := word("ROOF", 0, 0), drawing.Pt(3000, 2000)
	last := int64(0)
	for _, s := range l.Grid(drawing.Box(0, 0, 6000, 4000), near, 300) {
		d := s.Centre.Sub(near)
		if q := int64(d.X)*int64(d.X) + int64(d.Y)*int64(d.Y); q < last {
			t.Fatalf("spot %v comes after one farther away", s.Centre)
		} else {
			last = q
		}
	}
	if last == 0 {
		t.Error("no spots")
	}
}
