package wall

import (
	"math"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// Lying is how a perimeter lies in the plan of the job: where its own plan has its first
// corner, in the frame of its group's first perimeter, turned as that is. Perimeters of a
// group are placed from each other; nobody measured where groups lie from each other.
type Lying struct {
	Group int
	Turn  float64 // radians clockwise from its own frame to the group's
	X, Y  float64 // mm: what its own plan is moved by after it is turned
}

// At brings a point of the perimeter's own plan to its group's.
func (l Lying) At(p Point) (x, y float64) {
	s, c := math.Sincos(l.Turn)
	return p.X.MM()*c - p.Y.MM()*s + l.X, p.X.MM()*s + p.Y.MM()*c + l.Y
}

// Lyings are how perimeters lie, in their order.
func Lyings(all []*Perimeter) []Lying {
	out := make([]Lying, len(all))
	byName := map[string]int{} // look-up only
	for i, p := range all {
		byName[p.Job.Name] = i
	}
	done := make([]bool, len(all))
	groups := 0
	var place func(i, depth int)
	place = func(i, depth int) {
		p := all[i]
		if done[i] || depth > len(all) {
			return
		}
		done[i] = true
		l := p.Job.Lies
		k, known := -1, false
		if l != nil {
			k, known = byName[l.Perimeter]
		}
		if !known || len(p.Runs) == 0 {
			out[i] = Lying{Group: groups}
			groups++
			return
		}
		place(k, depth+1)
		main := all[k].runNamed(l.Run)
		if main == nil {
			out[i] = Lying{Group: groups}
			groups++
			return
		}
		out[i] = out[k].from(all[k], main, p)
	}
	for i := range all {
		place(i, 0)
	}
	return out
}

// from is how a perimeter lies that was taped from a run of one that lies so.
func (l Lying) from(of *Perimeter, main *Run, p *Perimeter) Lying {
	turn := l.Turn + (p.Job.Bearing-of.Job.Bearing).Degrees()*math.Pi/180
	out := Lying{Group: l.Group, Turn: math.Mod(turn, 2*math.Pi)}
	ax, ay := l.At(main.Plan)
	bx, by := l.At(main.PlanEnd)
	long := math.Max(math.Hypot(bx-ax, by-ay), 1)
	ux, uy := (bx-ax)/long, (by-ay)/long
	u, v := p.Job.Lies.Station.MM(), p.Job.Lies.Behind.MM()
	x, y := out.At(p.Runs[0].Plan)
	out.X, out.Y = ax+ux*u-uy*v-x, ay+uy*u+ux*v-y
	return out
}

func (p *Perimeter) runNamed(name string) *Run {
	for _, r := range p.Runs {
		if r.Name == name {
			return r
		}
	}
	return nil
}

// overlaps reports perimeters that are placed where they cannot lie: two roofs or wells
// over each other, and a well that no roof has round it. A roof that stands within
// another is a penthouse upon it.
func overlaps(all []*Perimeter, found *finding.Set) {
	lie := Lyings(all)
	rings := make([][]planned, len(all))
	for i, p := range all {
		for _, r := range p.Runs {
			ax, ay := lie[i].At(r.Plan)
			bx, by := lie[i].At(r.PlanEnd)
			rings[i] = append(rings[i], planned{r, point(ax, ay), point(bx, by)})
		}
	}
	for i, p := range all {
		in := false // a roof of its group
		tied := p.Job.Lies != nil
		for k, q := range all {
			if k == i || lie[k].Group != lie[i].Group || !p.sound() || !q.sound() {
				continue
			}
			tied = true
			meet := meets(rings[i], rings[k])
			inside := !meet && q.Closed() && holds(rings[k], rings[i][0].from)
			in = in || q.Job.Kind == job.Roof && inside
			if k < i && p.Closed() && q.Closed() && (meet || p.Job.Kind == q.Job.Kind &&
				(inside || holds(rings[i], rings[k][0].from)) &&
				!(p.Job.Kind == job.Roof && (stands(rings[i], rings[k]) || stands(rings[k], rings[i])))) {
				f := finding.New(finding.Error, "perimeters-overlap", placeOf(p),
					"check where each was taped from, and the bearings of both",
					"perimeters %s and %s lie over each other as they are placed", q.Job.Name, p.Job.Name)
				f.Where, f.Also = finding.Ref{Perimeter: p.Job.Name}, placed(q.Job.At)
				found.Append(f)
				in = true // said once
			}
		}
		if tied && p.Job.Kind == job.Well && !in && hasRoof(all, lie, i) {
			f := finding.New(finding.Error, "well-outside", placeOf(p),
				"check where it was taped from, its bearing, and that it is a hole in a roof",
				"well %s lies outside every roof as it is placed", p.Job.Name)
			f.Where = finding.Ref{Perimeter: p.Job.Name}
			found.Append(f)
		}
	}
}

// placeOf is where the job says where a perimeter lies, else where it begins.
func placeOf(p *Perimeter) finding.Place {
	if p.Job.Lies != nil {
		return p.Job.Lies.At
	}
	return p.Job.At
}

// hasRoof says whether a roof is in the group of a perimeter.
func hasRoof(all []*Perimeter, lie []Lying, i int) bool {
	for k, q := range all {
		if k != i && lie[k].Group == lie[i].Group && q.Job.Kind == job.Roof {
			return true
		}
	}
	return false
}

// meets says whether the walls of two perimeters cross.
func meets(a, b []planned) bool {
	for _, p := range a {
		for _, q := range b {
			if cross(p, q) {
				return true
			}
		}
	}
	return false
}

// stands says whether one ring of walls stands within another and clear of its walls, as
// a penthouse on a roof does.
func stands(inner, outer []planned) bool {
	for _, p := range inner {
		if !holds(outer, p.from) {
			return false
		}
		for _, q := range outer {
			if q.off(p.from) < length.Inch.MM() {
				return false
			}
		}
	}
	return true
}

// off is how far a point is from a wall, mm.
func (w planned) off(p Point) float64 {
	dx, dy := (w.to.X - w.from.X).MM(), (w.to.Y - w.from.Y).MM()
	x, y := (p.X - w.from.X).MM(), (p.Y - w.from.Y).MM()
	along := 0.0
	if long := dx*dx + dy*dy; long > 0 {
		along = math.Min(math.Max((x*dx+y*dy)/long, 0), 1)
	}
	return math.Hypot(x-along*dx, y-along*dy)
}

// holds says whether a point lies within a ring of walls (even-odd).
func holds(ring []planned, p Point) bool {
	in := false
	for _, r := range ring {
		a, b := r.from, r.to
		if (a.Y > p.Y) != (b.Y > p.Y) &&
			p.X.MM() < (b.X-a.X).MM()*(p.Y-a.Y).MM()/(b.Y-a.Y).MM()+a.X.MM() {
			in = !in
		}
	}
	return in
}
