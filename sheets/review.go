package sheets

import (
	"slices"
	"strings"

	"copingset/drawing"
)

// transmittal is the letter at the head of the submittal: to whom, from whom, for
// what, and what is enclosed. pages are those of the packet, without its index.
func (b *book) transmittal(pages []page) []page {
	in := b.j.Info
	p := page{id: b.id("transmittal"), title: "Transmittal of the submittal", kind: Transmittal, paper: b.lists, holds: b.l.Holds(), banner: b.summary(),
		about: "To whom the submittal goes, from whom, for what, and the sheets enclosed."}
	rows := [][]string{{"To", strings.Join(b.reviewers(), "\n")}, {"From", prose(b.firm())}, {"Prepared", prose(in.PreparedBy)}, {"Checked", prose(in.CheckedBy)},
		{"Job", prose(strings.TrimSpace(in.Number + " " + in.Name))}, {"Address", prose(in.Address)}, {"Owner", prose(in.Owner)}, {"Issued", date(in.Issued)}, {"Revision", b.lastRevision()},
		{"Sent for", b.purpose()}}
	if d := &b.l.Demand; d.Computed {
		rows = append(rows, []string{"Check code of the pressures", d.List.Code().String()})
	}
	blank := table{cols: []column{{head: "Sent on, how"}, {head: "Reply asked by"}, {head: "Received by, date"}}, fill: true, high: 1100, whole: true, rows: [][]string{{"", "", ""}}}
	for i := range blank.cols {
		blank.cols[i].least = 3600
	}
	return b.pages(p, []block{facts("", kept(rows)), b.enclosed(pages), blank,
		list{items: []string{"Sheets keep the numbers they have in the whole packet; the index lists those enclosed. The test reports themselves, the specification and letters named go with this submittal by the sender’s hand: the program does not have them."}, plain: true}}, across)
}

// purpose is what a submittal is sent for; with holds open it is not for approval
// to fabricate.
func (b *book) purpose() string {
	n := len(b.l.Holds())
	if n == 0 {
		return "approval before fabrication"
	}
	return "REVIEW. NOT FOR FABRICATION: " + plural(n, "hold") + " open, see the findings"
}

// lastRevision is the last of the job, in words.
func (b *book) lastRevision() string {
	r := b.j.Info.Revisions
	if len(r) == 0 {
		return "first issue"
	}
	return prose(r[len(r)-1].Mark + ", " + date(r[len(r)-1].Date) + ", " + r[len(r)-1].Note)
}

// enclosed counts the sheets of each part, in the order in which they are read.
func (b *book) enclosed(pages []page) table {
	t := table{title: "Enclosed, in this order", fill: true, whole: true, cols: []column{{head: "No.", align: drawing.Right}, {head: "Part", flex: true}, {head: "Sheets", align: drawing.Right}}}
	for _, part := range submittalParts() {
		n := 0
		for _, p := range pages {
			if p.kind == part.kind {
				n++
			}
		}
		count := itoa(n)
		switch {
		case part.kind == Transmittal:
			continue
		case part.kind == Index:
			count = "as listed"
		case n == 0:
			continue
		}
		t.rows = append(t.rows, []string{itoa(len(t.rows) + 1), part.title, count})
	}
	return t
}

// review is the last page: what the reviewers found, and room for their stamps.
func (b *book) review() []page {
	p := page{id: b.id("review"), title: "Review: answer and stamps", kind: Review, paper: b.runs, holds: b.l.Holds(),
		about: "Boxes for the answer of the architect and the engineer, lines for remarks, and room for their stamps."}
	p.banner = b.holdWords(p.holds)
	answers := table{title: "Answer of the reviewer", whole: true, cols: []column{{head: ""}, {head: "Answer", flex: true}, {head: "By", least: 5200}, {head: "Date", least: 2600}}, high: 800}
	for _, phrase := range []string{"No exception taken", "Exceptions as noted on the sheets; no new submittal asked", "To be changed as noted and submitted again", "Rejected, for the reasons under remarks"} {
		answers.rows = append(answers.rows, []string{tickBox, phrase, "", ""})
	}
	return b.pages(p, []block{answers, b.stampSpace(), fixedLines("Remarks", 3)}, across)
}

// reviewers are the architects and engineers that the job names.
func (b *book) reviewers() []string {
	var out []string
	for _, p := range b.j.Info.Parties {
		if role := strings.ToLower(p.Role); strings.Contains(role, "architect") || strings.Contains(role, "engineer") {
			out = append(out, prose(p.Role+", "+p.Name))
		}
	}
	return out
}

// stampSpace is left for the reviewers the job names, and for an architect and an
// engineer where it names none.
func (b *book) stampSpace() whole {
	var stamps []string
	for _, who := range b.reviewers() {
		stamps = append(stamps, "REVIEW STAMP: "+who)
	}
	for _, role := range []string{"architect", "engineer"} {
		if !slices.ContainsFunc(stamps, func(s string) bool { return strings.Contains(strings.ToLower(s), role) }) {
			stamps = append(stamps, "REVIEW STAMP: "+role)
		}
	}
	return fixed(6000, func(s *drawing.Scene, r drawing.Rect) {
		s.Group(drawing.Tables, "", func(g *drawing.Scene) {
			n := drawing.Unit(max(2, len(stamps)))
			w := min((r.Width()-gutter*(n-1))/n, 14000)
			for i, phrase := range stamps {
				x := r.Min.X + drawing.Unit(i)*(w+gutter)
				g.Rect(drawing.Medium, drawing.Box(x, r.Min.Y, x+w, r.Max.Y))
				for k, line := range drawing.Wrap(phrase, drawing.Bold, drawing.Note, w-400) {
					g.Text(drawing.Pt(x+200, r.Min.Y+500+drawing.Unit(k)*drawing.Note.Line()), line, drawing.Style{Face: drawing.Bold})
				}
			}
		})
	})
}
