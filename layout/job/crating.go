package job

import (
	"copingset/layout/finding"
	"copingset/layout/length"
)

// Site holds what the crew's sheets say about the place.
type Site struct {
	RoofHeight    length.Length
	OnePerson     int64         // grams one person may lift by the job's own rule
	LongPiece     length.Length // pieces longer than this take two
	SafetyPlan    string        // document that governs
	MeasuredBy    string
	MeasuredOn    Date
	InstallMetalT []Temperature // metal temperatures of the gap table, ascending
}

// Crating is how pieces travel.
type Crating struct {
	At         finding.Place
	WeightMost int64 // grams of one crate, with Tare
	LengthMost length.Length
	// grams of an empty crate with its dunnage; zero: not stated
	Tare int64
	// when the fabricator wants the film off; empty: not stated
	FilmOff                                           string
	SpareChair, SpareSplice, SpareFastener, SpareTape int // per cent
	SpareSupport, SpareShim                           int
	TapeRoll                                          length.Length
}

func (s *Site) keys(k keys) {
	k.length("roof_height", &s.RoofHeight, "the height of the roof", `24'-0"`)
	k.weight("one_person", &s.OnePerson, "the weight one person may lift on this job", "50 lb")
	k.length("long_piece", &s.LongPiece, "the length over which a piece takes two people", `8'-0"`)
	k.text("safety_plan", &s.SafetyPlan, "the site safety plan that governs", "Site safety plan SSP-3")
	k.may().text("measured_by", &s.MeasuredBy, "who measured", "D. Quill")
	k.may().date("measured_on", &s.MeasuredOn, "when it was measured", "2026-02-24")
	values(k, "metal_temperatures", &s.InstallMetalT, withUnit("value-temperature",
		ParseTemperature).in(metricTemperature),
		"the metal temperatures of the gap table, ascending", "[20 F, 60 F, 100 F]")
}

func (c *Crating) keys(k keys) {
	c.At = k.at
	k.weight("weight_most", &c.WeightMost, "the greatest weight of one crate with what is in it", "400 lb")
	k.length("length_most", &c.LengthMost, "the greatest length of a crate", `12'-6"`)
	k.may().weight("tare", &c.Tare, "the weight of an empty crate with its dunnage", "60 lb")
	k.may().text("film_off", &c.FilmOff, "when the fabricator wants the protective film off",
		"within 30 days of delivery")
	k.group("spares", "the spares in per cent", func(k keys) {
		k.percent("chairs", &c.SpareChair, "the spare chairs", "3%")
		k.percent("splices", &c.SpareSplice, "the spare splice plates", "3%")
		k.percent("fasteners", &c.SpareFastener, "the spare fasteners", "5%")
		k.percent("tape", &c.SpareTape, "the spare tape", "10%")
		k.may().percent("supports", &c.SpareSupport, "the spare corner supports, none if left out", "5%")
		c.SpareShim = c.SpareChair // a chair to spare stands on packing to spare
		k.may().percent("shims", &c.SpareShim, "the spare shims, as chairs if left out", "5%")
	})
	k.length("tape_roll", &c.TapeRoll, "the length of a roll of sealant tape", `50'-0"`)
}
