package anchor

import (
	"copingset/layout/assembly"
	"copingset/layout/cap"
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

// stood are the stretches of the front face that the chairs of a run cover.
func (b *builder) stood(a *Run) [][2]length.Length {
	out := make([][2]length.Length, 0, len(a.Chairs))
	for _, c := range a.Chairs {
		out = append(out, [2]length.Length{a.ToFront(c.Left(b.sys)), a.ToFront(c.Right(b.sys))})
	}
	return out
}

// pack takes the packing of a chair from the surface, and makes it up from
// full layers and the shims of the job.
func (b *builder) pack(c *Chair, zones []wall.ShimZone) {
	q := c.Run.At(c.Run.ToFront(c.At))
	c.PackFront = length.Max(0, length.RoundTo(q.PackFront, b.grid))
	c.PackRear = length.Max(0, length.RoundTo(q.PackRear, b.grid))
	p := &b.job.Packing
	if p.Method != job.PackChairs && p.Layer > 0 {
		lo, hi := c.Run.ToFront(c.Left(b.sys)), c.Run.ToFront(c.Right(b.sys))
		c.Layers = layersUnder(zones, [2]length.Length{lo, hi})
	}
	under := length.Length(c.Layers) * p.Layer
	c.ShimFront = Shims(c.PackFront-under, p.Shims)
	c.ShimRear = Shims(c.PackRear-under, p.Shims)
	for _, e := range []struct {
		face       string
		want, made length.Length
	}{{"front", c.PackFront, c.Made(p, c.ShimFront)}, {"rear", c.PackRear, c.Made(p, c.ShimRear)}} {
		if length.Abs(e.want-e.made) > b.grid {
			b.hold("shim-missing", p.At, c.Run, c.At, "run "+c.Run.Name+": chair "+c.Name+" needs "+job.Both(e.want)+" of packing at the "+e.face+
				"; the layers and shims of the job make "+job.Both(e.made),
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
// that row, every layer above what holds the thread, the required thread and
// the tip, rounded up to a stock length; and no deeper than what is there less
// the stated cover, or less what the pilot hole is drilled beyond the tip.
func (b *builder) fasten(c *Chair) {
	f := b.fastener(c.Assembly.Fastener)
	if f == nil {
		b.hold("no-fastener", c.Assembly.At, c.Run, c.At, "run "+c.Run.Name+": chair "+c.Name+" has no fastener: assembly "+
			c.Assembly.Name+" names "+c.Assembly.Fastener+", which the job does not describe", "", "describe it under `fasteners:`")
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
		r.Edge = c.edge(s, i)
		r.Thread = plan.That(plan.Thread, false)
		r.Thread.Asked = f.Embedment
		b.reach(c, r)
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
// chair's middle and its two ends.
func (c *Chair) edge(s *job.System, row int) plan.Check {
	asked := c.Rows[row].Fastener.EdgeDistance
	if !c.Run.FaceAt(s, c.At).Surveyed {
		return plan.NotMeasured(plan.Edge, asked)
	}
	at := func(x length.Length) length.Length {
		y, f := c.RowAt(row, x), c.Run.FaceAt(s, x)
		return length.Min(y-f.Street, f.Roof-y)
	}
	return plan.AtLeast(plan.Edge, length.Min(at(c.At), length.Min(at(c.Left(s)), at(c.Right(s)))), asked)
}

// reach works out one row.
func (b *builder) reach(c *Chair, r *Row) {
	s, f := b.sys, r.Fastener
	over, ok := assembly.Holding(c.Run.Wall.Layers, c.Assembly.Substrate)
	if !ok {
		b.hold("nothing-holds", c.Assembly.At, c.Run, c.At, "run "+c.Run.Name+": chair "+c.Name+" would be fastened into "+c.Assembly.Substrate+
			", which this wall does not have", "", "name an assembly tested on this wall")
		return
	}
	var depth length.Length
	for _, l := range c.Run.Wall.Layers {
		if l.Material == c.Assembly.Substrate {
			depth = l.Thickness
			break
		}
	}
	// The packing under a row is that of the stacks as the table prints them, at
	// the two faces: the same figures always ask for the same fastener.
	wall := c.Run.FaceAt(s, c.At)
	front, rear := c.Stack(&b.job.Packing)
	packing := front
	if wall.Surveyed {
		packing += length.MulDiv(rear-front, int64(r.Y-wall.Street), int64(wall.Width()))
	}
	packing = length.Max(packing, 0)
	chair := s.ChairOf(c.Assembly).Thickness
	fixed := chair + b.job.Membrane.Thickness + over
	r.Packing, r.Above = packing, fixed+packing
	if r.Edge.Fails() {
		b.hold("edge-distance", c.Assembly.At, c.Run, c.At,
			"run "+c.Run.Name+": chair "+c.Name+" has a row of fasteners "+job.Both(r.Edge.Has)+" from a face of the wall; the fastener asks for "+job.Both(r.Edge.Asked),
			"the pre-punched holes are part of the test", "ask the fabricator for an assembly tested on a wall this narrow")
	}
	what := "the tip must stay " + job.Both(f.Cover) + " above"
	if f.PilotDia > 0 && f.PilotBeyond > f.Cover {
		what = "the pilot hole, " + job.Both(f.PilotBeyond) + " deeper than the tip, must not pass"
	}
	if l := fits(f, r.Above, depth); l > 0 {
		r.Length = l
		r.Into = l - r.Above
		r.Thread = plan.AtLeast(plan.Thread, r.Into-f.Tip, f.Embedment)
		if f.PilotDia > 0 {
			r.Pilot = l - chair + f.PilotBeyond
		}
	}
	if r.Length == 0 {
		b.hold("no-fastener-length", f.At, c.Run, c.At,
			"run "+c.Run.Name+": no stock length of "+f.Name+" fits chair "+c.Name+": "+
				job.Both(r.Above+f.Embedment+f.Tip)+" is needed, and "+what+" the underside of the "+c.Assembly.Substrate,
			"packing of "+job.Both(packing)+" takes up the length", "reduce the packing there, or add a stock length the report covers")
	}
}

func (b *builder) fastener(name string) *job.Fastener {
	for i := range b.job.Fasteners {
		if b.job.Fasteners[i].Name == name {
			return &b.job.Fasteners[i]
		}
	}
	return nil
}
