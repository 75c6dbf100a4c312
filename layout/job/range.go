package job

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"copingset/layout/finding"
	"copingset/layout/length"
)

// The limits below are no rule of any coping system: they tell a slip of the
// hand from a building. A value outside them is refused before anything is
// solved, because what is worked out from it is nonsense and can take hours.

// Limits of one measure of a reading.
type span struct {
	name        string
	least, most length.Length
	why         string // what lies outside, in the words of a finding
}

// The measures of a reading that have limits of their own. A station lies on
// its run, which is checked with the run.
//
//   - Widths: a cap is bent of one sheet, and sheets and coils of metal are not
//     made wider than 8 ft, legs included; nothing can be fastened to a wall of
//     under 2 in from both its faces.
//   - Tops: the copings of one job are levelled from one datum that can be shot
//     from the roof; 60 ft is five storeys, which no shot of a roof crosses. A
//     part that lies higher has a datum, and a job, of its own.
//   - Offsets are read off a line strung along the face, square to it, with a
//     rule or a tape held by one hand.
func widthSpan(name string) span {
	return span{name, 2 * length.Inch, 8 * length.Foot, "no wall that a cap is bent for has such a width"}
}

func topSpan(name string) span {
	return span{name, -60 * length.Foot, 60 * length.Foot, "no wall top lies so far from the datum of its job"}
}

func offsetSpan(name string) span {
	return span{name, -10 * length.Foot, 10 * length.Foot, "no survey line is strung so far from its wall"}
}

// measured is a measure of a reading with its limits; nil if it was not taken.
type measured struct {
	span
	value *length.Length
}

func (q *Reading) measured() []measured {
	return []measured{
		{widthSpan("width"), &q.Width}, {topSpan("street_top"), &q.TopOutside}, {topSpan("roof_top"), &q.TopInside},
		{offsetSpan("offset"), &q.Offset}, {widthSpan("width_low"), q.WidthLow}, {offsetSpan("offset_low"),
			q.OffsetLow},
	}
}

// runMost is the longest straight run: a mile is longer than any building's
// side.
const runMost = 5280 * length.Foot

// Limits of how much one job may hold. A large roof has some hundreds of runs,
// a few thousand readings and pieces; ten times that is still solved in seconds.
const (
	mostRuns     = 12_000
	mostReadings = 60_000
	freely       = 100 // readings of a run, however short it is; then
	closest      = length.Inch / 2
	mostPieces   = 30_000 // caps of stock length
	mostChairs   = 200_000
	mostGraded   = 400   // runs of one set surface with a grade: it is solved exactly, all of them together
	mostThings   = 5_000 // obstacles and building expansion joints
	mostListed   = 200   // assemblies, fasteners, walls: each is tried with each
	mostRows     = 24    // fasteners of a chair in one row, rows of nails
)

// plausible refuses what in a reading is outside its limits. place gives the
// place of a measure, unit the unit its number was written in; tell takes what is
// found.
func (d *decoder) plausible(run string, q *Reading, place func(name string) finding.Place,
	unit func(m measured) length.Length, tell func(measured, finding.Finding)) bool {
	ok := true
	for _, m := range q.measured() {
		if m.value == nil || m.least <= *m.value && *m.value <= m.most || m.least > 0 && *m.value <= 0 {
			continue // no width at all is told with the run
		}
		ok = false
		tell(m, finding.New(finding.Error, "reading-range", place(m.name), m.guess(*m.value, unit(m)),
			"run %s: %s %s at station %s: %s (%s to %s)", run, m.name, Both(*m.value), Both(q.Station), m.why,
			Both(m.least), Both(m.most)))
	}
	return ok
}

// guess says what a value outside its limits probably is: a date that a
// spreadsheet counts in days, or a number in another unit than it is read in.
func (s span) guess(l, unit length.Length) string {
	n := length.Abs(l) / max(unit, 1)
	if length.Abs(l) == n*unit && 36526 <= n && n <= 73050 { // the days of the years 2000 to 2099
		return fmt.Sprintf("%d is how a spreadsheet counts the day %s: it took the reading for a date; "+
			"format the column as text and write the reading again", n, dayOf(int64(n)))
	}
	units := []struct {
		unit length.Length
		name string
	}{{length.Millimetre, "millimetres"}, {length.Centimetre, "centimetres"}, {length.Inch, "inches"},
		{length.Foot, "feet"}, {length.Metre, "metres"}}
	if length.Abs(l) < s.least { // too small: the unit meant is a greater one
		slices.Reverse(units)
	}
	for _, u := range units {
		v, ok := scaled(l, u.unit, unit)
		if ok && u.unit != unit && s.least <= v && v <= s.most {
			return "measure it again; if the number means " + u.name +
				", write the unit after it or in the heading of its column"
		}
	}
	return "measure it again, and check its unit"
}

// scaled is a value read in one unit as it would be in another; not ok where
// that is no length of a building.
func scaled(l, to, from length.Length) (length.Length, bool) {
	if from <= 0 || float64(length.Abs(l))/float64(from)*float64(to) > float64(length.Most) {
		return 0, false
	}
	return length.MulDiv(l, int64(to), int64(from)), true
}

// dayOf is the day a spreadsheet means by a number of days, counted from 30
// December 1899 (its day 60, a 29 February 1900 that never was, puts the count
// of all later days back by one).
func dayOf(n int64) string {
	year, month := 1899, 12
	n += 30
	for {
		days := int64(daysIn(year, month))
		if n <= days {
			return fmt.Sprintf("%04d-%02d-%02d", year, month, n)
		}
		n -= days
		if month++; month > 12 {
			year, month = year+1, 1
		}
	}
}

// jumps refuses the first rise between two neighbouring readings of a run that
// no top makes along a wall: more than twice the way between them, where a
// coping is sloped 1 in 1 at most, and a foot beside for a step read close by.
// It says nothing of which of the two is the slip.
func (d *decoder) jumps(run string, before, q *Reading, place func(name string) finding.Place) bool {
	way := 2*length.Abs(q.Station-before.Station) + length.Foot
	for _, t := range []struct {
		name string
		a, b length.Length
	}{{"street_top", before.TopOutside, q.TopOutside}, {"roof_top", before.TopInside, q.TopInside}} {
		if length.Abs(t.b-t.a) <= way {
			continue
		}
		d.conflict("reading-jump", place(t.name), before.At,
			"one of the two readings is a slip, or its unit is another; where the wall steps, end the run there with "+
				"`step:`",
			"run %s: %s goes from %s at station %s to %s at station %s, steeper than any coping",
			run, t.name, Both(t.a), Both(before.Station), Both(t.b), Both(q.Station))
		return false
	}
	return true
}

// typedIn is the unit a value of the job file was most likely written in, whose
// text is not at hand: inches where it is a whole number of their 64ths.
func typedIn(l length.Length) length.Length {
	switch {
	case l%length.Inch64 == 0:
		return length.Inch
	case l%length.Metre == 0:
		return length.Metre
	}
	return length.Millimetre
}

// inline checks the readings that stand in the job file; those of a survey are
// checked row by row as they are read.
func (c *runCheck) inline() {
	entry := 0 // in the file, where a reading that could not be read stands too
	for i := range c.r.Readings {
		q := &c.r.Readings[i]
		path := func() string { return c.path + "readings[" + strconv.Itoa(entry) + "]" }
		for ; c.d.places[path()] != q.At; entry++ {
			if entry > i+len(c.r.Readings) {
				return
			}
		}
		place := func(name string) finding.Place { return c.d.places[path()+"."+name] }
		fine := c.d.plausible(c.r.Name, q, place, func(m measured) length.Length { return typedIn(*m.value) },
			func(_ measured, f finding.Finding) { c.d.add(f) })
		if i > 0 && fine && !c.d.jumps(c.r.Name, &c.r.Readings[i-1], q, place) {
			return
		}
	}
}

// ranges checks one row of a survey; the first jump of a run is told.
func (s *survey) ranges(w row, target *surveyed, r *Reading) bool {
	place := func(name string) finding.Place { return w.at[s.find(name)] }
	fine := s.d.plausible(target.run.Name, r, place, func(m measured) length.Length {
		if u := s.columns[s.find(m.name)].unit; u > 0 {
			return u
		}
		return typedIn(*m.value)
	}, func(m measured, f finding.Finding) {
		of := &s.columns[s.find(m.name)].of
		of.outside = append(of.outside, outsideOf{f, m})
	})
	for _, m := range append(r.measured(), measured{span: span{name: "station"}, value: &r.Station}) {
		if i := s.find(m.name); i >= 0 && m.value != nil {
			s.columns[i].count(strings.TrimSpace(w.cells[i]), *m.value, w.at[i])
		}
	}
	if n := len(target.rows); fine && n > 0 && !target.jumped {
		target.jumped = !s.d.jumps(target.run.Name, &target.rows[n-1], r, place)
	}
	if !fine {
		s.d.unsure = true
	}
	return fine
}

// limits of a value of the system or the shop.
type limits struct {
	path        string
	value       length.Length
	least, most length.Length
	what        string
}

// checkRanges refuses lengths that no part of a coping has, and jobs of more
// than can be one job's work.
func (d *decoder) checkRanges(j *Job) {
	const in, ft = length.Inch, length.Foot
	s := &j.System
	all := []limits{
		// Joints a foot apart would be all plates, and no truck carries a cap of
		// more than 60 ft.
		{"system.stock", s.Stock, 12 * in, 60 * ft, "a cap as it is made"},
		{"system.least_piece", s.LeastPiece, in, 60 * ft, "a piece of cap"},
		// A chair is screwed down, so it is longer than two screws are thick.
		{"system.chair.length", s.Chair.Length, in, 10 * ft, "a chair"},
		{"system.splice.length", s.Splice.Length, in / 2, 10 * ft, "a splice plate"},
		{"system.corner.leg", s.Corner.Leg, in, 60 * ft, "the leg of a corner"},
		{"system.corner.longest_leg", s.Corner.LongestLeg, in, 60 * ft, "the leg of a corner"},
		{"system.corner.short_leg", s.Corner.ShortLeg, in, 60 * ft, "the leg of a corner"},
		{"system.corner.leg_step", s.Corner.LegStep, in / 64, 10 * ft, "a step of legs"},
		{"system.corner.support.length", s.Corner.Support.Length, in / 4, 8 * ft, "a support under a miter"},
		{"system.corner.support.width", s.Corner.Support.Width, in / 4, 8 * ft, "a support under a miter"},
		{"system.inside_width.most", s.Widths.Most, in, 8 * ft, "a cap's inside width"},
		{"system.inside_width.step", s.Widths.Step, in / 64, 8 * ft, "a step of widths"},
		// The thinnest sheet wood is sawn to, and the thinnest shim that is sold.
		{"packing.layer.thickness", j.Packing.Layer, in / 32, 6 * in, "a layer of plywood"},
		{"packing.most", j.Packing.Most, 0, 5 * ft, "build-up under a coping"},
		{"packing.sheet.width", j.Packing.Sheet.Width, in, 20 * ft, "a sheet of plywood"},
		{"packing.sheet.length", j.Packing.Sheet.Length, in, 40 * ft, "a sheet of plywood"},
		{"packing.nail.spacing", j.Packing.Nail.Spacing, in / 8, 20 * ft, "the spacing of nails"},
		{"crating.length_most", j.Crating.LengthMost, in, 100 * ft, "the length of a crate"},
		// A membrane of an inch is a board.
		{"membrane.thickness", j.Membrane.Thickness, 0, in, "a membrane's thickness"},
	}
	all = append(all, wallLimits(j)...)
	for _, t := range j.Packing.Shims {
		all = append(all, limits{"packing.shims", t, in / 128, 4 * in, "a shim"})
	}
	for i := range j.Assemblies {
		all = append(all, limits{fmt.Sprintf("assemblies[%d].chair_spacing", i), j.Assemblies[i].ChairSpacing, in,
			20 * ft, "the spacing of chairs"})
	}
	for i := range j.Perimeters {
		for k := range j.Perimeters[i].Runs {
			all = append(all, limits{fmt.Sprintf("perimeters[%d].runs[%d].length", i, k),
				j.Perimeters[i].Runs[k].Length,
				1, runMost, "a straight run of wall"})
		}
	}
	for _, l := range all {
		if d.has(l.path) && (l.value < l.least || l.value > l.most) {
			d.errorf("length-range", d.places[l.path], "check the number and its unit",
				"%s: %s is not the length of %s (%s to %s)",
				d.name(l.path), Both(l.value), l.what, Both(l.least), Both(l.most))
		}
	}
	d.checkMarks(j)
	d.checkAmounts(j)
}

// wallLimits are those of what the coping stands on and is levelled from. No
// layer is thicker than a basement wall is high, which is the thickest anything
// is poured on; anchors stand no closer than their own washers.
func wallLimits(j *Job) []limits {
	const in, ft = length.Inch, length.Foot
	var all []limits
	for i := range j.Walls {
		w, path := &j.Walls[i], fmt.Sprintf("walls[%d].", i)
		for k := range w.Layers {
			all = append(all, limits{fmt.Sprintf("%slayers[%d].thickness", path, k), w.Layers[k].Thickness, in / 128,
				100 * ft, "a layer of a wall"})
		}
		if n := w.Nailer; n != nil {
			all = append(all, limits{path + "nailer.spacing_most", n.Most, in / 2, 20 * ft, "the spacing of anchors"},
				limits{path + "nailer.spacing_least", n.Least, in / 2, 20 * ft, "the spacing of anchors"})
		}
	}
	return all
}

// checkMarks refuses a bench mark that no shot from the roof reaches.
func (d *decoder) checkMarks(j *Job) {
	if j.Benchmark == nil {
		return
	}
	marks := []struct {
		path string
		*Mark
	}{{"benchmark", &j.Benchmark.Mark}, {"benchmark.check", j.Benchmark.Check}}
	for _, m := range marks {
		if m.Mark == nil {
			continue
		}
		if s, path := topSpan("reading"), m.path+".reading"; d.has(path) && (m.Reading < s.least ||
			s.most < m.Reading) {
			d.errorf("length-range", d.places[path], s.guess(m.Reading, typedIn(m.Reading)),
				"%s: %s: no mark that the crew levels from lies so far from the datum of its job (%s to %s)",
				d.name(path), Both(m.Reading), Both(s.least), Both(s.most))
		}
	}
}

// checkAmounts refuses a job of more runs, readings, pieces or chairs than one
// job has.
func (d *decoder) checkAmounts(j *Job) {
	var runs, readings, things int
	var wall length.Length
	for i := range j.Perimeters {
		d.checkGraded(j, &j.Perimeters[i])
		runs += len(j.Perimeters[i].Runs)
		for k := range j.Perimeters[i].Runs {
			r := &j.Perimeters[i].Runs[k]
			readings += len(r.Readings)
			if n, most := len(r.Readings), freely+int(r.Length/closest); n > most &&
				d.has(fmt.Sprintf("perimeters[%d].runs[%d].length", i, k)) {
				d.errorf("job-size", r.Readings[most].At,
					"keep a reading every foot or two, and where the wall changes",
					"run %s has %d readings on %s; more than one every half inch are none of a wall", r.Name, n,
					Both(r.Length))
			}
			things += len(r.Obstacles) + len(r.Expansion)
			wall += min(r.Length, runMost)
		}
	}
	refuse := func(path, what, mend string, n, most int64) {
		if n > most {
			d.errorf("job-size", d.places[path], mend, "the job has %d %s; one job is %d at most", n, what, most)
		}
	}
	d.checkRow("packing.nail.rows", "rows of nails across a wall", j.Packing.Nail.Rows)
	const split = "make a job of each part of the building"
	refuse("perimeters", "runs", split, int64(runs), mostRuns)
	refuse("perimeters", "readings", split, int64(readings), mostReadings)
	refuse("perimeters", "obstacles and building expansion joints", split, int64(things), mostThings)
	const used = "leave out what this job does not use"
	refuse("assemblies", "tested assemblies", used, int64(len(j.Assemblies)), mostListed)
	refuse("fasteners", "fasteners", used, int64(len(j.Fasteners)), mostListed)
	refuse("walls", "walls", used, int64(len(j.Walls)), mostListed)
	if s := j.System.Stock; d.has("system.stock") && s > 0 {
		refuse("system.stock", "caps of stock length", "check the stock length and the lengths of the runs, or "+split,
			int64(wall/s), mostPieces)
	}
	for i := range j.Assemblies {
		path := fmt.Sprintf("assemblies[%d].chair_spacing", i)
		if s := j.Assemblies[i].ChairSpacing; d.has(path) && s > 0 {
			refuse(path, "chairs", "check the spacing and the lengths of the runs, or "+split, int64(wall/s),
				mostChairs)
		}
		a := &j.Assemblies[i]
		d.checkRow(fmt.Sprintf("assemblies[%d].rows.front", i), "fasteners of a chair in one row", a.FrontRow)
		d.checkRow(fmt.Sprintf("assemblies[%d].rows.rear", i), "fasteners of a chair in one row", a.RearRow)
	}
}

// checkGraded refuses a chain of more runs than one set surface with a grade has.
func (d *decoder) checkGraded(j *Job, p *Perimeter) {
	if j.Packing.Grade == 0 && !p.Graded() {
		return
	}
	n, most, first := 0, 0, 0 // since the last step, at most, up to the first step
	for i := range p.Runs {
		n++
		most = max(most, n)
		if p.Runs[i].Right.Kind == EndStep {
			if first == 0 {
				first = n
			}
			n = 0
		}
	}
	if p.Kind != Open {
		most = max(most, n+first) // the last run goes on in the first
	}
	if most > mostGraded {
		d.errorf("job-size", p.At, "make a perimeter of each part of the building, end runs where the wall steps, "+
			"or leave out the grade",
			"perimeter %s: %d runs share one set surface with a grade, which is found for %d at most", p.Name, most,
			mostGraded)
	}
}

// checkRow refuses a count of fasteners side by side that no part has room for.
func (d *decoder) checkRow(path, what string, n int) {
	if d.has(path) && n > mostRows {
		d.errorf("count-range", d.places[path], "check the number", "%s: there are never %d %s", d.name(path), n, what)
	}
}
