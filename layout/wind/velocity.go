package wind

import (
	"math"

	"copingset/layout/job"
)

// edition of ASCE 7 whose wind chapters are built in.
type edition int

const (
	ed10 edition = iota
	ed16
	ed22
)

func (e edition) String() string { return editions()[e] }

func editionOf(name string) (edition, bool) {
	for i, n := range editions() {
		if n == name {
			return edition(i), true
		}
	}
	return 0, false
}

// table names a table or figure of each edition: 7-10, 7-16, 7-22.
func (e edition) table(of10, of16, of22 string) string {
	return e.String() + " " + [...]string{of10, of16, of22}[e]
}

// kd is the wind directionality factor of buildings' components and cladding.
func kd(e edition) (float64, source) { return 0.85, read(e.String() + " Table 26.6-1") }

// terrain is the constants of an exposure: the power-law exponent and the
// gradient height in feet.
func terrain(e edition, exposure string) (alpha, zg float64, from source) {
	from = read(e.table("Table 26.9-1", "Table 26.11-1", "Table 26.11-1"))
	row := map[string][4]float64{
		"B": {7.0, 1200, 7.5, 3280},
		"C": {9.5, 900, 9.8, 2460},
		"D": {11.5, 700, 11.5, 1935},
	}[exposure]
	if e == ed22 {
		if exposure == "B" {
			from = disputed(
				from.text + "; two public programs have 7.5 and a third 7.0, which does not give the printed Kz",
			)
		}
		return row[2], row[3], from
	}
	return row[0], row[1], from
}

// kzFactor is the constant of the Kz formula: at and above the gradient height
// Kz is this.
func kzFactor(e edition) (float64, source) {
	from := read(e.table("Table 30.3-1, formula", "Table 26.10-1, formula", "Table 26.10-1, formula"))
	if e == ed22 {
		return 2.41, from
	}
	return 2.01, from
}

// lowest is the height below which Kz does not fall, in feet.
const lowest = 15.0

// exposureBFloor is the height below which ASCE 7-10 reads no Kz for components
// and cladding in exposure B, in feet.
const exposureBFloor = 30.0

// floor is the least height at which Kz is read, and what is to be said of it.
type floor struct {
	feet  float64
	words string // of exposure B's own floor; empty in other exposures
	from  source
	off   bool // a rule of the edition is switched off by the job
}

// floorOf is the floor of an edition. In 7-10, as in 7-98 to 7-05, z is not
// below 30 ft for components and cladding in exposure B (Table 30.3-1 note 1;
// Table 6-3 before): a rule. In 7-16 and 7-22 the footnote of Table 26.10-1
// names chapter 28 alone, as most second sources have it. asked is what the job
// says, nil where it leaves the edition its way, and why is who asks for it.
func floorOf(e edition, exposure string, asked *bool, why string) floor {
	f := floor{feet: lowest, from: read(e.table("Table 30.3-1", "Table 26.10-1", "Table 26.10-1"))}
	if exposure != "B" {
		return f
	}
	rule := e == ed10
	if rule {
		f.from = read(
			"ASCE 7-10 Table 30.3-1 note 1, as a public program quotes it; Table 6-3 of 7-05 the same, in a " +
				"national code that reprints it",
		)
	} else {
		f.from = disputed(
			e.String() + " Table 26.10-1, footnote: two second sources have it name chapter 28 alone, a " +
				"third takes it for cladding too",
		)
	}
	taken := rule
	if asked != nil {
		taken = *asked
	}
	if taken {
		f.feet = exposureBFloor
	}
	switch {
	case rule && taken:
		f.words = "taken: a rule of this edition for components and cladding"
	case rule:
		f.words, f.off = "SWITCHED OFF by the job, against the rule of this edition", true
	case taken && why != "":
		f.words = "taken, beyond this edition: " + why
	case taken:
		f.words = "taken, beyond this edition, as the job asks"
	default:
		f.words = "not taken: this edition's footnote names the main frame of low buildings alone"
	}
	return f
}

// kz is the velocity pressure exposure coefficient at z feet.
func kz(e edition, exposure string, z float64) float64 {
	alpha, zg, _ := terrain(e, exposure)
	f, _ := kzFactor(e)
	return f * math.Pow(math.Min(math.Max(z, lowest), zg)/zg, 2/alpha)
}

// ke is the ground elevation factor at an elevation in feet. The metric
// constant of the standard is rounded, so that each system has its own.
func ke(ground float64, metric bool) float64 {
	if metric {
		return math.Exp(-0.000119 * ground * metresPerFoot)
	}
	return math.Exp(-0.0000362 * ground)
}

// feature is a shape of ASCE 7 Figure 26.8-1: K1 over H/Lh by exposure, the
// attenuation with height, and that with distance on each side.
type feature struct{ b, c, d, gamma, upwind, downwind float64 }

func featureOf(shape string) feature {
	switch shape {
	case job.Ridge:
		return feature{1.30, 1.45, 1.55, 3, 1.5, 1.5}
	case job.Escarpment:
		return feature{0.75, 0.85, 0.95, 2.5, 1.5, 4}
	}
	return feature{0.95, 1.05, 1.15, 4, 1.5, 1.5} // a three-dimensional hill
}

// topographic is K1, K2, K3 and Kzt of ASCE 7 Figure 26.8-1; lengths in feet,
// x the distance from the crest. Steeper than H/Lh = 0.5 the figure takes K1
// at 0.5 and 2H for Lh in the others.
func topographic(shape, exposure string, h, lh, x float64, downwind bool, z float64) (k1, k2, k3, kzt float64) {
	f := featureOf(shape)
	per := f.c
	switch exposure {
	case "B":
		per = f.b
	case "D":
		per = f.d
	}
	steep := h / lh
	if steep > 0.5 {
		steep, lh = 0.5, 2*h
	}
	mu := f.upwind
	if downwind {
		mu = f.downwind
	}
	k1 = per * steep
	k2 = math.Max(0, 1-math.Abs(x)/(mu*lh))
	k3 = math.Exp(-f.gamma * z / lh)
	kzt = math.Pow(1+k1*k2*k3, 2)
	return k1, k2, k3, kzt
}

// velocityPa is the velocity pressure in pascals for a speed in m/s and the
// product of the factors that the edition puts into q. Each system of units
// has the standard's own rounded constant.
func velocityPa(metric bool, factors, mps float64) float64 {
	if metric {
		return 0.613 * factors * mps * mps
	}
	v := mps / mpsPerMPH
	return 0.00256 * factors * v * v * pascalsPerPSF
}

// speedRange is the least and the greatest basic speed on the maps of an
// edition, in mph. A speed below the least of the 2010 maps is most likely one
// of an older edition, which is at another level.
func speedRange(e edition) (least, most float64, from source) {
	from = memory(e.table("Figures 26.5-1A to C", "Figures 26.5-1A to D", "Figures 26.5-1A to D"))
	if e == ed10 {
		return 100, 210, from
	}
	return 80, 220, from
}

// highest is the greatest height of the tables of Kz, in feet.
func highest(e edition) (float64, source) {
	return 500, memory(e.table("Table 30.3-1", "Table 26.10-1", "Table 26.10-1"))
}
