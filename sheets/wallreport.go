package sheets

import (
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/drawing/words"
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
		for on := b.on(p.Job); len(runs) > 0; {
			if q, n := on.shortReports(p, runs); n > 1 {
				out, runs = append(out, on.its([]page{q})...), runs[n:]
				continue
			}
			out, runs = append(out, on.its(on.wallReport(p, runs[0]))...), runs[1:]
		}
	}
	return out
}

// wallReport makes the report of one run: its plots, and below them what they
// come to beside what is published and asked.
func (b *book) wallReport(p *layout.Perimeter, r *layout.Run) []page {
	name := b.of(p, r.Name)
	first := page{
		kind:  WallReport,
		title: b.say.Say(words.WallTitle, words.In("name", name)),
		paper: b.runs,
		holds: b.l.HoldsOn(r),
		about: b.say.Say(words.WallAbout, words.In("name", name)),
	}
	of := b.l.WallReport(r)
	var doubts []string
	if of.Again > 0 {
		doubts = append(doubts, b.say.Count(words.WallDoubts, of.Again, words.In("n", itoa(of.Again))))
	}
	if len(of.Unsound) > 0 {
		doubts = append(doubts, b.say.Say(words.WallUnsound))
	}
	if len(doubts) > 0 {
		first.banner = b.say.Say(words.WallHold, words.In("doubts", strings.Join(doubts, " ")))
	}
	room := first.paper.room(first.banner != "")
	parts := view.WallParts(of, room.Width())
	first.scale = b.say.Say(words.WallLengthwise, words.In("name", drawing.Letter(parts[0].Along.Name)))
	high := room.Height() * reportShare / 100
	if len(parts) > 1 || len(of.Doubts) > 0 ||
		slices.ContainsFunc(of.Readings, func(q plan.WallReading) bool { return len(q.Conditions) > 0 }) {
		// there is more to say on the plots, and the lists take a sheet of their own
		high = room.Height() - view.ReportNotes
	}
	views := make([]drawing.Scene, len(parts))
	for i, q := range parts {
		views[i] = view.WallReport(b.say, of, q, room.Width(), high)
	}
	lists := b.flowOver(b.reportLists(r, of), func(n int) []drawing.Rect {
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
			q.title = b.say.Say(words.FrameContinued, words.In("title", first.title))
			q.scale = b.say.Say(words.FrameNone)
		case len(views) > 1:
			q.title = b.say.Say(
				words.WallPart, words.In("title", first.title), words.In("n", itoa(i+1)),
				words.In("of", itoa(len(views))),
			)
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
		out = append(out, t.naming(suspectNames(r)))
	}
	out = append(out, b.reportFacts(r).naming(b.reportNames(r)))
	if t := b.wallLimits(of); len(t.rows) > 0 {
		out = append(out, t.naming(limitNames(r, of)))
	}
	if t := b.stateTable(r, of); len(t.rows) > 0 {
		out = append(out, t.naming(stateNames(r, of)))
	}
	return out
}

// reportFacts sum the wall up.
func (b *book) reportFacts(r *layout.Run) table {
	w := r.OnWall()
	at := func(l, s length.Length) string {
		return b.say.Say(words.WallAt, words.In("length", b.small(l)), words.In("station", b.station(r, s)))
	}
	ends := []words.Slot{words.In("left", b.small(w.Line.Left)), words.In("right", b.small(w.Line.Right))}
	line := b.say.Say(words.WallLine, ends...)
	if w.Line.Held {
		line = b.say.Say(words.WallLineFixed, ends...)
	}
	var insides []string
	for _, q := range r.Bands {
		inside := b.small(q.Inside)
		if len(r.Bands) > 1 {
			inside = b.say.Say(
				words.WallFromTo, words.In("inside", inside), words.In("from", b.long(r.ToCrew(q.From))),
				words.In("to", b.long(r.ToCrew(q.To))),
			)
		}
		insides = append(insides, inside)
	}
	set := b.small(w.SetLeft)
	if w.SetLeft != w.SetRight {
		set = b.say.Say(words.WallSetEnds, words.In("left", b.small(w.SetLeft)), words.In("right", b.small(w.SetRight)))
	}
	measured := strings.TrimSpace(b.j.Site.MeasuredBy + " " + date(b.j.Site.MeasuredOn))
	return facts(b.say.Say(words.WallFacts), kept([][]string{
		{
			b.say.Say(words.WallReadings),
			b.say.Say(words.WallOver, words.In("n", itoa(len(w.Readings))), words.In("length", b.text(w.Front))),
		},
		{b.say.Say(words.WallMeasured), prose(measured)},
		{b.say.Say(words.WallLevelling), b.levelLoop()},
		{b.say.Say(words.WallSurveyLine), prose(w.Job.SurveyLine)},
		{b.say.Say(words.WallBow), at(w.Line.Bow, w.Line.BowAt)},
		{b.say.Say(words.WallLineWhat), line},
		{
			b.say.Say(words.WallGreatestGap),
			b.say.Say(
				words.WallGapParallel, words.In("gap", at(w.Line.GapMost, w.Line.GapMostAt)),
				words.In("parallel", b.small(w.Line.Parallel)),
			),
		},
		{b.say.Say(words.WallWidthWall), b.span(b.small(w.WidthLeast), b.small(w.WidthMost))},
		{b.say.Say(words.WallNeed), at(w.Need, w.NeedAt)},
		{b.say.Say(words.WallInsideWidthCap), strings.Join(insides, "; ")},
		{b.say.Say(words.WallPlay), b.span(b.small(r.PlayLeast), b.small(r.PlayMost))},
		{b.say.Say(words.WallSetSurface), b.say.Say(words.WallSetAbove, words.In("set", set))},
		{b.say.Say(words.WallBuildUp), b.span(b.small(w.PackLeast), b.small(w.PackMost))},
	}))
}

// wallLimits sets published limits beside what was found.
func (b *book) wallLimits(of plan.WallReport) table {
	t := table{
		title: b.say.Say(words.WallLimits),
		whole: true,
		cols: []column{
			b.flex(words.ColLimit), b.right(words.ColAllowed), b.right(words.ColFound), b.col(words.ColWhere),
			b.col(words.ColKept), b.flex(words.ColSource),
		},
	}
	over := map[int]bool{} // look-up only
	for _, l := range of.Limits {
		kept := b.say.Say(words.WallYes)
		if !l.Kept {
			kept, over[len(t.rows)] = b.say.Say(words.WallNo), true
		}
		t.rows = append(t.rows, []string{
			prose(b.j.Units.InUnits(l.Name)), b.exact(l.Allowed), b.exact(l.Found),
			b.span(b.long(l.From), b.long(l.To)), kept, prose(l.Source),
		})
	}
	t.bold = func(row, col int) bool { return col == 4 && over[row] }
	return t
}

// suspectTable lists the readings in doubt by the numbers of the plots.
func (b *book) suspectTable(r *layout.Run) table {
	t := table{
		title: b.say.Say(words.WallDoubted),
		cols: []column{
			b.col(words.ColNo), b.right(words.ColStation), b.flex(words.ColMeasure), b.right(words.ColRead),
			b.right(words.ColNeighboursSay), b.right(words.ColDoubtedOver), b.flex(words.ColWhatDo),
		},
	}
	for i := range r.Suspects {
		s := &r.Suspects[i]
		letter := b.short
		if job.Measure(s.Measure) == job.MeasureStation {
			letter = b.long
		}
		ask := b.say.Say(words.WallMeasureAgain)
		if s.Hint != "" {
			ask = b.say.Say(words.WallMeasureHint, words.In("hint", s.Hint))
		}
		if c := s.Cleared; c != nil {
			ask = strings.TrimSpace(
				b.say.Say(
					words.WallCleared, words.In("value", letter(c.Value)), words.In("by", c.By),
					words.In("on", date(c.On)),
				),
			)
		}
		t.rows = append(t.rows, []string{
			view.SuspectName(i), b.station(r, s.Reading.Station), s.Measure, letter(s.Value),
			letter(s.Expected), letter(s.Limit), prose(ask),
		})
	}
	t.bold = func(_, col int) bool { return col == 0 }
	return t
}

// stateTable lists what is wrong with the wall top.
func (b *book) stateTable(r *layout.Run, of plan.WallReport) table {
	t := table{
		title: b.say.Say(words.WallConditions),
		cols: []column{
			b.right(words.ColStation), b.flex(words.ColCondition), b.col(words.ColPhoto), b.flex(words.ColNote),
		},
	}
	for _, q := range of.Readings {
		if !q.Told() {
			continue
		}
		t.rows = append(t.rows, []string{
			b.station(r, q.At), orDash(strings.Join(q.Conditions, ", ")),
			orDash(prose(strings.Join(q.Photos, ", "))), prose(q.Note),
		})
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
	first := page{id: b.id("rfi"), title: b.say.Say(words.RfiTitle), kind: RFIList, paper: b.runs,
		about: b.say.Say(words.RfiAbout)}
	t := table{
		fill: true,
		high: 1100,
		cols: []column{
			b.right(words.ColNo), b.col(words.ColRun), b.col(words.ColStations), b.flex(words.ColWhatWasFound),
			b.col(words.ColLimit), b.flex(words.ColSourceLimit), b.flex(words.ColWhatAsked),
			b.col(words.ColPhoto), {head: b.say.Say(words.ColAnswerNameDate), least: 4200},
		},
	}
	if b.runs.w < 30000 {
		t.cols[8].least = 3000
	}
	phrase := func(s string) string { return prose(b.j.Units.InUnits(s)) }
	for i, q := range all {
		of := layout.FactOfQuestion(i)
		t.add(lettered{words: itoa(i + 1)}, lettered{q.Run, factsOf(of, "run")},
			lettered{b.span(b.long(q.From), b.long(q.To)), factsOf(of, "from", "to")},
			lettered{phrase(q.What), factsOf(of, "what")}, lettered{words: orDash(phrase(q.Limit))},
			lettered{words: orDash(phrase(q.Source))}, lettered{phrase(q.Ask), factsOf(of, "ask")},
			lettered{words: orDash(prose(strings.Join(q.Photos, ", ")))}, lettered{})
	}
	said := b.say.Say(words.WallRfiHow)
	return b.pages(first, []block{list{items: []string{said}, plain: true}, t}, across)
}
