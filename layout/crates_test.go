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
	"copingset/layout/job/jobtest"
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
	rapid.Check(t, func(t *rapid.T) {
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
