package view

import (
	"strings"
	"testing"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"
	"copingset/layout/plan"

	"pgregory.net/rapid"
)

// someOf thins a long list, first and last kept.
func someOf[T any](all []T, most int) []T {
	if len(all) <= most {
		return all
	}
	out := make([]T, 0, most)
	for i := range most {
		out = append(out, all[i*(len(all)-1)/(most-1)])
	}
	return out
}

func TestSectionsAreFaultless(t *testing.T) {
	for _, s := range scenarios() {
		t.Run(s.name, func(t *testing.T) {
			l := solved(t, s)
			for _, r := range someOf(l.Runs(), 3) {
				for _, c := range someOf(r.Chairs, 2) {
					keyedTrue(t, func(b words.Book) *Keyed {
						return Section(b, l.Section(r, c.At, c, nil), SectionPlain, drawing.Plain("a note")...)
					})
					keyedTrue(t, func(b words.Book) *Keyed { return Section(b, l.Section(r, c.At, c, nil), SectionDetailed) })
				}
				for _, j := range someOf(r.Joints, 3) {
					keyedTrue(t, func(b words.Book) *Keyed { return Section(b, l.SectionAtJoint(r, j), SectionBrief) })
				}
			}
		})
	}
}

// keyedTrue fails on a drawing that a reader would stumble over at any of its sizes, in
// any language, or that leaves the size it said it would have.
func keyedTrue(t interface {
	Helper()
	Errorf(string, ...any)
}, of func(words.Book) *Keyed) {
	t.Helper()
	for _, lang := range []words.Lang{words.English, words.Longer} {
		k := of(words.Book{Lang: lang})
		for _, z := range k.Sizes(0) {
			s, _ := drawnAt(k, z)
			faultless(t, s)
			if got := s.Bounds(); !drawing.Box(-20, -20, z.W+20, z.H+20).Contains(got) {
				t.Errorf("%s at 1:%d takes %v of %v × %v", k.ID, z.Scale, got, z.W, z.H)
			}
		}
	}
}

// The observer looks along growing stations: the street is at the left.
func TestSectionHasTheStreetAtTheLeft(t *testing.T) {
	l := solved(t, scenarios()[0])
	r := l.Runs()[0]
	s := cutScene(l.Section(r, r.Chairs[1].At, r.Chairs[1], nil), 25000, 18000)
	street, ok1 := find(s, "STREET SIDE")
	roof, ok2 := find(s, "ROOF SIDE")
	if !ok1 || !ok2 || street.At.X >= roof.At.X {
		t.Error("street is not at the left of the roof")
	}
	// The front leg is the longer one in this job: it must be at the street's side.
	of := l.Section(r, r.Chairs[1].At, r.Chairs[1], nil)
	m := paperMap{ratio: 4}
	if front, rear := m.up(of.Feet[0]), m.up(of.Feet[1]); front.X >= rear.X || front.Y <= rear.Y {
		t.Error("the long front leg is not at the left")
	}
}

// The parts of a leg, as lettered, sum to the leg as lettered; a lap below the
// least is a hold on the sheet.
func TestSectionHoldsAShortLap(t *testing.T) {
	s := withPerimeters("short lap", rectangle(12*inch))
	s.job.Walls[0].CoverRear = 2 * inch
	l := solved(t, s)
	r := l.Runs()[0]
	words := lettering(cutScene(l.Section(r, r.Chairs[0].At, r.Chairs[0], nil), 25000, 20000))
	if !strings.Contains(words, "HOLD: the roof-side leg laps the wall joint by") || strings.Contains(words, "HOLD: the street-side leg") {
		t.Errorf("the short rear lap is not held: %s", words)
	}
}

func TestSectionOfAWallNobodyMeasuredIsHeld(t *testing.T) {
	all := scenarios()
	l := solved(t, all[len(all)-1])
	r := l.Runs()[2]
	words := lettering(cutScene(l.Section(r, r.Chairs[1].At, r.Chairs[1], nil), 25000, 22000))
	for _, want := range []string{"HOLD: the wall is not surveyed here", "NOT RELEASED"} {
		if !strings.Contains(words, want) {
			t.Errorf("missing %q", want)
		}
	}
}

func TestSectionOfAnExpansionJointHasNoChair(t *testing.T) {
	l := solved(t, scenarios()[0])
	for _, r := range l.Runs() {
		for _, j := range r.Joints {
			words := lettering(cutScene(l.SectionAtJoint(r, j), 25000, 20000))
			if has := strings.Contains(words, "Chair "); has == (j.Kind == cap.Expansion) {
				t.Errorf("joint %s: a chair is shown: %v", j.Name, has)
			}
			if j.Kind == cap.Expansion && !strings.Contains(words, "cap only") {
				t.Errorf("joint %s: the side its plate is held on is not named", j.Name)
			}
			if !strings.Contains(words, "Sealant tape, two strips") {
				t.Errorf("joint %s: its tape is not named", j.Name)
			}
		}
	}
}

func TestSectionsOfAnyJob(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		l, found := layout.Build(jobtest.Random(t))
		if found.HasErrors() {
			t.Skip("not a layout to draw")
		}
		runs := l.Runs()
		r := runs[rapid.IntRange(0, len(runs)-1).Draw(t, "run")]
		if len(r.Chairs) > 0 {
			c := r.Chairs[rapid.IntRange(0, len(r.Chairs)-1).Draw(t, "chair")]
			faultless(t, cutScene(l.Section(r, c.At, c, nil), 25000, 20000))
		}
		if len(r.Joints) > 0 {
			j := r.Joints[rapid.IntRange(0, len(r.Joints)-1).Draw(t, "joint")]
			faultless(t, cutScene(l.SectionAtJoint(r, j), 25000, 22000))
		}
	})
}

// A diameter is a name and never rounded; a thickness has the decimals it has.
func TestSectionRoundsNoDiameter(t *testing.T) {
	mm := length.Millimetre
	metric, feet := &sectionView{crew: length.Crew(true)}, &sectionView{crew: length.Crew(false)}
	for _, c := range []struct{ got, want string }{
		{metric.size(75 * mm / 10), "7.5 mm"},
		{metric.size(6 * mm), "6 mm"},
		{metric.size(1000 * mm), "1000 mm"},
		{metric.thin(7 * mm / 10), "0.7 mm"},
		{metric.thin(125 * mm / 100), "1.25 mm"},
		{feet.size(inch / 4), `1/4"`},
		{feet.size(5 * inch / 32), `5/32"`},
		{feet.size(216 * inch / 1000), `0.216"`},
		{feet.thin(inch / 20), `0.050"`},
	} {
		if c.got != c.want {
			t.Errorf("got %s, want %s", c.got, c.want)
		}
	}
}

// What the section says of packing and pilot says from where.
func TestSectionSaysWhereFrom(t *testing.T) {
	for _, sc := range scenarios() {
		l := solved(t, sc)
		for _, r := range l.Runs() {
			for _, c := range r.Chairs {
				s := newSectionView(words.Book{}, l.Section(r, c.At, c, nil))
				for i, row := range c.Rows {
					w := s.rowWords(i)
					if row.Length > 0 && (!strings.Contains(w, " thread + ") || row.Pilot > 0 && !strings.Contains(w, "deep below the top of the ")) {
						t.Fatalf("chair %s: %s", c.Name, w)
					}
				}
				if w := s.packWords(); !strings.Contains(w, "at the street face") || !strings.Contains(w, "at the roof face") {
					t.Fatalf("chair %s: %s", c.Name, w)
				}
			}
		}
	}
}

func TestLegendOfWhatIsDrawn(t *testing.T) {
	var s drawing.Scene
	s.Group(drawing.Wall, "", func(g *drawing.Scene) {
		g.Hatch(drawing.Masonry, drawing.Thin, drawing.Box(0, 0, 1000, 1000).Corners()...)
	})
	all := []LegendEntry{{Kind: drawing.Wood, Words: "wood"}, {Kind: drawing.Masonry, Words: "block"},
		{Kind: drawing.Shims, Words: "shims"}}
	if got := Drawn(all, s); len(got) != 1 || got[0].Words != "block" {
		t.Errorf("the legend is %v", got)
	}
}

// cutScene is a section by itself, with its details.
func cutScene(of plan.Section, w, h drawing.Unit) drawing.Scene {
	return Section(words.Book{}, of, SectionDetailed).Scene("", w, h)
}
