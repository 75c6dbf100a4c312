package shop

import (
	"math"

	"copingset/layout/cap"
	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/length"
)

// Joint is a seam of a family as it is made.
type Joint struct {
	Faces   []SeamFace // front leg, top, rear leg
	CutBack []string   // hems, hooks and drips that end the job's distance before it
	Strips  []Strip    // behind a butt that has a backer of a width
	// Plan is the seam at the front leg and at the rear leg from above, at half their
	// height; nothing of a seam over a break, whose legs go straight on.
	Plan [2]JointPlan
}

// Strip is a backer behind one face of a seam, from bend to bend: flat behind the
// top, bent along its middle behind the legs.
type Strip struct {
	Face          string
	Width, Length length.Length
	Turn          float64 // degrees, positive UP as the finish side of the legs is seen
}

// JointPlan is the metal of both legs where they meet: the arriving leg's ring
// first. The corner of their finish faces is the origin, the arriving leg runs to
// it along +x, and Finish says on which side of it the finish lies, +1 at +y.
// Millimetres.
type JointPlan struct {
	Rings  [2][]fold.Point
	Finish float64
	// At is where its symbol points on the finish side: where a butt meets or opens, or
	// the edge of the leg that lies over. A butt that opens behind is made from there.
	At       fold.Point
	FromBack bool
}

// Stated reports whether a plan shows something.
func (p JointPlan) Stated() bool { return len(p.Rings[0]) > 0 }

// joints of a family, in the order of its miters.
func (b *builder) joints(f *Family) []Joint {
	p := f.Pieces[0]
	if p.Kind == cap.Tee || p.Kind == cap.Transition {
		return nil
	}
	var out []Joint
	for i, m := range p.Miters {
		j := Joint{Faces: seamFaces(m, b.shop.WeldGap, b.s.Metal.Thickness), CutBack: b.backs()}
		lap, lapped := b.lapped(m)
		for k := range j.Faces {
			if lapped {
				j.Faces[k].Lap, j.Faces[k].Over = lap.Width, f.Covering
			}
		}
		if !lapped {
			j.Strips = b.strips(f, i, m)
		}
		if !m.Corner.Straight() {
			turn := madeTurn(m).Degrees()
			if !lapped {
				lap = nil
			}
			j.Plan = [2]JointPlan{b.jointPlan(turn, turn > 0, lap), b.jointPlan(turn, turn < 0, lap)}
			j.Plan[0].see(-1) // the finish of the front leg lies at the street
			j.Plan[1].see(1)
		}
		out = append(out, j)
	}
	return out
}

// backs are the straights that end before a seam by the job.
func (b *builder) backs() []string {
	if b.shop.Seam == nil || b.shop.Seam.CutBack == 0 {
		return nil
	}
	var out []string
	p := &b.s.Profile
	if street, roof := p.Hems(); street.Return+roof.Return > 0 {
		out = append(out, "hems")
	}
	if p.Drip.Length > 0 {
		out = append(out, "drip")
	}
	if p.RearHook.Length > 0 {
		out = append(out, "hook")
	}
	return out
}

// strips are the backers of a butt, of the leg that arrives.
func (b *builder) strips(f *Family, miter int, m cap.Miter) []Strip {
	q := b.shop.Seam
	if q == nil || q.Backer == "" || q.Strip == 0 {
		return nil
	}
	var body *Body
	n := -1
	for i := range f.Bodies {
		if f.Bodies[i].Name != "end plate" {
			if n++; n == miter {
				body = &f.Bodies[i]
			}
		}
	}
	if body == nil || body.Metal == nil {
		return nil
	}
	var out []Strip
	l, root := body.Metal.Path.Lay(), body.Metal.Path.Root
	for seg := root - 1; seg <= root+1; seg++ {
		from, to := l.Span(seg)
		// Along the seam: across the top it slants.
		dx := body.Metal.Right.X(l, to-1e-6, true) - body.Metal.Right.X(l, from+1e-6, true)
		s := Strip{Face: body.Metal.Path.Segs[seg].Name, Width: q.Strip,
			Length: length.FloorTo(length.FromMM(math.Hypot(to-from, dx)), b.step)}
		if seg != root && !m.Corner.Straight() {
			s.Turn = madeTurn(m).Degrees()
			if seg < root {
				s.Turn = -s.Turn
			}
		}
		out = append(out, s)
	}
	return out
}

// jointPlan is the metal of both legs at a seam from above, by the cuts that their
// patterns have.
func (b *builder) jointPlan(turn float64, away bool, lap *job.SeamLap) JointPlan {
	t, gap := b.bend.Thickness, b.shop.WeldGap.MM()
	half := math.Abs(turn) / 2 * math.Pi / 180
	butt := -gap / 2 / math.Cos(half)
	if away {
		butt -= t * math.Tan(half)
	}
	ends := [2]float64{butt, butt}
	tabbed := -1
	var f lapFace
	long := 9 * t
	if lap != nil {
		f = b.lapFaceOf(turn, away)
		long += lap.Width.MM()
		tabbed = 1
		if lap.Cover == job.Right {
			tabbed = 0
		}
		ends[1-tabbed] = f.cover
	}
	finish := -1.0
	if !away {
		finish = 1
	}
	p := JointPlan{Finish: finish, FromBack: lap == nil && !away}
	for i := range p.Rings {
		legs := []fold.Leg{{Name: "leg", Outside: long + ends[i]}}
		root := fold.Point{X: -long}
		if i == tabbed {
			legs = []fold.Leg{{Name: "leg", Outside: long + f.apex, Turn: f.turn, Radius: b.bend.Radius},
				{Name: "tab", Outside: f.tip}}
		}
		path, err := fold.NewPath(t, b.bend.K, legs, 0)
		if err != nil {
			return JointPlan{}
		}
		path.At = root // the finish at +y, the way along it to +x
		ring := path.Lay().Ring(0.02)
		for k, q := range ring {
			if away { // the finish lies at -y
				q.Y = -q.Y
			}
			if i == 1 { // the leg that leaves, told as if it arrived
				sin, cos := math.Sincos(2 * half)
				q = fold.Point{X: -q.X*cos - q.Y*sin, Y: -q.X*sin + q.Y*cos}
			}
			ring[k] = q
		}
		p.Rings[i] = ring
	}
	switch {
	case lap != nil && tabbed == 1:
		p.At = fold.Point{X: f.cover}
	case lap != nil:
		sin, cos := math.Sincos(2 * half)
		p.At = fold.Point{X: -f.cover * cos, Y: -f.cover * sin}
	case away: // midway between the finish edges
		sin, cos := math.Sincos(half)
		p.At = fold.Point{X: butt * sin * sin, Y: -butt * sin * cos}
	}
	return p
}

// see shows a plan with its finish at one side, as it lies on the wall.
func (p *JointPlan) see(finish float64) {
	if p.Finish == finish {
		return
	}
	p.Finish, p.At.Y = finish, -p.At.Y
	for i := range p.Rings {
		for k := range p.Rings[i] {
			p.Rings[i][k].Y = -p.Rings[i][k].Y
		}
	}
}
