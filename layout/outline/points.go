package outline

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"copingset/layout/finding"
	"copingset/layout/length"
)

// unitWords are the units a heading may state.
var unitWords = map[string]length.Length{"in": length.Inch, "ft": length.Foot, "mm": length.Millimetre,
	"cm": length.Centimetre, "m": length.Metre}

// mostCSV is the size from which a file is not read as a list of points.
const mostCSV = 4 << 20

// Points reads corners in order from CSV: columns x and y, or east and north, with
// their unit in brackets behind, and a column loop where there are several loops.
// The last point may repeat the first.
func Points(r io.Reader, name string) ([]Ring, finding.List) {
	c := csv.NewReader(io.LimitReader(r, mostCSV))
	c.FieldsPerRecord, c.TrimLeadingSpace, c.Comment = -1, true, '#'
	bad := func(line int, code, mend, format string, args ...any) finding.List {
		return finding.List{finding.New(finding.Error, code, finding.Place{File: name, Line: line}, mend, format,
			args...)}
	}
	head, err := c.Read()
	if err != nil {
		return nil, bad(1, "outline-csv", "write a heading, x (ft),y (ft), and a point a line below",
			"there is no heading: %v", plainCSV(err))
	}
	line, _ := c.FieldPos(0)
	x, xu, xOK := column(head, "x", "east")
	y, yu, yOK := column(head, "y", "north")
	loop, _, _ := column(head, "loop")
	if !xOK || !yOK {
		return nil, bad(line, "outline-csv",
			"head the columns x (ft) and y (ft), or east (m) and north (m), with the unit that the figures are in",
			"the heading names no %s with its unit", missing(xOK))
	}
	var rings []Ring
	for {
		row, err := c.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, bad(errorLine(err), "outline-csv", "correct the line", "%v", plainCSV(err))
		}
		line, _ := c.FieldPos(0)
		at := finding.Place{File: name, Line: line}
		var p [2]length.Length
		for i, k := range []struct {
			column int
			unit   length.Length
		}{{x, xu}, {y, yu}} {
			if k.column >= len(row) {
				return nil, bad(line, "outline-csv", "write both figures",
					"the line has %d cells, and a point two figures", len(row))
			}
			if p[i], err = coordinate(row[k.column], k.unit); err != nil {
				return nil, bad(line, "outline-csv",
					"write a number in the unit of the heading, or a length with its unit", "%q: %v", row[k.column],
					err)
			}
		}
		of := ""
		if loop >= 0 && loop < len(row) {
			of = strings.TrimSpace(row[loop])
		}
		i := slices.IndexFunc(rings, func(r Ring) bool { return r.Name == loopName(of) })
		if i < 0 {
			i = len(rings)
			rings = append(rings, Ring{Name: loopName(of), At: at})
		}
		rings[i].V = append(rings[i].V, Vertex{Point: Point{p[0], p[1]}, At: at})
	}
	return rings, nil
}

func loopName(of string) string {
	if of == "" {
		return "the outline"
	}
	return "loop " + of
}

func missing(x bool) string {
	if !x {
		return "x or east"
	}
	return "y or north"
}

// column finds a column by one of its names, and the unit in brackets behind it.
func column(head []string, names ...string) (at int, unit length.Length, ok bool) {
	for i, cell := range head {
		cell = strings.ToLower(strings.Trim(strings.TrimSpace(cell), "\ufeff"))
		name, rest, _ := strings.Cut(cell, "(")
		if !slices.Contains(names, strings.TrimSpace(name)) {
			continue
		}
		u, known := unitWords[strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(rest), ")"))]
		return i, u, known
	}
	return -1, 0, false
}

// coordinate is a number in a unit, or a length that states its own.
func coordinate(cell string, unit length.Length) (length.Length, error) {
	cell = strings.TrimSpace(cell)
	f, err := strconv.ParseFloat(cell, 64)
	if err != nil {
		return length.Parse(cell)
	}
	return scaled(f, unit)
}

// scaled is a number of units as a length.
func scaled(f float64, unit length.Length) (length.Length, error) {
	mm := f * unit.MM()
	if !(mm < length.Most.MM() && mm > -length.Most.MM()) {
		return 0, fmt.Errorf("no place of a roof")
	}
	return length.FromMM(mm), nil
}

// plainCSV is what is wrong with a line, without where.
func plainCSV(err error) error {
	var p *csv.ParseError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}

func errorLine(err error) int {
	var p *csv.ParseError
	if errors.As(err, &p) {
		return p.Line
	}
	return 0
}
