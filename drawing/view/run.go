package view

import (
	"fmt"
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

const (
	runTrueJ drawing.Unit = 100 // a joint narrower than this on paper is a symbol
	runStub  drawing.Unit = 500 // how much of a neighbour its symbol shows beyond a corner
)

// runFrame brings cap stations and distances across of one window of a run to
// paper. For the plan cross is the scale across the wall, for the elevation
// that of heights.
type runFrame struct {
	of    *plan.Run
	say   words.Book
	win   Window
	along Scale
	cross stretched
	left  drawing.Unit // paper beside the stretch shown
	tape  length.Style
}

// stretched is a scale some times that along the run.
type stretched struct {
	along Scale
	times int64
}

// Units brings a length to paper.
func (s stretched) Units(l length.Length) drawing.Unit {
	return s.along.Units(l * length.Length(s.times))
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

// overlaps says whether some of a stretch lies in the window.
func (f *runFrame) overlaps(from, to length.Length) bool {
	_, _, ok := f.cut(from, to)
	return ok
}

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
		if f.shows(j.From) && f.shows(j.To) {
			out = append(out, j)
		}
	}
	return out
}

// ofCap is what a window shows of a stretch between the ends of the cap line: beyond a
// corner, which is a symbol, nothing of the run is drawn.
func (f *runFrame) ofCap(from, to length.Length) (length.Length, length.Length, bool) {
	return f.cut(length.Max(from, 0), length.Min(to, f.of.Cap.Real))
}

// line is what the window shows of a line along the run, each point brought to
// paper.
func (f *runFrame) line(of []plan.Pt, at func(plan.Pt) drawing.Point) []drawing.Point {
	var out []drawing.Point
	for _, q := range plan.Within(of, length.Max(f.lo(), 0), length.Min(f.hi(), f.of.Cap.Real)) {
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

// edge is the place on paper of the end of a piece: where its joint would print
// narrower than can be drawn, the two edges stand apart as a symbol.
func (f *runFrame) edge(at length.Length, right bool) drawing.Unit {
	for _, j := range f.of.Joints {
		if f.along.Units(j.Gap.Real) >= runTrueJ {
			continue
		}
		if right && at == j.From {
			return f.x(j.Centre) - runTrueJ/2
		}
		if !right && at == j.To {
			return f.x(j.Centre) + runTrueJ/2
		}
	}
	return f.x(at)
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

// runTag is the last part of a name, C3 of N-C3: on the run's own sheet the
// run's name is not repeated.
func runTag(name string) string { return name[strings.LastIndexByte(name, '-')+1:] }

func runCount(n int) string { return strconv.Itoa(n) }

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

// breakWords name a break of slope and its change; nothing at a corner.
func breakWords(b plan.SlopeBreak) []string {
	if b.Word == "" {
		return nil
	}
	return []string{strings.ToUpper(b.Word), b.Angle}
}

// runBreak is a break line: straight with a jog in the middle.
func runBreak(g *drawing.Scene, a, b drawing.Point) {
	at := func(k, side drawing.Unit) drawing.Point {
		return drawing.Pt(a.X+(b.X-a.X)*k/100, a.Y+(b.Y-a.Y)*k/100).Add(side90(a, b, side))
	}
	g.Line(drawing.Thin, a, at(46, 0), at(48, 100), at(52, -100), at(54, 0), b)
}

// side90 is a step at right angles to the way from a to b, along an axis.
func side90(a, b drawing.Point, d drawing.Unit) drawing.Point {
	dx, dy := b.X-a.X, b.Y-a.Y
	if max(dx, -dx) > max(dy, -dy) {
		return drawing.Pt(0, d)
	}
	return drawing.Pt(d, 0)
}
