package length

import (
	"errors"
	"fmt"
	"math/big"
	"strings"
	"unicode"
)

// longest is more than anyone writes for one length.
const longest = 60

// Parse reads a length as people write it: 12'-3 1/2", 12' 3-1/2", 147.5",
// 12 ft 3 1/2 in, 3750 mm, 3,75 m. A number without a unit is an error, except
// zero. Decimals are read exactly and rounded to the nanometre, a half going
// away from zero. The error says how to mend the text, without repeating it
// in full; the caller knows where it stands.
func Parse(s string) (Length, error) { return parse(s, 0) }

// ParseIn reads like Parse, but a number without a unit takes the given one:
// for a column whose heading says the unit.
func ParseIn(s string, unit Length) (Length, error) {
	if unit <= 0 {
		return 0, errors.New("no unit to read a bare number in")
	}
	return parse(s, unit)
}

// ParseUnit reads the name of a unit: in, ft, mm, cm, m.
func ParseUnit(s string) (Length, error) {
	name := strings.TrimSpace(ordinary(s))
	if u := unitOf(name); u != 0 {
		return u, nil
	}
	return 0, fmt.Errorf("unknown unit %q: write in, ft, mm, cm or m", name)
}

func unitOf(name string) Length {
	switch strings.ToLower(name) {
	case `"`, "in", "in.", "inch", "inches":
		return Inch
	case "'", "ft", "ft.", "foot", "feet":
		return Foot
	case "mm", "millimetre", "millimetres", "millimeter", "millimeters":
		return Millimetre
	case "cm", "centimetre", "centimetres", "centimeter", "centimeters":
		return Centimetre
	case "m", "metre", "metres", "meter", "meters":
		return Metre
	}
	return 0
}

// fractions are the single characters that some keyboards and word processors
// put in place of a typed fraction.
var fractions = strings.NewReplacer("½", " 1/2", "¼", " 1/4", "¾", " 3/4",
	"⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8")

// ordinary puts the plain character in place of its typographic relatives.
func ordinary(s string) string {
	s = strings.Map(func(r rune) rune {
		switch r {
		case '′', '’', '‘', '´', '`':
			return '\''
		case '″', '”', '“', '„':
			return '"'
		case '−', '‐', '‑', '–', '—':
			return '-'
		case '⁄', '∕':
			return '/'
		}
		if unicode.IsSpace(r) {
			return ' '
		}
		return r
	}, s)
	return strings.ReplaceAll(fractions.Replace(s), "''", `"`)
}

// token is a number, a unit, or a single '-' or '/'.
type token struct {
	kind   byte // 'n' number, 'u' unit, '-' or '/', 0 at the end
	text   string
	unit   Length
	spaced bool // a space stands before it
}

func scan(s string) ([]token, error) {
	var toks []token
	spaced := false
	for i := 0; i < len(s); {
		c := s[i]
		if c == ' ' {
			spaced = true
			i++
			continue
		}
		t := token{spaced: spaced}
		spaced = false
		j := i + 1
		switch {
		case isDigit(c) || (c == '.' || c == ',') && j < len(s) && isDigit(s[j]):
			for j < len(s) && (isDigit(s[j]) || s[j] == '.' || s[j] == ',') {
				j++
			}
			t.kind = 'n'
		case c == '-' || c == '/':
			t.kind = c
		case c == '\'' || c == '"':
			t.kind = 'u'
		default:
			for j < len(s) && !isDigit(s[j]) && !strings.ContainsRune(` -/'",`, rune(s[j])) {
				j++
			}
			t.kind = 'u'
		}
		t.text = s[i:j]
		if t.kind == 'u' {
			if t.unit = unitOf(t.text); t.unit == 0 {
				return nil, fmt.Errorf("%q is not a unit: write in, ft, mm, cm or m", t.text)
			}
		}
		toks = append(toks, t)
		i = j
	}
	return toks, nil
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// reader walks over the tokens of one length.
type reader struct {
	toks []token
}

func (r *reader) peek(i int) token {
	if i < len(r.toks) {
		return r.toks[i]
	}
	return token{}
}

func (r *reader) skip(n int) { r.toks = r.toks[n:] }

func parse(s string, bare Length) (Length, error) {
	s = strings.TrimSpace(ordinary(s))
	if s == "" {
		return 0, errors.New(`empty: write a length such as 24" or 610 mm`)
	}
	if len(s) > longest {
		return 0, errors.New(`too many characters for a length: write it like 12'-3 1/2" or 3750 mm`)
	}
	negative := s[0] == '-'
	if negative || s[0] == '+' {
		s = s[1:]
	}
	toks, err := scan(s)
	if err != nil {
		return 0, err
	}
	r := &reader{toks: toks}
	first, err := r.term(bare)
	if err != nil {
		return 0, err
	}
	total := new(big.Rat).Set(first.value())
	if len(r.toks) > 0 {
		second, err := r.inchesAfter(first)
		if err != nil {
			return 0, err
		}
		total.Add(total, second.value())
	}
	l, err := round(total)
	if negative {
		l = -l
	}
	return l, err
}

// inchesAfter reads the inches that follow feet, and that nothing follows.
func (r *reader) inchesAfter(first term) (term, error) {
	if first.unit != Foot {
		return term{}, fmt.Errorf(
			`unclear after %s: write one number with one unit, or feet and inches like 12'-3 1/2"`,
			first.text(),
		)
	}
	if r.peek(0).kind == '-' {
		r.skip(1)
	}
	second, err := r.term(Inch)
	switch {
	case err != nil:
		return term{}, err
	case second.bare:
		return term{}, fmt.Errorf(`%s after feet needs the inch mark: write %s"`, second.written, second.written)
	case second.unit != Inch:
		return term{}, fmt.Errorf(`%s after feet needs inches: write 12'-3 1/2"`, second.text())
	case len(r.toks) > 0:
		return term{}, fmt.Errorf(`unclear after %s: write feet and inches once, like 12'-3 1/2"`, second.text())
	case !first.number.IsInt():
		return term{}, fmt.Errorf("%s is not whole feet: write either part feet or inches", first.text())
	case second.number.Cmp(big.NewRat(12, 1)) >= 0:
		return term{}, fmt.Errorf("%s after feet is a foot or more: check which of the two is meant", second.text())
	}
	return second, nil
}

// term is one number with its unit.
type term struct {
	number  *big.Rat
	written string
	unit    Length
	bare    bool // written without a unit, so the last thing in the text
}

func (t term) value() *big.Rat {
	return new(big.Rat).Mul(t.number, new(big.Rat).SetInt64(int64(t.unit)))
}

func (t term) text() string {
	switch {
	case t.unit == Inch:
		return t.written + `"`
	case t.unit == Foot:
		return t.written + "'"
	case t.unit == Millimetre:
		return t.written + " mm"
	case t.unit == Centimetre:
		return t.written + " cm"
	}
	return t.written + " m"
}

func (r *reader) term(bare Length) (term, error) {
	t, den, err := r.number()
	if err != nil {
		return term{}, err
	}
	next := r.peek(0)
	switch {
	case next.kind == 'u':
		t.unit = next.unit
		r.skip(1)
	case next.kind != 0:
		return term{}, fmt.Errorf(`unclear after %s: write it like 12'-3 1/2" or 3750 mm`, t.written)
	case bare > 0:
		t.unit, t.bare = bare, true
	case t.number.Sign() == 0:
		t.unit, t.bare = Millimetre, true
	default:
		return term{}, needsUnit(t.written, den != 0)
	}
	if den != 0 {
		if t.unit != Inch && t.unit != Foot {
			return term{}, fmt.Errorf("%s is a fraction in a metric unit: write a decimal", t.written)
		}
		if t.unit == Inch && !onTape(den) {
			// 1/15 is 1/16 mistyped far more often than it is meant.
			return term{}, fmt.Errorf(
				"%s: no tape has 1/%d of an inch: write halves to 64ths, or a decimal",
				t.written,
				den,
			)
		}
	}
	return t, nil
}

func needsUnit(written string, fraction bool) error {
	if fraction { // no millimetres: those take no fractions
		return fmt.Errorf(`%s needs a unit: write %s" or %s'`, written, written, written)
	}
	return fmt.Errorf(`%s needs a unit: write %s", %s' or %s mm`, written, written, written, written)
}

// onTape says whether a tape or a rule in tenths has such parts of an inch.
func onTape(den int64) bool {
	switch den {
	case 1, 2, 4, 8, 16, 32, 64, 10, 100, 1000:
		return true
	}
	return false
}

// number reads a decimal, a fraction, or a whole number and a fraction, and
// gives the fraction's denominator, zero if there is none.
func (r *reader) number() (term, int64, error) {
	head := r.peek(0)
	if head.kind != 'n' {
		what := "the end"
		if head.kind != 0 {
			what = fmt.Sprintf("%q", head.text)
		}
		return term{}, 0, fmt.Errorf(`a number is missing before %s: write it like 12'-3 1/2" or 3750 mm`, what)
	}
	value, err := decimal(head.text)
	if err != nil {
		return term{}, 0, err
	}
	r.skip(1)
	if r.isFraction(0) {
		f, den, err := r.fraction(head, 0)
		return term{number: f, written: head.text + "/" + big.NewInt(den).String()}, den, err
	}
	at := 0
	if r.peek(0).kind == '-' && !r.peek(0).spaced && !r.peek(1).spaced {
		at = 1
	}
	num := r.peek(at)
	if num.kind != 'n' || !r.isFraction(at+1) {
		return term{number: value, written: head.text}, 0, nil
	}
	f, den, err := r.fraction(num, at+1)
	if err != nil {
		return term{}, 0, err
	}
	written := fmt.Sprintf("%s %s/%d", head.text, num.text, den)
	if !isWhole(head.text) || f.Cmp(big.NewRat(1, 1)) >= 0 {
		return term{}, 0, fmt.Errorf(
			"%s is no mixed number: write a whole number and a fraction less than one",
			written,
		)
	}
	return term{number: value.Add(value, f), written: written}, den, nil
}

func (r *reader) isFraction(i int) bool {
	slash, den := r.peek(i), r.peek(i+1)
	return slash.kind == '/' && !slash.spaced && den.kind == 'n' && !den.spaced
}

// fraction takes the numerator and the tokens up to the denominator.
func (r *reader) fraction(num token, slash int) (*big.Rat, int64, error) {
	den := r.peek(slash + 1)
	if !isWhole(num.text) || !isWhole(den.text) || len(num.text) > 4 || len(den.text) > 4 {
		return nil, 0, fmt.Errorf("%s/%s is no fraction of whole numbers: write a decimal", num.text, den.text)
	}
	n, d := small(num.text), small(den.text)
	if d == 0 {
		return nil, 0, fmt.Errorf("%s/%s divides by zero", num.text, den.text)
	}
	r.skip(slash + 2)
	return big.NewRat(n, d), d, nil
}

func isWhole(s string) bool { return !strings.ContainsAny(s, ".,") }

// small reads up to four digits.
func small(s string) int64 {
	var v int64
	for i := range len(s) {
		v = v*10 + int64(s[i]-'0')
	}
	return v
}

// decimal reads digits with at most one point or comma. A comma before exactly
// three digits is a thousand to one reader and a decimal to another, a factor
// of a thousand apart, so it is refused.
func decimal(s string) (*big.Rat, error) {
	v, ok := new(big.Rat).SetString(strings.Replace(s, ",", ".", 1))
	if !ok || strings.HasSuffix(s, ".") || strings.HasSuffix(s, ",") {
		return nil, fmt.Errorf("%s is no number: write digits with one decimal point", s)
	}
	if whole, part, ok := strings.Cut(s, ","); ok && len(part) == 3 && strings.Trim(whole, "0") != "" {
		return nil, fmt.Errorf("%s can be read as %s.%s or %s%s: write one of them", s, whole, part, whole, part)
	}
	return v, nil
}

// round takes a count of nanometres that is not negative to the nearest whole.
func round(nm *big.Rat) (Length, error) {
	twice := new(big.Int).Lsh(nm.Num(), 1)
	twice.Add(twice, nm.Denom())
	q := twice.Quo(twice, new(big.Int).Lsh(nm.Denom(), 1))
	if !q.IsInt64() || Length(q.Int64()) > Most {
		return 0, errors.New("longer than 100 km: check the number and its unit")
	}
	return Length(q.Int64()), nil
}
