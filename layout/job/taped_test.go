package job

import (
	"math"
	"testing"

	"copingset/layout/length"

	"pgregory.net/rapid"
)

func TestTapedCorners(t *testing.T) {
	ft := func(f float64) length.Length { return length.FromInches(12 * f) }
	for _, c := range []struct {
		name                  string
		left, right, diagonal length.Length
		inside                bool
		included, turn        float64
	}{
		{"3-4-5", ft(3), ft(4), ft(5), false, 90, 90},
		{"square over 4 ft, diagonal to 1/8", ft(4), ft(4), 67*length.Inch + 7*length.Inch/8, false, 89.98776, 90.01224},
		{"equal sides", ft(4), ft(4), ft(4), false, 60, 120},
		{"inside", ft(3), ft(4), ft(5), true, 90, -90},
		{"135 included", ft(4), ft(4), length.FromInches(2 * 48 * math.Sin(67.5*math.Pi/180)), false, 135, 45},
	} {
		q := Taped{Left: c.left, Right: c.right, Diagonal: c.diagonal, Inside: c.inside}
		in, ok := q.Included()
		turn, _ := q.Turn()
		if !ok || math.Abs(in.Degrees()-c.included) > 1e-3 || math.Abs(turn.Degrees()-c.turn) > 1e-3 {
			t.Errorf("%s: included %g, turn %g, want %g and %g", c.name, in.Degrees(), turn.Degrees(), c.included, c.turn)
		}
	}
	for _, q := range []Taped{{Left: ft(4), Right: ft(4), Diagonal: ft(8)}, {Left: ft(4), Right: ft(1), Diagonal: ft(3)}, {}} {
		if a, ok := q.Included(); ok {
			t.Errorf("%+v makes an angle of %g", q, a.Degrees())
		}
	}
}

// The doubt bounds what readings rounded to the step make of the angle, and legs
// that are as long as is asked for bring it under what was asked.
func TestTapedDoubt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := rapid.Float64Range(20, 170).Draw(t, "included") * math.Pi / 180
		l := rapid.Float64Range(600, 3000).Draw(t, "left")
		r := l * rapid.Float64Range(0.7, 1.4).Draw(t, "ratio")
		d := math.Sqrt(l*l + r*r - 2*l*r*math.Cos(in))
		q := Taped{Left: length.RoundTo(length.FromMM(l), length.Inch16), Right: length.RoundTo(length.FromMM(r), length.Inch16), Diagonal: length.RoundTo(length.FromMM(d), length.Inch16)}
		got, ok := q.Included()
		if !ok {
			t.Fatal("no triangle")
		}
		out := math.Abs(got.Degrees() - in*180/math.Pi)
		if doubt := q.Doubt(length.Inch16).Degrees(); out > doubt*1.05+1e-4 {
			t.Fatalf("out by %g, doubt is %g", out, doubt)
		}
		to := Degree / 10
		k := float64(q.Longer(length.Inch16, to)) / float64(min(q.Left, q.Right))
		long := Taped{Left: length.FromMM(q.Left.MM() * k), Right: length.FromMM(q.Right.MM() * k), Diagonal: length.FromMM(q.Diagonal.MM() * k)}
		if long.Doubt(length.Inch16) > to+to/100 {
			t.Fatalf("legs %g times as long leave %g", k, long.Doubt(length.Inch16).Degrees())
		}
	})
}
