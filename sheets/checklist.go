package sheets

import (
	"slices"
	"strings"

	"copingset/drawing"
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
		title, phrase := "Inspection before covering", "Before the first cap: what the caps will cover. No cap goes on before this part is signed."
		if covered {
			title, phrase = "Inspection after covering", "After the last cap: what can be seen of the finished coping."
		}
		first := page{id: b.id("checklist", itoa(i+1)), title: title, kind: Checklist, paper: b.lists, holds: b.l.Holds(),
			about: "Items to inspect with their tolerances, boxes for as-built values, initials."}
		first.banner = b.holdWords(first.holds)
		signed := table{title: "Signed", whole: true, fill: true, high: 1000, cols: []column{{head: "For"}, {head: "Name", least: 3600}, {head: "Date, time", least: 2600}, {head: "Signature", least: 3600}},
			rows: [][]string{{"Inspector", "", "", ""}, {"Foreman", "", "", ""}}}
		out = append(out, b.pages(first, []block{
			list{items: []string{phrase + " As built: write what was measured, and where. A value outside what is required is a hold: mark it on the run sheet and stop there."}, plain: true},
			b.itemTable(covered), b.byRunTable(covered), fixedLines("Remarks", 3), signed,
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
	t := table{title: "Items", cols: []column{{head: "No.", align: drawing.Right}, {head: "What"}, {head: "Required", flex: true}, {head: "By"}, {head: "As built", least: 2600}, {head: "Initials", least: 1300}}, high: 800}
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
		add("Holds cleared", plural(n, "hold")+" of this packet, each signed for on the findings sheet", "findings")
	}
	add("Wall top", "sound, dry, no loose block, rotten wood or anchor that turns", "common practice")
	for _, n := range b.nailerLines() {
		add("Nailer anchors", n.words, n.by)
	}
	add("Membrane", membraneWords(b), "job")
	p := &b.j.Packing
	add("Packing", "full bearing under each chair; "+b.exactly(p.Least)+" to "+b.exactly(p.Most)+"; each chair as its run sheet", "job")
	add("Cap metal", prose(s.Metal.Name)+", not under "+b.thick(length.Max(s.Metal.Thickness, s.Metal.Specified)), "job; tests")
	for _, p := range b.l.Perimeters {
		if len(p.Runs) > 0 {
			add("Inside width", prose(p.Job.Name)+": "+b.widthWords(p)+"; never less than the wall", "job;\nIBC 2021 1503.3")
		}
	}
}

// widthWords letters each inside width of a perimeter with the runs that have it,
// the usual one last.
func (b *book) widthWords(p *layout.Perimeter) string {
	all := p.Widths()
	var out []string
	for i, w := range all {
		phrase := b.shopText(w.Inside)
		var on []string
		if len(w.Runs) > 0 {
			on = append(on, plainRuns(w.Runs))
		}
		if len(w.Parts) > 0 {
			on = append(on, "part of "+plainRuns(w.Parts))
		}
		switch {
		case len(all) == 1:
		case i == len(all)-1:
			phrase += " elsewhere"
		default:
			phrase += " on " + strings.Join(on, " and ")
		}
		out = append(out, phrase)
	}
	return strings.Join(out, ", ")
}

// plainRuns names runs of one perimeter, whose name is said.
func plainRuns(runs []*layout.Run) string {
	var names []string
	for _, r := range runs {
		names = append(names, prose(r.Name))
	}
	if len(names) == 1 {
		return "run " + names[0]
	}
	return "runs " + strings.Join(names, ", ")
}

// chairItems are the chairs, their screws and what else the caps will cover.
func (b *book) chairItems(add asks) {
	s := &b.j.System
	for _, a := range b.inUse() {
		add("Chairs", prose(a.Name)+": one under each joint; not over "+b.exactly(a.ChairSpacing)+" apart on the metal of one piece", "report "+prose(a.Report))
		add("Rows of screws", prose(a.Name)+": "+rowsOf([2]int{a.FrontRow, a.RearRow})+" in the punched holes, "+b.exactly(a.FrontRowFrom)+" behind the chair’s front edge and "+b.exactly(a.RearRowFrom)+" before its rear edge", "report "+prose(a.Report))
	}
	for _, f := range b.fastenersUsed() {
		phrase := b.exactly(f.Diameter) + " diameter, thread in the " + f.Substrate + " not under " + b.exactly(f.Embedment) + ", " + b.exactly(f.EdgeDistance) + " or more from a face of the wall"
		if f.PilotDia > 0 {
			phrase += ", pilot " + b.exactly(f.PilotDia) + ", its depth as the run sheet"
		}
		add("Screws", prose(f.Name)+", "+phrase+"; length of each row as its run sheet", "job; report")
	}
	if b.l.Counts().EndChairs {
		add("End chairs", b.exactly(s.Chair.EndChair)+" from an end without a joint to the chair’s centre", "fabricator")
	}
	if slices.ContainsFunc(b.l.Perimeters, func(p *layout.Perimeter) bool { return len(p.Supports) > 0 }) {
		add("Corner supports", "under each miter, as the corner sheets; fastened as the fabricator’s instruction says", "fabricator")
	}
	add("Splice plates", b.exactly(s.Splice.Length)+" long, the middle under the joint; tape "+b.exactly(s.Splice.Tape)+" from the joint’s centre line, both sides", "fabricator")
	for _, e := range b.l.Extenders() {
		add("Extender", "run "+b.runHead(e.Run)+": "+b.exactly(e.Height)+" high, fastened as stated by others", "HOLD:\nsee findings")
	}
}

// capItems are what can be seen of the caps along the runs.
func (b *book) capItems(add asks) {
	s := &b.j.System
	add("Air at the legs", "front not under "+b.exactly(s.FrontClearance)+"; rear not under "+b.exactly(s.RearClearance), "fabricator")
	add("Rear play", b.exactly(s.PlayLeast)+" to "+b.exactly(s.PlayMost)+"; the leg caught on all its chairs", "fabricator")
	add("Laps", "below the joint each must cover: front leg "+b.exactly(s.Lap.Front)+" or more, rear leg "+b.exactly(s.Lap.Rear)+" or more", "job")
	if s.Profile.TopSlope > 0 {
		add("Top", "falls to the roof, "+slope(s.Profile.TopSlope, b.metric), "job;\nIBC 2021 1503.3")
	}
	add("Joint gap", "as the table of its run sheet at the temperature of the METAL when set; never under "+b.exactly(s.Joint.LeastGap)+" nor over "+b.shopText(b.l.Movement().Seal), "job")
	for _, r := range b.l.Runs() {
		for _, q := range b.l.LooseJoints(r) {
			add("Expansion joint", q.Mark+": gap "+b.shopText(q.Gap)+", cover plate fixed on the "+q.Fixed+" side only, nothing else across", "job")
		}
		for i := range r.Job.Obstacles {
			if o := &r.Job.Obstacles[i]; o.Does&job.Pierces != 0 {
				who := prose(o.Collar)
				if who == "" {
					who = "NOBODY NAMED"
				}
				add("Collar", "run "+b.runHead(r)+", "+prose(o.Name)+": sealed; by "+who, "job")
			}
		}
	}
}

// endItems are corners, breaks and ends.
func (b *book) endItems(add asks) {
	n := b.l.Counts()
	if n.Miters > 0 {
		add("Corners", plural(n.Miters, "miter")+": hand as marked, seam sound and sealed", "fabricator")
	}
	if n.Breaks > 0 {
		add("Pitch miters", plural(n.Breaks, "pitch miter")+": over the break, each leg straight on its run, seam sound and sealed", "fabricator")
	}
	if n.Ends > 0 {
		add("Ends", plural(n.Ends, "end")+" closed as the corner sheets", "fabricator")
	}
}

func membraneWords(b *book) string {
	if b.j.Membrane.Name == "" {
		return "not stated in the job"
	}
	return prose(b.j.Membrane.Name) + " over the wall top and down both faces, before any metal"
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
	signed := column{head: "Initials, date", least: 2300}
	if covered {
		t := table{title: "By run: take the worst of each", high: 900, cols: []column{{head: "Run"}, {head: "Joints", align: drawing.Right},
			{head: "Least gap", least: 1700}, {head: "Greatest gap", least: 1700}, {head: "Metal at", least: 1500}, {head: "All chairs caught", least: 1900}, signed}}
		for _, r := range b.l.Runs() {
			t.rows = append(t.rows, []string{b.runHead(r), dash(len(r.Joints)), "", "", "", "", ""})
		}
		return t
	}
	t := table{title: "By run: take the worst of each", high: 900, cols: []column{{head: "Run"}, {head: "Chairs", align: drawing.Right}, {head: "Chairs apart, at most", flex: true},
		{head: "Chairs counted", least: 1700}, {head: "Apart, as built", least: 1700}, {head: "Off the string, most", least: 1900}, signed}}
	for _, r := range b.l.Runs() {
		var most []string
		for _, q := range b.l.Pitches(r) {
			most = append(most, b.small(q.Most)+" ("+prose(q.Assembly.Name)+")")
		}
		t.rows = append(t.rows, []string{b.runHead(r), dash(len(r.Chairs)), orDash(strings.Join(most, ", ")), "", "", "", ""})
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
		i := slices.IndexFunc(all, func(g group) bool { return g.n.Anchor == n.Anchor && g.n.Zone == n.Zone && g.n.Spacing == n.Spacing })
		if i < 0 {
			all = append(all, group{n: n})
			i = len(all) - 1
		}
		all[i].runs = append(all[i].runs, n.Run)
	}
	var out []nailerLine
	for _, g := range all {
		apart := ", not over " + b.small(g.n.Spacing) + " apart in"
		switch {
		case g.n.Spacing == 0:
			apart = ", SPACING NOT STATED: HOLD, in"
		case !g.n.Stands():
			apart = ", THE WIND ASKS FOR THEM CLOSER THAN " + b.small(g.n.Anchor.Least) + ": HOLD, in"
		}
		out = append(out, nailerLine{prose(g.n.Anchor.Anchor) + apart + " the " + g.n.Zone.String() + " zone of " + b.someRuns(g.runs), orDash(prose(g.n.Anchor.Report))})
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
