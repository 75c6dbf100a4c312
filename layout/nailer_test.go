package layout_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wind"
)

// seaJob is a building by the sea: exposure D, 150 mph, the coping at 80 ft, legs
// of 5 7/8 and 3 5/8 in, a cap 13.475 in wide outside, anchors that hold 400 lb up
// and 300 lb across.
func seaJob() *job.Job {
	const in, ft, pound = length.Inch, length.Foot, 4.4482216152605
	j := woodJob()
	j.Pressures = nil
	j.Wind = &job.Wind{Edition: "ASCE 7-16", Speed: 150 * 0.44704, Exposure: "D", RoofHeight: 77 * ft,
		ParapetTop: 80 * ft, Least: 100 * ft, Kzt: 1}
	j.System.Profile.FrontLeg.Length, j.System.Profile.RearLeg.Length = 47*in/8, 29*in/8
	j.System.Widths.Step = in / 8
	for i := range j.Perimeters[0].Runs {
		for k := range j.Perimeters[0].Runs[i].Readings {
			j.Perimeters[0].Runs[i].Readings[k].Width = 103 * in / 8
		}
	}
	j.Walls[0].Nailer = &job.Nailer{Anchor: "anchor bolt", Report: "S-501", Pull: 400 * pound, Shear: 300 * pound,
		Most: 48 * in, Least: 6 * in}
	return j
}

// By hand: Kz 1.3784, q 67.49 psf; roof zone 2 2.3, walls 0.9 both ways; allowable
// 93.13 and 36.44 psf. Up 93.13 x 13.475/12 = 104.6 lb/ft. Case A: 36.44 x 5.875/12
// + 93.13 x 3.625/12 = 17.84 + 28.13 lb/ft; case B: 17.84 + 11.01. Spacing in case
// A: 12 / (104.6/400 + 45.97/300) = 28.93, down to 28 7/8 in; with the front leg
// pulled alone it was 37 3/8.
func TestBothLegsGovernTheAnchorsByHand(t *testing.T) {
	const lbft = 4.4482216152605 / 0.3048
	l := build(t, seaJob())
	rows := l.Nailers()
	if len(rows) == 0 || math.Abs(rows[0].Run.Outside.Inch()-13.475) > 1e-9 {
		t.Fatalf("%d rows, a cap of %v", len(rows), rows[0].Run.Outside)
	}
	for _, n := range rows {
		if n.Zone != wind.Edge {
			continue
		}
		near := func(what string, got, want float64) {
			t.Helper()
			if math.Abs(got/lbft-want) > 0.02 {
				t.Errorf("%s: %.2f lb/ft, want %.2f", what, got/lbft, want)
			}
		}
		a, b := n.Cases[0], n.Cases[1]
		near("up", n.Up, 104.58)
		near("case A, front leg", a.Front, 17.84)
		near("case A, rear leg", a.Rear, 28.13)
		near("case B, front leg", b.Front, 17.84)
		near("case B, rear leg", b.Rear, 11.01)
		if n.Governs != a || a.Case.Towards() != "the roof" || n.Spacing != 28*length.Inch+7*length.Inch/8 {
			t.Errorf("run %s: case %s governs, spacing %v", n.Run.Name, n.Governs.Case, n.Spacing)
		}
	}
	for _, words := range l.NailerAssumptions() {
		if strings.Contains(words, "not stated") {
			t.Errorf("computed pressures are all there: %s", words)
		}
	}
}

// The spacing stands at what the governing case asks for, and no case asks for
// less; what is not stated is said to be taken, and lies on the safe side of the
// computed one.
func TestEveryCaseIsWithinTheAnchor(t *testing.T) {
	computed := build(t, seaJob())
	for _, n := range computed.Nailers() {
		for _, c := range n.Cases {
			if load := metre(n.Spacing) * (n.Up/n.Anchor.Pull + (c.Front+c.Rear)/n.Anchor.Shear); load > 1 {
				t.Errorf("run %s, %s zone, case %s: %.3f of an anchor", n.Run.Name, n.Zone, c.Case, load)
			}
		}
	}
	j := seaJob()
	d := computed.Demand
	j.Pressures = &job.Pressures{By: "engineer", Document: "S-1", Edition: "ASCE 7-16", CornerLength: d.CornerLength,
		Edge: job.ZonePressure{Up: d.Up[0], Out: d.Out[0]}, Corner: job.ZonePressure{Up: d.Up[1], Out: d.Out[1]}}
	j.Wind = nil
	stated := build(t, j)
	said := strings.Join(stated.NailerAssumptions(), "\n")
	if !strings.Contains(said, "inward on a leg is not stated") || !strings.Contains(said,
		"pull on the rear leg is not stated") {
		t.Errorf("taken without a word:\n%s", said)
	}
	rows := stated.Nailers()
	for i, n := range computed.Nailers() {
		if rows[i].Spacing > n.Spacing {
			t.Errorf("run %s: %v where the computed pressures give %v", n.Run.Name, rows[i].Spacing, n.Spacing)
		}
	}
}

// A chair's screws are sheared by both legs, in the case that asks for more.
func TestAcrossOneChair(t *testing.T) {
	l := build(t, seaJob())
	for _, r := range l.Runs() {
		for _, p := range l.Pulls(r) {
			var most float64
			for _, c := range wind.Cases() {
				front, rear := l.Demand.Legs(c, p.Zone)
				s := &l.Job.System
				most = max(most, (wind.AllowablePa(front)*metre(s.FrontFoot())+wind.AllowablePa(rear)*metre(s.RearFoot()))*metre(p.Tributary))
			}
			if math.Abs(p.Across-most) > 1e-6*most || p.Across < p.Out {
				t.Errorf("chair %s: %.1f N across, want %.1f", p.Chair.Name, p.Across, most)
			}
		}
	}
	if !slices.ContainsFunc(l.Runs(), func(r *layout.Run) bool { return len(l.Pulls(r)) > 0 }) {
		t.Fatal("no chair")
	}
}

func metre(l length.Length) float64 { return float64(l) / float64(length.Metre) }
