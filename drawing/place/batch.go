package place

import (
	"cmp"
	"slices"

	"copingset/drawing"
)

// Wish is a label with the spots its view would like, best first.
type Wish struct {
	Label
	Spots  []Spot
	Weight int // of going without a spot; 0: as one
}

// A label brings at most so many of its free spots into a batch: the first ones
// as they come, of the others only such as stand well apart.
const (
	most   = 32
	nearby = 4
)

// TryAll stands labels at free spots of theirs, as many as can be, each as near
// its first as can be. Those that find none are the zero Placement, and the
// caller's to place otherwise.
func (p *Placer) TryAll(wishes []Wish) []Placement { return p.all(wishes, false) }

// PlaceAll places labels, whatever it takes: as many as can be at spots of
// theirs, each as near its first as can be, and the rest as Place does.
func (p *Placer) PlaceAll(wishes []Wish) []Placement {
	out := p.all(wishes, true)
	for i, w := range wishes {
		if !out[i].Stands() {
			out[i] = p.Place(w.Label, w.Spots...)
		}
	}
	return out
}

func (p *Placer) all(wishes []Wish, over bool) []Placement {
	b := p.newBatch(wishes, over)
	out := make([]Placement, len(wishes))
	for i, k := range b.solve() {
		if k != none {
			out[i] = p.take(wishes[i].Label, &b.of[i][k].stand)
		}
	}
	// A spot beyond those looked at may still be free.
	for i, w := range wishes {
		if out[i].Stands() {
			continue
		}
		got, ok := p.try(w.Label, w.Spots, false)
		if !ok && over {
			got, _ = p.try(w.Label, w.Spots, true)
		}
		out[i] = got
	}
	return out
}

// none is the pick of a label without a spot.
const none = -1

// choice is a spot a label could have if no other label of the batch were
// there, and what it costs: how many spots the label would rather have.
type choice struct {
	stand
	put     []item  // what it is to the others
	segs    []shape // of its leader
	cost    int64
	room    drawing.Rect // all it takes
	dead    bool         // never needed: an earlier choice is no worse for anybody
	blocked int          // by so many picks, in a search
	rival   []ref        // choices of other labels it cannot stand beside, in order
}

// ref is a choice of a label.
type ref struct{ label, choice int }

func (a ref) compare(b ref) int {
	if a.label != b.label {
		return cmp.Compare(a.label, b.label)
	}
	return cmp.Compare(a.choice, b.choice)
}

// batch is labels that look for room together.
type batch struct {
	of     [][]choice // by label, cheapest first
	weight []int64
}

// newBatch lists the choices of each label against what stands already: spots
// in the order given, then those whose leader goes over what is in the way.
func (p *Placer) newBatch(wishes []Wish, over bool) *batch {
	b := &batch{of: make([][]choice, len(wishes)), weight: make([]int64, len(wishes))}
	room := make([]choice, 0, most)
	for i, w := range wishes {
		b.weight[i] = int64(max(w.Weight, 1))
		b.of[i] = slices.Clone(p.choices(&w, over, room))
		for k := range b.of[i] {
			b.of[i][k].measure()
		}
	}
	b.rivals()
	return b
}

// choices are the spots a label could have, listed in the room given.
func (p *Placer) choices(w *Wish, over bool, out []choice) []choice {
	var barred []int // spots whose leader something is in the way of
	f := w.form()
	for k, s := range w.Spots {
		if len(out) >= most {
			return out
		}
		if f.beyond(p.Bounds, s) || len(out) >= nearby && f.crowded(out, s) {
			continue
		}
		st := f.stand(s)
		switch {
		case !p.fits(&st):
		case p.open(&st, false):
			out = append(out, choice{stand: st, cost: int64(k)})
		case over:
			barred = append(barred, k)
		}
	}
	for _, k := range barred {
		if len(out) >= most {
			break
		}
		if st := f.stand(w.Spots[k]); p.open(&st, true) {
			out = append(out, choice{stand: st, cost: int64(k + len(w.Spots))})
		}
	}
	return out
}

// crowded says whether a spot is so near a choice of the same label that what
// is in the way of the one is in the way of the other.
func (l *form) crowded(of []choice, s Spot) bool {
	for k := range of {
		d := of[k].centre.Sub(s.Centre)
		if d.X > -l.w/2 && d.X < l.w/2 && d.Y > -l.h/2 && d.Y < l.h/2 && of[k].off == s.Off {
			return true
		}
	}
	return false
}

// measure works out the room a choice takes, with what it keeps free, and what
// it is to others.
func (c *choice) measure() {
	c.room = c.long.box
	c.put = c.items()
	for i, q := range c.way {
		c.room = c.room.Union(drawing.Rect{Min: q, Max: q}.Inset(-dotRoom))
		if i > 0 {
			c.segs = append(c.segs, segment(c.way[i-1], q))
		}
	}
}

// rivals finds the choices that cannot stand together, looking only at labels
// whose rooms meet.
func (b *batch) rivals() {
	all := make([]drawing.Rect, len(b.of))
	order := make([]int, len(b.of))
	for i := range b.of {
		order[i] = i
		for k := range b.of[i] {
			all[i] = all[i].Union(b.of[i][k].room)
		}
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(all[i].Min.X, all[j].Min.X) })
	var pairs [][2]int
	for n, i := range order {
		for _, j := range order[n+1:] {
			if all[j].Min.X >= all[i].Max.X {
				break
			}
			if all[i].Intersects(all[j]) {
				pairs = append(pairs, [2]int{min(i, j), max(i, j)})
			}
		}
	}
	// so that the rivals of each choice come in order
	slices.SortFunc(pairs, func(a, b [2]int) int { return slices.Compare(a[:], b[:]) })
	for _, q := range pairs {
		b.compare(q[0], q[1])
	}
}

func (b *batch) compare(i, j int) {
	for k := range b.of[i] {
		c := &b.of[i][k]
		for m := range b.of[j] {
			if d := &b.of[j][m]; c.room.Intersects(d.room) && c.against(d) {
				c.rival = append(c.rival, ref{j, m})
				d.rival = append(d.rival, ref{i, k})
			}
		}
	}
}

// against says whether two labels cannot stand together, whichever came first.
func (c *choice) against(d *choice) bool { return c.blocks(d) || d.blocks(c) }

func (c *choice) blocks(d *choice) bool {
	for n := range c.put {
		it := &c.put[n]
		if it.meets(&d.stand) {
			return true
		}
		for k := range d.segs {
			if it.stops(&d.stand, &d.segs[k], true) {
				return true
			}
		}
	}
	return false
}

// prune drops choices no best sharing needs: one is not needed if a cheaper one
// of the same label is in nobody's way that it would not be in too. What is
// dropped is no longer in anybody's way, so it is done again, a few times over.
func (b *batch) prune() {
	for range 6 {
		again := false
		for i := range b.of {
			for k := range b.of[i] {
				if !b.of[i][k].dead && b.beaten(i, k) {
					b.of[i][k].dead, again = true, true
				}
			}
		}
		if !again {
			return
		}
		for i := range b.of {
			for k := range b.of[i] {
				c := &b.of[i][k]
				c.rival = slices.DeleteFunc(c.rival, func(r ref) bool { return b.of[r.label][r.choice].dead })
			}
		}
	}
}

func (b *batch) beaten(i, k int) bool {
	c := &b.of[i][k]
	for m := range b.of[i][:k] {
		if d := &b.of[i][m]; !d.dead && within(d.rival, c.rival) {
			return true
		}
	}
	return false
}

// within says whether every member of a sorted list is in another.
func within(a, b []ref) bool {
	if len(a) > len(b) {
		return false
	}
	n := 0
	for _, r := range a {
		for n < len(b) && b[n].compare(r) < 0 {
			n++
		}
		if n == len(b) || b[n] != r {
			return false
		}
	}
	return true
}
