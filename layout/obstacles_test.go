package layout_test

import (
	"testing"

	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"
	"copingset/layout/plan"

	"pgregory.net/rapid"
)

// obstructing is a rectangle whose first wall has one obstacle.
func obstructing(o job.Obstacle) *job.Job {
	j := jobtest.Job()
	p := jobtest.Rectangle(480*in, 240*in)
	p.Runs[0].Obstacles = []job.Obstacle{o}
	j.Perimeters = []job.Perimeter{p}
	return j
}

// An obstacle keeps chairs off by what it takes along the wall and across it. A chair
// of this system stands from 0.175 in behind the cap line to 12.175 under a cap of
// 12 1/2 in, and the wall of 12 in from 0.3 in.
func TestObstaclesKeepTheirRoom(t *testing.T) {
	free := build(t, obstructing(job.Obstacle{Name: "flag", Station: 240 * in, Extent: in, Does: job.BlocksJoint}))
	at := free.Runs()[0].Chairs[3]
	station := free.Runs()[0].ToFront(at.At)
	for _, c := range []struct {
		name           string
		fromFace, deep length.Length
		moves          bool
	}{
		{"across the whole wall", 0, 0, true},
		{"at the street face", in / 2, in, true},
		{"in the middle", 6 * in, in, true},
		{"at the roof face, under the chair's edge by 0.02 in", 119 * in / 10, 9 * in / 100, true},
		{"at the roof face, behind the chair", 1195 * in / 100, in / 10, false},
	} {
		o := job.Obstacle{Name: "stub", Station: station, Extent: 3 * in, FromFace: c.fromFace, Depth: c.deep, Does: job.BlocksChair}
		l := build(t, obstructing(o))
		r := l.Runs()[0]
		moved := true
		for _, k := range r.Chairs {
			moved = moved && k.At != at.At
		}
		if _, held := coded(l, "chair-blocked"); held || moved != c.moves {
			t.Errorf("%s: the chair moved %v, held %v", c.name, moved, held)
		}
		x := l.Plan(r).Obstacles[0]
		lo, hi := x.Ring.Bounds()
		if c.deep > 0 && (hi.Y-lo.Y != c.deep || lo.Y+c.deep/2 != 3*in/10+c.fromFace) || c.deep == 0 && hi.Y-lo.Y != 12*in {
			t.Errorf("%s: drawn from %v to %v behind the cap line", c.name, lo.Y, hi.Y)
		}
	}
}

// A support under a miter stands clear of what blocks a chair by its place across the
// wall, on whichever of the two walls it stands.
func TestSupportsClearObstacles(t *testing.T) {
	for _, c := range []struct {
		name    string
		station length.Length
		from    length.Length
		held    bool
	}{
		{"where the support is", 473 * in, 6 * in, true},
		{"along the wall from it, beside its front", 473 * in, in / 2, false},
	} {
		l := build(t, obstructing(job.Obstacle{Name: "stub", Station: c.station, Extent: 2 * in, FromFace: c.from, Depth: in, Does: job.BlocksChair}))
		if f, held := coded(l, "support-blocked"); held != c.held {
			t.Errorf("%s: held %v %v", c.name, held, f)
		}
	}
}

// No chair, plate or support stands on what blocks it without a hold.
func TestNothingStandsOnAnObstacle(t *testing.T) {
	stood := 0
	draws.CheckLayouts(t, func(t *rapid.T) {
		j := jobtest.Random(t)
		for i := range j.Perimeters[0].Runs {
			r := &j.Perimeters[0].Runs[i]
			for k := range r.Obstacles {
				if rapid.Bool().Draw(t, "placed") {
					r.Obstacles[k].FromFace = sixteenths(t, 1, 11, "from face")
					r.Obstacles[k].Depth = sixteenths(t, 1, 3, "across")
				}
			}
		}
		l, found := layout.Build(j)
		if found.HasErrors() {
			t.Skip("not a layout")
		}
		for _, r := range l.Runs() {
			p := l.Plan(r)
			for _, o := range p.Obstacles {
				stood++
				on := func(mark string, ring plan.Ring, codes ...string) {
					if plan.Deep(ring, o.Ring, length.Inch16) > length.Inch16 && !held(l, r.Name, codes...) {
						t.Fatalf("%s stands on %s of run %s, %v on %v", mark, o.Mark, r.Name, ring, o.Ring)
					}
				}
				for _, c := range p.Chairs {
					if o.BlocksChair {
						on(c.Mark, c.Ring, "chair-blocked", "plate-blocked", "no-fit")
					}
				}
				for _, q := range p.Supports {
					if o.BlocksChair {
						on(q.Mark, q.Ring, "support-blocked")
					}
				}
				for _, q := range p.Joints {
					if o.BlocksJoint {
						on("a plate", q.Plate, "plate-blocked", "no-fit")
					}
				}
			}
		}
	})
	if stood == 0 {
		t.Error("no obstacle was drawn")
	}
}

func sixteenths(t *rapid.T, lo, hi int, what string) length.Length {
	return length.Length(rapid.IntRange(lo*16, hi*16).Draw(t, what)) * length.Inch16
}
