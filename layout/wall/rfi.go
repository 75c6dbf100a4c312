package wall

import (
	"slices"
	"strings"

	"copingset/layout/job"
	"copingset/layout/length"
)

// RFI is a question to the general contractor: what was found between two
// stations of a run, what was to be expected by which source, and what is asked.
type RFI struct {
	Perimeter *Perimeter
	Run       *Run
	From, To  length.Length // on the front face; equal at one reading
	What      string
	Limit     string // the limit, empty where none is published
	Source    string // where the limit stands, and how sure the figure is
	Ask       string
	Photos    []string
}

// RFIs lists what the general contractor should put right or answer, in the
// order of the runs: readings out of the published limits, what is wrong with
// the wall top, readings to be measured again and runs that could not be
// measured as they must be.
func RFIs(walls []*Perimeter) []RFI {
	var out []RFI
	for _, p := range walls {
		for _, r := range p.Runs {
			var own []RFI
			own = append(own, unmeasured(r)...)
			own = append(own, conditions(r)...)
			own = append(own, beyond(r)...)
			own = append(own, doubted(r)...)
			for i := range own {
				own[i].Perimeter, own[i].Run = p, r
				own[i].Photos = r.photos(own[i].From, own[i].To, own[i].Photos)
			}
			out = append(out, own...)
		}
	}
	return out
}

func unmeasured(r *Run) []RFI {
	var out []RFI
	if r.Job.Basis == job.Drawing {
		out = append(out, RFI{To: r.Front, What: "the length of the run is taken from a drawing",
			Ask: "give access to measure it, and say when the wall top is finished"})
	}
	switch {
	case !r.Surveyed:
		out = append(out, RFI{To: r.Front, What: "the wall top has not been surveyed",
			Ask: "give access to survey it, and say when the wall top is finished"})
	case r.untied():
		out = append(out, RFI{To: r.Front, What: "the face offsets begin or end away from the wall's corners",
			Ask: "give access to both corners of the run, or mark their line"})
	}
	return out
}

// conditions joins neighbouring readings with the same condition.
func conditions(r *Run) []RFI {
	var out []RFI
	for _, c := range job.Conditions() {
		open := false
		for i := range r.Readings {
			q := &r.Readings[i]
			has := slices.Contains(q.Job.Conditions, c) &&
				!(c.Unsound() && r.clearedBy(q.Job, job.MeasureCondition) != nil)
			switch {
			case has && open:
				out[len(out)-1].To = q.Station
			case has:
				what, ask := conditionWords(c)
				out = append(out, RFI{From: q.Station, To: q.Station, What: what, Ask: ask})
			}
			open = has
		}
	}
	slices.SortStableFunc(out, func(a, b RFI) int { return int(min(max(a.From-b.From, -1), 1)) })
	return out
}

func conditionWords(c job.Condition) (what, ask string) {
	switch c {
	case job.Loose:
		return "the wall top is loose", "fasten or replace what is loose, and say when it can be looked at again"
	case job.Rotten:
		return "the wood of the wall top is rotten",
			"cut out what is rotten and replace it by sound treated wood, and say when it can be looked at again"
	case job.Wet:
		return "the wall top is wet", "find where the water comes from, stop it and let the top dry, and say when it " +
			"can be looked at again"
	case job.Fixings:
		return "old fixings stand up from the wall top", "take them out or cut them off flush"
	case job.Pipes:
		return "pipes or cables lie on the wall top or come through it",
			"move them, or state their sizes and places and who seals them"
	case job.Flashing:
		return "earlier flashing or coping covers the wall top",
			"say who takes it off and when, or confirm in writing that it stays"
	}
	return string(c), "say what is to be done"
}

// beyond lists the published limits a run does not keep. A limit kept to over a
// long stretch and missed over a short one is still missed, so each is told.
func beyond(r *Run) []RFI {
	var out []RFI
	for _, l := range r.Limits {
		if l.Within {
			continue
		}
		out = append(out, RFI{From: l.At, To: l.To, What: l.Name + ": found " + fine(l.Found), Limit: fine(l.Allowed),
			Source: l.Source + " (" + l.Sure + ")",
			Ask:    "bring it within the limit, or accept it in writing with the build-up and the width it takes"})
	}
	return out
}

func doubted(r *Run) []RFI {
	var out []RFI
	for _, s := range r.Suspects {
		if s.Cleared != nil {
			continue
		}
		out = append(out, RFI{From: s.Reading.Station, To: s.Reading.Station,
			What: "the " + s.Measure + " reads " + job.Both(s.Value) + " where its neighbours lead to " +
				job.Both(s.Expected),
			Ask: "give access to measure again, or say what stands on or is missing from the wall there"})
	}
	return out
}

// photos are those taken between two stations, each once.
func (r *Run) photos(from, to length.Length, out []string) []string {
	for _, q := range r.Readings {
		if q.Station < from || q.Station > to {
			continue
		}
		for _, n := range q.Job.Photos {
			if !slices.ContainsFunc(out, func(o string) bool { return strings.EqualFold(o, n) }) {
				out = append(out, n)
			}
		}
	}
	return out
}
