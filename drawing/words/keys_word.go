// Code generated from table/word.csv by go test ./drawing/words -update; DO NOT EDIT.

package words

// Sentences of word.csv.
const (
	WordTitle   Key = "word.title"
	WordPiece   Key = "word.piece"
	WordCorner  Key = "word.corner"
	WordJoint   Key = "word.joint"
	WordLay     Key = "word.lay"
	WordShop    Key = "word.shop"
	WordDoubt   Key = "word.doubt"
	WordSides   Key = "word.sides"
	WordLines   Key = "word.lines"
	WordCloser  Key = "word.closer"
	WordRelease Key = "word.release"
	WordSheet   Key = "word.sheet"
)
