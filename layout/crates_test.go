package layout_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/crate"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"
)

// crated names what lies in the crates by its place on the wall, top down.
func crated(l *layout.Layout, flip bool) []string {
	var out []string
	for _, c := range l.Crates {
		if c.Kind == crate.Hardware {
			continue
		}
		var items []string
		for _, i := range c.Items {
			var places []string
			for _, t := range i.Piece.Parts {
				from, to := t.From, t.To
				if flip {
					from, to = t.Run.Cap-to, t.Run.Cap-from
				}
				places = append(places, fmt.Sprintf("%s %d to %d", t.Run.Name, from, to))
			}
			slices.Sort(places)
			items = append(items, strings.Join(places, " and ")+" lot "+i.Lot)
		}
		out = append(out, fmt.Sprint(c.Kind, ": ", strings.Join(items, ", ")))
	}
	return out
}

// The mirror of a job is packed in the mirrored order, into as many crates, and
// its corners are of the same lots.
func TestMirroredCrates(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		j := jobtest.Random(t)
		for i := range j.Perimeters[0].Runs {
			j.Perimeters[0].Runs[i].Elevation = string(rune('a' + i/2))
		}
		j.Crating.WeightMost = 60000
		a, b := build(t, j), build(t, mirror(j))
		// An absorbed turn belongs to the arriving run, which is the other one in the mirror.
		for _, p := range a.Perimeters {
			for _, r := range p.Runs {
				for _, k := range r.Joints {
					if k.Kind == cap.Kink {
						t.Skip("an absorbed turn")
					}
				}
			}
		}
		if x, y := crated(a, false), crated(b, true); !slices.Equal(x, y) {
			t.Fatalf("not the mirror:\n%s\n\n%s", strings.Join(x, "\n"), strings.Join(y, "\n"))
		}
	})
}

// A piece of too many miters holds itself and not what else lies on the run it
// begins on: that is another run in the mirror.
func TestMirroredManyMiters(t *testing.T) {
	const sq = 90 * job.Degree
	run := jobtest.Run
	j := jobtest.Job()
	j.System.LeastPiece, j.System.Corner.Leg, j.System.Corner.LongestLeg = 17*in, 20*in, 60*in
	j.System.Stock, j.System.Chair.Length, j.System.Joint.Gap = 72*in, 6*in, length.Inch/8
	j.Perimeters = []job.Perimeter{jobtest.Perimeter("JOG", job.Roof,
		run("A", 20*in, -sq), run("B", 6*in, sq), run("C", 10*in, sq), run("D", 6*in, -sq), run("E", 54*in+length.Inch/8, sq),
		run("F", 30*in, sq), run("G", 84*in+length.Inch/8, sq), run("H", 30*in, sq))}
	a, b := build(t, j), build(t, mirror(j))
	x, y := crated(a, false), crated(b, true)
	if !slices.ContainsFunc(a.Findings, func(f finding.Finding) bool { return f.Code == "many-miters" }) || !slices.Equal(x, y) || len(x) == 0 {
		t.Errorf("not the mirror:\n%s\n\n%s\n%v", strings.Join(x, "\n"), strings.Join(y, "\n"), a.Findings)
	}
}
