package sheets

import (
	"slices"
	"strconv"
	"strings"

	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wind"
)

// assemblies is the inspector's page: pressure asked for, assembly tested, and
// by whose word each stands.
func (b *book) assemblies() []page {
	first := page{
		id:    b.id("assemblies"),
		title: b.say.Say(words.AssembliesTitle),
		kind:  Assemblies,
		paper: b.runs,
		holds: b.l.Holds(),
		about: b.say.Say(words.AssembliesAbout),
	}
	first.banner = b.holdWords(first.holds)
	var blocks []block
	if b.l.Demand.ToConfirm() {
		blocks = append(blocks, b.large(b.say.Say(words.BasisToConfirm), true, ""))
	}
	blocks = append(blocks, b.coverTable())
	if fails := b.failures(); len(fails) > 0 {
		blocks = append(blocks, list{title: b.say.Say(words.AssemblyUncovered), items: fails})
	}
	if b.l.Demand.Known() {
		blocks = append(blocks, namedBlock(b.zoneLengths(), b.zoneLengthNames()))
	}
	if b.l.Demand.Known() {
		blocks = append(blocks, b.chairLoads())
	}
	if t := b.turnedRows(); len(t.rows) > 0 {
		blocks = append(blocks, t)
	}
	if t := b.seatRows(); len(t.rows) > 0 {
		blocks = append(blocks, t)
	}
	blocks = append(blocks, b.limitTables()...)
	read := []string{
		b.say.Say(words.AssemblyReadPass), b.say.Say(words.AssemblyReadPulled), b.say.Say(words.AssemblyReadZone),
	}
	read = append(read, b.loadNotes()...)
	switch d := &b.l.Demand; {
	case d.RearKnown():
		read = append(read, b.say.Say(words.AssemblyReadRear))
	case d.Known():
		read = append(read, b.say.Say(words.StatementRearUnstated))
	}
	blocks = append(blocks, list{title: b.say.Say(words.AssemblyRead), items: read})
	return b.pages(first, blocks, across)
}

// coverTable compares at the allowable level, one row for each zone and
// assembly.
func (b *book) coverTable() table {
	t := table{
		title: b.say.Say(words.AssemblyCovers),
		cols: []column{
			b.col(words.ColZone), b.flex(words.ColRuns), b.col(words.ColAssembly),
			b.flex(words.ColReportLaboratory), b.right(words.ColUpDemand), b.right(words.ColUpResistance),
			b.right(words.ColOutDemand), b.right(words.ColOutResistance), b.right(words.ColRearLegDemand),
			b.right(words.ColRearLegResistance), b.right(words.ColRatio), b.col(words.ColLimitsTest),
			b.col(words.ColResult), b.flex(words.ColDemandWhoAnswers),
		},
	}
	who, _ := b.answers()
	if !b.l.Demand.Known() {
		who = b.say.Say(words.AssemblyNobody)
	}
	var held []bool
	for _, c := range b.l.AssemblyCases() {
		ch := c.Choice
		up, out, ratio := b.pressure(ch.UpDemand), b.pressure(ch.OutDemand), strconv.FormatFloat(ch.Ratio(), 'f', 2, 64)
		if !ch.Stated {
			up, out, ratio = b.say.Say(words.AssemblyNotKnown), b.say.Say(words.AssemblyNotKnown), "–"
		}
		rear, rearResists := b.say.Say(words.AssemblyNotStated), "–"
		if ch.RearKnown {
			rear, rearResists = b.pressure(ch.RearDemand), b.pressure(ch.RearResists)
		}
		name, report, limits := b.say.Say(words.AssemblyNone), "–", "–"
		if a := ch.Assembly; a != nil {
			name, report, limits = prose(a.Name), b.reportOf(a), b.say.Say(words.AssemblyAllMet)
			for _, m := range b.l.Limits(c) {
				if !m.Passes {
					limits = b.say.Say(words.AssemblyNotAll)
				}
			}
		}
		result := b.say.Say(words.AssemblyHoldNoCover)
		switch {
		case ch.Covers && ch.Stated && limits == b.say.Say(words.AssemblyNotAll):
			result = b.say.Say(words.AssemblyHoldLimits)
		case ch.Covers && ch.Stated && b.l.Demand.ToConfirm():
			result = b.say.Say(words.AssemblyPassUnconfirmed)
		case ch.Covers && ch.Stated:
			result = b.say.Say(words.AssemblyPass)
		case ch.Covers:
			result = b.say.Say(words.AssemblyHoldUnknown)
		}
		held = append(held, result != b.say.Say(words.AssemblyPass))
		t.rows = append(t.rows, []string{
			b.zoneName(ch.Zone), b.runNames(c.Runs), name, report, up, b.pressure(ch.UpResists), out,
			b.pressure(ch.OutResists), rear, rearResists, ratio, limits, result, who,
		})
	}
	t.bold = func(row, col int) bool {
		return held[row] && col == 12 || col == 11 && t.rows[row][11] == b.say.Say(words.AssemblyNotAll)
	}
	return t
}

// reportOf names the report and the laboratory of an assembly.
func (b *book) reportOf(a *job.Assembly) string {
	lab := b.say.Say(words.AssemblyNoLaboratory)
	if a.Laboratory != "" {
		lab = prose(a.Laboratory)
	}
	return prose(a.Report) + ", " + lab
}

// limitTables set the limits of each test against the job.
func (b *book) limitTables() []block {
	var out []block
	for i, c := range b.l.AssemblyCases() {
		if a := c.Choice.Assembly; a != nil {
			out = append(
				out,
				b.limitTable(
					b.say.Say(
						words.AssemblyLimits, words.In("zone", b.zoneName(c.Choice.Zone)),
						words.In("runs", b.someRuns(c.Runs)), words.In("name", prose(a.Name)),
						words.In("report", prose(a.Report)),
					),
					layout.FactOfCase(i), c,
				),
			)
		}
	}
	var pairs []block
	for i := 0; i < len(out); i += 2 {
		if i+1 == len(out) {
			pairs = append(pairs, out[i])
			continue
		}
		pairs = append(pairs, pair{out[i].(table), out[i+1].(table)})
	}
	return pairs
}

func (b *book) limitTable(title, of string, c layout.AssemblyCase) table {
	t := table{
		title: title,
		cols: []column{
			b.flex(words.ColProperty), b.flex(words.ColReportTests), b.flex(words.ColThisJob),
			b.col(words.ColResult),
		},
		whole: true,
	}
	var bad []bool
	for _, m := range b.l.Limits(c) {
		what, tested, built := b.limitRow(m)
		word := b.say.Say(words.AssemblyPass)
		if !m.Passes {
			word = b.say.Say(words.AssemblyNoHold)
		}
		bad = append(bad, !m.Passes)
		t.rows = append(t.rows, []string{prose(what), prose(tested), prose(built), word})
		t.names = append(t.names, testLimitNames(of, m))
	}
	for _, r := range b.pressureRows(c) {
		bad = append(bad, !r.passes)
		t.rows = append(t.rows, r.row)
	}
	t.bold = func(row, col int) bool { return bad[row] && col == 3 }
	return t
}

// limitRow letters a limit of a test: what it is of, what was tested, what is built.
func (b *book) limitRow(m layout.Limit) (what, tested, built string) {
	upTo := b.say.Say(words.AssemblyUpTo, words.In("tested", b.exactly(m.Tested)))
	needed := b.say.Say(words.AssemblyNeeded, words.In("built", b.exactly(m.Built)))
	to := words.In("to", b.measureName(m.To))
	switch m.Kind {
	case layout.LimitMetal:
		return b.say.Say(words.AssemblyMetal), m.TestedWords, m.HasWords
	case layout.LimitThickness:
		up := b.say.Say(words.AssemblyAndUp, words.In("tested", b.thick(m.Tested)))
		return b.say.Say(words.AssemblyThickness), up, b.thick(m.Built)
	case layout.LimitFrontLeg:
		return b.say.Say(words.AssemblyFrontLeg, to), upTo, b.exactly(m.Built)
	case layout.LimitRearLeg:
		return b.say.Say(words.AssemblyRearLeg, to), upTo, b.exactly(m.Built)
	case layout.LimitFrontCover:
		return b.say.Say(words.AssemblyFrontLegCovers, to), upTo, needed
	case layout.LimitRearCover:
		return b.say.Say(words.AssemblyRearLegCovers, to), upTo, needed
	case layout.LimitWidth:
		return b.say.Say(words.AssemblyInsideWidth), upTo, b.exactly(m.Built)
	case layout.LimitSpacing:
		return b.say.Say(words.AssemblyChairSpacing), upTo, b.spacingBuilt(m)
	case layout.LimitSubstrate:
		return b.say.Say(words.AssemblyHoldsIn), m.TestedWords, m.HasWords
	case layout.LimitFasteners:
		return b.say.Say(words.AssemblyFastenersChair), b.rowsOf(
			m.TestedCount,
		) + "\n" + m.TestedWords, b.rowsOf(m.HasCounts)
	}
	return "", "", ""
}

// spacingBuilt letters how far apart chairs stand on the metal, and across a joint
// where that is farther.
func (b *book) spacingBuilt(m layout.Limit) string {
	metal, across := b.shopText(m.Built), b.shopText(m.Pitch)
	switch {
	case m.Built == 0:
		return b.say.Say(words.AssemblyNoTwoChairs)
	case across != metal:
		return b.say.Say(words.AssemblySpacingAcross, words.In("metal", metal), words.In("across", across))
	}
	return b.say.Say(words.AssemblySpacing, words.In("built", metal))
}

// judged is a row of a table that says whether it passes.
type judged struct {
	row    []string
	passes bool
}

// pressureRows set what an assembly resists against what is asked of it.
func (b *book) pressureRows(c layout.AssemblyCase) []judged {
	a, ch := c.Choice.Assembly, c.Choice
	resistance := func(p job.Pressure) string {
		at := b.pressure(p.Pa) + " " + b.level(p.Level)
		if p.Level == job.AsPulled {
			return b.say.Say(words.AssemblyFactor, words.In("resistance", at), words.In("factor", b.factorOf(a)))
		}
		return at
	}
	var out []judged
	add := func(what words.Key, p job.Pressure, demand, resists float64, passes bool) {
		asked := words.In("demand", b.pressure(demand))
		built := b.say.Say(words.AssemblyOfAllowable, asked, words.In("resists", b.pressure(resists)))
		word, good := b.say.Say(words.AssemblyPass), false
		switch {
		case !ch.Stated:
			built, word = b.say.Say(words.AssemblyDemandNotKnown), b.say.Say(words.AssemblyHold)
		case !passes:
			word = b.say.Say(words.AssemblyNoHold)
		case b.l.Demand.ToConfirm():
			word = b.say.Say(words.AssemblyHoldNotConfirmed)
		default:
			good = true
		}
		out = append(out, judged{[]string{b.say.Say(what), resistance(p), built, word}, good})
	}
	add(words.AssemblyUpTop, a.Up, ch.UpDemand, ch.UpResists, ch.UpPasses())
	add(words.AssemblyOutFrontLeg, a.Out, ch.OutDemand, ch.OutResists, ch.OutPasses())
	switch {
	case ch.RearKnown && a.Rear.Pa > 0:
		add(words.AssemblyRearLegRoof, a.Rear, ch.RearDemand, ch.RearResists, ch.RearPasses())
	case ch.RearKnown:
		add(words.AssemblyRearLegRoofOut, a.Out, ch.RearDemand, ch.RearResists, ch.RearPasses())
	case ch.Stated:
		none, word := b.say.Say(words.AssemblyNoPressureStated), b.say.Say(words.AssemblyNotCompared)
		out = append(out, judged{[]string{b.say.Say(words.AssemblyRearLegRoof), "–", none, word}, true})
	}
	return out
}

// rowsOf letters the screws of a chair's two rows.
func (b *book) rowsOf(n [2]int) string {
	return b.say.Say(words.AssemblyRows, words.In("street", itoa(n[0])), words.In("roof", itoa(n[1])))
}

// someRuns names runs in a sentence.
func (b *book) someRuns(runs []*layout.Run) string {
	switch names := b.runNames(runs); {
	case names == b.say.Say(words.AssemblyAll):
		return b.say.Say(words.AssemblyAllRuns)
	case len(runs) == 1:
		return b.say.Say(words.AssemblyRun, words.In("names", names))
	default:
		return b.say.Say(words.AssemblyRuns, words.In("names", names))
	}
}

func (b *book) runNames(runs []*layout.Run) string {
	if len(runs) == len(b.l.Runs()) && len(runs) > 1 {
		return b.say.Say(words.AssemblyAll)
	}
	var names []string
	for _, r := range runs {
		names = append(names, b.runHead(r))
	}
	return strings.Join(names, ", ")
}

// testedLeg is the highest leg of a report beside the job's, both by the report's
// measure.
func (b *book) testedLeg(most job.Leg, has func(job.LegMeasure) length.Length) string {
	return b.say.Say(
		words.AssemblyLegTested, words.In("length", b.exact(most.Length)), words.In("to", b.measureName(most.To)),
		words.In("to2", b.exact(has(most.To))),
	)
}

// fastenerNamed is a fastener of the job with its diameter, or the name alone
// of one that the job does not describe.
func (b *book) fastenerNamed(name string) string {
	for i := range b.j.Fasteners {
		if b.j.Fasteners[i].Name == name {
			return b.screwName(&b.j.Fasteners[i])
		}
	}
	return prose(name)
}

// failures say of each zone without cover why each assembly fails, and what a
// test would have to show.
func (b *book) failures() []string {
	var out []string
	s := &b.j.System
	for _, c := range b.l.AssemblyCases() {
		if c.Choice.Covers {
			continue
		}
		var inside length.Length
		var into []string
		for _, r := range c.Runs {
			inside = length.Max(inside, r.Inside)
			for _, y := range r.Wall.Layers {
				if !slices.Contains(into, y.Material) {
					into = append(into, y.Material)
				}
			}
		}
		where := b.say.Say(
			words.AssemblyZoneOf, words.In("zone", b.zoneName(c.Choice.Zone)),
			words.In("runs", b.someRuns(c.Runs)),
		)
		out = append(
			out,
			b.say.Say(
				words.AssemblyHasNoCover, words.In("where", where),
				words.In("fails", strings.Join(c.Choice.Fails, "; ")),
			),
		)
		would := b.say.Say(
			words.AssemblyWould, words.In("where", where), words.In("name", s.Metal.Name),
			words.In("thickness", b.thick(s.Metal.Thickness)), words.In("front-foot", b.exactly(s.FrontFoot())),
			words.In("foot", b.measureName(s.Profile.Drip.Foot())),
			words.In("rear-foot", b.exactly(s.RearFoot())),
			words.In("foot2", b.measureName(s.Profile.RearHook.Foot())), words.In("inside", b.exactly(inside)),
			words.In("into", strings.Join(into, ", ")),
		)
		if d := &b.l.Demand; d.Known() {
			z := c.Choice.Zone
			up, o := b.pressure(wind.AllowablePa(d.Up[z])), b.pressure(wind.AllowablePa(d.Out[z]))
			resists := b.say.Say(words.AssemblyWouldResist, words.In("up", up), words.In("out", o))
			if d.RearKnown() {
				resists = b.say.Say(
					words.AssemblyWouldResistRear, words.In("up", up), words.In("out", o),
					words.In("roof", b.pressure(wind.AllowablePa(d.Rear[z]))),
				)
			}
			would += " " + resists
		}
		out = append(out, would)
	}
	return out
}
