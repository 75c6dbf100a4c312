package sheets

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// book is what every page is made from.
type book struct {
	l           *layout.Layout
	j           *job.Job
	metric      bool
	crew, shop  length.Style
	runs, lists paper
	reader      Audience
	runPlans    map[*layout.Run]*runValues // look-up only: made when first asked for
	say         words.Book
	beside      *book               // of another language, whose sheets face its own; nil: none
	leads       bool                // its runs share sheets as they do in both
	tongue      string              // what its ids end with where two languages stand beside each other
	digest      string              // of the job's input, once it was asked for
	open        bool                // its shop marks are preliminary: of a book of the ledger alone
	matters     map[string]*matter  // look-up only: what stands on a page, by its id, once it is drawn
	keyPlan     func() plan.KeyPlan // made once, when it is first asked for
	times       view.Exaggeration   // of all strips of runs
	// look-up only: id of the sheet that shows a piece at true shape, by its mark
	where    map[string]string
	stripsOf map[stripKey]stripsMade         // look-up only
	firsts   map[*layout.Run]string          // look-up only: id of the first sheet of each run
	runSets  map[*layout.Perimeter][]stretch // look-up only
	cuts     []layout.SectionDrawing         // once they are asked for
	ids      map[string]bool                 // look-up only: ids already given
	// look-up only: the words of each id, of a continued page its first one's
	subjects map[string][]string
	blanks   map[*layout.Family][]plan.Pattern // look-up only: blanks already worked out
	formed   map[*layout.Family]plan.Formed    // the same of finished pieces
}

func newBook(l *layout.Layout, o Options) *book {
	metric := l.Job.Units == job.Metric
	b := &book{
		l:        l,
		j:        l.Job,
		metric:   metric,
		crew:     length.Crew(metric),
		shop:     length.Shop(metric),
		reader:   o.For,
		say:      o.words(l.Job),
		keyPlan:  sync.OnceValue(l.KeyPlan),
		where:    map[string]string{},
		firsts:   map[*layout.Run]string{},
		runSets:  map[*layout.Perimeter][]stretch{},
		ids:      map[string]bool{},
		subjects: map[string][]string{},
		runPlans: map[*layout.Run]*runValues{},
		matters:  map[string]*matter{},
		blanks:   map[*layout.Family][]plan.Pattern{},
		formed:   map[*layout.Family]plan.Formed{},
	}
	runs, lists := l.Job.Paper.Runs, l.Job.Paper.Lists
	if o.Runs != nil {
		runs = *o.Runs
	}
	if o.Lists != nil {
		lists = *o.Lists
	}
	b.runs, b.lists = landscape(runs), portrait(lists)
	b.say.Outer = outerOf(l.Job.Perimeters)
	b.times = b.runTimes()
	return b
}

// page is a planned sheet: everything is known of it but its number.
type page struct {
	id, title string
	named     string // the facts that the title letters
	kind      Kind
	runs      []string // names of the runs that it is about, where it is about runs
	paper     paper
	on        string // the larger paper that its view needs, by name; empty: the job's own
	scale     string
	holds     finding.List                           // those that touch it
	banner    string                                 // the large words across its top; empty: none
	about     string                                 // for those who cannot see it
	next      string                                 // id of the sheet that continues this one; empty: none
	tongue    string                                 // of the book it is said by
	by        *book                                  // speaks in title block and frame; nil: the packet's
	bare      bool                                   // no frame and no title block: a sheet of labels cut beforehand
	foot      func(s *drawing.Scene, r drawing.Rect) // key plan and legend in the strip; nil: none
	draw      func(s *drawing.Scene, refer func(id string) string)
}

// longestID is how long an id may grow out of names: as a file it has a suffix
// and an extension yet, and 255 bytes are what the usual disks take.
const longestID = 120

// id makes a file-safe id that no other sheet has, in small letters, so that no
// two are one file where capitals do not count.
func (b *book) id(phrase ...string) string {
	of := slices.Clone(phrase)
	if first, ok := b.subjects[phrase[0]]; ok && len(phrase) == 1 {
		of = first
	}
	for i := range phrase {
		phrase[i] = slug(phrase[i])
	}
	base := strings.Join(phrase, "-")
	if len(base) > longestID {
		base = strings.TrimRight(base[:longestID], "-")
	}
	base = strings.TrimSuffix(base, b.tongue) + b.tongue
	id := base
	for n := 2; b.ids[id]; n++ {
		id = fmt.Sprintf("%s-%d", base, n)
	}
	b.ids[id], b.subjects[id] = true, of
	return id
}

// plan lists the pages in the order of the packet.
func (b *book) plan() []page {
	rest := b.rest()
	b.drawAhead(rest)
	front := b.front()
	return slices.Concat(front, b.sheetList(front, rest), rest)
}

// rest are the pages behind cover and index.
func (b *book) rest() []page {
	var rest []page
	rest = append(rest, b.safety()...)
	rest = append(rest, b.findings()...)
	rest = append(rest, b.work()...)
	rest = append(rest, b.plywood()...)
	rest = append(rest, b.glossary()...)
	rest = append(rest, b.runPages()...)
	rest = append(rest, b.corners()...)
	rest = append(rest, b.seconds()...)
	rest = append(rest, b.fasteners()...)
	rest = append(rest, b.levelling()...)
	rest = append(rest, b.pieces()...)
	rest = append(rest, b.joints()...)
	rest = append(rest, b.submittal(rest)...)
	rest = append(rest, b.wallReports()...)
	rest = append(rest, b.rfis()...)
	rest = append(rest, b.packingList()...)
	rest = append(rest, b.crates()...)
	rest = append(rest, b.shopPages()...)
	rest = append(rest, b.closingRecord()...)
	return rest
}

// runPages are the pages of all runs.
func (b *book) runPages() []page {
	var out []page
	for _, p := range b.l.Perimeters {
		on := b.on(p.Job)
		for _, t := range b.stretchesOf(p) {
			pages := on.run(t)
			for _, r := range t.runs {
				b.firsts[r] = pages[0].id
			}
			out = append(out, on.its(pages)...)
		}
	}
	return out
}

// pages makes pages of one kind out of blocks that flow through regions. The
// second and later pages say that they continue the first.
func (b *book) pages(first page, blocks []block, regions func(n int, room drawing.Rect) []drawing.Rect) []page {
	room := first.paper.room(first.banner != "")
	var out []page
	lay := func(blocks []block) [][]placed {
		return b.flow(blocks, func(n int) []drawing.Rect { return regions(n, room) })
	}
	leaves := lay(loosened(blocks))
	if some := lay(blocks); len(some) < len(leaves) {
		leaves = some
	}
	if near := lay(tightened(blocks)); len(near) < len(leaves) {
		leaves = near
	}
	for i, leaf := range leaves {
		p := first
		if i > 0 {
			p.id = b.id(first.id)
			p.title = b.say.Say(words.FrameContinued, words.In("title", p.title))
		}
		p.draw = func(s *drawing.Scene, _ func(string) string) {
			for _, q := range leaf {
				q.draw(s, q.at)
			}
		}
		out = append(out, p)
	}
	for i := range len(out) - 1 {
		out[i].next = out[i+1].id
	}
	return out
}

// tightened are the same blocks with their rows and paragraphs closer.
func tightened(blocks []block) []block {
	out := slices.Clone(blocks)
	for i, x := range out {
		switch x := x.(type) {
		case table:
			x.tight = true
			out[i] = x
		case list:
			x.tight = true
			out[i] = x
		}
	}
	return out
}

// loosened are the same blocks with their rows as far apart as they read best.
func loosened(blocks []block) []block {
	out := slices.Clone(blocks)
	for i, x := range out {
		if t, ok := x.(table); ok {
			t.loose = true
			out[i] = t
		}
	}
	return out
}

// carriedOn says under the matter of a sheet which one continues it.
func (b *book) carriedOn(s *drawing.Scene, p paper, sheet string) {
	if sheet == "" {
		return
	}
	r := p.room(false)
	s.Text(
		drawing.Pt(r.Max.X, r.Max.Y+370),
		b.say.Say(words.FrameNext, words.In("sheet", sheet)),
		drawing.Style{Size: drawing.Small, Face: drawing.Bold, Align: drawing.Right},
	)
}

// across is one region a page, the whole room.
func across(_ int, room drawing.Rect) []drawing.Rect { return []drawing.Rect{room} }

// inColumns is n equal regions a page.
func inColumns(n int) func(int, drawing.Rect) []drawing.Rect {
	return func(_ int, room drawing.Rect) []drawing.Rect { return columns(room, n, gutter) }
}

const gutter drawing.Unit = 700

func itoa(n int) string { return strconv.Itoa(n) }

// Lengths as sheets letter them. A table says the unit in its heading or the
// title block does, so none is repeated; in a sentence it is.

// chairStation letters a station of a run's chairs or joints.
func (b *book) chairStation(r *layout.Run, at length.Length) string {
	return drawing.Letter(b.l.ChairTape(r).Long(r.ToCrew(at)))
}

func (b *book) long(l length.Length) string  { return drawing.Letter(b.crew.Long(l)) }
func (b *book) short(l length.Length) string { return drawing.Letter(b.crew.Short(l)) }
func (b *book) text(l length.Length) string  { return drawing.Letter(b.crew.InText(l)) }

// small is a short length in a sentence.
func (b *book) small(l length.Length) string {
	if b.metric {
		return b.text(l)
	}
	return b.short(l)
}

func (b *book) shopLong(l length.Length) string  { return drawing.Letter(b.shop.Long(l)) }
func (b *book) shopShort(l length.Length) string { return drawing.Letter(b.shop.Short(l)) }

// weight letters a weight in pounds or kilograms.
func (b *book) weight(grams int64) string {
	if b.metric {
		return b.say.Say(words.UnitKg, words.In("n", strconv.FormatFloat(float64(grams)/1000, 'f', 1, 64)))
	}
	return b.say.Say(words.UnitLb, words.In("n", strconv.FormatFloat(float64(grams)/453.59237, 'f', 1, 64)))
}

// pressure letters pascals as psf (1 psf is 47.880259 Pa) or kPa.
func (b *book) pressure(pa float64) string {
	if b.metric {
		return b.say.Say(words.UnitKpa, words.In("n", strconv.FormatFloat(pa/1000, 'f', 2, 64)))
	}
	return b.say.Say(words.UnitPsf, words.In("n", strconv.FormatFloat(pa/47.880259, 'f', 1, 64)))
}

// temperature letters both scales: a roof has thermometers of either.
func (b *book) temperature(t job.Temperature) string {
	c, f := degrees(t.Celsius())+" °C", degrees(t.Fahrenheit())+" °F"
	if b.metric {
		return c + " (" + f + ")"
	}
	return f + " (" + c + ")"
}

func (b *book) units() string {
	if b.metric {
		return b.say.Say(words.FrameUnitsMillimetres)
	}
	return b.say.Say(words.FrameUnitsInches)
}

// date letters a day in the order that no reader takes for another.
func date(d job.Date) string {
	if d == (job.Date{}) {
		return ""
	}
	return fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day)
}

// level is the word for a level of pressure or resistance.
func (b *book) level(l job.Level) string {
	return b.say.Say([...]words.Key{words.UnitStrength, words.UnitAllowable, words.UnitAsPulled}[l])
}

// party is the name of the first party with a role.
func (b *book) party(role string) string {
	for _, p := range b.j.Info.Parties {
		if strings.EqualFold(p.Role, role) {
			return p.Name
		}
	}
	return ""
}

// firm is whose document the packet is: the contractor's, else the first of
// those concerned.
func (b *book) firm() string {
	if c := b.party("contractor"); c != "" || len(b.j.Info.Parties) == 0 {
		return c
	}
	return b.j.Info.Parties[0].Name
}

// runValues are what the drawings and tables of a run show.
type runValues struct {
	plan *plan.Run
	work *view.Steps // made when it is first asked for
}

// runOf makes the values of a run once.
func (b *book) runOf(r *layout.Run) *runValues {
	v, ok := b.runPlans[r]
	if !ok {
		of := b.l.Plan(r)
		v = &runValues{plan: &of}
		b.runPlans[r] = v
	}
	return v
}

// planOf is a run in plan and elevation.
func (b *book) planOf(r *layout.Run) *plan.Run { return b.runOf(r).plan }

// workOf is the order of work of a run.
func (b *book) workOf(r *layout.Run) view.Steps {
	v := b.runOf(r)
	if v.work == nil {
		v.work = &view.Steps{Run: v.plan, Work: b.l.Work(r, *v.plan), Say: b.on(r.Perimeter.Job).say}
	}
	return *v.work
}

// of names a run, with its perimeter where the job has several.
func (b *book) of(p *layout.Perimeter, run string) string {
	if len(b.l.Perimeters) > 1 {
		return p.Job.Name + " " + run
	}
	return run
}
