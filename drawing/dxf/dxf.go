// Package dxf writes drawings at 1:1 for machines that cut and bend.
//
// A Drawing is composed for this purpose and never made from a sheet, whose
// marks are scaled and rounded for paper. Every mark lies on one of the layers
// of this package; what a machine follows (CUT, BEND UP, BEND DOWN, and MARK, which
// is etched) is apart from what is only read (TEXT, REFERENCE). The file is ASCII DXF of the AC1015 format
// (Autodesk's published DXF reference), in millimetres or inches.
package dxf

import (
	"fmt"
	"strconv"
	"strings"
)

// Layer of a mark.
type Layer int

// The layers, in the order of the file.
const (
	Cut Layer = iota
	BendUp
	BendDown
	Mark      // etched into the metal
	Text      // read, neither cut nor etched
	Reference // lines that are read
)

// Layers lists all layers.
func Layers() []Layer { return []Layer{Cut, BendUp, BendDown, Mark, Text, Reference} }

func (l Layer) String() string {
	return [...]string{"CUT", "BEND UP", "BEND DOWN", "MARK", "TEXT", "REFERENCE"}[l]
}

// colour is the index of the layer's colour; the names tell the layers apart,
// the colours only help.
func (l Layer) colour() int { return [...]int{7, 5, 1, 3, 8, 9}[l] }

// dashed reports whether a layer is drawn dashed: bends are.
func (l Layer) dashed() bool { return l == BendUp || l == BendDown }

// Point in the drawing's units, x to the right, y up.
type Point struct{ X, Y float64 }

// Polyline is a run of straight lines.
type Polyline struct {
	Layer  Layer
	Points []Point
	Closed bool
}

// Circle is a round hole.
type Circle struct {
	Layer  Layer
	Centre Point
	Radius float64
}

// Note is a text that begins at a point, or is centred on it.
type Note struct {
	Layer    Layer
	At       Point
	Height   float64
	Text     string
	Centre   bool
	Backward bool // mirrored left to right, to be read from the other face
}

// Drawing is one file.
type Drawing struct {
	Inches  bool // the unit; millimetres otherwise
	Lines   []Polyline
	Circles []Circle
	Notes   []Note
}

// Encode writes the drawing. Numbers have six decimals at most, so that the same
// drawing gives the same bytes.
func Encode(d Drawing) []byte {
	w := &writer{}
	w.header(d)
	w.tables()
	w.blocks()
	w.section("ENTITIES")
	for _, p := range d.Lines {
		w.polyline(p)
	}
	for _, c := range d.Circles {
		w.circle(c)
	}
	for _, n := range d.Notes {
		w.note(n)
	}
	w.end()
	w.objects()
	w.pair(0, "EOF")
	return []byte(w.String())
}

type writer struct {
	strings.Builder
	handle int
}

// Fixed handles of what other parts of a file refer to; entities count on from
// firstHandle.
const (
	modelRecord = "1F"
	paperRecord = "1E"
	dictionary  = "C"
	firstHandle = 0x100
)

func (w *writer) pair(code int, value string) {
	w.WriteString(strconv.Itoa(code))
	w.WriteByte('\n')
	w.WriteString(value)
	w.WriteByte('\n')
}

func (w *writer) pairs(kv ...any) {
	for i := 0; i < len(kv); i += 2 {
		w.pair(kv[i].(int), fmt.Sprint(kv[i+1]))
	}
}

func (w *writer) number(code int, f float64) {
	s := strconv.FormatFloat(f, 'f', 6, 64)
	s = strings.TrimRight(s, "0")
	s = strings.TrimSuffix(s, ".")
	if s == "-0" {
		s = "0"
	}
	w.pair(code, s)
}

func (w *writer) point(p Point) {
	w.number(10, p.X)
	w.number(20, p.Y)
}

func (w *writer) next() string {
	w.handle++
	return fmt.Sprintf("%X", firstHandle+w.handle-1)
}

func (w *writer) section(name string) { w.pairs(0, "SECTION", 2, name) }
func (w *writer) end()                { w.pair(0, "ENDSEC") }

func (w *writer) header(d Drawing) {
	// The pattern of DASHED is 12 units and 6: at this scale one dash is 6 mm.
	units, metric, scale := 4, 1, 0.5
	if d.Inches {
		units, metric, scale = 1, 0, 0.5/25.4
	}
	lo, hi := d.extent()
	w.section("HEADER")
	w.pairs(9, "$ACADVER", 1, "AC1015", 9, "$DWGCODEPAGE", 3, "ANSI_1252",
		9, "$HANDSEED", 5, fmt.Sprintf("%X", firstHandle+2+len(d.Lines)+len(d.Circles)+len(d.Notes)),
		9, "$INSUNITS", 70, units, 9, "$MEASUREMENT", 70, metric, 9, "$LTSCALE")
	w.number(40, scale)
	for _, e := range []struct {
		name string
		at   Point
	}{{"$EXTMIN", lo}, {"$EXTMAX", hi}} {
		w.pair(9, e.name)
		w.point(e.at)
		w.number(30, 0)
	}
	w.end()
}

func (d Drawing) extent() (lo, hi Point) {
	first := true
	hold := func(q Point) {
		if first {
			lo, hi, first = q, q, false
		}
		lo, hi = Point{min(lo.X, q.X), min(lo.Y, q.Y)}, Point{max(hi.X, q.X), max(hi.Y, q.Y)}
	}
	for _, p := range d.Lines {
		for _, q := range p.Points {
			hold(q)
		}
	}
	for _, c := range d.Circles {
		hold(Point{c.Centre.X - c.Radius, c.Centre.Y - c.Radius})
		hold(Point{c.Centre.X + c.Radius, c.Centre.Y + c.Radius})
	}
	for _, n := range d.Notes { // how wide a text is depends on who draws it
		hold(n.At)
		hold(Point{n.At.X, n.At.Y + n.Height})
	}
	return lo, hi
}

func (w *writer) table(name, handle string, n int, rows func()) {
	w.pairs(0, "TABLE", 2, name, 5, handle, 330, "0", 100, "AcDbSymbolTable", 70, n)
	if name == "DIMSTYLE" {
		w.pair(100, "AcDbDimStyleTable")
	}
	rows()
	w.pair(0, "ENDTAB")
}

func (w *writer) record(kind, handle, table, class string, kv ...any) {
	w.pairs(0, kind, 5, handle, 330, table, 100, "AcDbSymbolTableRecord", 100, class)
	w.pairs(kv...)
}

func (w *writer) tables() {
	w.section("TABLES")
	w.table("VPORT", "8", 0, func() {})
	w.table("LTYPE", "5", 4, func() {
		const class = "AcDbLinetypeTableRecord"
		w.record("LTYPE", "14", "5", class, 2, "ByBlock", 70, 0, 3, "", 72, 65, 73, 0, 40, "0.0")
		w.record("LTYPE", "15", "5", class, 2, "ByLayer", 70, 0, 3, "", 72, 65, 73, 0, 40, "0.0")
		w.record("LTYPE", "16", "5", class, 2, "Continuous", 70, 0, 3, "Solid line", 72, 65, 73, 0, 40, "0.0")
		w.record("LTYPE", "17", "5", class, 2, "DASHED", 70, 0, 3, "Dashed __ __", 72, 65, 73, 2, 40, "18.0", 49,
			"12.0", 74, 0, 49, "-6.0", 74, 0)
	})
	w.table("LAYER", "2", len(Layers())+1, func() {
		const class = "AcDbLayerTableRecord"
		w.record("LAYER", "10", "2", class, 2, "0", 70, 0, 62, 7, 6, "Continuous", 390, "F")
		for i, l := range Layers() {
			line := "Continuous"
			if l.dashed() {
				line = "DASHED"
			}
			w.record("LAYER", fmt.Sprintf("%X", 0x30+i), "2", class, 2, l, 70, 0, 62, l.colour(), 6, line, 390, "F")
		}
	})
	w.table("STYLE", "3", 1, func() {
		w.record("STYLE", "11", "3", "AcDbTextStyleTableRecord", 2, "Standard", 70, 0, 40, "0.0", 41, "1.0", 50, "0.0",
			71, 0, 42, "2.5", 3, "txt", 4, "")
	})
	w.table("VIEW", "6", 0, func() {})
	w.table("UCS", "7", 0, func() {})
	w.table("APPID", "9", 1, func() {
		w.record("APPID", "12", "9", "AcDbRegAppTableRecord", 2, "ACAD", 70, 0)
	})
	w.table("DIMSTYLE", "A", 0, func() {})
	w.table("BLOCK_RECORD", "1", 2, func() {
		w.record("BLOCK_RECORD", modelRecord, "1", "AcDbBlockTableRecord", 2, "*Model_Space", 340, "0")
		w.record("BLOCK_RECORD", paperRecord, "1", "AcDbBlockTableRecord", 2, "*Paper_Space", 340, "0")
	})
	w.end()
}

func (w *writer) blocks() {
	w.section("BLOCKS")
	for i, b := range []struct{ record, name string }{{modelRecord, "*Model_Space"}, {paperRecord, "*Paper_Space"}} {
		w.pairs(0, "BLOCK", 5, fmt.Sprintf("%X", 0x20+2*i), 330, b.record, 100, "AcDbEntity", 8, "0", 100,
			"AcDbBlockBegin",
			2, b.name, 70, 0, 10, "0.0", 20, "0.0", 30, "0.0", 3, b.name, 1, "",
			0, "ENDBLK", 5, fmt.Sprintf("%X", 0x21+2*i), 330, b.record, 100, "AcDbEntity", 8, "0", 100, "AcDbBlockEnd")
	}
	w.end()
}

func (w *writer) entity(kind string, l Layer, class string) {
	w.pairs(0, kind, 5, w.next(), 330, modelRecord, 100, "AcDbEntity", 8, l, 100, class)
}

func (w *writer) polyline(p Polyline) {
	closed := 0
	if p.Closed {
		closed = 1
	}
	w.entity("LWPOLYLINE", p.Layer, "AcDbPolyline")
	w.pairs(90, len(p.Points), 70, closed, 43, "0.0")
	for _, q := range p.Points {
		w.point(q)
	}
}

func (w *writer) circle(c Circle) {
	w.entity("CIRCLE", c.Layer, "AcDbCircle")
	w.point(c.Centre)
	w.number(30, 0)
	w.number(40, c.Radius)
}

func (w *writer) note(n Note) {
	w.entity("TEXT", n.Layer, "AcDbText")
	w.point(n.At)
	w.number(30, 0)
	w.number(40, n.Height)
	w.pair(1, escape(n.Text))
	if n.Backward {
		w.pair(71, "2")
	}
	if n.Centre {
		w.pair(72, "1")
		w.number(11, n.At.X)
		w.number(21, n.At.Y)
		w.number(31, 0)
	}
	w.pair(100, "AcDbText")
}

// escape writes what is not ASCII by its code point, as the format asks, and
// keeps control signs and line ends out.
func escape(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r < ' ':
			b.WriteByte(' ')
		case r < 0x7f:
			b.WriteRune(r)
		case r <= 0xffff:
			fmt.Fprintf(&b, "\\U+%04X", r)
		default:
			b.WriteByte('?')
		}
	}
	return b.String()
}

func (w *writer) objects() {
	// ACDBPLACEHOLDER is a class of the format: the plot style that stands for the normal one.
	w.section("OBJECTS")
	w.pairs(0, "DICTIONARY", 5, dictionary, 330, "0", 100, "AcDbDictionary", 281, 1, 3, "ACAD_GROUP", 350, "D",
		3, "ACAD_PLOTSTYLENAME", 350, "E",
		0, "DICTIONARY", 5, "D", 330, dictionary, 100, "AcDbDictionary", 281, 1,
		0, "ACDBDICTIONARYWDFLT", 5, "E", 330, dictionary, 100, "AcDbDictionary", 281, 1, 3, "Normal", 350, "F", 100,
		"AcDbDictionaryWithDefault", 340, "F",
		0, "ACDBPLACEHOLDER", 5, "F", 330, "E")
	w.end()
}
