package view

import (
	"math"

	"copingset/layout/length"
	"copingset/layout/plan"
)

// keyShape is a perimeter in plan, drawn adjusted so that it closes.
type keyShape struct {
	per  plan.KeyPerimeter
	runs []keyRun
}

// keyRun is one run in plan: its wall line from the left corner to the right.
type keyRun struct {
	plan.KeyRun
	legFrame
	long float64 // as drawn, mm
	wide float64 // thickness of the wall, mm
	left bool    // joined to a neighbour at the left, and at the right
	rite bool
}

// keyShapeOf lays out a perimeter as it lies on paper.
func keyShapeOf(p plan.KeyPerimeter) keyShape {
	k := keyShape{per: p}
	x := heading(p.Turned)
	at := xy{p.At.X.MM(), p.At.Y.MM()}
	turned := func(p plan.Pt) xy {
		q := xy{p.X.MM(), p.Y.MM()}
		return xy{float64(q.x*x.x) - float64(q.y*x.y) + at.x, float64(q.x*x.y) + float64(q.y*x.x) + at.y}
	}
	for _, r := range p.Runs {
		a, b := turned(r.From), turned(r.To)
		k.runs = append(k.runs, keyRun{
			KeyRun: r, legFrame: legFrame{o: a, dir: b.sub(a).unit()}, long: b.sub(a).length(), wide: r.Wide.MM(),
			left: r.Ends[0].Kind == plan.KeyCorners, rite: r.Ends[1].Kind == plan.KeyCorners,
		})
	}
	return k
}

// cutOff parts a stretch of a perimeter from its neighbours.
func (k keyShape) cutOff() {
	k.runs[0].left, k.runs[len(k.runs)-1].rite = false, false
}

// along is where a station of the wall line lies in its run as drawn.
func (r keyRun) along(station length.Length) float64 {
	return station.MM() * (r.long / math.Max(r.Front.Real.MM(), 1e-6))
}

// beside is the polyline beside the wall line at its own distance for each
// run, towards the roof if positive: the two ends of each run's piece of it,
// mitered at the corners. A piece that the miters leave nothing of has both
// ends in one place.
func (k keyShape) beside(d func(keyRun) float64) [][2]xy {
	n := len(k.runs)
	out := make([][2]xy, n)
	for i, r := range k.runs {
		out[i] = [2]xy{r.at(0, d(r)), r.at(r.long, d(r))}
	}
	for i, r := range k.runs {
		if !r.rite {
			continue
		}
		j := (i + 1) % n
		q := k.runs[j]
		p, ok := meeting(r.at(0, d(r)), r.dir, q.at(0, d(q)), q.dir)
		if !ok || math.Abs(r.dir.cross(q.dir)) < 0.05 {
			p = r.at(r.long, d(r)).between(q.at(0, d(q)))
		}
		out[i][1], out[j][0] = p, p
	}
	for i, r := range k.runs {
		if out[i][1].sub(out[i][0]).cross(r.dir.roofward()) <= 0 {
			m := out[i][0].between(out[i][1])
			out[i] = [2]xy{m, m}
		}
	}
	return out
}

// keyGroup are perimeters that were placed from each other, drawn on one panel.
type keyGroup []keyShape

// groupsOf are the shapes of a plan by the groups they lie in, in the order of the first
// of each.
func groupsOf(shapes []keyShape) []keyGroup {
	var out []keyGroup
	at := map[int]int{} // look-up only: of a group, its place and one
	for _, sh := range shapes {
		if at[sh.per.Group] == 0 {
			out = append(out, nil)
			at[sh.per.Group] = len(out)
		}
		i := at[sh.per.Group] - 1
		out[i] = append(out[i], sh)
	}
	return out
}

// extent is what the walls of a group take in plan.
func (k keyGroup) extent(least float64) extent {
	var e extent
	for _, sh := range k {
		sh.hold(&e, least)
	}
	return e
}

// extent is what the wall, drawn at least least thick, takes in plan.
func (k keyShape) extent(least float64) extent {
	var e extent
	k.hold(&e, least)
	return e
}

// hold makes an extent hold the wall.
func (k keyShape) hold(e *extent, least float64) {
	rear := k.beside(func(r keyRun) float64 { return math.Max(r.wide, least) })
	for i, r := range k.runs {
		e.hold(r.o, r.at(r.long, 0), rear[i][0], rear[i][1])
	}
}

// longest is the run with the most room beside it.
func (k keyShape) longest() keyRun {
	best := k.runs[0]
	for _, r := range k.runs {
		if r.long > best.long {
			best = r
		}
	}
	return best
}

// centre is the mean of the middles of the runs, where a roof is named.
func (k keyShape) centre() xy {
	var c xy
	for _, r := range k.runs {
		c = c.add(r.at(r.long/2, 0))
	}
	return c.times(1 / float64(len(k.runs)))
}

// awayFrom is the direction from a corner of the wall to where its name can
// stand: streetwards, between the two runs.
func awayFrom(arrive, leave keyRun) xy {
	d := arrive.dir.roofward().add(leave.dir.roofward()).times(-1)
	if d.length() < 1e-6 {
		return arrive.dir
	}
	return d.unit()
}
