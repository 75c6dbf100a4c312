package published

// rule is one that sets a number. none says why it has no case from outside;
// empty: it has one.
type rule struct{ name, none string }

// claim is what a package says of its cases: how many are from outside, at
// least, and the rules that set its numbers.
type claim struct {
	outside int
	shared  int // of them from a table that another package counts
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
		"layout/wind": {outside: 75, rules: windRules()},
		"layout/metal": {outside: 38, rules: []rule{
			{"expansion: printed values", ""},
			{"growth with temperature", ""},
			{"pairs that touch", ""},
			{"screws in sheet", ""},
			{"neutral axis", ""},
			{"tightest bend", ""},
		}},
		"layout/withdrawal": {outside: 18, rules: []rule{
			{"withdrawal of lag screws", ""},
			{"withdrawal of wood screws", ""},
			{"withdrawal of nails", ""},
			{"load duration and moisture", "1.6 is read as a constant alone; moisture is from memory"},
			{"lateral yield, metal side", ""},
			{"lateral yield, wood side", ""},
			{"pull and shear together", "a straight line between the two, on the safe side of every curve"},
		}},
		// The table of tangents is counted at the setback of package fold alone.
		"layout/cap": {outside: 9, shared: 9, rules: []rule{
			{"miter trim", ""},
			{"pitch trim", ""},
			{"trims of two widths", geometry},
			{"gap by temperature", ""},
			{"rows of pieces", "what the trade does; nobody prints it"},
		}},
		"layout/fold": {outside: 11, rules: []rule{
			{"bend allowance", ""},
			{"bend deduction", ""},
			{"setback", ""},
			{"hem", byHand},
			{"flat of a cap", byHand},
			{"miter on the flat", geometry},
		}},
		"layout/shop": {outside: 6, shared: 5, rules: []rule{
			{"miter on the flat", ""},
			{"weight of a flat", ""},
		}},
		"layout/cut": {outside: 4, rules: []rule{{"fewest bars", ""}}},
		"layout/length": {outside: 1, rules: []rule{
			{"inches and feet", ""},
			{"equal caps", geometry},
		}},
		"layout/wall": {outside: 5, shared: 5, rules: []rule{
			{"trim of a wall's corner", ""},
			{"shims", "what the trade does; nobody prints it"},
		}},
		"layout/wall/minimax": {outside: 7, rules: []rule{{"best straight line", ""}}},
		"layout/anchor": {rules: []rule{
			{"equal bays", "what the trade does; nobody prints it"},
			{"fastener length", "what the trade does; nobody prints it"},
		}},
		"layout": {rules: []rule{
			{"lifting limit", byHand},
			{"load to one chair", "no example of a cap on separate chairs was found"},
			{"nailer anchors", "no example was found; worked by hand from the parapet cases"},
			{"holes of a chair", ours},
			{"least factor", "an association's report of a standard that was not read"},
		}},
	}
}

// windRules are those of the pressures.
func windRules() []rule {
	return []rule{
		{"Kz", ""},
		{"floor of exposure B in 7-10", ""},
		{"Ke", ""},
		{"topography", ""},
		{"velocity pressure", ""},
		{"GCp of roofs, 7-10", ""},
		{"GCp of roofs, 7-16 and 7-22", ""},
		{"GCp of walls", ""},
		{"GCp over 60 ft", "walls read in a program of 7-10 and roofs from memory; no printed value but the " +
			"constants themselves"},
		{"GCpi", "the constants themselves; they are in the pressures of 7-10 zone by zone"},
		{"the tenth off walls", ""},
		{"pressures zone by zone", ""},
		{"parapet cases", ""},
		{"least net pressure", ""},
		{"strength to allowable", ""},
		{"width of zones", byHand},
		{"corner zones along runs", geometry},
		{"effective wind area", byHand},
	}
}
