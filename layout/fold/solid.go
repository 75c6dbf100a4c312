package fold

import (
	"fmt"
	"math"
)

// Vec is a point or direction in space.
type Vec struct{ X, Y, Z float64 }

// FromLayout turns a point of the layout's frame (x to the right, y to the
// roof, z up, which is left-handed) into the right-handed frame of a solid:
// (x, -y, z).
func FromLayout(x, y, z float64) Vec { return Vec{x, -y, z} }

func (a Vec) plus(b Vec) Vec         { return Vec{a.X + b.X, a.Y + b.Y, a.Z + b.Z} }
func (a Vec) minus(b Vec) Vec        { return Vec{a.X - b.X, a.Y - b.Y, a.Z - b.Z} }
func (a Vec) times(f float64) Vec    { return Vec{a.X * f, a.Y * f, a.Z * f} }
func (a Vec) dot(b Vec) float64      { return a.X*b.X + a.Y*b.Y + a.Z*b.Z }
func (a Vec) length() float64        { return math.Sqrt(a.dot(a)) }
func (a Vec) unit() Vec              { return a.times(1 / a.length()) }
func (a Vec) distance(b Vec) float64 { return a.minus(b).length() }
func (a Vec) cross(b Vec) Vec        { return Vec{a.Y*b.Z - a.Z*b.Y, a.Z*b.X - a.X*b.Z, a.X*b.Y - a.Y*b.X} }

// Face is a flat face, its corners in counterclockwise order as seen from the
// finish side.
type Face struct {
	Name    string
	Corners []Vec
}

// normal points to the finish side; Newell's formula, so that no corner counts
// for more than another.
func (f Face) normal() Vec {
	var n Vec
	for i, p := range f.Corners {
		q := f.Corners[(i+1)%len(f.Corners)]
		n = n.plus(Vec{(p.Y - q.Y) * (p.Z + q.Z), (p.Z - q.Z) * (p.X + q.X), (p.X - q.X) * (p.Y + q.Y)})
	}
	return n
}

// Area of the face on the mold lines.
func (f Face) Area() float64 { return f.normal().length() / 2 }

// A Fold joins edge EdgeA of face A (from corner EdgeA to the next) to an edge
// of face B, which hangs on it.
type Fold struct {
	A, EdgeA int
	B, EdgeB int
}

// Solid is a folded surface. Face 0 lies at the root of the tree of folds.
type Solid struct {
	Faces []Face
	Folds []Fold // parents before children
	Level int    // edge of face 0 that lies along the bottom of the pattern
	AtTop bool   // it lies along the top instead
}

// near is how near two mold lines must lie to be one, in millimetres.
const near = 1e-6

// Check reports what keeps a solid from being one sheet: a face that is not
// flat or has no area, a fold whose edges do not meet, faces that do not form a
// tree.
func (s Solid) Check() error {
	if len(s.Folds) != len(s.Faces)-1 {
		return fmt.Errorf("%d faces need %d folds, not %d", len(s.Faces), len(s.Faces)-1, len(s.Folds))
	}
	for _, f := range s.Faces {
		n := f.normal()
		if n.length() < near {
			return fmt.Errorf("face %s has no area", f.Name)
		}
		n = n.unit()
		for _, p := range f.Corners {
			if d := math.Abs(p.minus(f.Corners[0]).dot(n)); d > 1e-3 {
				return fmt.Errorf("face %s is not flat: %.4f mm out", f.Name, d)
			}
		}
	}
	seen := make([]bool, len(s.Faces))
	seen[0] = true
	for _, f := range s.Folds {
		if !seen[f.A] || seen[f.B] {
			return fmt.Errorf("faces %s and %s do not hang together as a tree", s.Faces[f.A].Name, s.Faces[f.B].Name)
		}
		seen[f.B] = true
		p, q := s.Faces[f.A].edge(f.EdgeA)
		u, v := s.Faces[f.B].edge(f.EdgeB)
		if p.distance(v) > 1e-3 || q.distance(u) > 1e-3 {
			return fmt.Errorf("faces %s and %s do not meet at their fold", s.Faces[f.A].Name, s.Faces[f.B].Name)
		}
	}
	return nil
}

func (f Face) edge(i int) (Vec, Vec) { return f.Corners[i], f.Corners[(i+1)%len(f.Corners)] }

// Turn is the angle a fold turns through, positive where the child comes
// towards the viewer of the finish side: an UP bend.
func (s Solid) Turn(f Fold) float64 {
	p, q := s.Faces[f.A].edge(f.EdgeA)
	a, b := s.Faces[f.A].normal().unit(), s.Faces[f.B].normal().unit()
	along := q.minus(p).unit()
	// The parent lies to the left of its edge, so a child that goes down turns
	// the normal forward about the edge.
	return -math.Atan2(a.cross(b).dot(along), a.dot(b)) / radians
}
