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

// Chair is one chair in its place.
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

	Load   Load    // what the wind asks of it
	shares []asked // what each piece asks of it, in the order the pieces are loaded in
	next   *Run    // beyond the kink it stands at, whose station zero is its middle; nil: it stands on one run
}

// Left and Right edges of the chair, cap stations.
func (c *Chair) Left(s *job.System) length.Length { return c.At - s.Chair.Length/2 }

// Right edge of the chair.
func (c *Chair) Right(s *job.System) length.Length { return c.At + s.Chair.Length/2 }

// Edges are the inside widths that a chair fits at its two edges. They differ where
// it stands under a taper: its rear edge is cut to it. That edge is one straight line:
// where the cap widens from a place over the chair on, the line between the widths at
// both edges would lie in the rear leg there, and is moved off it.
func (c *Chair) Edges(s *job.System) (left, right length.Length) {
	from, to := c.Left(s), c.Right(s)
	left, right = c.Run.InsideAt(from), c.Run.InsideAt(to)
	var in length.Length
	for _, q := range c.Run.Profile() {
		if q.At > from && q.At < to {
			line := left + length.MulDiv(right-left, int64(q.At-from), int64(to-from))
			if left > right { // worked from the narrow edge, so that a run and its mirror round alike
				line = right + length.MulDiv(left-right, int64(to-q.At), int64(to-from))
			}
			in = length.Max(in, line-q.Inside)
		}
	}
	return left - in, right - in
}

// Support is a short chair under a miter.
type Support struct {
	Name    string // "N/E-S1"
	Piece   *cap.Piece
	Packing length.Length   // set surface over the wall top at the corner, the greatest of the faces that meet there
	Layers  int             // of plywood in it
	Shims   []length.Length // over them, thickest first
	Load    Loading         // what the wind asks of it, and what its hook holds; none of one that only bears
	Screws  Screws
	cap.SupportPlace
}

// Run is what stands on one run.
type Run struct {
	*cap.Run
	Chairs    []*Chair
	PitchMost length.Length // greatest distance between neighbouring chairs of one piece
	Supports  []*Support    // under the miter at its right end
	Step      length.Length // that its chairs' stations are laid and lettered to

	BuildUp []wall.ShimZone // under the coping; they cover the wall line once, and no chair stands over two
	Strips  []wall.Strip    // plywood of the layers, bottom layer first
	Nails   int             // nails or screws of all the layers
}

// Standing is what stands on the walls of one perimeter.
type Standing struct {
	Runs     []*Run
	Supports []*Support
	Turned   []*Turned    // how the pieces that turn are held down, in station order
	Packing  wall.Packing // both ways to pack, compared
	Trouble  []Trouble    // what cannot stand where it does
}

// Build stands the chairs of one perimeter.
func Build(j *job.Job, d wind.Demand, runs []*cap.Run, pieces []*cap.Piece, grid length.Length) (Standing,
	finding.List) {
	b := newBuilder(j, d, cap.Seams(runs), grid)
	var out []*Run
	for _, r := range runs {
		out = append(out, &Run{Run: r})
	}
	sup := b.supports(pieces)
	turned := b.loaded(out, sup)
	overKinks(out)
	levelled := b.levelled(out, j.Packing.Method)
	for _, a := range out {
		b.number(a)
		b.overExpansion(a)
		a.BuildUp = levelled[a.OnWall()]
		for _, c := range a.Chairs {
			b.pack(c, levelled)
			b.fasten(c)
		}
	}
	b.packSupports(sup, levelled)
	b.judge(out, sup, turned)
	b.fix(out, sup)
	b.under = underOf(sup)
	b.plan(out)
	packing := b.compare(out, sup)
	b.twists(pieces)
	var last *Chair
	if n := len(out); n > 0 {
		last = lastOf(out[n-1])
	}
	for _, a := range out {
		if last == nil || last.next != a {
			last = nil
		}
		b.laps(a, last)
		last = lastOf(a)
	}
	return Standing{out, sup, turned, packing, b.troubles(out, sup, turned)}, b.found.List()
}

func newBuilder(j *job.Job, d wind.Demand, seams map[*wall.Corner]cap.Seam, grid length.Length) *builder {
	return &builder{job: j, sys: &j.System, grid: grid, seams: seams, nearest: map[nearKey]reachOf{},
		more: map[partKey]int{}, tried: map[partKey]tried{},
		wind: pressuresOf(d), known: d.Known(), rearKnown: d.RearKnown()}
}

type builder struct {
	job      *job.Job
	sys      *job.System
	grid     length.Length
	seams    map[*wall.Corner]cap.Seam   // look-up only
	nearest  map[nearKey]reachOf         // look-up only
	under    map[*wall.Corner][]*Support // look-up only
	found    finding.Set
	crowded  []Trouble           // what has no room or stands on what it must not
	roomless map[*cap.Piece]bool // chairs of theirs have no room; look-up only
	work     int                 // chairs stood, as often as they were

	wind             [2]pressures      // by zone
	known, rearKnown bool              // there are pressures; one on the rear leg
	more             map[partKey]int   // chairs beyond the fewest; look-up only
	tried            map[partKey]tried // look-up only
	raised           map[partKey]bool  // in this round; look-up only
	again            bool              // chairs were added or taken back
	full             bool              // as many chairs stand as have room
	allHug           bool              // and as near to the miters as they can
}

func (b *builder) hold(code string, at finding.Place, r *cap.Run, station length.Length, what, why, mend string) {
	b.found.Append(finding.Finding{Code: code, Severity: finding.Hold, At: at, What: what, Why: why, Mend: mend,
		Where: on(r, station)})
}

func on(r *cap.Run, station length.Length) finding.Ref {
	return finding.Ref{Perimeter: r.Perimeter.Job.Name, Run: r.Name, Station: r.ToFront(station), HasStation: true}
}

// joints stands the chairs that belong to joints.
func (b *builder) joints(a *Run) {
	for _, j := range a.Joints {
		if j.Kind == cap.Expansion {
			b.add(a, &Chair{At: j.From - b.sys.Expansion.ChairFrom, Kind: AtExpansion, Joint: j, Piece: j.Left,
				Assembly: taken(a, j.Left.Zone, j.Left.InsideOn(a.Run))})
			b.add(a, &Chair{At: j.To + b.sys.Expansion.ChairFrom, Kind: AtExpansion, Joint: j, Piece: j.Right,
				Assembly: taken(a, j.Right.Zone, j.Right.InsideOn(a.Run))})
			continue
		}
		// The chair under a joint carries two pieces: the assembly of the more onerous zone and the wider piece holds
		// it.
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
		Where: finding.Ref{Perimeter: a.Perimeter.Job.Name, Run: a.Name, Station: a.ToFront(j.Centre()),
			HasStation: true, Pieces: []string{j.Left.Mark, j.Right.Mark}},
		What: "run " + a.Name + ": no tested assembly of the job covers the chair at joint " + j.Name + ", in the " +
			z.String() + " zone under a cap of " + job.Both(inside),
		Why: strings.Join(c.Fails, "; "),
		Mend: "name a tested assembly that covers it, or have the profile, substrate or pressure settled by the " +
			"engineer of record"})
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
	b.work++
}

// number names the chairs and checks that none overlap and none
// stands on an obstacle.
func (b *builder) number(a *Run) {
	for i, c := range a.Chairs {
		c.N = i + 1
		c.Name = fmt.Sprintf("%s-C%d", a.Name, c.N)
		if i > 0 && c.At-a.Chairs[i-1].At < b.sys.Chair.Length {
			b.trouble("chairs-overlap", carried(a.Chairs[i-1]), carried(c))
			b.hold("chairs-overlap", a.Job.At, a.Run, c.At,
				"run "+a.Name+": chairs "+a.Chairs[i-1].Name+" and "+c.Name+" overlap", "",
				"lengthen the least piece or the leg, or ask the fabricator for a shorter chair")
		}
		if c.Kind != Between {
			if b.blocked(a, c.At) {
				b.trouble("chair-blocked", carried(c))
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
			b.trouble("chair-over-expansion", carried(c))
			b.found.Append(finding.Finding{Code: "chair-over-expansion", Severity: finding.Hold, At: j.Source.At,
				Where: finding.Ref{Perimeter: a.Perimeter.Job.Name, Run: a.Name, Station: a.ToFront(c.At),
					HasStation: true,
					Pieces:     marks},
				What: fmt.Sprintf("run %s: chair %s stands over the gap of the building expansion joint %s at %s",
					a.Name, c.Name, j.Name, job.Both(j.Source.Station)),
				Why: "a chair fixed to both sides of the gap is torn when the building moves",
				Mend: "change the closer, a leg or the least piece so that a longer piece comes beside it, " +
					"or ask the fabricator for a shorter chair"})
		}
	}
}
