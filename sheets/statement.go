package sheets

import (
	"slices"
	"strings"

	"copingset/drawing"
)

// submittal is what an inspector asks for, in the order in which it is read.
func (b *book) submittal() []page {
	return slices.Concat(b.basis(), b.assemblies(), b.testedSections(), b.materials(), b.checklist(), b.statement())
}

// statement is the page that says what the program computes and what others
// answer for, with room for the names and stamps of those who review it.
func (b *book) statement() []page {
	first := page{id: b.id("statement"), title: "Statement and review", kind: Statement, paper: b.runs, holds: b.l.Holds(),
		about: "What is computed by the program, what is stated or done by others, what is left out, and space for review stamps."}
	first.banner = holdWords(first.holds)
	blocks := []block{b.computedList(), b.othersList(), b.leftOutList(), b.partiesTable(), b.stampSpace()}
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
		items = append([]string{"The design pressures, from the wind section of the job, by " + prose(d.Edition) + "; confirmed by " + b.confirmedBy() + "."}, items...)
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
		pressures = "Design pressures: " + prose(d.By) + ", " + prose(d.Document) + ". They are lettered as stated."
	case d.ToConfirm():
		pressures = "Confirmation of the computed pressures, and every input of the basis of design: a licensed engineer. Not given yet."
	case d.Computed:
		pressures = "Confirmation of the computed pressures and of every input of their basis: " + b.confirmedBy() + "."
	}
	items := []string{
		pressures,
		"Resistances and limits of the assemblies: the laboratories, by the reports named. The reports themselves were not read by the program; the job file states what they say.",
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
	for _, words := range b.l.NotChecked() {
		items = append(items, prose(words))
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

// stampSpace is left for the reviewers the job names; for whoever reviews it
// where it names none.
func (b *book) stampSpace() whole {
	var stamps []string
	for _, p := range b.j.Info.Parties {
		if role := strings.ToLower(p.Role); strings.Contains(role, "architect") || strings.Contains(role, "engineer") {
			stamps = append(stamps, "REVIEW STAMP: "+prose(role+", "+p.Name))
		}
	}
	if len(stamps) == 0 {
		stamps = []string{"REVIEW STAMP"}
	}
	return fixed(4500, func(s *drawing.Scene, r drawing.Rect) {
		s.Group(drawing.Tables, "", func(g *drawing.Scene) {
			n := drawing.Unit(max(2, len(stamps)))
			w := min((r.Width()-gutter*(n-1))/n, 14000)
			for i, words := range stamps {
				x := r.Min.X + drawing.Unit(i)*(w+gutter)
				g.Rect(drawing.Medium, drawing.Box(x, r.Min.Y, x+w, r.Max.Y))
				for k, line := range drawing.Wrap(words, drawing.Bold, drawing.Note, w-400) {
					g.Text(drawing.Pt(x+200, r.Min.Y+500+drawing.Unit(k)*drawing.Note.Line()), line, drawing.Style{Face: drawing.Bold})
				}
			}
		})
	})
}

// rearUnstated stands where no pressure on the rear leg can be compared.
const rearUnstated = "The rear leg: the stated pressures give none for it, so nothing is compared with what the assemblies resist there. See that the report’s pull took the rear leg together with the top."
