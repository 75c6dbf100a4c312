package sheets

import (
	"slices"
	"strings"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"

	"copingset/drawing"
)

// holdName says in a few words what a hold is about, where there is no room
// for its sentence. A code without words of its own is its own words.
func holdName(code string) string {
	switch code {
	case "verify-in-field":
		return "length not measured: verify in field"
	case "run-unsurveyed":
		return "wall not surveyed"
	case "survey-slip":
		return "a reading in doubt: measure again"
	case "wall-unsound":
		return "loose, rotten or wet wall top"
	case "survey-not-tied":
		return "survey not tied to the corners"
	case "rear-at-kink":
		return "length taped on the rear face at a kink"
	case "pressures-not-stated":
		return "design pressures not stated"
	case "strength-of-what":
		return "edition of the pressures not known"
	case "pressures-computed":
		return "computed pressures not confirmed by a licensed engineer"
	case "confirmation-differs":
		return "pressures changed since they were confirmed"
	case "report-unsaid":
		return "test report not fully identified"
	case "factor-unsaid":
		return "factor on as-pulled values not explained"
	case "wind-edition", "wind-speed-range", "wind-height", "wind-roof-slope", "wind-area", "wind-parapet-note", "wind-reduction-tall", "wind-least-dimension":
		return "pressures cannot be computed as asked"
	case "extender-needed":
		return "a leg taller than tested"
	case "cap-narrow":
		return "cap narrower than the wall"
	case "top-level":
		return "top does not drain to the roof"
	case "metal-thin":
		return "metal thinner than specified"
	case "metals-dissimilar":
		return "metals that must not touch"
	case "treated-wood":
		return "metal on treated wood"
	case "metal-on-masonry":
		return "metal on masonry"
	case "expansion-differs":
		return "coefficient of expansion in doubt"
	case "withdrawal-short":
		return "screws short of the pull by the wood formulas"
	case "nailer-anchorage":
		return "nailer anchors too close"
	case "no-assembly":
		return "no tested assembly covers it"
	case "nothing-holds":
		return "nothing in this wall for the screws to hold in"
	case "no-fastener":
		return "fastener not described"
	case "no-fastener-length":
		return "no stock length of the screw fits"
	case "edge-distance":
		return "screws too near the wall's face"
	case "chair-blocked":
		return "a chair stands on an obstacle"
	case "chairs-overlap":
		return "two chairs overlap"
	case "support-blocked":
		return "a corner support stands on an obstacle"
	case "corner-crowded":
		return "chairs crowd the corner"
	case "pierced-unsealed":
		return "nobody named to seal what comes through"
	case "movement-not-stated":
		return "movement of the expansion joint not stated"
	case "joint-closes":
		return "a joint closes at the hottest"
	case "joint-opens":
		return "a joint opens past its seal at the coldest"
	case "plate-blocked":
		return "a splice plate lies on an obstacle"
	case "lap-under":
		return "a leg covers too little"
	case "leg-vanishes":
		return "a leg too short to make"
	case "no-fit":
		return "no row of pieces fits"
	case "no-joint":
		return "no place for a joint"
	case "many-miters":
		return "more miters than one piece can have"
	case "chair-over-expansion":
		return "a chair stands over the expansion joint"
	case "expansion-chair":
		return "no place for the chairs at the expansion joint"
	case "packing-over":
		return "more packing than the report allows"
	case "shim-missing":
		return "no shim thin enough"
	case "width-not-offered":
		return "no offered width is wide enough"
	case "riser-lap":
		return "a step riser laps too little"
	case "relief-crowded":
		return "reliefs run into one another"
	case "rear-play":
		return "more play at the rear than the leg can take up"
	}
	return strings.ReplaceAll(code, "-", " ")
}

// holdNames lists holds in words, each once.
func holdNames(codes []string) []string {
	var out []string
	for _, c := range codes {
		if w := prose(holdName(c)); !slices.Contains(out, w) {
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

// kindOf is the kind of a piece in the words of the lists: the cut piece of a
// run is its closer.
func kindOf(q *layout.Piece) string {
	if q.Closer && q.Kind == cap.Straight {
		return "closer"
	}
	return q.KindName()
}

// widthOf letters the inside width of a piece: of a transition both, the
// narrow end's first; of a corner of two widths each leg's, as its lengths.
func (b *book) widthOf(q *layout.Piece) string {
	if q.Kind == cap.Tee && q.Tee.Inside != q.Inside {
		return b.shopShort(q.Inside) + " + " + b.shopShort(q.Tee.Inside)
	}
	if q.Kind == cap.Transition {
		return b.shopShort(q.Narrow) + " to " + b.shopShort(q.Wide)
	}
	return b.legByLeg(q, func(p layout.Part) string { return b.shopShort(p.Inside()) })
}

// girthOf letters the girth of a piece, of a corner of two widths leg by leg.
func (b *book) girthOf(q *layout.Piece) string {
	if q.Kind == cap.Transition {
		return b.shopShort(q.Girth)
	}
	return b.legByLeg(q, func(p layout.Part) string { return b.shopShort(p.Girth(&b.j.System)) })
}

// legByLeg letters what each leg of a corner of two widths has of its own, once
// where the piece has one width.
func (b *book) legByLeg(q *layout.Piece, of func(layout.Part) string) string {
	var out []string
	for _, p := range q.Parts {
		out = append(out, of(p))
		if q.Wide == q.Narrow {
			break
		}
	}
	return strings.Join(out, " + ")
}

// screwName is a fastener with its diameter.
func (b *book) screwName(f *layout.Fastener) string {
	return prose(f.Name) + ", " + b.exactly(f.Diameter) + " diameter"
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

// supportNote and othersNote say what the counts leave out.
const (
	supportNote = "Corner supports are fastened as the fabricator’s instruction says; their screws are not in the counts."
	othersNote  = "Plywood and membrane are not in the crate."
)
