package job

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"math/big"
	"strings"

	"copingset/layout/finding"
	"copingset/layout/length"
)

// problem is why a value cannot be read and how to mend it.
type problem struct{ code, what, mend string }

func (p *problem) Error() string { return p.what + ": " + p.mend }

// faultOf takes an error of any parser apart. That of a length is a sentence
// which ends with how to mend it.
func faultOf(err error, code, mend string) *problem {
	var p *problem
	if errors.As(err, &p) {
		return &problem{p.code, p.what, cmp.Or(p.mend, mend)}
	}
	what := err.Error()
	for _, verb := range []string{": write ", ": check "} {
		if i := strings.LastIndex(what, verb); i >= 0 {
			return &problem{code, what[:i], what[i+2:]}
		}
	}
	return &problem{code, what, mend}
}

func wrong(code, mend, format string, args ...any) error {
	return &problem{code: code, what: fmt.Sprintf(format, args...), mend: mend}
}

// plainNumber is the sign and digits at the head of a text, exact, and what
// follows them. A decimal comma is refused: it separates items in braces.
func plainNumber(s string) (value *big.Rat, rest string, ok bool) {
	s = strings.TrimSpace(strings.ReplaceAll(s, "−", "-"))
	digits := func(i int) int {
		for i < len(s) && '0' <= s[i] && s[i] <= '9' {
			i++
		}
		return i
	}
	start := 0
	if s != "" && (s[0] == '-' || s[0] == '+') {
		start = 1
	}
	end := digits(start)
	count := end - start
	if end < len(s) && s[end] == '.' {
		frac := digits(end + 1)
		count += frac - end - 1
		if frac > end+1 {
			end = frac
		}
	}
	if count == 0 || end-start > 40 {
		return nil, s, false
	}
	if end < len(s) && (s[end] == 'e' || s[end] == 'E') {
		exp := end + 1
		if exp < len(s) && (s[exp] == '-' || s[exp] == '+') {
			exp++
		}
		// Two digits are plenty; more would only ask for a huge number.
		if last := digits(exp); last > exp && last-exp <= 2 {
			end = last
		}
	}
	value, ok = new(big.Rat).SetString(s[:end])
	if !ok {
		return nil, s, false
	}
	return value, strings.TrimSpace(s[end:]), true
}

// whole rounds to the nearest whole number, a half away from zero.
func whole(r *big.Rat) (int64, bool) {
	two := big.NewInt(2)
	num := new(big.Int).Abs(r.Num())
	num.Add(num.Mul(num, two), r.Denom())
	q := num.Quo(num, new(big.Int).Mul(r.Denom(), two))
	if !q.IsInt64() {
		return 0, false
	}
	v := q.Int64()
	if r.Sign() < 0 {
		v = -v
	}
	return v, true
}

func times(r *big.Rat, num, den int64) *big.Rat {
	return new(big.Rat).Mul(r, big.NewRat(num, den))
}

// unit is a unit by its names and what one of it counts.
type unit struct {
	names []string
	size  *big.Rat
}

func findUnit(units []unit, name string) *big.Rat {
	name = strings.NewReplacer("²", "2", "³", "3", "^", "", " ", "").Replace(strings.ToLower(name))
	for _, u := range units {
		for _, n := range u.names {
			if n == name {
				return u.size
			}
		}
	}
	return nil
}

func rational(s string) *big.Rat {
	r, _ := new(big.Rat).SetString(s)
	return r
}

// quantity reads a number and one of the units. The mend shows how to write it.
func quantity(s, code, mend string, units []unit) (*big.Rat, error) {
	v, rest, ok := plainNumber(s)
	if !ok {
		return nil, wrong(code, mend, "%s does not begin with a number", show(s))
	}
	if rest == "" {
		return nil, wrong(code, mend, "%s needs a unit", show(s))
	}
	size := findUnit(units, rest)
	if size == nil {
		return nil, wrong(code, mend, "%s is not a unit known here", show(rest))
	}
	return new(big.Rat).Mul(v, size), nil
}

// The avoirdupois pound is 0.45359237 kg exactly, by the same agreement as the inch.
func massUnits() []unit {
	return []unit{
		{[]string{"lb", "lbs", "lb.", "pound", "pounds"}, rational("453.59237")},
		{[]string{"kg", "kilogram", "kilograms"}, rational("1000")},
		{[]string{"g", "gram", "grams"}, rational("1")},
	}
}

// parseMass gives grams.
func parseMass(s string) (int64, error) {
	const mend = "write it like 50 lb or 23 kg"
	r, err := quantity(s, "value-weight", mend, massUnits())
	if err != nil {
		return 0, err
	}
	g, ok := whole(r)
	if !ok || g <= 0 || g > 100_000_000 {
		return 0, wrong("value-weight", mend, "%s is no weight of pieces or people", show(s))
	}
	return g, nil
}

// parseDensity gives kg/m3. A pound per cubic inch is 0.45359237 kg in
// (0.0254 m)^3.
func parseDensity(s string) (float64, error) {
	const mend = "write it like 0.099 lb/in3, 171 lb/ft3 or 2740 kg/m3"
	perInch := new(big.Rat).Quo(rational("0.45359237"), rational("0.000016387064"))
	r, err := quantity(s, "value-density", mend, []unit{
		{[]string{"lb/in3", "lbs/in3", "lb/cuin"}, perInch},
		{[]string{"lb/ft3", "lbs/ft3", "lb/cuft", "pcf"}, times(perInch, 1, 1728)},
		{[]string{"kg/m3"}, rational("1")},
		{[]string{"g/cm3"}, rational("1000")},
	})
	if err != nil {
		return 0, err
	}
	d, _ := r.Float64()
	if d < 1_000 || d > 25_000 {
		return 0, wrong("value-density", mend, "%s is not the density of a sheet metal", show(s))
	}
	return d, nil
}

// parseExpansion gives a linear expansion in 1e-9 per degree Celsius.
func parseExpansion(s string) (int64, error) {
	const mend = "write it like 12.9e-6 /F or 23.2e-6 /C"
	v, rest, ok := plainNumber(s)
	if !ok {
		return 0, wrong("value-expansion", mend, "%s does not begin with a number", show(s))
	}
	per := strings.NewReplacer(" ", "", "°", "", "deg", "", "per", "/", "1/", "/").Replace(strings.ToLower(rest))
	switch per {
	case "/f":
		v = times(v, 9, 5)
	case "/c", "/k":
	default:
		return 0, wrong("value-expansion", mend, "%s does not say per which degree", show(s))
	}
	nano, ok := whole(times(v, 1_000_000_000, 1))
	if !ok || nano < 1_000 || nano > 100_000 {
		return 0, wrong("value-expansion", mend, "%s is not the expansion of a sheet metal", show(s))
	}
	return nano, nil
}

// ParseTemperature reads 68 F or 20 C. A bare number is an error.
func ParseTemperature(s string) (Temperature, error) {
	const mend = "write it with its scale, like 68 F or 20 C"
	v, rest, ok := plainNumber(s)
	if !ok {
		return 0, wrong("value-temperature", mend, "%s does not begin with a number", show(s))
	}
	scale := strings.NewReplacer(" ", "", "°", "", "deg", "").Replace(strings.ToLower(rest))
	switch scale {
	case "f", "fahrenheit":
		v = times(new(big.Rat).Sub(v, big.NewRat(32, 1)), 5, 9)
	case "c", "celsius":
	case "":
		return 0, wrong("value-temperature", mend, "%s does not say whether it is F or C", show(s))
	default:
		return 0, wrong("value-temperature", mend, "%s is not F or C", show(rest))
	}
	t, ok := whole(times(v, 1000, 1))
	if !ok || t < -100_000 || t > 200_000 {
		return 0, wrong("value-temperature", mend, "%s is no temperature of a roof", show(s))
	}
	return Temperature(t), nil
}

// ParseAngle reads degrees: 35, 35 deg, 35°.
func ParseAngle(s string) (Angle, error) {
	const mend = "write decimal degrees, like 35 or 89.75"
	v, rest, ok := plainNumber(s)
	if !ok {
		return 0, wrong("value-angle", mend, "%s does not begin with a number", show(s))
	}
	switch strings.ToLower(rest) {
	case "", "°", "deg", "deg.", "degree", "degrees":
	default:
		return 0, wrong("value-angle", mend, "%s is not degrees", show(rest))
	}
	a, ok := whole(times(v, int64(Degree), 1))
	if !ok || a < -int64(360*Degree) || a > int64(360*Degree) {
		return 0, wrong("value-angle", mend, "%s is more than a full turn", show(s))
	}
	return Angle(a), nil
}

// straight is a wall that does not turn.
const straight = 180 * Degree

// sided reads an angle with its side word, in either order.
func sided(s, first, second string) (a Angle, isFirst bool, err error) {
	words := strings.Fields(strings.ToLower(s))
	var rest []string
	side := ""
	for _, w := range words {
		if w != first && w != second {
			rest = append(rest, w)
			continue
		}
		if side != "" {
			return 0, false, wrong("value-angle", "write one of "+first+" and "+second, "%s says the side twice",
				show(s))
		}
		side = w
	}
	a, err = ParseAngle(strings.Join(rest, " "))
	if err != nil {
		if side == "" {
			for _, w := range words {
				if near := finding.Suggest(w, []string{first, second}); near != "" {
					return 0, false, wrong("value-angle", "did you mean "+near+"?", "%s is neither %s nor %s", show(w),
						first, second)
				}
			}
		}
		return 0, false, wrong("value-angle", "write the side and decimal degrees, like "+first+" 90",
			"%s is not an angle with its side", show(s))
	}
	if side == "" {
		return 0, false, bareAngle(s, a)
	}
	return a, side == first, nil
}

// ParseTurn reads how a wall turns: right 45, left 90. A turn to the right is
// positive.
func ParseTurn(s string) (Angle, error) {
	a, right, err := sided(s, "right", "left")
	if err == nil {
		err = cornerRange(s, a)
	}
	if err != nil {
		return 0, err
	}
	if !right {
		a = -a
	}
	return a, nil
}

// ParseIncluded reads an included angle, 135 outside, and gives the turn: an
// outside corner turns right, an inside one left.
func ParseIncluded(s string) (Angle, error) {
	a, outside, err := sided(s, "outside", "inside")
	switch {
	case err != nil:
		return 0, err
	case a > straight:
		return 0, wrong("angle-range",
			"write the smaller of the two angles, and whether the corner is outside or inside",
			"%s: an included angle is less than 180", show(s))
	case a < 0:
		return 0, cornerRange(s, a)
	}
	if err := cornerRange(s, straight-a); err != nil {
		return 0, err
	}
	if !outside {
		return a - straight, nil
	}
	return straight - a, nil
}

// bareAngle names both readings of an angle that does not say which it is.
func bareAngle(s string, a Angle) error {
	n := strings.TrimSuffix(FormatAngle(max(a, -a)), "°")
	return wrong("angle-bare",
		fmt.Sprintf("write `turn: right %s` (or left) if the wall turns by it, or `included: %s outside` (or inside) "+
			"if it is the angle between the faces", n, n),
		"%s is a bare angle, and a corner can be made from either reading of it", show(s))
}

func cornerRange(s string, turn Angle) error {
	switch {
	case turn < 0:
		return wrong("angle-range", "say right or left, outside or inside, and leave the sign away", "%s has a sign",
			show(s))
	case turn == 0:
		return wrong("angle-range", "write the two stretches as one run", "%s does not turn, so there is no corner",
			show(s))
	case turn >= 175*Degree:
		return wrong("angle-range", "check the angle; a corner turns less than 175 degrees",
			"%s turns by %s, back along itself", show(s), FormatAngle(turn))
	}
	return nil
}

// ParseSlope reads 1/2" in 12", 1:24, 4% or 2.4 deg.
func ParseSlope(s string) (Slope, error) {
	const mend = "write it like 1/2\" in 12\", 1:24, 4% or 2.4 deg"
	fail := func(what string) (Slope, error) { return 0, wrong("value-slope", mend, "%s %s", show(s), what) }
	s = strings.TrimSpace(s)
	if v, rest, ok := plainNumber(s); ok && (rest == "%" || rest == "deg" || rest == "°" || rest == "degrees") {
		if rest == "%" {
			return slope(times(v, 1, 100), s, mend)
		}
		deg, _ := v.Float64()
		if deg < 0 || deg > 45 {
			return fail("is not a slope of a coping")
		}
		// The one place a slope is rounded from trigonometry.
		return Slope(math.Round(math.Tan(deg*math.Pi/180) * 1e9)), nil
	}
	if rise, run, ok := strings.Cut(s, ":"); ok {
		a, restA, okA := plainNumber(rise)
		b, restB, okB := plainNumber(run)
		if !okA || !okB || restA != "" || restB != "" || b.Sign() <= 0 {
			return fail("is not a ratio")
		}
		return slope(new(big.Rat).Quo(a, b), s, mend)
	}
	// "in" is also the inch, so each one is tried as the divider.
	for at := 0; ; {
		i := strings.Index(s[at:], " in ")
		if i < 0 {
			if rise, err := length.Parse(s); err == nil && rise > 0 { // the roofer's half: so much, and the foot unsaid
				return 0, wrong("value-slope",
					"write `"+s+" in 12\"` if it falls so much in a foot, or over what length it does",
					"%s is a length and no slope: it does not say in how much", show(s))
			}
			return fail("is not a slope")
		}
		rise, errA := length.Parse(s[:at+i])
		run, errB := length.Parse(s[at+i+4:])
		if errA == nil && errB == nil && run > 0 {
			return slope(big.NewRat(int64(rise), int64(run)), s, mend)
		}
		at += i + 3
	}
}

func slope(r *big.Rat, s, mend string) (Slope, error) {
	v, ok := whole(times(r, 1_000_000_000, 1))
	if !ok || v < 0 || v > 1_000_000_000 {
		return 0, wrong("value-slope", mend, "%s is not a slope of a coping", show(s))
	}
	return Slope(v), nil
}

// levelWords are the levels as the file writes them.
func levelWords() []choice[Level] {
	return []choice[Level]{{"strength", Strength}, {"allowable", Allowable}, {"as-pulled", AsPulled}}
}

// ParsePressure reads a pressure and its level: 26 psf allowable. A pressure
// without a level is an error.
func ParsePressure(s string) (Pressure, error) {
	const mend = "write it like 26 psf allowable or 1.25 kPa strength"
	fail := func(what string) (Pressure, error) {
		return Pressure{}, wrong("value-pressure", mend, "%s %s", show(s), what)
	}
	// The level may stand before the number as well as after the unit.
	words := strings.Fields(s)
	i := 0
	for i < len(words) && strings.IndexAny(words[i], "+-−.0123456789") != 0 {
		i++
	}
	tag := append([]string(nil), words[:i]...)
	v, rest, ok := plainNumber(strings.Join(words[i:], " "))
	if !ok {
		return fail("is not a pressure")
	}
	words = strings.Fields(rest)
	if len(words) == 0 {
		return fail("needs a unit and a level")
	}
	// A pound-force is 0.45359237 kg × 9.80665 m/s2 exactly (standard gravity,
	// 3rd CGPM 1901), a square foot 0.09290304 m2 exactly.
	psf := new(big.Rat).Quo(rational("4.4482216152605"), rational("0.09290304"))
	size := findUnit([]unit{
		{[]string{"psf", "lb/ft2", "lbs/ft2", "lbf/ft2", "lb/sf"}, psf},
		{[]string{"kpa", "kn/m2"}, rational("1000")},
		{[]string{"pa", "n/m2"}, rational("1")},
	}, words[0])
	if size == nil {
		return Pressure{}, wrong("value-pressure", mend,
			"%s is not a unit of pressure known here: psf, lb/ft2, kPa, Pa", show(words[0]))
	}
	tag = append(tag, words[1:]...)
	if len(tag) == 0 {
		return Pressure{}, wrong("level-missing",
			"write its level after it: `"+s+" strength` or `"+s+" allowable`; for a resistance also `as-pulled`",
			"%s does not say its level, and strength and allowable lie far apart", show(s))
	}
	level, err := pick(strings.Join(tag, "-"), "value-level", levelWords())
	if err != nil {
		return Pressure{}, err
	}
	pa, _ := new(big.Rat).Mul(v, size).Float64()
	if !(pa > 0 && pa <= 100_000) {
		return fail("is not a design pressure; a pressure is written without a sign and is more than nothing")
	}
	return Pressure{Pa: pa, Level: level}, nil
}

// ParseDate reads YYYY-MM-DD.
func ParseDate(s string) (Date, error) {
	const mend = "write it as year-month-day, like 2026-03-16"
	fail := func() (Date, error) { return Date{}, wrong("value-date", mend, "%s is not a date", show(s)) }
	s = strings.TrimSpace(s)
	if len(s) != 10 || s[4] != '-' || s[7] != '-' {
		return fail()
	}
	number := func(t string) (n int) {
		for _, c := range t {
			if c < '0' || c > '9' {
				return -1
			}
			n = n*10 + int(c-'0')
		}
		return n
	}
	d := Date{number(s[:4]), number(s[5:7]), number(s[8:])}
	if d.Year < 1900 || d.Month < 1 || d.Month > 12 || d.Day < 1 || d.Day > daysIn(d.Year, d.Month) {
		return fail()
	}
	return d, nil
}

// daysIn is the number of days of a month in the Gregorian calendar.
func daysIn(year, month int) int {
	switch month {
	case 4, 6, 9, 11:
		return 30
	case 2:
		if year%4 == 0 && (year%100 != 0 || year%400 == 0) {
			return 29
		}
		return 28
	}
	return 31
}

// parsePercent gives thousandths.
func parsePercent(s string) (int, error) {
	const mend = "write it like 35%"
	v, rest, ok := plainNumber(s)
	if !ok || rest != "%" {
		return 0, wrong("value-percent", mend, "%s is not a percentage", show(s))
	}
	n, ok := whole(times(v, 10, 1))
	if !ok || n < 0 || n > 1000 {
		return 0, wrong("value-percent", mend, "%s is not between 0%% and 100%%", show(s))
	}
	return int(n), nil
}

// parseWholePercent gives whole percentages.
func parseWholePercent(s string) (int, error) {
	n, err := parsePercent(s)
	if err == nil && n%10 != 0 {
		err = wrong("value-percent", "write a whole percentage like 3%", "%s is not a whole percentage", show(s))
	}
	return n / 10, err
}

// parseMoney gives thousandths of the job's money.
func parseMoney(s string) (int64, error) {
	const mend = "write a plain number like 14.50"
	v, rest, ok := plainNumber(s)
	if !ok || rest != "" {
		return 0, wrong("value-money", mend, "%s is not an amount of money", show(s))
	}
	n, ok := whole(times(v, 1000, 1))
	if !ok || n < 0 || n > 1_000_000_000_000 {
		return 0, wrong("value-money", mend, "%s is no cost of a chair", show(s))
	}
	return n, nil
}

// parseFactor reads a safety factor, 1 or more.
func parseFactor(s string) (float64, error) {
	const mend = "write a number of at least 1, like 2.0"
	v, rest, ok := plainNumber(s)
	if !ok || rest != "" {
		return 0, wrong("value-factor", mend, "%s is not a safety factor", show(s))
	}
	f, _ := v.Float64()
	if f < 1 || f > 20 {
		return 0, wrong("value-factor", mend, "%s is not a safety factor", show(s))
	}
	return f, nil
}

// parseCount reads a whole number of things.
func parseCount(s string) (int, error) {
	const mend = "write a whole number like 2"
	v, rest, ok := plainNumber(s)
	if !ok || rest != "" || !v.IsInt() || v.Sign() <= 0 {
		return 0, wrong("value-count", mend, "%s is not a whole number of at least 1", show(s))
	}
	if v.Cmp(big.NewRat(1_000_000, 1)) > 0 {
		return 0, wrong("value-count", mend, "%s is more than one job counts of anything", show(s))
	}
	return int(v.Num().Int64()), nil
}

// choice is a word of the file and what it stands for.
type choice[T any] struct {
	word  string
	value T
}

// sameWord says whether two texts are one word: small and capital letters alike,
// its parts divided by blanks, hyphens or underlines.
func sameWord(a, b string) bool {
	plain := strings.NewReplacer("_", " ", "-", " ")
	return strings.EqualFold(strings.Join(strings.Fields(plain.Replace(a)), " "), plain.Replace(b))
}

// pick finds a word among the choices.
func pick[T any](s, code string, choices []choice[T]) (T, error) {
	var words []string
	for _, c := range choices {
		if sameWord(s, c.word) {
			return c.value, nil
		}
		words = append(words, c.word)
	}
	var none T
	mend := "write " + oneOf(words)
	if near := finding.Suggest(s, words); near != "" && len(s) > 2 {
		mend = "did you mean `" + near + "`? " + mend
	}
	return none, wrong(code, mend, "%s is not known here", show(s))
}

func oneOf(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}
