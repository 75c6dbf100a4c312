package shop

import (
	"math"
	"testing"

	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/length"
)

// What a strip is said to take is the printed deduction of its bend: T .050, R .0625,
// K .40, to the mold line up to 90 degrees and to the outside tangent beyond, where it
// is an addition past about 156 degrees. Both legs less it are the blank again.
func TestTrialsTakeWhatIsPrinted(t *testing.T) {
	j := &job.Job{Shop: &job.Shop{K: 0.4, LeastFlange: length.Inch / 2}}
	j.System.Metal.Thickness, j.System.Profile.InsideR = length.Inch/20, length.Inch/16
	for _, c := range []struct {
		turn, want float64
		to         fold.Measure
	}{
		{90, .0954, fold.ToMoldLine}, {105, .0738, fold.ToTangent}, {120, .0522, fold.ToTangent},
		{135, .0306, fold.ToTangent}, {150, .0090, fold.ToTangent}, {165, -.0126, fold.ToTangent},
	} {
		got := newTrial(j, c.turn)
		if math.Abs(got.Deduction.Inch()-c.want) > 0.00006 || got.To != c.to {
			t.Errorf("%g degrees: %.4f in %v, printed %.4f %v", c.turn, got.Deduction.Inch(), got.To, c.want, c.to)
		}
		if got.Length != 4*length.Inch || len(got.Section) == 0 {
			t.Errorf("%g degrees: a blank of %v", c.turn, got.Length)
		}
		if off := 2*got.Leg - got.Deduction - got.Length; length.Abs(off) > length.Inch/64 {
			t.Errorf("%g degrees: both legs less the deduction differ from the blank by %v", c.turn, off)
		}
	}
}

// A sheet of strips is printed where a bend over 90 degrees has no trial, or where the
// job asks for it, and then for every turn.
func TestTrialsAreAskedFor(t *testing.T) {
	j := &job.Job{Shop: &job.Shop{K: 0.4, LeastFlange: length.Inch / 2}}
	j.System.Metal.Thickness, j.System.Profile.InsideR = length.Inch/20, length.Inch/16
	bend := func(turn float64, a, b string) Bend {
		return Bend{Line: fold.BendLine{Turn: turn, Radius: j.System.Profile.InsideR.MM(), Between: [2]string{a, b}}}
	}
	f := []*Family{{Bodies: []Body{{Bends: []Bend{bend(35, "front leg", "drip"), bend(-90, "top", "front leg"), bend(-146, "rear leg", "hook"), bend(-146.3, "rear leg", "hook")}}}}}
	if got := Trials(j, f); len(got) != 3 || got[2].Turn != 146 || got[2].Up || !got[0].Up || len(got[2].Of) != 1 {
		t.Errorf("%+v", got)
	}
	j.Shop.Bends = []job.TakenBend{{Turn: 146 * job.Degree}}
	if got := Trials(j, f); got != nil {
		t.Errorf("every bend over 90 degrees has its trial, and a sheet is printed: %+v", got)
	}
	j.Shop.Strips = true
	if got := Trials(j, f); len(got) != 3 || got[2].Stated == nil {
		t.Errorf("asked for: %+v", got)
	}
}
