package fonts

import (
	"fmt"
	"sync"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Op is what one segment of an outline does.
type Op uint8

// The operations of an outline. TrueType faces have straight lines and quadratic curves only.
const (
	MoveTo Op = iota
	LineTo
	QuadTo
)

// Segment is one step of an outline. X, Y is where it ends and CX, CY the control point of a
// curve, in thousandths of an em from the pen position, y down as on paper.
type Segment struct {
	Op     Op
	CX, CY int
	X, Y   int
}

// Outline returns the shape of the glyph of r, which the caller must not write into: each is
// read once. A face without that glyph is an error, never an empty shape.
func Outline(f Face, r rune) ([]Segment, error) {
	o := outlinesOf(f)
	if known, ok := o.Load(r); ok {
		return known.([]Segment), nil
	}
	segs, err := readOutline(f, r)
	if err != nil {
		return nil, err
	}
	known, _ := o.LoadOrStore(r, segs)
	return known.([]Segment), nil
}

// outlines are the shapes read so far, rune to segments, of each face.
var regularOutlines, boldOutlines sync.Map

func outlinesOf(f Face) *sync.Map {
	if f == Bold {
		return &boldOutlines
	}
	return &regularOutlines
}

func readOutline(f Face, r rune) ([]Segment, error) {
	m := of(f)
	g := m.lookup(r)
	if g.index == 0 {
		return nil, fmt.Errorf("face %v has no glyph for %q (%U)", f, r, r)
	}
	var buf sfnt.Buffer
	segs, err := m.font.LoadGlyph(&buf, g.index, fixed.I(m.upem), nil)
	if err != nil {
		return nil, fmt.Errorf("glyph of %q (%U): %w", r, r, err)
	}
	out := make([]Segment, 0, len(segs))
	for _, s := range segs {
		a, b := s.Args[0], s.Args[1]
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			out = append(out, Segment{Op: MoveTo, X: int(m.milli(a.X)), Y: int(m.milli(a.Y))})
		case sfnt.SegmentOpLineTo:
			out = append(out, Segment{Op: LineTo, X: int(m.milli(a.X)), Y: int(m.milli(a.Y))})
		case sfnt.SegmentOpQuadTo:
			out = append(
				out,
				Segment{
					Op: QuadTo,
					CX: int(m.milli(a.X)),
					CY: int(m.milli(a.Y)),
					X:  int(m.milli(b.X)),
					Y:  int(m.milli(b.Y)),
				},
			)
		default:
			return nil, fmt.Errorf("glyph of %q (%U) has a cubic curve, which a TrueType face cannot have", r, r)
		}
	}
	return out, nil
}
