package view

import (
	"slices"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// RunCell is a window of a run in a column of its own, plan over elevation: a
// short run that shares its sheet with its neighbours, or a run whose views are
// high. Scales and reader are said once for the sheet, by RunCellFoot.
type RunCell struct {
	Say   words.Book
	Run   *plan.Run
	Win   Window
	Width drawing.Unit
}

// runCellLeast is the least width of a cell: the titles of its rows and room
// for labels beside them.
const runCellLeast drawing.Unit = 10500

// RunShort says that a run leaves two thirds of a width empty at the largest
// scale it would be drawn to there: it shares a sheet with its neighbours.
func RunShort(r *plan.Run, width drawing.Unit) bool {
	wins, along := Windows(r, width)
	return len(wins) == 1 && along.Units(r.Cap.Real) <= (width-runHead-runTail)/3
}

// RunCellScales are the scales along a run that shares its sheet, largest
// first, down to the smallest at which all runs of the sheet can be read.
func RunCellScales(runs []*plan.Run) []Scale {
	metric := runs[0].Metric
	largest, readable := int64(runStubby), int64(runReadable)
	if metric {
		largest, readable = runStubbyMM, runMetric
	}
	least := readable
	for _, r := range runs {
		least = min(least, runReadablePitch(r, largest, readable))
	}
	var out []Scale
	for _, s := range Scales(metric) {
		if s.Ratio >= largest && s.Ratio <= least {
			out = append(out, s)
		}
	}
	return out
}

// NewRunCell is a run in the least column that holds it at a scale.
func NewRunCell(say words.Book, r *plan.Run, along Scale) RunCell {
	left, right := runSides(r, runWhole(r), along)
	return RunCell{say, r, runWhole(r), max(left+along.Units(r.Cap.Real)+right, runCellLeast)}
}

func runWhole(r *plan.Run) Window { return Window{From: 0, To: r.Cap.Real, N: 1, Of: 1} }

// Plan draws the plan of the cell.
func (c RunCell) Plan(along, across Scale) drawing.Scene {
	return runPlanOf(c.frame(along, runCross(c.Run, along, across)))
}

// Elevation draws the elevation of the cell.
func (c RunCell) Elevation(along, up Scale) drawing.Scene {
	return runElevationOf(c.frame(along, runUpright(along, up)))
}

func (c RunCell) frame(along, cross Scale) *runFrame {
	f := newRunFrame(c.Say, c.Run, c.Win, along, cross, c.Width)
	f.cell = true
	return f
}

// RunViews draws the plan and the elevation of a window that share a sheet: the
// notes are numbered through both, so that a number stands there once.
func RunViews(say words.Book, r *plan.Run, win Window, along, across, up Scale, width drawing.Unit) (above, elevation drawing.Scene) {
	p := newRunFrame(say, r, win, along, runCross(r, along, across), width)
	above = runPlanOf(p)
	e := newRunFrame(say, r, win, along, runUpright(along, up), width)
	e.first = p.listed
	return above, runElevationOf(e)
}

// RunCellViews draws the plan and the elevation of every cell of a sheet, with
// its notes numbered through all of them.
func RunCellViews(cells []RunCell, along, across, up Scale) (plans, elevations []drawing.Scene) {
	notes := 0
	for _, c := range cells {
		p, e := c.frame(along, runCross(c.Run, along, across)), c.frame(along, runUpright(along, up))
		p.first = notes
		plans = append(plans, runPlanOf(p))
		e.first = p.listed
		elevations = append(elevations, runElevationOf(e))
		notes = e.listed
	}
	return plans, elevations
}

// RunCellRows are the scales across the wall and of heights at which the cells
// of a sheet, in rows, all stand in a height, each plan over its elevation, and
// the foot of a width under them.
func RunCellRows(rows [][]RunCell, along Scale, width, height, apart, between drawing.Unit) (across, up Scale, ok bool) {
	sum := func(view func(RunCell) drawing.Scene) (high drawing.Unit) {
		for _, row := range rows {
			most := drawing.Unit(0)
			for _, c := range row {
				most = max(most, view(c).H)
			}
			high += most
		}
		return high
	}
	height -= apart*drawing.Unit(len(rows)) + between*drawing.Unit(len(rows)-1)
	metric := rows[0][0].Run.Metric
	plans := runHeights(metric, 6, 20, func(s Scale) drawing.Unit {
		return sum(func(c RunCell) drawing.Scene { return c.Plan(along, s) })
	})
	elevs := runHeights(metric, 2, runUpMost, func(s Scale) drawing.Unit {
		return sum(func(c RunCell) drawing.Scene { return c.Elevation(along, s) })
	})
	for _, p := range plans {
		for _, e := range elevs {
			if p.high+e.high > height {
				continue
			}
			if p.high+e.high+RunCellFoot(slices.Concat(rows...), along, p.scale, e.scale, width).H <= height {
				return p.scale, e.scale, true
			}
		}
	}
	return across, up, false
}

// RunCellFoot says once, under the cells of a sheet, where the reader stands,
// to what scales they are drawn and how to read them.
func RunCellFoot(cells []RunCell, along, across, up Scale, width drawing.Unit) drawing.Scene {
	f := &runFrame{say: cells[0].Say, of: cells[0].Run, win: cells[0].Win, along: along, width: width, tape: length.Crew(cells[0].Run.Metric), chairTape: cells[0].Run.ChairTape, cell: true}
	above, elevation := &runPlan{runFrame: f}, &runElev{runFrame: f}
	scales, slopes := "", false
	bars := []runBar{{runAlong, along}}
	for _, c := range cells {
		slopes = slopes || c.Run.Elevation.Slopes
		f.cross = runCross(c.Run, along, across)
		switch w := above.scaleWords(words.ViewScalePlans, words.ViewScalePlansTwo); {
		case scales == "" || w == scales:
			scales = w
		default:
			scales = f.say.Say(words.ViewScalePlansMixed, words.In("along", along.Name), words.In("across", across.Name))
		}
		if len(bars) == 1 && f.cross.Ratio != along.Ratio {
			bars = append(bars, runBar{runAcross, f.cross})
		}
	}
	if !f.whole() {
		scales = sentences(scales, above.overall(words.ViewWhole))
	}
	f.cross = runUpright(along, up)
	scales = sentences(scales, elevation.scaleWords(slopes))
	s := drawing.Scene{Name: "run-foot", W: width}
	s.Group(drawing.Lettering, "", func(g *drawing.Scene) {
		s.H = f.footRow(g, 0, append(bars, runBar{runUp, f.cross}), f.say.Say(words.ViewHere), scales)
	})
	return s
}

// scaleWords say to what scales a plan is drawn: to one, or to two.
func (p *runPlan) scaleWords(one, two words.Key) string {
	along := words.In("along", p.along.Name)
	if p.along.Ratio > p.cross.Ratio {
		return p.say.Say(two, along, words.In("across", p.cross.Name), words.In("times", runFactor(p.along, p.cross)))
	}
	return p.say.Say(one, along)
}

// scaleWords say to what scales an elevation is drawn and what its lines are.
func (e *runElev) scaleWords(slopes bool) string {
	up := words.In("up", e.cross.Name)
	scales := e.say.Say(words.ViewScaleUp, words.In("along", e.along.Name), up)
	if e.cell { // after those of its plan
		scales = e.say.Say(words.ViewScaleUps, up)
	}
	times := ""
	if e.along.Ratio != e.cross.Ratio {
		times = e.say.Say(words.ViewScaleTimes, words.In("times", runFactor(e.along, e.cross)))
	}
	if slopes {
		return sentences(scales, times, e.say.Say(words.ViewLinesSlopes))
	}
	return sentences(scales, times, e.say.Say(words.ViewLines))
}
