package outline

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"copingset/layout/finding"
	"copingset/layout/length"
)

// drawingUnits are the units of a DXF by its header variable $INSUNITS (DXF
// reference, HEADER section).
var drawingUnits = map[int]length.Length{1: length.Inch, 2: length.Foot, 4: length.Millimetre, 5: length.Centimetre,
	6: length.Metre, 14: 100 * length.Millimetre}

// mostDXF is the size from which a drawing is not read.
const mostDXF = 64 << 20

// pair is a group of a DXF: its code, its value and the line that the value is on.
type pair struct {
	code  int
	value string
	line  int
}

// entity is one thing drawn.
type entity struct {
	kind   string
	line   int
	groups []pair
}

// DXF reads closed loops from an ASCII drawing: closed polylines, with bulges, and
// lines and arcs whose ends meet to within o.Near. Lettering, dimensions and points
// are left out and counted. The header must state the units. What may be part of an
// outline and cannot be read, a block, a spline, an ellipse, is an error at its line.
func DXF(r io.Reader, name string, o Options) ([]Ring, []string, finding.List) {
	d := &dxfReader{file: name, o: o, left: map[string]int{}}
	data, err := io.ReadAll(io.LimitReader(r, mostDXF+1))
	switch {
	case err != nil:
		d.fail(0, "outline-dxf", "see that the file can be read", "%v", err)
	case len(data) > mostDXF:
		d.fail(0, "outline-dxf", "save the outline alone", "the drawing has more than %d MB", mostDXF>>20)
	case bytes.HasPrefix(data, []byte("AutoCAD Binary DXF")):
		d.fail(1, "outline-dxf", "save it as an ASCII DXF", "this is a binary DXF")
	default:
		d.read(data)
	}
	if d.found.HasErrors() {
		return nil, d.changes(), d.found
	}
	return d.rings, d.changes(), d.found
}

type dxfReader struct {
	file  string
	o     Options
	unit  length.Length
	rings []Ring
	open  []piece // lines, arcs and open polylines, to be joined
	left  map[string]int
	found finding.List
}

// piece is a drawn stretch between two ends.
type piece struct {
	v    []Vertex // both ends and what lies between
	line int
	used bool
}

func (d *dxfReader) fail(line int, code, mend, format string, args ...any) {
	const most = 20
	if len(d.found) < most {
		d.found = append(d.found, finding.New(finding.Error, code, finding.Place{File: d.file, Line: line}, mend,
			format, args...))
	}
}

func (d *dxfReader) changes() []string {
	var kinds []string
	for k := range d.left {
		kinds = append(kinds, k)
	}
	slices.Sort(kinds)
	var out []string
	for _, k := range kinds {
		out = append(out, fmt.Sprintf("%d × %s left out", d.left[k], k))
	}
	return out
}

// read goes through the sections.
func (d *dxfReader) read(data []byte) {
	pairs, err := pairsOf(data)
	if err != nil {
		d.found = append(d.found, finding.New(finding.Error, "outline-dxf", finding.Place{File: d.file, Line: err.line},
			"save the drawing again as an ASCII DXF", "%s", err.what))
		return
	}
	section, units := "", 0
	var entities []entity
	for i := 0; i < len(pairs); i++ {
		p := pairs[i]
		switch {
		case p.code == 0 && p.value == "SECTION" && i+1 < len(pairs):
			section = pairs[i+1].value
			i++
		case p.code == 0 && p.value == "ENDSEC":
			section = ""
		case section == "HEADER" && p.code == 9 && p.value == "$INSUNITS" && i+1 < len(pairs):
			units, _ = strconv.Atoi(pairs[i+1].value)
		case section == "ENTITIES" && p.code == 0:
			entities = append(entities, entity{kind: p.value, line: p.line})
		case section == "ENTITIES" && len(entities) > 0:
			e := &entities[len(entities)-1]
			e.groups = append(e.groups, p)
		}
	}
	var known bool
	if d.unit, known = drawingUnits[units]; !known {
		d.fail(1, "outline-units", "set the drawing's units (inches, feet, millimetres, centimetres or metres) and "+
			"save it again",
			"the drawing does not state what its units are")
		return
	}
	d.entities(entities)
	d.join()
}

type dxfFault struct {
	line int
	what string
}

func pairsOf(data []byte) ([]pair, *dxfFault) {
	var out []pair
	s := bufio.NewScanner(bytes.NewReader(data))
	s.Buffer(make([]byte, 0, 1<<16), 1<<20)
	line := 0
	for s.Scan() {
		line++
		text := strings.TrimSpace(s.Text())
		code, err := strconv.Atoi(text)
		if err != nil {
			return nil, &dxfFault{line, fmt.Sprintf("a group code was expected, and %.20q stands here", text)}
		}
		if !s.Scan() {
			return nil, &dxfFault{line, "the file ends in the middle of a group"}
		}
		line++
		out = append(out, pair{code, strings.TrimSpace(s.Text()), line})
	}
	if err := s.Err(); err != nil {
		return nil, &dxfFault{line, err.Error()}
	}
	if len(out) == 0 {
		return nil, &dxfFault{1, "the file is empty"}
	}
	return out, nil
}

// entities takes what is drawn on the layer that was asked for.
func (d *dxfReader) entities(all []entity) {
	for i := 0; i < len(all); i++ {
		e := all[i]
		vertices := i + 1
		if e.kind == "POLYLINE" {
			for vertices < len(all) && all[vertices].kind == "VERTEX" {
				vertices++
			}
		}
		if d.o.Layer != "" && !strings.EqualFold(e.text(8), d.o.Layer) {
			i = vertices - 1
			continue
		}
		switch e.kind {
		case "LINE":
			d.stretch(e, []Vertex{d.vertex(e, e.num(10), e.num(20), e.line), d.vertex(e, e.num(11), e.num(21), e.line)})
		case "ARC":
			d.arc(e)
		case "CIRCLE":
			d.circle(e)
		case "LWPOLYLINE":
			d.light(e)
		case "POLYLINE":
			d.heavy(e, all[i+1:vertices])
			i = vertices - 1
		case "TEXT", "MTEXT", "DIMENSION", "POINT", "ATTDEF", "LEADER", "MULTILEADER", "HATCH", "VIEWPORT", "SOLID",
			"SEQEND", "WIPEOUT", "IMAGE":
			if e.kind != "SEQEND" {
				d.left[e.kind]++
			}
		case "INSERT":
			d.fail(e.line, "outline-entity", "explode the block, or name the outline's layer with --layer",
				"block %s may hold part of the outline and is not read", e.text(2))
		default:
			d.fail(e.line, "outline-entity",
				"draw the outline with polylines, lines and arcs, or name its layer with --layer", "%s is not read",
				e.kind)
		}
	}
}

func (e entity) text(code int) string {
	for _, p := range e.groups {
		if p.code == code {
			return p.value
		}
	}
	return ""
}

func (e entity) num(code int) float64 {
	f, err := strconv.ParseFloat(e.text(code), 64)
	if err != nil {
		return 0
	}
	return f
}

// vertex is a corner in plan. A drawing's entity may lie in a frame that is seen
// from below (extrusion 0, 0, -1): its x then runs the other way.
func (d *dxfReader) vertex(e entity, x, y float64, line int) Vertex {
	at := finding.Place{File: d.file, Line: line}
	if e.below() && e.kind != "LINE" { // the ends of a line are in the drawing's own frame
		x = -x
	}
	px, errX := scaled(x, d.unit)
	py, errY := scaled(y, d.unit)
	if errX != nil || errY != nil || math.IsNaN(x) || math.IsNaN(y) {
		d.fail(line, "outline-entity", "check the drawing's units and its origin",
			"a point of %s lies farther away than any roof", e.kind)
	}
	return Vertex{Point: Point{px, py}, At: at}
}

func (e entity) below() bool { return e.num(230) < 0 }

func (d *dxfReader) tilted(e entity) bool {
	if math.Abs(e.num(210)) < 1e-9 && math.Abs(e.num(220)) < 1e-9 {
		return false
	}
	d.fail(e.line, "outline-entity", "draw the outline flat in plan", "%s does not lie in the plane of the plan",
		e.kind)
	return true
}

func (d *dxfReader) stretch(e entity, v []Vertex) {
	if d.tilted(e) {
		return
	}
	d.open = append(d.open, piece{v: v, line: e.line})
}

// along are the facets of an arc from one vertex to the next.
func (d *dxfReader) along(a, b Vertex, bulge float64) []Vertex {
	var out []Vertex
	for _, p := range bulged(a.vec(), b.vec(), bulge, d.o.Chord.MM()) {
		out = append(out, Vertex{Point: p.point(), At: a.At, Arc: true})
	}
	return out
}

func (d *dxfReader) arc(e entity) {
	from, to := e.num(50), e.num(51)
	for to <= from {
		to += 360
	}
	r := e.num(40)
	end := func(degrees float64) Vertex {
		s, c := math.Sincos(degrees * math.Pi / 180)
		return d.vertex(e, e.num(10)+r*c, e.num(20)+r*s, e.line)
	}
	a, b := end(from), end(to)
	bulge := math.Tan((to - from) / 4 * math.Pi / 180)
	if e.below() {
		bulge = -bulge
	}
	v := append([]Vertex{a}, d.along(a, b, bulge)...)
	d.stretch(e, append(v, b))
}

// circle is a loop of two halves.
func (d *dxfReader) circle(e entity) {
	if d.tilted(e) {
		return
	}
	r := e.num(40)
	a := d.vertex(e, e.num(10)-r, e.num(20), e.line)
	b := d.vertex(e, e.num(10)+r, e.num(20), e.line)
	a.Arc, b.Arc = true, true
	v := append([]Vertex{a}, d.along(a, b, 1)...)
	v = append(append(v, b), d.along(b, a, 1)...)
	d.rings = append(d.rings, Ring{Name: "the circle", At: a.At, V: v})
}

// light reads an LWPOLYLINE: groups 10, 20 and 42 of each vertex in turn.
func (d *dxfReader) light(e entity) {
	type corner struct {
		x, y, bulge float64
		line        int
	}
	var all []corner
	for _, p := range e.groups {
		f, _ := strconv.ParseFloat(p.value, 64)
		switch {
		case p.code == 10:
			all = append(all, corner{x: f, line: p.line})
		case p.code == 20 && len(all) > 0:
			all[len(all)-1].y = f
		case p.code == 42 && len(all) > 0:
			all[len(all)-1].bulge = f
		}
	}
	var v []Vertex
	var bulges []float64
	for _, c := range all {
		v, bulges = append(v, d.vertex(e, c.x, c.y, c.line)), append(bulges, c.bulge)
	}
	d.polyline(e, v, bulges)
}

// heavy reads a POLYLINE and the vertices that follow it.
func (d *dxfReader) heavy(e entity, vertices []entity) {
	if flags := int(e.num(70)); flags&^(1|128) != 0 {
		d.fail(e.line, "outline-entity", "draw the outline as a plain polyline",
			"this polyline is fitted, or not in the plane of the plan")
		return
	}
	var v []Vertex
	var bulges []float64
	for _, x := range vertices {
		x.groups = append(x.groups, pair{code: 230, value: e.text(230)})
		v, bulges = append(v, d.vertex(x, x.num(10), x.num(20), x.line)), append(bulges, x.num(42))
	}
	d.polyline(e, v, bulges)
}

func (d *dxfReader) polyline(e entity, v []Vertex, bulges []float64) {
	if d.tilted(e) || len(v) == 0 {
		return
	}
	closed := int(e.num(70))&1 != 0
	var out []Vertex
	for i := range v {
		out = append(out, v[i])
		if next := i + 1; next < len(v) || closed {
			b := bulges[i]
			if e.below() {
				b = -b
			}
			out = append(out, d.along(v[i], v[next%len(v)], b)...)
		}
	}
	if closed || v[0].vec().distance(v[len(v)-1].vec()) <= d.o.Near.MM() && len(v) > 2 {
		d.rings = append(d.rings, Ring{Name: "the polyline on layer " + e.text(8), At: v[0].At, V: out})
		return
	}
	d.open = append(d.open, piece{v: out, line: e.line})
}

// join makes loops of pieces whose ends meet: one other end at each, no more.
func (d *dxfReader) join() {
	near := d.o.Near.MM()
	d.single(near)
	for i := range d.open {
		if d.open[i].used {
			continue
		}
		start := &d.open[i]
		start.used = true
		v := slices.Clone(start.v)
		for v[0].vec().distance(v[len(v)-1].vec()) > near {
			end := v[len(v)-1].vec()
			next, reversed, several := -1, false, 0
			for k := range d.open {
				for _, back := range []bool{false, true} {
					if !d.open[k].used && d.open[k].end(back).distance(end) <= near {
						next, reversed = k, back
						several++
					}
				}
			}
			switch {
			case several == 0:
				d.fail(start.line, "outline-open", "close the outline, or accept larger gaps with --tolerance",
					"the line that begins here is not closed: nothing meets the end of the one on line %d to within %s",
					v[len(v)-1].At.Line, d.o.say(d.o.Near))
				return
			case several > 1:
				d.fail(v[len(v)-1].At.Line, "outline-branch",
					"leave one way on, or name the outline's layer with --layer",
					"%d lines go on from the end of this one", several)
				return
			}
			more := slices.Clone(d.open[next].v)
			if reversed {
				slices.Reverse(more)
			}
			d.open[next].used = true
			v = append(v, more[1:]...)
		}
		d.rings = append(d.rings, Ring{Name: "the outline of lines and arcs", At: v[0].At, V: v[:len(v)-1]})
	}
}

// end is the near end of a piece, or the far one.
func (p *piece) end(far bool) vec {
	if far {
		return p.v[len(p.v)-1].vec()
	}
	return p.v[0].vec()
}

// single leaves out pieces that were drawn twice, or that are shorter than the
// tolerance.
func (d *dxfReader) single(near float64) {
	alike := func(a, b piece) bool {
		if len(a.v) != len(b.v) {
			return false
		}
		same, back := true, true
		for i := range a.v {
			same = same && a.v[i].vec().distance(b.v[i].vec()) <= near
			back = back && a.v[i].vec().distance(b.v[len(b.v)-1-i].vec()) <= near
		}
		return same || back
	}
	var out []piece
	for _, p := range d.open {
		switch {
		case len(p.v) == 2 && p.end(false).distance(p.end(true)) <= near:
			d.left["line shorter than the tolerance"]++
		case slices.ContainsFunc(out, func(q piece) bool { return alike(p, q) }):
			d.left["line that was drawn twice"]++
		default:
			out = append(out, p)
		}
	}
	d.open = out
}
