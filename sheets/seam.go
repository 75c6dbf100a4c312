package sheets

import (
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/plan"
)

// seamRows say how the seams of a family are cut and joined, face by face.
func (b *book) seamRows(f *layout.Family) [][]string {
	if len(f.Pieces[0].Miters) == 0 && len(f.Bodies) < 2 {
		return nil
	}
	s := b.j.Shop
	phrase := "cut to stand " + b.exactly(s.WeldGap) + " apart, metal to metal"
	if r := s.Seam; r != nil {
		phrase += "; " + r.Process.String()
		if r.Backer != "" {
			phrase += ", on " + prose(r.Backer)
		}
		if r.After {
			phrase += ", finished after joining: blanks of " + prose(r.Bare) + ", a lot of their own"
		} else {
			phrase += ", finished before joining"
		}
	}
	rows := [][]string{{"Seam", phrase}}
	for i, j := range f.Joints {
		number := ""
		if len(f.Joints) > 1 {
			number = ", seam " + itoa(i+1)
		}
		var said []string
		for _, q := range layout.SeamFaces(f, i) {
			said = append(said, q.Name+": "+b.faceWords(q))
		}
		rows = append(rows, []string{"Edges that meet" + number, strings.Join(said, "; ")})
		if len(j.CutBack) > 0 {
			rows = append(rows, []string{"Cut back" + number, strings.Join(j.CutBack, ", ") + " end " + b.exactly(s.Seam.CutBack) + " before the seam, at both legs"})
		}
		if len(j.Strips) > 0 {
			var strips []string
			for _, q := range j.Strips {
				flat := "flat"
				if q.Turn != 0 {
					flat = "bent " + view.Degrees(abs(q.Turn)) + " along its middle"
				}
				strips = append(strips, q.Face+" "+b.inBlank(q.Width)+" × "+b.inBlank(q.Length)+", "+flat)
			}
			rows = append(rows, []string{"Backers" + number, strings.Join(strips, "; ")})
		}
	}
	if n := rivetCount(f); n > 0 {
		q := s.Seam.Rivets
		rows = append(rows, []string{"Rivets", itoa(n) + " holes Ø\u00a0" + b.exactly(q.Diameter) + " in the blanks, " + b.exactly(q.Edge) + " from the edge over them, no two more than " + b.exactly(q.Pitch) + " apart; all places in the drawing for machines"})
	}
	return rows
}

// faceWords say which edges of one face of a seam touch, and how far the others
// stand apart.
func (b *book) faceWords(q plan.SeamFace) string {
	switch {
	case q.Lap > 0:
		return "the " + q.Over + " leg lies " + b.exactly(q.Lap) + " over a tab of the other"
	case q.Plain:
		return "plain butt"
	case q.Back:
		return "back edges at the gap, finish edges " + b.exactly(q.Opening) + " apart"
	}
	return "finish edges at the gap, back edges " + b.exactly(q.Opening) + " apart"
}

func rivetCount(f *layout.Family) int {
	n := 0
	for _, x := range f.Bodies {
		n += x.Riveted
	}
	return n
}

func abs(f float64) float64 {
	if f < 0 {
		return -f
	}
	return f
}

// seamBlocks draw the seams of a family from above with their symbol, where the job
// says how they are joined: the front legs and the rear legs of each.
func (b *book) seamBlocks(f *layout.Family) []block {
	r := b.j.Shop.Seam
	if r == nil {
		return nil
	}
	var out []block
	for i, j := range f.Joints {
		faces := layout.SeamFaces(f, i)
		for k, p := range j.Plan {
			if !p.Stated() {
				continue
			}
			face := faces[2*k]
			title := "Seam of the " + face.Name + "s from above"
			if len(f.Joints) > 1 {
				title = "Seam " + itoa(i+1) + ", " + face.Name + "s from above"
			}
			q := view.Seam{Title: title, Rings: p.Rings, Finish: p.Finish, At: p.At, Other: p.FromBack, System: view.OneLine, Tail: prose(r.Tail)}
			q.Mark = seamMark(r.Process, b.j.SeamSymbols(), face)
			if b.j.SeamSymbols() == job.ISO2553A {
				q.System = view.TwoLines
			}
			if q.Tail == "" {
				q.Tail = r.Process.String()
			}
			q.Words = []string{capital(b.faceWords(face)) + "."}
			if q.Mark != view.NoSeamMark {
				q.Words = append(q.Words, "Symbol by "+b.j.SeamSymbols().String()+".")
			}
			out = append(out, picture{scene: view.SeamPlan(q), prefix: slug(f.Mark + "-seam-" + itoa(i) + "-" + itoa(k))})
		}
	}
	return out
}

// seamMark is the symbol of a process on a face: AWS has none for solder, whose
// process stands in the tail alone.
func seamMark(p job.Joining, by job.Symbols, face plan.SeamFace) view.SeamMark {
	switch {
	case p == job.Solder && by == job.AWSA24:
		return view.TailAlone
	case p == job.Weld && face.Lap > 0:
		return view.Fillet
	case p == job.Weld:
		return view.SquareButt
	case p == job.Solder:
		return view.SurfaceJoint
	}
	return view.NoSeamMark
}

func capital(s string) string { return drawing.Letter(strings.ToUpper(s[:1]) + s[1:]) }
