package wind

import (
	"slices"
	"testing"

	"copingset/layout/internal/published"
	"copingset/layout/length"
)

func TestAround(t *testing.T) {
	const ft = length.Foot
	d := Demand{CornerLength: 6 * ft}
	corner := func(a, b length.Length) Stretch { return Stretch{a * ft, b * ft, Corner} }
	edge := func(a, b length.Length) Stretch { return Stretch{a * ft, b * ft, Edge} }
	cases := []struct {
		name    string
		fronts  []length.Length
		outside []bool
		closed  bool
		begins  bool
		want    [][]Stretch
	}{
		{"a rectangle", []length.Length{40 * ft, 10 * ft, 40 * ft, 10 * ft}, []bool{true, true, true, true}, true, false,
			[][]Stretch{{corner(0, 6), edge(6, 34), corner(34, 40)}, {corner(0, 10)}, {corner(0, 6), edge(6, 34), corner(34,
				40)}, {corner(0, 10)}}},
		{"a well has no outside corner", []length.Length{10 * ft, 10 * ft}, []bool{false, false}, true, false,
			[][]Stretch{{edge(0, 10)}, {edge(0, 10)}}},
		{"a jog of 2 ft at an inside corner does not end the zone", []length.Length{20 * ft, 2 * ft, 20 * ft}, []bool{false,
			true}, false, false,
			[][]Stretch{{edge(0, 16), corner(16, 20)}, {corner(0, 2)}, {corner(0, 6), edge(6, 20)}}},
		{"a wall with two free ends", []length.Length{20 * ft}, []bool{true}, false, true,
			[][]Stretch{{corner(0, 6), edge(6, 14), corner(14, 20)}}},
		{"a free end goes on past a jog", []length.Length{4 * ft, 20 * ft}, []bool{false, false}, false, true,
			[][]Stretch{{corner(0, 4)}, {corner(0, 2), edge(2, 20)}}},
		{"nothing beyond an open end", []length.Length{3 * ft, 20 * ft}, []bool{true}, false, false,
			[][]Stretch{{corner(0, 3)}, {corner(0, 6), edge(6, 20)}}},
		{"round the seam of a closed perimeter", []length.Length{2 * ft, 20 * ft, 20 * ft}, []bool{false, false, true},
			true, false,
			[][]Stretch{{corner(0, 2)}, {corner(0, 4), edge(4, 20)}, {edge(0, 14), corner(14, 20)}}},
	}
	for _, c := range cases {
		got := d.Around(c.fronts, c.outside, c.closed, c.begins)
		for i := range c.want {
			published.Holds(t, "corner zones along runs", published.ByHand("plane geometry"), c.name, slices.Equal(got[i],
				c.want[i]))
		}
	}
	z := d.Around([]length.Length{40 * ft, 40 * ft}, []bool{true, true}, true, false)[0]
	if Touches(z, 5*ft, 20*ft) != Corner || Touches(z, 6*ft, 34*ft) != Edge {
		t.Error("a piece that touches a zone takes it whole, one that only meets its edge does not")
	}
}
