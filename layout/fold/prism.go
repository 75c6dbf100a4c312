package fold

import "math"

// A Profile is the cross-section of a bent cap on its outside mold lines, seen
// along growing stations: y to the roof, z up. Its corners run from the edge at
// the street to the edge at the roof.
type Profile struct {
	Y, Z  []float64
	Names []string // of the faces between the corners
}

// Prism is a profile between two ends, folded: one body of a piece. The face at
// the root is the profile's face `root`, usually its top.
func Prism(p Profile, root int, left, right Seam) Solid {
	var s Solid
	n := len(p.Names)
	face := func(i int) Face {
		// Seen from the finish side, left hand at the left: the edge nearer the
		// roof runs left to right along the bottom.
		at := func(e Seam, k int) Vec { return FromLayout(e(p.Y[k], p.Z[k], 0), p.Y[k], p.Z[k]) }
		return Face{p.Names[i], []Vec{at(left, i+1), at(right, i+1), at(right, i), at(left, i)}}
	}
	order := []int{root}
	for i := root - 1; i >= 0; i-- {
		order = append(order, i)
	}
	for i := root + 1; i < n; i++ {
		order = append(order, i)
	}
	at := make([]int, n)
	for k, i := range order {
		at[i] = k
		s.Faces = append(s.Faces, face(i))
	}
	// Edge 0 of a face is its roof side, edge 2 its street side.
	for _, i := range order[1:] {
		if i < root {
			s.Folds = append(s.Folds, Fold{A: at[i+1], EdgeA: 2, B: at[i], EdgeB: 0})
		} else {
			s.Folds = append(s.Folds, Fold{A: at[i-1], EdgeA: 0, B: at[i], EdgeB: 2})
		}
	}
	return s
}

// sharp is the turn past which the faces beside a bend meet so far out that a
// picture takes the end of the metal for their corner.
const sharp = 120

// Profile is a path on the mold lines of its finish side, hems left out, and its
// root among the faces: what a picture of the folded metal shows. Where a bend
// turns past 120 degrees the corner is the outermost metal of the straight before.
func (p Path) Profile() (Profile, int) {
	l := p.Lay()
	var out Profile
	root := p.Root
	add := func(q Point) { out.Y, out.Z = append(out.Y, q.X), append(out.Z, q.Y) }
	for i, g := range p.Segs {
		if p.Hem(i) {
			if i < p.Root {
				root--
			}
			continue
		}
		q := l.parts[i]
		if len(out.Y) == 0 {
			from := q.at
			if i > 0 {
				from = from.minus(q.dir.times(p.Segs[i-1].Radius + p.T))
			}
			add(from)
		}
		end := q.at.plus(q.dir.times(g.Flat))
		r := g.Radius
		if g.Turn < 0 {
			r += p.T
		}
		switch turn := math.Abs(g.Turn); {
		case turn > sharp:
			end = end.plus(q.dir.times(g.Radius + p.T))
		case turn > 0:
			end = end.plus(q.dir.times(r * math.Tan(turn/2*radians)))
		}
		add(end)
		out.Names = append(out.Names, g.Name)
	}
	return out, root
}
