package layout

import (
	"slices"

	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
	"copingset/layout/wall"
)

// WallReport is what was read on a run, beside what follows from it.
func (l *Layout) WallReport(r *Run) plan.WallReport {
	w := plan.WallReport{Key: plan.Key(Named(FactOfRun(r), "")), Metric: l.Job.Units == job.Metric, Run: r.Name,
		Front: r.Front, Crew: r.ToCrew(r.ToCap(0)), Mark: r.Job.Datum.Mark, Grid: l.Grid,
		WidthLeast: r.WidthLeast, InsideMost: r.Inside}
	add := func(line *[]plan.Pt, at, value length.Length) { *line = append(*line, plan.Pt{X: at, Y: value}) }
	for _, q := range r.Readings {
		k := plan.WallReading{At: q.Station, Photos: q.Job.Photos, Note: q.Job.Note}
		for _, c := range q.Job.Conditions {
			k.Conditions = append(k.Conditions, string(c))
		}
		w.Readings = append(w.Readings, k)
		top := r.ShiftAt(q.Station) - q.Gap
		w.Low = w.Low || top != q.Offset
		add(&w.Width, q.Station, q.Width)
		add(&w.Need, q.Station, q.Need)
		add(&w.Face, q.Station, q.Offset)
		add(&w.Top, q.Station, top)
		add(&w.TopStreet, q.Station, q.TopOutside)
		add(&w.TopRoof, q.Station, q.TopInside)
	}
	if r.Perimeter.Cross != 0 {
		w.SetRoof = setAtRoof(r)
	}
	add(&w.Set, 0, r.SetLeft)
	add(&w.Set, r.Front, r.SetRight)
	add(&w.Line, 0, r.Line.Left)
	add(&w.Line, r.Front, r.Line.Right)
	w.GapMost, w.GapAt = r.Line.GapMost, r.Line.GapMostAt
	w.GapFrom = r.ShiftAt(w.GapAt)
	w.GapTo = w.GapFrom - w.GapMost
	l.widthsOf(r, &w)
	for _, u := range r.Unsound {
		w.Unsound = append(w.Unsound, plan.WallStretch{From: u.From, To: u.To})
	}
	var again []*wall.Reading
	for i := range r.Suspects {
		s := &r.Suspects[i]
		w.Doubts = append(w.Doubts, wallDoubt(s))
		if s.Cleared == nil && !slices.Contains(again, s.Reading) {
			again = append(again, s.Reading)
		}
	}
	w.Again = len(again)
	step := length.Shop(w.Metric).Step()
	for _, q := range r.Limits {
		k := plan.WallLimit{Name: q.Name, Source: q.Source, Allowed: q.Allowed, Found: length.RoundTo(q.Found, step),
			From: r.ToCrew(r.ToCap(q.At)), To: r.ToCrew(r.ToCap(q.To)), Kept: q.Within}
		if q.Sure != "" {
			k.Source += " (" + q.Sure + ")"
		}
		w.Limits = append(w.Limits, k)
	}
	return w
}

// setAtRoof is the set surface at the roof edge, which bends at the wall's corners.
func setAtRoof(r *Run) []plan.Pt {
	var out []plan.Pt
	for i, q := range r.Readings {
		for _, corner := range []length.Length{0, r.Front} {
			if i > 0 && r.Readings[i-1].Station < corner && corner < q.Station {
				k := r.At(corner)
				out = append(out, plan.Pt{X: corner, Y: k.TopInside + k.PackRear})
			}
		}
		out = append(out, plan.Pt{X: q.Station, Y: q.TopInside + q.PackRear})
	}
	return out
}

// widthsOf are the inside widths of a run and the needs they take. Where the cap
// ends short of the wall's corner, the wall goes on.
func (l *Layout) widthsOf(r *Run, w *plan.WallReport) {
	profile := r.Profile()
	for i, p := range profile {
		at := r.ToFront(p.At)
		switch i {
		case 0:
			at = length.Min(at, 0)
		case len(profile) - 1:
			at = length.Max(at, r.Front)
		}
		least, most := l.NeedBand(p.Inside)
		w.Inside = append(w.Inside, plan.Pt{X: at, Y: p.Inside})
		w.NeedLeast = append(w.NeedLeast, plan.Pt{X: at, Y: least})
		w.NeedMost = append(w.NeedMost, plan.Pt{X: at, Y: most})
	}
	for _, b := range r.Bands {
		w.Bands = append(w.Bands, plan.WallBand{WallStretch: plan.WallStretch{From: r.ToFront(b.From),
			To: r.ToFront(b.To)}, Inside: b.Inside})
	}
}

// wallDoubt is a doubted reading; a value at leg depth is shown where the reading
// stands that was made of it.
func wallDoubt(s *wall.Suspect) plan.WallDoubt {
	q := s.Reading
	d := plan.WallDoubt{Plot: plan.WallNowhere, Measure: s.Measure, At: q.Station, Shown: q.Width, Value: s.Value,
		Expected: s.Expected, Cleared: s.Cleared != nil}
	switch job.Measure(s.Measure) {
	case job.MeasureWidth, job.MeasureWidthLow:
		d.Plot = plan.WallWidths
	case job.MeasureStation:
		d.Plot, d.OfStation = plan.WallWidths, true
	case job.MeasureOffset, job.MeasureOffsetLow:
		d.Plot, d.Shown = plan.WallOffsets, q.Offset
	case job.MeasureTopOutside:
		d.Plot, d.Shown = plan.WallTops, q.TopOutside
	case job.MeasureTopInside:
		d.Plot, d.Shown = plan.WallTops, q.TopInside
	}
	return d
}
