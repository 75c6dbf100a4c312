// Code generated from table/plywood.csv by go test ./drawing/words -update; DO NOT EDIT.

package words

// Sentences of plywood.csv.
const (
	PlywoodSheet         Key = "plywood.sheet"
	PlywoodAbout         Key = "plywood.about"
	PlywoodNotes         Key = "plywood.notes"
	PlywoodLayer         Key = "plywood.layer"
	PlywoodNails         Key = "plywood.nails"
	PlywoodNailsUnstated Key = "plywood.nails.unstated"
	PlywoodEnds          Key = "plywood.ends"
	PlywoodBearing       Key = "plywood.bearing"
	PlywoodOf            Key = "plywood.of"
	PlywoodZones         Key = "plywood.zones"
	PlywoodStrips        Key = "plywood.strips"
	PlywoodRips          Key = "plywood.rips"
	PlywoodSaw           Key = "plywood.saw"
	PlywoodRun           Key = "plywood.run"
	PlywoodFrom          Key = "plywood.from"
	PlywoodTo            Key = "plywood.to"
	PlywoodLayers        Key = "plywood.layers"
	PlywoodStreet        Key = "plywood.street"
	PlywoodRoof          Key = "plywood.roof"
	PlywoodNailed        Key = "plywood.nailed"
	PlywoodBetween       Key = "plywood.between"
	PlywoodLayerN        Key = "plywood.layer.n"
	PlywoodLength        Key = "plywood.length"
	PlywoodWidth         Key = "plywood.width"
	PlywoodSheetRip      Key = "plywood.sheet.rip"
	PlywoodSet           Key = "plywood.set"
	PlywoodSheetN        Key = "plywood.sheet.n"
	PlywoodRip           Key = "plywood.rip"
	PlywoodCuts          Key = "plywood.cuts"
)
