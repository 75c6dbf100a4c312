package sheets

import (
	"math"
	"slices"
	"strings"
	"testing"

	"copingset/drawing/dxf"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
)

// withParts states every part there is.
func withParts(j *job.Job) *job.Job {
	r := in / 8
	s := &j.System
	j.Shop.PartSheets = []job.PartSheet{{Thickness: s.Chair.Thickness, ShopSheet: job.ShopSheet{Width: 60 * in, Length: 120 * in}}}
	s.Splice.Legs = job.Legs{Front: 2 * in, Rear: 3 * in / 2, Fit: in / 16}
	s.Expansion.Cover = &job.Cover{Over: true, Legs: job.Legs{Front: 3 * in, Rear: 5 * in / 2, Fit: in / 16}}
	s.Chair.Metal, s.Chair.RearEdge = s.Metal.Name, in/8
	s.Chair.Blank = &job.Blank{Stuff: job.Stuff{Metal: s.Metal.Name, Thickness: s.Chair.Thickness, Radius: &r}, HoleDia: 9 * in / 32, Inset: 3 * in / 2,
		Section: []job.Flange{{Name: "front web", Length: in}, {Name: "base", Across: true, Before: in / 8, Behind: in / 2, Turn: 90 * job.Degree},
			{Name: "rear web", Length: 3 * in / 4, Turn: 90 * job.Degree}, {Name: "rear flange", Length: in / 2, Turn: -90 * job.Degree}, {Name: "rear leg", Length: 16 * in / 5, Turn: -90 * job.Degree}}}
	s.Corner.Support.Blank = &job.Blank{Section: []job.Flange{{Name: "base", Across: true}, {Name: "foot", Length: in, Turn: -75 * job.Degree}},
		Holes: []job.Hole{{FromLeft: in, FromFront: 2 * in, Diameter: in / 4}}}
	s.Extender = &job.ExtenderRules{Stock: 100 * in, Gap: in / 4, Section: []job.Flange{{Name: "kick", Length: in / 2}, {Name: "face", Across: true, Turn: 40 * job.Degree}}}
	s.RoofExtender = &job.ExtenderRules{Stock: 90 * in, Gap: in / 8, Section: []job.Flange{{Name: "foot", Length: 3 * in / 4}, {Name: "face", Across: true, Turn: 30 * job.Degree}}}
	s.StepRiser = &job.RiserRules{ReturnFront: 5 * in / 2, ReturnRear: 2 * in, Lap: 3 * in / 2}
	return j
}

// stepped is a wall between two free ends with a step up and a step down, and
// faces that ask for extenders.
func stepped() *job.Job {
	up := 24 * in
	a, b, c := jobtest.Run("A", 240*in, 0), jobtest.Run("B", 240*in, 0), jobtest.Run("C", 180*in, 0)
	a.Right, b.Right, c.Right = job.End{Kind: job.EndStep, Step: up}, job.End{Kind: job.EndStep, Step: -up}, job.End{Kind: job.EndFree}
	for k := range b.Readings {
		b.Readings[k].TopOutside, b.Readings[k].TopInside = up, up
	}
	p := jobtest.Perimeter("O", job.Open, a, b, c)
	p.Starts = job.End{Kind: job.EndFree}
	return perimeters(p)
}

// Every part is on a sheet, in the list and, where it is released, in a file
// for a machine with its own area; what is held says so.
func TestPartsAreDrawnListedAndCut(t *testing.T) {
	t.Parallel()
	tall := stepped()
	tall.Walls[0].CoverFront = 7 * in
	metric := perimeters(ell(), open())
	metric.Units = job.Metric
	for name, j := range map[string]*job.Job{"ell": perimeters(ell(), open()), "metric": metric, "stepped": stepped(), "tall": tall} {
		l := build(t, withShop(j))
		if len(l.Parts) == 0 {
			t.Fatalf("%s: no parts", name)
		}
		var said string
		sheets := shopSheets(l, Options{})
		for _, s := range sheets {
			if s.Kind == PartSheet {
				said += wordsOf(s.Scene) + "\n"
			}
		}
		if f := faults(sheets); len(f) > 0 {
			t.Errorf("%s: %s", name, strings.Join(f, "\n"))
		}
		files := map[string]dxf.Drawing{}
		for _, m := range Machines(l) {
			files[m.Name] = m.Drawing
		}
		rows := schedules{newBook(l, Options{}), l.Facts()}.parts().Rows
		if len(rows) != len(l.Parts) {
			t.Errorf("%s: %d rows for %d parts", name, len(rows), len(l.Parts))
		}
		for i, p := range l.Parts {
			if !strings.Contains(said, "Part "+p.Mark+": ") || rows[i][0] != p.Mark {
				t.Errorf("%s: part %s is on no sheet or not in the list", name, p.Mark)
			}
			if len(p.For(l.Held, false)) > 0 && !strings.Contains(said, "NOT RELEASED") {
				t.Errorf("%s: no sheet says that %s is held", name, p.Mark)
			}
			var d dxf.Drawing
			written := false
			for name, q := range files {
				if fileOf(name, p.Mark) {
					d, written = q, true
				}
			}
			if n, _ := p.Make(l.Held); (n > 0) != written {
				t.Errorf("%s: %d of %s to make, written %v", name, n, p.Mark, written)
			}
			if !written {
				continue
			}
			k, area := 25.4, 0.0
			if j.Units == job.Metric {
				k = 1
			}
			for i, q := range slices.DeleteFunc(d.Lines, func(q dxf.Polyline) bool { return q.Layer != dxf.Cut }) {
				a := math.Abs(ringArea(q.Points)) * k * k
				if i > 0 {
					a = -a
				}
				area += a
			}
			for _, c := range d.Circles { // p.Area weighs them by the polygon they are drawn with
				area -= math.Pi * c.Radius * c.Radius * k * k
			}
			if math.Abs(area-p.Area()) > 2e-4*area {
				t.Errorf("%s: part %s has %.3f mm² in its file, %.3f in its pattern", name, p.Mark, area, p.Area())
			}
		}
	}
}

func TestRangesOfNames(t *testing.T) {
	for _, c := range []struct{ names, want string }{
		{"N-J1 N-J2 N-J3 E-J4", "N-J1 to N-J3, E-J4"},
		{"N-J1 N-J2", "N-J1, N-J2"},
		{"N-J1 N-J3 N-J4 N-J5", "N-J1, N-J3 to N-J5"},
		{"N/E-S1 E/S-S1", "N/E-S1, E/S-S1"},
		{"A A", "A, A"},
	} {
		if got := strings.Join(new(book).ranges(strings.Fields(c.names)), ", "); got != c.want {
			t.Errorf("%s: %s, want %s", c.names, got, c.want)
		}
	}
}
