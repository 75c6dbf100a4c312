package sheets

import (
	"regexp"
	"strings"
	"testing"

	"copingset/drawing"
	"copingset/layout/fact"
)

// unnamedMost is how many numbers the sheets of a kind may letter without the name of a
// fact, in all samples together. It only ever goes down; a kind that is not in it may
// letter none. Those in it are not named yet, and have some room to grow with their
// sheets.
var unnamedMost = map[Kind]int{ // look-up only
	Safety:           24,
	WorkSheet:        30,
	RunSheet:         70,
	FastenerSchedule: 110,
	Transmittal:      10,
	Assemblies:       297,
	TestedSection:    156,
	Reports:          100,
	Materials:        375,
	Statement:        10,
	Checklist:        150,
	CrateList:        56,
	PieceLabels:      260,
	CrateLabels:      30,
}

// untoldMost is how many texts of the sheets of a kind may have a number that none of the
// facts named with it is; a kind that is not in it may have none.
var untoldMost = map[Kind]int{ // look-up only
	CrateList:        14,
	FastenerSchedule: 21,
	RunSheet:         120,
	Basis:            10,
	WallReport:       9,
}

// A number of a sheet is none that letters a fact where it is part of a name, says how a
// drawing or a sheet is to be read, or stands in a rule.
var (
	numbers = regexp.MustCompile(`[0-9]`)
	// scale bars, scales, origins of running dimensions, sheets, feet of tables
	ownNumbers = []*regexp.Regexp{
		regexp.MustCompile(`^0$|^0′-0″$`),                                                  // where a row of distances begins
		regexp.MustCompile(`(?i)\b(scale|drawn ×)[^;]*$`),                                  // what a drawing is drawn to
		regexp.MustCompile(`^(At corner .*|Roof-side leg), (1:[0-9]+|.*1′-0″)$`),           // the same of a detail
		regexp.MustCompile(`lengthwise (1:[0-9]+|.*= 1′-0″)`),                              // and of a run
		regexp.MustCompile(`continued (on|from) sheet .*$`),                                // another sheet
		regexp.MustCompile(`(?i)\b(on )?sheets? [0-9.A-Z]+`),                               // the same
		regexp.MustCompile(`^[0-9]+ sheets(, continued)?$`),                                // how many sheets there are
		regexp.MustCompile(`^[0-9]+[ab]$`),                                                 // a step of which one or the other is done
		regexp.MustCompile(`HOLE [0-9]+`),                                                  // its name
		regexp.MustCompile(`\b[a-z][0-9]\b`),                                               // a corner's of a blank
		regexp.MustCompile(`from its mark 0,`),                                             // where stations begin
		regexp.MustCompile(`ISO [0-9:-]+|NIOSH [0-9-]+|ES-1|FM [0-9]+|RE-[0-9]|AWS A2\.4`), // standards
		regexp.MustCompile(`ACI 117-90 4\.3\.3|UFGS 03700 p\. 26|TMS 602`),                 // what they allow of walls
		// and of loads, and how they count wind
		regexp.MustCompile(`ASCE 7-[0-9]+|ASCE 7, section 2\.4, 0\.6D \+ 0\.6W|0\.6 × strength|0\.613 takes V in m/s`),
		regexp.MustCompile(`51 lb( \(23 kg\)?)?|23 kg( \(51 lb\)?)?`), // where the lifting equation begins
		// how a bend is measured and what a hem and a bend take up
		regexp.MustCompile(`a turn (of 90° or less|over 90°)|at 90°, to a square|past a turn of 90°|2T − pi K T`),
		regexp.MustCompile(`(2 )?tan\(turn/2\)|2 \(R \+ T\)|\(pi/180\)`),
		regexp.MustCompile(`SHA-256|^release [0-9.]+$`), // how sources are told apart; the program's own
	}
	// marks are what places and parts are called, those of examples too.
	marks = regexp.MustCompile(`^\(?[A-Z][A-Z0-9]*(/[A-Z0-9]+)*(-[A-Z]*[0-9]+[A-Z]?)?\)?$`)
)

// names of things that a ledger has, with numbers in them.
func namesIn(l fact.Ledger) map[string]bool {
	out := map[string]bool{} // look-up only
	for _, f := range l {
		for _, w := range strings.Fields(strings.NewReplacer("/", " ", "-", " ").Replace(f.Of)) {
			out[w] = true
		}
		for _, w := range strings.Fields(f.Of) {
			out[w] = true
		}
		if f.Unit == fact.Words { // what a job or a report calls something
			for _, w := range strings.Fields(f.Value) {
				if numbers.MatchString(w) && strings.ToUpper(w) != strings.ToLower(w) {
					out[strings.Trim(w, ".,:;()")] = true
				}
			}
		}
	}
	return out
}

// bareNumbers are the words of a text that have a number in them which is part of no
// name.
func bareNumbers(words string, names map[string]bool) []string {
	for _, r := range ownNumbers {
		words = r.ReplaceAllString(words, "")
	}
	var out []string
	for _, w := range strings.Fields(words) {
		w = strings.Trim(w, ".,:;()")
		if numbers.MatchString(w) && !names[w] && !marks.MatchString(w) {
			out = append(out, w)
		}
	}
	return out
}

// onScale says that words stand on a scale that things are read off, or say where a
// sheet is to be found: a scale bar, whose lettering is small, an axis of the plots of a
// wall, the number of a sheet and its page in the list of them.
func onScale(s Sheet, layer drawing.Layer, x drawing.Text, sheets map[string]bool) bool {
	bar := barLabel.MatchString(x.Words) && (layer == drawing.NoLayer || x.Size == drawing.Small)
	listed := sheets[x.Words] || s.Kind == Index && layer == drawing.Tables && pageNumber.MatchString(x.Words)
	return bar || listed || s.Kind == WallReport && layer == drawing.Dimensions
}

var (
	barLabel   = regexp.MustCompile(`^[0-9]+(′|″|′-0″| m| mm| ft)?$`)
	pageNumber = regexp.MustCompile(`^[0-9]+$|^[0-9]+\.[A-Z-]+\.[0-9]+$`) // of a page, of a sheet as an example
)

// counted is what the sheets of a packet letter by number.
type counted struct {
	texts, unnamed, untold map[Kind]int // look-up only
	some                   map[Kind][]string
}

// Every number on a sheet is a fact, and says which: but for those of the frame, which
// say what sheet of what issue it is, and those named above. What it letters is the value
// of that fact, exactly or to the step of its sheet.
func TestNumbersNameTheirFacts(t *testing.T) {
	all, err := samplePackets()
	if err != nil {
		t.Fatal(err)
	}
	n := counted{map[Kind]int{}, map[Kind]int{}, map[Kind]int{}, map[Kind][]string{}}
	for _, c := range all {
		n.look(t, c)
	}
	for k := Index; k <= Form; k++ {
		t.Logf("%s: %d texts with numbers, %d without the name of a fact, %d with a number more", k, n.texts[k],
			n.unnamed[k], n.untold[k])
		if n.unnamed[k] > unnamedMost[k] || n.untold[k] > untoldMost[k] {
			t.Errorf("%s sheets letter %d numbers without a fact and %d beside one; allowed are %d and %d:\n%s", k,
				n.unnamed[k], n.untold[k], unnamedMost[k], untoldMost[k],
				strings.Join(n.some[k][:min(12, len(n.some[k]))], "\n"))
		}
	}
}

// look goes through the sheets of a packet.
func (n *counted) look(t *testing.T, c drawn) {
	ledger, sheets := c.layout.Facts(), map[string]bool{} // look-up only
	names, by := namesIn(ledger), map[string]fact.Fact{}  // look-up only
	for _, f := range ledger {
		by[f.Name()] = f
	}
	for _, s := range c.sheets {
		sheets[s.Number] = true
	}
	b := newBook(c.layout, Options{})
	for _, s := range c.sheets {
		s.Scene.Walk(func(layer drawing.Layer, m drawing.Mark) {
			x, ok := m.(drawing.Text)
			if !ok || layer == drawing.Frame || len(bareNumbers(x.Words, names)) == 0 || onScale(s, layer, x, sheets) {
				return
			}
			n.texts[s.Kind]++
			if x.Fact == "" {
				n.unnamed[s.Kind]++
				n.some[s.Kind] = append(n.some[s.Kind], c.name+" "+s.Number+": "+x.Words)
			}
		})
		for _, q := range namedOn(s) {
			rest := oneBlank(q.words)
			for _, name := range fact.Parted(q.names) {
				f, ok := by[name]
				if !ok {
					t.Errorf("%s, sheet %s: %q letters %s, which is no fact", c.name, s.Number, q.words, name)
				}
				if !b.tells(f, q.words) {
					t.Errorf("%s, sheet %s: %q does not letter %s, which is %s %s", c.name, s.Number, q.words, name,
						f.Value, f.Unit)
				}
				rest, _ = told(rest, b.ways(f))
			}
			if len(bareNumbers(rest, names)) > 0 {
				n.untold[s.Kind]++
				n.some[s.Kind] = append(n.some[s.Kind], c.name+" "+s.Number+": "+rest+" of "+q.words+" "+q.names)
			}
		}
	}
}
