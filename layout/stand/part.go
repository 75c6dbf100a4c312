// Package stand answers where chairs can stand and what each of them carries.
//
// Row places the chairs of one part of a piece: no bay of metal over the tested
// spacing, no two chairs on one place, none where something blocks it. Round
// shares what a miter asks between its two legs. Loads gives what the wind asks
// of each chair, by tributary lengths and as a continuous beam; Balance what it
// asks of the hold-downs of a piece that turns.
//
// Stations are lengths along one line, growing to the right; Row and its kin are
// exact integers. Forces are in newtons, pressures in pascals, plan places in
// millimetres. Nothing here knows of jobs, walls or caps.
package stand

import "copingset/layout/length"

// Bar is a stretch between whose ends no chair's centre may lie; its ends are free.
type Bar struct{ From, To length.Length }

// End is one end of a part.
type End struct {
	// Edge is where the metal ends; at a miter, the corner point.
	Edge length.Length
	// At is the centre of the chair that the first bay begins at: under a joint,
	// beside a building expansion joint, or at an end without a joint. Without
	// Chair it is the corner point.
	At    length.Length
	Chair bool
	// Near and Far hold without a chair: how near the centre of a chair may come
	// to At, and how far from it the nearest hold-down may lie. A chair at the
	// part's other end counts, so that a short leg needs no chair of its own.
	Near, Far length.Length
}

// Joint tells whether the bay at this end crosses half a joint: its chair stands
// outside the metal.
func (e End) joint(left bool) length.Length {
	switch {
	case !e.Chair:
		return 0
	case left:
		return length.Max(0, e.Edge-e.At)
	}
	return length.Max(0, e.At-e.Edge)
}

// Part is the stretch of one run that a piece covers, with what stands at its ends.
type Part struct {
	Ends    [2]End        // left, right
	Spacing length.Length // tested: no bay of metal is longer
	Chair   length.Length // length of a chair; two centres stand no nearer
	Bars    []Bar
	// Alone is how long the part may be without a chair of its own where neither end has one: a
	// part between two miters that are held, whose longer face is no longer than its front by
	// what its two ends take and give together. Zero: the lesser of what its ends allow.
	Alone length.Length
	More  int     // chairs beyond the fewest, where their load asks for them
	Hugs  [2]bool // its chairs stand as near to that end as they can, one beside another
	Left  bool    // odd steps go to the left; else to the right
}

// Span is the distance between the two ends' stands.
func (p Part) Span() length.Length { return p.Ends[1].At - p.Ends[0].At }

// Metal is the length of the part's metal.
func (p Part) Metal() length.Length { return p.Ends[1].Edge - p.Ends[0].Edge }

// mirrored is the same part seen from the other side.
func (p Part) mirrored() Part {
	turn := func(e End) End {
		e.Edge, e.At = -e.Edge, -e.At
		return e
	}
	p.Ends[0], p.Ends[1] = turn(p.Ends[1]), turn(p.Ends[0])
	bars := make([]Bar, len(p.Bars))
	for i, b := range p.Bars {
		bars[len(bars)-1-i] = Bar{-b.To, -b.From}
	}
	p.Bars, p.Left = bars, !p.Left
	p.Hugs[0], p.Hugs[1] = p.Hugs[1], p.Hugs[0]
	return p
}
