package layout

import (
	"math"
	"slices"

	"copingset/layout/assembly"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/metal"
	"copingset/layout/plan"
	"copingset/layout/wind"
)

// LimitKind is what a test report limits.
type LimitKind int

// The limits, in the order in which a report states them.
const (
	LimitMetal LimitKind = iota
	LimitThickness
	LimitFrontLeg
	LimitRearLeg
	LimitFrontCover // only where the face asks for a leg taller than any tested
	LimitRearCover
	LimitWidth
	LimitSpacing
	LimitSubstrate
	LimitFasteners
)

// Limit is one property of a tested assembly beside what the job builds.
type Limit struct {
	Kind                   LimitKind
	Tested, Built          length.Length  // where the property is a length
	To                     job.LegMeasure // of both, where it is a leg
	Pitch                  length.Length  // of the spacing: chair to chair, with the shares of the joints
	TestedWords, HasWords  string         // metal and substrate
	TestedCount, HasCounts [2]int         // fasteners a chair, front and rear row; the least of the chairs
	Passes                 bool
}

// built is what stands on an assembly, as its limits ask.
type built struct {
	inside, bay, pitch length.Length // the most
	substrate          string        // "none": a wall does not have it
	holds              bool
	counts             [2]int // fasteners a chair, front and rear row; the least of the chairs
	chairs             bool   // there are any
}

func builtWith(a *job.Assembly, runs []*Run) built {
	b := built{substrate: "none", holds: len(runs) > 0}
	for _, r := range runs {
		for _, q := range r.Parts {
			if q.Piece.Assembly == a {
				b.inside = length.Max(b.inside, q.Piece.Inside)
			}
		}
		for _, y := range r.Bays() {
			if y.Piece.Assembly == a {
				b.bay, b.pitch = length.Max(b.bay, y.Metal), length.Max(b.pitch, y.Pitch)
			}
		}
		if _, ok := assembly.Holding(r.Wall.Layers, a.Substrate); !ok {
			b.holds = false
		}
		for _, h := range r.Chairs {
			if h.Assembly != a {
				continue
			}
			for i, w := range h.Rows {
				n := w.Count
				if w.Fastener == nil || w.Fastener.Name != a.Fastener {
					n = 0
				}
				if !b.chairs || n < b.counts[i] {
					b.counts[i] = n
				}
			}
			b.chairs = true
		}
	}
	if b.holds {
		b.substrate = a.Substrate
	}
	return b
}

// Limits sets the assembly of a case against the job, property by property;
// none without an assembly.
func (l *Layout) Limits(c AssemblyCase) []Limit {
	a := c.Choice.Assembly
	if a == nil {
		return nil
	}
	s := &l.Job.System
	has := builtWith(a, c.Runs)
	most := func(k LimitKind, tested, built length.Length) Limit {
		return Limit{Kind: k, Tested: tested, Built: built, Passes: built <= tested}
	}
	leg := func(k LimitKind, tested job.Leg, built func(job.LegMeasure) length.Length) Limit {
		m := most(k, tested.Length, built(tested.To))
		m.To = tested.To
		return m
	}
	thick := most(LimitThickness, a.ThicknessLeast, s.Metal.Thickness)
	thick.Passes = thick.Built >= thick.Tested
	spacing := most(LimitSpacing, a.ChairSpacing, has.bay)
	spacing.Pitch = has.pitch
	asked := [2]int{a.FrontRow, a.RearRow}
	out := []Limit{
		{Kind: LimitMetal, TestedWords: a.Metal, HasWords: s.Metal.Name, Passes: a.Metal == s.Metal.Name},
		thick,
		leg(LimitFrontLeg, a.FrontLegMost, s.FrontLeg),
		leg(LimitRearLeg, a.RearLegMost, s.RearLeg),
	}
	for f, k := range []LimitKind{LimitFrontCover, LimitRearCover} {
		var worst Limit
		for _, r := range c.Runs {
			if e, ok := l.ExtenderOn(r, job.Face(f)); ok && e.Leg > worst.Built {
				worst = most(k, e.Tested, e.Leg)
				worst.To = e.To
			}
		}
		if worst.Built > 0 {
			out = append(out, worst)
		}
	}
	return append(out,
		most(LimitWidth, a.WidthMost, has.inside),
		spacing,
		Limit{Kind: LimitSubstrate, TestedWords: a.Substrate, HasWords: has.substrate, Passes: has.holds},
		Limit{Kind: LimitFasteners, TestedWords: a.Fastener, TestedCount: asked, HasCounts: has.counts,
			Passes: !has.chairs || has.counts == asked},
	)
}

// Fastening is one row of chairs' holes in one zone that takes one stock
// length, with the least and the greatest of what varies along the wall.
type Fastening struct {
	Assembly              *job.Assembly
	Zone                  wind.Zone
	Row                   int // 0 front, 1 rear
	Fastener              *Fastener
	Length                length.Length // zero: no stock length fits
	Runs                  []*Run
	Chairs, Count         int
	PackLeast, PackMost   length.Length // packing under the row
	Thread                plan.Check    // the least in what holds it, tip taken off; fails where no stock length fits
	ThreadMax             length.Length
	Edge                  plan.Check    // the least of the row from a face of the wall; negative: beyond it
	PilotLeast, PilotMost length.Length // depth below the top of the packing
}

// Fastenings lists the rows by assembly as the job names them, zone, row and
// length.
func (l *Layout) Fastenings() []Fastening {
	var out []Fastening
	for _, r := range l.Runs() {
		for _, c := range r.Chairs {
			if c.Assembly == nil {
				continue
			}
			z := zoneOf(c)
			for i, w := range c.Rows {
				if w.Fastener == nil {
					continue
				}
				k := slices.IndexFunc(out, func(f Fastening) bool {
					return f.Assembly == c.Assembly && f.Zone == z && f.Row == i && f.Fastener == w.Fastener &&
						f.Length == w.Length
				})
				if k < 0 {
					out = append(out, Fastening{Assembly: c.Assembly, Zone: z, Row: i, Fastener: w.Fastener,
						Length:    w.Length,
						PackLeast: w.Packing, Thread: w.Thread, Edge: w.Edge, PilotLeast: w.Pilot})
					k = len(out) - 1
				}
				f := &out[k]
				f.Chairs++
				f.Count += w.Count
				f.PackLeast, f.PackMost = length.Min(f.PackLeast, w.Packing), length.Max(f.PackMost, w.Packing)
				f.Thread, f.ThreadMax = plan.Worst(f.Thread, w.Thread), length.Max(f.ThreadMax, w.Thread.Has)
				f.Edge = plan.Worst(f.Edge, w.Edge)
				f.PilotLeast, f.PilotMost = length.Min(f.PilotLeast, w.Pilot), length.Max(f.PilotMost, w.Pilot)
				if !slices.Contains(f.Runs, r) {
					f.Runs = append(f.Runs, r)
				}
			}
		}
	}
	order := func(a *job.Assembly) int {
		return slices.IndexFunc(l.Job.Assemblies, func(x job.Assembly) bool { return x.Name == a.Name })
	}
	slices.SortStableFunc(out, func(a, b Fastening) int {
		for _, d := range []int{order(a.Assembly) - order(b.Assembly), int(a.Zone) - int(b.Zone), a.Row - b.Row} {
			if d != 0 {
				return d
			}
		}
		switch {
		case a.Length < b.Length:
			return -1
		case a.Length > b.Length:
			return 1
		}
		return 0
	})
	return out
}

// Fails says that no stock length fits, or that one does not hold as it must.
func (f Fastening) Fails() bool { return f.Thread.Fails() || f.Edge.Fails() }

// GapStep is the gap to set at one temperature of the metal.
type GapStep struct {
	At   job.Temperature
	Gaps []length.Length // for each mean length of the table
	Over []bool          // under the least gap, or past the seal
}

// GapTable is the gap to set over the job's range of metal temperatures.
type GapTable struct {
	Means []length.Length // mean length of the two neighbours: shortest and longest of the job
	Steps []GapStep
	Seal  length.Length
}

// GapsByTen gives the gaps for each ten degrees of the job's own scale from the
// coldest to the hottest metal, and at both ends, brought to a grid. A job
// without a plain joint has none.
func (l *Layout) GapsByTen(grid length.Length) GapTable {
	s := &l.Job.System
	t := GapTable{Seal: cap.MovementOf(s).Seal}
	for _, r := range l.Runs() {
		for _, q := range r.Joints {
			if q.Kind == cap.Expansion || q.Left == nil && q.Right == nil {
				continue
			}
			m := q.Mean()
			switch len(t.Means) {
			case 0:
				t.Means = []length.Length{m, m}
			default:
				t.Means[0], t.Means[1] = length.Min(t.Means[0], m), length.Max(t.Means[1], m)
			}
		}
	}
	if len(t.Means) == 0 {
		return t
	}
	if t.Means[0] == t.Means[1] {
		t.Means = t.Means[:1]
	}
	for _, at := range tens(s.Joint.Coldest, s.Joint.Hottest, l.Job.Units == job.Metric) {
		g := GapStep{At: at}
		for _, m := range t.Means {
			gap := cap.GapAt(s, m, at)
			g.Gaps = append(g.Gaps, length.RoundTo(gap, grid))
			g.Over = append(g.Over, gap < s.Joint.LeastGap || gap > t.Seal)
		}
		t.Steps = append(t.Steps, g)
	}
	return t
}

// tens lists the whole tens of degrees between two temperatures, C or F, with
// the two themselves at its ends.
func tens(coldest, hottest job.Temperature, celsius bool) []job.Temperature {
	degrees := func(t job.Temperature) float64 {
		if celsius {
			return t.Celsius()
		}
		return t.Fahrenheit()
	}
	of := func(d float64) job.Temperature {
		if !celsius {
			d = (d - 32) * 5 / 9
		}
		return job.Temperature(math.Round(d * 1000))
	}
	out := []job.Temperature{coldest}
	for d := math.Ceil(degrees(coldest)/10) * 10; d < degrees(hottest)-0.5; d += 10 {
		if d > degrees(coldest)+0.5 {
			out = append(out, of(d))
		}
	}
	if hottest > coldest {
		out = append(out, hottest)
	}
	return out
}

// Expansion is what handbooks print for a metal.
type Expansion = metal.Expansion

// PrintedExpansion finds the printed coefficients of the job's metal, to stand
// beside its own.
func (l *Layout) PrintedExpansion() (Expansion, bool) {
	return metal.ExpansionOf(l.Job.System.Metal.Name)
}

// ExtenderOn is the extender that hangs below a leg on a run, if one does.
func (l *Layout) ExtenderOn(r *Run, f job.Face) (Extender, bool) {
	for _, e := range l.extendersOf(r) {
		if e.Face == f {
			return e, true
		}
	}
	return Extender{}, false
}
