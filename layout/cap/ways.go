package cap

import (
	"slices"

	"copingset/layout/assembly"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall"
)

// Section names a part of a run between what divides it (building expansion joints,
// transitions, tees): the place of the run in its perimeter, and of the part in the run.
type Section struct{ Run, At int }

// Way is how a section is laid out where the usual way does not stand: as one piece
// with what stands at both its ends, or with these legs at its left and right end. The
// two of a short section add up to it, and meet at one joint; else straight
// pieces lie between, and zero stands for the usual leg.
type Way struct {
	Whole bool
	Legs  [2]length.Length
}

// Ways are those of the sections that have one of their own. It is looked up and
// never gone through.
type Ways map[Section]Way

// by lays a section out in a way of its own.
func (s section) by(w Way, k stock, step length.Length) row {
	if w.Whole {
		return row{merged: true}
	}
	if w.Legs[0]+w.Legs[1]+k.gap == s.to-s.from {
		r := row{leftLeg: w.Legs[0], rightLeg: w.Legs[1], oneJoint: true}
		if inWindow(s.from+r.leftLeg+k.gap/2, s.blocked) {
			r.problem = "its one joint cannot clear the obstacles"
		}
		return r
	}
	for i, l := range []*legRange{&s.left, &s.right} {
		if w.Legs[i] > l.least {
			l.least = w.Legs[i]
		}
	}
	return s.solve(k, step)
}

// chosen tells whether the legs of a corner stand in a way of their own, which was
// judged by all that stands there.
func (b *builder) chosen(c *wall.Corner) bool {
	if r := b.runOf(c.Leave); r != nil {
		if w, ok := b.ways[Section{r.Index, 0}]; ok && (w.Whole || w.Legs[0] > 0) {
			return true
		}
	}
	r := b.runOf(c.Arrive)
	if r == nil {
		return false
	}
	at := len(r.Tapers) + len(r.Tees)
	for _, j := range r.Joints {
		if j.Kind == Expansion {
			at++
		}
	}
	w, ok := b.ways[Section{r.Index, at}]
	return ok && (w.Whole || w.Legs[1] > 0)
}

// last tells whether what comes after a run is not laid out with it.
func (b *builder) last(r *Run) bool {
	return b.open && r == b.runs[len(b.runs)-1]
}

// Room is one section of a perimeter, as those see it who look for other ways.
type Room struct {
	Section
	Usual Option
	// Corner at its right that a piece turns round; nil where something else stands there.
	Corner *wall.Corner
	Short  bool     // no straight piece stands in it: its ways hang together with its neighbours'
	Fixed  bool     // there is but the usual way
	Ways   []Option // with a joint or straight pieces, the usual one first; more come with Grown
	Whole  bool     // it may be one piece with what stands at both its ends
	Held   bool     // legs alike stand at that corner
}

// Option is a way, and what of it is weighed.
type Option struct {
	Way
	Usual  bool
	Under  int           // legs under the job's least
	Uneven length.Length // by which legs that meet differ
	Grown  length.Length // legs beyond the usual ones
}

// Bench lays out parts of a perimeter in other ways. The runs it is given stay as they
// are.
type Bench struct {
	b     *builder
	rooms []Room
}

// NewBench takes runs as they come from Build. Branches are not moved: it is nil for a
// perimeter that has one.
func NewBench(j *job.Job, runs []*Run, grid length.Length) *Bench {
	for _, r := range runs {
		if len(r.Tees)+len(r.Stubs) > 0 || r.Left.Kind == job.EndTee || r.Right.Kind == job.EndTee {
			return nil
		}
	}
	return &Bench{b: newBuilder(j, runs, grid)}
}

// Rooms lists the sections of the perimeter in station order.
func (t *Bench) Rooms() []Room {
	if t.rooms != nil {
		return t.rooms
	}
	for _, r := range bareCopies(t.b.runs) {
		c, _, _ := t.b.cuts(r)
		all := c.sections(r.Tapers)
		for i, s := range all {
			near := [2]*wall.Corner{}
			if i == 0 {
				near[0] = turning(r.Left.Corner)
			}
			if i == len(all)-1 {
				near[1] = turning(r.Right.Corner)
			}
			q := t.room(s.section, c.stock, near)
			q.Section = Section{r.Index, i}
			if i == len(all)-1 && r.Right.Corner != nil && !r.Right.Corner.Absorb {
				q.Corner = r.Right.Corner
				q.Held = t.b.legsOf(t.b.seams[q.Corner])[0].Held
			}
			t.rooms = append(t.rooms, q)
		}
	}
	return t.rooms
}

// turning is a corner that a piece turns round; nil: none.
func turning(c *wall.Corner) *wall.Corner {
	if c == nil || c.Absorb || c.Straight() {
		return nil
	}
	return c
}

// tight are the legs of a side of a corner beside which so many chairs just have room between
// its miter and its joint.
func (t *Bench) tight(c *wall.Corner, side int) []length.Length {
	if c == nil {
		return nil
	}
	s := t.b.sys
	near, ok := t.b.seams[c].Near(s, side, t.b.grid, true)
	if !ok {
		return nil
	}
	var out []length.Length
	for n := range length.Length(chairsTight) {
		out = append(out, length.CeilTo(near+n*s.Chair.Length-s.Joint.Gap/2, s.Corner.LegStep))
	}
	return out
}

// chairsTight is beside how many chairs legs are tried that just have room for them.
const chairsTight = 4

// bareCopies are runs without pieces and joints.
func bareCopies(runs []*Run) []*Run {
	out := make([]*Run, len(runs))
	for i, r := range runs {
		c := *r
		c.Parts, c.Joints = nil, nil
		out[i] = &c
	}
	return out
}

// Fresh are the runs as they were before pieces were laid out on them.
func (t *Bench) Fresh() []*Run { return bareCopies(t.b.runs) }

// Spaced are Fresh with the tested spacings of all assemblies so many eighths of what they
// are.
func (t *Bench) Spaced(eighths int64) []*Run {
	runs := t.Fresh()
	if eighths == 8 {
		return runs
	}
	made := map[*job.Assembly]*job.Assembly{} // look-up only
	wider := func(of *assembly.Choice) {
		if of.Assembly == nil {
			return
		}
		a, known := made[of.Assembly]
		if !known {
			k := *of.Assembly
			k.ChairSpacing = length.MulDiv(k.ChairSpacing, eighths, 8)
			a = &k
			made[of.Assembly] = a
		}
		of.Assembly = a
	}
	for _, r := range runs {
		r.Choices = slices.Clone(r.Choices)
		for z := range r.Choice {
			wider(&r.Choice[z])
		}
		for i := range r.Choices {
			for z := range r.Choices[i].Choice {
				wider(&r.Choices[i].Choice[z])
			}
		}
	}
	return runs
}

// wayParts is into how many steps, at most, the places of a joint are divided that
// lie between two extremes.
const wayParts = 16

// room lists the ways of a section.
func (t *Bench) room(s section, k stock, near [2]*wall.Corner) Room {
	step := t.b.sys.Corner.LegStep
	total := s.to - s.from
	w := s.solve(k, step)
	usual := Option{Way: Way{Whole: w.merged, Legs: [2]length.Length{w.leftLeg, w.rightLeg}}, Usual: true}
	q := Room{Usual: usual, Short: w.merged || w.oneJoint || len(w.pieces) == 0}
	if s.left.least <= 0 && s.right.least <= 0 || s.left.least <= 0 && q.Short || s.right.least <= 0 && q.Short ||
		w.problem != "" && !q.Short {
		q.Fixed = true
		q.Ways = []Option{usual}
		return q
	}
	if total <= s.left.longest+s.right.longest+k.gap && s.left.least > 0 && s.right.least > 0 {
		q.Short = true
		q.Whole = w.merged || total <= t.b.sys.Corner.LongestLeg
	}
	if !q.Short {
		q.Usual.Way = Way{}
		q.Ways = []Option{q.Usual}
		return q
	}
	if !w.merged && w.problem == "" {
		q.Ways = append(q.Ways, t.weighed(usual, s))
	}
	tight := [2][]length.Length{t.tight(near[0], 1), t.tight(near[1], 0)}
	for _, l := range meetings(s, total-k.gap, step, tight) {
		o := t.weighed(Option{Way: Way{Legs: [2]length.Length{l, total - k.gap - l}}}, s)
		if !inWindow(s.from+l+k.gap/2, s.blocked) && !(w.oneJoint && l == w.leftLeg) {
			q.Ways = append(q.Ways, o)
		}
	}
	if !w.merged && !w.oneJoint { // straight pieces between, with longer legs
		for _, l := range growths(s.left, step, tight[0]) {
			for _, r := range growths(s.right, step, tight[1]) {
				if o, ok := t.grown(s, k, [2]length.Length{l, r}); ok {
					q.Ways = append(q.Ways, o)
				}
			}
		}
	}
	return q
}

// meetings are the places of the joint of a short section, as its left leg: the
// extremes, between them no closer than a part of the way, counted from both ends
// alike, and where chairs just have room beside it.
func meetings(s section, legs, step length.Length, tight [2][]length.Length) []length.Length {
	lo := length.Max(s.left.short, legs-s.right.longest)
	hi := length.Min(s.left.longest, legs-s.right.short)
	if lo > hi {
		return nil
	}
	for (hi-lo)/step > wayParts {
		step *= 2
	}
	out := []length.Length{lo, hi}
	for i, side := range tight {
		for _, l := range side {
			if i == 1 {
				l = legs - l
			}
			if l > lo && l < hi {
				out = append(out, l)
			}
		}
	}
	for d := step; d < hi-lo; d += step {
		out = append(out, lo+d, hi-d)
	}
	return sorted(out)
}

// growths are the legs that are tried where straight pieces lie beside: the least and,
// by doubling steps, up to the longest, and beside which chairs just have room.
func growths(l legRange, step length.Length, tight []length.Length) []length.Length {
	out := []length.Length{l.least}
	if l.least <= 0 || l.fixed {
		return out
	}
	for d := step; l.least+d < l.longest; d *= 2 {
		out = append(out, l.least+d)
	}
	for _, x := range tight {
		if x > l.least && x < l.longest {
			out = append(out, x)
		}
	}
	return sorted(append(out, length.FloorTo(l.longest-l.least, step)+l.least))
}

// weighed fills in what is weighed of the legs of a short section.
func (t *Bench) weighed(o Option, s section) Option {
	for i, l := range []legRange{s.left, s.right} {
		if o.Legs[i] < l.least {
			o.Under++
		}
	}
	o.Uneven = length.Abs(o.Legs[0] - o.Legs[1])
	return o
}

// grown is a section with straight pieces between legs no shorter than these; not ok
// where it cannot be cut so.
func (t *Bench) grown(s section, k stock, legs [2]length.Length) (Option, bool) {
	o := Option{Way: Way{Legs: legs}}
	w := s.by(o.Way, k, t.b.sys.Corner.LegStep)
	if w.problem != "" || w.merged || w.oneJoint || w.leftLeg != legs[0] || w.rightLeg != legs[1] {
		return o, false
	}
	for i, l := range []legRange{s.left, s.right} {
		o.Grown += legs[i] - l.least
	}
	return o, o.Grown > 0
}

// Grown lists the ways of a long section with a longer leg at one of its ends, the
// usual one first.
func (t *Bench) Grown(of Room, right bool) []Option {
	out := []Option{{Usual: true}}
	if of.Fixed {
		return out
	}
	r := bareCopies(t.b.runs[of.Run : of.Run+1])[0]
	c, _, _ := t.b.cuts(r)
	s := c.sections(r.Tapers)[of.At].section
	usual := s.solve(c.stock, t.b.sys.Corner.LegStep)
	l, side, near := s.left, 0, t.tight(turning(r.Left.Corner), 1)
	if right {
		l, side, near = s.right, 1, t.tight(turning(r.Right.Corner), 0)
	}
	for _, x := range growths(l, t.b.sys.Corner.LegStep, near) {
		legs := [2]length.Length{usual.leftLeg, usual.rightLeg}
		if legs[side] >= x {
			continue
		}
		grown := x - legs[side]
		legs[side] = x
		if o, ok := t.grown(s, c.stock, legs); ok {
			o.Grown, o.Legs[1-side] = grown, 0
			out = append(out, o)
		}
	}
	return out
}

// Lay lays out so many runs from one, as an open part of the perimeter: what
// stands beyond its first and its last joint is not to be judged, and of the straight
// pieces of its first and its last run there is but the next one. Without a number the
// runs are the whole perimeter, as it is.
func (t *Bench) Lay(from, n int, ways Ways) ([]*Run, []*Piece, finding.List) {
	all := t.b.runs
	if n > 0 {
		all = slices.Concat(all, all)[from : from+n]
	}
	runs := bareCopies(all)
	b := &builder{job: t.b.job, sys: t.b.sys, runs: runs, grid: t.b.grid, features: map[*wall.Corner]int{},
		ends:  map[[2]int]int{},
		seams: t.b.seams, ways: ways, whole: t.b, open: n > 0}
	for _, r := range runs {
		b.run(r)
	}
	pieces := b.group()
	b.shapes(pieces)
	for _, r := range runs {
		sortParts(r.Parts)
	}
	if n > 1 {
		pieces = trimmed(runs[0], pieces, true)
		pieces = trimmed(runs[n-1], pieces, false)
	}
	return runs, pieces, b.found.List()
}

// trimmed leaves of a run at the edge of a part of a perimeter the leg at its inner end and the
// piece beside it, and of the pieces those that are left.
func trimmed(r *Run, pieces []*Piece, right bool) []*Piece {
	n := len(r.Parts)
	if n < 3 {
		return pieces
	}
	gone, kept := r.Parts[2:], r.Parts[:2]
	if right {
		gone, kept = r.Parts[:n-2], r.Parts[n-2:]
	}
	r.Parts = kept
	r.Joints = slices.DeleteFunc(r.Joints, func(j *Joint) bool {
		return j.Left != kept[0].Piece && j.Right != kept[1].Piece && j.Left != kept[1].Piece &&
			j.Right != kept[0].Piece
	})
	return slices.DeleteFunc(pieces, func(p *Piece) bool {
		return slices.ContainsFunc(gone, func(q Part) bool { return q.Piece == p }) && len(p.Parts) == 1
	})
}
