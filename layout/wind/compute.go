package wind

import (
	"fmt"
	"math"

	"copingset/layout/finding"
	"copingset/layout/job"
)

// site is the wind section brought to the standard's own feet.
type site struct {
	job      *job.Wind
	e        edition
	metric   bool
	h, top   float64 // mean roof height, top of the parapet
	least    float64 // least plan dimension
	leastBy  source
	area     float64 // effective wind area, ft2; zero: not stated
	tall     bool
	behind   bool // the roof behind the parapet takes zone 2 for zone 3
	reduced  bool // a tenth off the walls
	basis    sheet
	q        float64 // velocity pressure at the parapet's top times Kd, Pa
	gcpi     float64
	gcpiFrom source
}

// compute works the pressures out, or says why it does not.
func compute(j *job.Job, fronts Fronts) (Demand, finding.List) {
	w := j.Wind
	var found finding.List
	e, ok := editionOf(w.Edition)
	if !ok {
		found.Holdf("wind-edition", w.At, "write one of the editions that are built in",
			"%s is not an edition whose wind chapters are built in", w.Edition)
		return Demand{}, found
	}
	s := &site{job: w, e: e, metric: j.WindUnits() == job.Metric, h: feetOf(w.RoofHeight), top: feetOf(w.ParapetTop),
		area: w.Area / (metresPerFoot * metresPerFoot)}
	s.tall = w.RoofHeight > tallFrom(s.metric)
	s.basis.metric = s.metric
	s.within(&found)
	s.options(&found)
	s.leastOf(j, fronts, &found)
	if len(found.Holds()) > 0 {
		return Demand{}, found
	}
	s.inputs()
	s.velocity(&found)
	d := s.pressures()
	d.Computed, d.Edition, d.CornerTurn = true, w.Edition, w.CornerTurn
	d.By, d.Document = "computed by these sheets", ""
	d.Basis = s.basis.steps
	return d, found
}

// within holds what lies outside the maps and the methods.
func (s *site) within(found *finding.List) {
	w := s.job
	least, most, from := speedRange(s.e)
	if v := w.Speed / mpsPerMPH; v < least-0.05 || v > most+0.05 { // as the map letters it
		f := finding.New(
			finding.Hold,
			"wind-speed-range",
			w.SpeedAt,
			"check the speed against the map of the edition and the risk category, or have the engineer of record "+
				"state the "+
				"pressures",
			"the wind speed of %.0f mph (%.1f m/s) is not on the maps of %s, which go from %g to %g mph (%.0f to "+
				"%.0f m/s) (%s, from memory)",
			v,
			w.Speed,
			s.e,
			least,
			most,
			least*mpsPerMPH,
			most*mpsPerMPH,
			from.text,
		)
		f.Why = "maps of other editions are at other levels; a speed of an older map gives too little pressure"
		found.Append(f)
	}
	if most, from := highest(s.e); s.top > most {
		found.Holdf("wind-height", w.TopAt, "have the engineer of record state the pressures",
			"the parapet's top at %s is above the heights of the method, which end at %g ft (%.0f m) (%s, from memory)",
			job.Both(w.ParapetTop), most, most*metresPerFoot, from.text)
	}
	if w.RoofSlope > 7*job.Degree {
		found.Holdf("wind-roof-slope", w.At, "have the engineer of record state the pressures",
			"the coefficients built in are for roofs of up to 7°, and this one has %s", job.FormatAngle(w.RoofSlope))
	}
	if w.Area > 0 && s.area > 1000 {
		found.Holdf("wind-area", w.At, "write the area that one chair or one length of cap gathers",
			"the effective wind area is no area of coping")
	}
}

// options takes the stated options where the standard lets them be taken.
func (s *site) options(found *finding.List) {
	w := s.job
	if w.ParapetNote {
		if high := w.ParapetTop - w.RoofHeight; high < noteHeight(s.metric) {
			found.Holdf("wind-parapet-note", w.At, "write `parapet_3ft_note: no`",
				"the note is for parapets of 3 ft (0.9 m) and over, and this one stands %.2f ft (%.2f m) over the roof",
				feetOf(high), feetOf(high)*metresPerFoot)
		} else {
			s.behind = true
		}
	}
	if w.WallReduction {
		if s.tall {
			found.Holdf("wind-reduction-tall", w.HeightAt, "write `wall_reduction: no`",
				"the tenth off the wall coefficients belongs to mean roof heights of up to 60 ft (18.3 m)")
		} else {
			s.reduced = true
		}
	}
}

func (s *site) inputs() {
	b, w := &s.basis, s.job
	b.as("edition").words("", "Load standard", w.Edition, inJob())
	b.as("speed").speed("V", "Basic wind speed (strength level)", w.Speed, inJob())
	if w.SpeedFrom != "" {
		b.as("speed.from").words("", "Map or document of the speed", w.SpeedFrom, inJob())
	}
	if w.Risk != "" {
		b.as("risk").words("", "Risk category, in the map's speed", w.Risk, inJob())
	}
	b.as("exposure").words("", "Exposure", w.Exposure, inJob())
	b.as("roof.height").feet("h", "Mean roof height", "", s.h, inJob())
	b.as("parapet.top").feet("zp", "Top of the parapet above the ground", "", s.top, inJob())
	b.as("parapet.height").feet("hp", "Parapet above the roof", "zp - h", s.top-s.h, follows())
	b.as("least.dimension").feet("L", "Least plan dimension", "", s.least, s.leastBy)
	b.as("roof.slope").
		add(Step{Symbol: "θ", What: "Slope of the roof", Value: w.RoofSlope.Degrees(), Unit: "deg"}, inJob())
	if s.area > 0 {
		b.as("area").area("A", "Effective wind area", s.area, inJob())
	} else {
		b.as("area", "not stated").words("A", "Effective wind area",
			"not stated: the least of each line is taken, which no smaller area exceeds", notInJob())
	}
	inside := "solid"
	if w.Hollow {
		inside = "hollow, building " + w.Enclosure
	}
	b.as("parapet").words("", "Parapet", inside, inJob())
	yes := func(fact string, on bool, what string, from source) {
		word := "not taken"
		if on {
			word = "taken"
		}
		b.as(fact).words("", what, word, from)
	}
	yes(
		"option.parapet_note",
		s.behind,
		"Option: parapet of "+b.ft(3)+" and over, roof zone 3 behind it as zone 2 (rear leg; never the "+
			"coping's own top)",
		s.noteFrom(),
	)
	tenth := read(s.e.table("Figure 30.4-1 note 5", "Figure 30.3-1 note 5", "Figure 30.3-1 note 5"))
	if s.e == ed22 {
		tenth.sure = Memory // that 7-22 keeps the note
	}
	yes("option.wall_reduction", s.reduced, "Option: a tenth off the wall coefficients, roof up to 10°", tenth)
	turns, from := "every", notInJob()
	if w.CornerTurn > 0 {
		turns, from = job.FormatAngle(w.CornerTurn), inJob()
	}
	b.as("corner.turn", turns).words("", "Turns that begin a corner zone", TurnWords(w.CornerTurn), from)
}

// CornersBegin says where corner zones begin, after "from" or "at".
func (d Demand) CornersBegin() string {
	if d.CornerTurn == 0 {
		return "each outside corner and free end"
	}
	return "each outside corner that turns " + job.FormatAngle(d.CornerTurn) + " or more, and each free end"
}

// TurnWords says which outside turns begin a corner zone.
func TurnWords(least job.Angle) string {
	if least == 0 {
		return "every outside turn left to a shop piece"
	}
	return "outside turns of " + job.FormatAngle(least) + " and over"
}

func (s *site) noteFrom() source {
	if s.tall {
		return memory(s.e.table("Figure 30.6-1", "Figure 30.5-1", "Figure 30.4-1"))
	}
	return memory(s.e.table("Figure 30.4-2A note 5", "Figure 30.3-2A note 5", "Figure 30.3-2A note 5"))
}

// velocity finds the velocity pressure at the top of the parapet.
func (s *site) velocity(found *finding.List) {
	b, w := &s.basis, s.job
	alpha, zg, from := terrain(s.e, w.Exposure)
	b.as("terrain.alpha").number("α", "Power-law exponent, exposure "+w.Exposure, "", alpha, from)
	b.as("terrain.zg").feet("zg", "Gradient height, exposure "+w.Exposure, "", zg, from)
	z := s.height(found)
	f, from := kzFactor(s.e)
	k := kz(s.e, w.Exposure, z)
	b.as("kz").number("Kz", "Velocity pressure exposure coefficient at z", fmt.Sprintf("%g (z/zg)^(2/α)", f), k, from)
	kzt := s.topography(found)
	d, from := kd(s.e)
	b.as("kd").number("Kd", "Directionality factor, components and cladding", "", d, from)
	ke := s.ground()
	inQ, formula := k*kzt*d*ke, "Kz Kzt Kd Ke V²"
	switch s.e {
	case ed10:
		formula = "Kz Kzt Kd V²"
	case ed22:
		inQ, formula = k*kzt*ke, "Kz Kzt Ke V²"
	}
	constant := "0.00256 "
	if s.metric {
		constant = "0.613 "
	}
	qp := velocityPa(s.metric, inQ, w.Speed)
	from = read(s.e.table("Eq. 30.3-1 (number from memory)", "Eq. 26.10-1", "Eq. 26.10-1"))
	b.as("qp").pressure("qp", "Velocity pressure at the top of the parapet", constant+formula, qp, from)
	s.q = qp
	if s.e == ed22 {
		s.q = d * qp
		b.as("qp.kd").
			pressure("Kd qp", "The same with Kd, which 7-22 puts into the pressure", "Kd qp", s.q,
				read("ASCE 7-22 Eq. 30.3-1"))
	}
	s.gcpi, s.gcpiFrom = 0, read(s.e.String()+" parapets: a solid parapet has no inside")
	if w.Hollow {
		s.gcpi, s.gcpiFrom = internal(s.e, w.Enclosure)
		s.gcpiFrom.sure = Memory // that it is the parapet's own enclosure
	}
	b.as("gcpi").number("GCpi", "Internal pressure coefficient, acting outward", "", s.gcpi, s.gcpiFrom)
}

// height is the z at which Kz is read, in feet: the top of the parapet, and no
// less than the floor of the edition.
func (s *site) height(found *finding.List) float64 {
	b, w := &s.basis, s.job
	f := floorOf(s.e, w.Exposure, w.ExposureBFloor, w.FloorWhy)
	if f.words != "" {
		asked := b.ft(f.feet)
		if w.FloorWhy != "" {
			asked += ", " + w.FloorWhy
		}
		b.as("exposure.floor", asked).
			words("", "Exposure B, components and cladding: z not below "+b.ft(exposureBFloor), f.words, f.from)
	}
	if f.off && s.top < exposureBFloor {
		h := finding.New(
			finding.Hold,
			"wind-floor-off",
			w.At,
			"leave `exposure_b_30ft` out, or have the engineer of "+
				"record state the pressures",
			"the job takes Kz in exposure B at %s, and %s reads it at no less than 30 ft (9.1 m) for components and "+
				"cladding",
			job.Both(w.ParapetTop),
			s.e,
		)
		h.Why = f.from.text
		found.Append(h)
	}
	z := math.Max(s.top, f.feet)
	b.as("kz.height").feet("z", "Height at which Kz is read", "zp, not below "+b.ft(f.feet), z, f.from)
	return z
}

// topography is Kzt as stated, or from the shape of the ground.
func (s *site) topography(found *finding.List) float64 {
	b, t := &s.basis, s.job.Topography
	if t == nil {
		b.as("kzt").number("Kzt", "Topographic factor", "", s.job.Kzt, inJob())
		return s.job.Kzt
	}
	h, lh, x := feetOf(t.Height), feetOf(t.HalfLength), feetOf(t.Distance)
	side := "upwind"
	if t.Downwind {
		side = "downwind"
	}
	b.as("topography").words("", "Topography", t.Shape+", building "+side+" of the crest", inJob())
	b.as("topography.height").feet("H", "Height of the "+t.Shape, "", h, inJob())
	b.as("topography.half").feet("Lh", "Crest to half the height, upwind", "", lh, inJob())
	b.as("topography.distance").feet("x", "Crest to the building", "", x, inJob())
	from := read(s.e.table("Figure 26.8-1", "Figure 26.8-1, as read of 7-10 and 7-22", "Figure 26.8-1"))
	k1, k2, k3, kzt := topographic(t.Shape, s.job.Exposure, h, lh, x, t.Downwind, s.top)
	b.as("k1").number("K1", "Shape and greatest speed-up", "factor × H/Lh, H/Lh not over 0.5", k1, from)
	b.as("k2").number("K2", "Away from the crest", "1 - x/(μ Lh), not below 0; Lh = 2H if H/Lh is over 0.5", k2, from)
	b.as("k3").number("K3", "Up from the ground", "e^(-γ zp/Lh)", k3, from)
	b.as("kzt").number("Kzt", "Topographic factor", "(1 + K1 K2 K3)²", kzt, from)
	low := 15.0
	if s.job.Exposure == "B" {
		low = 60
	}
	if h < low || h/lh < 0.2 {
		f := finding.New(
			finding.Note,
			"wind-topography",
			s.job.At,
			"ask the engineer if the topographic factor may be 1.0",
			"the %s is lower or flatter than those the standard asks a topographic factor for (H %g ft (%.1f m) and "+
				"over, "+
				"H/Lh 0.2 and over; section 26.8.1, from memory)",
			t.Shape,
			low,
			low*metresPerFoot,
		)
		f.Why = "the computed factor is kept, which is the safe side"
		found.Append(f)
	}
	return kzt
}

// ground is Ke; 7-10 has none.
func (s *site) ground() float64 {
	b := &s.basis
	if s.e == ed10 {
		b.as("ke", "none").words("Ke", "Ground elevation factor", "none in this edition", read(s.e.String()))
		return 1
	}
	if s.job.Ground == nil {
		b.as("ke").
			number("Ke", "Ground elevation factor, 1.0 being always allowed", "", 1, read(s.e.String()+" Table 26.9-1"))
		return 1
	}
	ze := feetOf(*s.job.Ground)
	b.as("ground").feet("ze", "Ground above the sea", "", ze, inJob())
	formula := "e^(-0.0000362 ze)"
	if s.metric {
		formula = "e^(-0.000119 ze)"
	}
	k := ke(ze, s.metric)
	b.as("ke").number("Ke", "Ground elevation factor", formula, k, read(s.e.String()+" Table 26.9-1 note 2"))
	return k
}

// pressures is the coping face by face: up on its top by the roof's edge and
// corner zones, out and in on a leg by the wall's zones, and towards the roof on
// the rear leg by the roof's zones again, all at the parapet's top. The note on
// high parapets speaks of the roof behind them: it is taken for the rear leg,
// never for the top. Faces are not added up: that is for the parapet as a wall,
// whose cases follow.
func (s *site) pressures() Demand {
	b := &s.basis
	var d Demand
	s.widths(&d)
	top := memory("ANSI/SPRI ES-1 convention: the top of a coping takes the roof zone beside it")
	d.Up[Edge] = s.face("up.edge", "up, edge", roof2, top)
	d.Up[Corner] = s.face("up.corner", "up, corner", roof3, top)
	leg := read(s.parapets() + ", case B, outside face")
	d.Out[Edge] = s.face("out.edge", "out, edge", wall4, leg)
	d.Out[Corner] = s.face("out.corner", "out, corner", wall5, leg)
	behind := roof3
	if s.behind {
		behind = roof2
	}
	rear := read(s.parapets() + ", case A, roof face")
	d.Rear[Edge] = s.face("rear.edge", "rear leg towards the roof, edge", roof2, rear)
	d.Rear[Corner] = s.face("rear.corner", "rear leg towards the roof, corner", behind, rear)
	inward := read(s.parapets() + ", case A, outside face, and case B, roof face")
	d.In[Edge] = s.face("in", "inward on either leg", wallPlus, inward)
	d.In[Corner] = d.In[Edge]
	for _, c := range []struct {
		fact, what string
		a, b       surface
	}{
		{"wall.a.edge", "case A, edge: outside face inward and roof face outward", wallPlus, roof2},
		{"wall.a.corner", "case A, corner: outside face inward and roof face outward", wallPlus, behind},
		{"wall.b.edge", "case B, edge: roof face inward and outside face outward", wallPlus, wall4},
		{"wall.b.corner", "case B, corner: roof face inward and outside face outward", wallPlus, wall5},
	} {
		g, sure := s.net(c.a, c.b)
		least := leastNet(s.e)
		from := source{s.parapets() + "; " + least.text, worse(Read, worse(least.sure, sure))}
		b.as(c.fact).pressure("p", "Parapet as a wall, "+c.what+" (strength; both faces together)",
			fmt.Sprintf("%.3f %s, not under %s", g, s.qName(), b.psf(leastPSF)),
			math.Max(g*s.q, leastPSF*pascalsPerPSF), from)
	}
	return d
}

// parapets names the clause on parapets, by a number only where one was read.
func (s *site) parapets() string {
	return s.e.table("section 30.9, parapets", "components and cladding, parapets, as read of 7-10 and 7-22",
		"components and cladding, parapets")
}

func (s *site) qName() string {
	if s.e == ed22 {
		return "Kd qp"
	}
	return "qp"
}

// gcp is the coefficient of a surface at the job's area.
func (s *site) gcp(f surface) (float64, line) {
	l, ok := coefficient(s.e, s.tall, f)
	if !ok {
		panic("wind: no coefficient for " + f.String())
	}
	g := l.at(s.area)
	if s.reduced && (f == wall4 || f == wall5 || f == wallPlus) {
		g *= 0.9
	}
	return g, l
}

// net adds the two faces of a parapet.
func (s *site) net(inward, outward surface) (float64, Sure) {
	p, lp := s.gcp(inward)
	n, ln := s.gcp(outward)
	return p - n, worse(lp.from.sure, ln.from.sure)
}

// face is one face of the coping, with its steps.
func (s *site) face(fact, what string, f surface, why source) job.Pressure {
	b := &s.basis
	g, l := s.gcp(f)
	formula := l.formula(b)
	if s.reduced && (f == wall4 || f == wall5 || f == wallPlus) {
		formula += ", less a tenth"
	}
	b.as(fact+".gcp").number("GCp", "Coefficient "+what+": "+f.String(), formula, g, l.from)
	pa := s.q * (math.Abs(g) + s.gcpi)
	least := leastNet(s.e)
	from := source{
		least.text + "; " + why.text,
		worse(least.sure, worse(why.sure, worse(l.from.sure, s.gcpiFrom.sure))),
	}
	p := job.Pressure{Pa: math.Max(pa, leastPSF*pascalsPerPSF), Level: job.Strength}
	b.as(fact+".strength").
		pressure("p", "Pressure "+what+" (strength)", s.qName()+" (|GCp| + GCpi), not under "+b.psf(leastPSF), p.Pa,
			from)
	b.as(fact+".allowable").pressure("p", "Pressure "+what+" (allowable)", "0.6 p", AllowablePa(p),
		source{s.e.String() + " section 2.4: 0.6W", worse(Read, from.sure)})
	return p
}

// widths finds how far the corner zone reaches along the wall.
func (s *site) widths(d *Demand) {
	b := &s.basis
	a := zoneWidth(s.h, s.least, s.tall)
	formula := "lesser of 0.1 L and 0.4 h, not under 0.04 L nor " + b.ft(3)
	reach, sure := a, Computed
	switch {
	case s.tall:
		from := memory(s.e.table("Figure 30.6-1", "Figure 30.5-1", "Figure 30.4-1"))
		b.as("zone5.width").feet("a", "Width of wall zone 5", "0.1 L, not under "+b.ft(3), a, from)
		reach, sure = 2*a, Memory
		b.as("zone3.leg").feet("", "Legs of roof zone 3", "2 a", reach, from)
	case s.e == ed10:
		b.as("zone5.width").feet("a", "Width of wall zone 5 and of roof zones 2 and 3", formula, a,
			read("ASCE 7-10 Figures 30.4-1 and 30.4-2A"))
	default:
		b.as("zone5.width").feet("a", "Width of wall zone 5", formula, a, read(s.e.String()+" Figure 30.3-1"))
		from := read(s.e.String() + " Figure 30.3-2A")
		if s.e == ed22 {
			from.sure = Memory // that 7-22 keeps the figure of 7-16
			sure = Memory
		}
		b.as("zone3.leg").feet("", "Legs of roof zone 3 along the edge", "0.6 h", 0.6*s.h, from)
		reach = math.Max(a, 0.6*s.h)
	}
	d.CornerLength = fromFeet(reach)
	b.as("corner.length").feet("", "Corner zone along the wall, from each turn that begins one and each free end",
		"the longer of the two, up to the next "+b.sixteenth(), feetOf(d.CornerLength), source{"figures above", sure})
}
