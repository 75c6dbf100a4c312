// Code generated from table/second.csv by go test ./drawing/words -update; DO NOT EDIT.

package words

// Sentences of second.csv.
const (
	SecondCorners  Key = "second.corners"
	SecondAbout    Key = "second.about"
	SecondFirst    Key = "second.first"
	SecondSections Key = "second.sections"
	SecondFigures  Key = "second.figures"
	SecondWork     Key = "second.work"
	SecondNotes    Key = "second.notes"
)
