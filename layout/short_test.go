package layout_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"
)

// jogging is a wall that jogs by up to three short runs, its corners held down by hooked
// supports alone.
func jogging(t *rapid.T) *job.Job {
	j := jobtest.Job()
	s := &j.System
	s.Corner.Covered = nil
	s.Corner.Support.Hook = &job.Hook{Allowable: 4000, By: "Test house", Document: "R-9"}
	s.Corner.Support.Fixing = &job.Fixing{Fastener: "wood screw", Count: 2}
	s.Corner.LegStep = 2 * in
	s.Chair.Length = length.Length(rapid.IntRange(8, 20).Draw(t, "chair")) * in
	if rapid.Bool().Draw(t, "left") {
		s.Remainder = job.Left
	}
	s.Closer = rapid.SampledFrom([]job.Closer{job.CloserLeft, job.CloserRight, job.CloserShared}).Draw(t, "closer")
	hard := rapid.Float64Range(1, 1.9).Draw(t, "pressure")
	for _, z := range []*job.ZonePressure{&j.Pressures.Edge, &j.Pressures.Corner} {
		z.Up.Pa, z.Out.Pa = z.Up.Pa*hard, z.Out.Pa*hard
	}
	turn := func() job.Angle {
		return rapid.SampledFrom([]job.Angle{90 * job.Degree, -90 * job.Degree, 60 * job.Degree, -75 * job.Degree}).Draw(t, "turn")
	}
	p := jobtest.Perimeter("JOG", job.Open, jobtest.Run("A", 160*in, turn()))
	for i := range rapid.IntRange(1, 3).Draw(t, "short runs") {
		l := length.Length(rapid.IntRange(26*16, 76*16).Draw(t, "short")) * length.Inch16
		p.Runs = append(p.Runs, jobtest.Run(fmt.Sprint("S", i), l, turn()))
	}
	p.Runs = append(p.Runs, jobtest.Run("Z", 150*in, 0))
	p.Starts, p.Runs[len(p.Runs)-1].Right = job.End{Kind: job.EndFree}, job.End{Kind: job.EndFree}
	if does := rapid.SampledFrom([]job.Does{0, 0, job.BlocksJoint, job.BlocksChair}).Draw(t, "obstacle"); does != 0 {
		r := &p.Runs[1]
		at := length.RoundTo(r.Length*length.Length(rapid.IntRange(2, 8).Draw(t, "at"))/10, length.Inch16)
		r.Obstacles = []job.Obstacle{{Name: "post", Station: at, Extent: 3 * in, Does: does}}
	}
	if rapid.Bool().Draw(t, "no leave for short legs") {
		s.Corner.ShortLeg = 0
	}
	j.Perimeters = []job.Perimeter{p}
	return j
}

// What is chosen for short runs together is mirrored exactly.
func TestShortRunsMirror(t *testing.T) {
	moved := 0
	draws.Check(t, 60, func(t *rapid.T) {
		j := jogging(t)
		l, found := solved(j)
		if found.HasErrors() {
			t.Skip("its runs cross")
		}
		checkMirror(t, j)
		if len(l.Perimeters[0].Ways) > 0 {
			moved++
		}
	})
	if moved == 0 {
		t.Error("no draw had short runs to choose for")
	}
	t.Log(moved, "draws had short runs to choose for")
}
