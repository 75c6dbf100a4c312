package sheets

import (
	"os"
	"testing"
	"time"

	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
)

// The crew's sheets of real outlines are without a fault in both languages, and Spanish
// takes at most one sheet a run more.
func TestOutlinesAreClean(t *testing.T) {
	path := os.Getenv(jobtest.OutlinesFile)
	if path == "" {
		t.Skip("no outlines: set " + jobtest.OutlinesFile + " to a file of them, one JSON object a line")
	}
	all := jobtest.ReadOutlines(t, path)
	drawn, sheets, bad := 0, 0, 0
	var slowest time.Duration
	slow := ""
	for _, sample := range []string{"rectangle", "metric"} {
		for _, o := range all {
			j := bareOf(t, sample)
			j.Perimeters = o.Perimeters(j)
			l, found := layout.Build(j)
			if found.HasErrors() {
				continue
			}
			begin := time.Now()
			n := map[job.Language]int{}
			for _, in := range []job.Language{job.InEnglish, job.InSpanish} {
				pages := Packet(inJobLanguage(l, in), Options{For: Crew, Lang: words.English})
				n[in] = len(pages)
				sheets += len(pages)
				for _, f := range faults(pages) {
					bad++
					t.Errorf("%s, %s, language %v: %s", sample, o.ID, in, f)
				}
			}
			if spent := time.Since(begin); spent > slowest {
				slowest, slow = spent, sample+" "+o.ID
			}
			if more := n[job.InSpanish] - n[job.InEnglish]; more > len(l.Runs()) {
				t.Errorf("%s, %s: %d sheets more in Spanish", sample, o.ID, more)
			}
			drawn++
		}
	}
	t.Logf("%d jobs drawn in two languages, %d sheets, %d faults; slowest %v, %s", drawn, sheets, bad, slowest, slow)
}

// bareOf is a sample's system, without its shop and its confirmation of pressures.
func bareOf(t *testing.T, name string) *job.Job {
	t.Helper()
	j, found := job.Read(os.DirFS("../samples"), name+"/job.yaml")
	if j == nil {
		t.Fatal(found)
	}
	j.Shop = nil
	if j.Wind != nil {
		j.Wind.Confirmed = nil
	}
	return j
}
