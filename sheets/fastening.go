package sheets

import (
	"strconv"

	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/length"
	"copingset/layout/wind"
)

// fasteningBlocks are what the schedule of fasteners says besides its counts.
func (b *book) fasteningBlocks() []block {
	var out []block
	if t, ok := b.fasteningTable(); ok {
		out = append(out, t)
	}
	if l, ok := b.pullsLine(); ok {
		out = append(out, l)
	}
	out = append(out, b.withdrawalTable()...)
	return append(out, b.nailerTable()...)
}

// fasteningTable is the schedule by assembly, zone, row and length, with what
// varies along the wall from its least to its greatest.
func (b *book) fasteningTable() (table, bool) {
	t := table{
		title: b.say.Say(words.FasteningByZone),
		cols: []column{
			b.col(words.ColAssembly), b.col(words.ColZone), b.col(words.ColRow), b.right(words.ColLength),
			b.right(words.ColChairs), b.right(words.ColScrews), b.flex(words.ColPackingUnderRow),
			b.flex(words.ColThreadWhatHoldsAsked), b.flex(words.ColWallsFaceLeastAsked),
			b.flex(words.ColPilotDepth),
		},
	}
	var bad []bool
	for i, f := range b.l.Fastenings() {
		t.names = append(t.names, fasteningNames(i, f))
		name, thread := b.say.Say(words.FasteningHold), "–"
		if f.Length > 0 {
			name = b.exact(f.Length)
			thread = b.span(b.floor(f.Thread.Has), b.floor(f.ThreadMax))
		}
		edge := b.say.Say(words.FasteningUnsurveyed)
		if !f.Edge.Unknown {
			edge = b.floor(f.Edge.Has)
		}
		pilot := "–"
		if f.PilotMost > 0 {
			pilot = b.span(b.short(f.PilotLeast), b.short(f.PilotMost))
		}
		bad = append(bad, f.Fails())
		t.rows = append(t.rows, []string{
			prose(f.Assembly.Name),
			b.zoneName(f.Zone),
			[...]string{b.say.Say(words.FasteningRowStreet), b.say.Say(words.FasteningRowRoof)}[f.Row],
			name,
			itoa(f.Chairs),
			itoa(f.Count),
			b.span(b.short(f.PackLeast), b.short(f.PackMost)),
			thread + " (" + b.exact(f.Thread.Asked) + ")",
			edge + " (" + b.exact(f.Edge.Asked) + ")",
			pilot,
		})
	}
	t.bold = func(row, _ int) bool { return bad[row] }
	return t, len(t.rows) > 0
}

// floor letters what must not be taken for more than it is.
func (b *book) floor(l length.Length) string { return b.short(length.FloorTo(l, b.crew.Step())) }

// withdrawalTable is the cross-check in wood, the worst chair of each assembly
// on each run.
func (b *book) withdrawalTable() []block {
	rows := b.l.Withdrawals()
	if len(rows) == 0 {
		return nil
	}
	t := table{
		title: b.say.Say(words.FasteningWood),
		cols: []column{
			b.col(words.ColRun), b.col(words.ColWorstChair), b.col(words.ColAssembly), b.right(words.ColPullUp),
			b.right(words.ColPushBothLegs), b.right(words.ColScrews), b.right(words.ColThread),
			b.right(words.ColAllHold), b.right(words.ColAllCarry), b.right(words.ColPullAlone),
			b.right(words.ColBoth), b.col(words.ColResult),
		},
	}
	var bad []bool
	for _, w := range rows {
		word, carries, together := b.say.Say(words.FasteningPullPasses), b.j.Units.InUnits(
			w.Unsheared,
		), b.say.Say(words.FasteningPullAlone)
		if w.Carries > 0 {
			word, carries, together = b.say.Say(words.FasteningPass), b.force(w.Carries), strconv.FormatFloat(
				w.Combined(),
				'f',
				2,
				64,
			)
		}
		if w.Short() {
			word = b.say.Say(words.FasteningNo)
		}
		bad = append(bad, w.Short())
		t.rows = append(t.rows, []string{
			b.runHead(w.Run),
			w.Pull.Chair.Name,
			prose(w.Assembly.Name),
			b.force(w.Pull.Up),
			b.say.Say(
				words.FasteningCaseForce, words.In("case", w.Pull.Case.String()),
				words.In("across", b.force(w.Pull.Across)),
			),
			itoa(w.Count),
			b.floor(w.Thread),
			b.force(w.Allowable),
			carries,
			strconv.FormatFloat(w.Ratio(), 'f', 2, 64),
			together,
			word,
		})
	}
	t.bold = func(row, col int) bool { return bad[row] && col == len(t.cols)-1 }
	phrase := []string{b.say.Say(words.FasteningWoodSource)}
	if n := b.l.OnPacking(); n > 0 {
		phrase = append(phrase, b.say.Count(words.FasteningWoodUnchecked, n, words.In("n", itoa(n))))
	}
	return []block{t, list{items: phrase, plain: true}}
}

// nailerTable is the anchorage of the nailers by run and zone.
func (b *book) nailerTable() []block {
	rows := b.l.Nailers()
	if len(rows) == 0 {
		return nil
	}
	t := table{
		title: b.say.Say(words.FasteningNailer),
		cols: []column{
			b.col(words.ColRun), b.col(words.ColZone), b.flex(words.ColAnchorReport), b.right(words.ColPullOne),
			b.right(words.ColShearOne), b.right(words.ColUpAlongWall), b.right(words.ColCaseTowardsRoof),
			b.right(words.ColCaseBTowardsStreet), b.col(words.ColGoverns), b.right(words.ColSpacingMost),
		},
	}
	unsheared := false
	for _, n := range rows {
		shear := b.say.Say(words.FasteningNotStated)
		if n.Sheared {
			shear = b.force(n.Anchor.Shear)
		}
		unsheared = unsheared || !n.Sheared
		row := []string{
			b.runHead(n.Run), b.zoneName(n.Zone), prose(n.Anchor.Anchor) + ", " + orDash(prose(n.Anchor.Report)),
			b.force(n.Anchor.Pull), shear, b.along(n.Up),
		}
		for _, c := range n.Cases {
			row = append(row, b.along(c.Front)+" + "+b.along(c.Rear))
		}
		t.rows = append(
			t.rows,
			append(row, b.say.Say(words.FasteningCase, words.In("case", n.Governs.Case.String())), b.apart(n)),
		)
	}
	items := []string{b.say.Say(words.FasteningNailerCases)}
	for _, phrase := range b.l.NailerAssumptions() {
		items = append(items, prose(phrase))
	}
	if unsheared {
		items = append(items, b.say.Say(words.FasteningNailerNoShear))
	}
	return []block{t, list{items: items, plain: true}}
}

// apart letters the spacing of a nailer's anchors, which the job may not state.
func (b *book) apart(n layout.Nailer) string {
	switch {
	case n.Spacing == 0:
		return b.say.Say(words.ReportNotStated)
	case !n.Stands():
		return b.say.Say(
			words.FasteningNailerClose, words.In("spacing", b.long(n.Spacing)),
			words.In("least", b.long(n.Anchor.Least)),
		)
	}
	return b.long(n.Spacing)
}

const newtonsPerPound = 4.4482216152605

// force letters newtons as pounds or kN.
func (b *book) force(n float64) string {
	if b.metric {
		return b.say.Say(words.UnitKn, words.In("n", strconv.FormatFloat(n/1000, 'f', 2, 64)))
	}
	return b.say.Say(words.UnitLb, words.In("n", strconv.FormatFloat(n/newtonsPerPound, 'f', 0, 64)))
}

// along letters newtons a metre as pounds a foot or kN a metre.
func (b *book) along(n float64) string {
	if b.metric {
		return b.say.Say(words.UnitKnM, words.In("n", strconv.FormatFloat(n/1000, 'f', 2, 64)))
	}
	return b.say.Say(words.UnitLbFt, words.In("n", strconv.FormatFloat(n/newtonsPerPound*0.3048, 'f', 0, 64)))
}

// pullsLine says the greatest pull on one chair of each zone.
func (b *book) pullsLine() (list, bool) {
	most := b.l.GreatestPulls()
	var out []string
	for z := wind.Edge; z <= wind.Corner; z++ {
		if p := most[z]; p.Chair != nil {
			out = append(
				out,
				b.say.Say(
					words.FasteningGreatest, words.In("zone", b.zoneName(z)), words.In("name", p.Chair.Name),
					words.In("up", b.force(p.Up)), words.In("across", b.force(p.Across)),
					words.In("towards", p.Case.Towards()), words.In("case", p.Case.String()),
					words.In("out", b.force(p.Out)), words.In("tributary", b.small(p.Tributary)),
				),
			)
		}
	}
	if len(out) == 0 {
		return list{}, false
	}
	out = append(out, b.say.Say(words.FasteningGreatestEnd))
	return list{title: b.say.Say(words.FasteningGreatestTitle), items: out}, true
}

// zoneName names a wind zone.
func (b *book) zoneName(z wind.Zone) string {
	if z == wind.Corner {
		return b.say.Say(words.FasteningZoneCorner)
	}
	return b.say.Say(words.FasteningZoneEdge)
}
