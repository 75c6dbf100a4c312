package sheets

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/fact"
	"copingset/layout/job"
	"copingset/layout/length"
)

// tells says whether words letter a value in one of the ways of the sheets; they need not
// say one that has no number.
func (b *book) tells(f fact.Fact, said string) bool {
	ways := b.ways(f)
	_, ok := told(oneBlank(said), ways)
	return ok || len(ways) == 0 || silent(f, said)
}

// silent says that a value is lettered without a number: nought as a dash or in a word,
// what there is one of by naming it.
func silent(f fact.Fact, said string) bool {
	if f.Unit == fact.Words || strings.Trim(f.Value, "0 ") != "" {
		return false
	}
	return said == "–" || strings.Contains(said, "level") || strings.Contains(said, "flat") ||
		strings.Contains(said, "even")
}

// ways are the ways in which the sheets letter a value that has a number in it, the most
// exact first: each to a stated step, and to none coarser than that of a tape. A value
// without a number has none.
func (b *book) ways(f fact.Fact) []string {
	switch f.Unit {
	case fact.Count:
		return b.countWays(f)
	case fact.Length:
		return b.lengthWays(f, f.Length())
	case fact.Lengths:
		var out []string
		for _, l := range f.Lengths() {
			out = append(out, b.lengthWays(f, l)...)
		}
		return append(out, b.shims(f.Lengths()))
	case fact.Angle:
		n, _ := strconv.ParseInt(f.Value, 10, 64)
		return angleWays(job.Angle(n).Degrees())
	case fact.Slope:
		n, _ := strconv.ParseInt(f.Value, 10, 64)
		return b.slopeWays(job.Slope(n))
	case fact.Grams:
		n, _ := strconv.ParseInt(f.Value, 10, 64)
		return []string{b.weight(n), b.partWeight(&layout.MadePart{Grams: n})}
	case fact.Temperature:
		n, _ := strconv.ParseInt(f.Value, 10, 64)
		return b.temperatureWays(job.Temperature(n))
	case fact.Pressure:
		pa, _ := strconv.ParseFloat(f.Value, 64)
		return []string{b.pressure(pa)}
	case fact.Number:
		return b.numberWays(f)
	}
	return b.wordWays(f)
}

// countWays are those of a whole number: money is in thousandths or in hundredths, time in
// minutes.
func (b *book) countWays(f fact.Fact) []string {
	n, _ := strconv.Atoi(f.Value)
	switch {
	case f.What == "number" && f.Kind == fact.Make: // of a chair, as it is called on its own run's sheet
		return []string{f.Value, "C" + f.Value}
	case strings.HasSuffix(f.What, "price") || strings.HasSuffix(f.What, "bound"):
		sheets := strings.HasPrefix(f.What, "sheets-") // a plan without prices counts cap or sheet
		return []string{b.cost(int64(n), true, sheets), b.cost(int64(n), false, sheets)}
	case strings.HasSuffix(f.What, "-money-hundredths"):
		return []string{strconv.FormatFloat(float64(n)/100, 'f', 2, 64)}
	case strings.HasSuffix(f.What, "-minutes"):
		return []string{b.say.Say(words.LevelTime, words.In("hours", strconv.Itoa(n/60)),
			words.In("minutes", fmt.Sprintf("%02d", n%60)))}
	}
	return []string{f.Value}
}

func (b *book) lengthWays(f fact.Fact, l length.Length) []string {
	out := b.waysOf(l)
	step := b.l.Grid
	// What has to be no less goes down to the step of the shop, how far a base stands out up.
	out = append(out, b.shopText(length.FloorTo(l, b.shop.Step())))
	if f.What == "base-over" {
		out = append(out, b.shopText(length.Max(0, -length.FloorTo(l, b.shop.Step()))))
	}
	for _, v := range []length.Length{l, length.Abs(l)} {
		out = append(out, b.exactly(v), b.thick(v), b.shopText(v), drawing.Letter(length.Inches(v, 64)),
			drawing.Letter(length.Feet(v, 64)), length.Decimal(v, 2), length.Decimal(v, 3))
		if b.metric {
			out = append(out, length.Millimetres(v, 2), length.Millimetres(v, 1), length.Millimetres(v, 0))
		}
	}
	// A part of a chain is lettered so that its parts sum: up or down to the step. What must not be
	// taken for more than it is goes down.
	for _, v := range []length.Length{length.FloorTo(l, step), length.CeilTo(l, step)} {
		if v == 0 {
			continue
		}
		out = append(out, b.long(v), b.short(v), b.small(v), b.text(v))
	}
	if !b.metric { // a step of a rule
		out = append(out, strings.TrimSuffix(length.Inches(l, 64), `"`)+" in")
	}
	if fine := view.BlankStyle(b.metric); f.Kind == fact.Family || f.Kind == fact.Part || f.Kind == fact.Cut {
		for _, v := range []length.Length{l, length.FloorTo(l, fine.Step()), length.CeilTo(l, fine.Step())} {
			out = append(out, b.inBlank(v), b.inBlankLong(v), drawing.Letter(view.BlankLength(b.metric, v)))
		}
	}
	if f.Kind == fact.Crate { // a roll
		out = append(out, strconv.FormatFloat(float64(l)/float64(length.Foot), 'f', -1, 64)+" ft",
			strconv.FormatFloat(l.MM()/1000, 'f', -1, 64)+" m")
	}
	if f.Kind == fact.Gap { // where the step reads alike at all temperatures, half of it
		out = append(out, b.waysOf(length.RoundTo(l, step/2))...)
	}
	return out
}

func angleWays(deg float64) []string {
	deg = math.Abs(deg)
	out := []string{job.FormatAngle(job.Angle(math.Round(deg * float64(job.Degree))))}
	for places := range 3 { // to the degree where it is reckoned
		out = append(out, strconv.FormatFloat(deg, 'f', 2-places, 64)+"°")
	}
	return out
}

func (b *book) slopeWays(s job.Slope) []string {
	if s == 0 {
		return []string{"level top"}
	}
	return []string{length.Millimetres(s.Rise(length.Metre), 0) + " mm in 1000 mm",
		drawing.Letter(length.Inches(s.Rise(length.Foot), 32)) + " in 12″",
		strconv.FormatFloat(float64(s)/1e7, 'f', 2, 64) + "%",
		strconv.FormatFloat(float64(s)/1e7, 'f', 1, 64) + "%"}
}

func (b *book) temperatureWays(t job.Temperature) []string {
	c, f := degrees(t.Celsius()), degrees(t.Fahrenheit())
	return []string{b.temperature(t), c + " °C", f + " °F", c + "°C", f + "°F", c, f}
}

// numberWays are those of a number: of an angle in degrees, of a length in millimetres, of
// an area, or of what has no unit, to as many places as it is lettered to.
func (b *book) numberWays(f fact.Fact) []string {
	v, _ := strconv.ParseFloat(f.Value, 64)
	switch {
	case strings.HasSuffix(f.What, "-degrees"):
		return angleWays(v)
	case strings.HasSuffix(f.What, "-mm2"):
		return []string{b.area(v)}
	case strings.HasSuffix(f.What, "-mm"):
		out := b.lengthWays(f, length.FromMM(v))
		return append(out, b.inches(v/25.4))
	}
	var out []string
	for places := range 6 {
		out = append(out, strconv.FormatFloat(v, 'f', 5-places, 64))
	}
	return append(out, f.Value)
}

// wordWays are words that have a number in them, as they are, and word by word.
func (b *book) wordWays(f fact.Fact) []string {
	switch {
	case f.What == "joint" || f.What == "start-mark":
		return []string{f.Value, f.Value[strings.LastIndexByte(f.Value, '-')+1:]}
	case strings.HasSuffix(f.What, "digest") && len(f.Value) > 12:
		return []string{f.Value[:6] + " " + f.Value[6:12]}
	case strings.HasSuffix(f.What, "-from") && strings.Contains(f.Value, " x "):
		return b.stockWays(f.Value)
	}
	if !numbers.MatchString(f.Value) {
		return nil
	}
	plain := strings.ReplaceAll(f.Value, "`", "")
	return append([]string{f.Value, prose(f.Value), prose(plain), drawing.Letter(f.Value)}, strings.Fields(f.Value)...)
}

// stockWays are those of a list of stocks: count, width of a sheet, length.
func (b *book) stockWays(list string) []string {
	var out []string
	for _, stock := range strings.Split(list, ", ") {
		w := strings.Split(stock, " x ")
		width, _ := strconv.ParseInt(w[1], 10, 64)
		long, _ := strconv.ParseInt(w[2], 10, 64)
		said := w[0] + " × "
		if width > 0 {
			said += b.shopShort(length.Length(width)) + " × "
		}
		out = append(out, said+b.shopLong(length.Length(long)))
	}
	return out
}

// told says whether words letter a value in one of these ways, and leaves the words that
// do not.
func told(said string, ways []string) (rest string, ok bool) {
	ways = slices.Clone(ways)
	for i, w := range ways {
		ways[i] = oneBlank(w)
	}
	slices.SortStableFunc(ways, func(a, b string) int { return len(b) - len(a) })
	for _, w := range ways {
		if w == "" || !holds(said, w) {
			continue
		}
		ok = true
		for holds(said, w) {
			said = without(said, w)
		}
	}
	return said, ok
}

// without takes the first whole mention of a value out of words.
func without(said, value string) string {
	for from := 0; ; {
		i := strings.Index(said[from:], value)
		if i < 0 {
			return said
		}
		i += from
		if !inNumber(said[:i], said[i+len(value):], value) {
			return said[:i] + "·" + said[i+len(value):]
		}
		from = i + 1
	}
}
