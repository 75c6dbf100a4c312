package drawing

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// sheetOf puts figures on a sheet large enough for them.
func sheetOf(figs ...Figure) Scene {
	s := Scene{Name: "try", W: 200000, H: 200000}
	for _, f := range figs {
		s.Add(Translate(f.Marks, Pt(80000, 80000))...)
	}
	return s
}

func wordsOf(s Scene) []string {
	var all []string
	for _, t := range s.Texts() {
		all = append(all, t.Words)
	}
	slices.Sort(all)
	return all
}

// lines returns the open lines of a pen.
func linesOf(f Figure, pen Pen) []Line {
	var all []Line
	Scene{Marks: f.Marks}.Walk(func(_ Layer, m Mark) {
		if l, ok := m.(Line); ok && l.Pen == pen {
			all = append(all, l)
		}
	})
	return all
}

func TestChainOfWideBays(t *testing.T) {
	f := Chain{At: 1000, Stops: []Unit{0, 6000, 12000}, Labels: []string{`10'-0"`, `10'-0"`}, From: []Unit{2000}}.Figure()
	var at []Point
	for _, m := range (Scene{Marks: f.Marks}).Texts() {
		at = append(at, m.At)
		if m.Words != "10′-0″" || m.Align != Middle {
			t.Errorf("label %+v", m)
		}
	}
	if want := []Point{{3000, 900}, {9000, 900}}; !slices.Equal(at, want) {
		t.Errorf("labels at %v, want above the middle of the bays, %v", at, want)
	}
	// Extension lines stand off 1.5 mm from the object and overshoot the line by 2 mm.
	ext := linesOf(f, Thin)[0].Pts
	if want := []Point{{0, 1850}, {0, 800}}; !slices.Equal(ext, want) {
		t.Errorf("extension line %v, want %v", ext, want)
	}
	if got := len(linesOf(f, Medium)); got != 3 {
		t.Errorf("%d ticks, want 3", got)
	}
}

func TestChainOverTheObjectAndUpright(t *testing.T) {
	below := Chain{At: 1000, Stops: []Unit{0, 6000}, Labels: []string{"600"}, From: []Unit{0}, Ends: Arrows}.Figure()
	if ext := linesOf(below, Thin)[0].Pts; !slices.Equal(ext, []Point{{0, 150}, {0, 1200}}) {
		t.Errorf("extension line from an object above: %v", ext)
	}
	up := Chain{Vertical: true, At: 1000, Stops: []Unit{0, 6000}, Labels: []string{"600"}, From: []Unit{2000}, Ends: Arrows}.Figure()
	text := Scene{Marks: up.Marks}.Texts()[0]
	if text.At != Pt(900, 3000) || text.Rotate != 900 {
		t.Errorf("upright label %+v, want left of the line, read from the right", text)
	}
}

func TestNarrowBayIsNotDropped(t *testing.T) {
	f := Chain{At: 3000, Stops: []Unit{0, 6000, 6100, 12000}, Labels: []string{"600", "10", "590"}, From: []Unit{4000}}.Figure()
	var narrow Text
	for _, x := range (Scene{Marks: f.Marks}).Texts() {
		if x.Words == "10" {
			narrow = x
		}
	}
	if narrow.At.X != 6050 || narrow.At.Y > 3000-textLift-Unit(Note) {
		t.Errorf("label of the narrow bay at %v, want over its bay on a second level", narrow.At)
	}
}

func TestEqualNarrowBaysTurnTheirLabels(t *testing.T) {
	c := Chain{At: 3000, From: []Unit{4000}, Stops: []Unit{0}}
	for i := range 20 {
		c.Stops = append(c.Stops, Unit(i+1)*600)
		c.Labels = append(c.Labels, `1'-11 15/16"`)
	}
	for _, x := range (Scene{Marks: c.Figure().Marks}).Texts() {
		if x.Rotate != 900 {
			t.Fatalf("label %+v is level", x)
		}
	}
}

func TestRunningStartsAtTheDatum(t *testing.T) {
	f := Running{At: 1000, Stops: []Unit{500, 3000, 9000}, Labels: []string{"0", "250", "850"}, From: []Unit{0}, Ends: Arrows}.Figure()
	circles := 0
	for _, m := range f.Marks {
		if a, ok := m.(Arc); ok && a.Fill == White {
			circles++
			if a.Centre != Pt(500, 1000) {
				t.Errorf("circle at %v, want at the datum", a.Centre)
			}
		}
	}
	if circles != 1 {
		t.Errorf("%d circles, want 1", circles)
	}
	for i, x := range (Scene{Marks: f.Marks}).Texts() {
		stop := []Unit{500, 3000, 9000}[i]
		if x.Rotate != 900 || x.At.X != stop+Unit(Note)/2 || x.At.Y <= 1000 {
			t.Errorf("value %q at %v turned %d, want below the line at %v, read from the right", x.Words, x.At, x.Rotate, stop)
		}
	}
}

// stops draws rising stops, some very close.
func stops(t *rapid.T, n int) []Unit {
	at := Unit(rapid.IntRange(-2000, 2000).Draw(t, "start"))
	out := []Unit{at}
	for range n {
		at += Unit(rapid.OneOf(rapid.IntRange(1, 200), rapid.IntRange(200, 9000)).Draw(t, "bay"))
		out = append(out, at)
	}
	return out
}

func labelsFor(t *rapid.T, n int) []string {
	return rapid.SliceOfN(rapid.SampledFrom([]string{"0", "12", "3000", `1/4"`, `12'-3 13/16"`, `104'-11 15/16"`}), n, n).Draw(t, "labels")
}

func TestNoDimensionIsLostOrOverlapped(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 25).Draw(t, "bays")
		at := stops(t, n)
		object := []Unit{Unit(rapid.SampledFrom([]int{-1500, 1500}).Draw(t, "object"))}
		vertical := rapid.Bool().Draw(t, "vertical")
		ends := rapid.SampledFrom([]Ends{Ticks, Arrows}).Draw(t, "ends")
		var lo, hi Unit
		if rapid.Bool().Draw(t, "limited") {
			lo, hi = at[0]-1000, at[n]+1000
		}
		labels := labelsFor(t, n)
		values := labelsFor(t, n+1)
		chain := Chain{Vertical: vertical, Stops: at, Labels: labels, From: object, Ends: ends, Lo: lo, Hi: hi}.Figure()
		running := Running{Vertical: vertical, Stops: at, Labels: values, From: object, Ends: ends, Lo: lo, Hi: hi}.Figure()
		for i, f := range []Figure{chain, running} {
			s := sheetOf(f)
			if p := Check(s); len(p) != 0 {
				t.Fatalf("figure %d: %v", i, p[0])
			}
			var want []string
			for _, l := range [][]string{labels, values}[i] {
				want = append(want, Letter(l))
			}
			slices.Sort(want)
			if got := wordsOf(s); !slices.Equal(got, want) {
				t.Fatalf("figure %d: labels %q, want %q", i, got, want)
			}
			if !f.Box.Contains(BoundsOf(f.Marks)) {
				t.Fatalf("figure %d: the box %v does not hold the marks", i, f.Box)
			}
		}
	})
}

func TestSpreadKeepsOrderAndLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 20).Draw(t, "labels")
		labels := make([]label, n)
		for i := range labels {
			labels[i] = label{at: Unit(rapid.IntRange(0, 20000).Draw(t, "at")), width: Unit(rapid.IntRange(1, 900).Draw(t, "width"))}
		}
		sortLabels(labels)
		r := row{limited: rapid.Bool().Draw(t, "limited"), lo: 0, hi: 20000}
		_, fits := r.spread(labels, 100)
		for i := 1; i < n; i++ {
			if gap := labels[i].placed - labels[i-1].placed - (labels[i].width+labels[i-1].width)/2; gap < 100 {
				t.Fatalf("labels %d and %d are %v apart", i-1, i, gap)
			}
		}
		last := labels[n-1]
		if r.limited && fits && (labels[0].placed-(labels[0].width+1)/2 < r.lo || last.placed+last.width/2 > r.hi) {
			t.Fatalf("row from %v to %v leaves its limits", labels[0], last)
		}
	})
}

func TestSpreadMovesOnlyWhatMustMove(t *testing.T) {
	labels := []label{{at: 0, width: 100}, {at: 1000, width: 300}, {at: 1100, width: 300}, {at: 5000, width: 100}}
	var r row
	shift, fits := r.spread(labels, 50)
	var got []Unit
	for _, l := range labels {
		got = append(got, l.placed)
	}
	// The middle two need 350 between centres and have 100: each gives way by 125.
	if want := []Unit{0, 875, 1225, 5000}; !slices.Equal(got, want) || shift != 125 || !fits {
		t.Errorf("placed %v, shift %v, fits %v; want %v, 125, true", got, shift, fits, want)
	}
}

func TestMismatchedDimensionsPanic(t *testing.T) {
	tests := map[string]func(){
		"chain without bays":       func() { Chain{Stops: []Unit{0}}.Figure() },
		"chain with a label short": func() { Chain{Stops: []Unit{0, 1, 2}, Labels: []string{"1"}}.Figure() },
		"chain with odd objects":   func() { Chain{Stops: []Unit{0, 1, 2}, Labels: []string{"1", "1"}, From: []Unit{0, 0}}.Figure() },
		"running without labels":   func() { Running{Stops: []Unit{0, 1}}.Figure() },
		"scale bar without labels": func() { ScaleBar{Stops: []Unit{0, 1}}.Figure() },
	}
	for name, f := range tests {
		func() {
			defer func() {
				if r := recover(); r == nil || !strings.HasPrefix(fmt.Sprint(r), "drawing: ") {
					t.Errorf("%s: %v", name, r)
				}
			}()
			f()
		}()
	}
}

func TestCheckBarIsTrueToSize(t *testing.T) {
	f := CheckBar{At: Pt(500, 500)}.Figure()
	lo, hi := map[Unit]Unit{}, map[Unit]Unit{}
	for _, l := range linesOf(f, Medium) {
		if l.Pts[0].X != l.Pts[1].X {
			continue
		}
		y := (l.Pts[0].Y + l.Pts[1].Y) / 2
		if _, ok := lo[y]; !ok {
			lo[y], hi[y] = l.Pts[0].X, l.Pts[0].X
		}
		lo[y], hi[y] = min(lo[y], l.Pts[0].X), max(hi[y], l.Pts[0].X)
	}
	var lengths []Unit
	for y, a := range lo {
		lengths = append(lengths, hi[y]-a)
	}
	slices.Sort(lengths)
	if want := []Unit{100 * MM, 4 * Inch}; !slices.Equal(lengths, want) {
		t.Errorf("bars of %v, want %v", lengths, want)
	}
	words := strings.Join(wordsOf(Scene{Marks: f.Marks}), " ")
	for _, w := range []string{"100 mm", "4 in"} {
		if !strings.Contains(words, w) {
			t.Errorf("the bars do not say %q: %q", w, words)
		}
	}
}

func TestSmallFiguresAreClean(t *testing.T) {
	figs := map[string]Figure{
		"leader":     Leader{Tip: Pt(0, 0), Knee: Pt(-500, -800), Words: "one\ntwo"}.Figure(),
		"balloon":    Balloon{Words: "128"}.Figure(),
		"hold flag":  HoldFlag{Words: "HOLD 12"}.Figure(),
		"banner":     HoldBanner{Box: Box(0, 0, 12000, 1500), Words: "HOLD – NOT FOR FABRICATION"}.Figure(),
		"scale bar":  ScaleBar{Stops: []Unit{0, 100, 200, 6000}, Labels: []string{"0", "1'", "2'", `60'`}, Words: "scale"}.Figure(),
		"check bar":  CheckBar{Words: "CHECK BAR: measure it."}.Figure(),
		"north":      NorthArrow{R: 600, North: 450}.Figure(),
		"direction":  DirectionArrow{Tail: Pt(0, 0), Head: Pt(3000, 0), Words: "OUTSIDE"}.Figure(),
		"direction2": DirectionArrow{Tail: Pt(0, 0), Head: Pt(0, 3000), Words: "ROOF"}.Figure(),
	}
	for name, f := range figs {
		if p := Check(sheetOf(f)); len(p) != 0 {
			t.Errorf("%s: %v", name, p)
		}
		if f.Box.Empty() {
			t.Errorf("%s takes no room", name)
		}
	}
}
