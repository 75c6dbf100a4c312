package view

import (
	"strings"
	"testing"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"

	"pgregory.net/rapid"
)

func TestKeyPlanIsFaultless(t *testing.T) {
	for _, s := range scenarios() {
		t.Run(s.name, func(t *testing.T) {
			l := solved(t, s)
			for _, size := range []drawing.Point{{X: 39000, Y: 22000}, {X: 27000, Y: 24000}, {X: 19000, Y: 24000}} {
				k := KeyPlan(words.Book{}, l.KeyPlan(), size.X, size.Y)
				faultless(t, k)
				everythingNamed(t, l, k)
				if a, b := k.Dump(), KeyPlan(words.Book{}, l.KeyPlan(), size.X, size.Y).Dump(); a != b {
					t.Error("the same layout gave two different key plans")
				}
			}
		})
	}
}

// everythingNamed checks that nothing was left out because there was no room: each run
// with its length, each corner with both its angles.
func everythingNamed(t interface {
	Helper()
	Errorf(string, ...any)
}, l *layout.Layout, k drawing.Scene) {
	t.Helper()
	lettered, st := lettering(k), length.Crew(l.Job.Units == job.Metric)
	for _, p := range l.Perimeters {
		for _, r := range p.Runs {
			if _, ok := find(k, r.Name); !ok && !strings.Contains(lettered, "un "+r.Name) {
				t.Errorf("run %s is not named", r.Name)
			}
			if want := drawing.Letter(st.Long(r.Front)); !strings.Contains(lettered, want) && !strings.Contains(lettered, drawing.Letter(inSentence(st, r.Front))) {
				t.Errorf("run %s: its length %s is not lettered", r.Name, want)
			}
		}
		for _, c := range p.Corners {
			kind, turn, included := TurnSaid(words.Book{}, layout.TurnOf(c))
			if c.Absorb {
				kind = "KINK"
			}
			for _, want := range []string{c.Name, kind, turn, included} {
				if !strings.Contains(strings.ReplaceAll(lettered, ", ", " "), strings.ReplaceAll(want, ", ", " ")) {
					t.Errorf("corner %s: %q is not lettered", c.Name, want)
				}
			}
		}
	}
}

func TestKeyPlanSmallIsFaultless(t *testing.T) {
	for _, s := range scenarios() {
		t.Run(s.name, func(t *testing.T) {
			l := solved(t, s)
			for _, r := range l.Runs() {
				k := KeyPlanSmall(words.Book{}, l.KeyPlan(), l.SpotOfRuns(r), 5500, 4000)
				faultless(t, k)
				if _, ok := find(k, r.Name); !ok {
					t.Errorf("run %s: its name is missing", r.Name)
				}
				if c := r.Right.Corner; c != nil {
					faultless(t, KeyPlanSmall(words.Book{}, l.KeyPlan(), l.SpotOfCorner(c), 5500, 4000))
				}
			}
			for _, p := range special(l) {
				faultless(t, KeyPlanSmall(words.Book{}, l.KeyPlan(), l.SpotOfPiece(p), 5500, 4000))
			}
		})
	}
}

// The first run is drawn to the right, so that of a first run bearing east
// north is up the sheet, and of one bearing north it is to the right.
func TestNorthTurnsWithTheBearing(t *testing.T) {
	for _, c := range []struct {
		bearing job.Angle
		north   int
	}{{90 * job.Degree, 900}, {0, 0}, {180 * job.Degree, 1800}, {270 * job.Degree, 2700}, {75 * job.Degree, 750}} {
		s := withPerimeters("bearing", rectangle(12*inch))
		s.job.Perimeters[0].Bearing = c.bearing
		if got := solved(t, s).KeyPlan().North; got != c.north {
			t.Errorf("first run bearing %s: north at %d tenths, want %d", job.FormatAngle(c.bearing), got, c.north)
		}
	}
}

// ROOF must never stand on the street: inside the walls of a roof, outside
// those of a well.
func TestRoofIsNamedOnItsOwnSide(t *testing.T) {
	for _, s := range scenarios() {
		l := solved(t, s)
		if len(l.Perimeters) > 1 {
			continue // one word for each panel; the cases with one perimeter tell
		}
		k := KeyPlan(words.Book{}, l.KeyPlan(), 39000, 22000)
		var roof drawing.Text
		for _, x := range k.Texts() {
			if x.Words == "ROOF" && x.Size == drawing.Title && x.At.Y > keyHead {
				roof = x
			}
		}
		if roof.Words == "" {
			t.Errorf("%s: the roof is not named", s.name)
			continue
		}
		sh := keyShapeOf(l.KeyPlan().Perimeters[0])
		var ring []drawing.Point
		m := planMap(t, k, sh)
		for _, r := range sh.runs {
			ring = append(ring, m.at(r.o))
		}
		if k := l.Perimeters[0].Job.Kind; k != job.Open && holdsPoint(ring, roof.At) != (k == job.Roof) {
			t.Errorf("%s: ROOF stands on the wrong side of the wall", s.name)
		}
	}
}

// planMap finds where a key plan drew a shape, by the scale it states and the
// front line of its first run.
func planMap(t *testing.T, k drawing.Scene, sh keyShape) paperMap {
	t.Helper()
	var ratio float64
	for _, s := range append(Scales(true), Scales(false)...) {
		if _, ok := find(k, drawing.Letter("Scale "+s.Name)); ok {
			ratio = float64(s.Ratio)
		}
	}
	m := paperMap{ratio: ratio}
	var found bool
	k.Walk(func(layer drawing.Layer, mark drawing.Mark) {
		line, ok := mark.(drawing.Line)
		if found || !ok || layer != drawing.Wall || len(line.Pts) != 2 {
			return
		}
		r := sh.runs[0]
		m.origin = drawing.Point{}
		a := m.at(r.o)
		m.origin = line.Pts[0].Sub(a)
		found = m.at(r.at(r.long, 0)) == line.Pts[1]
	})
	if !found {
		t.Fatal("the wall line of the first run is not on the key plan at the scale it states")
	}
	return m
}

// A perimeter that misses closing says by how much, and that pieces are not
// adjusted; perimeters side by side say that they are not placed.
func TestKeyPlanSaysWhatItIsNot(t *testing.T) {
	all := scenarios()
	said := lettering(KeyPlan(words.Book{}, solved(t, all[0]).KeyPlan(), 39000, 22000))
	for _, want := range []string{"The measurements close within the limit of", "the ends are 5/16″ apart",
		"Pieces are not adjusted"} {
		if !strings.Contains(said, want) {
			t.Errorf("missing %q", want)
		}
	}
	open := solved(t, all[0]).KeyPlan()
	open.Perimeters[0].Within.Pass = false
	said = lettering(KeyPlan(words.Book{}, open, 39000, 22000))
	if !strings.Contains(said, "The measurements do not meet: the ends are 5/16″ apart") {
		t.Error("a perimeter that misses its limit does not say so")
	}
	said = lettering(KeyPlan(words.Book{}, solved(t, all[3]).KeyPlan(), 39000, 22000))
	if !strings.Contains(said, "NOT PLACED TO EACH OTHER") {
		t.Error("two perimeters stand side by side without a warning")
	}
	square := withPerimeters("closes", jobtest.Rectangle(30*foot, 20*foot))
	said = lettering(KeyPlan(words.Book{}, solved(t, square).KeyPlan(), 39000, 22000))
	if strings.Contains(said, "do not meet") || strings.Contains(said, "adjusted") {
		t.Error("a perimeter that closes is said to be adjusted")
	}
}

func TestKeyPlanOfAnyJob(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		l, found := layout.Build(jobtest.Random(t))
		if found.HasErrors() {
			t.Skip("not a layout to draw")
		}
		k := KeyPlan(words.Book{}, l.KeyPlan(), 39000, 23000)
		faultless(t, k)
		everythingNamed(t, l, k)
		r := l.Runs()[0]
		faultless(t, KeyPlanSmall(words.Book{}, l.KeyPlan(), l.SpotOfRuns(r), 5500, 4000))
	})
}

// The plans of a job have one north: a perimeter whose first run is walked the
// other way is drawn turned half round, not with an arrow of its own.
func TestPerimetersShareOneNorth(t *testing.T) {
	s := withPerimeters("two norths", rectangle(12*inch), rectangle(12*inch))
	s.job.Perimeters[1].Name = "SECOND"
	s.job.Perimeters[0].Bearing, s.job.Perimeters[1].Bearing = 75*job.Degree, 165*job.Degree
	l := solved(t, s)
	for i, want := range []xy{{1, 0}, {0, 1}} {
		if got := keyShapeOf(l.KeyPlan().Perimeters[i]).runs[0].dir; got.sub(want).length() > 1e-3 {
			t.Errorf("perimeter %d: its first run goes along %v, want %v", i, got, want)
		}
	}
	if got := l.KeyPlan().North; got != 750 {
		t.Errorf("north at %d tenths, want 750", got)
	}
}
