package sheets

import (
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"copingset/drawing"
	"copingset/layout/fact"
	"copingset/layout/job"
	"copingset/layout/length"
)

// crewPackets are the crew's sheets of every sample; that a packet for the crew has
// the whole packet's own is held by TestSomePagesAreThoseOfThePacket and its like.
func crewPackets() ([]drawn, error) {
	all, err := samplePackets()
	var out []drawn
	for _, c := range all {
		crew := drawn{name: c.name, layout: c.layout}
		for _, s := range c.sheets {
			if s.Kind.For(Crew) {
				crew.sheets = append(crew.sheets, s)
			}
		}
		out = append(out, crew)
	}
	return out, err
}

// tagged is what stands on paper under the names of facts, wrapped lines joined.
type tagged struct {
	sheet, names, words string
}

// namedOn are the texts of a sheet that letter facts.
func namedOn(s Sheet) []tagged {
	var out []tagged
	last := ""
	s.Scene.Walk(func(_ drawing.Layer, m drawing.Mark) {
		t, ok := m.(drawing.Text)
		if !ok {
			return
		}
		if t.Fact != "" && t.Fact == last {
			out[len(out)-1].words += " " + t.Words
		} else if t.Fact != "" {
			out = append(out, tagged{s.Number, t.Fact, t.Words})
		}
		last = t.Fact
	})
	return out
}

// Every fact that a crew sets, measures or checks by stands on the crew's sheets
// under its name, and what stands there is that value and no other.
func TestCrewReadsEveryFact(t *testing.T) {
	all, err := crewPackets()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range all {
		b := newBook(c.layout, Options{})
		ledger := c.layout.Facts()
		by := map[string]fact.Fact{}
		for _, f := range ledger {
			by[f.Name()] = f
		}
		read := map[string]bool{}
		for _, s := range c.sheets {
			for _, n := range namedOn(s) {
				for _, name := range fact.Parted(n.names) {
					f, ok := by[name]
					if !ok {
						t.Fatalf("%s, sheet %s: %q letters %s, which is no fact", c.name, n.sheet, n.words, name)
					}
					said := b.letters
					if !slices.Contains(fact.OfCrew(), f.Kind) {
						said = b.tells
					}
					if !said(f, n.words) {
						t.Errorf("%s, sheet %s: %q does not letter %s, which is %s %s", c.name, n.sheet, n.words,
							name, f.Value, f.Unit)
					}
					read[name] = true
				}
			}
		}
		missing := 0
		for _, f := range ledger {
			if slices.Contains(fact.OfCrew(), f.Kind) && !read[f.Name()] {
				if missing++; missing < 10 {
					t.Errorf("%s: no crew's sheet letters %s", c.name, f.Name())
				}
			}
		}
		if missing > 0 {
			t.Errorf("%s: %d facts of the crew are missing", c.name, missing)
		}
		if len(read) < 200 {
			t.Errorf("%s: %d facts are named", c.name, len(read))
		}
	}
}

// A text that letters another value than its fact is found out.
func TestLettersFindsOut(t *testing.T) {
	all, err := sampleLayouts()
	if err != nil {
		t.Fatal(err)
	}
	b := newBook(all["rectangle"], Options{})
	in := length.Inch
	long := func(l length.Length) fact.Fact { return fact.Fact{Unit: fact.Length, Value: fact.Nanometres(l)} }
	for _, c := range []struct {
		f     fact.Fact
		words string
		is    bool
	}{
		{long(3*in + in/4), b.short(3*in+in/4) + " (as built)", true},
		{long(in / 4), b.short(3*in + in/4), false},
		{long(3 * in), b.short(3*in + in/4), false},
		{long(122 * in), b.long(122 * in), true},
		{long(122 * in), b.long(123 * in), false},
		{long(-in / 2), "-" + b.short(in/2), true},
		{fact.Fact{Unit: fact.Count, Value: "2"}, "2 × 1 1/2", true},
		{fact.Fact{Unit: fact.Count, Value: "2"}, "12 × 1 1/2", false},
		{fact.Fact{Unit: fact.Lengths}, "–", true},
		{fact.Fact{Unit: fact.Lengths, Value: fact.Nanometres(in / 4)}, "–", false},
		{fact.Fact{Unit: fact.Lengths, Value: fact.Nanometres(in/4) + " " + fact.Nanometres(in/4)},
			"2×" + b.exact(in/4), true},
		{fact.Fact{Unit: fact.Lengths, Value: fact.Nanometres(in / 4)}, "2×" + b.exact(in/4), false},
		{fact.Fact{What: "stands-at", Value: "joint"}, "joint J2", true},
		{fact.Fact{What: "joint", Of: "N-C3", Value: "N-J2"}, "joint J3", false},
	} {
		if got := b.letters(c.f, c.words); got != c.is {
			t.Errorf("%q letters %v: %v", c.words, c.f, got)
		}
	}
}

// fine letters a shim in a sentence.
func (b *book) fine(l length.Length) string {
	if b.metric {
		return b.shopShort(l) + " mm"
	}
	return b.shopShort(l)
}

// letters says whether words letter a value, in one of the ways that the sheets
// letter it.
func (b *book) letters(f fact.Fact, words string) bool {
	words = oneBlank(words)
	has := func(ways ...string) bool {
		return slices.ContainsFunc(ways, func(w string) bool { return holds(words, oneBlank(w)) })
	}
	switch f.Unit {
	case fact.Count:
		return has(f.Value) || f.Value == "0" && words == "–"
	case fact.Length:
		l, step := f.Length(), b.l.Grid
		ways := b.waysOf(l)
		switch f.Kind {
		case fact.Piece, fact.Joint: // parts of a chain are lettered so that they sum: up or down to the step
			ways = append(ways, b.long(length.FloorTo(l, step)), b.long(length.CeilTo(l, step)))
		case fact.Gap: // where the step reads alike at all temperatures, half of it
			ways = append(ways, b.waysOf(length.RoundTo(l, step/2))...)
		}
		return has(ways...) || l == 0 && words == "–"
	case fact.Lengths:
		if i := strings.LastIndex(words, ": "); i >= 0 { // behind what it is
			words = words[i+len(": "):]
		}
		if f.Value == "" {
			return words == "–"
		}
		var cuts []string // of a rip
		for _, l := range f.Lengths() {
			cuts = append(cuts, b.long(l))
		}
		var sum []string // behind the layers
		for _, l := range f.Lengths() {
			sum = append(sum, b.fine(l))
		}
		made := strings.Join(sum, " + ")
		return len(sum) > 0 && has("= "+made, "+ "+made) || words == oneBlank(b.shims(f.Lengths())) ||
			words == oneBlank(strings.Join(cuts, " + "))
	case fact.Temperature:
		t, err := strconv.ParseInt(f.Value, 10, 64)
		return err == nil && has(b.temperature(job.Temperature(t)))
	case fact.Words:
		switch f.What {
		case "blocks-a-chair":
			return has("no chair")
		case "blocks-a-joint":
			return has("no joint")
		case "pierces":
			return has("through the cap")
		case "stands-at":
			return has(f.Value) || f.Value == "expansion" && has("exp. joint")
		case "joint":
			return has(f.Value[strings.LastIndexByte(f.Value, '-')+1:])
		case "screws-front", "screws-rear":
			return has("HOLD")
		}
		return has(f.Value, prose(f.Value))
	}
	return false
}

// oneBlank are words with one blank wherever blanks stand: lines broken between a whole
// number and its fraction are joined with one.
func oneBlank(words string) string { return strings.Join(strings.Fields(words), " ") }

// waysOf are the ways in which a length is lettered; one below zero may say so in
// words.
func (b *book) waysOf(l length.Length) []string {
	fine := length.Style{Metric: b.metric, Denominator: 32, Places: 1}
	var out []string
	for _, v := range []length.Length{l, length.Abs(l)} {
		out = append(out, b.long(v), b.short(v), b.text(v), b.small(v), b.exact(v), b.shopLong(v), b.shopShort(v),
			drawing.Letter(fine.Short(v)))
	}
	if n := b.long(l); b.metric && len(n) > 4 { // thousands over the rest, where columns are narrow
		out = append(out, n[:len(n)-3]+" "+n[len(n)-3:])
	}
	if l == 0 {
		out = append(out, "0", "even")
	}
	return out
}

// holds says whether words hold a value whole: not as part of another number.
func holds(words, value string) bool {
	for from := 0; ; {
		i := strings.Index(words[from:], value)
		if i < 0 || value == "" {
			return false
		}
		i += from
		if !inNumber(words[:i], words[i+len(value):], value) {
			return true
		}
		from = i + 1
	}
}

// inNumber says whether what stands before or behind belongs to the same number,
// blanks between a whole number and its fraction left out.
func inNumber(before, behind, value string) bool {
	digit := func(r rune) bool { return unicode.IsDigit(r) || unicode.Is(unicode.No, r) }
	at := func(s string, last bool) rune {
		r, _ := utf8.DecodeRuneInString(s)
		if last {
			r, _ = utf8.DecodeLastRuneInString(s)
		}
		return r
	}
	if digit(at(value, false)) {
		whole := strings.TrimRightFunc(before, unicode.IsSpace)
		switch r := at(before, true); {
		case strings.HasSuffix(before, "′-") || unicode.IsLetter(r) || digit(r) || strings.ContainsRune("/.′⁄", r):
			return true
		case whole != before && digit(at(whole, true)) && strings.ContainsAny(value,
			"/⁄") && !strings.Contains(value, "′"):
			return true
		}
	}
	if !digit(at(value, true)) {
		return false
	}
	r := at(behind, false)
	if digit(r) || strings.ContainsRune("/⁄′", r) || r == '.' && len(behind) > 1 && digit(rune(behind[1])) {
		return true
	}
	next := strings.TrimLeftFunc(behind, unicode.IsSpace)
	part := strings.TrimLeftFunc(next, unicode.IsDigit)
	return next != behind && part != next && strings.ContainsRune("/⁄", at(part, false)) && part != ""
}
