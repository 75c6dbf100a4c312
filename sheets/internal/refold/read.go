// Package refold folds what is written for machines back into metal, from the bytes
// of the files alone: outlines of the DXF, bends of bends.csv, metal of list.csv. It
// shares nothing with what made the patterns, so that what it finds, it finds of what
// a shop is given. It serves tests.
//
// Lengths are float64 millimetres whatever the unit of the files, angles degrees. On
// a blank x runs to the right and y up the sheet, its finish face towards the viewer
// and the street edge at the top. Folded metal stands in a right-handed space: x
// along the run, s to the street, z up.
package refold

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math"
	"sort"
	"strconv"
	"strings"
)

// Row is a row of a table by its headings.
type Row map[string]string

// MM is a length of a row.
func (r Row) MM(name string) float64 {
	v := r.Number(name)
	if r["unit"] == "in" {
		v *= 25.4
	}
	return v
}

// Number is a plain number of a row; nought where the cell is empty.
func (r Row) Number(name string) float64 {
	v, _ := strconv.ParseFloat(r[name], 64)
	return v
}

// Sheet is a body as its files tell it.
type Sheet struct {
	Row     Row
	Outline []Pt
	Bends   []Row
	Notches []Box
}

// Box is a stated place of a blank where its outline stands back from its seam.
type Box struct {
	Kind   string
	Lo, Hi Pt
}

// holds reports whether a place lies in the box, or a hair off it.
func (b Box) holds(p Pt) bool {
	const hair = 1e-3
	return p.X > b.Lo.X-hair && p.X < b.Hi.X+hair && p.Y > b.Lo.Y-hair && p.Y < b.Hi.Y+hair
}

// Name is the file of a sheet.
func (w Sheet) Name() string { return w.Row["file"] }

// Thickness of its metal.
func (w Sheet) Thickness() float64 { return w.Row.MM("thickness") }

// Read reads a packet's files for machines, in the order of list.csv.
func Read(files map[string][]byte) ([]Sheet, error) {
	tables := map[string][]Row{}
	for _, name := range []string{"list.csv", "bends.csv", "notches.csv"} {
		rows, err := table(files[name])
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		tables[name] = rows
	}
	var out []Sheet
	for _, r := range tables["list.csv"] {
		ring, err := outline(files[r["file"]])
		if err != nil {
			return nil, fmt.Errorf("%s: %w", r["file"], err)
		}
		w := Sheet{Row: r, Outline: ring}
		for _, b := range tables["bends.csv"] {
			if b["file"] == r["file"] {
				w.Bends = append(w.Bends, b)
			}
		}
		for _, n := range tables["notches.csv"] {
			if n["file"] == r["file"] {
				w.Notches = append(w.Notches, Box{n["kind"], Pt{n.MM("x1"), n.MM("y1")}, Pt{n.MM("x2"), n.MM("y2")}})
			}
		}
		out = append(out, w)
	}
	return out, nil
}

func table(file []byte) ([]Row, error) {
	all, err := csv.NewReader(bytes.NewReader(file)).ReadAll()
	if err != nil || len(all) == 0 {
		return nil, fmt.Errorf("%d rows, %w", len(all), err)
	}
	var out []Row
	for _, cells := range all[1:] {
		r := Row{}
		for i, c := range cells {
			r[all[0][i]] = c
		}
		out = append(out, r)
	}
	return out, nil
}

// outline reads the first closed polyline of layer CUT, counterclockwise.
func outline(file []byte) ([]Pt, error) {
	lines := strings.Split(strings.ReplaceAll(string(file), "\r", ""), "\n")
	unit, kind, layer := 0.0, "", ""
	var out []Pt
	for i := 0; i+1 < len(lines); i += 2 {
		code, value := strings.TrimSpace(lines[i]), strings.TrimSpace(lines[i+1])
		switch {
		case code == "9" && value == "$INSUNITS":
			unit = map[string]float64{"1": 25.4, "4": 1}[strings.TrimSpace(lines[i+3])]
		case code == "0":
			if kind == "LWPOLYLINE" && layer == "CUT" && len(out) > 0 {
				return counterclockwise(out), nil
			}
			kind, layer, out = value, "", nil
		case code == "8":
			layer = value
		case kind == "LWPOLYLINE" && (code == "10" || code == "20"):
			v, err := strconv.ParseFloat(value, 64)
			if err != nil || unit == 0 {
				return nil, fmt.Errorf("coordinate %q in unit %v", value, unit)
			}
			if code == "10" {
				out = append(out, Pt{v * unit, 0})
			} else {
				out[len(out)-1].Y = v * unit
			}
		}
	}
	return nil, fmt.Errorf("no outline on layer CUT")
}

func counterclockwise(p []Pt) []Pt {
	var a float64
	for i := range p {
		q := p[(i+1)%len(p)]
		a += p[i].X*q.Y - p[i].Y*q.X
	}
	if a < 0 {
		for i, j := 0, len(p)-1; i < j; i, j = i+1, j-1 {
			p[i], p[j] = p[j], p[i]
		}
	}
	return p
}

// Pt is a place of a blank, or of a section: y to the roof and z up.
type Pt struct{ X, Y float64 }

func (a Pt) sub(b Pt) Pt      { return Pt{a.X - b.X, a.Y - b.Y} }
func (a Pt) add(b Pt) Pt      { return Pt{a.X + b.X, a.Y + b.Y} }
func (a Pt) by(k float64) Pt  { return Pt{a.X * k, a.Y * k} }
func (a Pt) dot(b Pt) float64 { return a.X*b.X + a.Y*b.Y }
func (a Pt) left() Pt         { return Pt{-a.Y, a.X} }
func (a Pt) len() float64     { return math.Sqrt(a.X*a.X + a.Y*a.Y) }
func (a Pt) turned(deg float64) Pt {
	s, c := math.Sincos(deg * math.Pi / 180)
	return Pt{a.X*c - a.Y*s, a.X*s + a.Y*c}
}

// Bounds of a blank.
func (w Sheet) Bounds() (lo, hi Pt) {
	lo, hi = Pt{math.Inf(1), math.Inf(1)}, Pt{math.Inf(-1), math.Inf(-1)}
	for _, p := range w.Outline {
		lo = Pt{math.Min(lo.X, p.X), math.Min(lo.Y, p.Y)}
		hi = Pt{math.Max(hi.X, p.X), math.Max(hi.Y, p.Y)}
	}
	return lo, hi
}

// along are the bends that run along the blank, from its top edge down, one of each
// line: an opening parts some in two.
func (w Sheet) along() []Row {
	var out []Row
	for _, b := range w.Bends {
		if level(b) {
			out = append(out, b)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].MM("y1") > out[j].MM("y1") })
	var one []Row
	for _, b := range out {
		if n := len(one); n == 0 || one[n-1].MM("y1")-b.MM("y1") > 0.01 {
			one = append(one, b)
		}
	}
	return one
}

func level(b Row) bool { return math.Abs(b.MM("y1")-b.MM("y2")) <= 0.01 }

// sectioned reports whether a blank is one section from edge to edge: bent along
// its whole length, but for a flange at an end.
func (w Sheet) sectioned() bool {
	lo, hi := w.Bounds()
	for _, b := range w.Bends {
		across := math.Abs(b.MM("x1")-b.MM("x2")) <= 0.01
		atEnd := math.Min(b.MM("x1")-lo.X, hi.X-b.MM("x1")) < (hi.X-lo.X)/2
		if !level(b) && !(across && atEnd) {
			return false
		}
	}
	return len(w.along()) > 0
}
