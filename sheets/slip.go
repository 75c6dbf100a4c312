package sheets

import (
	"strings"

	"copingset/drawing/words"
	"copingset/layout"
)

// Slip is the sheet on which a piece that came short or damaged is ordered again. reason
// and photo are as whoever unloads says them; either may be empty and is then a box to
// write in.
func Slip(l *layout.Layout, q *layout.Piece, reason, photo string, lang words.Lang) []Sheet {
	b := newBook(l, Options{Lang: lang})
	first := page{
		id:    b.id("replacement", q.Mark),
		title: b.say.Say(words.SlipTitle, words.In("mark", b.pieceMark(q))),
		kind:  ShopSheet,
		paper: b.lists,
		holds: b.l.HoldsOnPiece(q),
		about: b.say.Say(words.SlipAbout),
	}
	first.banner = b.holdWords(first.holds)
	blank := table{fill: true, whole: true, high: 1100, rows: [][]string{{"", "", ""}}, cols: []column{
		{head: b.say.Say(words.SlipOrdered), least: 4000}, {head: b.say.Say(words.SlipPromised), least: 3600},
		{head: b.say.Say(words.ColSignature), least: 4000}}}
	blocks := []block{b.slipFacts(q, reason, photo), b.slipNotes(q), b.startsWithout(q), blank}
	var out []Sheet
	for i, p := range b.pages(first, blocks, across) {
		number := "R." + plainMark(q.Mark) + "." + itoa(i+1)
		out = append(out, Sheet{ID: p.id, Number: number, Title: p.title, Kind: p.kind,
			Scene: b.draw(p, number, func(string) string { return "" })})
	}
	return out
}

// slipFacts is all that the shop has to know to make the piece again.
func (b *book) slipFacts(q *layout.Piece, reason, photo string) table {
	say, m := b.say.Say, b.l.Made(q)
	hand := say(words.SlipHandNone)
	if m.Hand != "" {
		hand = strings.ToUpper(b.labelHand(q))
	}
	var street, roof, girth, width []string
	for i := range q.Parts {
		s, r := layout.Shipped(q, i)
		street, roof = append(street, b.shopLong(s)), append(roof, b.shopLong(r))
	}
	for _, w := range m.Widths {
		if said := b.shopShort(w); len(width) == 0 || width[0] != said {
			width = append(width, said)
		}
	}
	for _, g := range m.Girths {
		girth = append(girth, b.shopShort(g))
	}
	metal := b.j.System.Metal
	rows := [][]string{
		{say(words.SlipMark), b.pieceMark(q)},
		{say(words.SlipWhat), b.pieceWords(q)},
		{say(words.SlipHand), hand},
		{say(words.SlipPlace), b.labelPlaceOf(q)},
		{say(words.SlipWidth), strings.Join(width, ", ")},
		{say(words.SlipStreet), strings.Join(street, " + ")},
		{say(words.SlipRoof), strings.Join(roof, " + ")},
		{say(words.SlipGirth), strings.Join(girth, ", ")},
		{say(words.SlipMetal), prose(metal.Name + " " + b.thick(metal.Thickness))},
		{say(words.SlipFinish), prose(strings.TrimSpace(metal.Finish + ", " + orDash(q.Lot)))},
	}
	if f := b.l.FamilyOf(q); f != nil {
		rows = append(rows, []string{say(words.SlipShopMark), f.Mark + ", " + b.l.RevisionOfFamily(f)})
	}
	rows = append(rows, [][]string{
		{say(words.SlipWeight), b.weight(b.l.Weight(q).Shipped) + ", " + b.liftShort(q)},
		{say(words.SlipCrate), b.crateOf(q)},
		{say(words.SlipReason), boxed(prose(reason))},
		{say(words.SlipPhoto), boxed(prose(photo))},
	}...)
	t := facts(say(words.SlipAgain), rows)
	t.high = 700
	t.bold = func(row, col int) bool { return col == 1 && (row == 0 || row == 2) }
	return t
}

// boxed is what is said, or room to write it.
func boxed(said string) string {
	if said == "" {
		return " "
	}
	return said
}

// slipNotes say what may keep the piece from being made.
func (b *book) slipNotes(q *layout.Piece) list {
	var items []string
	if holds := b.l.Held[q]; len(holds) > 0 {
		var names []string
		for _, code := range holds {
			names = append(names, b.holdName(code))
		}
		items = append(items, b.say.Say(words.SlipHeld, words.In("holds", strings.Join(names, ", "))))
	}
	return list{items: append(items, b.say.Say(words.SlipLot)), plain: true}
}

// startsWithout says of each run how far it can be laid while the piece is missing.
func (b *book) startsWithout(q *layout.Piece) list {
	mark := words.In("mark", q.Mark)
	items := []string{b.say.Say(words.SlipChairs)}
	for _, s := range b.l.StartsWithout(q) {
		run := words.In("run", prose(b.runHead(s.Run)))
		switch {
		case s.Free:
			items = append(items, b.say.Say(words.SlipCan, run))
		case len(s.Before) == 0:
			items = append(items, b.say.Say(words.SlipWait, run, mark))
		default:
			items = append(items, b.say.Say(words.SlipUntil, run, mark,
				words.In("marks", b.marksListed(s.Before))))
		}
	}
	return list{title: b.say.Say(words.SlipStart), items: items}
}
