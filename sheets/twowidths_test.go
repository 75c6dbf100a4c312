package sheets

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/job"
)

// twoWidths is a job with corners of two widths: square ones, inside and
// outside, one that turns 45 degrees outside and one of 60 inside.
func twoWidths(t *testing.T) *layout.Layout {
	t.Helper()
	j, found := job.Read(os.DirFS(filepath.Join("testdata", "two-widths")), "job.yaml")
	if found.HasErrors() {
		t.Fatal(found)
	}
	l, more := layout.Build(j)
	if !chairAlone(more) {
		t.Fatal(more)
	}
	return l
}

// The sheets of corners of two widths are faultless in both systems of units,
// and print each leg's width and slope where the shop and the crew look.
func TestTwoWidthSheets(t *testing.T) {
	t.Parallel()
	l := twoWidths(t)
	n := 0
	for _, p := range l.Perimeters {
		for _, q := range p.Pieces {
			for _, m := range q.Miters {
				if m.Two() {
					n++
				}
			}
		}
	}
	if n != 4 {
		t.Fatalf("%d corners of two widths, want 4", n)
	}
	packet := Packet(l, Options{})
	for _, f := range CheckDrawn(l, packet) {
		t.Error(f)
	}
	seen := map[string]int{}
	for _, s := range packet {
		text := strings.Join(strings.Fields(wordsOf(s.Scene)), " ")
		switch {
		case strings.HasPrefix(s.Title, "Corner"), s.Kind == ShopSheet:
			if !strings.Contains(text, "(2.7") {
				continue
			}
			if s.Kind == ShopSheet {
				seen["Shop"]++
				continue
			}
			seen["Corner"] += strings.Count(s.Title, "/")
			if strings.HasPrefix(s.Title, "Corner") && (!strings.Contains(text, "(3.1") || !strings.Contains(text, "lower than the next cap")) {
				t.Errorf("%s does not say how its legs fall", s.Title)
			}
		case (s.Kind == RunSheet || s.Kind == Sections) && strings.Contains(text, "Two widths at"):
			seen["Run"] += strings.Count(text, "Two widths at")
		}
	}
	// Four corners; each has its legs on drawings of their own; each has two legs on the sheets of their runs.
	if seen["Corner"] != 4 || seen["Shop"] < 4 || seen["Run"] != 8 {
		t.Errorf("%v", seen)
	}
	for _, s := range Schedules(l) {
		if s.Name != "pieces.csv" {
			continue
		}
		for _, row := range s.Rows {
			if row[1] == "C/D" && (row[10] != `13" + 15"` || row[12] != `13"`) {
				t.Errorf("piece C/D is listed as %v", row)
			}
		}
	}
}
