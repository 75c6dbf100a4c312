// Package anchor stands the chairs: one under every joint, the rest equally
// spaced within the tested spacing, supports under the miters, each with its
// packing and the fasteners that reach through it.
//
// Stations are on the cap line, as in package cap.
package anchor

import (
	"fmt"
	"slices"
	"strings"

	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall"
	"copingset/layout/wind"
)

// Kind of a chair by where it stands.
type Kind int

// The kinds of chair.
const (
	AtJoint     Kind = iota // centred under a joint; it never moves
	Between                 // one of the equal bays of a piece
	AtEnd                   // at an end without a joint
	AtExpansion             // one each side of a building expansion joint
)

func (k Kind) String() string {
	return [...]string{"joint", "between", "end", "expansion"}[k]
}

// Chair is one anchor chair in its place.
type Chair struct {
	Name     string // "N-C3"
	N        int    // in its run, from the left
	Run      *cap.Run
	At       length.Length // centre, cap station
	Kind     Kind
	Joint    *cap.Joint // AtJoint, AtExpansion
	Piece    *cap.Piece // the piece it carries; at a joint the one at its left
	Assembly *job.Assembly
	Inside   length.Length // inside width of the cap at its centre, which the chair is made for

	PackFront, PackRear length.Length // set surface over the wall top at the two faces
	Layers              int
	ShimFront, ShimRear []length.Length // thickest first, over the layers
	Rows                [2]Row          // front, rear
}

// Left and Right edges of the chair, cap stations.
func (c *Chair) Left(s *job.System) length.Length { return c.At - s.Chair.Length/2 }

// Right edge of the chair.
func (c *Chair) Right(s *job.System) length.Length { return c.At + s.Chair.Length/2 }

// Edges are the inside widths of the cap at the chair's two edges. They differ
// where it stands under a taper: its rear edge is cut to it.
func (c *Chair) Edges(s *job.System) (left, right length.Length) {
	return c.Run.InsideAt(c.Left(s)), c.Run.InsideAt(c.Right(s))
}

// Support is a short chair under a miter.
type Support struct {
	Name    string // "N/E-S1"
	Piece   *cap.Piece
	Packing length.Length // set surface over the wall top at the corner, the greatest of the faces that meet there
	cap.SupportPlace
}

// Run is what stands on one run.
type Run struct {
	*cap.Run
	Chairs    []*Chair
	PitchMost length.Length // greatest distance between neighbouring chairs of one piece

	BuildUp []wall.ShimZone // under the coping; they cover the wall line once, and no chair stands over two
	Strips  []wall.Strip    // plywood of the layers, bottom layer first
	Nails   int             // nails or screws of all the layers
}

// Standing is what stands on the walls of one perimeter.
type Standing struct {
	Runs     []*Run
	Supports []*Support
	Packing  wall.Packing // both ways to pack, compared
}

// Build stands the chairs of one perimeter.
func Build(j *job.Job, runs []*cap.Run, pieces []*cap.Piece, grid length.Length) (Standing, finding.List) {
	b := &builder{job: j, sys: &j.System, grid: grid, seams: cap.Seams(runs)}
	var out []*Run
	for _, r := range runs {
		a := &Run{Run: r}
		b.joints(a)
		for _, p := range r.Parts {
			b.part(a, p)
		}
		b.number(a)
		b.overExpansion(a)
		a.BuildUp = a.OnWall().BuildUp(j.Packing.Method, b.stood(a))
		for _, c := range a.Chairs {
			b.pack(c, a.BuildUp)
			b.fasten(c)
		}
		out = append(out, a)
	}
	sup := b.supports(out, pieces)
	b.under = underOf(sup)
	b.plan(out)
	packing := b.compare(out, sup)
	b.twists(pieces)
	for _, a := range out {
		b.laps(a)
	}
	return Standing{out, sup, packing}, b.found.List()
}

type builder struct {
	job   *job.Job
	sys   *job.System
	grid  length.Length
	seams map[*wall.Corner]cap.Seam   // look-up only
	under map[*wall.Corner][]*Support // look-up only
	found finding.Set
}

func (b *builder) hold(code string, at finding.Place, r *cap.Run, station length.Length, what, why, mend string) {
	b.found.Append(finding.Finding{Code: code, Severity: finding.Hold, At: at, What: what, Why: why, Mend: mend,
		Where: finding.Ref{Perimeter: r.Perimeter.Job.Name, Run: r.Name, Station: r.ToFront(station), HasStation: true}})
}

// joints stands the chairs that belong to joints.
func (b *builder) joints(a *Run) {
	for _, j := range a.Joints {
		if j.Kind == cap.Expansion {
			b.add(a, &Chair{At: j.From - b.sys.Expansion.ChairFrom, Kind: AtExpansion, Joint: j, Piece: j.Left, Assembly: taken(a, j.Left.Zone, j.Left.InsideOn(a.Run))})
			b.add(a, &Chair{At: j.To + b.sys.Expansion.ChairFrom, Kind: AtExpansion, Joint: j, Piece: j.Right, Assembly: taken(a, j.Right.Zone, j.Right.InsideOn(a.Run))})
			continue
		}
		// The chair under a joint carries two pieces: the assembly of the more onerous zone and the wider piece holds it.
		z, inside := max(j.Left.Zone, j.Right.Zone), length.Max(j.Left.InsideOn(a.Run), j.Right.InsideOn(a.Run))
		b.uncovered(a, j, z, inside)
		b.add(a, &Chair{At: j.Centre(), Kind: AtJoint, Joint: j, Piece: j.Left, Assembly: taken(a, z, inside)})
	}
}

// uncovered holds both pieces at a joint whose chair no tested assembly covers:
// the zone may be that of the one piece and the width that of the other, which
// no look at the pieces one by one has seen. What holds the run is not said
// again, unless a piece lies beyond its end.
func (b *builder) uncovered(a *Run, j *cap.Joint, z wind.Zone, inside length.Length) {
	c := a.ChoiceFor(z, inside)
	on := func(p *cap.Piece) bool {
		return slices.ContainsFunc(a.Parts, func(t cap.Part) bool { return t.Piece == p })
	}
	said := slices.ContainsFunc(a.Parts, func(t cap.Part) bool { return t.Piece.Zone == z && t.Inside() == inside })
	if c.Covers || said && on(j.Left) && on(j.Right) {
		return
	}
	b.found.Append(finding.Finding{Code: "no-assembly", Severity: finding.Hold, At: a.Job.At,
		Where: finding.Ref{Perimeter: a.Perimeter.Job.Name, Run: a.Name, Station: a.ToFront(j.Centre()), HasStation: true, Pieces: []string{j.Left.Mark, j.Right.Mark}},
		What:  "run " + a.Name + ": no tested assembly of the job covers the chair at joint " + j.Name + ", in the " + z.String() + " zone under a cap of " + job.Both(inside),
		Why:   strings.Join(c.Fails, "; "),
		Mend:  "name a tested assembly that covers it, or have the profile, substrate or pressure settled by the engineer of record"})
}

// taken is the assembly of a zone, for a piece's greatest inside width, on the
// wall a chair stands on: a piece that turns onto another wall is held there by
// what was tested on that wall.
func taken(a *Run, z wind.Zone, inside length.Length) *job.Assembly {
	return a.ChoiceFor(z, inside).Assembly
}

func (b *builder) add(a *Run, c *Chair) {
	c.Run, c.Inside = a.Run, a.InsideAt(c.At)
	a.Chairs = append(a.Chairs, c)
}

// stand is where the first or last bay of a part begins: the joint's centre,
// the chair beside an expansion joint or the end chair; at a miter the corner
// point, on which no chair stands.
type stand struct {
	at    length.Length
	chair bool
}

// part spaces the chairs between the stands of one part of a piece.
func (b *builder) part(a *Run, p cap.Part) {
	l, r := b.stands(a, p)
	// The metal length of a leg is that of its front or of its centre line: the
	// rear beyond it, at an inside corner, lies on the supports of the miter.
	long := length.Max(p.Length(), (p.Length()+b.rear(p))/2)
	spacing := taken(a, p.Piece.Zone, p.Inside()).ChairSpacing
	bays := int((long + spacing - 1) / spacing)
	span := r.at - l.at
	if span <= 0 {
		return
	}
	if c := b.breakOf(a, p, l, r); c != nil {
		b.overBreak(a, p, c, l, r, spacing)
		return
	}
	for n := bays; n <= bays+3; n++ {
		at, ok := b.row(a, l.at, span, n, spacing)
		if !ok {
			continue
		}
		at = b.offMiter(a, l, r, at, spacing)
		b.between(a, p.Piece, l, r, at)
		return
	}
	if p.Piece.Kind == cap.Tee {
		b.hold("chair-blocked", a.Job.At, a.Run, l.at,
			"run "+a.Name+": piece "+p.Piece.Mark+" cannot have its chairs clear of the opening in its rear leg within the tested spacing",
			"under the opening a chair has no rear leg to hold", "another `tee: leg:`, a shorter chair, or an assembly tested at a wider spacing")
	} else if len(a.Job.Obstacles) > 0 {
		b.hold("chair-blocked", a.Job.At, a.Run, l.at,
			"run "+a.Name+": piece "+p.Piece.Mark+" cannot have its chairs clear of the obstacles within the tested spacing",
			"", "move what blocks the chair, or name an assembly tested with closer chairs")
	} else {
		b.hold("chairs-crowded", a.Job.At, a.Run, l.at,
			fmt.Sprintf("run %s: piece %s needs a chair between, within the tested spacing of %s, and there is no room for one beside the others", a.Name, p.Piece.Mark, job.Both(spacing)),
			"two chairs cannot stand on one place of the wall", "a shorter chair, or an assembly tested at a wider spacing")
	}
	at := even(l.at, span, bays, b.grid, b.sys.Remainder)
	b.between(a, p.Piece, l, r, at[:bays-1])
}

// between adds the chairs of a part's bays and keeps the widest pitch between
// two chairs of it.
func (b *builder) between(a *Run, p *cap.Piece, l, r stand, at []length.Length) {
	last := l
	for _, x := range at {
		b.add(a, &Chair{At: x, Kind: Between, Piece: p, Assembly: taken(a, p.Zone, p.InsideOn(a.Run))})
		if last.chair {
			a.PitchMost = length.Max(a.PitchMost, x-last.at)
		}
		last = stand{x, true}
	}
	if last.chair && r.chair {
		a.PitchMost = length.Max(a.PitchMost, r.at-last.at)
	}
}

// offMiter moves the chair nearest a miter out along its leg until it clears
// the supports and the like chair of the other leg in plan, as long as the
// bays beside it stay within the spacing.
func (b *builder) offMiter(a *Run, l, r stand, at []length.Length, spacing length.Length) []length.Length {
	if len(at) == 0 || l.chair == r.chair {
		return at
	}
	i, corner, side := 0, a.Run.Left.Corner, 1
	away := func(x length.Length) length.Length { return x }
	if !r.chair {
		i, corner, side = len(at)-1, a.Run.Right.Corner, 0
		away = func(x length.Length) length.Length { return a.Cap - x }
	}
	if corner == nil {
		return at
	}
	outer := l.at
	if r.chair {
		outer = r.at
	}
	if len(at) > 1 && r.chair {
		outer = at[1]
	} else if len(at) > 1 {
		outer = at[len(at)-2]
	}
	most := length.Min(spacing, away(outer)-b.sys.Chair.Length)
	// Clear of a like chair on the other leg if there is room for both; else of
	// the supports, since the other leg may have no such chair.
	for _, twin := range []bool{true, false} {
		if u, ok := cap.ClearOfMiter(b.sys, b.seams[corner], side, away(at[i]), most, b.grid, twin); ok {
			at[i] = away(u) // its own inverse
			return at
		}
	}
	return at
}

// rear is the rear length of a part.
func (b *builder) rear(p cap.Part) length.Length {
	for i, q := range p.Piece.Parts {
		if q.Run == p.Run && q.From == p.From {
			return p.Piece.RearLength(i)
		}
	}
	return p.Length()
}

// stands finds both ends of a part's bays and stands end chairs.
func (b *builder) stands(a *Run, p cap.Part) (l, r stand) {
	l, r = stand{at: p.From}, stand{at: p.To}
	for _, j := range a.Joints {
		switch {
		case j.To == p.From && j.Kind == cap.Expansion:
			l = stand{j.To + b.sys.Expansion.ChairFrom, true}
		case j.To == p.From:
			l = stand{j.Centre(), true}
		case j.From == p.To && j.Kind == cap.Expansion:
			r = stand{j.From - b.sys.Expansion.ChairFrom, true}
		case j.From == p.To:
			r = stand{j.Centre(), true}
		}
	}
	// The joint of a kink at the left belongs to the arriving run; its centre is station zero.
	if c := a.Run.Left.Corner; c != nil && c.Absorb && p.From == b.sys.Joint.Gap/2 {
		l = stand{0, true}
	}
	if p.From == 0 && ended(a.Run.Left) {
		l = stand{b.sys.Chair.EndChair, true}
		b.add(a, &Chair{At: l.at, Kind: AtEnd, Piece: p.Piece, Assembly: taken(a, p.Piece.Zone, p.Inside())})
	}
	if p.To == a.Cap && ended(a.Run.Right) {
		r = stand{p.To - b.sys.Chair.EndChair, true}
		b.add(a, &Chair{At: r.at, Kind: AtEnd, Piece: p.Piece, Assembly: taken(a, p.Piece.Zone, p.Inside())})
	}
	return l, r
}

// ended reports whether a coping ends there, with a chair of its own.
func ended(e wall.End) bool { return e.Kind != job.EndTurn && e.Kind != job.EndTee }

// even returns the far end of each of n equal bays, on the grid; odd steps go
// to the side that takes remainders.
func even(from, span length.Length, n int, grid length.Length, rem job.Side) []length.Length {
	at := from
	out := make([]length.Length, 0, n)
	for _, l := range length.Split(span, n, grid, rem == job.Left) {
		at += l
		out = append(out, at)
	}
	return out
}

// row places the chairs between two stands in n bays, moving those that an
// obstacle blocks to its nearest edge. No bay may pass the tested spacing by
// more than the joint's share, which equal bays already have.
func (b *builder) row(a *Run, from, span length.Length, n int, spacing length.Length) ([]length.Length, bool) {
	at := even(from, span, n, b.grid, b.sys.Remainder)
	at = at[:n-1]
	moved := false
	for i, x := range at {
		y, ok := b.clearOf(a, x)
		if !ok {
			return nil, false
		}
		moved = moved || y != x
		at[i] = y
	}
	limit := length.Max(spacing, (span+length.Length(n)-1)/length.Length(n)+b.grid)
	last := from
	for _, x := range append(slices.Clone(at), from+span) {
		if x-last > limit || n > 1 && x-last < b.sys.Chair.Length {
			return nil, false
		}
		last = x
	}
	return at, true
}

// bar is a stretch between whose ends no chair's centre may lie.
type bar struct{ from, to length.Length }

// bars are those of a run: what blocks a chair, and the opening in the rear leg
// of a tee, where a chair would have nothing to hold at its rear.
func (b *builder) bars(a *Run) []bar {
	var out []bar
	for i := range a.Job.Obstacles {
		o := &a.Job.Obstacles[i]
		if !o.BlocksAChair() {
			continue
		}
		c, half := a.ToCap(a.FrontStation(o.Station)), (o.Extent+b.sys.Chair.Length)/2
		out = append(out, bar{c - half, c + half})
	}
	for _, t := range a.Tees {
		out = append(out, bar{t.Edge[0] - b.sys.Chair.Length/2, t.Edge[1] + b.sys.Chair.Length/2})
	}
	return out
}

// clearOf moves a chair's centre off what blocks it, to the nearer edge; a tie
// goes to the side that takes remainders.
func (b *builder) clearOf(a *Run, x length.Length) (length.Length, bool) {
	bars := b.bars(a)
	for _, o := range bars {
		if x <= o.from || x >= o.to {
			continue
		}
		left, right := length.FloorTo(o.from-x, b.grid)+x, length.CeilTo(o.to-x, b.grid)+x
		switch {
		case x-left < right-x, x-left == right-x && b.sys.Remainder == job.Left:
			x = left
		default:
			x = right
		}
	}
	// A move off one must not land on another.
	for _, o := range bars {
		if x > o.from && x < o.to {
			return x, false
		}
	}
	return x, true
}

// number sorts and names the chairs and checks that none overlap and none
// stands on an obstacle.
func (b *builder) number(a *Run) {
	slices.SortStableFunc(a.Chairs, func(p, q *Chair) int {
		switch {
		case p.At < q.At:
			return -1
		case p.At > q.At:
			return 1
		}
		return 0
	})
	for i, c := range a.Chairs {
		c.N = i + 1
		c.Name = fmt.Sprintf("%s-C%d", a.Name, c.N)
		if i > 0 && c.At-a.Chairs[i-1].At < b.sys.Chair.Length {
			b.hold("chairs-overlap", a.Job.At, a.Run, c.At,
				"run "+a.Name+": chairs "+a.Chairs[i-1].Name+" and "+c.Name+" overlap", "",
				"lengthen the least piece or the leg, or ask the fabricator for a shorter chair")
		}
		if c.Kind != Between {
			if _, ok := b.clearOf(a, c.At); !ok || b.blocked(a, c.At) {
				b.hold("chair-blocked", a.Job.At, a.Run, c.At,
					"run "+a.Name+": chair "+c.Name+" at a joint or an end stands on an obstacle",
					"a joint's chair never moves", "move what blocks it, or change the leg or the closer")
			}
		}
	}
}

// overExpansion holds what stands over the gap of a building expansion joint, in
// the wall or in the coping. Bays end at the joint's own chairs; a chair that
// belongs to another joint or to an end never moves, and can lie so near where the
// piece between is shorter than a chair.
func (b *builder) overExpansion(a *Run) {
	for _, j := range a.Joints {
		if j.Kind != cap.Expansion {
			continue
		}
		from := length.Min(j.From, j.Centre()-j.Source.Gap/2)
		to := length.Max(j.To, j.Centre()+j.Source.Gap/2)
		for _, c := range a.Chairs {
			// What the joint's own chairs stand over is said where it is placed.
			if c.Joint == j || c.Right(b.sys) <= from || c.Left(b.sys) >= to {
				continue
			}
			var marks []string
			for _, p := range carried(c) {
				marks = append(marks, p.Mark)
			}
			b.found.Append(finding.Finding{Code: "chair-over-expansion", Severity: finding.Hold, At: j.Source.At,
				Where: finding.Ref{Perimeter: a.Perimeter.Job.Name, Run: a.Name, Station: a.ToFront(c.At), HasStation: true,
					Pieces: marks},
				What: fmt.Sprintf("run %s: chair %s stands over the gap of the building expansion joint %s at %s",
					a.Name, c.Name, j.Name, job.Both(j.Source.Station)),
				Why: "a chair fixed to both sides of the gap is torn when the building moves",
				Mend: "change the closer, a leg or the least piece so that a longer piece comes beside it, " +
					"or ask the fabricator for a shorter chair"})
		}
	}
}

func (b *builder) blocked(a *Run, x length.Length) bool {
	y, _ := b.clearOf(a, x)
	return y != x
}
