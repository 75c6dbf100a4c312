package crate

import (
	"cmp"
	"slices"

	"copingset/layout/anchor"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"
)

// FastenerCount is how many of one fastener in one length.
type FastenerCount struct {
	Fastener *job.Fastener
	Length   length.Length
	Count    int // in chairs and under miters, without spares
}

// Fasteners counts the fasteners of all chairs and corner supports, by type and length.
func Fasteners(runs []*anchor.Run) []FastenerCount {
	var out []FastenerCount
	add := func(of *job.Fastener, long length.Length, n int) {
		if of == nil || long == 0 {
			return
		}
		i := slices.IndexFunc(out, func(f FastenerCount) bool { return f.Fastener == of && f.Length == long })
		if i < 0 {
			out = append(out, FastenerCount{Fastener: of, Length: long})
			i = len(out) - 1
		}
		out[i].Count += n
	}
	for _, r := range runs {
		for _, c := range r.Chairs {
			for _, w := range c.Rows {
				add(w.Fastener, w.Length, w.Count)
			}
		}
		for _, s := range r.Supports {
			add(s.Screws.Fastener, s.Screws.Length, s.Screws.Count)
		}
	}
	slices.SortStableFunc(out, func(a, b FastenerCount) int {
		if a.Fastener.Name != b.Fastener.Name {
			if a.Fastener.Name < b.Fastener.Name {
				return -1
			}
			return 1
		}
		return int((a.Length - b.Length) / length.Millimetre)
	})
	return out
}

// hardware counts chairs, supports, plates, fasteners, shims, tape, with spares. It
// counts all that stands on the wall: chairs are set before a cap is cut, and
// what a hold keeps back is chairs and plates the crew needs all the same.
func hardware(j *job.Job, loads []Load) *Crate {
	c := &Crate{Kind: Hardware}
	var chairs, splices []byWidth
	supports, kept := 0, 0 // kept: of pieces not released
	held := heldOf(loads)
	var tapered, covers []Item
	var runs []*anchor.Run
	var tape length.Length
	for _, l := range loads {
		supports += len(l.Supports)
		for _, s := range l.Supports {
			kept += ones(held(s.Piece) || l.kept(Support, s.Name))
		}
		for _, r := range l.Runs {
			runs = append(runs, r)
			for _, ch := range r.Chairs {
				back := l.waits(ch, held)
				if left, right := ch.Edges(&j.System); left != right {
					tapered = append(tapered, Item{Count: 1, Later: ones(back), Sort: Chair,
						What: "chair, roof-side edge cut to a taper", Mark: ch.Name, Length: j.System.Chair.Length})
					continue
				}
				chairs = count(chairs, ch.Inside, j.ChairNames(ch.Assembly), back)
			}
			for _, q := range r.Joints {
				if q.Left != nil {
					tape += 2 * l.Girth(q.Left) // a strip each side of the joint
				}
				back := l.kept(Plate, q.Name) || held(q.Left, q.Right)
				if q.Kind == cap.Expansion {
					covers = append(covers, Item{Count: 1, Later: ones(back),
						Sort: Plate, What: "cover plate, expansion joint",
						Mark: q.Name, Length: q.Plate})
					continue
				}
				splices = count(splices, r.InsideAt(q.Centre()), "", back)
			}
		}
	}
	add := func(sort Sort, n, percent int, what string, l length.Length) {
		if n == 0 {
			return
		}
		s := Spare(n, percent)
		c.Items = append(c.Items, Item{Count: n + s, Spare: s, Percent: percent, Sort: sort, What: what, Length: l})
	}
	later := func(n, kept, percent int) {
		if kept > 0 {
			c.Items[len(c.Items)-1].Later = kept + Spare(n, percent) - Spare(n-kept, percent)
		}
	}
	for _, w := range chairs {
		add(Chair, w.n, j.Crating.SpareChair, "chair"+j.Units.OwnUnits(w.words(len(chairs))),
			j.System.Chair.Length)
		c.Items[len(c.Items)-1].Inside = w.told(len(chairs))
		later(w.n, w.held, j.Crating.SpareChair)
	}
	c.Items = append(c.Items, tapered...)
	add(Support, supports, j.Crating.SpareSupport, "corner support", j.System.Corner.Support.Length)
	later(supports, kept, j.Crating.SpareSupport)
	for _, w := range splices {
		add(Plate, w.n, j.Crating.SpareSplice, "splice plate"+j.Units.OwnUnits(w.words(len(splices))),
			j.System.Splice.Length)
		c.Items[len(c.Items)-1].Inside = w.told(len(splices))
		later(w.n, w.held, j.Crating.SpareSplice)
	}
	c.Items = append(c.Items, covers...)
	for _, f := range Fasteners(runs) {
		add(Screw, f.Count, j.Crating.SpareFastener, f.Fastener.Name, f.Length)
		c.Items[len(c.Items)-1].Box = f.Fastener.Box
	}
	shims := shimsOf(runs, loads)
	for _, t := range j.Packing.Shims {
		add(Shim, shims[t], j.Crating.SpareShim, "shim", t)
	}
	if tape > 0 && j.Crating.TapeRoll > 0 {
		c.Items = append(c.Items, rolls(j, tape))
	}
	return c
}

func (l Load) kept(sort Sort, name string) bool { return l.Kept != nil && l.Kept(sort, name) }

// waits reports whether a chair is on hold, or stands under a piece that is not released.
func (l Load) waits(ch *anchor.Chair, held func(...*cap.Piece) bool) bool {
	return l.kept(Chair, ch.Name) || held(ch.Piece) || ch.Joint != nil && held(ch.Joint.Left, ch.Joint.Right)
}

// rolls are those that a length of tape takes.
func rolls(j *job.Job, tape length.Length) Item {
	of := func(l length.Length) int { return int((l + j.Crating.TapeRoll - 1) / j.Crating.TapeRoll) }
	n := of(length.MulDiv(tape, int64(100+j.Crating.SpareTape), 100))
	return Item{Count: n, Spare: n - of(tape), Percent: j.Crating.SpareTape, Sort: Tape, What: "sealant tape, rolls",
		Length: j.Crating.TapeRoll}
}

// shimsOf counts the shims under chairs and corner supports by their thickness.
func shimsOf(runs []*anchor.Run, loads []Load) map[length.Length]int {
	n := map[length.Length]int{} // look-up only
	for _, r := range runs {
		for _, ch := range r.Chairs {
			for _, s := range slices.Concat(ch.ShimFront, ch.ShimRear) {
				n[s]++
			}
		}
	}
	for _, l := range loads {
		for _, u := range l.Supports {
			for _, s := range u.Shims {
				n[s]++
			}
		}
	}
	return n
}

// byWidth counts parts that are made to one inside width, and of chairs those that
// the same assemblies were tested with.
type byWidth struct {
	inside length.Length
	tested string // empty: the job has one chair
	n      int
	held   int // of them, for pieces not released, or on hold themselves
}

// heldOf tells whether one of some pieces is not released.
func heldOf(loads []Load) func(...*cap.Piece) bool {
	not := map[*cap.Piece]bool{} // look-up only
	for _, l := range loads {
		for _, p := range l.Pieces {
			not[p.Piece] = p.Held
		}
	}
	return func(all ...*cap.Piece) bool {
		return slices.ContainsFunc(all, func(p *cap.Piece) bool { return not[p] })
	}
}

func ones(is bool) int {
	if is {
		return 1
	}
	return 0
}

// count adds a part to the count of its like, narrowest first.
func count(all []byWidth, inside length.Length, tested string, held bool) []byWidth {
	i, ok := slices.BinarySearchFunc(all, inside, func(w byWidth, l length.Length) int {
		return cmp.Or(cmp.Compare(w.inside, l), cmp.Compare(w.tested, tested))
	})
	if !ok {
		all = slices.Insert(all, i, byWidth{inside: inside, tested: tested})
	}
	all[i].n++
	all[i].held += ones(held)
	return all
}

// words say the width where there are several, and whose chair it is.
func (w byWidth) words(several int) string {
	if several < 2 {
		return ""
	}
	if w.tested != "" {
		return ", assembly " + w.tested + ", cap " + job.Both(w.inside) + " inside"
	}
	return ", cap " + job.Both(w.inside) + " inside"
}

// told is the width inside where parts are of several, else zero.
func (w byWidth) told(several int) length.Length {
	if several < 2 {
		return 0
	}
	return w.inside
}

// Spare rounds a percentage of a count up to whole parts.
func Spare(n, percent int) int { return (n*percent + 99) / 100 }
