package layout

import (
	"cmp"
	"slices"

	"copingset/layout/job"
	"copingset/layout/length"
)

// SurveyStation is a place on a run where its wall is to be measured.
type SurveyStation struct {
	At    length.Length // from the left end of the run, on its station face
	Known bool          // false: the tape has to tell, as at the far end of a face whose length is not given
	What  []Standing    // what stands there; none: a station between
}

// Standing is what stands at a station of a wall that is to be measured.
type Standing struct {
	Kind StandingKind
	Name string // of an obstacle
}

// StandingKind is a kind of what stands at a station.
type StandingKind int

// What can stand at a station. Drawn says of a right end that its length is from a drawing.
const (
	LeftCorner StandingKind = iota
	LeftEnd
	LeftBreak
	RightCorner
	RightEnd
	RightBreak
	Drawn
	Beside
	ExpansionLeft
	ExpansionRight
)

// SurveySteps is the step between stations that practice takes: 2 ft, or 600
// mm (common practice: every 2 to 3 ft).
func SurveySteps(metric bool) length.Length {
	if metric {
		return 600 * length.Millimetre
	}
	return 2 * length.Foot
}

// SurveyStations lists where a run is to be measured, from the left hand to the
// right: at both its ends, at what stands on it, on both sides of a building
// expansion joint, and every so often between. A station between that would
// stand within a quarter of the step of another is left out.
func SurveyStations(p *job.Perimeter, r *job.Run, every, grid length.Length) []SurveyStation {
	first := LeftCorner
	if p.Kind == job.Open && r == &p.Runs[0] {
		first = LeftEnd
	}
	if i := slices.IndexFunc(p.Runs, func(q job.Run) bool { return q.Name == r.Name }); i >= 0 {
		if i == 0 {
			i = len(p.Runs)
		}
		if p.Runs[i-1].Right.Kind == job.EndPitch {
			first = LeftBreak
		}
	}
	out := []SurveyStation{{Known: true, What: []Standing{{Kind: first}}}}
	end := SurveyStation{At: r.Length, Known: r.StationFace == r.Face}
	last := RightCorner
	switch r.Right.Kind {
	case job.EndTurn:
	case job.EndPitch:
		last = RightBreak
	default:
		last = RightEnd
	}
	end.What = []Standing{{Kind: last}}
	if end.Known && r.Basis == job.Drawing {
		end.What = append(end.What, Standing{Kind: Drawn})
	}
	for i := range r.Obstacles {
		o := &r.Obstacles[i]
		out = append(out, SurveyStation{At: o.Station, Known: true, What: []Standing{{Beside, o.Name}}})
	}
	for i := range r.Expansion {
		e := &r.Expansion[i]
		out = append(out,
			SurveyStation{At: e.Station - e.Gap/2, Known: true, What: []Standing{{Kind: ExpansionLeft}}},
			SurveyStation{At: e.Station + (e.Gap - e.Gap/2), Known: true, What: []Standing{{Kind: ExpansionRight}}})
	}
	for i := range out {
		out[i].At = length.RoundTo(out[i].At, grid)
	}
	named := append(slices.Clone(out), end)
	for s := every; s < r.Length; s += every {
		at := length.RoundTo(s, grid)
		if !slices.ContainsFunc(named, func(n SurveyStation) bool { return length.Abs(n.At-at) < every/4 }) {
			out = append(out, SurveyStation{At: at, Known: true})
		}
	}
	slices.SortStableFunc(out, func(a, b SurveyStation) int { return cmp.Compare(a.At, b.At) })
	out = append(out, end)
	merged := out[:1]
	for _, s := range out[1:] {
		last := &merged[len(merged)-1]
		if s.At != last.At || !s.Known {
			merged = append(merged, s)
			continue
		}
		last.What = append(last.What, s.What...)
	}
	return merged
}
