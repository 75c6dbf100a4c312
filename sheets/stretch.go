package sheets

import (
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/plan"
)

// stretch is what one set of installation sheets shows: a run, or a few short
// ones that follow each other, as round a pilaster, so that the crew sees it
// whole.
type stretch struct {
	perimeter *layout.Perimeter
	runs      []*layout.Run
	page      page         // what all its sheets have in common
	leaf      *leaf        // the views of several runs; nil for one
	along     view.Scale   // of these
	room      drawing.Rect // for them
}

// stretches parts the runs of a perimeter: as many short ones in a row as a
// sheet holds go together, every other run has sheets of its own.
func (b *book) stretches(p *layout.Perimeter) []stretch {
	var out []stretch
	wide := b.runs.room(false).Width()
	short := make([]bool, len(p.Runs))
	for i, r := range p.Runs {
		short[i] = view.RunShort(b.planOf(r), wide)
	}
	for i := 0; i < len(p.Runs); {
		n := i
		for n < len(p.Runs) && short[n] {
			n++
		}
		t := b.stretch(p, p.Runs[i:i+1])
		for k := n; k > i+1; k-- {
			if some := b.stretch(p, p.Runs[i:k]); b.share(&some) {
				t = some
				break
			}
		}
		out = append(out, t)
		i += len(t.runs)
	}
	return out
}

// stretch is some runs with what all their sheets have in common.
func (b *book) stretch(p *layout.Perimeter, runs []*layout.Run) stretch {
	t := stretch{perimeter: p, runs: runs}
	var holds finding.List
	for _, f := range b.l.Holds() {
		if slices.ContainsFunc(runs, func(r *layout.Run) bool { return f.Where.TouchesRun(p.Job.Name, r.Name) }) {
			holds = append(holds, f)
		}
	}
	t.page = page{kind: RunSheet, paper: b.runs, holds: holds, banner: b.runBanner(runs, holds)}
	t.page.about = b.say.Count(words.RunAbout, len(runs), words.In("runs", strings.Join(t.names(), ", ")))
	return t
}

func (t *stretch) names() []string {
	var out []string
	for _, r := range t.runs {
		out = append(out, r.Name)
	}
	return out
}

// title names the runs, with their perimeter where the job has several.
func (t *stretch) title(b *book) string {
	return b.of(t.perimeter, strings.Join(t.names(), ", "))
}

// share draws several short runs on one page at one scale, the largest at which
// plan over elevation of each stand there in columns, side by side and then row
// by row. It says whether they do.
func (b *book) share(t *stretch) bool {
	room := t.page.paper.room(t.page.banner != "")
	room.Max.Y -= cautionHigh + 200
	var of []*plan.Run
	for _, r := range t.runs {
		of = append(of, b.planOf(r))
	}
	for _, along := range view.RunCellScales(of) {
		rows, ok := b.cellRows(of, along, room.Width())
		if !ok {
			continue
		}
		height := room.Height() - 300 - titleDrop*drawing.Unit(len(rows))
		across, up, ok := view.RunCellRows(rows, along, room.Width(), height, apart, between)
		if !ok {
			continue
		}
		if f, ok := b.cells(rows, runScales{along: along, across: across, up: up, together: true, once: true}, room); ok {
			t.leaf, t.along, t.room = f, along, room
			return true
		}
	}
	return false
}

// cellRows sets runs in rows of columns, and shares out the width that is left;
// false if one is wider than the page.
func (b *book) cellRows(runs []*plan.Run, along view.Scale, width drawing.Unit) (rows [][]view.RunCell, ok bool) {
	used := width
	for _, r := range runs {
		c := view.NewRunCell(b.say, r, along)
		if c.Width > width {
			return nil, false
		}
		if used+gutter+c.Width > width {
			rows, used = append(rows, nil), -gutter
		}
		k := len(rows) - 1
		rows[k], used = append(rows[k], c), used+gutter+c.Width
	}
	for _, row := range rows {
		left := width - gutter*drawing.Unit(len(row)-1)
		for _, c := range row {
			left -= c.Width
		}
		for i := range row {
			row[i].Width += left / drawing.Unit(len(row))
		}
	}
	return rows, true
}

// cells draws the rows of columns and what is said once for all, and whether
// all of it keeps to its place.
func (b *book) cells(rows [][]view.RunCell, k runScales, room drawing.Rect) (*leaf, bool) {
	f := &leaf{window: 1, cells: true}
	fits := true
	put := func(v drawing.Scene, at drawing.Point, prefix string, width drawing.Unit) {
		box := v.Bounds()
		fits = fits && box.Min.Y >= 0 && box.Min.X >= 0 && box.Max.X <= width && at.Y+max(v.H, box.Max.Y) <= room.Max.Y
		got, _ := picture{scene: v, prefix: prefix}.take(width, v.H, true)
		f.views = append(f.views, placed{got, at})
		f.scenes = append(f.scenes, v)
	}
	allPlans, allElevations := view.RunCellViews(slices.Concat(rows...), k.along, k.across, k.up)
	y, done := room.Min.Y, 0
	for n, row := range rows {
		if n > 0 {
			y += between
		}
		plans, elevations := allPlans[done:done+len(row)], allElevations[done:done+len(row)]
		done += len(row)
		high, low := drawing.Unit(0), drawing.Unit(0)
		for i := range row {
			high, low = max(high, plans[i].H), max(low, elevations[i].H)
		}
		x := room.Min.X
		for i, c := range row {
			name := "RUN " + c.Run.Name
			f.views = append(f.views, placed{laid{w: c.Width, h: titleDrop, draw: func(s *drawing.Scene, at drawing.Point) {
				s.Group(drawing.Lettering, "", func(g *drawing.Scene) { heading(g, at, c.Width, name) })
			}}, drawing.Pt(x, y)})
			prefix := "r" + itoa(n+1) + "c" + itoa(i+1)
			put(plans[i], drawing.Pt(x, y+titleDrop), prefix+"p", c.Width)
			put(elevations[i], drawing.Pt(x, y+titleDrop+high+apart), prefix+"e", c.Width)
			x += c.Width + gutter
		}
		y += titleDrop + high + apart + low
	}
	foot := view.RunCellFoot(slices.Concat(rows...), k.along, k.across, k.up, room.Width())
	put(foot, drawing.Pt(room.Min.X, y+300), "foot", room.Width())
	f.band = drawing.Box(room.Min.X, min(y+300+foot.H+apart, room.Max.Y), room.Max.X, room.Max.Y)
	return f, fits
}

// runData are the data of the runs, of several run by run, each title with the run's
// name.
func (b *book) runData(t stretch) []block {
	if len(t.runs) == 1 {
		return b.runLists(t.runs[0], t.page.paper)
	}
	var all []block
	for i, r := range t.runs {
		in := b.runLists(r, t.page.paper)
		if _, key := in[0].(whole); key { // one key plan for all of them
			in = in[1:]
			if i == 0 {
				hatches := b.hatches(t.runs, view.Window{})
				all = append(all, fixed(3600, func(s *drawing.Scene, box drawing.Rect) { b.key(t.runs, hatches)(s, box) }))
			}
		}
		for _, x := range in {
			all = append(all, ofRun(x, r.Name))
		}
	}
	return all
}

// ofRun puts the name of its run before the title of a block.
func ofRun(x block, run string) block {
	switch x := x.(type) {
	case table:
		x.title = run + ": " + x.title
		return x
	case list:
		x.title = run + ": " + x.title
		return x
	case pair:
		x.left.title, x.right.title = run+": "+x.left.title, run+": "+x.right.title
		return x
	}
	return x
}
