package sheets

import (
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/drawing/words"
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
		keys := view.WallKeys(b.say, of[:n], room.Width())
		leaves := b.flow(tightened(b.shortLists(some, of)), func(int) []drawing.Rect { return []drawing.Rect{room} })
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
			views[i], good = view.ShortWallReport(b.say, of[i], cols[i].Width(), high)
			ok, used = ok && good, max(used, views[i].H)
		}
		if !ok {
			continue
		}
		top := room.Min.Y + shortHead + used + reportBelow
		down := top + keys.H + between - room.Min.Y
		var names []string
		out := page{kind: WallReport, paper: b.runs, scale: b.say.Say(words.WallLengthwiseNoted)}
		for _, r := range some {
			names = append(names, b.of(p, r.Name))
			for _, h := range b.l.HoldsOn(r) {
				if !slices.ContainsFunc(out.holds, func(o finding.Finding) bool { return o.String() == h.String() }) {
					out.holds = append(out.holds, h)
				}
			}
		}
		all := strings.Join(names, ", ")
		out.title = b.say.Say(words.WallTitleSeveral, words.In("all", all))
		out.about = b.say.Say(words.WallAboutSeveral, words.In("all", all))
		out.id = b.id("wall", p.Job.Name, some[0].Name, some[n-1].Name)
		out.draw = func(s *drawing.Scene, _ func(string) string) {
			for i := range some {
				at := cols[i].Min
				along := view.WallParts(of[i], cols[i].Width())[0].Along
				t := s.Text(
					drawing.Pt(at.X, at.Y+550),
					b.say.Say(words.WallRun, words.In("names", names[i])),
					drawing.Style{Size: drawing.Head, Face: drawing.Bold},
				)
				s.Text(
					drawing.Pt(at.X+t.Width+400, at.Y+550),
					b.say.Say(words.WallLengthwise, words.In("name", drawing.Letter(along.Name))),
					drawing.Style{},
				)
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
	right := func(head words.Key) column {
		return column{head: b.say.Say(head), align: drawing.Right, flex: true}
	}
	facts := table{title: b.say.Say(words.WallFacts), whole: true, cols: []column{
		b.col(words.ColRun), right(words.WallReadings), right(words.WallWall), b.flex(words.ColMeasured),
		b.flex(words.ColStringBetween), right(words.WallBow), right(words.WallLineLeft), right(words.WallLineRight),
		right(words.WallGapLine), right(words.WallParallel), right(words.WallWidthWall), right(words.WallNeed),
		right(words.WallInsideWidthCap), right(words.WallPlay), right(words.WallSetLeft), right(words.WallSetRight),
		right(words.WallBuildUp),
	}}
	limits := table{
		title: b.say.Say(words.WallLimits),
		whole: true,
		cols:  []column{b.flex(words.ColLimit), b.right(words.ColAllowed)},
	}
	over := map[[2]int]bool{} // look-up only
	var kinds []plan.WallLimit
	for i, r := range runs {
		w := r.OnWall()
		at := func(l, s length.Length) string {
			return b.say.Say(words.WallAt, words.In("length", b.small(l)), words.In("station", b.station(r, s)))
		}
		var insides []string
		for _, q := range r.Bands {
			insides = append(insides, b.small(q.Inside))
		}
		line := b.small(w.Line.Left)
		if w.Line.Held {
			line = b.say.Say(words.WallLineFixedShort, words.In("line", line))
		}
		measured := strings.TrimSpace(b.j.Site.MeasuredBy + " " + date(b.j.Site.MeasuredOn))
		facts.rows = append(facts.rows, []string{
			r.Name, itoa(len(w.Readings)), b.text(w.Front), orDash(prose(measured)), orDash(prose(w.Job.SurveyLine)),
			at(w.Line.Bow, w.Line.BowAt), line, b.small(w.Line.Right), at(w.Line.GapMost, w.Line.GapMostAt),
			b.small(w.Line.Parallel), b.span(b.small(w.WidthLeast), b.small(w.WidthMost)), at(w.Need, w.NeedAt),
			strings.Join(insides, ", "), b.span(b.small(r.PlayLeast), b.small(r.PlayMost)), b.small(w.SetLeft),
			b.small(w.SetRight), b.span(b.small(w.PackLeast), b.small(w.PackMost)),
		})
		limits.cols = append(
			limits.cols, column{head: b.say.Say(words.ColFoundRun, words.In("name", r.Name)), flex: true},
		)
		for _, l := range of[i].Limits {
			if !slices.ContainsFunc(kinds, l.Same) {
				kinds = append(kinds, l)
			}
		}
	}
	limits.cols = append(limits.cols, b.flex(words.ColSource))
	for i, l := range kinds {
		row := []string{prose(b.j.Units.InUnits(l.Name)), b.exact(l.Allowed)}
		for k := range runs {
			phrase := "–"
			if at := slices.IndexFunc(of[k].Limits, l.Same); at >= 0 {
				f := of[k].Limits[at]
				found := words.In("found", b.exact(f.Found))
				where := words.In("where", b.span(b.long(f.From), b.long(f.To)))
				phrase = b.say.Say(words.WallKept, found, where)
				if !f.Kept {
					phrase, over[[2]int{i, 2 + k}] = b.say.Say(words.WallNotKept, found, where), true
				}
			}
			row = append(row, phrase)
		}
		limits.rows = append(limits.rows, append(row, prose(l.Source)))
	}
	limits.bold = func(row, col int) bool { return over[[2]int{row, col}] }
	out := []block{facts.naming(b.shortNames(runs))}
	if len(limits.rows) > 0 {
		out = append(out, limits.naming(shortLimitNames(runs, of, kinds)))
	}
	return out
}
