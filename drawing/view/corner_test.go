package view

import (
	"math"
	"slices"
	"strings"
	"testing"

	"copingset/drawing"
	"copingset/drawing/block"
	"copingset/drawing/place"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"

	"pgregory.net/rapid"
)

func TestCornerPlansAreFaultless(t *testing.T) {
	for _, s := range scenarios() {
		t.Run(s.name, func(t *testing.T) {
			l := solved(t, s)
			for i, p := range someOf(special(l), 2*draws.Times(1)) {
				for _, lang := range []words.Lang{words.English, words.Longer} {
					if lang == words.Longer && i > 0 && draws.Times(1) == 1 {
						continue
					}
					k := CornerPlan(words.Book{Lang: lang}, l.Corner(p))
					for _, z := range k.Sizes(0) {
						if z.Scale > 16 {
							continue
						}
						c, said := drawnAt(k, z)
						faultless(t, c)
						if got := c.Bounds(); !drawing.Box(-10, -10, z.W+10, z.H+10).Contains(got) {
							t.Errorf("piece %s at 1:%d takes %v of %v × %v", p.Mark, z.Scale, got, z.W, z.H)
						}
						if lang == words.English {
							cornerNamed(t, l, p, said)
						}
					}
				}
			}
		})
	}
}

// drawnAt is a keyed drawing at one of its sizes, and all that it says: what finds no
// room in it as well.
func drawnAt(k *Keyed, z block.Size) (s drawing.Scene, said string) {
	d := k.Draw(z)
	s = drawing.Scene{W: z.W, H: z.H, Marks: d.Marks}
	said = lettering(s)
	for _, n := range d.Notes {
		said += " " + n.Words
	}
	return s, said
}

// cornerNamed checks that a corner plan says everything the shop and the crew
// need, on the drawing or in its list.
func cornerNamed(t interface {
	Helper()
	Errorf(string, ...any)
}, l *layout.Layout, p *layout.Piece, said string) {
	t.Helper()
	want := []string{p.Mark, "STREET", "ROOF"}
	for _, m := range p.Miters {
		kind, turn, included := TurnSaid(words.Book{}, layout.MadeTurnOf(m.Corner))
		want = append(want, kind, turn, included, "LEFT LEG", "RIGHT LEG")
		if m.Corner.Straight() && Shop(l).Round(m.Trim[0]) != 0 {
			want = append(want, "laid level")
		}
	}
	for i, q := range p.Parts {
		want = append(want, drawing.Letter(shortNumber(Crew(l), q.Length())))
		if r := p.RearLength(i); r > 0 {
			want = append(want, drawing.Letter(shortNumber(Shop(l), r)))
		}
	}
	for _, w := range want {
		if !strings.Contains(said, w) {
			t.Errorf("piece %s: %q is not lettered", p.Mark, w)
		}
	}
	if !l.Held.Released(p) && !strings.Contains(said, "NOT RELEASED, DO NOT CUT") {
		t.Errorf("piece %s is on hold and its plan does not say so", p.Mark)
	}
}

// The arriving run has the street at the top; a right turn goes down the
// sheet, towards the roof, a left turn up.
func TestCornerPlanIsTurnedRight(t *testing.T) {
	for _, s := range scenarios() {
		l := solved(t, s)
		for _, p := range special(l) {
			c := newCorner(words.Book{}, l.Corner(p))
			if c.legs[0].dir != (xy{1, 0}) {
				t.Errorf("piece %s: its arriving run is not level", p.Mark)
			}
			if len(p.Miters) == 1 {
				if down := c.legs[1].dir.y > 0; down != p.Miters[0].Corner.Outside() {
					t.Errorf("piece %s: an outside corner must turn down the sheet, an inside one up", p.Mark)
				}
			}
			if len(p.Parts) != 1 {
				continue
			}
			plan := CornerPlan(words.Book{}, l.Corner(p)).Scene("", 26000, 21000)
			street, ok1 := find(plan, "STREET SIDE")
			roof, ok2 := find(plan, "ROOF SIDE")
			if ok1 && ok2 && street.At.Y >= roof.At.Y {
				t.Errorf("piece %s: the street is not at the top", p.Mark)
			}
		}
	}
}

// STREET SIDE and ROOF SIDE each lie on their own side whatever the turn.
func TestSidesOfACorner(t *testing.T) {
	s := scenarios()[9] // sharp
	l := solved(t, s)
	c := newCorner(words.Book{}, l.Corner(special(l)[0]))
	d := &cornerDrawing{corner: c, m: paperMap{ratio: 10}}
	for _, k := range []struct {
		at   xy
		roof bool
	}{
		{xy{-900, 600}, true},   // between the legs of a 120 degree turn
		{xy{-400, -200}, false}, // above the left leg
		{xy{700, 300}, false},   // past the corner
	} {
		for _, roof := range []bool{true, false} {
			if got := holdsPoint(d.m.all(d.side(roof)...), d.m.at(k.at)); got != (roof == k.roof) {
				t.Errorf("%v: on the roof side %v, asked for %v", k.at, k.roof, roof)
			}
		}
	}
}

func TestShortNumbers(t *testing.T) {
	us, mm := length.Crew(false), length.Crew(true)
	for _, c := range []struct {
		st   length.Style
		l    length.Length
		want string
	}{{us, 13*inch + 3*inch/8, `13 3/8"`}, {us, 24 * inch, `2'-0"`}, {us, 30 * inch, `2'-6"`}, {mm, 686 * length.Millimetre, "686"}} {
		if got := shortNumber(c.st, c.l); got != c.want {
			t.Errorf("%v is lettered %s, want %s", c.l, got, c.want)
		}
	}
}

func TestCornersOfAnyJob(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		l, found := layout.Build(jobtest.Random(t))
		if found.HasErrors() {
			t.Skip("not a layout to draw")
		}
		all := special(l)
		if len(all) == 0 {
			t.Skip("no special piece")
		}
		p := all[rapid.IntRange(0, len(all)-1).Draw(t, "piece")]
		if len(p.Miters) > 2 {
			t.Skip("detailed by hand, and on hold")
		}
		k := CornerPlan(words.Book{}, l.Corner(p))
		sizes := k.Sizes(0)
		s, said := drawnAt(k, sizes[rapid.IntRange(0, len(sizes)-1).Draw(t, "size")])
		faultless(t, s)
		cornerNamed(t, l, p, said)
		handsInLegs(t, l, p, s)
	})
}

// handsInLegs checks that both hands are on a plan, and that no letter standing
// in the piece is on the wrong side of it.
func handsInLegs(t interface {
	Helper()
	Errorf(string, ...any)
}, l *layout.Layout, p *layout.Piece, s drawing.Scene) {
	t.Helper()
	words := lettering(s)
	for _, h := range []string{"L", "R"} {
		if !slices.Contains(strings.Fields(words), h) {
			t.Errorf("piece %s: the hand %s is not lettered", p.Mark, h)
		}
	}
	for _, q := range s.Texts() {
		if (q.Words == "L" || q.Words == "R") && q.Rotate != 0 {
			t.Errorf("piece %s: %s is not upright", p.Mark, q.Words)
		}
	}
}

// At the size of a usual sheet the letters of the hands stand in the legs, each
// near its end: the left of the piece's arriving leg, the right of its leaving.
func TestHandsStandInTheLegs(t *testing.T) {
	for _, s := range scenarios() {
		t.Run(s.name, func(t *testing.T) {
			l := solved(t, s)
			for _, p := range special(l) {
				c := newCorner(words.Book{}, l.Corner(p))
				d := &cornerDrawing{corner: c, m: paperMap{ratio: 8}}
				d.c = place.New(d.body().Inset(-cornerMargin))
				var g drawing.Scene
				d.handLetters(&g)
				for _, h := range d.bothHands() {
					k, ok := d.inLeg[h.letter]
					if !ok {
						t.Errorf("piece %s: %s does not stand in its leg", p.Mark, h.letter)
						continue
					}
					box, leg := k.box(), d.legs[h.leg]
					q := leg.polygon()
					ring := d.m.all(q[:]...)
					for _, at := range box.Corners() {
						if !holdsPoint(ring, at) {
							t.Errorf("piece %s: %s sticks out of its leg", p.Mark, h.letter)
						}
					}
					near, far := d.m.at(leg.at(0, leg.wide/2)), d.m.at(leg.at(leg.long, leg.wide/2))
					if h.right {
						near, far = far, near
					}
					if away(box.Centre(), near) > away(box.Centre(), far) {
						t.Errorf("piece %s: %s stands at the wrong end of its leg", p.Mark, h.letter)
					}
				}
			}
		})
	}
}

func away(a, b drawing.Point) float64 {
	return math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y))
}
