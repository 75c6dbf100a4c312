package layout_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"
	"copingset/layout/plan"

	"pgregory.net/rapid"
)

// A key plan closes where its perimeter does, turns at its corners by what the job
// says but for the closing, and has every run's ends and holds as the job and the
// findings have them.
func TestKeyPlanAgreesWithJob(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		j := anyJob(t)
		l, found := solved(j)
		if found.HasErrors() {
			t.Skip("not a layout")
		}
		k := l.KeyPlan()
		if k.Metric != (l.Job.Units == job.Metric) || len(k.Perimeters) != len(l.Perimeters) {
			t.Fatalf("%d perimeters, metric %v", len(k.Perimeters), k.Metric)
		}
		for i, p := range k.Perimeters {
			own := &j.Perimeters[i]
			if p.Name != own.Name || p.Closed() != (own.Kind != job.Open) || len(p.Runs) != len(own.Runs) {
				t.Fatalf("perimeter %s is %+v", own.Name, p)
			}
			if p.Misses.Real > 0 && !p.Closed() {
				t.Errorf("perimeter %s is open and misses closing by %v", p.Name, p.Misses.Real)
			}
			for n, r := range p.Runs {
				keyRunAgrees(t, l, p, n, &own.Runs[n])
				next := p.Runs[(n+1)%len(p.Runs)]
				if n+1 == len(p.Runs) && !p.Closed() {
					continue
				}
				if d := apart(r.To, next.From); d > 1e-3 {
					t.Errorf("run %s ends %.3f mm from where run %s begins", r.Name, d, next.Name)
				}
				turn := math.Remainder(bearing(next)-bearing(r)-own.Runs[n].Right.Turn.Degrees(), 360)
				if most := 1 + l.Perimeters[i].Closure.Length.MM()/100; math.Abs(turn) > most && apart(r.From, r.To) > 1000 && apart(next.From, next.To) > 1000 {
					t.Errorf("from run %s to run %s the plan turns %.2f° more than the job says", r.Name, next.Name, turn)
				}
			}
		}
	})
}

func apart(a, b plan.Pt) float64 { return math.Hypot((a.X - b.X).MM(), (a.Y - b.Y).MM()) }

// bearing of a run in degrees clockwise.
func bearing(r plan.KeyRun) float64 {
	return math.Atan2((r.To.Y-r.From.Y).MM(), (r.To.X-r.From.X).MM()) * 180 / math.Pi
}

func keyRunAgrees(t *rapid.T, l *layout.Layout, p plan.KeyPerimeter, n int, of *job.Run) {
	r := p.Runs[n]
	if r.Name != of.Name || r.Front.Real <= 0 || (r.Unmeasured != "") != (of.Basis == job.Drawing || len(of.Readings) < 2) {
		t.Errorf("run %s is %+v", of.Name, r)
	}
	held := slices.ContainsFunc(l.Holds(), func(f finding.Finding) bool { return f.Where.TouchesRun(p.Name, r.Name) })
	if held != r.Held {
		t.Errorf("run %s is held: %v, findings say %v", r.Name, r.Held, held)
	}
	at := length.Length(0)
	for _, z := range r.Zones {
		if z.From != at || z.To <= z.From {
			t.Errorf("run %s: zone from %v to %v after %v", r.Name, z.From, z.To, at)
		}
		at = z.To
	}
	if len(r.Zones) > 0 && at != r.Front.Real {
		t.Errorf("run %s: zones end at %v of %v", r.Name, at, r.Front.Real)
	}
	loose := 0
	for _, q := range r.Joints {
		if q.Expansion {
			loose++
		}
	}
	if loose != len(of.Expansion) {
		t.Errorf("run %s: %d building expansion joints, the job has %d", r.Name, loose, len(of.Expansion))
	}
	e := r.Ends[1]
	want := map[job.EndKind][]plan.KeyEndKind{job.EndTurn: {plan.KeyCorners}, job.EndPitch: {plan.KeyCorners}, job.EndFree: {plan.KeyFree}, job.EndWall: {plan.KeyDies},
		job.EndTee: {plan.KeyMeets}, job.EndStep: {plan.KeyStepUp, plan.KeyStepDown}}[of.Right.Kind]
	if !slices.Contains(want, e.Kind) {
		t.Errorf("run %s ends by %d, the job has kind %d", r.Name, e.Kind, of.Right.Kind)
	}
	if of.Right.Kind == job.EndTurn {
		c, turn := e.Corner, of.Right.Turn
		kind := plan.OutsideCorner
		if turn < 0 {
			kind, turn = plan.InsideCorner, -turn
		}
		if c.Turn != turn || c.Included != 180*length.Degree-turn || c.KeyTurn.Kind != kind ||
			c.Outside != (kind == plan.OutsideCorner) {
			t.Errorf("run %s: corner %+v, the job turns by %s", r.Name, c, length.FormatAngle(turn))
		}
	}
}

// The key plan of a job and that of its mirror are mirrors: what is said of a run is
// said of it in the mirror, from the other end.
func TestKeyPlanMirrors(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		j := anyJob(t)
		a, found := solved(j)
		b, twins := solved(mirror(j))
		if found.HasErrors() || twins.HasErrors() {
			t.Skip("not a layout")
		}
		ka, kb := a.KeyPlan(), b.KeyPlan()
		for i, p := range ka.Perimeters {
			q := kb.Perimeters[i]
			for n, r := range p.Runs {
				x, y := keyRunSaid(r, false), keyRunSaid(q.Runs[len(q.Runs)-1-n], true)
				if x != y {
					t.Fatalf("run %s:\n%s\nand in the mirror:\n%s", r.Name, x, y)
				}
			}
		}
	})
}

// keyRunSaid are the values of a run from its left end, or from its right one. A hold
// on a corner names the run that arrives, which is the other one in the mirror.
func keyRunSaid(r plan.KeyRun, flip bool) string {
	at := func(x length.Length) length.Length {
		if flip {
			return r.Front.Real - x
		}
		return x
	}
	var zones, joints []string
	for _, z := range r.Zones {
		zones = append(zones, fmt.Sprint(min(at(z.From), at(z.To)), z.Corner))
	}
	for _, q := range r.Joints {
		if !q.Kink { // it belongs to the arriving run, which is the other one in the mirror
			joints = append(joints, fmt.Sprintf("%d %v", at(q.At)/10, q.Expansion))
		}
	}
	slices.Sort(zones)
	slices.Sort(joints)
	ends, beyond := r.Ends, r.Beyond
	if flip {
		ends[0], ends[1] = ends[1], ends[0]
		beyond[0], beyond[1] = beyond[1], beyond[0]
	}
	turn := func(e plan.KeyEnd) string { return fmt.Sprint(e.Corner.KeyTurn.Kind, e.Corner.Turn, e.Corner.Included) }
	return fmt.Sprint(r.Name, r.Front.Real, r.Wide, r.Slopes, r.Unmeasured, zones, joints, beyond,
		ends[0].Kind, turn(ends[0]), ends[1].Kind, turn(ends[1]))
}

// A spot names what it points out, on the perimeter that has it.
func TestSpots(t *testing.T) {
	j := jobtest.Job()
	second := jobtest.Rectangle(300*length.Inch, 200*length.Inch)
	second.Name = "SECOND"
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*length.Inch, 360*length.Inch), second}
	l := build(t, j)
	for _, p := range l.Perimeters {
		for _, r := range p.Runs {
			if s := l.SpotOfRuns(r); s.Perimeter != p.Job.Name || !slices.Equal(s.Runs, []string{r.Name}) || s.Name != r.Name || s.Corner != "" {
				t.Errorf("run %s is pointed out by %+v", r.Name, s)
			}
		}
		for _, c := range p.Corners {
			if s := l.SpotOfCorner(c); s.Perimeter != p.Job.Name || len(s.Runs) != 2 || !s.On(c.Arrive.Name) || !s.On(c.Leave.Name) || s.Corner != c.Name {
				t.Errorf("corner %s is pointed out by %+v", c.Name, s)
			}
		}
		for _, q := range p.Pieces {
			s := l.SpotOfPiece(q)
			if s.Perimeter != p.Job.Name || s.Name != q.Mark || len(s.Runs) != len(q.Parts) || (s.Corner != "") != (len(q.Miters) > 0) {
				t.Errorf("piece %s is pointed out by %+v", q.Mark, s)
			}
		}
	}
}
