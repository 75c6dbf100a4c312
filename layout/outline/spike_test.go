package outline

import (
	"strconv"
	"strings"
	"testing"

	"copingset/layout/length"
)

// A ring that turns back along itself is no perimeter: the finding stands at the point.
func TestSpike(t *testing.T) {
	text := "x (m),y (m)\n0,0\n30,0\n30,10\n15.2,10\n15,40\n14.9,10.1\n0,10\n"
	rings, found := Points(strings.NewReader(text), "p.csv")
	if len(found) > 0 {
		t.Fatal(found)
	}
	_, found = Of(rings, Options{Near: 6 * length.Millimetre})
	if len(found) != 1 || found[0].Code != "outline-spike" || found[0].At.Line != 6 {
		t.Errorf("%v", found)
	}
}

// Directions are rounded and not turns: along a ring of many sides the rounding does not
// add up.
func TestRoundedDirectionsDoNotAddUp(t *testing.T) {
	var b strings.Builder
	b.WriteString("x (m),y (m)\n0,0\n")
	for i := range 80 { // a shallow bow of sides whose turns all round the same way
		x := float64(i + 1)
		b.WriteString(strings.Join([]string{num(x), num(-0.00027 * x * x)}, ",") + "\n")
	}
	b.WriteString("80,-30\n0,-30\n")
	rings, found := Points(strings.NewReader(b.String()), "p.csv")
	if len(found) > 0 {
		t.Fatal(found)
	}
	plan, found := Of(rings, Options{Near: length.Millimetre / 10})
	if found.HasErrors() {
		t.Fatal(found)
	}
	var sum length.Angle
	for _, s := range plan.Perimeters[0].Sides {
		sum += s.Turn
	}
	if sum != 360*length.Degree {
		t.Errorf("the turns sum to %v", length.FormatAngle(sum))
	}
}

func num(v float64) string { return strconv.FormatFloat(v, 'f', 6, 64) }
