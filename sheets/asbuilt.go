package sheets

import (
	"strings"

	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/length"
	"copingset/layout/revise"
)

// BuiltForms are the sheets on which the crew writes what stands on the wall: chairs and
// joints of each run in the order of the list that it is typed into. They stand in a
// document of their own, for the clipboard of whoever tapes.
func BuiltForms(l *layout.Layout, lang words.Lang) []Sheet {
	b := newBook(l, Options{Lang: lang})
	first := page{
		id:    b.id("as-built"),
		title: b.say.Say(words.BuiltTitle),
		kind:  Form,
		paper: b.lists,
		about: b.say.Say(words.BuiltAbout),
	}
	blocks := []block{list{items: []string{b.say.Say(words.BuiltHow)}, plain: true}}
	for _, r := range b.l.Runs() {
		blocks = append(blocks, b.builtForm(r))
	}
	var out []Sheet
	pages := b.pages(first, blocks, across)
	numbers := map[string]string{"": ""} // look-up only
	for i, p := range pages {
		numbers[p.id] = "A." + itoa(i+1)
	}
	for _, p := range pages {
		out = append(out, Sheet{ID: p.id, Number: numbers[p.id], Title: p.title, Kind: p.kind,
			Scene: b.draw(p, numbers[p.id], func(id string) string { return numbers[id] })})
	}
	return out
}

// builtForm has a row for each chair and joint of a run, with boxes.
func (b *book) builtForm(r *layout.Run) table {
	say := b.say.Say
	t := table{
		title: say(words.BuiltRun, words.In("run", prose(b.runHead(r)))),
		cols: []column{
			b.col(words.BuiltColMark), b.right(words.BuiltColStation), {head: say(words.BuiltColFound), least: 3200},
			b.right(words.BuiltColGap), {head: say(words.BuiltColGapFound), least: 2200},
			{head: say(words.BuiltColMetal), least: 1800}, {head: say(words.BuiltColBy), least: 1500},
		},
		fill: true,
		high: 700,
	}
	t.bold = func(_, col int) bool { return col == 0 }
	for _, q := range layout.InOrder(r) {
		row, names := []string{q.Name, b.chairStation(r, q.At), "", "–", "–", "–", ""},
			[]string{"", layout.Named(q.Name, "station")}
		if q.Joint != nil {
			row[3], row[4], row[5] = b.exact(q.Joint.Gap()), "", ""
			names = append(names, "", layout.Named(q.Name, "gap"))
		}
		t.rows, t.names = append(t.rows, row), append(t.names, names)
	}
	return t
}

// closingRecord is the record at the end of the work, or at any day before it: what is made and
// set beside what was asked.
func (b *book) closingRecord() []page {
	if b.j.Progress == nil {
		return nil
	}
	first := page{
		id:    b.id("closing"),
		title: b.say.Say(words.BuiltClosing),
		kind:  Closing,
		paper: b.lists,
		holds: b.l.Holds(),
		about: b.say.Say(words.BuiltClosingAbout),
	}
	first.banner = b.holdWords(first.holds)
	blocks := []block{list{items: []string{b.say.Say(words.BuiltClosingSays)}, plain: true}, b.reported()}
	if len(b.l.Finished) > 0 {
		blocks = append(blocks, b.madeTable())
	}
	if len(b.l.Standing) > 0 {
		blocks = append(blocks, b.standingTable())
	}
	signed := table{
		title: b.say.Say(words.CheckSigned), whole: true, fill: true, high: 1000,
		cols: []column{b.col(words.ColFor), {head: b.say.Say(words.ColName), least: 3600},
			{head: b.say.Say(words.ColDateTime), least: 2600}, {head: b.say.Say(words.ColSignature), least: 3600}},
		rows: [][]string{{b.say.Say(words.CheckInspector), "", "", ""}, {b.say.Say(words.CheckForeman), "", "", ""}},
	}
	return b.pages(first, append(blocks, signed), across)
}

// reported counts what the lists say, so that what nobody reported is seen.
func (b *book) reported() table {
	c := b.l.Reported()
	of := func(n, all int) string {
		return b.say.Say(words.BuiltOf, words.In("n", itoa(n)), words.In("of", itoa(all)))
	}
	play := func(l length.Length) string {
		if l == 0 {
			return b.say.Say(words.BuiltNotStated)
		}
		return b.small(l)
	}
	greatest := "–"
	if c.Greatest > 0 {
		greatest = b.small(c.Greatest) + ", " + c.GreatestAt
	}
	p := b.j.Progress
	return facts(b.say.Say(words.BuiltCount), [][]string{
		{b.say.Say(words.BuiltChairs), of(c.Chairs, c.AllChairs)},
		{b.say.Say(words.BuiltJoints), of(c.Joints, c.AllJoints)},
		{b.say.Say(words.BuiltPieces), of(c.Made, c.AllPieces) + ", " + itoa(c.Laid)},
		{b.say.Say(words.BuiltGreatest), greatest},
		{b.say.Say(words.BuiltAllowed), play(p.ChairPlay) + ", " + play(p.GapPlay)},
	})
}

// madeTable lists what is made with its use.
func (b *book) madeTable() table {
	t := table{title: b.say.Say(words.BuiltMade), fill: true,
		cols: []column{b.col(words.BuiltColMark), b.col(words.BuiltColState), b.col(words.BuiltColRev),
			b.right(words.ColLength), b.flex(words.BuiltColUse)}}
	var other []bool
	for _, m := range b.l.Finished {
		var long []string
		for _, l := range m.Metal.Parts {
			long = append(long, b.shopLong(l))
		}
		other = append(other, m.Use != revise.Here)
		t.rows = append(t.rows, []string{m.Mark, m.State, prose(m.Rev), strings.Join(long, " + "), b.useWords(m.Fit)})
	}
	t.bold = func(row, col int) bool { return other[row] && (col == 0 || col == 4) }
	return t
}

// useWords say what a made piece can be used for.
func (b *book) useWords(f revise.Fit) string {
	mark, off := words.In("mark", f.At), words.In("off", b.small(length.Abs(f.Off)))
	switch {
	case f.Use == revise.Here:
		return b.say.Say(words.BuiltUseHere)
	case f.Use == revise.There:
		return b.say.Say(words.BuiltUseThere, mark)
	case f.Use == revise.CutDown:
		return b.say.Say(words.BuiltUseCut, mark, off)
	case f.Use == revise.Moved:
		return b.say.Say(words.BuiltUseMoved)
	case f.At == "" || f.Off == 0:
		return b.say.Say(words.BuiltUseNone)
	case f.Off < 0:
		return b.say.Say(words.BuiltUseShort, mark, off)
	}
	return b.say.Say(words.BuiltUseLong, mark, off)
}

// standingTable lists what is set beside what is asked.
func (b *book) standingTable() table {
	t := table{title: b.say.Say(words.BuiltSet), fill: true,
		cols: []column{b.col(words.BuiltColMark), b.right(words.BuiltColStation), b.right(words.BuiltColFound),
			b.right(words.BuiltColOff), b.right(words.BuiltColGap), b.right(words.BuiltColGapFound),
			b.right(words.BuiltColGapOff), b.right(words.BuiltColMetal), b.flex(words.BuiltColVerdict)}}
	var out []bool
	for i := range b.l.Standing {
		q := &b.l.Standing[i]
		row := []string{q.Mark, b.long(q.Asked), "–", "–", "–", "–", "–", "–", b.verdict(q)}
		if q.Station != nil {
			row[2], row[3] = b.long(*q.Station), b.small(q.Off)
		}
		if q.Gap != nil {
			row[4], row[5], row[6] = b.short(q.GapAsked), b.short(*q.Gap), b.short(q.Over)
		}
		if q.Metal != nil {
			row[7] = b.temperature(*q.Metal)
		}
		out = append(out, q.OffLine || q.Wide)
		t.rows = append(t.rows, row)
	}
	t.bold = func(row, col int) bool { return out[row] && (col == 0 || col == 8) }
	return t
}

func (b *book) verdict(q *layout.AsBuilt) string {
	switch {
	case q.OffLine || q.Wide:
		return b.say.Say(words.BuiltOut)
	case !q.Judged:
		return b.say.Say(words.BuiltUnjudged)
	}
	return b.say.Say(words.BuiltWithin)
}

// BuiltList is the list that as-built figures are typed into: chairs and joints of each
// run from left to right, as the run sheets have boxes for them.
func BuiltList(l *layout.Layout) Schedule {
	b := newBook(l, Options{})
	at, in, scale := " (ft-in)", " (in)", " (F)"
	if b.metric {
		at, in, scale = " (mm)", " (mm)", " (C)"
	}
	s := Schedule{Name: "asbuilt.csv",
		Header: []string{"mark", "asked", "station" + at, "gap" + in, "metal" + scale, "on", "by"}}
	for _, r := range l.Runs() {
		for _, q := range layout.InOrder(r) {
			s.Rows = append(s.Rows, []string{q.Name, typed(b.crew.Long(r.ToCrew(q.At))), "", "", "", "", ""})
		}
	}
	return s
}
