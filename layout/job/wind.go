package job

import (
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

	ParapetNote    bool // corner roof zones next to a parapet of 3 ft and over taken as edge zones
	WallReduction  bool // a tenth off the wall coefficients of roofs up to 10 degrees
	ExposureBFloor bool // exposure B: height not taken below 30 ft

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
// by one of them which pressures those were.
type Confirmed struct {
	At           finding.Place
	By, Document string
	On           Date
	CornerUp     Pressure // up in the corner zone, as the confirmation letters it
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

// Nailer is how a wall's top layer is anchored to what is below it. Its
// allowables come from the anchor's report.
type Nailer struct {
	At     finding.Place
	Anchor string
	Pull   float64       // allowable of one anchor in tension, N
	Shear  float64       // the same in shear, N; zero: not stated
	Most   length.Length // greatest spacing the job allows; zero: not stated, a hold
	Least  length.Length // least spacing its report allows; zero: not stated, a hold
	Report string        // where the allowables stand
}

// Kinds of fastener that a wood standard reckons withdrawal for.
const (
	WoodScrew = "wood screw"
	Nail      = "nail"
	LagScrew  = "lag screw"
)
