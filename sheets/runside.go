package sheets

import (
	"fmt"
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// factsOf names several facts of one thing.
func factsOf(of string, what ...string) string {
	var names []string
	for _, w := range what {
		names = append(names, layout.Named(of, w))
	}
	return layout.AllNamed(names...)
}

// local drops the run's name from the name of a joint or chair: on the run's
// own sheet it would only repeat.
func local(name, run string) string { return strings.TrimPrefix(name, run+"-") }

// shims letters a stack, equal ones counted.
func (b *book) shims(of []length.Length) string {
	if len(of) == 0 {
		return "–"
	}
	var out []string
	for i := 0; i < len(of); {
		k := i
		for k < len(of) && of[k] == of[i] {
			k++
		}
		s := b.exact(of[i])
		if k-i > 1 {
			s = fmt.Sprintf("%d×%s", k-i, s)
		}
		out = append(out, s)
		i = k
	}
	return strings.Join(out, " + ")
}

// slope letters a fall in the trade's way.
func (b *book) slope(s job.Slope) string {
	if b.metric {
		return fmt.Sprintf("%.1f%%", float64(s)/1e7)
	}
	return b.say.Say(words.UnitFallFoot, words.In("rise", drawing.Letter(length.Inches(s.Rise(length.Foot), 16))))
}

// runSide is what stands beside the columns of the runs of a sheet, in the order a
// foreman needs it: where to start, the gaps, what is alike at every chair, and what else is
// particular to the runs.
func (b *book) runSide(t stretch, columns map[*layout.Run]chairColumns) []block {
	var start, alike [][]lineRow
	for _, r := range t.runs {
		of := b.planOf(r)
		c := columns[r]
		rod := b.say.Say(words.RunRod)
		isRod := func(q lineRow) bool { return strings.HasPrefix(q.head, rod) }
		others := slices.DeleteFunc(slices.Clone(c.alike), isRod)
		rods := slices.DeleteFunc(slices.Clone(c.alike), func(q lineRow) bool { return !isRod(q) })
		start = append(start, slices.Concat(b.startRows(of), rods, b.pinchRow(of)))
		alike = append(alike, slices.Concat(others, b.standRows(of), c.explained(b)))
	}
	out := []block{b.lineTable("", merged(t.runs, start))}
	out = append(out, b.gapTables(t.runs...)...)
	if rows := merged(t.runs, alike); len(rows) > 0 {
		out = append(out, b.lineTable(b.say.Say(words.RunAlikeTitle), rows))
	}
	return append(out, b.runParticulars(t.lined, t.runs...)...)
}

// merged are the rows of several runs, each once: with the names of its runs, if it is
// not true of all.
func merged(runs []*layout.Run, of [][]lineRow) []lineRow {
	type said struct {
		lineRow
		runs []string
	}
	var all []said
	for i, rows := range of {
		for _, r := range rows {
			k := slices.IndexFunc(all, func(q said) bool { return q.head == r.head && q.words == r.words })
			if k < 0 {
				all, k = append(all, said{lineRow: lineRow{head: r.head, words: r.words}}), len(all)
			}
			all[k].facts = layout.AllNamed(all[k].facts, r.facts)
			all[k].runs = append(all[k].runs, runs[i].Name)
		}
	}
	var out []lineRow
	for _, q := range all {
		if len(q.runs) < len(runs) {
			q.head = strings.Join(q.runs, ", ") + ": " + q.head
		}
		out = append(out, q.lineRow)
	}
	return out
}

// lineTable is a table of heads and what is said under them; where it is narrow, each
// head stands before its words.
func (b *book) lineTable(title string, rows []lineRow) block {
	wide := facts(title, nil)
	wide.fill, wide.snug = true, true
	wide.cols[0].flex = true
	narrow := table{title: title, cols: []column{{flex: true}}, whole: true, fill: true, snug: true}
	for _, row := range rows {
		wide.add(lettered{words: row.head}, lettered{row.words, row.facts})
		narrow.add(lettered{row.head + ": " + row.words, row.facts})
	}
	return byWidth{6000, narrow, wide}
}

// startRows are where a run starts, where its cap corners stand, and where its cap is
// tightest.
func (b *book) startRows(of *plan.Run) []lineRow {
	say := b.say.Say
	rows := []lineRow{{head: say(words.RunLineStart), words: prose(b.starts(of))}}
	begins := ""
	if of.Left.Offset != (plan.Offset{}) && of.Datum.Mark == "" { // from the corner of the wall, as its cap corner is
		begins = of.Datum.Begins.Fact
	} else {
		k := words.RunBeginsLeft
		if of.Datum.Begins.Real > 0 {
			k = words.RunBeginsRight
		}
		rows = append(rows, lineRow{say(words.RunLineBegins),
			say(k, words.In("distance", b.long(length.Abs(of.Datum.Begins.Real)))), of.Datum.Begins.Fact})
	}
	for _, e := range []plan.End{of.Left, of.Right} {
		if e.Offset == (plan.Offset{}) {
			continue
		}
		k := words.RunOffsetBeyond
		if e.Offset.Beyond.Real < 0 {
			k = words.RunOffsetShort
		}
		rows = append(rows, lineRow{say(words.RunOffset, words.In("corner", prose(e.Name))),
			say(k, words.In("beyond", b.short(length.Abs(e.Offset.Beyond.Real))),
				words.In("out", b.short(e.Offset.Out.Real))),
			layout.AllNamed(e.Offset.Beyond.Fact, e.Offset.Out.Fact, begins)})
		begins = ""
	}
	rows = append(rows, b.benchmarkRows(of)...)
	if of.Elevation.OnSlope {
		rows = append(rows, lineRow{head: say(words.RunSlope), words: say(words.ViewSetSlope)})
	}
	return rows
}

// pinchRow says where the cap is tightest.
func (b *book) pinchRow(of *plan.Run) []lineRow {
	p, say := of.Pinch, b.say.Say
	if !p.Here {
		return nil
	}
	return []lineRow{{say(words.RunPinch), say(words.RunPinchAt, words.In("station", b.long(p.Station.Real)),
		words.In("wall", b.toward(p.StringToWall)), words.In("play", b.short(p.Play.Real))),
		layout.AllNamed(p.Station.Fact, p.StringToWall.Fact, p.Play.Fact)}}
}

// benchmarkRows say where the crew levels from.
func (b *book) benchmarkRows(of *plan.Run) []lineRow {
	m, say := of.Benchmark, b.say.Say
	if !m.Here {
		return nil
	}
	return []lineRow{{head: say(words.RunBenchmark), words: say(words.RunBenchmarkAt, words.In("what", prose(m.What)),
		words.In("where", prose(m.Where)))}}
}

// checkRow says what the rod reads on the mark that the benchmark is checked by.
func (b *book) checkRow(of *plan.Run) []lineRow {
	c, say := of.Benchmark.Check, b.say.Say
	if !c.Here {
		return nil
	}
	return []lineRow{{say(words.RunBenchmarkCheck), say(words.RunBenchmarkCheckAt, words.In("what", prose(c.What)),
		words.In("where", prose(c.Where)),
		words.In("sign", b.rodSign(c.Over.Real)), words.In("over", b.long(length.Abs(c.Over.Real)))), c.Over.Fact}}
}

// toward says on which side of the string the wall's face lies, and how far.
func (b *book) toward(v plan.Value) string {
	if v.Real < 0 {
		return b.say.Say(words.RunTowardStreet, words.In("distance", b.short(-v.Real)))
	}
	return b.say.Say(words.RunTowardRoof, words.In("distance", b.short(v.Real)))
}

// standRows say what is true of single chairs, and by what fasteners all are held.
func (b *book) standRows(of *plan.Run) []lineRow {
	say := b.say.Say
	var rows []lineRow
	for _, c := range of.Chairs {
		if left, right := c.Edges[0], c.Edges[1]; left != right {
			rows = append(rows, lineRow{say(words.RunStandTaper, words.In("chair", fmt.Sprintf("C%d", c.N))),
				say(words.RunStandTaperTo, words.In("left", b.short(left)), words.In("right", b.short(right))),
				factsOf(c.Mark, "inside-left-edge", "inside-right-edge")})
		}
	}
	if row, ok := b.pilotRow(of); ok {
		rows = append(rows, row)
	}
	if of.Plies {
		rows = append(rows, lineRow{say(words.RunPlies), b.exactly(of.Ply), factsOf("packing", "layer")})
	}
	for _, f := range of.Fasteners {
		rows = append(rows, lineRow{say(words.RunScrews), b.diameterOf(f.Name, f.Diameter),
			factsOf(layout.ScrewFacts(f.Name), "name", "diameter")})
	}
	return rows
}

// standRow says at what the chairs of a run stand: the row of joints names those at one.
func (b *book) standRow(of *plan.Run) lineRow {
	var names, parts []string
	marks := map[plan.ChairKind][]string{} // look-up only
	for _, c := range of.Chairs {
		names = append(names, layout.Named(c.Mark, "stands-at"))
		marks[c.Kind] = append(marks[c.Kind], fmt.Sprintf("C%d", c.N))
	}
	for _, k := range []struct {
		kind plan.ChairKind
		said words.Key
	}{{plan.ChairAtJoint, words.RunStandJoint}, {plan.ChairAtEnd, words.RunStandEnd}, {plan.ChairAtExpansion,
		words.RunStandExpansion}} {
		if m := marks[k.kind]; len(m) > 0 {
			if k.kind == plan.ChairAtJoint {
				parts = append(parts, b.say.Say(k.said))
				continue
			}
			parts = append(parts, b.say.Say(k.said, words.In("chairs", strings.Join(inRanges(m), ", "))))
		}
	}
	if len(marks[plan.ChairBetween]) > 0 {
		parts = append(parts, b.say.Say(words.RunStandBetween))
	}
	return lineRow{b.say.Say(words.RunStand), strings.Join(parts, "; "), layout.AllNamed(names...)}
}

// pilotsOf are the pilot depths of a run by the length of the screw, in order of it;
// false where screws of one length have several.
func pilotsOf(of *plan.Run) (long, deep []length.Length, ok bool) {
	for _, c := range of.Chairs {
		for _, w := range c.Rows {
			if w.Pilot == 0 || !w.Fits() {
				continue
			}
			i, has := slices.BinarySearch(long, w.Length)
			switch {
			case !has:
				long, deep = slices.Insert(long, i, w.Length), slices.Insert(deep, i, w.Pilot)
			case deep[i] != w.Pilot:
				return nil, nil, false
			}
		}
	}
	return long, deep, len(long) > 0
}

// pilotRow says how deep pilots are drilled, where that goes by the screw.
func (b *book) pilotRow(of *plan.Run) (lineRow, bool) {
	long, deep, ok := pilotsOf(of)
	if !ok {
		return lineRow{}, false
	}
	var parts, names []string
	for i := range long {
		parts = append(parts, b.say.Say(words.RunPilotFor, words.In("pilot", b.short(deep[i])),
			words.In("screw", b.exact(long[i]))))
	}
	for _, c := range of.Chairs {
		for i, w := range c.Rows {
			if w.Pilot != 0 {
				k := layout.ScrewsOf(i)
				names = append(names, factsOf(c.Mark, k+"-pilot", k+"-length"))
			}
		}
	}
	return lineRow{b.say.Say(words.RunPilot), strings.Join(parts, ", "), layout.AllNamed(names...)}, true
}

// inRanges are marks C1, C2, C3 as C1 to C3.
func inRanges(marks []string) []string {
	n := func(i int) (k int) {
		fmt.Sscanf(marks[i], "C%d", &k)
		return k
	}
	var out []string
	for i := 0; i < len(marks); {
		k := i
		for k+1 < len(marks) && n(k+1) == n(k)+1 {
			k++
		}
		switch {
		case k-i > 1:
			out = append(out, marks[i]+"–"+marks[k][1:])
		default:
			out = append(out, marks[i:k+1]...)
		}
		i = k + 1
	}
	return out
}

// gapTables give the gap to set by the temperature of the metal, and below it
// that of a building expansion joint, which is set as drawn.
func (b *book) gapTables(runs ...*layout.Run) []block {
	var out []block
	if t, ok := b.gapTable(runs...); ok {
		out = append(out, either{t, turned(t)})
	}
	say := b.say.Say
	t := table{title: say(words.RunLooseTitle), cols: []column{{head: say(words.RunLooseJoint)},
		{head: say(words.RunLooseGap), align: drawing.Right},
		{head: say(words.RunLoosePlate), align: drawing.Right}, {head: say(words.RunLooseSide)},
		{head: say(words.RunLooseMove), flex: true}}, whole: true, snug: true}
	for _, r := range runs {
		for _, q := range b.l.LooseJoints(r) {
			is := func(what string) string { return layout.Named(q.Mark, what) }
			move, moves := say(words.RunLooseUnstated), ""
			if q.Moves {
				move, moves = b.short(q.Movement), is("movement")
			}
			name := q.Mark
			if len(runs) == 1 {
				name = local(q.Mark, r.Name)
			}
			t.add(lettered{words: name}, lettered{b.short(q.Gap), is("gap")}, lettered{b.short(q.Plate), is("plate")},
				lettered{say(side(q, words.RunLooseLeft, words.RunLooseRight)), is("held")}, lettered{move, moves})
		}
	}
	if len(t.rows) > 0 {
		out = append(out, t)
	}
	return out
}

// gapClass is a gap at each temperature, and the joints it is of, of all runs of a
// sheet.
type gapClass struct {
	layout.GapClass
	names []string
}

// gapClasses are the gaps of the joints of runs on a grid.
func (b *book) gapClasses(runs []*layout.Run, grid length.Length) []gapClass {
	var out []gapClass
	for _, r := range runs {
		for _, c := range b.l.GapsTo(r, grid) {
			names := b.jointNames(c.Joints)
			if len(runs) > 1 {
				names = r.Name + " " + names
			}
			i := slices.IndexFunc(out, func(q gapClass) bool { return slices.Equal(q.At, c.At) })
			if i < 0 {
				out = append(out, gapClass{c, []string{names}})
				continue
			}
			out[i].Joints, out[i].names = slices.Concat(out[i].Joints, c.Joints), append(out[i].names, names)
		}
	}
	return out
}

// gapTable is the gap by temperature. Where the crew's step reads alike at all
// temperatures it takes half of it; where even that does, one line says so.
func (b *book) gapTable(runs ...*layout.Run) (table, bool) {
	temps := b.j.Site.InstallMetalT
	st := b.crew
	classes := b.gapClasses(runs, b.l.Grid)
	alike := func() bool { return !slices.ContainsFunc(classes, func(c gapClass) bool { return !c.Alike() }) }
	if len(classes) == 0 || len(temps) == 0 {
		return table{}, false
	}
	if len(temps) > 1 && slices.ContainsFunc(classes, func(c gapClass) bool { return c.Alike() }) {
		st = length.Style{Metric: b.metric, Denominator: 32, Places: 1}
		classes = b.gapClasses(runs, b.l.Grid/2)
	}
	t := table{title: b.say.Say(words.RunGapTitle), cols: []column{{head: b.say.Say(words.RunGapMetal)}}, whole: true,
		snug: true}
	for _, c := range classes {
		t.cols = append(t.cols, column{head: strings.Join(c.names, "; "), flex: true, align: drawing.Middle})
	}
	for i, temp := range temps {
		row := []lettered{{b.temperature(temp), factsOf("job", layout.InstallAt(i))}}
		at := []job.Temperature{temp}
		if alike() && len(temps) > 1 {
			row[0].words = b.say.Say(words.RunGapRange, words.In("from", row[0].words),
				words.In("to", b.temperature(temps[len(temps)-1])))
			row[0].names = factsOf("job", layout.InstallAt(0), layout.InstallAt(len(temps)-1))
			at = temps
		}
		for _, c := range classes {
			row = append(row, lettered{drawing.Letter(st.Short(c.At[i])), gapFacts(c.GapClass, at)})
		}
		t.add(row...)
		if alike() {
			break
		}
	}
	return t, true
}

// gapFacts names the gaps of the joints of a class at some temperatures.
func gapFacts(c layout.GapClass, at []job.Temperature) string {
	var names []string
	for _, j := range c.Joints {
		for _, t := range at {
			names = append(names, layout.Named(j.Name, layout.GapAt(t)))
		}
	}
	return layout.AllNamed(names...)
}

// jointNames lists joints of one run, neighbours as a range: J2 to J7, J9.
func (b *book) jointNames(joints []*layout.Joint) string {
	var out []string
	for i := 0; i < len(joints); {
		k := i
		for k+1 < len(joints) && follows(joints[k], joints[k+1]) {
			k++
		}
		a, z := local(joints[i].Name, joints[i].Run.Name), local(joints[k].Name, joints[k].Run.Name)
		switch k - i {
		case 0:
			out = append(out, a)
		case 1:
			out = append(out, a, z)
		default:
			out = append(out, b.span(a, z))
		}
		i = k + 1
	}
	return strings.Join(out, ", ")
}

// follows reports whether two joints of a run stand next to each other.
func follows(a, z *layout.Joint) bool {
	i := slices.Index(a.Run.Joints, a)
	return i >= 0 && i+1 < len(a.Run.Joints) && a.Run.Joints[i+1] == z
}
