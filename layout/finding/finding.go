// Package finding holds what is wrong with a job, or on hold.
//
// The types are Finding, its Severity, Place and Ref, and List, which collects
// them. An error stops the packet; a hold is printed on every sheet it touches
// and keeps the pieces it touches from release; a note is listed. Findings are
// collected, sorted and all shown, so that one reading of a job mends it.
//
// A finding speaks in the words of the job file and of the trade: what is
// wrong, why it matters, and how to mend it.
package finding

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"copingset/layout/length"
)

// Severity says what a finding does to the packet.
type Severity int

// From the mildest to the gravest.
const (
	Note  Severity = iota // listed
	Hold                  // printed where it touches; what it touches is not released
	Error                 // stops the packet
)

// String is the word printed in messages.
func (s Severity) String() string {
	switch s {
	case Note:
		return "note"
	case Hold:
		return "hold"
	case Error:
		return "error"
	}
	return "severity " + strconv.Itoa(int(s))
}

// Place is a position in a file that a person wrote. Lines and columns count
// from one; zero means unknown.
type Place struct {
	File      string
	Line, Col int
}

// String is file:line:col, as far as it is known.
func (p Place) String() string {
	var parts []string
	if p.File != "" {
		parts = append(parts, p.File)
	}
	if p.Line > 0 {
		parts = append(parts, strconv.Itoa(p.Line))
		if p.Col > 0 {
			parts = append(parts, strconv.Itoa(p.Col))
		}
	}
	return strings.Join(parts, ":")
}

// IsZero says that the place is unknown.
func (p Place) IsZero() bool { return p.File == "" && p.Line <= 0 }

// Ref is the part of the layout that a finding touches. What is left empty is
// not narrowed down: the zero Ref is the whole job.
type Ref struct {
	Perimeter, Run string
	Corner         string
	Station        length.Length
	HasStation     bool // station zero is a station
	Pieces         []string
	Part           string   // mark of a made part, which touches no run and no piece
	Runs           []string // further runs of the perimeter, which it touches as it does Run
	Parts          []string // further made parts, as Part
	Chairs         []string // it touches these, and of the pieces only those that it lists
}

// IsWhole says that the finding touches the whole job.
func (r Ref) IsWhole() bool {
	return r.Perimeter == "" && r.Run == "" && r.Corner == "" && !r.HasStation && len(r.Pieces) == 0 &&
		len(r.Chairs) == 0 && r.Part == ""
}

// TouchesRun says whether the sheet of a run must show the finding. It errs
// on the side of showing: a finding on a perimeter touches all its runs, and
// so does one on a corner that does not name its run.
func (r Ref) TouchesRun(perimeter, run string) bool {
	return r.Part == "" && (r.Perimeter == "" || r.Perimeter == perimeter) && r.OnRun(run)
}

// OnRun says whether the finding is on a run of its perimeter; one that is not
// narrowed down is on all.
func (r Ref) OnRun(run string) bool {
	return r.Run == "" || r.Run == run || slices.Contains(r.Runs, run)
}

// OnPart says whether the finding is of a made part.
func (r Ref) OnPart(mark string) bool {
	return r.Part != "" && (r.Part == mark || slices.Contains(r.Parts, mark))
}

// TouchesPiece says whether a piece of a run is touched. If the finding lists
// pieces it is those; otherwise all pieces of what it names, since a piece
// that may be wrong must not be cut.
func (r Ref) TouchesPiece(perimeter, run, mark string) bool {
	if len(r.Pieces) > 0 {
		return slices.Contains(r.Pieces, mark)
	}
	return len(r.Chairs) == 0 && r.TouchesRun(perimeter, run)
}

// String names the part in reading order, for tables; empty for the whole job.
// Printing the station is left to the sheet, which knows the units.
func (r Ref) String() string {
	var parts []string
	add := func(kind, name string) {
		if name != "" {
			parts = append(parts, kind+" "+name)
		}
	}
	add("perimeter", r.Perimeter)
	if len(r.Runs) > 0 {
		add("runs", strings.Join(append([]string{r.Run}, r.Runs...), " "))
	} else {
		add("run", r.Run)
	}
	add("corner", r.Corner)
	switch len(r.Pieces) {
	case 0:
	case 1:
		add("piece", r.Pieces[0])
	default:
		add("pieces", strings.Join(r.Pieces, " "))
	}
	switch len(r.Chairs) {
	case 0:
	case 1:
		add("chair", r.Chairs[0])
	default:
		add("chairs", strings.Join(Ranges(r.Chairs), " "))
	}
	if len(r.Parts) > 0 {
		add("parts", strings.Join(append([]string{r.Part}, r.Parts...), " "))
	} else {
		add("part", r.Part)
	}
	return strings.Join(parts, ", ")
}

func (r Ref) equal(o Ref) bool {
	return r.Perimeter == o.Perimeter && r.Run == o.Run && r.Corner == o.Corner &&
		r.Station == o.Station && r.HasStation == o.HasStation && r.Part == o.Part &&
		slices.Equal(r.Pieces, o.Pieces) && slices.Equal(r.Chairs, o.Chairs) && slices.Equal(r.Runs, o.Runs) &&
		slices.Equal(r.Parts, o.Parts)
}

// Slip is the code of a reading that stands out from its neighbours.
const Slip = "survey-slip"

// Finding is one thing that is wrong, on hold or worth a note.
type Finding struct {
	Code     string // short kebab-case, such as angle-bare; stable, for look-up
	Severity Severity
	At       Place
	Also     []Place // the other place, when two values conflict
	Where    Ref
	What     string // what is wrong
	Why      string // why it matters, if that is not plain
	Mend     string // what to do
	Follows  Place  // of the doubted reading without which it would not be found; zero: it stands by itself
	One      One    // it is of one of many things of one cause; zero: it stands alone
}

// New makes a finding for callers that fill in more of it before appending it.
func New(sev Severity, code string, at Place, mend, format string, args ...any) Finding {
	return Finding{Code: code, Severity: sev, At: at, Mend: mend, What: fmt.Sprintf(format, args...)}
}

// String is one line: job.yaml:12:9: error: what is wrong; what to do [code].
func (f Finding) String() string {
	var b strings.Builder
	if at := f.At.String(); at != "" {
		b.WriteString(at + ": ")
	}
	b.WriteString(f.Severity.String() + ": " + f.What)
	for i, p := range f.Also {
		if i == 0 {
			b.WriteString(" (see also ")
		} else {
			b.WriteString(", ")
		}
		b.WriteString(p.String())
	}
	if len(f.Also) > 0 {
		b.WriteString(")")
	}
	if f.Mend != "" {
		b.WriteString("; " + f.Mend)
	}
	if f.Code != "" {
		b.WriteString(" [" + f.Code + "]")
	}
	return b.String()
}

func (f Finding) equal(o Finding) bool {
	return f.Code == o.Code && f.Severity == o.Severity && f.At == o.At &&
		f.What == o.What && f.Why == o.Why && f.Mend == o.Mend &&
		f.Follows == o.Follows && f.One == o.One && slices.Equal(f.Also, o.Also) && f.Where.equal(o.Where)
}
