package sheets

import (
	"fmt"

	"copingset/layout"
	"copingset/layout/plan"
)

// The facts that the tables of the shop letter, cell by cell. Each list follows the
// columns of its table.

// naming is the table with the names of the facts that its cells letter.
func (t table) naming(names [][]string) table {
	t.names = names
	return t
}

// ofKey names several quantities of one thing for one cell.
func ofKey(k plan.Key, what ...string) string {
	var names []string
	for _, w := range what {
		names = append(names, k.Fact(w))
	}
	return layout.AllNamed(names...)
}

// bendNames are those of the table of bends.
func (b *book) bendNames(f *layout.Family, i int) [][]string {
	var out [][]string
	for _, q := range b.blanksOf(f)[i].Bends {
		turn, included, street, roof := "turns-by-degrees", "included-degrees", "ends-from-street", "ends-from-roof"
		if q.Hem {
			turn, included = "hem", "hem"
		}
		if q.Across {
			street, roof = "from-ends", "from-ends"
		}
		out = append(out, []string{ofKey(q.Key, "order"), ofKey(q.Key, turn), ofKey(q.Key, included),
			ofKey(q.Key, "after-face", "to-face"),
			ofKey(q.Key, street), ofKey(q.Key, roof), ofKey(q.Key, "gauge", "gauge-edge")})
	}
	return out
}

// pointNames are those of the table of corners.
func (b *book) pointNames(f *layout.Family, i int) [][]string {
	var out [][]string
	for _, c := range b.blanksOf(f)[i].Corners {
		out = append(out, []string{"", ofKey(c.Key, "from-left"), ofKey(c.Key, "from-street")})
	}
	return out
}

// holeNames are those of the table of holes, which leaves out those of rivets.
func (b *book) holeNames(f *layout.Family, i int) [][]string {
	var out [][]string
	for _, x := range b.blanksOf(f)[i].Holes {
		if !x.Rivet {
			out = append(out, []string{"", ofKey(x.Key, "from-left"), ofKey(x.Key, "from-street")})
		}
	}
	return out
}

// lengthNames are those of the table of lengths.
func (b *book) lengthNames(g []*layout.Family) [][]string {
	var out [][]string
	for _, f := range g {
		of := layout.FactOfFamily(f)
		out = append(out, []string{layout.Named(of, "mark"), layout.Named(of, "body-1-blank-length"),
			layout.Named(of, "released"), layout.Named(of, "pieces"), b.routeNames(f), "",
			layout.Named(of, "weight")})
	}
	return out
}

// routeNames are those of what the pieces of a family are cut from.
func (b *book) routeNames(f *layout.Family) string {
	var out []string
	for _, q := range f.Pieces {
		if !b.l.CutFrom(q).Known {
			continue
		}
		out = append(out, layout.Named(q.Mark, "cut-from"))
	}
	return layout.AllNamed(out...)
}

// planNames are those of the table of cutting plans.
func planNames(lots []plan.CutLot) [][]string {
	var out [][]string
	for _, lot := range lots {
		for _, q := range lot.Bars {
			how := provenNames(q.Plan, q.Key, "")
			out = append(out, []string{elevationOf(lot), ofKey(q.Key, "pieces", "inside"), ofKey(q.Key, "from"),
				ofKey(q.Key, "price"), ofKey(q.Key, "bound"), how})
		}
		if k := lot.Key; len(lot.Sheets) > 0 {
			how := provenNames(lot.Plan, k, "sheets-")
			out = append(out, []string{elevationOf(lot), ofKey(k, "blanks"), ofKey(k, "sheets-from"),
				ofKey(k, "sheets-price"), ofKey(k, "sheets-bound"), how})
		}
	}
	return out
}

// provenNames are those of what proven says of a plan.
func provenNames(p plan.CutPlan, k plan.Key, of string) string {
	if p.Best || !p.Bounded {
		return ofKey(k, of+"proven")
	}
	return ofKey(k, of+"at-least", of+"within-percent")
}

// kindNames are those of the name of a part, which some have without a width.
func kindNames(q *layout.MadePart) string {
	if q.Inside == 0 {
		return factsOf(layout.FactOfPart(q), "kind")
	}
	return factsOf(layout.FactOfPart(q), "kind", "inside")
}

// elevationOf names the elevation of a lot that has one.
func elevationOf(lot plan.CutLot) string {
	if lot.Elevation == "" {
		return ""
	}
	return ofKey(lot.Key, "elevation")
}

// wasteNames are those of the table of sheet used and wasted.
func wasteNames(o *layout.Order, lots []plan.CutLot) [][]string {
	row := func(of string, k plan.Key, bought float64) []string {
		yield := ""
		if bought > 0 {
			yield = ofKey(k, "yield-percent")
		}
		return []string{of, ofKey(k, "sheets"), ofKey(k, "bought-mm2"), ofKey(k, "used-mm2"), ofKey(k, "wasted-mm2"),
			yield}
	}
	var out [][]string
	for _, lot := range lots {
		out = append(out, row(elevationOf(lot), lot.Key, lot.Bought))
	}
	return append(out, row("", plan.Key(layout.Named("cutting", "")), o.Bought))
}

// blankNames are those of the list of blanks of a lot.
func blankNames(lot plan.CutLot) [][]string {
	var out [][]string
	for _, x := range lot.Blanks {
		first := ""
		if x.Formed {
			first = ofKey(x.Key, "mark")
		}
		out = append(out, []string{first, ofKey(x.Key, "count"), ofKey(x.Key, "girth"), ofKey(x.Key, "length")})
	}
	return out
}

// bodyOf begins the facts of the body that a profile shows.
func bodyOf(c widthCase) plan.Key { return layout.BodyKey(layout.FactOfFamily(c.family), c.body) }

// widthNames are those of the table of widths of a profile.
func widthNames(all []widthCase) [][]string {
	var out [][]string
	for _, c := range all {
		k := bodyOf(c)
		out = append(out, []string{ofKey(k, "inside-left"), ofKey(k, "face-1-outside"), ofKey(k, "blank-girth")})
	}
	return out
}

// widthBendNames are those of the bends of the widths of a profile.
func widthBendNames(all []widthCase) [][]string {
	var out [][]string
	for i, q := range all[0].shown.Bends {
		k := bodyOf(all[0]).Of(fmt.Sprintf("bend-%d-", i+1))
		turn, included := "turns-by-degrees", "included-degrees"
		if q.Hem {
			turn, included = "hem", "hem"
		}
		row := []string{ofKey(k, "order"), ofKey(k, turn), ofKey(k, included), ofKey(k, "after-face", "to-face"),
			ofKey(k, "gauge-edge")}
		for _, c := range all {
			k := bodyOf(c).Of(fmt.Sprintf("bend-%d-", i+1))
			row = append(row, ofKey(k, "gauge"), ofKey(k, "from-street"), ofKey(k, "from-roof"))
		}
		out = append(out, row)
	}
	return out
}

// legFacts are those of the table of legs.
func legFacts(c widthCase) [][]string {
	k := bodyOf(c)
	return [][]string{{"", layout.Named("system", "front-leg"), ofKey(k, "street-leg-to"), ofKey(k, "overall-front")},
		{"", layout.Named("system", "rear-leg"), ofKey(k, "roof-leg-to"), ofKey(k, "overall-rear")}}
}

// partNames are those of the table of parts.
func (b *book) partNames() [][]string {
	var out [][]string
	for _, q := range b.l.Parts {
		of := layout.FactOfPart(q)
		blank := ""
		if len(q.Bodies) > 0 {
			blank = factsOf(of, "body-1-blank-girth", "body-1-blank-length")
		}
		out = append(out, []string{factsOf(of, "mark"), kindNames(q), factsOf(of, "count"),
			factsOf(of, "spare"), factsOf(of, "to-cut"), blank,
			factsOf(of, "thickness", "metal"), factsOf(of, "weight")})
	}
	return out
}
