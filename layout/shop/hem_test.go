package shop

import (
	"math"
	"testing"

	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/length/draws"

	"pgregory.net/rapid"
)

// A hem's leaf lies off its flange as its kind says: closed on it, open by the width
// of its fold, or closed at its edge alone; its outermost metal is where the return
// says; and no metal stands in other metal.
func TestHemsLieAsTheyAreCalled(t *testing.T) {
	draws.Check(t, 60, func(r *rapid.T) {
		thick := rapid.Float64Range(0.5, 1.6).Draw(r, "thickness")
		h := job.Hem{Return: length.FromMM(rapid.Float64Range(9, 16).Draw(r, "return")), Kind: job.HemKind(rapid.IntRange(0, 2).Draw(r, "kind"))}
		if h.Kind != job.ClosedHem {
			h.Inside = length.FromMM(rapid.Float64Range(0.4, 2.5).Draw(r, "inside"))
		}
		b := builder{bend: fold.Bend{Thickness: thick, K: 0.42}}
		p, err := fold.NewPath(thick, 0.42, []fold.Leg{b.hem(h), {Name: "flange", Outside: 40}}, 1)
		if err != nil {
			r.Fatal(err)
		}
		if !p.Hem(0) {
			r.Fatal("no hem")
		}
		l := p.Lay()
		if c, bad := l.Clash(); bad {
			r.Errorf("%v hem: %s and %s %.3f mm in one another", h.Kind, c.A, c.B, c.Deep)
		}
		// The flange lies along x with its back below: middles at -T/2.
		middle := func(s float64) (x, y float64) {
			f, k := l.Skins(s)
			return (f.X + k.X) / 2, (f.Y + k.Y) / 2
		}
		_, flange := middle(p.Girth() - 5)
		off := func(s float64) float64 { _, y := middle(s); return flange - y }
		edge, fold := off(0), off(p.Segs[0].Flat)
		wantEdge, wantFold := thick, thick
		switch h.Kind {
		case job.OpenHem:
			wantEdge, wantFold = thick+2*h.Inside.MM(), thick+2*h.Inside.MM()
		case job.TeardropHem:
			wantFold = fold // wherever it then lies
		}
		if math.Abs(edge-wantEdge) > 1e-6 || math.Abs(fold-wantFold) > 1e-6 {
			r.Errorf("%v hem: its leaf lies %.4f mm off at its edge and %.4f at its fold, want %.4f and %.4f", h.Kind, edge, fold, wantEdge, wantFold)
		}
		if h.Kind == job.TeardropHem && fold <= edge {
			r.Errorf("a teardrop that is no wider at its fold: %.3f and %.3f", fold, edge)
		}
	})
}

// By hand: an open hem of 12 mm about 1 mm in metal of 1 mm and K 0.4 takes
// 12 - 2 + pi 1.4 = 14.398 mm of the sheet beyond the tangent; a closed one, whose
// fold is 2 T less pi K T, 12 - 1 + pi 0.4 = 12.257.
func TestHemsTakeOfTheSheet(t *testing.T) {
	for _, c := range []struct {
		hem  job.Hem
		want float64
	}{
		{job.Hem{Return: 12 * length.Millimetre}, 12 - 1 + math.Pi*0.4},
		{job.Hem{Return: 12 * length.Millimetre, Kind: job.OpenHem, Inside: length.Millimetre}, 12 - 2 + math.Pi*1.4},
	} {
		b := builder{bend: fold.Bend{Thickness: 1, K: 0.4}}
		p, err := fold.NewPath(1, 0.4, []fold.Leg{b.hem(c.hem), {Name: "flange", Outside: 40}}, 1)
		if err != nil {
			t.Fatal(err)
		}
		if got := p.Segs[0].Flat + p.Segs[0].Arc; math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%v hem: %.4f mm, want %.4f", c.hem.Kind, got, c.want)
		}
	}
}
