package sheets

import (
	"fmt"

	"copingset/layout"
)

// pieceNames are the names of the facts that the schedule of pieces letters, cell by
// cell; with a column for what is trimmed where there is one.
func (b *book) pieceNames(q *layout.Piece, trim bool) []string {
	made := b.l.Made(q)
	is := func(what ...string) string { return factsOf(q.Mark, what...) }
	each := func(whats ...string) string { // of the parts, in their order
		var names []string
		for i := range q.Parts {
			for _, what := range whats {
				names = append(names, is(fmt.Sprintf("%s-%d", what, i+1)))
			}
		}
		return layout.AllNamed(names...)
	}
	kind, hand, turn := is("kind"), "", ""
	for i := range q.Cutouts {
		k := fmt.Sprintf("hole-%d-", i+1)
		kind = layout.AllNamed(kind, is(k+"for", k+"from-left", k+"from-front", k+"from-face", k+"size"))
	}
	if q.Allowance > 0 {
		kind = layout.AllNamed(kind, is("cut-at"))
	}
	if q.Hand.String() != "" {
		hand = is("hand")
	}
	for _, m := range q.Miters {
		what := []string{"cap-turn", "cap-included"}
		if m.Corner.Straight() {
			what = []string{"bend"}
		}
		turn = layout.AllNamed(turn, factsOf(layout.FactOfCorner(m.Corner), what...))
	}
	out := []string{"", is("laying"), kind, hand, turn, each("shipped-front"), each("shipped-rear")}
	if trim {
		laid := ""
		if q.Allowance > 0 {
			laid = each("length", "rear-length")
		}
		out = append(out, laid)
	}
	width, girth := each("inside"), each("girth")
	if made.Tapers() {
		width, girth = is("narrow", "wide"), is("girth")
	}
	weight := "weight"
	if q.Allowance > 0 {
		weight = "weight-shipped"
	}
	as := ""
	if q.Assembly != nil {
		as = is("assembly", "wind-zone")
	}
	return append(out, width, girth, is(weight), is("lift"), as, is("released", "holds"))
}
