package sheets

import (
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/length"
)

// legNames are what the parts of a mitered piece are called, from the left.
func (b *book) legNames(q *layout.Piece) []string {
	out := make([]string, len(q.Parts))
	for i := range out {
		out[i] = b.say.Say(words.WidthMiddle)
	}
	out[0], out[len(out)-1] = b.say.Say(words.WidthLeftLeg), b.say.Say(words.WidthRightLeg)
	return out
}

// twoWidthRows are the facts of a corner of two widths, leg by leg, with the
// girths where no blank is listed.
func (b *book) twoWidthRows(q *layout.Piece, girth bool) [][]string {
	names := b.legNames(q)
	var width, slope []string
	for i, p := range q.Parts {
		leg, inside := words.In("leg", names[i]), words.In("inside", b.shopShort(p.Inside()))
		phrase := b.say.Say(words.WidthInside, leg, inside)
		if girth {
			phrase = b.say.Say(words.WidthInsideGirth, leg, inside, words.In("girth", b.shopShort(b.l.Girth(p))))
		}
		width = append(width, phrase)
		phrase = names[i] + " " + drawing.Letter(view.LegSlopeWords(b.say, b.metric, p.Slope(&b.j.System)))
		if off := view.StandsOff(b.say, b.metric, b.l.LegTop(p)); off != "" {
			phrase += ", " + drawing.Letter(off)
		}
		slope = append(slope, phrase)
	}
	return [][]string{
		{b.say.Say(words.WidthWidths), strings.Join(width, "; ")},
		{b.say.Say(words.WidthTopFalls), strings.Join(slope, "; ")},
	}
}

// legFacts names what is said of the tops of the legs of a corner of two widths.
func (b *book) legFacts(q *layout.Piece) string {
	var names []string
	for _, p := range q.Parts {
		names = append(names, b.l.LegTop(p).Facts[1:]...)
	}
	return layout.AllNamed(names...)
}

// twoWidthEnds say at which corners of a run the width changes, and how its own
// leg is made there.
func (b *book) twoWidthEnds(r *layout.Run) []lineRow {
	var rows []lineRow
	for _, p := range r.Parts {
		for i, m := range p.Piece.Miters {
			for side, q := range p.Piece.Parts[i : i+2] {
				if !m.Two() || q.Run != r.Run || q.From != p.From {
					continue
				}
				other := p.Piece.Parts[i+1-side]
				top := b.l.LegTop(q)
				rows = append(rows, lineRow{
					b.say.Say(words.WidthTwo, words.In("corner", prose(m.Corner.Name))),
					b.say.Say(
						words.WidthLegHere, words.In("leg", view.LegWords(b.say, b.metric, top)),
						words.In("name", other.Run.Name), words.In("inside", b.shopText(other.Inside())),
					),
					layout.AllNamed(append(top.Facts, layout.PartFact(other, "inside"))...),
				})
			}
		}
	}
	return rows
}

// legSection is the cross-section of one body of a family.
type legSection struct {
	family *layout.Family
	body   int
	inside length.Length
	slope  length.Slope
}

func (s legSection) alike(o legSection) bool { return s.inside == o.inside && s.slope == o.slope }

// widthWords letter the inside width of a leg, with its slope where it has not the
// profile's.
func (s legSection) widthWords(b *book) string {
	inside := b.shopShort(s.inside)
	if s.slope == b.j.System.Profile.TopSlope {
		return inside
	}
	slope := drawing.Letter(view.LegSlopeWords(b.say, b.metric, s.slope))
	return b.say.Say(words.WidthSlope, words.In("inside", inside), words.In("slope", slope))
}

// widthFacts names what widthWords letter.
func (s legSection) widthFacts(b *book) string {
	k := layout.BodyKey(layout.FactOfFamily(s.family), s.body)
	if s.slope == b.j.System.Profile.TopSlope {
		return ofKey(k, "inside-left")
	}
	return ofKey(k, "inside-left", "slope")
}

// legSections are the sections of a family: one, or of a corner of two widths
// one for each leg. It has none without a pattern.
func (b *book) legSections(f *layout.Family) []legSection {
	var out []legSection
	for i, body := range f.Bodies {
		if body.Name == "end plate" {
			continue
		}
		p := f.Pieces[0].Parts[len(out)]
		if out = append(
			out, legSection{f, i, p.Inside(), p.Slope(&b.j.System)},
		); len(out) == len(f.Pieces[0].Parts) ||
			f.Pieces[0].Wide == f.Pieces[0].Narrow {
			break
		}
	}
	return out
}
