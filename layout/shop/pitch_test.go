package shop_test

import (
	"math"
	"testing"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/shop"

	"pgregory.net/rapid"
)

// gable is an open wall with level ends, two valleys and a peak between, both
// slopes alike.
func gable(slope float64, left, right length.Length) *job.Job {
	j := jobtest.Job()
	j.Shop = tools()
	j.System.PitchMiter = job.PitchMiter{Leg: 24 * in, ChangeMost: 80 * job.Degree}
	k := slope / math.Sqrt(1+slope*slope)
	var runs []job.Run
	top := 0.0
	for i, r := range []job.Run{jobtest.Run("A", 160*in, 0), jobtest.Run("B", left, 0), jobtest.Run("C", right, 0), jobtest.Run("D", 160*in, 0)} {
		way := []float64{0, 1, -1, 0}[i] * k
		for n := range r.Readings {
			h := length.RoundTo(length.FromInches(top+way*r.Readings[n].Station.Inch()), length.Inch16)
			r.Readings[n].TopOutside, r.Readings[n].TopInside = h, h
		}
		top += way * r.Length.Inch()
		r.Right = job.End{Kind: job.EndPitch, Pitch: []job.Pitch{job.Valley, job.Peak, job.Valley}[i%3]}
		r.Grade = &job.Grade{Most: job.Slope(slope*1e9) + 3_000_000}
		if i%3 == 0 {
			r.Grade = &job.Grade{}
		}
		runs = append(runs, r)
	}
	runs[3].Right = job.End{Kind: job.EndFree}
	p := jobtest.Perimeter("GABLE", job.Open, runs...)
	p.Starts = job.End{Kind: job.EndFree}
	j.Perimeters = []job.Perimeter{p}
	return j
}

// The two legs of a pitch miter meet in space: each lies wholly on its own side
// of the plane that bisects the change of slope, half the gap off it where it is
// nearest.
func TestPitchMiterMeets(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := gable(rapid.Float64Range(0.02, 0.5).Draw(t, "slope"), 240*in, 240*in)
		j.Shop.WeldGap = length.Length(rapid.IntRange(0, 2).Draw(t, "gap")) * in / 32
		j.System.Profile.HemReturn = length.Length(rapid.IntRange(0, 1).Draw(t, "hem")) * in * 3 / 8
		l, _ := layout.Build(j)
		fs, _ := families(l)
		met := 0
		for _, f := range fs {
			if f.Kind != cap.PitchMiter {
				continue
			}
			p := f.Pieces[0]
			if len(f.Bodies) != 2 || f.Kind != cap.PitchMiter || f.Sentence() != shop.NoHand {
				t.Fatalf("%s: %d bodies, %s", f.Mark, len(f.Bodies), f.Sentence())
			}
			bend := p.Miters[0].Corner.Bend.Degrees() * math.Pi / 180
			gap := j.Shop.WeldGap.MM()
			// How far metal stands off the plane that bisects the change of slope,
			// through the point where the front folds meet.
			for end, b := range f.Bodies {
				section, least := b.Metal.Path.Lay(), math.Inf(1)
				for _, s := range section.Places(0.05) {
					finish, back := section.Skins(s)
					for _, q := range []fold.Point{finish, back} {
						x := b.Metal.Left.X(section, s, false)
						if end == 0 {
							x = p.Parts[0].Length().MM() - b.Metal.Right.X(section, s, true)
						}
						least = math.Min(least, x*math.Cos(bend/2)+q.Y*math.Sin(bend/2))
					}
				}
				if math.Abs(least-gap/2) > 0.001 {
					t.Fatalf("%s, %s: its metal stands %.3f mm off the seam, want %.3f", p.Mark, b.Name, least, gap/2)
				}
				met++
			}
			// Over a peak the lower edges are the shorter.
			for i := range p.Parts {
				fold, foot := p.Parts[i].Length(), p.EdgeLength(i, cap.Edge{Depth: j.System.FrontLeg(job.ToMoldLine)})
				if (foot < fold) != (bend > 0) {
					t.Fatalf("%s: the foot is %v and the fold %v", p.Mark, foot, fold)
				}
			}
		}
		if met < 2 {
			t.Fatalf("%d bodies looked at", met)
		}
	})
}

// Unlike legs have a hand, and their twin is the mirror image.
func TestPitchMiterHands(t *testing.T) {
	j := gable(0.25, 240*in, 240*in)
	l, _ := layout.Build(j)
	fs, _ := families(l)
	for _, f := range fs {
		if f.Kind == cap.PitchMiter && f.Twin != nil {
			t.Errorf("%s has a twin, and its legs are alike", f.Mark)
		}
	}
	// A leg that grows to clear an obstacle, left of one valley and right of the other.
	// The fold reaches no further than the wall over a valley by its height x tan.
	lies := func(runs ...int) (out []string) {
		j := gable(0.25, 240*in, 240*in)
		for _, k := range runs {
			at := 24 * in
			if k == 0 {
				at = 160*in - at
			}
			j.Perimeters[0].Runs[k].Obstacles = []job.Obstacle{{Name: "post", Station: at, Extent: 2 * in, Does: job.BlocksJoint}}
		}
		l, _ := layout.Build(j)
		fs, _ := families(l)
		for _, f := range fs {
			if f.Kind == cap.PitchMiter && f.Sentence() != shop.NoHand {
				if (f.Twin != nil) != (len(runs) == 2) {
					t.Errorf("%v: %s, twin %v", runs, f.Mark, f.Twin)
				}
				out = append(out, f.Sentence())
			}
		}
		return out
	}
	if got := lies(0); len(got) != 1 || got[0] != "Standing on the roof, the longer leg is at your left hand, over a valley." {
		t.Errorf("%q", got)
	}
	if got := lies(0, 3); len(got) != 2 || got[0] == got[1] {
		t.Errorf("%q", got)
	}
}
