package cap

import (
	"fmt"
	"slices"
	"strings"

	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/record"
	"copingset/layout/wind"
)

// shapes gives pieces their kinds and marks, and the runs their parts.
func (b *builder) shapes(pieces []*Piece) {
	for _, p := range pieces {
		b.shape(p)
		switch p.Kind {
		case Straight, Transition:
		case Tee:
			p.Mark = p.Tee.Mark()
		default:
			p.Mark = special(p)
		}
	}
	for _, r := range b.runs {
		b.counted(r, Straight, r.Name+"-%02d", pieces)
		b.counted(r, Transition, r.Name+"-T%d", pieces)
	}
	for _, p := range pieces {
		b.pierced(p)
		b.crowded(p)
		b.vanishes(p)
		b.sloped(p)
	}
	for _, p := range pieces {
		for i, q := range p.Parts {
			if p.Kind != Tee || i == 0 { // the stub is laid out with its own run
				q.Run.Parts = append(q.Run.Parts, q)
			}
		}
	}
}

// counted marks the pieces of a kind that are counted along a run. Those of the last
// issue keep their marks.
func (b *builder) counted(r *Run, kind Kind, format string, pieces []*Piece) {
	var all []*Piece
	var spans []record.Span
	for _, p := range pieces {
		if first := p.Parts[0]; p.Kind == kind && first.Run == r {
			all = append(all, p)
			spans = append(spans, record.Span{From: r.ToCrew(first.From), To: r.ToCrew(first.To)})
		}
	}
	var was []record.PieceMark
	var ever []string
	if last := b.job.Issued; last != nil && !b.open {
		was, ever = last.Along(r.Perimeter.Job.Name+"/"+r.Name, kind.String())
	}
	for i, mark := range record.Keep(format, was, ever, spans, b.closerLeft()) {
		all[i].Mark = mark
	}
}

// finish gives pieces their kinds, marks and order.
func (b *builder) finish(pieces []*Piece) {
	b.shapes(pieces)
	b.shortLegs(pieces)
	for _, r := range b.runs {
		sortParts(r.Parts)
	}
	for _, r := range b.runs {
		b.play(r)
		b.uncovered(r)
	}
	b.laying(pieces)
	for _, r := range b.runs {
		b.moves(r)
	}
	b.fixedPlates()
}

func sortParts(p []Part) {
	for i := 1; i < len(p); i++ {
		for k := i; k > 0 && p[k].From < p[k-1].From; k-- {
			p[k], p[k-1] = p[k-1], p[k]
		}
	}
}

// special is the mark of a piece that is not straight: the runs it turns
// through, and the end it closes.
func special(p *Piece) string {
	names := make([]string, 0, len(p.Parts))
	for _, q := range p.Parts {
		names = append(names, q.Run.Name)
	}
	m := strings.Join(names, "/")
	if p.LeftEnd != job.EndTurn {
		m += "-LE"
	}
	if p.RightEnd != job.EndTurn {
		m += "-RE"
	}
	return m
}

// shape works out what a piece is: its lot, ends, miters, widths, kind and hand, what
// pierces it, and what holds it down. What cannot be made so is on hold.
func (b *builder) shape(p *Piece) {
	first, last := p.Parts[0], p.Parts[len(p.Parts)-1]
	p.Lot = first.Run.Job.Elevation
	// a corner between two elevations is of one lot, in the mirror of the other
	if b.sys.Remainder == job.Left && p.Kind != Tee {
		p.Lot = last.Run.Job.Elevation
	}
	if first.From == 0 && first.Run.Left.Kind != job.EndTurn && p.Kind != Tee {
		p.LeftEnd = first.Run.Left.Kind
	}
	if last.To == last.Run.Cap && last.Run.Right.Kind != job.EndTurn && p.Kind != Tee {
		p.RightEnd = last.Run.Right.Kind
	}
	p.Zone, p.Miters, p.Cutouts = wind.Edge, nil, nil
	for i := 1; i < len(p.Parts) && p.Kind != Tee; i++ {
		m := b.seams[p.Parts[i-1].Run.Right.Corner]
		p.Miters = append(p.Miters, Miter{m, m.Trims(b.sys)})
	}
	widest := first
	for _, q := range p.Parts {
		if p.Kind != Transition && p.Kind != Tee {
			p.Wide, p.Narrow = length.Max(p.Wide, q.Inside()), length.Min(p.Narrow, q.Inside())
		}
		if q.Inside() > widest.Inside() {
			widest = q
		}
	}
	p.Inside = p.Wide
	b.crossed(p)
	if p.Kind != Transition && p.Kind != Tee {
		p.kind()
	}
	b.overturned(p)
	b.pitchMerged(p)
	p.Lot = lotOf(b.job, p, p.Lot)
	p.exposed()
	p.Assembly = widest.Run.ChoiceFor(p.Zone, p.Inside).Assembly
}

// crossed holds a piece whose legs differ in width by more than the job accepts.
func (b *builder) crossed(p *Piece) {
	if p.Kind == Transition || p.Kind == Tee || accepts(b.sys, p.Narrow, p.Wide) {
		return
	}
	first := p.Parts[0].Run
	f := refOf(first)
	f.Pieces = []string{special(p)}
	b.hold("two-widths", first.Job.At, f,
		"piece "+special(p)+" would have legs of "+job.Both(p.Narrow)+" to "+job.Both(p.Wide)+" inside, which differ "+
			"by more than the job accepts",
		"runs this short leave no room for a joint between their corners",
		"detail this stretch by hand with the fabricator")
}

// overturned holds a piece of more than two miters.
func (b *builder) overturned(p *Piece) {
	if len(p.Miters) <= 2 {
		return
	}
	first := p.Parts[0].Run
	f := refOf(first)
	f.Pieces = []string{special(p)} // its other pieces are sound, and in a mirror another run comes first
	b.hold("many-miters", first.Job.At, f,
		fmt.Sprintf("piece %s would have %d miters", special(p), len(p.Miters)),
		"runs this short leave no room for a joint between their corners",
		"detail this stretch by hand with the fabricator")
}

// kind is what a piece is by its miters and its ends, and its hand.
func (p *Piece) kind() {
	ended := p.LeftEnd != job.EndTurn || p.RightEnd != job.EndTurn
	switch {
	case len(p.Miters) == 0 && !ended:
		p.Kind = Straight
	case len(p.Miters) == 0:
		p.Kind = EndCap
		if p.LeftEnd == job.EndWall || p.LeftEnd == job.EndTurn && p.RightEnd == job.EndWall {
			p.Kind = WallEnd
		}
		p.Hand = RightHand
		if p.LeftEnd != job.EndTurn {
			p.Hand = LeftHand
		}
		if p.LeftEnd != job.EndTurn && p.RightEnd != job.EndTurn {
			p.Kind, p.Hand = Combined, NoHand
		}
	case ended:
		p.Kind = Combined
	case len(p.Miters) == 1 && p.Miters[0].Corner.Straight():
		p.Kind = PitchMiter
	case len(p.Miters) == 1:
		p.Kind = Corner
	default:
		p.Kind = DoubleMiter
	}
}

// exposed is the wind zone of a piece, a corner's where any of it lies in one, and what
// comes through it.
func (p *Piece) exposed() {
	for _, q := range p.Parts {
		front0, front1 := q.Run.ToFront(q.From), q.Run.ToFront(q.To)
		if wind.Touches(q.Run.Zones, front0, front1) == wind.Corner {
			p.Zone = wind.Corner
		}
		for i := range q.Run.Job.Obstacles {
			o := &q.Run.Job.Obstacles[i]
			c := q.Run.FrontStation(o.Station)
			if o.Does&job.Pierces != 0 && c > front0 && c < front1 {
				p.Cutouts = append(p.Cutouts, o)
			}
		}
	}
}

// LiftOf is how a piece of a weight and a length is lifted. Two persons lift
// twice what one may; the rule for one is the job's.
func LiftOf(s *job.Site, grams int64, long length.Length) Lift {
	switch {
	case grams > 2*s.OnePerson:
		return Mechanical
	case grams > s.OnePerson || long > s.LongPiece:
		return TwoPersons
	}
	return OnePerson
}

// laying numbers the pieces in order of work, which goes round the way of the
// closers: corners and ends first, then run by run its transitions, which stay
// where the wall wants them, and its straight pieces towards its closer, a closer
// that is trimmed on the roof last in its stretch.
func (b *builder) laying(pieces []*Piece) {
	n := 0
	for _, p := range b.towards(pieces) {
		if p.Kind != Straight && p.Kind != Transition {
			n++
			p.Laying = n
		}
	}
	runs := slices.Clone(b.runs)
	if b.closerLeft() {
		slices.Reverse(runs)
	}
	for _, r := range runs {
		var field []*Piece // of the stretch under way: trimmed to what is left, so laid last
		next := func(pieces ...*Piece) {
			for _, p := range pieces {
				n++
				p.Laying = n
			}
		}
		towards := slices.Clone(r.Parts)
		if b.closerLeft() {
			slices.Reverse(towards)
		}
		for _, q := range towards {
			if q.Piece.Kind == Transition {
				next(q.Piece)
			}
		}
		for _, q := range towards {
			switch {
			case q.Piece.Kind != Straight:
				next(field...)
				field = nil
				continue
			case q.Piece.Allowance > 0:
				field = append(field, q.Piece)
			default:
				next(q.Piece)
			}
			if b.endsStretch(r, q) {
				next(field...)
				field = nil
			}
		}
		next(field...)
	}
}

// towards are pieces in the order in which closers are come to. A piece over
// the seam of a closed perimeter, from its last run to its first, is the last
// from either side.
func (b *builder) towards(pieces []*Piece) []*Piece {
	if !b.closerLeft() || len(pieces) == 0 {
		return pieces
	}
	out := slices.Clone(pieces)
	slices.Reverse(out)
	if first := out[0].Parts; slices.Index(b.runs, first[0].Run) > slices.Index(b.runs, first[len(first)-1].Run) {
		out = append(out[1:], out[0])
	}
	return out
}

// endsStretch reports whether a building expansion joint stands beyond a part
// in the direction of laying.
func (b *builder) endsStretch(r *Run, q Part) bool {
	for _, j := range r.Joints {
		if j.Kind == Expansion && (b.closerLeft() && j.To == q.From || !b.closerLeft() && j.From == q.To) {
			return true
		}
	}
	return false
}
