// Code generated from table/unit.csv by go test ./drawing/words -update; DO NOT EDIT.

package words

// Sentences of unit.csv.
const (
	UnitMm         Key = "unit.mm"
	UnitRange      Key = "unit.range"
	UnitDiameterOf Key = "unit.diameter.of"
	UnitKn         Key = "unit.kn"
	UnitLb         Key = "unit.lb"
	UnitKnM        Key = "unit.kn-m"
	UnitLbFt       Key = "unit.lb-ft"
	UnitKg         Key = "unit.kg"
	UnitStrength   Key = "unit.strength"
	UnitAllowable  Key = "unit.allowable"
	UnitAsPulled   Key = "unit.as-pulled"
	UnitKpa        Key = "unit.kpa"
	UnitPsf        Key = "unit.psf"
	UnitFallMm     Key = "unit.fall.mm"
	UnitFallFoot   Key = "unit.fall.foot"
	UnitList       Key = "unit.list"
)
