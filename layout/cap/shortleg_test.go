package cap_test

import (
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

// jog is a wall that steps out by a run too short for two legs of 27 in.
func jog(short, leave length.Length) *job.Job {
	j := jobtest.Job()
	j.System.Corner.ShortLeg = leave
	p := jobtest.Perimeter("JOG", job.Open, jobtest.Run("A", 200*in, sq), jobtest.Run("B", short, -sq), jobtest.Run("C", 200*in, 0))
	p.Starts, p.Runs[2].Right = job.End{Kind: job.EndFree}, job.End{Kind: job.EndFree}
	j.Perimeters = []job.Perimeter{p}
	return j
}

func under(l *layout.Layout) (out finding.List) {
	for _, f := range l.Findings {
		if f.Code == "leg-under" {
			out = append(out, f)
		}
	}
	return out
}

// Legs under the job's least take its leave: with it they are a note, and no shorter than it
// says; without it a piece over both corners is made, where the shop can, or they are a hold
// that asks for it.
func TestShortLegTakesLeave(t *testing.T) {
	kinds := func(l *layout.Layout) string {
		var out []string
		for _, p := range l.Perimeters[0].Runs[1].Parts {
			out = append(out, p.Piece.Kind.String())
		}
		return strings.Join(out, ", ")
	}
	for name, c := range map[string]struct {
		short, leave length.Length
		longest      length.Length
		want         string
		says         finding.Severity
		silent       bool
	}{
		"long enough":                {short: 60 * in, longest: 66 * in, want: "corner, corner", silent: true},
		"with leave":                 {short: 50 * in, leave: in, longest: 66 * in, want: "corner, corner", says: finding.Note},
		"leave for longer legs":      {short: 50 * in, leave: 26 * in, longest: 66 * in, want: "double miter", silent: true},
		"without leave, one piece":   {short: 50 * in, longest: 66 * in, want: "double miter", silent: true},
		"without leave, none so big": {short: 50 * in, longest: 48 * in, want: "corner, corner", says: finding.Hold},
	} {
		j := jog(c.short, c.leave)
		j.System.Corner.LongestLeg = c.longest
		l, _ := layout.Build(j)
		said := under(l)
		if got := kinds(l); got != c.want {
			t.Errorf("%s: run B has %s", name, got)
		}
		if c.silent != (len(said) == 0) || len(said) > 0 && said[0].Severity != c.says {
			t.Errorf("%s: %v", name, said)
		}
	}
}
