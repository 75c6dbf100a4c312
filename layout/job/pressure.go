package job

import (
	"copingset/layout/finding"
	"copingset/layout/length"
)

// Pressures are design pressures stated by the engineer.
type Pressures struct {
	At           finding.Place
	By, Document string
	Edition      string
	Edge, Corner ZonePressure
	CornerLength length.Length // corner zone along the wall from each outside corner and free end
	LengthAt     finding.Place
	CornerTurn   Angle // least outside turn that begins a corner zone; zero: every one left to a shop piece
}

// ZonePressure is up on the top, out on the face, and towards the roof on the
// rear leg; Rear is zero where it is not stated.
type ZonePressure struct{ Up, Out, Rear Pressure }

func (p *Pressures) keys(k keys) {
	p.At = k.at
	k.text("by", &p.By, "the engineer who states them", "K. Sundqvist-Abara, engineer of record")
	k.text("document", &p.Document, "the document they stand in", "S-001 rev 2")
	k.text("edition", &p.Edition, "the edition of the load standard", "ASCE 7-16")
	edge := k.group("edge", "the pressures of the edge zone", func(k keys) {
		p.Edge.keys(k, "26 psf allowable", "15 psf allowable")
	})
	corner := k.group("corner", "the pressures of the corner zone", func(k keys) {
		p.Corner.keys(k, "38 psf allowable", "21 psf allowable")
	})
	if edge.given("rear") != corner.given("rear") {
		edge.need("rear", ", and the corner zone has it")
		corner.need("rear", ", and the edge zone has it")
	}
	k.length("corner_length", &p.CornerLength, "the length of the corner zone along the wall", `6'-0"`)
	k.may().angle("corner_turn", &p.CornerTurn, Degree, straight/2,
		"the least outside turn in degrees that begins a corner zone, if the engineer sets one; left out, every turn "+
			"left to a shop piece", "15")
	p.LengthAt = k.placeOf("corner_length")
}

func (z *ZonePressure) keys(k keys, up, out string) {
	k.pressure("up", &z.Up, "the upward pressure and its level: strength or allowable", up)
	k.pressure("out", &z.Out, "the outward pressure and its level: strength or allowable", out)
	k.may().pressure("rear", &z.Rear,
		"the pressure on the rear leg towards the roof and its level: strength or allowable", up)
}

// parseDemand reads a design pressure: strength or allowable.
func parseDemand(s string) (Pressure, error) {
	q, err := ParsePressure(s)
	if err == nil && q.Level == AsPulled {
		err = wrong("level-demand", "write strength or allowable, as the engineer states it",
			"%s: as-pulled is for a resistance, not for a pressure", show(s))
	}
	return q, err
}
