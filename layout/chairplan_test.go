package layout_test

import (
	"os"
	"testing"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"
)

// From above a chair shows the webs of its own body, where the section of its assembly
// has them before and behind its base, and the holes that are drilled in it.
func TestChairsFromAbove(t *testing.T) {
	bases := map[[2]length.Length]bool{}
	for _, name := range []string{"l-shape", "metric", "rectangle"} {
		j, found := job.Read(os.DirFS("../samples"), name+"/job.yaml")
		if found.HasErrors() {
			t.Fatal(found)
		}
		l, _ := layout.Build(j)
		s := &j.System
		for _, r := range l.Runs() {
			for _, c := range r.Chairs {
				chair := s.ChairOf(c.Assembly)
				var base job.Flange
				for _, f := range chair.Blank.Section {
					if f.Across {
						base = f
					}
				}
				p := l.ChairPlan(c)
				if len(p.Webs) != 2 {
					t.Fatalf("%s %s: %d webs", name, c.Name, len(p.Webs))
				}
				bases[[2]length.Length{base.Before, base.Behind}] = true
				for end, inside := range ends(c, s) {
					for i, want := range []length.Length{cap.ChairLine(s) + base.Before + chair.Thickness/2, cap.ChairRear(s, inside) - base.Behind - chair.Thickness/2} {
						if got := p.Webs[i][end].Y; got-want > 2 || want-got > 2 {
							t.Errorf("%s %s: web %d at end %d lies %v behind the cap line, want %v", name, c.Name, i, end, got, want)
						}
					}
				}
				if first, want := p.Holes[0].X, c.Left(s)+chair.Blank.Inset; c.Rows[0].Count > 1 && first != want {
					t.Errorf("%s %s: first hole at %v, want %v", name, c.Name, first, want)
				}
			}
		}
	}
	if len(bases) < 4 {
		t.Errorf("%d chairs differ in plan", len(bases))
	}
}

func ends(c *layout.Chair, s *job.System) [2]length.Length {
	left, right := c.Edges(s)
	return [2]length.Length{left, right}
}
