package sheets

import (
	"slices"
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wind"
)

// toConfirm stands large wherever computed pressures nobody has confirmed are
// lettered.
const toConfirm = "COMPUTED PRESSURES, TO BE CONFIRMED BY A LICENSED ENGINEER"

// basis is the page on which the pressures can be followed from the first
// input to the last result, by hand.
func (b *book) basis() []page {
	first := page{id: b.id("basis"), title: "Basis of design: wind pressures", kind: Basis, paper: b.runs, holds: b.l.Holds(),
		about: "Every input, formula, intermediate and source of the design pressures, in order, with the level of each."}
	first.banner = b.holdWords(first.holds)
	d := &b.l.Demand
	var blocks []block
	if n, ok := b.standing(); ok {
		blocks = append(blocks, n)
	}
	blocks = append(blocks, b.checkCode()...)
	blocks = append(blocks, b.demandTable())
	switch {
	case len(d.Basis) == 0:
	case d.Stated:
		blocks = append(blocks, b.stepTable("The stated pressures and their conversion", d.Basis))
	default:
		t := b.stepTable("How the computed pressures follow, in order; the named lines are what a confirmation is over", d.Basis)
		blocks = append(blocks, b.named(t, d.Basis), b.confirmedZones())
	}
	if d.Check != nil {
		blocks = append(blocks, b.besideTable(), b.stepTable("How the pressures computed beside them follow, in order", d.Check.Basis))
	}
	// The others differ by their thread alone, which the schedule letters.
	rows := b.l.Withdrawals()
	of := func(w layout.Withdrawal) string {
		return w.Fastener.Name + " of " + w.Pull.Chair.Name + " in " + w.Layer.Name
	}
	if len(rows) > 0 {
		title := "Withdrawal cross-check, " + of(rows[0]) + ": beside the test, never in its place"
		blocks = append(blocks, b.stepTable(title, rows[0].One.Steps))
	}
	if i := slices.IndexFunc(rows, func(w layout.Withdrawal) bool { return len(w.Across) > 0 }); i >= 0 {
		blocks = append(blocks, b.stepTable("Shear cross-check, "+of(rows[i]), rows[i].Across))
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
		return b.large(toConfirm, true), true
	case d.Computed:
		return b.large("COMPUTED PRESSURES, CONFIRMED BY "+b.confirmedBy(), false), true
	case d.Stated:
		return b.large("PRESSURES STATED BY "+prose(d.By)+", "+prose(d.Document), false), true
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
	return phrase + ", by check code " + c.Code.String()
}

// checkCode letters the code that a confirmation repeats, and what it is over;
// nothing where no pressures are computed.
func (b *book) checkCode() []block {
	d := &b.l.Demand
	if !d.Computed {
		return nil
	}
	phrase := "A confirmation of these pressures repeats the check code. The code is over " + plural(len(d.List), "line") +
		": the named lines of the basis below, each with its value as printed, and where the corner zones of each run lie. " +
		"When any of them changes the code does, the confirmation is void, and the findings say what changed. The same lines are in the file confirm.txt of the packet."
	said := list{items: []string{phrase}, plain: true}
	if d.Confirmed != nil { // the words above it have the code
		return []block{said}
	}
	return []block{b.large("CHECK CODE "+d.List.Code().String(), false), said}
}

// named puts before the values of a basis the name that each line has in the list
// that a confirmation is over.
func (b *book) named(t table, steps []wind.Step) table {
	const at = 4 // before the value
	bold := t.bold
	t.cols = slices.Insert(slices.Clone(t.cols), at, column{head: "Name in the list", flex: true})
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
	t := table{title: "Zones that a confirmation is over; names in the list begin with zone, perimeter and run", whole: true, cols: []column{{head: "Perimeter, run", flex: true},
		{head: "corner-left", align: drawing.Right}, {head: "corner-right", align: drawing.Right}, {head: "wall, rounded", align: drawing.Right}}}
	for _, r := range b.l.Runs() {
		row := []string{prose(r.Perimeter.Job.Name + ", " + r.Name)}
		for _, what := range []string{"corner-left", "corner-right", "wall"} {
			row = append(row, prose(b.l.Demand.ZoneLine(r.Perimeter.Job.Name, r.Name, what)))
		}
		t.rows = append(t.rows, row)
	}
	return t
}

// large is a line of large words in a box; what is not settled stands in the
// frame of a hold.
func (b *book) large(phrase string, hold bool) whole {
	const high drawing.Unit = 1300
	return fixed(high, func(s *drawing.Scene, r drawing.Rect) {
		if hold {
			s.Group(drawing.Holds, "", func(g *drawing.Scene) { g.Draw(drawing.HoldBanner{Box: r, Words: phrase}.Figure()) })
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
				g.Text(drawing.Pt(r.Centre().X, y), line, drawing.Style{Size: z, Face: drawing.Bold, Align: drawing.Middle})
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
		return "computed; to be confirmed by a licensed engineer", "none yet"
	case d.Computed:
		return "computed; confirmed by " + prose(d.Confirmed.By) + " " + date(d.Confirmed.On), prose(d.Confirmed.Document)
	}
	return "stated by " + prose(d.By), prose(d.Document)
}

// demandTable letters the pressures as stated or computed, with their level,
// and beside them what the assemblies are compared with.
func (b *book) demandTable() block {
	d := &b.l.Demand
	if !d.Known() {
		return list{title: "Design pressures", items: []string{"NOT STATED. They are to be stated by the engineer of record; until then every piece that depends on them is on hold."}, plain: true}
	}
	t := table{title: "Design pressures on the coping", cols: []column{{head: "Zone"}, {head: "Face"}, {head: "Pressure", align: drawing.Right}, {head: "Level"},
		{head: "Pressure at allowable level", align: drawing.Right}, {head: "Reaches", flex: true}, {head: "Who answers for it", flex: true}, {head: "Document", flex: true}, {head: "Edition"}}}
	zones := [...]string{"edge", "corner"}
	reach := [...]string{"the rest of the wall", b.text(d.CornerLength) + " along the wall from " + d.CornersBegin()}
	who, document := b.answers()
	for z := range zones {
		rows := []struct {
			face string
			p    job.Pressure
		}{{"top, up", d.Up[z]}, {"front leg, out", d.Out[z]}}
		if d.RearKnown() {
			rows = append(rows, struct {
				face string
				p    job.Pressure
			}{"rear leg, to the roof", d.Rear[z]})
		}
		for _, q := range rows {
			t.rows = append(t.rows, []string{zones[z], q.face, b.pressure(q.p.Pa), level(q.p.Level), b.pressure(wind.AllowablePa(q.p)), reach[z], who, document, prose(d.Edition)})
		}
	}
	if d.ToConfirm() {
		t.bold = func(_, col int) bool { return col == 6 }
	}
	return t
}

// zoneLengths letters the zones along each run from its left corner.
func (b *book) zoneLengths() block {
	t := table{title: "Zones along each run, from its left end; corner zones begin at " + b.l.Demand.CornersBegin() + " alone", cols: []column{{head: "Run"}, {head: "Wall line", align: drawing.Right},
		{head: "Corner zone at the left", align: drawing.Right}, {head: "Edge zone", align: drawing.Right}, {head: "Corner zone at the right", align: drawing.Right}}, whole: true}
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
				parts = [3]string{phrase + " all", "none", "–"}
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
	t := table{title: "Stated against computed, at the allowable level: the stated ones stand", cols: []column{{head: "Zone"}, {head: "Face"},
		{head: "Stated", align: drawing.Right}, {head: "Computed", align: drawing.Right}, {head: "Stated / computed", align: drawing.Right}, {head: "Remark", flex: true}}, whole: true}
	var less []bool
	row := func(zone, face string, s, k job.Pressure) {
		a, q := wind.AllowablePa(s), wind.AllowablePa(k)
		remark, ratio := "not less", "–"
		if q > 0 {
			ratio = strconv.FormatFloat(a/q, 'f', 2, 64)
		}
		if wind.Less(s, k) {
			remark = "LESS THAN COMPUTED: ask the engineer"
		}
		less = append(less, remark != "not less")
		t.rows = append(t.rows, []string{zone, face, b.pressure(a), b.pressure(q), ratio, remark})
	}
	for z := wind.Edge; z <= wind.Corner; z++ {
		row(z.String(), "top, up", d.Up[z], c.Up[z])
		row(z.String(), "front leg, out", d.Out[z], c.Out[z])
		if d.RearKnown() {
			row(z.String(), "rear leg, to the roof", d.Rear[z], c.Rear[z])
		}
	}
	remark := "not shorter"
	if d.CornerShort() {
		remark = "SHORTER THAN COMPUTED: ask the engineer"
	}
	less = append(less, remark != "not shorter")
	t.rows = append(t.rows, []string{"corner", "length along the wall", b.long(d.CornerLength), b.long(c.CornerLength), "–", remark})
	t.bold = func(row, col int) bool { return less[row] && col == 5 }
	return t
}

// longValue is how many letters a value has that is a sentence.
const longValue = 28

// stepTable is a basis of design, a line for each input and result.
func (b *book) stepTable(title string, steps []wind.Step) table {
	t := table{title: prose(title), cols: []column{{head: "No.", align: drawing.Right}, {head: "Sign"}, {head: "What", flex: true}, {head: "Formula", flex: true},
		{head: "Value", align: drawing.Right}, {head: "From", flex: true}, {head: "How sure"}}}
	var memory []bool
	for i, s := range steps {
		sure := string(s.Sure)
		switch s.Sure {
		case wind.Memory:
			sure = "FROM MEMORY"
		case wind.Disputed:
			sure = "SECOND SOURCES DIFFER"
		}
		memory = append(memory, s.Sure == wind.Memory || s.Sure == wind.Disputed)
		what, value := spelled(s.What), spelled(s.Letter())
		if len(value) > longValue { // a sentence reads better beside its subject
			what, value = what+": "+value, "–"
		}
		t.rows = append(t.rows, []string{itoa(i + 1), orDash(spelled(s.Symbol)), what, orDash(spelled(s.Formula)), value, orDash(spelled(b.j.Units.InUnits(s.Source))), sure})
	}
	t.bold = func(row, col int) bool { return memory[row] && col == 6 }
	return t
}

// spelled writes out the Greek letters, which the faces do not have, and the
// powers of units.
func spelled(phrase string) string {
	return prose(strings.NewReplacer("α", "alpha", "θ", "theta", "μ", "mu", "γ", "gamma", " ft2", " ft²", " m2", " m²", " deg", "°").Replace(phrase))
}

// Release is the release of the program, as the basis of design and the command
// line say it. Its first figure is the form of job file that it reads.
const Release = "2.0"

// sources are the files the packet was made from, with the digests by which
// somebody who holds them can tell whether they are the same.
func (b *book) sources() block {
	t := table{title: "What this packet was made from", whole: true,
		cols: []column{{head: "File, from the folder of the job", flex: true}, {head: "What it is"}, {head: "SHA-256, first 12 digits"}}}
	for _, s := range b.l.Job.Sources {
		t.rows = append(t.rows, []string{prose(s.Name), s.Kind, s.Short()})
	}
	if len(b.l.Job.Sources) > 0 {
		t.rows = append(t.rows, []string{"all values of these files, however they are arranged", "input", job.ShortDigest(b.l.Job.Digest())})
	}
	t.rows = append(t.rows, []string{"copingset", "program", "release " + Release})
	return t
}

// basisNotes explain the words of the tables.
func (b *book) basisNotes() list {
	items := []string{
		"Strength level is that of the wind maps of ASCE 7-10 and later. An assembly is compared at the allowable level alone: allowable = 0.6 × strength (ASCE 7, section 2.4, 0.6D + 0.6W). What is stated at the allowable level is taken as it is.",
	}
	d := &b.l.Demand
	if d.Computed || d.Check != nil {
		unit := "0.00256 takes V in mph and gives psf."
		if b.metric {
			unit = "0.613 takes V in m/s and gives Pa, lettered in kPa."
		}
		items = append(items,
			"Method: components and cladding. The top of the coping takes the roof zone beside it, the front leg the wall zone, the rear leg the roof zone again, all with the velocity pressure at the top of the parapet. A minus sign of GCp is suction; pressures are lettered without sign, away from the coping unless the line says inward.",
			"“Read in a second source”: the standard itself was not at hand when the figure was built in; a number of a clause that nobody read says so beside it. “FROM MEMORY”: something in the line, value or convention, has not been looked up; whoever confirms these pressures checks it first. “SECOND SOURCES DIFFER”: texts that report the standard disagree, and the line says which is taken. What memory was not sure of is not built in.",
			"Values are carried unrounded from line to line and lettered rounded; |GCp| is GCp without its sign. "+unit+" Pressures that do not say allowable are at strength level, the velocity pressure too.")
	}
	return list{title: "How to read this", items: items}
}
