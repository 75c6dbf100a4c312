package layout

import (
	"slices"
	"strconv"
	"strings"

	"copingset/layout/cap"
	"copingset/layout/record"
)

// Record is the record of the job as it is solved: who it is, every fact, and every mark
// that was ever given, those of earlier issues with those of this one. Sheets and files
// are for whoever draws and writes them to add.
func (l *Layout) Record() *record.Record {
	j := l.Job
	r := &record.Record{Version: record.Version, Job: record.Job{Name: j.Info.Name, Number: j.Info.Number},
		Issue: record.Issue{Mark: l.Revision(), Date: date(j.Info.Issued), Digest: j.Digest()}, Facts: l.Facts()}
	if n := len(j.Info.Revisions); n > 0 {
		q := j.Info.Revisions[n-1]
		r.Issue.Date, r.Issue.Note = date(q.Date), q.Note
	}
	if last := j.Issued; last != nil {
		r.Earlier = last.History()
		if last.Issue.Digest == r.Issue.Digest { // the same one again
			r.Earlier = last.Earlier
		}
	}
	for _, s := range j.Sources {
		r.Inputs = append(r.Inputs, record.File{Name: s.Name, Digest: s.Digest})
	}
	r.Shop = l.shopMarks()
	r.Pieces = l.pieceMarks()
	return r
}

// shopMarks are all that were given: those of earlier issues in their order, then new ones.
func (l *Layout) shopMarks() []record.ShopMark {
	var out []record.ShopMark
	if l.Job.Issued != nil {
		out = slices.Clone(l.Job.Issued.Shop)
	}
	for i := range out {
		out[i].Made = "" // withdrawn, unless the job has it
	}
	put := func(mark, shape, made string) {
		s := record.ShopMark{Mark: mark, Shape: shape, Rev: l.madeSince(mark, made), Made: made}
		if i := slices.IndexFunc(out, func(o record.ShopMark) bool { return o.Mark == mark }); i >= 0 {
			out[i] = s
			return
		}
		out = append(out, s)
	}
	for _, f := range l.Families {
		put(f.Mark, f.Shape, l.madeOfFamily(f))
	}
	for _, p := range l.Parts {
		put(p.Mark, p.Shape, l.madeOfPart(p))
	}
	return out
}

// madeOfFamily and madeOfPart tell what a drawing for the shop says beside the shape: how
// many are made, and for what.
func (l *Layout) madeOfFamily(f *Family) string {
	var out []string
	for _, q := range f.Pieces {
		if l.Held.Released(q) {
			out = append(out, q.Mark)
		}
	}
	return strings.Join(out, " ")
}

func (l *Layout) madeOfPart(p *MadePart) string {
	n, spares := p.Make(l.Held)
	return strconv.Itoa(n + spares)
}

// madeSince is the revision in which a drawing for the shop last changed: a mark's shape
// never does, but how many are made and for what.
func (l *Layout) madeSince(mark, made string) string {
	if l.Job.Issued != nil {
		if s, ok := l.Job.Issued.ShopMark(mark); ok && s.Made == made && s.Rev != "" {
			return s.Rev
		}
	}
	return l.Revision()
}

// RevisionOfFamily is the revision that the drawings of a family carry.
func (l *Layout) RevisionOfFamily(f *Family) string { return l.madeSince(f.Mark, l.madeOfFamily(f)) }

// RevisionOfPart is the revision that the drawing of a part carries.
func (l *Layout) RevisionOfPart(p *MadePart) string { return l.madeSince(p.Mark, l.madeOfPart(p)) }

// pieceMarks are all that were given, with what was made for each.
func (l *Layout) pieceMarks() []record.PieceMark {
	var out []record.PieceMark
	if l.Job.Issued != nil {
		out = slices.Clone(l.Job.Issued.Pieces)
	}
	for i := range out {
		out[i].Gone = true
	}
	for _, p := range l.Perimeters {
		for _, q := range p.Pieces {
			m := record.PieceMark{Mark: q.Mark, Kind: q.Kind.String()}
			if q.Kind == cap.Straight || q.Kind == cap.Transition {
				first := q.Parts[0]
				m.Run = p.Job.Name + "/" + first.Run.Name
				m.From, m.To = first.Run.ToCrew(first.From), first.Run.ToCrew(first.To)
			}
			i := slices.IndexFunc(out, func(o record.PieceMark) bool { return o.Mark == q.Mark })
			if i < 0 {
				i, out = len(out), append(out, m)
			}
			m.Made = slices.Clone(out[i].Made)
			if x, n := l.metalOf(q), len(m.Made); n == 0 || !m.Made[n-1].Same(x) {
				m.Made = append(m.Made, x)
			}
			out[i] = m
		}
	}
	return out
}

// metalOf is what a piece is in metal.
func (l *Layout) metalOf(q *Piece) record.Metal {
	m := record.Metal{Rev: l.Revision(), Kind: q.KindName(), Hand: q.Hand.String(), Inside: q.Inside, Lot: q.Lot,
		Holes: len(q.Cutouts)}
	for i := range q.Parts {
		front, _ := Shipped(q, i)
		m.Parts = append(m.Parts, front)
	}
	if f := l.FamilyOf(q); f != nil {
		m.Shop, m.Shape = f.Mark, f.Shape
		return m
	}
	m.Shape = plainShape(m)
	return m
}

// plainShape tells pieces apart where no shop is stated that would make patterns.
func plainShape(m record.Metal) string {
	words := []string{m.Kind, m.Hand, strconv.FormatInt(int64(m.Inside), 10)}
	for _, p := range m.Parts {
		words = append(words, strconv.FormatInt(int64(p), 10))
	}
	return strings.Join(words, " ")
}
