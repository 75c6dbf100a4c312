package place

import (
	"fmt"
	"reflect"
	"testing"

	"copingset/drawing"

	"pgregory.net/rapid"
)

// crowd draws a batch of labels at random in a small room, with a part and a
// line in the way.
func crowd(t *rapid.T, labels, spots int) (func() *Placer, []Wish) {
	side := drawing.Unit(rapid.IntRange(1500, 6000).Draw(t, "side"))
	at := func(name string) drawing.Point {
		return drawing.Pt(drawing.Unit(rapid.IntRange(0, int(side)).Draw(t, name)), drawing.Unit(rapid.IntRange(0, int(side)).Draw(t, name)))
	}
	part, from, to := at("part"), at("line"), at("line")
	fresh := func() *Placer {
		p := New(drawing.Box(0, 0, side, side))
		p.Block(drawing.Rect{Min: part, Max: part}.Inset(-200))
		p.Stroke(40, from, to)
		return p
	}
	var out []Wish
	for i := range rapid.IntRange(1, labels).Draw(t, "labels") {
		w := Wish{Label: Label{Lines: []string{fmt.Sprintf("C%d", i)}, About: at("about")}}
		switch rapid.IntRange(0, 5).Draw(t, "form") {
		case 0:
			w.Turn = rapid.IntRange(-900, 900).Draw(t, "turn")
		case 1:
			w.Balloon = true
		case 2:
			w.Pad, w.Weight = 100, 2
		}
		for range rapid.IntRange(0, spots).Draw(t, "spots") {
			w.Spots = append(w.Spots, Spot{Centre: at("spot"), Leader: rapid.IntRange(0, 3).Draw(t, "leader") == 0})
		}
		out = append(out, w)
	}
	return fresh, out
}

// costs is what a sharing costs in all: labels without a spot first.
func costs(b *batch, pick []int) (weight, cost int64) {
	for i, k := range pick {
		if k == none {
			weight += b.weight[i]
		} else {
			cost += b.of[i][k].cost
		}
	}
	return weight, cost
}

// together says whether no two picks are rivals.
func together(b *batch, pick []int) bool {
	for i, k := range pick {
		if k == none {
			continue
		}
		for _, r := range b.of[i][k].rival {
			if pick[r.label] == r.choice {
				return false
			}
		}
	}
	return true
}

// plainly finds the best sharing by trying every one.
func plainly(b *batch) (weight, cost int64) {
	pick := make([]int, len(b.of))
	weight = 1 << 40
	var try func(i int)
	try = func(i int) {
		if i == len(pick) {
			if together(b, pick) {
				if w, c := costs(b, pick); w < weight || w == weight && c < cost {
					weight, cost = w, c
				}
			}
			return
		}
		for k := none; k < len(b.of[i]); k++ {
			pick[i] = k
			try(i + 1)
		}
	}
	try(0)
	return weight, cost
}

func TestSmallClustersAreSharedOutAsWellAsCanBe(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		fresh, wishes := crowd(t, 6, 4)
		b := fresh().newBatch(wishes, true)
		weight, cost := plainly(b)
		again := fresh().newBatch(wishes, true)
		pick := again.solve()
		if !together(b, pick) {
			t.Fatalf("picks %v lie on one another", pick)
		}
		if w, c := costs(b, pick); w != weight || c != cost {
			t.Fatalf("picks %v: %d without a spot at cost %d, the best is %d at %d", pick, w, c, weight, cost)
		}
	})
}

// inOrder serves labels one after another, each with its first choice that is
// left.
func inOrder(b *batch) []int {
	pick := make([]int, len(b.of))
	for i := range pick {
		pick[i] = none
	}
	for i := range b.of {
		for k := range b.of[i] {
			pick[i] = k
			if together(b, pick) {
				break
			}
			pick[i] = none
		}
	}
	return pick
}

func TestBatchIsNeverWorseThanServingInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		fresh, wishes := crowd(t, 40, 8)
		b := fresh().newBatch(wishes, true)
		pick := fresh().newBatch(wishes, true).solve()
		if !together(b, pick) {
			t.Fatalf("picks %v lie on one another", pick)
		}
		gw, gc := costs(b, inOrder(b))
		if w, c := costs(b, pick); w > gw || w == gw && c > gc {
			t.Fatalf("%d without a spot at cost %d, in order %d at %d", w, c, gw, gc)
		}
	})
}

func TestBatchNeverOverlapsAndEveryLabelComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		fresh, wishes := crowd(t, 30, 8)
		p := fresh()
		all := p.PlaceAll(wishes)
		if !reflect.DeepEqual(all, fresh().PlaceAll(wishes)) {
			t.Fatal("the same calls gave other places")
		}
		readable(t.Fatalf, p, all)
		notes := 0
		for i, got := range all {
			if got.Note > 0 {
				notes++
				if w := p.Notes()[got.Note-1]; w.Words != wishes[i].words() {
					t.Fatalf("note %d is %q, want %q", got.Note, w.Words, wishes[i].words())
				}
			} else if !got.Stands() {
				t.Fatalf("label %d is nowhere", i)
			}
		}
		if notes != len(p.Notes()) {
			t.Fatalf("%d labels sent to a note, %d notes listed", notes, len(p.Notes()))
		}
	})
}

// readable fails on anything a reader would stumble over.
func readable(fail func(string, ...any), p *Placer, all []Placement) {
	s := drawing.Scene{W: p.Bounds.Max.X, H: p.Bounds.Max.Y}
	for _, q := range all {
		s.Add(q.Marks...)
	}
	for _, k := range drawing.Check(s) {
		switch k.Fault { // what a leader is about may lie anywhere
		case drawing.TextsOverlap, drawing.TextOnLine, drawing.TextCovered:
			fail("%v", k)
		}
	}
	for i, a := range all {
		for _, m := range a.Marks {
			l, ok := m.(drawing.Line)
			if !ok || !a.Leader {
				continue
			}
			for k, b := range all {
				for _, w := range b.Marks {
					if w, ok := w.(drawing.Text); ok && i != k {
						seg, q := segment(l.Pts[0], l.Pts[1]), convex(w.Quad())
						if seg.touches(&q) {
							fail("leader of label %d strikes out %q", i, w.Words)
						}
					}
				}
			}
		}
	}
}

func TestWhatServingInOrderLosesTheBatchKeeps(t *testing.T) {
	// The first label likes the only spot of the second best.
	wishes := []Wish{
		{Label: word("A-C1", 1000, 1000), Spots: []Spot{At(2000, 1000), At(4000, 1000)}},
		{Label: word("A-C2", 2000, 1000), Spots: []Spot{At(2000, 1000)}},
	}
	p := New(drawing.Box(0, 0, 6000, 2000))
	all := p.TryAll(wishes)
	if !all[0].Stands() || !all[1].Stands() {
		t.Fatalf("standing: %v and %v, want both", all[0].Stands(), all[1].Stands())
	}
	if got := all[0].Box.Centre(); got != drawing.Pt(4000, 1000) {
		t.Errorf("the first stands at %v, want its second spot", got)
	}
}

func TestHeavyLabelStandsBeforeLightOnes(t *testing.T) {
	at := []Spot{At(2000, 1000)}
	wishes := []Wish{{Label: word("MIDDLE", 0, 0), Spots: at}, {Label: word("INSIDE CORNER", 0, 0), Spots: at, Weight: 3}}
	all := New(drawing.Box(0, 0, 4000, 2000)).TryAll(wishes)
	if all[0].Stands() || !all[1].Stands() {
		t.Errorf("standing: %v and %v, want only the one that weighs more", all[0].Stands(), all[1].Stands())
	}
}

func TestDenseChairRows(t *testing.T) {
	for _, apart := range []drawing.Unit{350, 450, 600, 900} {
		p := New(drawing.Box(0, 0, 40000, 6000))
		p.Stroke(70, drawing.Pt(0, 2000), drawing.Pt(40000, 2000))
		p.Stroke(70, drawing.Pt(0, 4000), drawing.Pt(40000, 4000))
		var wishes []Wish
		for i := range 40 {
			x := 2000 + drawing.Unit(i)*apart
			l := Label{Lines: []string{fmt.Sprintf("C%d", i+1)}, Face: drawing.Bold, About: drawing.Pt(x, 3000), Where: "in its row"}
			w := Wish{Label: l, Spots: []Spot{At(x, 3000), At(x, 3000-520), At(x, 3000+520)}}
			w.Spots = append(w.Spots, l.Fan(Fan{Toward: 900, From: 1100, To: 2400, Step: 250, Spread: 45})...)
			wishes = append(wishes, w)
		}
		all := p.PlaceAll(wishes)
		readable(t.Errorf, p, all)
		if n := len(p.Notes()); n > 0 {
			t.Errorf("chairs %v apart: %d labels became notes, want none", apart, n)
		}
		for i, got := range all {
			if apart >= 600 && got.Box.Centre().X != wishes[i].About.X {
				t.Errorf("chairs %v apart: C%d stands off its chair", apart, i+1)
			}
		}
	}
}

func TestMarksOfShortPieces(t *testing.T) {
	// Bays of a few inches, so narrow on paper that no mark has room in its own.
	p := New(drawing.Box(0, 0, 20000, 8000))
	for i := range 12 {
		x := 5000 + drawing.Unit(i)*400
		p.Block(drawing.Box(x-20, 4000, x+20, 5200))
	}
	p.Stroke(70, drawing.Pt(0, 4000), drawing.Pt(20000, 4000))
	p.Stroke(70, drawing.Pt(0, 5200), drawing.Pt(20000, 5200))
	var wishes []Wish
	for i := range 11 {
		l := Label{Lines: []string{fmt.Sprintf("N-%02d", i+1)}, Size: drawing.Head, Face: drawing.Bold, About: drawing.Pt(5200+drawing.Unit(i)*400, 4600)}
		spots := append([]Spot{{Centre: l.About}}, l.Fan(Fan{Toward: 900, From: 800, To: 3500, Step: 250, Spread: 60})...)
		spots = append(spots, l.Fan(Fan{Toward: -900, From: 800, To: 3500, Step: 250, Spread: 60})...)
		wishes = append(wishes, Wish{Label: l, Spots: spots})
	}
	all := p.PlaceAll(wishes)
	readable(t.Errorf, p, all)
	if n := len(p.Notes()); n > 0 {
		t.Errorf("%d marks became notes, want none", n)
	}
}

func TestSteepSkews(t *testing.T) {
	for turn := -900; turn <= 900; turn += 75 {
		p := New(drawing.Box(0, 0, 12000, 12000))
		a, b := drawing.Polar(drawing.Pt(6000, 6000), 5000, turn+1800), drawing.Polar(drawing.Pt(6000, 6000), 5000, turn)
		p.Stroke(50, a, b)
		l := Label{Lines: []string{`12'-3 1/2" to chair`}, Turn: turn, Pad: 60, About: drawing.Pt(6000, 6000)}
		if p.Free(l, l.OnLine(l.About)) {
			t.Errorf("turned %d: free across its own line", turn)
		}
		got, ok := p.Try(l, l.OnLine(drawing.Polar(l.About, 250, turn+900)))
		if !ok {
			t.Errorf("turned %d: no room beside its line", turn)
			continue
		}
		s := drawing.Scene{W: 12000, H: 12000}
		s.Line(drawing.Thick, a, b)
		s.Add(got.Marks...)
		for _, k := range drawing.Check(s) {
			t.Errorf("turned %d: %v", turn, k)
		}
		// A second one beside it, and one across both.
		if p.Free(l, l.OnLine(drawing.Polar(l.About, 400, turn+900))) {
			t.Errorf("turned %d: free on another", turn)
		}
		if !p.Free(l, l.OnLine(drawing.Polar(l.About, 900, turn+900))) {
			t.Errorf("turned %d: not free beside another", turn)
		}
	}
}

// BenchmarkPlaceAll places 1,000 labels of chairs on a sheet, each with spots
// in its chair and around it.
func BenchmarkPlaceAll(b *testing.B) {
	var wishes []Wish
	for i := range 1000 {
		at := drawing.Pt(1000+drawing.Unit(i%50)*800, 1000+drawing.Unit(i/50)*1300)
		l := Label{Lines: []string{fmt.Sprintf("N-C%d", i)}, About: at}
		wishes = append(wishes, Wish{Label: l, Spots: append([]Spot{{Centre: at}}, l.Fan(Fan{Toward: 900, From: 200, To: 1000, Step: 200, Spread: 90})...)})
	}
	for b.Loop() {
		New(drawing.Box(0, 0, 43000, 28000)).PlaceAll(wishes)
	}
}
