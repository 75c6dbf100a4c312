package sheets

import (
	"crypto/sha256"
	"encoding/hex"
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/layout/record"
)

// What is issued is held against the record of the issue before. A sheet is the one that
// was issued when all is as it was that stands on it, title block and strip left out: it
// keeps its own revision and is not sent again. What of its lettering is new has a cloud
// round it; what came with an earlier revision keeps its triangle.

// matter is a page's own drawing, with what it is worth beside the record.
type matter struct {
	scene drawing.Scene
	sheet record.Sheet // as it would be recorded now
	fresh bool         // the record has no such sheet
}

// tracked says whether sheets have revisions of their own: from the first issue on.
func (b *book) tracked() bool { return b.j.Issued != nil || b.j.Issuing }

// asIssued says that the job is the one of the last record.
func (b *book) asIssued() bool {
	return b.j.Issued != nil && b.j.Issued.Issue.Digest == b.inputDigest()
}

// pending is the revision that the job would be issued as.
func (b *book) pending() string { return b.l.Revision() }

// ofSet says that a kind of sheet is about the whole set, whose revision it has.
func (k Kind) ofSet() bool { return k == Index || k == Transmittal }

// matterOf draws what stands on a page, once.
func (b *book) matterOf(p page, number string, refer func(id string) string) *matter {
	if m, ok := b.matters[p.id]; ok {
		return m
	}
	m := &matter{scene: drawing.Scene{Name: p.id, W: p.paper.w, H: p.paper.h}}
	p.draw(&m.scene, refer)
	if !p.bare {
		b.carriedOn(&m.scene, p.paper, refer(p.next))
	}
	if !b.tracked() {
		return m
	}
	b.compared(m, p, number)
	b.matters[p.id] = m
	return m
}

// compared holds a page against the record.
func (b *book) compared(m *matter, p page, number string) {
	sum := sha256.Sum256([]byte(number + "\n" + p.title + "\n" + p.banner + "\n" + m.scene.Dump()))
	m.sheet = record.Sheet{ID: p.id, Number: number, Title: p.title, Rev: b.pending(),
		Digest: hex.EncodeToString(sum[:16])}
	for _, t := range m.scene.Texts() {
		m.sheet.Said = append(m.sheet.Said, saidBy(t)...)
	}
	slices.Sort(m.sheet.Said)
	m.sheet.Said = slices.Compact(m.sheet.Said)
	was, ok := record.Sheet{}, false
	if b.j.Issued != nil {
		was, ok = b.j.Issued.Sheet(p.id)
	}
	switch {
	case !ok:
		m.fresh = true
	case p.kind.ofSet():
	case was.Digest == m.sheet.Digest:
		m.sheet.Rev, m.sheet.Deltas = was.Rev, was.Deltas
	default:
		m.sheet.Deltas = map[string]string{}
		for _, d := range m.sheet.Said {
			rev, old := was.Deltas[d]
			if !old && !slices.Contains(was.Said, d) {
				rev = b.pending()
			}
			if rev != "" {
				m.sheet.Deltas[d] = rev
			}
		}
	}
}

// saidBy are the digests of a lettering word by word, with what it letters: a sentence
// breaks elsewhere as soon as a column is wider. Numbers keep their fractions, and a short
// lettering with a number and without a name is one with it, for it may be a cell whose
// number stands elsewhere too.
func saidBy(t drawing.Text) []string {
	var parts []string
	fields := strings.Fields(t.Words)
	if t.Fact == "" && len(fields) <= 2 && strings.ContainsAny(t.Words, digits) && !strings.Contains(t.Words, ", ") {
		parts, fields = []string{t.Words}, nil
	}
	for i, w := range fields {
		if i > 0 && fraction(w) && number(fields[i-1]) {
			parts[len(parts)-1] += " " + w
			continue
		}
		parts = append(parts, w)
	}
	out := make([]string, len(parts))
	for i, p := range parts {
		sum := sha256.Sum256([]byte(t.Fact + "\t" + p))
		out[i] = hex.EncodeToString(sum[:4])
	}
	return out
}

const digits = "0123456789"

// fraction says that a word is one, which belongs to the number before it, if there is one.
func fraction(w string) bool { return w[0] >= '0' && w[0] <= '9' && strings.ContainsAny(w, "/⁄") }

// number says that a word ends as a whole number does before its fraction: 12 or 9′-8.
func number(w string) bool { return strings.ContainsRune(digits, rune(w[len(w)-1])) }

// revised draws the marks of revisions over a page's own matter.
func (b *book) revised(s *drawing.Scene, p page, m *matter) {
	if len(m.sheet.Deltas) == 0 || p.kind.ofSet() || p.bare {
		return
	}
	var all []drawing.Revised
	for _, t := range m.scene.Texts() {
		if rev := b.cameWith(t, m.sheet.Deltas); rev != "" {
			all = append(all, drawing.Revised{Text: t, Mark: rev, Now: rev == m.sheet.Rev && rev == b.pending()})
		}
	}
	marks := drawing.Clouds(*s, p.paper.room(p.banner != "").Inset(-pad/2), all)
	s.Group(drawing.Revisions, "revisions", func(g *drawing.Scene) { g.Add(marks...) })
}

// cameWith is the last revision that a part of a lettering came with; empty: the first.
func (b *book) cameWith(t drawing.Text, deltas map[string]string) string {
	order := []string{""}
	if b.j.Issued != nil {
		for _, q := range b.j.Issued.History() {
			order = append(order, q.Mark)
		}
	}
	order = append(order, b.pending())
	at := 0
	for _, d := range saidBy(t) {
		at = max(at, slices.Index(order, deltas[d]))
	}
	return order[at]
}

// revisionOf is the revision that a sheet carries, and its date.
func (b *book) revisionOf(m *matter) (mark, day string) {
	mark = b.pending()
	if b.tracked() {
		mark = m.sheet.Rev
	}
	for _, r := range b.j.Info.Revisions {
		if r.Mark == mark {
			return mark, date(r.Date)
		}
	}
	if b.j.Issued != nil {
		for _, q := range b.j.Issued.History() {
			if q.Mark == mark {
				return mark, q.Date
			}
		}
	}
	return mark, date(b.j.Info.Issued)
}

// revisionOfPage is the revision of a page that the index lists: its own list and the cover
// have that of the set.
func (b *book) revisionOfPage(p page) string {
	if m, ok := b.matters[p.id]; ok && !p.kind.ofSet() {
		return m.sheet.Rev
	}
	return b.pending()
}

// drawAhead draws the matter of pages before the index is laid out, which lists the
// revision of each.
func (b *book) drawAhead(pages []page) {
	if !b.tracked() {
		return
	}
	numbers := b.numbers(pages)
	byID := make(map[string]string, len(pages)) // look-up only
	for i, p := range pages {
		byID[p.id] = numbers[i]
	}
	for i, p := range pages {
		b.matterOf(p, numbers[i], func(id string) string { return byID[p.inOwn(id, byID)] })
	}
}
