package cap

import (
	"copingset/layout/job"
	"copingset/layout/length"
)

// cuts is a run with all that divides it into sections: building expansion
// joints and transition pieces.
type cuts struct {
	run         *Run
	sys         *job.System
	stock       stock
	left, right legRange
	joints      []*Joint // over building expansion joints
	blocked     []window
	set         []length.Length // joints that stand already
}

// cutSection is a section, and what stands at its right: an expansion joint, a
// transition, or neither at the run's end.
type cutSection struct {
	section
	joint *Joint
	taper *Taper
	tee   *Branch
}

// piece is the stretch of cap line a transition piece covers.
func (c *cuts) piece(t Taper) (from, to length.Length) {
	return t.From - c.sys.Transition.Leg, t.To + c.sys.Transition.Leg
}

// sections cuts the run at its expansion joints and at the tapers given.
func (c *cuts) sections(tapers []Taper) []cutSection {
	g := c.stock.gap
	bare := legRange{short: -g, least: -g, longest: -g}
	var out []cutSection
	from, left := length.Length(0), c.left
	add := func(to, next length.Length, right legRange, by cutSection) {
		by.section = section{from: from, to: to, left: left, right: right, blocked: c.blocked, set: c.set}
		out = append(out, by)
		from, left = next, bare
	}
	joints, tees := c.joints, c.run.Tees
	first := func(at length.Length) bool { // of what is left
		return (len(joints) == 0 || at <= joints[0].From) && (len(tapers) == 0 || at <= tapers[0].From) &&
			(len(tees) == 0 || at <= tees[0].From)
	}
	for len(tapers)+len(joints)+len(tees) > 0 {
		switch {
		case len(joints) > 0 && first(joints[0].From):
			add(joints[0].From, joints[0].To, bare, cutSection{joint: joints[0]})
			joints = joints[1:]
		case len(tees) > 0 && first(tees[0].From):
			add(tees[0].From-g, tees[0].To+g, bare, cutSection{tee: tees[0]})
			tees = tees[1:]
		default:
			a, z := c.piece(tapers[0])
			add(a-g, z+g, bare, cutSection{taper: &tapers[0]})
			tapers = tapers[1:]
		}
	}
	add(c.run.Cap, c.run.Cap, c.right, cutSection{})
	return out
}

// fits tells whether a section can be laid out by the rules.
func (c *cuts) fits(s section) bool { return s.solve(c.stock, c.sys.Corner.LegStep).problem == "" }

// settleTries bounds the search for places at which every row of pieces comes
// out; what is not found within it is a hold, as a row that cannot be cut is.
const settleTries = 4000

// settle moves transitions from the places their widths asked for, as little
// as it takes and within what the readings allow, until the straight pieces
// beside them come out. It works from the side the widths were solved from.
func (c *cuts) settle() {
	s := c.run.lay
	if s == nil || len(c.run.Tapers) == 0 {
		return
	}
	ok := true
	for _, q := range c.sections(c.run.Tapers) {
		ok = ok && c.fits(q.section)
	}
	if ok {
		return
	}
	// In the direction of solving.
	tapers := s.turn(c.run.Tapers)
	was := s.plan(tapers)
	tries := 0
	var from func(i int) bool
	from = func(i int) bool {
		// All sections up to the one before taper i are laid out.
		if i == len(tapers) {
			all := c.sections(s.turn(tapers))
			for k := range all {
				if !c.fits(c.in(all, k, s.turned).section) {
					return false
				}
			}
			now := s.plan(tapers)
			return now.ok && now.cost.held <= was.cost.held
		}
		home := tapers[i]
		for d := length.Length(0); d <= 2*c.sys.Stock; d += s.f.grid {
			for _, x := range []length.Length{d, -d} {
				if tries > settleTries || x == 0 && d > 0 {
					continue
				}
				tapers[i] = Taper{home.From + x, home.To + x, home.Left, home.Right}
				if !s.single(tapers, i) {
					continue
				}
				tries++
				if c.before(s, tapers, i) && from(i+1) {
					return true
				}
			}
		}
		tapers[i] = home
		return false
	}
	if from(0) {
		first := c.run.InsideAt(0)
		c.run.setBands(first, s.turn(tapers), c.sys.Metal.Thickness)
	}
}

// in is a section counted from the side of solving.
func (c *cuts) in(all []cutSection, k int, turned bool) cutSection {
	if turned {
		k = len(all) - 1 - k
	}
	return all[k]
}

// before tells whether the sections before taper i can be laid out, those
// before taper i-1 being so already.
func (c *cuts) before(s *stretch, tapers []Taper, i int) bool {
	all := c.sections(s.turn(tapers))
	seen := 0 // tapers passed
	for k := range all {
		q := c.in(all, k, s.turned)
		if seen >= i && !c.fits(q.section) {
			return false
		}
		// What divides this section from the next in the direction of solving.
		div := q
		if s.turned && k+1 < len(all) {
			div = c.in(all, k+1, true)
		}
		if div.taper != nil {
			if seen == i {
				return true
			}
			seen++
		}
	}
	return true
}

// turn brings tapers from the run's stations to those of solving, or back.
func (s *stretch) turn(tapers []Taper) []Taper {
	out := make([]Taper, 0, len(tapers))
	for _, t := range tapers {
		if s.turned {
			out = append([]Taper{{s.cap - t.To, s.cap - t.From, t.Right, t.Left}}, out...)
			continue
		}
		out = append(out, t)
	}
	return out
}

// single tells whether one taper of a row may stand where it does: clear of
// what blocks it, of its neighbours, and covering what it stands on.
func (s *stretch) single(tapers []Taper, i int) bool {
	t, sys := tapers[i], s.f.sys
	x := t.From - sys.Transition.Leg
	if x < 0 || x > s.cap || !s.stands(x) {
		return false
	}
	if i > 0 && x < tapers[i-1].From-sys.Transition.Leg+sys.Transition.Length+2*sys.Joint.Gap+s.least {
		return false
	}
	_, ok := s.move(x, t.Left, t.Right)
	return ok
}

// plan is what a row of tapers costs; ok is false where a reading is not
// covered.
func (s *stretch) plan(tapers []Taper) entry {
	e := entry{ok: true}
	w, bare0, loose0 := s.firstWidth(tapers), int32(0), int32(0)
	from := length.Length(0)
	for _, t := range tapers {
		bare, loose := s.before(w, t.From)
		c, ok := s.move(t.From-s.f.sys.Transition.Leg, t.Left, t.Right)
		e.ok = e.ok && ok && bare == bare0
		e.cost = e.cost.plus(c).plus(cost{held: loose - loose0, area: area(w, t.From) - area(w, from)})
		w, from = t.Right, t.To
		bare0, loose0 = s.before(w, t.To)
	}
	bare, loose := s.before(w, beyond)
	e.ok = e.ok && bare == bare0
	e.cost = e.cost.plus(cost{held: loose - loose0, area: area(w, s.cap) - area(w, from)})
	return e
}

func (s *stretch) firstWidth(tapers []Taper) length.Length {
	if len(tapers) > 0 {
		return tapers[0].Left
	}
	return s.run.InsideAt(0)
}
