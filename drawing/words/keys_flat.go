// Code generated from table/flat.csv by go test ./drawing/words -update; DO NOT EDIT.

package words

// Sentences of flat.csv.
const (
	FlatTitle         Key = "flat.title"
	FlatTitleBody     Key = "flat.title.body"
	FlatAbout         Key = "flat.about"
	FlatLines         Key = "flat.lines"
	FlatCorners       Key = "flat.corners"
	FlatUp            Key = "flat.up"
	FlatDown          Key = "flat.down"
	FlatHemTeardrop   Key = "flat.hem-teardrop"
	FlatHemOpen       Key = "flat.hem-open"
	FlatHemFlat       Key = "flat.hem-flat"
	FlatLengthTable   Key = "flat.length-table"
	FlatFromLeft      Key = "flat.from-left"
	FlatSlants        Key = "flat.slants"
	FlatSide          Key = "flat.side"
	FlatOutside       Key = "flat.outside"
	FlatFinish        Key = "flat.finish"
	FlatFilm          Key = "flat.film"
	FlatFalls         Key = "flat.falls"
	FlatHole          Key = "flat.hole"
	FlatCorner        Key = "flat.corner"
	FlatReliefDrilled Key = "flat.relief-drilled"
	FlatRelief        Key = "flat.relief"
	FlatHeld          Key = "flat.held"
	FlatHeldOne       Key = "flat.held-one"
	FlatDetail        Key = "flat.detail"
	FlatDetailAbout   Key = "flat.detail.about"
	FlatSizeFour      Key = "flat.size-four"
	FlatSizeTwo       Key = "flat.size-two"
	FlatSizeFull      Key = "flat.size-full"
	FlatSizeHalf      Key = "flat.size-half"
	FlatSizeQuarter   Key = "flat.size-quarter"
)
