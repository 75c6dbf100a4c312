package layout_test

import (
	"testing"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// The shop's bending data are remarked on where they lie far from what is
// printed, and used all the same.
func TestFormingAgainstPrint(t *testing.T) {
	for _, c := range []struct {
		name, metal string
		k           float64
		radius      length.Length
		want        string
	}{
		{"as printed", "aluminum 5052-H32", 0.40, 3 * length.Inch / 32, ""},
		{"neutral axis too near the inside", "aluminum 5052-H32", 0.33, 3 * length.Inch / 32, "k-differs"},
		{"neutral axis at the middle of aluminum", "aluminum 5052-H32", 0.48, 3 * length.Inch / 32, "k-differs"},
		{"the same in stainless is printed", "stainless steel 304", 0.48, length.Inch / 8, ""},
		{"bent too tight", "aluminum 5052-H32", 0.40, length.Inch / 16, "radius-tight"},
		{"nothing printed", "titanium zinc", 0.33, 0, ""},
	} {
		j := woodJob()
		j.System.Metal.Name, j.System.Metal.Thickness = c.metal, 50*length.Inch/1000
		j.System.Profile.InsideR = c.radius
		j.Shop = &job.Shop{K: c.k, LeastFlange: length.Inch / 4, Brake: 400 * length.Inch, MostTurn: 170 * job.Degree,
			Sheets: []job.ShopSheet{{Width: 60 * length.Inch, Length: 400 * length.Inch}}, LeastDrop: 30 * length.Inch, Effort: 20}
		l := build(t, j)
		for _, code := range []string{"k-differs", "radius-tight"} {
			f, ok := coded(l, code)
			if ok != (code == c.want) || ok && f.Severity != finding.Note {
				t.Errorf("%s: %s found %v: %v", c.name, code, ok, f)
			}
		}
	}
}
