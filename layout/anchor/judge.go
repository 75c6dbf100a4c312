package anchor

import (
	"fmt"
	"slices"
	"strings"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// judge holds what the wind asks too much of: one finding a cause, which names all
// that it touches.
func (b *builder) judge(runs []*Run, sup []*Support, turned []*Turned) {
	for _, a := range runs {
		b.overChairs(a)
	}
	b.overSupports(sup)
	b.outSupports(sup)
	b.unheld(turned)
}

// overChairs holds the chairs of a run that are asked for more than was tested, by
// assembly.
func (b *builder) overChairs(a *Run) {
	var seen []*job.Assembly
	for _, first := range a.Chairs {
		if !first.Load.Over() || slices.Contains(seen, first.Assembly) {
			continue
		}
		seen = append(seen, first.Assembly)
		var all, marks []string
		worst := first
		for _, c := range a.Chairs {
			if c.Assembly != first.Assembly || !c.Load.Over() {
				continue
			}
			all = append(all, fmt.Sprintf("%s (%s %s)", c.Name, c.Load.Governs(), percent(c.Load.Ratio())))
			for _, p := range carried(c) {
				if !slices.Contains(marks, p.Mark) {
					marks = append(marks, p.Mark)
				}
			}
			if c.Load.Ratio() > worst.Load.Ratio() {
				worst = c
			}
		}
		what, verb := "chair ", " is"
		if len(all) > 1 {
			what, verb = "chairs ", " are"
		}
		b.found.Append(finding.Finding{Code: "chair-overloaded", Severity: finding.Hold, At: a.Job.At,
			Where: finding.Ref{Perimeter: a.Perimeter.Job.Name, Run: a.Name, Station: a.ToFront(worst.At),
				HasStation: true, Pieces: marks},
			What: "run " + a.Name + ": " + what + listed(all) + verb + " asked for more than assembly " +
				first.Assembly.Name + " proves for one chair",
			Why: "neither more chairs nor the next assembly that covers the zone bring it down to what was tested",
			Mend: "name an assembly tested for more, on closer chairs or with the force of one chair in its report, " +
				"or a shorter leg or stock length"})
	}
}

// Governs names the load case that asks the most.
func (l Load) Governs() string {
	switch l.Ratio() {
	case l.Up.Ratio():
		return "up"
	case l.Beam.Ratio():
		return "up, as a stiff cap"
	case l.Out.Ratio():
		return "out"
	case l.Hook.Ratio():
		return "up, at its hook"
	case l.Snap.Ratio():
		return "up, at its snap"
	}
	return "roof-side leg"
}

// percent rounds up, so that what is over never reads as 100.
func percent(r float64) string { return fmt.Sprintf("%d%%", int(r*100+0.999)) }

// listed joins names as a sentence does.
func listed(all []string) string {
	if n := len(all); n > 1 {
		return strings.Join(all[:n-1], ", ") + " and " + all[n-1]
	}
	return strings.Join(all, "")
}

// overSupports holds the pieces whose hooked supports are asked for more than
// somebody answers for.
func (b *builder) overSupports(sup []*Support) {
	var all, marks []string
	var first *Support
	for _, s := range sup {
		if s.Load.Ratio() <= full {
			continue
		}
		if first == nil {
			first = s
		}
		all = append(all, fmt.Sprintf("%s (%s)", s.Name, percent(s.Load.Ratio())))
		if !slices.Contains(marks, s.Piece.Mark) {
			marks = append(marks, s.Piece.Mark)
		}
	}
	if first == nil {
		return
	}
	h := b.sys.Corner.Support.Hook
	b.found.Append(finding.Finding{Code: "support-overloaded", Severity: finding.Hold, At: h.At,
		Where: finding.Ref{Perimeter: first.Piece.Perimeter.Job.Name, Pieces: marks},
		What: "the hooks of corner supports " + listed(all) + " are asked for more than " +
			job.BothForce(h.Allowable) + ", which " + h.Document + " allows",
		Why: "the corner piece would come off its support",
		Mend: "have another number or place of the supports tested, or the corner pieces covered under `corner: " +
			"covered_by:`"})
}

// bears is how far, in mm, what lies under a leg on paper may touch it.
const bears = 0.5

// outSupports holds the pieces whose supports would stand out under a leg.
func (b *builder) outSupports(sup []*Support) {
	var all, marks []string
	var most length.Length
	var first *Support
	for _, s := range sup {
		for _, m := range s.Piece.Miters {
			out := s.OutUnder(b.sys, m.Seam)
			if m.Corner != s.Corner || out < length.FromMM(bears) {
				continue
			}
			if first == nil {
				first = s
			}
			most, all = length.Max(most, out), append(all, s.Name)
			if !slices.Contains(marks, s.Piece.Mark) {
				marks = append(marks, s.Piece.Mark)
			}
		}
	}
	if first == nil {
		return
	}
	what, verb := "corner support ", " would stand up to "
	if len(all) > 1 {
		what = "corner supports "
	}
	b.found.Append(finding.Finding{Code: "support-out", Severity: finding.Hold, At: b.sys.Corner.Support.At,
		Where: finding.Ref{Perimeter: first.Piece.Perimeter.Job.Name, Pieces: marks},
		What:  what + listed(all) + verb + job.Both(most) + " out under a leg of the cap",
		Why:   "the corner piece would not go down over it",
		Mend:  "a shorter or narrower support, or another place of it under `supports:`"})
}

// unheld holds the pieces that turn whose hold-downs do not balance the uplift, or
// stand farther apart round a miter than was tested, and that nobody covers.
func (b *builder) unheld(turned []*Turned) {
	var marks []string
	var off, bay, spacing length.Length
	var first *Turned
	for _, t := range turned {
		// where only the bay is too long, the chair that has no room is said
		if t.Held || t.Covered || t.balanced && b.roomless[t.Piece] {
			continue
		}
		if first == nil {
			first = t
		}
		if !slices.Contains(marks, t.Piece.Mark) {
			marks = append(marks, t.Piece.Mark)
		}
		off = length.Max(off, t.Off)
		if t.Bay > t.Spacing && t.Bay-t.Spacing > bay-spacing {
			bay, spacing = t.Bay, t.Spacing
		}
	}
	if first == nil {
		return
	}
	what, has := "piece "+marks[0], " has"
	if len(marks) > 1 {
		what, has = "pieces "+listed(marks), " have"
	}
	var lacks []string
	if bay > 0 {
		lacks = append(lacks, "up to "+job.Both(bay)+
			" from hold-down to hold-down round a miter, where "+job.Both(spacing)+" was tested")
	}
	if off > 0 {
		lacks = append(lacks, "an uplift that acts up to "+job.Both(off)+" outside what holds it down")
	}
	if len(lacks) == 0 {
		lacks = append(lacks, "an uplift that its hold-downs do not balance")
	}
	mend := "have the corner support hooked and what it holds tested (`corner: support: hook:`), a longer leg or a " +
		"shorter chair, or have the pieces covered by a report or the engineer under `corner: covered_by:`"
	if b.sys.Corner.Support.Hook != nil {
		mend = "a longer leg, a shorter chair or an assembly tested at a wider spacing, or have the pieces covered " +
			"by a report or the engineer under `corner: covered_by:`"
	}
	b.found.Append(finding.Finding{Code: "corner-unheld", Severity: finding.Hold, At: b.sys.At,
		Where: finding.Ref{Perimeter: first.Piece.Perimeter.Job.Name, Pieces: marks},
		What:  what + has + " " + strings.Join(lacks, " and "),
		Why:   "a support that only bears pushes and never pulls, and a chair holds down at its centre",
		Mend:  mend})
}
