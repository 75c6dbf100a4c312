package plan

import (
	"slices"

	"copingset/layout/length"
)

// WallReport is what was read on a run, against stations of its wall line, which is
// the front face between plumbed corners. The points of its lines have a station
// and a value; lines of readings have a point at each of them.
type WallReport struct {
	Key      Key // of the facts of its run
	Metric   bool
	Run      string
	Front    length.Length // the wall line
	Crew     length.Length // what the crew tapes at station 0
	Mark     string        // what crew stations start at; empty: the wall's corner
	Grid     length.Length // what stations are rounded to
	Readings []WallReading
	Low      bool // some face was read at leg depth too, and stands farther out there

	Width, Need            []Pt // of the wall; of the cap over it, bow counted
	Face, Top              []Pt // offset of the face at its worst depth, and at the top
	TopStreet, TopRoof     []Pt // edges of the wall top over the level datum
	SetRoof                []Pt // the set surface at the roof; empty: level across
	Set                    []Pt // the set surface at the street
	Line                   []Pt // the front-face line
	GapMost                length.Length
	GapAt, GapFrom, GapTo  length.Length // the greatest gap: station, offsets it lies between
	Inside                 []Pt          // width of the cap
	NeedLeast, NeedMost    []Pt          // the needs that it takes
	WidthLeast, InsideMost length.Length
	Bands                  []WallBand
	Unsound                []WallStretch
	Doubts                 []WallDoubt
	Again                  int // how many readings have to be measured again
	Limits                 []WallLimit
}

// Plain reports whether no reading is doubted and none tells of the condition of
// the wall.
func (w WallReport) Plain() bool {
	return len(w.Doubts) == 0 && len(w.Unsound) == 0 &&
		!slices.ContainsFunc(w.Readings, func(q WallReading) bool { return q.Told() })
}

// WallReading is one place that was read.
type WallReading struct {
	At         length.Length
	Conditions []string // what is wrong with the wall top there
	Photos     []string
	Note       string
}

// Told reports whether a reading tells of the condition of the wall.
func (q WallReading) Told() bool { return len(q.Conditions) > 0 || len(q.Photos) > 0 }

// WallStretch is a stretch of the wall line.
type WallStretch struct{ From, To length.Length }

// WallBand is a stretch with one inside width.
type WallBand struct {
	WallStretch
	Inside length.Length
}

// WallPlot is one of the three sets of lines of a report.
type WallPlot int

// The three, in their order.
const (
	WallWidths WallPlot = iota
	WallOffsets
	WallTops
	WallNowhere // what is in doubt is shown on none
)

// WallDoubt is a reading that does not fit those beside it.
type WallDoubt struct {
	Plot            WallPlot
	Measure         string
	OfStation       bool // it is the station that is doubted
	At              length.Length
	Shown           length.Length // the value its mark stands at
	Value, Expected length.Length // as read, and as the neighbours have it
	Cleared         bool          // measured again
}

// WallLimit is a published limit of wall tops beside what was found.
type WallLimit struct {
	Name, Source string // with how sure the figure is
	Allowed      length.Length
	Found        length.Length // the worst, to the shop's step
	From, To     length.Length // where, as the crew tapes it
	Kept         bool
}

// Same reports whether two runs are held against one limit.
func (l WallLimit) Same(o WallLimit) bool {
	return l.Name == o.Name && l.Source == o.Source && l.Allowed == o.Allowed
}

// Pitch is the mean distance between readings.
func (w WallReport) Pitch() length.Length {
	n := len(w.Readings)
	if n < 2 {
		return w.Front
	}
	return (w.Readings[n-1].At - w.Readings[0].At) / length.Length(n-1)
}

// On is the value of a line at a station; beyond its ends that of the end.
func On(line []Pt, x length.Length) length.Length {
	for i, p := range line {
		switch {
		case p.X < x:
		case p.X == x || i == 0:
			return p.Y
		default:
			return between(line[i-1], p, x).Y
		}
	}
	if n := len(line); n > 0 {
		return line[n-1].Y
	}
	return 0
}
