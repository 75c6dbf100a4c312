package job

import "math/big"

func decodeWind(p *part) *Wind {
	if p == nil {
		return nil
	}
	w := &Wind{
		At:             p.at,
		Edition:        word(p, "edition", asThey("ASCE 7-10", "ASCE 7-16", "ASCE 7-22")),
		Speed:          read(p, "speed", "value-speed", parseSpeed),
		SpeedFrom:      p.maybe("speed_from"),
		Risk:           word(p, "risk", asThey("I", "II", "III", "IV")),
		Exposure:       word(p, "exposure", asThey("B", "C", "D")),
		RoofHeight:     p.length("roof_height", positive),
		ParapetTop:     p.length("parapet_top", positive),
		Least:          p.length("least_dimension", positive),
		RoofSlope:      p.angle("roof_slope", 0, straight/2),
		Kzt:            read(p, "kzt", "value-number", parseKzt),
		Topography:     decodeTopography(p.sub("topography")),
		Hollow:         word(p, "parapet", []choice[bool]{{"solid", false}, {"hollow", true}}),
		Enclosure:      word(p, "enclosure", asThey(Enclosed, PartiallyEnclosed, OpenBuilding)),
		Area:           read(p, "effective_area", "value-area", parseArea),
		ParapetNote:    p.yes("parapet_3ft_note"),
		WallReduction:  p.yes("wall_reduction"),
		ExposureBFloor: p.yes("exposure_b_30ft"),
		Confirmed:      decodeConfirmed(p.sub("confirmed")),
	}
	w.SpeedAt, w.HeightAt, w.TopAt = p.d.places[p.full("speed")], p.d.places[p.full("roof_height")], p.d.places[p.full("parapet_top")]
	if p.given("ground") {
		if g := p.length("ground", anySign); p.d.has(p.full("ground")) {
			w.Ground = &g
		}
	}
	switch {
	case !p.given("topography"):
		p.need("kzt", "; give kzt, or the `topography` it follows from")
	case p.given("kzt"):
		p.d.conflict("key-both", p.n.field("kzt").at, p.n.field("topography").at, "keep one of the two",
			"%s stands beside the topography it would follow from", p.called("kzt"))
	}
	if w.Hollow {
		p.need("enclosure", ", and the parapet is hollow")
	}
	return w
}

func decodeTopography(p *part) *Topography {
	if p == nil {
		return nil
	}
	return &Topography{
		Shape:      word(p, "shape", asThey(Ridge, Escarpment, Hill)),
		Height:     p.length("height", positive),
		HalfLength: p.length("half_length", positive),
		Distance:   p.length("distance", notNegative),
		Downwind:   word(p, "side", []choice[bool]{{"upwind", false}, {"downwind", true}}),
	}
}

func decodeConfirmed(p *part) *Confirmed {
	if p == nil {
		return nil
	}
	return &Confirmed{At: p.at, By: p.text("by"), Document: p.text("document"), On: read(p, "on", "value-date", ParseDate),
		CornerUp: read(p, "corner_up", "value-pressure", parseDemand)}
}

func decodeNailer(p *part) *Nailer {
	if p == nil {
		return nil
	}
	return &Nailer{
		At:     p.at,
		Anchor: p.text("anchor"),
		Report: p.text("report"),
		Pull:   read(p, "allowable", "value-force", parseForce),
		Shear:  read(p, "shear", "value-force", parseForce),
		Most:   p.length("spacing_most", positive),
		Least:  p.length("spacing_least", positive),
	}
}

// asThey makes the choices of words that stand for themselves.
func asThey(words ...string) []choice[string] {
	var out []choice[string]
	for _, w := range words {
		out = append(out, choice[string]{w, w})
	}
	return out
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
