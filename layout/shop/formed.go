package shop

import (
	"math"
	"slices"

	"copingset/layout/cap"
	"copingset/layout/cut"
	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/length"
)

// A Route is what a released piece is cut from: a blank of its own, or a formed cap.
type Route struct {
	Cap    *Part         // nil: a blank of its own, or a drop in hand
	Drop   length.Length // of the drop in hand that it is cut from; zero: none
	Inside length.Length // of that
}

// FromSheet reports whether a piece has a blank of its own.
func (r Route) FromSheet() bool { return r.Cap == nil && r.Drop == 0 }

// fromStock reports whether the job has a piece cut from a formed cap: one that is plain
// and shorter than a stock length. What has a hole is cut on the flat.
func (o *orderer) fromStock(f *Family, p *cap.Piece) bool {
	return o.shop.ClosersFrom == job.FromStock && f.Kind == cap.Straight && len(p.Cutouts) == 0 &&
		made(p) < o.j.System.Stock
}

// formed is the formed cap of an inside width and a length, which the shop makes to cut
// closers from. It is not ok of one that cannot be bent as stated.
func (o *orderer) formed(inside, long length.Length) (*Part, bool) {
	at := slices.IndexFunc(o.out.Formed, func(p *Part) bool { return p.Inside == inside && p.Bodies[0].Length == long })
	if at >= 0 {
		return o.out.Formed[at], true
	}
	b := partBuilder{builder: capsOf(o.j)}
	p := b.of(FormedCap, job.Stuff{}, o.shop.At)
	p.Inside, p.faces = inside, Edges{"street edge", "roof edge", "L", "R"}
	m := b.measures()
	sec := section{(inside + 2*o.j.System.Metal.Thickness).MM(), m.slope}
	r := b.sheet(raw{name: p.Kind.String()}, m, sec, fold.Cut{Seam: fold.Square(0, false)},
		fold.Cut{Seam: fold.Square(long.MM(), true)})
	flat, err := r.develop()
	if err != nil {
		return nil, false
	}
	profile, _ := r.metal.Path.Profile()
	p.Names = profile.Names
	for i := range profile.Y {
		p.Section = append(p.Section, fold.Point{X: profile.Y[i], Y: profile.Z[i]})
	}
	body := b.body(r, flat)
	body.Sides = p.faces
	p.Bodies = []Body{body}
	p.Grams = int64(math.Round(p.Area() * b.bend.Thickness * p.density / 1e6))
	p.Words = []string{"Bend it whole, then cut it to the pieces of the cutting plan."}
	o.out.Formed = append(o.out.Formed, p)
	return p, true
}

// taken is a formed cap, or a drop in hand, that closers of a width are cut from.
type taken struct {
	cut.Stock
	hand int // index into the drops in hand, or -1
}

// route says of the closers of a plan what each is cut from, and asks for the formed caps
// that it takes. It is not ok where one of those cannot be made.
func (o *orderer) route(l *Lot, b *BarOrder, from []taken) bool {
	caps := make([]*Part, len(from))
	for i, n := range b.Plan.Used(len(from)) {
		if n == 0 || from[i].hand >= 0 {
			continue
		}
		p, ok := o.formed(b.Inside, length.CeilTo(from[i].Length, o.step))
		if !ok {
			return false
		}
		caps[i] = p
	}
	for _, bar := range b.Plan.Bars {
		p, count := caps[bar.Stock], bar.Count
		for _, c := range bar.Cuts {
			q := b.Closers[c]
			o.out.routes[q] = Route{Cap: p}
			if p == nil {
				o.out.routes[q] = Route{Drop: from[bar.Stock].Length, Inside: b.Inside}
				continue
			}
			p.Serves = append(p.Serves, Served{Name: q.Mark, Pieces: []*cap.Piece{q}, Count: count})
			count = 0 // the cap is the first one's
		}
	}
	for i, n := range b.Plan.Used(len(from)) {
		switch d := from[i].hand; {
		case n == 0:
		case d >= 0:
			o.inHand[d].Count -= n
			if o.inHand[d].Count == 0 {
				o.inHand[d].Length = 0
			}
		default:
			x := caps[i].Bodies[0]
			l.Blanks = append(l.Blanks, Blank{Part: caps[i], Girth: x.Girth, Length: x.Length, Count: n})
		}
	}
	b.Caps = caps
	return true
}
