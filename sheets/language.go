package sheets

import (
	"maps"
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/job"
)

// The sheets of the crew and of receiving are said in the job's language, or in two, on
// facing sheets of one number. The others stay in English, as findings do.

// spoken says whether a kind of sheet is said in the language of the crew. What the
// crew shares with the office stays in English in a packet for others.
func (k Kind) spoken(a Audience) bool {
	switch k {
	case Safety, WorkSheet, Plywood, Glossary, RunSheet, CrateList, PieceLabels, CrateLabels:
		return true
	case Index, Sections:
		return a == All || a == Crew || a == Receiving
	}
	return false
}

// spanishTail is what the ids of sheets end with that stand beside their English.
const spanishTail = "-es"

// inLanguages lists the pages of a packet in the languages of the job, and the book
// that numbers them.
func inLanguages(l *layout.Layout, o Options) (*book, []page) {
	b := newBook(l, o)
	if o.Lang != words.English || l.Job.Language == job.InEnglish {
		return b, b.plan()
	}
	o.Lang = words.Spanish
	c := newBook(l, o)
	c.matters = b.matters
	b.beside, c.beside, b.leads = c, b, true
	both := l.Job.Language == job.InBoth
	if both {
		c.tongue = spanishTail
	}
	rest, other := b.rest(), c.rest()
	rest = b.faced(c, rest, other, both)
	b.drawAhead(rest)
	if !both {
		front := c.front()
		pages := slices.Concat(front, c.sheetList(front, rest), rest)
		if !Index.spoken(o.For) {
			front = b.front()
			pages = slices.Concat(front, b.sheetList(front, rest), rest)
		}
		maps.Copy(b.subjects, c.subjects)
		return b, c.spokenBy(pages, o.For)
	}
	front := b.faced(c, b.front(), c.front(), both)
	return b, slices.Concat(front, b.sheetList(front, rest), rest)
}

// faced puts the pages of another language in the place of those that are spoken, or
// each behind its own; what the other language has more of stands behind what it
// continues.
func (b *book) faced(c *book, own, other []page, both bool) []page {
	other = slices.DeleteFunc(other, func(p page) bool {
		return !p.kind.spoken(b.reader) || both && p.kind == Glossary // which has both on one sheet
	})
	other = c.spokenBy(other, b.reader)
	maps.Copy(b.subjects, c.subjects)
	maps.Copy(c.subjects, b.subjects)
	numbers, others := b.numbers(own), b.numbers(other)
	var out []page
	at := 0
	for i, p := range own {
		if !p.kind.spoken(b.reader) {
			out = append(out, p)
			continue
		}
		if both && p.kind == Glossary { // its reader is the one who needs the other language
			p.by = c
		}
		if both {
			out = append(out, p)
		}
		for ; at < len(other) && (others[at] == numbers[i] || !slices.Contains(numbers, others[at])); at++ {
			out = append(out, other[at])
		}
	}
	return append(out, other[at:]...)
}

// facing says that runs stand together on a sheet of the other language too, so that
// sheets of one number show the same.
func (b *book) facing(p *layout.Perimeter, runs []*layout.Run) bool {
	if b.beside == nil {
		return true
	}
	_, ok := b.beside.on(p.Job).together(p, runs)
	return ok
}

// spokenBy are pages whose spoken ones are drawn by this book.
func (b *book) spokenBy(pages []page, a Audience) []page {
	for i := range pages {
		if pages[i].kind.spoken(a) {
			pages[i].tongue = b.tongue
			if pages[i].by == nil {
				pages[i].by = b
			}
		}
	}
	return pages
}

// inOwn is the id of a sheet in a page's own language, where there is one.
func (p page) inOwn(id string, all map[string]string) string {
	if p.tongue == "" {
		return id
	}
	if own := strings.TrimSuffix(id, p.tongue) + p.tongue; all[own] != "" {
		return own
	}
	return id
}

// leadingTo are marks whose links lead elsewhere.
func leadingTo(marks []drawing.Mark, to func(id string) string) []drawing.Mark {
	out := make([]drawing.Mark, len(marks))
	for i, m := range marks {
		switch m := m.(type) {
		case drawing.Link:
			m.Target = to(m.Target)
			out[i] = m
		case drawing.Group:
			m.Marks = leadingTo(m.Marks, to)
			out[i] = m
		default:
			out[i] = m
		}
	}
	return out
}

// translation says of a sheet in another language whether a fluent reader went over it;
// empty in English.
func (b *book) translation() string {
	switch name := b.j.ReviewedBy; {
	case b.say.Lang != words.Spanish:
		return ""
	case name == "":
		return b.say.Say(words.FrameTranslation)
	default:
		return b.say.Say(words.FrameTranslationBy, words.In("name", prose(name)))
	}
}
