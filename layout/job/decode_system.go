package job

import (
	"slices"
)

// decode reads the whole tree.
func (d *decoder) decode(n *node) *Job {
	root := d.root(n)
	j := &Job{
		File: d.file,
		Info: decodeInfo(root.sub("job")),
		Units: word(root, "units", []choice[Units]{
			{"imperial", Imperial}, {"metric", Metric}}),
		Paper:      decodePaper(root.sub("paper")),
		System:     decodeSystem(root.sub("system")),
		Packing:    decodePacking(root.sub("packing")),
		Membrane:   decodeMembrane(root.sub("membrane")),
		Fasteners:  decodeFasteners(root),
		Assemblies: decodeAssemblies(root),
		Walls:      decodeWalls(root),
		Pressures:  decodePressures(root.sub("pressures")),
		Survey:     decodeSurveyCheck(root.sub("slips")),
		Wind:       decodeWind(root.sub("wind")),
		Site:       decodeSite(root.sub("site")),
		Crating:    decodeCrating(root.sub("crating")),
		Shop:       decodeShop(root.sub("shop")),
	}
	j.Perimeters = d.perimeters(root)
	return j
}

func decodeInfo(p *part) Info {
	info := Info{
		Name:       p.text("name"),
		Number:     p.maybe("number"),
		Address:    p.maybe("address"),
		Owner:      p.maybe("owner"),
		Issued:     read(p, "issued", "value-date", ParseDate),
		PreparedBy: p.maybe("prepared_by"),
		CheckedBy:  p.maybe("checked_by"),
		Notes:      p.texts("notes"),
	}
	for _, i := range p.items("parties", "party") {
		info.Parties = append(info.Parties, Party{Role: i.text("role"), Name: i.text("name")})
	}
	for _, i := range p.items("revisions", "revision") {
		info.Revisions = append(info.Revisions, Revision{
			Mark: i.text("mark"), Date: read(i, "date", "value-date", ParseDate), Note: i.text("note")})
	}
	return info
}

func decodePaper(p *part) Paper {
	var sizes []choice[PaperSize]
	for i, name := range paperNames() {
		sizes = append(sizes, choice[PaperSize]{name, PaperSize(i)})
	}
	return Paper{Runs: word(p, "runs", sizes), Lists: word(p, "lists", sizes)}
}

func decodeSystem(p *part) System {
	if p == nil {
		return System{}
	}
	p.d.system = p
	clearance, play := p.sub("clearance"), p.sub("rear_play")
	return System{
		At:             p.at,
		Name:           p.text("name"),
		Metal:          decodeMetal(p.sub("metal")),
		Profile:        decodeProfile(p.sub("profile")),
		FrontClearance: clearance.length("front", notNegative),
		RearClearance:  clearance.length("rear", notNegative),
		PlayLeast:      play.length("least", notNegative),
		PlayMost:       play.length("most", positive),
		Widths:         decodeWidths(p.sub("inside_width")),
		Transition:     decodeTransition(p.sub("transition")),
		PitchMiter:     decodePitchMiter(p.sub("pitch_miter")),
		Stock:          p.length("stock", positive),
		LeastPiece:     p.length("least_piece", positive),
		Closer:         word(p, "closer", []choice[Closer]{{"left", CloserLeft}, {"right", CloserRight}, {"shared", CloserShared}}),
		Remainder:      word(p, "remainder", []choice[Side]{{"left", Left}, {"right", Right}}),
		Joint:          decodeJoint(p.sub("joint")),
		Splice:         decodeSplice(p.sub("splice")),
		Chair:          decodeChair(p.sub("chair")),
		Corner:         decodeCorner(p.sub("corner")),
		EndCap:         decodeEnd(p.sub("end_cap"), false),
		WallEnd:        decodeEnd(p.sub("wall_end"), true),
		Expansion:      decodeExpansion(p.sub("expansion")),
		Tee:            decodeTee(p.sub("tee")),
		Lap:            decodeLap(p.sub("lap")),
		Extender:       decodeExtender(p.sub("extender")),
		StepRiser:      decodeRiser(p.sub("step_riser")),
	}
}

func decodeMetal(p *part) Metal {
	return Metal{
		Name:        p.text("name"),
		Thickness:   p.length("thickness", positive),
		Specified:   p.length("specified", positive),
		Density:     read(p, "density", "value-density", parseDensity),
		Expansion:   read(p, "expansion", "value-expansion", parseExpansion),
		Finish:      p.text("finish"),
		Directional: p.yes("directional"),
	}
}

func decodeProfile(p *part) Profile {
	return Profile{
		FrontLeg:  p.length("front_leg", positive),
		Drip:      decodeKick(p.sub("drip")),
		TopSlope:  read(p, "top_slope", "value-slope", ParseSlope),
		SlopeBy:   word(p, "slope_by", []choice[SlopeBy]{{"chair", SlopeByChair}, {"packing", SlopeByPacking}}),
		RearLeg:   p.length("rear_leg", positive),
		RearHook:  decodeKick(p.sub("rear_hook")),
		HemReturn: p.length("hem", notNegative),
		InsideR:   p.length("inside_radius", notNegative),
	}
}

func decodeKick(p *part) Kick {
	k := Kick{Length: p.length("length", notNegative), Angle: p.angle("angle", 0, straight)}
	if k.Length > 0 {
		p.need("angle", ", and there is a length")
	}
	return k
}

func decodeWidths(p *part) Widths {
	w := Widths{
		Offered: p.lengths("offered", positive),
		Least:   p.length("least", positive),
		Most:    p.length("most", positive),
		Step:    p.length("step", positive),
	}
	for _, key := range []string{"least", "most", "step"} {
		if !p.given("offered") {
			p.need(key, "; give least, most and step, or a list `offered`")
		} else if p.given(key) {
			p.d.conflict("key-both", p.n.field(key).at, p.n.field("offered").at, "keep the list, or least, most and step",
				"%s stands beside a list of the widths offered", p.called(key))
		}
	}
	return w
}

func decodeTransition(p *part) Transition {
	return Transition{
		Length:     p.length("length", positive),
		Leg:        p.length("leg", positive),
		ChangeMost: p.length("change_most", positive),
	}
}

func decodePitchMiter(p *part) PitchMiter {
	return PitchMiter{Leg: p.length("leg", positive), ChangeMost: p.angle("change_most", 0, 90*Degree)}
}

func decodeJoint(p *part) Joint {
	j := Joint{
		Gap:         p.length("gap", positive),
		Reference:   read(p, "reference_temperature", "value-temperature", ParseTemperature),
		Coldest:     read(p, "coldest", "value-temperature", ParseTemperature),
		Hottest:     read(p, "hottest", "value-temperature", ParseTemperature),
		LeastGap:    p.length("least_gap", notNegative),
		FieldCloser: word(p, "closers", []choice[bool]{{"shop", false}, {"field", true}}),
		Allowance:   p.length("field_allowance", notNegative),
	}
	if j.FieldCloser {
		p.need("field_allowance", ", and closers are trimmed in the field")
		if p.given("field_allowance") && j.Allowance == 0 && p.d.has(p.full("field_allowance")) {
			p.d.errorf("length-sign", p.n.field("field_allowance").value.at, p.key("field_allowance").write(),
				"%s is nothing, and a field closer must ship long", p.called("field_allowance"))
		}
	}
	return j
}

func decodeSplice(p *part) Splice {
	return Splice{Length: p.length("length", positive), Bearing: p.length("bearing", positive), Tape: p.length("tape", positive), Legs: decodeLegs(p)}
}

func decodeChair(p *part) Chair {
	c := Chair{
		Length:    p.length("length", positive),
		Thickness: p.length("thickness", positive),
		Rise:      p.length("rise", notNegative),
		FrontEdge: p.length("front_edge", notNegative),
		RearEdge:  p.length("rear_edge", notNegative),
		EndChair:  p.length("end_chair", positive),
		Metal:     p.maybe("metal"),
	}
	c.Blank = decodeChairBlank(p.sub("blank"), Stuff{Metal: c.Metal, Thickness: c.Thickness})
	return c
}

func faces() []choice[Face] { return []choice[Face]{{"front", Front}, {"rear", Rear}} }

func decodeCorner(p *part) CornerRules {
	support := p.sub("support")
	c := CornerRules{
		Leg:        p.length("leg", positive),
		LegFace:    word(p, "leg_face", faces()),
		LongestLeg: p.length("longest_leg", positive),
		LegStep:    p.length("leg_step", positive),
		Absorb:     p.angle("absorb", 0, 30*Degree),
		AnglePlay:  p.angle("angle_play", 0, 5*Degree),
		Support:    Support{Length: support.length("length", positive), Width: support.length("width", positive), Blank: decodeSupportBlank(support.sub("blank"))},
	}
	for _, i := range p.items("supports", "supports") {
		c.Supports = append(c.Supports, SupportTier{
			WidthTo: i.length("width_to", positive),
			At:      readAll(i, "at", "value-percent", parsePercent),
		})
	}
	if p.given("two_widths") {
		w := p.sub("two_widths")
		c.TwoWidths = &TwoWidths{MismatchMost: w.length("mismatch_most", notNegative), SlopeLeast: read(w, "slope_least", "value-slope", ParseSlope)}
	}
	return c
}

func decodeEnd(p *part, atWall bool) EndRules {
	r := EndRules{Leg: p.length("leg", positive), Clearance: p.length("clearance", notNegative)}
	if atWall {
		r.Upstand = p.length("upstand", positive)
	}
	return r
}

func decodeExpansion(p *part) ExpansionRules {
	return ExpansionRules{Bearing: p.length("bearing", positive), ChairFrom: p.length("chair_from", positive), Cover: decodeCover(p.sub("cover"))}
}

func decodeTee(p *part) TeeRules {
	drop := p.sub("drop")
	return TeeRules{
		Leg:       p.length("leg", positive),
		Branch:    p.length("branch", positive),
		DropLeast: drop.length("least", positive),
		DropMost:  drop.length("most", positive),
	}
}

func decodeLap(p *part) Lap {
	return Lap{Front: p.length("front", notNegative), Rear: p.length("rear", notNegative)}
}

func decodeMembrane(p *part) Layer {
	return Layer{Name: p.text("name"), Material: "membrane", Thickness: p.length("thickness", notNegative)}
}

func materials() []choice[string] {
	return []choice[string]{{Wood, Wood}, {Plywood, Plywood}, {Masonry, Masonry}, {Concrete, Concrete}, {Steel, Steel}}
}

func decodeFasteners(root *part) []Fastener {
	var all []Fastener
	for _, p := range root.items("fasteners", "fastener") {
		if p == nil {
			all = append(all, Fastener{}) // keeps the positions of the list
			continue
		}
		pilot := p.sub("pilot")
		f := Fastener{
			At:           p.at,
			Name:         p.text("name"),
			Diameter:     p.length("diameter", positive),
			Substrate:    word(p, "substrate", materials()),
			Lengths:      p.lengths("lengths", positive),
			Embedment:    p.length("embedment", positive),
			Tip:          p.length("tip", notNegative),
			PilotDia:     pilot.length("diameter", notNegative),
			PilotBeyond:  pilot.length("beyond", notNegative),
			Cover:        p.length("cover", notNegative),
			EdgeDistance: p.length("edge_distance", notNegative),
			Box:          read(p, "box", "value-count", parseCount),
			Kind:         word(p, "kind", asThey(WoodScrew, Nail, LagScrew)),
			Thread:       p.length("thread", positive),
			Metal:        p.maybe("metal"),
		}
		if f.Substrate == Masonry || f.Substrate == Concrete {
			p.need("pilot", ", and "+f.Substrate+" is drilled first")
			if pilot != nil && f.PilotDia == 0 && p.d.has(p.full("pilot")+".diameter") {
				p.d.errorf("length-sign", pilot.n.field("diameter").value.at, pilot.key("diameter").write(),
					"%s is nothing, and %s is drilled first", pilot.called("diameter"), f.Substrate)
			}
		}
		slices.Sort(f.Lengths)
		all = append(all, f)
	}
	return all
}

func decodeAssemblies(root *part) []Assembly {
	var all []Assembly
	for _, p := range root.items("assemblies", "assembly") {
		if p == nil {
			all = append(all, Assembly{}) // keeps the positions of the list
			continue
		}
		rows, res := p.sub("rows"), p.sub("resistance")
		a := Assembly{
			At:             p.at,
			Name:           p.text("name"),
			Report:         p.text("report"),
			Laboratory:     p.text("laboratory"),
			Metal:          p.text("metal"),
			ThicknessLeast: p.length("thickness_least", positive),
			FrontLegMost:   p.length("front_leg_most", positive),
			RearLegMost:    p.length("rear_leg_most", positive),
			WidthMost:      p.length("width_most", positive),
			ChairSpacing:   p.length("chair_spacing", positive),
			Substrate:      word(p, "substrate", materials()),
			Fastener:       p.text("fastener"),
			FrontRow:       read(rows, "front", "value-count", parseCount),
			RearRow:        read(rows, "rear", "value-count", parseCount),
			FrontRowFrom:   rows.length("front_from_edge", notNegative),
			RearRowFrom:    rows.length("rear_from_edge", notNegative),
			Up:             read(res, "up", "value-pressure", parseResistance),
			Out:            read(res, "out", "value-pressure", parseResistance),
			Rear:           read(res, "rear", "value-pressure", parseResistance),
			Factor:         read(res, "factor", "value-factor", parseFactor),
			ReferenceArea:  res.text("area"),
			Cost:           read(p, "cost", "value-money", parseMoney),
		}
		resistanceLevels(res, a)
		all = append(all, a)
	}
	return all
}

// parseResistance reads a tested resistance: as pulled, or allowable with its
// factor taken. Strength is a level of demands.
func parseResistance(s string) (Pressure, error) {
	p, err := ParsePressure(s)
	if err == nil && p.Level == Strength {
		err = wrong("level-resistance", "write as-pulled for what the laboratory recorded, or allowable if the factor is taken already",
			"%s: a resistance is as-pulled or allowable, strength is a level of demands", show(s))
	}
	return p, err
}

// resistanceLevels checks that the resistances stand at one level, and that a
// safety factor is asked exactly of an as-pulled ultimate: in an allowable it
// is taken already, and taking it twice, or never, is the same slip in two
// directions.
func resistanceLevels(p *part, a Assembly) {
	if p == nil || !p.d.has(p.full("up"), p.full("out")) {
		return
	}
	up, out := p.n.field("up").value.at, p.n.field("out").value.at
	if a.Up.Level != a.Out.Level {
		p.d.conflict("level-mixed", out, up, "state both as the report does", "%s and out stand at different levels", p.called("up"))
		return
	}
	if rear := p.full("rear"); p.d.has(rear) && a.Rear.Level != a.Up.Level {
		p.d.conflict("level-mixed", p.d.places[rear], up, "state both as the report does", "%s and rear stand at different levels", p.called("up"))
		return
	}
	if a.Up.Level == AsPulled {
		p.need("factor", ", and the resistances are as-pulled")
		return
	}
	if p.given("factor") {
		p.d.conflict("factor-twice", p.n.field("factor").at, up, "leave the factor out, or state the resistance as-pulled",
			"%s stands beside resistances that have their factor already taken", p.called("factor"))
	}
}

func decodeWalls(root *part) []Wall {
	var all []Wall
	for _, p := range root.items("walls", "wall") {
		if p == nil {
			all = append(all, Wall{}) // keeps the positions of the list
			continue
		}
		cover := p.sub("cover")
		w := Wall{
			At:         p.at,
			Name:       p.text("name"),
			CoverFront: cover.length("front", notNegative),
			CoverRear:  cover.length("rear", notNegative),
			MeasureLow: p.yes("measure_low"),
			Nailer:     decodeNailer(p.sub("nailer")),
		}
		for _, i := range p.items("layers", "layer") {
			w.Layers = append(w.Layers, Layer{
				Name:      i.text("name"),
				Material:  word(i, "material", materials()),
				Thickness: i.length("thickness", positive),
				Gravity:   read(i, "gravity", "value-number", parseGravity),
				Wet:       word(i, "service", []choice[bool]{{"dry", false}, {"wet", true}}),
				Service:   i.given("service"),
				Treated:   i.yes("treated"),
			})
		}
		all = append(all, w)
	}
	return all
}

func decodePressures(p *part) *Pressures {
	if p == nil {
		return nil
	}
	edge, corner := p.sub("edge"), p.sub("corner")
	if edge.given("rear") != corner.given("rear") {
		edge.need("rear", ", and the corner zone has it")
		corner.need("rear", ", and the edge zone has it")
	}
	return &Pressures{
		At:           p.at,
		By:           p.text("by"),
		Document:     p.text("document"),
		Edition:      p.text("edition"),
		Edge:         decodeZone(edge),
		Corner:       decodeZone(corner),
		CornerLength: p.length("corner_length", positive),
	}
}

func decodeZone(p *part) ZonePressure {
	return ZonePressure{Up: read(p, "up", "value-pressure", parseDemand), Out: read(p, "out", "value-pressure", parseDemand),
		Rear: read(p, "rear", "value-pressure", parseDemand)}
}

// parseDemand reads a design pressure: strength or allowable.
func parseDemand(s string) (Pressure, error) {
	q, err := ParsePressure(s)
	if err == nil && q.Level == AsPulled {
		err = wrong("level-demand", "write strength or allowable, as the engineer states it", "%s: as-pulled is for a resistance, not for a pressure", show(s))
	}
	return q, err
}

func decodeSite(p *part) Site {
	return Site{
		RoofHeight:    p.length("roof_height", positive),
		OnePerson:     read(p, "one_person", "value-weight", parseMass),
		LongPiece:     p.length("long_piece", positive),
		SafetyPlan:    p.text("safety_plan"),
		MeasuredBy:    p.maybe("measured_by"),
		MeasuredOn:    read(p, "measured_on", "value-date", ParseDate),
		InstallMetalT: readAll(p, "metal_temperatures", "value-temperature", ParseTemperature),
	}
}

func decodeCrating(p *part) Crating {
	spares := p.sub("spares")
	percent := func(s string) (int, error) {
		n, err := parsePercent(s)
		if err == nil && n%10 != 0 {
			err = wrong("value-percent", "write a whole percentage like 3%", "%s is not a whole percentage", show(s))
		}
		return n / 10, err
	}
	spare := func(name string) int { return read(spares, name, "value-percent", percent) }
	shims := spare("chairs") // a chair to spare stands on packing to spare
	if spares.given("shims") {
		shims = spare("shims")
	}
	if p == nil {
		return Crating{}
	}
	return Crating{
		At:            p.at,
		Tare:          read(p, "tare", "value-weight", parseMass),
		FilmOff:       p.maybe("film_off"),
		SpareSupport:  spare("supports"),
		SpareShim:     shims,
		WeightMost:    read(p, "weight_most", "value-weight", parseMass),
		LengthMost:    p.length("length_most", positive),
		SpareChair:    spare("chairs"),
		SpareSplice:   spare("splices"),
		SpareFastener: spare("fasteners"),
		SpareTape:     spare("tape"),
		TapeRoll:      p.length("tape_roll", positive),
	}
}
