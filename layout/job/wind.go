package job

import (
	"errors"
	"math/big"
	"path"
	"strings"

	"copingset/layout/confirm"
	"copingset/layout/finding"
	"copingset/layout/length"
)

// Wind is what computed pressures follow from. Pressures that an engineer
// states stand over them.
type Wind struct {
	At         finding.Place
	Edition    string  // ASCE 7-10, ASCE 7-16 or ASCE 7-22
	Speed      float64 // basic wind speed of the edition's map, m/s
	SpeedAt    finding.Place
	SpeedFrom  string // the map or document it is read from
	Risk       string // risk category; empty: not stated
	Exposure   string // B, C or D
	RoofHeight length.Length
	HeightAt   finding.Place
	ParapetTop length.Length // above the ground
	TopAt      finding.Place
	Least      length.Length // least plan dimension of the building; zero: taken from the roof's perimeter
	RoofSlope  Angle
	Ground     *length.Length // above the sea; nil: not stated
	Kzt        float64        // zero: from Topography
	Topography *Topography
	Hollow     bool    // the parapet is open inside to the building
	Enclosure  string  // of a hollow parapet
	Area       float64 // effective wind area, m2; zero: not stated

	ParapetNote    bool   // corner roof zones behind a parapet of 3 ft and over taken as edge zones
	WallReduction  bool   // a tenth off the wall coefficients of roofs up to 10 degrees
	ExposureBFloor *bool  // exposure B: height not taken below 30 ft; nil: as the edition has it
	FloorWhy       string // who asks for it where the edition does not
	CornerTurn     Angle  // least outside turn that begins a corner zone; zero: every one left to a shop piece

	Confirmed *Confirmed // nil: to be confirmed by a licensed engineer
}

// Topography is the hill, ridge or escarpment that the building stands on.
type Topography struct {
	Shape      string        // ridge, escarpment or hill
	Height     length.Length // of the feature
	HalfLength length.Length // from the crest to half the height, upwind
	Distance   length.Length // from the crest to the building
	Downwind   bool
}

// Confirmed says which licensed engineer stands behind computed pressures, and
// by the check code of their list which pressures those were.
type Confirmed struct {
	At           finding.Place
	By, Document string
	On           Date
	Code         confirm.Code
	CodeAt       finding.Place
	List         confirm.List // what the code is over; nil: not given, and nobody can tell what has changed
	ListFile     string       // as the job file names it
	ListAt       finding.Place
}

// The shapes of a topographic feature.
const (
	Ridge      = "ridge"
	Escarpment = "escarpment"
	Hill       = "hill"
)

// The enclosures of ASCE 7.
const (
	Enclosed          = "enclosed"
	PartiallyEnclosed = "partially enclosed"
	OpenBuilding      = "open"
)

func (w *Wind) keys(k keys) {
	w.At = k.at
	word(k, "edition", &w.Edition, asThey("ASCE 7-10",
		"ASCE 7-16", "ASCE 7-22"), "the edition of the load standard", "ASCE 7-16")
	value(k, "speed", &w.Speed, withUnit("value-speed", parseSpeed).in(unitsOf(1, 1, "m/s")),
		"the basic wind speed of that edition's map, in mph or m/s", "115 mph")
	k.may().text("speed_from", &w.SpeedFrom, "the map or document the speed is read from", "S-001 rev 2")
	word(k.may(), "risk", &w.Risk, asThey("I",
		"II", "III", "IV"), "the risk category whose map the speed is read from", "II")
	word(k, "exposure", &w.Exposure, asThey("B", "C", "D"), "the exposure", "C")
	k.length("roof_height", &w.RoofHeight, "the mean height of the roof above the ground", `24'-0"`)
	k.length("parapet_top", &w.ParapetTop, "the height of the top of the parapet above the ground", `27'-0"`)
	k.may().length("least_dimension", &w.Least,
		"the least plan dimension of the building, if not that of the one roof perimeter", `50'-0"`)
	k.angle("roof_slope", &w.RoofSlope, 0, straight/2, "the slope of the roof in degrees", "1.2")
	k.may().statedLength("ground", &w.Ground, anySign, "the elevation of the ground above the sea", `500'-0"`)
	value(k.when(!k.given("topography"), "topography is not given").or("give kzt, or the `topography` it follows from"),
		"kzt", &w.Kzt, number("value-number", parseKzt), "the topographic factor, 1.0 on flat ground", "1.0")
	optional(k.elsewhere("kzt is not given"), "topography", &w.Topography, (*Topography).keys,
		"the hill, ridge or escarpment the building stands on")
	k.both("kzt", "topography", "keep one of the two",
		"%s stands beside the topography it would follow from", k.called("kzt"))
	word(k, "parapet", &w.Hollow, []choice[bool]{{"solid", false}, {"hollow", true}},
		"what the parapet is, hollow if air of the building reaches into it", "solid")
	word(k.when(w.Hollow, "the parapet is hollow"),
		"enclosure", &w.Enclosure, asThey(Enclosed, PartiallyEnclosed, OpenBuilding),
		"the enclosure of the building", "enclosed")
	value(k.may(), "effective_area", &w.Area, withUnit("value-area", parseArea).in(unitsOf(1, 0.1, "m2")),
		"the effective wind area; left out, no area is too small", "10 ft2")
	k.may().yes("parapet_3ft_note", &w.ParapetNote,
		"yes to take corner roof zones as edge zones behind a parapet of 3 ft and over, for the rear leg", "no")
	k.may().yes("wall_reduction", &w.WallReduction,
		"yes to take a tenth off the wall coefficients under a roof of up to 10 degrees", "no")
	k.may().statedYes("exposure_b_30ft", &w.ExposureBFloor,
		"yes to take no height in exposure B below 30 ft where the edition does not ask for it; left out, the "+
			"edition's own rule", "yes")
	k.may().text("exposure_b_why", &w.FloorWhy,
		"who asks for those 30 ft, and where", "building department, letter of 2026-02-02")
	k.may().angle("corner_turn", &w.CornerTurn, Degree, straight/2,
		"the least outside turn in degrees that begins a corner zone, if the engineer sets one; left out, every turn "+
			"left to a shop piece", "15")
	optional(k.may(), "confirmed", &w.Confirmed, (*Confirmed).keys,
		"the licensed engineer who confirms the computed pressures")
	w.SpeedAt, w.HeightAt, w.TopAt = k.placeOf("speed"), k.placeOf("roof_height"), k.placeOf("parapet_top")
}

func (t *Topography) keys(k keys) {
	word(k, "shape", &t.Shape, asThey(Ridge, Escarpment, Hill), "its shape", "escarpment")
	k.length("height", &t.Height, "its height", `60'-0"`)
	k.length("half_length", &t.HalfLength, "the distance upwind from the crest to half the height", `200'-0"`)
	k.lengthOrZero("distance", &t.Distance, "the distance of the building from the crest", `100'-0"`)
	word(k, "side", &t.Downwind, []choice[bool]{{"upwind", false}, {"downwind", true}},
		"the side of the crest the building stands on", "downwind")
}

func (c *Confirmed) keys(k keys) {
	c.At = k.at
	k.text("by", &c.By, "the engineer who confirms them", "K. Sundqvist-Abara, engineer of record")
	k.date("on", &c.On, "the date of the confirmation", "2026-03-10")
	k.text("document", &c.Document, "the document of the confirmation", "Letter L-14")
	value(k, "code", &c.Code, withUnit("value-code", parseCode),
		"the check code of the basis sheet that the confirmation repeats", "7K3QM-XW4TD")
	k.may().file("list", &c.ListFile,
		"the list that was confirmed, as `copingset confirm` wrote it; with it a change is named", "confirm.txt")
	c.CodeAt, c.ListAt = k.placeOf("code"), k.placeOf("list")
}

// parseCode reads a check code.
func parseCode(s string) (confirm.Code, error) {
	c, err := confirm.ParseCode(s)
	if err != nil {
		return "", wrong("value-code", "copy the code of the basis sheet, ten characters like 7K3QM-XW4TD", "%s: %v",
			show(s), err)
	}
	return c, nil
}

// confirmedList reads the list that stands under a confirmation.
func (d *decoder) confirmedList(j *Job) {
	if j.Wind == nil || j.Wind.Confirmed == nil || j.Wind.Confirmed.ListFile == "" {
		return
	}
	c := j.Wind.Confirmed
	name, ok := d.reach(path.Join(d.dir, c.ListAt.File), c.ListFile, c.ListAt, confirmedList)
	if !ok {
		return
	}
	text, ok := d.load(name, c.ListAt, confirmedList)
	if !ok {
		return
	}
	list, err := confirm.Parse(strings.Join(text.lines, "\n"))
	var f *confirm.Fault
	if errors.As(err, &f) {
		d.errorf("confirmed-list", finding.Place{File: text.file, Line: f.Line},
			"name the file that `copingset confirm` wrote for the engineer, as it was",
			"the confirmed list cannot be read: %s", f.What)
		return
	}
	c.List = list
	d.said = append(d.said, Entry{Path: "wind.confirmed.list", Value: canonical(list.Text())})
}

// parseSpeed gives metres a second. A mile is 1609.344 m exactly. A speed that
// no map has is for the room that knows the maps; here it is only a number.
func parseSpeed(s string) (float64, error) {
	const mend = "write it like 115 mph or 51 m/s"
	r, err := quantity(s, "value-speed", mend, []unit{
		{[]string{"mph", "mi/h"}, rational("0.44704")},
		{[]string{"m/s"}, rational("1")},
		{[]string{"km/h"}, big.NewRat(10, 36)},
	})
	if err != nil {
		return 0, err
	}
	v, _ := r.Float64()
	if !(v > 0 && v <= 500) {
		return 0, wrong("value-speed", mend, "%s is not the speed of a wind", show(s))
	}
	return v, nil
}

// parseArea gives square metres. A square foot is 0.09290304 m2 exactly.
func parseArea(s string) (float64, error) {
	const mend = "write it like 10 ft2 or 0.9 m2"
	r, err := quantity(s, "value-area", mend, []unit{
		{[]string{"ft2", "sqft", "sf"}, rational("0.09290304")},
		{[]string{"m2", "sqm"}, rational("1")},
	})
	if err != nil {
		return 0, err
	}
	a, _ := r.Float64()
	if !(a > 0 && a <= 1000) {
		return 0, wrong("value-area", mend, "%s is not the area of a piece of coping", show(s))
	}
	return a, nil
}

// parseForce gives newtons. A pound-force is 4.4482216152605 N exactly.
func parseForce(s string) (float64, error) {
	const mend = "write it like 400 lb or 1.8 kN"
	r, err := quantity(s, "value-force", mend, []unit{
		{[]string{"lb", "lbs", "lbf"}, rational("4.4482216152605")},
		{[]string{"kn"}, rational("1000")},
		{[]string{"n"}, rational("1")},
	})
	if err != nil {
		return 0, err
	}
	f, _ := r.Float64()
	if !(f > 0 && f <= 1_000_000) {
		return 0, wrong("value-force", mend, "%s is not the allowable of an anchor", show(s))
	}
	return f, nil
}

// parseKzt reads a topographic factor, which only ever speeds the wind up.
func parseKzt(s string) (float64, error) {
	return between(s, 1, 10, "write a number of at least 1, which is flat ground", "a topographic factor")
}

// parseGravity reads a specific gravity of wood.
func parseGravity(s string) (float64, error) {
	return between(s, 0.2, 1.2, "write a number like 0.42", "the specific gravity of a wood")
}

func between(s string, least, most float64, mend, what string) (float64, error) {
	v, rest, ok := plainNumber(s)
	if !ok || rest != "" {
		return 0, wrong("value-number", mend, "%s is not a plain number", show(s))
	}
	f, _ := v.Float64()
	if !(f >= least && f <= most) {
		return 0, wrong("value-number", mend, "%s is not %s", show(s), what)
	}
	return f, nil
}
