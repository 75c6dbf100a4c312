package specimen

import (
	"flag"
	"os"
	"strings"
	"testing"

	"copingset/drawing"
)

var update = flag.Bool("update", false, "write the golden file anew")

const golden = "testdata/specimen.dump"

func TestSpecimenIsClean(t *testing.T) {
	for _, p := range drawing.Check(Sheet()) {
		t.Error(p)
	}
}

func TestSpecimenIsAsPinned(t *testing.T) {
	got := Sheet().Dump()
	if *update {
		if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	a, b := strings.Split(got, "\n"), strings.Split(string(want), "\n")
	for i := range min(len(a), len(b)) {
		if a[i] != b[i] {
			t.Fatalf("line %d\ngot  %s\nwant %s", i+1, a[i], b[i])
		}
	}
	if len(a) != len(b) {
		t.Errorf("%d lines, want %d", len(a), len(b))
	}
}

// One line moved by a millimetre must show.
func TestAMovedLineShows(t *testing.T) {
	s := Sheet()
	g := s.Marks[1].(drawing.Group)
	l := g.Marks[0].(drawing.Line)
	before := s.Dump()
	moved := drawing.Translate([]drawing.Mark{l}, drawing.Pt(0, drawing.MM))
	g.Marks[0] = moved[0]
	if s.Dump() == before {
		t.Error("the dump does not see a line move")
	}
}

// The specimen is only a fair trial of a back end while it holds everything there is.
func TestSpecimenHoldsEverything(t *testing.T) {
	pens, hatches, tones := map[drawing.Pen]bool{}, map[drawing.HatchKind]bool{}, map[drawing.Tone]bool{}
	kinds := map[string]bool{}
	Sheet().Walk(func(_ drawing.Layer, m drawing.Mark) {
		switch m := m.(type) {
		case drawing.Line:
			pens[m.Pen], kinds["line"] = true, true
		case drawing.Arc:
			kinds["arc"] = true
		case drawing.Region:
			hatches[m.Hatch], tones[m.Fill], kinds["region"] = true, true, true
		case drawing.Text:
			kinds["text"] = true
		case drawing.Link:
			kinds["link"] = true
		}
	})
	for _, p := range drawing.Pens() {
		if !pens[p] {
			t.Errorf("no line of pen %v", p)
		}
	}
	for _, k := range drawing.HatchKinds() {
		if !hatches[k] {
			t.Errorf("no area of %v", k)
		}
	}
	for x := drawing.White; x <= drawing.Black; x++ {
		if !tones[x] {
			t.Errorf("no area of tone %v", x)
		}
	}
	if len(kinds) != 5 {
		t.Errorf("marks of kinds %v only", kinds)
	}
}
