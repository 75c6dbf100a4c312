package drawing

import (
	"slices"
	"testing"
)

func faults(s Scene) []Fault {
	var all []Fault
	for _, p := range Check(s) {
		all = append(all, p.Fault)
	}
	return all
}

func TestCheck(t *testing.T) {
	st := Style{}
	turned := Style{Rotate: 900}
	tests := []struct {
		name string
		draw func(s *Scene)
		want []Fault
	}{
		{"empty", func(s *Scene) {}, []Fault{EmptyScene}},
		{"apart", func(s *Scene) { s.Text(Pt(1000, 1000), "ONE", st); s.Text(Pt(1000, 1400), "TWO", st) }, nil},
		{"on top", func(s *Scene) { s.Text(Pt(1000, 1000), "ONE", st); s.Text(Pt(1000, 1250), "TWO", st) }, []Fault{TextsOverlap}},
		{"descender over capital", func(s *Scene) { s.Text(Pt(1000, 1000), "g", st); s.Text(Pt(1000, 1350), "T", st) }, []Fault{TextsOverlap}},
		{"no descender over capital", func(s *Scene) { s.Text(Pt(1000, 1000), "T", st); s.Text(Pt(1000, 1350), "T", st) }, nil},
		{"turned beside", func(s *Scene) { s.Text(Pt(1000, 3000), "UPRIGHT", turned); s.Text(Pt(1030, 3000), "LEVEL", st) }, nil},
		{"turned across", func(s *Scene) { s.Text(Pt(1000, 3000), "UPRIGHT", turned); s.Text(Pt(600, 2500), "LEVEL", st) }, []Fault{TextsOverlap}},
		{"slanted neighbours whose upright boxes meet", func(s *Scene) {
			s.Text(Pt(2000, 6000), "SLANTED WORDS", Style{Rotate: 450})
			s.Text(Pt(2600, 6000), "SLANTED WORDS", Style{Rotate: 450})
		}, nil},
		{"across a thick line", func(s *Scene) { s.Line(Thick, Pt(100, 900), Pt(5000, 900)); s.Text(Pt(1000, 1000), "ONE", st) }, []Fault{TextOnLine}},
		{"halo across a thick line", func(s *Scene) {
			s.Line(Thick, Pt(100, 900), Pt(5000, 900))
			s.Text(Pt(1000, 1000), "ONE", Style{Halo: true})
		}, []Fault{TextOnLine}},
		{"across a thin line", func(s *Scene) { s.Line(Thin, Pt(100, 900), Pt(5000, 900)); s.Text(Pt(1000, 1000), "ONE", st) }, nil},
		{"just above a thick line", func(s *Scene) { s.Line(Thick, Pt(100, 1040), Pt(5000, 1040)); s.Text(Pt(1000, 1000), "ONE", st) }, nil},
		{"upright thick line through a word", func(s *Scene) { s.Line(Thick, Pt(1200, 100), Pt(1200, 5000)); s.Text(Pt(1000, 1000), "ONE", st) }, []Fault{TextOnLine}},
		{"end of a thick line in a word", func(s *Scene) { s.Line(Thick, Pt(1200, 850), Pt(1210, 860)); s.Text(Pt(1000, 1000), "ONE", st) }, []Fault{TextOnLine}},
		{"across a thick arc", func(s *Scene) { s.Circle(Thick, Pt(3000, 3000), 2800); s.Text(Pt(1000, 1200), "ONE", st) }, []Fault{TextOnLine}},
		{"across the edge of a region", func(s *Scene) {
			s.Hatch(Wood, Thick, Box(500, 500, 1200, 3000).Corners()...)
			s.Text(Pt(1000, 1000), "ONE", st)
		}, []Fault{TextOnLine}},
		{"on a hold stripe", func(s *Scene) {
			s.Hatch(HoldStripe, NoPen, Box(500, 500, 4000, 3000).Corners()...)
			s.Text(Pt(1000, 1000), "ONE", st)
		}, []Fault{TextOnLine}},
		{"on a white box over a thick line", func(s *Scene) {
			s.Line(Thick, Pt(100, 900), Pt(5000, 900))
			s.Fill(White, Thin, Box(900, 600, 3000, 1100).Corners()...)
			s.Text(Pt(1000, 1000), "ONE", st)
		}, nil},
		{"on a white box under a thick line", func(s *Scene) {
			s.Fill(White, Thin, Box(900, 600, 3000, 1100).Corners()...)
			s.Line(Thick, Pt(100, 900), Pt(5000, 900))
			s.Text(Pt(1000, 1000), "ONE", st)
		}, []Fault{TextOnLine}},
		{"on a white box too small", func(s *Scene) {
			s.Line(Thick, Pt(100, 900), Pt(5000, 900))
			s.Fill(White, Thin, Box(900, 600, 1100, 1100).Corners()...)
			s.Text(Pt(1000, 1000), "ONE", st)
		}, []Fault{TextOnLine}},
		{"covered", func(s *Scene) {
			s.Text(Pt(1000, 1000), "ONE", st)
			s.Fill(White, NoPen, Box(1100, 500, 3000, 3000).Corners()...)
		}, []Fault{TextCovered}},
		{"covered by a dot", func(s *Scene) { s.Text(Pt(1000, 1000), "ONE", st); s.Dot(Pt(1200, 900), 100, Black) }, []Fault{TextCovered}},
		{"off the sheet", func(s *Scene) { s.Text(Pt(9900, 1000), "ONE", st) }, []Fault{OutsideSheet}},
		{"wide line at the edge", func(s *Scene) { s.Line(Thick, Pt(10, 100), Pt(10, 200)) }, []Fault{OutsideSheet}},
		{"in a group", func(s *Scene) { s.Group(Wall, "", func(g *Scene) { g.Circle(Thin, Pt(0, 0), 10) }) }, []Fault{OutsideSheet}},
		{"too small", func(s *Scene) { s.Text(Pt(1000, 1000), "ONE", Style{Size: 239}) }, []Fault{LetterTooLow}},
		{"no glyph", func(s *Scene) { s.Text(Pt(1000, 1000), "☐", st) }, []Fault{GlyphMissing}},
		{"width typed", func(s *Scene) { s.Add(Text{At: Pt(1000, 1000), Words: "ONE", Size: Note, Width: 3}) }, []Fault{WidthNotTrue}},
		{"link", func(s *Scene) { s.Link(Box(0, 0, 100, 100), "") }, []Fault{LinkNowhere}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s := Scene{Name: tt.name, W: 10000, H: 8000}
			tt.draw(&s)
			got := faults(s)
			if !slices.Equal(got, tt.want) {
				t.Errorf("found %v, want %v", Check(s), tt.want)
			}
		})
	}
}

func TestProblemSaysWhere(t *testing.T) {
	s := Scene{W: 10000, H: 10000}
	s.Text(Pt(1000, 1000), "ONE", Style{})
	s.Text(Pt(1100, 1000), "TWO", Style{})
	p := Check(s)
	if len(p) != 1 {
		t.Fatalf("found %v", p)
	}
	want := `texts overlap: texts "ONE" and "TWO" (at 11.00,6.98 to 18.47,10.03)`
	if got := p[0].String(); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}
