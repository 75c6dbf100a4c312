package view

import (
	"strings"
	"testing"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length/draws"

	"pgregory.net/rapid"
)

// uneven is a roof whose first wall is wider in its middle.
func uneven() scenario {
	s := withPerimeters("a wall of two widths", rectangle(12*inch))
	s.job.System.PlayMost = 7 * inch / 8
	s.job.System.Transition = job.Transition{Length: 4 * foot, Leg: 7 * inch, ChangeMost: 3 * inch}
	r := &s.job.Perimeters[0].Runs[0]
	for i := range r.Readings {
		if q := &r.Readings[i]; q.Station > 12*foot && q.Station < 26*foot {
			q.Width += 2 * inch
		}
	}
	return s
}

func transitions(l *layout.Layout) []*layout.Piece {
	var out []*layout.Piece
	for _, q := range special(l) {
		if q.Kind == cap.Transition {
			out = append(out, q)
		}
	}
	return out
}

// transitionNamed checks that a plan says how long and wide the piece is, and
// at which hand its wide end lies.
func transitionNamed(t interface {
	Helper()
	Errorf(string, ...any)
}, l *layout.Layout, p *layout.Piece, s drawing.Scene) {
	t.Helper()
	words := strings.ToLower(lettering(s))
	for _, w := range []string{
		p.Mark, "street side", "roof side", "wide end is at your " + p.Hand.String() + " hand", "wide end at the " + p.Hand.String() + " hand",
		"l  ", "r  ", "narrow end",
		drawing.Letter(shortNumber(Crew(l), p.Length()) + " street side"), drawing.Letter(shortNumber(Crew(l), l.Job.System.Transition.Leg) + " leg"),
		drawing.Letter(Shop(l).Short(p.Wide) + " inside"), drawing.Letter(Shop(l).Short(p.Narrow) + " inside"),
	} {
		if !strings.Contains(words, strings.ToLower(w)) {
			t.Errorf("piece %s: %q is not lettered", p.Mark, w)
		}
	}
}

func TestTransitionPlansAreFaultless(t *testing.T) {
	l := solved(t, uneven())
	all := transitions(l)
	if len(all) < 2 {
		t.Fatalf("%d transitions", len(all))
	}
	for _, p := range all {
		s := CornerPlan(words.Book{}, l.Corner(p)).Scene("", 26000, 21000)
		faultless(t, s)
		transitionNamed(t, l, p, s)
	}
}

// Plans of transitions and of the runs they stand on are faultless on any wall.
func TestRandomTransitionPlans(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		l, found := layout.Build(jobtest.Uneven(t))
		if found.HasErrors() {
			t.Skip(found)
		}
		for i, p := range transitions(l) {
			if i == 1 {
				break
			}
			s := CornerPlan(words.Book{}, l.Corner(p)).Scene("", 26000, 21000)
			faultless(t, s)
			transitionNamed(t, l, p, s)
		}
	})
}
