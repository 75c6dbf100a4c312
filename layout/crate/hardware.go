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
	supports := 0
	var tapered []Item
	var covers []Item
	var runs []*anchor.Run
	var tape length.Length
	for _, l := range loads {
		supports += len(l.Supports)
		for _, r := range l.Runs {
			runs = append(runs, r)
			for _, ch := range r.Chairs {
				if left, right := ch.Edges(&j.System); left != right {
					tapered = append(tapered, Item{Count: 1, Sort: Chair,
						What: "chair, roof-side edge cut to a taper", Mark: ch.Name, Length: j.System.Chair.Length})
					continue
				}
				chairs = count(chairs, ch.Inside, j.ChairNames(ch.Assembly))
			}
			for _, q := range r.Joints {
				if q.Left != nil {
					tape += 2 * l.Girth(q.Left) // a strip each side of the joint
				}
				if q.Kind == cap.Expansion {
					covers = append(covers, Item{Count: 1, Sort: Plate, What: "cover plate, expansion joint",
						Mark: q.Name, Length: q.Plate})
					continue
				}
				splices = count(splices, r.InsideAt(q.Centre()), "")
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
	for _, w := range chairs {
		add(Chair, w.n, j.Crating.SpareChair, "chair"+j.Units.OwnUnits(w.words(len(chairs))),
			j.System.Chair.Length)
		c.Items[len(c.Items)-1].Inside = w.told(len(chairs))
	}
	c.Items = append(c.Items, tapered...)
	add(Support, supports, j.Crating.SpareSupport, "corner support", j.System.Corner.Support.Length)
	for _, w := range splices {
		add(Plate, w.n, j.Crating.SpareSplice, "splice plate"+j.Units.OwnUnits(w.words(len(splices))),
			j.System.Splice.Length)
		c.Items[len(c.Items)-1].Inside = w.told(len(splices))
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
		rolls := func(l length.Length) int { return int((l + j.Crating.TapeRoll - 1) / j.Crating.TapeRoll) }
		n := rolls(length.MulDiv(tape, int64(100+j.Crating.SpareTape), 100))
		c.Items = append(c.Items, Item{Count: n, Spare: n - rolls(tape), Percent: j.Crating.SpareTape, Sort: Tape,
			What: "sealant tape, rolls", Length: j.Crating.TapeRoll})
	}
	return c
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
}

// count adds a part to the count of its like, narrowest first.
func count(all []byWidth, inside length.Length, tested string) []byWidth {
	i, ok := slices.BinarySearchFunc(all, inside, func(w byWidth, l length.Length) int {
		return cmp.Or(cmp.Compare(w.inside, l), cmp.Compare(w.tested, tested))
	})
	if !ok {
		all = slices.Insert(all, i, byWidth{inside: inside, tested: tested})
	}
	all[i].n++
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
