package cap

import (
	"copingset/layout/assembly"
	"copingset/layout/length"
	"copingset/layout/wind"
)

// Band is a stretch of a run that is capped in one inside width. Neighbouring
// bands meet at the middle of the transition piece between them, which tapers
// from the one width to the other; InsideAt knows the taper too.
type Band struct {
	From, To        length.Length // cap stations
	Inside, Outside length.Length
}

// Taper is where a transition piece changes its width: it lies within the
// piece, whose two straight legs keep the splice plates off it. Between From
// and To the inside width goes in a straight line from Left to Right.
type Taper struct {
	From, To    length.Length // cap stations
	Left, Right length.Length // inside widths at the left and at the right hand
}

// Wide and Narrow are the two widths of a taper.
func (t Taper) Wide() length.Length { return length.Max(t.Left, t.Right) }

// Narrow is the lesser width of a taper.
func (t Taper) Narrow() length.Length { return length.Min(t.Left, t.Right) }

// Hand is the hand at which the wide end lies, of a person on the roof looking
// out over the wall: stations are measured from the left hand to the right.
func (t Taper) Hand() Hand {
	if t.Left > t.Right {
		return LeftHand
	}
	return RightHand
}

// at is the inside width at a station within the taper, worked from the narrow
// end so that a run and its mirror round alike.
func (t Taper) at(x length.Length) length.Length {
	switch {
	case x <= t.From:
		return t.Left
	case x >= t.To:
		return t.Right
	case t.Left <= t.Right:
		return t.Left + length.MulDiv(t.Right-t.Left, int64(x-t.From), int64(t.To-t.From))
	}
	return t.Right + length.MulDiv(t.Left-t.Right, int64(t.To-x), int64(t.To-t.From))
}

// InsideAt is the inside width at a cap station.
func (r *Run) InsideAt(station length.Length) length.Length {
	for _, t := range r.Tapers {
		if station > t.From && station < t.To {
			return t.at(station)
		}
	}
	for i, b := range r.Bands {
		if station <= b.To || i == len(r.Bands)-1 {
			return b.Inside
		}
	}
	return r.Inside
}

// Width is the inside width at a cap station.
type Width struct{ At, Inside length.Length }

// Profile is the inside width along the run as a chain of straight lines: its
// two ends, and both ends of every taper.
func (r *Run) Profile() []Width {
	out := []Width{{0, r.InsideAt(0)}}
	for _, t := range r.Tapers {
		out = append(out, Width{t.From, t.Left}, Width{t.To, t.Right})
	}
	return append(out, Width{r.Cap, r.InsideAt(r.Cap)})
}

// WidthChoice is what was chosen for one inside width of a run.
type WidthChoice struct {
	Inside length.Length
	Choice [2]assembly.Choice // by wind.Zone
}

// ChoiceFor is the choice for a zone at an inside width: that of the next
// width of the run which is no narrower.
func (r *Run) ChoiceFor(z wind.Zone, inside length.Length) assembly.Choice {
	for _, c := range r.Choices {
		if c.Inside >= inside {
			return c.Choice[z]
		}
	}
	return r.Choice[z]
}

// setBands gives the run its widths from those at its left end and its tapers.
func (r *Run) setBands(first length.Length, tapers []Taper, metal length.Length) {
	r.Tapers, r.Bands = tapers, nil
	from, w := length.Length(0), first
	for _, t := range tapers {
		mid := t.From + (t.To-t.From)/2
		r.Bands = append(r.Bands, Band{from, mid, w, w + 2*metal})
		from, w = mid, t.Right
	}
	r.Bands = append(r.Bands, Band{from, r.Cap, w, w + 2*metal})
	r.Inside = 0
	for _, b := range r.Bands {
		r.Inside = length.Max(r.Inside, b.Inside)
	}
	r.Outside = r.Inside + 2*metal
}

// Mean is the mean inside width of a piece, of its widest and narrowest: the
// legs of a transition are alike.
func (p *Piece) Mean() length.Length { return p.Narrow + (p.Wide-p.Narrow)/2 }

// InsideAt is the inside width of a part at a cap station of its run.
func (p Part) InsideAt(station length.Length) length.Length {
	if p.Piece.Kind == Transition {
		return p.Piece.Taper.at(station)
	}
	return p.Inside()
}

// InsideOn is the widest inside width of a piece on one run.
func (p *Piece) InsideOn(r *Run) length.Length {
	if p.Kind == Tee {
		if r != p.Tee.Main {
			return p.Tee.Inside
		}
		return p.Inside
	}
	for _, q := range p.Parts {
		if q.Run == r {
			return q.Inside()
		}
	}
	return p.Inside
}

// OutsideAt is the outside width at a cap station.
func (r *Run) OutsideAt(station length.Length) length.Length {
	return r.InsideAt(station) + r.Outside - r.Inside
}

// CornerInside is the inside width that the run has at the corner at its left
// or its right end.
func (r *Run) CornerInside(right bool) length.Length {
	if right {
		return r.InsideAt(r.Cap)
	}
	return r.InsideAt(0)
}
