package sheets

import (
	"fmt"
	"strconv"

	"copingset/drawing"
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
	t := table{title: "Fasteners by zone, row and packing: built against asked", cols: []column{{head: "Assembly"}, {head: "Zone"}, {head: "Row"}, {head: "Length", align: drawing.Right}, {head: "Chairs", align: drawing.Right}, {head: "Screws", align: drawing.Right},
		{head: "Packing under the row", flex: true}, {head: "Thread in what holds it (asked)", flex: true}, {head: "To the wall’s face, least (asked)", flex: true}, {head: "Pilot depth", flex: true}}}
	var bad []bool
	for _, f := range b.l.Fastenings() {
		name, thread := "HOLD", "–"
		if f.Length > 0 {
			name = b.exact(f.Length)
			thread = span(b.floor(f.Thread.Has), b.floor(f.ThreadMax))
		}
		edge := "wall not surveyed"
		if !f.Edge.Unknown {
			edge = b.floor(f.Edge.Has)
		}
		pilot := "–"
		if f.PilotMost > 0 {
			pilot = span(b.short(f.PilotLeast), b.short(f.PilotMost))
		}
		bad = append(bad, f.Fails())
		t.rows = append(t.rows, []string{prose(f.Assembly.Name), f.Zone.String(), [...]string{"front", "rear"}[f.Row], name, itoa(f.Chairs), itoa(f.Count),
			span(b.short(f.PackLeast), b.short(f.PackMost)), thread + " (" + b.exact(f.Thread.Asked) + ")", edge + " (" + b.exact(f.Edge.Asked) + ")", pilot})
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
	t := table{title: "Screws in wood, allowable level: a cross-check that never replaces the test", cols: []column{{head: "Run"}, {head: "Worst chair"}, {head: "Assembly"}, {head: "Pull up", align: drawing.Right},
		{head: "Push on both legs", align: drawing.Right}, {head: "Screws", align: drawing.Right}, {head: "Thread", align: drawing.Right}, {head: "All hold", align: drawing.Right}, {head: "All carry", align: drawing.Right},
		{head: "Pull alone", align: drawing.Right}, {head: "Together", align: drawing.Right}, {head: "Result"}}}
	var bad []bool
	for _, w := range rows {
		word, carries, together := "pull passes", b.j.Units.InUnits(w.Unsheared), "pull alone"
		if w.Carries > 0 {
			word, carries, together = "pass", b.force(w.Carries), strconv.FormatFloat(w.Combined(), 'f', 2, 64)
		}
		if w.Short() {
			word = "NO: HOLD"
		}
		bad = append(bad, w.Short())
		t.rows = append(t.rows, []string{b.runHead(w.Run), w.Pull.Chair.Name, prose(w.Assembly.Name), b.force(w.Pull.Up), "case " + w.Pull.Case.String() + ", " + b.force(w.Pull.Across), itoa(w.Count), b.floor(w.Thread),
			b.force(w.Allowable), carries, strconv.FormatFloat(w.Ratio(), 'f', 2, 64), together, word})
	}
	t.bold = func(row, col int) bool { return bad[row] && col == len(t.cols)-1 }
	phrase := []string{"Source: NDS, chapter 12, withdrawal in side grain, with the factors of the basis of design; shear from the fastener’s report or by the yield limits of the NDS. Together: the two shares added up. Prying and uneven pull are in the test and not in it. Whose the demand is: see the basis of design."}
	if n := b.l.OnPacking(); n > 0 {
		phrase = append(phrase, fmt.Sprintf("NOT CHECKED: the shear of the screws of %d chairs, which pass through packing before they reach the wood; no formula here knows of it.", n))
	}
	return []block{t, list{items: phrase, plain: true}}
}

// nailerTable is the anchorage of the nailers by run and zone.
func (b *book) nailerTable() []block {
	rows := b.l.Nailers()
	if len(rows) == 0 {
		return nil
	}
	t := table{title: "Anchorage of the nailer, allowable level", cols: []column{{head: "Run"}, {head: "Zone"}, {head: "Anchor, report", flex: true}, {head: "Pull, one", align: drawing.Right}, {head: "Shear, one", align: drawing.Right},
		{head: "Up along the wall", align: drawing.Right}, {head: "Case A, towards the roof", align: drawing.Right}, {head: "Case B, towards the street", align: drawing.Right}, {head: "Governs"}, {head: "Spacing, at most", align: drawing.Right}}}
	unsheared := false
	for _, n := range rows {
		shear := "not stated"
		if n.Sheared {
			shear = b.force(n.Anchor.Shear)
		}
		unsheared = unsheared || !n.Sheared
		row := []string{b.runHead(n.Run), n.Zone.String(), prose(n.Anchor.Anchor) + ", " + orDash(prose(n.Anchor.Report)), b.force(n.Anchor.Pull), shear, b.along(n.Up)}
		for _, c := range n.Cases {
			row = append(row, b.along(c.Front)+" + "+b.along(c.Rear))
		}
		t.rows = append(t.rows, append(row, "case "+n.Governs.Case.String(), b.apart(n)))
	}
	items := []string{"In each case: front leg + rear leg."}
	for _, phrase := range b.l.NailerAssumptions() {
		items = append(items, prose(phrase))
	}
	if unsheared {
		items = append(items, "Where no shear is stated, the push on the legs is NOT in the spacing.")
	}
	return []block{t, list{items: items, plain: true}}
}

// apart letters the spacing of a nailer's anchors, which the job may not state.
func (b *book) apart(n layout.Nailer) string {
	switch {
	case n.Spacing == 0:
		return notStated
	case !n.Stands():
		return b.long(n.Spacing) + ", CLOSER THAN " + b.long(n.Anchor.Least) + ": HOLD"
	}
	return b.long(n.Spacing)
}

const newtonsPerPound = 4.4482216152605

// force letters newtons as pounds or kN.
func (b *book) force(n float64) string {
	if b.metric {
		return strconv.FormatFloat(n/1000, 'f', 2, 64) + " kN"
	}
	return strconv.FormatFloat(n/newtonsPerPound, 'f', 0, 64) + " lb"
}

// along letters newtons a metre as pounds a foot or kN a metre.
func (b *book) along(n float64) string {
	if b.metric {
		return fmt.Sprintf("%.2f kN/m", n/1000)
	}
	return fmt.Sprintf("%.0f lb/ft", n/newtonsPerPound*0.3048)
}

// pullsLine says the greatest pull on one chair of each zone.
func (b *book) pullsLine() (list, bool) {
	most := b.l.GreatestPulls()
	var out []string
	for z := wind.Edge; z <= wind.Corner; z++ {
		if p := most[z]; p.Chair != nil {
			out = append(out, fmt.Sprintf("%s zone: chair %s, %s up; %s towards %s on both legs (case %s), %s out on the front leg alone; over %s of wall", z, p.Chair.Name, b.force(p.Up),
				b.force(p.Across), p.Case.Towards(), p.Case, b.force(p.Out), b.small(p.Tributary)))
		}
	}
	if len(out) == 0 {
		return list{}, false
	}
	out = append(out, "A chair next to an end, a miter or an expansion joint takes all the metal up to it; the spacing of a test counts between chairs.")
	return list{title: "Greatest wind on one chair, allowable level", items: out}, true
}
