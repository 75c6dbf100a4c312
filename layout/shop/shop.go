// Package shop turns pieces into what is cut and bent: folded bodies, flat
// patterns, bend tables, families of like pieces, and the cutting plan.
//
// Build makes the patterns and finds what cannot be bent; Cut plans the cutting
// of what has been released. Lengths of a pattern are float64 millimetres on
// outside mold lines; a blank's sizes are lengths rounded up to the step the
// shop letters.
package shop

import (
	"errors"
	"fmt"
	"math"

	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/length"
)

// Step is what blanks are rounded up to: a sixty-fourth, or a tenth of a
// millimetre.
func Step(metric bool) length.Length {
	if metric {
		return length.Millimetre / 10
	}
	return length.Inch / 64
}

// Body is one sheet of a piece: cut, bent, and welded to its neighbours.
type Body struct {
	Name   string      // "left leg"
	Solid  fold.Solid  // on the mold lines of its finish side: what a formed view shows
	Metal  *fold.Sheet // with its thickness; nil where the shape is no one section
	Tray   *fold.Tray  // with its thickness, there
	Flat   fold.Flat
	Holes  [][]fold.Point
	Drills []Drill // those of the holes that are round, in their order
	// Riveted counts the holes of its seams' rivets, the last of its holes.
	Riveted int
	Bends   []Bend
	Length  length.Length // of the blank, along the grain
	Girth   length.Length // of the blank, across
	// Reliefs are the places of the outline where it has the job's relief.
	Reliefs []fold.Point
	Sides   Edges // of a part; zero: a piece's own

	cut      []fold.Point // the outline with its reliefs; nil: it has none
	relieved bool         // every relief it asks for is cut
	paths    []fold.Path
	planes   [2]bool // its left end, its right end is cut to more than one plane
}

// Drill is a round hole of a pattern.
type Drill struct {
	Hole     int // among the holes
	At       fold.Point
	Diameter float64
}

// Bend is one row of a bend table.
type Bend struct {
	Order      int // in which it is made, from 1
	Line       fold.BendLine
	Hem        bool          // folded flat on itself
	FromStreet length.Length // scribed: bend line from the street edge of the flat blank
	FromRoof   length.Length // the same from its roof edge
	Gauge      length.Length // set: bend line from what touches the back gauge when it is made
	GaugeAt    string        // what touches it: an edge, a hem's fold, a bend
}

// Up reports whether a bend comes towards the viewer of the finish side.
func (b Bend) Up() bool { return !b.Hem && b.Line.Turn > 0 }

// Family is pieces made alike, to one drawing.
type Family struct {
	Mark   string // "102", a plain number
	Shape  string // digest of all that makes it what it is
	Kind   cap.Kind
	Hand   cap.Hand
	Pieces []*cap.Piece
	Bodies []Body
	Twin   *Family // its mirror image, if the job has it
	Grams  int64   // one piece, from its developed area
	// Covering is the hand of the leg that lies over the other where its seams are
	// lapped. Such a piece has no twin: the same hand covers in its mirror image.
	Covering cap.Hand
	Joints   []Joint // its seams at miters, in their order

	fails   string // why it has no pattern
	crowded bool   // because two bends, or a bend and a hem, meet
}

// Released counts the pieces that may be cut.
func (f *Family) Released(held cap.Held) int {
	n := 0
	for _, p := range f.Pieces {
		if held.Released(p) {
			n++
		}
	}
	return n
}

// Area of the flat patterns of one piece, in square millimetres.
func (f *Family) Area() float64 { return areaOf(f.Bodies) }

func areaOf(bodies []Body) float64 {
	var a float64
	for _, b := range bodies {
		a += b.Area()
	}
	return a
}

// Area of the pattern less its holes.
func (b Body) Area() float64 {
	a := math.Abs(fold.Area(b.Outline()))
	for _, h := range b.Holes {
		a -= math.Abs(fold.Area(h))
	}
	return a
}

// Build makes the families of a job's pieces, in station order, perimeter by
// perimeter. What cannot be bent as asked is a hold on its pieces. It is nothing
// where the job does not say how the shop bends.
func Build(j *job.Job, perimeters [][]*cap.Piece) ([]*Family, finding.List) {
	if j.Shop == nil {
		return nil, nil
	}
	b := capsOf(j)
	var out []*Family
	at := map[string]*Family{} // look-up only
	for _, pieces := range perimeters {
		for _, p := range pieces {
			k := keyOf(p)
			f := at[k]
			if f == nil {
				f = &Family{Kind: p.Kind, Hand: p.Hand}
				b.pattern(f, p)
				at[k] = f
				out = append(out, f)
			}
			f.Pieces = append(f.Pieces, p)
		}
	}
	give := newMarks(j, firstMark)
	for _, f := range out {
		f.Shape = b.shapeOf(f)
		f.Mark = give.of(f.Shape)
		f.Twin = at[mirrorKey(f.Pieces[0])]
		f.Covering = b.covering(f.Pieces[0])
		if f.Twin == f || f.Covering != cap.NoHand {
			f.Twin = nil
		}
		f.Joints = b.joints(f)
		b.check(f)
	}
	b.metal()
	b.taken()
	b.hookRoom(perimeters)
	b.seam(out)
	b.tools(out)
	b.found.Append(b.causes.list()...)
	return out, b.found
}

type builder struct {
	j     *job.Job
	s     *job.System
	shop  *job.Shop
	bend  fold.Bend
	step  length.Length
	found finding.List
	causes
}

// pattern unfolds a piece. What cannot be unfolded has no bodies and a hold.
func (b *builder) pattern(f *Family, p *cap.Piece) {
	if p.Pitched() && p.Kind != cap.PitchMiter {
		f.fails = "it slopes over a break and turns, ends or breaks again"
		return
	}
	for _, s := range b.bodies(p) {
		flat, err := s.develop()
		var tight *fold.TooTight
		if errors.As(err, &tight) {
			f.Bodies, f.crowded = nil, true
			of := ""
			if !ofProfile(tight.Name) {
				of = " of the " + s.name
			}
			f.fails = tightWords(tight, of)
			return
		}
		if err == nil && fold.Crosses(flat.Outline) {
			err = errors.New("its flat pattern would cross itself")
		}
		if err != nil {
			f.Bodies, f.fails = nil, s.name+": "+err.Error()
			return
		}
		f.Bodies = append(f.Bodies, b.body(s, flat))
	}
	f.Grams = int64(math.Round(f.Area() * b.bend.Thickness * b.s.Metal.Density / 1e6))
}

// tightWords says how a straight is too short for its bends.
func tightWords(e *fold.TooTight, of string) string {
	return fmt.Sprintf("%s%s is %s deep, and its bends take %s of it", e.Name, of, job.Both(length.FromMM(e.Outside)),
		job.Both(length.FromMM(e.Outside+e.Short)))
}

// body lays a flat pattern with its lower left corner at the origin, moves hem
// lines to where they bend, and lists the bends.
func (b *builder) body(r raw, flat fold.Flat) Body {
	lo, _ := flat.Bounds()
	flat.Move(fold.Point{X: -lo.X, Y: -lo.Y})
	_, hi := flat.Bounds()
	out := Body{Name: r.name, Solid: r.solid, Metal: r.metal, Tray: r.winged, paths: r.paths(), planes: r.planes,
		Flat: flat, Length: b.up(hi.X), Girth: b.up(hi.Y)}
	for _, h := range r.holes {
		var pts []fold.Point
		for _, v := range h.ring {
			pts = append(pts, flat.Place(v))
		}
		if h.diameter > 0 {
			out.Drills = append(out.Drills, Drill{len(out.Holes), flat.Place(h.at), h.diameter})
		}
		out.Holes = append(out.Holes, pts)
	}
	b.rivet(r, &out, fold.Point{X: -lo.X, Y: -lo.Y})
	out.Bends = b.bends(out)
	out.relieved = b.relieve(r, &out)
	return out
}

// up rounds a size of a blank up to the shop's step, but for a hair that is the
// arithmetic's.
func (b *builder) up(mm float64) length.Length {
	return length.CeilTo(length.FromMM(mm-1e-4), b.step)
}

// holdAt holds a piece at the line of the job that says what cannot be made.
func (b *builder) holdAt(at finding.Place, p *cap.Piece, code, what, why, mend string) {
	if at.IsZero() {
		at = b.shop.At
	}
	b.causes.piece(cause{code, at, why, mend}, p, what)
}
