package layout_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

// ridge is a rectangle whose first side has a level stretch at each corner and
// a gable between: two valleys and a peak.
func ridge(level, slope length.Length) *job.Job {
	j := jobtest.Job()
	j.System.PitchMiter = job.PitchMiter{Leg: 24 * in, ChangeMost: 60 * job.Degree}
	const rise = 0.25
	k := rise / math.Sqrt(1+rise*rise)
	p := jobtest.Rectangle(480*in, 240*in)
	var runs []job.Run
	top := 0.0
	for i, name := range []string{"A", "B", "C", "D"} {
		r := jobtest.Run(name, []length.Length{level, slope, slope, level}[i], 90*job.Degree)
		way := []float64{0, k, -k, 0}[i]
		for n := range r.Readings {
			h := length.RoundTo(length.FromInches(top+way*r.Readings[n].Station.Inch()), length.Inch16)
			r.Readings[n].TopOutside, r.Readings[n].TopInside = h, h
		}
		top += way * r.Length.Inch()
		if i < 3 {
			r.Right = job.End{Kind: job.EndPitch, Pitch: []job.Pitch{job.Valley, job.Peak, job.Valley}[i]}
		}
		r.Grade = &job.Grade{Most: rise*1e9 + 4_000_000}
		if way == 0 {
			r.Grade = &job.Grade{}
		}
		runs = append(runs, r)
	}
	// The far side is as long as this one in plan.
	plan := 2*level.Inch() + 2*slope.Inch()/math.Sqrt(1+rise*rise)
	far := jobtest.Run("F", length.RoundTo(length.FromInches(plan), length.Inch16), 90*job.Degree)
	p.Runs = append(runs, jobtest.Run("E", 240*in, 90*job.Degree), far, jobtest.Run("G", 240*in, 90*job.Degree))
	j.Perimeters = []job.Perimeter{p}
	return j
}

func TestPitchMiters(t *testing.T) {
	l := build(t, ridge(160*in, 300*in))
	if h := l.Holds(); len(h) > 0 {
		t.Fatal(h)
	}
	// Lengths taped along the slope close as the plan they lie over.
	if c := l.Perimeters[0].Closure; c.Length > length.Inch/8 {
		t.Errorf("misses its start by %v", c.Length)
	}
	var marks []string
	for _, p := range l.Perimeters[0].Pieces {
		if p.Kind != cap.PitchMiter {
			continue
		}
		marks = append(marks, p.Mark+" "+p.KindName())
		a, b := p.Parts[0], p.Parts[1]
		if a.To != a.Run.Cap || b.From != 0 || a.Length() != 24*in || b.Length() != 24*in || p.LeftEnd != job.EndTurn || p.RightEnd != job.EndTurn {
			t.Errorf("%s: %v to %v, %v to %v", p.Mark, a.From, a.To, b.From, b.To)
		}
		// Nothing stands under the weld, and no two chairs over it are further
		// apart than the tested spacing.
		left, right := nearest(l, a.Run, a.Run.Cap), nearest(l, b.Run, 0)
		if d := left + right; d > p.Assembly.ChairSpacing || left < l.Job.System.Chair.Length/2 {
			t.Errorf("%s: chairs %v and %v from the break, the tested spacing is %v", p.Mark, left, right, p.Assembly.ChairSpacing)
		}
	}
	if want := []string{"A/B pitch miter, valley", "B/C pitch miter, peak", "C/D pitch miter, valley"}; !slices.Equal(marks, want) {
		t.Errorf("%v", marks)
	}
	// Short legs with wide chairs: another chair on each leg still.
	j := ridge(160*in, 300*in)
	j.Assemblies = j.Assemblies[1:]
	l = build(t, j)
	for _, p := range l.Perimeters[0].Pieces {
		if p.Kind == cap.PitchMiter {
			if d := nearest(l, p.Parts[0].Run, p.Parts[0].Run.Cap); 2*d > p.Assembly.ChairSpacing {
				t.Errorf("%s: a chair %v from the break under %v", p.Mark, d, p.Assembly.ChairSpacing)
			}
		}
	}
}

// A run between two breaks is the same wall whichever face it is measured on.
func TestPitchMeasuredBehind(t *testing.T) {
	a, j := build(t, ridge(160*in, 300*in)), ridge(160*in, 300*in)
	r := &j.Perimeters[0].Runs[2]
	r.Face, r.StationFace = job.Rear, job.Rear
	b := build(t, j)
	if len(b.Findings) != len(a.Findings) {
		t.Fatal(b.Findings)
	}
	for i, p := range a.Perimeters[0].Pieces {
		if q := b.Perimeters[0].Pieces[i]; p.Mark != q.Mark || p.Parts[0].From != q.Parts[0].From || p.Parts[0].To != q.Parts[0].To {
			t.Errorf("%s from %v to %v, measured behind %s from %v to %v", p.Mark, p.Parts[0].From, p.Parts[0].To, q.Mark, q.Parts[0].From, q.Parts[0].To)
		}
	}
}

// nearest is how far the nearest chair of a run stands from a station.
func nearest(l *layout.Layout, r *cap.Run, at length.Length) length.Length {
	best := r.Cap
	for _, q := range l.Runs() {
		if q.Run == r {
			for _, c := range q.Chairs {
				best = length.Min(best, length.Abs(c.At-at))
			}
		}
	}
	return best
}

func TestPitchHolds(t *testing.T) {
	for _, c := range []struct {
		name   string
		j      *job.Job
		code   string
		pieces string
	}{
		{"near a corner", ridge(60*in, 300*in), "pitch-near-corner", "G/A"},
		{"at a corner", ridge(20*in, 300*in), "pitch-and-turn", "G/A/B"},
		{"two breaks together", ridge(160*in, 12*in), "pitch-and-turn", "A/B/C/D"},
	} {
		l := build(t, c.j)
		f, ok := coded(l, c.code)
		if !ok {
			t.Errorf("%s: no %s among %v", c.name, c.code, l.Findings)
			continue
		}
		if !strings.Contains(f.Mend, "by hand") {
			t.Errorf("%s: %v", c.name, f)
		}
		held := false
		for _, p := range l.Perimeters[0].Pieces {
			held = held || p.Mark == c.pieces && !l.Held.Released(p)
		}
		if !held {
			t.Errorf("%s: piece %s is released", c.name, c.pieces)
		}
	}
	// An end on a slope is square to its cap, and the wall's is plumb.
	j := jobtest.Job()
	r := jobtest.Run("R", 300*in, 0)
	for i := range r.Readings {
		r.Readings[i].TopOutside, r.Readings[i].TopInside = r.Readings[i].Station/12, r.Readings[i].Station/12
	}
	r.Grade, r.Right = &job.Grade{Most: 90_000_000, Way: job.Rising}, job.End{Kind: job.EndFree}
	p := jobtest.Perimeter("O", job.Open, r)
	p.Starts = job.End{Kind: job.EndFree}
	j.Perimeters = []job.Perimeter{p}
	if _, ok := coded(build(t, j), "end-on-slope"); !ok {
		t.Error("an end on a slope of 1 in 12 is no hold")
	}
}
