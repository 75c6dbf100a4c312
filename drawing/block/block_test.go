package block

import (
	"fmt"
	"slices"
	"testing"

	"copingset/drawing"

	"pgregory.net/rapid"
)

// counted is a block that counts how often it is asked and drawn.
type counted struct {
	id           string
	sizes        []Size
	asked, drawn *int
}

func (c counted) Key() string { return c.id }
func (c counted) Sizes(drawing.Unit) []Size {
	*c.asked++
	return c.sizes
}
func (c counted) Draw(s Size) Drawn {
	*c.drawn++
	var g drawing.Scene
	g.Group(drawing.Lettering, "it", func(g *drawing.Scene) { g.Rect(drawing.Thin, drawing.Box(0, 0, s.W, s.H)) })
	return Drawn{Marks: g.Marks, About: c.id}
}

// rows is a flow of rows of one height.
type rows struct {
	id     string
	n      int
	high   drawing.Unit
	splits *int
	from   *[]int // rows taken, in order
}

func (r rows) Key() string { return r.id }
func (r rows) Split(w, h drawing.Unit, fresh bool) (Block, Flow) {
	*r.splits++
	k := min(int(h/r.high), r.n)
	if k <= 0 {
		if !fresh {
			return nil, r
		}
		k = 1
	}
	*r.from = append(*r.from, k)
	head := Fixed{ID: r.id, Size: Size{W: w, H: drawing.Unit(k) * r.high}, Make: func() Drawn { return Drawn{} }}
	if k == r.n {
		return head, nil
	}
	r.n -= k
	return head, r
}

func TestComposeKeepsToItsPaper(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := func(lo, hi int, what string) drawing.Unit { return drawing.Unit(rapid.IntRange(lo, hi).Draw(t, what)) }
		papers := []Paper{
			{"B", drawing.Box(1500, 1500, 40000, 20000)},
			{"C", drawing.Box(1500, 1500, 52000, 34000)},
		}
		var asked, drawn, splits int
		s := Spec{Gap: unit(0, 500, "gap"), Gutter: unit(0, 700, "gutter"), Columns: unit(0, 20000, "columns"), Whole: rapid.Bool().Draw(t, "whole"),
			Pack: rapid.Bool().Draw(t, "pack")}
		n := rapid.IntRange(0, 7).Draw(t, "slots")
		for i := range n {
			var sizes []Size
			for k := range rapid.IntRange(1, 5).Draw(t, "sizes") {
				z := Size{W: unit(500, 38000, "w") / drawing.Unit(k+1), H: unit(500, 18000, "h") / drawing.Unit(k+1), Scale: int64(k + 1)}
				sizes = append(sizes, z)
			}
			s.Slots = append(s.Slots, Slot{Block: counted{fmt.Sprint("s", i), sizes, &asked, &drawn}, ID: fmt.Sprint("s", i),
				Cell:   Cell{rapid.IntRange(0, 3).Draw(t, "row"), rapid.IntRange(0, 2).Draw(t, "col")},
				Middle: rapid.Bool().Draw(t, "middle"), Fill: rapid.Bool().Draw(t, "fill"), Least: int64(rapid.IntRange(0, 5).Draw(t, "least"))})
		}
		var took []int
		all := 0
		for i := range rapid.IntRange(0, 3).Draw(t, "flows") {
			r := rows{id: fmt.Sprint("f", i), n: rapid.IntRange(1, 80).Draw(t, "rows"), high: unit(300, 2000, "high"), splits: &splits, from: &took}
			all += r.n
			s.Flow = append(s.Flow, r)
		}
		leaves := Compose(s, papers)
		if asked > 2*n+n { // once a paper, once more where none serves
			t.Fatalf("%d slots were asked for their sizes %d times", n, asked)
		}
		placed := 0
		for _, l := range leaves {
			for i, p := range l.Placed {
				box := drawing.Box(p.At.X, p.At.Y, p.At.X+p.Size.W, p.At.Y+p.Size.H)
				if !l.Over && !l.Paper.Room.Contains(box) {
					t.Fatalf("%s at %v leaves its room %v", p.Key(), box, l.Paper.Room)
				}
				for _, q := range l.Placed[:i] {
					if !l.Over && box.Intersects(drawing.Box(q.At.X, q.At.Y, q.At.X+q.Size.W, q.At.Y+q.Size.H)) {
						t.Fatalf("%s lies over %s", p.Key(), q.Key())
					}
				}
				if _, ok := p.Block.(counted); ok {
					placed++
				}
			}
			l.Draw(nil)
		}
		if placed != n || drawn != n {
			t.Fatalf("of %d slots %d are placed and %d drawn", n, placed, drawn)
		}
		got := 0
		for _, k := range took {
			got += k
		}
		if got != all {
			t.Fatalf("of %d rows %d are placed", all, got)
		}
	})
}

func TestComposeTakesTheBestSizeThatFits(t *testing.T) {
	var asked, drawn int
	of := func(id string, sizes ...Size) Block { return counted{id, sizes, &asked, &drawn} }
	paper := []Paper{{"B", drawing.Box(0, 0, 100, 100)}, {"C", drawing.Box(0, 0, 200, 200)}}
	for _, c := range []struct {
		what   string
		spec   Spec
		pages  int
		paper  string
		scales []int64
	}{
		{"both best", Spec{Slots: []Slot{{Block: of("a", Size{W: 90, H: 40, Scale: 1})}, {Block: of("b", Size{W: 90, H: 40, Scale: 1}), Cell: Cell{Row: 1}}}}, 1, "B", []int64{1, 1}},
		{"one smaller", Spec{Slots: []Slot{{Block: of("a", Size{W: 90, H: 60, Scale: 1}, Size{W: 45, H: 30, Scale: 2})},
			{Block: of("b", Size{W: 90, H: 60, Scale: 1}, Size{W: 45, H: 30, Scale: 2}), Cell: Cell{Row: 1}}}}, 1, "B", []int64{1, 2}},
		{"beside instead of under", Spec{Slots: []Slot{{Block: of("a", Size{W: 45, H: 90, Scale: 1})}, {Block: of("b", Size{W: 45, H: 90, Scale: 1}), Cell: Cell{Row: 1}}},
			Pack: true}, 1, "B", []int64{1, 1}},
		{"stacked beside", Spec{Pack: true, Slots: []Slot{{Block: of("a", Size{W: 45, H: 90, Scale: 1})}, {Block: of("b", Size{W: 45, H: 40, Scale: 1})},
			{Block: of("c", Size{W: 45, H: 40, Scale: 1}, Size{W: 45, H: 30, Scale: 2})}}, Gap: 5, Gutter: 5}, 1, "B", []int64{1, 1, 1}},
		{"packed over pages", Spec{Pack: true, Slots: []Slot{{Block: of("a", Size{W: 90, H: 90, Scale: 1})}, {Block: of("b", Size{W: 90, H: 90, Scale: 1})}}}, 2, "B",
			[]int64{1, 1}},
		{"two pages", Spec{Slots: []Slot{{Block: of("a", Size{W: 90, H: 90, Scale: 1})}, {Block: of("b", Size{W: 90, H: 90, Scale: 1}), Cell: Cell{Row: 1}}}}, 2, "B", []int64{1, 1}},
		{"kept whole", Spec{Whole: true, Slots: []Slot{{Block: of("a", Size{W: 90, H: 90, Scale: 1})}, {Block: of("b", Size{W: 90, H: 90, Scale: 1}), Cell: Cell{Row: 1}}}}, 1, "C", []int64{1, 1}},
		{"readable alone", Spec{Slots: []Slot{{Least: 1, Block: of("a", Size{W: 190, H: 90, Scale: 1}, Size{W: 90, H: 45, Scale: 2})}}}, 1, "C", []int64{1}},
	} {
		leaves := Compose(c.spec, paper)
		var scales []int64
		for _, l := range leaves {
			for _, p := range l.Placed {
				scales = append(scales, p.Size.Scale)
			}
		}
		if len(leaves) != c.pages || leaves[0].Paper.Name != c.paper || !slices.Equal(scales, c.scales) {
			t.Errorf("%s: %d pages of %s at %v, want %d of %s at %v", c.what, len(leaves), leaves[0].Paper.Name, scales, c.pages, c.paper, c.scales)
		}
	}
	over := Compose(Spec{Slots: []Slot{{Block: of("a", Size{W: 300, H: 90})}}}, paper)
	if len(over) != 1 || !over[0].Over {
		t.Errorf("a block too wide for any paper: %+v, want one page that says so", over)
	}
}

// wide is a flow that takes a width of its own, whatever it is given.
type wide struct{ w, h drawing.Unit }

func (q wide) Key() string { return fmt.Sprint("wide ", q.w) }
func (q wide) Split(_, h drawing.Unit, _ bool) (Block, Flow) {
	if q.h > h {
		return nil, q
	}
	return Fixed{ID: q.Key(), Size: Size{W: q.w, H: q.h}, Make: func() Drawn { return Drawn{} }}, nil
}

// What a page leaves is filled with what fits whole; the rest is given back in order.
func TestFillKeepsToWhatIsLeft(t *testing.T) {
	var asked, drawn int
	s := Spec{Columns: 30, Gap: 5, Gutter: 5, Slots: []Slot{{Block: counted{"a", []Size{{W: 60, H: 60}}, &asked, &drawn}}}}
	l := Compose(s, []Paper{{"B", drawing.Box(0, 0, 100, 100)}})[0]
	got, rest := s.Fill(l, []Flow{wide{40, 10}, wide{35, 90}, wide{30, 20}, wide{90, 10}, wide{35, 5}})
	if len(got.Placed) != 5 || len(rest) != 1 || rest[0] != (wide{90, 10}) {
		t.Fatalf("%d blocks stand, %v are left", len(got.Placed), rest)
	}
	for i, p := range got.Placed {
		box := drawing.Box(p.At.X, p.At.Y, p.At.X+p.Size.W, p.At.Y+p.Size.H)
		if !l.Paper.Room.Contains(box) {
			t.Errorf("%s at %v leaves its room", p.Key(), box)
		}
		for _, q := range got.Placed[:i] {
			if box.Intersects(drawing.Box(q.At.X, q.At.Y, q.At.X+q.Size.W, q.At.Y+q.Size.H)) {
				t.Errorf("%s lies over %s", p.Key(), q.Key())
			}
		}
	}
	if len(l.Placed) != 1 {
		t.Errorf("the page that was filled has %d blocks itself", len(l.Placed))
	}
}

// memo remembers what it was asked for.
type memo map[string]Drawn

func (m memo) Get(key string, s Size, draw func() Drawn) Drawn {
	k := fmt.Sprint(key, s)
	if d, ok := m[k]; ok {
		return d
	}
	m[k] = draw()
	return m[k]
}

func TestDrawnOnceIsRemembered(t *testing.T) {
	var asked, drawn int
	s := Spec{Slots: []Slot{{Block: counted{"a", []Size{{W: 10, H: 10}}, &asked, &drawn}, ID: "x"}}}
	paper := []Paper{{"B", drawing.Box(0, 0, 100, 100)}}
	m := memo{}
	first, _ := Compose(s, paper)[0].Draw(m)
	again, _ := Compose(s, paper)[0].Draw(m)
	if drawn != 1 {
		t.Errorf("drawn %d times, want once", drawn)
	}
	if a, b := fmt.Sprint(first), fmt.Sprint(again); a != b {
		t.Errorf("remembered %s, drawn %s", b, a)
	}
	g := first[0].(drawing.Group)
	if in := g.Marks[0].(drawing.Group); !g.View || in.ID != "x.it" {
		t.Errorf("a drawing's groups are %q of a view %v, want x.it of one", in.ID, g.View)
	}
}
