package sheets

import (
	"strings"

	"copingset/layout"
)

// teeRows are what the shop makes a tee by; front are the lengths of its main
// and of its branch.
func (b *book) teeRows(q *layout.Piece, front []string) [][]string {
	t := q.Tee
	return [][]string{
		{"Main, run " + t.Main.Name, front[0] + " long, a leg of " + b.shopLeg(t.Edge[0]-t.From) + " at each side of the branch"},
		{"Branch, run " + t.Run.Name, front[1] + " long, " + b.shopShort(t.Edge[1]-t.Edge[0]) + " wide outside"},
		{"Width", "inside " + b.shopShort(q.Inside) + ", of the branch " + b.shopShort(t.Inside)},
		{"Drop", "the branch's front fold " + b.shopShort(t.Drop) + " below the main's rear fold"},
		{"Hold it", "from the roof, facing the street: high edge of the branch at the " + strings.ToUpper(q.Hand.String()) + " hand"},
	}
}
