package sheets

import (
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// reportShare is how much of a sheet, in hundredths, the plots of a wall report
// take, so that what follows from them stands below.
const reportShare = 62

// wallReports makes the reports of every surveyed run.
func (b *book) wallReports() []page {
	var out []page
	for _, p := range b.l.Perimeters {
		var runs []*layout.Run
		for _, r := range p.Runs {
			if len(r.Readings) > 1 {
				runs = append(runs, r)
			}
		}
		for len(runs) > 0 {
			if q, n := b.shortReports(p, runs); n > 1 {
				out, runs = append(out, q), runs[n:]
				continue
			}
			out, runs = append(out, b.wallReport(p, runs[0])...), runs[1:]
		}
	}
	return out
}

// wallReport makes the report of one run: its plots, and below them what they
// come to beside what is published and asked.
func (b *book) wallReport(p *layout.Perimeter, r *layout.Run) []page {
	name := b.of(p, r.Name)
	first := page{kind: WallReport, title: "Wall report of run " + name, paper: b.runs, holds: b.l.HoldsOn(r),
		about: "The wall of run " + name + " as measured: widths, face offsets and tops against the stations, with the lines the coping follows, doubted readings and published limits."}
	of := b.l.WallReport(r)
	var doubts []string
	if of.Again > 0 {
		doubts = append(doubts, plural(of.Again, "reading")+" in doubt. Measure again.")
	}
	if len(of.Unsound) > 0 {
		doubts = append(doubts, "Wall top not sound. Do not fasten to it.")
	}
	if len(doubts) > 0 {
		first.banner = "HOLD: " + strings.Join(doubts, " ")
	}
	room := first.paper.room(first.banner != "")
	parts := view.WallParts(of, room.Width())
	first.scale = "lengthwise " + drawing.Letter(parts[0].Along.Name)
	high := room.Height() * reportShare / 100
	if len(parts) > 1 || len(of.Doubts) > 0 || slices.ContainsFunc(of.Readings, func(q plan.WallReading) bool { return len(q.Conditions) > 0 }) {
		high = room.Height() - view.ReportNotes // there is more to say on the plots, and the lists take a sheet of their own
	}
	views := make([]drawing.Scene, len(parts))
	for i, q := range parts {
		views[i] = view.WallReport(of, q, room.Width(), high)
	}
	lists := flowOver(b.reportLists(r, of), func(n int) []drawing.Rect {
		rest := room
		if n < len(views) {
			rest.Min.Y += views[n].H + between
		}
		if rest.Height() < 3000 {
			return nil
		}
		return columns(rest, max(1, int((room.Width()+gutter)/(13000+gutter))), gutter)
	})
	var out []page
	for i := range max(len(views), len(lists)) {
		q := first
		q.id = b.id("wall", p.Job.Name, r.Name)
		switch {
		case i >= len(views):
			q.title, q.scale = first.title+", continued", "none"
		case len(views) > 1:
			q.title += ", part " + itoa(i+1) + " of " + itoa(len(views))
		}
		q.draw = func(s *drawing.Scene, _ func(string) string) {
			if i < len(views) {
				place(s, views[i], room.Min, "plots")
			}
			if i < len(lists) {
				for _, x := range lists[i] {
					x.draw(s, x.at)
				}
			}
		}
		out = append(out, q)
	}
	for i := range len(out) - 1 {
		out[i].next = out[i+1].id
	}
	return out
}

// onWall is a run whose stations are lettered: as surveyed or as laid out.
type onWall interface {
	ToCap(front length.Length) length.Length
	ToCrew(cap length.Length) length.Length
}

// station letters a station of the front face as the crew tapes it.
func (b *book) station(r onWall, front length.Length) string {
	return b.long(r.ToCrew(r.ToCap(front)))
}

// reportLists are what a report says in words and numbers.
func (b *book) reportLists(r *layout.Run, of plan.WallReport) []block {
	var out []block
	if t := b.suspectTable(r); len(t.rows) > 0 {
		out = append(out, t)
	}
	out = append(out, b.reportFacts(r))
	if t := b.wallLimits(of); len(t.rows) > 0 {
		out = append(out, t)
	}
	if t := b.stateTable(r, of); len(t.rows) > 0 {
		out = append(out, t)
	}
	return out
}

// reportFacts sum the wall up.
func (b *book) reportFacts(r *layout.Run) table {
	w := r.OnWall()
	at := func(l, s length.Length) string { return b.small(l) + " at " + b.station(r, s) }
	line := b.small(w.Line.Left) + " out at the left corner, " + b.small(w.Line.Right) + " at the right"
	if w.Line.Held {
		line += ", held by the job"
	}
	var insides []string
	for _, q := range r.Bands {
		phrase := b.small(q.Inside)
		if len(r.Bands) > 1 {
			phrase += " from " + b.long(r.ToCrew(q.From)) + " to " + b.long(r.ToCrew(q.To))
		}
		insides = append(insides, phrase)
	}
	set := b.small(w.SetLeft)
	if w.SetLeft != w.SetRight {
		set = b.small(w.SetLeft) + " at the left corner, " + b.small(w.SetRight) + " at the right"
	}
	measured := strings.TrimSpace(b.j.Site.MeasuredBy + " " + date(b.j.Site.MeasuredOn))
	return facts("What the readings come to", kept([][]string{
		{"Readings", itoa(len(w.Readings)) + " over " + b.text(w.Front)},
		{"Measured", prose(measured)},
		{"String between", prose(w.Job.SurveyLine)},
		{"Bow of the face", at(w.Line.Bow, w.Line.BowAt)},
		{"Front-face line", line},
		{"Greatest gap to it", at(w.Line.GapMost, w.Line.GapMostAt) + "; a line parallel to the wall line would leave " + b.small(w.Line.Parallel)},
		{"Width of the wall", span(b.small(w.WidthLeast), b.small(w.WidthMost))},
		{"Greatest need", at(w.Need, w.NeedAt)},
		{"Inside width of cap", strings.Join(insides, "; ")},
		{"Rear play", span(b.small(r.PlayLeast), b.small(r.PlayMost))},
		{"Set surface", set + ", above the level datum, at the front-face line"},
		{"Packing", span(b.small(w.PackLeast), b.small(w.PackMost))},
	}))
}

// wallLimits sets published limits beside what was found.
func (b *book) wallLimits(of plan.WallReport) table {
	t := table{title: "Published limits of wall tops", whole: true, cols: []column{{head: "Limit", flex: true}, {head: "Allowed", align: drawing.Right}, {head: "Found", align: drawing.Right}, {head: "Where"}, {head: "Kept"}, {head: "Source", flex: true}}}
	over := map[int]bool{} // look-up only
	for _, l := range of.Limits {
		kept := "yes"
		if !l.Kept {
			kept, over[len(t.rows)] = "NO", true
		}
		t.rows = append(t.rows, []string{prose(b.j.Units.InUnits(l.Name)), b.exact(l.Allowed), b.exact(l.Found), span(b.long(l.From), b.long(l.To)), kept, prose(l.Source)})
	}
	t.bold = func(row, col int) bool { return col == 4 && over[row] }
	return t
}

// suspectTable lists the readings in doubt by the numbers of the plots.
func (b *book) suspectTable(r *layout.Run) table {
	t := table{title: "Readings that their neighbours speak against", cols: []column{{head: "No."}, {head: "Station", align: drawing.Right}, {head: "Measure", flex: true}, {head: "Read", align: drawing.Right}, {head: "Neighbours say", align: drawing.Right},
		{head: "Doubted over", align: drawing.Right}, {head: "What to do", flex: true}}}
	for i := range r.Suspects {
		s := &r.Suspects[i]
		letter := b.short
		if job.Measure(s.Measure) == job.MeasureStation {
			letter = b.long
		}
		ask := "measure again"
		if s.Hint != "" {
			ask += ": " + s.Hint
		}
		if c := s.Cleared; c != nil {
			ask = strings.TrimSpace("cleared as " + letter(c.Value) + " by " + c.By + " " + date(c.On))
		}
		t.rows = append(t.rows, []string{view.SuspectName(i), b.station(r, s.Reading.Station), s.Measure, letter(s.Value), letter(s.Expected), letter(s.Limit), prose(ask)})
	}
	t.bold = func(_, col int) bool { return col == 0 }
	return t
}

// stateTable lists what is wrong with the wall top.
func (b *book) stateTable(r *layout.Run, of plan.WallReport) table {
	t := table{title: "Condition of the wall top", cols: []column{{head: "Station", align: drawing.Right}, {head: "Condition", flex: true}, {head: "Photo"}, {head: "Note", flex: true}}}
	for _, q := range of.Readings {
		if !q.Told() {
			continue
		}
		t.rows = append(t.rows, []string{b.station(r, q.At), orDash(strings.Join(q.Conditions, ", ")), orDash(prose(strings.Join(q.Photos, ", "))), prose(q.Note)})
	}
	return t
}

// rfis is the list of what the general contractor should put right or answer,
// to be taken along to the visit before the bid.
func (b *book) rfis() []page {
	all := b.l.Questions()
	if len(all) == 0 {
		return nil
	}
	first := page{id: b.id("rfi"), title: "Questions to the general contractor", kind: RFIList, paper: b.runs,
		about: "What was found on the wall top, the limit and its source, what is asked, photos, and a box for the answer."}
	t := table{fill: true, high: 1100, cols: []column{{head: "No.", align: drawing.Right}, {head: "Run"}, {head: "Stations"}, {head: "What was found", flex: true}, {head: "Limit"},
		{head: "Source of the limit", flex: true}, {head: "What is asked", flex: true}, {head: "Photo"}, {head: "Answer, name, date", least: 4200}}}
	if b.runs.w < 30000 {
		t.cols[8].least = 3000
	}
	phrase := func(s string) string { return prose(b.j.Units.InUnits(s)) }
	for i, q := range all {
		t.rows = append(t.rows, []string{itoa(i + 1), q.Run, span(b.long(q.From), b.long(q.To)), phrase(q.What), orDash(phrase(q.Limit)), orDash(phrase(q.Source)), phrase(q.Ask), orDash(prose(strings.Join(q.Photos, ", "))), ""})
	}
	said := "Stations are the crew’s, from the left hand of a person on the roof looking out. A limit that is not kept is the wall builder’s to put right; what stays as it is takes packing, width or both, and is to be accepted in writing."
	return b.pages(first, []block{list{items: []string{said}, plain: true}, t}, across)
}
