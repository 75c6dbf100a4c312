package sheets

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wind"
)

// basis is the page on which the pressures can be followed from the first
// input to the last result, by hand.
func (b *book) basis() []page {
	first := page{id: b.id("basis"), title: b.say.Say(words.BasisTitle), kind: Basis, paper: b.runs, holds: b.l.Holds(),
		about: b.say.Say(words.BasisAbout)}
	first.banner = b.holdWords(first.holds)
	d := &b.l.Demand
	var blocks []block
	if n, ok := b.standing(); ok {
		blocks = append(blocks, n)
	}
	blocks = append(blocks, b.checkCode()...)
	blocks = append(blocks, namedBlock(b.demandTable(), b.demandNames()))
	switch {
	case len(d.Basis) == 0:
	case d.Stated:
		blocks = append(blocks, b.stepTable(b.say.Say(words.BasisStated), d.Basis).naming(stepNames("wind", d.Basis)))
	default:
		t := b.stepTable(b.say.Say(words.BasisComputed), d.Basis)
		blocks = append(blocks, b.named(t, d.Basis).naming(signedNames(d.Basis)), b.confirmedZones())
	}
	if d.Check != nil {
		blocks = append(blocks, b.besideTable().naming(b.besideNames()),
			b.stepTable(b.say.Say(words.BasisBesideHow), d.Check.Basis).naming(stepNames("wind beside", d.Check.Basis)))
	}
	// The others differ by their thread alone, which the schedule letters.
	rows := b.l.Withdrawals()
	of := func(w layout.Withdrawal) string {
		return b.say.Say(
			words.BasisScrewIn, words.In("fastener", w.Fastener.Name), words.In("chair", w.Pull.Chair.Name),
			words.In("layer", w.Layer.Name),
		)
	}
	if len(rows) > 0 {
		title := b.say.Say(words.BasisWithdrawal, words.In("screw", of(rows[0])))
		blocks = append(blocks, b.stepTable(title, rows[0].One.Steps).naming(stepNames("withdrawal 1",
			rows[0].One.Steps)))
	}
	if i := slices.IndexFunc(rows, func(w layout.Withdrawal) bool { return len(w.Across) > 0 }); i >= 0 {
		blocks = append(
			blocks, b.stepTable(b.say.Say(words.BasisShear, words.In("screw", of(rows[i]))), rows[i].Across).
				naming(stepNames(fmt.Sprintf("shear %d", i+1), rows[i].Across)),
		)
	}
	if len(blocks) > 1 {
		blocks = append(blocks, b.basisNotes())
	}
	blocks = append(blocks, b.sources())
	return b.pages(first, blocks, across)
}

// standing says in large letters whose the pressures are.
func (b *book) standing() (block, bool) {
	d := &b.l.Demand
	switch {
	case d.ToConfirm():
		return b.large(b.say.Say(words.BasisToConfirm), true, ""), true
	case d.Computed:
		return b.large(b.say.Say(words.BasisConfirmed, words.In("confirmed-by", b.confirmedBy())), false,
			confirmedFacts(d)), true
	case d.Stated:
		return b.large(
			b.say.Say(words.BasisStatedByLarge, words.In("by", prose(d.By)), words.In("document", prose(d.Document))),
			false, statedFacts(d),
		), true
	}
	return nil, false
}

// confirmedBy names the engineer, the document and its date.
func (b *book) confirmedBy() string {
	c := b.l.Demand.Confirmed
	phrase := prose(c.By)
	if c.Document != "" {
		phrase += ", " + prose(c.Document)
	}
	if on := date(c.On); on != "" {
		phrase += ", " + on
	}
	return b.say.Say(words.BasisConfirmedBy, words.In("by", phrase), words.In("code", c.Code.String()))
}

// checkCode letters the code that a confirmation repeats, and what it is over;
// nothing where no pressures are computed.
func (b *book) checkCode() []block {
	d := &b.l.Demand
	if !d.Computed {
		return nil
	}
	n := len(d.List)
	said := list{items: []string{b.say.Count(words.BasisConfirmation, n, words.In("n", itoa(n)))}, plain: true,
		names: []string{layout.Named("wind", "confirmed-lines")}}
	if d.Confirmed != nil { // the words above it have the code
		return []block{said}
	}
	return []block{b.large(b.say.Say(words.BasisCheckCode, words.In("code", d.List.Code().String())), false,
		layout.Named("wind", "check-code")), said}
}

// named puts before the values of a basis the name that each line has in the list
// that a confirmation is over.
func (b *book) named(t table, steps []wind.Step) table {
	const at = 4 // before the value
	bold := t.bold
	t.cols = slices.Insert(slices.Clone(t.cols), at, b.flex(words.ColNameList))
	for i, s := range steps {
		name := s.Fact
		if s.Said != "" { // a sentence on the sheet, a word in the list
			name += " = " + s.Said
		}
		t.rows[i] = slices.Insert(t.rows[i], at, orDash(prose(name)))
	}
	t.bold = func(row, col int) bool { return col > at && bold(row, col-1) || col < at && bold(row, col) }
	return t
}

// confirmedZones are the lines of the list that say where the zones lie.
func (b *book) confirmedZones() table {
	t := table{
		title: b.say.Say(words.BasisZonesList),
		whole: true,
		cols: []column{
			b.flex(words.ColPerimeterRun), b.right(words.ColCornerLeft), b.right(words.ColCornerRight),
			b.right(words.ColWallRounded),
		},
	}
	for _, r := range b.l.Runs() {
		row := []string{prose(r.Perimeter.Job.Name + ", " + r.Name)}
		for _, what := range []string{"corner-left", "corner-right", "wall"} {
			row = append(row, prose(b.l.Demand.ZoneLine(r.Perimeter.Job.Name, r.Name, what)))
		}
		t.rows = append(t.rows, row)
		t.names = append(t.names, zoneLineNames(r))
	}
	return t
}

// large is a line of large words in a box, with the names of the facts that it
// letters; what is not settled stands in the frame of a hold.
func (b *book) large(phrase string, hold bool, names string) whole {
	const high drawing.Unit = 1300
	return fixed(high, func(s *drawing.Scene, r drawing.Rect) {
		if hold {
			s.Group(
				drawing.Holds,
				"",
				func(g *drawing.Scene) { g.Draw(drawing.HoldBanner{Box: r, Words: phrase}.Figure()) },
			)
			return
		}
		s.Group(drawing.Tables, "", func(g *drawing.Scene) {
			g.Rect(drawing.Medium, r)
			z := drawing.Title
			for z > drawing.Note && drawing.Width(drawing.Bold, phrase, z) > r.Width()-600 {
				z -= 10
			}
			lines := drawing.Wrap(phrase, drawing.Bold, z, r.Width()-600)
			if len(lines) > 2 {
				lines = append(lines[:1:1], shorten(strings.Join(lines[1:], " "), drawing.Bold, z, r.Width()-600))
			}
			y := r.Centre().Y + drawing.Unit(z)/2 - drawing.Unit(len(lines)-1)*z.Line()/2
			for _, line := range lines {
				g.Text(
					drawing.Pt(r.Centre().X, y),
					line,
					drawing.Style{Size: z, Face: drawing.Bold, Align: drawing.Middle, Fact: names},
				)
				y += z.Line()
			}
		})
	})
}

// answers says who stands behind the pressures.
func (b *book) answers() (who, document string) {
	d := &b.l.Demand
	switch {
	case d.ToConfirm():
		return b.say.Say(words.BasisUnconfirmed), b.say.Say(words.BasisNoneYet)
	case d.Computed:
		return b.say.Say(
			words.BasisComputedConfirmed, words.In("by", prose(d.Confirmed.By)),
			words.In("on", date(d.Confirmed.On)),
		), prose(d.Confirmed.Document)
	}
	return b.say.Say(words.BasisStatedBy, words.In("by", prose(d.By))), prose(d.Document)
}

// demandTable letters the pressures as stated or computed, with their level,
// and beside them what the assemblies are compared with.
func (b *book) demandTable() block {
	d := &b.l.Demand
	if !d.Known() {
		return list{
			title: b.say.Say(words.BasisDesignPressures),
			items: []string{b.say.Say(words.BasisUnstated)},
			plain: true,
		}
	}
	t := table{
		title: b.say.Say(words.BasisPressures),
		cols: []column{
			b.col(words.ColZone), b.col(words.ColFace), b.right(words.ColPressure), b.col(words.ColLevel),
			b.right(words.ColPressureAllowableLevel), b.flex(words.ColReaches), b.flex(words.ColWhoAnswers),
			b.flex(words.ColDocument), b.col(words.ColEdition),
		},
	}
	zones := [...]string{b.say.Say(words.BasisEdge), b.say.Say(words.BasisCorner)}
	reach := [...]string{
		b.say.Say(words.BasisRestWall),
		b.say.Say(
			words.BasisAlongWall, words.In("corner-length", b.text(d.CornerLength)),
			words.In("corners-begin", d.CornersBegin()),
		),
	}
	who, document := b.answers()
	for z := range zones {
		rows := []struct {
			face string
			p    job.Pressure
		}{{b.say.Say(words.BasisTopUp), d.Up[z]}, {b.say.Say(words.BasisFrontLegOut), d.Out[z]}}
		if d.RearKnown() {
			rows = append(rows, struct {
				face string
				p    job.Pressure
			}{b.say.Say(words.BasisRearLegRoof), d.Rear[z]})
		}
		for _, q := range rows {
			t.rows = append(t.rows, []string{
				zones[z], q.face, b.pressure(q.p.Pa), b.level(q.p.Level), b.pressure(wind.AllowablePa(q.p)),
				reach[z], who, document, prose(d.Edition),
			})
		}
	}
	if d.ToConfirm() {
		t.bold = func(_, col int) bool { return col == 6 }
	}
	return t
}

// zoneLengths letters the zones along each run from its left corner.
func (b *book) zoneLengths() block {
	t := table{
		title: b.say.Say(words.BasisZones, words.In("corners-begin", b.l.Demand.CornersBegin())),
		cols: []column{
			b.col(words.ColRun), b.right(words.ColWallLine), b.right(words.ColCornerZoneLeft),
			b.right(words.ColEdgeZone), b.right(words.ColCornerZoneRight),
		},
		whole: true,
	}
	for _, r := range b.l.Runs() {
		parts := [3]string{"–", "–", "–"}
		ends := []length.Length{0}
		for _, z := range r.Zones {
			ends = append(ends, z.To)
		}
		_, printed := length.Chain(ends, b.crew.Step()) // so that the row sums
		for i, z := range r.Zones {
			phrase := b.long(printed[i])
			switch {
			case z.Zone == wind.Edge:
				parts[1] = phrase
			case i == 0 && len(r.Zones) == 1:
				parts = [3]string{
					b.say.Say(words.BasisAll, words.In("length", phrase)),
					b.say.Say(words.BasisNone),
					"–",
				}
			case i == 0:
				parts[0] = phrase
			default:
				parts[2] = phrase
			}
		}
		t.rows = append(t.rows, []string{b.runHead(r), b.long(r.Front), parts[0], parts[1], parts[2]})
	}
	return t
}

// besideTable compares stated pressures with computed ones.
func (b *book) besideTable() table {
	d, c := &b.l.Demand, b.l.Demand.Check
	t := table{
		title: b.say.Say(words.BasisBeside),
		cols: []column{
			b.col(words.ColZone), b.col(words.ColFace), b.right(words.ColStated), b.right(words.ColComputed),
			b.right(words.ColStatedComputed), b.flex(words.ColRemark),
		},
		whole: true,
	}
	var less []bool
	row := func(zone, face string, s, k job.Pressure) {
		a, q := wind.AllowablePa(s), wind.AllowablePa(k)
		remark, ratio := b.say.Say(words.BasisNotLess), "–"
		if q > 0 {
			ratio = strconv.FormatFloat(a/q, 'f', 2, 64)
		}
		if wind.Less(s, k) {
			remark = b.say.Say(words.BasisLessThanComputed)
		}
		less = append(less, wind.Less(s, k))
		t.rows = append(t.rows, []string{zone, face, b.pressure(a), b.pressure(q), ratio, remark})
	}
	for z := wind.Edge; z <= wind.Corner; z++ {
		row(b.zoneName(z), b.say.Say(words.BasisTopUp), d.Up[z], c.Up[z])
		row(b.zoneName(z), b.say.Say(words.BasisFrontLegOut), d.Out[z], c.Out[z])
		if d.RearKnown() {
			row(b.zoneName(z), b.say.Say(words.BasisRearLegRoof), d.Rear[z], c.Rear[z])
		}
	}
	remark := b.say.Say(words.BasisNotShorter)
	if d.CornerShort() {
		remark = b.say.Say(words.BasisShorterThanComputed)
	}
	less = append(less, d.CornerShort())
	t.rows = append(t.rows, []string{
		b.say.Say(words.BasisCorner), b.say.Say(words.BasisLengthAlongWall), b.long(d.CornerLength),
		b.long(c.CornerLength), "–", remark,
	})
	t.bold = func(row, col int) bool { return less[row] && col == 5 }
	return t
}

// longValue is how many letters a value has that is a sentence.
const longValue = 28

// stepTable is a basis of design, a line for each input and result.
func (b *book) stepTable(title string, steps []wind.Step) table {
	t := table{
		title: prose(title),
		cols: []column{
			b.right(words.ColNo), b.col(words.ColSign), b.flex(words.ColWhat), b.flex(words.ColFormula),
			b.right(words.ColValue), b.flex(words.ColFrom), b.col(words.ColHowSure),
		},
	}
	var memory []bool
	for i, s := range steps {
		sure := string(s.Sure)
		switch s.Sure {
		case wind.Memory:
			sure = b.say.Say(words.BasisFromMemory)
		case wind.Disputed:
			sure = b.say.Say(words.BasisSecondSourcesDiffer)
		}
		memory = append(memory, s.Sure == wind.Memory || s.Sure == wind.Disputed)
		what, value := spelled(s.What), spelled(s.Letter())
		if len(value) > longValue { // a sentence reads better beside its subject
			what, value = what+": "+value, "–"
		}
		t.rows = append(t.rows, []string{
			itoa(i + 1), orDash(spelled(s.Symbol)), what, orDash(spelled(s.Formula)), value,
			orDash(spelled(b.j.Units.InUnits(s.Source))), sure,
		})
	}
	t.bold = func(row, col int) bool { return memory[row] && col == 6 }
	return t
}

// spelled writes out the Greek letters, which the faces do not have, and the
// powers of units.
func spelled(phrase string) string {
	return prose(
		strings.NewReplacer("α", "alpha", "θ", "theta", "μ", "mu", "γ", "gamma",
			" ft2", " ft²", " m2", " m²", " deg",
			"°").
			Replace(phrase),
	)
}

// Release is the release of the program, as the basis of design and the command
// line say it. Its first figure is the form of job file that it reads.
const Release = "2.0"

// sources are the files the packet was made from, with the digests by which
// somebody who holds them can tell whether they are the same.
func (b *book) sources() block {
	t := table{
		title: b.say.Say(words.BasisSources),
		whole: true,
		cols:  []column{b.flex(words.ColFileFolderJob), b.col(words.ColWhat2), b.col(words.ColSha256First12)},
	}
	for i, s := range b.l.Job.Sources {
		n := fmt.Sprintf("source-%d", i+1)
		is := func(what string) string { return layout.Named("job", n+what) }
		t.add(lettered{prose(s.Name), is("")}, lettered{s.Kind, is("-kind")}, lettered{s.Short(), is("-digest")})
	}
	if len(b.l.Job.Sources) > 0 {
		t.add(
			lettered{words: b.say.Say(words.BasisAllValues)},
			lettered{words: b.say.Say(words.BasisInput)},
			lettered{job.ShortDigest(b.l.Job.Digest()), layout.Named("job", "input-digest")},
		)
	}
	t.rows = append(t.rows, []string{
		b.say.Say(words.BasisCopingset), b.say.Say(words.BasisProgram),
		b.say.Say(words.BasisRelease, words.In("release", Release)),
	})
	return t
}

// basisNotes explain the words of the tables.
func (b *book) basisNotes() list {
	items := []string{b.say.Say(words.BasisReadStrength)}
	d := &b.l.Demand
	if d.Computed || d.Check != nil {
		unit := b.say.Say(words.BasisPsf)
		if b.metric {
			unit = b.say.Say(words.BasisPa)
		}
		items = append(items, unit,
			b.say.Say(words.BasisReadMethod),
			b.say.Say(words.BasisReadSure),
			b.say.Say(words.BasisReadRounding))
	}
	return list{title: b.say.Say(words.BasisRead), items: items}
}
