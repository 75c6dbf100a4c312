package sheets

import (
	"fmt"
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout/finding"
	"copingset/layout/plan"
)

// index makes the cover and the list of sheets, which counts itself in. The
// cover says what the job is and who answers for it, beside a large key plan.
func (b *book) index(rest []page) []page {
	cover := page{id: b.id("cover"), title: "Cover, key plan and general notes", kind: Index, paper: b.runs, holds: b.l.Holds(), banner: b.summary(), scale: "as noted",
		about: "Job data, general notes, and the key plan with runs, corners, north and the direction of stations."}
	cover.foot = func(s *drawing.Scene, r drawing.Rect) { b.legend(s, r, view.KeyPlanHatches(b.keyPlan())) }
	room := cover.paper.room(cover.banner != "")
	left := min(max(room.Width()*33/100, 9000), 14000)
	beside := drawing.Box(room.Min.X+left+gutter, room.Min.Y, room.Max.X, room.Max.Y)
	out := b.pages(cover, b.coverBlocks(), func(n int, room drawing.Rect) []drawing.Rect {
		if n > 0 {
			return columns(room, max(1, int(room.Width()/11000)), gutter)
		}
		return []drawing.Rect{drawing.Box(room.Min.X, room.Min.Y, room.Min.X+left, room.Max.Y)}
	})
	for i := range out[1:] {
		out[i+1].foot = nil
	}
	if v := view.KeyPlan(b.keyPlan(), beside.Width(), beside.Height()); sits(v, beside.Width(), beside.Height()) {
		notes := out[0].draw
		out[0].draw = func(s *drawing.Scene, refer func(string) string) {
			notes(s, refer)
			place(s, v, beside.Min, "key")
		}
	} else { // it needs a page of its own
		out[0].title, out[0].foot, out[0].scale = "Cover and general notes", nil, ""
		out = append(out, b.keyPlans(cover)...)
	}
	return append(out, b.sheetList(out, rest)...)
}

// keyPlans shows the perimeters on a page together where they can be read, or
// each on a page of its own.
func (b *book) keyPlans(cover page) []page {
	// Several perimeters part before the paper grows.
	room := cover.paper.room(cover.banner != "")
	k := b.keyPlan()
	if len(k.Perimeters) < 2 || sits(view.KeyPlan(k, room.Width(), room.Height()), room.Width(), room.Height()) {
		return []page{b.keyPlanPage(cover, k, "Key plan")}
	}
	var out []page
	for i, p := range k.Perimeters {
		out = append(out, b.keyPlanPage(cover, k.Only(i), "Key plan of "+prose(p.Name)))
	}
	return out
}

// keyPlanPage shows a key plan on a page that it can be read on.
func (b *book) keyPlanPage(cover page, k plan.KeyPlan, title string) page {
	p := fitting(cover, func(room drawing.Rect) bool {
		return sits(view.KeyPlan(k, room.Width(), room.Height()), room.Width(), room.Height())
	})
	p.id, p.title = b.id(title), title
	room := p.paper.room(p.banner != "")
	p.draw = func(s *drawing.Scene, _ func(string) string) {
		place(s, view.KeyPlan(k, room.Width(), room.Height()), room.Min, "key")
	}
	return p
}

// sheetList is the index proper. How many pages it takes depends on its own
// rows, so it is laid out until the number no longer changes.
func (b *book) sheetList(before, after []page) []page {
	first := page{id: b.id("index"), title: "Index of sheets", kind: Index, paper: b.runs, holds: b.l.Holds(), banner: b.summary(),
		about: "Every sheet of the packet with its number, title and readers."}
	room := first.paper.room(first.banner != "")
	lay := func(t table) [][]placed {
		n := max(1, int((room.Width()+gutter)/(min(t.width(), room.Width())+gutter)))
		return flow([]block{t, b.marks()}, func(int) []drawing.Rect { return columns(room, n, gutter) })
	}
	own := []page{first}
	for {
		all := slices.Concat(before, own, after)
		if len(lay(b.sheetTable(all, All, nil))) > len(own) {
			p := first
			p.id, p.title = b.id(first.id), first.title+", continued"
			own = append(own, p)
			continue
		}
		// A part of the packet lists its own sheets, on as few pages; they keep the numbers they have in the whole.
		var leaves [][]placed
		for k := 1; k <= len(own); k++ {
			leaves = lay(b.sheetTable(all, b.reader, own[k:]))
			if len(leaves) <= k {
				break
			}
		}
		for i, leaf := range leaves {
			own[i].draw = func(s *drawing.Scene, _ func(string) string) {
				for _, q := range leaf {
					q.draw(s, q.at)
				}
			}
		}
		return own
	}
}

// sheetTable lists the sheets of one reader with their numbers in the whole
// packet; dropped pages are none of them.
func (b *book) sheetTable(all []page, reader Audience, dropped []page) table {
	t := table{cols: []column{{head: "Sheet"}, {head: "Title", flex: true}, {head: "For"}, {head: "Page", align: drawing.Right}}}
	held := slices.ContainsFunc(all, func(p page) bool { return p.banner != "" })
	if held {
		t.cols = append(t.cols, column{head: "Hold"})
		t.bold = func(_, col int) bool { return col == 4 }
	}
	type numbered struct {
		page
		no string
	}
	var listed []numbered
	for i, no := range b.numbers(all) {
		listed = append(listed, numbered{all[i], no})
	}
	for _, p := range inOrder(listed, reader, func(p numbered) Kind { return p.kind }) {
		if !p.kind.For(reader) || slices.ContainsFunc(dropped, func(d page) bool { return d.id == p.id }) {
			continue
		}
		row := []string{p.no, p.title, readers(p.kind), itoa(len(t.rows) + 1)}
		if p.on != "" {
			row[1] += " (printed on " + p.on + ")"
		}
		if held && p.banner != "" {
			row = append(row, "HOLD")
		} else if held {
			row = append(row, "")
		}
		t.rows = append(t.rows, row)
		t.links = append(t.links, p.id)
	}
	t.title = plural(len(t.rows), "sheet")
	if reader != All {
		t.title += fmt.Sprintf(" for %s, of a packet of %d", reader, len(all))
	}
	return t
}

// marks explains every kind of mark on the packet, and the words with one meaning.
func (b *book) marks() list {
	var items []string
	for _, k := range []words.Key{words.WordPiece, words.WordCorner, words.WordJoint, words.WordLay, words.WordShop, words.WordSheet, words.WordDoubt,
		words.WordSides, words.WordLines, words.WordCloser, words.WordRelease} {
		items = append(items, b.say.Say(k))
	}
	return list{title: b.say.Say(words.WordTitle), together: true, items: items}
}

// summary says large what is open.
func (b *book) summary() string {
	n := len(b.l.Holds())
	if n == 0 {
		return ""
	}
	phrase := "HOLD: " + plural(n, "hold") + " open"
	if k := len(b.l.Withheld); k > 0 {
		phrase += ", " + plural(k, "piece") + " NOT RELEASED"
	}
	return phrase + "."
}

func (b *book) coverBlocks() []block {
	in := b.j.Info
	job := [][]string{{"Job", prose(in.Name)}, {"Number", prose(in.Number)}, {"Address", prose(in.Address)}, {"Owner", prose(in.Owner)}}
	for _, p := range in.Parties {
		job = append(job, []string{prose(p.Role), prose(p.Name)})
	}
	job = append(job, []string{"Issued", date(in.Issued)}, []string{"Prepared", prose(in.PreparedBy)}, []string{"Checked", prose(in.CheckedBy)})
	if b.j.Site.MeasuredBy != "" {
		job = append(job, []string{"Measured", prose(strings.TrimSpace(b.j.Site.MeasuredBy + " " + date(b.j.Site.MeasuredOn)))})
	}
	job = kept(job)
	blocks := []block{facts("Job", job), b.revisions()}
	notes := append([]string{}, in.Notes...)
	notes = append(notes, b.generalNotes()...)
	blocks = append(blocks, list{title: "General notes", items: notes, numbered: true})
	return blocks
}

// kept leaves out rows of which nothing is known.
func kept(rows [][]string) [][]string {
	var out [][]string
	for _, r := range rows {
		if r[1] != "" {
			out = append(out, r)
		}
	}
	return out
}

// readers names who gets a kind of sheet.
func readers(k Kind) string {
	if k == Index {
		return "all"
	}
	var who []string
	for _, a := range Audiences()[1:] {
		if k.For(a) {
			who = append(who, a.String())
		}
	}
	return strings.Join(who, ", ")
}

func (b *book) revisions() table {
	t := table{title: "Revisions", fill: true, cols: []column{{head: "Rev."}, {head: "Date"}, {head: "What changed", flex: true}}}
	for _, r := range b.j.Info.Revisions {
		t.rows = append(t.rows, []string{prose(r.Mark), date(r.Date), prose(r.Note)})
	}
	if len(t.rows) == 0 {
		t.rows = [][]string{{"–", date(b.j.Info.Issued), "first issue, not revised"}}
	}
	return t
}

// generalNotes are those of every job.
func (b *book) generalNotes() []string {
	s := &b.j.System
	unit := "Lengths are in feet and inches, to the nearest 1/16 in for the crew and 1/32 in for the shop."
	if b.metric {
		unit = "Lengths are in millimetres, whole for the crew and to a tenth for the shop."
	}
	notes := []string{
		unit,
		"Do not scale from a print. Measure the check bar first; a print that is not true to size misleads.",
		"System " + s.Name + ": " + s.Metal.Name + ", " + b.thick(s.Metal.Thickness) + " thick, " + s.Metal.Finish + ".",
		"Crew stations start at the plumbed left-hand corner of each run, or at the mark its sheet names. They are running dimensions: pull one tape from the start.",
		"Lengths and angles are as measured. Where a perimeter does not close, only the key plan is drawn adjusted; no piece is.",
		"Weights are calculated from the developed area and the sheet thickness.",
		"Angles are given twice: the turn, and the included angle on the side the corner closes.",
	}
	for _, p := range b.l.Perimeters {
		if c := p.Closure; p.Closed() && (c.Length != 0 || c.Angle != 0) {
			var by []string
			if c.Length != 0 {
				by = append(by, b.small(c.Length))
			}
			if c.Angle != 0 {
				by = append(by, angle(c.Angle))
			}
			notes = append(notes, "Perimeter "+p.Job.Name+" as measured does not close: it misses by "+strings.Join(by, " and ")+".")
		}
	}
	return notes
}

// findings lists every hold and every note. A job without any has no such
// sheet.
func (b *book) findings() []page {
	if len(b.l.Findings) == 0 {
		return nil
	}
	first := page{id: b.id("findings"), title: "Findings and holds", kind: Findings, paper: b.runs, holds: b.l.Holds(), banner: b.summary(),
		about: "Every hold and note of the job: where, what, why and what to do."}
	t := table{fill: true, cols: []column{{head: "No.", align: drawing.Right}, {head: ""}, {head: "Where", flex: true}, {head: "What", flex: true},
		{head: "Why it matters", flex: true}, {head: "What to do", flex: true}, {head: "File, line"}, {head: "Cleared by, date", least: 2600, flex: false}}}
	var hold []bool
	add := func(sev finding.Severity, word string) {
		for _, f := range b.l.Findings {
			if f.Severity != sev {
				continue
			}
			hold = append(hold, sev == finding.Hold)
			where := f.Where.String()
			if where == "" {
				where = "the whole job"
			}
			if f.Where.HasStation {
				where += ", station " + b.text(b.crewStation(f.Where))
			}
			plain := func(s string) string { return orDash(prose(strings.ReplaceAll(s, "`", ""))) }
			t.rows = append(t.rows, []string{itoa(len(t.rows) + 1), word, prose(where), plain(f.What), plain(f.Why), plain(f.Mend), plain(f.At.String()), ""})
		}
	}
	add(finding.Hold, "HOLD")
	add(finding.Error, "ERROR")
	add(finding.Note, "note")
	t.bold = func(row, col int) bool { return hold[row] && col < 2 }
	phrase := "A hold keeps every piece it touches from release: such a piece is not to be cut, and no crate holds it, until the hold is cleared. A note asks for attention and stops nothing."
	return b.pages(first, []block{list{items: []string{phrase}, plain: true}, t}, across)
}
