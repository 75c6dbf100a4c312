package layout_test

import (
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/cap"
)

// The rear fold of a leg as it is cut is that of the piece, with what is shipped over, and
// its ends are told as its miters are; what no miter joins is square or closed.
func TestEndsOfMadeBodies(t *testing.T) {
	seen := map[string]int{}
	for _, name := range []string{"rectangle", "l-shape", "metric"} {
		l, _ := solved(sampled(t, name))
		for _, f := range l.Families {
			p := f.Pieces[0]
			for i := range f.Bodies {
				ends, ok := layout.MadeEnds(f, i)
				if !ok {
					seen["plate"]++
					continue
				}
				seen[ends[0].Is]++
				seen[ends[1].Is]++
				rear, whole := layout.MadeRear(f, i)
				want := p.RearLength(layout.LegOf(f, i)) + p.Allowance
				if whole && f.Kind != cap.Transition && !strings.Contains(f.Kind.String(), "pitch") &&
					max(rear-want, want-rear) > 10 {
					t.Errorf("%s, %s: rear fold %v, want %v", p.Mark, f.Bodies[i].Name, rear, want)
				}
				for n, m := range p.Miters {
					if leg := layout.LegOf(f, i); leg == n && ends[1].Turn != m.Corner.CapTurn && m.Corner.Bend == 0 {
						t.Errorf("%s, %s: its right end turns %v, want %v", p.Mark, f.Bodies[i].Name, ends[1].Turn, m.Corner.CapTurn)
					}
				}
			}
		}
	}
	for _, is := range []string{"square", "corner", "break of slope", "seam", "end plate", "upstand", "plate"} {
		if seen[is] == 0 {
			t.Errorf("no end is a %s: %v", is, seen)
		}
	}
}
