package layout_test

import (
	"fmt"
	"maps"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/wind"
)

// TestOutlines lays real outlines out in the systems of two samples and counts what
// comes of them: how many are clean, what holds the others, how long the slowest took.
func TestOutlines(t *testing.T) {
	path := os.Getenv(jobtest.OutlinesFile)
	if path == "" {
		t.Skip("no outlines: set " + jobtest.OutlinesFile + " to a file of them, one JSON object a line")
	}
	all := jobtest.ReadOutlines(t, path)
	for _, sample := range []string{"rectangle", "metric"} {
		c := counted{codes: map[string]int{}, holds: map[string]int{}, frees: map[string]int{}, example: map[string]string{}}
		for _, o := range all {
			j := bareSample(t, sample)
			j.Perimeters = o.Perimeters(j)
			c.count(t, o.ID, j)
		}
		t.Log("\n" + c.table(sample))
	}
}

// bareSample is a sample's system, without what does not bear on where chairs stand:
// its shop, and the confirmation of pressures that are over its own walls.
func bareSample(t *testing.T, name string) *job.Job {
	t.Helper()
	j, found := job.Read(os.DirFS("../samples"), name+"/job.yaml")
	if j == nil {
		t.Fatal(found)
	}
	return bare(j)
}

// givenPressures are those computed for a job, as an engineer would give them.
func givenPressures(j *job.Job) *job.Pressures {
	l, _ := layout.Build(j)
	d := l.Demand
	return &job.Pressures{By: "the engineer of record", Document: "S-1", Edition: "ASCE 7-22", CornerLength: d.CornerLength,
		CornerTurn: d.CornerTurn,
		Edge:       job.ZonePressure{Up: d.Up[wind.Edge], Out: d.Out[wind.Edge], Rear: d.Rear[wind.Edge]},
		Corner:     job.ZonePressure{Up: d.Up[wind.Corner], Out: d.Out[wind.Corner], Rear: d.Rear[wind.Corner]}}
}

// counted is what came of the outlines.
type counted struct {
	all, clean, errors int
	runs               int
	codes              map[string]int // outlines with a hold or an error of a code
	holds              map[string]int // findings of it
	frees              map[string]int // holds by the change that would free them
	example            map[string]string
	over, open         int      // runs with a chair asked for too much; those not proven to be by any row of chairs
	opened             []string // outlines with such
	crowds, room       int      // holds for want of room; those that a row of chairs might have
	roomy              []string // outlines with such
	slowest            time.Duration
	slow               string
}

func (c *counted) count(t *testing.T, id string, j *job.Job) {
	t.Helper()
	began := time.Now()
	l, found := layout.Build(j)
	took := time.Since(began)
	c.all++
	c.runs += len(l.Runs())
	if took > c.slowest {
		c.slowest, c.slow = took, fmt.Sprintf("%s, %d runs", id, len(l.Runs()))
	}
	over, open := openOverloads(l)
	if c.over += over; len(open) > 0 {
		c.open += len(open)
		c.opened = append(c.opened, id+" "+strings.Join(open, " "))
	}
	crowds, room := openCrowds(l)
	if c.crowds += crowds; len(room) > 0 {
		c.room += len(room)
		c.roomy = append(c.roomy, id+" "+strings.Join(room, " "))
	}
	here := map[string]bool{}
	for _, f := range found {
		if f.Severity == finding.Note {
			continue
		}
		if os.Getenv(jobtest.OutlinesOnly) != "" {
			t.Log(f)
		}
		code := f.Severity.String() + " " + f.Code
		c.holds[code]++
		here[code] = true
		if _, free, ok := strings.Cut(f.Mend, "would free it: "); ok {
			c.frees[f.Code+": "+strings.TrimRight(free, "0123456789")]++
		}
		if c.example[code] == "" {
			c.example[code] = id + ": " + f.What
		}
	}
	for code := range here {
		c.codes[code]++
	}
	switch {
	case found.HasErrors():
		c.errors++
	case len(here) == 0:
		c.clean++
	}
}

func (c *counted) table(sample string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %d outlines, %d runs laid out, %d clean (%.1f %%), %d with errors, slowest %v (%s)\n",
		sample, c.all, c.runs, c.clean, 100*float64(c.clean)/float64(max(c.all, 1)), c.errors, c.slowest.Round(time.Millisecond), c.slow)
	for _, code := range slices.Sorted(maps.Keys(c.codes)) {
		fmt.Fprintf(&b, "  %-28s on %4d outlines, %5d findings; %s\n", code, c.codes[code], c.holds[code], c.example[code])
	}
	fmt.Fprintf(&b, "  of %d runs with a chair asked for too much %d are not proven to be by any row of chairs, on %d outlines: %s\n",
		c.over, c.open, len(c.opened), strings.Join(c.opened[:min(len(c.opened), 40)], "; "))
	fmt.Fprintf(&b, "  of %d holds for want of room %d are not proven, on %d outlines: %s\n", c.crowds, c.room, len(c.roomy),
		strings.Join(c.roomy[:min(len(c.roomy), 40)], "; "))
	for _, free := range slices.Sorted(maps.Keys(c.frees)) {
		fmt.Fprintf(&b, "  freed by %s: %d\n", free, c.frees[free])
	}
	return b.String()
}
