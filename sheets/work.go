package sheets

import (
	"slices"
	"strings"

	"copingset/drawing"
	blocks "copingset/drawing/block"
	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/crate"
	"copingset/layout/plan"
)

// workColumn is the least width of a column for the tables of the order of work.
const workColumn drawing.Unit = 14500

// work is the order of work, once for the whole job: its steps in pictures, the
// inspection that is signed before anything is covered, the order in which the pieces
// are laid, and which crate each lies in.
func (b *book) work() []page {
	say := b.say.Say
	runs := b.l.Runs()
	if len(runs) == 0 {
		return nil
	}
	first := page{id: b.id("work"), title: say(words.WorkSheet), kind: WorkSheet, paper: b.runs,
		about: say(words.WorkAbout)}
	var of []view.Steps
	for _, p := range b.l.Perimeters {
		for _, r := range p.Runs {
			s := b.workOf(r)
			if s.Name = r.Name; !b.runsAreApart() {
				s.Name = b.of(p, r.Name)
			}
			of = append(of, s)
		}
	}
	steps := view.WorkSteps(of)
	spec := blocks.Spec{Gap: near, Gutter: gutter, Columns: workColumn}
	wide := first.paper.room(false).Width()
	spec.Slots = append(spec.Slots, blocks.Slot{Block: b.workHead(steps, wide), Cell: blocks.Cell{}})
	cols := view.WorkColumns(wide)
	for row := range slices.Chunk(steps, cols) {
		spec.Slots = append(spec.Slots, blocks.Slot{Block: workRow{view.WorkRow{Steps: row, Cols: cols}},
			Cell: blocks.Cell{Row: len(spec.Slots)}})
	}
	spec.Flow = []blocks.Flow{flowing{"inspection", b.inspectionTable(of)}, flowing{"asked", b.askedTable()}}
	if len(b.l.Crates) > 0 {
		spec.Flow = append(spec.Flow, flowing{"crates", b.whereTable()})
	}
	fasteners := b.fastenerData()
	// Its words break at the column's width: drawn as wide as they are, it would lie over the
	// next column on narrow paper.
	fasteners.snug, fasteners.fill = false, true
	spec.Flow = append(spec.Flow, flowing{"fastener-data", fasteners})
	for _, p := range b.l.Perimeters {
		spec.Flow = append(spec.Flow, flowing{"laying-" + p.Job.Name, abreast{b.layingTable(p)}})
	}
	spec.Flow = append(spec.Flow, b.shimFlows()...)
	return b.composed(first, spec, composing{caution: true})
}

// shimFlows are what has to be at hand under chairs and corner supports.
func (b *book) shimFlows() []blocks.Flow {
	under := b.supportTable()
	var parts []table
	if t, ok := b.shimTable(); ok {
		t.snug = true
		parts = t.byColumns(workColumn)
	}
	if n := len(parts); n > 0 && len(under.rows) > 0 && len(under.rows) <= len(parts[n-1].rows) {
		last := pair{parts[n-1], under}
		parts = parts[:n-1]
		return append(shimParts(parts), flowing{"shims-supports", last})
	}
	out := shimParts(parts)
	if len(under.rows) > 0 {
		out = append(out, flowing{"supports", abreast{under}})
	}
	return out
}

func shimParts(parts []table) []blocks.Flow {
	var out []blocks.Flow
	for i, t := range parts {
		out = append(out, flowing{"shims-" + itoa(i+1), t})
	}
	return out
}

// workHead is the title over the pictures with what they show.
func (b *book) workHead(steps []view.WorkStep, w drawing.Unit) blocks.Block {
	title := b.say.Say(words.WorkTitle)
	note := drawing.Wrap(b.say.Say(words.WorkPictures, words.In("run", steps[0].Pictured())), drawing.Regular,
		drawing.Note, w)
	h := drawing.Unit(560) + drawing.Unit(len(note))*drawing.Note.Line()
	beside := drawing.Width(drawing.Bold, title, drawing.Head)+gutter+drawing.Width(drawing.Regular, note[0],
		drawing.Note) <= w && len(note) == 1
	if beside {
		h = 560
	}
	return blocks.Fixed{ID: "work-title", Size: blocks.Size{W: w, H: h}, Make: func() blocks.Drawn {
		var s drawing.Scene
		s.Group(drawing.Lettering, "", func(g *drawing.Scene) {
			g.Text(drawing.Pt(0, 420), title, drawing.Style{Size: drawing.Head, Face: drawing.Bold})
			if beside {
				g.Text(drawing.Pt(w, 420), note[0], drawing.Style{Align: drawing.Right})
				return
			}
			for i, line := range note {
				g.Text(drawing.Pt(0, 420+drawing.Unit(i+1)*drawing.Note.Line()), line, drawing.Style{})
			}
		})
		return blocks.Drawn{Marks: s.Marks}
	}}
}

// workRow is a row of steps as a block.
type workRow struct{ view.WorkRow }

func (r workRow) Key() string { return "work-" + r.Steps[0].Number }

func (r workRow) Sizes(w drawing.Unit) []blocks.Size {
	var out []blocks.Size
	w = r.Width(w)
	for _, high := range r.Pictures() {
		out = append(out, blocks.Size{W: w, H: r.Height(w, high)})
	}
	return out
}

func (r workRow) Draw(z blocks.Size) blocks.Drawn {
	var about []string
	for _, s := range r.Steps {
		about = append(about, s.Number+" "+s.Caption+".")
	}
	var s drawing.Scene
	r.WorkRow.Draw(&s, z.W, z.H)
	return blocks.Drawn{Marks: s.Marks, About: strings.Join(about, " ")}
}

// inspectionTable has a row a run to tick and sign before its caps are laid.
func (b *book) inspectionTable(of []view.Steps) table {
	say := b.say.Say
	box := func(k words.Key) column { return column{head: say(k), align: drawing.Middle} }
	t := table{title: say(words.WorkInspectTitle), fill: true, high: 800,
		cols: []column{{head: say(words.WorkInspectRun)},
			box(words.WorkInspectBase), box(words.WorkInspectMembrane), box(words.WorkInspectChairs),
			box(words.WorkInspectScrews), box(words.WorkInspectDry),
			{head: say(words.WorkInspectForeman), least: 2600, flex: true}, {head: say(words.WorkInspectSigned),
				least: 2600, flex: true}}}
	t.bold = func(_, col int) bool { return col == 0 }
	for _, s := range of {
		takes := func(kinds ...plan.StepKind) string {
			if slices.ContainsFunc(kinds, func(k plan.StepKind) bool { return slices.Contains(s.Work.Steps, k) }) {
				return tickBox
			}
			return "–"
		}
		t.rows = append(t.rows, []string{prose(s.Name), tickBox, takes(plan.MembraneStep), takes(plan.CornersStep,
			plan.ChairsStep), takes(plan.CornersStep, plan.ChairsStep), takes(plan.TryStep), "", ""})
	}
	return t
}

// layingTable lists the pieces of a perimeter in the order in which they are laid, each
// with the crate it lies in.
func (b *book) layingTable(p *layout.Perimeter) table {
	say := b.say.Say
	title := say(words.WorkLayTitle)
	if len(b.l.Perimeters) > 1 {
		title = say(words.WorkLayOf, words.In("perimeter", prose(p.Job.Name)))
	}
	t := table{title: title, tight: true, cols: []column{{head: say(words.WorkLayN), align: drawing.Right},
		{head: say(words.WorkLayPiece)}, {head: say(words.WorkLayWhat), flex: true},
		{head: say(words.WorkLayRun)}, {head: say(words.WorkLayLift)}, {head: say(words.WorkLayCrate),
			align: drawing.Right}, {head: say(words.WorkLayLaid), align: drawing.Middle}}}
	in := map[*layout.Piece]string{} // look-up only
	for _, c := range b.l.Crates {
		for _, x := range c.Items {
			if x.Piece != nil {
				in[x.Piece] = itoa(c.N)
			}
		}
	}
	pieces := slices.Clone(p.Pieces)
	slices.SortStableFunc(pieces, func(a, z *layout.Piece) int { return a.Laying - z.Laying })
	for _, q := range pieces {
		var runs []string
		for _, k := range q.Parts {
			if !slices.Contains(runs, k.Run.Name) {
				runs = append(runs, k.Run.Name)
			}
		}
		where, laid := in[q], tickBox
		if where == "" {
			where, laid = say(words.WorkLayHeld), "–"
		}
		t.add(lettered{itoa(q.Laying), layout.Named(q.Mark, "laying")}, lettered{words: q.Mark},
			lettered{words: b.kindName(q)}, lettered{words: strings.Join(runs, ", ")},
			lettered{words: b.liftShort(q)}, lettered{words: where}, lettered{words: laid})
	}
	t.bold = func(_, col int) bool { return col <= 1 }
	return t
}

// whereTable tells what lies in which crate, in the order in which they are opened, and
// where on the roof it is needed, with room to write where it was set down.
func (b *book) whereTable() table {
	say := b.say.Say
	t := table{title: say(words.WorkCratesTitle), fill: true, high: 750,
		cols: []column{{head: say(words.WorkCratesN), align: drawing.Right}, {head: say(words.WorkCratesHolds),
			flex: true},
			{head: say(words.WorkCratesRuns), flex: true}, {head: say(words.WorkCratesLays)},
			{head: say(words.WorkCratesDown), least: 3000, flex: true}}}
	for _, c := range b.l.Crates {
		holds, runs, lays := b.crateKind(c), say(words.WorkCratesAll), "–"
		if c.Kind != crate.Hardware {
			if len(b.l.Perimeters) > 1 {
				holds += ", " + prose(c.Perimeter)
			}
			runs = strings.Join(c.Runs(), ", ")
			var n []int
			for _, x := range c.Items {
				n = append(n, x.Piece.Laying)
			}
			lays = itoa(slices.Min(n))
			if len(n) > 1 {
				lays = say(words.WorkCratesFrom, words.In("from", itoa(slices.Min(n))),
					words.In("to", itoa(slices.Max(n))))
			}
		}
		t.rows = append(t.rows, []string{itoa(c.N), holds, runs, lays, ""})
	}
	t.bold = func(_, col int) bool { return col == 0 }
	return t
}

// abreast is a narrow table in as many columns as the width holds, all of a height.
type abreast struct{ table }

func (a abreast) take(w, h drawing.Unit, fresh bool) (laid, block) {
	n := max(1, int((w+gutter)/(min(a.width(), w)+gutter)))
	wide := (w - gutter*drawing.Unit(n-1)) / drawing.Unit(n)
	each := (len(a.rows) - a.from + n - 1) / n
	var cols []laid
	high, from := drawing.Unit(0), a.from
	for ; len(cols) < n && from < len(a.rows); from += each {
		t := a.table
		t.from, t.loose, t.rows = from, true, a.rows[:min(from+each, len(a.rows))]
		got, rest := t.take(wide, h, true)
		if rest != nil || got.h > h {
			return a.filled(n, wide, h, fresh)
		}
		cols, high = append(cols, got), max(high, got.h)
	}
	return standing(cols, wide, high), nil
}

// filled takes as much as the columns of a region hold.
func (a abreast) filled(n int, wide, h drawing.Unit, fresh bool) (laid, block) {
	var cols []laid
	rest := block(a.table)
	for rest != nil && len(cols) < n {
		got, more := rest.take(wide, h, fresh)
		if got.draw == nil {
			break
		}
		cols, rest = append(cols, got), more
	}
	if len(cols) == 0 {
		return laid{}, a
	}
	if t, ok := rest.(table); ok {
		return standing(cols, wide, h), abreast{t}
	}
	return standing(cols, wide, h), nil
}

// standing is columns side by side.
func standing(cols []laid, wide, high drawing.Unit) laid {
	return laid{w: drawing.Unit(len(cols))*(wide+gutter) - gutter, h: high, draw: func(s *drawing.Scene,
		at drawing.Point) {
		for i, c := range cols {
			c.draw(s, drawing.Pt(at.X+drawing.Unit(i)*(wide+gutter), at.Y))
		}
	}}
}
