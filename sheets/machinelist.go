package sheets

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"copingset/layout"
	"copingset/layout/fact"
	"copingset/layout/length"
)

// MachineLists are what an outside program needs to fold what is written: a row
// for each file, a row for each bend, and a row for each stated place where an
// outline stands back from its seam. Numbers are plain, in the unit of the file;
// angles are degrees. A leg is that at the left end of the body, and a column of its
// own has the one at its right.
func MachineLists(l *layout.Layout) []Schedule { return machineLists(l.Facts()) }

func machineLists(facts fact.Ledger) []Schedule {
	c := newSchedules(facts)
	list := Schedule{Name: "list.csv", Header: []string{"file", "unit", "mark", "body", "kind", "hand", "quantity",
		"metal", "thickness", "inside radius", "K", "seam gap",
		"street-side leg", "street-side leg to", "roof-side leg", "roof-side leg to", "inside width",
		"inside width, right end", "slope", "turn", "change of slope", "street-side fold, left end to right end",
		"twin", "lap", "lap width", "assembly", "issue",
		"street-side leg, right end", "roof-side leg, right end",
		"street-side fold of each leg", "roof-side fold, left end to right end", "left end", "right end",
		"turn at left end", "turn at right end", "change of slope at left end", "change of slope at right end",
		"blank length", "blank width"}}
	bends := Schedule{Name: "bends.csv", Header: []string{"file", "unit", "order", "hem or bend", "up or down", "turn",
		"included angle", "inside radius", "bend allowance",
		"gauge edge", "gauge distance", "x1", "y1", "x2", "y2", "between", "and"}}
	notches := Schedule{Name: "notches.csv", Header: []string{"file", "unit", "kind", "x1", "y1", "x2", "y2"}}
	for _, x := range c.cutBodies() {
		row := c.familyRow(x)
		if x.part {
			row = c.partRow(x)
		}
		list.Rows = append(list.Rows, row)
		bends.Rows = append(bends.Rows, c.bendRows(x)...)
		notches.Rows = append(notches.Rows, c.notchRows(x)...)
	}
	return []Schedule{list, bends, notches}
}

// cutBody is a body that is cut, as the ledger knows it.
type cutBody struct {
	of   string // family or part
	n    int    // among its bodies, from 1
	part bool
}

// is names a quantity of the body.
func (x cutBody) is(what string) string { return fmt.Sprintf("body-%d-%s", x.n, what) }

// cutBodies are those that have a file, families before parts.
func (c schedules) cutBodies() []cutBody {
	var out []cutBody
	for _, k := range []struct {
		kind fact.Kind
		what string
		part bool
	}{{fact.Family, "pieces", false}, {fact.Part, "to-cut", true}} {
		for _, of := range c.facts.Listed(k.kind, k.what) {
			for n := 1; ; n++ {
				x := cutBody{of, n, k.part}
				if !c.has(of, x.is("blank-length")) {
					break
				}
				if c.has(of, x.is("file")) {
					out = append(out, x)
				}
			}
		}
	}
	return out
}

// unit is that of the files.
func (c schedules) unit() string {
	if c.metric {
		return "mm"
	}
	return "in"
}

// plain letters a length in the unit of the files; empty where there is none.
func (c schedules) plain(of, what string) string {
	if !c.has(of, what) {
		return ""
	}
	return c.plainMM(c.length(of, what).MM())
}

// placed letters a number of millimetres in the unit of the files.
func (c schedules) placed(of, what string) string { return c.plainMM(c.float(of, what)) }

func (c schedules) float(of, what string) float64 {
	v, _ := strconv.ParseFloat(c.words(of, what), 64)
	return v
}

// degrees letters an angle; empty where there is none.
func (c schedules) degrees(of, what string) string {
	if !c.has(of, what) {
		return ""
	}
	return decimal(float64(c.number(of, what)) / 1e6)
}

// slope letters a fall as a plain number; empty where there is none.
func (c schedules) slope(of, what string) string {
	if !c.has(of, what) {
		return ""
	}
	return decimal(float64(c.number(of, what)) / 1e9)
}

// decimal letters a number with six decimals at most.
func decimal(f float64) string {
	f = math.Round(f*1e6) / 1e6
	return strconv.FormatFloat(f+0, 'f', -1, 64)
}

// plainMM letters millimetres in the unit of the files.
func (b *book) plainMM(mm float64) string {
	if b.metric {
		return decimal(mm)
	}
	return decimal(mm / 25.4)
}

func (c schedules) partRow(x cutBody) []string {
	q := x.of
	return []string{c.words(q, x.is("file")), c.unit(), strings.TrimPrefix(q, "part "), c.words(q, x.is("name")),
		c.words(q, "kind"), c.words(q, "hand"), c.words(q, "to-cut"), c.words(q, "metal"), c.plain(q, "thickness"),
		c.plain(q, "radius"), decimal(c.float(q, "k-factor")), "",
		c.plain(q, x.is("street-leg-left")), c.words(q, x.is("street-leg-to")), c.plain(q, x.is("roof-leg-left")),
		c.words(q, x.is("roof-leg-to")),
		c.plain(q, "inside-left"), c.plain(q, "inside-right"), c.slope(q, x.is("slope")), "", "",
		c.plain(q, x.is("blank-length")), c.words(q, "twin"), "", "", c.words(q, "assembly"), c.status(),
		c.plain(q, x.is("street-leg-right")), c.plain(q, x.is("roof-leg-right")),
		c.plain(q, x.is("front-fold")), c.plain(q, x.is("rear-fold")), c.words(q, x.is("left-end")),
		c.words(q, x.is("right-end")), "", "", "", "", c.plain(q, x.is("blank-length")),
		c.plain(q, x.is("blank-girth"))}
}

func (c schedules) familyRow(x cutBody) []string {
	f := x.of
	first, _, _ := strings.Cut(c.words(f, "pieces"), " ")
	gap := ""
	if c.has(f, "body-2-blank-length") {
		gap = c.plain("shop", "weld-gap")
	}
	var turns []string
	for i := 1; c.has(f, fmt.Sprintf("turn-%d", i)); i++ {
		turns = append(turns, c.degrees(f, fmt.Sprintf("turn-%d", i)))
	}
	return []string{c.words(f, x.is("file")), c.unit(), strings.TrimPrefix(f, "family "), c.words(f, x.is("name")),
		c.words(first, "kind"), c.words(f, "hand"), c.words(f, "to-cut"), c.words("system", "metal"),
		c.plain("system", "thickness"), c.plain("system", "inside-radius"), decimal(c.float("shop", "k-factor")), gap,
		c.plain(f, x.is("street-leg-left")), c.words(f, x.is("street-leg-to")), c.plain(f, x.is("roof-leg-left")),
		c.words(f, x.is("roof-leg-to")),
		c.plain(f, x.is("inside-left")), c.plain(f, x.is("inside-right")), c.slope(f, x.is("slope")),
		strings.Join(turns, " "), c.degrees(f, "change-of-slope"), c.plain(f, x.is("front-fold")), c.words(f, "twin"),
		c.words(f, x.is("lap")),
		c.plain(f, x.is("lap-width")), "", c.status(),
		c.plain(f, x.is("street-leg-right")), c.plain(f, x.is("roof-leg-right")),
		c.eachLeg(f), c.plain(f, x.is("rear-fold")), c.words(f, x.is("left-end")), c.words(f, x.is("right-end")),
		c.degrees(f, x.is("left-end-turn")), c.degrees(f, x.is("right-end-turn")),
		c.degrees(f, x.is("left-end-change-of-slope")), c.degrees(f, x.is("right-end-change-of-slope")),
		c.plain(f, x.is("blank-length")), c.plain(f, x.is("blank-girth"))}
}

// eachLeg are the street-side folds of the legs of a piece, from its left hand: of those
// at its ends from the square end to the corner, of one between from corner to corner.
func (c schedules) eachLeg(of string) string {
	var out []string
	for n := 1; c.has(of, fmt.Sprintf("body-%d-blank-length", n)); n++ {
		if x := (cutBody{of: of, n: n}); c.has(of, x.is("left-end")) {
			out = append(out, c.plain(of, x.is("front-fold")))
		}
	}
	return strings.Join(out, " ")
}

func (c schedules) bendRows(x cutBody) [][]string {
	var out [][]string
	for n := 1; c.has(x.of, x.is(fmt.Sprintf("bend-%d-order", n))); n++ {
		is := func(what string) string { return x.is(fmt.Sprintf("bend-%d-%s", n, what)) }
		at := func(what string) string { return c.placed(x.of, is(what)) }
		kind := "bend"
		if c.words(x.of, is("hem")) == "yes" {
			kind = "hem"
		}
		out = append(out, []string{c.words(x.of, x.is("file")), c.unit(), c.words(x.of, is("order")), kind,
			c.words(x.of, is("way")),
			decimal(c.float(x.of, is("turns-by-degrees"))), decimal(c.float(x.of, is("included-degrees"))),
			at("radius-mm"), at("arc-mm"),
			c.words(x.of, is("gauge-edge")), c.plain(x.of, is("gauge")), at("x1-mm"), at("y1-mm"), at("x2-mm"),
			at("y2-mm"),
			c.words(x.of, is("after-face")), c.words(x.of, is("to-face"))})
	}
	return out
}

func (c schedules) notchRows(x cutBody) [][]string {
	var out [][]string
	for n := 1; c.has(x.of, x.is(fmt.Sprintf("notch-%d-kind", n))); n++ {
		is := func(what string) string { return x.is(fmt.Sprintf("notch-%d-%s", n, what)) }
		at := func(what string) string { return c.placed(x.of, is(what)) }
		out = append(out, []string{c.words(x.of, x.is("file")), c.unit(), c.words(x.of, is("kind")), at("x1-mm"),
			at("y1-mm"), at("x2-mm"), at("y2-mm")})
	}
	return out
}

// newSchedules makes tables of a ledger by a book that only letters: it knows no
// layout, so that nothing but the ledger can be read.
func newSchedules(facts fact.Ledger) schedules {
	metric := facts.Value("job", "units") == "metric"
	return schedules{&book{metric: metric, crew: length.Crew(metric), shop: length.Shop(metric),
		digest: facts.Value("job", "input-digest"), open: facts.Value("job", "preliminary") == "yes"}, facts}
}
