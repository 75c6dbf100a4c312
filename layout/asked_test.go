package layout_test

import (
	"os"
	"slices"
	"testing"

	"copingset/layout"
	"copingset/layout/crate"
	"copingset/layout/job"
	"copingset/layout/length"
)

// What a crew asks for is asked where the job has a use for it, answered or not.
func TestAsked(t *testing.T) {
	always := []layout.AskedKind{layout.AskedDriving, layout.AskedMembrane, layout.AskedTape, layout.AskedSealant,
		layout.AskedLastGap, layout.AskedNight, layout.AskedRain}
	for name, c := range map[string]struct{ also, not []layout.AskedKind }{
		"rectangle": {nil, nil},
		"l-shape": {[]layout.AskedKind{layout.AskedHoles, layout.AskedSlack, layout.AskedWallEnd},
			[]layout.AskedKind{layout.AskedMembrane, layout.AskedLastGap}},
		"metric": {[]layout.AskedKind{layout.AskedHoles}, []layout.AskedKind{layout.AskedDriving,
			layout.AskedMembrane, layout.AskedSealant, layout.AskedLastGap, layout.AskedNight, layout.AskedRain}},
	} {
		j, found := job.Read(os.DirFS("../samples"), name+"/job.yaml")
		if found.HasErrors() {
			t.Fatal(found)
		}
		l, _ := solved(j)
		want := slices.Concat(always, c.also)
		slices.Sort(want)
		var got, not []layout.AskedKind
		for _, a := range l.Asked() {
			got = append(got, a.Kind)
			if !a.Stated() {
				not = append(not, a.Kind)
			}
			if a.Stated() == (a.Fact == "") {
				t.Errorf("%s: %v is stated %v and names %q", name, a.Kind, a.Stated(), a.Fact)
			}
		}
		if !slices.Equal(got, want) || !slices.Equal(not, c.not) {
			t.Errorf("%s: asked %v, not stated %v; want %v and %v", name, got, not, want, c.not)
		}
	}
}

// The shims of the crates are those under the chairs and under the corner supports,
// whose layers and shims come to their packing.
func TestShimsOfSupportsAreCounted(t *testing.T) {
	j, _ := job.Read(os.DirFS("../samples"), "rectangle/job.yaml")
	l, _ := solved(j)
	want, supports := map[length.Length]int{}, 0
	for _, p := range l.Perimeters {
		for _, s := range p.Supports {
			made := length.Length(s.Layers) * j.Packing.Layer
			for _, x := range s.Shims {
				made += x
				want[x]++
				supports++
			}
			if length.Abs(made-s.Packing) > length.Inch/16 {
				t.Errorf("support %s: %v is made of %v", s.Name, made, s.Packing)
			}
		}
		for _, r := range p.Runs {
			for _, c := range r.Chairs {
				for _, x := range slices.Concat(c.ShimFront, c.ShimRear) {
					want[x]++
				}
			}
		}
	}
	if supports == 0 {
		t.Fatal("no support stands on a shim")
	}
	for _, c := range l.Crates {
		for _, x := range c.Items {
			if x.Sort == crate.Shim && x.Count-x.Spare != want[x.Length] {
				t.Errorf("%d shims of %v, want %d", x.Count-x.Spare, x.Length, want[x.Length])
			}
		}
	}
}
