package sheets

import (
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/length"
	"copingset/layout/plan"
)

const (
	shortMost                = 3    // reports beside each other on a sheet
	shortHead   drawing.Unit = 800  // the name of the run over its plots
	shortLeast  drawing.Unit = 9000 // width of one
	shortHigh   drawing.Unit = 9000 // height of one, for plots that show as much as those of a sheet to itself
	reportBelow drawing.Unit = 350  // between the plots and the names of their marks
)

// shortReports lays the reports of as many runs as can share a sheet beside
// each other, with one list of facts and one of limits, and says how many. A
// run with something to say about single readings has a sheet to itself.
func (b *book) shortReports(p *layout.Perimeter, runs []*layout.Run) (page, int) {
	var of []plan.WallReport
	for _, r := range runs[:min(shortMost, len(runs))] {
		w := b.l.WallReport(r)
		if !w.Plain() {
			break
		}
		of = append(of, w)
	}
	room := b.runs.room(false)
	for n := len(of); n > 1; n-- {
		some := runs[:n]
		cols := columns(room, n, gutter)
		if cols[0].Width() < shortLeast {
			continue
		}
		keys := view.WallKeys(of[:n], room.Width())
		leaves := flow(tightened(b.shortLists(some, of)), func(int) []drawing.Rect { return []drawing.Rect{room} })
		lists, wide := drawing.Unit(0), max(keys.W, keys.Bounds().Max.X)
		for _, q := range leaves[0] {
			lists, wide = max(lists, q.at.Y+q.h-room.Min.Y), max(wide, q.w)
		}
		high := room.Height() - shortHead - reportBelow - keys.H - between - lists
		if len(leaves) > 1 || wide > room.Width() || high < shortHigh {
			continue
		}
		views, ok := make([]drawing.Scene, n), true
		used := drawing.Unit(0)
		for i := range some {
			var good bool
			views[i], good = view.ShortWallReport(of[i], cols[i].Width(), high)
			ok, used = ok && good, max(used, views[i].H)
		}
		if !ok {
			continue
		}
		top := room.Min.Y + shortHead + used + reportBelow
		down := top + keys.H + between - room.Min.Y
		var names []string
		out := page{kind: WallReport, paper: b.runs, scale: "lengthwise as noted"}
		for _, r := range some {
			names = append(names, b.of(p, r.Name))
			for _, h := range b.l.HoldsOn(r) {
				if !slices.ContainsFunc(out.holds, func(o finding.Finding) bool { return o.String() == h.String() }) {
					out.holds = append(out.holds, h)
				}
			}
		}
		all := strings.Join(names, ", ")
		out.title = "Wall report of runs " + all
		out.about = "The walls of runs " + all + " as measured: widths, face offsets and tops against the stations, with the lines the coping follows and published limits."
		out.id = b.id("wall", p.Job.Name, some[0].Name, some[n-1].Name)
		out.draw = func(s *drawing.Scene, _ func(string) string) {
			for i := range some {
				at := cols[i].Min
				along := view.WallParts(of[i], cols[i].Width())[0].Along
				t := s.Text(drawing.Pt(at.X, at.Y+550), "RUN "+names[i], drawing.Style{Size: drawing.Head, Face: drawing.Bold})
				s.Text(drawing.Pt(at.X+t.Width+400, at.Y+550), "lengthwise "+drawing.Letter(along.Name), drawing.Style{})
				place(s, views[i], drawing.Pt(at.X, at.Y+shortHead), "plots-"+itoa(i+1))
			}
			place(s, keys, drawing.Pt(room.Min.X, top), "keys")
			for _, q := range leaves[0] {
				q.draw(s, drawing.Pt(q.at.X, q.at.Y+down))
			}
		}
		return out, n
	}
	return page{}, 0
}

// shortLists are the facts and the limits of several runs.
func (b *book) shortLists(runs []*layout.Run, of []plan.WallReport) []block {
	right := func(head string) column { return column{head: head, align: drawing.Right, flex: true} }
	facts := table{title: "What the readings come to", whole: true, cols: []column{{head: "Run"}, right("Readings"), right("Wall"), {head: "Measured", flex: true}, {head: "String between", flex: true},
		right("Bow of the face"), right("Line out at left corner"), right("Line out at right corner"), right("Greatest gap to the line"), right("A parallel line would leave"), right("Width of the wall"), right("Greatest need"),
		right("Inside width of cap"), right("Rear play"), right("Set over datum, left corner"), right("Set over datum, right corner"), right("Packing")}}
	limits := table{title: "Published limits of wall tops", whole: true, cols: []column{{head: "Limit", flex: true}, {head: "Allowed", align: drawing.Right}}}
	over := map[[2]int]bool{} // look-up only
	var kinds []plan.WallLimit
	for i, r := range runs {
		w := r.OnWall()
		at := func(l, s length.Length) string { return b.small(l) + " at " + b.station(r, s) }
		var insides []string
		for _, q := range r.Bands {
			insides = append(insides, b.small(q.Inside))
		}
		line := b.small(w.Line.Left)
		if w.Line.Held {
			line += ", held by the job"
		}
		facts.rows = append(facts.rows, []string{r.Name, itoa(len(w.Readings)), b.text(w.Front), orDash(prose(strings.TrimSpace(b.j.Site.MeasuredBy + " " + date(b.j.Site.MeasuredOn)))), orDash(prose(w.Job.SurveyLine)),
			at(w.Line.Bow, w.Line.BowAt), line, b.small(w.Line.Right), at(w.Line.GapMost, w.Line.GapMostAt), b.small(w.Line.Parallel), span(b.small(w.WidthLeast), b.small(w.WidthMost)), at(w.Need, w.NeedAt),
			strings.Join(insides, ", "), span(b.small(r.PlayLeast), b.small(r.PlayMost)), b.small(w.SetLeft), b.small(w.SetRight), span(b.small(w.PackLeast), b.small(w.PackMost))})
		limits.cols = append(limits.cols, column{head: "Found on run " + r.Name, flex: true})
		for _, l := range of[i].Limits {
			if !slices.ContainsFunc(kinds, l.Same) {
				kinds = append(kinds, l)
			}
		}
	}
	limits.cols = append(limits.cols, column{head: "Source", flex: true})
	for i, l := range kinds {
		row := []string{prose(b.j.Units.InUnits(l.Name)), b.exact(l.Allowed)}
		for k := range runs {
			phrase := "–"
			if at := slices.IndexFunc(of[k].Limits, l.Same); at >= 0 {
				f := of[k].Limits[at]
				phrase = b.exact(f.Found) + ", " + span(b.long(f.From), b.long(f.To))
				if f.Kept {
					phrase += ", kept"
				} else {
					phrase, over[[2]int{i, 2 + k}] = phrase+", NOT KEPT", true
				}
			}
			row = append(row, phrase)
		}
		limits.rows = append(limits.rows, append(row, prose(l.Source)))
	}
	limits.bold = func(row, col int) bool { return over[[2]int{row, col}] }
	out := []block{facts}
	if len(limits.rows) > 0 {
		out = append(out, limits)
	}
	return out
}
