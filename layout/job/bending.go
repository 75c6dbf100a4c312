package job

import (
	"copingset/layout/finding"
	"copingset/layout/length"
)

// Etch says whether the mark of a part is etched into its metal, and where.
type Etch int

// Nowhere; on the back, mirrored on the drawing of the finish face; or only where
// a hem covers it.
const (
	EtchNot Etch = iota
	EtchBack
	EtchHidden
)

// TakenBend is what a bend took in a trial strip: of the sum of the outside lengths
// of both its legs, by one measure.
type TakenBend struct {
	At            finding.Place
	Turn          Angle
	Deduction     length.Length // less than nothing where the flat is the longer
	To            LegMeasure
	Method, Strip string // how it was bent, and which strip it was
}

// MachineKind is what the shop bends on.
type MachineKind int

// A press brake spans a die; a folding machine clamps the sheet under a nose.
const (
	PressBrake MachineKind = iota
	Folder
)

func (k MachineKind) String() string { return [...]string{"press brake", "folder"}[k] }

// Machine is what the shop bends on, by its own limits; zero for one not stated.
type Machine struct {
	At        finding.Place
	Kind      MachineKind
	Dies      []length.Length // openings of the dies of a press brake
	Nose      length.Length   // of the clamping beam of a folder
	Throat    length.Length   // room behind the bend line
	LeastGage length.Length   // nearest the back gauge stands to the bend line
	MostGage  length.Length
	Longest   length.Length // longest part it takes along the bend
	Flange    length.Length // least flange, outside
	Takes     []Taken       // the sheets it takes, by metal; none: not stated
	Punch     []ToolPoint   // outline of the punch or clamping beam at the bend line, y away from the sheet
	Die       []ToolPoint   // outline of the die or lower beam, y away from the sheet
}

// Taken is what a machine takes of one metal: sheets of these thicknesses.
type Taken struct {
	Metal       string
	Least, Most length.Length
}

// ToolPoint is a corner of a tool's outline: across from the bend line, to the
// gauge positive, and away from the sheet.
type ToolPoint struct{ X, Y length.Length }

func (s *Shop) bendingKeys(k keys) {
	optional(k.may(), "machine", &s.Machine, (*Machine).keys, "what the shop bends on, with its own limits")
	list(k.may(), "bends", "bend", &s.Bends, (*TakenBend).keys,
		"what bends took in trial strips; each stands before the K factor")
	k.may().yes("trial_strips", &s.Strips,
		"whether a sheet for trial strips is printed though every bend over 90° has one", "yes")
	k.may().texts("bend_order", &s.BendOrder,
		"the bends in the shop's own order, each by the two faces beside it like `front leg/top`; one is found "+
			"otherwise", "[drip/hem, hook/hem, drip/front leg]")
	optional(k.may(), "seam", &s.Seam, (*SeamRules).keys, "how the seams of a piece are joined")
	word(k.may(), "etch", &s.Etch, []choice[Etch]{{"back", EtchBack}, {"hidden", EtchHidden}},
		"where the mark of a part is etched: on its back, or only where a hem hides it; otherwise nowhere", "back")
}

func (b *TakenBend) keys(k keys) {
	b.At = k.at
	k.angle("turn", &b.Turn, 0, straight, "how far the bend turns", "90")
	k.signedLength("deduction", &b.Deduction,
		"what the flat is shorter than the outside lengths of both legs together, negative where it is longer",
		`0.095"`)
	word(k.when(b.Turn > 90*Degree, "the bend turns more than 90°, where the two measures differ"), "to", &b.To,
		[]choice[LegMeasure]{{toMoldLine, ToMoldLine}, {toTangent, ToTangent}},
		"what the legs of the strip were measured to", toTangent)
	k.may().text("method", &b.Method, "how the strip was bent", "air bent, die 3/8")
	k.may().text("strip", &b.Strip, "which strip it was", "T-3")
}

func (m *Machine) keys(k keys) {
	m.At = k.at
	word(k, "kind", &m.Kind, []choice[MachineKind]{{"press", PressBrake}, {"folder", Folder}}, "what the shop bends on",
		"press")
	k.when(m.Kind == PressBrake, "a press brake spans a die").
		lengths("dies", &m.Dies, "the openings of its dies, ascending", `[1/4", 3/8", 1/2"]`)
	k.when(m.Kind == Folder, "a folder clamps the sheet").
		length("nose", &m.Nose, "how far its clamping beam reaches back from the bend line at the sheet", `3/8"`)
	k.may().length("throat", &m.Throat, "the room behind the bend line", `40"`)
	k.may().length("least_gauge", &m.LeastGage, "the least distance of the back gauge from the bend line", `3/16"`)
	k.may().length("most_gauge", &m.MostGage, "its greatest distance", `38"`)
	k.may().length("longest", &m.Longest,
		"the longest part it takes along the bend, if that is less than the shop's `brake`", `10'-0"`)
	k.may().length("least_flange", &m.Flange,
		"the narrowest flange it holds, if that is more than the shop's `least_flange`", `1/2"`)
	list(k.may(), "takes", "metal", &m.Takes, (*Taken).keys,
		"the sheets it takes, by metal; a metal that is not in the list is not bent on it")
	list(k.may(), "punch", "point", &m.Punch, (*ToolPoint).keys,
		"the outline of the punch or clamping beam from its tip, in order")
	list(k.may(), "die", "point", &m.Die, (*ToolPoint).keys, "the outline of the die or lower beam, in order")
}

func (t *Taken) keys(k keys) {
	k.text("metal", &t.Metal, "the metal, as the system names it", "aluminum 3003-H14")
	k.length("least", &t.Least, "the thinnest sheet of it that the machine bends", `0.025"`)
	k.length("most", &t.Most, "the thickest", `0.080"`)
}

func (p *ToolPoint) keys(k keys) {
	k.signedLength("x", &p.X, "how far it lies from the bend line, positive to the gauge", `1/4"`)
	k.signedLength("y", &p.Y, "how far it lies from the sheet, away from it", `1 1/2"`)
}
