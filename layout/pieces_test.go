package layout_test

import (
	"testing"

	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"
	"copingset/layout/plan"

	"pgregory.net/rapid"
)

// What lists tell of pieces and joints is what the facts have of them, and counts add
// up to the pieces there are.
func TestMadeAgreesWithFacts(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		l, found := solved(anyJob(t))
		if found.HasErrors() {
			t.Skip("not a layout")
		}
		facts, several := l.Facts(), len(l.Perimeters) > 1
		var miters, breaks, ends int
		for _, p := range l.Perimeters {
			for _, q := range p.Pieces {
				m := l.Made(q)
				switch m.Making {
				case plan.MadeTurning:
					miters += len(q.Miters)
				case plan.MadeBreaking:
					breaks++
				case plan.MadeEnding:
					ends++
				case plan.MadeStraight, plan.MadeTapering, plan.MadeTee:
					if len(q.Miters) > 0 {
						t.Errorf("piece %s has miters and is made by %d", q.Mark, m.Making)
					}
				}
				if m.LegsDiffer() != (len(m.Widths) > 1 && !m.Tapers() && q.Wide != q.Narrow) || m.Tapers() && (len(m.Widths) != 2 || m.Widths[0] >= m.Widths[1]) {
					t.Errorf("piece %s is %v wide, %v in girth", q.Mark, m.Widths, m.Girths)
				}
				if (m.CutAt != "") != (q.Allowance > 0) {
					t.Errorf("piece %s ships %v long, cut at %q", q.Mark, q.Allowance, m.CutAt)
				}
				if several { // marks may be those of another perimeter too
					continue
				}
				if got, want := facts.Value(q.Mark, "lift"), [...]string{"one person", "two persons", "mechanical"}[m.Lift]; got != want {
					t.Errorf("piece %s is lifted by %s, its fact says %s", q.Mark, want, got)
				}
			}
			for _, r := range p.Runs {
				loose := 0
				for _, q := range r.Joints {
					row := l.JointRow(r, q)
					if row.Loose {
						loose++
						continue
					}
					if several {
						continue
					}
					if facts.Length(q.Name, "station") != row.Crew || facts.Length(q.Name, "gap") != row.Gap || facts.Value(q.Name, "kind") != row.Kind {
						t.Errorf("joint %s: %+v", q.Name, row)
					}
				}
				if n := len(l.LooseJoints(r)); n != loose || n != len(r.Job.Expansion) {
					t.Errorf("run %s: %d joints over %d building expansion joints", r.Name, n, len(r.Job.Expansion))
				}
			}
		}
		if n := l.Counts(); n.Miters != miters || n.Breaks != breaks || n.Ends != ends {
			t.Errorf("counts %+v, of %d miters, %d breaks, %d ends", n, miters, breaks, ends)
		}
	})
}

// What both ways to level take, of the perimeters, comes to that of the job; labour
// is rounded to the minute, money to the hundredth.
func TestLevellingAddsUp(t *testing.T) {
	j := jobtest.Job()
	j.Packing.Method = job.PackContinuous
	second := jobtest.Rectangle(300*length.Inch, 200*length.Inch)
	second.Name = "SECOND"
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*length.Inch, 360*length.Inch), second}
	for k := range j.Perimeters {
		for i := range j.Perimeters[k].Runs {
			q := j.Perimeters[k].Runs[i].Readings
			q[2].TopInside -= length.Inch / 4
			q[3].TopOutside -= length.Inch / 8
		}
	}
	l := build(t, j)
	whole := l.Levelling(&l.Packing)
	var sum plan.Levelling
	for _, p := range l.Perimeters {
		x := l.Levelling(&p.Packing)
		for _, e := range []struct {
			to *plan.Effort
			of plan.Effort
		}{{&sum.Continuous, x.Continuous}, {&sum.Chairs, x.Chairs}} {
			e.to.Pieces += e.of.Pieces
			e.to.Shims += e.of.Shims
			e.to.Strips += e.of.Strips
			e.to.Layers += e.of.Layers
		}
	}
	for _, c := range []struct{ got, want plan.Effort }{{whole.Continuous, sum.Continuous}, {whole.Chairs, sum.Chairs}} {
		if c.got.Pieces != c.want.Pieces || c.got.Pieces != c.got.Shims+c.got.Strips || c.got.Layers != c.want.Layers || c.got.Shims == 0 {
			t.Errorf("the job takes %+v, its perimeters %+v", c.got, c.want)
		}
	}
}
