package shop_test

import (
	"math"
	"strings"
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

// The two legs of a pitch miter meet in space: the right leg, stood on the left
// one's end and turned down by the change of slope (up over a valley), has every
// corner of its cut on a corner of the other's.
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
			if len(f.Bodies) != 2 || !strings.HasPrefix(f.Mark, "M") || f.Sentence() != shop.NoHand {
				t.Fatalf("%s: %d bodies, %s", f.Mark, len(f.Bodies), f.Sentence())
			}
			bend := p.Miters[0].Corner.Bend.Degrees() * math.Pi / 180
			sin, cos := math.Sincos(bend)
			long := p.Parts[0].Length().MM()
			gap := j.Shop.WeldGap.MM()
			// In the plane of the run: turned about the point where the front folds meet.
			turned := func(v fold.Vec) fold.Vec {
				return fold.Vec{X: long + v.X*cos + v.Z*sin, Y: v.Y, Z: v.Z*cos - v.X*sin}
			}
			left, right := f.Bodies[0].Solid, f.Bodies[1].Solid
			for i, face := range left.Faces {
				if face.Name == "hem" {
					continue // beyond its fold it lies on the flat, not in space
				}
				n := len(face.Corners)
				for _, c := range []int{1 % n, 2 % n} { // its right end
					a := face.Corners[c]
					b := turned(right.Faces[i].Corners[[]int{0, 0, 3, 3}[c]])
					d := math.Sqrt((a.X-b.X)*(a.X-b.X) + (a.Y-b.Y)*(a.Y-b.Y) + (a.Z-b.Z)*(a.Z-b.Z))
					if math.Abs(d-gap) > 0.1 {
						t.Fatalf("%s, %s: the cuts lie %.3f mm apart, want %.3f", p.Mark, face.Name, d, gap)
					}
					met++
				}
			}
			// Over a peak the lower edges are the shorter.
			for i := range p.Parts {
				fold, foot := p.Parts[i].Length(), p.EdgeLength(i, cap.Edge{Depth: j.System.FrontLeg(job.ToMoldLine)})
				if (foot < fold) != (bend > 0) {
					t.Fatalf("%s: the foot is %v and the fold %v", p.Mark, foot, fold)
				}
			}
		}
		if met < 20 {
			t.Fatalf("%d corners looked at", met)
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
