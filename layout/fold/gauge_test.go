package fold

import (
	"math"
	"testing"
)

// A leaf of .500 in .050 metal with K .40 takes .0372 off, so that its fold stands
// .4628 nearer than the edge of the flat blank: derived.
func TestGaugeAfterHem(t *testing.T) {
	p, err := NewPath(0.050, 0.40, []Leg{
		{Name: "hem", Outside: 0.5, Turn: -180, To: ToTangent},
		{Name: "leg", Outside: 4, Turn: -90, Radius: 0.0625},
		{Name: "top", Outside: 12},
	}, 2)
	if err != nil {
		t.Fatal(err)
	}
	flat := p.Reach(1, func(int) bool { return false }, false)
	hemmed := p.Reach(1, func(i int) bool { return i == 0 }, false)
	if !flat.Edge || hemmed.Edge || math.Abs(flat.Distance-hemmed.Distance-0.4628) > 0.0001 {
		t.Errorf("%+v and %+v: the fold stands %.4f nearer, want .4628", flat, hemmed, flat.Distance-hemmed.Distance)
	}
	// Gauged on the fold of a leg of 4 in: outside leg less half its deduction.
	less := p.Deduction(1)
	if want := 4 - less/2; math.Abs(hemmed.Distance-want) > 1e-9 {
		t.Errorf("the gauge stands at %.4f, want %.4f", hemmed.Distance, want)
	}
	// The other side is not folded, and a leg bent before stands out by its tangent.
	if r := p.Reach(1, func(int) bool { return false }, true); !r.Edge || math.Abs(r.Distance-(12-less/2)) > 1e-9 {
		t.Errorf("from the other edge %+v, want %.4f", r, 12-less/2)
	}
}
