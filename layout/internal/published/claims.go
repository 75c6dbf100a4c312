package published

// rule is one that sets a number. none says why it has no case from outside;
// empty: it has one.
type rule struct{ name, none string }

// claim is what a package says of its cases: how many are from outside, at
// least, and the rules that set its numbers.
type claim struct {
	outside int
	rules   []rule
}

const (
	byHand   = "no printed example was found; worked by hand from the source's formula"
	geometry = "plane geometry, worked by hand"
	ours     = "a judgement of ours, of the size that was seen"
)

// claims lists the packages that compute.
func claims() map[string]claim {
	return map[string]claim{
		"layout/wind": {68, []rule{
			{"Kz", ""},
			{"floor of exposure B in 7-10", ""},
			{"Ke", ""},
			{"topography", ""},
			{"velocity pressure", ""},
			{"GCp of roofs, 7-10", ""},
			{"GCp of roofs, 7-16 and 7-22", ""},
			{"GCp of walls", ""},
			{"GCp over 60 ft", "walls read in a program of 7-10 and roofs from memory; no printed value but the constants themselves"},
			{"GCpi", "the constants themselves; they are in the pressures of 7-10 zone by zone"},
			{"the tenth off walls", ""},
			{"pressures zone by zone", ""},
			{"parapet cases", ""},
			{"least net pressure", ""},
			{"strength to allowable", ""},
			{"width of zones", byHand},
			{"corner zones along runs", geometry},
			{"effective wind area", byHand},
		}},
	}
}
