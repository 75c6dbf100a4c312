// Code generated from table/trial.csv by go test ./drawing/words -update; DO NOT EDIT.

package words

// Sentences of trial.csv.
const (
	TrialStripsTitle Key = "trial-strips.title"
	TrialStripsAbout Key = "trial-strips.about"
	TrialTitle       Key = "trial.title"
	TrialWhy         Key = "trial.why"
	TrialCut         Key = "trial.cut"
	TrialBend        Key = "trial.bend"
	TrialMeasure     Key = "trial.measure"
	TrialDeduction   Key = "trial.deduction"
	TrialWrite       Key = "trial.write"
	TrialStrips      Key = "trial.strips"
	TrialStated      Key = "trial.stated"
	TrialMoldLine    Key = "trial.mold-line"
	TrialTangent     Key = "trial.tangent"
	TrialNameUp      Key = "trial.name.up"
	TrialNameDown    Key = "trial.name.down"
	TrialNameBoth    Key = "trial.name.both"
	TrialBendUp      Key = "trial.bend.up"
	TrialBendDown    Key = "trial.bend.down"
	TrialPicture     Key = "trial.picture"
)
