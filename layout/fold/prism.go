package fold

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
