package short_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"copingset/layout/anchor"
	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"
	"copingset/layout/short"
	"copingset/layout/wall"
	"copingset/layout/wind"
)

const (
	in = length.Inch
	sq = 90 * job.Degree
)

// hooked is the test system with supports that hold down, nobody answering for
// corners, and legs that grow by large steps up to no more than a few of them, so that all ways
// of a chain can be counted out.
func hooked(chair length.Length) *job.Job {
	j := jobtest.Job()
	s := &j.System
	s.Corner.Covered = nil
	s.Corner.Support.Hook = &job.Hook{Allowable: 4000, By: "Test house", Document: "R-9"}
	s.Corner.Support.Fixing = &job.Fixing{Fastener: "wood screw", Count: 2}
	s.Corner.LegStep, s.Corner.LongestLeg = 6*in, 40*in
	s.Chair.Length = chair
	return j
}

// jogged is an open wall that jogs by short runs: its turns to the right or the left.
func jogged(shorts []length.Length, right []bool) job.Perimeter {
	turn := func(i int) job.Angle {
		if right[i] {
			return sq
		}
		return -sq
	}
	p := jobtest.Perimeter("JOG", job.Open, jobtest.Run("A", 160*in, turn(0)))
	for i, l := range shorts {
		p.Runs = append(p.Runs, jobtest.Run(fmt.Sprint("S", i), l, turn(i+1)))
	}
	p.Runs = append(p.Runs, jobtest.Run("Z", 150*in, 0))
	p.Starts = job.End{Kind: job.EndFree}
	p.Runs[len(p.Runs)-1].Right = job.End{Kind: job.EndFree}
	return p
}

// frames are the runs of a job of one perimeter with their widths.
func frames(t interface{ Fatal(...any) }, j *job.Job) ([]*cap.Run, wind.Demand, length.Length) {
	grid := length.Crew(j.Units == job.Metric).Step()
	walls, found := wall.Build(j, grid)
	if found.HasErrors() {
		t.Fatal(found)
	}
	demand, _ := wind.Build(j, func(of *job.Run) length.Length { return of.Length })
	all, found := cap.Frame(j, demand, walls, grid)
	if found.HasErrors() {
		t.Fatal(found)
	}
	return all[0], demand, grid
}

// laid is a perimeter in its ways.
func laid(t interface{ Fatal(...any) }, j *job.Job, ways cap.Ways) (short.Laid, wind.Demand, length.Length) {
	runs, demand, grid := frames(t, j)
	p := short.Laid{Runs: runs, By: ways}
	p.Pieces, p.Caps = cap.BuildBy(j, runs, grid, ways)
	p.Standing, p.Stands = anchor.Build(j, demand, runs, p.Pieces, grid)
	return p, demand, grid
}

// holds lists what keeps pieces from release.
func holds(p short.Laid) (out []string) {
	for _, all := range []finding.List{p.Caps, p.Stands} {
		for _, f := range all {
			if f.Severity == finding.Hold {
				out = append(out, f.Code+": "+f.What+"; "+f.Mend)
			}
		}
	}
	return out
}

// every goes through all the ways that the rooms of a job's perimeter have, each with each,
// until one is laid out and stood without a hold.
func every(t interface{ Fatal(...any) }, j *job.Job) (cap.Ways, bool) {
	runs, _, grid := frames(t, j)
	bench := cap.NewBench(j, runs, grid)
	rooms := bench.Rooms()
	ways := cap.Ways{}
	var try func(i int) bool
	try = func(i int) bool {
		if i == len(rooms) {
			p, _, _ := laid(t, j, ways)
			return len(holds(p)) == 0
		}
		r := rooms[i]
		all := r.Ways
		if !r.Short {
			all = bench.Grown(r, i == 0)
		}
		for _, o := range all {
			if delete(ways, r.Section); !o.Usual {
				ways[r.Section] = o.Way
			}
			if try(i + 1) {
				return true
			}
		}
		if delete(ways, r.Section); r.Whole {
			ways[r.Section] = cap.Way{Whole: true}
			if try(i + 1) {
				return true
			}
			delete(ways, r.Section)
		}
		return false
	}
	return ways, try(0)
}

// freedBy makes the change that the holds of a job name, if they do, and tells how many
// holds it freed: all, or the change was named for nothing.
func freedBy(t *rapid.T, j *job.Job, held []string) int {
	for _, h := range held {
		_, change, ok := strings.Cut(h, "this alone would free it: ")
		if !ok {
			continue
		}
		c := *j
		s, changed := &c.System, false
		set := func(words string, of *length.Length, l length.Length) {
			if strings.HasPrefix(change, words) && *of != l {
				*of, changed = l, true
			}
		}
		for l := length.Length(0); l <= 60*in; l += length.Inch16 {
			set("a chair "+job.Both(l)+" long", &s.Chair.Length, l)
			set("corner legs welded up to "+job.Both(l), &s.Corner.LongestLeg, l)
			set("a corner support "+job.Both(l)+" long", &s.Corner.Support.Length, l)
		}
		c.Assemblies = slices.Clone(j.Assemblies)
		for _, n := range []length.Length{9, 10, 12} {
			if strings.HasPrefix(change, fmt.Sprintf("an assembly tested at the same pressure on chairs %d per cent", (n-8)*100/8)) {
				for i := range c.Assemblies {
					c.Assemblies[i].ChairSpacing, changed = c.Assemblies[i].ChairSpacing*n/8, true
				}
			}
		}
		if !changed {
			t.Fatalf("what is this change? %s", h)
		}
		p, demand, grid := laid(t, &c, nil)
		left := holds(short.Settle(&c, demand, p, grid))
		left = slices.DeleteFunc(left, func(h string) bool { return strings.HasPrefix(h, "support-blocked") }) // no leg moves a support
		if len(left) > 0 {
			t.Fatalf("%s, but then %v", h, left)
		}
		return len(held)
	}
	return 0
}

// Where a chain of short runs is held, no choice of all its ways is laid out by cap and
// stood by anchor without a hold; where one is, it is found.
func TestSettleAgainstEveryWay(t *testing.T) {
	kept, freed, none, changed := 0, 0, 0, 0
	draws.Check(t, 80, func(t *rapid.T) {
		j := hooked(length.Length(rapid.IntRange(8, 20).Draw(t, "chair")) * in)
		var shorts []length.Length
		right := []bool{rapid.Bool().Draw(t, "right")}
		for range rapid.IntRange(1, 2).Draw(t, "short runs") {
			shorts = append(shorts, length.Length(rapid.IntRange(24, 72).Draw(t, "short"))*in)
			right = append(right, rapid.Bool().Draw(t, "right"))
		}
		hard := rapid.Float64Range(1, 1.9).Draw(t, "pressure")
		for _, z := range []*job.ZonePressure{&j.Pressures.Edge, &j.Pressures.Corner} {
			z.Up.Pa, z.Out.Pa = z.Up.Pa*hard, z.Out.Pa*hard
		}
		if j.Perimeters = []job.Perimeter{jogged(shorts, right)}; len(shorts) == 1 {
			j.System.Corner.LegStep = 5 * in / 2
		}
		if does := rapid.SampledFrom([]job.Does{0, 0, job.BlocksJoint, job.BlocksChair}).Draw(t, "obstacle"); does != 0 {
			r := &j.Perimeters[0].Runs[1]
			r.Obstacles = []job.Obstacle{{Name: "post", Station: r.Length * length.Length(rapid.IntRange(2, 8).Draw(t, "at")) / 10, Extent: 3 * in, Does: does}}
			r.Obstacles[0].Station = length.RoundTo(r.Obstacles[0].Station, length.Inch16)
		}
		if _, found := wall.Build(j, length.Inch16); found.HasErrors() {
			t.Skip("its runs cross")
		}
		p, demand, grid := laid(t, j, nil)
		if len(holds(p)) == 0 {
			kept++
			if q := short.Settle(j, demand, p, grid); len(q.By) > 0 {
				t.Fatal("what stands was moved")
			}
			return
		}
		q := short.Settle(j, demand, p, grid)
		ways, any := every(t, j)
		switch held := holds(q); {
		case any && len(held) > 0:
			t.Fatalf("shorts %v, right %v: %v stands, and is held: %v", shorts, right, ways, held)
		case any:
			freed++
		default:
			none++
			if q := freedBy(t, j, held); q > 0 {
				changed++
			}
		}
	})
	t.Logf("%d stood, %d were freed, %d cannot be, %d of them would be by a change", kept, freed, none, changed)
	if kept == 0 || freed == 0 || none == 0 || changed == 0 {
		t.Error("the draws prove nothing")
	}
}
