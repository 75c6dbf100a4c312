package refold

import (
	"math"

	"copingset/layout/job"
)

// transition folds the two bodies of a transition, sets them at their seam and
// measures them against one another, the taper's rear legs among themselves, and its
// widths at both ends.
func (c *checker) transition(legs []Sheet) {
	if len(legs) != 2 {
		c.say("%s: %d bodies, a transition has two", legs[0].Name(), len(legs))
		return
	}
	var at [2]body
	for i, w := range legs {
		b, ok := c.stand(w)
		if !ok {
			return
		}
		at[i] = b
	}
	c.Seen["transition"]++
	for _, w := range legs { // the section at the taper's wide end
		r := w.Fold()
		r.Stand()
		c.profile(w.Name(), r, math.Max(w.Row.MM("inside width"), w.Row.MM("inside width, right end")),
			w.Row.Number("slope"))
	}
	k := 0 // the taper
	if len(at[1].Faces) > len(at[0].Faces) {
		k = 1
	}
	taper, narrow := at[k], at[1-k]
	right := k == 1 // its wide end is at the right hand
	// The seam in each body's stations: the front fold's length from its square end.
	seam := func(b body, atRight bool) float64 {
		leg, _ := b.Face("front leg")
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, p := range leg.ring {
			lo, hi = math.Min(lo, p.X), math.Max(hi, p.X)
		}
		if long := b.Sheet.Row.MM("street-side fold, left end to right end"); atRight {
			return lo + long
		} else {
			return hi - long
		}
	}
	shift := func(b body, by float64) body { return b.moved(Vec{X: 1}, Vec{S: 1}, Vec{Z: 1}, Vec{X: by}) }
	taper, narrow = shift(taper, -seam(taper, !right)), shift(narrow, -seam(narrow, right))
	near := func(b body) []Edge {
		var out []Edge
		for _, e := range b.edges {
			if math.Abs(e.Finish[0].X) < 3*b.T+5 && math.Abs(e.Finish[1].X) < 3*b.T+5 && !b.along(e) {
				out = append(out, e)
			}
		}
		return out
	}
	c.meet("the seam of the taper", narrow, taper, near(narrow), near(taper), taper.Sheet.Row.MM("seam gap"))
	c.rearLegs(taper, right)
}

// rearLegs compares the rear legs of a taper with the job: both plumb, as far from the
// front as its ends are wide, as deep, and where they part the gap from one another.
func (c *checker) rearLegs(b body, right bool) {
	name := b.Sheet.Name()
	var legs []int
	for i, f := range b.Faces {
		if plain(f.Name) == "rear leg" {
			legs = append(legs, i)
			if math.Abs(f.Frame.N.Z) > 1e-6 {
				c.say("%s: a rear leg is %.5f out of plumb", name, f.Frame.N.Z)
			}
		}
	}
	if len(legs) != 2 {
		c.say("%s: %d rear legs", name, len(legs))
		return
	}
	ends := [2]float64{b.Sheet.Row.MM("inside width"), b.Sheet.Row.MM("inside width, right end")}
	narrow, wide := ends[0], ends[1]
	if !right {
		narrow, wide = wide, narrow
	}
	for _, i := range legs {
		f := b.Faces[i].Frame
		c.tangent(b, i)
		if math.Abs(f.N.X) < 1e-9 {
			c.near(name, "inside width at its wide end", -f.O.S-2*b.T, wide)
		} else {
			// The tapered leg's outer face crosses the seam, at x 0, in the narrow width.
			s := f.O.S + f.O.X*f.N.X/f.N.S
			c.near(name, "inside width at its narrow end", -s-2*b.T, narrow)
		}
	}
	c.notch(b, legs)
}

// tangent compares how deep a rear leg hangs with the job, where it ends in a hook that
// it is stated to the tangent of: its lowest metal under the mold line of its fold.
func (c *checker) tangent(b body, leg int) {
	p := &c.j.System.Profile
	if p.RearHook.Length == 0 || p.RearLeg.To != job.ToTangent {
		return
	}
	f, top := b.Faces[leg].Frame, b.Faces[0].Frame
	low := 0.0
	for _, e := range b.edges {
		if e.Face != leg && b.Faces[e.Face].Parent != leg {
			continue
		}
		for _, v := range []Vec{e.Finish[0], e.Back[0]} {
			q := v.sub(f.N.by(v.sub(f.O).dot(f.N))) // in the plane of the leg
			low = math.Min(low, v.Z-(top.O.Z+(q.S-top.O.S)*top.Y.Z/top.Y.S))
		}
	}
	c.near(b.Sheet.Name(), "a rear leg, to tangent", -low, p.RearLeg.Length.MM())
}

func has(all []int, one int) bool {
	for _, k := range all {
		if k == one {
			return true
		}
	}
	return false
}

// notch measures the metal each side of a taper's notch against the other's.
func (c *checker) notch(b body, legs []int) {
	side := func(root int) []Edge {
		in := []int{root}
		for again := true; again; {
			again = false
			for k, g := range b.Faces {
				if !has(in, k) && has(in, g.Parent) {
					in, again = append(in, k), true
				}
			}
		}
		var out []Edge
		for _, e := range b.edges {
			if has(in, e.Face) && !b.along(e) {
				out = append(out, e)
			}
		}
		return out
	}
	p, q := side(legs[0]), side(legs[1])
	gap := b.Sheet.Row.MM("seam gap")
	seen := 0
	for _, way := range [][2][]Edge{{p, q}, {q, p}} {
		for _, g := range Gaps(way[0], NewMetal(way[1])) {
			mid := g.Edge.At[0].add(g.Edge.At[1]).by(0.5)
			if math.IsInf(g.Off, 0) {
				continue // at the other end of its leg
			}
			if g.Off < gap-within {
				c.say("%s: its rear legs stand %.3f mm from one another, the gap is %.3f, at %.1f, %.1f on the blank",
					b.Sheet.Name(), g.Off, gap, mid.X, mid.Y)
				return
			}
			if g.Off < gap+seamGap {
				seen++
			}
		}
	}
	if seen == 0 {
		c.say("%s: its rear legs come nowhere as near as their gap of %.3f", b.Sheet.Name(), gap)
	}
}

// tee folds both bodies of a tee, stands the branch before the opening of the main's
// rear leg and measures them against one another.
func (c *checker) tee(legs []Sheet) {
	if len(legs) != 2 {
		c.say("%s: %d bodies, a tee has two", legs[0].Name(), len(legs))
		return
	}
	main, ok := c.stand(legs[0])
	branch, ok2 := c.stand(legs[1])
	if !ok || !ok2 {
		return
	}
	c.Seen["tee"]++
	r := main.Sheet.Fold()
	r.Stand()
	c.profile(main.Sheet.Name(), r, main.Sheet.Row.MM("inside width"), main.Sheet.Row.Number("slope"))
	name := main.Sheet.Name()
	rear, ok := main.Face("rear leg")
	if !ok {
		c.say("%s has no rear leg", name)
		return
	}
	c.near(name, "inside width", -rear.Frame.O.S-2*main.T, main.Sheet.Row.MM("inside width"))
	// The opening: its edge under the fold slants, and is neither upright nor along a
	// bend; its sides stand at the ends of that.
	var slant []Edge
	for _, e := range main.edges {
		d := e.Finish[1].sub(e.Finish[0])
		inner := main.Faces[e.Face].Name == "rear leg" && math.Abs(d.X) > 0.5*d.len()
		if inner && !main.along(e) {
			slant = append(slant, e)
		}
	}
	if len(slant) == 0 { // a level branch
		c.say("%s: its rear leg has no opening with a slanting edge", name)
		return
	}
	left, right := slant[0].Finish[0], slant[0].Finish[0]
	for _, e := range slant {
		for _, p := range e.Finish {
			if p.X < left.X {
				left = p
			}
			if p.X > right.X {
				right = p
			}
		}
	}
	wide := branch.Sheet.Row.MM("inside width") + 2*branch.T
	c.near(name, "opening", right.X-left.X, wide)
	// The branch's front fold lies at the high end of the slant, and its street side
	// outwards from there.
	front, way := right, 1.0
	if left.Z > right.Z {
		front, way = left, -1
	}
	top := main.Faces[0].Frame
	fold := top.O.Z + (rear.Frame.O.S-top.O.S)*top.Y.Z/top.Y.S
	c.Drops[main.Sheet.Row["mark"]] = fold - front.Z
	// x of a branch that starts at the main runs to the roof where its street is to the
	// right; else to the street.
	long := branch.Sheet.Row.MM("street-side fold, left end to right end")
	leg, _ := branch.Sheet.Fold().Straight("front leg")
	mid := (leg.From + leg.To) / 2
	end, at := leftEnd, branch.Sheet.EndAt(mid, true)-long // its station of the main's rear face
	if way < 0 {
		end, at = rightEnd, branch.Sheet.EndAt(mid, false)+long
	}
	b := branch.moved(Vec{S: -way}, Vec{X: way}, Vec{Z: 1}, Vec{})
	b = b.moved(Vec{X: 1}, Vec{S: 1}, Vec{Z: 1}, Vec{X: front.X, S: rear.Frame.O.S + way*at, Z: front.Z})
	var mouth []Edge
	for _, e := range main.edges {
		lo, hi := math.Min(e.Finish[0].X, e.Finish[1].X), math.Max(e.Finish[0].X, e.Finish[1].X)
		if !main.along(e) && lo > left.X-1e-3 && hi < right.X+1e-3 && main.Faces[e.Face].Parent >= 0 &&
			e.Finish[0].S < rear.Frame.O.S/2 {
			mouth = append(mouth, e)
		}
	}
	gap := branch.Sheet.Row.MM("seam gap")
	least, seen := math.Inf(1), 0
	for _, g := range Gaps(b.end(end), NewMetal(mouth)) {
		least = math.Min(least, g.Off)
		if g.Off < gap+seamGap {
			seen++
		}
	}
	if least < gap-within {
		c.say("%s: the branch stands %.3f mm off the opening, the gap is %.3f", name, least, gap)
	}
	if n := len(b.end(end)); seen < n/2 {
		c.say("%s: %d of %d stretches of the branch's end stand at the gap of %.3f", name, seen, n, gap)
	}
}
