package sheets

import (
	"path"
	"strings"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/record"
)

// Transmit are the sheets that go with an issue: what is sent, what has to be withdrawn,
// what changed, the holds, and every file with its digest. They are no part of the packet,
// whose own digest they state. now is the record of the issue with its sheets and files,
// was the one before; nil: none.
func Transmit(l *layout.Layout, now, was *record.Record, lang words.Lang) []Sheet {
	b := newBook(l, Options{Lang: lang})
	t := transmitting{book: b, now: now, was: was}
	first := page{
		id:    b.id("issue", now.Issue.Mark),
		title: b.say.Say(words.IssueTitle, words.In("mark", prose(now.Issue.Mark))),
		kind:  Transmittal,
		paper: b.lists,
		holds: b.l.Holds(),
		about: b.say.Say(words.IssueAbout),
	}
	pages := b.pages(first, t.blocks(), across)
	out := make([]Sheet, len(pages))
	for i, p := range pages {
		number := "T." + prose(now.Issue.Mark) + "." + itoa(i+1)
		next := map[string]string{p.next: "T." + prose(now.Issue.Mark) + "." + itoa(i+2)} // look-up only
		delete(next, "")
		out[i] = Sheet{ID: p.id, Number: number, Title: p.title, Kind: p.kind,
			Scene: b.draw(p, number, func(id string) string { return next[id] })}
	}
	return out
}

type transmitting struct {
	*book
	now, was *record.Record
}

func (t transmitting) blocks() []block {
	in, say := t.j.Info, t.say.Say
	before := say(words.IssueFirst)
	if t.was != nil {
		before = prose(t.was.Issue.Mark + ", " + t.was.Issue.Date)
	}
	rows := [][]string{
		{say(words.ReviewJob), prose(strings.TrimSpace(in.Number + " " + in.Name))},
		{say(words.ReviewAddress), prose(in.Address)},
		{say(words.ReviewFrom), prose(t.firm())},
		{say(words.IssueIssue), prose(t.now.Issue.Mark)},
		{say(words.IssueDate), t.now.Issue.Date},
		{say(words.IssueNote), prose(t.now.Issue.Note)},
		{say(words.IssueBefore), before},
		{say(words.IssueInput), t.now.Issue.Digest[:digestShown]},
		{say(words.IssueReceived), strings.Repeat(" ", 30)},
	}
	out := []block{facts("", kept(rows)), t.holdsOpen()}
	if t.was != nil {
		lines := t.changeLinesSince()
		out = append(out, list{title: say(words.IssueChanged, words.In("mark", prose(t.was.Issue.Mark))), items: lines})
	}
	if w := t.withdrawn(); len(w.rows) > 0 {
		out = append(out, w)
	}
	if w := t.filesWithdrawn(); len(w.rows) > 0 {
		out = append(out, w)
	}
	sent, kept := t.sent()
	out = append(out, sent)
	if kept > 0 {
		out = append(out, list{items: []string{
			t.countAlone(words.IssueKept, kept),
		}, plain: true})
	}
	return append(out, t.files(), list{items: []string{say(words.IssueFilesHow)}, plain: true})
}

// countAlone counts by a sentence whose form for one has no number.
func (b *book) countAlone(key words.Key, n int) string {
	if n == 1 {
		return b.say.Count(key, 1)
	}
	return b.say.Count(key, n, words.In("n", itoa(n)))
}

func (t transmitting) changeLinesSince() []string {
	lines := ChangeLines(t.was.Facts, t.now.Facts, t.say.Lang)
	if len(lines) == 0 {
		return []string{t.say.Say(words.IssueNothing)}
	}
	return lines
}

// holdsOpen lists the holds that the issue goes out with.
func (t transmitting) holdsOpen() block {
	holds := t.l.Holds()
	if len(holds) == 0 {
		return list{items: []string{t.say.Say(words.IssueNoHolds)}, plain: true}
	}
	out := table{title: t.say.Say(words.IssueHolds, words.In("n", itoa(len(holds)))), fill: true,
		cols: []column{t.col(words.IssueColCode), t.flex(words.ColWhere), t.flex(words.IssueColWhat)}}
	for _, f := range holds {
		where := f.Where.String()
		if where == "" {
			where = t.say.Say(words.FindingsWholeJob)
		}
		out.rows = append(out.rows, []string{f.Code, prose(where), prose(strings.ReplaceAll(f.What, "`", ""))})
	}
	return out
}

// sent lists the sheets that have this revision, and counts those that keep theirs.
func (t transmitting) sent() (table, int) {
	out := table{fill: true, cols: []column{t.col(words.ColSheet), t.flex(words.ColTitle), t.col(words.IssueColWas),
		t.col(words.IssueColNow)}}
	kept := 0
	for _, s := range t.now.Sheets {
		if s.Rev != t.now.Issue.Mark {
			kept++
			continue
		}
		was := t.say.Say(words.IssueNew)
		if t.was != nil {
			if old, ok := t.was.Sheet(s.ID); ok {
				was = prose(old.Rev)
			}
		}
		now := prose(s.Rev)
		if bare(s) {
			now = t.say.Say(words.IssueNoCloud, words.In("rev", now))
		}
		out.rows = append(out.rows, []string{s.Number, prose(s.Title), was, now})
	}
	out.title = t.say.Say(words.IssueSent, words.In("n", itoa(len(out.rows))))
	return out, kept
}

// bare says of a sheet that changed that nothing on it has a cloud: its lines moved, or
// words are left out. Sheets that are new or about the whole set have no list of changes.
func bare(s record.Sheet) bool {
	if s.Deltas == nil {
		return false
	}
	for _, rev := range s.Deltas {
		if rev == s.Rev {
			return false
		}
	}
	return true
}

// withdrawn lists the sheets of the issue before that are no longer good.
func (t transmitting) withdrawn() table {
	out := table{fill: true,
		cols: []column{t.col(words.ColSheet), t.flex(words.ColTitle), t.col(words.ColRev), t.flex(words.IssueColNow)}}
	if t.was == nil {
		return out
	}
	for _, s := range t.was.Sheets {
		now, ok := t.now.Sheet(s.ID)
		switch {
		case !ok:
			out.rows = append(out.rows, []string{s.Number, prose(s.Title), prose(s.Rev), t.say.Say(words.IssueLeftOut)})
		case now.Rev != s.Rev:
			out.rows = append(out.rows, []string{s.Number, prose(s.Title), prose(s.Rev),
				t.say.Say(words.IssueReplaced, words.In("rev", prose(now.Rev)))})
		}
	}
	out.title = t.say.Say(words.IssueWithdraw, words.In("n", itoa(len(out.rows))))
	return out
}

// filesWithdrawn lists the drawings for machines that this issue no longer has, or has
// with another content.
func (t transmitting) filesWithdrawn() table {
	out := table{fill: true, cols: []column{t.flex(words.IssueColFile), t.flex(words.IssueColNow)}}
	if t.was == nil {
		return out
	}
	now := map[string]string{} // look-up only
	for _, f := range t.now.Files {
		now[f.Name] = f.Digest
	}
	for _, f := range t.was.Files {
		if path.Ext(f.Name) != ".dxf" || now[f.Name] == f.Digest {
			continue
		}
		say := t.say.Say(words.IssueLeftOut)
		if now[f.Name] != "" {
			say = t.say.Say(words.IssueReplaced, words.In("rev", prose(t.now.Issue.Mark)))
		}
		out.rows = append(out.rows, []string{prose(f.Name), say})
	}
	out.title = t.say.Say(words.IssueWithdrawFiles, words.In("n", itoa(len(out.rows))))
	return out
}

// files lists every file with its digest, in two lines that can be compared by eye.
func (t transmitting) files() table {
	out := table{title: t.say.Say(words.IssueFiles, words.In("n", itoa(len(t.now.Files)))), fill: true, snug: true,
		cols: []column{t.flex(words.IssueColFile), {head: t.say.Say(words.IssueColSum), align: drawing.Left}}}
	for _, f := range t.now.Files {
		out.rows = append(out.rows, []string{prose(f.Name), grouped(f.Digest)})
	}
	return out
}

// grouped parts a digest into two lines of four groups.
func grouped(digest string) string {
	var out strings.Builder
	for i := 0; i < len(digest); i += 8 {
		switch {
		case i == len(digest)/2:
			out.WriteByte('\n')
		case i > 0:
			out.WriteByte(' ')
		}
		out.WriteString(digest[i:min(len(digest), i+8)])
	}
	return out.String()
}
