package job

import (
	"strings"

	"copingset/layout/finding"
	"copingset/layout/length"
)

// Face of the wall on which a length or a station is measured.
type Face int

// The two faces.
const (
	Front Face = iota // street side
	Rear              // roof side
)

func (f Face) String() string { return [...]string{"front", "rear"}[f] }

// Basis of a length.
type Basis int

// Measured in the field, or taken from a drawing (a hold until measured).
const (
	Measured Basis = iota
	Drawing
)

// Run is a straight stretch of wall between two corners or ends.
type Run struct {
	At          finding.Place
	Name        string
	Wall        string // name of a Wall; empty: the perimeter's
	Length      length.Length
	LengthAt    finding.Place
	Face        Face
	Basis       Basis
	Right       End    // how it ends at the right hand
	Grade       *Grade // of its set surface; nil: the packing's
	StationFace Face
	Datum       Datum
	SurveyLine  string // the two named points the offsets are taken from
	Line        Line
	Cleared     []Cleared
	Elevation   string // pieces of one elevation keep one lot of finish
	Obstacles   []Obstacle
	Expansion   []ExpansionJoint
	Readings    []Reading // ascending stations
	Supposed    bool      // nobody surveyed it: Readings are those of the wall as drawn, and it is on hold
}

// Datum is the mark crew stations start at. An empty Mark is the plumbed
// left-hand corner of the wall, At zero.
type Datum struct {
	Mark string
	At   length.Length // station of the mark on the run's station face
}

// Does is what an obstacle does.
type Does int

// What an obstacle can do; they combine.
const (
	BlocksChair Does = 1 << iota
	BlocksJoint
	Pierces
)

// Obstacle stands on the wall or comes through it.
type Obstacle struct {
	At       finding.Place
	Name     string
	Station  length.Length // its centre
	Extent   length.Length // along the run
	FromFace length.Length // centre behind the wall's front face
	Depth    length.Length // across the wall; zero: it takes the wall's whole width, and does not pierce
	Does     Does
	Collar   string // piercing: who seals it; empty is a hold
	Work     string // who takes it off before the chairs and puts it back; empty: nobody is named
}

// BlocksAChair reports whether no chair can stand at the obstacle: it says so,
// or it comes through.
func (o *Obstacle) BlocksAChair() bool { return o.Does&(BlocksChair|Pierces) != 0 }

// BlocksAJoint reports whether no splice plate can lie at the obstacle.
func (o *Obstacle) BlocksAJoint() bool { return o.Does&(BlocksJoint|Pierces) != 0 }

// ExpansionJoint is a building expansion joint.
type ExpansionJoint struct {
	At       finding.Place
	Station  length.Length  // its centre
	Gap      length.Length  // open gap in the wall
	Movement *length.Length // either way; nil: not stated, a hold
}

func faces() []choice[Face] { return []choice[Face]{{"front", Front}, {"rear", Rear}} }

func bases() []choice[Basis] { return []choice[Basis]{{"measured", Measured}, {"drawing", Drawing}} }

// keys of a run of a perimeter whose kind is known or not, and open or closed.
func (r *Run) keys(k keys, above *Perimeter, known, open bool) {
	r.At = k.at
	k.text("name", &r.Name, "one to four capital letters or digits", "N")
	r.checkName(k)
	k.length("length", &r.Length, "the length of the run", `58'-7 1/4"`)
	r.LengthAt = k.placeOf("length")
	if f := k.lengthAsTyped(); f != nil {
		k.d.typed[k.full("length")] = strings.TrimSpace(f.value.text)
	}
	repeated(k, "face", &r.Face, above.face, faces(), "the face the length is measured on", "front")
	repeated(k, "basis", &r.Basis, above.basis, bases(), "where the length comes from", "measured")
	k.text("survey_line", &r.SurveyLine, "the two named points the offsets are taken from", "nail NW to nail NE")
	r.Line.keys(k.may(), "line")
	r.Right.keys(k, known, open)
	var grade Grade
	value(k.may(), "grade", &grade, withUnit("value-slope", parseGrade).in(metricGrade),
		"the slope its set surface may not pass along the run, if not that of the build-up: level, a slope, or "+
			"rising or falling before it",
		`rising 4" in 12"`)
	if k.given("grade") {
		r.Grade = &grade
	}
	k.may().text("wall", &r.Wall, "the name of one of the walls, if not the perimeter's", "block-12")
	r.StationFace = r.Face
	word(k.may(), "stations", &r.StationFace, faces(), "the face the stations are measured on", "front")
	k.may().name("elevation", &r.Elevation, "the elevation that keeps one lot of finish", "north")
	if r.Elevation == "" {
		r.Elevation = r.Name
	}
	k.may().group("datum", "the mark crew stations start at", func(k keys) {
		k.text("mark", &r.Datum.Mark, "the mark as the crew will find it", "scribed line at door")
		k.lengthOrZero("at", &r.Datum.At, "the station of the mark", `3'-2"`)
	})
	list(k.may(), "obstacles", "obstacle", &r.Obstacles, (*Obstacle).keys,
		"what stands on the wall or comes through it")
	list(k.may(), "expansion_joints", "expansion joint", &r.Expansion, (*ExpansionJoint).keys,
		"the building expansion joints")
	list(k.may(), "cleared", "cleared entry", &r.Cleared, (*Cleared).keys,
		"readings that were looked at again and stand")
	for _, row := range k.may().items("readings", "reading", "the readings of the survey") {
		var q Reading
		if row.walked() {
			q.keys(row)
		}
		if row.sound() {
			r.Readings = append(r.Readings, q)
		} else {
			k.d.unsure = true
		}
	}
}

// lengthAsTyped is a run's length as the file writes it, if it was read from one.
func (p *part) lengthAsTyped() *field {
	if p.d.mode != reading || p.n == nil {
		return nil
	}
	return p.n.field("length")
}

// checkName sees that a run's name fits piece marks.
func (r *Run) checkName(k keys) {
	if !k.has("name") {
		return
	}
	if runName(r.Name) {
		if what := markOf(r.Name); what != "" {
			k.errorf("run-name-reads", k.placeOf("name"), "name it with a letter of its own, like N or W2",
				"the run's name %s reads as %s on the sheets", show(r.Name), what)
		}
		return
	}
	mend := "name it with one to four capital letters or digits, like N or W2"
	if up := strings.ToUpper(r.Name); runName(up) {
		mend = "write " + up
	}
	k.errorf("run-name", k.placeOf("name"), mend,
		"the run's name %s does not fit on the marks of its pieces", show(r.Name))
}

// markOf says what else a run's name would be read as: on a run's own sheets its
// chairs, joints and supports go by their letter and number alone, a shop mark is a
// plain number, and L and R are the hands.
func markOf(name string) string {
	digits := strings.Trim(name, "0123456789") == ""
	switch {
	case digits:
		return "a shop mark or a number in the order of laying"
	case name == "L" || name == "R" || name == "LE" || name == "RE":
		return "a hand"
	case name == "TWO" || name == "HOLD":
		return "a note to the crew"
	}
	if len(name) < 2 || strings.Trim(name[1:], "0123456789") != "" {
		return ""
	}
	return map[byte]string{'C': "a chair", 'J': "a joint", 'S': "a corner support", 'T': "a transition piece",
		'Q': "a doubted reading"}[name[0]]
}

// runName says whether a name fits piece marks: one to four of A-Z and 0-9.
func runName(s string) bool {
	for i := range len(s) {
		if c := s[i]; (c < 'A' || c > 'Z') && (c < '0' || c > '9') {
			return false
		}
	}
	return len(s) >= 1 && len(s) <= 4
}

func (o *Obstacle) keys(k keys) {
	o.At = k.at
	k.name("name", &o.Name, "what it is", "vent pipe")
	k.lengthOrZero("at", &o.Station, "the station of its centre", `33'-0"`)
	k.length("extent", &o.Extent, "its extent along the run", `5"`)
	var does []Does
	values(k, "does", &does, words([]choice[Does]{{"block chair", BlocksChair}, {"block joint", BlocksJoint},
		{"pierce", Pierces}}),
		"what it does", "[pierce, block chair]")
	for _, one := range does {
		o.Does |= one
	}
	pierces := o.Does&Pierces != 0
	across := k.when(pierces, "the obstacle pierces the cap")
	if !pierces && (k.given("from_face") || k.given("across")) {
		across = k.when(true, "its place across the wall is stated")
	}
	across.length("from_face", &o.FromFace, "its centre behind the street face of the wall", `6"`)
	across.length("across", &o.Depth,
		"its extent across the wall; left out of what does not pierce, it takes the whole width", `5"`)
	// Not naming who seals it is a hold of the pieces, found later.
	k.may().text("collar", &o.Collar, "who seals its collar", "plumber")
	k.may().text("work", &o.Work, "whose work it is to take it off and to put it back", "electrician, sheet E-3")
	if k.has("does") && !pierces && k.given("collar") {
		k.d.notef("obstacle-unpierced", k.keyAt("collar"), "add pierce to what it does, if it comes through the cap",
			"%s is not used, since the obstacle does not pierce the cap", k.called("collar"))
	}
}

func (e *ExpansionJoint) keys(k keys) {
	e.At = k.at
	k.lengthOrZero("at", &e.Station, "the station of its centre", `30'-1"`)
	k.length("gap", &e.Gap, "the open gap in the wall", `3/4"`)
	k.may().statedLength("movement", &e.Movement, notNegative, "its movement either way", `1/2"`)
}
