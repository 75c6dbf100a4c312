package shop

import (
	"fmt"
	"math"

	"copingset/layout/cap"
	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/length"
)

var (
	streetSides = Edges{"front edge, street", "rear edge, roof", "L", "R"}
	partSides   = Edges{"front edge", "rear edge", "", ""}
	hungSides   = Edges{"foot", "top edge, behind the leg", "L", "R"}
)

// splices are the concealed plates under plain joints: the inside of the cap,
// its top and such legs as the job gives them.
func (b *partBuilder) splices(plates []Plate) {
	g := b.s.Splice.Legs
	for _, q := range plates {
		byHand := q.Kinked && g.Front+g.Rear > 0
		b.part(fmt.Sprint("splice ", int64(q.Inside), " ", int64(q.Length), " ", byHand), q.Served, func() *Part {
			p := b.of(SplicePlate, g.Stuff, b.s.At)
			p.Spares, p.Inside = b.j.Crating.SpareSplice, q.Inside
			if byHand {
				p.Fails = "its joint turns with the wall, and legs of one straight plate do not follow it"
				return p
			}
			b.plate(p, q, g, q.Inside-g.Fit)
			return p
		})
	}
}

// covers are the plates over or under building expansion joints.
func (b *partBuilder) covers(plates []Plate) {
	c := b.s.Expansion.Cover
	if c == nil {
		return
	}
	for _, q := range plates {
		b.part(fmt.Sprint("cover ", int64(q.Inside), " ", int64(q.Length), " ", int(q.Held)), q.Served, func() *Part {
			p := b.of(CoverPlate, c.Legs.Stuff, c.At)
			p.Inside = q.Inside
			wide, lies := q.Inside-c.Legs.Fit, "under"
			if c.Over {
				wide, lies = q.Inside+2*b.s.Metal.Thickness+2*p.Thickness+c.Legs.Fit, "over"
			}
			b.plate(p, q, c.Legs, wide)
			p.Words = append(p.Words, "Lies "+lies+" the caps. Fix it on the "+q.Held.String()+" side of the joint "+
				"only, seen from the roof; it slides on the other.")
			return p
		})
	}
}

// plate is the top of a plate of an outside width, with its legs.
func (b *partBuilder) plate(p *Part, q Plate, g job.Legs, wide length.Length) {
	slope := float64(b.s.Profile.TopSlope) / 1e9
	fall := math.Atan(slope) * 180 / math.Pi
	w := wide.MM()
	legs, root := []fold.Leg{{Name: "top", Outside: math.Hypot(w, slope*w)}}, 0
	if g.Front > 0 {
		legs, root = append([]fold.Leg{{Name: "front leg", Outside: g.Front.MM(), Turn: -90 - fall}}, legs...), 1
	}
	if g.Rear > 0 {
		legs[root].Turn = -90 + fall
		legs = append(legs, fold.Leg{Name: "rear leg", Outside: g.Rear.MM()})
	}
	b.sheetPart(p, legs, root, q.Length, streetSides)
	p.slope = slope
	switch {
	case g.Front == 0 && g.Rear == 0:
		p.Words = append(p.Words, "Flat. It lies under the slope of the top.")
	case p.Kind == SplicePlate:
		p.Words = append(p.Words, "Outside dimensions; it lies in the cap, whose inside is "+b.say(q.Inside)+" wide.")
	}
}

// sheetPart makes a part of a section, cut square at both ends.
func (b *partBuilder) sheetPart(p *Part, legs []fold.Leg, root int, long length.Length, sides Edges) {
	p.legs, p.root, p.long, p.faces = legs, root, long.MM(), sides
}

// sectionPart makes a part of a stated section; across is its own width, which
// the face that reaches across takes up; it lies level, or stands upright. It reports that face.
func (b *partBuilder) sectionPart(p *Part, section []job.Flange, across, long length.Length, upright bool,
	sides Edges) (job.Flange, bool) {
	root := -1
	legs := make([]fold.Leg, len(section))
	for i, f := range section {
		legs[i] = fold.Leg{Name: f.Name, Outside: f.Length.MM()}
		if f.Across {
			root, legs[i].Outside = i, (across - f.Before - f.Behind).MM()
		}
		if i+1 < len(section) {
			legs[i].Turn = section[i+1].Turn.Degrees()
		}
	}
	if root < 0 {
		p.Fails = "its section names no face that reaches across"
		return job.Flange{}, false
	}
	if legs[root].Outside <= 0 {
		p.Fails = "its section leaves nothing of " + job.Both(across) + " for the face that reaches across"
		return job.Flange{}, false
	}
	if b.s.Profile.SlopeBy == job.SlopeByChair {
		for i, f := range section {
			if f.Rises {
				legs[i].Outside += legs[root].Outside * float64(b.s.Profile.TopSlope) / 1e9
			}
		}
	}
	b.sheetPart(p, legs, root, long, sides)
	p.upright = upright
	return section[root], true
}

// round is a hole of a diameter on the face that reaches across: from the left
// end and from the front of that face, outside.
func round(x, y, diameter float64) cutout {
	out := cutout{at: fold.FromLayout(x, y, 0), diameter: diameter}
	for i := range holeSides {
		sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.5) / holeSides)
		out.ring = append(out.ring, fold.FromLayout(x+diameter/2*cos, y+diameter/2*sin, 0))
	}
	return out
}

// drill adds a round hole on the face that reaches across.
func (p *Part) drill(x, y float64, diameter length.Length) {
	p.holes, p.Drills = append(p.holes, round(x, y, diameter.MM())), append(p.Drills, diameter)
}

// holeSides is how many sides a round hole is drawn with and weighed by; its area
// then is within two in a hundred of the circle's. It is cut as a circle.
const holeSides = 24

// chairs are bent from the section that their assembly was tested with, one for each
// section, each width and each place of the rows.
func (b *partBuilder) chairs(chairs []Chair) {
	twin := map[*Part]string{} // look-up only
	for _, q := range chairs {
		chair := b.s.ChairOf(q.Assembly)
		k := chair.Blank
		if k == nil {
			continue
		}
		var rows string
		if a := q.Assembly; a != nil && k.HoleDia > 0 {
			rows = fmt.Sprint(a.FrontRow, a.RearRow, int64(a.FrontRowFrom), int64(a.RearRowFrom))
		}
		if q.Ends == [2]length.Length{} {
			q.Ends = [2]length.Length{q.Inside, q.Inside}
		}
		key := func(ends [2]length.Length) string {
			return fmt.Sprint("chair ", b.j.ChairNames(q.Assembly), " ", int64(ends[0]), " ", int64(ends[1]), " ", rows)
		}
		p := b.part(key(q.Ends), q.Served, func() *Part {
			p := b.of(ChairBlank, k.Stuff, k.At)
			if chair.Metal == "" {
				p.Metal, p.density = "", k.Stuff.Density
			}
			p.Inside, p.Spares, p.Tested = q.Inside, b.j.Crating.SpareChair, b.j.ChairNames(q.Assembly)
			b.chair(p, k, q)
			return p
		})
		if p.slant != nil {
			twin[p] = key([2]length.Length{q.Ends[1], q.Ends[0]})
		}
	}
	b.pair(twin)
}

// chair gives a chair its section, its holes and what its drawing says of both.
func (b *partBuilder) chair(p *Part, k *job.Blank, q Chair) {
	wide := [2]length.Length{cap.ChairWidth(b.s, q.Ends[0]), cap.ChairWidth(b.s, q.Ends[1])}
	var across job.Flange
	var ok bool
	if wide[0] == wide[1] {
		across, ok = b.sectionPart(p, k.Section, wide[0], b.s.Chair.Length, false, partSides)
	} else {
		p.ends, p.Spares = q.Ends, 0 // each is made for its place
		across, ok = b.slantedChair(p, k, wide)
	}
	if !ok {
		return
	}
	p.before = across.Before
	if k.HoleDia > 0 && q.Assembly == nil {
		p.Words = append(p.Words, "No tested assembly gives the rows: no holes.")
	}
	if a := q.Assembly; a != nil && k.HoleDia > 0 {
		b.row(p, a.FrontRow, k, func(float64) float64 { return (a.FrontRowFrom - across.Before).MM() })
		b.row(p, a.RearRow, k, func(x float64) float64 { return p.rowAt(x, a.RearRowFrom.MM(), wide, across) })
		p.Words = append(p.Words, "Rows as tested: street-side row "+b.say(a.FrontRowFrom)+" behind the chair's "+
			"street-side edge, roof-side row "+b.say(a.RearRowFrom)+" before its roof-side edge.")
	}
}

// row is a row of fasteners of a chair: equal bays between the insets from both
// ends, a single one in the middle.
func (b *partBuilder) row(p *Part, n int, k *job.Blank, y func(x float64) float64) {
	for _, at := range RowPlaces(b.s.Chair.Length, k.Inset, n) {
		x := at.MM()
		p.drill(x, y(x), k.HoleDia)
	}
}

// supports are the short chairs under miters.
func (b *partBuilder) supports(of []Served) {
	k := b.s.Corner.Support.Blank
	if k == nil {
		return
	}
	for _, s := range of {
		b.part("support", s, func() *Part {
			p := b.of(SupportBlank, k.Stuff, k.At)
			if _, ok := b.sectionPart(p, k.Section, b.s.Corner.Support.Width, b.s.Corner.Support.Length, false,
				partSides); ok {
				for _, h := range k.Holes {
					p.drill(h.FromLeft.MM(), h.FromFront.MM(), h.Diameter)
				}
			}
			return p
		})
	}
}

// extenders are cut to stock lengths along each run; the last two share what is
// left where it is under the least piece.
func (b *partBuilder) extenders(of []Extender) {
	for _, e := range of {
		k, kind := b.s.Extender, ExtenderPiece
		if e.Roof {
			k, kind = b.s.RoofExtender, RoofExtenderPiece
		}
		if k == nil || e.Along <= 0 {
			continue
		}
		for _, l := range Lengths(e.Along, k.Stock, k.Gap, b.s.LeastPiece) {
			s := e.Served
			s.Count = l.Count
			b.part(fmt.Sprint(kind, " ", int64(e.Height), " ", int64(l.Length)), s, func() *Part {
				p := b.of(kind, k.Stuff, k.At)
				b.sectionPart(p, k.Section, e.Height, l.Length, true, hungSides)
				p.Words = append(p.Words, "Joints between pieces "+b.say(k.Gap)+"; its fastening and its corners by "+
					"the fabricator's own detail.")
				return p
			})
		}
	}
}

// LengthOf is how many pieces of one length.
type LengthOf struct {
	Length length.Length
	Count  int
}

// Lengths divides a stretch into pieces of a stock length with gaps between
// them, and one for what is left; where that is under the least, the last two
// share it, an odd step to one of them.
func Lengths(along, stock, gap, least length.Length) []LengthOf {
	if along <= stock {
		return []LengthOf{{along, 1}}
	}
	n := int((along + gap) / (stock + gap))      // whole pieces, each with its gap
	rest := along - length.Length(n)*(stock+gap) // under nought where only part of a gap is left
	if rest == -gap {                            // a whole number, and no gap after the last
		return []LengthOf{{stock, n}}
	}
	if rest >= least {
		return []LengthOf{{stock, n}, {rest, 1}}
	}
	two := stock + rest // the last whole piece and the rest share
	a := length.FloorTo(two/2, length.Inch/64)
	out := []LengthOf{{stock, n - 1}, {two - a, 1}, {a, 1}}
	if two-a == a {
		out = []LengthOf{{stock, n - 1}, {a, 2}}
	}
	if n == 1 {
		out = out[1:]
	}
	return out
}

// risers are the plates over the risers of steps. One is seen from the lower
// side, its finish towards the viewer: the street is at the left hand where the
// higher wall is at the right, and the other way about for its twin.
func (b *partBuilder) risers(of []Riser) {
	k := b.s.StepRiser
	if k == nil {
		return
	}
	key := func(r Riser, h cap.Hand) string {
		return fmt.Sprint("riser ", int64(r.Width), " ", int64(r.Height), " ", int64(r.Falls), " ", int(h))
	}
	twin := map[*Part]string{} // look-up only
	for _, r := range of {
		p := b.part(key(r, r.Higher), r.Served, func() *Part {
			p := b.of(StepRiser, k.Stuff, k.At)
			p.Hand = r.Higher
			p.tray = func(b *builder) (fold.Tray, error) { return b.riser(r, k) }
			p.Section, p.Names = riserPlan(r, k)
			p.faces = Edges{"top edge, under the end cap", "foot, over the upstand", "STREET", "ROOF"}
			if r.Higher == cap.LeftHand {
				p.faces.Left, p.faces.Right = p.faces.Right, p.faces.Left
			}
			p.Words = append(p.Words, "Laps the upstand below and goes under the end cap above by "+b.say(k.Lap)+
				" each; its foot follows the slope of the lower coping.")
			return p
		})
		twin[p] = key(r, other(r.Higher))
	}
	b.pair(twin)
}

// pair sets parts beside their mirror images, told by key.
func (b *partBuilder) pair(twin map[*Part]string) {
	for _, p := range b.parts {
		for _, q := range b.parts {
			if twin[p] != "" && q.key == twin[p] {
				p.Twin = q
			}
		}
	}
}

// riser is the plate in the plane of the step, x to the right, and its returns
// along the higher wall, cut level.
func (b *builder) riser(r Riser, k *job.RiserRules) (fold.Tray, error) {
	w, h, f := r.Width.MM(), r.Height.MM(), r.Falls.MM()
	at := func(y, z float64) fold.Vec { return fold.FromLayout(0, y, z) }
	// Seen from the lower side with the higher wall at the right: the street is at the left.
	c, street, roof := []fold.Vec{at(0, -h), at(w, -h-f), at(w, 0), at(0, 0)}, 3, 1
	if r.Higher == cap.LeftHand {
		c, street, roof = []fold.Vec{c[1], c[0], c[3], c[2]}, 1, 3
	}
	out := fold.Tray{Level: 2, AtTop: true, Face: fold.Face{Name: "riser", Corners: c}}
	hang := func(name string, edge int, deep float64) error {
		if deep == 0 {
			return nil
		}
		path, err := fold.NewPath(b.bend.Thickness, b.bend.K, []fold.Leg{
			{Name: "riser", Outside: w, Turn: -90, Radius: b.bend.Radius, Take: b.take(90)},
			{Name: name, Outside: deep}}, 0)
		if err != nil {
			return err
		}
		level := fold.Vec{Z: 1}
		out.Wings = append(out.Wings, fold.Wing{Edge: edge, Path: path,
			Left: out.CutBy(edge, c[edge], level, 0, false), Right: out.CutBy(edge, c[(edge+1)%4], level, 0, true)})
		return nil
	}
	if err := hang("street return", street, k.ReturnFront.MM()); err != nil {
		return out, err
	}
	return out, hang("roof return", roof, k.ReturnRear.MM())
}

// riserPlan is the riser from above, the way to the higher wall up on the paper.
func riserPlan(r Riser, k *job.RiserRules) (pts []fold.Point, names []string) {
	w := r.Width.MM()
	if k.ReturnFront > 0 {
		pts, names = append(pts, fold.Point{X: 0, Y: k.ReturnFront.MM()}), append(names, "street return")
	}
	pts, names = append(pts, fold.Point{}, fold.Point{X: w}), append(names, "riser")
	if k.ReturnRear > 0 {
		pts, names = append(pts, fold.Point{X: w, Y: k.ReturnRear.MM()}), append(names, "roof return")
	}
	if r.Higher == cap.LeftHand { // the way to the higher wall stays up on the paper
		for i := range pts {
			pts[i].X = w - pts[i].X
		}
	}
	return pts, names
}
