package job

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"copingset/layout/length"
)

func kicked(turn Angle, radius, thickness length.Length) *System {
	k := Kick{Length: in / 2, Angle: turn}
	return &System{Metal: Metal{Thickness: thickness}, Profile: Profile{InsideR: radius, Drip: k, RearHook: k}}
}

// source: "to apex beyond tangent" of a leg, T 0.050, R 0.0625, worked from the
// setback of press-brake tables, Ro (tan(turn/2) - 1), to four places.
func TestMoldLineBeyondTangent(t *testing.T) {
	for _, c := range []struct {
		turn   float64
		beyond float64 // in
	}{{90, 0}, {105, .0341}, {120, .0824}, {135, .1591}, {150, .3074}, {165, .7420}, {35, 0}} {
		s := kicked(Angle(c.turn*float64(Degree)), in/16, in/20)
		s.Profile.FrontLeg = Leg{5 * in, ToMoldLine}
		s.Profile.RearLeg = Leg{3 * in, ToTangent}
		near := func(what string, got, want length.Length) {
			if math.Abs(float64(got-want)) > float64(in)/20000 {
				t.Errorf("turn %v: %s is %v, want %v", c.turn, what, got, want)
			}
		}
		beyond := length.FromMM(c.beyond * 25.4)
		near("front leg to the tangent", s.FrontLeg(ToTangent), 5*in-beyond)
		near("rear leg to the mold line", s.RearLeg(ToMoldLine), 3*in+beyond)
		near("rear foot", s.RearFoot(), 3*in)
		near("front foot", s.FrontFoot(), 5*in-beyond)
		near("tested, by the foot", s.FrontTested(Leg{6 * in, ToMoldLine}), 6*in-beyond)
		near("tested to the tangent", s.RearTested(Leg{4 * in, ToTangent}), 4*in)
	}
}

// A leg said in either measure is one leg; there and back it is the same.
func TestMeasuresAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := kicked(Angle(rapid.IntRange(0, 180_000).Draw(t, "turn"))*Degree/1000,
			length.Length(rapid.IntRange(0, 10_000).Draw(t, "radius"))*length.Micrometre, length.Length(rapid.IntRange(200, 4000).Draw(t, "thickness"))*length.Micrometre)
		for _, to := range []LegMeasure{ToMoldLine, ToTangent} {
			l := Leg{length.Length(rapid.IntRange(1, 400_000).Draw(t, "leg")) * length.Micrometre, to}
			other := ToTangent - to
			s.Profile.RearLeg = l
			there := Leg{s.RearLeg(other), other}
			s.Profile.RearLeg = there
			if back := s.RearLeg(to); back != l.Length {
				t.Fatalf("%v to %v, back %v", l, there, back)
			}
			if s.RearLeg(ToTangent) > s.RearLeg(ToMoldLine) {
				t.Fatal("the tangent lies beyond the mold line")
			}
		}
	})
}
