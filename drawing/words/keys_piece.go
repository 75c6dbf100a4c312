// Code generated from table/piece.csv by go test ./drawing/words -update; DO NOT EDIT.

package words

// Sentences of piece.csv.
const (
	WidthInside      Key = "width.inside"
	WidthWidths      Key = "width.widths"
	WidthTopFalls    Key = "width.top-falls"
	TeeMainRun       Key = "tee.main-run"
	TeeMainLength    Key = "tee.main.length"
	TeeBranchRun     Key = "tee.branch-run"
	TeeBranchLength  Key = "tee.branch.length"
	TeeWidth         Key = "tee.width"
	TeeInside        Key = "tee.inside"
	TeeDrop          Key = "tee.drop"
	TeeDropBy        Key = "tee.drop.by"
	TeeHandHead      Key = "tee.hand.head"
	TeeHand          Key = "tee.hand"
	PieceHole        Key = "piece.hole"
	WidthMiddle      Key = "width.middle"
	WidthLeftLeg     Key = "width.left-leg"
	WidthRightLeg    Key = "width.right-leg"
	WidthInsideGirth Key = "width.inside.girth"
	WidthSlope       Key = "width.slope"
	WidthTwo         Key = "width.two"
	WidthLegHere     Key = "width.leg-here"
)
