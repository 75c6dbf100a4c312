package layout

import (
	"slices"
	"strings"

	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/wall"
)

// unsound holds the pieces over a stretch of wall that is loose, rotten or wet:
// nothing is fastened to it until the survey no longer says so or a person
// clears it.
func (l *Layout) unsound() finding.List {
	var found finding.Set
	for _, p := range l.Perimeters {
		on := map[*wall.Run][]int{} // places in the list of its pieces; look-up only
		for i, q := range p.Pieces {
			for _, t := range q.Parts {
				on[t.Run.OnWall()] = append(on[t.Run.OnWall()], i)
			}
		}
		for _, r := range p.Runs {
			for i := range r.Unsound {
				u := &r.Unsound[i]
				if u.Cleared != nil {
					continue
				}
				var codes []string
				for _, c := range u.Conditions {
					codes = append(codes, string(c))
				}
				found.Append(finding.Finding{
					Code: "wall-unsound", Severity: finding.Hold, At: u.Reading.Job.At,
					Where: finding.Ref{Perimeter: p.Job.Name, Run: r.Name, Station: u.Reading.Station, HasStation: true,
						Pieces: l.over(p, on, r, u)},
					What: "run " + r.Name + " at station " + job.Both(u.Reading.Job.Station) + ": the wall top is " +
						strings.Join(codes, " and ") +
						"; how far is not known, so it is taken to reach the next reading on both sides",
					Why: "no chair is fastened to it",
					Mend: "have it put right and survey it again, or say under the run who looked: `cleared: " +
						"[{station: ..., measure: condition, by: ..., on: ...}]`",
				})
			}
		}
	}
	return found.List()
}

// over are the marks of the pieces over a stretch; none stands for the run. A
// joint's chair carries two pieces and reaches half its length past the joint:
// a piece that ends so near the stretch is over it too, round a kink as well.
func (l *Layout) over(p *Perimeter, on map[*wall.Run][]int, r *Run, u *wall.Unsound) []string {
	s := &l.Job.System
	past := s.Chair.Length/2 + s.Joint.Gap
	from, to := r.ToCap(u.From)-past, r.ToCap(u.To)+past
	near := slices.Clone(on[r.OnWall()])
	if c := r.Left.Corner; c != nil {
		near = append(near, on[c.Arrive]...)
	}
	if c := r.Right.Corner; c != nil {
		near = append(near, on[c.Leave]...)
	}
	slices.Sort(near)
	var out []string
	for _, i := range slices.Compact(near) {
		q := p.Pieces[i]
		if slices.ContainsFunc(q.Parts, func(t cap.Part) bool {
			left, right := r.Left.Corner, r.Right.Corner
			switch {
			case t.Run == r.Run && t.From < to && t.To > from:
				return true
			case left != nil && left.Absorb && t.Run.OnWall() == left.Arrive && t.To > t.Run.Cap+from:
				return true
			}
			return right != nil && right.Absorb && t.Run.OnWall() == right.Leave && t.From < to-r.Cap
		}) {
			out = append(out, q.Mark)
		}
	}
	return out
}
