// Code generated from table/part.csv by go test ./drawing/words -update; DO NOT EDIT.

package words

// Sentences of part.csv.
const (
	PartsTitle        Key = "parts.title"
	PartsAbout        Key = "parts.about"
	PartNoneReleased  Key = "part.none-released"
	PartSomeReleased  Key = "part.some-released"
	PartByHand        Key = "part.by-hand"
	PartCapInside     Key = "part.cap-inside"
	PartAssembly      Key = "part.assembly"
	PartTwinOf        Key = "part.twin-of"
	PartTitle         Key = "part.title"
	PartByHandWhy     Key = "part.by-hand.why"
	PartHand          Key = "part.hand"
	PartMake          Key = "part.make"
	PartMetal         Key = "part.metal"
	PartEach          Key = "part.each"
	PartTwin          Key = "part.twin"
	PartHold          Key = "part.hold"
	PartGaugeBend     Key = "part.gauge.bend"
	PartGauge         Key = "part.gauge"
	PartHoles         Key = "part.holes"
	PartCut           Key = "part.cut"
	PartStrips        Key = "part.strips"
	PartUnplanned     Key = "part.unplanned"
	PartSheetOf       Key = "part.sheet.of"
	PartCutHow        Key = "part.cut.how"
	PartMetalUnstated Key = "part.metal-unstated"
	PartMetalOf       Key = "part.metal-of"
	PartMakeSpare     Key = "part.make.spare"
	PartHeld          Key = "part.held"
	PartBends         Key = "part.bends"
)
