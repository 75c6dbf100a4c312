package layout_test

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/fact"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"

	"pgregory.net/rapid"
)

// Names a job may give that could run into those of other things: perimeters and
// runs called as chairs, corners and pieces are.
func confusing(t *rapid.T, j *job.Job) {
	if !rapid.Bool().Draw(t, "confusing names") {
		return
	}
	was := map[string]string{}
	names := []string{"N", "N-C1", "E", "N-J1", "N-01", "N-C10", "C1", "01", "system", "job", "a|b", "N.E",
		"crate 1", "W", "S", "K"}
	n := 0
	for i := range j.Perimeters {
		p := &j.Perimeters[i]
		was[p.Name] = names[len(names)-1-i%4]
		p.Name = was[p.Name]
		for k := range p.Runs {
			if n < len(names) {
				was["run "+p.Runs[k].Name] = names[n]
				p.Runs[k].Name = names[n]
				n++
			}
		}
	}
	renamed := func(e *job.End) {
		if e.Tee != nil {
			to := *e.Tee
			to.Perimeter, to.Run = was[to.Perimeter], was["run "+to.Run]
			e.Tee = &to
		}
	}
	for i := range j.Perimeters {
		p := &j.Perimeters[i]
		renamed(&p.Starts)
		for k := range p.Runs {
			renamed(&p.Runs[k].Right)
		}
	}
}

func anyJob(t *rapid.T) *job.Job {
	switch rapid.IntRange(0, 3).Draw(t, "kind of job") {
	case 0:
		return jobtest.Uneven(t)
	case 1:
		return jobtest.RandomCross(t)
	}
	return jobtest.Random(t)
}

// No two facts have one name, every value reads as its unit says, and the same
// layout gives the same ledger.
func TestFactsOfAnyJob(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		j := anyJob(t)
		confusing(t, j)
		l, found := solved(j)
		if found.HasErrors() {
			t.Skip("not a layout")
		}
		led := l.Facts()
		if twice := led.Twice(); len(twice) > 0 {
			t.Fatalf("named twice: %v", twice)
		}
		names := map[string]bool{}
		for _, f := range led {
			if f.Of == "" || f.What == "" || strings.Contains(f.What, ".") || names[f.Name()] {
				t.Fatalf("%q is no name of one fact", f.Name())
			}
			names[f.Name()] = true
			if f.Unit == fact.Length && f.Value != fact.Nanometres(f.Length()) || f.Unit == fact.Lengths && f.Value != "" && f.Lengths() == nil {
				t.Fatalf("%s: %q is no length", f.Name(), f.Value)
			}
		}
		again, _ := solved(j)
		if d := fact.Diff(led, again.Facts()); len(d) > 0 {
			t.Fatalf("%s differs from one solving to the next", d[0].Name())
		}
		factsAgree(t, l, led)
	})
}

// factsAgree holds the ledger against the layout, thing by thing.
func factsAgree(t *rapid.T, l *layout.Layout, led fact.Ledger) {
	want := func(of, what string, v length.Length) {
		if f, ok := led.Get(of, what); !ok || f.Length() != v {
			t.Fatalf("%s.%s is %v, want %v", of, what, f.Value, v)
		}
	}
	for _, p := range l.Perimeters {
		for _, r := range p.Runs {
			want(layout.FactOfRun(r), "cap-line", r.Cap)
			want(layout.FactOfRun(r), "cap-begins", -r.Datum)
			for _, c := range r.Chairs {
				want(c.Name, "station", c.At-r.Datum)
				if f, _ := led.Get(c.Name, "shims-rear"); !slices.Equal(f.Lengths(), c.ShimRear) {
					t.Fatalf("%s: %v, want %v", f.Name(), f.Lengths(), c.ShimRear)
				}
			}
			for _, q := range r.Joints {
				want(q.Name, "station", q.Centre()-r.Datum)
				want(q.Name, "gap", q.Gap())
			}
			for i := range r.Job.Obstacles {
				o := &r.Job.Obstacles[i]
				want(layout.FactOfObstacle(r, o), "station", r.ToCrew(r.ToCap(r.FrontStation(o.Station))))
			}
		}
		var pieces length.Length
		for _, q := range p.Pieces {
			for i := range q.Parts {
				pieces += led.Length(q.Mark, layout.PartLength(i))
			}
		}
		var parts length.Length
		for _, q := range p.Pieces {
			for _, x := range q.Parts {
				parts += x.Length()
			}
		}
		if pieces != parts {
			t.Fatalf("pieces of %s are %v long in the ledger, want %v", p.Job.Name, pieces, parts)
		}
	}
}

// A mirrored job has the same screws, shims, gaps and lengths of pieces.
func TestFactsMirror(t *testing.T) {
	draws.Check(t, 12, func(t *rapid.T) {
		j := jobtest.Random(t)
		a, found := solved(j)
		if found.HasErrors() {
			t.Skip("not a layout")
		}
		b, _ := solved(mirror(j))
		of := func(l *layout.Layout) []string {
			var out []string
			// A run's counts are summed: the chair under a joint at a kink is counted with
			// one of its two runs, in the mirror with the other.
			counts := map[string]int{}
			for _, f := range l.Facts() {
				switch {
				case f.Kind == fact.Piece && f.Unit != fact.Length, f.Kind != fact.Piece && f.Kind != fact.Screw && f.Kind != fact.Shim && f.Kind != fact.Gap:
				case f.Kind == fact.Piece:
					out = append(out, f.Value)
				case strings.HasPrefix(f.What, "shims-front-"), strings.HasPrefix(f.What, "shims-rear-"):
					n, err := strconv.Atoi(f.Value)
					if err != nil {
						t.Fatalf("%s is %q", f.Name(), f.Value)
					}
					counts[f.What] += n
				default:
					out = append(out, f.What+" "+f.Value)
				}
			}
			for what, n := range counts {
				out = append(out, what+" "+strconv.Itoa(n))
			}
			slices.Sort(out)
			return out
		}
		if x, y := of(a), of(b); !slices.Equal(x, y) {
			t.Fatalf("%d facts and %d in the mirror differ", len(x), len(y))
		}
	})
}

// What changed from one issue to the next is told by the names of facts.
func TestFactsTellWhatChanged(t *testing.T) {
	j := jobtest.Job()
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*length.Inch, 240*length.Inch)}
	was := build(t, j).Facts()
	j.System.Joint.Gap += length.Inch16
	changed := fact.Diff(was, build(t, j).Facts())
	if !slices.ContainsFunc(changed, func(c fact.Change) bool { return c.Name() == "A-J1.gap" }) {
		t.Errorf("a wider gap is not told: %d changes", len(changed))
	}
	if slices.ContainsFunc(changed, func(c fact.Change) bool {
		return strings.HasPrefix(c.Name(),
			"run ROOF/A.wall")
	}) {
		t.Error("the wall has not changed")
	}
}

// What is wrong at a place of a run is told by the station that the crew tapes there, as
// its fact and the sheets have it, wherever its stations start.
func TestFindingsTellTheCrewsStations(t *testing.T) {
	j := jobtest.Job()
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*length.Inch, 240*length.Inch)}
	for i := range j.Perimeters[0].Runs {
		j.Perimeters[0].Runs[i].Datum = job.Datum{Mark: "scupper", At: 31 * length.Inch}
	}
	j.Packing.Most, j.System.Lap.Rear = length.Inch/8, 3*length.Inch
	l, _ := solved(j)
	led, names, seen := l.Facts(), l.FindingNames(), 0
	for i, f := range l.Findings {
		if !f.Where.HasStation || !strings.Contains(f.What, "at station ") {
			continue
		}
		seen++
		at := led.Length(names[i], "station")
		if at == f.Where.Station {
			t.Errorf("%s: the crew's station is that of the plumbed corner", f.Code)
		}
		if want := "at station " + job.Both(at); !strings.Contains(f.What, want) {
			t.Errorf("%s says %q, its fact is %s", f.Code, f.What, want)
		}
	}
	if seen < 4 {
		t.Errorf("%d findings with stations", seen)
	}
}
