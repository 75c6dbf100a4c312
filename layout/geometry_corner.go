package layout

import (
	"fmt"
	"slices"
	"strings"

	"copingset/layout/anchor"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
	"copingset/layout/wall"
)

// Corner is a piece that is not straight (a corner, an end, a transition, a tee)
// from above, with what it stands on.
func (l *Layout) Corner(q *Piece) plan.Corner { return l.cornerPlan(q).out }

func (l *Layout) cornerPlan(q *Piece) *cornerPlan {
	b := &cornerPlan{l: l, q: q, s: &l.Job.System}
	b.ends()
	b.out = plan.Corner{
		Mark: q.Mark, Kind: cornerKind(q), Hand: plan.Hand(q.Hand), Metric: l.Job.Units == job.Metric,
		Released: plan.That(plan.Released, l.Held.Released(q)), StringBehind: ofSystem("string-behind-cap-line",
			cap.ChairLine(b.s)), SpliceTape: ofSystem("splice-tape", b.s.Splice.Tape),
		SupportSize: [2]plan.Value{ofSystem("support-length", b.s.Corner.Support.Length), ofSystem("support-width",
			b.s.Corner.Support.Width)},
	}
	if q.Kind == cap.Tee {
		b.layTee()
	} else {
		b.layLegs()
	}
	for i := range b.out.Legs {
		b.leg(i)
	}
	b.miters()
	b.strings()
	b.faces()
	b.closed()
	b.joints()
	b.supports()
	switch q.Kind {
	case cap.Transition:
		b.taper()
		b.taperDims()
	case cap.Tee:
		b.teeDims()
	default:
		b.dims()
	}
	b.outline()
	return b
}

// CornerPlans are the plans of pieces, in their order.
func (l *Layout) CornerPlans(all []*Piece) []plan.Corner {
	out := make([]plan.Corner, len(all))
	for i, q := range all {
		out[i] = l.Corner(q)
	}
	return out
}

// cornerPlan is a plan in the making.
type cornerPlan struct {
	l           *Layout
	q           *Piece
	s           *job.System
	left, right *Joint // nil at a closed end
	out         plan.Corner
	own         []string // facts that the plan alone works out, in the order of
	lengths     []length.Length
}

// fact is a length that the plan alone works out.
func (b *cornerPlan) fact(what string, l length.Length) plan.Value {
	b.own, b.lengths = append(b.own, what), append(b.lengths, l)
	return b.said(what, l)
}

// said is a length that the facts of the piece have.
func (b *cornerPlan) said(what string, l length.Length) plan.Value {
	return plan.Value{Real: l, Fact: Named(b.q.Mark, what)}
}

// ofSystem is one that the facts of the system have.
func ofSystem(what string, l length.Length) plan.Value {
	return plan.Value{Real: l, Fact: Named("system", what)}
}

func cornerKind(q *Piece) plan.CornerKind {
	switch {
	case q.Kind == cap.Tee:
		return plan.Branching
	case q.Kind == cap.Transition:
		return plan.Tapering
	case len(q.Miters) > 0:
		return plan.Turning
	case q.Kind == cap.WallEnd:
		return plan.WallEnding
	case q.LeftEnd != job.EndTurn && q.RightEnd != job.EndTurn:
		return plan.BothEnding
	}
	return plan.Ending
}

// ends finds the joints at both hands; that behind a tee's branch is neither. Where
// the left end is at a kink its joint belongs to the run before.
func (b *cornerPlan) ends() {
	first := b.q.Parts[0].Run
	last := b.q.Parts[len(b.q.Parts)-1].Run
	if b.q.Kind == cap.Tee {
		last = first
	}
	if b.q.LeftEnd == job.EndTurn {
		own := b.l.runOf(first.OnWall())
		before := own
		if c := first.Left.Corner; c != nil {
			before = b.l.runOf(c.Arrive)
		}
		for _, r := range []*Run{before, own} {
			for _, j := range r.Joints {
				if j.Right == b.q {
					b.left = j
				}
			}
		}
	}
	if b.q.RightEnd == job.EndTurn {
		for _, j := range last.Joints {
			if j.Left == b.q {
				b.right = j
			}
		}
	}
}

// layLegs chains the legs from the first, which runs to the right, and moves the
// first corner point to the origin.
func (b *cornerPlan) layLegs() {
	at, heading := plan.Pt{}, length.Angle(0)
	for i, t := range b.q.Parts {
		g := b.part(t, i)
		var trim [2]length.Length
		if i == 0 && len(b.q.Miters) > 0 {
			at.X = -t.Length()
		}
		if i > 0 {
			trim[0] = flatTrim(b.q.Miters[i-1], 1)
		}
		if i < len(b.q.Miters) {
			trim[1] = flatTrim(b.q.Miters[i], 0)
		}
		g.At, g.Heading = at, heading
		g.Ring = plan.Ring{{X: t.From}, {X: t.To}, {X: t.To - trim[1], Y: g.Outside.Real},
			{X: t.From + trim[0], Y: g.Outside.Real}}
		g.Rear = []plan.Pt{g.Ring[3], g.Ring[2]}
		b.out.Legs = append(b.out.Legs, g)
		if i < len(b.q.Miters) {
			at = g.Place(plan.Pt{X: t.To})
			heading += b.q.Miters[i].Corner.CapTurn
		}
	}
	if t := b.q.Taper; b.q.Kind == cap.Transition {
		g := &b.out.Legs[0]
		g.Rear = nil
		for _, x := range []length.Length{g.From, t.From, t.To, g.To} {
			g.Rear = append(g.Rear, plan.Pt{X: x, Y: b.outside(b.q.Parts[0].InsideAt(x))})
		}
		g.Ring[3], g.Ring[2] = g.Rear[0], g.Rear[3]
	}
}

// flatTrim is the trim of a leg at a miter: of the leg that arrives there (0) or
// the one that leaves (1). The plan lays the legs of a weld over a break level, so
// that their rears reach the weld as their fronts do.
func flatTrim(m cap.Miter, side int) length.Length {
	if m.Corner.Straight() {
		return 0
	}
	return m.Trim[side]
}

func (b *cornerPlan) outside(inside length.Length) length.Length {
	return inside + 2*b.s.Metal.Thickness
}

// part is a leg before it is laid.
func (b *cornerPlan) part(t Part, i int) plan.CornerLeg {
	r := b.l.runOf(t.Run.OnWall())
	f := r.FaceAt(b.s, t.From+t.Length()/2)
	return plan.CornerLeg{
		Run: r.Name, Of: FactOfRun(r), From: t.From, To: t.To, LegTop: b.l.LegTop(t),
		Outside: b.fact(fmt.Sprintf("outside-%d", i+1), b.outside(t.Inside())),
		Middle:  [2]length.Length{f.Street, f.Roof},
	}
}

// LegTop is the top of a part of a piece.
func (l *Layout) LegTop(t Part) plan.LegTop {
	s := &l.Job.System
	out := plan.LegTop{Inside: t.Inside(), Slope: t.Slope(s), StandsOff: t.Mismatch(s),
		FrontLower: s.Profile.SlopeBy == job.SlopeByChair}
	out.Facts = []string{PartFact(t, "inside"), PartFact(t, "slope")}
	if out.StandsOff != 0 {
		out.Facts = append(out.Facts, PartFact(t, "stands-off"))
	}
	return out
}

// PartFact names a fact of a part of a piece.
func PartFact(t Part, what string) string {
	i := slices.Index(t.Piece.Parts, t)
	return Named(t.Piece.Mark, fmt.Sprintf("%s-%d", what, i+1))
}

// leg fills what stands on and is lettered of one.
func (b *cornerPlan) leg(i int) {
	g, t := &b.out.Legs[i], b.q.Parts[i]
	g.Long, g.RearLong = b.said(PartLength(i), t.Length()), b.said(fmt.Sprintf("rear-length-%d", i+1),
		b.q.RearLength(i))
	g.RearLeft = plan.That(plan.RearLeft, g.RearLong.Real > 0)
	g.Chairs = b.chairs(i)
	if b.q.Pitched() {
		for _, e := range cap.Edges(b.s, b.outside(b.q.Inside)) {
			g.Edges = append(g.Edges, plan.LegEdge{Name: e.Name,
				Long: b.fact(fmt.Sprintf("%s-%d", strings.ReplaceAll(e.Name, " ", "-"), i+1), b.q.EdgeLength(i, e))})
		}
	}
}

// chairs are those that stand under a leg or under the joint at its end. The chair
// of a kink at the left belongs to the run before: its middle stands where the leg's
// own run begins.
func (b *cornerPlan) chairs(i int) []plan.LegChair {
	var out []plan.LegChair
	t, gap := b.q.Parts[i], b.s.Joint.Gap
	runs := []*Run{b.l.runOf(t.Run.OnWall())}
	if i == 0 && b.left != nil && b.left.Kind == cap.Kink && b.left.Run != t.Run {
		runs = append(runs, b.l.runOf(b.left.Run.OnWall()))
	}
	for _, r := range runs {
		for _, c := range r.Chairs {
			here := r == runs[0] && c.At >= t.From-gap && c.At <= t.To+gap
			kink := i == 0 && b.left != nil && b.left.Kind == cap.Kink && c.Joint == b.left && c.Kind == anchor.AtJoint
			if !here && !kink {
				continue
			}
			p := plan.LegChair{Chair: b.l.ChairPlan(c), Carries: c.Kind != anchor.Between,
				Inside: plan.Value{Real: c.Inside, Fact: Named(c.Name, "inside")}}
			left, right := c.Edges(b.s)
			p.Edges = [2]plan.Value{{Real: left, Fact: Named(c.Name, "left-edge-inside")},
				{Real: right, Fact: Named(c.Name, "right-edge-inside")}}
			if !here {
				p.Chair = p.Chair.Along(-c.At)
			}
			from := p.At - t.From
			if i == 0 {
				from = t.To - p.At
			}
			if p.FromCorner = (plan.Value{Real: from}); p.Carries && len(b.q.Miters) > 0 {
				p.FromCorner = b.fact(fmt.Sprintf("leg-%d-to-%s", i+1, c.Name), from)
			}
			out = append(out, p)
		}
	}
	return out
}

// miters are the welds, with what the crew marks round each.
func (b *cornerPlan) miters() {
	for i, m := range b.q.Miters {
		c, g := m.Corner, b.out.Legs[i]
		k := plan.CornerMiter{
			Corner: c.Name, Break: plan.BreakKind(c.Pitch), Outside: c.Outside(), By: c.CapTurn, Turn: MadeTurnOf(c),
			Front: g.Place(g.Ring[1]), Rear: g.Place(g.Ring[2]),
			Arrive: offset(c, c.Arrive, c.Arrive.Right.Ext), Leave: offset(c, c.Leave, c.Leave.Left.Ext),
		}
		k.WallAt = plan.Pt{X: -k.Arrive.Beyond.Real, Y: k.Arrive.Out.Real}
		if c.Straight() {
			k.Over = b.over(i)
		}
		b.out.Miters = append(b.out.Miters, k)
	}
}

// offset is how far the cap's corner lies from the wall's along a run and out from
// it. A break of slope is no corner to mark.
func offset(c *Corner, r *wall.Run, ext length.Length) plan.Offset {
	o := plan.Offset{Run: r.Name, Beyond: plan.Value{Real: ext}, Out: plan.Value{Real: r.CapOut(c)}}
	if !c.Straight() {
		o.Beyond.Fact, o.Out.Fact = Named(FactOfCorner(c), "beyond-"+r.Name), Named(FactOfCorner(c), "out-from-"+r.Name)
	}
	return o
}

// strings lays the string over all legs, and says where it crosses at each miter.
// The two strings of a tee run on by themselves.
func (b *cornerPlan) strings() {
	legs := b.out.Legs
	for i, line := range b.beside(func(int) length.Length { return b.out.StringBehind.Real }) {
		legs[i].String = line
	}
	for i := range b.out.Miters {
		end := legs[i].String[1]
		b.out.Miters[i].StringAt = plan.Pt{X: end.X - legs[i].To, Y: end.Y}
	}
}

// beside is plan.Beside of the legs, of a tee of each by itself.
func (b *cornerPlan) beside(y func(leg int) length.Length) [][]plan.Pt {
	var at []length.Length
	for i := range b.out.Legs {
		at = append(at, y(i))
	}
	if b.q.Kind != cap.Tee {
		return plan.Beside(b.out.Legs, at...)
	}
	var out [][]plan.Pt
	for i, g := range b.out.Legs {
		out = append(out, plan.Beside([]plan.CornerLeg{g}, at[i])...)
	}
	return out
}

// faces are the wall's, as surveyed; where nobody read one of the walls, straight
// lines through what the middle of each leg stands on.
func (b *cornerPlan) faces() {
	if !b.surveyed() {
		legs := b.out.Legs
		street, roof := b.beside(func(i int) length.Length { return legs[i].Middle[0] }),
			b.beside(func(i int) length.Length { return legs[i].Middle[1] })
		for i := range legs {
			legs[i].Face = plan.Wall{Street: street[i], Roof: roof[i]}
		}
	}
	if b.q.Kind == cap.Tee {
		b.teeFaces()
	}
}

// surveyed takes the faces of the walls as read, along all legs; false where nobody
// read one of them.
func (b *cornerPlan) surveyed() bool {
	var all []plan.Wall
	for _, t := range b.q.Parts {
		w := b.l.WallPlan(t.Run)
		if len(w.Street) == 0 {
			return false
		}
		w.Read = nil
		all = append(all, w)
	}
	for i, w := range all {
		b.out.Legs[i].Face = w
	}
	return true
}

// closed says what the piece has at its hands, and ends the faces of the wall where
// the wall ends.
func (b *cornerPlan) closed() {
	if b.q.Kind == cap.Tee {
		return
	}
	n := len(b.q.Parts)
	first, last := b.q.Parts[0].Run, b.q.Parts[n-1].Run
	b.out.Ends[0] = b.end(b.q.LeftEnd, first.ToCap(0))
	b.out.Ends[1] = b.end(b.q.RightEnd, last.ToCap(last.Front))
	if s := first.Left.Step; s != nil {
		b.out.Ends[0].StepTo, b.out.Ends[0].StepUp = s.Beyond.Name, s.Up()
	}
	if s := last.Right.Step; s != nil {
		b.out.Ends[1].StepTo, b.out.Ends[1].StepUp = s.Beyond.Name, s.Up()
	}
	for i, e := range b.out.Ends {
		if e.Kind == plan.Jointed {
			continue
		}
		g := &b.out.Legs[i*(n-1)]
		for _, line := range []*[]plan.Pt{&g.Face.Street, &g.Face.Roof} {
			*line = endsAt(*line, e.Wall, i == 1)
		}
		g.String = endsAt(g.String, [2]length.Length{g.From, g.To}[i], i == 1)
	}
}

// endsAt lets a line begin, or at the right end, at a station.
func endsAt(line []plan.Pt, x length.Length, right bool) []plan.Pt {
	out := append([]plan.Pt(nil), line...)
	if right {
		out[len(out)-1].X = x
	} else {
		out[0].X = x
	}
	return out
}

func (b *cornerPlan) end(k job.EndKind, wall length.Length) plan.CornerEnd {
	switch k {
	case job.EndFree:
		return plan.CornerEnd{Kind: plan.ClosedEnd, Wall: wall, Clear: ofSystem("end-clearance", b.s.EndCap.Clearance)}
	case job.EndWall:
		return plan.CornerEnd{Kind: plan.AgainstEnd, Wall: wall, Clear: ofSystem("wall-end-clearance",
			b.s.WallEnd.Clearance),
			Upstand: ofSystem("upstand", b.s.WallEnd.Upstand)}
	}
	return plan.CornerEnd{}
}

// joints are those at the ends, and behind a tee's branch.
func (b *cornerPlan) joints() {
	last := len(b.out.Legs) - 1
	if b.q.Kind == cap.Tee {
		last = 0
	}
	if b.left != nil {
		b.joint(b.left, 0, plan.LeftHand)
	}
	if b.right != nil {
		b.joint(b.right, last, plan.RightHand)
	}
	if b.q.Kind != cap.Tee {
		return
	}
	for _, j := range b.q.Parts[1].Run.Joints {
		if j.Left == b.q {
			b.joint(j, 1, plan.RightHand)
		} else if j.Right == b.q {
			b.joint(j, 1, plan.LeftHand)
		}
	}
}

// joint brings one into the frame of its leg, where a kink's may belong to the run
// before.
func (b *cornerPlan) joint(j *Joint, leg int, at plan.Hand) {
	g := b.out.Legs[leg]
	k := plan.CornerJoint{Name: j.Name, Kind: plan.JointKind(j.Kind), Leg: leg, Hand: at, Gap: plan.Value{Real: j.Gap(),
		Fact: Named(j.Name, "gap")}}
	k.Near, k.Far = g.To, g.To+j.Gap()
	if at == plan.LeftHand {
		k.Near, k.Far = g.From, g.From-j.Gap()
	}
	k.At = k.Near + (k.Far-k.Near)/2
	k.Wide = g.WideAt(k.Far)
	k.Plate = b.l.PlatePlan(j)
	k.Plate.Ring = k.Plate.Ring.Along(k.At - j.Centre())
	b.out.Joints = append(b.out.Joints, k)
}

// supports are those under the miters, in the frame of the run that arrives.
func (b *cornerPlan) supports() {
	for _, p := range b.l.Perimeters {
		for _, u := range p.Supports {
			if p.Perimeter != b.q.Perimeter || u.Piece != b.q {
				continue
			}
			for i, m := range b.q.Miters {
				if m.Corner != u.Corner {
					continue
				}
				at := b.out.Legs[i].To
				k := plan.CornerSupport{Shape: supportPlan(u, at, true), Miter: i, Centre: plan.Pt{X: at + u.X, Y: u.Y},
					Back: plan.Value{Real: -u.X, Fact: Named(u.Name, "from-corner-along")}, In: plan.Value{Real: u.Y,
						Fact: Named(u.Name, "from-corner-across")},
					Packing: plan.Value{Real: u.Packing, Fact: Named(u.Name, "packing")}}
				b.out.Supports = append(b.out.Supports, k)
			}
		}
	}
}

// outline is the piece in one ring: the fronts from the left to the right, the rears
// back.
func (b *cornerPlan) outline() {
	if b.q.Kind == cap.Tee {
		b.teeOutline()
		return
	}
	var out plan.Ring
	for i, g := range b.out.Legs {
		out = append(out, g.Place(g.Ring[0]))
		if i == len(b.out.Legs)-1 {
			out = append(out, g.Place(g.Ring[1]))
		}
	}
	for i := len(b.out.Legs) - 1; i >= 0; i-- {
		g := b.out.Legs[i]
		for k := len(g.Rear) - 1; k >= 0; k-- {
			if k == 0 || k < len(g.Rear)-1 || i == len(b.out.Legs)-1 { // neighbours share their miter
				out = append(out, g.Place(g.Rear[k]))
			}
		}
	}
	b.out.Outline = out
}
