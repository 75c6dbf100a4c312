package anchor

import (
	"copingset/layout/assembly"
	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
	"copingset/layout/wall"
)

// Row is one row of a chair's fasteners.
type Row struct {
	Fastener *job.Fastener
	Count    int
	Y        length.Length // centre line from the cap line, towards the roof
	Packing  length.Length // at this row, between the stacks at the two faces
	Above    length.Length // chair, membrane, packing and every layer above what holds
	Length   length.Length // stock length chosen; zero: none fits
	Into     length.Length // of the tip into what holds it, at least
	Pilot    length.Length // depth of the pilot hole below the set surface; zero: none asked for
	Edge     plan.Check    // of the row from the nearer face of the wall, the least over the chair; negative: beyond it
	Thread   plan.Check    // in what holds it, tip taken off; fails where no stock length fits
}

// holdChair holds a chair. What keeps many of them back is told once for all.
func (b *builder) holdChair(code string, at finding.Place, c *Chair, one finding.One, why, mend string) {
	one.Noun, one.Name = "chair", c.Name
	if one.Cause == "" {
		one.Cause = c.Assembly.Fastener
	}
	b.found.Append(finding.Finding{Code: code, Severity: finding.Hold, At: at, One: one, Why: why, Mend: mend,
		What: "run " + c.Run.Name + ": chair " + c.Name + ": " + one.Words,
		Where: finding.Ref{Perimeter: c.Run.Perimeter.Job.Name, Run: c.Run.Name, Station: c.Run.ToFront(c.At),
			HasStation: true}})
}

// pack takes the packing of a chair from the surface, and makes it up from
// full layers and the shims of the job. A kink's stands on two walls, each with a
// reading of its own: the lower asks for more.
func (b *builder) pack(c *Chair, levelled map[*wall.Run][]wall.ShimZone) {
	for _, s := range b.spots(c) {
		q := s.run.At(s.run.ToFront(s.at))
		c.PackFront = length.Max(c.PackFront, length.RoundTo(q.PackFront, b.grid))
		c.PackRear = length.Max(c.PackRear, length.RoundTo(q.PackRear, b.grid))
	}
	p := &b.job.Packing
	if p.Method != job.PackChairs && p.Layer > 0 {
		c.Layers = b.layersBelow(c, levelled)
	}
	under := length.Length(c.Layers) * p.Layer
	c.ShimFront = Shims(c.PackFront-under, p.Shims)
	c.ShimRear = Shims(c.PackRear-under, p.Shims)
	for _, e := range []struct {
		face       string
		want, made length.Length
	}{{"street side", c.PackFront, c.Made(p, c.ShimFront)}, {"roof side", c.PackRear, c.Made(p, c.ShimRear)}} {
		if length.Abs(e.want-e.made) > b.grid {
			b.holdChair("shim-missing", p.At, c, finding.One{Worse: length.Abs(e.want - e.made), Words: "needs " +
				job.Both(e.want) + " of build-up at the " + e.face +
				"; the layers and shims of the job make " + job.Both(e.made)},
				"a chair needs full bearing", "add thinner shims to `packing: shims`")
		}
	}
}

// Stack is what is laid at the two faces: the greater of the packing asked for
// and what layers and shims come to.
func (c *Chair) Stack(p *job.Packing) (front, rear length.Length) {
	return length.Max(c.PackFront, c.Made(p, c.ShimFront)), length.Max(c.PackRear, c.Made(p, c.ShimRear))
}

// Made is the packing that layers and shims come to.
func (c *Chair) Made(p *job.Packing, shims []length.Length) length.Length {
	return length.Length(c.Layers)*p.Layer + length.Sum(shims...)
}

// Shims makes a thickness up from the job's shims, thickest first; what is
// under half the thinnest is left to the chair's own seat.
func Shims(t length.Length, sizes []length.Length) []length.Length {
	if len(sizes) == 0 {
		return nil
	}
	thin := sizes[len(sizes)-1]
	t = length.RoundTo(length.Max(0, t), thin)
	var out []length.Length
	for _, s := range sizes {
		for s > 0 && t >= s {
			out = append(out, s)
			t -= s
		}
	}
	return out
}

// fasten chooses the length of each row: at least chair, membrane, packing at
// that row, every layer above what holds the thread, the required thread, the tip
// and the reserve, rounded up to a stock length; and no deeper than what is there less
// the stated cover, or less what the pilot hole is drilled beyond the tip.
func (b *builder) fasten(c *Chair) {
	f := b.fastener(c.Assembly.Fastener)
	if f == nil {
		b.holdChair("no-fastener", c.Assembly.At, c, finding.One{Words: "no fastener: assembly " +
			c.Assembly.Name + " names " + c.Assembly.Fastener + ", which the job does not describe"}, "",
			"describe it under `fasteners:`")
		return
	}
	s := b.sys
	front := cap.ChairLine(s) + c.Assembly.FrontRowFrom
	rear := cap.ChairRear(s, c.Inside) - c.Assembly.RearRowFrom
	for i, y := range []length.Length{front, rear} {
		r := &c.Rows[i]
		r.Fastener, r.Y = f, y
		r.Count = c.Assembly.FrontRow
		if i == 1 {
			r.Count = c.Assembly.RearRow
		}
		r.Edge = b.edge(c, i)
		r.Thread = plan.That(plan.Thread, false)
		r.Thread.Asked = f.Embedment
		b.reach(c, r)
	}
	b.oneLength(c)
}

// oneLength gives both rows of a chair the longer of their screws, where it is no
// longer than what holds the other allows: a crew with two lengths at one chair takes
// the shorter where the longer belongs.
func (b *builder) oneLength(c *Chair) {
	f := c.Rows[0].Fastener
	longer := length.Max(c.Rows[0].Length, c.Rows[1].Length)
	_, depth, ok := b.holding(c)
	if !ok || f.TwoLengths {
		return
	}
	for i := range c.Rows {
		if r := &c.Rows[i]; r.Length > 0 && longer <= deepest(f, r.Above, depth) {
			b.screw(c, r, longer)
		}
	}
}

// screw takes a stock length for a row.
func (b *builder) screw(c *Chair, r *Row, l length.Length) {
	f := r.Fastener
	r.Length = l
	r.Into = l - r.Above
	r.Thread = plan.AtLeast(plan.Thread, r.Into-f.Tip, f.Embedment)
	if f.PilotDia > 0 {
		r.Pilot = l - b.sys.ChairOf(c.Assembly).Thickness + f.PilotBeyond
	}
}

// RowAt is how far behind the cap line a row of the chair's holes lies at a cap
// station: the rear row follows a taper.
func (c *Chair) RowAt(row int, station length.Length) length.Length {
	y := c.Rows[row].Y
	if row == 1 {
		y += c.Run.InsideAt(station) - c.Inside
	}
	return y
}

// edge is the least distance of a row of holes from a face of the wall, at the
// chair's middle and its two ends, and at the readings between them.
func (b *builder) edge(c *Chair, row int) plan.Check {
	asked := c.Rows[row].Fastener.EdgeDistance
	least, first := length.Length(0), true
	for _, p := range c.Places(b.sys) {
		f := p.Run.FaceAt(b.sys, p.At)
		if !f.Surveyed {
			return plan.NotMeasured(plan.Edge, asked)
		}
		y := c.Rows[row].Y
		if row == 1 { // it follows a taper
			y += p.Run.InsideAt(p.At) - c.Inside
		}
		if d := length.Min(y-f.Street, f.Roof-y); first || d < least {
			least, first = d, false
		}
	}
	return plan.AtLeast(plan.Edge, least, asked)
}

// reach works out one row.
func (b *builder) reach(c *Chair, r *Row) {
	s, f := b.sys, r.Fastener
	over, depth, ok := b.holding(c)
	if !ok {
		b.holdChair("nothing-holds", c.Assembly.At, c, finding.One{Cause: c.Run.Wall.Name,
			Words: "would be fastened into " + c.Assembly.Substrate +
				", which this wall does not have"}, "", "name an assembly tested on this wall")
		return
	}
	packing := b.packingAt(c, r.Y)
	chair := s.ChairOf(c.Assembly).Thickness
	fixed := chair + b.job.Membrane.Thickness + over
	r.Packing, r.Above = packing, fixed+packing
	if r.Edge.Fails() {
		b.holdChair("edge-distance", c.Assembly.At, c, finding.One{Worse: r.Edge.Asked - r.Edge.Has,
			Words: "a row of fasteners stands " + job.Both(r.Edge.Has) +
				" from a face of the wall; the fastener asks for " + job.Both(r.Edge.Asked)},
			"the pre-punched holes are part of the test",
			"ask the fabricator for an assembly tested on a wall this narrow")
	}
	what := "the tip must stay " + job.Both(f.Cover) + " above"
	if f.PilotDia > 0 && f.PilotBeyond > f.Cover {
		what = "the pilot hole, " + job.Both(f.PilotBeyond) + " deeper than the tip, must not pass"
	}
	if l := fits(f, r.Above, depth); l > 0 {
		b.screw(c, r, l)
	}
	if r.Length == 0 {
		b.holdChair("no-fastener-length", f.At, c, finding.One{Worse: r.Above, Words: "no stock length of " + f.Name +
			" fits: " +
			job.Both(needed(f, r.Above)) + " is needed, and " + what + " the underside of the " + c.Assembly.Substrate},
			"build-up of "+job.Both(packing)+" takes up the length", roomFor(f, r.Above, depth))
	}
}

// holding is what lies over the material that holds a chair's screws, and how deep
// that is: of two walls under a kink's, the more and the less.
func (b *builder) holding(c *Chair) (over, depth length.Length, ok bool) {
	for i, s := range b.spots(c) {
		above, thick, holds := held(s.run.Wall.Layers, c.Assembly.Substrate)
		if !holds {
			return 0, 0, false
		}
		over = length.Max(over, above)
		if i == 0 || thick < depth {
			depth = thick
		}
	}
	return over, depth, true
}

// held is what lies over the layer that holds, and its thickness.
func held(layers []job.Layer, substrate string) (over, depth length.Length, ok bool) {
	over, ok = assembly.Holding(layers, substrate)
	for _, l := range layers {
		if l.Material == substrate {
			return over, l.Thickness, ok
		}
	}
	return over, 0, ok
}

// packingAt is the packing of a chair at a distance behind the cap line: that of the
// stacks as the table prints them, at the two faces, so that the same figures always
// ask for the same fastener.
func (b *builder) packingAt(c *Chair, y length.Length) length.Length {
	front, rear := c.Stack(&b.job.Packing)
	most := length.Length(0)
	for _, s := range b.spots(c) {
		wall := s.run.FaceAt(b.sys, s.at)
		packing := front
		if wall.Surveyed {
			packing += length.MulDiv(rear-front, int64(y-wall.Street), int64(wall.Width()))
		}
		most = length.Max(most, packing)
	}
	return most
}

func (b *builder) fastener(name string) *job.Fastener {
	for i := range b.job.Fasteners {
		if b.job.Fasteners[i].Name == name {
			return &b.job.Fasteners[i]
		}
	}
	return nil
}
