package layout_test

import (
	"slices"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/wind"
)

// blown is a rectangle whose pressures are computed and confirmed.
func blown(t *testing.T) *job.Job {
	j := woodJob()
	j.Pressures = nil
	j.Wind = &job.Wind{Edition: "ASCE 7-16", Speed: 105 * 0.44704, Exposure: "B", RoofHeight: 20 * length.Foot, ParapetTop: 22 * length.Foot, Kzt: 1}
	j.Wind.Confirmed = &job.Confirmed{By: "engineer", Document: "L-1", Code: build(t, j).Demand.List.Code()}
	return j
}

// The suction on the rear leg is compared with what the report says of it, or
// with the outward resistance where it says nothing.
func TestRearLeg(t *testing.T) {
	j := blown(t)
	if h := build(t, j).Holds(); len(h) > 0 {
		t.Fatalf("a stated rear leg: %v", h)
	}
	for _, c := range []struct {
		name, says string
		rear       job.Pressure
	}{
		{"nothing stated", "`rear:`", job.Pressure{}},
		{"too little stated", "on the roof-side leg", job.Pressure{Pa: 1000, Level: job.AsPulled}},
	} {
		for i := range j.Assemblies {
			j.Assemblies[i].Rear = c.rear
			j.Assemblies[i].Out.Pa = 2000 // 1000 Pa allowable: enough for the front leg
		}
		l := build(t, j)
		f, ok := coded(l, "no-assembly")
		if !ok || f.Severity != finding.Hold || !strings.Contains(f.Why, c.says) {
			t.Errorf("%s: %v", c.name, f)
		}
		if q := l.Runs()[0].Choice[wind.Corner]; q.OutDemand > q.OutResists || !q.RearKnown || q.RearDemand <= q.RearResists || q.Ratio() <= 1 {
			t.Errorf("%s: the rear leg is not what fails: %+v", c.name, q)
		}
	}
	// An engineer who states no rear leg has nothing compared; one who does, all.
	j = woodJob()
	for i := range j.Assemblies {
		j.Assemblies[i].Rear = job.Pressure{}
	}
	if l := build(t, j); len(l.Holds()) > 0 || l.Runs()[0].Choice[0].RearKnown {
		t.Errorf("no rear pressure is stated: %v", l.Holds())
	}
	j.Pressures.Edge.Rear, j.Pressures.Corner.Rear = j.Pressures.Edge.Up, job.Pressure{Pa: 5000, Level: job.Allowable}
	if _, ok := coded(build(t, j), "no-assembly"); !ok {
		t.Error("5 kPa on the rear leg pass")
	}
}

// Two persons lift twice what one may; what is heavier takes a machine. The
// rule and the length count what leaves the shop, a field closer's extra too.
func TestHeavyPieces(t *testing.T) {
	j := jobtest.Job()
	j.System.Metal.Density, j.System.Metal.Thickness, j.Assemblies[0].ThicknessLeast = 8900, length.Inch/8, length.Inch/8
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*length.Inch, 240*length.Inch)}
	l := build(t, j)
	f, ok := coded(l, "mechanical-lift")
	if !ok || f.Severity != finding.Note {
		t.Fatalf("%v", f)
	}
	seen := map[cap.Lift]int{}
	for _, p := range l.Perimeters[0].Pieces {
		seen[l.Weight(p).Lift]++
		if over := l.Weight(p).Laid > 2*j.Site.OnePerson; over != (l.Weight(p).Lift == cap.Mechanical) || over != slices.Contains(strings.FieldsFunc(f.What, notMark), p.Mark) {
			t.Errorf("piece %s of %d g: lift %d; %s", p.Mark, l.Weight(p).Laid, l.Weight(p).Lift, f.What)
		}
	}
	if seen[cap.Mechanical] == 0 || seen[cap.Mechanical] == len(l.Perimeters[0].Pieces) {
		t.Errorf("%v", seen)
	}

	j = jobtest.Job()
	j.System.Joint.FieldCloser, j.System.Joint.Allowance = true, 3*length.Inch
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*length.Inch, 240*length.Inch)}
	closer := func(l *layout.Layout) *layout.Piece {
		for _, p := range l.Perimeters[0].Pieces {
			if p.Allowance > 0 {
				return p
			}
		}
		t.Fatal("no closer")
		return nil
	}
	l = build(t, j)
	q := closer(l)
	j.Site.OnePerson, j.Site.LongPiece = l.Weight(q).Shipped-1, 40*length.Foot
	l = build(t, j)
	if got := closer(l); l.Weight(got).Laid > j.Site.OnePerson || l.Weight(got).Lift != cap.TwoPersons {
		t.Errorf("a closer of %d g and its allowance, one person lifts %d g: lift %d", l.Weight(got).Laid, j.Site.OnePerson, l.Weight(got).Lift)
	}
	j.Site.OnePerson, j.Site.LongPiece = 1<<40, q.Length()
	l = build(t, j)
	if got := closer(l); l.Weight(got).Lift != cap.TwoPersons {
		t.Errorf("a closer of %v and its allowance, long from %v: lift %d", got.Length(), j.Site.LongPiece, l.Weight(got).Lift)
	}
}

func notMark(r rune) bool { return r == ' ' || r == ',' }

// The corner zone begins at a free end as at an outside corner, and not at a
// higher wall, a step or an inside corner.
func TestZonesAtFreeEnds(t *testing.T) {
	const in = length.Inch
	free, wall := job.End{Kind: job.EndFree}, job.End{Kind: job.EndWall}
	for _, c := range []struct {
		name        string
		left, right job.End
		want        [2]wind.Zone
	}{
		{"free at both ends", free, free, [2]wind.Zone{wind.Corner, wind.Corner}},
		{"free at the right", wall, free, [2]wind.Zone{wind.Edge, wind.Corner}},
		{"between walls", wall, wall, [2]wind.Zone{wind.Edge, wind.Edge}},
	} {
		j := jobtest.Job()
		r := jobtest.Run("R", 480*in, 0)
		r.Right = c.right
		p := jobtest.Perimeter("O", job.Open, r)
		p.Starts = c.left
		j.Perimeters = []job.Perimeter{p}
		z := build(t, j).Runs()[0].Zones
		if got := [2]wind.Zone{z[0].Zone, z[len(z)-1].Zone}; got != c.want {
			t.Errorf("%s: %v", c.name, z)
		}
	}
	l := build(t, steppedJob(8*in))
	for i, r := range l.Runs() {
		far, step := r.Zones[0], r.Zones[len(r.Zones)-1]
		if i == 1 {
			far, step = step, far
		}
		if far.Zone != wind.Corner || step.Zone != wind.Edge {
			t.Errorf("run %s at a step: %v", r.Name, r.Zones)
		}
	}
}

// steppedJob is a wall between two free ends, whose top steps up in the middle.
func steppedJob(rise length.Length) *job.Job {
	const in = length.Inch
	j := jobtest.Job()
	a, b := jobtest.Run("A", 240*in, 0), jobtest.Run("B", 240*in, 0)
	a.Right, b.Right = job.End{Kind: job.EndStep, Step: rise}, job.End{Kind: job.EndFree}
	for k := range b.Readings {
		b.Readings[k].TopOutside, b.Readings[k].TopInside = rise, rise
	}
	p := jobtest.Perimeter("O", job.Open, a, b)
	p.Starts = job.End{Kind: job.EndFree}
	j.Perimeters = []job.Perimeter{p}
	return j
}

// Worked by hand: a leg of 5 in, an upstand of 4 in, a lap of 1 in, and a cap
// 12 3/4 in wide that falls 17/32 in: the end cap's foot stands from 0 in above
// the lower cap's front to 4 - 17/32 - 1 in, so the step is 5 to 7 15/32 in.
func TestRisersAreCovered(t *testing.T) {
	const in = length.Inch
	for _, c := range []struct {
		rise length.Length
		want string
	}{
		{4*in + in/4, "step-foot"}, {5*in - in/16, "step-foot"}, {5 * in, ""}, {7 * in, ""}, {7*in + 7*in/16, ""},
		{7*in + in/2 + in/8, "step-bare"}, {8 * in, "step-bare"}, {24 * in, "step-bare"},
		{-4*in - in/4, "step-foot"}, {-6 * in, ""}, {-24 * in, "step-bare"},
	} {
		l := build(t, steppedJob(c.rise))
		var got []string
		for _, f := range l.Holds() {
			if !slices.Contains(got, f.Code) {
				got = append(got, f.Code)
			}
			if f.Where.Run == "" {
				t.Errorf("%v: %v", c.rise, f)
			}
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("a step of %v: %v, want %q", c.rise, l.Holds(), c.want)
		}
	}
}

// A smooth shank holds nothing: no more thread counts than is stated, and where
// none is, no more than the report asks for.
func TestThreadThatCounts(t *testing.T) {
	j := woodJob()
	j.Fasteners[0].Lengths = []length.Length{5 * length.Inch / 2, 3 * length.Inch}
	f := &j.Fasteners[0]
	for _, c := range []struct{ thread, want length.Length }{{0, f.Embedment}, {f.Embedment + length.Inch/8, f.Embedment + length.Inch/8}} {
		f.Thread = c.thread
		rows := build(t, j).Withdrawals()
		if len(rows) == 0 {
			t.Fatal("no row")
		}
		for _, w := range rows {
			if w.Thread != c.want {
				t.Errorf("run %s: %v of thread, want %v", w.Run.Name, w.Thread, c.want)
			}
		}
	}
}

// What a cross-check leaves out is said.
func TestCrossChecksLeftOut(t *testing.T) {
	for _, c := range []struct {
		name, code string
		change     func(j *job.Job)
	}{
		{"a nailer that nothing is said to hold", "nailer-not-stated", func(j *job.Job) { j.Walls[0].Nailer = nil }},
		{"no shear", "nailer-shear", func(j *job.Job) { j.Walls[0].Nailer.Shear = 0 }},
		{"a screw of no kind", "withdrawal-unchecked", func(j *job.Job) { j.Fasteners[0].Kind = "" }},
		{"wood of no gravity", "withdrawal-unchecked", func(j *job.Job) { j.Walls[0].Layers[0].Gravity = 0 }},
		{"treated wood of no service", "wood-dry", func(j *job.Job) { j.Walls[0].Layers[0].Service, j.Walls[0].Layers[0].Treated = false, true }},
	} {
		j := woodJob()
		if f, ok := coded(build(t, j), c.code); ok {
			t.Fatalf("%s: found in a job that states all: %v", c.name, f)
		}
		c.change(j)
		l := build(t, j)
		if f, ok := coded(l, c.code); !ok || f.Severity != finding.Note || f.Mend == "" {
			t.Errorf("%s: %v", c.name, f)
		}
	}
}
