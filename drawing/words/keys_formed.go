// Code generated from table/formed.csv by go test ./drawing/words -update; DO NOT EDIT.

package words

// Sentences of formed.csv.
const (
	FormedTop        Key = "formed.top"
	FormedTopAbout   Key = "formed.top.about"
	FormedStreet     Key = "formed.street"
	FormedRoof       Key = "formed.roof"
	FormedHigh       Key = "formed.high"
	FormedSolid      Key = "formed.solid"
	FormedSolidAbout Key = "formed.solid.about"
	FormedEnd        Key = "formed.end"
)
