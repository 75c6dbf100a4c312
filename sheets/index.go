package sheets

import (
	"fmt"
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/finding"
)

// front makes the cover: what the job is and who answers for it, beside a large key
// plan or with the key plans behind it.
func (b *book) front() []page {
	cover := page{
		id:     b.id("cover"),
		title:  b.say.Say(words.CoverTitle),
		kind:   Index,
		paper:  b.runs,
		holds:  b.l.Holds(),
		banner: b.summary(),
		scale:  b.say.Say(words.FrameAsNoted),
		about:  b.say.Say(words.CoverAbout),
	}
	cover.foot = func(s *drawing.Scene, r drawing.Rect) { b.legend(s, r, view.KeyPlanHatches(b.say, b.keyPlan())) }
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
	if b.keyRead(beside, b.keyPlan()) {
		v := view.KeyPlan(b.say, b.keyPlan(), beside.Width(), beside.Height())
		notes := out[0].draw
		out[0].draw = func(s *drawing.Scene, refer func(string) string) {
			notes(s, refer)
			place(s, v, beside.Min, "key")
		}
	} else { // it needs a page of its own
		out[0].title, out[0].foot, out[0].scale = b.say.Say(words.CoverTitleNotes), nil, ""
		out = append(out, b.keyPlans(cover)...)
	}
	return out
}

// sheetList is the index proper. How many pages it takes depends on its own
// rows, so it is laid out until the number no longer changes.
func (b *book) sheetList(before, after []page) []page {
	first := page{
		id:     b.id("index"),
		title:  b.say.Say(words.IndexTitle),
		kind:   Index,
		paper:  b.runs,
		holds:  b.l.Holds(),
		banner: b.summary(),
		about:  b.say.Say(words.IndexAbout),
	}
	room := first.paper.room(first.banner != "")
	lay := func(t table) [][]placed {
		n := max(1, int((room.Width()+gutter)/(min(t.width(), room.Width())+gutter)))
		return b.flow(
			append([]block{t}, b.marksAndWords()...),
			func(int) []drawing.Rect { return columns(room, n, gutter) },
		)
	}
	own := []page{first}
	for {
		all := slices.Concat(before, own, after)
		if len(lay(b.sheetTable(all, All, nil))) > len(own) {
			p := first
			p.id, p.title = b.id(first.id), b.say.Say(words.FrameContinued, words.In("title", first.title))
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
	t := table{
		cols: []column{b.col(words.ColSheet), b.flex(words.ColTitle), b.col(words.ColFor), b.right(words.ColPage)},
	}
	if b.tracked() {
		t.cols = append(t.cols, b.col(words.ColRev))
	}
	held := slices.ContainsFunc(all, func(p page) bool { return p.banner != "" })
	if held {
		last := len(t.cols)
		t.cols = append(t.cols, b.col(words.ColHold))
		t.bold = func(_, col int) bool { return col == last }
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
		row := []string{p.no, p.title, b.readers(p.kind), itoa(len(t.rows) + 1)}
		if p.on != "" {
			row[1] = b.say.Say(words.IndexPrintedOn, words.In("title", p.title), words.In("paper", p.on))
		}
		if b.tracked() {
			row = append(row, b.revisionOfPage(p.page))
		}
		if held && p.banner != "" {
			row = append(row, b.say.Say(words.CoverOnHold))
		} else if held {
			row = append(row, "")
		}
		cells := unnamed(row...)
		cells[1].names = p.named
		t.add(cells...)
		t.links = append(t.links, p.id)
	}
	n, whole := words.In("n", itoa(len(t.rows))), words.In("of", itoa(len(all)))
	t.title = b.say.Count(words.IndexSheets, len(t.rows), n)
	if reader != All {
		t.title = b.say.Count(
			words.IndexSheetsOf, len(t.rows), n, words.In("reader", b.say.Say(readerKeys[reader])), whole,
		)
	}
	return t
}

// summary says large what is open.
func (b *book) summary() string {
	n := len(b.l.Holds())
	if n == 0 {
		return ""
	}
	open := words.In("n", itoa(n))
	if k := len(b.l.Withheld); k > 0 {
		pieces := b.say.Count(words.IndexPieces, k, words.In("n", itoa(k)))
		return b.say.Count(words.IndexHoldsAndPieces, n, open, words.In("pieces", pieces))
	}
	return b.say.Count(words.IndexHolds, n, open)
}

func (b *book) coverBlocks() []block {
	in := b.j.Info
	job := facts(b.say.Say(words.CoverJob), nil)
	row := func(head, words string, what ...string) {
		if words != "" { // else nothing is known of it
			job.add(lettered{words: head}, lettered{words, factsOf("job", what...)})
		}
	}
	row(b.say.Say(words.CoverJob), prose(in.Name), "name")
	row(b.say.Say(words.CoverNumber), prose(in.Number), "number")
	row(b.say.Say(words.CoverAddress), prose(in.Address), "address")
	row(b.say.Say(words.CoverOwner), prose(in.Owner), "owner")
	for i, p := range in.Parties {
		row(prose(p.Role), prose(p.Name), fmt.Sprintf("party-%d", i+1))
	}
	row(b.say.Say(words.CoverIssued), date(in.Issued), "issued")
	row(b.say.Say(words.CoverPrepared), prose(in.PreparedBy), "prepared-by")
	row(b.say.Say(words.CoverChecked), prose(in.CheckedBy), "checked-by")
	if b.j.Site.MeasuredBy != "" {
		row(b.say.Say(words.CoverMeasured),
			prose(strings.TrimSpace(b.j.Site.MeasuredBy+" "+date(b.j.Site.MeasuredOn))), "measured-by", "measured-on")
	}
	blocks := []block{job, b.revisions()}
	notes := list{title: b.say.Say(words.CoverGeneralNotes), numbered: true}
	for i, n := range in.Notes {
		notes.say(n, factsOf("job", fmt.Sprintf("note-%d", i+1)))
	}
	b.generalNotes(&notes)
	blocks = append(blocks, notes)
	return blocks
}

// readerKeys name the readers of a packet.
var readerKeys = [...]words.Key{All: words.ReaderAll, Crew: words.ReaderCrew, Shop: words.ReaderShop,
	Inspector: words.ReaderInspector, Receiving: words.ReaderReceiving, PreBid: words.ReaderPreBid}

// readers names who gets a kind of sheet.
func (b *book) readers(k Kind) string {
	if k == Index {
		return b.say.Say(words.ReaderAll)
	}
	var who []string
	for _, a := range Audiences()[1:] {
		if k.For(a) {
			who = append(who, b.say.Say(readerKeys[a]))
		}
	}
	return strings.Join(who, ", ")
}

func (b *book) revisions() table {
	t := table{
		title: b.say.Say(words.CoverRevisions),
		fill:  true,
		cols:  []column{b.col(words.ColRev), b.col(words.ColDate), b.flex(words.ColWhatChanged)},
	}
	for i, r := range b.j.Info.Revisions {
		n := fmt.Sprintf("revision-%d", i+1)
		t.add(lettered{prose(r.Mark), factsOf("job", n)}, lettered{date(r.Date), factsOf("job", n+"-date")},
			lettered{prose(r.Note), factsOf("job", n+"-note")})
	}
	if len(t.rows) == 0 {
		t.add(lettered{words: "–"}, lettered{date(b.j.Info.Issued), factsOf("job", "issued")},
			lettered{words: b.say.Say(words.CoverFirstIssue)})
	}
	return t
}

// generalNotes adds those of every job.
func (b *book) generalNotes(to *list) {
	s := &b.j.System
	unit, steps := b.say.Say(words.CoverNoteInches), factsOf("job", "crew-step", "shop-step")
	if b.metric {
		unit, steps = b.say.Say(words.CoverNoteMillimetres), ""
	}
	to.say(unit, steps)
	to.say(b.say.Say(words.CoverNoteScale), "")
	to.say(b.say.Say(words.CoverNoteSystem, words.In("name", s.Name), words.In("name2", s.Metal.Name),
		words.In("thickness", b.thick(s.Metal.Thickness)), words.In("finish", s.Metal.Finish)),
		factsOf("system", "name", "metal", "thickness", "finish"))
	for _, k := range []words.Key{words.CoverNoteStations, words.CoverNoteMeasured, words.CoverNoteWeights,
		words.CoverNoteAngles} {
		to.say(b.say.Say(k), "")
	}
	for _, p := range b.l.Perimeters {
		if c := p.Closure; p.Closed() && (c.Length != 0 || c.Angle != 0) {
			name := words.In("name", p.Job.Name)
			gap, turn := words.In("gap", b.small(c.Length)), words.In("angle", angle(c.Angle))
			of := layout.FactOfPerimeter(p)
			switch {
			case c.Angle == 0:
				to.say(b.say.Say(words.CoverMissesLength, name, gap), factsOf(of, "misclosure"))
			case c.Length == 0:
				to.say(b.say.Say(words.CoverMissesAngle, name, turn), factsOf(of, "misclosure-angle"))
			default:
				to.say(b.say.Say(words.CoverMissesBoth, name, gap, turn), factsOf(of, "misclosure", "misclosure-angle"))
			}
		}
	}
}

// saidIf names a fact of words, where there are any.
func saidIf(words, of, what string) string {
	if words == "" {
		return ""
	}
	return factsOf(of, what)
}

// findings lists every hold and every note. A job without any has no such
// sheet.
func (b *book) findings() []page {
	if len(b.l.Findings) == 0 {
		return nil
	}
	first := page{
		id:     b.id("findings"),
		title:  b.say.Say(words.FindingsTitle),
		kind:   Findings,
		paper:  b.runs,
		holds:  b.l.Holds(),
		banner: b.summary(),
		about:  b.say.Say(words.FindingsAbout),
	}
	t := table{
		fill: true,
		cols: []column{
			b.right(words.ColNo), {head: ""}, b.flex(words.ColWhere), b.flex(words.ColWhat),
			b.flex(words.ColWhyMatters), b.flex(words.ColWhatDo), b.col(words.ColFileLine),
			{head: b.say.Say(words.ColClearedDate), least: 2600, flex: false},
		},
	}
	var hold []bool
	numbers, names := b.findingNumbers(), b.l.FindingNames()
	word := map[finding.Severity]string{ // look-up only
		finding.Hold: b.say.Say(words.CoverOnHold), finding.Error: b.say.Say(words.FindingsError),
		finding.Note: b.say.Say(words.FindingsNote),
	}
	for _, sev := range []finding.Severity{finding.Hold, finding.Error, finding.Note} {
		for _, i := range b.findingOrder(sev) {
			f := b.l.Findings[i]
			hold = append(hold, f.Severity == finding.Hold)
			where := f.Where.String()
			if where == "" {
				where = b.say.Say(words.FindingsWholeJob)
			}
			at := ""
			if f.Where.HasStation {
				at = factsOf(names[i], "station")
				where = b.say.Say(
					words.FindingsStation, words.In("where", where),
					words.In("station", b.text(b.l.CrewStation(f.Where))),
				)
			}
			plain := func(s string) string { return orDash(prose(strings.ReplaceAll(s, "`", ""))) }
			place := ""
			if f.At.Line > 0 {
				place = factsOf(names[i], "line", "column")
			}
			t.add(lettered{words: numbers[i]}, lettered{word[f.Severity], factsOf(names[i], "severity")},
				lettered{prose(where), at}, lettered{plain(f.What), factsOf(names[i], "what")},
				lettered{plain(f.Why), saidIf(f.Why, names[i], "why")},
				lettered{plain(f.Mend), saidIf(f.Mend, names[i], "mend")}, lettered{plain(f.At.String()), place},
				lettered{})
		}
	}
	t.bold = func(row, col int) bool { return hold[row] && col < 2 }
	phrase := b.say.Say(words.FindingsHold)
	return b.pages(first, []block{list{items: []string{phrase}, plain: true}, t}, across)
}

// sits says that a view keeps to its room and can be read in it. A view that
// gave up its scale was squeezed.
func sits(v drawing.Scene, w, h drawing.Unit) bool {
	return !v.Squeezed && drawing.Box(0, 0, w, h).Contains(v.Bounds()) && len(drawing.Check(v)) == 0
}
