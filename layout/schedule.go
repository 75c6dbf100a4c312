package layout

import (
	"cmp"
	"slices"

	"copingset/layout/anchor"
	"copingset/layout/assembly"
	"copingset/layout/cap"
	"copingset/layout/crate"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
	"copingset/layout/wind"
)

// GapClass is the joints of a run that take the same gap at every metal
// temperature of the job's table.
type GapClass struct {
	Joints []*Joint
	Mean   length.Length   // mean metal length of the pieces that feed them, of the first
	At     []length.Length // gap at each of the job's temperatures, on the grid
}

// Alike reports whether the gap is the same at every temperature.
func (c GapClass) Alike() bool {
	return !slices.ContainsFunc(c.At, func(g length.Length) bool { return g != c.At[0] })
}

// Gaps sorts the plain joints of a run by the gap to set, the commonest class
// first. A joint over a building expansion joint is set as drawn and is left
// out.
func (l *Layout) Gaps(r *Run) []GapClass { return l.GapsTo(r, l.Grid) }

// GapsTo is Gaps with the gaps brought to another grid: a table whose rows all
// read alike tells nobody what to set.
func (l *Layout) GapsTo(r *Run, grid length.Length) []GapClass {
	var out []GapClass
	for _, q := range r.Joints {
		if q.Kind == cap.Expansion || q.Left == nil && q.Right == nil {
			continue
		}
		c := GapClass{Joints: []*Joint{q}, Mean: q.Mean()}
		for _, t := range l.Job.Site.InstallMetalT {
			c.At = append(c.At, length.RoundTo(cap.GapAt(&l.Job.System, c.Mean, t), grid))
		}
		i := slices.IndexFunc(out, func(o GapClass) bool { return slices.Equal(o.At, c.At) })
		if i < 0 {
			out = append(out, c)
			continue
		}
		out[i].Joints = append(out[i].Joints, q)
	}
	slices.SortStableFunc(out, func(a, b GapClass) int { return len(b.Joints) - len(a.Joints) })
	return out
}

// FastenerLine is one fastener in one length: how many in each run, in all,
// the spares and the boxes to order.
type FastenerLine struct {
	Fastener *Fastener
	Length   length.Length
	ByRun    []int // in the order of Runs
	Count    int   // without spares
	Spare    int
	Boxes    int // zero: the job states no box
}

// FastenerSchedule counts the fasteners of the chairs by type and length.
func (l *Layout) FastenerSchedule() []FastenerLine {
	runs := l.Runs()
	var out []FastenerLine
	for _, f := range l.Fasteners() {
		n := FastenerLine{Fastener: f.Fastener, Length: f.Length, Count: f.Count, ByRun: make([]int, len(runs))}
		n.Spare = crate.Spare(n.Count, l.Job.Crating.SpareFastener)
		if f.Fastener.Box > 0 {
			n.Boxes = (n.Count + n.Spare + f.Fastener.Box - 1) / f.Fastener.Box
		}
		for i, r := range runs {
			for _, g := range crate.Fasteners([]*anchor.Run{r}) {
				if g.Fastener == f.Fastener && g.Length == f.Length {
					n.ByRun[i] = g.Count
				}
			}
		}
		out = append(out, n)
	}
	return out
}

// Pitch is how far apart chairs of one assembly stand on a run.
type Pitch struct {
	Assembly *job.Assembly
	Most     length.Length
}

// Over reports whether the pitch passes the tested spacing. Only the share of
// a joint can make it so: the spacing counts on the metal of one piece.
func (p Pitch) Over() bool { return p.Most > p.Assembly.ChairSpacing }

// Pitches finds the greatest distance between neighbouring chairs of each
// assembly on a run. A joint's chair stands at the joint's centre, so between
// two neighbours lies one piece, or an expansion joint that is nobody's bay.
func (l *Layout) Pitches(r *Run) []Pitch {
	var out []Pitch
	for i := 1; i < len(r.Chairs); i++ {
		a, z := r.Chairs[i-1].At, r.Chairs[i].At
		for _, p := range r.Parts {
			if mid := a + (z-a)/2; p.From >= mid || p.To <= mid || p.Piece.Assembly == nil {
				continue
			}
			k := slices.IndexFunc(out, func(q Pitch) bool { return q.Assembly == p.Piece.Assembly })
			if k < 0 {
				out = append(out, Pitch{Assembly: p.Piece.Assembly})
				k = len(out) - 1
			}
			out[k].Most = length.Max(out[k].Most, z-a)
		}
	}
	return out
}

// Plywood is the length of full-width plywood a run's zones take, all layers.
func (l *Layout) Plywood(r *Run) length.Length {
	var sum length.Length
	for _, z := range r.BuildUp {
		sum += (z.To - z.From) * length.Length(z.Layers)
	}
	return sum
}

// CornerGroups gathers the pieces that turn or close an end and are made
// alike: same kind, hand, turns, lengths, width and ends, and alike released
// or not.
func (l *Layout) CornerGroups() [][]*Piece {
	var out [][]*Piece
	for _, p := range l.Perimeters {
		for _, q := range p.Pieces {
			if q.Kind == cap.Straight {
				continue
			}
			i := slices.IndexFunc(out, func(g []*Piece) bool { return l.alike(g[0], q) })
			if i < 0 {
				out = append(out, nil)
				i = len(out) - 1
			}
			out[i] = append(out[i], q)
		}
	}
	return out
}

func (l *Layout) alike(a, b *Piece) bool {
	if a.Kind != b.Kind || a.Hand != b.Hand || a.Wide != b.Wide || a.Narrow != b.Narrow || a.LeftEnd != b.LeftEnd ||
		a.RightEnd != b.RightEnd ||
		l.Held.Released(a) != l.Held.Released(b) || a.Assembly != b.Assembly || len(a.Parts) != len(b.Parts) ||
		len(a.Miters) != len(b.Miters) ||
		len(a.Cutouts)+len(b.Cutouts) > 0 || a.Allowance != b.Allowance || a.CutAt != b.CutAt {
		return false
	}
	for i := range a.Parts {
		if a.Parts[i].Length() != b.Parts[i].Length() || a.Parts[i].Inside() != b.Parts[i].Inside() {
			return false
		}
	}
	for i := range a.Miters {
		if x, y := a.Miters[i].Corner, b.Miters[i].Corner; x.CapTurn != y.CapTurn || x.Bend != y.Bend {
			return false
		}
	}
	return true
}

// EndJoints are the joints at the left and the right end of a piece; nil at a
// closed end.
func (l *Layout) EndJoints(p *Piece) (left, right *Joint) {
	for _, r := range l.Runs() {
		for _, q := range r.Joints {
			if q.Right == p {
				left = q
			}
			if q.Left == p {
				right = q
			}
		}
	}
	return left, right
}

// ChairsAt are the chairs that belong to a joint: one under a plain joint, one
// each side of a building expansion joint.
func (l *Layout) ChairsAt(j *Joint) []*Chair {
	var out []*Chair
	for _, r := range l.Runs() {
		for _, c := range r.Chairs {
			if j != nil && c.Joint == j {
				out = append(out, c)
			}
		}
	}
	return out
}

// SectionCase is one wall, assembly and width that differs from the others,
// with a chair that shows it and a joint of each kind that occurs.
type SectionCase struct {
	Run    *Run
	Chair  *Chair
	Joints []JointCase
	Runs   []*Run // all runs it is true of
}

// CaseOf is the more onerous zone in which the runs of a section take its
// assembly.
func (l *Layout) CaseOf(c SectionCase) AssemblyCase {
	out := AssemblyCase{Runs: c.Runs, Choice: c.Run.Choice[c.Chair.Piece.Zone]}
	for _, r := range c.Runs {
		for z := wind.Edge; z <= wind.Corner; z++ {
			if k := r.Choice[z]; k.Assembly == c.Chair.Assembly && (out.Choice.Assembly != c.Chair.Assembly ||
				k.Ratio() > out.Choice.Ratio()) {
				out.Choice = k
			}
		}
	}
	return out
}

// JointCase is a joint that stands for its kind, on its own run.
type JointCase struct {
	Run   *Run
	Joint *Joint
}

// SectionDrawing is a section that several cases look alike in: their assemblies differ
// in what no section shows, the spacing of the chairs and what they withstood.
type SectionDrawing struct {
	SectionCase
	Assemblies []*job.Assembly
}

// SectionDrawings are the cases of sections, those that look alike as one.
func (l *Layout) SectionDrawings() []SectionDrawing {
	var out []SectionDrawing
	for _, c := range l.SectionCases() {
		i := slices.IndexFunc(out, func(d SectionDrawing) bool { return l.drawnAlike(d.SectionCase, c) })
		if i < 0 {
			out = append(out, SectionDrawing{c, []*job.Assembly{c.Chair.Assembly}})
			continue
		}
		d := &out[i]
		d.Assemblies = append(d.Assemblies, c.Chair.Assembly)
		for _, r := range c.Runs {
			if !slices.Contains(d.Runs, r) {
				d.Runs = append(d.Runs, r)
			}
		}
		for _, q := range c.Joints {
			if !slices.ContainsFunc(d.Joints, func(o JointCase) bool { return o.Joint.Kind == q.Joint.Kind }) {
				d.Joints = append(d.Joints, q)
			}
		}
	}
	return out
}

// drawnAlike says that two cases look alike: on one wall, of one width, with one chair
// fastened alike. What fails at the second is shown there.
func (l *Layout) drawnAlike(a, z SectionCase) bool {
	p, q := a.Chair.Assembly, z.Chair.Assembly
	s := &l.Job.System
	if p == nil || q == nil || !s.SameChair(p, q) {
		return p == q && a.Chair.Inside == z.Chair.Inside && a.Run.Wall == z.Run.Wall
	}
	type drawn struct {
		wall                *job.Wall
		inside              length.Length
		slope               job.Slope
		fastener, substrate string
		front, rear         int
		from, before        length.Length
	}
	of := func(c SectionCase, m *job.Assembly) drawn {
		return drawn{c.Run.Wall, c.Chair.Inside, c.Run.SlopeAt(s, c.Chair.At), m.Fastener, m.Substrate,
			m.FrontRow, m.RearRow, m.FrontRowFrom, m.RearRowFrom}
	}
	if of(a, p) != of(z, q) {
		return false
	}
	return !slices.ContainsFunc(l.Section(z.Run, z.Chair.At, z.Chair, nil).Checks, plan.Check.Fails)
}

// SectionCases finds what the sections have to show.
func (l *Layout) SectionCases() []SectionCase {
	type key struct {
		wall     *job.Wall
		assembly *job.Assembly
		inside   length.Length
		slope    job.Slope // less on the wider leg of a corner of two widths
	}
	var keys []key
	var out []SectionCase
	for _, r := range l.Runs() {
		for _, c := range r.Chairs {
			// A chair under a taper is shown by those of the widths beside it.
			if left, right := c.Edges(&l.Job.System); left != right &&
				slices.ContainsFunc(keys, func(k key) bool { return k.wall == r.Wall && k.assembly == c.Assembly }) {
				continue
			}
			k := key{r.Wall, c.Assembly, c.Inside, r.SlopeAt(&l.Job.System, c.At)}
			i := slices.Index(keys, k)
			if i < 0 {
				keys = append(keys, k)
				out = append(out, SectionCase{Run: r, Chair: c})
				i = len(out) - 1
			}
			e := &out[i]
			if !slices.Contains(e.Runs, r) {
				e.Runs = append(e.Runs, r)
			}
			// A chair between joints shows more than one at an end; chair and joints should stand on one run.
			if e.Run == r && e.Chair.Kind != anchor.Between && c.Kind == anchor.Between {
				e.Chair = c
			}
			if c.Joint == nil {
				continue
			}
			kind := slices.IndexFunc(e.Joints, func(o JointCase) bool { return o.Joint.Kind == c.Joint.Kind })
			switch {
			case kind < 0:
				e.Joints = append(e.Joints, JointCase{r, c.Joint})
			case e.Run == r && e.Joints[kind].Run != r:
				e.Joints[kind] = JointCase{r, c.Joint}
			}
		}
	}
	// A plain joint looks different with each assembly; the others are shown once for each wall.
	for i := range out {
		c := &out[i]
		c.Joints = slices.DeleteFunc(c.Joints, func(q JointCase) bool {
			return q.Joint.Kind != cap.Plain && slices.ContainsFunc(out[:i], func(o SectionCase) bool {
				return o.Run.Wall == c.Run.Wall &&
					slices.ContainsFunc(o.Joints, func(p JointCase) bool { return p.Joint.Kind == q.Joint.Kind })
			})
		})
		slices.SortStableFunc(c.Joints, func(a, b JointCase) int { return int(a.Joint.Kind - b.Joint.Kind) })
	}
	return out
}

// AssemblyCase is a zone that several runs meet with one assembly and one
// outcome.
type AssemblyCase struct {
	Choice assembly.Choice
	Runs   []*Run
}

// AssemblyCases lists each zone that occurs, with its assembly.
func (l *Layout) AssemblyCases() []AssemblyCase {
	var out []AssemblyCase
	for z := wind.Edge; z <= wind.Corner; z++ {
		for _, r := range l.Runs() {
			if !slices.ContainsFunc(r.Run.Zones, func(s wind.Stretch) bool { return s.Zone == z }) {
				continue
			}
			for _, w := range r.Choices {
				c := w.Choice[z]
				if !slices.ContainsFunc(r.Parts, func(q Part) bool {
					return q.Piece.Zone == z &&
						q.Inside() == w.Inside
				}) && len(r.Choices) > 1 {
					continue
				}
				i := slices.IndexFunc(out, func(o AssemblyCase) bool {
					return o.Choice.Zone == c.Zone && o.Choice.Assembly == c.Assembly && o.Choice.Covers == c.Covers &&
						slices.Equal(o.Choice.Fails, c.Fails)
				})
				if i < 0 {
					out = append(out, AssemblyCase{Choice: c})
					i = len(out) - 1
				}
				if !slices.Contains(out[i].Runs, r) {
					out[i].Runs = append(out[i].Runs, r)
				}
			}
		}
	}
	return out
}

// Grams is the calculated weight of all pieces.
func (l *Layout) Grams() int64 {
	var sum int64
	for _, p := range l.Perimeters {
		for _, q := range p.Pieces {
			sum += l.Weight(q).Laid
		}
	}
	return sum
}

// GramsShipped is the calculated weight of all pieces with the extra lengths that some
// are shipped with.
func (l *Layout) GramsShipped() int64 {
	var sum int64
	for _, p := range l.Perimeters {
		for _, q := range p.Pieces {
			sum += l.Weight(q).Shipped
		}
	}
	return sum
}

// HoldsOnPieces lists the holds that touch any of the pieces, each once, in
// the order of the findings.
func (l *Layout) HoldsOnPieces(pieces []*Piece) finding.List {
	return l.holds(func(w finding.Ref) bool {
		return slices.ContainsFunc(pieces, func(q *Piece) bool {
			return slices.ContainsFunc(q.Parts, func(t cap.Part) bool {
				return w.TouchesPiece(q.Perimeter.Job.Name, t.Run.Name, q.Mark)
			})
		})
	})
}

// Hole is where a hole in a piece is cut.
type Hole struct {
	FromLeft  length.Length // centre from the piece's left end, along the front, as laid
	FromFront length.Length // centre behind the cap's outside front face
}

// HoleOf finds where an obstacle comes through a piece.
func (l *Layout) HoleOf(p *Piece, o *job.Obstacle) Hole {
	var before length.Length
	s := &l.Job.System
	for _, t := range p.Parts {
		for i := range t.Run.Job.Obstacles {
			if &t.Run.Job.Obstacles[i] != o {
				continue
			}
			at := t.Run.ToCap(t.Run.FrontStation(o.Station))
			return Hole{FromLeft: before + at - t.From, FromFront: t.Run.FaceAt(s, at).Street + o.FromFace}
		}
		before += t.Length()
	}
	return Hole{}
}

// Governs is the run whose need decided the inside width of a perimeter that
// has one; nil where transitions or corners of two widths give it several.
func (p *Perimeter) Governs() *Run {
	var most *Run
	for _, r := range p.Runs {
		if len(r.Tapers) > 0 || p.twoWidths(r) {
			return nil
		}
		if most == nil || r.Need > most.Need {
			most = r
		}
	}
	return most
}

// twoWidths reports whether a run turns into the next with another width.
func (p *Perimeter) twoWidths(r *Run) bool {
	next := p.Runs[(r.Index+1)%len(p.Runs)]
	return r.Right.Corner != nil && r.InsideAt(r.Cap) != next.InsideAt(0)
}

// WidthOn is one inside width of a perimeter's caps.
type WidthOn struct {
	Inside length.Length
	Runs   []*Run // that have it from end to end
	Parts  []*Run // that have another besides, with a transition between
}

// Widths are the inside widths of a perimeter's caps, narrowest first, but last
// the one that most runs have, of several the widest: what the others depart from.
func (p *Perimeter) Widths() []WidthOn {
	var out []WidthOn
	for _, r := range p.Runs {
		var on []length.Length
		for _, b := range r.Bands {
			if slices.Contains(on, b.Inside) {
				continue
			}
			on = append(on, b.Inside)
			k := slices.IndexFunc(out, func(w WidthOn) bool { return w.Inside == b.Inside })
			if k < 0 {
				k = len(out)
				out = append(out, WidthOn{Inside: b.Inside})
			}
			if len(r.Tapers) > 0 {
				out[k].Parts = append(out[k].Parts, r)
			} else {
				out[k].Runs = append(out[k].Runs, r)
			}
		}
	}
	slices.SortFunc(out, func(a, b WidthOn) int { return cmp.Compare(a.Inside, b.Inside) })
	usual := 0
	for i, w := range out {
		if len(w.Runs) >= len(out[usual].Runs) {
			usual = i
		}
	}
	if len(out) > 0 {
		w := out[usual]
		out = append(slices.Delete(out, usual, usual+1), w)
	}
	return out
}

// Shipped is one part of a piece as it leaves the shop, front and rear: a
// field closer is longer at the end to be cut.
func Shipped(p *Piece, part int) (front, rear length.Length) {
	front, rear = p.Parts[part].Length(), p.RearLength(part)
	at := 0
	if p.CutAt == cap.RightHand {
		at = len(p.Parts) - 1
	}
	if part == at {
		front, rear = front+p.Allowance, rear+p.Allowance
	}
	return front, rear
}
