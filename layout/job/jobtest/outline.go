package jobtest

import (
	"bufio"
	"encoding/json"
	"fmt"
	"hash/fnv"
	"math"
	"os"
	"slices"
	"strconv"
	"testing"

	"copingset/layout/job"
	"copingset/layout/length"
)

// OutlinesFile names a file of building outlines, one JSON object a line:
// {"id", "ring": [[x, y], ...], "holes": [[[x, y], ...], ...]}, in metres. Nothing of
// it is kept here; without it there is nothing to count. OutlinesEvery takes every
// nth line alone, and OutlinesOnly the one with that id.
const (
	OutlinesFile  = "COPINGSET_OUTLINES"
	OutlinesEvery = "COPINGSET_OUTLINES_EVERY"
	OutlinesOnly  = "COPINGSET_OUTLINES_ONLY"
)

// Outline is the ground plan of one building.
type Outline struct {
	ID    string
	Ring  [][2]float64
	Holes [][][2]float64
}

// ReadOutlines are the outlines of a file that the environment asks for.
func ReadOutlines(t *testing.T, path string) []Outline {
	t.Helper()
	every, _ := strconv.Atoi(os.Getenv(OutlinesEvery))
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var out []Outline
	lines := bufio.NewScanner(f)
	lines.Buffer(nil, 1<<24)
	for n := 0; lines.Scan(); n++ {
		var o Outline
		if err := json.Unmarshal(lines.Bytes(), &o); err != nil {
			t.Fatal(err)
		}
		if only := os.Getenv(OutlinesOnly); only == "" && n%max(every, 1) == 0 || only == o.ID {
			out = append(out, o)
		}
	}
	if err := lines.Err(); err != nil {
		t.Fatal(err)
	}
	return out
}

// Perimeters are the outline's ring and courts with a wall as a survey finds one: the
// roof at the right hand, turns to a thousandth of a degree, readings 750 mm apart.
func (o Outline) Perimeters(j *job.Job) []job.Perimeter {
	roof := o.walk(j, "ROOF", "R", job.Roof, o.Ring)
	out := []job.Perimeter{roof}
	for i, h := range o.Holes {
		out = append(out, o.walk(j, fmt.Sprintf("WELL%d", i+1), fmt.Sprintf("W%d-", i+1), job.Well, h))
	}
	return out
}

func (o Outline) walk(j *job.Job, name, run string, kind job.Kind, ring [][2]float64) job.Perimeter {
	ring = slices.Clone(ring)
	if area := signedArea(ring); (area > 0) == (kind == job.Roof) {
		slices.Reverse(ring)
	}
	grid := length.Crew(j.Units == job.Metric).Step()
	p := job.Perimeter{Name: name, Kind: kind, Wall: j.Walls[0].Name, MisclosureLength: 2 * length.Inch,
		MisclosureAngle: job.Degree}
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
		r.Readings = plainWall(l, j.Units == job.Metric, next)
		p.Runs = append(p.Runs, r)
	}
	return p
}

// plainWall is a wall nearly straight and level, of nearly one width.
func plainWall(l length.Length, metric bool, next func(lo, hi int) length.Length) []job.Reading {
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
