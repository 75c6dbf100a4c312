package job

import "copingset/layout/length"

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
	Check *Mark // nil: none is stated
}

func (m *Mark) keys(k keys) {
	k.name("what", &m.What, "what the mark is", "brass pin")
	k.name("where", &m.Where, "where the crew finds it", "in the curb of the roof hatch, street side")
	k.signedLength("reading", &m.Reading, "its height above the level datum, negative if it is below", `-2'-4"`)
}

func (b *Benchmark) keys(k keys) {
	b.Mark.keys(k)
	optional(k.may(), "check", &b.Check, (*Mark).keys, "a second mark to check the first by")
}
