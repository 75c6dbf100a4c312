package sheets

import (
	"fmt"
	"strconv"
	"strings"

	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/fact"
	"copingset/layout/job"
	"copingset/layout/length"
)

// schedules make the rows of the schedules: each cell letters a fact, and a thing's
// rows stand in the order of the lists.
type schedules struct {
	*book
	facts fact.Ledger
}

func (c schedules) words(of, what string) string         { return c.facts.Value(of, what) }
func (c schedules) length(of, what string) length.Length { return c.facts.Length(of, what) }
func (c schedules) mm(of, what string) string            { return mm(c.length(of, what)) }

func (c schedules) has(of, what string) bool {
	_, ok := c.facts.Get(of, what)
	return ok
}

// run is the perimeter and the name of the run that a thing stands on.
func (c schedules) run(of string) (run, perimeter, name string) {
	run = c.words(of, "run")
	return run, c.words(run, "perimeter"), c.words(run, "run")
}

// outer is what lies at the street side of a perimeter, which lists of several keep as
// its heading: a street, or what the job names in its place.
func (c schedules) outer(perimeter string) string {
	return c.words("perimeter "+perimeter, "outer-side")
}

// some is mm of what there is.
func some(l length.Length) string {
	if l == 0 {
		return ""
	}
	return mm(l)
}

func (c schedules) pieces() Schedule {
	s := Schedule{Name: "pieces.csv", Header: []string{"perimeter", "mark", "laying", "kind", "hand", "turn",
		"street side", "street side mm", "roof side", "roof side mm",
		"inside", "inside mm", "narrow end inside", "narrow end inside mm", "girth", "girth mm", "allowance",
		"allowance mm", "cut at", "cut length",
		"cut length mm", "weight with allowance", "grams with allowance", "lift", "zone", "assembly", "holes",
		"released", "holds", "held by", "cut from", "outer side"}}
	for _, q := range c.facts.Listed(fact.Piece, "mark") {
		front, frontMM := c.legs(q, "length-%d", true)
		rear, rearMM := c.legs(q, "rear-length-%d", true)
		cut, cutMM := c.legs(q, "shipped-front-%d", true)
		inside, insideMM := c.across(q, "inside")
		girth, girthMM := c.across(q, "girth")
		narrow, more := c.length(q, "narrow"), c.length(q, "allowance")
		grams, _ := strconv.ParseInt(c.words(q, "weight-shipped"), 10, 64)
		holds := strings.Fields(c.words(q, "holds"))
		s.Rows = append(s.Rows, []string{c.words(q, "perimeter"), q, c.words(q, "laying"), c.pieceKind(q),
			c.words(q, "hand"), c.turns(q),
			front, frontMM, rear, rearMM, inside, insideMM, c.shop.Short(narrow), mm(narrow), girth, girthMM,
			c.shop.Short(more), mm(more),
			c.words(q, "cut-at"), cut, cutMM, c.weight(grams), fmt.Sprint(grams), c.words(q, "lift"),
			c.words(q, "wind-zone"), c.words(q, "assembly"),
			c.holes(q), c.words(q, "released"), strings.Join(holds, " "), strings.Join(c.holdNames(holds), "; "),
			c.words(q, "cut-from"), c.outer(c.words(q, "perimeter"))})
	}
	return s
}

// pieceKind is the kind of a piece; a straight one that is cut short is a closer.
func (c schedules) pieceKind(q string) string {
	kind := c.words(q, "kind")
	if kind == "straight" && c.words(q, "closer") == "yes" {
		return "closer"
	}
	return kind
}

// legs letters what each part of a piece has of its own, along the run or across.
func (c schedules) legs(q, what string, along bool) (words, millimetres string) {
	var a, z []string
	for i := 1; c.has(q, fmt.Sprintf(what, i)); i++ {
		l := c.length(q, fmt.Sprintf(what, i))
		if along {
			a = append(a, c.shop.Long(l))
		} else {
			a = append(a, c.shop.Short(l))
		}
		z = append(z, mm(l))
	}
	return strings.Join(a, " + "), strings.Join(z, " + ")
}

// across letters a width of a piece: of a transition its own, of one of two widths
// each leg's.
func (c schedules) across(q, what string) (words, millimetres string) {
	switch {
	case c.words(q, "kind") == "transition":
		l := c.length(q, what)
		return c.shop.Short(l), mm(l)
	case c.length(q, "wide") == c.length(q, "narrow"):
		l := c.length(q, what+"-1")
		return c.shop.Short(l), mm(l)
	}
	return c.legs(q, what+"-%d", false)
}

// turns are the angles at the welds of a piece.
func (c schedules) turns(q string) string {
	var out []string
	for i := 1; c.has(q, fmt.Sprintf("miter-%d", i)); i++ {
		of := "corner " + c.words(q, fmt.Sprintf("miter-%d", i))
		turn := job.Angle(c.number(of, "cap-turn"))
		switch included := angle(job.Angle(c.number(of, "cap-included"))); {
		case c.has(of, "pitch"):
			bend := job.Angle(c.number(of, "bend"))
			out = append(out, c.words(of, "pitch")+" of "+angle(max(bend, -bend)))
		case c.number(of, "turn") > 0:
			out = append(out, "right "+angle(turn)+" (incl. "+included+")")
		default:
			out = append(out, "left "+angle(-turn)+" (incl. "+included+")")
		}
	}
	return strings.Join(out, "; ")
}

func (c schedules) number(of, what string) int64 {
	n, _ := strconv.ParseInt(c.words(of, what), 10, 64)
	return n
}

func (c schedules) holes(q string) string {
	var out []string
	for i := 1; c.has(q, fmt.Sprintf("hole-%d-for", i)); i++ {
		is := func(what string) length.Length { return c.length(q, fmt.Sprintf("hole-%d-%s", i, what)) }
		f, _ := c.facts.Get(q, fmt.Sprintf("hole-%d-size", i))
		out = append(out, typed(c.holeOf(c.words(q, fmt.Sprintf("hole-%d-for", i)), f.Lengths(), is("from-left"),
			is("from-front"), is("from-face"))))
	}
	return strings.Join(out, "; ")
}

// chairTape is what the stations of a run's chairs and joints are lettered to.
func (c schedules) chairTape(run string) length.Style {
	s := c.crew
	switch step := c.length(run, "chair-step"); {
	case step <= 0 || step >= s.Step():
	case s.Metric:
		s.Places = 1
	default:
		s.Denominator = int(length.Inch / step)
	}
	return s
}

func (c schedules) joints() Schedule {
	s := Schedule{Name: "joints.csv", Header: []string{"perimeter", "run", "joint", "kind", "left piece",
		"right piece", "station", "station mm",
		"gap", "gap mm", "plate", "plate mm", "movement", "movement mm", "held"}}
	for _, q := range c.facts.Listed(fact.Joint, "station") {
		_, perimeter, run := c.run(q)
		at, gap, plate := c.length(q, "station"), c.length(q, "gap"), c.length(q, "plate-length")
		move, moveMM := "", ""
		switch {
		case c.has(q, "movement"):
			move, moveMM = c.crew.Short(c.length(q, "movement")), c.mm(q, "movement")
		case c.words(q, "kind") == "expansion":
			move = "not stated"
		}
		s.Rows = append(s.Rows, []string{perimeter, run, q, c.words(q, "kind"), c.words(q, "left-piece"),
			c.words(q, "right-piece"),
			c.chairTape(c.words(q, "run")).Long(at), mm(at), c.shop.Short(gap), mm(gap), c.shop.Short(plate), mm(plate),
			move, moveMM,
			c.words(q, "held")})
	}
	return s
}

func (c schedules) chairs() Schedule {
	s := Schedule{Name: "chairs.csv", Header: []string{"perimeter", "run", "chair", "number", "station",
		"station mm", "where",
		"build-up street side", "build-up street side mm", "build-up roof side", "build-up roof side mm",
		"built street side mm", "built roof side mm", "layers",
		"shims street side", "shims roof side", "fastener", "count street side", "length street side",
		"length street side mm", "count roof side", "length roof side", "length roof side mm",
		"pilot from top of build-up street side mm", "pilot from top of build-up roof side mm", "assembly",
		"inside width", "inside width mm",
		"inside at left edge mm", "inside at right edge mm", "outer side"}}
	for _, q := range c.facts.Listed(fact.Chair, "station") {
		run, perimeter, name := c.run(q)
		at, front, rear, inside := c.length(q, "station"), c.length(q, "packing-front"),
			c.length(q, "packing-rear"), c.length(q, "inside")
		row := []string{perimeter, name, q, c.words(q, "number"), c.chairTape(run).Long(at), mm(at), c.stands(q, run),
			c.crew.Short(front), mm(front),
			c.crew.Short(rear), mm(rear), c.mm(q, "built-front"), c.mm(q, "built-rear"), c.words(q, "layers"),
			c.shimsOf(q, "shims-front"), c.shimsOf(q, "shims-rear"), c.words(q, "screws-front-fastener")}
		for _, k := range []string{layout.ScrewsOf(0), layout.ScrewsOf(1)} {
			if !c.has(q, k+"-length") {
				row = append(row, c.words(q, k+"-count"), "hold", "")
				continue
			}
			row = append(row, c.words(q, k+"-count"), typed(c.exact(c.length(q, k+"-length"))), c.mm(q, k+"-length"))
		}
		s.Rows = append(s.Rows, append(row, c.mm(q, "screws-front-pilot-depth"), c.mm(q, "screws-rear-pilot-depth"),
			c.words(q, "assembly"),
			c.shop.Short(inside), mm(inside), c.mm(q, "left-edge-inside"), c.mm(q, "right-edge-inside"),
			c.outer(perimeter)))
	}
	return s
}

// stands says what a chair stands at, and on a run of several widths for which it
// is made.
func (c schedules) stands(q, run string) string {
	words := c.words(q, "stands-at")
	if j := c.words(q, "joint"); j != "" {
		words = layout.StandsAt(words, local(j, c.words(run, "run")))
	}
	if !c.has(run, "taper-1-from") {
		return words
	}
	words += ", " + c.short(c.length(q, "inside")) + " inside"
	if left, right := c.length(q, "left-edge-inside"), c.length(q, "right-edge-inside"); left != right {
		words += ", tapers " + c.short(left) + " to " + c.short(right)
	}
	return words
}

func (c schedules) shimsOf(q, what string) string {
	f, _ := c.facts.Get(q, what)
	return typed(c.book.shims(f.Lengths()))
}

// runs are the runs of the job.
func (c schedules) runs() []string { return c.facts.Listed(fact.Run, "cap-line") }

func (c schedules) fasteners() Schedule {
	s := Schedule{Name: "fasteners.csv", Header: []string{"fastener", "diameter", "diameter mm", "length",
		"length mm", "perimeter", "run", "count",
		"in all", "spare", "boxes"}}
	for _, f := range c.facts.Listed(fact.Fastener, "boxes") {
		wide, long := c.length(f, "diameter"), c.length(f, "length")
		for _, r := range c.runs() {
			if n := c.words(f, "count-"+r); n != "" {
				s.Rows = append(s.Rows, []string{c.words(f, "name"), typed(c.exact(wide)), mm(wide),
					typed(c.exact(long)), mm(long),
					c.words(r, "perimeter"), c.words(r, "run"), n, c.words(f, "count"), c.words(f, "spare"),
					c.words(f, "boxes")})
			}
		}
	}
	return s
}

func (c schedules) shims() Schedule {
	s := Schedule{Name: "shims.csv", Header: []string{"perimeter", "run", "thickness", "thickness mm", "street side",
		"roof side", "outer side"}}
	offered, _ := c.facts.Get("packing", "shims")
	for _, r := range c.runs() {
		for _, t := range offered.Lengths() {
			if front := layout.ShimsOf("front", t); c.has(r, front) {
				s.Rows = append(s.Rows, []string{c.words(r, "perimeter"), c.words(r, "run"), typed(c.exact(t)), mm(t),
					c.words(r, front), c.words(r, layout.ShimsOf("rear", t)), c.outer(c.words(r, "perimeter"))})
			}
		}
	}
	return s
}

func (c schedules) zones() Schedule {
	s := Schedule{Name: "shim-zones.csv", Header: []string{"perimeter", "run", "from", "from mm", "to", "to mm",
		"layers",
		"shims street side least mm", "shims street side most mm", "shims roof side least mm",
		"shims roof side most mm", "outer side"}}
	for _, z := range c.facts.Listed(fact.Zone, "plies") {
		_, perimeter, run := c.run(z)
		from, to := c.length(z, "from"), c.length(z, "to")
		s.Rows = append(s.Rows, []string{perimeter, run, c.crew.Long(from), mm(from), c.crew.Long(to), mm(to),
			c.words(z, "plies"),
			c.mm(z, "shims-front-least"), c.mm(z, "shims-front-most"), c.mm(z, "shims-rear-least"),
			c.mm(z, "shims-rear-most"), c.outer(perimeter)})
	}
	return s
}

func (c schedules) crates() Schedule {
	s := Schedule{Name: "crates.csv", Header: []string{"crate", "kind", "perimeter", "line", "count", "spare",
		"what", "mark", "length", "length mm",
		"thickness", "thickness mm", "diameter", "diameter mm", "grams", "lot", "laid"}}
	for _, x := range c.facts.Listed(fact.Crate, "longest") {
		for i := 1; c.has(x, fmt.Sprintf("line-%d-what", i)); i++ {
			s.Rows = append(s.Rows, append([]string{strings.TrimPrefix(x, "crate "), c.words(x, "kind"),
				c.words(x, "perimeter"), strconv.Itoa(i)}, c.line(x, i)...))
		}
	}
	for i := 1; c.has("withheld", fmt.Sprintf("line-%d-mark", i)); i++ {
		is := func(what string) string { return c.words("withheld", fmt.Sprintf("line-%d-%s", i, what)) }
		q := is("mark")
		long := c.length(q, "longest-side")
		s.Rows = append(s.Rows, []string{"withheld", "", c.words(q, "perimeter"), "", is("count"), is("spare"),
			c.pieceKind(q), q,
			c.shop.Long(long), mm(long),
			"", "", "", "", c.words(q, "weight-shipped"), c.words(q, "lot"), c.words(q, "laying")})
	}
	return s
}

// line is a line of a crate, from its count on.
func (c schedules) line(x string, i int) []string {
	is := func(what string) string { return fmt.Sprintf("line-%d-%s", i, what) }
	mark, long := c.words(x, is("mark")), c.length(x, is("length"))
	what, along, thick, wide, grams, laid := prose(c.words(x, is("what"))), c.shopShort(long), "", "", c.words(x,
		is("weight")), ""
	alongMM, thickMM, wideMM := some(long), "", ""
	switch sort := c.words(x, is("sort")); {
	case sort == "cap":
		what, along, grams, laid = c.pieceKind(mark), c.shopLong(long), c.words(mark, "weight-shipped"),
			c.words(mark, "laying")
	case sort == "shim":
		along, alongMM, thick, thickMM = "", "", c.exact(long), some(long)
	case sort == "tape" && c.metric:
		along = strconv.FormatFloat(long.MM()/1000, 'f', -1, 64) + " m"
	case sort == "tape":
		along = strconv.FormatFloat(float64(long)/float64(length.Foot), 'f', -1, 64) + " ft"
	}
	if c.has(x, is("diameter")) {
		along, wide, wideMM = c.exact(long), c.exact(c.length(x, is("diameter"))), some(c.length(x, is("diameter")))
	}
	return []string{c.words(x, is("count")), c.words(x, is("spare")), typed(what), mark, typed(along), alongMM,
		typed(thick), thickMM,
		typed(wide), wideMM, grams, c.words(x, is("lot")), laid}
}

func (c schedules) parts() Schedule {
	s := Schedule{Name: "parts.csv", Header: []string{"part", "kind", "hand", "twin", "inside", "inside mm",
		"count", "spare", "make now", "spare now",
		"girth", "girth mm", "length", "length mm", "metal", "thickness mm", "inside radius mm", "k", "bends", "holes",
		"grams", "for",
		"not released for", "holds"}}
	for _, q := range c.facts.Listed(fact.Part, "to-make") {
		inside, insideMM := "", ""
		if l := c.length(q, "inside"); l > 0 {
			inside, insideMM = c.shop.Short(l), mm(l)
		}
		k, _ := strconv.ParseFloat(c.words(q, "k-factor"), 64)
		row := []string{strings.TrimPrefix(q, "part "), c.words(q, "kind"), c.words(q, "hand"), c.words(q, "twin"),
			inside, insideMM,
			c.words(q, "count"), c.words(q, "spare"), c.words(q, "to-make"), c.words(q, "spares")}
		row = append(row, c.blank(q)...)
		s.Rows = append(s.Rows, append(row, c.words(q, "metal"), c.mm(q, "thickness"), c.mm(q, "radius"),
			trimFloat(k), c.bends(q), c.words(q, "holes"),
			c.words(q, "weight"), c.words(q, "for"), c.words(q, "for-held"), c.words(q, "holds")))
	}
	return s
}

// blank is the girth and the length of a part's blank.
func (c schedules) blank(q string) []string {
	out := []string{"", "", "", ""}
	for i := 1; c.has(q, fmt.Sprintf("body-%d-blank-girth", i)); i++ {
		girth, long := c.length(q, fmt.Sprintf("body-%d-blank-girth", i)), c.length(q,
			fmt.Sprintf("body-%d-blank-length", i))
		out = []string{view.BlankStyle(c.metric).Short(girth), mm(girth), view.BlankLength(c.metric, long), mm(long)}
	}
	return out
}

// bends are the bends of a part in the order of its flanges.
func (c schedules) bends(q string) string {
	var out []string
	for i := 1; c.has(q, fmt.Sprintf("body-%d-holes", i)); i++ {
		for k := 1; c.has(q, fmt.Sprintf("body-%d-bend-%d-order", i, k)); k++ {
			is := func(what string) string { return fmt.Sprintf("body-%d-bend-%d-%s", i, k, what) }
			hem := c.words(q, is("hem")) == "yes"
			out = append(out, typed(view.BendTo(words.Book{}, hem, c.float(q, is("turn-degrees")),
				c.float(q, is("radius-mm")), " ", c.words(q, is("to-face")))))
		}
	}
	return strings.Join(out, "; ")
}

func (c schedules) findings() Schedule {
	s := Schedule{Name: "findings.csv", Header: []string{"severity", "code", "file", "line", "column", "perimeter",
		"run", "corner", "station",
		"station mm", "pieces", "what", "why", "what to do"}}
	for _, f := range c.facts.Listed(fact.Finding, "code") {
		station, stationMM := "", ""
		if c.has(f, "station") {
			at := c.length(f, "station")
			station, stationMM = c.crew.Long(at), mm(at)
		}
		is := func(what string) string { return c.words(f, what) }
		s.Rows = append(s.Rows, []string{is("severity"), is("code"), is("file"), is("line"), is("column"),
			is("perimeter"), is("run"), is("corner"),
			station, stationMM, strings.TrimSpace(is("pieces") + " " + is("part")), is("what"), is("why"),
			is("mend")})
	}
	return s
}
