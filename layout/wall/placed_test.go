package wall_test

import (
	"math"
	"slices"
	"testing"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/wall"
)

// well is a light well of 10 ft by 8 ft whose first run goes west.
func well(lies *job.Lies) job.Perimeter {
	const ft, left = length.Foot, -90 * job.Degree
	p := jobtest.Perimeter("WELL", job.Well, jobtest.Run("WN", 10*ft, left), jobtest.Run("WW", 8*ft, left),
		jobtest.Run("WS", 10*ft, left), jobtest.Run("WE", 8*ft, left))
	p.Bearing, p.Lies = 270*job.Degree, lies
	return p
}

// A well that was taped from a roof lies where it was taped to, turned as its bearing
// says; one outside the roof, or across its wall, is found.
func TestPerimetersArePlaced(t *testing.T) {
	const ft = length.Foot
	for _, c := range []struct {
		name            string
		station, behind length.Length
		want            string
	}{
		{"inside", 25 * ft, 6 * ft, ""},
		{"across the south wall", 25 * ft, 15 * ft, "perimeters-overlap"},
		{"beyond the street", 25 * ft, -30 * ft, "well-outside"},
	} {
		roof := jobtest.Rectangle(40*ft, 20*ft)
		roof.Name, roof.Bearing = "ROOF", 90*job.Degree
		j := jobtest.Job()
		j.Perimeters = []job.Perimeter{roof, well(&job.Lies{Perimeter: "ROOF", Run: roof.Runs[0].Name,
			Station: c.station, Behind: c.behind})}
		all, found := wall.Build(j, length.Inch16)
		var codes []string
		for _, f := range found {
			if f.Code == "perimeters-overlap" || f.Code == "well-outside" {
				codes = append(codes, f.Code)
			}
		}
		want := []string{c.want}
		if c.want == "" {
			want = nil
		}
		if !slices.Equal(codes, want) {
			t.Errorf("%s: found %v", c.name, codes)
		}
		lie := wall.Lyings(all)
		if lie[0].Group != lie[1].Group {
			t.Fatalf("%s: placed apart", c.name)
		}
		x, y := lie[1].At(all[1].Runs[0].Plan)
		if math.Abs(x-c.station.MM()) > 1 || math.Abs(y-c.behind.MM()) > 1 {
			t.Errorf("%s: its first corner is at %.0f, %.0f", c.name, x, y)
		}
		if x, y = lie[1].At(all[1].Runs[0].PlanEnd); math.Abs(x-(c.station-10*ft).MM()) > 1 ||
			math.Abs(y-c.behind.MM()) > 1 {
			t.Errorf("%s: its first run ends at %.0f, %.0f", c.name, x, y)
		}
	}
}

// Perimeters that nobody taped from each other lie in groups of their own, and are in
// nobody's way.
func TestUnplacedPerimetersLieApart(t *testing.T) {
	a, b := jobtest.Rectangle(480*length.Inch, 240*length.Inch), jobtest.Rectangle(480*length.Inch, 240*length.Inch)
	b.Name = "SECOND"
	j := jobtest.Job()
	j.Perimeters = []job.Perimeter{a, b, well(nil)}
	all, found := wall.Build(j, length.Inch16)
	lie := wall.Lyings(all)
	if lie[0].Group == lie[1].Group || lie[1].Group == lie[2].Group {
		t.Errorf("%v", lie)
	}
	for _, f := range found {
		if f.Code == "perimeters-overlap" || f.Code == "well-outside" {
			t.Error(f)
		}
	}
}

// A roof within a roof is a penthouse on it. One across the roof's wall, along it, or in
// the roof's own place is found.
func TestAPenthouseStandsOnItsRoof(t *testing.T) {
	const ft = length.Foot
	for _, c := range []struct {
		name            string
		long, wide      length.Length
		station, behind length.Length
		first, want     bool
	}{
		{name: "on the roof", long: 12 * ft, wide: 8 * ft, station: 10 * ft, behind: 6 * ft},
		{name: "written before the roof", long: 12 * ft, wide: 8 * ft, station: 10 * ft, behind: 6 * ft, first: true},
		{name: "across the south wall", long: 12 * ft, wide: 8 * ft, station: 10 * ft, behind: 15 * ft, want: true},
		{name: "along the street wall", long: 12 * ft, wide: 8 * ft, station: 10 * ft, want: true},
		{name: "in the place of the roof", long: 40 * ft, wide: 20 * ft, want: true},
	} {
		roof, pent := jobtest.Rectangle(40*ft, 20*ft), jobtest.Rectangle(c.long, c.wide)
		roof.Name, roof.Bearing = "ROOF", 90*job.Degree
		pent.Name, pent.Bearing = "PENT", 90*job.Degree
		pent.Lies = &job.Lies{Perimeter: "ROOF", Run: roof.Runs[0].Name, Station: c.station, Behind: c.behind}
		j := jobtest.Job()
		j.Perimeters = []job.Perimeter{roof, pent}
		if c.first {
			slices.Reverse(j.Perimeters)
		}
		_, found := wall.Build(j, length.Inch16)
		got := slices.ContainsFunc(found, func(f finding.Finding) bool { return f.Code == "perimeters-overlap" })
		if got != c.want {
			t.Errorf("%s: found %v", c.name, found)
		}
	}
}
