package job

import (
	"copingset/layout/finding"
	"copingset/layout/length"
)

// Mark is a place on the building that a levelling rod is held on, with its height
// over the level datum from which the tops of the wall were measured.
type Mark struct {
	What, Where string
	Reading     length.Length // over the datum; negative: below it
}

// Benchmark is the mark that the crew levels from, and a second one that shows whether
// the first has moved or the instrument is out.
type Benchmark struct {
	Mark
	Check *Mark      // nil: none is stated
	Loop  *LevelLoop // nil: how the tops were levelled is not stated
}

// LevelLoop is the levelling of a survey that began on the benchmark and came back to
// it: what the rod read there first and last, and on the point that was kept each time
// the instrument was moved.
type LevelLoop struct {
	At          finding.Place
	First, Last length.Length // rod on the benchmark
	Moves       []Move
	Most        length.Length // misclosure that the job accepts
}

// Move is what the rod read on one point from where the instrument stood, and from
// where it was moved to.
type Move struct{ Before, After length.Length }

// Misclosure is how much higher the benchmark comes out at the end of the loop than it
// was at its beginning: the sum of backsights less the sum of foresights.
func (l *LevelLoop) Misclosure() length.Length {
	sum := l.First - l.Last
	for _, m := range l.Moves {
		sum += m.After - m.Before
	}
	return sum
}

func (m *Mark) keys(k keys) {
	k.name("what", &m.What, "what the mark is", "brass pin")
	k.name("where", &m.Where, "where the crew finds it", "in the curb of the roof hatch, street side")
	k.signedLength("reading", &m.Reading, "its height above the level datum, negative if it is below", `-2'-4"`)
}

func (b *Benchmark) keys(k keys) {
	b.Mark.keys(k)
	optional(k.may(), "check", &b.Check, (*Mark).keys, "a second mark to check the first by")
	optional(k.may(), "loop", &b.Loop, (*LevelLoop).keys,
		"how the tops were levelled: from the mark and back to it")
}

func (l *LevelLoop) keys(k keys) {
	l.At = k.at
	k.length("first", &l.First, "the rod on the mark before the first top", `4'-2 1/2"`)
	list(k.may(), "moves", "move", &l.Moves, (*Move).keys, "each move of the instrument")
	k.length("last", &l.Last, "the rod on the mark after the last top", `4'-2 1/2"`)
	k.length("most", &l.Most, "the misclosure that the job accepts", `1/8"`)
}

func (m *Move) keys(k keys) {
	k.length("before", &m.Before, "the rod on a point that is kept, before the instrument is moved", `5'-1"`)
	k.length("after", &m.After, "the rod on the same point after it", `3'-11 1/2"`)
}
