package refold

import (
	"math"

	"copingset/layout/job"
)

// Drawn is the plan of a corner piece of two legs as it is drawn, in millimetres: y goes to
// the roof of the first leg, and lines lie where the outsides of folds meet.
type Drawn struct {
	Mark string
	Legs [2]DrawnLeg
	Seam [2]Pt // from the street to the roof
	One  bool  // one width through the corner: the seam bisects its turn
}

// DrawnLeg is one leg: its street edge and its roof edge, each from the left hand to the
// right.
type DrawnLeg struct{ Street, Roof [2]Pt }

// CheckDrawn lays the metal that the written files of a piece fold to on its drawn plan, by
// the square end of each leg, and says where they differ: edges of the legs, ends, seam.
func CheckDrawn(all []Sheet, j *job.Job, d Drawn) []string {
	c := &checker{j: j, Report: Report{Seen: map[string]int{}, Drops: map[string]float64{}}}
	legs := 0
	for _, w := range all {
		if w.Row["mark"] != d.Mark || w.Row["body"] == "end plate" {
			continue
		}
		if legs == 2 {
			return append(c.Faults, d.Mark+" has more than two legs")
		}
		if b, ok := c.stand(w); ok {
			c.beside(b, d, legs)
		}
		legs++
	}
	if legs != 2 {
		c.say("%s has %d legs", d.Mark, legs)
	}
	return c.Faults
}

// beside lays one leg on the plan.
func (c *checker) beside(b body, d Drawn, leg int) {
	g := d.Legs[leg]
	along := g.Street[1].sub(g.Street[0])
	along = along.by(1 / along.len())
	roof := Pt{-along.Y, along.X}
	square, seam := leftEnd, rightEnd
	start := g.Street[0]
	if leg == 1 {
		square, seam, start = rightEnd, leftEnd, g.Street[1]
	}
	fold, _ := b.Sheet.Fold().Straight("front leg")
	end := b.Sheet.EndAt((fold.From+fold.To)/2, leg == 1)
	place := func(v Vec) Pt { return start.add(along.by(v.X - end)).sub(roof.by(v.S)) }
	off := func(p Pt, a, z Pt) float64 { // to the roof of a line from the left to the right
		n := z.sub(a)
		n = Pt{-n.Y, n.X}.by(1 / n.len())
		return p.sub(a).dot(n)
	}
	far := func(what string, got, most float64, e Edge) {
		if math.Abs(got) > most {
			c.say("%s: its %s lies %.3f mm off the drawn %s, at %.1f, %.1f on the blank", b.Sheet.Name(),
				b.Faces[e.Face].Name, got, what, e.At[0].X, e.At[0].Y)
		}
	}
	on, of := map[string]int{}, map[string]int{} // look-up only: edges that lie on the drawn line, and all
	for _, e := range b.edges {
		p, back := place(e.Finish[0]), place(e.Back[0])
		name := b.Faces[e.Face].Name
		line, flat := map[string][2]Pt{"front leg": g.Street, "rear leg": g.Roof}[name]
		if of[name]++; flat && math.Abs(off(p, line[0], line[1])) <= within {
			on[name]++
		}
		if !flat && name != "top" {
			continue
		}
		if b.side[e.Src] == square {
			far("square end", p.sub(start).dot(along), within, e)
			continue
		}
		if b.side[e.Src] != seam || !d.One || b.Sheet.notched(e.At[0]) || b.Sheet.notched(e.At[1]) {
			continue
		}
		// The first leg lies at the left of one who looks from the street along the seam.
		sign := float64(1 - 2*leg)
		near := math.Min(sign*off(p, d.Seam[0], d.Seam[1]), sign*off(back, d.Seam[0], d.Seam[1]))
		far("seam, half the gap off it", near-b.Sheet.Row.MM("seam gap")/2, within, e)
	}
	for _, name := range []string{"front leg", "rear leg"} { // but for the arcs of its bends
		if on[name]*2 < of[name] || of[name] == 0 {
			c.say("%s: its %s lies off its drawn edge: %d places of %d lie on it", b.Sheet.Name(), name, on[name],
				of[name])
		}
	}
	c.long(b, g)
}

// long compares the legs' lengths as drawn with the metal's: along the middle of the front
// leg and of the rear leg, from the square end to the seam, whose edges stand off it.
func (c *checker) long(b body, g DrawnLeg) {
	for _, q := range []struct {
		face string
		line [2]Pt
	}{{"front leg", g.Street}, {"rear leg", g.Roof}} {
		n, ok := b.Sheet.Fold().Straight(q.face)
		if !ok {
			c.say("%s has no %s", b.Sheet.Name(), q.face)
			continue
		}
		mid := (n.From + n.To) / 2
		metal := b.Sheet.EndAt(mid, true) - b.Sheet.EndAt(mid, false)
		drawn := q.line[1].sub(q.line[0]).len()
		// The nearer skin stands half the gap off the seam, the other farther by the metal's thickness.
		if most := b.Sheet.Row.MM("seam gap") + b.T*2 + within; math.Abs(metal-drawn) > most {
			c.say("%s: its %s is %.3f mm long, drawn %.3f", b.Sheet.Name(), q.face, metal, drawn)
		}
	}
}
