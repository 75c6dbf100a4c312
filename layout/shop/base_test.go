package shop_test

import (
	"testing"

	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/shop"
)

// A chair of 2 mm sheet, bent with 3 mm inside: its front leg hangs 100 mm before a flange
// of 30 mm, a web stands on the base behind it, and at the rear the same without a leg.
// By hand: the base's outer corner lies 28 mm behind the front of the leg, its flat 5 mm
// more, and the leg's inner face 2 mm.
func TestFootprint(t *testing.T) {
	const mm = length.Millimetre
	j := jobtest.Job()
	j.Units = job.Metric
	c := &j.System.Chair
	c.Thickness, c.FrontEdge, c.RearEdge = 2*mm, 3*mm, 9*mm
	face := func(name string, l length.Length, turn job.Angle) job.Flange {
		return job.Flange{Name: name, Length: l, Turn: turn * job.Degree}
	}
	radius := 3 * mm
	c.Blank = &job.Blank{Stuff: job.Stuff{Thickness: 2 * mm, Radius: &radius}, Section: []job.Flange{
		face("front leg", 100*mm, 0), face("flange", 30*mm, -90), face("web", 20*mm, -90),
		{Name: "base", Across: true, Before: 28 * mm, Behind: 28 * mm, Turn: 90 * job.Degree},
		face("rear web", 20*mm, 90), face("rear flange", 30*mm, -90)}}
	made, err := shop.ChairSection(j, nil, 312*mm)
	if err != nil {
		t.Fatal(err)
	}
	got := made.Footprint(0)
	want := shop.Footprint{Flat: [2]length.Length{33 * mm, 267 * mm}, Base: [2]length.Length{28 * mm, 272 * mm},
		Hangs: [2]bool{true, false}, Inner: [2]length.Length{2 * mm, 0}}
	near := func(a, b length.Length) bool { return length.Abs(a-b) < mm/1000 }
	for i := range 2 {
		if !near(got.Flat[i], want.Flat[i]) || !near(got.Base[i], want.Base[i]) || got.Hangs[i] != want.Hangs[i] ||
			!near(got.Inner[i], want.Inner[i]) {
			t.Errorf("%+v, by hand %+v", got, want)
		}
	}
}
