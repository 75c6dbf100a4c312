package sheets

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

// runsOf are the runs in the title of a run's sheet, each as "Run A" or, where
// the job has several perimeters, "Run ROOF A".
func runsOf(s Sheet) []string {
	if s.Kind != RunSheet && s.Kind != Sections {
		return nil
	}
	words, _, _ := strings.Cut(s.Title, ":")
	names, several := strings.CutPrefix(words, "Runs ")
	if !several {
		return []string{words}
	}
	before := ""
	if i := strings.IndexByte(names, ' '); i >= 0 && !strings.HasSuffix(names[:i], ",") {
		before, names = names[:i+1], names[i+1:]
	}
	var out []string
	for _, n := range strings.Split(names, ", ") {
		out = append(out, "Run "+before+n)
	}
	return out
}

// pilaster is a wall with a pilaster in it, of a width.
func pilaster(wide, deep length.Length) job.Perimeter {
	sq := 90 * job.Degree
	return jobtest.Perimeter("PIL", job.Roof, jobtest.Run("A", 150*in, -sq), jobtest.Run("B", deep, sq), jobtest.Run("C", wide, sq), jobtest.Run("D", deep, -sq),
		jobtest.Run("E", 150*in, sq), jobtest.Run("F", 220*in, sq), jobtest.Run("G", 300*in+wide, sq), jobtest.Run("H", 220*in, sq))
}

func TestShortRunsShareASheet(t *testing.T) {
	t.Parallel()
	for _, units := range []job.Units{job.Imperial, job.Metric} {
		for _, z := range []job.PaperSize{job.ANSIB, job.ANSIC, job.ANSID, job.ISOA3, job.ISOA2} {
			j := perimeters(pilaster(44*in, 10*in))
			j.Units = units
			l := build(t, j)
			packet := Packet(l, Options{Runs: &z})
			whole := 0
			for _, s := range packet {
				names := runsOf(s)
				if len(names) < 2 || !strings.Contains(s.Title, "plans") {
					continue
				}
				if slices.Contains(names, "Run B") && slices.Contains(names, "Run C") && slices.Contains(names, "Run D") {
					whole++
				}
				text := wordsOf(s.Scene)
				for _, n := range names {
					if !strings.Contains(text, "\nRUN "+strings.TrimPrefix(n, "Run ")+"\n") {
						t.Errorf("%v: sheet %s does not head %s", z, s.Number, n)
					}
				}
				if n := strings.Count(text, "SEEN FROM ROOF"); n != len(names) {
					t.Errorf("%v: sheet %s has %d elevations of %d runs", z, s.Number, n, len(names))
				}
			}
			if whole != 1 {
				t.Errorf("%v, units %v: %d sheets show the pilaster whole, want one", z, units, whole)
			}
			if f := faults(packet); len(f) > 0 {
				t.Errorf("%v: %s", z, strings.Join(f, "\n"))
			}
		}
	}
}

// A hold of any run on a sheet is said there.
func TestSharedSheetSaysItsHolds(t *testing.T) {
	t.Parallel()
	j := perimeters(pilaster(44*in, 10*in))
	j.Perimeters[0].Runs[2].Basis = job.Drawing
	l := build(t, j)
	shared := 0
	z := job.ANSIC // the banner takes height
	for _, s := range runSheets(l, Options{Runs: &z}) {
		if names := runsOf(s); len(names) > 1 && slices.Contains(names, "Run C") {
			shared++
			if !strings.Contains(wordsOf(s.Scene), "HOLD:") {
				t.Errorf("sheet %s does not say that run C is on hold", s.Number)
			}
		}
	}
	if shared == 0 {
		t.Error("no sheet is shared: the case tests nothing")
	}
}

// Every run is in the index, its parts are numbered from 1 to n, and the sheets
// named at its match lines are those of its neighbours.
func TestRunsAndPartsAgreeWithTheIndex(t *testing.T) {
	for _, c := range packets() {
		index := ""
		number := map[string]string{} // look-up only: sheet of each part
		for _, s := range c.sheets {
			if s.Kind == Index {
				index += strings.Join(strings.Fields(wordsOf(s.Scene)), " ")
			}
			var part, of int
			if _, w, ok := strings.Cut(s.Title, ", part "); ok {
				if n, _ := fmt.Sscanf(w, "%d of %d", &part, &of); n != 2 {
					t.Errorf("%s: title %q", c.name, s.Title)
				}
				key := fmt.Sprintf("%s %d of %d", runsOf(s)[0], part, of)
				if number[key] == "" {
					number[key] = s.Number
				}
			}
		}
		for _, s := range c.sheets {
			for _, n := range runsOf(s) {
				if name := strings.TrimPrefix(n, "Run "); !strings.Contains(index, name[strings.LastIndexByte(name, ' ')+1:]) {
					t.Errorf("%s: %s is not in the index", c.name, n)
				}
			}
			_, w, ok := strings.Cut(s.Title, ", part ")
			if !ok {
				continue
			}
			var part, of int
			_, _ = fmt.Sscanf(w, "%d of %d", &part, &of)
			text := wordsOf(s.Scene)
			for i, side := range []string{"left", "right"} {
				k := part - 1 + 2*i
				if k < 1 || k > of {
					continue
				}
				want := number[fmt.Sprintf("%s %d of %d", runsOf(s)[0], k, of)]
				if want == "" || !strings.Contains(text, "\n"+want+"\n") {
					t.Errorf("%s: sheet %s %q does not name sheet %q at the %s", c.name, s.Number, s.Title, want, side)
				}
			}
		}
	}
}
