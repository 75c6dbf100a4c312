// Code generated from table/level.csv by go test ./drawing/words -update; DO NOT EDIT.

package words

// Sentences of level.csv.
const (
	LevellingTitle        Key = "levelling.title"
	LevellingAbout        Key = "levelling.about"
	LevelBothWaysJob      Key = "level.both-ways.job"
	LevelRecommendedWhy   Key = "level.recommended.why"
	LevelNoWay            Key = "level.no-way"
	LevelTaken            Key = "level.taken"
	LevelRates            Key = "level.rates"
	LevelHow              Key = "level.how"
	LevelPiecesSet        Key = "level.pieces-set"
	LevelStripsPlywood    Key = "level.strips-plywood"
	LevelShims            Key = "level.shims"
	LevelSawCuts          Key = "level.saw-cuts"
	LevelPlywoodLength    Key = "level.plywood.length"
	LevelSheets           Key = "level.sheets"
	LevelNails            Key = "level.nails"
	LevelMissing          Key = "level.missing"
	LevelLabour           Key = "level.labour"
	LevelMoney            Key = "level.money"
	LevelRecommended      Key = "level.recommended"
	LevelRecommendedLarge Key = "level.recommended.large"
	LevelBothWays         Key = "level.both-ways"
	LevelBothWaysOf       Key = "level.both-ways.of"
	LevelChairsAlone      Key = "level.chairs-alone"
	LevelContinuous       Key = "level.continuous"
	LevelRecommendedWay   Key = "level.recommended-way"
	LevelTakenOtherwise   Key = "level.taken.otherwise"
	LevelSheetsLeast      Key = "level.sheets.least"
	LevelNailsOf          Key = "level.nails.of"
	LevelTime             Key = "level.time"
)
