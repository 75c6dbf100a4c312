package layout

import (
	"copingset/layout/finding"
	"copingset/layout/length"
	"copingset/layout/metal"
)

// NeutralPrinted is what handbooks print for the neutral axis of the job's
// metal near its thickness.
func (l *Layout) NeutralPrinted() (metal.Neutral, bool) {
	return metal.NeutralOf(l.Job.System.Metal.Name, inches(l.Job.System.Metal.Thickness))
}

// TightestPrinted is the least inside radius printed for the job's metal.
func (l *Layout) TightestPrinted() (metal.TightestBend, bool) {
	return metal.TightestOf(l.Job.System.Metal.Name, inches(l.Job.System.Metal.Thickness))
}

func inches(x length.Length) float64 { return float64(x) / float64(length.Inch) }

// forming notes where the shop's own bending data lie far from what is printed.
// The shop's data are used all the same: it bends its own metal with its own
// tools.
func (l *Layout) forming() finding.List {
	var found finding.Set
	s, shop := &l.Job.System, l.Job.Shop
	if shop == nil {
		return found.List()
	}
	if n, ok := l.NeutralPrinted(); ok {
		if off := n.Off(shop.K); off < -metal.NeutralBand || off > metal.NeutralBand {
			f := finding.New(finding.Note, "k-differs", shop.At,
				"check `k_factor:` with a bend test of this metal in this thickness",
				"the neutral axis is stated at %.3f thicknesses; for %s near %.3f in (%.2f mm) thick %.3f to %.3f is "+
					"printed (%s)",
				shop.K, n.Family, n.Thickness, n.Thickness*25.4, n.Least, n.Most, n.Source)
			f.Why = "every flat pattern follows from it"
			found.Append(f)
		}
	}
	if b, ok := l.TightestPrinted(); ok {
		// Printed to three places: 3/32 in is 0.094 there.
		if r := inches(s.Profile.InsideR); r < b.Radius-0.0006 {
			f := finding.New(finding.Note, "radius-tight", s.At,
				"have the fabricator confirm its radius with a bend of this metal",
				"the inside bend radius is %.3f in (%.1f mm); for %s near %.3f in (%.2f mm) thick not under %.3f in "+
					"(%.1f mm) is printed (%s)",
				r, s.Profile.InsideR.MM(), s.Metal.Name, b.Thickness, b.Thickness*25.4, b.Radius, b.Radius*25.4,
				b.Source)
			f.Why = "bent tighter, the metal or its finish may crack"
			found.Append(f)
		}
	}
	return found.List()
}
