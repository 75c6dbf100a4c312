package view

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"copingset/drawing"
	"copingset/drawing/place"
)

// runRowFrame is a frame as rows need it: paper and a list of notes.
func runRowFrame(width drawing.Unit) *runFrame { return &runFrame{width: width} }

// runSaid says whether words stand in marks, level, or in a note.
func runSaid(marks []drawing.Mark, notes []place.Note, words string) bool {
	s := drawing.Scene{Marks: marks}
	for _, t := range s.Texts() {
		if t.Words == words {
			return true
		}
	}
	for _, n := range notes {
		if strings.Contains(n.Words, words) {
			return true
		}
	}
	return false
}

// However close the stops of a row are, every number is said, on the drawing or
// in a note, none stands on another and nobody turns his head.
func TestRowsLoseNoNumber(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		width := drawing.Unit(rapid.IntRange(12000, 42000).Draw(t, "width"))
		f := runRowFrame(width)
		n := rapid.IntRange(2, 24).Draw(t, "stops")
		x := runHead + drawing.Unit(rapid.IntRange(0, 3000).Draw(t, "from"))
		var stops []drawing.Unit
		var labels []string
		for i := range n {
			if i > 0 {
				x += drawing.Unit(rapid.IntRange(20, 2400).Draw(t, "part"))
				labels = append(labels, drawing.Letter(rapid.SampledFrom([]string{`1 1/2"`, `2'-3 11/16"`, `0'-4"`, `12'-10 15/16"`}).Draw(t, "label")))
			}
			if x > width-runTail {
				labels = labels[:max(len(labels)-1, 0)]
				break
			}
			stops = append(stops, x)
		}
		down := rapid.Bool().Draw(t, "down")
		var marks []drawing.Mark
		if len(stops) > 1 {
			object := drawing.Unit(300)
			if down {
				object = -300
			}
			marks = f.chain("pieces", stops, labels, nil)(0, object).Marks
		}
		for _, w := range labels {
			if len(stops) > 1 && !runSaid(marks, f.rowNotes, w) {
				t.Errorf("%q is lost", w)
			}
		}
		row := &runLevels{f: f, down: down, line: down, lo: runHead, hi: width}
		for i, at := range stops {
			row.stops = append(row.stops, runStop{at: at, lines: []runLine{{"C" + runCount(i+1), drawing.Note, drawing.Bold, ""}, {drawing.Letter(`21'-10 3/16"`), drawing.Head, drawing.Regular, ""}}})
		}
		var g drawing.Scene
		_, bases := row.draw(&g)
		if len(stops) > 0 && len(bases) != 2 && len(f.rowNotes) == 0 {
			t.Errorf("the first row has %d baselines, want two", len(bases))
		}
		for i := range stops {
			if !runSaid(g.Marks, f.rowNotes, "C"+runCount(i+1)) {
				t.Errorf("stop %d is lost", i+1)
			}
		}
		for _, all := range [][]drawing.Mark{marks, g.Marks} {
			s := drawing.Scene{Marks: all}
			texts := s.Texts()
			for i, a := range texts {
				if a.Rotate != 0 {
					t.Errorf("%q is turned", a.Words)
				}
				for _, b := range texts[:i] {
					if drawing.BoundsOf([]drawing.Mark{a}).Intersects(drawing.BoundsOf([]drawing.Mark{b})) {
						t.Errorf("%q stands on %q", a.Words, b.Words)
					}
				}
			}
		}
	})
}

// A long label of a row's only part stands beside it, not on a row of its own;
// labels that fit stand in their parts.
func TestRowLabelsStandWhereTheEyeFalls(t *testing.T) {
	f := runRowFrame(40000)
	one := f.chain("whole run", []drawing.Unit{5000, 5600}, []string{"cap line 0'-9 5/8\""}, nil)(0, -220)
	if one.Box.Max.Y > 300 || one.Box.Min.X < 4800 {
		t.Errorf("the label of a short row is not beside it: %v", one.Box)
	}
	row := f.chain("pieces", []drawing.Unit{5000, 9000, 13000}, []string{"2'-3\"", "2'-4\""}, nil)(0, -220)
	for i, x := range (drawing.Scene{Marks: row.Marks}).Texts() {
		if want := drawing.Pt(7000+4000*drawing.Unit(i), -chainLift); x.At.X-want.X > 1 || want.X-x.At.X > 1 || x.At.Y-want.Y > 1 || want.Y-x.At.Y > 1 {
			t.Errorf("%q stands at %v, want %v", x.Words, x.At, want)
		}
	}
	if len(f.rowNotes) != 0 {
		t.Errorf("notes %v", f.rowNotes)
	}
}
