package job

import (
	"strconv"
	"strings"
	"unicode/utf8"

	"copingset/layout/finding"
	"copingset/layout/length"
)

// reader is how the single value of a key is read.
type reader[T any] struct {
	form    Form
	code    string // of a value that cannot be read
	parse   func(string) (T, error)
	parseIn func(string, length.Length) (T, error) // in a column of that unit
	choices []string
	say     func(T) any    // what the digest takes, if not the value itself
	unsaid  bool           // tells how or where to read, and is not part of what is said
	metric  func(T) string // writes an example for who works in metric units
}

func (r reader[T]) read(v *node) (T, error) {
	if v.unit > 0 && r.parseIn != nil {
		return r.parseIn(v.text, v.unit)
	}
	return r.parse(v.text)
}

func (r reader[T]) said(t T) any {
	if r.say != nil {
		return r.say(t)
	}
	return t
}

// value declares a key with a single value.
func value[T any](k keys, name string, to *T, r reader[T], means, example string) {
	key := Key{Path: name, Means: means, Example: example, Form: r.form, Choices: r.choices}
	if k.d.mode == listing {
		key.Metric = r.inMetric(example)
	}
	take(k, k.declare(key), to, r)
}

// take reads the value of a key that was declared.
func take[T any](k keys, key Key, to *T, r reader[T]) {
	v := k.scalar(key)
	if v == nil {
		return
	}
	t, err := r.read(v)
	if err != nil {
		k.unread(key, v, r.code, err)
		return
	}
	*to = t
	name := key.Name()
	k.took(name, v.at)
	if !r.unsaid && !k.demand.unsaid {
		k.say(name, r.said(t))
	}
	if r.form == FormText {
		k.d.cutShort(k.called(name), v)
	}
}

// values declares a key with a list of values, or one value alone.
func values[T any](k keys, name string, to *[]T, r reader[T], means, example string) {
	key := Key{Path: name, Means: means, Example: example, Form: r.form, Choices: r.choices, Many: true}
	if k.d.mode == listing {
		key.Metric = r.inMetric(example)
	}
	key = k.declare(key)
	items := k.scalars(key)
	all := make([]T, 0, len(items))
	for _, v := range items {
		t, err := r.read(v)
		if err != nil {
			k.unread(key, v, r.code, err)
			continue
		}
		if r.form == FormText {
			k.d.cutShort(k.called(name), v)
		}
		all = append(all, t)
	}
	if len(items) > 0 && len(all) == len(items) {
		*to = all
		k.took(name, items[0].at)
		for i, t := range all {
			if r.unsaid {
				break
			}
			k.say(name+"["+strconv.Itoa(i)+"]", r.said(t))
		}
	}
}

// coded declares a list of cells, each of which may hold several codes. A list
// of none is one.
func coded[T any](k keys, name string, to *[]T, r reader[[]T], means, example string) {
	key := k.declare(Key{Path: name, Means: means, Example: example, Form: r.form, Choices: r.choices, Many: true})
	v := k.value(key)
	if v == nil {
		return
	}
	var all []T
	items := k.scalars(key)
	for _, v := range items {
		some, err := r.read(v)
		if err != nil {
			k.unread(key, v, r.code, err)
			return
		}
		all = append(all, some...)
	}
	if len(items) > 0 || v.kind == listNode && len(v.items) == 0 {
		*to = all
		k.took(name, v.at)
		for i, t := range all {
			k.say(name+"["+strconv.Itoa(i)+"]", t)
		}
	}
}

// sign is which lengths a key can take.
type sign int

const (
	positive sign = iota
	notNegative
	anySign
)

func lengths(want sign) reader[length.Length] {
	checked := func(s string, l length.Length, err error) (length.Length, error) {
		if err != nil {
			return 0, err
		}
		return l, signFault(s, l, want)
	}
	return reader[length.Length]{
		form: FormLength, code: "value-length", metric: roundMM, parse: func(s string) (length.Length, error) {
			l, err := length.Parse(s)
			return checked(s, l, err)
		},
		parseIn: func(s string, unit length.Length) (length.Length, error) {
			l, err := length.ParseIn(s, unit)
			return checked(s, l, err)
		},
	}
}

func signFault(s string, l length.Length, want sign) error {
	switch {
	case l < 0 && want != anySign:
		return wrong("length-sign", "write it without a sign", "%s is negative", show(s))
	case l == 0 && want == positive:
		return wrong("length-sign", "write the length as it is", "%s is nothing, and this must have a length", show(s))
	}
	return nil
}

// length declares a length of more than nothing.
func (k keys) length(name string, to *length.Length, means, example string) {
	value(k, name, to, lengths(positive), means, example)
}

// lengthOrZero declares a length that may be nothing.
func (k keys) lengthOrZero(name string, to *length.Length, means, example string) {
	value(k, name, to, lengths(notNegative), means, example)
}

// signedLength declares a length that may lie either way.
func (k keys) signedLength(name string, to *length.Length, means, example string) {
	value(k, name, to, lengths(anySign), means, example)
}

// statedLength declares a length that means nothing in particular if it is left
// out; nil: not stated.
func (k keys) statedLength(name string, to **length.Length, want sign, means, example string) {
	l := new(length.Length)
	value(k, name, l, lengths(want), means, example)
	if k.has(name) || k.row && k.given(name) {
		*to = l
	}
}

// lengths declares a list of lengths, each more than nothing.
func (k keys) lengths(name string, to *[]length.Length, means, example string) {
	values(k, name, to, lengths(positive), means, example)
}

// words is a reader of one of the choices.
func words[T comparable](choices []choice[T]) reader[T] {
	r := reader[T]{form: FormWord, code: "value-word",
		parse: func(s string) (T, error) { return pick(s, "value-word", choices) },
		say: func(t T) any {
			for _, c := range choices {
				if c.value == t {
					return c.word
				}
			}
			return t
		}}
	for _, c := range choices {
		r.choices = append(r.choices, c.word)
	}
	return r
}

// word declares a key that is one of some words.
func word[T comparable](k keys, name string, to *T, choices []choice[T], means, example string) {
	value(k, name, to, words(choices), means, example)
}

// stated is a word that stands once above a list, for all its items that do not
// state their own.
type stated[T comparable] struct {
	value T
	at    finding.Place // zero if nothing could be read
	given bool          // the key is there, readable or not
}

// once declares a word above a list. What it says is said by the items.
func once[T comparable](k keys, name string, to *stated[T], choices []choice[T], means, example string) {
	word(k.may().unsaid(), name, &to.value, choices, means, example)
	to.at, to.given = k.placeOf(name), k.given(name)
}

// repeated declares a word of an item of a list that may stand once above it. An
// item that does not state its own says the same as if it did; nothing is said to be
// missing where the word above cannot be read, which has its finding.
func repeated[T comparable](k keys, name string, to *T, above stated[T], choices []choice[T], means, example string) {
	word(k.when(!above.given, "it does not stand above the list for all of them"), name, to, choices, means, example)
	if k.n != nil && !k.given(name) && !above.at.IsZero() {
		*to = above.value
		k.took(name, above.at)
		k.say(name, words(choices).said(above.value))
	}
}

// asThey makes the choices of words that stand for themselves.
func asThey(words ...string) []choice[string] {
	var out []choice[string]
	for _, w := range words {
		out = append(out, choice[string]{w, w})
	}
	return out
}

// yes declares a key that is yes or no.
func (k keys) yes(name string, to *bool, means, example string) {
	r := words([]choice[bool]{{"yes", true}, {"no", false}, {"true", true}, {"false", false}})
	r.form, r.choices = FormYes, []string{"yes", "no"}
	value(k, name, to, r, means, example)
}

// statedYes declares a key that is yes or no and means neither if it is left
// out; nil: not stated.
func (k keys) statedYes(name string, to **bool, means, example string) {
	b := new(bool)
	k.yes(name, b, means, example)
	if k.has(name) {
		*to = b
	}
}

// mostText is the longest text that a sheet has room for.
const mostText = 500

// text declares a text. One that must be there must say something.
func (k keys) text(name string, to *string, means, example string) {
	parse := saying
	if k.demand.may && k.demand.when == "" {
		parse = cleanText
	}
	value(k, name, to, reader[string]{form: FormText, code: "value-text", parse: parse}, means, example)
}

// mostName is the longest name that titles and tables have room for.
const mostName = 80

// name declares a text that stands in titles, tables and references.
func (k keys) name(name string, to *string, means, example string) {
	mayBeEmpty := k.demand.may && k.demand.when == ""
	value(k, name, to, reader[string]{form: FormText, code: "value-text", parse: func(s string) (string, error) {
		t, err := cleanText(s)
		switch n, strange := len([]rune(t)), strings.IndexFunc(t, unlettered); {
		case err != nil:
		case n == 0 && !mayBeEmpty:
			return saying(s)
		case strange >= 0:
			r, _ := utf8.DecodeRuneInString(t[strange:])
			err = wrong("value-text", "write the name in Latin letters",
				"the lettering of the sheets has no sign for `%c` (%U), and two such names would read alike", r, r)
		case n > mostName:
			err = wrong("name-long", "shorten it; what else is to be said can stand in the notes",
				"the name has %d letters, and titles and tables have room for %d", n, mostName)
		}
		return t, err
	}}, means, example)
}

// nameSigns are the signs beyond the Latin letters that the sheets can letter and
// that people, or what they write with, put into names.
const nameSigns = "‐–—‘’“”•…′″"

// unlettered tells a sign that the lettering of the sheets has not: what is beyond
// the Latin letters with their accents (Latin Extended-A, to U+017F) and nameSigns.
func unlettered(r rune) bool { return r > 0x17f && !strings.ContainsRune(nameSigns, r) }

// saying is a text that says something.
func saying(s string) (string, error) {
	t, err := cleanText(s)
	if err == nil && t == "" {
		err = wrong("value-missing", "", "there is no text")
	}
	return t, err
}

// file declares the name of a file.
func (k keys) file(name string, to *string, means, example string) {
	value(k, name, to, reader[string]{form: FormFile, unsaid: true, code: "value-text", parse: saying}, means, example)
}

// files declares the names of files, or of one.
func (k keys) files(name string, to *[]string, means, example string) {
	values(k, name, to, reader[string]{form: FormFile, unsaid: true, code: "value-text", parse: saying}, means, example)
}

// texts declares a list of texts.
func (k keys) texts(name string, to *[]string, means, example string) {
	values(k, name, to, reader[string]{form: FormText, code: "value-text", parse: cleanText}, means, example)
}

// cleanText puts a text on one line.
func cleanText(s string) (string, error) {
	for _, r := range s {
		if hidden(r) {
			return "", wrong("value-text", "write it in plain letters",
				"a hidden control character (%U) stands in the text", r)
		}
	}
	s = strings.Join(strings.Fields(s), " ")
	if len([]rune(s)) > mostText {
		return "", wrong("value-text", "shorten it", "the text is longer than %d letters, and no sheet has room for it",
			mostText)
	}
	return s, nil
}

// cutShort notes a text that a # has cut off without a word: Bldg #4.
func (d *decoder) cutShort(called string, v *node) {
	if cuts(v.after) {
		d.notef("text-cut", v.at, "if the text goes on, put it in quotes",
			"%s is read as %s, since ` #` begins a comment", called, show(v.text))
	}
}

// cuts tells a text that goes on after a # from a comment, which has a space
// after the sign and seldom begins with a number.
func cuts(after string) bool {
	comment, ok := strings.CutPrefix(strings.TrimLeft(after, " "), "#")
	if !ok || comment == "" {
		return false
	}
	if comment[0] == ' ' {
		return strings.HasPrefix(after, " #") && len(comment) > 1 && '0' <= comment[1] && comment[1] <= '9'
	}
	return comment[0] != '#'
}

// withUnit is a reader of a number with its unit, level or side.
func withUnit[T any](code string, parse func(string) (T, error)) reader[T] {
	return reader[T]{form: FormMeasure, code: code, parse: parse}
}

// number is a reader of a number without a unit.
func number[T any](code string, parse func(string) (T, error)) reader[T] {
	return reader[T]{form: FormNumber, code: code, parse: parse}
}

// angle declares an angle in degrees between two limits.
func (k keys) angle(name string, to *Angle, least, most Angle, means, example string) {
	value(k, name, to, number("value-angle", func(s string) (Angle, error) {
		a, err := ParseAngle(s)
		if err == nil && (a < least || a > most) {
			err = wrong("angle-range", "check the angle", "%s is not between %s and %s", show(s), FormatAngle(least),
				FormatAngle(most))
		}
		return a, err
	}), means, example)
}

// date declares a calendar day.
func (k keys) date(name string, to *Date, means, example string) {
	value(k, name, to, reader[Date]{form: FormDate, code: "value-date", parse: ParseDate}, means, example)
}

// slope declares a rise over a run.
func (k keys) slope(name string, to *Slope, means, example string) {
	value(k, name, to, withUnit("value-slope", ParseSlope).in(metricSlope), means, example)
}

// temperature declares a temperature with its scale.
func (k keys) temperature(name string, to *Temperature, means, example string) {
	value(k, name, to, withUnit("value-temperature", ParseTemperature).in(metricTemperature), means, example)
}

// density declares a density of metal, in kg/m3.
func (k keys) density(name string, to *float64, means, example string) {
	value(k, name, to, withUnit("value-density", parseDensity).in(unitsOf(1, 10, "kg/m3")), means, example)
}

// weight declares a weight, in grams.
func (k keys) weight(name string, to *int64, means, example string) {
	value(k, name, to, withUnit("value-weight", parseMass).in(metricWeight), means, example)
}

// force declares a force, in newtons.
func (k keys) force(name string, to *float64, means, example string) {
	value(k, name, to, withUnit("value-force", parseForce).in(unitsOf(1, 10, "N")), means, example)
}

// pressure declares a design pressure with its level, strength or allowable.
func (k keys) pressure(name string, to *Pressure, means, example string) {
	value(k, name, to, withUnit("value-pressure", parseDemand).in(metricPressure), means, example)
}

// resistance declares a tested resistance with its level, as-pulled or allowable.
func (k keys) resistance(name string, to *Pressure, means, example string) {
	value(k, name, to, withUnit("value-pressure", parseResistance).in(metricPressure), means, example)
}

// percent declares a whole percentage.
func (k keys) percent(name string, to *int, means, example string) {
	value(k, name, to, withUnit("value-percent", parseWholePercent), means, example)
}

// minutes declares a time, in thousandths of a minute.
func (k keys) minutes(name string, to *int64, means, example string) {
	value(k, name, to, withUnit("value-minutes", parseMinutes), means, example)
}

// money declares an amount, in thousandths of the job's money.
func (k keys) money(name string, to *int64, means, example string) {
	value(k, name, to, number("value-money", parseMoney), means, example)
}

// neutralAxis declares where the neutral axis of a bend lies, in thicknesses.
func (k keys) neutralAxis(name string, to *float64, means, example string) {
	value(k, name, to, number("value-number", parseK), means, example)
}

// count declares a number of things.
func (k keys) count(name string, to *int, means, example string) {
	value(k, name, to, reader[int]{form: FormCount, code: "value-count", parse: parseCount}, means, example)
}

// factor declares a safety factor.
func (k keys) factor(name string, to *float64, means, example string) {
	value(k, name, to, number("value-factor", parseFactor), means, example)
}
