package sheets

import (
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/layout"
	"copingset/layout/length"
)

// legNames are what the parts of a mitered piece are called, from the left.
func legNames(q *layout.Piece) []string {
	out := make([]string, len(q.Parts))
	for i := range out {
		out[i] = "middle"
	}
	out[0], out[len(out)-1] = "left leg", "right leg"
	return out
}

// twoWidthRows are the facts of a corner of two widths, leg by leg, with the
// girths where no blank is listed.
func (b *book) twoWidthRows(q *layout.Piece, girth bool) [][]string {
	names := legNames(q)
	var width, slope []string
	for i, p := range q.Parts {
		phrase := names[i] + " inside " + b.shopShort(p.Inside())
		if girth {
			phrase += ", girth " + b.shopShort(b.l.Girth(p))
		}
		width = append(width, phrase)
		phrase = names[i] + " " + drawing.Letter(view.LegSlopeWords(b.metric, p.Slope(&b.j.System)))
		if off := view.StandsOff(b.metric, b.l.LegTop(p)); off != "" {
			phrase += ", " + drawing.Letter(off)
		}
		slope = append(slope, phrase)
	}
	return [][]string{{"Widths", strings.Join(width, "; ")}, {"Top falls", strings.Join(slope, "; ")}}
}

// twoWidthEnds say at which corners of a run the width changes, and how its own
// leg is made there.
func (b *book) twoWidthEnds(r *layout.Run) [][]string {
	var rows [][]string
	for _, p := range r.Parts {
		for i, m := range p.Piece.Miters {
			for side, q := range p.Piece.Parts[i : i+2] {
				if !m.Two() || q.Run != r.Run || q.From != p.From {
					continue
				}
				other := p.Piece.Parts[i+1-side]
				rows = append(rows, []string{"Two widths at " + prose(m.Corner.Name), "leg on this run " + view.LegWords(b.metric, b.l.LegTop(q)) +
					"; on run " + other.Run.Name + " " + b.shopText(other.Inside()) + " inside"})
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

// slopeWords say the slope of a leg that has not the profile's.
func (s legSection) slopeWords(b *book) string {
	if s.slope == b.j.System.Profile.TopSlope {
		return ""
	}
	return ", top falls " + drawing.Letter(view.LegSlopeWords(b.metric, s.slope))
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
		if out = append(out, legSection{f, i, p.Inside(), p.Slope(&b.j.System)}); len(out) == len(f.Pieces[0].Parts) || f.Pieces[0].Wide == f.Pieces[0].Narrow {
			break
		}
	}
	return out
}
