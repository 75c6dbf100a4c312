package sheets

import (
	"slices"
	"strings"

	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/finding"
)

// holdWords name the holds of a sheet in a line.
func (b *book) holdWords(holds finding.List) string {
	if len(holds) == 0 {
		return ""
	}
	var codes []string
	for _, f := range holds {
		if !slices.Contains(codes, b.holdName(f.Code)) {
			codes = append(codes, b.holdName(f.Code))
		}
	}
	if len(codes) > 3 {
		codes = append(codes[:3:3], b.say.Say(words.RunHoldMore))
	}
	return b.say.Say(words.RunHold, words.In("holds", strings.Join(codes, ", ")))
}

// runBanner is what stands large on the sheets of runs: their own holds and the
// pieces that must not be cut for them; or, where only a piece that reaches
// round its corner is held, the joint at which the laying stops.
func (b *book) runBanner(runs []*layout.Run, holds finding.List) string {
	var marks, stops, all []string
	for _, r := range runs {
		for _, t := range r.Parts {
			q := t.Piece
			if !slices.Contains(all, q.Mark) {
				all = append(all, q.Mark)
			}
			if b.l.Held.Released(q) || slices.Contains(marks, q.Mark) {
				continue
			}
			marks = append(marks, q.Mark)
			var at []string
			left, right := b.l.EndJoints(q)
			for _, j := range []*layout.Joint{left, right} {
				if j == nil || !on(runs, j) {
					continue
				}
				name := j.Name // of several runs each joint says its run
				if len(runs) == 1 {
					name = local(name, r.Name)
				}
				if !slices.Contains(at, name) {
					at = append(at, name)
				}
			}
			if len(at) == 0 {
				stops = append(stops, b.say.Say(words.RunLayNot, words.In("piece", q.Mark)))
				continue
			}
			stops = append(stops, b.say.Say(words.RunLayNotAt, words.In("piece", q.Mark),
				words.In("joints", strings.Join(at, ", "))))
		}
	}
	switch {
	case len(holds) == 0 && len(marks) == 0:
		return ""
	case len(holds) == 0:
		return strings.Join(stops, " ")
	case len(marks) == 0:
		return b.holdWords(holds)
	case len(marks) == len(all):
		return sentences(b.holdWords(holds), b.say.Count(words.RunCutNotAll, len(runs)))
	case len(marks) > 4:
		return sentences(b.holdWords(holds), b.say.Say(words.RunCutNotMany, words.In("n", itoa(len(marks)))))
	}
	return sentences(b.holdWords(holds), b.say.Say(words.RunCutNot, words.In("pieces", strings.Join(marks, ", "))))
}

// on says whether a joint lies on one of the runs.
func on(runs []*layout.Run, j *layout.Joint) bool {
	return slices.ContainsFunc(runs, func(r *layout.Run) bool { return j.Run == r.Run })
}

// setNot names the chairs that holds name: what stands under them is not known.
func (b *book) setNot(runs []*layout.Run, holds finding.List) string {
	marks := heldChairs(runs, holds)
	if len(marks) == 0 {
		return ""
	}
	return b.say.Say(words.RunSetNot, words.In("chairs", strings.Join(finding.Ranges(marks), ", ")))
}

func heldChairs(runs []*layout.Run, holds finding.List) []string {
	var marks []string
	for _, r := range runs {
		for _, c := range r.Chairs {
			for _, f := range holds {
				if slices.Contains(f.Where.Chairs, c.Name) && !slices.Contains(marks, c.Name) {
					marks = append(marks, c.Name)
				}
			}
		}
	}
	return marks
}
