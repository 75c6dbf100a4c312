package sheets

import (
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/words"
)

// transmittal is the letter at the head of the submittal: to whom, from whom, for
// what, and what is enclosed. pages are those of the packet, without its index.
func (b *book) transmittal(pages []page) []page {
	in := b.j.Info
	p := page{
		id:     b.id("transmittal"),
		title:  b.say.Say(words.TransmittalTitle),
		kind:   Transmittal,
		paper:  b.lists,
		holds:  b.l.Holds(),
		banner: b.summary(),
		about:  b.say.Say(words.TransmittalAbout),
	}
	rows := [][]string{
		{b.say.Say(words.ReviewTo), strings.Join(b.reviewers(), "\n")},
		{b.say.Say(words.ReviewFrom), prose(b.firm())},
		{b.say.Say(words.ReviewPrepared), prose(in.PreparedBy)},
		{b.say.Say(words.ReviewChecked), prose(in.CheckedBy)},
		{
			b.say.Say(words.ReviewJob),
			prose(strings.TrimSpace(in.Number + " " + in.Name)),
		},
		{b.say.Say(words.ReviewAddress), prose(in.Address)},
		{b.say.Say(words.ReviewOwner), prose(in.Owner)},
		{b.say.Say(words.ReviewIssued), date(in.Issued)},
		{b.say.Say(words.ReviewRevision), b.lastRevision()},
		{b.say.Say(words.ReviewSentFor), b.purpose()},
	}
	if d := &b.l.Demand; d.Computed {
		rows = append(rows, []string{b.say.Say(words.ReviewCheckCodePressures), d.List.Code().String()})
	}
	blank := table{
		cols:  []column{b.col(words.ColSentHow), b.col(words.ColReplyAsked), b.col(words.ColReceivedDate)},
		fill:  true,
		high:  1100,
		whole: true,
		rows:  [][]string{{"", "", ""}},
	}
	for i := range blank.cols {
		blank.cols[i].least = 3600
	}
	return b.pages(p, []block{facts("", kept(rows)), b.enclosed(pages), blank,
		list{items: []string{b.say.Say(words.ReviewKeep)}, plain: true}}, across)
}

// purpose is what a submittal is sent for; with holds open it is not for approval
// to fabricate.
func (b *book) purpose() string {
	n := len(b.l.Holds())
	if n == 0 {
		return b.say.Say(words.ReviewApproval)
	}
	return b.say.Count(words.ReviewOpen, n, words.In("n", itoa(n)))
}

// lastRevision is the last of the job, in words.
func (b *book) lastRevision() string {
	r := b.j.Info.Revisions
	if len(r) == 0 {
		return b.say.Say(words.ReviewFirstIssue)
	}
	return prose(r[len(r)-1].Mark + ", " + date(r[len(r)-1].Date) + ", " + r[len(r)-1].Note)
}

// enclosed counts the sheets of each part, in the order in which they are read.
func (b *book) enclosed(pages []page) table {
	t := table{
		title: b.say.Say(words.ReviewEnclosed),
		fill:  true,
		whole: true,
		cols:  []column{b.right(words.ColNo), b.flex(words.ColPart), b.right(words.ColSheets)},
	}
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
			count = b.say.Say(words.ReviewAsListed)
		case n == 0:
			continue
		}
		t.rows = append(t.rows, []string{itoa(len(t.rows) + 1), b.say.Say(part.title), count})
	}
	return t
}

// review is the last page: what the reviewers found, and room for their stamps.
func (b *book) review() []page {
	p := page{id: b.id("review"), title: b.say.Say(words.ReviewTitle), kind: Review, paper: b.runs, holds: b.l.Holds(),
		about: b.say.Say(words.ReviewAbout)}
	p.banner = b.holdWords(p.holds)
	answers := table{
		title: b.say.Say(words.ReviewAnswer),
		whole: true,
		cols: []column{
			{head: ""}, b.flex(words.ColAnswer), {head: b.say.Say(words.ColBy), least: 5200},
			{head: b.say.Say(words.ColDate), least: 2600},
		},
		high: 800,
	}
	for _, phrase := range []string{b.say.Say(words.ReviewAnswerNone), b.say.Say(words.ReviewAnswerNoted),
		b.say.Say(words.ReviewAnswerAgain), b.say.Say(words.ReviewAnswerRejected)} {
		answers.rows = append(answers.rows, []string{tickBox, phrase, "", ""})
	}
	return b.pages(p, []block{answers, b.stampSpace(), fixedLines(b.say.Say(words.ReviewRemarks), 3)}, across)
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
		stamps = append(stamps, b.say.Say(words.ReviewStamp, words.In("who", who)))
	}
	for _, role := range []string{"architect", "engineer"} {
		if !slices.ContainsFunc(stamps, func(s string) bool { return strings.Contains(strings.ToLower(s), role) }) {
			stamps = append(stamps, b.say.Say(words.ReviewStampRole, words.In("role", role)))
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
					g.Text(
						drawing.Pt(x+200, r.Min.Y+500+drawing.Unit(k)*drawing.Note.Line()),
						line,
						drawing.Style{Face: drawing.Bold},
					)
				}
			}
		})
	})
}
