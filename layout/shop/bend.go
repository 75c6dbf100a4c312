package shop

import (
	"cmp"
	"math"
	"slices"

	"copingset/layout/fold"
	"copingset/layout/length"
)

// bends lists the bends of a body in the order they are made: hems first, then
// from both edges inwards, the bend nearest an edge before those behind it, the
// street edge first where two stand alike. An upstand comes last.
func (b *builder) bends(r raw, body Body) []Bend {
	_, hi := body.Flat.Bounds()
	var out []Bend
	for _, l := range body.Flat.Bends {
		q := Bend{Line: l, Hem: l.Between[1] == "hem"}
		if q.Hem && r.metal == nil {
			// A hem's bend is centred R + T - (R + K T) pi/2 inside its fold, R zero.
			t := b.bend.Thickness
			in := t - math.Pi*b.bend.K*t/2
			dir := 1.0 // towards the middle of the blank
			if (l.From.Y+l.To.Y)/2 > hi.Y/2 {
				dir = -1
			}
			q.Line.From.Y += dir * in
			q.Line.To.Y += dir * in
			q.Line.Turn = -180
		}
		y := (q.Line.From.Y + q.Line.To.Y) / 2
		// From the roof edge of the blank as sheared, so that both distances sum to its girth.
		q.FromStreet = length.RoundTo(length.FromMM(hi.Y-y), b.step)
		q.FromRoof = body.Girth - q.FromStreet
		out = append(out, q)
	}
	rank := func(q Bend) int {
		switch {
		case q.Hem:
			return 0
		case q.Line.Between[1] == "upstand":
			return 2
		}
		return 1
	}
	slices.SortStableFunc(out, func(p, q Bend) int {
		return cmp.Or(cmp.Compare(rank(p), rank(q)),
			cmp.Compare(length.Min(p.FromStreet, p.FromRoof), length.Min(q.FromStreet, q.FromRoof)),
			cmp.Compare(p.FromStreet, q.FromStreet))
	})
	for i := range out {
		out[i].Order = i + 1
	}
	return out
}

// longest is the length of the longest bend of a body, along the brake.
func longest(body Body) float64 {
	var l float64
	for _, q := range body.Flat.Bends {
		l = math.Max(l, math.Hypot(q.To.X-q.From.X, q.To.Y-q.From.Y))
	}
	return l
}

// narrowest is the least outside depth of a face that a bend must hold, and its
// name.
func narrowest(s fold.Solid) (string, float64) {
	name, least := "", math.Inf(1)
	for _, f := range s.Folds {
		face := s.Faces[f.B]
		if face.Name == "hem" {
			continue
		}
		edge := lengthOfEdge(face, f.EdgeB)
		if d := face.Area() / edge; d < least {
			name, least = face.Name, d
		}
	}
	return name, least
}

// crowded is a face whose two bends, or whose bend and hem, leave no flat
// between them: its outside depth less both setbacks (a hem's is one thickness,
// its inside radius being none). No brake makes that.
func crowded(s fold.Solid, b fold.Bend) (name string, depth, needs float64, ok bool) {
	sides := make([]float64, len(s.Faces)) // setbacks at its folds
	for _, f := range s.Folds {
		back := b.Setback(math.Abs(s.Turn(f)))
		if s.Faces[f.B].Name == "hem" {
			back = b.Thickness
		}
		sides[f.A] += back
		sides[f.B] += back
	}
	for _, f := range s.Folds {
		face := s.Faces[f.B]
		if face.Name == "hem" {
			continue
		}
		if d := face.Area() / lengthOfEdge(face, f.EdgeB); d < sides[f.B]-1e-6 {
			return face.Name, d, sides[f.B], true
		}
	}
	return "", 0, 0, false
}

func lengthOfEdge(f fold.Face, i int) float64 {
	p, q := f.Corners[i], f.Corners[(i+1)%len(f.Corners)]
	return math.Sqrt((p.X-q.X)*(p.X-q.X) + (p.Y-q.Y)*(p.Y-q.Y) + (p.Z-q.Z)*(p.Z-q.Z))
}
