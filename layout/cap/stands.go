package cap

import (
	"math"

	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/stand"
	"copingset/layout/wall"
	"copingset/layout/wind"
)

// Stop is what the metal of a part ends at.
type Stop int

// The stops. A part's chairs stand between those of its two ends.
const (
	AtJoint     Stop = iota // the chair under the joint
	AtKink                  // that of a joint which takes up a turn, at the run's end
	AtExpansion             // the chair beside a building expansion joint
	AtEnd                   // the end chair
	AtMiter                 // none
	AtStub                  // none: the stub of a tee begins there
)

// Footing is a part of a piece, made or yet to be made, as its chairs see it.
type Footing struct {
	Run      *Run
	From, To length.Length
	Ends     [2]Stop
	Inside   length.Length // of the piece on its run
}

// Stands answers where chairs can stand under the pieces of a perimeter. Whoever
// chooses legs asks it of pieces that may be, and whoever stands the chairs of
// those that were made: alike.
type Stands struct {
	sys   *job.System
	grid  length.Length
	runs  []*Run
	seams map[*wall.Corner]Seam
	bars  map[*Run][]stand.Bar
	rows  map[rowKey]stand.Laid
	whys  map[rowKey]stand.Why
	nears map[rowKey][]length.Length
	apart map[Seam]bool
	open  bool          // what stands on the walls is left out
	wide  length.Length // instead of the tested spacing, to try another; 0: none
}

// rowKey is all that a row of chairs follows from.
type rowKey struct {
	part Footing
	zone wind.Zone
}

// NewStands is for runs that have their widths.
func NewStands(s *job.System, runs []*Run, grid length.Length) *Stands {
	return newStands(s, runs, Seams(runs), grid)
}

func newStands(s *job.System, runs []*Run, seams map[*wall.Corner]Seam, grid length.Length) *Stands {
	return &Stands{sys: s, grid: grid, runs: runs, seams: seams, bars: map[*Run][]stand.Bar{},
		rows: map[rowKey]stand.Laid{}, whys: map[rowKey]stand.Why{}, nears: map[rowKey][]length.Length{}, apart: map[Seam]bool{}}
}

// Zone of a piece of these parts: a piece that touches a zone takes it whole.
func (s *Stands) Zone(parts ...Footing) wind.Zone {
	z := wind.Edge
	for _, p := range parts {
		z = max(z, wind.Touches(p.Run.Zones, p.Run.ToFront(p.From), p.Run.ToFront(p.To)))
	}
	return z
}

// Row stands the chairs of a part between those of its ends, in a zone.
func (s *Stands) Row(p Footing, z wind.Zone) (stand.Laid, stand.Why) {
	key := rowKey{p, z}
	if why, ok := s.whys[key]; ok {
		return s.rows[key], why
	}
	r, why := stand.Row(s.Part(p, z), s.grid)
	s.rows[key], s.whys[key] = r, why
	return r, why
}

// Part is a part as package stand sees it.
func (s *Stands) Part(p Footing, z wind.Zone) stand.Part {
	out := stand.Part{Spacing: s.spacing(p, z), Chair: s.sys.Chair.Length, Bars: s.Bars(p.Run), Left: s.sys.Remainder == job.Left}
	out.Ends[0], out.Ends[1] = s.end(p, 0, out.Spacing), s.end(p, 1, out.Spacing)
	return out
}

// spacing tested for a part in a zone.
func (s *Stands) spacing(p Footing, z wind.Zone) length.Length {
	if s.wide > 0 {
		return s.wide
	}
	return p.Run.ChoiceFor(z, p.Inside).Assembly.ChairSpacing
}

// end is one end of a part.
func (s *Stands) end(p Footing, side int, spacing length.Length) stand.End {
	edge, in := p.From, length.Length(1) // in: towards the part
	if side == 1 {
		edge, in = p.To, -1
	}
	e := stand.End{Edge: edge, At: edge, Chair: true}
	g := s.sys.Joint.Gap
	switch p.Ends[side] {
	case AtJoint:
		e.At = edge + g/2
		if side == 0 {
			e.At = edge - g + g/2
		}
	case AtKink:
		e.At = 0
		if side == 1 {
			e.At = p.Run.Cap
		}
	case AtExpansion:
		e.At = edge + in*s.sys.Expansion.ChairFrom
	case AtEnd:
		e.At = edge + in*s.sys.Chair.EndChair
	case AtMiter:
		e.Chair, e.Far = false, spacing
		m := s.seamAt(p.Run, side == 1)
		e.Near = s.foot(m, p.Run, side == 1) + s.sys.Chair.Length/2
		e.Far = spacing - m.Extra(s.sys)[1-side]
		switch {
		case m.Corner.Straight():
			e.Far = spacing / 2
		case !m.Held(s.sys): // by itself a leg is as long as its front or its centre line
			e.Far = spacing - m.Extra(s.sys)[1-side]/2
		}
	case AtStub:
		e.Chair, e.Far = false, spacing
	}
	return e
}

// seamAt is the seam at one end of a run.
func (s *Stands) seamAt(r *Run, right bool) Seam {
	if right {
		return s.seams[r.Right.Corner]
	}
	return s.seams[r.Left.Corner]
}

// foot is how far from a corner point, along a run's cap line, the wall of the
// next run lies at the chairs' street or roof edge: no chair reaches past it.
func (s *Stands) foot(m Seam, r *Run, right bool) length.Length {
	side := 1
	if right {
		side = 0
	}
	inside := m.Inside[side]
	if m.Corner.Straight() {
		return pitchFoot(s.sys, m.Corner, inside)
	}
	return length.Max(m.at(s.sys, side, ChairLine(s.sys)), m.at(s.sys, side, ChairRear(s.sys, inside)))
}

// Bars are the stretches of a run between whose ends no chair's centre may lie:
// what blocks a chair, the opening in the rear leg of a tee, the supports under
// the miters at its ends, and what lies beyond those.
func (s *Stands) Bars(r *Run) []stand.Bar {
	if known, ok := s.bars[r]; ok {
		return known
	}
	var out []stand.Bar
	half := s.sys.Chair.Length / 2
	for i := range r.Job.Obstacles {
		o := &r.Job.Obstacles[i]
		if o.BlocksAChair() && !s.open {
			c := r.ToCap(r.FrontStation(o.Station))
			out = append(out, stand.Bar{From: c - o.Extent/2 - half, To: c + o.Extent/2 + half})
		}
	}
	for _, t := range r.Tees {
		if s.open {
			break
		}
		out = append(out, stand.Bar{From: t.Edge[0] - half, To: t.Edge[1] + half})
	}
	for _, right := range []bool{false, true} {
		for _, b := range s.miterBars(r, right) {
			if right {
				b.From, b.To = r.Cap-b.To, r.Cap-b.From
			}
			out = append(out, b)
		}
	}
	s.bars[r] = out
	return out
}

// miterBars are those at one end of a run, as distances from the corner point.
func (s *Stands) miterBars(r *Run, right bool) []stand.Bar {
	e := r.Left
	if right {
		e = r.Right
	}
	m, known := s.seams[e.Corner]
	if e.Corner == nil || !known || e.Corner.Absorb {
		return nil
	}
	half := s.sys.Chair.Length / 2
	out := []stand.Bar{{From: -s.sys.Chair.Length - length.Abs(s.foot(m, r, right)), To: s.foot(m, r, right) + half}}
	if e.Corner.Straight() {
		return out
	}
	side := 1
	if right {
		side = 0
	}
	seen := m
	if side == 1 {
		seen = m.turned()
	}
	for _, sup := range Supports(s.sys, seen) {
		if from, to, ok := underSupport(s.sys, sup.Quad, seen.Inside[0]); ok {
			out = append(out, stand.Bar{From: from - half, To: to + half})
		}
	}
	return out
}

// underSupport is the stretch of the arriving run, in distances from the corner
// point, where a chair's edges meet a support: what its sides leave between the
// chair's street and roof edges (separating axes of the two, which need look no
// further than that stretch and the support's own axes).
func underSupport(s *job.System, q Quad, inside length.Length) (from, to length.Length, ok bool) {
	y0, y1 := ChairLine(s).MM(), ChairRear(s, inside).MM()
	lo, hi := math.Inf(1), math.Inf(-1)
	for i, a := range q {
		b := q[(i+1)%4]
		// Of each side of the support, the part between the two edges.
		t0, t1 := 0.0, 1.0
		if d := b.y - a.y; d != 0 {
			u, v := (y0-a.y)/d, (y1-a.y)/d
			t0, t1 = math.Max(0, math.Min(u, v)), math.Min(1, math.Max(u, v))
		} else if a.y <= y0 || a.y >= y1 {
			continue
		}
		if t0 > t1 {
			continue
		}
		for _, t := range []float64{t0, t1} {
			x := -(a.x + t*(b.x-a.x))
			lo, hi = math.Min(lo, x), math.Max(hi, x)
		}
	}
	if hi-lo < 1e-6 {
		return 0, 0, false
	}
	return length.FromMM(lo), length.FromMM(hi), true
}

// Barred tells whether no chair's centre may lie at a station of a run.
func (s *Stands) Barred(r *Run, at length.Length) bool {
	for _, b := range s.Bars(r) {
		if at > b.From && at < b.To {
			return true
		}
	}
	return false
}

// FootingOf is a part of a piece that was made.
func (s *Stands) FootingOf(p Part) Footing {
	f := Footing{Run: p.Run, From: p.From, To: p.To, Ends: [2]Stop{stopAt(p.Run.Left), stopAt(p.Run.Right)}, Inside: p.Inside()}
	if p.From != 0 || f.Ends[0] == AtKink {
		f.Ends[0] = AtJoint
	}
	if p.To != p.Run.Cap || f.Ends[1] == AtKink {
		f.Ends[1] = AtJoint
	}
	for _, j := range p.Run.Joints {
		switch {
		case j.Kind == Expansion && j.To == p.From:
			f.Ends[0] = AtExpansion
		case j.Kind == Expansion && j.From == p.To:
			f.Ends[1] = AtExpansion
		case j.Kind == Kink && j.From == p.To:
			f.Ends[1] = AtKink
		}
	}
	if c := p.Run.Left.Corner; c != nil && c.Absorb && p.From == s.sys.Joint.Gap/2 {
		f.Ends[0] = AtKink // its joint belongs to the run before
	}
	return f
}
