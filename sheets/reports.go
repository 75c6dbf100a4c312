package sheets

import (
	"slices"
	"strconv"

	"copingset/drawing/words"
	"copingset/layout/assembly"
	"copingset/layout/job"
)

// reports is the list of the test reports: what each is, what it resists, and
// whose the factor on its as-pulled values is.
func (b *book) reports() []page {
	p := page{
		id:    b.id("reports"),
		title: b.say.Say(words.ReportsTitle),
		kind:  Reports,
		paper: b.runs,
		holds: b.l.Holds(),
		about: b.say.Say(words.ReportsAbout),
	}
	p.banner = b.holdWords(p.holds)
	least, source := assembly.LeastFactor()
	notes := []string{
		b.say.Say(words.ReportReadStated),
		b.say.Say(words.ReportReadPulled),
		b.say.Say(
			words.ReportReadLeast, words.In("factor", strconv.FormatFloat(least, 'f', 1, 64)),
			words.In("source", prose(source)),
		),
	}
	return b.pages(
		p,
		[]block{b.claimTable(), b.testTable(), b.factorTable(), list{title: b.say.Say(words.ReportRead), items: notes}},
		across,
	)
}

// claimTable letters what each report says of itself.
func (b *book) claimTable() table {
	unsaid := b.say.Say(words.ReportNotStated)
	t := table{
		title: b.say.Say(words.ReportTitle),
		cols: []column{
			b.col(words.ColReport), b.col(words.ColAssembly), b.flex(words.ColLaboratory),
			b.flex(words.ColAccreditation), b.col(words.ColDateReport), b.flex(words.ColTestStandard),
			b.col(words.ColEdition), b.col(words.ColMethod),
		},
		whole: true,
	}
	for _, a := range b.inUse() {
		q := a.Test
		if q == nil {
			q = &job.Test{}
		}
		row := []string{
			prose(a.Report), prose(a.Name), prose(a.Laboratory), prose(q.Accreditation), date(q.On),
			prose(q.Standard), prose(q.Edition), prose(q.Method),
		}
		for i := range row {
			if row[i] == "" {
				row[i] = unsaid
			}
		}
		t.rows = append(t.rows, row)
	}
	t.bold = func(row, col int) bool { return t.rows[row][col] == unsaid }
	return t
}

// factorTable letters whose the factors are; an allowable has its factor taken by
// its report.
func (b *book) factorTable() table {
	unsaid, nobody := b.say.Say(words.ReportNotStated), b.say.Say(words.ReportNobody)
	least, _ := assembly.LeastFactor()
	t := table{
		title: b.say.Say(words.ReportFactors),
		cols: []column{
			b.col(words.ColAssembly),
			b.right(words.ColFactor),
			b.col(words.ColDemands),
			b.right(words.ColAllowableLevel),
			b.flex(words.ColChosenBy),
			b.flex(words.ColWhy),
			{
				head: b.say.Say(words.ColUnderSigned, words.In("factor", strconv.FormatFloat(least, 'f', 1, 64))),
				flex: true,
			},
		},
		whole: true,
	}
	for _, a := range b.inUse() {
		if !assembly.Divided(a) {
			t.rows = append(t.rows, []string{
				prose(a.Name), b.say.Say(words.ReportTaken), "–", "–", b.say.Say(words.ReportTheReport),
				b.say.Say(words.ReportAllowable), "–",
			})
			continue
		}
		lv, by, why, signed := unsaid, unsaid, unsaid, "–"
		if f := a.FactorBasis; f != nil {
			lv, by, why = b.say.Say(words.ReportLevel, words.In("level", b.level(f.Level))), prose(f.By), prose(f.Why)
		}
		if !assembly.Enough(a) {
			signed = nobody
			if f := a.FactorSigned; f != nil && assembly.SignedFor(a) {
				signed = prose(
					b.say.Say(
						words.ReportSigned, words.In("by", f.By), words.In("document", f.Document),
						words.In("least", factorDigits(f.Factor)),
					),
				)
			}
		}
		t.rows = append(
			t.rows,
			[]string{prose(a.Name), factorDigits(a.Factor), lv, factorDigits(assembly.Factor(a)), by, why, signed},
		)
	}
	t.bold = func(row, col int) bool {
		return t.rows[row][col] == unsaid || t.rows[row][col] == nobody
	}
	return t
}

// factorOf letters the factor of as-pulled values with its level.
func (b *book) factorOf(a *job.Assembly) string {
	if f := a.FactorBasis; f != nil {
		return factorDigits(a.Factor) + ", " + b.level(f.Level)
	}
	return factorDigits(a.Factor)
}

// factorDigits letters a factor in as few places as it has, four at the most.
func factorDigits(v float64) string { return strconv.FormatFloat(v, 'g', 4, 64) }

// testTable letters the assemblies in use as their reports state them.
func (b *book) testTable() table {
	t := table{
		title: b.say.Say(words.ReportAssemblies),
		cols: []column{
			b.col(words.ColAssembly), b.flex(words.ColReport), b.flex(words.ColLaboratory),
			b.flex(words.ColMetal), b.flex(words.ColFrontLegMost), b.flex(words.ColRearLegMost),
			b.right(words.ColWidthTo), b.right(words.ColChairsAt), b.flex(words.ColFastenersChair),
			b.col(words.ColInto), b.right(words.ColUp), b.right(words.ColOut), b.right(words.ColRearLeg),
			b.flex(words.ColLevel), b.right(words.ColFactor), b.flex(words.ColArea),
		},
	}
	var seen []*job.Assembly
	for _, c := range b.l.AssemblyCases() {
		a := c.Choice.Assembly
		if a == nil || slices.Contains(seen, a) {
			continue
		}
		seen = append(seen, a)
		factor := b.factorOf(a)
		if a.Up.Level != job.AsPulled {
			factor = b.say.Say(words.ReportTaken)
		}
		lv := b.level(a.Up.Level)
		if a.Out.Level != a.Up.Level {
			lv = b.say.Say(words.ReportUpOut, words.In("up", lv), words.In("out", b.level(a.Out.Level)))
		}
		rear := b.say.Say(words.FasteningNotStated)
		if a.Rear.Pa > 0 {
			rear = b.pressure(a.Rear.Pa)
		}
		t.rows = append(t.rows, []string{
			prose(a.Name),
			prose(a.Report),
			orDash(prose(a.Laboratory)),
			b.say.Say(
				words.ReportMetal, words.In("metal", prose(a.Metal)),
				words.In("thickness-least", b.thick(a.ThicknessLeast)),
				words.In("thickness", b.thick(b.j.System.Metal.Thickness)),
			),
			b.testedLeg(a.FrontLegMost, b.j.System.FrontLeg),
			b.testedLeg(a.RearLegMost, b.j.System.RearLeg),
			b.exact(a.WidthMost),
			b.exact(a.ChairSpacing),
			b.say.Say(
				words.ReportRows, words.In("front-row", itoa(a.FrontRow)),
				words.In("rear-row", itoa(a.RearRow)), words.In("fastener", b.fastenerNamed(a.Fastener)),
			),
			a.Substrate,
			b.pressure(a.Up.Pa),
			b.pressure(a.Out.Pa),
			rear,
			lv,
			factor,
			orDash(prose(a.ReferenceArea)),
		})
	}
	return t
}
