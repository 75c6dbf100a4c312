package sheets

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"copingset/drawing"
	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/crate"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// A diameter or a thickness prints as it is, on a tape's marks or not.
func TestExact(t *testing.T) {
	for _, c := range []struct {
		metric bool
		l      length.Length
		want   string
	}{
		{true, 15 * length.Millimetre / 2, "7.5 mm"}, {true, 70 * length.Millimetre, "70 mm"}, {true, 125 * length.Millimetre / 100, "1.25 mm"},
		{false, 19 * in / 32, "19/32″"}, {true, 6147 * length.Millimetre / 1000, "6.147 mm"}, {false, in / 4, "1/4″"}, {false, in / 25, "0.040″"}, {false, 13 * in / 64, "13/64″"},
	} {
		b := &book{metric: c.metric}
		if got := b.exactly(c.l); got != c.want {
			t.Errorf("%v prints %q, want %q", c.l, got, c.want)
		}
	}
}

// Every hold that the cases raise has words of its own.
func TestHoldsHaveWords(t *testing.T) {
	n := 0
	for _, c := range packets() {
		b := newBook(c.layout, Options{})
		for _, f := range c.layout.Holds() {
			n++
			if w := b.holdName(f.Code); w == strings.ReplaceAll(f.Code, "-", " ") {
				t.Errorf("%s: hold %s has no words", c.name, f.Code)
			}
		}
	}
	if n == 0 {
		t.Error("no case is on hold")
	}
	if got := strings.Join(new(book).holdNames([]string{"verify-in-field", "verify-in-field", "made-up"}), "; "); got != "length not measured: verify in field; made up" {
		t.Errorf("holds read %q", got)
	}
}

// A run that is not held itself, but carries a held piece round its corner,
// says at which joint the laying stops; a held run says what not to cut.
func TestHeldPiecesAreSaidOnTheirRuns(t *testing.T) {
	stops, cuts := 0, 0
	for _, c := range packets() {
		b := newBook(c.layout, Options{})
		for _, p := range c.layout.Perimeters {
			for _, r := range p.Runs {
				text := ""
				held, own := "", false // of the runs that share its sheets
				for _, s := range c.sheets {
					names := runsOf(s)
					if !slices.Contains(names, "Run "+b.of(p, r.Name)) || s.Kind == Sections {
						continue
					}
					text += wordsOf(s.Scene)
					for _, o := range p.Runs {
						if !slices.Contains(names, "Run "+b.of(p, o.Name)) {
							continue
						}
						own = own || len(c.layout.HoldsOn(o)) > 0
						for _, q := range o.Parts {
							if !c.layout.Held.Released(q.Piece) {
								held = q.Piece.Mark
							}
						}
					}
				}
				if said := strings.Contains(text, "DO NOT LAY"); said != (held != "" && !own) {
					t.Errorf("%s, run %s: says DO NOT LAY: %v, held %q, own hold: %v", c.name, r.Name, said, held, own)
				}
				if said := strings.Contains(text, "DO NOT CUT"); own && held != "" && !said {
					t.Errorf("%s, run %s: does not say DO NOT CUT", c.name, r.Name)
				}
				if held != "" && own {
					cuts++
				} else if held != "" {
					stops++
				}
			}
		}
	}
	if stops == 0 || cuts == 0 {
		t.Errorf("%d runs with a held end, %d held: the cases have to have both", stops, cuts)
	}
}

// A signature stands on the page of the list it signs for, with two rows of it
// at least, and the withheld list on one page.
func TestSignatureStandsWithItsList(t *testing.T) {
	for _, c := range packets() {
		held := 0
		for _, s := range c.sheets {
			if s.Kind != CrateList {
				continue
			}
			text := "\n" + wordsOf(s.Scene)
			rows := 0
			s.Scene.Walk(func(_ drawing.Layer, m drawing.Mark) {
				if x, ok := m.(drawing.Text); ok && x.Words != "" && x.Align == drawing.Right {
					if _, err := strconv.Atoi(x.Words); err == nil {
						rows++
					}
				}
			})
			if strings.Contains(text, "COUNT AND INSPECT BEFORE") && rows < 2 && !short(c.layout, s) {
				t.Errorf("%s, sheet %s: signed for %d rows", c.name, s.Number, rows)
			}
			if strings.Contains(text, "these pieces are in no crate") {
				held++
			}
		}
		if held > 1 && len(c.layout.Withheld) < 20 {
			t.Errorf("%s: the withheld list stands on %d sheets", c.name, held)
		}
	}
}

// short says that the crate of a sheet has a single line.
func short(l *layout.Layout, s Sheet) bool {
	for _, c := range l.Crates {
		if strings.HasPrefix(s.Title, fmt.Sprintf("Crate %d of ", c.N)) {
			return len(c.Items) < 2
		}
	}
	return false
}

// A gap table tells temperatures apart, or has one line for all of them.
func TestGapTableTellsTemperaturesApart(t *testing.T) {
	tables, expansions := 0, 0
	for _, c := range packets() {
		b := newBook(c.layout, Options{})
		for _, r := range c.layout.Runs() {
			if g, ok := b.gapTable(r); ok {
				tables++
				alike := true
				for _, row := range g.rows[1:] {
					alike = alike && strings.Join(row[1:], "|") == strings.Join(g.rows[0][1:], "|")
				}
				if alike && len(g.rows) > 1 {
					t.Errorf("%s, run %s: all rows read %v", c.name, r.Name, g.rows[0][1:])
				}
			}
			for _, q := range r.Joints {
				if q.Kind != cap.Expansion {
					continue
				}
				expansions++
				text := ""
				for _, x := range b.gapTables(r) {
					got, _ := x.take(20000, 1<<20, true)
					s := drawing.Scene{W: 20000, H: got.h}
					got.draw(&s, drawing.Point{})
					text += "\n" + wordsOf(s)
				}
				for _, want := range []string{local(q.Name, r.Name), b.short(q.Gap()), q.Held.String() + " only"} {
					if !strings.Contains(text, "\n"+want+"\n") {
						t.Errorf("%s, joint %s: the gap table lacks %q", c.name, q.Name, want)
					}
				}
			}
		}
	}
	if tables == 0 || expansions == 0 {
		t.Errorf("%d tables, %d expansion joints", tables, expansions)
	}
}

// A run without chairs and joints names the piece that covers it.
func TestNotesOfARunCarriedByACorner(t *testing.T) {
	l := packets()[0].layout
	b := newBook(l, Options{})
	r := *l.Runs()[0]
	bare := *r.Run
	bare.Joints, r.Chairs, r.Run = nil, nil, &bare
	got := b.runNotes(&r)
	if len(got) == 0 || !strings.Contains(got[0].words, r.Parts[0].Piece.Mark) {
		t.Errorf("the notes are %q", got)
	}
}

// What includes extra length is listed with both its lengths, and its weight counts both.
func TestFieldClosersHaveTwoLengths(t *testing.T) {
	n := 0
	for _, c := range packets() {
		b := newBook(c.layout, Options{})
		text := ""
		for _, s := range c.sheets {
			if s.Kind == PieceSchedule {
				text += "\n" + wordsOf(s.Scene)
			}
		}
		for _, p := range c.layout.Perimeters {
			for _, q := range p.Pieces {
				if q.Allowance == 0 || q.Kind != cap.Straight {
					continue
				}
				n++
				for _, want := range []string{b.shopLong(q.Length() + q.Allowance), b.shopLong(q.Length()), b.weight(c.layout.Weight(q).Shipped) + " with extra"} {
					if !strings.Contains(text, "\n"+want+"\n") {
						t.Errorf("%s, piece %s: the schedule lacks %q", c.name, q.Mark, want)
					}
				}
				if b.weight(c.layout.Weight(q).Shipped) == b.weight(c.layout.Weight(q).Laid) {
					t.Errorf("%s, piece %s: the allowance weighs nothing", c.name, q.Mark)
				}
			}
		}
	}
	if n == 0 {
		t.Error("no case has a field closer")
	}
}

// A packing line tells thickness, diameter and length apart.
func TestSizesOfAPackingLine(t *testing.T) {
	j := &job.Job{Fasteners: []job.Fastener{{Name: "wood screw", Diameter: in / 4}}}
	j.Crating.TapeRoll = 50 * length.Foot
	b := newBook(&layout.Layout{Job: j}, Options{})
	for _, c := range []struct {
		item                        crate.Item
		what, long, thick, diameter string
	}{
		{crate.Item{What: "shim", Sort: crate.Shim, Length: 3 * in / 16}, "shim", "", "3/16″", ""},
		{crate.Item{What: "wood screw", Sort: crate.Screw, Length: 3 * in}, "wood screw", "3″", "", "1/4″"},
		{crate.Item{What: "sealant tape, rolls", Sort: crate.Tape, Length: 50 * length.Foot}, "sealant tape, rolls", "50 ft", "", ""},
		{crate.Item{What: "chair", Sort: crate.Chair, Length: 13 * in}, "chair", "13″", "", ""},
	} {
		z := b.sizes(c.item)
		if z.what != c.what || z.length != c.long || z.thickness != c.thick || z.diameter != c.diameter {
			t.Errorf("%s: %+v", c.item.What, z)
		}
	}
	j.Units, j.Crating.TapeRoll = job.Metric, 12000*length.Millimetre
	if z := newBook(&layout.Layout{Job: j}, Options{}).sizes(crate.Item{What: "sealant tape, rolls", Sort: crate.Tape, Length: j.Crating.TapeRoll}); z.length != "12 m" {
		t.Errorf("a roll is %q long", z.length)
	}
}

// A finding's place is one word and its empty reason a dash.
func TestFindingsRead(t *testing.T) {
	t.Parallel()
	l := *packets()[0].layout
	l.Findings = finding.List{finding.New(finding.Hold, "verify-in-field", finding.Place{File: "../shop/system.yaml", Line: 231, Col: 9}, "write `basis: measured`", "run N: from a drawing")}
	text := ""
	for _, s := range Packet(&l, Options{For: Inspector}) {
		if s.Kind == Findings {
			text += "\n" + wordsOf(s.Scene)
		}
	}
	if !strings.Contains(text, "\n../shop/system.yaml:231:9\n") || !strings.Contains(text, "\n–\n") || strings.Contains(text, "`") {
		t.Errorf("the findings read %q", text)
	}
}

// A sheet of corners made alike letters the first; what stands under the
// supports of each is the wall's, and the table beside gives it for every one.
func TestCornersMadeAlikeKeepTheirOwnPacking(t *testing.T) {
	differ := 0
	for _, c := range packets() {
		b := newBook(c.layout, Options{})
		for _, g := range c.layout.CornerGroups() {
			table, ok := b.alikeTable(g)
			if ok != (len(g) > 1) {
				t.Errorf("%s, %s: table of %d corners: %t", c.name, g[0].Mark, len(g), ok)
			}
			if !ok {
				continue
			}
			seen := map[string]bool{}
			for _, p := range c.layout.Perimeters {
				for _, s := range p.Supports {
					if !slices.Contains(g, s.Piece) {
						continue
					}
					packing := b.short(s.Packing)
					seen[packing] = true
					if !slices.ContainsFunc(table.rows, func(r []string) bool {
						return r[0] == s.Piece.Mark && strings.Contains(r[3]+",", s.Name+": "+packing+",")
					}) {
						t.Errorf("%s: no row says that %s stands on %s", c.name, s.Name, packing)
					}
				}
			}
			if len(seen) > 1 {
				differ++
			}
		}
	}
	if differ == 0 {
		t.Error("no case has corners made alike on unlike packing")
	}
}
