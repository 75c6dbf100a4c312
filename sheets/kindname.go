package sheets

import (
	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/crate"
)

// kindKeys are the sentences of the kinds of pieces, by the names the layout gives
// them; it is for looking up alone.
var kindKeys = map[string]words.Key{
	"straight":            words.KindStraight,
	"closer":              words.KindCloser,
	"corner":              words.KindCorner,
	"double miter":        words.KindDouble,
	"end cap":             words.KindEndcap,
	"wall end":            words.KindWallend,
	"corner with end":     words.KindCornerend,
	"transition":          words.KindTransition,
	"pitch miter, peak":   words.KindPitchPeak,
	"pitch miter, valley": words.KindPitchValley,
	"tee":                 words.KindTee,
}

// kindName is the kind of a piece in the words of the sheets.
func (b *book) kindName(q *layout.Piece) string {
	name := b.l.Made(q).Name
	if k, ok := kindKeys[name]; ok {
		return b.say.Say(k)
	}
	return name
}

// hardwareName names a line of hardware. A fastener has the job's own name.
func (b *book) hardwareName(x crate.Item) string {
	plain := map[crate.Sort]words.Key{
		crate.Chair:   words.KindChair,
		crate.Support: words.KindSupport,
		crate.Plate:   words.KindSplice,
		crate.Shim:    words.KindShim,
		crate.Tape:    words.KindTape,
	}
	width := words.In("width", b.shopText(x.Inside))
	switch {
	case x.Sort == crate.Screw || x.Sort == crate.Cap:
		return prose(x.What)
	case x.Sort == crate.Shim && b.j.Packing.Shim.Stated():
		return b.say.Say(words.KindShimOf, words.In("material", prose(b.j.Packing.Shim.Material)))
	case x.Sort == crate.Chair && x.Mark != "":
		return b.say.Say(words.KindChairTaper)
	case x.Sort == crate.Plate && x.Mark != "":
		return b.say.Say(words.KindCover)
	case x.Sort == crate.Chair && x.Inside > 0:
		return b.say.Say(words.KindChairOf, width)
	case x.Sort == crate.Plate && x.Inside > 0:
		return b.say.Say(words.KindSpliceOf, width)
	}
	return b.say.Say(plain[x.Sort])
}

// crateKind is what a crate is for.
func (b *book) crateKind(c *crate.Crate) string {
	return b.say.Say(
		[...]words.Key{crate.Hardware: words.CrateKindHardware, crate.Corners: words.CrateKindCorners,
			crate.Caps: words.CrateKindCaps}[c.Kind],
	)
}

// turned says what angle a weld is made to.
func (b *book) turned(c *layout.Corner) string {
	switch {
	case c.Straight():
		return b.say.Say(words.KindSlope, words.In("angle", angle(max(c.Bend, -c.Bend))))
	case c.Outside():
		return b.say.Say(
			words.KindTurnRight, words.In("turn", angle(c.CapTurn)), words.In("included", angle(c.CapIncluded())),
		)
	}
	return b.say.Say(
		words.KindTurnLeft, words.In("turn", angle(-c.CapTurn)), words.In("included", angle(c.CapIncluded())),
	)
}

// within is the largest size up to z in which words keep within a width, and no
// smaller than a note's.
func within(text string, f drawing.Face, z drawing.Size, w drawing.Unit) drawing.Size {
	for z > drawing.Note && drawing.Width(f, text, z) > w {
		z -= 10
	}
	return z
}
