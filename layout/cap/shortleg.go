package cap

import (
	"slices"
	"strings"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// shortLegs says which pieces have a leg under the job's least, beside a run that is too
// short for it, once for the perimeter: with the job's leave a note, else a hold.
func (b *builder) shortLegs(pieces []*Piece) {
	var marks []string
	least := length.Length(0)
	for _, p := range pieces {
		for _, end := range []int{0, 1} {
			has, asked, ok := b.legOf(p, end)
			if !ok || has >= asked {
				continue
			}
			if !slices.Contains(marks, p.Mark) {
				marks = append(marks, p.Mark)
			}
			if least == 0 || has < least {
				least = has
			}
		}
	}
	if len(marks) == 0 {
		return
	}
	f := finding.Finding{Code: "leg-under", Severity: finding.Hold, At: b.sys.At,
		Where: finding.Ref{Perimeter: pieces[0].Perimeter.Job.Name, Pieces: marks},
		What: "legs under the least that the job states: of pieces " + strings.Join(marks, ", ") + ", down to " +
			job.Both(least),
		Why:  "their runs are too short for two legs of that length",
		Mend: "if the fabricator makes them, write the least leg he makes there as `corner: short_leg:`"}
	if len(marks) == 1 {
		f.What = "a leg under the least that the job states: of piece " + marks[0] + ", " + job.Both(least)
	}
	if b.sys.Corner.ShortLeg > 0 {
		f.Severity, f.Mend = finding.Note, "check them with the fabricator: `corner: short_leg:` gives leave for them"
	}
	b.found.Append(f)
}

// legOf is the front of the leg of a piece at its left or its right joint, and the least that
// the job states of it: a corner's, an end's, or a pitch miter's. It is not ok of a
// piece without such a leg.
func (b *builder) legOf(p *Piece, end int) (has, asked length.Length, ok bool) {
	q, ended, k := p.Parts[0], p.LeftEnd, 0
	if end == 1 {
		q, ended, k = p.Parts[len(p.Parts)-1], p.RightEnd, len(p.Miters)-1
	}
	if ended != job.EndTurn || p.Kind == Straight || p.Kind == Transition || p.Kind == Tee {
		return 0, 0, false
	}
	has = q.Length()
	switch {
	case len(p.Miters) == 0 && (p.LeftEnd == job.EndWall || p.RightEnd == job.EndWall):
		return has, b.sys.WallEnd.Leg, true
	case len(p.Miters) == 0:
		return has, b.sys.EndCap.Leg, true
	case p.Miters[k].Corner.Straight():
		return has, b.sys.PitchMiter.Leg, true
	}
	asked = b.sys.Corner.Leg
	if b.sys.Corner.LegFace == job.Rear {
		asked += p.Miters[k].Trim[end]
	}
	return has, asked, true
}
