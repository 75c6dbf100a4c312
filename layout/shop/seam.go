package shop

import (
	"math"

	"copingset/layout/cap"
	"copingset/layout/length"
)

// SeamFace is how two legs of a corner meet on one of their faces: which edges
// stand at the gap, and how far those of the other face stand apart.
type SeamFace struct {
	Name    string // "front leg"
	Back    bool   // the back edges stand at the gap, and the joint opens to the finish; else the other way about
	Plain   bool   // both edges do: a plain butt
	Gap     length.Length
	Opening length.Length // on the other face
	Lap     length.Length // how far one leg lies over a tab of the other; zero: a butt
	Over    cap.Hand      // the leg that does
}

// seamFaces are the faces of a corner's seam as a butt. Edges are cut square to the
// sheet, so that at a turn t those of the face that turns away stand 2 T sin(t/2)
// farther apart than the gap: front legs of an outside corner open to the finish, its
// rear legs behind, and the other way about at an inside corner. The top is a plain
// butt, as all of a pitch miter's plumb legs are.
func seamFaces(m cap.Miter, gap, thickness length.Length) []SeamFace {
	top := SeamFace{Name: "top", Plain: true, Gap: gap, Opening: gap}
	front, rear := top, top
	front.Name, rear.Name = "front leg", "rear leg"
	if m.Corner.Straight() {
		top.Plain, top.Back = false, m.Corner.Bend > 0 // over a peak the tops turn away from each other
		top.Opening = gap + opens(thickness, m.Corner.Bend.Degrees())
		return []SeamFace{front, top, rear}
	}
	turn := madeTurn(m).Degrees()
	wide := gap + opens(thickness, turn)
	front.Plain, front.Back, front.Opening = false, turn > 0, wide
	rear.Plain, rear.Back, rear.Opening = false, turn < 0, wide
	return []SeamFace{front, top, rear}
}

// opens is how much farther apart the edges of the other face stand.
func opens(thickness length.Length, turn float64) length.Length {
	return length.FromMM(2 * thickness.MM() * math.Sin(math.Abs(turn)/2*math.Pi/180))
}
