package view

import "copingset/drawing"

// LegendEntry says what one hatch means on a view.
type LegendEntry struct {
	Kind  drawing.HatchKind
	Words string
}
