package drawing

import (
	"strings"
	"testing"
)

func TestSums(t *testing.T) {
	cases := []struct {
		name string
		sum  Sum
		bad  string
	}{
		{"feet and inches as lettered", Sum{"pieces", []string{Letter(`2'-3"`), Letter(`5/16"`), Letter(`9'-5 11/16"`)}, "", Letter(`11'-9"`)}, ""},
		{"millimetres", Sum{"pieces", []string{"480", "7", "2081.5"}, "", "2568.5"}, ""},
		{"between stations", Sum{"chairs", []string{Letter(`3'-10 1/16"`), Letter(`3'-10 1/8"`)}, Letter(`10'-3 1/4"`), Letter(`17'-11 7/16"`)}, ""},
		{"a datum left of the first", Sum{"chairs", []string{Letter(`0'-11/16"`)}, Letter(`-11/16"`), "0"}, ""},
		{"rounded each by itself", Sum{"pieces", []string{Letter(`9'-9 1/2"`), Letter(`9'-9 1/2"`)}, "", Letter(`19'-7 1/16"`)}, "do not come to"},
		{"not a length", Sum{"pieces", []string{"lay 5"}, "", "5"}, "is no length"},
	}
	for _, c := range cases {
		got := c.sum.check()
		if c.bad == "" && got != "" || !strings.Contains(got, c.bad) {
			t.Errorf("%s: %q, want %q", c.name, got, c.bad)
		}
	}
	s := Scene{Name: "x", W: 1000, H: 1000}
	s.Group(Dimensions, "", func(g *Scene) {
		g.Line(Thin, Pt(100, 100), Pt(200, 200))
		g.Claim(Sum{"wrong", []string{"1", "2"}, "", "4"})
	})
	found := Check(s)
	if len(found) != 1 || found[0].Fault != SumNotTrue {
		t.Errorf("%v", found)
	}
	if found := Check(Scene{Name: "bare", W: 10, H: 10}); len(found) != 1 || found[0].Fault != EmptyScene {
		t.Errorf("%v", found)
	}
	big := Scene{Name: "sheet", W: 1000, H: 1000}
	big.Place(s, Pt(5, 5))
	if found := Check(big); len(found) != 1 {
		t.Errorf("a sum is lost in placing: %v", found)
	}
}
