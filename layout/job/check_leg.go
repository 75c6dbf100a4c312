package job

import "fmt"

// checkLegs compares what legs and tested limits are measured to with how the
// leg ends.
func (d *decoder) checkLegs(j *Job) {
	s := &j.System
	const front, rear = "system.profile.front_leg", "system.profile.rear_leg"
	const drip, hook = "system.profile.drip", "system.profile.rear_hook"
	d.checkLeg(front, s.Profile.FrontLeg, drip, s.Profile.Drip)
	d.checkLeg(rear, s.Profile.RearLeg, hook, s.Profile.RearHook)
	for i := range j.Assemblies {
		d.checkLeg(fmt.Sprintf("assemblies[%d].front_leg_most", i), j.Assemblies[i].FrontLegMost, drip,
			s.Profile.Drip)
		d.checkLeg(fmt.Sprintf("assemblies[%d].rear_leg_most", i), j.Assemblies[i].RearLegMost, hook,
			s.Profile.RearHook)
	}
}

func (d *decoder) checkLeg(leg string, l Leg, kick string, k Kick) {
	to, angle := leg+".to", kick+".angle"
	if !d.has(to, angle) || k.Length == 0 {
		return
	}
	switch {
	case l.To == ToTangent && k.Angle < 90*Degree:
		d.conflict("leg-tangent", d.places[to], d.places[angle],
			"write `to: "+toMoldLine+"`, and the length that goes with it",
			"%s is measured to the tangent, and its foot turns by %s: only a turn of 90° or more has a lowest metal "+
				"to measure to",
			d.name(leg), FormatAngle(k.Angle))
	case l.To == ToMoldLine && k.Angle >= straight:
		d.conflict("leg-mold-line", d.places[to], d.places[angle],
			"write `to: "+toTangent+"`, and the length to the lowest metal",
			"%s is measured to the mold line, and its foot turns by %s: flange and leg are parallel and meet nowhere",
			d.name(leg), FormatAngle(k.Angle))
	}
}
