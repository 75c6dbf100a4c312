package drawing

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// anyMark draws a mark of any kind.
func anyMark(depth int) *rapid.Generator[Mark] {
	return rapid.Custom(func(t *rapid.T) Mark {
		c := rapid.IntRange(-500, 30000)
		pt := func() Point { return Pt(Unit(c.Draw(t, "x")), Unit(c.Draw(t, "y"))) }
		pts := func() []Point {
			out := make([]Point, rapid.IntRange(1, 5).Draw(t, "points"))
			for i := range out {
				out[i] = pt()
			}
			return out
		}
		pen := Pen(rapid.IntRange(0, int(penCount)-1).Draw(t, "pen"))
		kinds := 6
		if depth == 0 {
			kinds = 5
		}
		switch rapid.IntRange(1, kinds).Draw(t, "kind") {
		case 1:
			return Line{pen, pts(), rapid.Bool().Draw(t, "closed")}
		case 2:
			from := rapid.IntRange(-3600, 3600).Draw(t, "from")
			return Arc{Pen: pen, Centre: pt(), R: Unit(rapid.IntRange(1, 5000).Draw(t, "r")), From: from, To: from + rapid.IntRange(1, 3600).Draw(t, "sweep")}
		case 3:
			return Region{Rings: [][]Point{pts(), pts()}, Fill: Tone(rapid.IntRange(0, 5).Draw(t, "tone")),
				Hatch: HatchKind(rapid.IntRange(0, int(hatchCount)-1).Draw(t, "hatch")), Pen: pen}
		case 4:
			return NewText(pt(), rapid.SampledFrom([]string{"A", "12′-3", "gj, &"}).Draw(t, "words"),
				Style{Rotate: rapid.IntRange(0, 3599).Draw(t, "turn"), Align: Align(rapid.IntRange(0, 2).Draw(t, "align")), Fact: rapid.SampledFrom([]string{"", "N-C7.station", "a b.c|d.e"}).Draw(t, "fact")})
		case 5:
			return Link{Rect{pt(), pt()}, "R-1"}
		}
		return Group{
			Layer: Layer(rapid.IntRange(0, int(layerCount)-1).Draw(t, "layer")), ID: "g", Marks: rapid.SliceOfN(anyMark(depth-1), 0, 4).Draw(t, "marks"),
			View: rapid.Bool().Draw(t, "view"), Head: rapid.Bool().Draw(t, "head"), Fact: rapid.SampledFrom([]string{"", "N-C7.number"}).Draw(t, "fact"),
			Cells: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Unit { return pt().X }), 0, 3).Draw(t, "cells"),
		}
	})
}

func anyScene(t *rapid.T) Scene {
	return Scene{Name: "any", W: 30000, H: 20000, Marks: rapid.SliceOfN(anyMark(2), 0, 8).Draw(t, "marks")}
}

func TestPlaceMovesEverything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyScene(t)
		before := s.Dump()
		var big Scene
		big.Place(s, Pt(1000, -70))
		if s.Dump() != before {
			t.Fatal("placing changed the scene that was placed")
		}
		if a, b := s.Bounds(), big.Bounds(); !a.Empty() && a.Translate(Pt(1000, -70)) != b {
			t.Fatalf("bounds %v became %v", a, b)
		}
		var back Scene
		back.Place(big, Pt(-1000, 70))
		// What is placed is a view, so here is a view in a view.
		back.Marks = back.Marks[0].(Group).Marks[0].(Group).Marks
		back.Name, back.W, back.H = s.Name, s.W, s.H
		if back.Dump() != before {
			t.Fatal("placing there and back is not the same scene")
		}
	})
}

// One line for each mark, one more to end each group, and the same lines every time.
func TestDumpIsOneMarkALine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyScene(t)
		var count func(marks []Mark) int
		count = func(marks []Mark) int {
			n := len(marks)
			for _, m := range marks {
				if g, ok := m.(Group); ok {
					n += 1 + count(g.Marks)
				}
			}
			return n
		}
		d := s.Dump()
		if got, want := strings.Count(d, "\n"), 1+count(s.Marks); got != want {
			t.Fatalf("%d lines for %d marks:\n%s", got, want, d)
		}
		if d != s.Dump() {
			t.Fatal("two dumps differ")
		}
	})
}

func TestCheckTakesAnyScene(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyScene(t)
		a, b := Check(s), Check(s)
		if len(a) != len(b) {
			t.Fatalf("%d problems, then %d", len(a), len(b))
		}
		for i := range a {
			if a[i] != b[i] {
				t.Fatalf("%v, then %v", a[i], b[i])
			}
		}
	})
}

func TestDump(t *testing.T) {
	s := Scene{Name: "try", Title: "A \"try\"", W: 10000, H: 5000}
	s.Group(Wall, "w", func(g *Scene) {
		g.Line(Thick, Pt(0, 0), Pt(150, -5))
		g.Rect(Thin, Box(0, 0, 10, 20))
	})
	s.Arc(Medium, Pt(1, 2), 300, -15, 900)
	s.Dot(Pt(1, 2), 50, Black)
	s.Hatch(Metal, NoPen, Pt(0, 0), Pt(100, 0), Pt(0, 100))
	s.Text(Pt(100, 200), "12′", Style{Rotate: 900, Halo: true})
	s.Link(Box(0, 0, 100, 100), "R-2")
	s.Place(Scene{Title: "Corner", Desc: "A corner."}, Pt(0, 0))
	s.Place(Scene{Title: "Corner"}, Pt(0, 0))
	s.Add(Group{Cells: []Unit{100, 250}, Head: true})
	want := `scene try 10000x5000
title "A \"try\""
{ Wall "w"
l thick 0,0 150,-5
l thin 0,0 10,0 0,20 -10,0 z
}
a medium 1,2 300 -15 900
a none 1,2 50 fill black
r none hatch metal | 0,0 100,0 -100,100
t 100,200 300 turn 900 halo "12′"
k 0,0 to 100,100 "R-2"
{ - view "A corner."
}
{ - view "Corner"
}
{ - head cells 100 250
}
`
	if got := s.Dump(); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestWalkKnowsTheLayer(t *testing.T) {
	var s Scene
	s.Group(Wall, "", func(g *Scene) {
		g.Line(Thin, Pt(0, 0), Pt(1, 1))
		g.Group(NoLayer, "x", func(h *Scene) { h.Line(Medium, Pt(0, 0), Pt(1, 1)) })
		g.Group(Holds, "", func(h *Scene) { h.Line(Thick, Pt(0, 0), Pt(1, 1)) })
	})
	s.Line(Border, Pt(0, 0), Pt(1, 1))
	var got []string
	s.Walk(func(l Layer, m Mark) { got = append(got, l.String()+":"+m.(Line).Pen.String()) })
	if want := "Wall:thin Wall:medium Holds:thick :border"; strings.Join(got, " ") != want {
		t.Errorf("walked %q, want %q", got, want)
	}
}

func TestArcBounds(t *testing.T) {
	tests := []struct {
		from, to int
		want     Rect
	}{
		{0, 3600, Box(-100, -100, 100, 100)},
		{0, 900, Box(0, -100, 100, 0)},
		{450, 1350, Box(-71, -100, 71, -71)},
		{-450, 450, Box(71, -71, 100, 71)},
		{900, 3599, Box(-100, -100, 100, 100)},
	}
	for _, tt := range tests {
		a := Arc{R: 100, From: tt.from, To: tt.to}
		if got := a.bounds(); got != tt.want {
			t.Errorf("from %d to %d: %v, want %v", tt.from, tt.to, got, tt.want)
		}
	}
}

// Nothing is told by colour alone: no two pens differ in colour only.
func TestPensDifferInMoreThanColour(t *testing.T) {
	type shape struct {
		width Unit
		dash  [6]Unit
	}
	seen := map[shape]Pen{}
	for _, p := range Pens() {
		st := p.Stroke()
		k := shape{st.Width, st.dash}
		if q, ok := seen[k]; ok {
			t.Errorf("pens %v and %v differ in colour only", p, q)
		}
		seen[k] = p
		// Dark enough to copy: the luma of Rec. 709 stays under 40 %.
		c := st.Colour
		if luma := 2126*int(c.R) + 7152*int(c.G) + 722*int(c.B); luma > 10000*255*4/10 {
			t.Errorf("pen %v is too light to copy", p)
		}
	}
}
