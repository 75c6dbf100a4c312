package stand_test

import (
	"math"
	"testing"

	"copingset/layout/length"
	"copingset/layout/stand"
)

// Support reactions of continuous beams of equal spans under an even load w on
// all spans, in w l, as handbooks of structures table them (American Institute of
// Steel Construction, Manual, "Continuous beams"; also Roark, Formulas for Stress
// and Strain, by the three-moment equation). The tables give them to three or
// four places; the fractions are exact.
func TestPublishedEqualSpans(t *testing.T) {
	for _, c := range []struct {
		want []float64
	}{
		{[]float64{1. / 2, 1. / 2}},
		{[]float64{3. / 8, 10. / 8, 3. / 8}},
		{[]float64{4. / 10, 11. / 10, 11. / 10, 4. / 10}},
		{[]float64{11. / 28, 32. / 28, 26. / 28, 32. / 28, 11. / 28}},
		{[]float64{15. / 38, 43. / 38, 37. / 38, 37. / 38, 43. / 38, 15. / 38}},
	} {
		const span = 1000 * mm
		at := make([]length.Length, len(c.want))
		for i := range at {
			at[i] = length.Length(i) * span
		}
		for i, r := range stand.Loads(at, []stand.Load{{From: 0, To: at[len(at)-1], Per: 1}}) {
			if math.Abs(r.Beam/span.MM()-c.want[i]) > 1e-9 {
				t.Errorf("%d spans: reaction %d is %v w l, the table has %v", len(at)-1, i, r.Beam/span.MM(), c.want[i])
			}
		}
	}
}

// One span loaded of two, and the end spans of three (same tables): a hold-down
// away from the load is pushed.
func TestPublishedPartlyLoaded(t *testing.T) {
	const l = 1000 * mm
	for _, c := range []struct {
		loads []stand.Load
		want  []float64
	}{
		{[]stand.Load{{0, l, 1}}, []float64{7. / 16, 10. / 16, -1. / 16}},
		{[]stand.Load{{0, l, 1}, {2 * l, 3 * l, 1}}, []float64{.45, .55, .55, .45}},
		{[]stand.Load{{l, 2 * l, 1}}, []float64{-.05, .55, .55, -.05}},
	} {
		at := make([]length.Length, len(c.want))
		for i := range at {
			at[i] = length.Length(i) * l
		}
		for i, r := range stand.Loads(at, c.loads) {
			if math.Abs(r.Beam/l.MM()-c.want[i]) > 1e-9 {
				t.Errorf("%v: reaction %d is %v w l, the table has %v", c.loads, i, r.Beam/l.MM(), c.want[i])
			}
		}
	}
}

// A beam that hangs over its two supports by a alike: w (l/2 + a) each; over one
// of them by a: w (l+a)2/2l there, w (l2-a2)/2l at the other (AISC Manual, "Beam
// overhanging one support").
func TestPublishedOverhang(t *testing.T) {
	const l, a = 800 * mm, 200 * mm
	r := stand.Loads([]length.Length{0, l}, []stand.Load{{From: -a, To: l + a, Per: 1}})
	if !near(r[0].Beam, 600) || !near(r[1].Beam, 600) {
		t.Errorf("%v", r)
	}
	r = stand.Loads([]length.Length{0, l}, []stand.Load{{From: 0, To: l + a, Per: 1}})
	if !near(r[1].Beam, 1000*1000/1600.) || !near(r[0].Beam, (800*800-200*200)/1600.) {
		t.Errorf("%v", r)
	}
}

// A group of fasteners under a pull off its middle, by the elastic method P/n +
// P e y / sum y2: four at the corners of a square of side s, pulled at the middle
// of one side. By hand, with P = 8 and s = 2: 8/4 + 8 1 1/4 = 4 at the near two,
// 2 - 2 = 0 at the far two.
func TestPublishedElasticGroup(t *testing.T) {
	feet := []stand.Foot{{stand.Point{1, 1}, true}, {stand.Point{1, -1}, true}, {stand.Point{-1, 1}, true}, {stand.Point{-1, -1}, true}}
	b := stand.Balance(feet, stand.Pull{N: 8, At: stand.Point{X: 1}})
	for i, want := range []float64{4, 4, 0, 0} {
		if !near(b.Forces[i], want) {
			t.Errorf("%v", b)
		}
	}
	if !b.OK || b.Off != 0 {
		t.Errorf("%v", b)
	}
}
