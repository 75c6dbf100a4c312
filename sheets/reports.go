package sheets

import (
	"slices"
	"strconv"

	"copingset/drawing"
	"copingset/layout/assembly"
	"copingset/layout/job"
)

// notStated stands for what a submittal has to say and the job does not.
const notStated = "NOT STATED: HOLD"

// nobodySigned stands for the engineer whom a low factor has to have.
const nobodySigned = "NOBODY: HOLD"

// reports is the list of the test reports: what each is, what it resists, and
// whose the factor on its as-pulled values is.
func (b *book) reports() []page {
	p := page{id: b.id("reports"), title: "Test reports and factors", kind: Reports, paper: b.runs, holds: b.l.Holds(),
		about: "Of each tested assembly in use: report, laboratory and accreditation, test standard and method, what it resists, and the factor on as-pulled values."}
	p.banner = b.holdWords(p.holds)
	least, source := assembly.LeastFactor()
	notes := []string{
		"All of this is as the job file states the reports. The program did not read them: they go with the submittal, and the reviewer holds them against these lines.",
		"An as-pulled value is divided by its factor. A factor for demands at strength level is brought to the allowable level by 0.6: 1.2 at strength level is 2.0 at the allowable.",
		"A factor under " + strconv.FormatFloat(least, 'f', 1, 64) + " at the allowable level is a hold until the named engineer signs for it. Source: " + prose(source) + ".",
	}
	return b.pages(p, []block{b.claimTable(), b.testTable(), b.factorTable(), list{title: "How to read this", items: notes}}, across)
}

// claimTable letters what each report says of itself.
func (b *book) claimTable() table {
	t := table{title: "Test reports of the assemblies in use", cols: []column{{head: "Report"}, {head: "Assembly"}, {head: "Laboratory", flex: true}, {head: "Accreditation", flex: true}, {head: "Date of the report"},
		{head: "Test standard", flex: true}, {head: "Edition"}, {head: "Method"}}, whole: true}
	for _, a := range b.inUse() {
		q := a.Test
		if q == nil {
			q = &job.Test{}
		}
		row := []string{prose(a.Report), prose(a.Name), prose(a.Laboratory), prose(q.Accreditation), date(q.On), prose(q.Standard), prose(q.Edition), prose(q.Method)}
		for i := range row {
			if row[i] == "" {
				row[i] = notStated
			}
		}
		t.rows = append(t.rows, row)
	}
	t.bold = func(row, col int) bool { return t.rows[row][col] == notStated }
	return t
}

// factorTable letters whose the factors are; an allowable has its factor taken by
// its report.
func (b *book) factorTable() table {
	least, _ := assembly.LeastFactor()
	t := table{title: "Factors on as-pulled values", cols: []column{{head: "Assembly"}, {head: "Factor", align: drawing.Right}, {head: "For demands at"}, {head: "At the allowable level", align: drawing.Right},
		{head: "Chosen by", flex: true}, {head: "Why", flex: true}, {head: "Under " + strconv.FormatFloat(least, 'f', 1, 64) + ", signed by", flex: true}}, whole: true}
	for _, a := range b.inUse() {
		if !assembly.Divided(a) {
			t.rows = append(t.rows, []string{prose(a.Name), "taken", "–", "–", "the report", "its values are allowable", "–"})
			continue
		}
		lv, by, why, signed := notStated, notStated, notStated, "–"
		if f := a.FactorBasis; f != nil {
			lv, by, why = level(f.Level)+" level", prose(f.By), prose(f.Why)
		}
		if !assembly.Enough(a) {
			signed = nobodySigned
			if f := a.FactorSigned; f != nil && assembly.SignedFor(a) {
				signed = prose(f.By + ", " + f.Document + ", for " + factorDigits(f.Factor) + " and over")
			}
		}
		t.rows = append(t.rows, []string{prose(a.Name), factorDigits(a.Factor), lv, factorDigits(assembly.Factor(a)), by, why, signed})
	}
	t.bold = func(row, col int) bool {
		return t.rows[row][col] == notStated || t.rows[row][col] == nobodySigned
	}
	return t
}

// factorOf letters the factor of as-pulled values with its level.
func factorOf(a *job.Assembly) string {
	phrase := factorDigits(a.Factor)
	if f := a.FactorBasis; f != nil {
		phrase += ", " + level(f.Level)
	}
	return phrase
}

// factorDigits letters a factor in as few places as it has, four at the most.
func factorDigits(v float64) string { return strconv.FormatFloat(v, 'g', 4, 64) }

// testTable letters the assemblies in use as their reports state them.
func (b *book) testTable() table {
	t := table{title: "Tested assemblies in use, as their reports state them", cols: []column{{head: "Assembly"}, {head: "Report", flex: true}, {head: "Laboratory", flex: true}, {head: "Metal", flex: true}, {head: "Front leg, at most", flex: true}, {head: "Rear leg, at most", flex: true}, {head: "Width to", align: drawing.Right},
		{head: "Chairs at", align: drawing.Right}, {head: "Fasteners a chair", flex: true}, {head: "Into"}, {head: "Up", align: drawing.Right}, {head: "Out", align: drawing.Right}, {head: "Rear leg", align: drawing.Right}, {head: "Level", flex: true}, {head: "Factor", align: drawing.Right}, {head: "Area", flex: true}}}
	var seen []*job.Assembly
	for _, c := range b.l.AssemblyCases() {
		a := c.Choice.Assembly
		if a == nil || slices.Contains(seen, a) {
			continue
		}
		seen = append(seen, a)
		factor := factorOf(a)
		if a.Up.Level != job.AsPulled {
			factor = "taken"
		}
		lv := level(a.Up.Level)
		if a.Out.Level != a.Up.Level {
			lv = "up " + lv + ", out " + level(a.Out.Level)
		}
		rear := "not stated"
		if a.Rear.Pa > 0 {
			rear = b.pressure(a.Rear.Pa)
		}
		t.rows = append(t.rows, []string{prose(a.Name), prose(a.Report), orDash(prose(a.Laboratory)), prose(a.Metal) + ", " + b.thick(a.ThicknessLeast) + " and up (job: " + b.thick(b.j.System.Metal.Thickness) + ")",
			b.testedLeg(a.FrontLegMost, b.j.System.FrontLeg), b.testedLeg(a.RearLegMost, b.j.System.RearLeg), b.exact(a.WidthMost), b.exact(a.ChairSpacing),
			itoa(a.FrontRow) + " front, " + itoa(a.RearRow) + " rear: " + b.fastenerNamed(a.Fastener), a.Substrate, b.pressure(a.Up.Pa), b.pressure(a.Out.Pa), rear, lv, factor, orDash(prose(a.ReferenceArea))})
	}
	return t
}
