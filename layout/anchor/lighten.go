package anchor

import (
	"copingset/layout/cap"
	"copingset/layout/finding"
)

// loaded stands the chairs, and more of them where one is asked for more than the
// test proved: in the piece that asks the most of it, as long as it has room. Where
// that does not help, a piece keeps the fewest, and the chair is held.
func (b *builder) loaded(runs []*Run, sup []*Support) []*Turned {
	for {
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
				if !b.lighten(c) {
					vain = append(vain, c)
				}
			}
		}
		for _, c := range vain {
			b.giveUp(c)
		}
		if !over || !b.again {
			return turned
		}
		b.again = false
	}
}

// standLoaded stands all chairs afresh and loads them.
func (b *builder) standLoaded(runs []*Run, sup []*Support) []*Turned {
	b.found, b.crowded = finding.Set{}, nil
	b.stand(runs)
	return b.loads(runs, sup)
}

// tried is how far a part of a piece has come.
type tried struct {
	full bool // no more chairs have room
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
		if b.more[k] > 0 && !b.tried[k].vain {
			b.again = true
		}
		b.more[k] = 0
		b.tried[k] = tried{vain: true}
	}
}
