package cap

import (
	"strings"

	"copingset/layout/job"
)

// AfterJoining ends the name of a lot whose pieces are finished after they are
// joined: their blanks are not those of the elevation's other pieces, and they go
// to the finisher by themselves.
const AfterJoining = "finished after joining"

// joined reports whether a piece is made of more than one sheet.
func (p *Piece) joined() bool { return p.Kind != Straight && p.Kind != WallEnd }

// lotOf is the lot of a piece of an elevation.
func lotOf(j *job.Job, p *Piece, elevation string) string {
	if j.Shop == nil || j.Shop.Seam == nil || !j.Shop.Seam.After || !p.joined() {
		return elevation
	}
	if elevation == "" {
		return AfterJoining
	}
	return elevation + ", " + AfterJoining
}

// Elevation is the name of a lot's elevation, and whether its pieces are finished
// after they are joined.
func Elevation(lot string) (elevation string, after bool) {
	head, after := strings.CutSuffix(lot, AfterJoining)
	return strings.TrimSuffix(head, ", "), after
}
