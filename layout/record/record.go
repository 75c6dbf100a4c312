// Package record keeps what was issued: the file issued/C/record.json beside a job
// is the memory of issue C. It has every fact with its exact value, every mark that
// was ever given and what it stands for, and digests of inputs, sheets and files, so
// that the next issue can be told from it in words, clouds and lists, keeps the marks,
// and gives none a second time.
//
// A record ends with a seal over its text. It holds plain values and no types of
// the layout, so that a later release reads what an earlier one wrote.
package record

import (
	"cmp"
	"slices"

	"copingset/layout/fact"
	"copingset/layout/length"
)

// Version is the form of the records that are written and read.
const Version = 1

// Folder is where the records of a job stand, beside its file, and Name is the file
// of each, in a folder of its mark: issued/C/record.json.
const (
	Folder = "issued"
	Name   = "record.json"
)

// Record is one issue of a job.
type Record struct {
	Version int
	Job     Job
	Issue   Issue
	Earlier []Issue // before it, the oldest first
	Inputs  []File  // that the job was read from
	Files   []File  // that were written
	Sheets  []Sheet
	Shop    []ShopMark  // every one ever given
	Pieces  []PieceMark // every one ever given
	Facts   fact.Ledger
}

// Job is what tells one job from another.
type Job struct {
	Name   string `json:"name"`
	Number string `json:"number"`
}

// Issue is one line of the history: its mark, its date, what it was for, and the
// digest of the input.
type Issue struct {
	Mark   string `json:"mark"`
	Date   string `json:"date"`
	Note   string `json:"note"`
	Digest string `json:"digest"`
}

// File is a file by its name and the SHA-256 of its bytes.
type File struct {
	Name   string `json:"name"`
	Digest string `json:"sha256"`
}

// Sheet is one sheet as it was issued: Rev is the issue in which it last changed,
// Digest is over all that stands on it but title block and thumbnail. Said are short
// digests of its lettering, by which what is new on the next issue is found, and Deltas
// the issue in which some of it came.
type Sheet struct {
	ID     string            `json:"id"`
	Number string            `json:"number"`
	Title  string            `json:"title"`
	Rev    string            `json:"rev"`
	Digest string            `json:"digest"`
	Said   []string          `json:"said"`
	Deltas map[string]string `json:"deltas,omitempty"` // look-up only
}

// ShopMark is a part made alike: its shape never changes under its mark. Made is how
// many are made, or for what, empty where it was withdrawn or is held; Rev is the issue in
// which that last changed.
type ShopMark struct {
	Mark  string `json:"mark"`
	Shape string `json:"shape"`
	Rev   string `json:"rev"`
	Made  string `json:"made"`
}

// PieceMark is a place on a run, or at a corner or an end, and what was made for it.
type PieceMark struct {
	Mark string        `json:"mark"`
	Run  string        `json:"run"`  // that it is counted on; empty where it is named by its runs
	Kind string        `json:"kind"` // that its places are counted by
	From length.Length `json:"from"` // as the crew tapes it, in nanometres
	To   length.Length `json:"to"`
	Gone bool          `json:"gone,omitempty"` // it has no place any more
	Made []Metal       `json:"made"`           // by issue, the oldest first
}

// Metal is what a piece is in metal.
type Metal struct {
	Rev    string          `json:"rev"`
	Shop   string          `json:"shop,omitempty"` // shop mark
	Shape  string          `json:"shape"`
	Kind   string          `json:"kind"`
	Hand   string          `json:"hand,omitempty"`
	Inside length.Length   `json:"inside"`
	Parts  []length.Length `json:"parts"` // along the street face as shipped, leg by leg
	Holes  int             `json:"holes,omitempty"`
	Lot    string          `json:"lot,omitempty"`
}

// Same tells whether two pieces are made alike, so that one may lie where the other
// was to lie.
func (m Metal) Same(o Metal) bool { return m.Shape == o.Shape && m.Lot == o.Lot }

// History is every issue up to this one, the oldest first.
func (r *Record) History() []Issue { return append(slices.Clone(r.Earlier), r.Issue) }

// Sheet finds a sheet by its id.
func (r *Record) Sheet(id string) (Sheet, bool) {
	i := slices.IndexFunc(r.Sheets, func(s Sheet) bool { return s.ID == id })
	if i < 0 {
		return Sheet{}, false
	}
	return r.Sheets[i], true
}

// Piece finds a piece by its mark.
func (r *Record) Piece(mark string) (PieceMark, bool) {
	i := slices.IndexFunc(r.Pieces, func(p PieceMark) bool { return p.Mark == mark })
	if i < 0 {
		return PieceMark{}, false
	}
	return r.Pieces[i], true
}

// MetalOf is what a piece was as of an issue, of the last one where none is named; false
// where it had no such mark then.
func (r *Record) MetalOf(mark, rev string) (Metal, bool) {
	p, ok := r.Piece(mark)
	order := r.History()
	upto := len(order) - 1
	if rev != "" {
		upto = slices.IndexFunc(order, func(q Issue) bool { return q.Mark == rev })
	}
	if !ok || upto < 0 {
		return Metal{}, false
	}
	for i := len(p.Made) - 1; i >= 0; i-- {
		if slices.ContainsFunc(order[:upto+1], func(q Issue) bool { return q.Mark == p.Made[i].Rev }) {
			return p.Made[i], true
		}
	}
	return Metal{}, false
}

// ShopMark finds what is made alike by its mark.
func (r *Record) ShopMark(mark string) (ShopMark, bool) {
	i := slices.IndexFunc(r.Shop, func(s ShopMark) bool { return s.Mark == mark })
	if i < 0 {
		return ShopMark{}, false
	}
	return r.Shop[i], true
}

// Along are the places of a kind that are counted along a run, and all marks that were
// ever given there.
func (r *Record) Along(run, kind string) (was []PieceMark, ever []string) {
	for _, p := range r.Pieces {
		if p.Run != run || p.Kind != kind {
			continue
		}
		ever = append(ever, p.Mark)
		if !p.Gone {
			was = append(was, p)
		}
	}
	slices.SortFunc(was, func(a, b PieceMark) int { return cmp.Compare(a.From, b.From) })
	return was, ever
}

// Latest is the record with the longest history.
func Latest(all []*Record) *Record {
	var out *Record
	for _, r := range all {
		if out == nil || len(r.Earlier) > len(out.Earlier) ||
			len(r.Earlier) == len(out.Earlier) && r.Issue.Date > out.Issue.Date {
			out = r
		}
	}
	return out
}
