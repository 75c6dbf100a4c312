package sheets

import (
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/length"
	"copingset/layout/shop"
)

// profilePage shows the section of each width with its outside dimensions.
func (b *book) profilePage() []page {
	var views []func(w, h drawing.Unit) drawing.Scene
	var names []string
	var of []*layout.Family
	seen := map[length.Length]bool{} // look-up only
	for _, f := range b.l.Families {
		in := f.Pieces[0].Inside
		if len(f.Bodies) == 0 || seen[in] || f.Kind == cap.Transition { // the pieces beside it have its widths
			continue
		}
		seen[in] = true
		views = append(views, func(w, h drawing.Unit) drawing.Scene { return view.ShopSection(b.l, f, w, h) })
		names = append(names, "inside "+b.shopShort(in))
		of = append(of, f)
	}
	if len(views) == 0 {
		return nil
	}
	p := page{id: b.id("profiles"), title: "Profile", kind: ShopSheet, paper: b.runs, scale: "as noted", about: "Cross-section of the cap with its outside dimensions."}
	foot := list{items: []string{"Outside dimensions to the mold lines. Flat = sum of outside dimensions less a deduction at each bend: 2 tan(turn/2)(R + T) less (pi/180) turn (R + K T), with inside radius R " +
		b.exactly(b.j.System.Profile.InsideR) + ", thickness T " + b.thick(b.j.System.Metal.Thickness) + " and K " + trimFloat(b.j.Shop.K) + " (" + prose(b.j.Shop.KSource) + ")."}, plain: true}
	foot.items = append(foot.items, b.girthWords(of)...)
	return b.sideBySide(p, foot, views, names)
}

// girthWords reckon the girth of each width, so that it can be done again by
// hand.
func (b *book) girthWords(of []*layout.Family) []string {
	num := func(mm float64) string {
		l := length.FromMM(mm)
		if b.metric {
			return length.Millimetres(l, 2)
		}
		return drawing.Letter(length.Decimal(l, 3))
	}
	var out []string
	for _, f := range of {
		body := f.Bodies[0]
		var sum []string
		for i, face := range body.Solid.Faces {
			if face.Name != "hem" && face.Name != "upstand" {
				sum = append(sum, face.Name+" "+num(body.Outside(i).MM()))
			}
		}
		for _, d := range shop.Deductions(b.j, body) {
			if d.Hem {
				sum = append(sum, "+ hem "+num(-d.Less))
				continue
			}
			sum = append(sum, "− "+num(d.Less)+" at "+view.Degrees(d.Turn))
		}
		out = append(out, "Inside width "+b.shopShort(f.Pieces[0].Inside)+", girth of the flat: "+strings.ReplaceAll(strings.Join(sum, ", "), ", +", " +")+" = "+b.inBlank(body.Girth)+".")
	}
	return out
}
