package sheets

import (
	"fmt"
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// fasteners is the schedule of screws, shims and plywood.
func (b *book) fasteners() []page {
	first := page{id: b.id("fasteners"), title: "Fastener and shim schedule", kind: FastenerSchedule, paper: b.lists, holds: b.l.Holds(),
		about: "Fasteners by run, type and length; shims and plywood by run; shim zones."}
	first.banner = b.holdWords(first.holds)
	room := first.paper.room(first.banner != "")
	var blocks []block
	blocks = append(blocks, b.fastenerTables(room.Width())...)
	blocks = append(blocks, b.fasteningBlocks()...)
	blocks = append(blocks, b.fastenerData(), list{items: []string{b.say.Say(words.CrateWithoutSupports)}, plain: true})
	if t, ok := b.shimTable(); ok {
		blocks = append(blocks, t)
	}
	blocks = append(blocks, b.zoneTable())
	return b.pages(first, blocks, b.wideColumns(blocks))
}

// wideColumns lets tables run side by side on paper wide enough for it.
func (b *book) wideColumns(blocks []block) func(int, drawing.Rect) []drawing.Rect {
	var most drawing.Unit
	for _, x := range blocks {
		if t, ok := x.(table); ok {
			most = max(most, t.width())
		}
	}
	return func(_ int, room drawing.Rect) []drawing.Rect {
		n := 1
		if most > 0 {
			n = max(1, int((room.Width()+gutter)/(most+gutter)))
		}
		return columns(room, n, gutter)
	}
}

// fastenerTables count by run; jobs of many runs take several tables.
func (b *book) fastenerTables(w drawing.Unit) []block {
	lines := b.l.FastenerSchedule()
	runs := b.l.Runs()
	ofRuns := max(4, int((w-11000)/1400))
	var out []block
	for from := 0; from == 0 || from < len(runs); from += ofRuns {
		to := min(len(runs), from+ofRuns)
		t := table{title: "Fasteners in chairs, by run", cols: []column{{head: "Fastener", flex: true}, {head: "Length", align: drawing.Right}}}
		if from > 0 {
			t.title += ", further runs"
		}
		for _, r := range runs[from:to] {
			t.cols = append(t.cols, column{head: b.runHead(r), align: drawing.Right})
		}
		last := to == len(runs)
		if last {
			t.cols = append(t.cols, column{head: "In all", align: drawing.Right}, column{head: "Spare", align: drawing.Right}, column{head: "Boxes", align: drawing.Right})
		}
		for _, f := range lines {
			row := []string{b.screwName(f.Fastener), b.exact(f.Length)}
			for _, n := range f.ByRun[from:to] {
				row = append(row, dash(n))
			}
			if last {
				box := dash(f.Boxes)
				if f.Boxes > 0 {
					box = fmt.Sprintf("%d × %d", f.Boxes, f.Fastener.Box)
				}
				row = append(row, itoa(f.Count), itoa(f.Spare), box)
			}
			t.rows = append(t.rows, row)
		}
		out = append(out, t)
	}
	return out
}

func (b *book) runHead(r *layout.Run) string {
	if len(b.l.Perimeters) > 1 {
		return r.Perimeter.Job.Name + " " + r.Name
	}
	return r.Name
}

func dash(n int) string {
	if n == 0 {
		return "–"
	}
	return itoa(n)
}

// fastenerData says what each fastener's report asks for.
func (b *book) fastenerData() table {
	t := table{title: "What each fastener asks for", cols: []column{{head: "Fastener", flex: true}, {head: "Diameter", align: drawing.Right}, {head: "Holds in"}, {head: "Thread in it, and tip", align: drawing.Right},
		{head: "Pilot diameter", align: drawing.Right}, {head: "Edge distance", align: drawing.Right}, {head: "Cover left", align: drawing.Right}}}
	used := b.l.FastenerSchedule()
	for i := range b.j.Fasteners {
		f := &b.j.Fasteners[i]
		if !slices.ContainsFunc(used, func(u layout.FastenerLine) bool { return u.Fastener == f }) {
			continue
		}
		pilot := "none"
		if f.PilotDia > 0 {
			pilot = b.exact(f.PilotDia)
		}
		t.rows = append(t.rows, []string{prose(f.Name), b.exact(f.Diameter), f.Substrate, b.exact(f.Embedment) + " thread + " + b.exact(f.Tip) + " tip", pilot, b.exact(f.EdgeDistance), b.exact(f.Cover)})
	}
	return t
}

// shimTable counts shims by run, and the plywood of the zones.
func (b *book) shimTable() (table, bool) {
	t := table{title: "Shims by run", cols: []column{{head: "Run"}}}
	for _, s := range b.j.Packing.Shims {
		t.cols = append(t.cols, column{head: b.exact(s) + " front", align: drawing.Right}, column{head: b.exact(s) + " rear", align: drawing.Right})
	}
	ply := b.j.Packing.Method == job.PackContinuous && b.j.Packing.Layer > 0
	if ply {
		t.title = "Shims and plywood by run"
		t.cols = append(t.cols, column{head: "Plywood " + b.exactly(b.j.Packing.Layer) + " actual, full width", align: drawing.Right})
	}
	for _, r := range b.l.Runs() {
		counts := b.l.Shims(r)
		row := unnamed(b.runHead(r))
		for _, s := range b.j.Packing.Shims {
			i := slices.IndexFunc(counts, func(c layout.ShimCount) bool { return c.Thickness == s })
			if i < 0 {
				row = append(row, unnamed("–", "–")...)
				continue
			}
			for _, n := range []struct {
				face string
				n    int
			}{{"front", counts[i].Front}, {"rear", counts[i].Rear}} {
				row = append(row, lettered{dash(n.n), layout.Named(layout.FactOfRun(r), layout.ShimsOf(n.face, s))})
			}
		}
		if ply {
			sheet := "–"
			if n := b.l.Plywood(r); n > 0 {
				sheet = b.long(n)
			}
			row = append(row, lettered{sheet, layout.Named(layout.FactOfRun(r), "plywood")})
		}
		t.add(row...)
	}
	return t, len(b.j.Packing.Shims) > 0 || ply
}

// zoneTable lists the shim zones a carpenter cuts to.
func (b *book) zoneTable() table {
	plies := "Plies"
	if b.j.Packing.Method == job.PackContinuous && b.j.Packing.Layer > 0 {
		plies += ", " + b.exactly(b.j.Packing.Layer) + " actual"
	}
	t := table{title: "Shim zones, stations from the start of each run; shims over the plies at the wall’s front and rear face", cols: []column{{head: "Run"}, {head: "From", align: drawing.Right}, {head: "To", align: drawing.Right}, {head: plies, align: drawing.Right},
		{head: "Shims, front face", align: drawing.Right}, {head: "Shims, rear face", align: drawing.Right}}}
	shims := func(lo, hi length.Length) string { return span(b.short(lo), b.short(hi)) }
	for _, r := range b.l.Runs() {
		for i, z := range r.BuildUp {
			of := layout.FactOfZone(r, i)
			t.add(lettered{words: b.runHead(r)}, lettered{b.long(r.ToCrew(r.ToCap(z.From))), factsOf(of, "from")}, lettered{b.long(r.ToCrew(r.ToCap(z.To))), factsOf(of, "to")},
				lettered{itoa(z.Layers), factsOf(of, "plies")}, lettered{shims(z.FrontLeast, z.FrontMost), factsOf(of, "shims-front-least", "shims-front-most")},
				lettered{shims(z.RearLeast, z.RearMost), factsOf(of, "shims-rear-least", "shims-rear-most")})
		}
	}
	return t
}

// pieces is the schedule of everything the shop makes.
func (b *book) pieces() []page {
	var all []*layout.Piece
	for _, p := range b.l.Perimeters {
		all = append(all, p.Pieces...)
	}
	first := page{id: b.id("pieces"), title: "Piece schedule", kind: PieceSchedule, paper: b.runs, holds: b.l.HoldsOnPieces(all),
		about: "Every piece with its mark, kind, hand, lengths, width, girth, weight and release."}
	first.banner = b.releaseWords(all, first.holds)
	lengths := "Lengths are of metal as laid, by outside mold lines: front along the street face, rear along the roof face, one number for each leg from the left."
	sum := b.weight(b.l.Grams())
	if trims(all) {
		var grams int64
		for _, q := range all {
			grams += b.l.Weight(q).Shipped
		}
		sum = b.weight(grams) + " with allowance"
		lengths = "Cut lengths are of metal as shipped, trim-to lengths as laid, both by outside mold lines: front along the street face, rear along the roof face, one number for each leg from the left."
	}
	var blocks []block
	for _, p := range b.l.Perimeters {
		title := "Pieces"
		if len(b.l.Perimeters) > 1 {
			title += " of " + prose(p.Job.Name)
		}
		blocks = append(blocks, b.pieceTable(title, p.Pieces, trims(all)))
	}
	blocks = append(blocks, list{items: []string{
		lengths,
		"Girth is the width of the flat sheet a piece is bent from, of a transition at its mean width" + b.girthFrom() + ". Weight is calculated. All pieces together: " + sum + ".",
	}})
	if b.j.Shop == nil {
		blocks = append(blocks, list{items: []string{noShop}})
	}
	return b.pages(first, blocks, across)
}

// trims reports whether some piece ships long, to be trimmed on the roof.
func trims(pieces []*layout.Piece) bool {
	return slices.ContainsFunc(pieces, func(q *layout.Piece) bool { return q.Allowance > 0 })
}

func (b *book) pieceTable(title string, pieces []*layout.Piece, trim bool) table {
	t := table{title: title, cols: []column{{head: "Mark"}, {head: "Laid as no.", align: drawing.Right}, {head: "Kind", flex: true}, {head: "Hand"}, {head: "Turn", flex: true}}}
	if trim {
		t.cols = append(t.cols, column{head: "Cut length, front", flex: true, align: drawing.Right}, column{head: "Cut length, rear", flex: true, align: drawing.Right},
			column{head: "Trim to, front and rear", flex: true, align: drawing.Right})
	} else {
		t.cols = append(t.cols, column{head: "Front length", flex: true, align: drawing.Right}, column{head: "Rear length", flex: true, align: drawing.Right})
	}
	// Of a corner of two widths they are as many as its legs.
	two := slices.ContainsFunc(pieces, func(q *layout.Piece) bool { return b.l.Made(q).LegsDiffer() })
	t.cols = append(t.cols, column{head: "Inside width", flex: two, align: drawing.Right}, column{head: "Girth", flex: two, align: drawing.Right},
		column{head: "Weight", flex: trim, align: drawing.Right}, column{head: "Lift", align: drawing.Middle}, column{head: "Assembly"}, column{head: "Released", flex: true})
	var held []bool
	for _, q := range pieces {
		held = append(held, !b.l.Held.Released(q))
		t.rows = append(t.rows, b.pieceRow(q, trim))
	}
	last := len(t.cols) - 1
	t.bold = func(row, col int) bool { return held[row] && (col == 0 || col == last) }
	return t
}

func (b *book) pieceRow(q *layout.Piece, trim bool) []string {
	made := b.l.Made(q)
	kind := made.Name
	if q.Allowance > 0 {
		kind += ", trim at the " + made.CutAt
	}
	for _, o := range q.Cutouts {
		kind += "; " + b.holeWords(q, o)
	}
	var turn []string
	for _, m := range q.Miters {
		turn = append(turn, shortTurn(m.Corner))
	}
	var front, rear, laid []string
	for i, p := range q.Parts {
		f, r := layout.Shipped(q, i)
		front, rear = append(front, b.shopLong(f)), append(rear, b.shopLong(r))
		to := b.shopLong(p.Length())
		if k := b.shopLong(q.RearLength(i)); k != to {
			to += " / " + k
		}
		laid = append(laid, to)
	}
	weight := b.weight(b.l.Weight(q).Laid)
	if q.Allowance > 0 {
		weight = b.weight(b.l.Weight(q).Shipped) + " with allowance"
	}
	lift := "one"
	if made.Lift != plan.ByOne {
		lift = b.lifting(q, "", "")
	}
	as := "–"
	if q.Assembly != nil {
		as = prose(q.Assembly.Name) + " " + q.Zone.String()
	}
	released := "yes"
	if !b.l.Held.Released(q) {
		released = "DO NOT CUT: " + strings.Join(b.holdNames(b.l.Held[q]), "; ")
	}
	row := []string{q.Mark, itoa(q.Laying), kind, orDash(made.Hand), orDash(strings.Join(turn, "; ")), strings.Join(front, " + "), strings.Join(rear, " + ")}
	if trim {
		to := "–"
		if q.Allowance > 0 {
			to = strings.Join(laid, " + ")
		}
		row = append(row, to)
	}
	return append(row, b.widthOf(q), b.girthOf(q), weight, lift, as, released)
}

// shortTurn says turn and included angle in a table.
func shortTurn(c *layout.Corner) string {
	if c.Straight() {
		return c.Pitch.String() + " of " + angle(max(c.Bend, -c.Bend))
	}
	if c.Outside() {
		return "right " + angle(c.CapTurn) + " (incl. " + angle(c.CapIncluded()) + ")"
	}
	return "left " + angle(-c.CapTurn) + " (incl. " + angle(c.CapIncluded()) + ")"
}

func orDash(s string) string {
	if s == "" {
		return "–"
	}
	return s
}

// joints is the schedule of the joints.
func (b *book) joints() []page {
	first := page{id: b.id("joints"), title: "Joint schedule", kind: JointSchedule, paper: b.runs, holds: b.l.Holds(),
		about: "Every joint with its pieces, station, gap, plate and, at a building expansion joint, movement and held side."}
	first.banner = b.holdWords(first.holds)
	t := table{cols: []column{{head: "Joint"}, {head: "Kind"}, {head: "Left piece"}, {head: "Right piece"}, {head: "Centre at crew station", align: drawing.Right},
		{head: "Nominal gap", align: drawing.Right}, {head: "Plate", align: drawing.Right}, {head: "Mean metal length", align: drawing.Right}, {head: "Movement, held side", flex: true}}}
	for _, p := range b.l.Perimeters {
		for _, r := range p.Runs {
			for _, q := range r.Joints {
				t.add(b.jointRow(p, r, q)...)
			}
		}
	}
	if len(t.rows) == 0 {
		return nil
	}
	s := &b.j.System
	note := list{together: true, items: []string{fmt.Sprintf("Nominal gaps are at a metal temperature of %s. The gap to set by temperature stands on the sheet of each run.", b.temperature(s.Joint.Reference)),
		"Joint centres never move with temperature. Sealant tape: " + b.small(s.Splice.Tape) + " from the centre line to the middle of each strip."}}
	return b.pages(first, []block{t, note}, b.wideColumns([]block{t}))
}

func (b *book) jointRow(p *layout.Perimeter, r *layout.Run, q *layout.Joint) []lettered {
	k := b.l.JointRow(r, q)
	name := q.Name
	if len(b.l.Perimeters) > 1 {
		name = p.Job.Name + " " + name
	}
	what, mean := "–", "–"
	if k.Feeds {
		mean = b.shopLong(k.Mean)
	}
	if k.Loose {
		what = "NOT STATED"
		if k.Moves {
			what = "± " + b.shopShort(k.Movement)
		}
		what += ", plate fixed " + k.Fixed
	}
	is := func(what string) string { return layout.Named(q.Name, what) }
	return []lettered{{words: name}, {k.Kind, is("kind")}, {orDash(k.Left), is("left-piece")}, {orDash(k.Right), is("right-piece")}, {b.chairStation(r, q.Centre()), is("station")},
		{b.shopShort(k.Gap), is("gap")}, {b.shopShort(k.Plate), is("plate-length")}, {mean, is("mean-length")}, {words: what}}
}

// girthFrom says where the girths come from that no bend of the shop's gives.
func (b *book) girthFrom() string {
	if b.j.Shop != nil {
		return ""
	}
	return ", by the middle of its metal, since nothing is stated of how the shop bends"
}
