package sheets

import (
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// seatRows are how the chairs stand on the wall, by run and assembly: of each check the
// chair that has the least to spare.
func (b *book) seatRows() table {
	t := table{
		title: b.say.Say(words.LoadSeats),
		cols: []column{
			b.col(words.ColRun), b.col(words.ColAssembly), b.right(words.ColChairs2), b.flex(words.ColBaseBears),
			b.flex(words.ColBaseOver), b.flex(words.ColScrewsToFace), b.flex(words.ColHangsClear),
			b.flex(words.ColResult),
		},
	}
	last := len(t.cols) - 1
	var held []bool
	for _, r := range b.l.SeatRows() {
		row := unnamed(b.runHead(r.Run), prose(r.Assembly.Name), itoa(r.Chairs))
		open := false
		for _, k := range r.Worst {
			open = open || k.Unknown
			row = append(row, b.seatCheck(k))
		}
		word := words.LoadSeatPass
		switch {
		case !r.Passes:
			word = words.LoadSeatHold
		case open:
			word = words.LoadSeatOpen
		}
		held = append(held, !r.Passes)
		t.add(append(row, unnamed(b.say.Say(word))...)...)
	}
	t.bold = func(row, col int) bool { return held[row] && col == last }
	return t
}

// seatCheck letters one check: C7: 10 11/16", least 5". What has to be no less is
// rounded down, and what stands out up.
func (b *book) seatCheck(k layout.SeatCheck) lettered {
	if k.Unknown {
		return lettered{words: b.say.Say(words.LoadSeatUnknown)}
	}
	has, asked, key := length.FloorTo(k.Has, b.shop.Step()), k.Asked, words.LoadSeatLeast
	switch {
	case k.Code == plan.BaseOver && b.j.System.Chair.Bearing == nil:
		has, key = length.Max(0, -has), words.LoadSeatHas
	case k.Code == plan.BaseOver:
		has, asked, key = length.Max(0, -has), -asked, words.LoadSeatMost
	case asked == 0:
		key = words.LoadSeatHas
	}
	in := []words.Slot{words.In("n", itoa(k.Chair.N)), words.In("has", b.shopText(has))}
	names := k.Fact()
	if key != words.LoadSeatHas {
		in, names = append(in, words.In("asked", b.shopText(asked))), layout.AllNamed(names, k.Fact()+"-asked")
	}
	return lettered{b.say.Say(key, in...), names}
}
