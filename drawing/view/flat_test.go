package view

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length/draws"

	"pgregory.net/rapid"
)

// tools is a shop that makes what the scenarios draw.
func tools() *job.Shop {
	return &job.Shop{K: 0.41, KSource: "bend test", LeastRadius: inch / 32, LeastFlange: inch / 4, Brake: 2000 * inch, MostTurn: 170 * job.Degree, WeldGap: inch / 32, Film: "finish side, out",
		Sheets: []job.ShopSheet{{Width: 60 * inch, Length: 200 * inch, Price: 100}}, Kerf: inch / 8, EndTrim: inch / 4, EdgeTrim: inch / 4, LeastDrop: 28 * inch, Effort: 20,
		Labels: job.Labels{Columns: 2, Rows: 5}}
}

// shopViews are all views of the shop's families, in rooms of a few sizes.
func shopViews(l *layout.Layout, w, h drawing.Unit) []drawing.Scene {
	var out []drawing.Scene
	for _, f := range l.Families {
		if len(f.Bodies) == 0 {
			continue
		}
		for _, b := range l.Patterns(f) {
			out = append(out, FlatPattern(words.Book{}, f.Mark, b, w, h))
		}
		out = append(out, FormedTop(words.Book{}, l.Formed(f), 6000, 4000), FormedSolid(words.Book{}, l.Formed(f), 6000, 4000), FormedTop(words.Book{}, l.Formed(f), 3000, 2700), FormedSolid(words.Book{}, l.Formed(f), 3000, 2700), ShopSection(words.Book{}, l.Profile(f, 0), "", w, h))
	}
	if l.Cutting != nil {
		for i := range l.Cutting.Lots {
			lot := &l.Cutting.Lots[i]
			for _, q := range lot.Bars {
				for _, bar := range l.CutBars(q, "") {
					out = append(out, CutBar(words.Book{}, bar, w))
				}
			}
			for _, r := range l.CutSheets(lot, "") {
				out = append(out, CutSheet(words.Book{}, r, w, h))
			}
		}
	}
	return out
}

func TestShopViewsAreFaultless(t *testing.T) {
	for _, s := range tooled() {
		t.Run(s.name, func(t *testing.T) {
			l := solved(t, s)
			for _, v := range shopViews(l, 24000, 17000) {
				faultless(t, v)
			}
		})
	}
}

// Any job's patterns, formed views and cutting plans can be read.
func TestAnyShopViewIsFaultless(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		j := jobtest.Random(t)
		j.Shop = tools()
		l, found := layout.Build(j)
		if found.HasErrors() {
			t.Skip("not a layout")
		}
		for _, v := range shopViews(l, 24000, 17000) {
			if got := drawing.Check(v); len(got) > 0 {
				t.Fatalf("%s: %v", v.Name, got)
			}
		}
	})
}

// A flat pattern says of every bend its number, its way and its angle, and of
// the blank its edges and its hands.
func TestFlatPatternSaysEveryBend(t *testing.T) {
	for _, s := range tooled() {
		l := solved(t, s)
		for _, f := range l.Families {
			for i, b := range f.Bodies {
				said := lettering(FlatPattern(words.Book{}, f.Mark, l.Patterns(f)[i], 24000, 17000))
				want := []string{"FINISH FACE TOWARDS YOU", strings.ToUpper(b.Edges().Top), strings.ToUpper(b.Edges().Bottom), b.Edges().Left, b.Edges().Right}
				for _, q := range b.Bends {
					want = append(want, BendWords(words.Book{}, q.Hem, q.Line.Turn, q.Line.Radius)+"  "+q.Line.Between[1], strconv.Itoa(q.Order))
					if q.Hem {
						want[len(want)-2] = BendWords(words.Book{}, q.Hem, q.Line.Turn, q.Line.Radius)
					}
				}
				if f.Released(l.Held) == 0 {
					want = append(want, "NOT RELEASED, DO NOT CUT")
				}
				for _, w := range want {
					if !strings.Contains(said, w) {
						t.Errorf("%s, family %s, %s: %q is not lettered", s.name, f.Mark, b.Name, w)
					}
				}
			}
		}
	}
}

// The left hand of a pattern and of the formed views is the left hand of the
// piece: at a left end cap the plate stands at the left, in the flat and on the
// roof, and its finish side looks away from the piece.
func TestEndPlatesLookOutwards(t *testing.T) {
	seen := 0
	for _, s := range tooled() {
		l := solved(t, s)
		for _, f := range l.Families {
			p := f.Pieces[0]
			for _, b := range f.Bodies {
				if b.Name != "end plate" {
					continue
				}
				seen++
				c := b.Solid.Faces[0].Corners
				// Newell's normal along x, from the first three corners.
				nx := (c[1].Y-c[0].Y)*(c[2].Z-c[0].Z) - (c[1].Z-c[0].Z)*(c[2].Y-c[0].Y)
				left := p.LeftEnd == job.EndFree
				if left == (p.RightEnd == job.EndFree) {
					continue
				}
				if (nx < 0) != left {
					t.Errorf("family %s, hand %s: its plate's finish side looks along x %+.0f", f.Mark, f.Hand, nx)
				}
				if want := map[bool]string{true: "STREET", false: "ROOF"}[left]; b.Edges().Left != want {
					t.Errorf("family %s, hand %s: %s at the left of its plate, want %s", f.Mark, f.Hand, b.Edges().Left, want)
				}
			}
		}
	}
	if seen == 0 {
		t.Error("no scenario has a closed end")
	}
}

// What the flat map leaves out keeps every corner in order and to scale.
func TestBreaksKeepOrder(t *testing.T) {
	m := flatMap{ratio: 8, breaks: [][2]float64{{300, 900}, {1200, 2000}}, hi: 600}
	last := m.x(-1)
	for x := 0.0; x <= 2500; x += 10 {
		if got := m.x(x); got < last {
			t.Fatalf("x %.0f goes to %v, before %v", x, got, last)
		} else {
			last = got
		}
	}
	if a, b := m.x(290)-m.x(280), m.x(2300)-m.x(2290); a != b || a != drawing.Round(10.0/8) {
		t.Errorf("10 mm are %v before the breaks and %v after them", a, b)
	}
}

func TestSpacedKeepsDistanceAndPlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 12).Draw(t, "n")
		want := make([]drawing.Unit, n)
		at := drawing.Unit(0)
		for i := range want {
			at += drawing.Unit(rapid.IntRange(0, 1500).Draw(t, "step"))
			want[i] = at
		}
		got := spaced(want, 700)
		var sum float64
		for i := range got {
			sum += float64(got[i] - want[i])
			if i > 0 && got[i]-got[i-1] < 699 {
				t.Fatalf("%v for %v", got, want)
			}
		}
		if math.Abs(sum/float64(n)) > 1.5 { // each block stands about the mean of what it wants
			t.Fatalf("%v leans from %v", got, want)
		}
	})
}

// A corner of the folded root comes back to where it was placed from, and what is
// raised from the pattern lies on the finish side of the metal.
func TestRaiseUndoesPlace(t *testing.T) {
	far := func(v, w fold.Vec) float64 { return math.Abs(v.X-w.X) + math.Abs(v.Y-w.Y) + math.Abs(v.Z-w.Z) }
	metal := 0
	for _, s := range tooled() {
		for _, f := range solved(t, s).Families {
			for _, b := range f.Bodies {
				for _, v := range b.Solid.Faces[0].Corners {
					if w := b.Flat.Raise(b.Flat.Place(v)); far(v, w) > 1e-6 {
						t.Fatalf("family %s, %s: %v comes back as %v", f.Mark, b.Name, v, w)
					}
				}
				if b.Metal == nil {
					continue
				}
				metal++
				laid, girth := b.Metal.Path.Lay(), b.Metal.Path.Girth()
				for _, p := range b.Flat.Faces[0] {
					skin, _ := laid.Skins(girth - p.Y)
					w := b.Flat.Raise(p)
					if want := fold.FromLayout(w.X, skin.X, skin.Y); far(w, want) > 1e-6 {
						t.Fatalf("family %s, %s: %v is raised to %v, the metal lies at %v", f.Mark, b.Name, p, w, want)
					}
				}
			}
		}
	}
	if metal < 20 {
		t.Errorf("only %d bodies of one section", metal)
	}
}

// The words of a hem say what is bent; those of another bend are followed by its face.
func TestBendsNameTheirFaceOnce(t *testing.T) {
	for _, c := range []struct {
		hem  bool
		want string
	}{{true, "DOWN, hem flat"}, {false, "DOWN 180° hem"}} {
		if got := BendTo(words.Book{}, c.hem, -180, 0, " ", "hem"); got != c.want {
			t.Errorf("hem %v: %q, want %q", c.hem, got, c.want)
		}
	}
}
