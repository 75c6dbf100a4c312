package layout_test

import (
	"bufio"
	"encoding/json"
	"fmt"
	"hash/fnv"
	"maps"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wind"
)

// outlinesFile is a file of building outlines, one JSON object a line:
// {"id", "ring": [[x, y], ...], "holes": [[[x, y], ...], ...]}, in metres. Nothing of
// it is kept here; without it there is nothing to count. outlinesEvery takes every
// nth line alone, and outlinesOnly the one with that id, whose holds are then listed.
const (
	outlinesFile  = "COPINGSET_OUTLINES"
	outlinesEvery = "COPINGSET_OUTLINES_EVERY"
	outlinesOnly  = "COPINGSET_OUTLINES_ONLY"
)

// outline is the ground plan of one building.
type outline struct {
	ID    string
	Ring  [][2]float64
	Holes [][][2]float64
}

// TestOutlines lays real outlines out in the systems of two samples and counts what
// comes of them: how many are clean, what holds the others, how long the slowest took.
func TestOutlines(t *testing.T) {
	path := os.Getenv(outlinesFile)
	if path == "" {
		t.Skip("no outlines: set " + outlinesFile + " to a file of them, one JSON object a line")
	}
	all := readOutlines(t, path)
	for _, sample := range []string{"rectangle", "metric"} {
		c := counted{codes: map[string]int{}, holds: map[string]int{}, frees: map[string]int{}, example: map[string]string{}}
		for _, o := range all {
			j := bareSample(t, sample)
			j.Perimeters = o.perimeters(j)
			c.count(t, o.ID, j)
		}
		t.Log("\n" + c.table(sample))
	}
}

func readOutlines(t *testing.T, path string) []outline {
	t.Helper()
	every, _ := strconv.Atoi(os.Getenv(outlinesEvery))
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var out []outline
	lines := bufio.NewScanner(f)
	lines.Buffer(nil, 1<<24)
	for n := 0; lines.Scan(); n++ {
		var o outline
		if err := json.Unmarshal(lines.Bytes(), &o); err != nil {
			t.Fatal(err)
		}
		if only := os.Getenv(outlinesOnly); only == "" && n%max(every, 1) == 0 || only == o.ID {
			out = append(out, o)
		}
	}
	if err := lines.Err(); err != nil {
		t.Fatal(err)
	}
	return out
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
		if os.Getenv(outlinesOnly) != "" {
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

// perimeters are the outline's ring and courts with a wall as a survey finds one: the
// roof at the right hand, turns to a thousandth of a degree, readings 750 mm apart.
func (o outline) perimeters(j *job.Job) []job.Perimeter {
	roof := o.walk(j, "ROOF", "R", job.Roof, o.Ring)
	out := []job.Perimeter{roof}
	for i, h := range o.Holes {
		out = append(out, o.walk(j, fmt.Sprintf("WELL%d", i+1), fmt.Sprintf("W%d-", i+1), job.Well, h))
	}
	return out
}

func (o outline) walk(j *job.Job, name, run string, kind job.Kind, ring [][2]float64) job.Perimeter {
	ring = slices.Clone(ring)
	if area := signedArea(ring); (area > 0) == (kind == job.Roof) {
		slices.Reverse(ring)
	}
	grid := length.Crew(j.Units == job.Metric).Step()
	p := job.Perimeter{Name: name, Kind: kind, Wall: j.Walls[0].Name, MisclosureLength: 2 * length.Inch, MisclosureAngle: job.Degree}
	n := len(ring)
	heading := func(i int) float64 {
		a, b := ring[(i+n)%n], ring[(i+1)%n]
		return math.Atan2(b[1]-a[1], b[0]-a[0])
	}
	noise := fnv.New32a()
	noise.Write([]byte(o.ID))
	seed := noise.Sum32()
	next := func(lo, hi int) length.Length {
		seed = seed*1664525 + 1013904223
		return length.Length(lo+int(seed>>16)%(hi-lo+1)) * grid
	}
	for i := range n {
		a, b := ring[i], ring[(i+1)%n]
		l := length.RoundTo(length.FromMM(1000*math.Hypot(b[0]-a[0], b[1]-a[1])), grid)
		turn := math.Mod(heading(i)-heading(i+1)+5*math.Pi, 2*math.Pi) - math.Pi // to the right
		r := job.Run{Name: fmt.Sprint(run, i+1), Length: l,
			Right: job.End{Turn: job.Angle(math.Round(turn*180/math.Pi*1000)) * (job.Degree / 1000)}}
		r.Readings = survey(l, j.Units == job.Metric, next)
		p.Runs = append(p.Runs, r)
	}
	return p
}

// survey is a wall nearly straight and level, of nearly one width.
func survey(l length.Length, metric bool, next func(lo, hi int) length.Length) []job.Reading {
	width := 12 * length.Inch
	few, some := 1, 1
	if metric {
		width, few, some = 240*length.Millimetre, 1, 1
	}
	var out []job.Reading
	read := func(x length.Length) {
		wave := length.RoundTo(length.FromMM(2*math.Sin(x.MM()/3000)), length.Crew(metric).Step())
		out = append(out, job.Reading{Station: x, Width: width + next(-few, few), Offset: next(0, 1),
			TopOutside: wave + next(0, some), TopInside: wave + next(0, some)})
	}
	for x := length.Length(0); x < l; x += 750 * length.Millimetre {
		read(x)
	}
	read(l)
	out[0].Offset, out[len(out)-1].Offset = 0, 0
	return out
}

func signedArea(ring [][2]float64) float64 {
	sum := 0.0
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		sum += a[0]*b[1] - b[0]*a[1]
	}
	return sum / 2
}
