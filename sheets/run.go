package sheets

import (
	"fmt"
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/layout"
	"copingset/layout/finding"
)

const (
	keyWide   drawing.Unit = 5200 // of the key plan beside the legend
	listLeast drawing.Unit = 8700 // height below which a region would break the data of a run in two
	bandLeast drawing.Unit = 5500 // the same for the order of work, across the width of the table
	smallWide drawing.Unit = 9000 // least width of a column of data
)

// leaf is one page of a run before it becomes a sheet: a window's views above
// a band, or lists alone.
type leaf struct {
	window int    // 0: none
	name   string // of the views, where not both
	win    view.Window
	views  []placed
	scenes []drawing.Scene // of the views
	band   drawing.Rect    // what the views leave
	table  []placed
	small  []placed
}

// run makes the installation sheets of one run: its views first, at match
// lines where it is long, then chairs and the order of work.
func (b *book) run(p *layout.Perimeter, r *layout.Run) []page {
	first := page{kind: RunSheet, paper: b.runs, holds: b.l.HoldsOn(r), about: "Installation of run " + r.Name + ": plan, elevation, chairs with packing and fasteners, joint gaps, order of work."}
	first.banner = b.runBanner(r, first.holds)
	leaves, along, room, fits := b.windows(r, first)
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
	windows := leaves[len(leaves)-1].window
	words := "lengthwise " + drawing.Letter(along.Name)
	if first.on != "" {
		words += "; " + first.scale
	}
	first.scale = words
	b.fill(p, r, room, &leaves)

	base := b.id("run", p.Job.Name, r.Name)
	ids := make([]string, len(leaves))
	for i := range leaves {
		ids[i] = base
		if i > 0 {
			ids[i] = b.id("run", p.Job.Name, r.Name)
		}
	}
	var out []page
	for i, f := range leaves {
		q := first
		q.id = ids[i]
		q.title = "Run " + b.of(p, r.Name) + ": " + f.what(windows)
		if f.window == 0 {
			q.scale = "none"
		}
		if first.paper.broad() {
			var hatches []view.LegendEntry
			if f.window > 0 {
				hatches = view.Drawn(view.RunHatches(b.l, r, f.win), f.scenes...)
			}
			q.foot = b.key(r, hatches)
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
			continued(s, f, refer(before), refer(after))
			cautionStrip(s, drawing.Box(room.Min.X, room.Max.Y+200, room.Max.X, room.Max.Y+200+cautionHigh))
		}
		out = append(out, q)
	}
	return out
}

// windows makes the pages of a run's views on the paper of a page; fits is
// false where a view passes the room there is.
func (b *book) windows(r *layout.Run, p page) (leaves []*leaf, along view.Scale, room drawing.Rect, fits bool) {
	room = p.paper.room(p.banner != "")
	room.Max.Y -= cautionHigh + 200
	wins, along := view.Windows(b.l, r, room.Width())
	if len(wins) == 1 {
		along = b.enlarge(r, wins[0], along, room)
	}
	height := room.Height()
	if len(wins) > 1 {
		height -= matchHigh
	}
	k := runScales{along: along}
	k.across, k.up, k.together = view.RunScales(b.l, r, wins, along, room.Width(), height, apart)
	for i, w := range wins {
		leaves = append(leaves, b.views(r, w, k, room, i+1)...)
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
func (b *book) enlarge(r *layout.Run, w view.Window, along view.Scale, room drawing.Rect) view.Scale {
	plan := func(s view.Scale) drawing.Scene {
		return view.RunPlan(b.l, r, w, s, view.RunAcross(b.l, r, viewLeast), room.Width())
	}
	all := view.Scales(b.metric)
	i := slices.Index(all, along)
	for v := plan(along); i > 0 && v.H+9000 > room.Height(); i-- {
		larger := plan(all[i-1])
		if larger.Bounds().Max.X > room.Width() || larger.H >= v.H {
			break
		}
		v = larger
	}
	return all[i]
}

// what says in the title what a page of a run holds.
func (f *leaf) what(windows int) string {
	part := ""
	if f.window > 0 && windows > 1 {
		part = fmt.Sprintf(", part %d of %d", f.window, windows)
	}
	switch {
	case f.window > 0 && f.name != "" && len(f.table) > 0:
		return f.name + part + ", chairs"
	case f.window > 0 && f.name != "":
		return f.name + part
	case f.window > 0 && len(f.table) > 0:
		return "plan, elevation" + part + ", chairs"
	case f.window > 0:
		return "plan and elevation" + part
	case len(f.table) > 0:
		return "chairs and order of work"
	}
	return "order of work"
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
func continued(s *drawing.Scene, f *leaf, before, after string) {
	if len(f.views) == 0 {
		return
	}
	v := f.views[0]
	y := v.at.Y - 150
	st := drawing.Style{Face: drawing.Bold}
	if before != "" {
		s.Text(drawing.Pt(f.band.Min.X, y), "Match line at the left: see sheet "+before, st)
	}
	if after != "" {
		st.Align = drawing.Right
		s.Text(drawing.Pt(f.band.Max.X, y), "Match line at the right: see sheet "+after, st)
	}
}

// holdWords name the holds of a sheet in a line.
func holdWords(holds finding.List) string {
	if len(holds) == 0 {
		return ""
	}
	var codes []string
	for _, f := range holds {
		if !slices.Contains(codes, holdName(f.Code)) {
			codes = append(codes, holdName(f.Code))
		}
	}
	if len(codes) > 3 {
		codes = append(codes[:3:3], "and more")
	}
	return "HOLD: " + strings.Join(codes, ", ") + "."
}

// runBanner is what stands large on the sheets of a run: its own holds and the
// pieces that must not be cut for them; or, where only a piece that reaches
// round its corner is held, the joint at which the laying stops.
func (b *book) runBanner(r *layout.Run, holds finding.List) string {
	var marks, stops []string
	for _, t := range r.Parts {
		q := t.Piece
		if q.Released() || slices.Contains(marks, q.Mark) {
			continue
		}
		marks = append(marks, q.Mark)
		at := ""
		left, right := b.l.EndJoints(q)
		for _, j := range []*layout.Joint{left, right} {
			if j != nil && j.Run == r.Run && !strings.Contains(at, local(j.Name, r.Name)) {
				at += " AND " + local(j.Name, r.Name)
			}
		}
		if at == "" {
			stops = append(stops, "piece "+q.Mark+" held")
			continue
		}
		stops = append(stops, strings.TrimPrefix(at, " AND ")+": piece "+q.Mark+" held")
	}
	switch {
	case len(holds) == 0 && len(marks) == 0:
		return ""
	case len(holds) == 0:
		return "Lay nothing at " + strings.Join(stops, "; ") + "."
	case len(marks) == 0:
		return holdWords(holds)
	case len(marks) == len(pieceMarks(r)):
		return holdWords(holds) + " Do not cut any piece of this run."
	case len(marks) > 4:
		return holdWords(holds) + fmt.Sprintf(" Do not cut %d pieces: see the piece schedule.", len(marks))
	}
	return holdWords(holds) + " Do not cut " + strings.Join(marks, ", ") + "."
}

// pieceMarks are the pieces of a run, each once.
func pieceMarks(r *layout.Run) []string {
	var out []string
	for _, t := range r.Parts {
		if !slices.Contains(out, t.Piece.Mark) {
			out = append(out, t.Piece.Mark)
		}
	}
	return out
}

// runScales are the scales of all windows of a run, so that its sheets compare.
type runScales struct {
	along, across, up view.Scale
	together          bool // plan and elevation share a page
}

// matchHigh is the room of what is said of the match lines.
const matchHigh drawing.Unit = 500

// views places the plan over the elevation of one window on one page, or else
// each on a page of its own.
func (b *book) views(r *layout.Run, w view.Window, k runScales, room drawing.Rect, n int) []*leaf {
	top := drawing.Unit(0)
	if w.Of > 1 {
		top = matchHigh
	}
	put := func(f *leaf, v drawing.Scene, prefix string) {
		y := room.Min.Y + top
		if len(f.views) > 0 {
			y = f.band.Min.Y
		}
		got, _ := picture{scene: v, prefix: fmt.Sprintf("w%d%s", n, prefix), centre: true}.take(room.Width(), v.H, true)
		f.views = append(f.views, placed{got, drawing.Pt(room.Min.X, y)})
		f.scenes = append(f.scenes, v)
		f.band = drawing.Box(room.Min.X, min(y+v.H+apart, room.Max.Y), room.Max.X, room.Max.Y)
	}
	plan := view.RunPlan(b.l, r, w, k.along, k.across, room.Width())
	elevation := view.RunElevation(b.l, r, w, k.along, k.up, room.Width())
	if k.together {
		f := &leaf{window: n, win: w}
		put(f, plan, "p")
		put(f, elevation, "e")
		return []*leaf{f}
	}
	p := &leaf{window: n, win: w, name: "plan"}
	put(p, plan, "p")
	e := &leaf{window: n, win: w, name: "elevation"}
	put(e, elevation, "e")
	return []*leaf{p, e}
}

const viewLeast drawing.Unit = 3000 // the least room that is asked of a view

// apart stands between plan and elevation, which have room of their own around them.
const apart drawing.Unit = 350

// key draws the small key plan beside a legend.
func (b *book) key(r *layout.Run, hatches []view.LegendEntry) func(s *drawing.Scene, box drawing.Rect) {
	return func(s *drawing.Scene, box drawing.Rect) {
		place(s, view.KeyPlanSmall(b.l, r, min(keyWide, box.Width()*55/100), box.Height()), box.Min, "key")
		b.legend(s, drawing.Box(box.Min.X+min(keyWide, box.Width()*55/100)+400, box.Min.Y, box.Max.X, box.Max.Y), hatches)
	}
}

// fill arranges table and lists on as few pages as they take.
func (b *book) fill(p *layout.Perimeter, r *layout.Run, room drawing.Rect, leaves *[]*leaf) {
	table := b.chairTable(r)
	strip := b.steps(r, room.Width())
	low := room
	if strip.h > 0 && strip.h < room.Height()/2 {
		low.Max.Y -= strip.h + between // every page of lists keeps room for the pictures; one takes them
	}
	best := b.arrange(p, r, table, low, *leaves)
	table.tight = true
	if got := b.arrange(p, r, table, low, *leaves); len(got) < len(best) {
		best = got
	}
	*leaves = best
	if strip.h == 0 {
		return
	}
	for _, f := range best {
		if f.window == 0 && low != room {
			f.views = append(f.views, placed{strip, drawing.Pt(room.Min.X, low.Max.Y+between)})
			return
		}
	}
	*leaves = append(best, &leaf{views: []placed{{strip, room.Min}}})
}

// steps is the strip of pictures of the order of work; none where nothing is
// set on the run by itself.
func (b *book) steps(r *layout.Run, w drawing.Unit) laid {
	if len(r.Chairs) == 0 && len(r.Joints) == 0 {
		return laid{}
	}
	s := view.StepStrip(b.l, r, w, view.StepStripHeight(b.l, r, w))
	got, _ := picture{scene: s, prefix: "steps", centre: true}.take(w, s.H, true)
	return got
}

// arrange places the chair table under the views where it fits whole or else
// on pages of its own, and the other lists where there is room, in the order a
// foreman needs them.
func (b *book) arrange(p *layout.Perimeter, r *layout.Run, table table, room drawing.Rect, views []*leaf) []*leaf {
	var leaves []*leaf
	for _, f := range views {
		copied := *f
		leaves = append(leaves, &copied)
	}
	natural := min(table.width(), room.Width())
	bands := len(leaves)
	free := make([]drawing.Rect, bands)
	for i, f := range leaves {
		free[i] = f.band
	}
	for i, f := range free {
		if f.Width() < natural || len(table.rows) == 0 {
			continue
		}
		if got, rest := table.take(natural, f.Height(), false); rest == nil && got.draw != nil {
			leaves[i].table = []placed{{got, f.Min}}
			free[i].Min.X += natural + gutter
			table.rows = nil
		}
	}
	var side [][]drawing.Rect // beside and below the table, page by page
	if len(table.rows) > 0 {
		k := max(1, int((room.Width()-smallWide)/(natural+gutter)))
		var cols []drawing.Rect
		for i := range k {
			x := room.Min.X + drawing.Unit(i)*(natural+gutter)
			cols = append(cols, drawing.Box(x, room.Min.Y, x+natural, room.Max.Y))
		}
		for _, t := range flow([]block{table}, func(int) []drawing.Rect { return cols }) {
			leaves = append(leaves, &leaf{table: t})
			used, foot := 0, room.Min.Y
			for i, c := range cols {
				for _, x := range t {
					if x.at.X == c.Min.X {
						used, foot = i+1, x.at.Y+x.h
					}
				}
			}
			x := min(room.Min.X+drawing.Unit(used)*(natural+gutter), room.Max.X)
			rs := parts(drawing.Box(x, room.Min.Y, room.Max.X, room.Max.Y))
			last := cols[used-1]
			if under := drawing.Box(last.Min.X, foot+between, last.Max.X, room.Max.Y); foot+between+bandLeast < room.Max.Y {
				rs = append(rs, under)
			}
			side = append(side, rs)
		}
	}
	regions := func(n int) []drawing.Rect {
		switch {
		case n < bands:
			return parts(free[n])
		case n < bands+len(side):
			return side[n-bands]
		}
		return columns(room, max(1, int(room.Width()/(smallWide+3000))), gutter)
	}
	// A page saved is worth the order of work before the data, or in two parts.
	var lists [][]placed
	for _, together := range []bool{true, false} {
		in := b.runLists(p, r, room, together)
		for _, order := range b.orders(in) {
			if got := flowOver(order, regions); lists == nil || len(got) < len(lists) {
				lists = got
			}
		}
	}
	for i, t := range lists {
		for len(leaves) <= i {
			leaves = append(leaves, &leaf{})
		}
		leaves[i].small = append(leaves[i].small, t...)
	}
	return leaves
}

// orders are the ways in which the lists may follow each other: the order of
// work, last of them, last, first, second or before the last.
func (b *book) orders(in []block) [][]block {
	last := len(in) - 1
	out := [][]block{in}
	for _, at := range []int{last - 1, 1, 0} {
		if at >= 0 && at < last {
			out = append(out, slices.Concat(in[:at], in[last:], in[at:last]))
		}
	}
	return out
}

// parts cuts a rectangle into columns wide enough for data; none if it is not.
func parts(r drawing.Rect) []drawing.Rect {
	n := int((r.Width() + gutter) / (smallWide + gutter))
	if n < 1 || r.Height() < listLeast {
		return nil
	}
	return columns(r, n, gutter)
}
