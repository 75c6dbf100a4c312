package shop

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/length"
)

// PartKind is what a made part is for.
type PartKind int

// The kinds, in the order of their marks.
const (
	SplicePlate PartKind = iota
	CoverPlate
	ChairBlank
	SupportBlank
	ExtenderPiece
	RoofExtenderPiece
	StepRiser
	FormedCap
)

func (k PartKind) String() string {
	return [...]string{
		"splice plate", "cover plate of an expansion joint", "chair", "corner support",
		"face extender", "roof-side extender", "step riser", "formed cap for closers",
	}[k]
}

// Served is what one of a part is for: a joint, a chair, a support, a run or a
// step, and the pieces that keep it from release while they are held.
type Served struct {
	Name   string
	Pieces []*cap.Piece
	Count  int // of the part
}

func (s Served) released(held cap.Held) bool {
	return !slices.ContainsFunc(s.Pieces, func(p *cap.Piece) bool { return p != nil && !held.Released(p) })
}

// Part is a small made part of the coping: what stands under, over or beside
// the caps.
type Part struct {
	Mark      string // "201", a plain number
	Shape     string // digest of all that makes it what it is
	Kind      PartKind
	Hand      cap.Hand // of a riser: where the higher wall is; of a chair under a taper: its wide end
	Inside    length.Length
	Tested    string // of a chair: the assemblies tested with it, where the job has several chairs
	Serves    []Served
	Spares    int // per cent, as the crates are packed
	Metal     string
	Thickness length.Length
	Radius    length.Length // inside, of its bends
	K         float64
	Bodies    []Body
	Section   []fold.Point // across the part on the mold lines, street at the left, z up
	Names     []string     // of the faces between its corners
	Twin      *Part
	Grams     int64           // of one; zero: the density of its metal is not stated
	Drills    []length.Length // diameters of its holes, in their order
	Words     []string        // what the drawing must say besides
	Fails     string          // why it has no pattern
	Holds     []string        // codes of what is wrong with the part itself
	Faults    []string        // the same in words, one for each

	density float64
	at      finding.Place
	key     string
	faces   Edges
	// What it is bent to: the section of a sheet of a length, or a tray.
	legs    []fold.Leg
	root    int
	slope   float64
	upright bool
	long    float64
	holes   []cutout
	before  length.Length // of a chair: what its section leaves before the root
	tray    func(*builder) (fold.Tray, error)
	slant   *slanted
	ends    [2]length.Length // of a slanted chair: inside widths of the cap at its left end and its right
}

// Count is how many the job takes, without spares.
func (p *Part) Count() int {
	n := 0
	for _, s := range p.Serves {
		n += s.Count
	}
	return n
}

// Spare is how many are made over the count, as the crates are packed.
func (p *Part) Spare() int { return spare(p.Count(), p.Spares) }

// Make is how many may be made now: of what is released, with its spares.
func (p *Part) Make(held cap.Held) (count, spares int) {
	if len(p.Holds) > 0 || len(p.Bodies) == 0 {
		return 0, 0
	}
	for _, s := range p.Serves {
		if s.released(held) {
			count += s.Count
		}
	}
	return count, spare(count, p.Spares)
}

// For names what it serves, released or not.
func (p *Part) For(held cap.Held, released bool) []string {
	var out []string
	for _, s := range p.Serves {
		if (s.released(held) && len(p.Holds) == 0) == released {
			out = append(out, s.Name)
		}
	}
	return out
}

// Area of the flat patterns of one, in square millimetres.
func (p *Part) Area() float64 { return areaOf(p.Bodies) }

// Sentence tells its hand, as a person on the roof sees it; empty for none.
func (p *Part) Sentence() string {
	switch {
	case p.Hand == cap.NoHand:
		return ""
	case p.slant != nil:
		return "Standing on the roof facing the street, its wide end is at your " + p.Hand.String() + " hand."
	}
	return "Standing on the roof, the higher wall is at your " + p.Hand.String() + " hand."
}

// spare rounds a percentage up to whole parts, as crate.Spare does.
func spare(n, percent int) int { return (n*percent + 99) / 100 }

// Needs is what the coping takes of made parts; package layout finds it.
type Needs struct {
	Families        int // of pieces, whose marks come before those of parts
	Last            int // the highest mark of a family
	Splices, Covers []Plate
	Chairs          []Chair
	Supports        []Served
	Extenders       []Extender
	Risers          []Riser
}

// Plate is a splice or a cover plate of a joint.
type Plate struct {
	Served
	Inside, Length length.Length
	Kinked         bool
	Held           cap.Hand // side on which a cover plate is fixed
}

// Chair is a chair.
type Chair struct {
	Served
	Inside   length.Length    // at its middle
	Ends     [2]length.Length // at its left end and its right, which differ under a taper; zero: as at its middle
	Assembly *job.Assembly
}

// Extender is the piece below the front leg along a run, or below the rear one.
type Extender struct {
	Served
	Roof          bool
	Height, Along length.Length
}

// Riser is the plate over the riser of a step: its width outside, its height at
// the street, and how much farther it reaches down at the roof.
type Riser struct {
	Served
	Width, Height, Falls length.Length
	Higher               cap.Hand // where the higher wall is
}

// BuildParts makes the small parts of a job in the order of their kinds. What
// cannot be made as asked is a hold that names the part and keeps it, and no
// piece, from release. Without `shop:` there are none; then a chair that does not
// carry its cap holds the pieces over it.
func BuildParts(j *job.Job, n Needs) ([]*Part, finding.List) {
	if j.Shop == nil {
		return nil, chairsCarry(j, n.Chairs)
	}
	b := partBuilder{builder: builder{j: j, s: &j.System, shop: j.Shop, step: Step(j.Units == job.Metric)}}
	b.splices(n.Splices)
	b.covers(n.Covers)
	b.chairs(n.Chairs)
	b.supports(n.Supports)
	b.extenders(n.Extenders)
	b.risers(n.Risers)
	give := newMarks(j, max(partsFrom(n.Families), n.Last+1))
	for _, p := range b.parts {
		b.make(p)
		p.Shape = shapeOfPart(p)
		p.Mark = give.of(p.Shape)
	}
	b.found.Append(b.causes.list()...)
	return b.parts, b.found
}

// chairsCarry looks at the chairs of a job that states no shop: whether they can be
// bent at all and carry their caps, which hangs on no machine.
func chairsCarry(j *job.Job, chairs []Chair) finding.List {
	b := partBuilder{builder: capsOf(j)}
	b.chairs(chairs)
	for _, p := range b.parts {
		if b.unfold(p) {
			b.checkChair(p)
		}
	}
	return b.causes.list()
}

type partBuilder struct {
	builder
	parts []*Part
}

// part adds what is served to the part of a key, which is made by first if it
// is new.
func (b *partBuilder) part(key string, s Served, first func() *Part) *Part {
	i := slices.IndexFunc(b.parts, func(p *Part) bool { return p.key == key })
	if i < 0 {
		p := first()
		p.key = key
		b.parts = append(b.parts, p)
		i = len(b.parts) - 1
	}
	if s.Count == 0 {
		s.Count = 1
	}
	b.parts[i].Serves = append(b.parts[i].Serves, s)
	return b.parts[i]
}

// of is a part of a kind and a sheet; what the sheet leaves out is the caps'.
func (b *partBuilder) of(kind PartKind, s job.Stuff, at finding.Place) *Part {
	m := &b.s.Metal
	p := &Part{Kind: kind, Metal: m.Name, Thickness: m.Thickness, K: b.shop.K, density: m.Density, at: at,
		Radius: b.s.Profile.InsideR}
	if s.Thickness > 0 {
		p.Thickness = s.Thickness
	}
	if s.Metal != "" && s.Metal != m.Name {
		p.Metal, p.density = s.Metal, 0
	}
	if s.Density > 0 {
		p.density = s.Density
	}
	if s.K > 0 {
		p.K = s.K
	}
	switch {
	case s.Radius != nil:
		p.Radius = *s.Radius
	case p.Thickness != m.Thickness || p.Metal != m.Name:
		p.Radius = -1
	}
	return p
}

// make unfolds a part and checks it as pieces are checked.
func (b *partBuilder) make(p *Part) {
	if b.unfold(p) {
		b.checkPart(p)
	}
}

// unfold gives a part its body and its weight, and tells whether it has them.
func (b *partBuilder) unfold(p *Part) bool {
	if p.Fails != "" {
		b.partHold(p, "part-by-hand", p.Fails, "", "have the fabricator detail it by hand")
		return false
	}
	if p.Radius < 0 {
		if len(p.legs) > 1 || p.tray != nil {
			p.Fails = "its bends have no inside radius"
			b.partHold(p, "part-radius", "it is bent from a sheet of its own, "+thin(p.Thickness)+" thick, and the "+
				"job does not state the inside radius of its bends",
				"another sheet is not bent as the caps are",
				"write `inside_radius:` with the fabricator's figure for that sheet")
			return false
		}
		p.Radius = 0
	}
	b.bend = fold.Bend{Thickness: p.Thickness.MM(), Radius: p.Radius.MM(), K: p.K}
	r := b.metalOf(p)
	flat, err := r.develop()
	var tight *fold.TooTight
	if errors.As(err, &tight) {
		p.Fails = tightWords(tight, "")
		b.partHold(p, "bends-meet", p.Fails, "two bends that meet leave no flat between them",
			"make the flange deeper, the bend blunter or its radius smaller")
		return false
	}
	if err == nil && fold.Crosses(flat.Outline) {
		err = errors.New("its flat pattern would cross itself")
	}
	if err != nil {
		p.Fails = err.Error()
		b.partHold(p, "cannot-unfold", p.Fails,
			"a flange shorter than its bends, or turned so far, has no flat pattern",
			"have the fabricator detail it by hand, or state other dimensions")
		return false
	}
	body := b.body(r, flat)
	body.Sides = p.faces
	p.Bodies = []Body{body}
	p.Grams = int64(math.Round(p.Area() * b.bend.Thickness * p.density / 1e6))
	return true
}

// metalOf is the sheet of a part, with its thickness.
func (b *partBuilder) metalOf(p *Part) raw {
	r := raw{name: p.Kind.String()}
	if p.tray != nil && p.slant == nil {
		return r.tray(p.tray(&b.builder))
	}
	legs := p.bentLegs(b.bend.Radius)
	path, err := fold.NewPath(b.bend.Thickness, b.bend.K, legs, p.root)
	if err != nil {
		r.err = err
		return r
	}
	path.Slope, path.Upright = p.slope, p.upright
	if p.root > 0 && legs[p.root-1].Turn > 0 { // y is 0 at the outside of the bend before it
		path.At.X = path.T * math.Tan(legs[p.root-1].Turn/2*math.Pi/180)
	}
	profile, _ := path.Profile()
	p.Names, p.Section = profile.Names, nil
	for i := range profile.Y {
		p.Section = append(p.Section, fold.Point{X: profile.Y[i], Y: profile.Z[i]})
	}
	if p.slant != nil {
		p.slant.inner = path
		r = r.tray(p.tray(&b.builder))
		r.holes = p.holes
		return r
	}
	r.metal = &fold.Sheet{Path: path, Left: fold.Cut{Seam: fold.Square(0, false)},
		Right: fold.Cut{Seam: fold.Square(p.long, true)}}
	r.solid, r.holes = prism(r.metal), p.holes
	return r
}

// checkPart holds a part that the shop cannot make as stated.
func (b *partBuilder) checkPart(p *Part) {
	body := p.Bodies[0]
	if name, least := narrowest(body); least < b.shop.LeastFlange.MM()-1e-6 {
		b.partHold(p, "flange-too-short", fmt.Sprintf("%s is %s deep, and the brake holds no less than %s", name,
			job.Both(length.FromMM(least)), job.Both(b.shop.LeastFlange)),
			"a flange the brake cannot hold slips and bends askew", "have the fabricator say how it makes this flange")
	}
	paths := body.paths
	if p.slant != nil {
		paths = []fold.Path{p.slant.inner}
	}
	for _, path := range paths {
		if c, bad := path.Lay().Clash(); bad {
			b.partHold(p, "metal-in-metal", fmt.Sprintf("the %s and the %s would stand %s in one another", c.A, c.B,
				thin(length.FromMM(c.Deep))), "", "other faces, blunter turns, or a greater radius")
		}
	}
	if p.Kind == ChairBlank {
		b.checkChair(p)
	}
	if code, what, mend := b.machine(p.Kind.String(), body); code != "" {
		b.partHold(p, code, what, "", mend)
	}
	for _, q := range body.Bends {
		if t := job.Angle(math.Round(math.Abs(q.Line.Turn) * float64(job.Degree))); t > b.shop.MostTurn {
			b.partHold(p, "bend-over-most", fmt.Sprintf("%s turns %s, and the brake bends through %s",
				q.Line.Between[1], job.FormatAngle(t), job.FormatAngle(b.shop.MostTurn)),
				"", "ask the fabricator for its own section")
			break
		}
	}
	if l := length.FromMM(math.Floor(longest(body))); l > b.shop.Brake {
		b.partHold(p, "longer-than-brake", fmt.Sprintf("it bends over %s, and the brake takes %s", job.Both(l),
			job.Both(b.shop.Brake)), "", "shorten its stock length or name a longer brake")
	}
	for i := range body.Holes {
		if why := b.holeFault(p, body, i); why != "" {
			b.partHold(p, "hole-in-bend", why, "a hole in a bend is drawn out of round, and one at an edge tears out",
				"ask the fabricator for the place of its holes")
			break
		}
	}
	if sheets := b.sheetsOf(p); len(sheets) > 0 && !fitsOn(body, sheets, b.shop) {
		b.partHold(p, "no-sheet", fmt.Sprintf("its blank is %s wide and %s long, and no sheet takes it",
			job.Both(body.Girth), job.Both(body.Length)), "", "add a wider or longer sheet under `shop:`")
	}
}

// checkChair holds a chair that does not carry the cap over it, at either end.
func (b *partBuilder) checkChair(p *Part) {
	all := p.ended()
	for _, q := range all {
		if why := b.carries(q.inside, q.path, p.before); why != "" {
			b.partHold(p, "hook-free", why, "a cap whose hook is not held lifts off its chair in the wind",
				"have the fabricator state the chair as it was tested, or its hook")
			break
		}
	}
	for _, q := range all {
		if why := b.atEdges(q.inside, q.path, p.before); why != "" {
			b.partHold(p, "chair-edges", why,
				"its screws, the string and the clearances are laid out from the edges the job states",
				"state what lies before and behind the face that reaches across, or the edges, as the chair is made")
			return
		}
	}
}

// holeFault is what is wrong with the place of a hole: it must lie on the flat
// of its face, between the bends and within the edges.
func (b *partBuilder) holeFault(p *Part, body Body, i int) string {
	lo, hi := fold.Flat{Outline: body.Holes[i]}.Bounds()
	blo, bhi := body.Flat.Bounds()
	if lo.X < blo.X || hi.X > bhi.X || lo.Y < blo.Y || hi.Y > bhi.Y {
		return "hole " + itoa(i+1) + " runs over the edge of the blank"
	}
	for _, q := range body.Flat.Bends {
		half := b.bend.Allowance(math.Abs(q.Turn)) / 2
		dx, dy := q.To.X-q.From.X, q.To.Y-q.From.Y
		near, far := math.Inf(1), math.Inf(-1) // off the line, which may slant
		for _, c := range body.Holes[i] {
			off := ((c.Y-q.From.Y)*dx - (c.X-q.From.X)*dy) / math.Hypot(dx, dy)
			near, far = math.Min(near, off), math.Max(far, off)
		}
		if near < half && far > -half {
			return "hole " + itoa(i+1) + " runs into the bend of the " + q.Between[1]
		}
	}
	return ""
}

// say letters a length of a part for its drawing.
func (b *partBuilder) say(l length.Length) string {
	st := length.Style{Denominator: 64}
	if b.j.Units == job.Metric {
		st = length.Shop(true)
	}
	return st.InText(l)
}

// sheetsOf are the sheets a part can be cut from.
func (b *partBuilder) sheetsOf(p *Part) []job.ShopSheet { return sheetsFor(b.j, p.Metal, p.Thickness) }

func sheetsFor(j *job.Job, metal string, thickness length.Length) []job.ShopSheet {
	var out []job.ShopSheet
	if metal == j.System.Metal.Name && thickness == j.System.Metal.Thickness {
		out = append(out, j.Shop.Sheets...)
	}
	for _, s := range j.Shop.PartSheets {
		own := s.Metal
		if own == "" {
			own = j.System.Metal.Name
		}
		if own == metal && s.Thickness == thickness {
			out = append(out, s.ShopSheet)
		}
	}
	return out
}

func fitsOn(body Body, sheets []job.ShopSheet, s *job.Shop) bool {
	return slices.ContainsFunc(sheets, func(t job.ShopSheet) bool {
		return body.Girth <= t.Width-2*s.EdgeTrim && body.Length <= t.Length-2*s.EndTrim
	})
}

func (b *partBuilder) partHold(p *Part, code, what, why, mend string) {
	c := cause{code, p.at, why, mend}
	if b.j.Shop == nil { // no part is made that could be kept back
		for _, s := range p.Serves {
			for _, q := range s.Pieces {
				if q != nil {
					b.causes.piece(c, q, p.Kind.String()+": "+what)
				}
			}
		}
		return
	}
	p.Holds, p.Faults = append(p.Holds, code), append(p.Faults, what)
	b.causes.part(c, p, what)
}
