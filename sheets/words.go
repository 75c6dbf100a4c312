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
		return b.exact(l) + " mm"
	}
	return b.exact(l)
}

// thick letters the thickness of a sheet with its unit.
func (b *book) thick(l length.Length) string {
	if b.metric {
		return b.shop.Thin(l) + " mm"
	}
	return drawing.Letter(b.shop.Thin(l))
}

// span letters a least and a greatest, once where they letter alike.
func span(lo, hi string) string {
	if lo == hi {
		return lo
	}
	return lo + " to " + hi
}

// widthOf letters the inside width of a piece: of a transition both, the
// narrow end's first; of a corner of two widths each leg's, as its lengths.
func (b *book) widthOf(q *layout.Piece) string {
	m := b.l.Made(q)
	by := " + "
	if m.Tapers() {
		by = " to "
	}
	return b.shopShorts(m.Widths, by)
}

// girthOf letters the girth of a piece, of a corner of two widths leg by leg.
func (b *book) girthOf(q *layout.Piece) string { return b.shopShorts(b.l.Made(q).Girths, " + ") }

func (b *book) shopShorts(all []length.Length, by string) string {
	var out []string
	for _, l := range all {
		out = append(out, b.shopShort(l))
	}
	return strings.Join(out, by)
}

// screwName is a fastener with its diameter.
func (b *book) screwName(f *layout.Fastener) string {
	return b.diameterOf(f.Name, f.Diameter)
}

func (b *book) diameterOf(fastener string, d length.Length) string {
	return prose(fastener) + ", " + b.exactly(d) + " diameter"
}

// holeWords say where a hole in a piece is cut: for the shop from the piece's
// own left end and street face, for the roof from the wall's face.
func (b *book) holeWords(q *layout.Piece, o *job.Obstacle) string {
	h := b.l.HoleOf(q, o)
	return b.holeOf(o.Name, []length.Length{o.Extent, o.Depth}, h.FromLeft, h.FromFront, o.FromFace)
}

// holeOf letters a hole: its size along and across, and its centre.
func (b *book) holeOf(name string, size []length.Length, fromLeft, fromFront, fromFace length.Length) string {
	return "hole for " + prose(name) + ": " + b.exactly(size[0]) + " along × " + b.exactly(size[1]) + " across, centre " +
		drawing.Letter(b.shop.InText(fromLeft)) + " from the piece’s left end, " + b.shopText(fromFront) + " behind the cap’s outside front face, " +
		b.exactly(fromFace) + " behind the wall’s face"
}

// shopText is a short length of the shop's in a sentence.
func (b *book) shopText(l length.Length) string {
	if b.metric {
		return b.shopShort(l) + " mm"
	}
	return b.shopShort(l)
}
