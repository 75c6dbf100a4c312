package layout

import (
	"cmp"
	"slices"

	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// holesFit holds the pieces whose holes do not lie in the flat of their top: a hole
// wider than the cap, one beyond it, and one that a fold runs through. None can be
// cut in the blank as it is drawn.
func (l *Layout) holesFit() finding.List {
	var out finding.List
	s := &l.Job.System
	for _, p := range l.Perimeters {
		for _, q := range p.Pieces {
			for _, o := range q.Cutouts {
				r := runOf(q, o)
				if r == nil {
					continue
				}
				at := r.ToCap(r.FrontStation(o.Station))
				inside, h := r.InsideAt(at), l.HoleOf(q, o)
				street, roof := s.Metal.Thickness+s.Profile.InsideR, s.Metal.Thickness+inside-s.Profile.InsideR
				near, far := h.FromFront-o.Depth/2, h.FromFront+o.Depth/2
				if street <= near && far <= roof {
					continue
				}
				faces := r.FaceAt(s, at)
				is := "a hole of " + job.Both(o.Depth) + " across, its middle " + job.Both(o.FromFace) +
					" behind the wall's street face"
				var code, what string
				switch {
				case h.FromFront < s.Metal.Thickness || h.FromFront > s.Metal.Thickness+inside:
					code, what = "hole-off",
						is+", lies off the cap, which is "+job.Both(inside)+" wide inside over a wall of "+
							job.Both(faces.Width())
				case o.Depth > roof-street:
					code, what = "hole-wide", is+", is wider than the flat of the cap's top, "+job.Both(roof-street)
				default:
					code, what = "hole-in-fold",
						is+", would be cut through the fold of a leg: the flat of the top ends "+
							job.Both(street)+" and "+job.Both(roof)+" behind the cap's street side"
				}
				f := finding.New(finding.Hold, code, o.At,
					"measure `from_face` and `across` again; where it does stand there, have the piece detailed by "+
						"hand",
					"piece %s: %s: %s", q.Mark, o.Name, what)
				f.Where = finding.Ref{Perimeter: p.Job.Name, Run: r.Name, Pieces: []string{q.Mark}}
				f.Also = beside(r, o)
				out.Append(f)
			}
		}
	}
	return out
}

// runOf is the run of a piece on which an obstacle stands.
func runOf(p *Piece, o *job.Obstacle) *cap.Run {
	for _, t := range p.Parts {
		for i := range t.Run.Job.Obstacles {
			if &t.Run.Job.Obstacles[i] == o {
				return t.Run
			}
		}
	}
	return nil
}

// beside is the place of the reading nearest to an obstacle: the width that it is
// held against.
func beside(r *cap.Run, o *job.Obstacle) []finding.Place {
	if len(r.Job.Readings) == 0 {
		return nil
	}
	nearest := slices.MinFunc(r.Job.Readings, func(a, b job.Reading) int {
		return cmp.Compare(length.Abs(a.Station-o.Station), length.Abs(b.Station-o.Station))
	})
	if nearest.At.IsZero() {
		return nil
	}
	return []finding.Place{nearest.At}
}
