package sheets

import (
	"fmt"
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/fact"
	"copingset/layout/job"
	"copingset/layout/length"
)

// fasteners is the schedule of screws, shims and plywood.
func (b *book) fasteners() []page {
	first := page{
		id:    b.id("fasteners"),
		title: b.say.Say(words.FastenersTitle),
		kind:  FastenerSchedule,
		paper: b.lists,
		holds: b.l.Holds(),
		about: b.say.Say(words.FastenersAbout),
	}
	first.banner = b.holdWords(first.holds)
	room := first.paper.room(first.banner != "")
	var blocks []block
	blocks = append(blocks, b.fastenerTables(room.Width())...)
	blocks = append(blocks, b.fasteningBlocks()...)
	blocks = append(blocks, b.fastenerData())
	if s := b.supportsUnfixed(); s != "" {
		blocks = append(blocks, list{items: []string{s}, plain: true})
	}
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
		t := table{
			title: b.say.Say(words.ScheduleFasteners),
			cols:  []column{b.flex(words.ColFastener), b.right(words.ColLength)},
		}
		if from > 0 {
			t.title = b.say.Say(words.ScheduleFastenersFurther)
		}
		for _, r := range runs[from:to] {
			t.cols = append(t.cols, column{head: b.runHead(r), align: drawing.Right})
		}
		last := to == len(runs)
		if last {
			t.cols = append(t.cols, b.right(words.ColInAll), b.right(words.ColSpare), b.right(words.ColBoxes))
		}
		for _, f := range lines {
			of := layout.FastenerFacts(f.Fastener.Name, f.Length)
			is := func(what ...string) string { return factsOf(of, what...) }
			row := []lettered{{b.screwName(f.Fastener), is("name")}, {b.exact(f.Length), is("length")}}
			for i, n := range f.ByRun[from:to] {
				named := ""
				if n > 0 {
					named = is("count-" + layout.FactOfRun(runs[from+i]))
				}
				row = append(row, lettered{dash(n), named})
			}
			if last {
				box := lettered{words: dash(f.Boxes)}
				if f.Boxes > 0 {
					box = lettered{fmt.Sprintf("%d × %d", f.Boxes, f.Fastener.Box), is("boxes", "box")}
				}
				row = append(row, lettered{itoa(f.Count), is("count")}, lettered{itoa(f.Spare), is("spare")}, box)
			}
			t.add(row...)
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
	t := table{
		title: b.say.Say(words.ScheduleFastenerData),
		cols: []column{
			b.flex(words.ColFastener), b.right(words.ColDiameter), b.col(words.ColHoldsIn),
			b.right(words.ColThreadTip), b.right(words.ColPilotDiameter), b.right(words.ColEdgeDistance),
			b.right(words.ColCoverLeft),
		},
	}
	used := b.l.FastenerSchedule()
	for i := range b.j.Fasteners {
		f := &b.j.Fasteners[i]
		k := slices.IndexFunc(used, func(u layout.FastenerLine) bool { return u.Fastener == f })
		if k < 0 {
			continue
		}
		of := layout.FastenerFacts(f.Name, used[k].Length)
		drilled := ""
		if f.PilotDia > 0 {
			drilled = layout.Named(of, "pilot-diameter")
		}
		t.names = append(t.names, []string{
			layout.Named(of, "name"), layout.Named(of, "diameter"), "",
			layout.AllNamed(layout.Named(of, "thread-asked"), layout.Named(of, "tip")),
			drilled, layout.Named(of, "edge-asked"), layout.Named(of, "cover"),
		})
		pilot := b.say.Say(words.ScheduleNone)
		if f.PilotDia > 0 {
			pilot = b.exact(f.PilotDia)
		}
		t.rows = append(t.rows, []string{
			prose(f.Name),
			b.exact(f.Diameter),
			b.say.Say(view.MaterialKey(f.Substrate)),
			b.say.Say(
				words.ScheduleThreadTip, words.In("embedment", b.exact(f.Embedment)),
				words.In("tip", b.exact(f.Tip)),
			),
			pilot,
			b.exact(f.EdgeDistance),
			b.exact(f.Cover),
		})
	}
	return t
}

// shimTable counts shims by run, and the plywood of the zones.
func (b *book) shimTable() (table, bool) {
	t := table{title: b.say.Say(words.ScheduleShims), cols: []column{b.col(words.ColRun)}}
	for _, s := range b.j.Packing.Shims {
		t.cols = append(
			t.cols, column{head: b.say.Say(words.ColFront, words.In("exact", b.exact(s))), align: drawing.Right,
				fact: layout.Named("packing", "shim-"+fact.Nanometres(s))},
			column{head: b.say.Say(words.ColRear, words.In("exact", b.exact(s))), align: drawing.Right,
				fact: layout.Named("packing", "shim-"+fact.Nanometres(s))},
		)
	}
	ply := b.j.Packing.Method == job.PackContinuous && b.j.Packing.Layer > 0
	if ply {
		t.title = b.say.Say(words.ScheduleShimsPlywood)
		t.cols = append(
			t.cols,
			column{
				head:  b.say.Say(words.ColPlywoodActualFullWidth, words.In("layer", b.exactly(b.j.Packing.Layer))),
				align: drawing.Right,
				fact:  layout.Named("packing", "layer"),
			},
		)
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
	plies := b.say.Say(words.ColLayers)
	if b.j.Packing.Method == job.PackContinuous && b.j.Packing.Layer > 0 {
		plies = b.say.Say(words.ColLayersOf, words.In("thickness", b.exactly(b.j.Packing.Layer)))
	}
	t := table{
		title: b.say.Say(words.ScheduleZones),
		cols: []column{
			b.col(words.ColRun), b.right(words.ColFrom), b.right(words.ColTo),
			{head: plies, align: drawing.Right}, b.right(words.ColShimsFrontFace),
			b.right(words.ColShimsRearFace),
		},
	}
	shims := func(lo, hi length.Length) string { return b.span(b.short(lo), b.short(hi)) }
	for _, r := range b.l.Runs() {
		for i, z := range r.BuildUp {
			of := layout.FactOfZone(r, i)
			t.add(
				lettered{words: b.runHead(r)},
				lettered{b.long(r.ToCrew(r.ToCap(z.From))), factsOf(of, "from")},
				lettered{b.long(r.ToCrew(r.ToCap(z.To))), factsOf(of, "to")},
				lettered{
					itoa(z.Layers),
					factsOf(of, "plies"),
				},
				lettered{shims(z.FrontLeast, z.FrontMost), factsOf(of, "shims-front-least", "shims-front-most")},
				lettered{shims(z.RearLeast, z.RearMost), factsOf(of, "shims-rear-least", "shims-rear-most")},
			)
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
	first := page{
		id:    b.id("pieces"),
		title: b.say.Say(words.PiecesTitle),
		kind:  PieceSchedule,
		paper: b.runs,
		holds: b.l.HoldsOnPieces(all),
		about: b.say.Say(words.PiecesAbout),
	}
	first.banner = b.releaseWords(all, first.holds)
	lengths := b.say.Say(words.ScheduleLengths)
	sum, summed := b.weight(b.l.Grams()), "weight-of-pieces"
	if trims(all) {
		sum = b.say.Say(words.ScheduleWithExtra, words.In("weight", b.weight(b.l.GramsShipped())))
		summed = "weight-of-pieces-shipped"
		lengths = b.say.Say(words.ScheduleLengthsCut)
	}
	var blocks []block
	for _, p := range b.l.Perimeters {
		title := b.ofPerimeter(p, words.SchedulePieces, words.SchedulePiecesOf)
		blocks = append(blocks, b.pieceTable(title, p.Pieces, trims(all)))
	}
	blocks = append(blocks, list{items: []string{
		lengths, b.girthMeaning(), b.say.Say(words.ScheduleWeights, words.In("sum", sum)),
	}, names: []string{"", "", layout.Named("job", summed)}})
	if b.j.Shop == nil {
		blocks = append(blocks, list{items: []string{b.say.Say(words.ShopUnstated)}})
	}
	return b.pages(first, blocks, across)
}

// trims reports whether some piece includes extra length, to be trimmed on the roof.
func trims(pieces []*layout.Piece) bool {
	return slices.ContainsFunc(pieces, func(q *layout.Piece) bool { return q.Allowance > 0 })
}

func (b *book) pieceTable(title string, pieces []*layout.Piece, trim bool) table {
	t := table{
		title: title,
		cols: []column{
			b.col(words.ColMark), b.right(words.ColLaidNo), b.flex(words.ColKind), b.col(words.ColHand),
			b.flex(words.ColTurn),
		},
	}
	if trim {
		t.cols = append(
			t.cols, column{head: b.say.Say(words.ColCutLengthFront), flex: true, align: drawing.Right},
			column{head: b.say.Say(words.ColCutLengthRear), flex: true, align: drawing.Right},
			column{head: b.say.Say(words.ColTrimFrontRear), flex: true, align: drawing.Right},
		)
	} else {
		t.cols = append(
			t.cols, column{head: b.say.Say(words.ColFrontLength), flex: true, align: drawing.Right},
			column{head: b.say.Say(words.ColRearLength), flex: true, align: drawing.Right},
		)
	}
	// Of a corner of two widths they are as many as its legs.
	two := slices.ContainsFunc(pieces, func(q *layout.Piece) bool { return b.l.Made(q).LegsDiffer() })
	t.cols = append(
		t.cols,
		column{head: b.say.Say(words.ColInsideWidth), flex: two, align: drawing.Right},
		column{head: b.say.Say(words.ColGirth), flex: two, align: drawing.Right},
		column{
			head:  b.say.Say(words.ColWeight),
			flex:  trim,
			align: drawing.Right,
		},
		column{head: b.say.Say(words.ColLift), align: drawing.Middle},
		b.col(words.ColAssembly),
		b.flex(words.ColReleased),
	)
	var held []bool
	for _, q := range pieces {
		held = append(held, !b.l.Held.Released(q))
		t.rows, t.names = append(t.rows, b.pieceRow(q, trim)), append(t.names, b.pieceNames(q, trim))
	}
	last := len(t.cols) - 1
	t.bold = func(row, col int) bool { return held[row] && (col == 0 || col == last) }
	return t
}

func (b *book) pieceRow(q *layout.Piece, trim bool) []string {
	made := b.l.Made(q)
	kinds := []string{b.kindName(q)}
	if q.Allowance > 0 {
		kinds[0] = b.say.Say(
			words.SchedulePieceTrim, words.In("kind", kinds[0]), words.In("end", b.sideName(made.CutAt)),
		)
	}
	for _, o := range q.Cutouts {
		kinds = append(kinds, b.holeWords(q, o))
	}
	var turn []string
	for _, m := range q.Miters {
		turn = append(turn, b.shortTurn(m.Corner))
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
		weight = b.say.Say(words.ScheduleWithExtra, words.In("weight", b.weight(b.l.Weight(q).Shipped)))
	}
	lift := b.liftShort(q)
	as := "–"
	if q.Assembly != nil {
		as = prose(q.Assembly.Name) + " " + b.zoneName(q.Zone)
	}
	released := b.say.Say(words.ScheduleYes)
	if !b.l.Held.Released(q) {
		released = b.say.Say(words.ScheduleDoNotCut, words.In("held", strings.Join(b.holdNames(b.l.Held[q]), "; ")))
	}
	row := []string{
		q.Mark, itoa(q.Laying), strings.Join(kinds, "; "), orDash(b.sideName(made.Hand)),
		orDash(strings.Join(turn, "; ")), strings.Join(front, " + "), strings.Join(rear, " + "),
	}
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
func (b *book) shortTurn(c *layout.Corner) string {
	if c.Straight() {
		pitch := words.ScheduleTurnValley
		if c.Bend > 0 {
			pitch = words.ScheduleTurnPeak
		}
		return b.say.Say(pitch, words.In("angle", angle(max(c.Bend, -c.Bend))))
	}
	included := words.In("included", angle(c.CapIncluded()))
	if c.Outside() {
		return b.say.Say(words.ScheduleTurnRight, words.In("turn", angle(c.CapTurn)), included)
	}
	return b.say.Say(words.ScheduleTurnLeft, words.In("turn", angle(-c.CapTurn)), included)
}

// sideName is the hand or the end of a piece in the words of the sheets.
func (b *book) sideName(side string) string {
	switch side {
	case "left":
		return b.say.Say(words.ScheduleSideLeft)
	case "right":
		return b.say.Say(words.ScheduleSideRight)
	}
	return side
}

func orDash(s string) string {
	if s == "" {
		return "–"
	}
	return s
}

// joints is the schedule of the joints.
func (b *book) joints() []page {
	first := page{
		id:    b.id("joints"),
		title: b.say.Say(words.JointsTitle),
		kind:  JointSchedule,
		paper: b.runs,
		holds: b.l.Holds(),
		about: b.say.Say(words.JointsAbout),
	}
	first.banner = b.holdWords(first.holds)
	t := table{
		cols: []column{
			b.col(words.ColJoint), b.col(words.ColKind), b.col(words.ColLeftPiece), b.col(words.ColRightPiece),
			b.right(words.ColCenterStation), b.right(words.ColNominalGap), b.right(words.ColPlate),
			b.right(words.ColMeanMetalLength), b.flex(words.ColMovementHeldSide),
		},
	}
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
	note := list{
		together: true,
		items: []string{b.say.Say(words.ScheduleGaps, words.In("reference", b.temperature(s.Joint.Reference))),
			b.say.Say(words.ScheduleJointCenters, words.In("tape", b.small(s.Splice.Tape)))},
		names: []string{layout.Named("system", "joint-reference"), layout.Named("system", "splice-tape")},
	}
	return b.pages(first, []block{t, note}, b.wideColumns([]block{t}))
}

func (b *book) jointRow(p *layout.Perimeter, r *layout.Run, q *layout.Joint) []lettered {
	k := b.l.JointRow(r, q)
	name := q.Name
	if len(b.l.Perimeters) > 1 {
		name = p.Job.Name + " " + name
	}
	is := func(what string) string { return layout.Named(q.Name, what) }
	what, mean, moves, meant := "–", "–", "", ""
	if k.Feeds {
		mean, meant = b.shopLong(k.Mean), is("mean-length")
	}
	if k.Loose {
		what = b.say.Say(words.ScheduleNotStated)
		moves = is("held")
		if k.Moves {
			moves = layout.AllNamed(moves, is("movement"))
			what = "± " + b.shopShort(k.Movement)
		}
		what = b.say.Say(words.ScheduleMoves, words.In("movement", what), words.In("side", b.sideName(k.Fixed)))
	}
	return []lettered{
		{words: name},
		{k.Kind, is("kind")},
		{orDash(k.Left), is("left-piece")},
		{orDash(k.Right), is("right-piece")},
		{b.chairStation(r, q.Centre()), is("station")},
		{b.shopShort(k.Gap), is("gap")},
		{b.shopShort(k.Plate), is("plate-length")},
		{mean, meant},
		{what, moves},
	}
}

// girthMeaning says what girth is, and where it comes from when nothing is stated of
// how the shop bends.
func (b *book) girthMeaning() string {
	if b.j.Shop != nil {
		return b.say.Say(words.ScheduleGirth)
	}
	return b.say.Say(words.ScheduleGirthUnstated)
}
