package job

import (
	"slices"
	"strings"

	"copingset/layout/finding"
	"copingset/layout/length"
)

// ofColumn is what is gathered of a column of lengths while its rows are read.
type ofColumn struct {
	least, most length.Length   // of what was read
	whole       int             // values of whole numbers, but for nothing
	broken      int             // values with a fraction or a point, or with a unit of their own
	read        int             // values in all
	outside     []outsideOf     // values that no wall has
	first       finding.Place   // of the values that are something
	values      []length.Length // of numbers without a unit, but for nothing: to be tried in another
}

// outsideOf is a value outside the limits of its measure, told once the whole
// column is known.
type outsideOf struct {
	f finding.Finding
	m measured
}

// bare tells a whole number from one with a fraction, a point or a unit.
func bare(text string) bool {
	digits := strings.TrimLeft(text, "+-−")
	return digits != "" && strings.Trim(digits, "0123456789") == ""
}

// count takes up one cell of a column of lengths.
func (c *column) count(text string, l length.Length, at finding.Place) {
	s := &c.of
	if s.read == 0 {
		s.least, s.most = l, l
	}
	s.read++
	s.least, s.most = min(s.least, l), max(s.most, l)
	if l != 0 && strings.Trim(text, "+-−0123456789.,/ ") == "" {
		s.values = append(s.values, l)
	}
	switch {
	case !bare(text):
		s.broken++
	case l != 0:
		if s.whole == 0 {
			s.first = at
		}
		s.whole++
	}
}

const (
	// wholeColumn is how many readings of a column it takes to say something of its
	// unit: by chance one tape in three would read so many whole inches of sixteenths
	// in four thousand million.
	wholeColumn = 8
	// wholeSpread is how far such readings lie apart at least: a wall that is out by
	// no more than two inches may have been read to the whole inch.
	wholeSpread = 2 * length.Inch
	// allOutside is how many values outside their limits are one finding.
	allOutside = 3
)

// units looks at the columns once all rows are read: at values of a whole column
// that would each be right in another unit.
func (s *survey) units() {
	for i := range s.columns {
		c := &s.columns[i]
		if c.skipped {
			continue
		}
		if !s.wrongUnit(c) {
			for _, o := range c.of.outside {
				s.d.add(o.f)
			}
		}
	}
}

// wrongUnit says once of a column that its numbers are in another unit than its
// heading says: where all of them are outside what a wall has, and within it in the
// other; or where a column in inches has whole numbers alone, as a rule in
// millimetres reads.
func (s *survey) wrongUnit(c *column) bool {
	of := &c.of
	if n := len(of.outside); n >= allOutside && n == len(of.values) && c.unit > 0 {
		if names, words := meantAs(c.unit, of.outside[0].m.span, of.values); len(names) > 0 {
			s.fail("column-unit", c.at,
				"write the unit that they were read in after the name of the column, like `"+c.name+" ("+names[0]+")`",
				"column %s: all of its %d values are in no wall's range, from %s to %s, and every one would be in %s",
				c.name, n, Both(of.least), Both(of.most), oneOf(words))
			return true
		}
	}
	// Stations are laid off at whole feet, and a width of whole inches is what a
	// drawing has: of these nothing is said.
	if c.name != "offset" && c.name != "offset_low" && c.name != "street_top" && c.name != "roof_top" {
		return false
	}
	if c.unit == length.Inch && of.broken == 0 && of.whole >= wholeColumn && of.most-of.least > wholeSpread &&
		len(of.outside) == 0 {
		s.d.hold("column-whole", c.at, of.first, finding.Ref{},
			"write `"+c.name+" (mm)` if that is what the rule reads; "+
				"if they are inches, write one with its point, like 3.0, so that the next reader knows",
			"column %s: all %d values that are not 0 are whole numbers, from %s to %s, as a rule in millimetres "+
				"reads and a tape in inches does not",
			c.name, of.whole, Both(of.least), Both(of.most))
	}
	return false
}

// meantAs are the units, by their names and in words, in which all values of a
// column lie within the limits of its measure: values are as the heading's unit has
// them.
func meantAs(unit length.Length, within span, values []length.Length) (names, words []string) {
	for _, u := range []struct {
		unit        length.Length
		name, words string
	}{{length.Millimetre, "mm", "millimetres"}, {length.Inch, "in", "inches"}, {length.Centimetre, "cm", "centimetres"},
		{length.Foot, "ft", "feet"}, {length.Metre, "m", "metres"}} {
		if u.unit == unit {
			continue
		}
		if !slices.ContainsFunc(values, func(v length.Length) bool {
			l, ok := scaled(v, u.unit, unit)
			return !ok || l < within.least || l > within.most
		}) {
			names, words = append(names, u.name), append(words, u.words)
		}
	}
	return names, words
}

// stranger is a run that the job does not have, where a survey first names it.
type stranger struct {
	name string
	at   finding.Place
	in   *survey
}

// strangersTold reports the runs that surveys name and the job does not have. A run
// that has no rows yet is the likeliest to be meant, whatever it is called.
func (d *decoder) strangersTold(j *Job, all []stranger, rowed func(*Run) bool) {
	var names []string
	for i := range j.Perimeters {
		names = append(names, known(j.Perimeters[i].Runs, func(r Run) string { return r.Name })...)
	}
	for _, s := range all {
		var without []string
		for _, name := range s.in.names {
			if r := s.in.runs[name]; r.mine && !rowed(r.run) && len(r.run.Readings) == 0 {
				without = append(without, name)
			}
		}
		mend := "the runs of the job are " + listed(names)
		near := finding.Suggest(s.name, without)
		switch {
		case len(without) == 1:
			mend = "did you mean `" + without[0] + "`? It is the one run without readings"
		case near != "":
			mend = "did you mean `" + near + "`, which has no readings?"
		case len(without) > 1:
			mend = "the runs without readings are " + listed(without)
		default:
			if near := finding.Suggest(s.name, names); near != "" {
				mend = "did you mean `" + near + "`? It has readings already, like every run that this survey is for"
			}
		}
		d.unsure = true
		d.errorf("csv-run", s.at, mend, "the job has no run %s", show(s.name))
	}
}

// listed names the first of very many.
func listed(names []string) string {
	const most = 20
	if len(names) <= most {
		return strings.Join(names, ", ")
	}
	return strings.Join(names[:most], ", ") + " and " + plural(len(names)-most, "more run")
}
