package wall

import (
	"math"
	"testing"

	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

// broken is an open wall of two runs whose tops have slopes of their own, and
// the break between them.
func broken(pitch job.Pitch, left, right float64) *job.Job {
	j := jobtest.Job()
	j.System.PitchMiter = job.PitchMiter{Leg: 24 * in, ChangeMost: 45 * job.Degree}
	a, b := jobtest.Run("A", 240*in, 0), jobtest.Run("B", 240*in, 0)
	a.Right, b.Right = job.End{Kind: job.EndPitch, Pitch: pitch}, job.End{Kind: job.EndFree}
	rise := func(r *job.Run, slope, from float64) float64 {
		k := slope / math.Sqrt(1+slope*slope)
		for i := range r.Readings {
			q := &r.Readings[i]
			top := length.RoundTo(length.FromMM((from+k*q.Station.Inch())*25.4), length.Inch16)
			q.TopOutside, q.TopInside = top, top
		}
		r.Grade = &job.Grade{Most: job.Slope(math.Round(math.Abs(slope)*1e9)) + 1_000_000}
		return from + k*r.Length.Inch()
	}
	rise(&b, right, rise(&a, left, 0))
	p := jobtest.Perimeter("GABLE", job.Open, a, b)
	p.Starts = job.End{Kind: job.EndFree}
	j.Perimeters = []job.Perimeter{p}
	return j
}

func TestBreak(t *testing.T) {
	for _, c := range []struct {
		name        string
		says        job.Pitch
		left, right float64 // slopes of the tops
		twist       length.Length
		most        job.Angle
		bend        float64 // degrees, positive at a peak
		absorb      bool
		code        string
	}{
		{"gable, 4:12 both sides", job.Peak, 1.0 / 3, -1.0 / 3, 0, 45, 36.8699, false, ""},
		{"level to 4:12", job.Valley, 0, 1.0 / 3, 0, 45, -18.4349, false, ""},
		{"6:12 to level", job.Peak, 0.5, 0, 0, 45, 26.5651, false, ""},
		{"valley, 1:12 both sides", job.Valley, -1.0 / 12, 1.0 / 12, 0, 45, -9.5273, false, ""},
		{"said to be a valley", job.Valley, 1.0 / 3, -1.0 / 3, 0, 45, 36.8699, false, "pitch-differs"},
		{"said to be a peak", job.Peak, 0, 1.0 / 3, 0, 45, -18.4349, false, "pitch-differs"},
		{"over the shop's most", job.Peak, 1.0 / 3, -1.0 / 3, 0, 30, 36.8699, false, "pitch-over"},
		{"within the twist", job.Peak, 1.0 / 400, 0, in / 8, 45, 0.1432, true, "pitch-absorbed"},
		{"no break at all", job.Peak, 0, 0, 0, 45, 0, true, "pitch-absorbed"},
	} {
		j := broken(c.says, c.left, c.right)
		j.Packing.Twist, j.System.PitchMiter.ChangeMost = c.twist, c.most*job.Degree
		ps, found := Build(j, length.Inch16)
		at := ps[0].Corners[0]
		if got := at.Bend.Degrees(); math.Abs(got-c.bend) > 0.05 || at.Absorb != c.absorb || at.CapTurn != 0 {
			t.Errorf("%s: bend %v, absorbed %v, want %v, %v", c.name, got, at.Absorb, c.bend, c.absorb)
		}
		n := 0
		for _, f := range found {
			if f.Code == c.code {
				n++
			} else {
				t.Errorf("%s: %v", c.name, f)
			}
		}
		if c.code != "" && n == 0 {
			t.Errorf("%s: no %s", c.name, c.code)
		}
		a, b := at.Arrive, at.Leave
		if a.SetRight != b.SetLeft || a.Right.Ext != b.Left.Ext || a.Cap != a.Front+a.Left.Ext+a.Right.Ext || b.Datum != b.Left.Ext {
			t.Errorf("%s: set %v and %v, cap line beyond the break %v and %v", c.name, a.SetRight, b.SetLeft, a.Right.Ext, b.Left.Ext)
		}
		// The folds meet above the set surface: further out over a peak.
		if e := a.Right.Ext; !c.absorb && (e > 0) != (c.bend > 0) || c.absorb && e != 0 {
			t.Errorf("%s: the cap line reaches %v beyond the break", c.name, e)
		}
		rise := a.SetRight - a.SetLeft
		plan := math.Sqrt(math.Pow(a.Front.MM(), 2) - math.Pow(rise.MM(), 2))
		if got := a.InPlan(length.Inch16).MM(); math.Abs(got-plan) > length.Inch16.MM() || math.Abs(a.PlanEnd.X.MM()-got) > 1e-3 {
			t.Errorf("%s: %.2f mm in plan, ends at %.2f, want %.2f", c.name, got, a.PlanEnd.X.MM(), plan)
		}
	}
}

// A break of slope crosses the wall square, so a run beside it is as long on its
// rear face as on its front face, whatever the widths of the two walls.
func TestRearBesideABreak(t *testing.T) {
	for _, c := range []struct {
		name           string
		length, survey job.Face
	}{{"length", job.Rear, job.Front}, {"stations", job.Front, job.Rear}, {"both", job.Rear, job.Rear}} {
		j := broken(job.Peak, 1.0/3, -1.0/3)
		for i := range j.Perimeters[0].Runs {
			r := &j.Perimeters[0].Runs[i]
			r.Face, r.StationFace = c.length, c.survey
			for k := range r.Readings {
				r.Readings[k].Width += length.Length(i) * 2 * in
			}
		}
		ps, found := Build(j, length.Inch16)
		if len(found) > 0 {
			t.Errorf("%s: %v", c.name, found)
		}
		for _, r := range ps[0].Runs {
			if r.Front != 240*in || r.Readings[0].Station != 0 || r.Trim.Left != 0 || r.Trim.Right != 0 {
				t.Errorf("%s: run %s: front %v, first station %v, trims %v", c.name, r.Name, r.Front, r.Readings[0].Station, r.Trim)
			}
		}
	}
}

// A run that may only rise does not fall for the sake of less packing.
func TestOneWay(t *testing.T) {
	j := broken(job.Peak, -1.0/12, 0)
	j.Perimeters[0].Runs[0].Grade.Way = job.Rising
	ps, _ := Build(j, length.Inch16)
	if r := ps[0].Runs[0]; r.SetRight != r.SetLeft {
		t.Errorf("set at %v and %v", r.SetLeft, r.SetRight)
	}
	j.Perimeters[0].Runs[0].Grade.Way = job.Falling
	ps, _ = Build(j, length.Inch16)
	if r := ps[0].Runs[0]; r.SetRight >= r.SetLeft-10*in {
		t.Errorf("set at %v and %v", r.SetLeft, r.SetRight)
	}
}
