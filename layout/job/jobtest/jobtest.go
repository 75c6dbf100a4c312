// Package jobtest makes jobs for tests: one plain system and wall of an
// invented scenario, and random perimeters over it. It is imported by tests
// alone.
package jobtest

import (
	"fmt"
	"slices"

	"copingset/layout/job"
	"copingset/layout/length"

	"pgregory.net/rapid"
)

const in = length.Inch

// Job is a job without perimeters: system, packing, fastener, two tested
// assemblies, one wall, pressures. Add perimeters with Rectangle or Perimeter.
func Job() *job.Job {
	const metal = "aluminum 3003-H14"
	return &job.Job{
		File: "test.yaml",
		Info: job.Info{Name: "Test job", Number: "T-1", Issued: job.Date{Year: 2026, Month: 3, Day: 16}},
		System: job.System{
			Name: "Test profile",
			Metal: job.Metal{Name: metal, Thickness: in / 20, Density: 2740, Expansion: 23220,
				Finish: "grey"},
			Profile: job.Profile{FrontLeg: job.Leg{Length: 5 * in}, Drip: job.Kick{Length: in / 2,
				Angle: 30 * job.Degree},
				TopSlope: 41_666_667, RearLeg: job.Leg{Length: 3 * in, To: job.ToTangent},
				RearHook: job.Kick{Length: in / 2, Angle: 150 * job.Degree}, InsideR: in / 16},
			FrontClearance: in / 4, RearClearance: in / 4, PlayLeast: in / 8, PlayMost: 3 * in,
			Widths: job.Widths{Least: 8 * in, Most: 30 * in, Step: in / 4},
			Stock:  11*length.Foot + 6*in, LeastPiece: 28 * in,
			Joint:  job.Joint{Gap: 5 * in / 16, Reference: 20000, Coldest: -20000, Hottest: 65000, LeastGap: in / 16},
			Splice: job.Splice{Length: 7 * in, Bearing: 7 * in / 4, Tape: 9 * in / 4},
			Chair: job.Chair{Length: 13 * in, Thickness: 2 * in / 25, Rise: 7 * in / 8, FrontEdge: in / 8,
				RearEdge: 3 * in / 8, EndChair: 9 * in},
			Corner: job.CornerRules{Leg: 27 * in, LongestLeg: 66 * in, LegStep: in / 2, ShortLeg: in,
				Absorb:  3 * job.Degree / 2,
				Support: job.Support{Length: 6 * in, Width: 4 * in},
				Supports: []job.SupportTier{{WidthTo: 14 * in, At: []int{550}},
					{WidthTo: 30 * in, At: []int{300, 750}}},
				Covered: &job.Covered{By: "engineer of record", Document: "L-22", WidthMost: 30 * in,
					TurnMost: 180 * job.Degree,
					Pieces: []string{"corner", "double miter", "corner with end", "tee", "end cap", "wall end",
						"transition", "pitch miter"}}},
			EndCap: job.EndRules{Leg: 24 * in, Clearance: in / 4}, WallEnd: job.EndRules{Leg: 24 * in,
				Clearance: in / 8, Upstand: 4 * in},
			Expansion: job.ExpansionRules{Bearing: 2 * in, ChairFrom: 8 * in},
			Lap:       job.Lap{Front: in, Rear: in},
		},
		Packing: job.Packing{Most: 3 * in, LayerName: "plywood nominal 5/8", Layer: 19 * in / 32,
			Shims: []length.Length{in / 2, in / 4, in / 8, in / 16}},
		Membrane: job.Layer{Name: "self-adhering membrane", Thickness: 55 * in / 1000},
		Fasteners: []job.Fastener{{Name: "wood screw", Diameter: in / 4, Substrate: job.Wood,
			Lengths:   []length.Length{3 * in / 2, 2 * in, 5 * in / 2, 3 * in, 7 * in / 2, 4 * in, 5 * in},
			Embedment: in, Tip: in / 4, Cover: in / 8, EdgeDistance: in / 2, Box: 100, Kind: job.WoodScrew,
			Shear: 900}},
		Assemblies: []job.Assembly{
			assembly("T1", metal, 46*in, 3600, 1700),
			assembly("T2", metal, 31*in, 7600, 4200),
		},
		Walls: []job.Wall{{Name: "block", CoverFront: in, CoverRear: in / 2,
			Layers: []job.Layer{{Name: "nailers", Material: job.Wood, Thickness: 3 * in, Gravity: 0.42, Service: true},
				{Name: "block", Material: job.Masonry, Thickness: 16 * in}},
			Nailer: &job.Nailer{Anchor: "anchor bolt", Report: "S-501", Pull: 1800, Shear: 1300, Most: 48 * in,
				Least: 6 * in}}},
		Pressures: &job.Pressures{By: "engineer of record", Document: "S-1", Edition: "ASCE 7-16",
			CornerLength: 72 * in,
			Edge: job.ZonePressure{Up: job.Pressure{Pa: 1200, Level: job.Allowable}, Out: job.Pressure{Pa: 600,
				Level: job.Allowable}},
			Corner: job.ZonePressure{Up: job.Pressure{Pa: 1900, Level: job.Allowable}, Out: job.Pressure{Pa: 900,
				Level: job.Allowable}}},
		Site: job.Site{OnePerson: 22680, LongPiece: 96 * in, InstallMetalT: []job.Temperature{-5000, 5000, 15000,
			25000, 35000}},
		Crating: job.Crating{WeightMost: 180000, LengthMost: 150 * in, SpareChair: 3, SpareSplice: 3, SpareFastener: 5,
			SpareShim: 3, SpareTape: 10, TapeRoll: 600 * in},
	}
}

func assembly(name, metal string, spacing length.Length, up, out float64) job.Assembly {
	return job.Assembly{Name: name, Report: "R-" + name, Laboratory: "Test house", Metal: metal,
		ThicknessLeast: in / 20,
		FrontLegMost:   job.Leg{Length: 13 * in / 2}, RearLegMost: job.Leg{Length: 33 * in / 8, To: job.ToTangent},
		WidthMost: 30 * in, ChairSpacing: spacing, Substrate: job.Wood,
		Fastener: "wood screw", FrontRow: 3, RearRow: 2, FrontRowFrom: 2 * in, RearRowFrom: 2 * in,
		Up: job.Pressure{Pa: up, Level: job.AsPulled}, Out: job.Pressure{Pa: out, Level: job.AsPulled},
		Rear: job.Pressure{Pa: up, Level: job.AsPulled}, Factor: 2, Cost: 1000,
		Test: &job.Test{Standard: "test standard", Edition: "2017", Method: "M-3", Accreditation: "A-1",
			On: job.Date{Year: 2025, Month: 6, Day: 2}},
		FactorBasis: &job.FactorBasis{Level: job.Allowable, By: "engineer of record", Why: "specification"}}
}

// Run makes a surveyed run: flat, straight and 12 in wide.
func Run(name string, l length.Length, turn job.Angle) job.Run {
	r := job.Run{Name: name, Length: l, Right: job.End{Turn: turn}}
	for s := length.Length(0); s < l; s += 30 * in {
		r.Readings = append(r.Readings, job.Reading{Station: s, Width: 12 * in})
	}
	r.Readings = append(r.Readings, job.Reading{Station: l, Width: 12 * in})
	return r
}

// Perimeter wraps runs in the test wall.
func Perimeter(name string, kind job.Kind, runs ...job.Run) job.Perimeter {
	return job.Perimeter{Name: name, Kind: kind, Wall: "block", MisclosureLength: 2 * in, MisclosureAngle: job.Degree,
		Runs: runs}
}

// Rectangle is a roof of two lengths, its runs named A to D.
func Rectangle(a, b length.Length) job.Perimeter {
	t := 90 * job.Degree
	return Perimeter("ROOF", job.Roof, Run("A", a, t), Run("B", b, t), Run("C", a, t), Run("D", b, t))
}

// Random draws a job with one perimeter of a random shape, wall and choice of
// closer, with obstacles and expansion joints; some have a break in the slope of
// a top.
func Random(t *rapid.T) *job.Job {
	return random(t, rapid.IntRange(0, 3).Draw(t, "width varies") == 0)
}

// Uneven is Random with walls whose width varies and a system that makes
// transitions, corners of two widths, or both.
func Uneven(t *rapid.T) *job.Job {
	j := random(t, true)
	if rapid.Bool().Draw(t, "two widths") {
		twoWidths(t, j)
	}
	return j
}

func random(t *rapid.T, varies bool) *job.Job {
	j := Job()
	j.System.Closer = job.Closer(rapid.IntRange(0, 2).Draw(t, "closer"))
	j.System.Remainder = job.Side(rapid.IntRange(0, 1).Draw(t, "remainder"))
	if rapid.Bool().Draw(t, "chair packing") {
		j.Packing.Method = job.PackChairs
	}
	if rapid.Bool().Draw(t, "slope by packing") {
		j.System.Profile.SlopeBy = job.SlopeByPacking
	}
	if rapid.Bool().Draw(t, "metric") {
		j.Units = job.Metric
	}
	dimensions(t, &j.System)
	p := shape(t)
	if varies {
		transitions(t, &j.System)
	}
	for i := range p.Runs {
		survey(t, &p.Runs[i])
		if varies {
			vary(t, &p.Runs[i])
		}
		furnish(t, &p.Runs[i])
	}
	j.Perimeters = []job.Perimeter{p}
	if rapid.IntRange(0, 4).Draw(t, "break") == 0 {
		breaks(t, j)
	}
	return j
}

// dimensions draws a system of a fabricator's own: it keeps what the reader of
// job files insists on (a chair is no longer than the least piece).
func dimensions(t *rapid.T, s *job.System) {
	s.Stock = sixteenths(t, 72, 168, "stock")
	s.Chair.Length = sixteenths(t, 6, 16, "chair")
	s.LeastPiece = sixteenths(t, 17, 36, "least piece")
	s.Joint.Gap = 2 * length.Length(rapid.IntRange(1, 4).Draw(t, "gap")) * length.Inch16
	s.Corner.Leg = sixteenths(t, 10, 36, "leg")
	s.Corner.LongestLeg = s.Corner.Leg + sixteenths(t, 0, 40, "longest leg")
	s.Corner.LegFace = job.Face(rapid.IntRange(0, 1).Draw(t, "leg face"))
	s.EndCap.Leg = sixteenths(t, 10, 36, "end leg")
}

// transitions draws a rear leg that takes up little, and the piece that joins
// two widths.
func transitions(t *rapid.T, s *job.System) {
	s.PlayMost = sixteenths(t, 1, 2, "most play")
	s.Widths.Step = in / 2
	leg := (s.Splice.Length - s.Joint.Gap) / 2
	leg = length.CeilTo(leg, length.Inch16) + sixteenths(t, 0, 4, "transition leg")
	s.Transition = job.Transition{Leg: leg, Length: 2*leg + sixteenths(t, 6, 40, "transition taper"),
		ChangeMost: sixteenths(t, 1, 4, "transition change")}
	s.Transition.Length = length.Min(s.Transition.Length, s.Stock)
}

// twoWidths lets corners have two widths, and gives some runs another width from
// end to end; transitions may not be made then.
func twoWidths(t *rapid.T, j *job.Job) {
	s := &j.System
	s.Corner.TwoWidths = &job.TwoWidths{MismatchMost: length.Length(rapid.IntRange(1, 4).Draw(t, "mismatch")) * in / 16,
		SlopeLeast: job.Slope(rapid.IntRange(20, 40).Draw(t, "least slope")) * 1_000_000}
	if rapid.IntRange(0, 3).Draw(t, "no transitions") == 0 {
		s.Transition = job.Transition{}
	}
	for i := range j.Perimeters[0].Runs {
		r := &j.Perimeters[0].Runs[i]
		if rapid.IntRange(0, 2).Draw(t, "another wall") > 0 {
			continue
		}
		wide := length.Length(rapid.IntRange(1, 8).Draw(t, "wider all along")) * in / 2
		for k := range r.Readings {
			r.Readings[k].Width += wide
		}
	}
}

// vary gives a wall stretches of other widths, with steps and slow tapers.
func vary(t *rapid.T, r *job.Run) {
	wide, to := length.Length(0), length.Length(0)
	for i := range r.Readings {
		if rapid.IntRange(0, 7).Draw(t, "another width") == 0 {
			to = length.Length(rapid.IntRange(0, 4).Draw(t, "wider by")) * in
			if rapid.Bool().Draw(t, "step") {
				wide = to
			}
		}
		wide += (to - wide) / 2
		r.Readings[i].Width += length.FloorTo(wide, length.Inch16)
	}
}

func sixteenths(t *rapid.T, lo, hi int, what string) length.Length {
	return length.Length(rapid.IntRange(lo*16, hi*16).Draw(t, what)) * length.Inch16
}

// shape draws a perimeter: a rectangle, one with a pilaster jog, a light well,
// or an open chain with any turns.
func shape(t *rapid.T) job.Perimeter {
	sq := 90 * job.Degree
	a, b := sixteenths(t, 30, 1500, "a"), sixteenths(t, 30, 900, "b")
	switch rapid.IntRange(0, 3).Draw(t, "shape") {
	case 0:
		return Rectangle(a, b)
	case 1: // a jog in the first side
		d, w := sixteenths(t, 6, 40, "jog depth"), sixteenths(t, 10, 60, "jog width")
		l, r := sixteenths(t, 20, 500, "left"), sixteenths(t, 20, 500, "right")
		return Perimeter("JOG", job.Roof,
			Run("A", l, -sq), Run("B", d, sq), Run("C", w, sq), Run("D", d, -sq), Run("E", r, sq),
			Run("F", b+d, sq), Run("G", l+w+r, sq), Run("H", b+d, sq))
	case 2:
		return Perimeter("WELL", job.Well, Run("A", a, -sq), Run("B", b, -sq), Run("C", a, -sq), Run("D", b, -sq))
	}
	n := rapid.IntRange(1, 5).Draw(t, "runs")
	p := Perimeter("OPEN", job.Open)
	p.Starts = job.End{Kind: job.EndKind(rapid.IntRange(1, 2).Draw(t, "starts"))}
	for i := range n {
		deg := rapid.OneOf(rapid.IntRange(1, 15), rapid.IntRange(15, 120)).Draw(t, "turn")
		if rapid.Bool().Draw(t, "left") {
			deg = -deg
		}
		r := Run(fmt.Sprintf("R%d", i+1), sixteenths(t, 20, 800, "length"), job.Angle(deg)*job.Degree)
		if i == n-1 {
			r.Right = job.End{Kind: job.EndKind(rapid.IntRange(1, 2).Draw(t, "ends"))}
		}
		p.Runs = append(p.Runs, r)
	}
	return p
}

// survey gives a run an imperfect wall.
func survey(t *rapid.T, r *job.Run) {
	for i := range r.Readings {
		q := &r.Readings[i]
		n := func(lo, hi int, what string) length.Length {
			return length.Length(rapid.IntRange(lo, hi).Draw(t, what)) * length.Inch16
		}
		q.Width = 12*in + n(-4, 6, "width")
		q.Offset = n(-6, 6, "offset")
		q.TopOutside, q.TopInside = n(-12, 8, "street top"), n(-12, 8, "roof top")
	}
}

// furnish may put an obstacle and an expansion joint on a run.
func furnish(t *rapid.T, r *job.Run) {
	if r.Length < 200*in {
		return
	}
	if rapid.IntRange(0, 9).Draw(t, "basis") == 0 {
		r.Basis = job.Drawing
	}
	mid := func(what string) length.Length { return sixteenths(t, 40, int(r.Length/in)-40, what) }
	if rapid.IntRange(0, 3).Draw(t, "obstacle") == 0 {
		r.Obstacles = append(r.Obstacles, job.Obstacle{Name: "post", Station: mid("obstacle at"),
			Extent: sixteenths(t, 2, 8, "extent"), Does: job.Does(rapid.IntRange(1, 3).Draw(t, "does"))})
	}
	if rapid.IntRange(0, 4).Draw(t, "expansion") == 0 {
		e := job.ExpansionJoint{Station: mid("expansion at"), Gap: in}
		if rapid.IntRange(0, 4).Draw(t, "movement stated") > 0 {
			m := in / 2
			e.Movement = &m
		}
		r.Expansion = append(r.Expansion, e)
	}
}

// breaks parts a long run in the middle and slopes its two halves, to a peak or
// to a valley. Where they meet corners or ends, that is a hold.
func breaks(t *rapid.T, j *job.Job) {
	p := &j.Perimeters[0]
	k := rapid.IntRange(0, len(p.Runs)-1).Draw(t, "break on")
	r := p.Runs[k]
	m := len(r.Readings) / 2
	if r.Length < 150*in || len(r.Obstacles)+len(r.Expansion) > 0 || m < 2 {
		return
	}
	j.System.PitchMiter = job.PitchMiter{Leg: sixteenths(t, 8, 36, "pitch leg"),
		ChangeMost: job.Angle(rapid.IntRange(10, 60).Draw(t, "change")) * job.Degree}
	j.Packing.Twist = length.Length(rapid.IntRange(0, 4).Draw(t, "pitch twist")) * length.Inch16
	slope := job.Slope(rapid.IntRange(5_000_000, 400_000_000).Draw(t, "pitch"))
	pitch := job.Pitch(rapid.IntRange(1, 2).Draw(t, "peak or valley"))
	level := rapid.IntRange(0, 2).Draw(t, "level half")
	at := r.Readings[m].Station
	a, b := r, r
	b.Name = r.Name + "B"
	a.Right = job.End{Kind: job.EndPitch, Pitch: pitch}
	a.Length, b.Length = at, r.Length-at
	a.Readings, b.Readings = slices.Clone(r.Readings[:m+1]), slices.Clone(r.Readings[m:])
	way := length.Length(1)
	if pitch == job.Valley {
		way = -1
	}
	fall := func(q *job.Run, x length.Length) { // from the break
		for i := range q.Readings {
			d := way * slope.Rise(length.Abs(q.Readings[i].Station-x))
			q.Readings[i].TopOutside -= d
			q.Readings[i].TopInside -= d
		}
		q.Grade = &job.Grade{Most: slope + 2_000_000}
	}
	for i := range b.Readings {
		b.Readings[i].Station -= at
	}
	a.Grade, b.Grade = &job.Grade{}, &job.Grade{}
	if level != 1 {
		fall(&a, at)
	}
	if level != 2 {
		fall(&b, 0)
	}
	if way > 0 && level == 0 && rapid.Bool().Draw(t, "one way") {
		a.Grade.Way, b.Grade.Way = job.Rising, job.Falling
	}
	for _, q := range []*job.Run{&a, &b} {
		q.Readings[0].Offset, q.Readings[len(q.Readings)-1].Offset = 0, 0
	}
	p.Runs = slices.Concat(p.Runs[:k], []job.Run{a, b}, p.Runs[k+1:])
	p.MisclosureLength += r.Length / 8 // its lengths go along the slope, the other side's do not
}
