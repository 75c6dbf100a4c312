package sheets

import (
	"slices"
	"strings"
)

// submittal is what a reviewer asks for, in the order in which it is read: the
// zones with their ratios, the sections as tested, the reports, the calculations,
// the statement, both inspections and room for stamps. before are the pages of
// the packet that stand ahead of it.
func (b *book) submittal(before []page) []page {
	rest := slices.Concat(b.assemblies(), b.testedSections(), b.reports(), b.basis(), b.materials(), b.statement(), b.checklist(), b.review())
	return append(b.transmittal(slices.Concat(before, rest)), rest...)
}

// statement is the page that says what the program computes and what others
// answer for, with room for the names and stamps of those who review it.
func (b *book) statement() []page {
	first := page{id: b.id("statement"), title: "Statement", kind: Statement, paper: b.runs, holds: b.l.Holds(),
		about: "What is computed by the program, what is stated or done by others, what is left out, and who signs for it."}
	first.banner = b.holdWords(first.holds)
	blocks := []block{b.computedList(), b.othersList(), b.leftOutList(), b.partiesTable()}
	return b.pages(first, blocks, across)
}

// computedList is what the program answers for as far as a program can.
func (b *book) computedList() list {
	d := &b.l.Demand
	items := []string{
		"Lines, widths, set surface, packing and shim zones from the survey; pieces, joints, chairs and their stations; stock length of each fastener; gaps by metal temperature; weights and counts.",
		"Which tested assembly covers a zone, by comparing the limits and the resistances that the reports state, and the bringing of both sides to the allowable level.",
		"The cross-check of screws in wood and the spacing of nailer anchors by both cases of a parapet, where the job states what they need. They stand beside the tests and replace none.",
		"The code checks listed in this packet, and no others.",
	}
	switch {
	case d.ToConfirm():
		items = append([]string{"THE DESIGN PRESSURES, from the wind section of the job, by " + prose(d.Edition) + ". NOBODY HAS CONFIRMED THEM: they are to be confirmed by a licensed engineer, and every piece is on hold until then."}, items...)
	case d.Computed:
		items = append([]string{"The design pressures, from the wind section of the job, by " + prose(d.Edition) + "; confirmed by " + b.confirmedBy() + ", as said under “Stated or done by others”."}, items...)
	case d.Check != nil:
		items = append(items, "Pressures computed beside the stated ones, as a check alone.")
	}
	return list{title: "Computed by the program", items: items}
}

// othersList says who states what.
func (b *book) othersList() list {
	d := &b.l.Demand
	pressures := "Design pressures: NOT STATED. The engineer of record is to state them."
	switch {
	case d.Stated:
		pressures = "Design pressures: " + prose(d.By) + ", " + prose(d.Document) + ". Stated are, for edge and corner, the pressures " + b.statedFaces() +
			" with their levels, the length of the corner zone and the turns that begin one. They are lettered as stated; where the zones lie on the runs follows from them and from the survey."
	case d.ToConfirm():
		pressures = "Confirmation of the computed pressures by a licensed engineer: NOT GIVEN. It is asked for the " + b.covered() + "."
	case d.Computed:
		pressures = "Confirmation of the computed pressures: " + b.confirmedBy() + ". It covers the " + b.covered() + ". It covers nothing else in this packet."
	}
	items := []string{
		pressures,
		"Resistances and limits of the assemblies: the laboratories, by the reports named. The reports themselves were not read by the program; the job file states what they say.",
		"The factor on as-pulled values: whoever the list of reports names as having chosen it.",
		"Dimensions of the coping system, materials and fasteners: the fabricator, as the job file states them.",
	}
	by := b.j.Site.MeasuredBy
	if by == "" {
		by = "not named"
	}
	items = append(items, "Survey: "+strings.TrimSpace(prose(by)+" "+date(b.j.Site.MeasuredOn))+".",
		"By others: the wall, its nailers and the strength of what anchors them, the roofing and its base flashing, sealed collars, and what lies below the layer the fasteners hold in.")
	return list{title: "Stated or done by others", items: items}
}

// covered says exactly what a confirmation of computed pressures is over.
func (b *book) covered() string {
	d := &b.l.Demand
	return plural(len(d.List), "line") + " of the list with check code " + d.List.Code().String() + ": every input of the wind section, every value of the basis of design that follows from it, " +
		"up to the pressures on each face at both levels and the length of the corner zone, and of each run the corner zones at its ends and its wall line, rounded"
}

// statedFaces names the pressures that the engineer stated.
func (b *book) statedFaces() string {
	if b.l.Demand.RearKnown() {
		return "up on the top, out on the front leg and to the roof on the rear leg"
	}
	return "up on the top and out on the front leg, and none on the rear leg"
}

// leftOutList is what nobody should suppose to be checked here.
func (b *book) leftOutList() list {
	items := []string{
		"The parapet as a wall, the roof, and every load but wind on the coping.",
		"Supports under corner miters and their fastening, cover plates of expansion joints, end caps and wall ends, as far as strength goes: they are the fabricator’s.",
		"Prying at chairs, and the bending of the metal between them: they are in the tests.",
	}
	if d := &b.l.Demand; d.Known() && !d.RearKnown() {
		items = append(items, rearUnstated)
	}
	for _, phrase := range b.l.NotChecked() {
		items = append(items, prose(phrase))
	}
	return list{title: "Not checked here", items: items}
}

// partiesTable has a line to sign for each of those who answer.
func (b *book) partiesTable() table {
	t := table{title: "Signed for", cols: []column{{head: "For", flex: true}, {head: "Name", least: 5000}, {head: "Licence or firm", least: 4000}, {head: "Date", least: 2400}, {head: "Signature", least: 5000}}, high: 900, whole: true}
	t.rows = append(t.rows, []string{"Prepared", prose(b.j.Info.PreparedBy), "", "", ""}, []string{"Checked", prose(b.j.Info.CheckedBy), "", "", ""})
	d := &b.l.Demand
	switch {
	case d.ToConfirm():
		t.rows = append(t.rows, []string{"Design pressures, licensed engineer", "NOT CONFIRMED YET", "", "", ""})
	case d.Computed:
		t.rows = append(t.rows, []string{"Design pressures, licensed engineer", prose(d.Confirmed.By), "", "", ""})
	case d.Stated:
		t.rows = append(t.rows, []string{"Design pressures", prose(d.By), "", "", ""})
	}
	t.rows = append(t.rows, []string{"Inspected on the roof", "", "", "", ""})
	return t
}

// rearUnstated stands where no pressure on the rear leg can be compared.
const rearUnstated = "The rear leg: the stated pressures give none for it, so nothing is compared with what the assemblies resist there. See that the report’s pull took the rear leg together with the top."
