package sheets

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
)

// materials is the page of what the coping is made of, how its metal moves and
// what the code asks for.
func (b *book) materials() []page {
	first := page{
		id:    b.id("materials"),
		title: b.say.Say(words.MaterialsTitle),
		kind:  Materials,
		paper: b.runs,
		holds: b.l.Holds(),
		about: b.say.Say(words.MaterialsAbout),
	}
	first.banner = b.holdWords(first.holds)
	blocks := []block{b.materialTable()}
	blocks = append(blocks, b.movement()...)
	if t, ok := b.bending(); ok {
		blocks = append(blocks, t)
	}
	blocks = append(blocks, b.codeTable())
	if t, ok := b.extenderTable(); ok {
		blocks = append(blocks, t)
	}
	return b.pages(first, blocks, across)
}

// density letters a density in both systems, the job's own first.
func (b *book) density(v float64) string {
	kg, lb := fmt.Sprintf("%.0f kg/m³", v), fmt.Sprintf("%.1f lb/ft³", v*0.028316846592/0.45359237)
	if b.metric {
		return kg + " (" + lb + ")"
	}
	return lb + " (" + kg + ")"
}

// materialTable lists what the job states of each part.
func (b *book) materialTable() table {
	s := &b.j.System
	t := table{
		title: b.say.Say(words.MaterialStates),
		cols:  []column{b.col(words.ColPart), b.flex(words.ColMaterial), b.flex(words.ColSizeCondition)},
	}
	add := func(part, material, size string) {
		t.rows = append(t.rows, []string{part, orDash(prose(material)), orDash(size)})
	}
	of := words.In("thickness", b.thick(s.Metal.Thickness))
	thick := b.say.Say(words.MaterialThick, of)
	if s.Metal.Specified > 0 {
		thick = b.say.Say(words.MaterialThickAsked, of, words.In("specified", b.thick(s.Metal.Specified)))
	}
	thick += "; " + prose(s.Metal.Finish) + "; " + b.density(s.Metal.Density)
	add(
		b.say.Say(words.MaterialCap),
		b.say.Say(words.MaterialSystem, words.In("metal", s.Metal.Name), words.In("system", s.Name)),
		thick,
	)
	for _, c := range b.l.ChairSheets() {
		name := b.say.Say(words.MaterialChair)
		if c.Tested != "" {
			name += ", " + prose(c.Tested)
		}
		add(
			name,
			cmp.Or(c.Metal, b.say.Say(words.MaterialMetalNotStated)),
			b.say.Say(
				words.MaterialLongThick, words.In("length", b.exactly(s.Chair.Length)),
				words.In("thickness", b.thick(c.Thickness)),
			),
		)
	}
	add(
		b.say.Say(words.MaterialSplicePlate),
		b.say.Say(words.MaterialAsSystem),
		b.say.Say(
			words.MaterialPlate, words.In("length", b.exactly(s.Splice.Length)),
			words.In("bearing", b.exactly(s.Splice.Bearing)), words.In("tape", b.exactly(s.Splice.Tape)),
		),
	)
	b.boughtMaterials(add)
	b.wallMaterials(add)
	return t
}

// materialRow adds a row: a part, what it is made of, its size.
type materialRow func(part, material, size string)

// boughtMaterials are the fasteners, the membrane and what the build-up is made of.
func (b *book) boughtMaterials(add materialRow) {
	for i := range b.j.Fasteners {
		f := &b.j.Fasteners[i]
		of := f.Metal
		if of == "" {
			of = b.say.Say(words.MaterialAsNamed)
		}
		var ls []string
		for _, l := range f.Lengths {
			ls = append(ls, b.exact(l))
		}
		add(
			b.say.Say(words.MaterialFastener),
			f.Name+"; "+of,
			b.say.Say(
				words.MaterialFastenerSize, words.In("diameter", b.exactly(f.Diameter)),
				words.In("substrate", f.Substrate), words.In("ls", strings.Join(ls, ", ")),
			),
		)
	}
	if m := &b.j.Membrane; m.Name != "" {
		add(
			b.say.Say(words.MaterialMembrane),
			m.Name,
			b.say.Say(words.MaterialMembraneSize, words.In("thickness", b.thick(m.Thickness))),
		)
	}
	p := &b.j.Packing
	var shims []string
	for _, x := range p.Shims {
		shims = append(shims, b.exact(x))
	}
	packing := b.say.Say(words.MaterialShims, words.In("shims", strings.Join(shims, ", ")))
	if p.Method == job.PackContinuous && p.Layer > 0 {
		packing = b.say.Say(words.MaterialLayers, words.In("layer", b.exactly(p.Layer)), words.In("packing", packing))
	}
	add(
		b.say.Say(words.MaterialPacking),
		orDash(p.LayerName),
		b.say.Say(
			words.MaterialPackingRange, words.In("packing", packing), words.In("least", b.exactly(p.Least)),
			words.In("most", b.exactly(p.Most)),
		),
	)
}

// wallMaterials are the layers of the walls, the uppermost first.
func (b *book) wallMaterials(add materialRow) {
	for i := range b.j.Walls {
		w := &b.j.Walls[i]
		for k, y := range w.Layers {
			phrase := b.say.Say(words.MaterialThick, words.In("thickness", b.exactly(y.Thickness)))
			if y.Material == job.Wood || y.Material == job.Plywood {
				phrase += "; " + b.woodWords(y)
			}
			if k == 0 && w.Nailer != nil {
				phrase += "; " + b.say.Say(words.MaterialAnchoredBy, words.In("anchor", prose(w.Nailer.Anchor)))
			}
			add(
				b.say.Say(words.MaterialWallLayer, words.In("name", prose(w.Name)), words.In("n", itoa(k+1))),
				y.Name+" ("+y.Material+")",
				phrase,
			)
		}
	}
}

// woodWords say what the job says of a layer of wood.
func (b *book) woodWords(y job.Layer) string {
	of := []string{b.say.Say(words.MaterialGravityUnstated)}
	if y.Gravity > 0 {
		of[0] = b.say.Say(words.MaterialGravity, words.In("gravity", strconv.FormatFloat(y.Gravity, 'g', -1, 64)))
	}
	switch {
	case y.Wet:
		of = append(of, b.say.Say(words.MaterialWet))
	case y.Service:
		of = append(of, b.say.Say(words.MaterialDry))
	}
	if y.Treated {
		of = append(of, b.say.Say(words.MaterialTreated))
	}
	return strings.Join(of, ", ")
}

// degrees are whole, and nought has no sign.
func degrees(t float64) string {
	if s := strconv.FormatFloat(t, 'f', 0, 64); s != "-0" {
		return s
	}
	return "0"
}

// perDegree letters a coefficient of expansion in both scales.
func (b *book) perDegree(v int64) string {
	c, f := strconv.FormatFloat(float64(v)/1000, 'f', 2, 64), strconv.FormatFloat(float64(v)/1800, 'f', 2, 64)
	return b.say.Say(words.MaterialExpansion, words.In("celsius", c), words.In("fahrenheit", f))
}

// movement letters what the joints do over the year.
func (b *book) movement() []block {
	s := &b.j.System
	m := b.l.Movement()
	j := &s.Joint
	printed := b.say.Say(words.MaterialExpansionNone)
	if e, ok := b.l.PrintedExpansion(); ok {
		printed = b.span(b.perDegree(e.Least), b.perDegree(e.Most)) + "\n" + prose(e.Source)
		if e.Memory {
			printed += " " + b.say.Say(words.MaterialFromMemory)
		}
	}
	limit := b.say.Say(words.MaterialLimitCold)
	if m.ByHeat {
		limit = b.say.Say(words.MaterialLimitHeat)
	}
	fits := b.say.Say(words.MaterialWithinIt)
	if !m.Fits {
		fits = b.say.Say(words.MaterialTooLong)
	}
	rows := [][]string{
		{
			b.say.Say(words.MaterialCoefficientUsed),
			b.say.Say(words.MaterialStatedJob, words.In("expansion", b.perDegree(s.Metal.Expansion))),
		},
		{b.say.Say(words.MaterialPrintedThisMetal), printed},
		{
			b.say.Say(words.MaterialMetalTemperature),
			b.say.Say(
				words.MaterialTemperatures, words.In("coldest", b.temperature(j.Coldest)),
				words.In("hottest", b.temperature(j.Hottest)), words.In("reference", b.temperature(j.Reference)),
			),
		},
		{b.say.Say(words.MaterialGapSet), b.say.Say(words.MaterialGapFormula)},
		{"L", b.say.Say(words.MaterialMeanLength)},
		{
			b.say.Say(words.MaterialNominalGap),
			b.say.Say(
				words.MaterialGapLimits, words.In("gap", b.shopText(j.Gap)),
				words.In("least-gap", b.shopText(j.LeastGap)), words.In("seal", b.shopText(m.Seal)),
			),
		},
		{
			b.say.Say(words.MaterialChange10C),
			b.say.Say(
				words.MaterialStockLengths, words.In("per-ten", b.exactly(m.PerTen)),
				words.In("stock", b.text(s.Stock)),
			),
		},
		{
			b.say.Say(words.MaterialLongestBetweenFixed),
			b.say.Say(words.MaterialLongest, words.In("longest", b.text(m.Longest)), words.In("limit", limit)),
		},
		{b.say.Say(words.MaterialLongestSystemCan), b.text(m.Longer) + ", " + fits},
	}
	if m.Small {
		rows = append(rows, []string{
			b.say.Say(words.MaterialNominalGapSet),
			b.say.Say(words.MaterialColdUnder, words.In("under", b.temperature(m.Under))),
		})
		if m.Shut {
			rows = append(
				rows,
				[]string{"", b.say.Say(words.MaterialColdCloses, words.In("closes", b.temperature(m.Closes)))},
			)
		}
	}
	rows = append(rows, b.movementFindings()...)
	t := facts(b.say.Say(words.MaterialMetalMovement), rows)
	t.whole = false
	if g, ok := b.gapsByTen(); ok {
		return []block{pair{t, g}}
	}
	return []block{t}
}

// movementFindings are what the findings say of joints and of how metal moves.
func (b *book) movementFindings() [][]string {
	var rows [][]string
	for _, f := range b.l.Findings {
		switch f.Code {
		case "stock-moves", "expansion-differs", "joint-closes", "joint-opens", "movement-not-stated":
			word := b.say.Say(words.MaterialNote)
			if f.Severity == finding.Hold {
				word = b.say.Say(words.MaterialHold)
			}
			rows = append(rows, []string{word, prose(f.What)})
		}
	}
	return rows
}

// inches letters a figure that is printed in inches, in the job's units first.
func (b *book) inches(in float64) string {
	return b.j.Units.InUnits(fmt.Sprintf("%.3f in (%.2f mm)", in, in*25.4))
}

// bending letters the shop's bending data beside what is printed.
func (b *book) bending() (table, bool) {
	if b.j.Shop == nil {
		return table{}, false
	}
	k := b.say.Say(words.MaterialNoneFound)
	if n, ok := b.l.NeutralPrinted(); ok {
		k = b.say.Say(
			words.MaterialNeutral,
			words.In("range", b.span(fmt.Sprintf("%.3f", n.Least), fmt.Sprintf("%.3f", n.Most))),
			words.In("metal", n.Family.String()),
			words.In("thickness", b.inches(n.Thickness)),
			words.In("source", prose(n.Source)),
		)
		if n.Memory {
			k += " " + b.say.Say(words.MaterialFromMemory)
		}
	}
	r := b.say.Say(words.MaterialNoneFoundTemper)
	if x, ok := b.l.TightestPrinted(); ok {
		r = b.say.Say(
			words.MaterialNearThick, words.In("radius", b.inches(x.Radius)),
			words.In("thickness", b.inches(x.Thickness)), words.In("source", prose(x.Source)),
		)
		if x.Secondary {
			r += " " + b.say.Say(words.MaterialUnsure)
		}
	}
	return table{
		title: b.say.Say(words.MaterialBending),
		cols:  []column{b.flex(words.ColWhat), b.flex(words.ColUsed), b.flex(words.ColPrinted)},
		rows: [][]string{
			{b.say.Say(words.MaterialNeutralWhat), trimFloat(b.j.Shop.K) + "\n" + prose(b.j.Shop.KSource), k},
			{
				b.say.Say(words.MaterialRadius),
				b.say.Say(
					words.MaterialRadiusUsed, words.In("inside-r", b.exactly(b.j.System.Profile.InsideR)),
					words.In("least-radius", b.exactly(b.j.Shop.LeastRadius)),
				),
				r,
			},
		},
	}, true
}

// gapsByTen is the gap to set for each ten degrees of the metal.
func (b *book) gapsByTen() (table, bool) {
	g := b.l.GapsByTen(b.l.Grid / 2)
	if len(g.Means) == 0 {
		return table{}, false
	}
	t := table{title: b.say.Say(words.MaterialGaps), cols: []column{b.col(words.ColMetalAt)}}
	names := []words.Key{words.MaterialMeanShortest, words.MaterialMeanLongest}
	if len(g.Means) == 1 {
		names[0] = words.MaterialMean
	}
	for i, m := range g.Means {
		t.cols = append(
			t.cols, column{head: b.say.Say(names[i], words.In("length", b.shopLong(m))), align: drawing.Right},
		)
	}
	t.cols = append(t.cols, b.col(words.ColCheck))
	st := b.shop
	var over []bool
	for _, x := range g.Steps {
		row := []string{b.temperature(x.At)}
		bad := false
		for i, gap := range x.Gaps {
			row = append(row, drawing.Letter(st.Short(gap)))
			bad = bad || x.Over[i]
		}
		word := b.say.Say(words.MaterialWithinLimits)
		if bad {
			word = b.say.Say(words.MaterialOutsideHold)
		}
		over = append(over, bad)
		t.rows = append(t.rows, append(row, word))
	}
	t.bold = func(row, _ int) bool { return over[row] }
	return t, true
}

// codeTable letters the checks that need no judgement.
func (b *book) codeTable() table {
	t := table{
		title: b.say.Say(words.MaterialCodeChecks),
		cols: []column{
			b.flex(words.ColWhat), b.flex(words.ColAsked), b.flex(words.ColThisJob), b.flex(words.ColBy),
			b.col(words.ColResult),
		},
	}
	var bad []bool
	for _, c := range b.l.CodeChecks() {
		word := b.say.Say(words.MaterialPass)
		if !c.Passes {
			word = b.say.Say(words.MaterialSeeFindings)
		}
		bad = append(bad, !c.Passes)
		t.rows = append(t.rows, []string{prose(c.What), prose(c.Asked), prose(c.Has), prose(c.Source), word})
	}
	if slices.ContainsFunc(b.l.ChairSheets(), func(c layout.ChairSheet) bool { return c.Metal == "" }) {
		bad = append(bad, true)
		t.rows = append(t.rows, []string{
			b.say.Say(words.MaterialPairs), b.say.Say(words.MaterialPairsAsked),
			b.say.Say(words.MaterialPairsUnknown), b.say.Say(words.MaterialTablePairs),
			b.say.Say(words.MaterialNotChecked),
		})
	}
	t.bold = func(row, col int) bool { return bad[row] && col == 4 }
	return t
}

// extenderTable schedules the pieces below a leg taller than anything tested.
func (b *book) extenderTable() (table, bool) {
	t := table{
		title: b.say.Say(words.MaterialExtenders),
		cols: []column{
			b.col(words.ColRun), b.col(words.ColFace), b.right(words.ColLegWouldCover),
			b.right(words.ColTestedUp), b.right(words.ColHeightExtenderLapIncluded), b.right(words.ColAlongRun),
			b.col(words.ColStanding),
		},
	}
	for _, e := range b.l.Extenders() {
		face := b.say.Say(words.MaterialStreet)
		if e.Face == job.Rear {
			face = b.say.Say(words.MaterialRoof)
		}
		t.rows = append(t.rows, []string{
			b.runHead(e.Run), face,
			b.say.Say(words.MaterialTo, words.In("leg", b.long(e.Leg)), words.In("to", b.measureName(e.To))),
			b.say.Say(words.MaterialTo, words.In("leg", b.long(e.Tested)), words.In("to", b.measureName(e.To))),
			b.long(e.Height), b.long(e.Along), b.say.Say(words.MaterialHold),
		})
	}
	t.bold = func(_, col int) bool { return col == 6 }
	return t, len(t.rows) > 0
}
