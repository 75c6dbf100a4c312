package job

import (
	"math"

	"copingset/layout/length"
)

// LegMeasure is what the outside length of a leg is taken to where a flange turns
// from its foot.
type LegMeasure int

// To the mold line, where the outside faces of leg and flange would meet if the
// bend were sharp; or to the outside tangent, the extreme of the metal square to
// the leg, which a tape reads.
const (
	ToMoldLine LegMeasure = iota
	ToTangent
)

// The words of the two measures in the job file.
const (
	toMoldLine = "mold line"
	toTangent  = "tangent"
)

// String is the word that the job file and the sheets write after "to".
func (m LegMeasure) String() string {
	if m == ToTangent {
		return toTangent
	}
	return toMoldLine
}

// Leg is an outside length of a leg from its fold to its foot, as somebody
// states it, and what he measures it to.
type Leg struct {
	Length length.Length
	To     LegMeasure
}

// leg declares an outside length of a leg with what it is measured to. A length
// alone does not say which of the two it is.
func (k keys) leg(name string, to *Leg, means, example string) {
	if f := k.n.field(name); f != nil && f.value.kind == scalarNode {
		k.errorf("leg-measure", f.value.at,
			"write `"+name+": {length: "+clip(f.value.text)+", to: "+toMoldLine+"}`, or `to: "+toTangent+
				"` for the lowest metal of a leg that ends in a turn of 90° or more",
			"%s does not say what it is measured to", k.called(name))
		return
	}
	k.group(name, means+", and what it is measured to", func(k keys) {
		k.length("length", &to.Length, means, example)
		word(k, "to", &to.To, []choice[LegMeasure]{{toMoldLine, ToMoldLine}, {toTangent, ToTangent}},
			"what the leg is measured to where a flange turns from its foot: its mold line, or the "+
				"outside tangent of a turn of 90 degrees or more", toMoldLine)
	})
}

// Foot is the measure that a leg ending in this kick is read by: to the mold
// line of a turn under 90 degrees, where the tape finds the bend; to the outside
// tangent of one of 90 or more, the lowest metal of the leg, since its faces
// meet out in the air. Without a kick both are the edge, or the fold of its hem.
func (k Kick) Foot() LegMeasure {
	if k.Length > 0 && k.Angle >= 90*Degree {
		return ToTangent
	}
	return ToMoldLine
}

// beyond is how far the mold line of a kick lies below the outside tangent:
// Ro (tan(turn/2) - 1), Ro the outside radius. The tangent of a bend lies Ro
// beyond the flat of the leg, the mold line Ro tan(turn/2). Nothing under 90
// degrees, where no metal is square to the leg, and at 180, which has no mold
// line.
//
// source: plane geometry of an arc; agrees with the setback of press-brake
// tables, Ro tan(turn/2).
func (s *System) beyond(k Kick) length.Length {
	if k.Foot() != ToTangent || k.Angle >= straight {
		return 0
	}
	ro := (s.Profile.InsideR + s.Metal.Thickness).MM()
	return length.FromMM(ro * (math.Tan(k.Angle.Degrees()*math.Pi/360) - 1))
}

// measured takes a length at the foot of a kick to another measure.
func (s *System) measured(l Leg, k Kick, to LegMeasure) length.Length {
	switch {
	case l.To == to:
		return l.Length
	case to == ToMoldLine:
		return l.Length + s.beyond(k)
	}
	return l.Length - s.beyond(k)
}

// FrontLeg is the outside length of the front leg by a measure.
func (s *System) FrontLeg(to LegMeasure) length.Length {
	return s.measured(s.Profile.FrontLeg, s.Profile.Drip, to)
}

// RearLeg is the outside length of the rear leg by a measure.
func (s *System) RearLeg(to LegMeasure) length.Length {
	return s.measured(s.Profile.RearLeg, s.Profile.RearHook, to)
}

// FrontFoot is how far the front leg reaches below its fold, by the measure of
// its own foot; Kick.Foot.
func (s *System) FrontFoot() length.Length { return s.FrontLeg(s.Profile.Drip.Foot()) }

// RearFoot is how far the rear leg reaches below its fold.
func (s *System) RearFoot() length.Length { return s.RearLeg(s.Profile.RearHook.Foot()) }

// FrontTested is a tested limit of the front leg by the measure of the job's
// own foot, to be compared with what reaches down as far.
func (s *System) FrontTested(l Leg) length.Length {
	return s.measured(l, s.Profile.Drip, s.Profile.Drip.Foot())
}

// RearTested is FrontTested of the rear leg.
func (s *System) RearTested(l Leg) length.Length {
	return s.measured(l, s.Profile.RearHook, s.Profile.RearHook.Foot())
}
