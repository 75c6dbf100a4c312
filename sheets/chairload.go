package sheets

import (
	"slices"
	"strconv"

	"copingset/drawing/words"
	"copingset/layout"
)

// chairLoads compares what the wind asks of the chairs with what was proved for
// one, by run and assembly: of each load case the chair that is asked the most.
func (b *book) chairLoads() table {
	rear := b.l.Demand.RearKnown()
	loads := b.l.ChairLoads()
	// Hook and snap have columns where a report gives what each held.
	parted := slices.ContainsFunc(loads, func(r layout.LoadRow) bool { return r.Hook.Chair != nil })
	t := table{
		title: b.say.Say(words.LoadTitle),
		cols: []column{
			b.col(words.ColRun), b.col(words.ColAssembly), b.right(words.ColChairs2), b.flex(words.ColUpShares),
			b.flex(words.ColUpStiffCap), b.flex(words.ColOutFrontLeg), b.flex(words.ColRearLeg),
			b.right(words.ColRatio), b.col(words.ColResult),
		},
	}
	if parted {
		t.cols = slices.Insert(t.cols, upEdges, b.flex(words.ColUpHook), b.flex(words.ColUpSnap))
	}
	last := len(t.cols) - 1
	var held []bool
	for _, r := range loads {
		beam, back := b.say.Say(words.LoadBeamNone), b.say.Say(words.LoadRearNone)
		if r.Beam.Chair != nil {
			beam = b.chairLoading(r.Beam)
		}
		if rear && r.Rear.Chair != nil {
			back = b.chairLoading(r.Rear)
		}
		word := b.say.Say(words.LoadPass)
		switch {
		case !r.Passes:
			word = b.say.Say(words.LoadNoHold)
		case b.l.Demand.ToConfirm():
			word = b.say.Say(words.LoadHoldNotConfirmed)
		}
		held = append(held, word != b.say.Say(words.LoadPass))
		row := []string{
			b.runHead(r.Run), prose(r.Assembly.Name), itoa(r.Chairs), b.chairLoading(r.Up), beam,
			b.chairLoading(r.Out), back, strconv.FormatFloat(r.Worst, 'f', 2, 64), word,
		}
		if parted {
			row = slices.Insert(row, upEdges, b.chairLoading(r.Hook), b.chairLoading(r.Snap))
		}
		t.rows = append(t.rows, row)
	}
	t.bold = func(row, col int) bool { return held[row] && col == last }
	return t
}

// upEdges is the column that hook and snap are inserted at: behind the other loads up.
const upEdges = 5

// chairLoading letters one load case: C7, 108 lb of 137 lb, 0.79.
func (b *book) chairLoading(c layout.ChairLoading) string {
	if c.Chair == nil {
		return "–"
	}
	return b.say.Say(
		words.LoadChair, words.In("n", itoa(c.Chair.N)), words.In("demand", b.force(c.Demand)),
		words.In("holds", b.force(c.Holds)), words.In("ratio", strconv.FormatFloat(c.Ratio(), 'f', 2, 64)),
	)
}

// turnedRows tell how the pieces that turn are held down.
func (b *book) turnedRows() table {
	t := table{
		title: b.say.Say(words.LoadTurned),
		cols: []column{
			b.col(words.ColPiece), b.flex(words.ColKind), b.right(words.ColChairs2),
			b.flex(words.ColCornerSupports), b.flex(words.ColRoundMiterLongerFace), b.flex(words.ColUpliftActs),
			b.flex(words.ColResult),
		},
	}
	var held []bool
	for _, r := range b.l.TurnedRows() {
		sup := b.say.Say(words.LoadNone)
		if n := len(r.Supports); n > 0 {
			sup = b.say.Say(words.LoadBearingOnly, words.In("n", itoa(n)))
			if r.Hooked {
				worst := r.Supports[0]
				for _, s := range r.Supports {
					if s.Load.Ratio() > worst.Load.Ratio() {
						worst = s
					}
				}
				sup = b.say.Say(
					words.LoadHooked, words.In("n", itoa(n)), words.In("demand", b.force(worst.Load.Demand)),
					words.In("holds", b.force(worst.Load.Holds)),
					words.In("ratio", strconv.FormatFloat(worst.Load.Ratio(), 'f', 2, 64)),
				)
			}
		}
		bay, off := b.say.Say(words.LoadHalf), b.say.Say(words.LoadWithin)
		if r.Spacing > 0 {
			bay = b.say.Say(
				words.LoadOf, words.In("bay", b.shopText(r.Bay)), words.In("spacing", b.shopText(r.Spacing)),
			)
		}
		if r.Off > 0 {
			off = b.say.Say(words.LoadOutside, words.In("off", b.shopText(r.Off)))
		}
		word := b.say.Say(words.LoadBalanced)
		switch k := b.j.System.Corner.Covered; {
		case !r.Passes:
			word = b.say.Say(words.LoadNoHold)
		case !r.Held:
			word = b.say.Say(words.LoadCoveredBy, words.In("by", prose(k.By)), words.In("document", prose(k.Document)))
		case b.l.Demand.ToConfirm():
			word = b.say.Say(words.LoadHoldNotConfirmed)
		}
		held = append(held, !r.Passes)
		t.rows = append(t.rows, []string{r.Piece.Mark, prose(r.Kind), itoa(r.Chairs), sup, bay, off, word})
	}
	t.bold = func(row, col int) bool { return held[row] && col == 6 }
	return t
}

// loadNotes say what the two tables count and what they do not.
func (b *book) loadNotes() []string {
	out := []string{b.say.Say(words.LoadReadShare)}
	all, none := true, true
	for i := range b.j.Assemblies {
		all, none = all && b.j.Assemblies[i].TestedOn != nil, none && b.j.Assemblies[i].TestedOn == nil
	}
	switch {
	case all:
		out = append(out, b.say.Say(words.LoadReadBeam))
	case none:
		out = append(out, b.say.Say(words.LoadReadBeamNone))
	default:
		out = append(out, b.say.Say(words.LoadReadBeamSome))
	}
	return append(out, b.say.Say(words.LoadReadSupport), b.say.Say(words.LoadReadSeat))
}
