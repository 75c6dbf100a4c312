package sheets

import (
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/length"
)

// holdName says in a few words what a hold is about, where there is no room
// for its sentence. A code without words of its own is its own words.
func (b *book) holdName(code string) string {
	if strings.HasPrefix(code, "wind-") {
		code = "wind-edition" // whichever limit of the edition it is
	}
	if k := words.Key("hold." + code); words.Has(k) {
		return b.say.Say(k)
	}
	return strings.ReplaceAll(code, "-", " ")
}

// holdNames lists holds in words, each once.
func (b *book) holdNames(codes []string) []string {
	var out []string
	for _, c := range codes {
		if w := prose(b.holdName(c)); !slices.Contains(out, w) {
			out = append(out, w)
		}
	}
	return out
}

// exact letters a length that no tape rounds: a diameter, a stock length, the
// thickness of a shim. What stands on no tape is lettered in decimals.
func (b *book) exact(l length.Length) string {
	return drawing.Letter(length.Style{Metric: b.metric}.Exact(l))
}

// exactly is exact in a sentence, with its unit.
func (b *book) exactly(l length.Length) string {
	if b.metric {
		return b.say.Say(words.UnitMm, words.In("n", b.exact(l)))
	}
	return b.exact(l)
}

// thick letters the thickness of a sheet with its unit.
func (b *book) thick(l length.Length) string {
	if b.metric {
		return b.say.Say(words.UnitMm, words.In("n", b.shop.Thin(l)))
	}
	return drawing.Letter(b.shop.Thin(l))
}

// span letters a least and a greatest, once where they letter alike.
func (b *book) span(lo, hi string) string {
	if lo == hi {
		return lo
	}
	return b.say.Say(words.UnitRange, words.In("from", lo), words.In("to", hi))
}

// widthOf letters the inside width of a piece: of a transition both, the
// narrow end's first; of a corner of two widths each leg's, as its lengths.
func (b *book) widthOf(q *layout.Piece) string {
	m := b.l.Made(q)
	if m.Tapers() && len(m.Widths) == 2 {
		return b.say.Say(
			words.UnitRange, words.In("from", b.shopShort(m.Widths[0])), words.In("to", b.shopShort(m.Widths[1])),
		)
	}
	return b.shopShorts(m.Widths)
}

// girthOf letters the girth of a piece, of a corner of two widths leg by leg.
func (b *book) girthOf(q *layout.Piece) string { return b.shopShorts(b.l.Made(q).Girths) }

// shopShorts letters lengths leg by leg.
func (b *book) shopShorts(all []length.Length) string {
	var out []string
	for _, l := range all {
		out = append(out, b.shopShort(l))
	}
	return strings.Join(out, " + ")
}

// screwName is a fastener with its diameter.
func (b *book) screwName(f *layout.Fastener) string {
	return b.diameterOf(f.Name, f.Diameter)
}

func (b *book) diameterOf(fastener string, d length.Length) string {
	return b.say.Say(words.UnitDiameterOf, words.In("fastener", prose(fastener)), words.In("diameter", b.exactly(d)))
}

// holeWords say where a hole in a piece is cut: for the shop from the piece's
// own left end and street face, for the roof from the wall's face.
func (b *book) holeWords(q *layout.Piece, o *job.Obstacle) string {
	h := b.l.HoleOf(q, o)
	return b.holeOf(o.Name, []length.Length{o.Extent, o.Depth}, h.FromLeft, h.FromFront, o.FromFace)
}

// holeOf letters a hole: its size along and across, and its centre.
func (b *book) holeOf(name string, size []length.Length, fromLeft, fromFront, fromFace length.Length) string {
	return b.say.Say(
		words.PieceHole, words.In("name", prose(name)), words.In("along", b.exactly(size[0])),
		words.In("across", b.exactly(size[1])), words.In("from-left", drawing.Letter(b.shop.InText(fromLeft))),
		words.In("from-front", b.shopText(fromFront)), words.In("from-face", b.exactly(fromFace)),
	)
}

// shopText is a short length of the shop's in a sentence.
func (b *book) shopText(l length.Length) string {
	if b.metric {
		return b.say.Say(words.UnitMm, words.In("n", b.shopShort(l)))
	}
	return b.shopShort(l)
}
