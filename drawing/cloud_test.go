package drawing

import "testing"

// A cloud goes round what is new and nothing else, a triangle stands beside it and beside
// what is older, and neither makes the sheet worse to read.
func TestClouds(t *testing.T) {
	s := Scene{W: 20000, H: 10000, Name: "x"}
	var all []Revised
	for i, c := range []struct {
		words, mark string
		now         bool
	}{{"10'-9\"", "", false}, {"9'-8\"", "C", true}, {"9'-7\"", "C", true}, {"3/8\"", "B", false}, {"5/8\"", "", false}} {
		q := s.Text(Pt(4000, 2000+Unit(i)*450), c.words, Style{})
		if c.mark != "" {
			all = append(all, Revised{q, c.mark, c.now})
		}
	}
	far := s.Text(Pt(14000, 7000), "12'-0\"", Style{})
	all = append(all, Revised{far, "C", true})
	marks := Clouds(s, Box(500, 500, 19500, 9500), all)
	letters := map[string]int{}
	arcs := Scene{}
	for _, m := range marks {
		switch m := m.(type) {
		case Text:
			letters[m.Words]++
		case Arc:
			arcs.Add(m)
		}
	}
	if letters["C"] != 2 || letters["B"] != 1 {
		t.Errorf("triangles: %v", letters)
	}
	for i, q := range s.Texts() {
		near := false
		for _, m := range arcs.Marks {
			a := m.(Arc)
			near = near || boundsOf(q.Quad()).Inset(-150).Intersects(a.bounds())
		}
		if want := i == 1 || i == 2 || i == 5; want && !near {
			t.Errorf("no cloud round %s", q.Words)
		}
	}
	s.Add(marks...)
	for _, p := range Check(s) {
		t.Error(p)
	}
	// With no room beside it a cloud stands alone.
	if got := Clouds(s, Box(13900, 6700, 14100, 7100), all[len(all)-1:]); len(got) == 0 {
		t.Error("no cloud")
	} else {
		for _, m := range got {
			if _, is := m.(Text); is {
				t.Error("a triangle outside the room")
			}
		}
	}
}
