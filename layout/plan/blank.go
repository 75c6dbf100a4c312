package plan

import (
	"strings"

	"copingset/layout/fold"
	"copingset/layout/length"
)

// Key begins the names of the facts of one thing: "family 103.body-1-bend-2-". An
// empty one names none.
type Key string

// Fact is the name of the fact of a quantity.
func (k Key) Fact(what string) string {
	if k == "" {
		return ""
	}
	return string(k) + what
}

// Of is the key of a part of the thing.
func (k Key) Of(part string) Key { return Key(k.Fact(part)) }

// Blank is one flat sheet of metal with its finish side up, at 1:1 in millimetres: x
// from its left end, y up from its lower edge.
type Blank struct {
	Key           Key           // of its facts
	Metric        bool          // lettered in millimetres
	Name          string        // which sheet of the piece: "left leg"
	Length, Girth length.Length // along the grain and across, rounded up
	Outline       []fold.Point  // counterclockwise, the corners that are dimensioned
	Cut           []fold.Point  // what is cut: the outline with its reliefs
	Square        bool          // a plain rectangle
	Edges         [2]BlankEdge  // the upper and the lower one
	Sides         BlankSides
	Bends         []BlankBend
	Holes         []BlankHole
	Faces         []BlankFace   // the root first
	Corners       []BlankCorner // those that a rule can tell, clockwise from the left one of the upper edge
	Reliefs       []fold.Point
	Relief        BlankRelief
	Film          string // on its finish side
}

// Bounds of a blank: its lower left and its upper right corner.
func (b Blank) Bounds() (lo, hi fold.Point) { return fold.Flat{Outline: b.Outline}.Bounds() }

// BlankEdge is where an edge of a blank begins and ends, from its left end.
type BlankEdge struct{ From, To length.Length }

// BlankSides name the four sides of a blank.
type BlankSides struct{ Top, Bottom, Left, Right string }

// BlankBend is a bend line of a blank.
type BlankBend struct {
	Key                  Key
	Order                int // in which it is made, from 1
	Left, Right          fold.Point
	Turn                 float64 // degrees, positive UP, towards the viewer
	Radius               float64 // inside, millimetres
	Up, Hem              bool
	Level                bool // it runs along the blank
	Across               bool // it runs across it, and is set from the ends
	Between              [2]string
	FromStreet, FromRoof length.Length    // from the upper and the lower edge
	EndsFromStreet       [2]length.Length // its left and its right end from the upper edge
	FromLeft             length.Length    // of one that runs across, from the left end
}

// BlankHole is a hole in a blank. Its sides are from the left end and from the
// upper edge.
type BlankHole struct {
	Key                       Key
	Ring                      []fold.Point
	Left, Right, Street, Roof length.Length
	Centre                    fold.Point
	Radius                    float64 // of a round one; zero: it is not round
	Rivet                     bool    // of a seam
}

// BlankFace is a flat face between its bends.
type BlankFace struct {
	Key     Key
	Name    string
	Ring    []fold.Point
	Outside length.Length // across its fold, of the formed piece
	Slope   length.Slope  // of the root of a leg: how it falls to the roof
}

// BlankCorner is a corner of the outline.
type BlankCorner struct {
	Key                  Key
	At                   fold.Point
	FromLeft, FromStreet length.Length
}

// BlankRelief is what is cut out at the ends of bends: a hole, or else a slot along
// the bend.
type BlankRelief struct{ Diameter, Width, Depth Value }

// Facts are the names of what a sentence letters of it, parted by bars.
func (r BlankRelief) Facts() string {
	if r.Diameter.Real > 0 {
		return strings.Join(Facts(r.Diameter), "|")
	}
	return strings.Join(Facts(r.Width, r.Depth), "|")
}

// Pattern is a blank in a drawing of several.
type Pattern struct {
	Blank
	Title  string // over it, in capitals; may be empty
	Joined bool   // welded to the blank before it, and to be read with it
	Varies bool   // the drawing serves several lengths: the sheet has a table of them
	Held   bool   // not released
	Falls  bool   // a leg of a piece of two widths: the fall of its top is lettered
}

// FormedPart is the section of a made part: its faces from one corner to the next.
type FormedPart struct {
	Mark      string
	Metric    bool
	FromAbove bool         // else from its left end
	Path      []fold.Point // on the mold lines, street at the left, z up
	Faces     []FormedFace
	Metal     []fold.Point // outline of the sheet, with its thickness; nothing where it is no one section
}

// FormedFace is a face of a made part.
type FormedFace struct {
	Fact string // of its length
	Name string
	Long length.Length // outside
}

// CutBar is how one formed cap is cut, from the left.
type CutBar struct {
	Key    Key
	Metric bool
	N      int    // of its lot, from 1
	Mark   string // of the formed cap; empty: a drop in hand
	Count  int
	Length length.Length
	Kerf   length.Length
	Drop   length.Length
	Kept   bool // the drop
	Cuts   []CutPiece
}

// CutPiece is a piece that is cut from a formed cap.
type CutPiece struct {
	Mark string
	Long length.Length
	Fact string // of its length
}

// CutSheet is how one sheet is ripped into strips, and those cut to blanks, from the
// left.
type CutSheet struct {
	Key               Key
	Metric            bool
	N                 int // of its lot, from 1
	Count             int
	Width, Length     length.Length
	EdgeTrim, EndTrim length.Length
	Rest              length.Length // of the width
	Yield             int           // how much of it the blanks take, in per cent, rounded down
	Strips            []CutStrip
}

// CutStrip is a strip of a sheet.
type CutStrip struct {
	Width length.Length
	Cuts  []CutBlank
}

// CutBlank is a blank to be sheared.
type CutBlank struct {
	Key           Key
	Mark          string
	Formed        bool // of a formed cap that closers are cut from
	Turned        bool // it lies turned in its strip, its length across
	Count         int
	Girth, Length length.Length
}
