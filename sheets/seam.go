package sheets

import (
	"fmt"
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/plan"
)

// seamRows say how the seams of a family are cut and joined, face by face.
func (b *book) seamRows(f *layout.Family) [][]lettered {
	if len(f.Pieces[0].Miters) == 0 && len(f.Bodies) < 2 {
		return nil
	}
	s := b.j.Shop
	of := layout.FactOfFamily(f)
	how, shop := []string{b.say.Say(words.SeamGap, words.In("gap", b.exactly(s.WeldGap)))}, []string{"weld-gap"}
	if r := s.Seam; r != nil {
		joined := r.Process.String()
		if r.Backer != "" {
			shop = append(shop, "seam-backer")
			joined = b.say.Say(words.SeamOnBacker, words.In("process", joined), words.In("backer", prose(r.Backer)))
		}
		finish := b.say.Say(words.SeamFinishedBefore)
		if r.After {
			finish = b.say.Say(words.SeamFinishedAfter, words.In("bare", prose(r.Bare)))
		}
		how, shop = append(how, joined, finish), append(shop, "seam-process", "seam-finished-after")
	}
	var rows [][]lettered
	add := func(what, phrase, names string) { rows = append(rows, []lettered{{words: what}, {phrase, names}}) }
	add(b.say.Say(words.SeamSeam), strings.Join(how, "; "), factsOf("shop", shop...))
	for i, j := range f.Joints {
		head := func(alone, of words.Key) string {
			if len(f.Joints) < 2 {
				return b.say.Say(alone)
			}
			return b.say.Say(of, words.In("n", itoa(i+1)))
		}
		var said, names []string
		for k, q := range layout.SeamFaces(f, i) {
			said, names = append(said, q.Name+": "+b.faceWords(q)), append(names, layout.FactsOfSeamFace(f, i, k, q))
		}
		add(head(words.SeamEdges, words.SeamEdgesOf), strings.Join(said, "; "), layout.AllNamed(names...))
		if len(j.CutBack) > 0 {
			phrase := b.say.Say(
				words.SeamCutBackBy, words.In("edges", strings.Join(j.CutBack, ", ")),
				words.In("length", b.exactly(s.Seam.CutBack)),
			)
			add(
				head(words.SeamCutBack, words.SeamCutBackOf), phrase,
				layout.AllNamed(factsOf(of, fmt.Sprintf("seam-%d-cut-back", i+1)), factsOf("shop", "seam-cut-back")),
			)
		}
		if len(j.Strips) > 0 {
			var strips, names []string
			for k, q := range j.Strips {
				n := fmt.Sprintf("seam-%d-strip-%d", i+1, k+1)
				names = append(names, factsOf(of, n, n+"-size", n+"-turn-degrees"))
				flat := b.say.Say(words.SeamFlat)
				if q.Turn != 0 {
					flat = b.say.Say(words.SeamBent, words.In("turn", view.Degrees(abs(q.Turn))))
				}
				strips = append(strips, q.Face+" "+b.inBlank(q.Width)+" × "+b.inBlank(q.Length)+", "+flat)
			}
			add(head(words.SeamBackers, words.SeamBackersOf), strings.Join(strips, "; "), layout.AllNamed(names...))
		}
	}
	if n := rivetCount(f); n > 0 {
		q := s.Seam.Rivets
		phrase := b.say.Say(
			words.SeamRivetsHoles, words.In("n", itoa(n)), words.In("diameter", b.exactly(q.Diameter)),
			words.In("edge", b.exactly(q.Edge)), words.In("pitch", b.exactly(q.Pitch)),
		)
		add(
			b.say.Say(words.SeamRivets), phrase,
			layout.AllNamed(factsOf(of, "rivets"), factsOf("shop", "rivets-diameter", "rivets-edge", "rivets-pitch")),
		)
	}
	return rows
}

// faceWords say which edges of one face of a seam touch, and how far the others
// stand apart.
func (b *book) faceWords(q plan.SeamFace) string {
	switch {
	case q.Lap > 0:
		return b.say.Say(words.SeamLap, words.In("over", q.Over), words.In("lap", b.exactly(q.Lap)))
	case q.Plain:
		return b.say.Say(words.SeamPlainButt)
	case q.Back:
		return b.say.Say(words.SeamBackEdges, words.In("opening", b.exactly(q.Opening)))
	}
	return b.say.Say(words.SeamFinishEdges, words.In("opening", b.exactly(q.Opening)))
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
			title := b.say.Say(words.SeamAbove, words.In("name", face.Name))
			if len(f.Joints) > 1 {
				title = b.say.Say(words.SeamAboveOf, words.In("n", itoa(i+1)), words.In("name", face.Name))
			}
			q := view.Seam{
				About:  b.say.Say(words.SeamAbout),
				Title:  title,
				Rings:  p.Rings,
				Finish: p.Finish,
				At:     p.At,
				Other:  p.FromBack,
				System: view.OneLine,
				Tail:   prose(r.Tail),
				Fact:   layout.FactsOfSeamFace(f, i, 2*k, face),
			}
			q.Mark = seamMark(r.Process, b.j.SeamSymbols(), face)
			if b.j.SeamSymbols() == job.ISO2553A {
				q.System = view.TwoLines
			}
			if q.Tail == "" {
				q.Tail = r.Process.String()
			}
			q.Words = []string{capital(b.faceWords(face)) + "."}
			if q.Mark != view.NoSeamMark {
				q.Words = append(
					q.Words, b.say.Say(words.SeamSymbolBy, words.In("seam-symbols", b.j.SeamSymbols().String())),
				)
			}
			out = append(
				out, picture{scene: view.SeamPlan(q), prefix: slug(f.Mark + "-seam-" + itoa(i) + "-" + itoa(k))},
			)
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
