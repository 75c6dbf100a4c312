package anchor

import (
	"math"
	"slices"

	"copingset/layout/assembly"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/stand"
	"copingset/layout/wall"
	"copingset/layout/wind"
)

// Loading is what the wind asks of something in one load case, and what a test or
// an engineer proved for it, both in newtons at the allowable level. What holds
// nothing was not compared.
type Loading struct{ Demand, Holds float64 }

// Ratio of what is asked to what is proved; zero where that was not compared.
func (l Loading) Ratio() float64 {
	if l.Holds <= 0 {
		return 0
	}
	return max(0, l.Demand) / l.Holds
}

// Load is what the wind asks of one chair, by the load cases of the test. The top,
// the front leg and the rear leg are shared out by tributary lengths, each part at
// the pressure of the zone it lies in; what a chair holds is the resistance on the
// piece's own width or leg and the tested spacing, or the report's force for one
// chair. A piece that turns, ends or tapers asks the greater of that and of what
// its balance asks.
type Load struct {
	Known         bool // there are pressures to compare
	Up, Out, Rear Loading
	// the top at the chair's street and roof edge, where the report parts what each held; else not compared
	Hook, Snap Loading
	// the top again as one stiff beam from joint to joint, against the specimen's own; not compared where nobody says
	// how that stood
	Beam Loading
}

// Ratio is the greatest of the load cases.
func (l Load) Ratio() float64 {
	return max(l.Up.Ratio(), l.Out.Ratio(), l.Rear.Ratio(), l.Beam.Ratio(), l.Hook.Ratio(), l.Snap.Ratio())
}

// full is what a ratio may be: a millionth over one is arithmetic.
const full = 1 + 1e-6

// Over tells whether a chair is asked for more than the test proved for it.
func (l Load) Over() bool { return l.Ratio() > full }

// asked is what one piece asks of one of its hold-downs, in newtons.
type asked struct {
	by                  *cap.Piece
	up, beam, out, rear float64
	hook                float64 // of up, at the chair's street edge; the rest is at its roof edge
}

// pressures of a zone at the allowable level, in pascals.
type pressures struct{ up, out, rear float64 }

// pressuresOf a demand; where none is known one pascal everywhere, so that what is
// a matter of places alone can be told.
func pressuresOf(d wind.Demand) (p [2]pressures) {
	if !d.Known() {
		return [2]pressures{{1, 1, 1}, {1, 1, 1}}
	}
	for z := wind.Edge; z <= wind.Corner; z++ {
		p[z] = pressures{wind.AllowablePa(d.Up[z]), wind.AllowablePa(d.Out[z]), wind.AllowablePa(d.Rear[z])}
	}
	return p
}

// zone is a stretch of a run's cap line under the pressures of one zone.
type zone struct {
	from, to length.Length
	pressures
}

// far is beyond any run's ends.
const far = length.Length(1) << 50

// zonesOf are the zones of a run on its cap line; the first and the last go on
// beyond its ends, over what a miter adds.
func (b *builder) zonesOf(r *cap.Run) []zone {
	var out []zone
	for i, z := range r.Zones {
		q := zone{r.ToCap(z.From), r.ToCap(z.To), b.wind[z.Zone]}
		if i == 0 {
			q.from = -far
		}
		if i == len(r.Zones)-1 {
			q.to = far
		}
		out = append(out, q)
	}
	return out
}

// support is a hold-down or what bears under a part: a chair, at a station of the
// part's run, which may lie on the next run's joint.
type seat struct {
	chair *Chair
	at    length.Length
}

// seats lists the chairs that carry each part of the pieces, in station order.
func (b *builder) seats(runs []*Run) map[partKey][]seat {
	parts := map[*cap.Piece]int{}
	out := map[partKey][]seat{} // look-up only
	for _, a := range runs {
		for _, p := range a.Parts {
			parts[p.Piece] = len(p.Piece.Parts)
		}
	}
	for i, a := range runs {
		next := runs[(i+1)%len(runs)]
		for _, c := range a.Chairs {
			for _, p := range carried(c) {
				for k, q := range p.Parts {
					s := seat{c, c.At}
					switch {
					case q.Run == a.Run && (len(runs) > 1 || c.Joint == nil || c.Joint.Kind != cap.Kink):
					case c.Kind == AtJoint && c.Joint.Kind == cap.Kink && q.Run == next.Run && k == 0:
						s.at = 0
					default:
						continue
					}
					out[partKey{p, k}] = append(out[partKey{p, k}], s)
				}
			}
		}
	}
	for _, s := range out {
		slices.SortStableFunc(s, func(x, y seat) int { return int(min(1, max(-1, x.at-y.at))) })
	}
	return out
}

// loads works out what every chair and support of the perimeter carries.
func (b *builder) loads(runs []*Run, sup []*Support) []*Turned {
	var turned []*Turned
	carry := map[*Chair][]asked{} // of each chair; look-up only
	seats := b.seats(runs)
	seen := map[*cap.Piece]bool{} // look-up only
	for _, a := range runs {
		for _, p := range a.Parts {
			if seen[p.Piece] {
				continue
			}
			seen[p.Piece] = true
			if p.Piece.Kind == cap.Tee && p.Run != p.Piece.Tee.Main {
				b.stubLoads(p, seats[partKey{p.Piece, index(p)}], carry)
				continue
			}
			if len(p.Piece.Miters) > 0 || p.Piece.Kind == cap.Tee {
				turned = append(turned, b.turnedLoads(p.Piece, seats, carry, sup))
				continue
			}
			b.lineLoads(p, seats[partKey{p.Piece, 0}], carry)
		}
	}
	for _, a := range runs {
		for _, c := range a.Chairs {
			c.Load = b.loadOf(c, carry[c])
			c.shares = carry[c]
		}
	}
	return turned
}

// lineLoads is what a piece asks that lies on one line: a straight one by shares
// and as a beam; one that ends or tapers the greater of both, which of two chairs
// is its balance in force and moment.
func (b *builder) lineLoads(p cap.Part, seats []seat, carry map[*Chair][]asked) {
	at := make([]length.Length, len(seats))
	for i, s := range seats {
		at[i] = s.at
	}
	top, front, rear := b.lines(p)
	up, out, back := stand.Loads(at, top), stand.Loads(at, front), stand.Loads(at, rear)
	for i, s := range seats {
		q := asked{by: p.Piece, up: up[i].Share, beam: up[i].Beam, out: out[i].Share, rear: back[i].Share}
		if p.Piece.Kind != cap.Straight {
			q.up = max(q.up, q.beam)
			q.out, q.rear = max(q.out, out[i].Beam), max(q.rear, back[i].Beam)
		}
		q.hook = q.up * b.atHook(s.chair, p.Run.OutsideAt(s.at))
		carry[s.chair] = append(carry[s.chair], q)
	}
}

// lines are the loads on a part along its cap line, in N/mm: on its top, on its
// front leg and on its rear one. A taper is cut into strips of even width.
func (b *builder) lines(p cap.Part) (top, front, rear []stand.Load) {
	at := []length.Length{p.From, p.To}
	if t := p.Piece.Taper; p.Piece.Kind == cap.Transition {
		for i := range length.Length(strips + 1) {
			at = append(at, t.From+(t.To-t.From)*i/strips)
		}
	}
	zones := b.zonesOf(p.Run)
	for _, z := range zones {
		at = append(at, z.from, z.to)
	}
	slices.Sort(at)
	frontLeg, rearLeg := b.sys.FrontLeg(job.ToMoldLine).MM(), b.sys.RearLeg(job.ToMoldLine).MM()
	for i := 1; i < len(at); i++ {
		l, r := at[i-1], at[i]
		if l < p.From || r > p.To || l == r {
			continue
		}
		mid := l + (r-l)/2
		for _, z := range zones {
			if mid >= z.from && mid < z.to {
				top = append(top, stand.Load{From: l, To: r, Per: z.up * 1e-6 * p.Run.OutsideAt(mid).MM()})
				front = append(front, stand.Load{From: l, To: r, Per: z.out * 1e-6 * frontLeg})
				rear = append(rear, stand.Load{From: l, To: r, Per: z.rear * 1e-6 * rearLeg})
				break
			}
		}
	}
	return top, front, rear
}

// strips that a taper is cut into.
const strips = 16

// loadOf compares what the pieces on a chair ask of it with what was tested. The
// narrower of two pieces earns the less.
func (b *builder) loadOf(c *Chair, asks []asked) Load {
	l := Load{Known: b.known}
	if !b.known || c.Assembly == nil {
		return l
	}
	hook := 0.0
	for _, q := range asks {
		l.Up.Demand += q.up
		hook += q.hook
		l.Beam.Demand += q.beam
		l.Out.Demand += q.out
		l.Rear.Demand += q.rear
	}
	a := c.Assembly
	wide := c.Run.OutsideAt(c.At)
	for _, p := range carried(c) {
		w := p.InsideOn(c.Run) + 2*b.sys.Metal.Thickness
		if p.Kind == cap.Transition {
			w = length.Max(p.Narrow+2*b.sys.Metal.Thickness, length.Min(w, c.Run.OutsideAt(c.At)))
		}
		wide = length.Min(wide, w)
	}
	spacing := a.ChairSpacing.MM()
	up := assembly.AllowablePa(a.Up, assembly.Factor(a)) * 1e-6 * wide.MM()
	l.Up.Holds = up * spacing
	if a.TestedOn != nil {
		_, beam := stand.Specimen(a.TestedOn.Length, a.ChairSpacing, a.TestedOn.Chairs)
		l.Beam.Holds = up * beam.MM()
	}
	if n, ok := oneChair(a); ok {
		l.Up.Holds, l.Beam.Holds = n, n
	}
	if k := a.OneChair; k != nil && k.Hook > 0 {
		l.Hook, l.Snap = Loading{hook, atAllowable(a, k.Hook)}, Loading{l.Up.Demand - hook, atAllowable(a, k.Snap)}
	}
	l.Out.Holds = assembly.AllowablePa(a.Out, assembly.Factor(a)) * 1e-6 * b.sys.FrontLeg(job.ToMoldLine).MM() * spacing
	if b.rearKnown {
		rear, _ := assembly.Rear(a)
		l.Rear.Holds = rear * 1e-6 * b.sys.RearLeg(job.ToMoldLine).MM() * spacing
	}
	return l
}

// oneChair is the force that a report gives of one chair, at the allowable level.
func oneChair(a *job.Assembly) (float64, bool) {
	if a.OneChair == nil {
		return 0, false
	}
	return atAllowable(a, a.OneChair.Up), true
}

// atAllowable is a force of an assembly's report at the allowable level.
func atAllowable(a *job.Assembly, n float64) float64 {
	if a.Up.Level == job.AsPulled {
		n /= assembly.Factor(a)
	}
	return n
}

// parted tells whether the report of a chair's assembly gives what hook and snap hold
// each: the chair then holds a piece that turns down at its two edges. Over a break of
// slope, and under a tee, hold-downs are taken on one line.
func parted(c *Chair, p *cap.Piece) bool {
	return !p.Pitched() && p.Kind != cap.Tee && c.Assembly != nil && c.Assembly.OneChair != nil &&
		c.Assembly.OneChair.Hook > 0
}

// edges are a chair's street and roof edge behind the cap line.
func (b *builder) edges(c *Chair) (front, rear length.Length) {
	return cap.ChairLine(b.sys), cap.ChairRear(b.sys, c.Inside)
}

// atHook is the part of an uplift on a cap of an outside width, which acts at its
// middle, that a chair holds at its street edge: by levers about its roof edge.
func (b *builder) atHook(c *Chair, outside length.Length) float64 {
	front, rear := b.edges(c)
	if rear <= front {
		return 0.5
	}
	return min(1, max(0, (rear-outside/2).MM()/(rear-front).MM()))
}

// Turned is how a piece that turns is held down.
type Turned struct {
	Piece *cap.Piece
	// Bay is the longest from hold-down to hold-down round a miter, along the
	// longer face, joints left out; zero where the piece has no miter. Spacing is
	// the tested one.
	Bay, Spacing length.Length
	// Off is how far the uplift acts outside the polygon of the hold-downs.
	Off length.Length
	// Held: its hold-downs balance the uplift in force and moment, what only bears
	// never pulling, and no bay is over the spacing.
	Held bool
	// Covered by a report or an engineer, as it stands.
	Covered bool

	balanced bool // in force and moment
}

// frame is a part's own frame in that of its piece: where its run's station zero
// lies, and how far the run is turned.
type frame struct {
	at   stand.Point
	turn float64 // degrees
}

// place is a place of a part's run in the frame of its piece.
func (f frame) place(x, y float64) stand.Point {
	sin, cos := math.Sincos(f.turn * math.Pi / 180)
	return stand.Point{X: f.at.X + x*cos - y*sin, Y: f.at.Y + x*sin + y*cos}
}

// frames lays the parts of a piece out in plan. A tee's stub goes off its main's
// rear, at the middle of the branch.
func (b *builder) frames(p *cap.Piece) []frame {
	if p.Kind == cap.Tee {
		out := []frame{{}}
		if len(p.Parts) > 1 {
			t := p.Tee
			w := t.Main.OutsideAt(t.Edge[0]).MM()
			mid := (t.Edge[0] + t.Edge[1]).MM() / 2
			half := t.Run.OutsideAt(p.Parts[1].From).MM() / 2
			if t.Starts { // its stations grow away from the main, with its street at the main's right
				out = append(out, frame{stand.Point{X: mid + half, Y: w}, 90})
			} else {
				out = append(out, frame{stand.Point{X: mid - half, Y: w + t.Run.Cap.MM()}, -90})
			}
		}
		return out
	}
	out := []frame{{}}
	for i, m := range p.Miters {
		f := out[i]
		turn := m.Corner.CapTurn.Degrees()
		if m.Corner.Straight() {
			turn = 0
		}
		next := p.Parts[i+1]
		end := f.place(p.Parts[i].To.MM(), 0)
		g := frame{turn: f.turn + turn}
		o := g.place(next.From.MM(), 0)
		g.at = stand.Point{X: end.X - o.X, Y: end.Y - o.Y}
		out = append(out, g)
	}
	return out
}

// miterAt is the corner of two parts in the frame of their piece.
func (f frame) corner(q cap.Part) stand.Point { return f.place(q.To.MM(), 0) }

// outline is a part from above in its run's frame, in mm: its rear ends at its
// miters.
func (b *builder) outline(p *cap.Piece, i int) []stand.Point {
	q := p.Parts[i]
	w := q.Run.OutsideAt(q.From).MM()
	l, r := q.From.MM(), q.To.MM()
	if p.Kind != cap.Tee {
		if i > 0 {
			l += p.Miters[i-1].Trim[1].MM()
		}
		if i < len(p.Miters) {
			r -= p.Miters[i].Trim[0].MM()
		}
		for k, m := range p.Miters { // over a break the trim is that of the fold, not of the plan
			if m.Corner.Straight() && (k == i || k == i-1) {
				l, r = q.From.MM(), q.To.MM()
			}
		}
	}
	return []stand.Point{{X: q.From.MM()}, {X: q.To.MM()}, {X: r, Y: w}, {X: l, Y: w}}
}

// within clips a convex polygon to a stretch of stations, in mm.
func within(ring []stand.Point, from, to float64) []stand.Point {
	for _, side := range []float64{1, -1} {
		limit := from
		if side < 0 {
			limit = to
		}
		var out []stand.Point
		for i, p := range ring {
			q := ring[(i+1)%len(ring)]
			inP, inQ := side*(p.X-limit) >= 0, side*(q.X-limit) >= 0
			if inP {
				out = append(out, p)
			}
			if inP != inQ {
				t := (limit - p.X) / (q.X - p.X)
				out = append(out, stand.Point{X: limit, Y: p.Y + t*(q.Y-p.Y)})
			}
		}
		ring = out
	}
	return ring
}

// patches are the tops of a part's zones, within a stretch of its stations, in
// its run's frame.
func (b *builder) patches(ring []stand.Point, zones []zone, from, to float64) []stand.Patch {
	var out []stand.Patch
	for _, z := range zones {
		cut := within(ring, max(from, z.from.MM()), min(to, z.to.MM()))
		if len(cut) > 2 {
			out = append(out, stand.Patch{Ring: cut, Pa: z.up})
		}
	}
	return out
}

// cornerOf is the wall's corner of a support.
func onCorner(sup []*Support, c *wall.Corner) []*Support {
	var out []*Support
	for _, s := range sup {
		if s.Corner == c {
			out = append(out, s)
		}
	}
	return out
}
