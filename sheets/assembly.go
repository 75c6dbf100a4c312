package sheets

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wind"
)

// assemblies is the inspector's page: pressure asked for, assembly tested, and
// by whose word each stands.
func (b *book) assemblies() []page {
	first := page{id: b.id("assemblies"), title: "Schedule of zones: demand, resistance, ratio", kind: Assemblies, paper: b.runs, holds: b.l.Holds(),
		about: "Where the zones lie, the design pressure of each against the resistance of its tested assembly, and the limits of each test against the job."}
	first.banner = b.holdWords(first.holds)
	var blocks []block
	if b.l.Demand.ToConfirm() {
		blocks = append(blocks, b.large(toConfirm, true))
	}
	blocks = append(blocks, b.coverTable())
	if fails := b.failures(); len(fails) > 0 {
		blocks = append(blocks, list{title: "HOLD: why no assembly covers, and what would", items: fails})
	}
	if b.l.Demand.Known() {
		blocks = append(blocks, b.zoneLengths())
	}
	if b.l.Demand.Known() {
		blocks = append(blocks, b.chairLoads())
	}
	if t := b.turnedRows(); len(t.rows) > 0 {
		blocks = append(blocks, t)
	}
	blocks = append(blocks, b.limitTables()...)
	read := []string{
		"Pass: every limit of the test is met and the ratio, demand over resistance, the greatest of up, out and rear leg, is not over 1.00. Both are at the allowable level.",
		"An as-pulled ultimate is divided by the factor shown; an allowable has it taken already. Strength-level wind is brought to the allowable level by 0.6 (ASCE 7-10 and later, section 2.4).",
		"A piece that touches a zone takes that zone’s assembly whole. Chair spacing counts on the metal of one piece; round a miter, from hold-down to hold-down along the longer face.",
	}
	read = append(read, b.loadNotes()...)
	switch d := &b.l.Demand; {
	case d.RearKnown():
		read = append(read, "Rear leg: suction towards the roof is compared with what the report states of the rear leg, pulled with the top. Where it states nothing, the outward resistance is taken for it; what passes that is on hold.")
	case d.Known():
		read = append(read, rearUnstated)
	}
	blocks = append(blocks, list{title: "How to read this", items: read})
	return b.pages(first, blocks, across)
}

// coverTable compares at the allowable level, one row for each zone and
// assembly.
func (b *book) coverTable() table {
	t := table{title: "Demand and resistance by zone, at the allowable level", cols: []column{{head: "Zone"}, {head: "Runs", flex: true}, {head: "Assembly"}, {head: "Report, laboratory", flex: true},
		{head: "Up, demand", align: drawing.Right}, {head: "Up, resistance", align: drawing.Right}, {head: "Out, demand", align: drawing.Right}, {head: "Out, resistance", align: drawing.Right},
		{head: "Rear leg, demand", align: drawing.Right}, {head: "Rear leg, resistance", align: drawing.Right},
		{head: "Ratio", align: drawing.Right}, {head: "Limits of the test"}, {head: "Result"}, {head: "Demand: who answers", flex: true}}}
	who, _ := b.answers()
	if !b.l.Demand.Known() {
		who = "NOBODY YET: NOT STATED"
	}
	var held []bool
	for _, c := range b.l.AssemblyCases() {
		ch := c.Choice
		up, out, ratio := b.pressure(ch.UpDemand), b.pressure(ch.OutDemand), strconv.FormatFloat(ch.Ratio(), 'f', 2, 64)
		if !ch.Stated {
			up, out, ratio = "not known", "not known", "–"
		}
		rear, rearResists := "not stated", "–"
		if ch.RearKnown {
			rear, rearResists = b.pressure(ch.RearDemand), b.pressure(ch.RearResists)
		}
		name, report, limits := "none", "–", "–"
		if a := ch.Assembly; a != nil {
			name, report, limits = prose(a.Name), reportOf(a), "all met"
			for _, m := range b.l.Limits(c) {
				if !m.Passes {
					limits = notAll
				}
			}
		}
		result := "HOLD: no cover"
		switch {
		case ch.Covers && ch.Stated && limits == notAll:
			result = "HOLD: limits"
		case ch.Covers && ch.Stated && b.l.Demand.ToConfirm():
			result = "pass, HOLD: demand not confirmed"
		case ch.Covers && ch.Stated:
			result = "pass"
		case ch.Covers:
			result = "HOLD: demand not known"
		}
		held = append(held, result != "pass")
		t.rows = append(t.rows, []string{ch.Zone.String(), b.runNames(c.Runs), name, report, up, b.pressure(ch.UpResists), out, b.pressure(ch.OutResists), rear, rearResists, ratio, limits, result, who})
	}
	t.bold = func(row, col int) bool { return held[row] && col == 12 || col == 11 && t.rows[row][11] == notAll }
	return t
}

// notAll says that some limit of a test is passed over.
const notAll = "NOT ALL MET"

// reportOf names the report and the laboratory of an assembly.
func reportOf(a *job.Assembly) string {
	lab := "laboratory not named"
	if a.Laboratory != "" {
		lab = prose(a.Laboratory)
	}
	return prose(a.Report) + ", " + lab
}

// limitTables set the limits of each test against the job.
func (b *book) limitTables() []block {
	var out []block
	for _, c := range b.l.AssemblyCases() {
		if a := c.Choice.Assembly; a != nil {
			out = append(out, b.limitTable("Limits of the test: "+c.Choice.Zone.String()+" zone, "+b.someRuns(c.Runs)+", assembly "+prose(a.Name)+" (report "+prose(a.Report)+")", c))
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

func (b *book) limitTable(title string, c layout.AssemblyCase) table {
	a := c.Choice.Assembly
	t := table{title: title, cols: []column{{head: "Property", flex: true}, {head: "Report tests", flex: true}, {head: "This job", flex: true}, {head: "Result"}}, whole: true}
	var bad []bool
	for _, m := range b.l.Limits(c) {
		var what, tested, built string
		switch m.Kind {
		case layout.LimitMetal:
			what, tested, built = "Metal", m.TestedWords, m.HasWords
		case layout.LimitThickness:
			what, tested, built = "Thickness", b.thick(m.Tested)+" and up", b.thick(m.Built)
		case layout.LimitFrontLeg:
			what, tested, built = "Front leg to "+m.To.String(), "up to "+b.exactly(m.Tested), b.exactly(m.Built)
		case layout.LimitRearLeg:
			what, tested, built = "Rear leg to "+m.To.String(), "up to "+b.exactly(m.Tested), b.exactly(m.Built)
		case layout.LimitFrontCover:
			what, tested, built = "Front leg that covers the face, to "+m.To.String(), "up to "+b.exactly(m.Tested), b.exactly(m.Built)+" needed"
		case layout.LimitRearCover:
			what, tested, built = "Rear leg that covers the face, to "+m.To.String(), "up to "+b.exactly(m.Tested), b.exactly(m.Built)+" needed"
		case layout.LimitWidth:
			what, tested, built = "Inside width", "up to "+b.exactly(m.Tested), b.exactly(m.Built)
		case layout.LimitSpacing:
			what, tested, built = "Chair spacing", "up to "+b.exactly(m.Tested), b.shopText(m.Built)+" on the metal"
			if p := b.shopText(m.Pitch); p != b.shopText(m.Built) {
				built += ";\n" + p + " with the joint’s share"
			}
			if m.Built == 0 {
				built = "no two chairs on one piece"
			}
		case layout.LimitSubstrate:
			what, tested, built = "Holds in", m.TestedWords, m.HasWords
		case layout.LimitFasteners:
			what, tested = "Fasteners a chair", rowsOf(m.TestedCount)+"\n"+m.TestedWords
			built = rowsOf(m.HasCounts)
		}
		word := "pass"
		if !m.Passes {
			word = "NO: HOLD"
		}
		bad = append(bad, !m.Passes)
		t.rows = append(t.rows, []string{prose(what), prose(tested), prose(built), word})
	}
	res := func(p job.Pressure) string {
		phrase := b.pressure(p.Pa) + " " + level(p.Level)
		if p.Level == job.AsPulled {
			phrase += "\nfactor " + factorOf(a)
		}
		return phrase
	}
	ch := c.Choice
	pressure := func(what string, p job.Pressure, demand, resists float64, passes bool) {
		built, word := b.pressure(demand)+" of "+b.pressure(resists)+", allowable", "pass"
		if !ch.Stated {
			built, word = "demand not known", "HOLD"
		} else if !passes {
			word = "NO: HOLD"
		} else if b.l.Demand.ToConfirm() {
			word = "HOLD: not confirmed"
		}
		bad = append(bad, word != "pass")
		t.rows = append(t.rows, []string{what, res(p), built, word})
	}
	pressure("Up on the top", a.Up, ch.UpDemand, ch.UpResists, ch.UpPasses())
	pressure("Out on the front leg", a.Out, ch.OutDemand, ch.OutResists, ch.OutPasses())
	switch {
	case ch.RearKnown && a.Rear.Pa > 0:
		pressure("Rear leg, to the roof", a.Rear, ch.RearDemand, ch.RearResists, ch.RearPasses())
	case ch.RearKnown:
		pressure("Rear leg, to the roof; not stated, the outward one is taken", a.Out, ch.RearDemand, ch.RearResists, ch.RearPasses())
	case ch.Stated:
		bad = append(bad, false)
		t.rows = append(t.rows, []string{"Rear leg, to the roof", "–", "no pressure stated", "not compared"})
	}
	t.bold = func(row, col int) bool { return bad[row] && col == 3 }
	return t
}

func rowsOf(n [2]int) string { return itoa(n[0]) + " front, " + itoa(n[1]) + " rear" }

// someRuns names runs in a sentence.
func (b *book) someRuns(runs []*layout.Run) string {
	switch names := b.runNames(runs); {
	case names == "all":
		return "all runs"
	case len(runs) == 1:
		return "run " + names
	default:
		return "runs " + names
	}
}

func (b *book) runNames(runs []*layout.Run) string {
	if len(runs) == len(b.l.Runs()) && len(runs) > 1 {
		return "all"
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
	return b.exact(most.Length) + " to " + most.To.String() + " (job: " + b.exact(has(most.To)) + ")"
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
		where := "The " + c.Choice.Zone.String() + " zone of " + b.someRuns(c.Runs)
		out = append(out, where+" has no cover: "+strings.Join(c.Choice.Fails, "; ")+".")
		would := fmt.Sprintf("%s would be covered by a report on %s of %s or thinner, front leg %s or more to %s and rear leg %s or more to %s, inside width %s or more, fastened into %s",
			where, s.Metal.Name, b.thick(s.Metal.Thickness), b.exactly(s.FrontFoot()), s.Profile.Drip.Foot(), b.exactly(s.RearFoot()), s.Profile.RearHook.Foot(), b.exactly(inside), strings.Join(into, " or "))
		if d := &b.l.Demand; d.Known() {
			z := c.Choice.Zone
			up, o := b.pressure(wind.AllowablePa(d.Up[z])), b.pressure(wind.AllowablePa(d.Out[z]))
			rear := ""
			if d.RearKnown() {
				rear = " and " + b.pressure(wind.AllowablePa(d.Rear[z])) + " on the rear leg pulled with the top"
			}
			would += ", that resists " + up + " up and " + o + " out" + rear + " at the allowable level (as pulled: that many times the factor asked)"
		}
		out = append(out, would+".")
	}
	return out
}
