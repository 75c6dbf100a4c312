package layout_test

import (
	"slices"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

// A hole that cannot be cut in the flat of the top holds its piece, and no other.
func TestHolesLieInTheTop(t *testing.T) {
	cases := []struct {
		name         string
		from, across float64 // inches
		want         string  // empty: it fits
	}{
		{"in the middle", 6, 5, ""},
		{"close by the front fold", 3, 5, ""},
		{"through the front fold", 2, 5, "hole-in-fold"},
		{"through the rear fold", 10.5, 5, "hole-in-fold"},
		{"wider than the top", 6, 20, "hole-wide"},
		{"behind the cap", 30, 5, "hole-off"},
	}
	for _, c := range cases {
		j := jobtest.Job()
		j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*in, 240*in)}
		o := job.Obstacle{Name: "vent pipe", Station: 200 * in, Extent: 5 * in, FromFace: length.FromInches(c.from),
			Depth: length.FromInches(c.across),
			Does:  job.Pierces, Collar: "plumber"}
		j.Perimeters[0].Runs[0].Obstacles = []job.Obstacle{o}
		l, found := layout.Build(j)
		var got []finding.Finding
		for _, f := range found {
			if strings.HasPrefix(f.Code, "hole-") {
				got = append(got, f)
			}
		}
		if c.want == "" && len(got) > 0 || c.want != "" && (len(got) != 1 || got[0].Code != c.want ||
			len(got[0].Where.Pieces) != 1) {
			t.Errorf("%s: %v", c.name, got)
			continue
		}
		if c.want != "" && !slices.ContainsFunc(l.Withheld,
			func(q *layout.Piece) bool { return q.Mark == got[0].Where.Pieces[0] && len(q.Cutouts) == 1 }) {
			t.Errorf("%s: piece %s is released", c.name, got[0].Where.Pieces[0])
		}
	}
}

// What one by one is heavier than a crate may be is not released.
func TestPiecesOverTheCrate(t *testing.T) {
	j := jobtest.Job()
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*in, 240*in)}
	j.Crating.WeightMost = 5000
	l, found := layout.Build(j)
	i := slices.IndexFunc(found, func(f finding.Finding) bool { return f.Code == "piece-over-crate" })
	if i < 0 || found[i].Severity != finding.Hold || len(found[i].Where.Pieces) == 0 {
		t.Fatal(found)
	}
	for _, p := range l.Perimeters {
		for _, q := range p.Pieces {
			if over := l.Weight(q).Shipped > 5000; over != slices.Contains(found[i].Where.Pieces, q.Mark) {
				t.Errorf("%s of %d g: over %v", q.Mark, l.Weight(q).Shipped, over)
			}
		}
	}
}
