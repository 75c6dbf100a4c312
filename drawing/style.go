package drawing

import (
	"fmt"

	"copingset/fonts"
)

// Pen names a way to draw a line. Its width, colour and dash stand in one table; NoPen draws nothing.
type Pen uint8

// The pens.
const (
	NoPen    Pen = iota
	Thick        // cut metal
	Border       // sheet border
	Medium       // visible edge
	Thin         // dimension and extension line
	HatchPen     // hatching
	Centre       // centre line
	Hidden       // hidden edge
	String       // layout string on the wall top
	Match        // match line
	Hold         // mark of something on hold
	penCount
)

// Colour is an RGB colour. Every colour of the program is dark enough to copy as black, and
// none is the only bearer of a meaning.
type Colour struct{ R, G, B uint8 }

// Hex returns the colour as #rrggbb.
func (c Colour) Hex() string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// Stroke is what a pen does: width, colour and dash (on, off, on, off ...; none for a full line).
type Stroke struct {
	Name   string
	Width  Unit
	Colour Colour
	dash   [6]Unit
}

// Dash returns the lengths of strokes and gaps, nil for a full line.
func (s Stroke) Dash() []Unit {
	var d []Unit
	for _, u := range s.dash {
		if u == 0 {
			break
		}
		d = append(d, u)
	}
	return d
}

// Widths follow the two line groups of ASME Y14.2 (thick 0.6, thin 0.3) as the drawing practice
// of this program narrows them to three that survive copying. The hues are a blue, a purple and
// a red-brown that keep apart under the common colour blindnesses, each with a dash or a width
// of its own besides: a hold is the heaviest line on a sheet.
var strokes = [penCount]Stroke{
	NoPen:    {Name: "none"},
	Thick:    {Name: "thick", Width: 60},
	Border:   {Name: "border", Width: 70},
	Medium:   {Name: "medium", Width: 35},
	Thin:     {Name: "thin", Width: 20},
	HatchPen: {Name: "hatch", Width: 18},
	Centre:   {Name: "centre", Width: 20, dash: [6]Unit{600, 120, 120, 120}},
	Hidden:   {Name: "hidden", Width: 25, dash: [6]Unit{220, 120}},
	String:   {Name: "string", Width: 35, Colour: Colour{0x00, 0x3f, 0x7d}, dash: [6]Unit{1000, 200}},
	Match:    {Name: "match", Width: 50, Colour: Colour{0x4b, 0x1d, 0x6b}, dash: [6]Unit{900, 160, 160, 160, 160, 160}},
	Hold:     {Name: "hold", Width: 90, Colour: Colour{0x8a, 0x1c, 0x00}},
}

// Stroke returns what the pen does.
func (p Pen) Stroke() Stroke {
	if p >= penCount {
		panic(fmt.Sprintf("drawing: unknown pen %d", uint8(p)))
	}
	return strokes[p]
}

// String returns the name of the pen.
func (p Pen) String() string { return p.Stroke().Name }

// Pens returns every pen that draws, in order.
func Pens() []Pen {
	var all []Pen
	for p := NoPen + 1; p < penCount; p++ {
		all = append(all, p)
	}
	return all
}

// wide says that lettering across a line of this pen cannot be read.
func (p Pen) wide() bool { return p.Stroke().Width >= 50 }

// Tone is a flat fill.
type Tone uint8

// The tones, from nothing to black. White covers what lies below.
const (
	None Tone = iota
	White
	Light
	Mid
	Dark
	Black
	toneCount
)

type toneRow struct {
	name   string
	colour Colour
}

var tones = [toneCount]toneRow{
	None:  {name: "none"},
	White: {"white", Colour{0xff, 0xff, 0xff}},
	Light: {"light", Colour{0xe6, 0xe6, 0xe6}},
	Mid:   {"mid", Colour{0xb4, 0xb4, 0xb4}},
	Dark:  {"dark", Colour{0x5a, 0x5a, 0x5a}},
	Black: {"black", Colour{}},
}

func (t Tone) row() toneRow {
	if t >= toneCount {
		panic(fmt.Sprintf("drawing: unknown tone %d", uint8(t)))
	}
	return tones[t]
}

// Colour returns the grey of the tone. None has no colour; asking for it is a programming error.
func (t Tone) Colour() Colour {
	if t == None {
		panic("drawing: no tone has no colour")
	}
	return t.row().colour
}

// String returns the name of the tone.
func (t Tone) String() string { return t.row().name }

// Face is the weight of lettering.
type Face = fonts.Face

// The faces.
const (
	Regular = fonts.Regular
	Bold    = fonts.Bold
)

// Size is the height of a capital letter, in units.
type Size Unit

// The sizes of lettering. Nothing on a sheet is smaller than Small (3/32 in).
const (
	Small   Size = 240
	Note    Size = 300
	Head    Size = 350
	Title   Size = 500
	Display Size = 1000
)

// Line returns the usual distance from baseline to baseline.
func (z Size) Line() Unit { return Unit(z) * 17 / 10 }

// Align says which point of a text its anchor is.
type Align uint8

// The alignments.
const (
	Left Align = iota
	Middle
	Right
)

// String returns the name of the alignment.
func (a Align) String() string {
	switch a {
	case Left:
		return "left"
	case Middle:
		return "middle"
	case Right:
		return "right"
	}
	panic(fmt.Sprintf("drawing: unknown alignment %d", uint8(a)))
}

// Layer names what a group of marks is about, so that a viewer can switch it.
type Layer uint8

// The layers. NoLayer groups without a layer.
const (
	NoLayer Layer = iota
	Frame
	Wall
	Packing
	Chairs
	Splices
	Caps
	Fasteners
	Obstacles
	Zones
	Dimensions
	Lettering
	Holds
	Tables
	KeyPlan
	Revisions
	layerCount
)

var layerNames = [layerCount]string{
	"", "Frame", "Wall", "Packing", "Chairs", "Splices", "Caps", "Fasteners", "Obstacles", "Zones",
	"Dimensions", "Text", "Holds", "Tables", "Key plan", "Revisions",
}

// String returns the name of the layer, empty for NoLayer.
func (l Layer) String() string {
	if l >= layerCount {
		panic(fmt.Sprintf("drawing: unknown layer %d", uint8(l)))
	}
	return layerNames[l]
}

// Layers returns every named layer, in order.
func Layers() []Layer {
	var all []Layer
	for l := NoLayer + 1; l < layerCount; l++ {
		all = append(all, l)
	}
	return all
}
