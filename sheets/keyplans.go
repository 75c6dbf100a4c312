package sheets

import (
	"slices"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// keyPlans shows the perimeters on a page together where they can be read, or each on
// pages of its own.
func (b *book) keyPlans(cover page) []page {
	k := b.keyPlan()
	if len(k.Perimeters) < 2 {
		return b.keyPlanOf(cover, k, b.say.Say(words.CoverKeyPlan), "key-plan")
	}
	// Several perimeters part before the paper grows.
	if b.keyRead(cover.paper.room(cover.banner != ""), k) {
		return []page{b.keyPage(cover, b.say.Say(words.CoverKeyPlan), b.fullKey(k), "key-plan")}
	}
	var out []page
	for i, p := range k.Perimeters {
		together := k.OfGroup(p.Group)
		title := b.say.Say(words.CoverKeyPlanOf, words.In("name", prose(together.Names())))
		if len(together.Perimeters) > 1 {
			// Those placed from each other stay together, on larger paper if need be.
			q := fitting(b.say, cover, func(room drawing.Rect) bool { return b.keyRead(room, together) })
			if b.keyRead(q.paper.room(q.banner != ""), together) {
				if together.Perimeters[0].Name == p.Name {
					out = append(out, b.keyPage(q, title, b.fullKey(together), "key-plan", together.Names()))
				}
				continue
			}
		}
		out = append(out, b.keyPlanOf(cover, k.Only(i),
			b.say.Say(words.CoverKeyPlanOf, words.In("name", prose(p.Name))), "key-plan", p.Name)...)
	}
	return out
}

// keyRead says whether a key plan can be read in a room with all its lettering.
func (b *book) keyRead(room drawing.Rect, k plan.KeyPlan) bool {
	w, h := room.Width(), room.Height()
	return sits(view.KeyPlan(b.say, k, w, h), w, h)
}

// keyView draws a key plan in a room.
type keyView func(w, h drawing.Unit) drawing.Scene

func (b *book) fullKey(k plan.KeyPlan) keyView {
	return func(w, h drawing.Unit) drawing.Scene { return view.KeyPlan(b.say, k, w, h) }
}

// keyPage is a page of a key plan.
func (b *book) keyPage(p page, title string, v keyView, name ...string) page {
	p.id, p.title = b.id(name...), title
	room := p.paper.room(p.banner != "")
	p.draw = func(s *drawing.Scene, _ func(string) string) {
		place(s, v(room.Width(), room.Height()), room.Min, "key")
	}
	return p
}

// keyPlanOf are the pages of a key plan: with all its lettering on the job's paper or a
// larger one; else with the names of its runs alone, beside a table of the rest; else in
// parts, each on a page, after an outline that names them.
func (b *book) keyPlanOf(cover page, k plan.KeyPlan, title string, name ...string) []page {
	read := func(room drawing.Rect) bool { return b.keyRead(room, k) }
	if p := fitting(b.say, cover, read); read(p.paper.room(p.banner != "")) {
		return []page{b.keyPage(p, title, b.fullKey(k), name...)}
	}
	if len(k.Perimeters) > 1 {
		return []page{b.keyPage(cover, title, b.fullKey(k), name...)}
	}
	rows := b.keyTable(k.Perimeters[0])
	whole := func(w, h drawing.Unit) (drawing.Scene, bool) { return view.KeyPlanBrief(b.say, k, w, h) }
	p, named := b.briefOn(cover, rows, whole)
	if named {
		p.id, p.title = b.id(name...), title
		return b.briefPages(p, rows, whole)
	}
	return b.keyParts(cover, k, title, rows, name)
}

// briefOn is the page on the first paper on which a brief plan names every run.
func (b *book) briefOn(cover page, rows table, v func(w, h drawing.Unit) (drawing.Scene, bool)) (page, bool) {
	named := func(room drawing.Rect) bool {
		w := besideTable(room, rows).Width()
		s, ok := v(w, room.Height())
		return ok && sits(s, w, room.Height())
	}
	p := fitting(b.say, cover, named)
	return p, named(p.paper.room(p.banner != ""))
}

// besideTable is what a table at the right leaves of a room.
func besideTable(room drawing.Rect, rows table) drawing.Rect {
	room.Max.X -= min(rows.width(), room.Width()/3) + gutter
	return room
}

// briefPages are a brief plan and its table, beside it and on further pages.
func (b *book) briefPages(first page, rows table, v func(w, h drawing.Unit) (drawing.Scene, bool)) []page {
	room := besideTable(first.paper.room(first.banner != ""), rows)
	pages := b.pages(first, []block{rows}, func(n int, all drawing.Rect) []drawing.Rect {
		if n > 0 {
			return columns(all, max(1, int((all.Width()+gutter)/(rows.width()+gutter))), gutter)
		}
		return []drawing.Rect{drawing.Box(room.Max.X+gutter, all.Min.Y, all.Max.X, all.Max.Y)}
	})
	list := pages[0].draw
	pages[0].draw = func(s *drawing.Scene, refer func(string) string) {
		key, _ := v(room.Width(), room.Height())
		place(s, key, room.Min, "key")
		list(s, refer)
	}
	return pages
}

// Runs of a part: so many are tried first, and fewer than the least are drawn as they
// come out.
const mostPart, leastPart = 40, 4

// keyParts are an outline of a perimeter that is too long for one plan, and its parts:
// as many runs of it as can be named on a page of the job's paper.
func (b *book) keyParts(cover page, k plan.KeyPlan, title string, rows table, name []string) []page {
	part := func(from, to int) func(w, h drawing.Unit) (drawing.Scene, bool) {
		return func(w, h drawing.Unit) (drawing.Scene, bool) {
			return view.KeyPlanPart(b.say, k, from, to, w, h)
		}
	}
	var out []page
	begins := partsOf(k, func(from, to int) bool {
		p, named := b.briefOn(cover, rows.only(from, to), part(from, to))
		return named && p.on == ""
	})
	var parts []keyPart
	for n, from := range begins {
		to := endOf(k, begins, n)
		some := rows.only(from, to)
		p, _ := b.briefOn(cover, some, part(from, to))
		q := keyPart{k.Perimeters[0].Runs[from].Name, k.Perimeters[0].Runs[to-1].Name,
			b.id("key-part", k.Perimeters[0].Name, itoa(n+1))}
		p.id = q.page
		p.title = b.say.Say(words.CoverKeyPlanPart, words.In("title", title), words.In("n", itoa(n+1)),
			words.In("from", q.first), words.In("to", q.last))
		parts = append(parts, q)
		out = append(out, b.briefPages(p, some, part(from, to))...)
	}
	return slices.Insert(out, 0, b.keyOutline(cover, k, title, begins, parts, name))
}

// partsOf are the indexes of the runs that the parts of a perimeter begin with: as many
// runs together as can be read.
func partsOf(k plan.KeyPlan, read func(from, to int) bool) []int {
	var out []int
	runs := len(k.Perimeters[0].Runs)
	for from, n := 0, mostPart; from < runs; {
		n = min(n, runs-from)
		if n > leastPart && !read(from, from+n) {
			n = max(n*3/4, leastPart)
			continue
		}
		out = append(out, from)
		from += n
	}
	return out
}

// endOf is the index of the run after a part.
func endOf(k plan.KeyPlan, begins []int, n int) int {
	if n+1 < len(begins) {
		return begins[n+1]
	}
	return len(k.Perimeters[0].Runs)
}

// keyPart is a part of a key plan: its first and its last run, and its page.
type keyPart struct{ first, last, page string }

// keyOutline is a perimeter in outline, with a list of its parts.
func (b *book) keyOutline(p page, k plan.KeyPlan, title string, begins []int, parts []keyPart, name []string) page {
	p.id, p.title, p.foot = b.id(name...), title, nil
	room := p.paper.room(p.banner != "")
	const wide = 9000
	p.draw = func(s *drawing.Scene, refer func(string) string) {
		t := table{title: b.say.Say(words.KeyplanParts), snug: true, cols: []column{
			{head: b.say.Say(words.KeyplanPartsN)}, {head: b.say.Say(words.KeyplanPartsRuns), flex: true},
			{head: b.say.Say(words.KeyplanPartsSheet)}}}
		for i, q := range parts {
			t.rows = append(t.rows, []string{itoa(i + 1), b.say.Say(words.KeyplanPartsRange, words.In("from", q.first),
				words.In("to", q.last)), refer(q.page)})
			t.links = append(t.links, q.page)
		}
		got, _ := t.take(wide, room.Height(), true)
		got.draw(s, drawing.Pt(room.Max.X-wide, room.Min.Y))
		outline := view.KeyPlanOfParts(b.say, k, begins, room.Width()-wide-gutter, room.Height())
		place(s, outline, room.Min, "key")
	}
	return p
}

// only are some rows of a table.
func (t table) only(from, to int) table {
	t.rows = t.rows[from:to]
	if len(t.names) >= to {
		t.names = t.names[from:to]
	}
	return t
}

// keyAlone is the key plan as views by themselves: one in a room that grows until it can
// be read, with the names of its runs alone where that needs less; else an outline of each
// perimeter and its parts.
func (b *book) keyAlone() []drawing.Scene {
	k := b.keyPlan()
	for _, brief := range []bool{false, true} {
		for n := drawing.Unit(2); n <= 6; n++ {
			w, h := viewWide*n/2, viewHigh*n/2
			s, named := view.KeyPlanBrief(b.say, k, w, h)
			if !brief {
				s, named = view.KeyPlan(b.say, k, w, h), true
			}
			if named && sits(s, w, h) {
				return []drawing.Scene{s}
			}
		}
	}
	var out []drawing.Scene
	for i := range k.Perimeters {
		one := k.Only(i)
		parts := partsOf(one, func(from, to int) bool {
			s, named := view.KeyPlanPart(b.say, one, from, to, viewWide, viewHigh)
			return named && sits(s, viewWide, viewHigh)
		})
		out = append(out, view.KeyPlanOfParts(b.say, one, parts, viewWide, viewHigh))
		for n, from := range parts {
			s, _ := view.KeyPlanPart(b.say, one, from, endOf(one, parts, n), viewWide, viewHigh)
			out = append(out, s)
		}
	}
	return out
}

// keyTable is what a brief plan does not letter: the length of each run and the corner
// at its right end.
func (b *book) keyTable(p plan.KeyPerimeter) table {
	say := b.say.Say
	t := table{title: say(words.KeyplanTable), snug: true, fill: true, cols: []column{{head: say(words.ColRun)},
		{head: say(words.ColLength), align: drawing.Right}, {head: say(words.KeyplanTableEnd), flex: true},
		{head: say(words.KeyplanTableState)}}}
	t.bold = func(_, col int) bool { return col == 0 || col == 3 }
	for _, r := range p.Runs {
		state := ""
		switch {
		case r.Unmeasured != "":
			state = say(words.KeyplanTableUnmeasured)
		case r.Held:
			state = say(words.KeyplanTableHold)
		}
		t.add(lettered{words: r.Name}, lettered{b.longUnit(r.Front.Real), r.Front.Fact}, b.keyEnd(r.Ends[1]),
			lettered{words: state})
	}
	return t
}

// keyEnd says how a run ends at its right hand.
func (b *book) keyEnd(e plan.KeyEnd) lettered {
	say := func(k words.Key) lettered { return lettered{words: b.say.Say(k)} }
	switch e.Kind {
	case plan.KeyCorners:
		c := e.Corner
		kind, turn, included := view.TurnSaid(b.say, c.KeyTurn)
		if c.Absorbed {
			kind = b.say.Say(words.KeyplanKink)
		}
		return lettered{c.Name + " " + kind + ", " + turn + ", " + included, layout.AllNamed(c.Turned, c.Opened)}
	case plan.KeyStepUp:
		return say(words.KeyplanStepUp)
	case plan.KeyStepDown:
		return say(words.KeyplanStepDown)
	case plan.KeyDies:
		return say(words.KeyplanHigherWall)
	case plan.KeyMeets:
		return say(words.KeyplanTableMeets)
	}
	return say(words.KeyplanFreeEnd)
}

// longUnit letters a length of the key plan.
func (b *book) longUnit(l length.Length) string {
	if b.metric {
		return b.say.Say(words.UnitMm, words.In("n", b.long(l)))
	}
	return b.long(l)
}
