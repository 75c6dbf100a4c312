// Code generated from table/glossary.csv by go test ./drawing/words -update; DO NOT EDIT.

package words

// Sentences of glossary.csv.
const (
	GlossaryTitle         Key = "glossary.title"
	GlossaryAbout         Key = "glossary.about"
	GlossaryCoping        Key = "glossary.coping"
	GlossaryParapet       Key = "glossary.parapet"
	GlossaryOutsideCorner Key = "glossary.outside-corner"
	GlossaryInsideCorner  Key = "glossary.inside-corner"
	GlossarySplicePlate   Key = "glossary.splice-plate"
	GlossaryEndCap        Key = "glossary.end-cap"
	GlossaryDrip          Key = "glossary.drip"
	GlossaryHook          Key = "glossary.hook"
	GlossarySnap          Key = "glossary.snap"
	GlossaryMembrane      Key = "glossary.membrane"
	GlossaryTape          Key = "glossary.tape"
	GlossaryScrew         Key = "glossary.screw"
	GlossaryWasher        Key = "glossary.washer"
	GlossaryHole          Key = "glossary.hole"
	GlossaryPilot         Key = "glossary.pilot"
	GlossarySheetMetal    Key = "glossary.sheet-metal"
	GlossaryFilm          Key = "glossary.film"
	GlossaryLevel         Key = "glossary.level"
	GlossaryPlumb         Key = "glossary.plumb"
	GlossaryRod           Key = "glossary.rod"
	GlossaryCrate         Key = "glossary.crate"
	GlossarySheet         Key = "glossary.sheet"
	GlossaryForeman       Key = "glossary.foreman"
	GlossaryEdge          Key = "glossary.edge"
	GlossaryHarness       Key = "glossary.harness"
	GlossaryAnchorage     Key = "glossary.anchorage"
	GlossaryLifeline      Key = "glossary.lifeline"
	GlossaryGuardrail     Key = "glossary.guardrail"
	GlossaryDoNotTie      Key = "glossary.do-not-tie"
	GlossaryStop          Key = "glossary.stop"
)
