package view

import (
	"fmt"
	"strings"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
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
	of           *plan.Run
	say          words.Book
	win          Window
	along, cross Scale
	width        drawing.Unit
	left, right  drawing.Unit // paper beside the stretch shown
	tape         length.Style
	chairTape    length.Style        // of chairs and joints
	heads        *place.Placer       // titles of the rows
	rowNotes     []place.Note        // labels of rows that became notes
	rowBare      []int               // those of them without a balloon
	placed       func() []place.Note // notes of the labels in the drawing; nil before they stand
	first        int                 // notes of the views before on the same sheet: each number stands once there
	listed       int                 // and with those of this view, once it is drawn
	cell         bool                // one of several on a sheet that says scales and reader once for all
}

func newRunFrame(say words.Book, of *plan.Run, win Window, along, cross Scale, width drawing.Unit) *runFrame {
	f := &runFrame{say: say, of: of, win: win, along: along, cross: cross, width: width, tape: length.Crew(of.Metric), chairTape: of.ChairTape}
	f.left, f.right = runSides(of, win, along)
	return f
}

// runSides is the paper a window needs at the left and the right of the
// stretch it shows.
func runSides(r *plan.Run, win Window, along Scale) (left, right drawing.Unit) {
	left, right = runHead+300, runTail
	if win.From <= 0 {
		left = runHead + runEndRoom(r.Left, along)
	}
	if win.To >= r.Cap.Real {
		right = runTail + runEndRoom(r.Right, along)
	}
	return left, right
}

// runEndRoom is what shows beyond the end of the cap line: the neighbour's
// leg, which at an inside corner reaches out by the trim.
func runEndRoom(e plan.End, along Scale) drawing.Unit {
	if !e.Corner {
		return runStub + 200
	}
	return runStub + along.Units(length.Max(0, -e.Trim))
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
	if f.win.To >= f.of.Cap.Real {
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
func (f *runFrame) whole() bool { return f.win.From <= 0 && f.win.To >= f.of.Cap.Real }

// edges are the places of the window's two ends on paper.
func (f *runFrame) edges() (a, b drawing.Unit) { return f.x(f.win.From), f.x(f.win.To) }

// chairs are those the window shows whole.
func (f *runFrame) chairs() []plan.Chair {
	var out []plan.Chair
	for _, c := range f.of.Chairs {
		if lo, hi := c.Ring.Bounds(); f.shows(lo.X) && f.shows(hi.X) {
			out = append(out, c)
		}
	}
	return out
}

// joints are those the window shows.
func (f *runFrame) joints() []plan.Joint {
	var out []plan.Joint
	for _, j := range f.of.Joints {
		if f.showsJoint(j) {
			out = append(out, j)
		}
	}
	return out
}

func (f *runFrame) showsJoint(j plan.Joint) bool { return f.shows(j.From) && f.shows(j.To) }

// line is what the window shows of a line along the run, each point brought to
// paper.
func (f *runFrame) line(of []plan.Pt, at func(plan.Pt) drawing.Point) []drawing.Point {
	var out []drawing.Point
	for _, q := range plan.Within(of, f.lo(), f.hi()) {
		out = append(out, at(q))
	}
	return out
}

// cuts are the places on paper where the window cuts the run.
func (f *runFrame) cuts() []drawing.Unit {
	var out []drawing.Unit
	if f.win.From > 0 {
		out = append(out, f.x(f.win.From))
	}
	if f.win.To < f.of.Cap.Real {
		out = append(out, f.x(f.win.To))
	}
	return out
}

// matches are the places on paper of the window's match lines.
func (f *runFrame) matches() []drawing.Unit {
	var out []drawing.Unit
	for _, m := range []*length.Length{f.win.MatchLeft, f.win.MatchRight} {
		if m != nil {
			out = append(out, f.x(*m))
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
func (f *runFrame) crew(station length.Length) string { return f.long(f.of.ToCrew(station)) }

// partWords title a view of the whole run or of the part of it a window is.
func (f *runFrame) partWords(whole, part words.Key) string {
	run := words.In("run", f.of.Name)
	if f.win.Of > 1 {
		return f.say.Say(part, run, words.In("n", runCount(f.win.N)), words.In("of", runCount(f.win.Of)))
	}
	return f.say.Say(whole, run)
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
func runShort(r *plan.Run) bool { return r.Cap.Real < 4*r.Outside }

// runCross is the crosswise scale a run is drawn to: never smaller than the
// lengthwise one, or a wall would look narrower than it is.
func runCross(r *plan.Run, along, asked Scale) Scale {
	if asked.Ratio > along.Ratio || runShort(r) {
		return along
	}
	return asked
}
