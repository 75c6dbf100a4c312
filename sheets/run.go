package sheets

import (
	"fmt"
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/plan"
)

const (
	keyWide   drawing.Unit = 5200 // of the key plan beside the legend
	listLeast drawing.Unit = 8700 // height below which a region would break the data of a run in two
	bandLeast drawing.Unit = 5500 // the same for what stands under a table, across its width
	smallWide drawing.Unit = 9000 // least width of a column of data
)

// only says which view of a run stands on a page without the other.
type only uint8

const (
	both only = iota
	planOnly
	elevationOnly
)

// leaf is one page of a run before it becomes a sheet: a window's views above
// a band, or lists alone.
type leaf struct {
	window int  // 0: none
	only   only // of the views, where not both
	win    view.Window
	cells  bool // the views are of several runs
	views  []placed
	scenes []drawing.Scene // of the views
	band   drawing.Rect    // what the views leave
	table  []placed
	small  []placed
}

// run makes the installation sheets of a run, or of several short ones: views
// first, at match lines where the run is long, then chairs and what is particular
// to it.
func (b *book) run(t stretch) []page {
	p, r, first := t.perimeter, t.runs[0], t.page
	var leaves []*leaf
	var along view.Scale
	var room drawing.Rect
	if t.leaf != nil {
		leaves, along, room = []*leaf{t.leaf}, t.along, t.room
	} else {
		var fits bool
		leaves, along, room, fits = b.windows(r, first)
		for _, z := range larger(b.runs) {
			if fits {
				break
			}
			bigger := first
			bigger.paper, bigger.on = landscape(z), z.String()
			leaves, along, room, fits = b.windows(r, bigger)
			if fits {
				first = first.printedOn(z)
			}
		}
		if !fits {
			leaves, along, room, _ = b.windows(r, first)
		}
	}
	windows := leaves[len(leaves)-1].window
	scale := b.say.Say(words.RunScale, words.In("along", drawing.Letter(along.Name)))
	if first.on != "" {
		scale += "; " + first.scale
	}
	first.scale = scale
	b.fill(t, room, &leaves)

	ids := make([]string, len(leaves))
	for i := range leaves {
		ids[i] = b.id("run", p.Job.Name, strings.Join(t.names(), "-"))
	}
	var out []page
	for i, f := range leaves {
		q := first
		q.id = ids[i]
		q.title = b.say.Count(words.RunTitle, len(t.runs), words.In("run", t.title(b)), words.In("what", b.holds(f, windows)))
		if f.window == 0 {
			q.scale = b.say.Say(words.RunScaleNone)
		}
		if first.paper.broad() {
			var hatches []view.LegendEntry
			if f.window > 0 {
				hatches = view.Drawn(b.hatches(t.runs, f.win), f.scenes...)
			}
			q.foot = b.key(t.runs, hatches)
		}
		if i+1 < len(leaves) {
			q.next = ids[i+1]
		}
		before, after := neighbours(leaves, ids, i)
		q.draw = func(s *drawing.Scene, refer func(string) string) {
			for _, l := range [][]placed{f.views, f.table, f.small} {
				for _, x := range l {
					x.draw(s, x.at)
				}
			}
			b.continued(s, f, refer(before), refer(after))
			b.cautionStrip(s, drawing.Box(room.Min.X, room.Max.Y+200, room.Max.X, room.Max.Y+200+cautionHigh))
		}
		out = append(out, q)
	}
	return out
}

// hatches are those that the views of runs use: of one run those of a window,
// of several those of each whole.
func (b *book) hatches(runs []*layout.Run, win view.Window) []view.LegendEntry {
	if len(runs) == 1 {
		return view.RunHatches(b.planOf(runs[0]), win)
	}
	var out []view.LegendEntry
	for _, r := range runs {
		for _, e := range view.RunHatches(b.planOf(r), view.Window{To: r.Cap}) {
			if !slices.Contains(out, e) {
				out = append(out, e)
			}
		}
	}
	return out
}

// windows makes the pages of a run's views on the paper of a page; fits is
// false where a view passes the room there is.
func (b *book) windows(r *layout.Run, p page) (leaves []*leaf, along view.Scale, room drawing.Rect, fits bool) {
	room = p.paper.room(p.banner != "")
	room.Max.Y -= cautionHigh + 200
	of := b.planOf(r)
	wins, along := view.Windows(of, room.Width())
	if len(wins) == 1 {
		along = b.enlarge(of, wins[0], along, room)
	}
	height := room.Height()
	if len(wins) > 1 {
		height -= matchHigh
	}
	k := runScales{along: along}
	k.across, k.up, k.together = view.RunScales(b.say, of, wins, along, room.Width(), height, apart)
	if !k.together { // with scales and reader said once for both
		cells := make([]view.RunCell, len(wins))
		for i, w := range wins {
			cells[i] = view.RunCell{Say: b.say, Run: of, Win: w, Width: room.Width()}
		}
		if across, up, ok := view.RunCellRows([][]view.RunCell{cells}, along, room.Width(), height-near, near, 0); ok {
			k = runScales{along: along, across: across, up: up, together: true, once: true}
		}
	}
	for i, w := range wins {
		leaves = append(leaves, b.views(of, w, k, room, i+1)...)
	}
	fits = true
	for _, f := range leaves {
		for i, v := range f.views {
			box := f.scenes[i].Bounds()
			fits = fits && v.at.Y+max(v.h, box.Max.Y) <= room.Max.Y && box.Min.Y >= 0 && box.Max.X <= room.Width()
		}
	}
	return leaves, along, room, fits
}

// enlarge takes a larger scale along a run so short that the words of its plan
// stand on end and leave no height for the elevation.
func (b *book) enlarge(r *plan.Run, w view.Window, along view.Scale, room drawing.Rect) view.Scale {
	drawn := func(s view.Scale) drawing.Scene {
		return view.RunPlan(b.say, r, w, s, view.RunAcross(r, viewLeast), room.Width())
	}
	all := view.Scales(b.metric)
	i := slices.Index(all, along)
	for v := drawn(along); i > 0 && v.H+9000 > room.Height(); i-- {
		larger := drawn(all[i-1])
		if larger.Bounds().Max.X > room.Width() || larger.H >= v.H {
			break
		}
		v = larger
	}
	return all[i]
}

// holds says in the title what a page of a run holds.
func (b *book) holds(f *leaf, windows int) string {
	what := b.say.Say(f.what())
	if f.window > 0 && windows > 1 {
		return b.say.Say(words.RunPagePart, words.In("what", what), words.In("n", itoa(f.window)), words.In("of", itoa(windows)))
	}
	return what
}

// what is the name of what a page of a run holds.
func (f *leaf) what() words.Key {
	chairs, views := len(f.table) > 0, f.window > 0
	which := func(with, without words.Key) words.Key {
		if chairs {
			return with
		}
		return without
	}
	switch {
	case views && f.only == planOnly:
		return which(words.RunPagePlanChairs, words.RunPagePlan)
	case views && f.only == elevationOnly:
		return which(words.RunPageElevationChairs, words.RunPageElevation)
	case views && f.cells:
		return which(words.RunPageCellsChairs, words.RunPageCells)
	case views:
		return which(words.RunPageViewsChairs, words.RunPageViews)
	}
	return which(words.RunPageDataChairs, words.RunPageData)
}

// neighbours are the sheets of the windows to the left and to the right.
func neighbours(leaves []*leaf, ids []string, i int) (before, after string) {
	w := leaves[i].window
	if w == 0 {
		return "", ""
	}
	for k, o := range leaves {
		if o.window == w-1 && before == "" && w > 1 {
			before = ids[k]
		}
		if o.window == w+1 && after == "" {
			after = ids[k]
		}
	}
	return before, after
}

// continued names the sheets beyond the match lines, above the views.
func (b *book) continued(s *drawing.Scene, f *leaf, before, after string) {
	if len(f.views) == 0 {
		return
	}
	v := f.views[0]
	y := v.at.Y - 150
	st := drawing.Style{Face: drawing.Bold}
	if before != "" {
		s.Text(drawing.Pt(f.band.Min.X, y), b.say.Say(words.RunMatchLeft, words.In("sheet", before)), st)
	}
	if after != "" {
		st.Align = drawing.Right
		s.Text(drawing.Pt(f.band.Max.X, y), b.say.Say(words.RunMatchRight, words.In("sheet", after)), st)
	}
}

// holdWords name the holds of a sheet in a line.
func (b *book) holdWords(holds finding.List) string {
	if len(holds) == 0 {
		return ""
	}
	var codes []string
	for _, f := range holds {
		if !slices.Contains(codes, b.holdName(f.Code)) {
			codes = append(codes, b.holdName(f.Code))
		}
	}
	if len(codes) > 3 {
		codes = append(codes[:3:3], b.say.Say(words.RunHoldMore))
	}
	return b.say.Say(words.RunHold, words.In("holds", strings.Join(codes, ", ")))
}

// runBanner is what stands large on the sheets of runs: their own holds and the
// pieces that must not be cut for them; or, where only a piece that reaches
// round its corner is held, the joint at which the laying stops.
func (b *book) runBanner(runs []*layout.Run, holds finding.List) string {
	var marks, stops, all []string
	for _, r := range runs {
		for _, t := range r.Parts {
			q := t.Piece
			if !slices.Contains(all, q.Mark) {
				all = append(all, q.Mark)
			}
			if b.l.Held.Released(q) || slices.Contains(marks, q.Mark) {
				continue
			}
			marks = append(marks, q.Mark)
			var at []string
			left, right := b.l.EndJoints(q)
			for _, j := range []*layout.Joint{left, right} {
				if j == nil || !on(runs, j) {
					continue
				}
				name := j.Name // of several runs each joint says its run
				if len(runs) == 1 {
					name = local(name, r.Name)
				}
				if !slices.Contains(at, name) {
					at = append(at, name)
				}
			}
			if len(at) == 0 {
				stops = append(stops, b.say.Say(words.RunLayNot, words.In("piece", q.Mark)))
				continue
			}
			stops = append(stops, b.say.Say(words.RunLayNotAt, words.In("piece", q.Mark), words.In("joints", strings.Join(at, ", "))))
		}
	}
	switch {
	case len(holds) == 0 && len(marks) == 0:
		return ""
	case len(holds) == 0:
		return strings.Join(stops, " ")
	case len(marks) == 0:
		return b.holdWords(holds)
	case len(marks) == len(all):
		return sentences(b.holdWords(holds), b.say.Count(words.RunCutNotAll, len(runs)))
	case len(marks) > 4:
		return sentences(b.holdWords(holds), b.say.Say(words.RunCutNotMany, words.In("n", itoa(len(marks)))))
	}
	return sentences(b.holdWords(holds), b.say.Say(words.RunCutNot, words.In("pieces", strings.Join(marks, ", "))))
}

// on says whether a joint lies on one of the runs.
func on(runs []*layout.Run, j *layout.Joint) bool {
	return slices.ContainsFunc(runs, func(r *layout.Run) bool { return j.Run == r.Run })
}

// runScales are the scales of all windows of a run, so that its sheets compare.
type runScales struct {
	along, across, up view.Scale
	together          bool // plan and elevation share a page
	once              bool // and have one foot for both
}

// matchHigh is the room of what is said of the match lines.
const matchHigh drawing.Unit = 500

// views places the plan over the elevation of one window on one page, or else
// each on a page of its own.
func (b *book) views(of *plan.Run, w view.Window, k runScales, room drawing.Rect, n int) []*leaf {
	top := drawing.Unit(0)
	if w.Of > 1 {
		top = matchHigh
	}
	gap := apart
	if k.once {
		gap = near
	}
	put := func(f *leaf, v drawing.Scene, prefix string) {
		y := room.Min.Y + top
		if len(f.views) > 0 {
			y = f.band.Min.Y
		}
		got, _ := picture{scene: v, prefix: fmt.Sprintf("w%d%s", n, prefix), centre: true}.take(room.Width(), v.H, true)
		f.views = append(f.views, placed{got, drawing.Pt(room.Min.X, y)})
		f.scenes = append(f.scenes, v)
		f.band = drawing.Box(room.Min.X, min(y+v.H+gap, room.Max.Y), room.Max.X, room.Max.Y)
	}
	if k.once {
		c := view.RunCell{Say: b.say, Run: of, Win: w, Width: room.Width()}
		f := &leaf{window: n, win: w}
		plans, elevations := view.RunCellViews([]view.RunCell{c}, k.along, k.across, k.up)
		put(f, plans[0], "p")
		put(f, elevations[0], "e")
		put(f, view.RunCellFoot([]view.RunCell{c}, k.along, k.across, k.up, room.Width()), "f")
		return []*leaf{f}
	}
	if k.together {
		above, elevation := view.RunViews(b.say, of, w, k.along, k.across, k.up, room.Width())
		f := &leaf{window: n, win: w}
		put(f, above, "p")
		put(f, elevation, "e")
		return []*leaf{f}
	}
	p := &leaf{window: n, win: w, only: planOnly}
	put(p, view.RunPlan(b.say, of, w, k.along, k.across, room.Width()), "p")
	e := &leaf{window: n, win: w, only: elevationOnly}
	put(e, view.RunElevation(b.say, of, w, k.along, k.up, room.Width()), "e")
	return []*leaf{p, e}
}

const viewLeast drawing.Unit = 3000 // the least room that is asked of a view

// apart stands between plan and elevation, which have room of their own around them.
const apart drawing.Unit = 350

// near stands between them where height is scarce and they have one foot.
const near drawing.Unit = 220

// key draws the small key plan beside a legend.
func (b *book) key(runs []*layout.Run, hatches []view.LegendEntry) func(s *drawing.Scene, box drawing.Rect) {
	return func(s *drawing.Scene, box drawing.Rect) {
		w := min(keyWide, box.Width()*55/100)
		place(s, view.KeyPlanSmall(b.say, b.keyPlan(), b.l.SpotOfRuns(runs...), w, box.Height()), box.Min, "key")
		b.legend(s, drawing.Box(box.Min.X+w+400, box.Min.Y, box.Max.X, box.Max.Y), hatches)
	}
}
