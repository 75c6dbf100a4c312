// Code generated from table/fastening.csv by go test ./drawing/words -update; DO NOT EDIT.

package words

// Sentences of fastening.csv.
const (
	FasteningByZone        Key = "fastening.by-zone"
	FasteningHold          Key = "fastening.hold"
	FasteningUnsurveyed    Key = "fastening.unsurveyed"
	FasteningRowStreet     Key = "fastening.row.street"
	FasteningRowRoof       Key = "fastening.row.roof"
	FasteningWood          Key = "fastening.wood"
	FasteningPullPasses    Key = "fastening.pull-passes"
	FasteningPullAlone     Key = "fastening.pull-alone"
	FasteningPass          Key = "fastening.pass"
	FasteningNo            Key = "fastening.no"
	FasteningCaseForce     Key = "fastening.case-force"
	FasteningWoodSource    Key = "fastening.wood.source"
	FasteningWoodUnchecked Key = "fastening.wood.unchecked"
	FasteningNailer        Key = "fastening.nailer"
	FasteningNotStated     Key = "fastening.not-stated"
	FasteningCase          Key = "fastening.case"
	FasteningNailerCases   Key = "fastening.nailer.cases"
	FasteningNailerNoShear Key = "fastening.nailer.no-shear"
	FasteningNailerClose   Key = "fastening.nailer.close"
	FasteningGreatest      Key = "fastening.greatest"
	FasteningGreatestEnd   Key = "fastening.greatest.end"
	FasteningGreatestTitle Key = "fastening.greatest.title"
	FasteningZoneEdge      Key = "fastening.zone.edge"
	FasteningZoneCorner    Key = "fastening.zone.corner"
)
