package sheets_test

import (
	"os"
	"slices"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/sheets"
)

// crossed is a roof with a cross wall from run N to run S.
func crossed(t *testing.T, change func(j *job.Job)) *layout.Layout {
	j, found := job.Read(os.DirFS("testdata/tee"), "job.yaml")
	if found.HasErrors() {
		t.Fatal(found)
	}
	change(j)
	l, found := layout.Build(j)
	if found.HasErrors() {
		t.Fatal(found)
	}
	return l
}

func TestTeeSheets(t *testing.T) {
	t.Parallel()
	for name, change := range map[string]func(j *job.Job){
		"released": func(*job.Job) {},
		"on hold":  func(j *job.Job) { j.Perimeters[0].Raise = 0 },
		"metric":   func(j *job.Job) { j.Units, j.Paper = job.Metric, job.Paper{Runs: job.ISOA3, Lists: job.ISOA4} },
	} {
		l := crossed(t, change)
		packet := sheets.Packet(l, sheets.Options{})
		for _, f := range sheets.CheckDrawn(l, packet) {
			t.Errorf("%s: %v", name, f)
		}
		held := slices.ContainsFunc(l.Holds(), func(f finding.Finding) bool { return f.Code == "tee-height" })
		if held != (name == "on hold") {
			t.Errorf("%s: holds %v", name, l.Holds())
		}
		said := map[string]bool{}
		for _, p := range packet {
			for _, q := range p.Scene.Texts() {
				for _, words := range []string{"N/X-TEE", "S/X-TEE", "RUN X", "meets run N", "NOT PLACED"} {
					if strings.Contains(q.Words, words) {
						said[words] = true
					}
				}
			}
		}
		for _, words := range []string{"N/X-TEE", "S/X-TEE", "RUN X", "meets run N"} {
			if !said[words] {
				t.Errorf("%s: no sheet says %s", name, words)
			}
		}
		if said["NOT PLACED"] {
			t.Errorf("%s: the perimeters are joined, and a sheet says they are not", name)
		}
		for _, q := range l.Perimeters[0].Pieces {
			if strings.HasSuffix(q.Mark, "-TEE") && l.Held.Released(q) == held {
				t.Errorf("%s: %s released %v", name, q.Mark, l.Held.Released(q))
			}
		}
	}
}
