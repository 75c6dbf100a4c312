package sheets

import (
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/record"
)

// Audience is who a packet is for.
type Audience int

// The audiences. All takes every sheet.
const (
	All Audience = iota
	Crew
	Shop
	Inspector
	Receiving
	PreBid // the visit to the wall with the general contractor, before the bid
)

// Audiences lists every audience, All first.
func Audiences() []Audience { return []Audience{All, Crew, Shop, Inspector, Receiving, PreBid} }

// String is the word a person would ask for it by.
func (a Audience) String() string {
	return [...]string{"all", "crew", "shop", "inspector", "receiving", "pre-bid"}[a]
}

// Options choose what a packet holds and its paper. The zero Options are the
// whole packet on the job's own paper.
type Options struct {
	For         Audience
	Runs, Lists *job.PaperSize // nil: as the job says
	Lang        words.Lang
	// Runs whose own sheets alone are made, by their names, and sheets that alone are
	// made, by their numbers or the beginning of them, 3.N; none: all. Numbers and what
	// stands on a sheet are those of the whole packet.
	OfRuns, Only []string
}

// takes reports whether a page is asked for.
func (o Options) takes(b *book, p page, number string) bool {
	if !p.kind.For(o.For) || p.draw == nil { // a shorter list of sheets may take fewer pages
		return false
	}
	if len(o.OfRuns) > 0 && !slices.ContainsFunc(p.runs, func(r string) bool {
		return slices.Contains(o.OfRuns,
			r)
	}) {
		return false
	}
	return len(o.Only) == 0 || slices.ContainsFunc(o.Only, func(n string) bool {
		return number == n ||
			strings.HasPrefix(number, n+".")
	})
}

// words are the sentences of a packet, in its language and the spelling of the job.
func (o Options) words(j *job.Job) words.Book {
	return words.Book{Lang: o.Lang, UK: j.Spelling == job.UK}
}

// Kind of a sheet.
type Kind int

// The kinds, in the order of the packet.
const (
	Index Kind = iota
	Safety
	Findings
	WorkSheet
	Plywood
	Glossary
	RunSheet
	CornerSheet
	Sections
	FastenerSchedule
	Levelling
	PieceSchedule
	JointSchedule
	Transmittal
	Assemblies
	TestedSection
	Reports
	Basis
	Materials
	Statement
	Checklist
	Review
	WallReport
	RFIList
	PackingList
	CrateList
	ShopSheet
	PartSheet
	HandCheck
	CuttingPlan
	BlankList
	PieceLabels
	CrateLabels
	Closing
	Form         // a survey form, which is no part of a packet
	TakeoffSheet // quantities before the survey, which are none either
)

func (k Kind) String() string {
	return [...]string{"index", "safety", "findings", "work", "plywood", "glossary", "run", "corner",
		"sections", "fasteners",
		"levelling", "pieces", "joints", "transmittal",
		"assemblies", "tested", "reports", "basis", "materials", "statement", "checklist", "review", "wall", "rfi",
		"packing", "crate",
		"shop", "parts", "hands", "cutting", "blanks", "labels", "crate-labels", "closing", "form",
		"takeoff"}[k]
}

// For reports whether a kind of sheet belongs in an audience's packet.
func (k Kind) For(a Audience) bool {
	if a == All || k == Index {
		return true
	}
	switch a {
	case Crew:
		return k == Safety || k == Findings || k == WorkSheet || k == Plywood || k == Glossary || k == RunSheet ||
			k == Sections || k == Closing
	case Shop:
		return k == Findings || k == CornerSheet || k == Sections || k == PieceSchedule || k == JointSchedule ||
			k == PackingList ||
			k >= ShopSheet && k <= CrateLabels
	case Inspector:
		return k == Findings || k == Sections || k == FastenerSchedule || k >= Transmittal && k <= Review
	case Receiving:
		return k == CrateList
	case PreBid:
		return k == WallReport || k == RFIList || k == Levelling || k == Plywood
	}
	return false
}

// part of a submittal: a kind of sheet as a transmittal names it.
type part struct {
	kind  Kind
	title words.Key
}

// submittalParts are the parts of a submittal in the order in which a reviewer
// reads them.
func submittalParts() []part {
	return []part{
		{Transmittal, words.SubmittalTransmittal},
		{Index, words.SubmittalIndex},
		{Findings, words.SubmittalFindings},
		{Assemblies, words.SubmittalAssemblies},
		{TestedSection, words.SubmittalTested},
		{Sections, words.SubmittalSections},
		{Reports, words.SubmittalReports},
		{Basis, words.SubmittalBasis},
		{FastenerSchedule, words.SubmittalFasteners},
		{Materials, words.SubmittalMaterials},
		{Statement, words.SubmittalStatement},
		{Checklist, words.SubmittalChecklist},
		{Review, words.SubmittalReview},
	}
}

// inOrder puts pages in the order in which an audience reads them: that of the
// packet, but for a submittal.
func inOrder[T any](pages []T, a Audience, kind func(T) Kind) []T {
	if a != Inspector {
		return pages
	}
	out := slices.Clone(pages)
	at := func(p T) int {
		return slices.IndexFunc(submittalParts(), func(q part) bool { return q.kind == kind(p) })
	}
	slices.SortStableFunc(out, func(p, q T) int { return at(p) - at(q) })
	return out
}

// Sheet is one page of a packet.
type Sheet struct {
	ID     string // file-safe and unique in the packet
	Number string // its section, subject and page: "3.N.1", whoever the packet is for
	Title  string
	Kind   Kind
	Scene  drawing.Scene
	Issue  record.Sheet // as it would be recorded; zero before the first issue
}

// sheet draws a page. Others are referred to by the numbers of their ids.
func (b *book) sheet(p page, number string, byID map[string]string) Sheet {
	own := func(id string) string { return p.inOwn(id, byID) }
	s := Sheet{
		ID: p.id, Number: number, Title: p.title, Kind: p.kind,
		Scene: b.draw(p, number, func(id string) string { return byID[own(id)] }),
	}
	if p.tongue != "" {
		s.Scene.Marks = leadingTo(s.Scene.Marks, own)
	}
	if b.tracked() {
		s.Issue = b.matters[p.id].sheet
	}
	return s
}

// Packet makes the sheets for an audience, in the order in which it reads them.
// Numbers name what a sheet is about, so that two people with different parts of the
// packet mean the same sheet by the same number.
func Packet(l *layout.Layout, o Options) []Sheet {
	b, pages := inLanguages(l, o)
	numbers := b.numbers(pages)
	byID := make(map[string]string, len(pages)) // look-up only
	for i, p := range pages {
		byID[p.id] = numbers[i]
	}
	var out []Sheet
	for i, p := range pages {
		if !o.takes(b, p, numbers[i]) {
			continue
		}
		out = append(out, b.sheet(p, numbers[i], byID))
	}
	return inOrder(out, o.For, func(s Sheet) Kind { return s.Kind })
}
