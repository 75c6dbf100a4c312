package shop

import (
	"slices"
	"strings"

	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/job"
)

// A cause in the metal is said once, whatever number of pieces or parts it keeps
// back: all that is alike in code, in the key of the job and in what mends it is one
// finding, which counts them and lists them.
type cause struct {
	code      string
	at        finding.Place
	why, mend string
}

// spoken is what was said of a cause, in the order it was found.
type spoken struct {
	cause
	said []saying
}

// saying is a sentence and all that it is said of.
type saying struct {
	what   string
	pieces []*cap.Piece
	parts  []*Part
}

// causes gathers them. The zero causes is empty.
type causes struct{ all []*spoken }

// of is the saying of a sentence under a cause.
func (c *causes) of(k cause, what string) *saying {
	i := slices.IndexFunc(c.all, func(t *spoken) bool { return t.cause == k })
	if i < 0 {
		i, c.all = len(c.all), append(c.all, &spoken{cause: k})
	}
	t := c.all[i]
	n := slices.IndexFunc(t.said, func(s saying) bool { return s.what == what })
	if n < 0 {
		n, t.said = len(t.said), append(t.said, saying{what: what})
	}
	return &t.said[n]
}

// piece says a cause of a piece.
func (c *causes) piece(k cause, p *cap.Piece, what string) {
	if s := c.of(k, what); !slices.Contains(s.pieces, p) {
		s.pieces = append(s.pieces, p)
	}
}

// part says a cause of a part.
func (c *causes) part(k cause, p *Part, what string) {
	if s := c.of(k, what); !slices.Contains(s.parts, p) {
		s.parts = append(s.parts, p)
	}
}

// list is a finding a cause.
func (c *causes) list() finding.List {
	var out finding.List
	for _, t := range c.all {
		var pieces []*cap.Piece
		var parts []*Part
		for _, s := range t.said {
			for _, p := range s.pieces {
				if !slices.Contains(pieces, p) {
					pieces = append(pieces, p)
				}
			}
			for _, p := range s.parts {
				if !slices.Contains(parts, p) {
					parts = append(parts, p)
				}
			}
		}
		out.Append(finding.Finding{Code: t.code, Severity: finding.Hold, At: t.at, Where: touched(pieces, parts),
			What: t.words(len(pieces), len(parts)), Why: t.why, Mend: t.mend})
	}
	return out
}

// touched is where pieces are laid, or which parts they are.
func touched(pieces []*cap.Piece, parts []*Part) finding.Ref {
	var out finding.Ref
	for i, p := range parts {
		if i == 0 {
			out.Part = p.Mark
		} else {
			out.Parts = append(out.Parts, p.Mark)
		}
	}
	for i, p := range pieces {
		perimeter, run := p.Perimeter.Job.Name, p.Parts[0].Run.Name
		switch {
		case i == 0:
			out.Perimeter, out.Run = perimeter, run
		case run != out.Run && !slices.Contains(out.Runs, run):
			out.Runs = append(out.Runs, run)
		}
		if perimeter != out.Perimeter { // runs have names of their own in the whole job
			out.Perimeter = ""
		}
		out.Pieces = append(out.Pieces, p.Mark)
	}
	return out
}

// words count and list what a cause keeps back: what all have alike is said once,
// what differs of each.
func (t *spoken) words(pieces, parts int) string {
	one, several := "piece ", " pieces: "
	n := pieces
	if parts > 0 {
		one, several, n = "part ", " parts: ", parts
	}
	if n == 1 {
		var all []string
		for _, s := range t.said {
			all = append(all, s.what)
		}
		mark := t.said[0].marks()
		if parts > 0 {
			p := t.said[0].parts[0]
			mark = p.Mark + ", " + p.Kind.String()
		}
		return one + mark + ": " + strings.Join(all, "; ")
	}
	var all []string
	for _, s := range t.said {
		all = append(all, s.marks()+": "+s.what)
	}
	return itoa(n) + several + strings.Join(all, "; ")
}

// marks are those of what a sentence is said of; parts of one kind say it once.
func (s saying) marks() string {
	var marks []string
	for _, p := range s.pieces {
		marks = append(marks, p.Mark)
	}
	for i, p := range s.parts {
		mark := p.Mark
		if i == 0 || s.parts[i-1].Kind != p.Kind {
			mark = p.Kind.String() + " " + mark
		}
		marks = append(marks, mark)
	}
	return strings.Join(marks, ", ")
}

// ofProfile reports whether a flange is one of the job's profile, alike in all
// bodies of all pieces.
func ofProfile(flange string) bool {
	return slices.Contains([]string{"hem", "drip", "front leg", "top", "rear leg", "hook"}, flange)
}

// deepWords say that a flange of a body is less deep than the brake holds.
func deepWords(flange, body, deep, least string) string {
	if !ofProfile(flange) {
		flange += " of the " + body
	}
	return flange + " is " + deep + " deep, and the brake holds no less than " + least
}

// hemWords say that a hem does not lie on its own flange.
func hemWords(leaf, flat, flange string) string {
	return "the hem leaf lies " + leaf + " long on the " + flange + ", which is flat for " + flat +
		" before its bend begins"
}

// testedWords say that a hem is not that of a report.
func testedWords(has job.HemKind, a *job.Assembly) string {
	return "the front edge has a hem that is " + has.String() + ", and assembly " + a.Name +
		" was tested with one that is " + a.FrontHem.String()
}
