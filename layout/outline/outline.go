// Package outline makes the perimeters of a new job from what there is before
// anybody measures: two sides of a rectangle, sides and turns, points, or a DXF of
// the roof's outline.
//
// The types are Ring, a closed loop of points in plan as it was drawn, and Plan,
// the perimeters that come of it: sides from left to right seen from the roof, with
// the roof at the right hand, the turn at the right end of each, and a list of what
// was changed on the way. Nothing here is measured: what is written from a Plan is
// `basis: drawing` until somebody tapes it.
//
// Frames: points are east and north of any origin; angles of a Plan are compass
// bearings and turns, positive to the right, which is towards the roof.
package outline

import (
	"copingset/layout/finding"
	"copingset/layout/length"
)

// Most points, of all rings together, that are taken in: more is a survey of the
// ground, not the outline of a roof.
const Most = 10_000

// Point is a place in plan.
type Point struct{ East, North length.Length }

// Vertex is a corner of a ring, with where it was stated.
type Vertex struct {
	Point
	At  finding.Place
	Arc bool // inside an arc: its turn is part of the curve and is kept
}

// Ring is a closed loop; the last vertex joins the first.
type Ring struct {
	Name string // as it was called, for messages: a layer, a perimeter of a file
	At   finding.Place
	V    []Vertex
}

// Kind says what a perimeter encloses.
type Kind string

// The kinds of perimeters, in the words of a job.
const (
	Roof Kind = "roof"
	Well Kind = "well"
)

// Side is one run of a perimeter: a length of its wall between corners and the turn
// at its right end.
type Side struct {
	Name   string
	Length length.Length
	Turn   length.Angle // right, towards the roof, is positive
	Facet  bool         // a facet of what was drawn as an arc
}

// Perimeter is one chain of runs. Its first run's left end lies at Start.
type Perimeter struct {
	Name    string
	Kind    Kind
	Bearing length.Angle // of its first run
	Start   Point
	Placed  bool // Start says where it lies from the other perimeters
	Sides   []Side
}

// Plan is what a new job begins with.
type Plan struct {
	Perimeters []Perimeter
	Changes    []string // what was changed or left out, a sentence each
}

// Options are how rough a drawing is.
type Options struct {
	// Near: points nearer to each other are one, and a point nearer than this to the
	// line between its neighbours lies on it.
	Near length.Length
	// Chord is the greatest distance of a facet from the arc it stands for.
	Chord length.Length
	// Layer of a DXF alone; empty: all.
	Layer string
	// Units of the messages.
	Metric bool
}

func (o Options) say(l length.Length) string {
	if o.Metric {
		return length.Millimetres(l, 0) + " mm"
	}
	return length.Feet(l, 16)
}

// Rect is a roof of two sides, its first run facing north.
func Rect(wide, deep length.Length) Plan {
	const right = 90 * length.Degree
	p := Perimeter{Kind: Roof, Bearing: 90 * length.Degree, Start: Point{North: deep}}
	for _, l := range []length.Length{wide, deep, wide, deep} {
		p.Sides = append(p.Sides, Side{Length: l, Turn: right})
	}
	out := Plan{Perimeters: []Perimeter{p}}
	out.name()
	return out
}
