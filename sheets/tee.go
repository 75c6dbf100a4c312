package sheets

import (
	"strings"

	"copingset/drawing/words"
	"copingset/layout"
)

// teeRows adds what the shop makes a tee by; front are the lengths of its main
// and of its branch.
func (b *book) teeRows(q *layout.Piece, front []string, row func(head, words string, names ...string)) {
	t := q.Tee
	is := func(what ...string) string { return factsOf(q.Mark, what...) }
	row(b.say.Say(words.TeeMainRun, words.In("name", t.Main.Name)),
		b.say.Say(words.TeeMainLength, words.In("length", front[0]), words.In("leg", b.shopLeg(t.Edge[0]-t.From))),
		is("length-1", "main-beside-left"))
	row(b.say.Say(words.TeeBranchRun, words.In("name", t.Run.Name)),
		b.say.Say(words.TeeBranchLength, words.In("length", front[1]),
			words.In("width", b.shopShort(t.Edge[1]-t.Edge[0]))), is("length-2", "outside-2"))
	row(b.say.Say(words.TeeWidth), b.say.Say(words.TeeInside, words.In("inside", b.shopShort(q.Inside)),
		words.In("branch", b.shopShort(t.Inside))), is("inside", "inside-2"))
	row(b.say.Say(words.TeeDrop), b.say.Say(words.TeeDropBy, words.In("drop", b.shopShort(t.Drop))), is("branch-drop"))
	row(b.say.Say(words.TeeHandHead),
		b.say.Say(words.TeeHand, words.In("hand", strings.ToUpper(b.sideName(q.Hand.String())))))
}
