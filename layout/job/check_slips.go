package job

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"copingset/layout/finding"
	"copingset/layout/length"
)

// checkSlips compares values that no rule of a system forbids together, and that
// cannot all be meant: each is told at its place and names the other.
func (d *decoder) checkSlips(j *Job) {
	d.checkDates(j)
	d.checkRevisions(j)
	d.checkCuts(j)
	d.checkLevels(j)
	d.checkMovement(j)
	d.checkDecimals(j)
	d.checkAlike(j)
	d.checkFormulas()
}

// hold reports what may be meant, and has to be settled before metal is cut.
func (d *decoder) hold(code string, at, also finding.Place, where finding.Ref, mend, format string, args ...any) {
	f := finding.New(finding.Hold, code, at, mend, format, args...)
	f.Where = where
	if !also.IsZero() && also != at {
		f.Also = []finding.Place{also}
	}
	d.add(f)
}

// before tells which of two days is the earlier.
func (a Date) before(b Date) bool {
	return slices.Compare([]int{a.Year, a.Month, a.Day}, []int{b.Year, b.Month, b.Day}) < 0
}

func dayWords(a Date) string { return fmt.Sprintf("%04d-%02d-%02d", a.Year, a.Month, a.Day) }

// checkDates looks at the order of the days: a job is issued after its wall was
// measured, after its doubted readings were looked at again, and after each of
// the revisions that it lists.
func (d *decoder) checkDates(j *Job) {
	const issued = "job.issued"
	after := func(code, path string, on Date, mend, what string) {
		if d.has(issued, path) && j.Info.Issued.before(on) {
			d.conflict(code, d.places[path], d.places[issued], mend, "%s on %s, and the job is issued on %s", what,
				dayWords(on), dayWords(j.Info.Issued))
		}
	}
	const stale = "write the date of this issue, or check the other one"
	after("issued-before-survey", "site.measured_on", j.Site.MeasuredOn, stale, "the wall was measured")
	for i := range j.Info.Revisions {
		r := &j.Info.Revisions[i]
		after("revision-after-issue", fmt.Sprintf("job.revisions[%d].date", i), r.Date, stale, "revision "+r.Mark+" is")
	}
	for i := range j.Perimeters {
		for k := range j.Perimeters[i].Runs {
			r := &j.Perimeters[i].Runs[k]
			for n := range r.Cleared {
				after("issued-before-survey", fmt.Sprintf("perimeters[%d].runs[%d].cleared[%d].on", i, k, n),
					r.Cleared[n].On, stale,
					"run "+r.Name+": a reading was looked at again")
			}
		}
	}
}

// Limits of what a cut and a weld take up. They are no rule of a shop: the widest
// saw blade for sheet metal is an eighth of an inch or so, and edges farther apart
// than a quarter are not closed by a weld.
const (
	kerfMost = length.Inch
	gapMost  = length.Inch / 4
)

// checkCuts looks at what a saw loses and a weld leaves open.
func (d *decoder) checkCuts(j *Job) {
	s := j.Shop
	if s == nil {
		return
	}
	const kerf, gap = "shop.kerf", "shop.weld_gap"
	bar, at := j.System.Stock, "system.stock"
	for i, b := range s.Bars {
		if path := fmt.Sprintf("shop.bars[%d].length", i); d.has(path) && (i == 0 || b.Length < bar) {
			bar, at = b.Length, path
		}
	}
	switch {
	case !d.has(kerf) || s.Kerf <= kerfMost:
	case d.has(at) && s.Kerf >= bar:
		d.conflict("kerf-wide", d.places[kerf], d.places[at], "write what the saw takes away, like 1/8\" or 3 mm",
			"%s, %s, is as long as the bar that is cut, %s: nothing would be left", kerf, Both(s.Kerf), Both(bar))
	default:
		d.errorf("kerf-wide", d.places[kerf], "write what the saw takes away, like 1/8\" or 3 mm",
			"%s, %s, is wider than any saw cuts", kerf, Both(s.Kerf))
	}
	if thick := "system.metal.thickness"; d.has(gap, thick) && s.WeldGap > gapMost {
		d.conflict("weld-gap-wide", d.places[gap], d.places[thick],
			"write what is left open between the edges, about the thickness of the metal or less",
			"%s, %s, is wider than a weld closes in metal of %s", gap, Both(s.WeldGap), Both(j.System.Metal.Thickness))
	}
}

// checkLevels holds stated pressures of two levels: they stand in one document,
// which states them at one, and the other is a slip of the pen that makes a
// pressure two thirds too great or too small.
func (d *decoder) checkLevels(j *Job) {
	p := j.Pressures
	if p == nil {
		return
	}
	type stated struct {
		path  string
		level Level
	}
	var all []stated
	count := map[Level]int{}
	for _, z := range []struct {
		zone string
		p    ZonePressure
	}{{"edge", p.Edge}, {"corner", p.Corner}} {
		for _, q := range []struct {
			way string
			p   Pressure
		}{{"up", z.p.Up}, {"out", z.p.Out}, {"rear", z.p.Rear}} {
			if path := "pressures." + z.zone + "." + q.way; d.has(path) {
				all = append(all, stated{path, q.p.Level})
				count[q.p.Level]++
			}
		}
	}
	if count[Strength] == 0 || count[Allowable] == 0 {
		return
	}
	odd := Strength
	if count[Allowable] < count[Strength] {
		odd = Allowable
	}
	first := func(level Level, is bool) stated {
		return all[slices.IndexFunc(all, func(s stated) bool { return (s.level == level) == is })]
	}
	one, other := first(odd, true), first(odd, false)
	d.hold("levels-mixed", d.places[one.path], d.places[other.path], finding.Ref{},
		"write every pressure at the level that the document states, and where it states two, ask the engineer for "+
			"all at one",
		"%s is stated %s and %s %s, in one document", one.path, levelWord(one.level), other.path,
		levelWord(other.level))
}

func levelWord(l Level) string {
	for _, c := range levelWords() {
		if c.value == l {
			return c.word
		}
	}
	return ""
}

// checkMovement holds a building expansion joint that is said to close by more
// than it is open.
func (d *decoder) checkMovement(j *Job) {
	for i := range j.Perimeters {
		p := &j.Perimeters[i]
		for k := range p.Runs {
			for n, e := range p.Runs[k].Expansion {
				at := fmt.Sprintf("perimeters[%d].runs[%d].expansion_joints[%d].", i, k, n)
				if e.Movement == nil || !d.has(at+"movement", at+"gap") || *e.Movement <= e.Gap {
					continue
				}
				d.hold("movement-over-gap", d.places[at+"movement"], d.places[at+"gap"], finding.Ref{Perimeter: p.Name,
					Run: p.Runs[k].Name},
					"write the most it moves either way, with its unit; a joint is made no narrower than that",
					"run %s: the building expansion joint at station %s moves %s either way, and its gap is %s: it "+
						"cannot close by more than it is open",
					p.Runs[k].Name, Both(e.Station), Both(*e.Movement), Both(e.Gap))
			}
		}
	}
}

// decimalFeet is a length in feet with one or two digits after the point: a tenth
// of a foot is 1 3/16 in, a hundredth 1/8.
var decimalFeet = regexp.MustCompile(`^\d+\.\d{1,2}\s*('|′|ft\.?|feet|foot)$`)

// checkDecimals holds runs whose length was written in decimals of a foot and is
// no sixteenth of an inch, in a job whose other lengths are read off a tape in
// feet, inches and fractions: such a length was rounded on the way. A tenth alone
// is coarser than any tape, whatever the others are.
func (d *decoder) checkDecimals(j *Job) {
	fraction := ""
	for i := range j.Perimeters {
		for k := range j.Perimeters[i].Runs {
			if path := fmt.Sprintf("perimeters[%d].runs[%d].length", i, k); fraction == "" &&
				strings.Contains(d.typed[path], "/") {
				fraction = path
			}
		}
	}
	for i := range j.Perimeters {
		p := &j.Perimeters[i]
		for k := range p.Runs {
			path := fmt.Sprintf("perimeters[%d].runs[%d].length", i, k)
			text := d.typed[path]
			if !d.has(path) || !decimalFeet.MatchString(text) || p.Runs[k].Length%length.Inch16 == 0 {
				continue
			}
			digits := len(text) - strings.IndexByte(text, '.') - 1
			digits -= len(strings.TrimLeft(text[len(text)-digits:], "0123456789"))
			half := length.Foot / 20 // half of what the last digit counts
			if digits == 2 {
				half = length.Foot / 200
			}
			if digits > 1 && fraction == "" {
				continue
			}
			beside := ""
			if fraction != "" {
				beside = ", and other lengths of the job are read to a fraction of an inch"
			}
			d.hold("decimal-feet", d.places[path], d.places[fraction], finding.Ref{Perimeter: p.Name,
				Run: p.Runs[k].Name},
				"write feet, inches and fractions as the tape has them, like "+length.Feet(p.Runs[k].Length, 16),
				"run %s: its length %s is in decimals of a foot, which leave %s either way open%s",
				p.Runs[k].Name, show(text), Both(half), beside)
		}
	}
}

// checkAlike notes perimeters whose names differ by blanks, marks or capitals
// alone: on the phone, and in the name of a file, they are one.
func (d *decoder) checkAlike(j *Job) {
	seen := map[string]int{}
	for i := range j.Perimeters {
		name := j.Perimeters[i].Name
		plain := strings.Map(func(r rune) rune {
			if unicode.IsLetter(r) || unicode.IsDigit(r) {
				return unicode.ToLower(r)
			}
			return -1
		}, name)
		path := func(i int) string { return fmt.Sprintf("perimeters[%d].name", i) }
		first, twice := seen[plain]
		if !twice {
			seen[plain] = i
			continue
		}
		if other := j.Perimeters[first].Name; d.has(path(i), path(first)) && !strings.EqualFold(other, name) {
			f := finding.New(finding.Note, "names-alike", d.places[path(i)],
				"name one of them so that it cannot be taken for the other",
				"the perimeters %s and %s have names alike but for blanks and marks; their files are told apart by "+
					"a number", show(other), show(name))
			f.Also = []finding.Place{d.places[path(first)]}
			d.add(f)
		}
	}
}

// signed is a number, a length, or a list of numbers that begins with its sign: no formula.
var signed = regexp.MustCompile(`^[+-](\d+'[- ]?)?(\d+([.,]\d+)?)?( ?\d+/\d+)?"?( ?mm)?( [+-]?\d+([.,]\d+)?)*$`)

// Formula says whether a spreadsheet would take a text for a formula: it begins
// with a sign that formulas begin with, and is no number or length.
func Formula(s string) bool {
	return s != "" && strings.ContainsRune("=+-@\t\r", rune(s[0])) && (len(s) == 1 || !signed.MatchString(s))
}

// checkFormulas notes texts that a spreadsheet would take for formulas. The lists
// for spreadsheets put an apostrophe before them.
func (d *decoder) checkFormulas() {
	for _, e := range d.said {
		said, err := strconv.Unquote(e.Value) // texts alone are in quotes
		if at := d.places[e.Path]; err == nil && Formula(said) && !at.IsZero() {
			d.notef("text-formula", at, "begin it with a letter or a digit, unless it has to begin so",
				"%s begins as a formula does, %s; the lists for spreadsheets write it with an apostrophe before it",
				d.name(e.Path), show(said))
		}
	}
}
