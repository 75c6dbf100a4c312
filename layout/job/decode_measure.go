package job

import (
	"slices"
	"strings"

	"copingset/layout/finding"
)

func decodeSurveyCheck(p *part) SurveyCheck {
	if p == nil {
		return SurveyCheck{}
	}
	return SurveyCheck{At: p.at, Least: p.length("least", positive), Times: read(p, "times", "value-times", parseTimes)}
}

// parseTimes reads a whole number of times, at least 2: at once the usual
// scatter every third reading would be doubted.
func parseTimes(s string) (int, error) {
	v, rest, ok := plainNumber(s)
	if ok && rest == "" && v.IsInt() {
		if n, ok := whole(v); ok && n >= 2 && n <= 20 {
			return int(n), nil
		}
	}
	return 0, wrong("value-times", "write a whole number from 2 to 20", "%s is not a number of times", show(s))
}

// decodeLine reads how a run's line is found: a word, or its distances.
func decodeLine(p *part) Line {
	if !p.given("line") {
		return Line{}
	}
	l := Line{At: p.n.field("line").at}
	if v := p.n.field("line").value; v.kind == scalarNode {
		l.Kind = word(p, "line", []choice[LineKind]{{"fitted", LineFitted}, {"parallel", LineParallel}})
		return l
	}
	l.Kind = LineHeld
	held := p.sub("line")
	l.Left, l.Right = held.length("left", anySign), held.length("right", anySign)
	return l
}

func (d *decoder) cleared(p *part) Cleared {
	if p == nil {
		return Cleared{}
	}
	var all []choice[Measure]
	for _, m := range Measures() {
		all = append(all, choice[Measure]{strings.ReplaceAll(string(m), " ", "_"), m})
	}
	c := Cleared{
		At:      p.at,
		Station: p.length("station", anySign),
		Measure: read(p, "measure", "value-word", func(s string) (Measure, error) {
			return pick(strings.NewReplacer(" ", "_", "-", "_").Replace(s), "value-word", all)
		}),
		By: p.text("by"),
		On: read(p, "on", "value-date", ParseDate),
	}
	if c.Measure == MeasureCondition {
		c.Conditions = read(p, "value", "value-condition", parseConditions)
	} else {
		c.Value = p.length("value", anySign)
	}
	return c
}

// codes splits what stands in one cell: codes divided by blanks, plus signs,
// commas or semicolons.
func codes(s string) []string {
	return strings.FieldsFunc(s, func(r rune) bool { return r == ' ' || r == '\t' || r == '+' || r == ',' || r == ';' })
}

// parseConditions reads condition codes; ok says that there are none.
func parseConditions(s string) ([]Condition, error) {
	choices := []choice[Condition]{{"ok", ""}}
	for _, c := range Conditions() {
		choices = append(choices, choice[Condition]{string(c), c})
	}
	var out []Condition
	for _, code := range codes(s) {
		c, err := pick(code, "value-condition", choices)
		if err != nil {
			return nil, err
		}
		if c != "" && !slices.Contains(out, c) {
			out = append(out, c)
		}
	}
	return out, nil
}

// mostPhoto is the longest number of a photo that a table has room for.
const mostPhoto = 24

// parsePhotos reads the numbers of photos.
func parsePhotos(s string) ([]string, error) {
	s, err := cleanText(s)
	if err != nil {
		return nil, err
	}
	out := codes(s)
	for _, n := range out {
		if len([]rune(n)) > mostPhoto {
			return nil, wrong("value-photo", "write the photos' numbers, divided by blanks", "%s is longer than the number of a photo", show(n))
		}
	}
	if len(out) == 0 {
		return nil, nil
	}
	return out, nil
}

// joined reads a list of cells, each of which may hold several codes. A list of
// none is one.
func joined[T any](p *part, name, code string, parse func(string) ([]T, error)) []T {
	var out []T
	for _, some := range readAll(p, name, code, parse) {
		out = append(out, some...)
	}
	if p.given(name) {
		if v := p.n.field(name).value; v.kind == listNode && len(v.items) == 0 {
			p.d.places[p.full(name)] = v.at
		}
	}
	return out
}

// remarks reads what a survey says beside its numbers.
func (s *survey) remarks(w row, r *Reading) {
	note, err := cleanText(s.raw(w, "note"))
	s.remarkFault(w, "note", err)
	r.Note = note
	r.Conditions, err = parseConditions(s.raw(w, "condition"))
	s.remarkFault(w, "condition", err)
	r.Photos, err = parsePhotos(s.raw(w, "photo"))
	s.remarkFault(w, "photo", err)
}

// raw is the text of a cell, empty if the survey has no such column.
func (s *survey) raw(w row, name string) string {
	if i := s.find(name); i >= 0 {
		return w.cells[i]
	}
	return ""
}

func (s *survey) remarkFault(w row, name string, err error) {
	if err != nil {
		s.cellFault(w.at[s.find(name)], name, err)
	}
}

// inWords says that a column holds words, which have no unit.
func inWords(column string) bool {
	return slices.Contains([]string{"run", "condition", "photo", "note"}, column)
}

// clearing checks that what is cleared is cleared once.
func (c *runCheck) clearing() {
	type what struct {
		station string
		measure Measure
	}
	seen := map[what]finding.Place{}
	for _, e := range c.r.Cleared {
		k := what{Both(e.Station), e.Measure}
		if e.Measure == "" || e.At.IsZero() {
			continue
		}
		if first, twice := seen[k]; twice {
			c.d.conflict("cleared-twice", e.At, first, "keep one of the two", "run %s: the %s at station %s is cleared twice", c.r.Name, e.Measure, k.station)
		}
		seen[k] = e.At
	}
}
