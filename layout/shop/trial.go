package shop

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/length"
)

// Trial is a strip that shows what one bend of the caps takes: bent in its middle
// and measured, it gives the deduction that stands before the K factor.
type Trial struct {
	Turn      float64       // degrees
	Up        bool          // some bend of that turn is made UP
	Down      bool          // some is made DOWN
	Length    length.Length // of its blank, across the bend
	Line      length.Length // its bend line from either end
	To        fold.Measure  // what its legs are measured to
	Leg       length.Length // either leg then, by the K factor
	Deduction length.Length // by the K factor
	Of        []string      // the bends it is for, by the faces beside them
	Stated    *job.TakenBend
	Section   []fold.Point // of its metal when it is bent, the bend's outside below
}

// fingers is how many of the least flange a leg of a strip is deep: enough to hold
// and to lay a caliper along.
const fingers = 4

// Trials are the strips of a job: one for each turn of its caps that no trial is
// stated of, or for every turn where the job asks for the sheet. There are none
// where no bend of more than 90 degrees is without one and the job does not ask.
func Trials(j *job.Job, families []*Family) []Trial {
	if j.Shop == nil {
		return nil
	}
	var all []Trial
	for _, f := range families {
		for _, body := range f.Bodies {
			for _, q := range body.Bends {
				if !q.Hem && q.Line.Radius == j.System.Profile.InsideR.MM() {
					all = trialOf(j, all, q)
				}
			}
		}
	}
	wanted := j.Shop.Strips
	for _, t := range all {
		wanted = wanted || t.Turn > 90+strips && t.Stated == nil
	}
	if !wanted {
		return nil
	}
	all = slices.DeleteFunc(all, func(t Trial) bool { return t.Stated != nil && !j.Shop.Strips })
	slices.SortStableFunc(all, func(a, b Trial) int { return cmp.Compare(a.Turn, b.Turn) })
	return all
}

// trialOf adds a bend to the strip of its turn.
func trialOf(j *job.Job, all []Trial, q Bend) []Trial {
	turn := math.Abs(q.Line.Turn)
	k := slices.IndexFunc(all, func(t Trial) bool { return math.Abs(t.Turn-turn) <= strips })
	if k < 0 {
		k = len(all)
		all = append(all, newTrial(j, math.Round(turn*10)/10))
	}
	t := &all[k]
	t.Up, t.Down = t.Up || q.Up(), t.Down || !q.Up()
	name := faceName(q.Line.Between[0]) + " and " + faceName(q.Line.Between[1])
	if !slices.Contains(t.Of, name) {
		t.Of = append(t.Of, name)
	}
	return all
}

// faceName is a face without the side of an opening that it stands at.
func faceName(s string) string {
	return strings.TrimPrefix(strings.TrimPrefix(s, "left "), "right ")
}

func newTrial(j *job.Job, turn float64) Trial {
	step := Step(j.Units == job.Metric)
	t := Trial{Turn: turn, Length: length.CeilTo(2*fingers*j.Shop.LeastFlange, step)}
	t.Line = t.Length / 2
	if turn > 90+1e-9 {
		t.To = fold.ToTangent
	}
	b := fold.Bend{Thickness: j.System.Metal.Thickness.MM(), Radius: j.System.Profile.InsideR.MM(), K: j.Shop.K}
	both := 2 * b.Setback(turn)
	if t.To == fold.ToTangent {
		both = 2 * (b.Radius + b.Thickness)
	}
	less := both - b.Allowance(turn)
	t.Deduction = length.FromMM(less)
	t.Leg = length.RoundTo((t.Length+t.Deduction)/2, step)
	for i := range j.Shop.Bends {
		if math.Abs(j.Shop.Bends[i].Turn.Degrees()-turn) <= strips {
			t.Stated = &j.Shop.Bends[i]
		}
	}
	leg := (t.Length.MM() + less) / 2
	p, err := fold.NewPath(b.Thickness, b.K, []fold.Leg{{Name: "first", Outside: leg, Turn: turn, Radius: b.Radius,
		To: t.To}, {Name: "second", Outside: leg}}, 0)
	if err == nil {
		t.Section = p.Lay().Ring(chord)
	}
	return t
}
