package sheets

import (
	"os"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/length"
)

// What is taken from the rod's reading on the benchmark is minus where the chairs are
// higher and plus where they are lower, by the difference of their heights.
func TestRodIsReadFromTheBenchmark(t *testing.T) {
	for _, c := range []struct {
		reading length.Length
		want    string
	}{
		{-28 * in, "minus 2′-4 1/2″ = rod on the build-up under every chair"}, // the chairs are 1/2 in over the datum
		{40 * in, "plus 3′-3 1/2″ = rod on the build-up under every chair"},
	} {
		j, found := job.Read(os.DirFS("../samples"), "rectangle/job.yaml")
		if found.HasErrors() {
			t.Fatal(found)
		}
		j.Benchmark = &job.Benchmark{Mark: job.Mark{What: "pin", Where: "by the hatch", Reading: c.reading},
			Check: &job.Mark{What: "chisel mark", Where: "on the plinth", Reading: c.reading + 6*in}}
		l, _ := layout.Build(j)
		b := newBook(l, Options{})
		of := b.planOf(l.Runs()[0])
		for _, k := range of.Chairs {
			if k.RodFront.Real != k.UnderFront.Real-c.reading || k.RodFront.Fact == "" {
				t.Fatalf("chair %s is %v over the benchmark, want %v", k.Mark, k.RodFront, k.UnderFront.Real-c.reading)
			}
		}
		said := ""
		for _, p := range append(b.run(b.stretches(l.Perimeters[0])[0]), b.seconds()...) {
			s := b.draw(p, "3.N.1", func(string) string { return "" })
			said += oneBlank(wordsOf(s)) + " "
		}
		for _, w := range []string{"pin, by the hatch", "rod on benchmark ____ " + c.want, "rod on benchmark minus 0′-6″ = rod there"} {
			if !strings.Contains(said, w) {
				t.Errorf("benchmark %v over the datum: the sheets do not say %q", c.reading, w)
			}
		}
	}
}
