package sheets

import (
	"maps"
	"slices"

	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
)

// Live is a packet whose sheets are drawn one by one, as somebody looks at them.
type Live struct {
	b       *book
	pages   []page
	numbers map[string]string // of all pages, by their ids; look-up only
	at      map[string]int    // look-up only: place of a sheet
}

// Listed is a sheet of a packet before it is drawn.
type Listed struct {
	ID, Number, Title string
	Kind              Kind
	Held              bool // a hold touches it
}

// NewLive plans a packet. It draws nothing that a plan does not have to.
func NewLive(l *layout.Layout, o Options) *Live {
	b, pages := inLanguages(l, o)
	v := &Live{b: b, numbers: map[string]string{}, at: map[string]int{}}
	numbers := b.numbers(pages)
	for i, p := range pages {
		v.numbers[p.id] = numbers[i]
	}
	for i, p := range pages {
		if o.takes(b, p, numbers[i]) {
			v.at[p.id] = len(v.pages)
			v.pages = append(v.pages, p)
		}
	}
	return v
}

// Sheets are the sheets of the packet in its order.
func (v *Live) Sheets() []Listed {
	out := make([]Listed, len(v.pages))
	for i, p := range v.pages {
		out[i] = Listed{p.id, v.numbers[p.id], p.title, p.kind, len(p.holds) > 0}
	}
	return out
}

// Draw draws a sheet by its id. Sheets of one Live are not drawn beside each other.
func (v *Live) Draw(id string) (Sheet, bool) {
	i, ok := v.at[id]
	if !ok {
		return Sheet{}, false
	}
	return v.b.sheet(v.pages[i], v.numbers[id], v.numbers), true
}

// Early draws a sheet of a changed layout before its packet is planned: only the part
// of the packet that it stands in is. Other sheets are referred to as they were. It is
// not ok for a sheet whose part needs the whole packet, or that is no more.
func (v *Live) Early(l *layout.Layout, o Options, id string) (Sheet, bool) {
	i, ok := v.at[id]
	if !ok || v.pages[i].tongue != "" || o.Lang != words.English || l.Job.Language != job.InEnglish {
		return Sheet{}, false
	}
	b := newBook(l, o)
	if b.tracked() { // clouds and marks of revision follow from all sheets
		return Sheet{}, false
	}
	part := b.part(v.pages[i].kind)
	if part == nil {
		return Sheet{}, false
	}
	b.where = maps.Clone(v.b.where)
	pages := part()
	numbers := b.numbers(pages)
	at := slices.IndexFunc(pages, func(p page) bool { return p.id == id })
	if at < 0 || pages[at].draw == nil {
		return Sheet{}, false
	}
	return b.sheet(pages[at], numbers[at], v.numbers), true
}

// part makes the pages of one kind alone; nil where they take more than their own
// part of the packet, or most of its time.
func (b *book) part(k Kind) func() []page {
	return map[Kind]func() []page{
		Safety: b.safety, WorkSheet: b.work, Plywood: b.plywood, RunSheet: b.runPages, CornerSheet: b.corners,
		FastenerSchedule: b.fasteners, Levelling: b.levelling, PieceSchedule: b.pieces,
		JointSchedule: b.joints, WallReport: b.wallReports, RFIList: b.rfis, PackingList: b.packingList,
		CrateList: b.crates, CuttingPlan: b.cuttingPlan, BlankList: b.blankList, PieceLabels: b.pieceLabels,
		CrateLabels: b.crateLabels,
	}[k]
}

// SheetOf is the sheet on which the place of a finding is drawn, by its id; empty if
// it has none.
func (v *Live) SheetOf(w finding.Ref) string {
	for _, r := range v.b.l.Runs() {
		if r.Perimeter.Job.Name != w.Perimeter {
			continue
		}
		touched := r.Name == w.Run || slices.Contains(w.Runs, r.Name)
		for _, t := range r.Parts {
			touched = touched || slices.Contains(w.Pieces, t.Piece.Mark)
		}
		if id := v.b.firsts[r]; touched && v.numbers[id] != "" {
			return id
		}
	}
	return ""
}
