package sheets

import (
	"strings"

	"copingset/drawing/words"
	"copingset/layout"
)

// asking is how something that the crew asks for is put, and what is said where no
// instruction answers it.
type asking struct{ head, not words.Key }

func askings() map[layout.AskedKind]asking {
	return map[layout.AskedKind]asking{ // look-up only
		layout.AskedHoles:    {words.WorkAskedHoles, words.WorkAskedHolesNot},
		layout.AskedDriving:  {words.WorkAskedDriving, words.WorkAskedDrivingNot},
		layout.AskedMembrane: {words.WorkAskedMembrane, words.WorkAskedMembraneNot},
		layout.AskedSlack:    {words.WorkAskedSlack, words.WorkAskedSlackNot},
		layout.AskedTape:     {words.WorkAskedTape, words.WorkAskedTapeNot},
		layout.AskedSealant:  {words.WorkAskedSealant, words.WorkAskedSealantNot},
		layout.AskedWallEnd:  {words.WorkAskedWallEnd, words.WorkAskedWallEndNot},
		layout.AskedLastGap:  {words.WorkAskedLastGap, words.WorkAskedLastGapNot},
		layout.AskedNight:    {words.WorkAskedNight, words.WorkAskedNightNot},
		layout.AskedRain:     {words.WorkAskedRain, words.WorkAskedRainNot},
	}
}

// askedTable is what instructions say to what a crew asks for; what they do not say
// stands there as not stated, with what to do till somebody states it.
func (b *book) askedTable() table {
	say := b.say.Say
	t := table{title: say(words.WorkAskedTitle), fill: true, snug: true, whole: true,
		cols: []column{{head: say(words.WorkAskedWhat)}, {head: say(words.WorkAskedStated), flex: true}}}
	t.bold = func(row, col int) bool { return col == 0 }
	not := func(k words.Key) string { return say(words.WorkAskedNot) + " " + say(k) }
	if len(b.j.Packing.Shims) > 0 {
		shims := lettered{words: not(words.WorkAskedShimsNot)}
		if s := b.j.Packing.Shim; s.Stated() {
			shims = lettered{say(words.WorkAskedShimsAre, words.In("material", prose(s.Material)),
				words.In("long", b.exactly(s.Length)), words.In("wide", b.exactly(s.Width))),
				factsOf("packing", "shim-material", "shim-length", "shim-width")}
		}
		t.add(lettered{words: say(words.WorkAskedShims)}, shims)
	}
	how := askings()
	for _, a := range b.l.Asked() {
		said := prose(a.Words)
		switch {
		case !a.Stated():
			said = not(how[a.Kind].not)
		case a.Kind == layout.AskedMembrane:
			said = say(words.WorkAskedMembraneAt, words.In("least", b.temperature(*a.Temperature)))
		case a.Kind == layout.AskedTape:
			said = say(words.WorkAskedTapeAt, words.In("least", b.temperature(*a.Temperature)))
		case a.Kind == layout.AskedSlack:
			said = say(words.WorkAskedSlackAt, words.In("deep", b.small(a.Length)))
		}
		t.add(lettered{words: say(how[a.Kind].head)}, lettered{said, a.Fact})
	}
	if from := b.papersOfInstructions(); from.words != "" {
		t.add(lettered{}, from)
	}
	return t
}

// papersOfInstructions names the papers that the crew's instructions are from.
func (b *book) papersOfInstructions() lettered {
	i := &b.j.Instructions
	var from, names []string
	for _, s := range []struct{ paper, what string }{{i.Fabricator, "fabricator"}, {i.Contractor, "contractor"}} {
		if s.paper != "" {
			from, names = append(from, prose(s.paper)), append(names, layout.Named(layout.InstructionFacts, s.what))
		}
	}
	if len(from) == 0 {
		return lettered{}
	}
	return lettered{b.say.Say(words.WorkAskedFrom, words.In("from", strings.Join(from, "; "))),
		layout.AllNamed(names...)}
}

// supportsUnfixed says that the screws of the corner supports are not counted, where the
// job does not say what they are.
func (b *book) supportsUnfixed() string {
	if b.j.System.Corner.Support.Fixing != nil {
		return ""
	}
	return b.say.Say(words.CrateWithoutSupports)
}

// supportTable is what lies under each corner support.
func (b *book) supportTable() table {
	say := b.say.Say
	t := table{title: say(words.WorkSupportsTitle), snug: true, cols: []column{{head: say(words.WorkSupportsMark)},
		{head: say(words.WorkSupportsPlies)}, {head: say(words.WorkSupportsShims)}}}
	for _, p := range b.l.Perimeters {
		for _, s := range p.Supports {
			t.add(lettered{words: s.Name}, lettered{dash(s.Layers), factsOf(s.Name, "plies")},
				lettered{b.shims(s.Shims), factsOf(s.Name, "shims")})
		}
	}
	return t
}
