// Code generated from table/caution.csv by go test ./drawing/words -update; DO NOT EDIT.

package words

// Sentences of caution.csv.
const (
	CautionStrip       Key = "caution.strip"
	CautionGovernsHead Key = "caution.governs.head"
	CautionGoverns     Key = "caution.governs"
	CautionPlan        Key = "caution.plan"
	CautionPlanNamed   Key = "caution.plan.named"
	CautionFallHead    Key = "caution.fall.head"
	CautionFall        Key = "caution.fall"
	CautionFallBlank   Key = "caution.fall.blank"
	CautionLineHead    Key = "caution.line.head"
	CautionLine        Key = "caution.line"
	CautionTieHead     Key = "caution.tie.head"
	CautionTie         Key = "caution.tie"
	CautionWindHead    Key = "caution.wind.head"
	CautionWind        Key = "caution.wind"
	CautionWindBlank   Key = "caution.wind.blank"
	CautionCutHead     Key = "caution.cut.head"
	CautionCut         Key = "caution.cut"
	CautionDustHead    Key = "caution.dust.head"
	CautionDust        Key = "caution.dust"
	CautionHeatHead    Key = "caution.heat.head"
	CautionHeat        Key = "caution.heat"
	CautionLiftHead    Key = "caution.lift.head"
	CautionLiftMarked  Key = "caution.lift.marked"
	CautionLiftLimits  Key = "caution.lift.limits"
	CautionBelowHead   Key = "caution.below.head"
	CautionBelow       Key = "caution.below"
	CautionStackHead   Key = "caution.stack.head"
	CautionStack       Key = "caution.stack"
	CautionSoundHead   Key = "caution.sound.head"
	CautionSound       Key = "caution.sound"
	CautionTitle       Key = "caution.title"
	CautionAbout       Key = "caution.about"
)
