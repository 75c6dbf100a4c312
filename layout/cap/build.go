package cap

import (
	"fmt"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall"
	"copingset/layout/wind"
)

// Build lays out the pieces and joints of one perimeter whose runs have their
// widths, zones and assemblies. Pieces come in station order.
func Build(j *job.Job, runs []*Run, grid length.Length) ([]*Piece, finding.List) {
	return BuildBy(j, runs, grid, nil)
}

// BuildBy is Build with the sections named laid out in ways of their own.
func BuildBy(j *job.Job, runs []*Run, grid length.Length, ways Ways) ([]*Piece, finding.List) {
	b := newBuilder(j, runs, grid)
	b.ways = ways
	for _, r := range runs {
		b.run(r)
	}
	pieces := b.stubs(b.group())
	b.finish(pieces)
	return pieces, b.found.List()
}

func newBuilder(j *job.Job, runs []*Run, grid length.Length) *builder {
	return &builder{job: j, sys: &j.System, runs: runs, grid: grid, features: map[*wall.Corner]int{},
		ends:  map[[2]int]int{},
		seams: Seams(runs), legs: map[Seam][2]Legs{}}
}

// builder walks a perimeter in station order and keeps what it meets.
type builder struct {
	job      *job.Job
	sys      *job.System
	runs     []*Run
	grid     length.Length
	found    finding.Set
	features map[*wall.Corner]int // node of a corner's piece
	ends     map[[2]int]int       // node of a closed end's piece: run index, 0 left or 1 right
	parent   []int                // union of nodes that became one piece
	items    []item
	seams    map[*wall.Corner]Seam // look-up only
	legs     map[Seam][2]Legs      // known ones, once the widths are; look-up only
	ways     Ways
	whole    *builder // of the perimeter, where this one tries other ways
	open     bool     // it lays out a part of the perimeter alone
}

// item is a part or, with part.Run nil, the joint after the one before.
type item struct {
	part  Part
	node  int
	joint *Joint
	taper *Taper  // of a transition
	tee   *Branch // of a tee
	cut   bool    // not a stock length
	field bool    // the closer of its row
}

func (b *builder) node() int {
	b.parent = append(b.parent, len(b.parent))
	return len(b.parent) - 1
}

func (b *builder) root(n int) int {
	for b.parent[n] != n {
		n = b.parent[n]
	}
	return n
}

func (b *builder) hold(code string, at finding.Place, ref finding.Ref, what, why, mend string) {
	b.found.Append(finding.Finding{Code: code, Severity: finding.Hold, At: at, Where: ref, What: what, Why: why,
		Mend: mend})
}

func refOf(r *Run) finding.Ref {
	return finding.Ref{Perimeter: r.Perimeter.Job.Name, Run: r.Name}
}

// pierced reports a piece with a hole that nobody is named to seal.
func (b *builder) pierced(p *Piece) {
	for _, o := range p.Cutouts {
		if o.Collar != "" {
			continue
		}
		f := refOf(p.Parts[0].Run)
		f.Pieces = []string{p.Mark}
		b.hold("pierced-unsealed", o.At, f,
			fmt.Sprintf("piece %s: %s comes through the cap and nobody is named to seal it", p.Mark, o.Name), "",
			"write `collar:` with who makes the sealed collar, or move the obstacle off the wall")
	}
}

// vanishes reports a piece one of whose parts has no rear left between its
// miters, or too little for a splice plate to seal beside a joint.
func (b *builder) vanishes(p *Piece) {
	for i, q := range p.Parts {
		least := length.Length(1)
		if i == 0 && p.LeftEnd == job.EndTurn || i == len(p.Parts)-1 && p.RightEnd == job.EndTurn {
			least = b.sys.Splice.Length/2 + b.sys.Splice.Bearing
		}
		short := length.Min(length.Min(q.Length(), p.RearLength(i)), b.lowest(p, i))
		if short >= least || p.Kind == Straight || p.Kind == Transition || p.Kind == Tee {
			continue
		}
		f := refOf(q.Run)
		f.Pieces = []string{p.Mark}
		b.hold("leg-vanishes", q.Run.Job.At, f,
			"piece "+p.Mark+": its part on run "+q.Run.Name+" would be "+job.Both(short)+
				" long on its shorter face, at least "+job.Both(least)+" is needed",
			"the miters at its ends take up the run", "detail this stretch by hand with the fabricator")
	}
}

// crowded reports a corner whose chairs and supports overlap in plan.
func (b *builder) crowded(p *Piece) {
	for _, m := range p.Miters {
		c := m.Corner
		if b.legsOf(m.Seam)[0].Clear || b.chosen(c) {
			continue
		}
		what, mend := "its chairs overlap in plan even with the longest leg",
			"ask the fabricator for a longer leg or a shorter chair"
		if !supportsClear(Supports(b.sys, m.Seam)) {
			what, mend = "the supports under its miter overlap one another",
				"ask the fabricator for fewer or smaller supports at this turn and width"
		}
		f := finding.Ref{Perimeter: p.Perimeter.Job.Name, Run: c.Arrive.Name, Corner: c.Name, Pieces: []string{p.Mark}}
		if c.Leave != c.Arrive {
			f.Runs = []string{c.Leave.Name}
		}
		b.hold("corner-crowded", c.Arrive.Job.Right.At, f, "corner "+c.Name+": "+what,
			"two chairs cannot stand on one place of the wall", mend)
	}
}

// blocked are the windows no joint centre may lie in: the splice plate must
// clear what blocks a joint or comes through, and the joint's chair, which
// never moves, must clear what blocks a chair.
func (b *builder) blocked(r *Run) []window {
	var out []window
	for i := range r.Job.Obstacles {
		o := &r.Job.Obstacles[i]
		c := r.ToCap(r.FrontStation(o.Station))
		var half length.Length
		if o.BlocksAJoint() {
			half = b.sys.Splice.Length / 2
		}
		if r.BlocksChair(b.sys, o) {
			half = length.Max(half, b.sys.Chair.Length/2)
		}
		half += o.Extent / 2
		out = append(out, window{c - half, c + half})
	}
	return out
}

// leg is the range of the leg at one end of a run, and the node of its piece;
// node -1 where a plain joint absorbs the turn.
func (b *builder) leg(r *Run, right bool) (legRange, int) {
	e := r.Left
	key := [2]int{r.Index, 0}
	if right {
		e, key[1] = r.Right, 1
	}
	if e.Kind != job.EndTurn {
		if _, ok := b.ends[key]; !ok {
			b.ends[key] = b.node()
		}
		return b.legRange(r, right), b.ends[key]
	}
	c := e.Corner
	if c.Absorb {
		return b.legRange(r, right), -1
	}
	if _, ok := b.features[c]; !ok {
		b.features[c] = b.node()
	}
	return b.legRange(r, right, b.seams[c]), b.features[c] // a crowded one is reported with its piece
}

// runOf is a run of the perimeter by its wall; nil if it is none of them.
func (b *builder) runOf(w *wall.Run) *Run {
	if b.open {
		return nil // its corners are the whole's to judge
	}
	if w.Index < len(b.runs) && b.runs[w.Index].Run == w {
		return b.runs[w.Index]
	}
	return nil
}

// legsOf are the legs of a corner at the closest chair spacing either of its
// runs has within the longest leg.
func (b *builder) legsOf(m Seam) [2]Legs {
	if b.whole != nil {
		return b.whole.legsOf(m)
	}
	if b.legs == nil { // widths are being tried, and with them assemblies
		return b.findLegs(m)
	}
	l, known := b.legs[m]
	if !known {
		l = b.findLegs(m)
		b.legs[m] = l
	}
	return l
}

func (b *builder) findLegs(m Seam) [2]Legs {
	spacing := length.Length(0)
	for i, w := range []*wall.Run{m.Corner.Arrive, m.Corner.Leave} {
		r := b.runOf(w)
		if r == nil || i > 0 && w == m.Corner.Arrive {
			continue
		}
		a, z := length.Length(0), length.Min(b.sys.Corner.LongestLeg, r.Front)
		inside := m.Inside[i]
		if i == 0 {
			a, z = r.Front-z, r.Front
		}
		if s := r.ChoiceFor(wind.Touches(r.Zones, a, z), inside).Assembly.ChairSpacing; spacing == 0 || s < spacing {
			spacing = s
		}
	}
	return LegsOf(b.sys, m, spacing, b.grid)
}

// cuts is what divides a run into sections, with its transitions where they stand,
// and the nodes of the pieces at its ends.
func (b *builder) cuts(r *Run) (c cuts, leftNode, rightNode int) {
	k := stock{most: b.sys.Stock, gap: b.sys.Joint.Gap, grid: b.grid, closer: b.sys.Closer, remainder: b.sys.Remainder}
	left, leftNode := b.leg(r, false)
	right, rightNode := b.leg(r, true)
	joints := b.expansion(r)
	k.least = b.leastPiece(len(joints) > 0)
	k.unfit = unfit(b.sys.Chair.Length, k.gap, k.most, r.spacings()...)
	c = cuts{run: r, sys: b.sys, stock: k, left: left, right: right, joints: joints, blocked: b.blocked(r),
		set: b.set(r)}
	c.settle()
	return c, leftNode, rightNode
}

// run lays out one run, section by section.
func (b *builder) run(r *Run) {
	c, leftNode, rightNode := b.cuts(r)
	k, g := c.stock, c.stock.gap
	b.slopesAndTurns(r, c.left.least+c.right.least+k.least+2*g)
	all := c.sections(r.Tapers)
	for i, s := range all {
		ln, rn := -1, -1
		if i == 0 {
			ln = leftNode
		}
		if i == len(all)-1 {
			rn = rightNode
		}
		b.place(r, i, s.section, k, ln, rn)
		switch {
		case s.joint != nil:
			b.joint(r, s.joint)
		case s.taper != nil:
			from, to := c.piece(*s.taper)
			b.joint(r, &Joint{From: from - g, To: from})
			b.part(r, from, to, b.node())
			b.items[len(b.items)-1].taper = s.taper
			b.joint(r, &Joint{From: to, To: to + g})
		case s.tee != nil:
			b.joint(r, &Joint{From: s.tee.From - g, To: s.tee.From})
			b.part(r, s.tee.From, s.tee.To, b.node())
			b.items[len(b.items)-1].tee = s.tee
			b.joint(r, &Joint{From: s.tee.To, To: s.tee.To + g})
		}
	}
	if c := r.Right.Corner; c != nil && c.Absorb && !b.last(r) {
		b.joint(r, &Joint{Kind: Kink, From: r.Cap - g/2, To: r.Cap + g - g/2})
	}
}

// place solves a section and appends its parts and joints.
func (b *builder) place(r *Run, i int, s section, k stock, ln, rn int) {
	w := s.solve(k, b.sys.Corner.LegStep)
	if way, ok := b.ways[Section{r.Index, i}]; ok {
		w = s.by(way, k, b.sys.Corner.LegStep)
	}
	if w.merged && (s.left.fixed || s.right.fixed) || w.oneJoint && s.left.fixed && s.right.fixed {
		b.found.Append(finding.Finding{Code: "tee-room", Severity: finding.Error, At: r.Job.At, Where: refOf(r),
			What: "run " + r.Name + ": between its ends no joint and no cap has room beside the stub of its tee",
			Mend: "shorten `tee: branch:` with the fabricator, or have this wall detailed by hand and leave it out"})
		w.merged = true
	}
	if w.problem != "" {
		b.hold("no-fit", r.Job.At, refOf(r), "run "+r.Name+": "+w.problem,
			"between "+job.Both(s.from)+" and "+job.Both(s.to)+" of the cap line",
			"change the closer, a leg or the least piece with the fabricator, or move what is in the way")
	}
	if w.merged {
		n := ln
		switch {
		case ln >= 0 && rn >= 0:
			b.parent[b.root(rn)] = b.root(ln)
		case rn >= 0:
			n = rn
		case ln < 0:
			n = b.node()
		}
		from, to := s.from, s.to
		if ln < 0 && s.left.least == -k.gap/2 { // half of a kink's joint
			from += k.gap / 2
		}
		if rn < 0 && s.right.least == -k.gap/2 {
			to -= k.gap / 2
		}
		b.part(r, from, to, n)
		return
	}
	at := s.from + w.leftLeg
	if w.leftLeg > 0 {
		b.part(r, s.from, at, ln)
		if !w.oneJoint || w.rightLeg > 0 { // else the leg itself meets the joint at the section's end
			b.joint(r, &Joint{From: at, To: at + k.gap})
		}
	}
	at += k.gap
	// With one joint the right leg starts here; otherwise the straight pieces do.
	if !w.oneJoint {
		closer := b.closer(w.pieces, k.most)
		for i, l := range w.pieces {
			b.part(r, at, at+l, b.node())
			it := &b.items[len(b.items)-1]
			it.cut = l != k.most
			it.field = it.cut && i == closer
			at += l
			if i < len(w.pieces)-1 || w.rightLeg > 0 {
				b.joint(r, &Joint{From: at, To: at + k.gap})
			}
			at += k.gap
		}
	}
	if w.rightLeg > 0 {
		b.part(r, s.to-w.rightLeg, s.to, rn)
	}
}

// closer is the piece of a row that is cut last: the one nearest the closer's
// side that is not a stock length; -1 where all are.
func (b *builder) closer(pieces []length.Length, most length.Length) int {
	found := -1
	for i, l := range pieces {
		if l == most {
			continue
		}
		if found < 0 || !b.closerLeft() {
			found = i
		}
	}
	return found
}

// closerLeft reports whether the cut piece stands at the left of a row.
func (b *builder) closerLeft() bool {
	return b.sys.Closer == job.CloserLeft || b.sys.Closer == job.CloserShared && b.sys.Remainder == job.Left
}

func (b *builder) part(r *Run, from, to length.Length, node int) {
	b.items = append(b.items, item{part: Part{Run: r, From: from, To: to}, node: node})
}

func (b *builder) joint(r *Run, j *Joint) {
	j.Run = r
	j.Name = fmt.Sprintf("%s-J%d", r.Name, len(r.Joints)+1)
	if j.Kind != Expansion {
		j.Plate = b.sys.Splice.Length
	}
	r.Joints = append(r.Joints, j)
	b.items = append(b.items, item{joint: j})
}

// group gathers neighbouring parts of one node into pieces and ties the
// joints to them. In a closed perimeter the first corner's leaving leg is met
// first; it moves to the end, behind its arriving leg.
func (b *builder) group() []*Piece {
	items := b.items
	closed := b.runs[0].Perimeter.Closed() && !b.open
	if closed && len(items) > 1 {
		last := items[len(items)-1]
		k := 0
		if last.joint == nil {
			for k < len(items)-1 && items[k].joint == nil && b.root(items[k].node) == b.root(last.node) {
				k++
			}
		}
		if k == len(items)-1 {
			b.hold("no-joint", b.runs[0].Perimeter.Job.At, finding.Ref{Perimeter: b.runs[0].Perimeter.Job.Name},
				"perimeter "+b.runs[0].Perimeter.Job.Name+": its runs are so short that it would be one welded ring",
				"", "detail it by hand with the fabricator")
			k = 0
		}
		items = append(append([]item{}, items[k:]...), items[:k]...)
	}
	var pieces []*Piece
	var open *Joint
	prev := -1
	for _, it := range items {
		if it.joint != nil {
			if len(pieces) > 0 {
				it.joint.Left = pieces[len(pieces)-1]
			}
			open, prev = it.joint, -1
			continue
		}
		root := b.root(it.node)
		if root != prev || prev < 0 {
			p := &Piece{Perimeter: it.part.Run.Perimeter, Inside: it.part.Run.InsideAt(it.part.From),
				LeftEnd: job.EndTurn, RightEnd: job.EndTurn, Closer: it.cut}
			p.Wide, p.Narrow = p.Inside, p.Inside
			if t := it.taper; t != nil {
				p.Kind, p.Taper, p.Hand, p.Straight = Transition, *t, t.Hand(), job.Front
				p.Wide, p.Narrow, p.Inside = t.Wide(), t.Narrow(), t.Wide()
			}
			if t := it.tee; t != nil {
				p.Kind, p.Tee, p.Hand, t.Piece = Tee, t, t.Hand, p
			}
			if it.field && b.sys.Joint.FieldCloser {
				p.Allowance = b.sys.Joint.Allowance
				p.CutAt = RightHand
				if b.closerLeft() {
					p.CutAt = LeftHand
				}
			}
			pieces = append(pieces, p)
			if open != nil {
				open.Right = p
				open = nil
			}
		}
		prev = root
		p := pieces[len(pieces)-1]
		it.part.Piece = p
		p.Parts = append(p.Parts, it.part)
	}
	if open != nil && closed && len(pieces) > 0 {
		open.Right = pieces[0]
	}
	if closed && len(items) > 0 && items[0].joint != nil && len(pieces) > 0 {
		items[0].joint.Left = pieces[len(pieces)-1]
	}
	return pieces
}
