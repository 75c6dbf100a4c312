package shop

import (
	"fmt"

	"copingset/layout/cap"
	"copingset/layout/fold"
	"copingset/layout/job"
)

// tee are the two bodies of a tee: the main cap, and the stub of the branch.
//
// The stub is cut square and stands in the plane of the main's rear leg, its
// front leg, top and rear leg against the edges of an opening in that leg. What
// the opening leaves under the main's rear fold reaches down to the branch's
// top: a strip that is as deep as the drop at the branch's front fold and
// deeper, by the fall of the top, at its rear fold. The gap of the weld comes
// off the stub.
func (b *builder) tee(p *cap.Piece, m measures) []raw {
	t := p.Tee
	wide, stub := (p.Inside + 2*b.s.Metal.Thickness).MM(), (t.Inside + 2*b.s.Metal.Thickness).MM()
	from, to := (t.Edge[0] - t.From).MM(), (t.Edge[1] - t.From).MM()
	main := teeMain(m, wide, p.Parts[0].Length().MM(), from, to, t.Drop.MM(), b.hemFlat())
	if p.Hand == cap.LeftHand {
		// Laid out with the high edge at the right hand, then turned about.
		long := p.Parts[0].Length().MM()
		main = mirror(teeMain(m, wide, long, long-to, long-from, t.Drop.MM(), b.hemFlat()), long)
	}
	for i, f := range main.Faces {
		if f.Name == "hook" { // there are two, and a bend table tells them apart
			main.Faces[i].Name = "left hook"
			if f.Corners[0].X > from {
				main.Faces[i].Name = "right hook"
			}
		}
	}
	long, gap := p.Parts[1].Length().MM(), b.shop.WeldGap.MM()
	left, right := square(gap), square(long)
	if !t.Starts {
		left, right = square(0), square(long-gap)
	}
	branch := b.sheet(raw{name: "branch"}, m, sectionOf(m, stub), fold.Cut{Seam: left}, fold.Cut{Seam: right})
	return []raw{{name: "main", solid: main}, branch}
}

// hemFlat is what a hem adds on the flat beyond an edge.
func (b *builder) hemFlat() float64 {
	if h := b.s.Profile.HemReturn.MM(); h > 0 {
		return b.bend.Hem(h)
	}
	return 0
}

// teeMain is a cap of a length whose rear leg has an opening between two
// stations, open at the foot, under a slanting edge: `drop` below the rear fold
// at its right end and, by the branch's slope, more at its left. The foot is in
// two, each with its hook.
func teeMain(m measures, wide, long, from, to, drop, hem float64) fold.Solid {
	sec := sectionOf(m, wide)
	top := sec.top
	street := fold.Profile{Y: sec.profile.Y[:top+2], Z: sec.profile.Z[:top+2], Names: sec.profile.Names[:top+1]}
	s := hemmed(fold.Prism(street, top, square(0), square(long)), hem)
	y, z := sec.profile.Y[top+1], sec.profile.Z[top+1]
	foot := z - m.rear
	at := func(x, z float64) fold.Vec { return fold.FromLayout(x, y, z) }
	// hang adds a face that hangs by its edge own.
	hang := func(parent, edge int, name string, own int, corners ...fold.Vec) int {
		s.Faces = append(s.Faces, fold.Face{Name: name, Corners: corners})
		s.Folds = append(s.Folds, fold.Fold{A: parent, EdgeA: edge, B: len(s.Faces) - 1, EdgeB: own})
		return len(s.Faces) - 1
	}
	leg := hang(0, 0, "rear leg", 6,
		at(0, foot), at(from, foot), at(from, z-drop-m.slope*(to-from)), at(to, z-drop),
		at(to, foot), at(long, foot), at(long, z), at(0, z))
	for _, edge := range []int{0, 4} {
		parent := leg
		p, q := s.Faces[leg].Corners[edge], s.Faces[leg].Corners[edge+1]
		out := fold.Vec{Z: -1} // the way the last face goes on
		if m.hook > 0 {
			h := hookOf(m, p, q)
			out = fold.Vec{X: (h[0].X - p.X) / m.hook, Y: (h[0].Y - p.Y) / m.hook, Z: (h[0].Z - p.Z) / m.hook}
			parent = hang(leg, edge, "hook", 2, h[0], h[1], q, p)
			p, q = h[0], h[1]
		}
		if hem > 0 {
			at := edge
			if parent != leg {
				at = 0
			}
			out = fold.Vec{X: out.X * hem, Y: out.Y * hem, Z: out.Z * hem}
			hang(parent, at, "hem", 2, add(p, out), add(q, out), q, p)
		}
	}
	return s
}

// teeKey tells tees apart, and is that of the mirror image where asked.
func teeKey(p *cap.Piece, mirrored bool) string {
	hand := p.Hand
	if mirrored {
		hand = other(hand)
	}
	t := p.Tee
	return fmt.Sprint("y", int64(p.Parts[0].Length()), "/", int64(p.Parts[1].Length()), "/", int64(t.Edge[0]-t.From), "/", int64(p.Inside), "/",
		int64(t.Inside), "/", int64(t.Drop), "/", int(hand))
}

// teeSentence says how a tee lies, by what a person on the roof sees.
func teeSentence(p *cap.Piece) string {
	end := "R" // of the branch's own drawing, whose hands are those of one who looks out over the branch
	if p.Tee.Starts {
		end = "L"
	}
	return "Standing on the roof facing the street, the branch comes towards you and its high, front edge is at your " + p.Hand.String() +
		" hand; each leg is " + job.Both(p.Tee.Edge[0]-p.Tee.From) + " and the branch " + job.Both(p.Parts[1].Length()) + " long. The branch's flat pattern is welded to the main at its " + end + " edge."
}
