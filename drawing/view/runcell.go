package view

import (
	"slices"

	"copingset/drawing"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// RunCell is a window of a run in a column of its own, plan over elevation: a
// short run that shares its sheet with its neighbours, or a run whose views are
// high. Scales and reader are said once for the sheet, by RunCellFoot.
type RunCell struct {
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
func NewRunCell(r *plan.Run, along Scale) RunCell {
	left, right := runSides(r, runWhole(r), along)
	return RunCell{r, runWhole(r), max(left+along.Units(r.Cap.Real)+right, runCellLeast)}
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
	f := newRunFrame(c.Run, c.Win, along, cross, c.Width)
	f.cell = true
	return f
}

// RunViews draws the plan and the elevation of a window that share a sheet: the
// notes are numbered through both, so that a number stands there once.
func RunViews(r *plan.Run, win Window, along, across, up Scale, width drawing.Unit) (above, elevation drawing.Scene) {
	p := newRunFrame(r, win, along, runCross(r, along, across), width)
	above = runPlanOf(p)
	e := newRunFrame(r, win, along, runUpright(along, up), width)
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
	f := &runFrame{of: cells[0].Run, win: cells[0].Win, along: along, width: width, tape: length.Crew(cells[0].Run.Metric), chairTape: cells[0].Run.ChairTape, cell: true}
	above, elevation := &runPlan{runFrame: f}, &runElev{runFrame: f}
	words, slopes := "", false
	bars := []runBar{{runAlong, along}}
	for _, c := range cells {
		slopes = slopes || c.Run.Elevation.Slopes
		f.cross = runCross(c.Run, along, across)
		switch w := "Plans: " + above.scaleWords(); {
		case words == "" || w == words:
			words = w
		default:
			words = "Plans: lengthwise " + along.Name + ", crosswise the same where the run is short, else " + across.Name + ". "
		}
		if len(bars) == 1 && f.cross.Ratio != along.Ratio {
			bars = append(bars, runBar{runAcross, f.cross})
		}
	}
	if !f.whole() {
		words += "Whole run: " + above.overall() + ". "
	}
	f.cross = runUpright(along, up)
	words += "Elevations: " + elevation.scaleWords(slopes)
	s := drawing.Scene{Name: "run-foot", W: width}
	s.Group(drawing.Lettering, "", func(g *drawing.Scene) { s.H = f.footRow(g, 0, append(bars, runBar{runUp, f.cross}), runReader, words) })
	return s
}

// runReader says where the reader of a plan stands.
const runReader = "ROOF - you stand here"

// scaleWords say to what scales a plan is drawn.
func (p *runPlan) scaleWords() string {
	if p.along.Ratio > p.cross.Ratio {
		return "Lengthwise " + p.along.Name + ", crosswise " + p.cross.Name + ". Crosswise ×" + runFactor(p.along, p.cross) + ": width, bow and gaps look that much larger. "
	}
	return "Lengthwise and crosswise " + p.along.Name + ". "
}

// scaleWords say to what scales an elevation is drawn and what its lines are.
func (e *runElev) scaleWords(slopes bool) string {
	words := "Lengthwise " + e.along.Name + ", heights " + e.cross.Name + ". "
	if e.cell { // after those of its plan
		words = "the same lengthwise, heights " + e.cross.Name + ". "
	}
	if e.along.Ratio != e.cross.Ratio {
		words += "Heights ×" + runFactor(e.along, e.cross) + ". "
	}
	words += "Wall top: full line at the roof edge, dashed at the street edge. Long-dashed: plane the chairs sit on"
	if slopes {
		words += ", at the roof edge, dashed above it at the street edge"
	}
	return words + "; packing is measured up to it."
}
