// Package job reads what people wrote: the job file (YAML) and the wall survey
// (CSV beside it, or inline), and hands the rest of the house typed values.
//
// Nothing here is computed and nothing has a hidden default: a dimension of
// the coping system that the file does not state is a finding, not a guess.
// Every part remembers its place in the file so that later rooms can point at
// the line that has to change.
//
// The types follow the file: Job holds Info, System, Assemblies, Walls,
// Fasteners, Pressures, Packing, Site, Crating and the Perimeters with their
// Runs. Lengths are exact (package length); angles, slopes, temperatures and
// pressures are the small types of units.go.
package job

import (
	"copingset/layout/finding"
	"copingset/layout/record"
)

// Units is the system the sheets are lettered in.
type Units int

// The two systems of units a job can print in.
const (
	Imperial Units = iota
	Metric
)

// Job is one job file with its surveys, decoded and checked for form. Whether
// the wall closes or the pieces fit is for later rooms.
type Job struct {
	File     string   // as findings name it
	Sources  []Source // the files it was read from, the job file first
	Info     Info
	Units    Units
	Spelling Spelling
	Language Language
	// ReviewedBy is the fluent site reader who read the translation over; empty: nobody yet.
	ReviewedBy string
	Paper      Paper
	System     System
	Packing    Packing
	Membrane   Layer // over the wall top, under the chairs
	Fasteners  []Fastener
	Assemblies []Assembly
	Walls      []Wall
	Pressures  *Pressures // nil: not stated
	Survey     SurveyCheck
	Wind       *Wind // nil: nothing to compute pressures from
	Site       Site
	Benchmark  *Benchmark // nil: none is stated, and heights are over the level datum
	Crating    Crating
	// what the crew asks for, as the fabricator and the contractor have it
	Instructions Instructions
	Shop         *Shop     // nil: not stated
	Takeoff      *Takeoff  // nil: not stated
	Progress     *Progress // nil: nothing is made or set, or nobody says
	Perimeters   []Perimeter
	Findings     finding.List   // what reading found; the layout carries it on
	Issued       *record.Record // the last issue, whose marks are kept; nil: none was made
	Issuing      bool           // the sheets are drawn to be issued

	windIn *Units  // the system that wind is computed in, if not that of the sheets
	said   []Entry // the values that were read, in the order of reading
}

// LetterIn letters the sheets in other units than the job states. Pressures are
// still computed in the job's own, whose rounded limits and printed figures an
// engineer may have confirmed.
func (j *Job) LetterIn(u Units) {
	if j.windIn == nil {
		own := j.Units
		j.windIn = &own
	}
	j.Units = u
}

// WindUnits is the system that wind is computed in, and its basis lettered.
func (j *Job) WindUnits() Units {
	if j.windIn != nil {
		return *j.windIn
	}
	return j.Units
}

// Info names the job and the people who answer for it.
type Info struct {
	Name, Number, Address string
	Owner                 string
	Parties               []Party
	Issued                Date // date of issue; the only date on the sheets
	PreparedBy, CheckedBy string
	Revisions             []Revision
	Notes                 []string // printed among the general notes
}

// Party is one of those concerned with the job.
type Party struct{ Role, Name string }

// Revision is one row of the revision table.
type Revision struct {
	Mark string
	Date Date
	Note string
}

// Spelling is how the English of the sheets is spelled.
type Spelling int

// The spellings: American unless the job says British.
const (
	US Spelling = iota
	UK
)

// Language is what the sheets of the crew and of receiving are said in. All others are
// in English.
type Language int

// The languages: English unless the job says otherwise, Spanish, or both, each sheet
// twice under its number.
const (
	InEnglish Language = iota
	InSpanish
	InBoth
)

// Paper chooses a sheet for the drawings and one for the lists.
type Paper struct{ Runs, Lists PaperSize }

// keys of the whole file, in its order. What a key means completes "write ...".
func (j *Job) keys(k keys) {
	format := words(asThey(formatWord))
	format.unsaid = true
	value(k, "format", new(string), format, "the form of this file", formatWord)
	k.may().files("include", new([]string),
		"files whose keys this one takes over, by their paths from here; what this file states goes before them",
		"[../shop/system.yaml, ../firm.yaml]")
	k.group("job", "who and what the job is", j.Info.keys)
	value(k, "units", &j.Units, words([]choice[Units]{{"imperial", Imperial},
		{"metric", Metric}}).in(always[Units]("metric")),
		"the units the sheets are lettered in", "imperial")
	value(k.may(), "spelling", &j.Spelling, words([]choice[Spelling]{{"us", US}, {"uk", UK}}),
		"the spelling of the sheets", "us")
	value(k.may(), "language", &j.Language,
		words([]choice[Language]{{"en", InEnglish}, {"es", InSpanish}, {"en+es", InBoth}}),
		"the language of the sheets of the crew and of receiving, or both on facing sheets", "en")
	k.may().group("translation", "who answers for the translation", func(k keys) {
		k.text("reviewed_by", &j.ReviewedBy, "the fluent site reader who read the translation over", "T. Ocampo-Ruiz")
	})
	k.group("paper", "the paper for the drawings and for the lists", j.Paper.keys)
	k.d.system = k.group("system", "the fabricator's coping system", j.System.keys).part
	k.group("packing", "what the wall top may be built up with", j.Packing.keys)
	k.group("membrane", "the membrane over the wall top", j.Membrane.membraneKeys)
	list(k, "fasteners", "fastener", &j.Fasteners, (*Fastener).keys, "the stock fasteners")
	list(k, "assemblies", "assembly", &j.Assemblies, (*Assembly).keys, "the tested assemblies")
	list(k, "walls", "wall", &j.Walls, (*Wall).keys, "the wall constructions")
	optional(k.may(), "pressures", &j.Pressures, (*Pressures).keys, "the engineer's design pressures")
	k.may().group("slips", "when a reading is doubted against its neighbours, instead of at 1/4\" and at 4 times the "+
		"run's scatter",
		j.Survey.keys)
	optional(k.may(), "wind", &j.Wind, (*Wind).keys,
		"what computed pressures follow from; stated pressures stand over them")
	k.group("site", "what the crew must know of the place", j.Site.keys)
	optional(k.may(), "benchmark", &j.Benchmark, (*Benchmark).keys, "the mark that the crew levels from")
	k.group("crating", "how the pieces travel", j.Crating.keys)
	k.may().group("instructions", "what the crew asks for, from the fabricator's and the contractor's own papers",
		j.Instructions.keys)
	optional(k.may(), "shop", &j.Shop, (*Shop).keys,
		"how the fabricator bends and cuts, for flat patterns and cutting plans")
	optional(k.may(), "progress", &j.Progress, (*Progress).keys, "what is made and set already")
	optional(k.may(), takeoffKey, &j.Takeoff, (*Takeoff).keys,
		"what quantities and a price before the survey are reckoned by")
	list(k, "perimeters", "perimeter", &j.Perimeters, (*Perimeter).keys, "the chains of runs")
}

func (i *Info) keys(k keys) {
	k.name("name", &i.Name, "the name of the building", "Heron Street Archive")
	k.may().text("number", &i.Number, "the job number, in quotes", `"0417"`)
	k.may().text("address", &i.Address, "where the building stands", "12 Heron Street, Lowmere")
	k.may().text("owner", &i.Owner, "whose building it is", "Lowmere Town Archive")
	list(k.may(), "parties", "party", &i.Parties, (*Party).keys, "those concerned with the job, a role and a name each")
	k.date("issued", &i.Issued, "the date of issue, the only date on the sheets", "2026-03-16")
	k.may().text("prepared_by", &i.PreparedBy, "who prepared the job", "M. Okafor-Lind")
	k.may().text("checked_by", &i.CheckedBy, "who checked it", `""`)
	list(k.may(), "revisions", "revision", &i.Revisions, (*Revision).keys, "the rows of the revision table")
	k.may().texts("notes", &i.Notes, "a list of notes for the sheets", "[Deliver to the north gate]")
}

func (p *Party) keys(k keys) {
	k.name("role", &p.Role, "what the party does on the job", "Contractor")
	k.name("name", &p.Name, "the party's name", "Tern and Ledge Roofing")
}

func (r *Revision) keys(k keys) {
	k.text("mark", &r.Mark, "the revision's letter or number", "A")
	k.date("date", &r.Date, "the revision's date", "2026-03-16")
	k.text("note", &r.Note, "what changed", "Issued for fabrication")
}

func (p *Paper) keys(k keys) {
	var sizes []choice[PaperSize]
	for i, name := range paperNames() {
		sizes = append(sizes, choice[PaperSize]{name, PaperSize(i)})
	}
	value(k, "runs", &p.Runs, words(sizes).in(always[PaperSize]("A3")), "the paper for drawings", "B")
	value(k, "lists", &p.Lists, words(sizes).in(always[PaperSize]("A4")), "the paper for lists", "A")
}
