package sheets

import (
	"maps"
	"slices"

	"copingset/layout"
	"copingset/layout/finding"
)

// Live is a packet whose sheets are drawn one by one, as somebody looks at them.
type Live struct {
	b     *book
	pages []page
	no    []string
	byID  map[string]int // look-up only
}

// Listed is a sheet of a packet before it is drawn.
type Listed struct {
	ID, Number, Title string
	Kind              Kind
	Held              bool // a hold touches it
}

// NewLive plans a packet. It draws nothing that a plan does not have to.
func NewLive(l *layout.Layout, o Options) *Live {
	v := &Live{b: newBook(l, o), byID: map[string]int{}}
	pages := v.b.plan()
	numbers := v.b.numbers(pages)
	for i, p := range pages {
		if o.takes(v.b, p, numbers[i]) {
			v.byID[p.id] = len(v.pages)
			v.pages, v.no = append(v.pages, p), append(v.no, numbers[i])
		}
	}
	return v
}

// Sheets are the sheets of the packet in its order.
func (v *Live) Sheets() []Listed {
	out := make([]Listed, len(v.pages))
	for i, p := range v.pages {
		out[i] = Listed{p.id, v.no[i], p.title, p.kind, len(p.holds) > 0}
	}
	return out
}

// refer is the number of another sheet.
func (v *Live) refer(id string) string {
	if i, ok := v.byID[id]; ok {
		return v.no[i]
	}
	return ""
}

// Draw draws a sheet by its id. Sheets of one Live are not drawn beside each other.
func (v *Live) Draw(id string) (Sheet, bool) {
	i, ok := v.byID[id]
	if !ok {
		return Sheet{}, false
	}
	return v.sheet(v.b, v.pages[i], v.no[i]), true
}

func (v *Live) sheet(b *book, p page, number string) Sheet {
	return Sheet{ID: p.id, Number: number, Title: p.title, Kind: p.kind, Scene: b.draw(p, number, v.refer)}
}

// Early draws a sheet of a changed layout before its packet is planned: only the part
// of the packet that it stands in is. Other sheets are referred to as they were. It is
// not ok for a sheet whose part needs the whole packet, or that is no more.
func (v *Live) Early(l *layout.Layout, o Options, id string) (Sheet, bool) {
	i, ok := v.byID[id]
	if !ok {
		return Sheet{}, false
	}
	b := newBook(l, o)
	here := func(p page) bool { return p.id == id }
	var pages []page
	if v.pages[i].kind == RunSheet {
		pages = b.firstPages(v.b)
	}
	if !slices.ContainsFunc(pages, here) {
		b = newBook(l, o)
		part := b.part(v.pages[i].kind)
		if part == nil {
			return Sheet{}, false
		}
		pages = part()
	}
	numbers := b.numbers(pages)
	at := slices.IndexFunc(pages, here)
	if at < 0 || pages[at].draw == nil {
		return Sheet{}, false
	}
	return v.sheet(b, pages[at], numbers[at]), true
}

// firstPages are the pages of the runs themselves, which refer to corners where they
// stood in another book.
func (b *book) firstPages(was *book) []page {
	b.where = maps.Clone(was.where)
	var out []page
	for _, p := range b.l.Perimeters {
		for _, t := range b.stretches(p) {
			out = append(out, b.run(t)...)
		}
	}
	return out
}

// part makes the pages of one kind alone; nil where they take more than their own
// part of the packet, or most of its time.
func (b *book) part(k Kind) func() []page {
	return map[Kind]func() []page{
		Safety: b.safety, WorkSheet: b.work, Plywood: b.plywood, RunSheet: b.runPages, CornerSheet: b.corners,
		Sections: b.sections, FastenerSchedule: b.fasteners, Levelling: b.levelling, PieceSchedule: b.pieces,
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
		if id := v.b.firsts[r]; touched && v.refer(id) != "" {
			return id
		}
	}
	return ""
}
