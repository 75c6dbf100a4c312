package takeoff

import (
	"os"
	"slices"
	"testing"
	"testing/fstest"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// of reckons a job of a folder that is held in memory.
func of(t *testing.T, files fstest.MapFS, name string) (*Takeoff, finding.List) {
	t.Helper()
	return Of(func(include []string) (*job.Job, finding.List) { return job.ReadTakeoff(files, name, include) })
}

// samples are the files of the samples, in memory.
func samples(t *testing.T) fstest.MapFS {
	t.Helper()
	out := fstest.MapFS{}
	for _, name := range []string{"rectangle/job.yaml", "l-shape/job.yaml", "metric/job.yaml", "systems/brindle-r8.yaml",
		"systems/ravelin-k4.yaml", "systems/hallin-m139.yaml", "firms/tern-and-ledge.yaml"} {
		data, err := os.ReadFile("../../samples/" + name)
		if err != nil {
			t.Fatal(err)
		}
		out[name] = &fstest.MapFile{Data: data}
	}
	return out
}

func edit(t *testing.T, files fstest.MapFS, name, was, is string) {
	t.Helper()
	text := string(files[name].Data)
	i := len(text) - len(text[indexOf(t, text, was):])
	files[name] = &fstest.MapFile{Data: []byte(text[:i] + is + text[i+len(was):])}
}

func indexOf(t *testing.T, text, what string) int {
	t.Helper()
	for i := 0; i+len(what) <= len(text); i++ {
		if text[i:i+len(what)] == what {
			return i
		}
	}
	t.Fatalf("there is no %q", what)
	return 0
}

// A job without its survey is counted: the files of the survey are not there at all.
func TestCountsWithoutASurvey(t *testing.T) {
	take, found := of(t, samples(t), "rectangle/job.yaml")
	if take == nil {
		t.Fatal(found)
	}
	if len(take.Options) != 5 {
		t.Fatalf("%d options", len(take.Options))
	}
	names := []string{"", "closer chairs", "short stock", "shims under chairs", "second fabricator"}
	for i, o := range take.Options {
		if o.Name != names[i] || o.Failed.HasErrors() || o.Whole <= 0 {
			t.Errorf("option %q: %v, %d", o.Name, o.Failed, o.Whole)
		}
		var sum int64
		for _, l := range o.Lines {
			sum += l.Money
			if l.Quantity <= 0 || l.Added < 0 {
				t.Errorf("%s: counts nothing: %+v", o.Name, l)
			}
		}
		if sum != o.Sum || o.Whole != o.Sum+o.Unforeseen {
			t.Errorf("%s: the lines cost %d, the sum is %d and the whole %d", o.Name, sum, o.Sum, o.Whole)
		}
	}
	own, closer, shims := &take.Options[0], &take.Options[1], &take.Options[3]
	if total(own, Chairs) >= total(closer, Chairs) {
		t.Errorf("chairs at 24 in are %d, the job's own %d", total(closer, Chairs), total(own, Chairs))
	}
	if total(own, Plywood) == total(shims, Plywood) {
		t.Errorf("both ways to build up take %d sheets of plywood", total(own, Plywood))
	}
}

func total(o *Option, w What) int64 {
	var n int64
	for _, l := range o.Lines {
		if l.What == w {
			n += l.Total()
		}
	}
	return n
}

// By hand: pieces, chairs and time of the sample's own way, from its layout measured
// as drawn, by loops of their own.
func TestAgainstTheLayout(t *testing.T) {
	files := samples(t)
	j, found := job.ReadTakeoff(files, "rectangle/job.yaml", nil)
	if j == nil {
		t.Fatal(found)
	}
	suppose(j, j.Takeoff.Uneven)
	l, found := layout.Build(j)
	if found.HasErrors() {
		t.Fatal(found)
	}
	var chairs, straight, special int64
	for _, r := range l.Runs() {
		chairs += int64(len(r.Chairs))
	}
	for _, p := range l.Perimeters {
		for _, q := range p.Pieces {
			if q.Kind == cap.Straight {
				straight++
			} else {
				special++
			}
		}
	}
	take, _ := of(t, files, "rectangle/job.yaml")
	own := &take.Options[0]
	quantity := func(w What) (n int64) {
		for _, q := range own.Lines {
			if q.What == w {
				n += q.Quantity
			}
		}
		return n
	}
	if got := quantity(Chairs); got != chairs {
		t.Errorf("%d chairs, the layout has %d", got, chairs)
	}
	if got := quantity(Caps) + quantity(Closers); got != straight {
		t.Errorf("%d straight pieces, the layout has %d", got, straight)
	}
	// 7 min a chair, 14 min a straight piece, 35 min another; 12 % more; 58 an hour.
	money := func(n, minutes int64) int64 { return (n*minutes*112*58000 + 3000) / 6000 }
	for w, want := range map[What]int64{SetChairs: money(chairs, 7), LayCaps: money(straight, 14),
		LaySpecial: money(special, 35)} {
		for _, q := range own.Lines {
			if q.What == w && q.Money != want {
				t.Errorf("line %d costs %d, by hand %d", w, q.Money, want)
			}
		}
	}
}

// What is missing is said, once, where it is to be written.
func TestWidthIsAsked(t *testing.T) {
	files := samples(t)
	edit(t, files, "rectangle/job.yaml", "    width: 12\" ", "    # width: 12\" ")
	take, found := of(t, files, "rectangle/job.yaml")
	if take != nil || len(found) != 1 || found[0].Code != "takeoff-width" || found[0].At.Line == 0 {
		t.Fatalf("%v", found)
	}
}

// An option that cannot be is said so, and the others stand.
func TestOptionsThatCannotBe(t *testing.T) {
	files := samples(t)
	edit(t, files, "rectangle/job.yaml", `chair_spacing: 24"`, `chair_spacing: 60"`)
	edit(t, files, "rectangle/job.yaml", "include: [../systems/ravelin-k4.yaml, ../firms/tern-and-ledge.yaml]  #",
		"include: [../systems/none.yaml]  #")
	take, found := of(t, files, "rectangle/job.yaml")
	if take == nil {
		t.Fatal(found)
	}
	codes := func(i int) []string {
		var out []string
		for _, f := range take.Options[i].Failed {
			out = append(out, f.Code)
		}
		return out
	}
	if !slices.Equal(codes(1), []string{"takeoff-spacing"}) || !slices.Contains(codes(4), "file-missing") ||
		take.Options[2].Failed.HasErrors() {
		t.Errorf("%v %v %v", codes(1), codes(2), codes(4))
	}
}

// What has no price is told and in no sum.
func TestUnpricedIsTold(t *testing.T) {
	files := samples(t)
	edit(t, files, "firms/tern-and-ledge.yaml", "    per_plate: 7.20", "    # per_plate: 7.20")
	take, found := of(t, files, "rectangle/job.yaml")
	if take == nil {
		t.Fatal(found)
	}
	o := take.Options[0]
	if len(o.Unpriced) != 1 || o.Unpriced[0].What != Plates || o.Unpriced[0].Money != 0 {
		t.Errorf("%+v", o.Unpriced)
	}
}

// Without a shop the metal is by area or by weight, at the price of either.
func TestMetalByItsArea(t *testing.T) {
	j, found := job.ReadTakeoff(samples(t), "rectangle/job.yaml", nil)
	if j == nil {
		t.Fatal(found)
	}
	j.Shop = nil
	for _, c := range []struct {
		price job.MetalPrice
		unit  Unit
	}{{job.MetalPrice{Money: 3900, Square: 92903.04, Unit: "ft2", IsStated: true}, Square},
		{job.MetalPrice{Money: 3100, Grams: 453.59237, Unit: "lb", IsStated: true}, Grams}} {
		j.Takeoff.Rates.SheetPrice = c.price
		j.Takeoff.Options = nil
		take, found := Of(func([]string) (*job.Job, finding.List) { return j, nil })
		if take == nil {
			t.Fatal(found)
		}
		priced := slices.IndexFunc(take.Options[0].Lines, func(l Line) bool {
			return l.Group == Metal && l.Unit == c.unit && l.Price == Priced
		})
		if priced < 0 || take.Options[0].Lines[priced].Money <= 0 {
			t.Errorf("no metal by %s: %+v", c.price.Unit, take.Options[0].Lines)
		}
	}
}

// Tops sag to the middle by what they are taken to, and stations lie in order from end
// to end.
func TestSupposedTops(t *testing.T) {
	for _, long := range []length.Length{length.Foot, 7 * length.Foot, 100 * length.Foot} {
		r := &job.Run{Readings: []job.Reading{{Width: 1}, {Width: 1, Station: long}}}
		got := tops(r, length.Inch)
		lowest := length.Length(0)
		for i, q := range got {
			lowest = min(lowest, q.TopInside)
			if i > 0 && q.Station <= got[i-1].Station {
				t.Errorf("%v: stations out of order", long)
			}
		}
		if lowest != -length.Inch || got[0].TopInside != 0 || got[len(got)-1].TopInside != 0 ||
			got[len(got)-1].Station != long {
			t.Errorf("%v: %+v", long, got)
		}
	}
}
