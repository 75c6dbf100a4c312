package view

import (
	"fmt"
	"strings"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/length"
)

// Measures the run views share, on paper. Plan and elevation of one window
// have the same margins, so that on a sheet they stand exactly over each other.
const (
	runHead  drawing.Unit = 3100 // column at the left for the titles of the rows
	runTail  drawing.Unit = 1500 // room at the right for labels that spread
	runStub  drawing.Unit = 700  // how much of a neighbour is shown beyond a corner
	runGap   drawing.Unit = 150  // between rows
	runLane  drawing.Unit = 470  // from one line of labels to the next
	runTrueJ drawing.Unit = 100  // a joint narrower than this on paper is a symbol
)

// runFrame brings cap stations and distances across of one window of a run to
// paper. For the plan cross is the scale across the wall, for the elevation
// that of heights.
type runFrame struct {
	l            *layout.Layout
	r            *layout.Run
	sys          *job.System
	win          Window
	along, cross Scale
	width        drawing.Unit
	left, right  drawing.Unit // paper beside the stretch shown
	tape         length.Style
	heads        *place.Placer       // titles of the rows
	rowNotes     []place.Note        // labels of rows that became notes
	rowBare      []int               // those of them without a balloon
	placed       func() []place.Note // notes of the labels in the drawing; nil before they stand
	first        int                 // notes of the views before on the same sheet: each number stands once there
	listed       int                 // and with those of this view, once it is drawn
	cell         bool                // one of several on a sheet that says scales and reader once for all
}

func newRunFrame(l *layout.Layout, r *layout.Run, win Window, along, cross Scale, width drawing.Unit) *runFrame {
	f := &runFrame{l: l, r: r, sys: &l.Job.System, win: win, along: along, cross: cross, width: width, tape: Crew(l)}
	f.left, f.right = runSides(l, r, win, along)
	return f
}

// runSides is the paper a window needs at the left and the right of the
// stretch it shows.
func runSides(l *layout.Layout, r *layout.Run, win Window, along Scale) (left, right drawing.Unit) {
	left, right = runHead+300, runTail
	if win.From <= 0 {
		left = runHead + runEndRoom(r, r.Left.Corner, along)
	}
	if win.To >= r.Cap {
		right = runTail + runEndRoom(r, r.Right.Corner, along)
	}
	return left, right
}

// runEndRoom is what shows beyond the end of the cap line: the neighbour's
// leg, which at an inside corner reaches out by the trim.
func runEndRoom(r *layout.Run, c *layout.Corner, along Scale) drawing.Unit {
	if c == nil {
		return runStub + 200
	}
	return runStub + along.Units(length.Max(0, -layout.MiterTrimOf(r, c)))
}

// x is the place of a cap station on paper.
func (f *runFrame) x(station length.Length) drawing.Unit {
	return f.left + f.along.Units(station) - f.along.Units(f.win.From)
}

// y is the place of a distance behind the cap line on paper, with the cap line
// at zero.
func (f *runFrame) y(behind length.Length) drawing.Unit { return f.cross.Units(behind) }

// lo and hi bound what is shown: beyond the end of the run nothing is cut off.
func (f *runFrame) lo() length.Length {
	if f.win.From <= 0 {
		return -length.Most
	}
	return f.win.From
}

func (f *runFrame) hi() length.Length {
	if f.win.To >= f.r.Cap {
		return length.Most
	}
	return f.win.To
}

// shows says whether a station lies in the window.
func (f *runFrame) shows(station length.Length) bool {
	return station >= f.lo() && station <= f.hi()
}

// cut clips a stretch to the window.
func (f *runFrame) cut(from, to length.Length) (length.Length, length.Length, bool) {
	from, to = length.Max(from, f.lo()), length.Min(to, f.hi())
	return from, to, from < to
}

// whole says whether the window shows the run from end to end.
func (f *runFrame) whole() bool { return f.win.From <= 0 && f.win.To >= f.r.Cap }

// edges are the places of the window's two ends on paper.
func (f *runFrame) edges() (a, b drawing.Unit) { return f.x(f.win.From), f.x(f.win.To) }

// chairs are those the window shows whole.
func (f *runFrame) chairs() []*layout.Chair {
	var out []*layout.Chair
	for _, c := range f.r.Chairs {
		if f.shows(c.Left(f.sys)) && f.shows(c.Right(f.sys)) {
			out = append(out, c)
		}
	}
	return out
}

// joints are those the window shows.
func (f *runFrame) joints() []*layout.Joint {
	var out []*layout.Joint
	for _, j := range f.r.Joints {
		if f.shows(j.From) && f.shows(j.To) {
			out = append(out, j)
		}
	}
	return out
}

// ends are the marks at the end of dimension lines.
func (f *runFrame) ends() drawing.Ends {
	if f.tape.Metric {
		return drawing.Arrows
	}
	return drawing.Ticks
}

// long letters a length on the crew's tape.
func (f *runFrame) long(l length.Length) string { return drawing.Letter(f.tape.Long(l)) }

// short letters a thickness or a gap.
func (f *runFrame) short(l length.Length) string { return drawing.Letter(f.tape.Short(l)) }

// inWords letters a short length in a sentence, with its unit.
func (f *runFrame) inWords(l length.Length) string {
	switch {
	case f.tape.Metric:
		return f.tape.InText(l)
	case l >= length.Foot:
		return f.long(l)
	}
	return f.short(l)
}

// unit is the unit of a length in a sentence, where its letters have none.
func (f *runFrame) unit() string {
	if f.tape.Metric {
		return " mm"
	}
	return ""
}

// crew letters a cap station as the crew tapes it.
func (f *runFrame) crew(station length.Length) string { return f.long(f.r.ToCrew(station)) }

// partWords says which part of the run a window is.
func (f *runFrame) partWords() string {
	w := "RUN " + f.r.Name
	if f.win.Of > 1 {
		w += ", part " + runCount(f.win.N) + " of " + runCount(f.win.Of)
	}
	return w
}

// runTag is the last part of a name, C3 of N-C3: on the run's own sheet the
// run's name is not repeated.
func runTag(name string) string { return name[strings.LastIndexByte(name, '-')+1:] }

// runFactor letters how much larger one scale is than another, never rounded:
// in decimals where two are enough, else as a fraction.
func runFactor(along, cross Scale) string {
	a, b := along.Ratio, cross.Ratio
	whole, rest := a/b, a%b
	if hundredths := rest * 100; hundredths%b == 0 {
		w := runCount(int(whole))
		if d := hundredths / b; d > 0 {
			w += strings.TrimRight(fmt.Sprintf(".%02d", d), "0")
		}
		return w
	}
	n, d := rest, b
	for d != 0 {
		n, d = d, n%d
	}
	w := fmt.Sprintf("%d/%d", rest/n, b/n)
	if whole > 0 {
		w = runCount(int(whole)) + " " + w
	}
	return drawing.Letter(w)
}

// runShort says that a run is so short, beside the width of its wall, that it
// is drawn to one scale in both directions.
func runShort(r *layout.Run) bool { return r.Cap < 4*r.Outside }

// runCross is the crosswise scale a run is drawn to: never smaller than the
// lengthwise one, or a wall would look narrower than it is.
func runCross(r *layout.Run, along, asked Scale) Scale {
	if asked.Ratio > along.Ratio || runShort(r) {
		return along
	}
	return asked
}
