package shop_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
)

// namesItsPieces checks that a finding says how many pieces it keeps back and which,
// and tells how many.
func namesItsPieces(t *testing.T, f finding.Finding) int {
	t.Helper()
	n := len(f.Where.Pieces)
	begins := fmt.Sprintf("%d pieces: ", n)
	if n == 1 {
		begins = "piece " + f.Where.Pieces[0] + ": "
	}
	words := strings.FieldsFunc(f.What, func(r rune) bool { return strings.ContainsRune(" ,:;", r) })
	unnamed := func(mark string) bool { return !slices.Contains(words, mark) }
	seen := slices.Clone(f.Where.Pieces)
	slices.Sort(seen)
	if n == 0 || !strings.HasPrefix(f.What, begins) || slices.ContainsFunc(f.Where.Pieces, unnamed) || len(slices.Compact(seen)) != n {
		t.Errorf("the finding does not count and name its pieces: %v", f)
	}
	return n
}

// Whatever number of pieces, bodies or parts a cause in the metal keeps back, it is
// one finding at the key that mends it, which counts them.
func TestOneCauseIsOneFinding(t *testing.T) {
	sq := -90 * job.Degree
	well := jobtest.Perimeter("WELL", job.Well, jobtest.Run("WN", 300*in, sq), jobtest.Run("WW", 200*in, sq),
		jobtest.Run("WS", 300*in, sq), jobtest.Run("WE", 200*in, sq))
	for i := range well.Runs { // wider, so that its parts are others
		for k := range well.Runs[i].Readings {
			well.Runs[i].Readings[k].Width += 3 * in
		}
	}
	for _, c := range []struct {
		code  string
		spoil func(*job.Job)
		parts bool
		least int // that many it keeps back at least
	}{
		{"hem-over-bend", func(j *job.Job) { j.System.Profile.HemReturn = j.System.Profile.Drip.Length - in/64 }, false, 20},
		{"flange-too-short", func(j *job.Job) { j.Shop.LeastFlange = 2 * in }, false, 20},
		{"seam-gap", func(j *job.Job) {
			j.Shop.WeldGap = j.System.Metal.Thickness + in/64
			j.Shop.Seam, j.System.Metal.Finish = &job.SeamRules{Process: job.Weld}, "mill"
		}, false, 4},
		{"no-sheet", func(j *job.Job) { j.Shop.Sheets[0].Width = 10 * in }, false, 20},
		{"longer-than-brake", func(j *job.Job) { j.Shop.Brake = 30 * in }, false, 12},
		{"flange-too-short", func(j *job.Job) { j.System.Splice.Legs.Rear = in / 8 }, true, 2},
	} {
		t.Run(c.code, func(t *testing.T) {
			j := withParts(jobtest.Job())
			j.Perimeters = []job.Perimeter{jobtest.Rectangle(700*in, 420*in), well}
			c.spoil(j)
			l, found := layout.Build(j)
			if found.HasErrors() {
				t.Fatal(found)
			}
			keys := map[finding.Place]int{} // look-up only
			n := 0
			for _, f := range l.Findings {
				if f.Code != c.code || (f.Where.Part != "") != c.parts {
					continue
				}
				if keys[f.At]++; keys[f.At] > 1 {
					t.Errorf("said %d times of one key: %v", keys[f.At], f)
				}
				if !c.parts {
					n += namesItsPieces(t, f)
					continue
				}
				for _, q := range l.Parts {
					if !f.Where.OnPart(q.Mark) {
						continue
					}
					n++
					if !strings.Contains(f.What, q.Mark) || !slices.Contains(q.Holds, c.code) {
						t.Errorf("part %s is not named, or not held: %v", q.Mark, f)
					}
				}
			}
			if n < c.least {
				t.Errorf("%d kept back, want %d at least: %v", n, c.least, l.Findings)
			}
		})
	}
}
