package drawing

import (
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"
)

// full holds every mark with every field set, so that a field the text leaves out is missed.
func full() Scene {
	s := Scene{Name: "a full one", Title: "Title \"quoted\"", Desc: "Two\nlines", W: 100, H: 50, Squeezed: true}
	s.Add(
		Line{Pen: Thick, Pts: []Point{{1, 2}, {-3, 4}}, Closed: true},
		Line{Pen: HatchPen, Pts: []Point{{5, 5}}},
		Arc{Pen: Thin, Centre: Pt(7, 8), R: 9, From: -15, To: 900},
		Arc{Pen: NoPen, Centre: Pt(7, 8), R: 9, From: 0, To: 3600, Fill: Black},
		Arc{Pen: Hold, Centre: Pt(-7, 8), R: 9, From: 10, To: 3610, Fill: Mid},
		Region{Pen: Medium, Fill: Light, Hatch: Metal, Rings: [][]Point{{{0, 0}, {9, 0}, {0, 9}}, {{1, 1}, {2, 1}, {1, 2}}}},
		Text{At: Pt(3, -4), Words: "r \"b\" \u200912′", Size: Note, Face: Bold, Align: Right,
			Rotate: -25, Width: 12345, Halo: true, Reverse: true, Fact: "N-C7.screws front|\"x\".y"},
		NewText(Pt(3, 4), "measured", Style{Align: Middle}),
		Link{Box: Box(0, 1, 2, 3), Target: "sheet 2"},
		Group{Layer: KeyPlan, ID: "a b", View: true, Words: "what it \"shows\"", Cells: []Unit{-1, 20}, Head: true, Fact: "N-C7.number",
			Sums:  []Sum{{What: "chairs", Parts: []string{"1'-0\"", "2"}, To: "3"}, {What: "sheet", From: "1", To: "3"}},
			Marks: []Mark{Group{View: true}, NewText(Pt(0, 0), "", Style{})}},
	)
	return s
}

// A field that full leaves empty everywhere would go unmissed.
func TestFullSetsEveryField(t *testing.T) {
	fields := map[string]bool{}
	set := map[string]bool{}
	note := func(v reflect.Value) {
		for i := range v.NumField() {
			name := v.Type().Name() + "." + v.Type().Field(i).Name
			fields[name] = true
			set[name] = set[name] || !v.Field(i).IsZero()
		}
	}
	var all func(marks []Mark)
	all = func(marks []Mark) {
		for _, m := range marks {
			note(reflect.ValueOf(m))
			if g, ok := m.(Group); ok {
				all(g.Marks)
				for _, u := range g.Sums {
					note(reflect.ValueOf(u))
				}
			}
		}
	}
	note(reflect.ValueOf(full()))
	all(full().Marks)
	for name := range fields {
		if !set[name] {
			t.Errorf("%s is empty in every mark", name)
		}
	}
}

func TestReadGivesTheSceneBack(t *testing.T) {
	got, err := Read(full().Dump())
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(full(), got, cmpopts.EquateEmpty()); d != "" {
		t.Error(d)
	}
	rapid.Check(t, func(t *rapid.T) {
		s := anyScene(t)
		got, err := Read(s.Dump())
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(s, got, cmpopts.EquateEmpty()); d != "" {
			t.Fatal(d)
		}
	})
}

func TestReadRefuses(t *testing.T) {
	for _, tt := range []struct{ text, want string }{
		{"", "line 1: a scene begins"},
		{"scene x", "line 1: "},
		{"scene x 1by2", "line 1: "},
		{"scene x 10x10 more", "line 1: "},
		{"scene x 10x10\ntitle words", "line 2: no quoted words"},
		{"scene x 10x10\nq thin 1,1", `line 2: "q thin 1,1" is no mark`},
		{"scene x 10x10\nl pencil 1,1", `line 2: "pencil" is no pen`},
		{"scene x 10x10\nl thin 1,1 z z", `line 2: nothing expects "z"`},
		{"scene x 10x10\nl thin 1", `line 2: "1" is no point`},
		{"scene x 10x10\nl thin 1,99999999999", "is no whole number"},
		{"scene x 10x10\na thin 1,1 5 fill pink", `line 2: "pink" is no tone`},
		{"scene x 10x10\nr thin hatch plaid | 1,1", `line 2: "plaid" is no hatch`},
		{"scene x 10x10\nt 1,1 300 slanted \"w\"", "line 2: no quoted words"},
		{"scene x 10x10\nk 1,1 2,2 \"w\"", "line 2: a link leads"},
		{"scene x 10x10\n{ Nowhere\n}", `line 2: "Nowhere" is no layer`},
		{"scene x 10x10\n{ Wall\nl thin 1,1", "line 3: a group is not closed"},
		{"scene x 10x10\n}\nl thin 1,1", `line 2: "}" is no mark`},
	} {
		if _, err := Read(tt.text); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%q: error %v, want %q", tt.text, err, tt.want)
		}
	}
}

// Whatever is read is printed and read again alike, and nothing panics.
func FuzzRead(f *testing.F) {
	f.Add(full().Dump())
	f.Add("scene x 10x10\n{ Wall\n}\n")
	f.Fuzz(func(t *testing.T, text string) {
		s, err := Read(text)
		if err != nil {
			return
		}
		again, err := Read(s.Dump())
		if err != nil {
			t.Fatalf("%v in\n%s", err, s.Dump())
		}
		if s.Dump() != again.Dump() {
			t.Errorf("%s\nbecame\n%s", s.Dump(), again.Dump())
		}
	})
}
