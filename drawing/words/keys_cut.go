// Code generated from table/cut.csv by go test ./drawing/words -update; DO NOT EDIT.

package words

// Sentences of cut.csv.
const (
	CuttingTitle   Key = "cutting.title"
	CuttingAbout   Key = "cutting.about"
	CutHowClosers  Key = "cut.how.closers"
	CutHowSheets   Key = "cut.how.sheets"
	CutHowBound    Key = "cut.how.bound"
	CutHow         Key = "cut.how"
	CutOneLot      Key = "cut.one-lot"
	CutBare        Key = "cut.bare"
	CutPlans       Key = "cut.plans"
	CutCaps        Key = "cut.caps"
	CutSheets      Key = "cut.sheets"
	CutNothing     Key = "cut.nothing"
	CutSqFt        Key = "cut.sq-ft"
	CutOfCap       Key = "cut.of-cap"
	CutWaste       Key = "cut.waste"
	CutAllLots     Key = "cut.all-lots"
	CutLeftOut     Key = "cut.left-out"
	BlanksTitle    Key = "blanks.title"
	BlanksAbout    Key = "blanks.about"
	CutSizes       Key = "cut.sizes"
	CutLot         Key = "cut.lot"
	CutLotOf       Key = "cut.lot.of"
	CutLotAfter    Key = "cut.lot.after"
	CutBest        Key = "cut.best"
	CutUnbounded   Key = "cut.unbounded"
	CutLeastCaps   Key = "cut.least.caps"
	CutLeastSheets Key = "cut.least.sheets"
	CutLeftOutPlan Key = "cut.left-out.plan"
	CutLeftOutList Key = "cut.left-out.list"
	CutPieces      Key = "cut.pieces"
	CutBlanks      Key = "cut.blanks"
	CutFormed      Key = "cut.formed"
)
