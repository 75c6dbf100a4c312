package sheets

import (
	"strings"

	"copingset/drawing/words"
	"copingset/layout"
)

// teeRows are what the shop makes a tee by; front are the lengths of its main
// and of its branch.
func (b *book) teeRows(q *layout.Piece, front []string) [][]lettered {
	t, say := q.Tee, b.say.Say
	row := func(head, said string, what ...string) []lettered {
		return []lettered{{words: head}, {said, factsOf(q.Mark, what...)}}
	}
	return [][]lettered{
		row(say(words.TeeMainRun, words.In("name", t.Main.Name)), say(words.TeeMainLength,
			words.In("length", front[0]), words.In("leg", b.shopLeg(t.Edge[0]-t.From))),
			"length-1", "main-beside-left"),
		row(say(words.TeeBranchRun, words.In("name", t.Run.Name)), say(words.TeeBranchLength,
			words.In("length", front[1]), words.In("width", b.shopShort(t.Edge[1]-t.Edge[0]))),
			"length-2", "outside-2"),
		row(say(words.TeeWidth), say(words.TeeInside, words.In("inside", b.shopShort(q.Inside)),
			words.In("branch", b.shopShort(t.Inside))), "inside", "inside-2"),
		row(say(words.TeeDrop), say(words.TeeDropBy, words.In("drop", b.shopShort(t.Drop))), "branch-drop"),
		row(say(words.TeeHandHead), say(words.TeeHand,
			words.In("hand", strings.ToUpper(b.sideName(q.Hand.String()))))),
	}
}
