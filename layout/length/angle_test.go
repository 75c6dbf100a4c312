package length

import "testing"

func TestAnglesAndSlopes(t *testing.T) {
	for _, c := range []struct {
		a    Angle
		want string
	}{{90 * Degree, "90°"}, {-45 * Degree, "-45°"}, {22*Degree + Degree/2, "22.5°"}, {89*Degree + 3*Degree/4, "89.75°"}, {0, "0°"}} {
		if got := FormatAngle(c.a); got != c.want {
			t.Errorf("%d is lettered %s, want %s", c.a, got, c.want)
		}
	}
	if got := Slope(1_000_000_000 / 24).Rise(2 * Foot); got < Inch-2 || got > Inch {
		t.Errorf("half an inch a foot rises %d over two feet", got)
	}
}
