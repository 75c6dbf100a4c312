package anchor

import (
	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall"
)

// compare sets the two ways to pack a perimeter beside each other, with the
// chairs and the supports where they stand: both stand on the same places
// whichever is taken.
func (b *builder) compare(runs []*Run, sup []*Support) wall.Packing {
	k := &b.job.Packing
	q := &wall.Packing{}
	var strips []*wall.Strip
	levelled := b.levelled(runs, job.PackContinuous)
	for _, a := range runs {
		w := a.OnWall()
		zones := levelled[w]
		laid := w.Lay(zones, b.sys.Remainder, b.grid)
		nails := 0
		for _, z := range zones {
			nails += z.Nails
			q.Continuous.Layers += (z.To - z.From) * length.Length(z.Layers)
		}
		q.Continuous.Strips += len(laid)
		q.Continuous.Nails += nails
		if k.Method != job.PackChairs {
			a.Strips, a.Nails = laid, nails
		}
		for i := range laid {
			strips = append(strips, &laid[i])
		}
		for _, c := range a.Chairs {
			under := length.Length(b.layersBelow(c, levelled)) * k.Layer
			b.stack(q, c.PackFront, under)
			b.stack(q, c.PackRear, under)
		}
	}
	for _, s := range sup {
		b.stack(q, s.Packing, length.Length(layersAt(s, levelled))*k.Layer)
	}
	q.Sheets, q.Continuous.Cuts, q.SheetsLeast = wall.RipPlan(strips, k.Sheet)
	q.Continuous.Sheets = len(q.Sheets)
	q.Compare(k)
	return *q
}

// stack counts the shims of one stack both ways.
func (b *builder) stack(q *wall.Packing, want, under length.Length) {
	for _, e := range []struct {
		to   *wall.Effort
		want length.Length
	}{{&q.Continuous, want - under}, {&q.Chairs, want}} {
		shims := Shims(e.want, b.job.Packing.Shims)
		e.to.Shims += len(shims)
		if length.Abs(e.want-length.Sum(shims...)) > b.grid {
			e.to.Missing++
		}
	}
}

// layersAt is how many full layers lie under a support: on both its walls.
func layersAt(s *Support, levelled map[*wall.Run][]wall.ShimZone) int {
	a, l := s.Corner.Arrive, s.Corner.Leave
	return min(layersUnder(levelled[a], [2]length.Length{a.Front - 1, a.Front}),
		layersUnder(levelled[l], [2]length.Length{0, 1}))
}

// packSupports makes the packing of the supports of layers and shims, as a chair's.
func (b *builder) packSupports(sup []*Support, levelled map[*wall.Run][]wall.ShimZone) {
	p := &b.job.Packing
	for _, s := range sup {
		if p.Method != job.PackChairs && p.Layer > 0 {
			s.Layers = layersAt(s, levelled)
		}
		s.Shims = Shims(s.Packing-length.Length(s.Layers)*p.Layer, p.Shims)
	}
}

// layersUnder is how many full layers lie under the whole of a stretch.
func layersUnder(zones []wall.ShimZone, s [2]length.Length) int {
	out, first := 0, true
	for _, z := range zones {
		if z.From < s[1] && z.To > s[0] && (first || z.Layers < out) {
			out, first = z.Layers, false
		}
	}
	return out
}

// twists holds the corner pieces whose legs would have to follow a grade by
// more than the job's twist: a corner piece is level, so over each leg the set
// surface leaves it by the grade times the leg.
func (b *builder) twists(pieces []*cap.Piece) {
	for _, p := range pieces {
		if len(p.Miters) == 0 && p.Kind != cap.Tee || p.Kind == cap.PitchMiter { // whose legs follow the grade
			continue
		}
		for _, q := range p.Parts {
			r := q.Run
			rise := length.Abs(r.SetRight - r.SetLeft)
			if rise == 0 || r.Front <= 0 {
				continue
			}
			off := length.MulDiv(rise, int64(length.Min(q.Length(), r.Front)), int64(r.Front))
			if off <= b.job.Packing.Twist {
				continue
			}
			b.found.Append(finding.Finding{Code: "pitch-miter", Severity: finding.Hold, At: r.Job.At,
				Where: finding.Ref{Perimeter: p.Perimeter.Job.Name, Run: r.Name, Pieces: []string{p.Mark}},
				What: "piece " + p.Mark + " needs a pitch miter: over its part on run " + r.Name + ", " +
					job.Both(q.Length()) +
					" long, the set surface leaves it by " + job.Both(off) + "; the job allows " +
					job.Both(b.job.Packing.Twist),
				Why: "corner pieces stay level, and the run has a grade",
				Mend: "make the stretch beside the corner a run of its own with `grade: level`, ended by `pitch:` at " +
					"the break, shorten the leg, or allow less grade"})
		}
	}
}
