package drawing

import (
	"math/bits"
	"slices"
)

// family is a set of parallel lines over the whole paper, full or dashed. All numbers are
// whole, so that the pattern is the same on every processor: with the direction (dx,dy), a
// point has the distance c = -dy*x + dx*y across the lines and u = dx*x + dy*y along them, both
// scaled by the length of the direction.
type family struct {
	dx, dy  int64 // direction of the lines
	step    int64 // distance between lines, as c
	offset  int64 // of the first line, as c
	on, off int64 // dash and gap, as u; off 0 for full lines
	stagger int64 // shift of the dash from one line to the next, as u
	pen     Pen
}

// motif is a small figure repeated on a lattice of cells: strokes given from the corner of the
// cell. Odd rows are shifted by half a cell.
type motif struct {
	cellX, cellY int64
	strokes      [][4]int64
}

// pattern is what a kind of hatching is made of.
type pattern struct {
	families []family
	motifs   []motif
}

// patternOf holds every pattern. The common ones follow the usual drafting signs (45 degree
// lines for masonry, scattered stones for concrete, grain for wood, crossed plies for plywood);
// the four of packing are lines that grow denser with each layer of plywood. The zones of wind
// pressure, which may run in any direction, are marks instead of lines: a few for the edge,
// many for the corner.
func patternOf(k HatchKind) pattern {
	lines := func(f ...family) pattern { return pattern{families: f} }
	switch k {
	case NoHatch:
		return pattern{}
	case Masonry:
		return lines(family{dx: 1, dy: -1, step: 340}, family{dx: 1, dy: -1, step: 340, offset: 80})
	case Concrete:
		return pattern{
			families: []family{
				{dx: 5, dy: -2, step: 1700, on: 90, off: 2810, stagger: 1130},
				{dx: 2, dy: 5, step: 2100, on: 90, off: 3110, stagger: 1370},
			},
			motifs: []motif{{cellX: 560, cellY: 330, strokes: [][4]int64{
				{120, 210, 250, 190}, {250, 190, 170, 90}, {170, 90, 120, 210},
			}}},
		}
	case Wood:
		return lines(
			family{dx: 8, dy: -1, step: 1290, on: 11000, off: 1300, stagger: 4100},
			family{dx: 8, dy: -1, step: 2580, offset: 420, on: 4300, off: 8000, stagger: 5200},
		)
	case Plywood: // every second ply shows its end grain
		return lines(
			family{dx: 1, dy: 0, step: 120},
			family{dx: 1, dy: -2, step: 300, on: 300, off: 300, stagger: 150},
		)
	case Packing1:
		return lines(family{dx: 1, dy: 1, step: 420})
	case Packing2:
		return lines(family{dx: 0, dy: 1, step: 190})
	case Packing3:
		return lines(family{dx: 1, dy: 1, step: 340}, family{dx: 1, dy: -1, step: 340})
	case Packing4:
		return lines(family{dx: 1, dy: 0, step: 130}, family{dx: 0, dy: 1, step: 130})
	case Shims:
		return lines(family{dx: 1, dy: 2, step: 190})
	case Metal:
		return lines(family{dx: 1, dy: -1, step: 70})
	case Membrane:
		return lines(family{dx: 1, dy: 0, step: 70, on: 260, off: 110, stagger: 185})
	case ZoneEdge:
		return pattern{
			motifs: []motif{{cellX: 340, cellY: 160, strokes: [][4]int64{{30, 80, 140, 80}, {85, 25, 85, 135}}}},
		}
	case ZoneCorner:
		return pattern{
			motifs: []motif{
				{
					cellX:   130,
					cellY:   120,
					strokes: [][4]int64{{10, 60, 120, 60}, {27, 10, 103, 110}, {27, 110, 103, 10}},
				},
			},
		}
	case HoldStripe:
		return lines(family{dx: 1, dy: -1, step: 380, pen: Hold})
	}
	panic("drawing: unknown hatch " + k.String())
}

// HatchLines returns the strokes of a pattern inside the rings (even-odd). The pattern is
// anchored to the paper, not to the rings, so the hatches of neighbours meet. Clipping is done
// in whole numbers; the ends are rounded to the nearest unit.
func HatchLines(k HatchKind, rings [][]Point) []Line {
	p := patternOf(k)
	var box Rect
	for _, r := range rings {
		box = box.Union(boundsOf(r))
	}
	var out []Line
	for _, f := range p.families {
		out = f.clip(out, rings, box)
	}
	for _, m := range p.motifs {
		out = m.clip(out, rings, box)
	}
	return out
}

func (f family) clip(out []Line, rings [][]Point, box Rect) []Line {
	pen := f.pen
	if pen == NoPen {
		pen = HatchPen
	}
	corners := box.Corners()
	lo := f.across(corners[0])
	hi := lo
	for _, p := range corners[1:] {
		lo, hi = min(lo, f.across(p)), max(hi, f.across(p))
	}
	for n := ceilDiv(lo-f.offset, f.step); n*f.step+f.offset <= hi; n++ {
		c := n*f.step + f.offset
		for _, iv := range f.inside(c, rings) {
			if f.off == 0 {
				out = f.stroke(out, pen, c, iv)
				continue
			}
			period := f.on + f.off
			shift := n * f.stagger
			for k := floorDiv(iv[0]-shift-f.on, period); k*period+shift < iv[1]; k++ {
				from := k*period + shift
				out = f.stroke(out, pen, c, [2]int64{max(iv[0], from), min(iv[1], from+f.on)})
			}
		}
	}
	return out
}

// clip draws the motif in every cell that meets the box, each stroke clipped as a line of a family of its own.
func (m motif) clip(out []Line, rings [][]Point, box Rect) []Line {
	x0, x1 := int64(box.Min.X), int64(box.Max.X)
	for row := floorDiv(int64(box.Min.Y), m.cellY); row*m.cellY < int64(box.Max.Y); row++ {
		shift := (row & 1) * m.cellX / 2
		for col := floorDiv(x0-shift, m.cellX); col*m.cellX+shift < x1; col++ {
			ox, oy := col*m.cellX+shift, row*m.cellY
			for _, s := range m.strokes {
				f := family{dx: s[2] - s[0], dy: s[3] - s[1]}
				from := Point{Unit(ox + s[0]), Unit(oy + s[1])}
				c, u0 := f.across(from), f.along(from)
				u1 := u0 + f.dx*f.dx + f.dy*f.dy
				for _, iv := range f.inside(c, rings) {
					out = f.stroke(out, HatchPen, c, [2]int64{max(iv[0], u0), min(iv[1], u1)})
				}
			}
		}
	}
	return out
}

func (f family) across(p Point) int64 { return -f.dy*int64(p.X) + f.dx*int64(p.Y) }
func (f family) along(p Point) int64  { return f.dx*int64(p.X) + f.dy*int64(p.Y) }

// stroke appends the part of the line c between two places along it, unless it is too short to see.
func (f family) stroke(out []Line, pen Pen, c int64, iv [2]int64) []Line {
	n := f.dx*f.dx + f.dy*f.dy
	if iv[1] <= iv[0] {
		return out
	}
	at := func(u int64) Point {
		return Point{
			Unit(floorDiv(2*(f.dx*u-f.dy*c)+n, 2*n)),
			Unit(floorDiv(2*(f.dy*u+f.dx*c)+n, 2*n)),
		}
	}
	a, b := at(iv[0]), at(iv[1])
	if a == b {
		return out
	}
	return append(out, Line{Pen: pen, Pts: []Point{a, b}})
}

// ratio is an exact fraction with a positive denominator.
type ratio struct{ num, den int64 }

// compare orders two fractions by 128-bit cross multiplication.
func (a ratio) compare(b ratio) int {
	if sa, sb := sign(a.num), sign(b.num); sa != sb || sa == 0 {
		return sa - sb
	}
	h1, l1 := bits.Mul64(abs(a.num), uint64(b.den))
	h2, l2 := bits.Mul64(abs(b.num), uint64(a.den))
	s := sign(a.num)
	switch {
	case h1 != h2 && h1 < h2, h1 == h2 && l1 < l2:
		return -s
	case h1 == h2 && l1 == l2:
		return 0
	}
	return s
}

// inside returns the intervals along the line c that lie inside the rings, shrunk to whole
// numbers. An edge counts where one end lies below or on the line and the other above it, so a
// corner on the line counts once.
func (f family) inside(c int64, rings [][]Point) [][2]int64 {
	var cross []ratio
	for _, ring := range rings {
		for i, p := range ring {
			q := ring[(i+1)%len(ring)]
			dp, dq := f.across(p)-c, f.across(q)-c
			if (dp > 0) == (dq > 0) {
				continue
			}
			den := dp - dq
			num := f.along(p)*den + dp*(f.along(q)-f.along(p))
			if den < 0 {
				num, den = -num, -den
			}
			cross = append(cross, ratio{num, den})
		}
	}
	slices.SortFunc(cross, ratio.compare)
	var out [][2]int64
	for i := 0; i+1 < len(cross); i += 2 {
		lo, hi := ceilDiv(cross[i].num, cross[i].den), floorDiv(cross[i+1].num, cross[i+1].den)
		if hi > lo {
			out = append(out, [2]int64{lo, hi})
		}
	}
	return out
}

func sign(v int64) int {
	switch {
	case v < 0:
		return -1
	case v > 0:
		return 1
	}
	return 0
}

func abs(v int64) uint64 {
	if v < 0 {
		return uint64(-v)
	}
	return uint64(v)
}

func floorDiv(a, b int64) int64 {
	q := a / b
	if a%b != 0 && (a < 0) != (b < 0) {
		q--
	}
	return q
}

func ceilDiv(a, b int64) int64 { return -floorDiv(-a, b) }
