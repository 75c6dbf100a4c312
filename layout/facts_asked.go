package layout

import "copingset/layout/fact"

// InstructionFacts is what the facts of the crew's instructions are of.
const InstructionFacts = "instructions"

// askedName is what the fact of something asked for is called.
func askedName(k AskedKind) string {
	return [...]string{AskedHoles: "holes", AskedDriving: "driving", AskedMembrane: "membrane-least",
		AskedSlack: "membrane-slack", AskedTape: "tape-least", AskedSealant: "plate-sealant",
		AskedWallEnd: "wall-end", AskedLastGap: "last-gap", AskedNight: "night", AskedRain: "rain"}[k]
}

// ofInstructions is what is said to what the crew asks for.
func (b *facts) ofInstructions() {
	i := &b.l.Job.Instructions
	b.about(fact.Job, InstructionFacts)
	b.said("fabricator", i.Fabricator)
	b.said("contractor", i.Contractor)
	for _, a := range b.l.Asked() {
		switch what := askedName(a.Kind); {
		case a.Temperature != nil:
			b.temp(what, *a.Temperature)
		case a.Length > 0:
			b.length(what, a.Length)
		default:
			b.said(what, a.Words)
		}
	}
}
