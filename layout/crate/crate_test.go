package crate_test

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/crate"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"
)

func TestCrates(t *testing.T) {
	j := jobtest.Job()
	j.Crating.WeightMost = 60000
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(960*length.Inch, 480*length.Inch)}
	l, found := layout.Build(j)
	if len(found) != 0 {
		t.Fatal(found)
	}
	if l.Crates[0].Kind != crate.Hardware || l.Crates[0].N != 1 {
		t.Errorf("the first crate opened holds %s", l.Crates[0].Kind)
	}
	last, kind := 0, crate.Hardware
	for _, c := range l.Crates[1:] {
		if c.Kind < kind {
			t.Errorf("crate %d, %s, comes after %s", c.N, c.Kind, kind)
		}
		if c.Kind != kind {
			last, kind = 0, c.Kind
		}
		if c.Grams > j.Crating.WeightMost {
			t.Errorf("crate %d weighs %d g", c.N, c.Grams)
		}
		for _, i := range c.Items {
			if (i.Piece.Kind == cap.Straight) != (c.Kind == crate.Caps) {
				t.Errorf("crate %d of %s holds %s", c.N, c.Kind, i.Mark)
			}
			// From the top down a crate is in laying order: loaded in reverse.
			if i.Piece.Laying <= last {
				t.Errorf("crate %d: %s, laid %d, lies under %d", c.N, i.Mark, i.Piece.Laying, last)
			}
			last = i.Piece.Laying
		}
	}
}

func TestHardwareCountsTheWall(t *testing.T) {
	j := jobtest.Job()
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*length.Inch, 240*length.Inch)}
	l, _ := layout.Build(j)
	chairs, joints, fasteners := 0, 0, 0
	for _, r := range l.Runs() {
		chairs += len(r.Chairs)
		joints += len(r.Joints)
	}
	for _, f := range l.Fasteners() {
		fasteners += f.Count
	}
	if fasteners != (3+2)*chairs { // the rows of the test
		t.Errorf("%d fasteners in %d chairs", fasteners, chairs)
	}
	want := map[string]int{"chair": chairs + crate.Spare(chairs, 3), "splice plate": joints + crate.Spare(joints, 3), "corner support": 4}
	for _, i := range l.Crates[0].Items {
		if n, ok := want[i.What]; ok && i.Count != n {
			t.Errorf("%s: %d, want %d", i.What, i.Count, n)
		}
		delete(want, i.What)
	}
	if len(want) > 0 {
		t.Errorf("missing: %v", want)
	}
	for _, c := range []struct{ n, percent, want int }{{100, 3, 3}, {101, 3, 4}, {1, 5, 1}, {10, 0, 0}} {
		if got := crate.Spare(c.n, c.percent); got != c.want {
			t.Errorf("%d%% of %d: %d", c.percent, c.n, got)
		}
	}
}

// elevated gives the runs of a job elevations, by turns of a drawn length.
func elevated(t *rapid.T, j *job.Job) *job.Job {
	names := []string{"", "north", "east"}
	for i := range j.Perimeters {
		for k := range j.Perimeters[i].Runs {
			j.Perimeters[i].Runs[k].Elevation = rapid.SampledFrom(names).Draw(t, "elevation")
		}
	}
	j.Crating.WeightMost = int64(rapid.IntRange(8, 120).Draw(t, "crate kg")) * 1000
	j.Crating.LengthMost = length.Length(rapid.IntRange(24, 150).Draw(t, "crate in")) * length.Inch
	if rapid.Bool().Draw(t, "tare stated") {
		j.Crating.Tare = int64(rapid.IntRange(1, 7).Draw(t, "tare kg")) * 1000
	}
	return j
}

// Every released piece travels once, in laying order from the top; weights sum;
// groups are of one lot and nothing is lost in them; no crate is too heavy or too
// long but for a piece that is so alone, and that is said.
func TestPacked(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		j := elevated(t, jobtest.Random(t))
		l, found := layout.Build(j)
		if found.HasErrors() {
			t.Skip("not a layout")
		}
		travels := map[*cap.Piece]int{}
		for _, c := range l.Crates {
			if c.Kind == crate.Hardware {
				if c.Grams != 0 || c.Gross() != 0 {
					t.Fatalf("hardware weighs %d g, and the job does not say", c.Grams)
				}
				continue
			}
			var sum int64
			last := 0
			for _, i := range c.Items {
				travels[i.Piece]++
				sum += l.Weight(i.Piece).Shipped
				if i.Piece.Laying <= last {
					t.Fatalf("crate %d: %s, laid %d, lies under %d", c.N, i.Mark, i.Piece.Laying, last)
				}
				last = i.Piece.Laying
			}
			if sum != c.Grams {
				t.Fatalf("crate %d weighs %d g, its pieces %d", c.N, c.Grams, sum)
			}
			if want := c.Grams + j.Crating.Tare; j.Crating.Tare > 0 && c.Gross() != want || j.Crating.Tare == 0 && c.Gross() != 0 {
				t.Fatalf("crate %d: gross %d g, want %d or not known", c.N, c.Gross(), want)
			}
			n := 0
			for k, g := range c.Groups() {
				if k > 0 && c.Groups()[k-1].Lot == g.Lot {
					t.Fatalf("crate %d: two groups of lot %q on end", c.N, g.Lot)
				}
				for _, i := range g.Items {
					if i.Mark != c.Items[n].Mark || i.Piece.Lot != g.Lot {
						t.Fatalf("crate %d: %s of lot %q stands under %q", c.N, i.Mark, i.Piece.Lot, g.Lot)
					}
					n++
				}
			}
			if n != len(c.Items) {
				t.Fatalf("crate %d: %d lines in groups, %d in it", c.N, n, len(c.Items))
			}
			packed := c.Packed()
			if packed[0].Mark != c.Items[len(c.Items)-1].Mark || packed[len(packed)-1].Mark != c.Items[0].Mark {
				t.Fatalf("crate %d: %s goes in first", c.N, packed[0].Mark)
			}
			heavy := c.Grams+j.Crating.Tare > j.Crating.WeightMost
			if heavy && len(c.Items) > 1 {
				t.Fatalf("crate %d of %d pieces weighs %d g", c.N, len(c.Items), c.Grams+j.Crating.Tare)
			}
			said := false
			for _, f := range l.Findings {
				for _, q := range c.Over {
					said = said || f.Code == "crate-over" && slices.Contains(f.Where.Pieces, q.Mark)
				}
			}
			if over := heavy || c.Longest > j.Crating.LengthMost; over != (len(c.Over) > 0) || over != said {
				t.Fatalf("crate %d: over %v, listed %d, said %v", c.N, over, len(c.Over), said)
			}
			if lift, known := c.Lift(&j.Site); known && c.Grams+c.Tare > 2*j.Site.OnePerson && lift != cap.Mechanical {
				t.Fatalf("crate %d of %d g is lifted by %d", c.N, c.Grams+c.Tare, lift)
			}
		}
		for _, p := range l.Perimeters {
			for _, q := range p.Pieces {
				want := 0
				if l.Held.Released(q) {
					want = 1
				}
				if travels[q] != want {
					t.Fatalf("piece %s travels %d times, want %d", q.Mark, travels[q], want)
				}
			}
		}
	})
}

// Where the shop's data is stated, a crate weighs what its patterns do.
func TestCratesWeighDevelopedAreas(t *testing.T) {
	j := jobtest.Job()
	j.System.RearClearance = 3 * length.Inch / 8 // more than the hook reaches in
	j.Shop = &job.Shop{K: 0.41, KSource: "bend test", LeastRadius: length.Inch / 32, LeastFlange: length.Inch / 4, Brake: 2000 * length.Inch, MostTurn: 170 * job.Degree,
		Sheets: []job.ShopSheet{{Width: 60 * length.Inch, Length: 200 * length.Inch}}, Effort: 20}
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*length.Inch, 240*length.Inch)}
	l, found := layout.Build(j)
	if len(found) != 1 || found[0].Code != "chair-not-stated" { // the test job's
		t.Fatal(found)
	}
	n := 0
	for _, c := range l.Crates {
		for _, i := range c.Items {
			if i.Piece == nil {
				continue
			}
			n++
			if f := l.FamilyOf(i.Piece); i.Grams != f.Grams {
				t.Errorf("%s weighs %d g in its crate, its pattern %d", i.Mark, i.Grams, f.Grams)
			}
		}
	}
	if n == 0 {
		t.Error("nothing is crated")
	}
}

func TestLiftOfACrate(t *testing.T) {
	s := &job.Site{OnePerson: 20000, LongPiece: 96 * length.Inch}
	for _, c := range []struct {
		grams, tare int64
		want        cap.Lift
		known       bool
	}{
		{5000, 6000, cap.OnePerson, true},
		{15000, 6000, cap.TwoPersons, true},
		{39000, 1001, cap.Mechanical, true},
		{40001, 0, cap.Mechanical, true}, // too heavy without its own weight
		{39000, 0, cap.TwoPersons, false},
		{0, 6000, cap.OnePerson, false}, // hardware: nobody knows
	} {
		k := &crate.Crate{Grams: c.grams, Tare: c.tare}
		if lift, known := k.Lift(s); lift != c.want || known != c.known {
			t.Errorf("%d g in %d g: %d, known %v", c.grams, c.tare, lift, known)
		}
	}
}

func TestOverSaysWhatAndByWhat(t *testing.T) {
	for _, c := range []struct {
		change func(*job.Crating)
		code   string
		want   []string
	}{
		{func(c *job.Crating) { c.LengthMost = 120 * length.Inch }, "crate-over",
			[]string{"piece A-02 is ", "long, and a crate may be 10'-0\" (3048 mm)"}},
		{func(c *job.Crating) { c.WeightMost, c.Tare = 14000, 8000 }, "piece-over-crate",
			[]string{"A-02", "with the crate's own weight, and a crate may weigh 30.9 lb (14.0 kg)"}},
	} {
		j := jobtest.Job()
		c.change(&j.Crating)
		j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*length.Inch, 240*length.Inch)}
		l, _ := layout.Build(j)
		var text string
		for _, f := range l.Findings {
			if f.Code == c.code {
				text += f.What + "\n"
			}
		}
		for _, want := range c.want {
			if !strings.Contains(text, want) {
				t.Errorf("%q is not said in %s", want, text)
			}
		}
	}
}

func TestSparesOfSupportsAndShims(t *testing.T) {
	j := jobtest.Job()
	j.Crating.SpareSupport, j.Crating.SpareShim, j.Crating.SpareTape = 30, 50, 100
	p := jobtest.Rectangle(480*length.Inch, 240*length.Inch)
	for i := range p.Runs[0].Readings {
		p.Runs[0].Readings[i].TopOutside = -length.Length(i%3) * length.Inch / 8
	}
	j.Perimeters = []job.Perimeter{p}
	l, _ := layout.Build(j)
	shims := 0
	for _, i := range l.Crates[0].Items {
		n := i.Count - i.Spare
		switch i.Sort {
		case crate.Support:
			if i.Spare != crate.Spare(n, 30) || i.Spare == 0 {
				t.Errorf("%d corner supports to spare of %d", i.Spare, n)
			}
		case crate.Shim:
			shims++
			if i.Spare != crate.Spare(n, 50) {
				t.Errorf("%d shims to spare of %d", i.Spare, n)
			}
		case crate.Tape:
			if i.Spare == 0 {
				t.Errorf("no roll of %d is spare", i.Count)
			}
		case crate.Screw:
			if i.Box != 100 {
				t.Errorf("%s in boxes of %d", i.What, i.Box)
			}
		}
	}
	if shims == 0 {
		t.Error("no shims are crated")
	}
}
