package sheets

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"copingset/drawing"
	"copingset/layout/fact"
)

// unnamedMost is how many numbers the sheets of a kind may letter without the name of a
// fact, in all samples together. It only ever goes down; a kind that is not in it may
// letter none. Those in fifties are not named yet, but for a few, and have room to grow
// with their sheets. What is left on shop sheets are the widths at the heads of columns,
// sentences that say how something is measured or worked out, and the job's relief in the
// sentence over a drawing; on wall sheets the widths and levels in titles of plots.
var unnamedMost = map[Kind]int{ // look-up only
	Index:            850,
	Safety:           50,
	Findings:         50,
	WorkSheet:        30,
	Plywood:          6,
	RunSheet:         330,
	CornerSheet:      300,
	Sections:         1050,
	FastenerSchedule: 500,
	Levelling:        4,
	Transmittal:      50,
	Assemblies:       400,
	TestedSection:    850,
	Reports:          150,
	Basis:            2,
	Materials:        400,
	Statement:        50,
	Checklist:        200,
	WallReport:       8,
	RFIList:          1,
	PackingList:      450,
	CrateList:        400,
	ShopSheet:        48,
	HandCheck:        4,
	CuttingPlan:      13,
	PieceLabels:      300,
	CrateLabels:      50,
}

// A number of a sheet is none that letters a fact where it is part of a name.
var (
	numbers = regexp.MustCompile(`[0-9]`)
	// scale bars, scales, origins of running dimensions, sheets, feet of tables
	ownNumbers = []*regexp.Regexp{
		regexp.MustCompile(`^0$|^0′-0″$`),                                                        // where a row of distances begins
		regexp.MustCompile(`(?i)\b(scale|drawn ×)[^;]*$`),                                        // what a drawing is drawn to
		regexp.MustCompile(`continued (on|from) sheet .*$`),                                      // another sheet
		regexp.MustCompile(`(?i)\b(on )?sheets? [0-9.A-Z]+`),                                     // the same
		regexp.MustCompile(`^[0-9]+[ab]$`),                                                       // a step of which one or the other is done
		regexp.MustCompile(`HOLE [0-9]+`),                                                        // its name
		regexp.MustCompile(`^[a-z][0-9]$`),                                                       // a corner's
		regexp.MustCompile(`ISO [0-9:-]+|NIOSH [0-9-]+|ES-1|FM [0-9]+|RE-[0-9]|AWS A2\.4`),       // standards
		regexp.MustCompile(`ACI 117-90 4\.3\.3|UFGS 03700 p\. 26|TMS 602`),                       // what they allow of walls
		regexp.MustCompile(`ASCE 7-[0-9]+|ASCE 7, section 2\.4, 0\.6D \+ 0\.6W|0\.6 × strength`), // and of loads
		regexp.MustCompile(`51 lb( \(23 kg\)?)?|23 kg( \(51 lb\)?)?`),                            // where the lifting equation begins
		regexp.MustCompile(`lengthwise (1:[0-9]+|.*= 1′-0″)`),                                    // a scale
		regexp.MustCompile(`SHA-256|^release [0-9.]+$`),                                          // how sources are told apart; the program's own
	}
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
		if numbers.MatchString(w) && !names[w] {
			out = append(out, w)
		}
	}
	return out
}

// onScale says that words stand on a scale that things are read off: a scale bar, which
// stands in no layer, or an axis of the plots of a wall.
func onScale(k Kind, layer drawing.Layer, words string) bool {
	return layer == drawing.NoLayer && barLabel.MatchString(words) || k == WallReport && layer == drawing.Dimensions
}

var barLabel = regexp.MustCompile(`^[0-9]+(′|″| m| mm| ft)?$`)

// Every number on a sheet is a fact, and says which: but for those of the frame, which
// say what sheet of what issue it is, and those named above.
func TestNumbersNameTheirFacts(t *testing.T) {
	all, err := samplePackets()
	if err != nil {
		t.Fatal(err)
	}
	count, some, total := map[Kind]int{}, map[Kind][]string{}, map[Kind]int{} // look-up only
	for _, c := range all {
		ledger := c.layout.Facts()
		names, known := namesIn(ledger), map[string]bool{} // look-up only
		for _, f := range ledger {
			known[f.Name()] = true
		}
		for _, s := range c.sheets {
			s.Scene.Walk(func(layer drawing.Layer, m drawing.Mark) {
				x, ok := m.(drawing.Text)
				if !ok || layer == drawing.Frame {
					return
				}
				for _, name := range fact.Parted(x.Fact) {
					if !known[name] {
						t.Errorf("%s, sheet %s: %q letters %s, which is no fact", c.name, s.Number, x.Words, name)
					}
				}
				bare := bareNumbers(x.Words, names)
				if len(bare) == 0 || onScale(s.Kind, layer, x.Words) {
					return
				}
				total[s.Kind]++
				if x.Fact == "" {
					count[s.Kind]++
					some[s.Kind] = append(some[s.Kind], c.name+" "+s.Number+" "+strings.Join(bare, " ")+" in "+x.Words)
				}
			})
		}
	}
	for k := Index; k <= Form; k++ {
		t.Logf("%s: %d texts with numbers, %d without the name of a fact", k, total[k], count[k])
		if n, most := count[k], unnamedMost[k]; n > most {
			if n > 12 {
				some[k] = slices.Clip(some[k][:12])
			}
			t.Errorf("%s sheets letter %d numbers without a fact, the list allows %d:\n%s", k, n, most, strings.Join(some[k], "\n"))
		}
	}
}
