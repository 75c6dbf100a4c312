package view

import (
	"strings"
	"testing"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

// fallen is a roof whose tops fall along its first run and rise again along the
// second, with a grade that lets the set surface follow.
func fallen(t *testing.T) *layout.Layout {
	t.Helper()
	const in = length.Inch
	j := jobtest.Job()
	j.Packing.Grade, j.Packing.Twist = 10_000_000, in/4
	p := jobtest.Rectangle(480*in, 480*in)
	for i := range p.Runs {
		for k := range p.Runs[i].Readings {
			q := &p.Runs[i].Readings[k]
			var z length.Length
			switch i {
			case 0:
				z = -q.Station / 200
			case 1:
				z = -(480*in - q.Station) / 200
			}
			q.TopOutside, q.TopInside = length.RoundTo(z, length.Inch16), length.RoundTo(z, length.Inch16)
		}
	}
	j.Perimeters = []job.Perimeter{p}
	l, found := layout.Build(j)
	if found.HasErrors() {
		t.Fatal(found)
	}
	return l
}

// A set surface that falls along a run is drawn falling: chairs sit on it, and
// its heights at both ends are said on elevation and report.
func TestSetSurfaceFalls(t *testing.T) {
	l := fallen(t)
	r := l.Runs()[0]
	if r.SetLeft <= r.SetRight {
		t.Fatalf("the set surface goes from %v to %v: the case tests nothing", r.SetLeft, r.SetRight)
	}
	of := planned(l, r)
	along := Scale{Ratio: 48}
	e := newRunElev(runFrame{of: of, win: Window{From: 0, To: r.Cap, N: 1, Of: 1}, along: along, tape: length.Crew(of.Metric)}, stretched{along, 12})
	for i, c := range of.Chairs[1:] {
		if a, b := e.chairBox(of.Chairs[i]).Max.Y, e.chairBox(c).Max.Y; b < a {
			t.Errorf("chair %s stands at %v on paper, the one before it at %v", c.Mark, b, a)
		}
	}
	first, last := e.chairBox(of.Chairs[0]).Max.Y, e.chairBox(of.Chairs[len(of.Chairs)-1]).Max.Y
	if want := e.cross.Units(r.SetLeft - r.SetRight); last-first < want*8/10 || last-first > want {
		t.Errorf("the chairs fall by %v on paper, the set surface by %v", last-first, want)
	}
	plain := func(l length.Length) string { return strings.Join(strings.Fields(e.inWords(l)), " ") }
	left, right := plain(r.SetLeft), plain(r.SetRight)
	report := WallReport(words.Book{}, l.WallReport(r), WallParts(l.WallReport(r), 40000)[0], 40000, 15000)
	for _, want := range []string{"set surface " + left, "set surface " + right} {
		if w := runWords(report); !strings.Contains(w, want) {
			t.Errorf("the report does not say %q", want)
		}
	}
	for _, f := range drawing.Check(report) {
		t.Errorf("%s: %v", report.Name, f)
	}
}

// A report is cut where its readings would stand too close, and its parts cover
// the run once.
func TestWallPartsCoverTheRun(t *testing.T) {
	l := fallen(t)
	r := l.Runs()[0]
	for _, wide := range []drawing.Unit{9000, 20000, 40000} {
		parts := WallParts(l.WallReport(r), wide)
		at := length.Length(0)
		for _, p := range parts {
			if p.From != at || p.To <= p.From || p.Along.Units(p.To-p.From) > wide-reportLeft-reportRight {
				t.Errorf("on %v a part goes from %v to %v, after %v", wide, p.From, p.To, at)
			}
			at = p.To
		}
		if at != r.Front {
			t.Errorf("on %v the parts end at %v of %v", wide, at, r.Front)
		}
	}
	if n := len(WallParts(l.WallReport(r), 3600)); n < 2 {
		t.Errorf("%d part on paper too narrow for its readings", n)
	}
}
