package wall

import (
	"slices"
	"testing"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

func TestClassicSlips(t *testing.T) {
	cases := []struct {
		name    string
		measure string
		slip    func(all []job.Reading)
		hint    string
	}{
		{"an inch misread", "width", func(q []job.Reading) { q[4].Width += in }, "1 inch too much"},
		{"two digits changed over", "width", func(q []job.Reading) { q[4].Width += 9 * in }, "digits"},
		{"a turned sign", "offset", func(q []job.Reading) {
			for i := range q {
				q[i].Offset = -3 * in / 8
			}
			q[4].Offset = 3 * in / 8
		}, "sign"},
		{"a top an inch low", "street top", func(q []job.Reading) { q[4].TopOutside -= in }, "1 inch too little"},
		{"two tops changed over", "street top", func(q []job.Reading) {
			for i := range q {
				q[i].TopInside -= 3 * in / 8
			}
			q[4].TopInside, q[4].TopOutside = q[4].TopOutside, q[4].TopInside
		}, "each other's place"},
		{"a foot in the station", "station", func(q []job.Reading) { q[4].Station += 12 * in }, "pitch"},
	}
	for _, c := range cases {
		j := square()
		c.slip(j.Perimeters[0].Runs[1].Readings)
		p, found := build(t, j)
		s := p[0].Runs[1].Suspects
		if len(s) == 0 || s[0].Measure != c.measure || s[0].Reading != &p[0].Runs[1].Readings[4] || !contains(s[0].Hint, c.hint) {
			t.Errorf("%s: suspects %+v", c.name, s)
			continue
		}
		if h := found.Holds(); len(h) == 0 || h[0].Code != "survey-slip" || !contains(h[0].Mend, "measure again") {
			t.Errorf("%s: %v", c.name, found)
		}
		for _, r := range []int{0, 2, 3} {
			if len(p[0].Runs[r].Suspects) > 0 {
				t.Errorf("%s: run %d is doubted too", c.name, r)
			}
		}
	}
}

// A doubted offset moves the corner points of the neighbours; a doubted
// reading that governs the perimeter holds all of it.
func TestWhatADoubtedReadingHolds(t *testing.T) {
	j := square()
	j.Perimeters[0].Runs[1].Readings[4].Offset = -in
	j.Perimeters[0].Runs[3].Readings[4].Width = 14 * in // needs more than the rest
	_, found := build(t, j)
	var runs []string
	for _, f := range found.Holds() {
		runs = append(runs, f.Where.Run)
	}
	slices.Sort(runs)
	if !slices.Equal(runs, []string{"", "A", "B", "C"}) {
		t.Errorf("held %q: %v", runs, found)
	}
}

func TestClearedReadings(t *testing.T) {
	j := square()
	r := &j.Perimeters[0].Runs[1]
	r.Readings[4].Width += in
	r.Cleared = []job.Cleared{
		{Station: 120 * in, Measure: job.MeasureWidth, By: "surveyor", Value: r.Readings[4].Width},
		{Station: 120 * in, Measure: job.MeasureOffset, By: "surveyor", Value: r.Readings[4].Offset},
	}
	p, found := build(t, j)
	if s := p[0].Runs[1].Suspects; len(s) != 1 || s[0].Cleared != &r.Cleared[0] {
		t.Errorf("%+v", s)
	}
	if len(found) != 1 || found[0].Code != "cleared-nothing" || found[0].Severity != finding.Note || !contains(found[0].What, "offset") {
		t.Errorf("%v", found)
	}
}

// An entry clears the reading it repeats: a survey that changed since is doubted
// again, and a later slip in a reading nobody doubts is seen all the same.
func TestClearedReadingsThatChanged(t *testing.T) {
	j := square()
	r := &j.Perimeters[0].Runs[1]
	r.Readings[4].Width += in
	r.Cleared = []job.Cleared{{Station: 120 * in, Measure: job.MeasureWidth, By: "surveyor", Value: r.Readings[4].Width}}
	r.Readings[4].Width += 2 * in
	p, found := build(t, j)
	if s := p[0].Runs[1].Suspects; len(s) != 1 || s[0].Cleared != nil {
		t.Errorf("%+v", s)
	}
	said := false
	for _, f := range found.Holds() {
		said = said || f.Code == "cleared-differs" && f.Where.Run == "B" && contains(f.What, "1'-1\"") && contains(f.What, "1'-3\"")
	}
	if !said {
		t.Errorf("the change is not said: %v", found)
	}
	j = square()
	r = &j.Perimeters[0].Runs[1]
	r.Readings[4].Conditions = []job.Condition{job.Wet, job.Rotten}
	r.Cleared = []job.Cleared{{Station: 120 * in, Measure: job.MeasureCondition, By: "surveyor", Conditions: []job.Condition{job.Wet}}}
	p, found = build(t, j)
	if u := p[0].Runs[1].Unsound; len(u) != 1 || u[0].Cleared != nil {
		t.Errorf("%+v", u)
	}
	if h := found.Holds(); len(h) != 1 || h[0].Code != "cleared-differs" || !contains(h[0].What, "wet and rotten") {
		t.Errorf("%v", found)
	}
}

func TestTheJobsOwnDoubt(t *testing.T) {
	j := square()
	j.Perimeters[0].Runs[1].Readings[4].Width += in
	j.Survey = job.SurveyCheck{Least: 2 * in, Times: 4}
	if p, _ := build(t, j); len(p[0].Runs[1].Suspects) > 0 {
		t.Errorf("%+v", p[0].Runs[1].Suspects)
	}
}

func TestUnsoundStretches(t *testing.T) {
	j := square()
	r := &j.Perimeters[0].Runs[2]
	r.Readings[0].Conditions = []job.Condition{job.Wet}
	r.Readings[4].Conditions = []job.Condition{job.Fixings, job.Rotten}
	r.Readings[6].Conditions = []job.Condition{job.Pipes}
	r.Cleared = []job.Cleared{{Station: 0, Measure: job.MeasureCondition, By: "surveyor", Conditions: []job.Condition{job.Wet}}}
	p, found := build(t, j)
	u := p[0].Runs[2].Unsound
	if len(u) != 2 || u[0].From != 0 || u[0].To != 30*in || u[0].Cleared == nil ||
		u[1].From != 90*in || u[1].To != 150*in || u[1].Cleared != nil || !slices.Equal(u[1].Conditions, []job.Condition{job.Rotten}) {
		t.Errorf("%+v", u)
	}
	if len(found) > 0 {
		t.Errorf("%v", found)
	}
}

// Readings against the published limits, at the limit and a hair beyond it.
func TestLimits(t *testing.T) {
	masonry := []job.Layer{{Name: "block", Material: job.Masonry, Thickness: 16 * in}}
	concrete := []job.Layer{{Name: "cast", Material: job.Concrete, Thickness: 16 * in}}
	tops := func(i int, v length.Length) func([]job.Reading) {
		return func(q []job.Reading) {
			for k := i; k < i+2; k++ {
				q[k].TopOutside, q[k].TopInside = v, v
			}
		}
	}
	cases := []struct {
		name   string
		layers []job.Layer
		change func([]job.Reading)
		beyond []string
	}{
		{"level masonry", masonry, func([]job.Reading) {}, nil},
		{"masonry 1/4 either way", masonry, tops(3, -in/2), nil},
		{"masonry beyond 1/4 either way", masonry, tops(3, -17*length.Inch32), []string{"masonry top, level in 10 ft (3.05 m), either way"}},
		{"masonry face 1/4 either way", masonry, func(q []job.Reading) { q[3].Offset, q[4].Offset = in/2, in/2 }, nil},
		{"masonry face beyond", masonry, func(q []job.Reading) { q[3].Offset, q[4].Offset = 13*length.Inch16, 13*length.Inch16 },
			[]string{"masonry face, true to line in 10 ft (3.05 m), either way", "masonry face, true to line in 20 ft (6.10 m), either way"}},
		{"concrete an inch up and down", concrete, tops(3, -in), nil},
		{"concrete beyond", concrete, tops(3, -9*in/8), []string{"concrete parapet, level along the run, either way"}},
		{"concrete thickness", concrete, func(q []job.Reading) { q[3].Width, q[4].Width = 12*in+11*length.Inch16, 12*in+11*length.Inch16 },
			[]string{"concrete wall to 12 in (305 mm), thickness +3/8 in (9.5 mm) -1/4 in (6.4 mm), widest less narrowest"}},
	}
	for _, c := range cases {
		j := square()
		j.Walls[0].Layers = c.layers
		c.change(j.Perimeters[0].Runs[1].Readings)
		p, found := build(t, j)
		var got []string
		for _, l := range p[0].Runs[1].Limits {
			if l.Source == "" || l.Sure == "" {
				t.Errorf("%s: %s has no source", c.name, l.Name)
			}
			if !l.Within {
				got = append(got, l.Name)
			}
		}
		if !slices.Equal(got, c.beyond) {
			t.Errorf("%s: beyond %q, want %q", c.name, got, c.beyond)
		}
		if n := found.Count(finding.Note); n != len(c.beyond) {
			t.Errorf("%s: %v", c.name, found)
		}
	}
}

// A top the job grades is held to a slope of its own, not to level: one that
// rises evenly by 20 in is true, and one that leaves its slope by more than half
// an inch either way is not. Without the grade the same rise is far from level.
func TestLimitsOfAGradedTop(t *testing.T) {
	for _, c := range []struct {
		name   string
		graded bool
		dip    length.Length
		beyond []string
	}{
		{"true to its slope", true, 0, nil},
		{"a dip of an inch and a quarter", true, 5 * in / 4, []string{"concrete parapet, true to its slope along the run, either way"}},
		{"no grade", false, 0, []string{"concrete parapet, level along the run, either way"}},
	} {
		j := square()
		j.Walls[0].Layers = []job.Layer{{Name: "cast", Material: job.Concrete, Thickness: 16 * in}}
		r := &j.Perimeters[0].Runs[1]
		if c.graded {
			r.Grade = &job.Grade{Most: job.Slope(1_000_000_000 / 4)}
		}
		for i := range r.Readings {
			q := &r.Readings[i]
			q.TopOutside = length.MulDiv(20*in, int64(q.Station), int64(r.Length))
			q.TopInside = q.TopOutside
		}
		r.Readings[4].TopOutside -= c.dip
		p, _ := build(t, j)
		var got []string
		for _, l := range p[0].Runs[1].Limits {
			if !l.Within {
				got = append(got, l.Name)
			}
		}
		if !slices.Equal(got, c.beyond) {
			t.Errorf("%s: beyond %q, want %q", c.name, got, c.beyond)
		}
	}
}

func TestRFIs(t *testing.T) {
	j := square()
	r := j.Perimeters[0].Runs
	r[0].Basis = job.Drawing
	for i := 2; i < 5; i++ {
		r[1].Readings[i].Conditions = []job.Condition{job.Wet}
		r[1].Readings[i].Photos = []string{"7", "8"}
	}
	r[1].Readings[6].Conditions = []job.Condition{job.Flashing}
	r[2].Readings[4].Width += in
	r[3].Readings = r[3].Readings[1:]
	r[3].Readings[0].Offset = in / 8
	for _, i := range []int{4, 5} {
		r[3].Readings[i].TopOutside, r[3].Readings[i].TopInside = -in, -in
	}
	p, _ := build(t, j)
	want := []struct {
		run, what string
		from, to  length.Length
		photos    int
	}{
		{"A", "drawing", 0, 240 * in, 0},
		{"B", "wet", 60 * in, 120 * in, 2},
		{"B", "flashing", 180 * in, 180 * in, 0},
		{"C", "width", 120 * in, 120 * in, 0},
		{"D", "corners", 0, 240 * in, 0},
		{"D", "straightedge", 90 * in, 210 * in, 0},
	}
	got := RFIs(p)
	if len(got) != len(want) {
		t.Fatalf("%+v", got)
	}
	for i, w := range want {
		g := got[i]
		if g.Run.Name != w.run || !contains(g.What, w.what) || g.From != w.from || g.To != w.to || len(g.Photos) != w.photos || g.Ask == "" {
			t.Errorf("%d: run %s %+v, want %+v", i, g.Run.Name, g, w)
		}
	}
	if got[5].Limit == "" || got[5].Source == "" {
		t.Errorf("no limit: %+v", got[5])
	}
}
