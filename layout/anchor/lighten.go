package anchor

import (
	"math"
	"slices"

	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// loaded stands the chairs, and more of them where one is asked for more than the
// test proved: in the piece that asks the most of it, as long as it has room. Where
// that does not help, the chairs of the pieces it carries stand as near to their miters as
// they can; where that does not either, a piece keeps the fewest, and the chair is held; where
// as many as have room do not help by far, at once.
func (b *builder) loaded(runs []*Run, sup []*Support) []*Turned {
	turned := b.standLoaded(runs, sup)
	if !slices.ContainsFunc(runs, b.mendable) {
		return turned
	}
	turned, _ = b.eased(runs, sup, nil)
	return turned
}

// eased adds chairs to those that stand. It is not ok where a chair counts that as many
// as have room do not help by far.
func (b *builder) eased(runs []*Run, sup []*Support, counts func(*Chair) bool) (turned []*Turned, ok bool) {
	for _, c := range b.overFar(runs, sup) {
		if counts != nil && counts(c) {
			return nil, false
		}
		b.giveUp(c)
	}
	for {
		b.again = false
		turned := b.standLoaded(runs, sup)
		b.raised = map[partKey]bool{}
		over := false
		var vain []*Chair // given up when all have been asked, so that their order does not count
		for _, a := range runs {
			for _, c := range a.Chairs {
				if !c.Load.Over() {
					continue
				}
				over = true
				if b.hopeless(c) || !b.lighten(c) && !b.hug(c) {
					vain = append(vain, c)
				}
			}
		}
		for _, c := range vain {
			b.giveUp(c)
		}
		if !over || !b.again {
			return turned, true
		}
	}
}

// mendable tells whether more chairs may help one of a run.
func (b *builder) mendable(a *Run) bool {
	return slices.ContainsFunc(a.Chairs, func(c *Chair) bool { return c.Load.Over() && !b.hopeless(c) })
}

// overFar are the chairs that are asked for more than the test proved by more than a tenth,
// which is more than steps of a row make it uneven: if they are with all that have room
// beside them, as near to the miters as they can and evenly spread, they are with any fewer.
func (b *builder) overFar(runs []*Run, sup []*Support) []*Chair {
	b.full = true
	defer func() { b.full, b.allHug = false, false }()
	even := map[partKey]bool{} // look-up only
	var out []*Chair
	for _, hug := range []bool{false, true} {
		b.allHug = hug
		b.standLoaded(runs, sup)
		for _, a := range runs {
			for _, c := range a.Chairs {
				if c.Load.Ratio() <= 1.1*full {
					continue
				}
				for _, p := range carried(c) {
					if k := keyOf(c, p); !hug {
						even[k] = true
					} else if even[k] {
						out = append(out, c)
						break
					}
				}
			}
		}
		if len(even) == 0 {
			break
		}
	}
	return out
}

// hug has the chairs of the pieces that turn and that a chair carries stand as near to their
// miters as they can, which takes load off one on the other leg. It is not ok where they do
// already, or that was in vain.
func (b *builder) hug(c *Chair) bool {
	done := false
	for _, p := range carried(c) {
		for i := range p.Parts {
			k := partKey{p, i}
			if t := b.tried[k]; len(p.Miters) > 0 && !t.hugs && !t.vain {
				b.tried[k], b.more[k] = tried{hugs: true}, 0
				done, b.again = true, true
			}
		}
	}
	return done
}

// standLoaded stands all chairs afresh and loads them.
func (b *builder) standLoaded(runs []*Run, sup []*Support) []*Turned {
	b.found, b.crowded = finding.Set{}, nil
	b.stand(runs)
	return b.loads(runs, sup)
}

// hopeless tells whether a chair is asked for more than the test proved wherever it
// stands. On each side that a neighbour can stand on it gathers at least half the length
// of a chair, since no two stand nearer, on the cap's least width and at the least
// pressure of its run. Of a piece that turns but one side is counted: a support may
// stand nearer on the other, and the miter cuts its top.
func (b *builder) hopeless(c *Chair) bool {
	if !c.Load.Over() || c.Assembly == nil {
		return false
	}
	long, wide := b.sys.Chair.Length-b.sys.Joint.Gap, c.Run.OutsideAt(c.At)
	straight := c.Kind == Between || c.Kind == AtJoint
	for _, p := range carried(c) {
		straight = straight && p.Kind == cap.Straight
		wide = length.Min(wide, p.Narrow+2*b.sys.Metal.Thickness)
	}
	if !straight {
		long /= 2
	}
	least := pressures{math.Inf(1), math.Inf(1), math.Inf(1)}
	for _, z := range b.zonesOf(c.Run) {
		least = pressures{min(least.up, z.up), min(least.out, z.out), min(least.rear, z.rear)}
	}
	if c.Joint != nil && c.Joint.Kind == cap.Kink || math.IsInf(least.up, 1) {
		return false
	}
	l := c.Load
	l.Beam = Loading{}
	l.Up.Demand = least.up * 1e-6 * long.MM() * wide.MM()
	hook := l.Up.Demand * b.atHook(c, c.Run.OutsideAt(c.At))
	if !straight { // at both edges of it alike
		hook = l.Up.Demand / 2
	}
	l.Hook.Demand, l.Snap.Demand = hook, l.Up.Demand-hook
	l.Out.Demand = least.out * 1e-6 * long.MM() * b.sys.FrontLeg(job.ToMoldLine).MM()
	l.Rear.Demand = least.rear * 1e-6 * long.MM() * b.sys.RearLeg(job.ToMoldLine).MM()
	if !straight {
		l.Rear.Demand = 0
	}
	return l.Over()
}

// tried is how far a part of a piece has come.
type tried struct {
	full bool // no more chairs have room
	hugs bool // its chairs stand as near to its miters as they can
	vain bool // more do not help: it keeps the fewest
}

// keyOf is the part of a piece that a chair carries on its own run or, over a kink,
// on the next.
func keyOf(c *Chair, p *cap.Piece) partKey {
	for i, q := range p.Parts {
		if q.Run == c.Run {
			return partKey{p, i}
		}
	}
	return partKey{p, 0}
}

// lighten asks for one more chair in the piece that asks the most of a chair, of
// two alike in both.
func (b *builder) lighten(c *Chair) bool {
	most := 0.0
	weigh := func(p *cap.Piece) (n float64) {
		for _, q := range c.shares {
			if q.by == p {
				n += q.up
			}
		}
		return n
	}
	open := func(p *cap.Piece) bool { t := b.tried[keyOf(c, p)]; return !t.full && !t.vain }
	for _, p := range carried(c) {
		if open(p) {
			most = max(most, weigh(p))
		}
	}
	done := false
	for _, p := range carried(c) {
		if open(p) && weigh(p) >= most*(1-1e-9) {
			if k := keyOf(c, p); !b.raised[k] { // one at a time, whichever chair asks
				b.raised[k] = true
				b.more[k]++
			}
			done, b.again = true, true
		}
	}
	return done
}

// giveUp takes back what was added for a chair in vain.
func (b *builder) giveUp(c *Chair) {
	for _, p := range carried(c) {
		k := keyOf(c, p)
		if (b.more[k] > 0 || b.tried[k].hugs) && !b.tried[k].vain {
			b.again = true
		}
		b.more[k] = 0
		b.tried[k] = tried{vain: true}
	}
}
