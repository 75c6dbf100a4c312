package sheets

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"copingset/drawing"
	blocks "copingset/drawing/block"
	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
)

const (
	keyWide drawing.Unit = 5200 // of the key plan beside the legend
	near    drawing.Unit = 220  // between what belongs together where height is scarce
)

// stretch is what one set of installation sheets shows: a run, or a few short
// ones that follow each other, as round a pilaster, so that the crew sees it
// whole.
type stretch struct {
	perimeter *layout.Perimeter
	runs      []*layout.Run
	page      page // what all its sheets have in common
	leaves    []stripLeaf
	rest      []blocks.Flow // what found no room on them
	lined     bool          // its strips say what the lines of their elevations are
}

// stripLeaf is a page of strips: a window of a run, or several runs whole.
type stripLeaf struct {
	blocks.Leaf
	strips []*view.RunStrip
}

// conditionKeys are the words of what a survey finds wrong, by its codes; it is for
// looking up alone.
var conditionKeys = map[string]words.Key{
	string(job.Loose): words.ConditionLoose, string(job.Rotten): words.ConditionRotten,
	string(job.Wet): words.ConditionWet, string(job.Fixings): words.ConditionFixings,
	string(job.Pipes): words.ConditionPipes, string(job.Flashing): words.ConditionFlashing}

// runTimes is the exaggeration of all runs of the packet.
func (b *book) runTimes() view.Exaggeration {
	var all []*view.RunStrip
	for _, r := range b.l.Runs() {
		_, strips := b.strips(r, b.runs.room(false).Width())
		all = append(all, strips...)
	}
	return view.RunTimes(all)
}

// stretches parts the runs of a perimeter into as few sets of sheets as they take: a
// few that stand whole on a sheet together, or one. A pilaster's short runs are kept on
// one sheet even where that takes one more.
func (b *book) stretches(p *layout.Perimeter) []stretch {
	n := len(p.Runs)
	type state struct {
		cost int
		last stretch
		from int
	}
	best := make([]state, n+1)
	for k := 1; k <= n; k++ {
		best[k].cost = -1
		for i := k - 1; i >= max(0, k-mostTogether); i-- {
			cost := best[i].cost + sheetCost
			if i > 0 && shortRun(p.Runs[i-1]) && shortRun(p.Runs[i]) {
				cost += apartCost
			}
			if best[k].cost >= 0 && cost >= best[k].cost {
				continue
			}
			t, ok := stretch{}, true
			if i == k-1 {
				t = b.stretch(p, p.Runs[i:k])
			} else if t, ok = b.together(p, p.Runs[i:k]); !ok || !b.facing(p, p.Runs[i:k]) {
				continue
			}
			best[k] = state{cost + sheetCost*(len(t.leaves)-1), t, i}
		}
	}
	var out []stretch
	for k := n; k > 0; k = best[k].from {
		out = append(out, best[k].last)
	}
	slices.Reverse(out)
	return out
}

// stretchesOf are the stretches of a perimeter, worked out once.
func (b *book) stretchesOf(p *layout.Perimeter) []stretch {
	if b.runSets[p] == nil && b.beside != nil && !b.leads {
		on := b.on(p.Job)
		for _, t := range b.beside.stretchesOf(p) {
			own, ok := stretch{}, len(t.runs) > 1
			if ok {
				own, ok = on.together(p, t.runs)
			}
			if !ok {
				own = on.stretch(p, t.runs)
			}
			b.runSets[p] = append(b.runSets[p], own)
		}
	}
	if b.runSets[p] == nil {
		b.runSets[p] = b.on(p.Job).stretches(p)
	}
	return b.runSets[p]
}

// What parting runs costs: a sheet, and that of two short runs that follow each other.
const (
	sheetCost    = 2
	apartCost    = 3
	mostTogether = 7
)

// shortRun says that a run is one of those of jogs and pilasters.
func shortRun(r *layout.Run) bool { return r.Cap < 5*length.Foot }

// newStretch is some runs with what all their sheets have in common.
func (b *book) newStretch(p *layout.Perimeter, runs []*layout.Run) stretch {
	t := stretch{perimeter: p, runs: runs}
	var holds finding.List
	for _, f := range b.l.Holds() {
		if slices.ContainsFunc(runs, func(r *layout.Run) bool { return f.Where.TouchesRun(p.Job.Name, r.Name) }) {
			holds = append(holds, f)
		}
	}
	t.page = page{kind: RunSheet, runs: t.names(), paper: b.runs, holds: holds,
		banner: sentences(b.runBanner(runs, holds), b.setNot(runs, holds))}
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

// runSpec is how strips and what stands beside them share a page.
func runSpec(slots []blocks.Slot) blocks.Spec {
	return blocks.Spec{Slots: slots, Whole: true, Below: 12000, Gap: 300, Gutter: 500}
}

// stretch composes the sheets of one run: its strips, each on a page of the job's
// paper or, where one does not fit, of the next larger.
func (b *book) stretch(p *layout.Perimeter, runs []*layout.Run) stretch {
	t := b.newStretch(p, runs)
	papers := b.papers(t.page, cautionHigh+200)
	for i, q := range papers {
		columns, strips := b.strips(runs[0], q.Room.Width())
		leaves, over := stripsOn(strips, papers[i:i+1])
		lined := !over
		if over { // lower, where the notes say what its foot says
			low := slices.Clone(strips)
			for k, s := range strips {
				low[k] = s.Beside()
			}
			leaves, over = stripsOn(low, papers[i:i+1])
		}
		if i == 0 || !over {
			t.leaves, t.lined = leaves, lined
			t.rest = b.sideFlows(&t, map[*layout.Run]chairColumns{runs[0]: columns})
		}
		if !over {
			break
		}
	}
	t.fill()
	return t
}

// stripsOn are the pages of a run's strips on a paper, and whether one leaves its room.
func stripsOn(strips []*view.RunStrip, of []blocks.Paper) (leaves []stripLeaf, over bool) {
	for _, s := range strips {
		l := blocks.Compose(runSpec([]blocks.Slot{{Block: s, ID: fmt.Sprintf("w%d", s.Win.N)}}), of)[0]
		over = over || l.Over
		leaves = append(leaves, stripLeaf{l, []*view.RunStrip{s}})
	}
	return leaves, over
}

// together composes several runs on one page, each whole, in rows; false if they do
// not stand on it.
func (b *book) together(p *layout.Perimeter, runs []*layout.Run) (stretch, bool) {
	t := b.newStretch(p, runs)
	papers := b.papers(t.page, cautionHigh+200)[:1]
	room := papers[0].Room
	var f stripLeaf
	var slots []blocks.Slot
	columns := map[*layout.Run]chairColumns{}
	used, row := drawing.Unit(0), 0
	for i, r := range runs {
		cols, strips := b.strips(r, room.Width())
		if len(strips) != 1 {
			return t, false
		}
		columns[r] = cols
		strip := strips[0].Beside()
		w := strip.Width()
		if used > 0 && used+gutter+w > room.Width() {
			used, row = 0, row+1
		}
		if used > 0 {
			used += gutter
		}
		used += w
		f.strips = append(f.strips, strip)
		slots = append(slots, blocks.Slot{Block: strip, Cell: blocks.Cell{Row: row, Col: i},
			ID: fmt.Sprintf("r%d", i+1)})
	}
	spec := runSpec(slots)
	spec.Gutter = gutter
	f.Leaf = blocks.Compose(spec, papers)[0]
	if f.Over {
		return t, false
	}
	t.leaves, t.rest = []stripLeaf{f}, b.sideFlows(&t, columns)
	t.fill()
	return t, true
}

// sideFlows are what stands beside the strips, as flows.
func (b *book) sideFlows(t *stretch, columns map[*layout.Run]chairColumns) []blocks.Flow {
	var out []blocks.Flow
	for i, x := range b.runSide(*t, columns) {
		out = append(out, flowing{fmt.Sprintf("side %s %d", strings.Join(t.names(), " "), i), x})
	}
	return out
}

// fill places what stands beside the strips on their pages, as far as there is room: in
// columns as wide as hold the most of it.
func (t *stretch) fill() {
	for i := range t.leaves {
		var best blocks.Leaf
		var rest []blocks.Flow
		for k, wide := range []drawing.Unit{7000, 4700} {
			spec := runSpec(nil)
			spec.Columns = wide
			if l, r := spec.Fill(t.leaves[i].Leaf, t.rest); k == 0 || len(r) < len(rest) {
				best, rest = l, r
			}
		}
		t.leaves[i].Leaf, t.rest = best, rest
	}
}

// strips are the strips of a run in a width, and its columns: narrow ones where those
// save a sheet.
func (b *book) strips(r *layout.Run, width drawing.Unit) (chairColumns, []*view.RunStrip) {
	key := stripKey{r, width, b.times}
	if got, ok := b.stripsOf[key]; ok {
		return got.columns, got.strips
	}
	columns, strips := b.makeStrips(r, width)
	if b.stripsOf == nil {
		b.stripsOf = map[stripKey]stripsMade{}
	}
	b.stripsOf[key] = stripsMade{columns, strips}
	return columns, strips
}

// stripKey is what the strips of a run depend on.
type stripKey struct {
	of    *layout.Run
	width drawing.Unit
	times view.Exaggeration
}

type stripsMade struct {
	columns chairColumns
	strips  []*view.RunStrip
}

func (b *book) makeStrips(r *layout.Run, width drawing.Unit) (chairColumns, []*view.RunStrip) {
	of := b.planOf(r)
	labels := b.stripLabels(of)
	var columns chairColumns
	var best []*view.RunStrip
	for _, narrow := range []bool{false, true} {
		c := b.chairColumns(of, narrow)
		got := view.RunStrips(of, func(w view.Window, along view.Scale) *view.RunStrip {
			s := &view.RunStrip{Say: b.say, Run: of, Win: w, Along: along, Room: width, Rows: c.rows,
				Ends: endTags(of, w, r.Perimeter.Job.Name), Cuts: b.cutTags(r), Times: b.times, Lines: true}
			return s.Holding(c.cols, labels)
		})
		if best == nil || len(got) < len(best) {
			columns, best = c, got
		}
		if len(best) == 1 {
			break
		}
	}
	return columns, best
}

// endTags are what the symbols at both ends of a window lead to: the sheet of the
// piece there, or the next part of the run.
func endTags(of *plan.Run, w view.Window, on string) (out [2]view.RunTag) {
	n := len(of.Pieces)
	if n == 0 {
		return out
	}
	for i, q := range []plan.Piece{of.Pieces[0], of.Pieces[n-1]} {
		if !q.Kind.Along() {
			out[i] = view.RunTag{Name: prose(q.Mark), Wide: fmt.Sprintf("%d.%s.1", Sections.section(),
				plainMark(on)), Sheet: q.Mark}
		}
	}
	for i, m := range []*length.Length{w.MatchLeft, w.MatchRight} {
		if m == nil {
			continue
		}
		out[i] = view.RunTag{Wide: fmt.Sprintf("%d.%s.%d", RunSheet.section(), plainMark(of.Name), w.N+1),
			Sheet: partOf(w.N - 1 + 2*i)}
		for _, j := range of.Joints {
			if j.Centre == *m {
				out[i].Name = local(j.Mark, of.Name)
			}
		}
	}
	return out
}

// cutTags are the sections that are true of a run.
func (b *book) cutTags(r *layout.Run) []view.RunCut {
	if b.cuts == nil {
		b.cuts = b.l.SectionDrawings()
	}
	var out []view.RunCut
	for _, c := range b.cuts {
		if !slices.Contains(c.Runs, r) {
			continue
		}
		name := c.Chair.Name
		if c.Run == r {
			name = local(name, r.Name)
		}
		out = append(out, view.RunCut{RunTag: view.RunTag{Name: b.say.Say(words.ViewSectionTag,
			words.In("chair", prose(name))), Sheet: sectionMark(c.Chair.Name), Wide: fmt.Sprintf("%d.%s.1",
			Sections.section(), plainMark(c.Run.Perimeter.Job.Name))}, At: c.Chair.At, Here: c.Run == r})
	}
	return out
}

// partOf names a window of the run for the references of its other windows.
func partOf(n int) string { return fmt.Sprintf("part %d", n) }

// stripLabels are what is said above the plan at its station: obstacles, joints that
// are unlike the rest, what the surveyor saw, where the cap is tightest.
func (b *book) stripLabels(of *plan.Run) []view.RunLabel {
	say := b.say.Say
	var out []view.RunLabel
	for _, o := range of.Obstacles {
		out = append(out, view.RunLabel{At: o.At, Words: say(words.ViewObstacle, words.In("name", prose(o.Mark)),
			words.In("station", b.text(o.Station.Real)),
			words.In("what", b.obstacleDoes(o))), Fact: o.Fact})
	}
	for _, j := range of.Joints {
		if said := b.jointSays(j); said != "" {
			out = append(out, view.RunLabel{At: j.Centre, Words: said})
		}
	}
	for _, n := range of.Notes {
		var found []string
		for _, c := range n.Conditions {
			found = append(found, say(conditionKeys[c]))
		}
		said := strings.Join(found, ", ")
		if n.Words != "" {
			said = strings.TrimPrefix(said+"; "+n.Words, "; ")
		}
		out = append(out, view.RunLabel{At: n.At, Words: say(words.ViewSurveyor, words.In("note", prose(said))),
			Fact: n.Fact})
	}
	for _, t := range of.Branches {
		out = append(out, view.RunLabel{At: t.Left.X + (t.Right.X-t.Left.X)/2, Words: say(words.ViewBranch,
			words.In("run", prose(t.Name)))})
	}
	for i, e := range []plan.End{of.Left, of.Right} {
		var said string
		switch {
		case e.Step != plan.NoStep:
			said = view.StepSaid(b.say, prose(e.Beyond), e.Step == plan.StepUp)
		case e.Kind == plan.EndTee:
			said = say(words.ViewMeets, words.In("run", prose(e.Beyond)))
		case e.Kind == plan.EndWall:
			said = say(words.ViewEndWall)
		case e.Kind == plan.EndFree:
			said = say(words.ViewEndFree)
		default:
			continue
		}
		out = append(out, view.RunLabel{At: of.Cap.Real * length.Length(i), Words: said})
	}
	if of.Pinch.Here {
		out = append(out, view.RunLabel{At: of.Pinch.On.X, Words: say(words.ViewPinch), Face: drawing.Bold})
	}
	slices.SortStableFunc(out, func(a, z view.RunLabel) int { return cmp.Compare(a.At, z.At) })
	return out
}

// obstacleDoes says what an obstacle keeps away, and whose work it is.
func (b *book) obstacleDoes(o plan.Obstacle) string {
	var does []string
	for _, d := range []struct {
		does bool
		word words.Key
	}{{o.BlocksChair, words.ViewObstacleChair}, {o.BlocksJoint, words.ViewObstacleJoint},
		{o.Pierces, words.ViewObstacleThrough}} {
		if d.does {
			does = append(does, b.say.Say(d.word))
		}
	}
	switch {
	case o.Pierces && o.Collar == "":
		does = append(does, b.say.Say(words.ViewObstacleNobody))
	case o.Pierces:
		does = append(does, b.say.Say(words.ViewObstacleCollar, words.In("who", prose(o.Collar))))
	}
	said := strings.Join(does, ", ")
	switch {
	case o.Work != "":
		said += "; " + b.say.Say(words.ViewObstacleWork, words.In("who", prose(o.Work)))
	case !o.Pierces:
		said += "; " + b.say.Say(words.ViewObstacleUnworked)
	}
	return said
}

// jointSays says what is unlike the rest at a joint.
func (b *book) jointSays(j plan.Joint) string {
	say := b.say.Say
	switch j.Kind {
	case plan.ExpansionJoint:
		head, plate, unstated := say(words.ViewExpansion), words.ViewExpansionLeft, ""
		if j.WallGap > 0 {
			head = say(words.ViewExpansionGap, words.In("gap", b.small(j.WallGap)))
		}
		if j.Held == plan.RightHand {
			plate = words.ViewExpansionRight
		}
		if !j.Moves {
			unstated = "; " + say(words.ViewExpansionUnstated)
		}
		return head + "; " + say(plate) + unstated
	case plan.KinkJoint:
		return say(words.ViewKink)
	}
	return ""
}

// run makes the first installation sheets of a stretch.
func (b *book) run(t stretch) []page {
	var out []page
	var ids []string
	for range t.leaves {
		ids = append(ids, b.id("run", t.perimeter.Job.Name, strings.Join(t.names(), "-")))
	}
	for i, f := range t.leaves {
		out = append(out, b.stripPage(t, f, ids, i))
	}
	for i := range len(out) - 1 {
		out[i].next = out[i+1].id
	}
	return out
}

// titled is the title of a sheet of the stretch.
func (t *stretch) titled(b *book, what string) string {
	return b.say.Count(words.RunTitle, len(t.runs), words.In("run", t.title(b)), words.In("what", what))
}

// stripPage is a page of strips.
func (b *book) stripPage(t stretch, f stripLeaf, ids []string, i int) page {
	q := t.page
	if f.Paper.Name != "" {
		q = q.onPaper(b.say, f.Paper.Name)
	}
	q.id = ids[i]
	what := b.say.Say(words.RunPageViewsChairs)
	if len(t.runs) > 1 {
		what = b.say.Say(words.RunPageCellsChairs)
	}
	if len(ids) > 1 {
		what = b.say.Say(words.RunPagePart, words.In("what", what), words.In("n", itoa(i+1)),
			words.In("of", itoa(len(ids))))
	}
	q.title = t.titled(b, what)
	scale := b.say.Say(words.RunScale, words.In("along", drawing.Letter(f.strips[0].Along.Name)))
	if slices.ContainsFunc(f.strips, func(s *view.RunStrip) bool { return s.Along != f.strips[0].Along }) {
		scale = b.say.Say(words.RunScaleNoted)
	}
	if q.on != "" {
		scale += "; " + q.scale
	}
	q.scale = scale
	q.foot = b.runFoot(t, f.strips)
	q.draw = func(s *drawing.Scene, refer func(string) string) {
		marks, _ := f.Draw(nil)
		s.Add(marks...)
		for _, p := range f.Placed {
			strip, ok := p.Block.(*view.RunStrip)
			if !ok {
				continue
			}
			for _, tag := range strip.Tags(p.Size) {
				id := b.where[tag.Sheet]
				for k := range ids {
					if tag.Sheet == partOf(k+1) {
						id = ids[k]
					}
				}
				tag.Box = tag.Box.Translate(p.At)
				b.leadTo(s, tag, id, refer(id))
			}
		}
		b.underCaution(s, f.Paper.Room)
	}
	return q
}

// leadTo draws the symbol that names what stands at a place and the sheet that shows
// it.
func (b *book) leadTo(s *drawing.Scene, tag view.Tag, id, number string) {
	s.Group(drawing.Lettering, "", func(g *drawing.Scene) {
		mid := tag.Box.Centre()
		if number == "" {
			g.Fill(drawing.White, drawing.Medium, tag.Box.Corners()...)
			g.TextIn(tag.Box, tag.Name, drawing.Style{Face: drawing.Bold})
			return
		}
		g.Fill(drawing.White, drawing.Medium, tag.Box.Corners()...)
		g.Line(drawing.Medium, drawing.Pt(tag.Box.Min.X, mid.Y), drawing.Pt(tag.Box.Max.X, mid.Y))
		z := drawing.Note
		for z > drawing.Small && drawing.Width(drawing.Regular, number, z) > tag.Box.Width()-100 {
			z -= 10
		}
		g.TextIn(drawing.Box(tag.Box.Min.X, tag.Box.Min.Y, tag.Box.Max.X, mid.Y), tag.Name,
			drawing.Style{Face: drawing.Bold})
		g.TextIn(drawing.Box(tag.Box.Min.X, mid.Y, tag.Box.Max.X, tag.Box.Max.Y), number, drawing.Style{Size: z})
		g.Link(tag.Box, id)
	})
}

// underCaution draws the cautions under the room of a run's sheet.
func (b *book) underCaution(s *drawing.Scene, room drawing.Rect) {
	b.cautionStrip(s, drawing.Box(room.Min.X, room.Max.Y+200, room.Max.X, room.Max.Y+200+cautionHigh))
}

// runFoot is key plan and legend in the strip of a run's sheet.
func (b *book) runFoot(t stretch, strips []*view.RunStrip) func(*drawing.Scene, drawing.Rect) {
	return func(s *drawing.Scene, box drawing.Rect) {
		var all []view.LegendEntry
		for _, q := range strips {
			for _, e := range view.RunHatches(b.say, q.Run, q.Win) {
				if !slices.Contains(all, e) {
					all = append(all, e)
				}
			}
		}
		w := min(keyWide, box.Width()*55/100)
		place(s, view.KeyPlanSmall(b.say, b.keyPlan(), b.l.SpotOfRuns(t.runs...), w, box.Height()), box.Min, "key")
		b.legend(s, drawing.Box(box.Min.X+w+400, box.Min.Y, box.Max.X, box.Max.Y), all)
	}
}
