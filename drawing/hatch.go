package drawing

import "fmt"

// HatchKind names a pattern. Each can be told from the others in black and white.
type HatchKind uint8

// The patterns. NoHatch leaves an area bare.
const (
	NoHatch HatchKind = iota
	Masonry
	Concrete
	Wood     // solid wood: nailer
	Plywood  // plywood or other sheet
	Packing1 // shim build-ups without plywood ...
	Packing2 // ... with one layer of plywood
	Packing3 // ... with two
	Packing4 // ... with three or more
	Shims    // flat stacks of shims, in a section
	Metal
	Membrane
	ZoneEdge
	ZoneCorner
	HoldStripe
	hatchCount
)

var hatchNames = [hatchCount]string{
	"none",
	"masonry",
	"concrete",
	"wood",
	"plywood",
	"packing-1",
	"packing-2",
	"packing-3",
	"packing-4",
	"shims",
	"metal",
	"membrane",
	"zone-edge",
	"zone-corner",
	"hold-stripe",
}

// String returns the name of the pattern.
func (k HatchKind) String() string {
	if k >= hatchCount {
		panic(fmt.Sprintf("drawing: unknown hatch %d", uint8(k)))
	}
	return hatchNames[k]
}

// HatchKinds returns every pattern, in order.
func HatchKinds() []HatchKind {
	var all []HatchKind
	for k := NoHatch + 1; k < hatchCount; k++ {
		all = append(all, k)
	}
	return all
}
