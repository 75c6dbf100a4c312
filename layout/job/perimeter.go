package job

import (
	"copingset/layout/finding"
	"copingset/layout/length"
)

// Kind of a perimeter.
type Kind int

// The three kinds: right turns less left turns sum to +360 for a roof and
// -360 for a well; an open one has two ends.
const (
	Roof Kind = iota
	Well
	Open
)

// Outer is what lies outside the walls of a perimeter. Sheets and lists name the outer
// side of the wall by it.
type Outer int

// What may lie there.
const (
	Street Outer = iota
	Court
	LightWell
	Yard
)

// String is the word of the job file, and of the tables of sentences.
func (o Outer) String() string { return [...]string{"street", "court", "well", "yard"}[o] }

// Perimeter is one chain of runs.
type Perimeter struct {
	At               finding.Place
	Name             string
	Kind             Kind
	OuterSide        Outer
	Wall             string // name of a Wall; a run may override
	Bearing          Angle  // compass bearing of the first run's direction of stations
	MisclosureLength length.Length
	MisclosureAngle  Angle
	Raise            length.Length // its set surface over what the wall asks for
	Starts           End           // open: the left end of the first run
	Runs             []Run
	Lies             *Lies // from another perimeter; nil: nobody taped it

	face  stated[Face] // of every run that does not state its own
	basis stated[Basis]

	surveys   []string // the files of its readings, as the job names them
	surveysAt []finding.Place
}

// Graded reports whether a run states a grade of its own that is not level.
func (p *Perimeter) Graded() bool {
	for i := range p.Runs {
		if g := p.Runs[i].Grade; g != nil && g.Most > 0 {
			return true
		}
	}
	return false
}

// Surveys are the files of its readings, by their paths from the job file.
func (p *Perimeter) Surveys() []string { return p.surveys }

func (p *Perimeter) keys(k keys) {
	p.At = k.at
	k.name("name", &p.Name, "a short name for the perimeter", "ROOF")
	word(k, "kind", &p.Kind, []choice[Kind]{{"roof", Roof}, {"well", Well}, {"open", Open}},
		"what it runs round, open if it has two ends", "open")
	word(k.may(), "outer_side", &p.OuterSide,
		[]choice[Outer]{{"street", Street}, {"court", Court}, {"well", LightWell}, {"yard", Yard}},
		"what lies outside its walls, by which sheets name their outer side; left out, the street", "court")
	k.text("wall", &p.Wall, "the name of one of the walls", "block-12")
	k.angle("bearing", &p.Bearing, 0, 360*Degree, "the compass bearing in which the first run's stations are measured",
		"90")
	k.group("misclosure", "the misclosure that is accepted", func(k keys) {
		k.lengthOrZero("length", &p.MisclosureLength, "the accepted misclosure in length", `1"`)
		k.angle("angle", &p.MisclosureAngle, 0, 30*Degree, "the accepted misclosure in degrees", "0.5")
	})
	k.may().files("survey", &p.surveys,
		"the file of its survey beside the job file, or a list of them, one for a run or a day", "heron.csv")
	p.surveysAt = k.placesOf("survey")
	k.may().lengthOrZero("raise", &p.Raise,
		"how much higher its set surface stands than its own wall asks for, so that copings meet", `3/4"`)
	once(k, "face", &p.face, faces(),
		"the face that lengths are measured on, of every run that does not state its own", "front")
	once(k, "basis", &p.basis, bases(),
		"where lengths come from, of every run that does not state its own", "measured")
	optional(k.may(), "at", &p.Lies, (*Lies).keys,
		"where it lies from another perimeter, so that both stand on one key plan")
	known := k.has("kind")
	open := known && p.Kind == Open
	p.Starts.freeKeys(k.when(open, "the perimeter is open"), "starts",
		"how the first run begins at the left: free, wall, or the run it meets as {tee: ROOF/N, at: 23'-4\", of: "+
			"left face}")
	if known && !open && k.given("starts") {
		k.errorf("end-closed", k.keyAt("starts"), "leave it out, or write `kind: open`",
			"%s: a closed perimeter does not start anywhere", k.label)
	}
	list(k, "runs", "run", &p.Runs, func(r *Run, k keys) { r.keys(k, p, known, open) },
		"the runs, from left to right seen from the roof")
}
