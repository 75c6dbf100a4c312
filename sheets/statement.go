package sheets

import (
	"slices"
	"strings"

	"copingset/drawing/words"
)

// submittal is what a reviewer asks for, in the order in which it is read: the
// zones with their ratios, the sections as tested, the reports, the calculations,
// the statement, both inspections and room for stamps. before are the pages of
// the packet that stand ahead of it.
func (b *book) submittal(before []page) []page {
	rest := slices.Concat(
		b.assemblies(),
		b.testedSections(),
		b.reports(),
		b.basis(),
		b.materials(),
		b.statement(),
		b.checklist(),
		b.review(),
	)
	return append(b.transmittal(slices.Concat(before, rest)), rest...)
}

// statement is the page that says what the program computes and what others
// answer for, with room for the names and stamps of those who review it.
func (b *book) statement() []page {
	first := page{
		id:    b.id("statement"),
		title: b.say.Say(words.StatementTitle),
		kind:  Statement,
		paper: b.runs,
		holds: b.l.Holds(),
		about: b.say.Say(words.StatementAbout),
	}
	first.banner = b.holdWords(first.holds)
	blocks := []block{b.computedList(), b.othersList(), b.leftOutList(), b.partiesTable()}
	return b.pages(first, blocks, across)
}

// computedList is what the program answers for as far as a program can.
func (b *book) computedList() list {
	d := &b.l.Demand
	items := []string{
		b.say.Say(words.StatementDoesLayout), b.say.Say(words.StatementDoesAssembly),
		b.say.Say(words.StatementDoesWood), b.say.Say(words.StatementDoesCode),
	}
	switch {
	case d.ToConfirm():
		items = append(
			[]string{b.say.Say(words.StatementDoesPressuresOpen, words.In("edition", prose(d.Edition)))},
			items...)
	case d.Computed:
		items = append(
			[]string{
				b.say.Say(
					words.StatementDoesPressures, words.In("edition", prose(d.Edition)),
					words.In("confirmed-by", b.confirmedBy()),
				),
			},
			items...)
	case d.Check != nil:
		items = append(items, b.say.Say(words.StatementDoesBeside))
	}
	return list{title: b.say.Say(words.StatementDoes), items: items}
}

// othersList says who states what.
func (b *book) othersList() list {
	d := &b.l.Demand
	pressures := b.say.Say(words.StatementOthersUnstated)
	switch {
	case d.Stated:
		pressures = b.say.Say(
			words.StatementOthersStated, words.In("by", prose(d.By)), words.In("document", prose(d.Document)),
			words.In("stated-faces", b.statedFaces()),
		)
	case d.ToConfirm():
		pressures = b.say.Say(words.StatementOthersUnconfirmed, words.In("covered", b.covered()))
	case d.Computed:
		pressures = b.say.Say(
			words.StatementOthersConfirmed, words.In("confirmed-by", b.confirmedBy()),
			words.In("covered", b.covered()),
		)
	}
	items := []string{
		pressures, b.say.Say(words.StatementOthersTests), b.say.Say(words.StatementOthersFactor),
		b.say.Say(words.StatementOthersDimensions),
	}
	by := b.j.Site.MeasuredBy
	if by == "" {
		by = b.say.Say(words.StatementNotNamed)
	}
	items = append(
		items,
		b.say.Say(
			words.StatementOthersSurvey,
			words.In("by", strings.TrimSpace(prose(by)+" "+date(b.j.Site.MeasuredOn))),
		),
		b.say.Say(words.StatementOthersRest),
	)
	return list{title: b.say.Say(words.StatementOthers), items: items}
}

// covered says exactly what a confirmation of computed pressures is over.
func (b *book) covered() string {
	d := &b.l.Demand
	return b.say.Count(
		words.StatementCovered, len(d.List), words.In("n", itoa(len(d.List))),
		words.In("code", d.List.Code().String()),
	)
}

// statedFaces names the pressures that the engineer stated.
func (b *book) statedFaces() string {
	if b.l.Demand.RearKnown() {
		return b.say.Say(words.StatementFacesThree)
	}
	return b.say.Say(words.StatementFacesTwo)
}

// leftOutList is what nobody should suppose to be checked here.
func (b *book) leftOutList() list {
	items := []string{
		b.say.Say(words.StatementNotWall), b.say.Say(words.StatementNotSupports),
		b.say.Say(words.StatementNotPrying),
	}
	if d := &b.l.Demand; d.Known() && !d.RearKnown() {
		items = append(items, b.say.Say(words.StatementRearUnstated))
	}
	for _, phrase := range b.l.NotChecked() {
		items = append(items, prose(phrase))
	}
	return list{title: b.say.Say(words.StatementNot), items: items}
}

// partiesTable has a line to sign for each of those who answer.
func (b *book) partiesTable() table {
	t := table{
		title: b.say.Say(words.StatementSigns),
		cols: []column{
			b.flex(words.ColFor), {head: b.say.Say(words.ColName), least: 5000},
			{head: b.say.Say(words.ColLicenceFirm), least: 4000}, {head: b.say.Say(words.ColDate), least: 2400},
			{head: b.say.Say(words.ColSignature), least: 5000},
		},
		high:  900,
		whole: true,
	}
	t.rows = append(
		t.rows, []string{b.say.Say(words.StatementPrepared), prose(b.j.Info.PreparedBy), "", "", ""},
		[]string{b.say.Say(words.StatementChecked), prose(b.j.Info.CheckedBy), "", "", ""},
	)
	d := &b.l.Demand
	switch {
	case d.ToConfirm():
		t.rows = append(
			t.rows,
			[]string{b.say.Say(words.StatementSignsEngineer), b.say.Say(words.StatementSignsOpen), "", "", ""},
		)
	case d.Computed:
		t.rows = append(t.rows, []string{b.say.Say(words.StatementSignsEngineer), prose(d.Confirmed.By), "", "", ""})
	case d.Stated:
		t.rows = append(t.rows, []string{b.say.Say(words.StatementSignsPressures), prose(d.By), "", "", ""})
	}
	t.rows = append(t.rows, []string{b.say.Say(words.StatementSignsInspected), "", "", "", ""})
	return t
}
