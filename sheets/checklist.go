package sheets

import (
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/length"
)

// checklist is the inspector's clipboard: what to look at, what it has to be
// and by whose word, and room for what was found. It is in two parts, for what
// the caps cover is never seen again.
func (b *book) checklist() []page {
	var out []page
	for i, covered := range []bool{false, true} {
		title, phrase := b.say.Say(words.CheckBefore), b.say.Say(words.CheckBeforeWhat)
		if covered {
			title, phrase = b.say.Say(words.CheckAfter), b.say.Say(words.CheckAfterWhat)
		}
		first := page{
			id:    b.id("checklist", itoa(i+1)),
			title: title,
			kind:  Checklist,
			paper: b.lists,
			holds: b.l.Holds(),
			about: b.say.Say(words.ChecklistAbout),
		}
		first.banner = b.holdWords(first.holds)
		signed := table{
			title: b.say.Say(words.CheckSigned),
			whole: true,
			fill:  true,
			high:  1000,
			cols: []column{
				b.col(words.ColFor), {head: b.say.Say(words.ColName), least: 3600},
				{head: b.say.Say(words.ColDateTime), least: 2600},
				{head: b.say.Say(words.ColSignature), least: 3600},
			},
			rows: [][]string{
				{b.say.Say(words.CheckInspector), "", "", ""}, {b.say.Say(words.CheckForeman), "", "", ""},
			},
		}
		out = append(out, b.pages(first, []block{
			list{items: []string{phrase, b.say.Say(words.CheckAsBuilt)}, plain: true},
			b.itemTable(covered), b.byRunTable(covered), fixedLines(b.say.Say(words.CheckRemarks), 3), signed,
		}, across)...)
	}
	return out
}

// item of the checklist; after it is covered, or before.
type item struct {
	what, required, by string
	covered            bool
}

func (b *book) itemTable(covered bool) table {
	t := table{
		title: b.say.Say(words.CheckItems),
		cols: []column{
			b.right(words.ColNo), b.col(words.ColWhat), b.flex(words.ColRequired), b.col(words.ColBy),
			{head: b.say.Say(words.ColAsBuilt), least: 2600}, {head: b.say.Say(words.ColInitials), least: 1300},
		},
		high: 800,
	}
	for i, x := range b.checkItems() {
		if x.covered == covered {
			t.rows = append(t.rows, []string{itoa(i + 1), x.what, x.required, x.by, "", ""})
		}
	}
	return t
}

// asks adds an item of the checklist.
type asks func(what, required, by string)

// checkItems gathers the tolerances that the job, the fabricator and the tests
// state. What none of them states is not asked.
func (b *book) checkItems() []item {
	var out []item
	of := func(covered bool) asks {
		return func(what, required, by string) { out = append(out, item{what, required, by, covered}) }
	}
	b.wallItems(of(false))
	b.chairItems(of(false))
	b.capItems(of(true))
	b.endItems(of(true))
	return out
}

// wallItems are what lies under the chairs, and the metal before it goes up.
func (b *book) wallItems(add asks) {
	s := &b.j.System
	if n := len(b.l.Holds()); n > 0 {
		add(
			b.say.Say(words.CheckHoldsCleared),
			b.say.Count(words.CheckHolds, n, words.In("n", itoa(n))),
			b.say.Say(words.CheckFindings),
		)
	}
	add(b.say.Say(words.CheckWallTop), b.say.Say(words.CheckWallTopAsked), b.say.Say(words.CheckCommonPractice))
	for _, n := range b.nailerLines() {
		add(b.say.Say(words.CheckNailerAnchors), n.words, n.by)
	}
	add(b.say.Say(words.CheckMembrane), b.membraneWords(), b.say.Say(words.CheckJob))
	p := &b.j.Packing
	add(
		b.say.Say(words.CheckBuildUp),
		b.say.Say(words.CheckBuildUpAsked, words.In("least", b.exactly(p.Least)), words.In("most", b.exactly(p.Most))),
		b.say.Say(words.CheckJob),
	)
	add(
		b.say.Say(words.CheckCapMetal),
		b.say.Say(
			words.CheckNotUnder, words.In("name", prose(s.Metal.Name)),
			words.In("specified", b.thick(length.Max(s.Metal.Thickness, s.Metal.Specified))),
		),
		b.say.Say(words.CheckJobTests),
	)
	for _, p := range b.l.Perimeters {
		if len(p.Runs) > 0 {
			add(
				b.say.Say(words.CheckInsideWidth),
				b.say.Say(
					words.CheckNeverLessThan, words.In("name", prose(p.Job.Name)),
					words.In("width-words", b.widthWords(p)),
				),
				b.say.Say(words.CheckJobIbc2021),
			)
		}
	}
}

// widthWords letters each inside width of a perimeter with the runs that have it,
// the usual one last.
func (b *book) widthWords(p *layout.Perimeter) string {
	all := p.Widths()
	var out []string
	for i, w := range all {
		inside := words.In("inside", b.shopText(w.Inside))
		var on []string
		if len(w.Runs) > 0 {
			on = append(on, b.plainRuns(w.Runs))
		}
		if len(w.Parts) > 0 {
			on = append(on, b.say.Say(words.CheckPartOf, words.In("runs", b.plainRuns(w.Parts))))
		}
		switch {
		case len(all) == 1:
			out = append(out, b.shopText(w.Inside))
		case i == len(all)-1:
			out = append(out, b.say.Say(words.CheckElsewhere, inside))
		default:
			out = append(out, b.say.Say(words.CheckOn, inside, words.In("runs", strings.Join(on, ", "))))
		}
	}
	return strings.Join(out, ", ")
}

// plainRuns names runs of one perimeter, whose name is said.
func (b *book) plainRuns(runs []*layout.Run) string {
	var names []string
	for _, r := range runs {
		names = append(names, prose(r.Name))
	}
	if len(names) == 1 {
		return b.say.Say(words.AssemblyRun, words.In("names", names[0]))
	}
	return b.say.Say(words.AssemblyRuns, words.In("names", strings.Join(names, ", ")))
}

// chairItems are the chairs, their screws and what else the caps will cover.
func (b *book) chairItems(add asks) {
	s := &b.j.System
	for _, a := range b.inUse() {
		add(
			b.say.Say(words.CheckChairs),
			b.say.Say(
				words.CheckChairsAsked, words.In("name", prose(a.Name)),
				words.In("chair-spacing", b.exactly(a.ChairSpacing)),
			),
			b.say.Say(words.CheckReport, words.In("report", prose(a.Report))),
		)
		add(
			b.say.Say(words.CheckRows),
			b.say.Say(
				words.CheckRowsAsked, words.In("name", prose(a.Name)),
				words.In("rows-of", b.rowsOf([2]int{a.FrontRow, a.RearRow})),
				words.In("front-row-from", b.exactly(a.FrontRowFrom)),
				words.In("rear-row-from", b.exactly(a.RearRowFrom)),
			),
			b.say.Say(words.CheckReport, words.In("report", prose(a.Report))),
		)
	}
	for _, f := range b.fastenersUsed() {
		thread := b.say.Say(
			words.CheckThread, words.In("diameter", b.exactly(f.Diameter)), words.In("substrate", f.Substrate),
			words.In("embedment", b.exactly(f.Embedment)), words.In("edge-distance", b.exactly(f.EdgeDistance)),
		)
		if f.PilotDia > 0 {
			thread += "; " + b.say.Say(words.CheckPilot, words.In("diameter", b.exactly(f.PilotDia)))
		}
		add(
			b.say.Say(words.CheckScrews),
			b.say.Say(words.CheckScrewsAsked, words.In("name", prose(f.Name)), words.In("thread", thread)),
			b.say.Say(words.CheckJobReport),
		)
	}
	if b.l.Counts().EndChairs {
		add(
			b.say.Say(words.CheckEndChairs),
			b.say.Say(words.CheckEndChairsAsked, words.In("end-chair", b.exactly(s.Chair.EndChair))),
			b.say.Say(words.CheckFabricator),
		)
	}
	if slices.ContainsFunc(b.l.Perimeters, func(p *layout.Perimeter) bool { return len(p.Supports) > 0 }) {
		add(b.say.Say(words.CheckCornerSupports), b.say.Say(words.CheckSupportsAsked), b.say.Say(words.CheckFabricator))
	}
	add(
		b.say.Say(words.CheckSplicePlates),
		b.say.Say(
			words.CheckPlatesAsked, words.In("length", b.exactly(s.Splice.Length)),
			words.In("tape", b.exactly(s.Splice.Tape)),
		),
		b.say.Say(words.CheckFabricator),
	)
	for _, e := range b.l.Extenders() {
		add(
			b.say.Say(words.CheckExtender),
			b.say.Say(
				words.CheckExtenderAsked, words.In("run", b.runHead(e.Run)),
				words.In("height", b.exactly(e.Height)),
			),
			b.say.Say(words.CheckHoldSeeFindings),
		)
	}
}

// capItems are what can be seen of the caps along the runs.
func (b *book) capItems(add asks) {
	s := &b.j.System
	add(
		b.say.Say(words.CheckAirLegs),
		b.say.Say(
			words.CheckAirAsked, words.In("front-clearance", b.exactly(s.FrontClearance)),
			words.In("rear-clearance", b.exactly(s.RearClearance)),
		),
		b.say.Say(words.CheckFabricator),
	)
	add(
		b.say.Say(words.CheckPlay),
		b.say.Say(
			words.CheckPlayAsked, words.In("play-least", b.exactly(s.PlayLeast)),
			words.In("play-most", b.exactly(s.PlayMost)),
		),
		b.say.Say(words.CheckFabricator),
	)
	add(
		b.say.Say(words.CheckLaps),
		b.say.Say(
			words.CheckLapsAsked, words.In("front", b.exactly(s.Lap.Front)),
			words.In("rear", b.exactly(s.Lap.Rear)),
		),
		b.say.Say(words.CheckJob),
	)
	if s.Profile.TopSlope > 0 {
		add(
			b.say.Say(words.CheckTop),
			b.say.Say(words.CheckTopAsked, words.In("metric", b.slope(s.Profile.TopSlope))),
			b.say.Say(words.CheckJobIbc2021),
		)
	}
	add(
		b.say.Say(words.CheckJointGap),
		b.say.Say(
			words.CheckGapAsked, words.In("least-gap", b.exactly(s.Joint.LeastGap)),
			words.In("seal", b.shopText(b.l.Movement().Seal)),
		),
		b.say.Say(words.CheckJob),
	)
	for _, r := range b.l.Runs() {
		for _, q := range b.l.LooseJoints(r) {
			add(
				b.say.Say(words.CheckExpansionJoint),
				b.say.Say(
					words.CheckExpansion, words.In("mark", q.Mark), words.In("gap", b.shopText(q.Gap)),
					words.In("side", b.sideName(q.Fixed)),
				),
				b.say.Say(words.CheckJob),
			)
		}
		for i := range r.Job.Obstacles {
			if o := &r.Job.Obstacles[i]; o.Does&job.Pierces != 0 {
				who := prose(o.Collar)
				if who == "" {
					who = b.say.Say(words.CheckNobodyNamed)
				}
				add(
					b.say.Say(words.CheckCollar),
					b.say.Say(
						words.CheckCollarAsked, words.In("run", b.runHead(r)), words.In("name", prose(o.Name)),
						words.In("who", who),
					),
					b.say.Say(words.CheckJob),
				)
			}
		}
	}
}

// endItems are corners, breaks and ends.
func (b *book) endItems(add asks) {
	n := b.l.Counts()
	if n.Miters > 0 {
		add(
			b.say.Say(words.CheckCorners),
			b.say.Count(words.CheckMiters, n.Miters, words.In("n", itoa(n.Miters))),
			b.say.Say(words.CheckFabricator),
		)
	}
	if n.Breaks > 0 {
		add(
			b.say.Say(words.CheckPitchMiters),
			b.say.Count(words.CheckBreaks, n.Breaks, words.In("n", itoa(n.Breaks))),
			b.say.Say(words.CheckFabricator),
		)
	}
	if n.Ends > 0 {
		add(
			b.say.Say(words.CheckEnds),
			b.say.Count(words.CheckEndsClosed, n.Ends, words.In("n", itoa(n.Ends))),
			b.say.Say(words.CheckFabricator),
		)
	}
}

func (b *book) membraneWords() string {
	if b.j.Membrane.Name == "" {
		return b.say.Say(words.CheckMembraneUnstated)
	}
	return b.say.Say(words.CheckMembraneAsked, words.In("name", prose(b.j.Membrane.Name)))
}

// inUse are the assemblies that some zone takes.
func (b *book) inUse() []*job.Assembly {
	var out []*job.Assembly
	for _, c := range b.l.AssemblyCases() {
		if a := c.Choice.Assembly; a != nil && !slices.Contains(out, a) {
			out = append(out, a)
		}
	}
	return out
}

// fastenersUsed are the fasteners that stand in some chair.
func (b *book) fastenersUsed() []*layout.Fastener {
	var out []*layout.Fastener
	for _, u := range b.l.FastenerSchedule() {
		if !slices.Contains(out, u.Fastener) {
			out = append(out, u.Fastener)
		}
	}
	return out
}

// byRunTable has one row for each run, for the values that are taken on each.
func (b *book) byRunTable(covered bool) table {
	signed := column{head: b.say.Say(words.ColInitialsDate), least: 2300}
	if covered {
		t := table{
			title: b.say.Say(words.CheckByRun),
			high:  900,
			cols: []column{
				b.col(words.ColRun),
				b.right(words.ColJoints),
				{
					head:  b.say.Say(words.ColLeastGap),
					least: 1700,
				},
				{head: b.say.Say(words.ColGreatestGap), least: 1700},
				{head: b.say.Say(words.ColMetalAt), least: 1500},
				{head: b.say.Say(words.ColAllChairsCaught), least: 1900},
				signed,
			},
		}
		for _, r := range b.l.Runs() {
			t.rows = append(t.rows, []string{b.runHead(r), dash(len(r.Joints)), "", "", "", "", ""})
		}
		return t
	}
	t := table{
		title: b.say.Say(words.CheckByRun),
		high:  900,
		cols: []column{
			b.col(words.ColRun),
			b.right(words.ColChairs2),
			b.flex(words.ColChairsApartMost),
			{
				head:  b.say.Say(words.ColChairsCounted),
				least: 1700,
			},
			{head: b.say.Say(words.ColApartBuilt), least: 1700},
			{head: b.say.Say(words.ColOffStringMost), least: 1900},
			signed,
		},
	}
	for _, r := range b.l.Runs() {
		var most []string
		for _, q := range b.l.Pitches(r) {
			most = append(most, b.small(q.Most)+" ("+prose(q.Assembly.Name)+")")
		}
		t.rows = append(
			t.rows, []string{b.runHead(r), dash(len(r.Chairs)), orDash(strings.Join(most, ", ")), "", "", "", ""},
		)
	}
	return t
}

// nailerLine is what one zone asks of the anchors of a nailer.
type nailerLine struct{ words, by string }

// nailerLines name once what several runs ask alike.
func (b *book) nailerLines() []nailerLine {
	type group struct {
		n    layout.Nailer
		runs []*layout.Run
	}
	var all []group
	for _, n := range b.l.Nailers() {
		i := slices.IndexFunc(
			all,
			func(g group) bool { return g.n.Anchor == n.Anchor && g.n.Zone == n.Zone && g.n.Spacing == n.Spacing },
		)
		if i < 0 {
			all = append(all, group{n: n})
			i = len(all) - 1
		}
		all[i].runs = append(all[i].runs, n.Run)
	}
	var out []nailerLine
	for _, g := range all {
		anchor, on := words.In("anchor", prose(g.n.Anchor.Anchor)), words.In("runs", b.someRuns(g.runs))
		zone := words.In("zone", b.zoneName(g.n.Zone))
		asked := b.say.Say(words.CheckAnchors, anchor, words.In("spacing", b.small(g.n.Spacing)), zone, on)
		switch {
		case g.n.Spacing == 0:
			asked = b.say.Say(words.CheckAnchorsUnstated, anchor, zone, on)
		case !g.n.Stands():
			asked = b.say.Say(words.CheckAnchorsClose, anchor, words.In("least", b.small(g.n.Anchor.Least)), zone, on)
		}
		out = append(out, nailerLine{asked, orDash(prose(g.n.Anchor.Report))})
	}
	return out
}

// fixedLines is a titled box to write in.
func fixedLines(title string, n drawing.Unit) whole {
	return fixed(titleDrop+n*900, func(s *drawing.Scene, r drawing.Rect) {
		s.Group(drawing.Tables, "", func(g *drawing.Scene) {
			heading(g, r.Min, r.Width(), title)
			for i := range n {
				y := r.Min.Y + titleDrop + (i+1)*900
				g.Line(drawing.Thin, drawing.Pt(r.Min.X, y), drawing.Pt(r.Max.X, y))
			}
		})
	})
}
