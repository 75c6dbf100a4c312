package shop

import (
	"math"

	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/length"
)

// hookTip is how far behind the street face the hook of a laid section reaches in,
// in mm, over its arc and its hem; at its straight foot it begins.
func hookTip(section fold.Path, hang fold.Laid) float64 {
	foot := footOf(section, hang)
	tip := math.Inf(1)
	for _, s := range hang.Places(chord) {
		if s < foot {
			continue
		}
		for _, q := range both(hang.Skins(s)) {
			tip = math.Min(tip, q.X)
		}
	}
	return tip
}

// footOf is where the rear leg of a section ends and its hook begins, along the sheet.
func footOf(section fold.Path, hang fold.Laid) float64 {
	foot, _ := hang.Span(section.Root + 1)
	return foot + section.Segs[section.Root+1].Flat
}

// hookRoom holds stations where the hook would stand in the wall: it reaches farther
// in than the rear leg stands off the wall at its worst depth.
func (b *builder) hookRoom(perimeters [][]*cap.Piece) {
	m := b.measures()
	if m.hook == 0 {
		return
	}
	wide := 10 * (b.s.Chair.Length + b.s.Metal.Thickness).MM() // the hook is alike under every width
	section, err := b.path(m, wide)
	if err != nil {
		return // said of the pieces
	}
	reach := length.FromMM(wide-hookTip(section, section.Lay())) - b.s.Metal.Thickness
	seen := map[*cap.Run]bool{} // look-up only
	for _, pieces := range perimeters {
		for _, p := range pieces {
			for _, q := range p.Parts {
				if !seen[q.Run] {
					seen[q.Run] = true
					b.hookIn(p, q.Run, reach)
				}
			}
		}
	}
}

// hookIn says it once of a run, at the station of the least play.
func (b *builder) hookIn(p *cap.Piece, r *cap.Run, reach length.Length) {
	if len(r.Play) == 0 || r.PlayLeast >= reach {
		return
	}
	for i, play := range r.Play {
		if play != r.PlayLeast {
			continue
		}
		q := r.Readings[i]
		b.found.Append(finding.Finding{
			Code: "hook-in-wall", Severity: finding.Hold, At: q.Job.At,
			Where: finding.Ref{Perimeter: p.Perimeter.Job.Name, Run: r.Name, Station: q.Station, HasStation: true},
			What: "run " + r.Name + " at station " + job.Both(r.CrewAt(q.Station)) + ": the hook reaches " +
				thin(reach) +
				" in from the roof-side leg, and the wall stands " +
				thin(play) + " from it",
			Why: "the cap would not go over the wall there, or its leg would stand sprung",
			Mend: "a shorter hook or a blunter one, or a `clearance: rear:` of " +
				job.Both(length.CeilTo(reach, length.Inch16)) + " at least, which is " +
				job.Both(b.s.RearClearance) + " now; ask the fabricator",
		})
		return
	}
}
