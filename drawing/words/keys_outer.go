// Code generated from table/outer.csv by go test ./drawing/words -update; DO NOT EDIT.

package words

// Sentences of outer.csv.
const (
	OuterStreet Key = "outer.street"
	OuterCourt  Key = "outer.court"
	OuterWell   Key = "outer.well"
	OuterYard   Key = "outer.yard"
)
