package shop_test

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"
	"copingset/layout/shop"

	"pgregory.net/rapid"
)

const in = length.Inch

// tools is a shop that can make what jobtest draws.
func tools() *job.Shop {
	return &job.Shop{K: 0.41, LeastRadius: in / 32, LeastFlange: in / 4, Brake: 2000 * in, MostTurn: 170 * job.Degree, WeldGap: in / 32,
		Sheets: []job.ShopSheet{{Width: 60 * in, Length: 200 * in, Price: 100}}, Kerf: in / 8, EndTrim: in / 4, EdgeTrim: in / 4, LeastDrop: 28 * in, Effort: 20}
}

func families(l *layout.Layout) ([]*shop.Family, int) {
	var pieces [][]*cap.Piece
	n := 0
	for _, p := range l.Perimeters {
		pieces = append(pieces, p.Pieces)
		n += len(p.Pieces)
	}
	f, _ := shop.Build(l.Job, pieces)
	return f, n
}

// byGirth is the weight of a piece as shipped by its outside dimensions, in
// grams: girth by mean of front and rear length by thickness by density.
func byGirth(j *job.Job, p *cap.Piece) float64 {
	var area float64
	for i, q := range p.Parts {
		area += p.Girth.MM() * (q.Length().MM() + p.RearLength(i).MM()) / 2
	}
	area += p.Girth.MM() * p.Allowance.MM()
	return area * j.System.Metal.Thickness.MM() * j.System.Metal.Density / 1e6
}

// The flat patterns of any job: every piece is in one family, patterns are
// plain outlines, lengths agree with the pieces, twins are mirror images.
func TestPatternsOfAnyJob(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		j := jobtest.Random(t)
		j.Shop = tools()
		l, found := layout.Build(j)
		if found.HasErrors() {
			t.Skip("not a layout")
		}
		fs, pieces := families(l)
		n := 0
		for _, f := range fs {
			n += len(f.Pieces)
			p := f.Pieces[0]
			if len(f.Bodies) == 0 && (len(p.Miters) > 2 || !l.Held.Released(p)) {
				continue // held for hand detailing
			}
			if len(f.Bodies) == 0 {
				t.Fatalf("%s has no pattern", p.Mark)
			}
			leg, together := 0, 0.0
			for _, b := range f.Bodies {
				if fold.Area(b.Flat.Outline) <= 0 || fold.Crosses(b.Flat.Outline) {
					t.Fatalf("%s, %s: outline %v", p.Mark, b.Name, b.Flat.Outline)
				}
				if b.Name == "end plate" {
					continue
				}
				if f.Kind == cap.Transition { // two bodies for one part
					together += b.Length.MM()
					continue
				}
				// The longest side is what the piece list says the part is, less half
				// a weld gap for each miter.
				long := math.Max(p.Parts[leg].Length().MM(), p.RearLength(leg).MM())
				if got := b.Length.MM(); got < long-2 {
					t.Fatalf("%s, %s: blank of %.2f for a part of %.2f", p.Mark, b.Name, got, long)
				}
				leg++
			}
			if f.Kind == cap.Transition && (len(f.Bodies) != 2 || together < p.Length().MM()-2) {
				t.Fatalf("%s: %d bodies, %.2f long together, want two of %.2f", p.Mark, len(f.Bodies), together, p.Length().MM())
			}
			if f.Twin != nil && (f.Twin.Twin != f || math.Abs(f.Twin.Area()-f.Area()) > 1e-3*f.Area()) {
				t.Fatalf("%s and its twin differ: %.1f and %.1f", f.Mark, f.Area(), f.Twin.Area())
			}
			// The girth knows of no end plate and no upstand.
			plain := p.LeftEnd == job.EndTurn && p.RightEnd == job.EndTurn
			if w := byGirth(j, p); plain && (float64(f.Grams) > 1.06*w+30 || float64(f.Grams) < 0.86*w-30) { // and of no bend deduction
				t.Fatalf("%s weighs %d g by its pattern and %.0f by its girth", p.Mark, f.Grams, byGirth(j, p))
			}
		}
		if n != pieces {
			t.Fatalf("%d pieces in families, %d in the layout", n, pieces)
		}
		o, _ := shop.Cut(j, fs, l.Held)
		planned := len(o.LeftOut)
		for _, lot := range o.Lots {
			for _, b := range lot.Bars {
				planned += len(b.Closers)
			}
			for _, b := range lot.Blanks {
				if b.Family != nil && b.Body == 0 {
					planned += b.Count
				}
			}
		}
		if planned != pieces {
			t.Fatalf("%d pieces planned or left out, %d in the layout", planned, pieces)
		}
	})
}

func TestSamplesHavePatterns(t *testing.T) {
	for _, s := range []string{"rectangle", "l-shape", "metric"} {
		j, found := job.Read(os.DirFS(filepath.Join("..", "..", "samples")), s+"/job.yaml")
		if found.HasErrors() {
			t.Fatal(found)
		}
		l, _ := layout.Build(j)
		fs, _ := families(l)
		o, f2 := shop.Cut(j, fs, l.Held)
		t.Logf("%s: %d families, yield %.0f %%, %v", s, len(fs), 100*o.Used/o.Bought, f2)
		for _, f := range fs {
			t.Logf("%s x%d %s: %s", f.Mark, len(f.Pieces), f.Pieces[0].Mark, f.Sentence())
		}
		for _, lot := range o.Lots {
			for _, b := range lot.Bars {
				t.Logf("lot %q: bars %d proven %v price %d bound %d", lot.Elevation, len(b.Plan.Bars), b.Plan.Proven, b.Plan.Price, b.Plan.Bound)
			}
			t.Logf("lot %q: sheets %d proven %v price %d bound %d", lot.Elevation, len(lot.Sheets.Sheets), lot.Sheets.Proven, lot.Sheets.Price, lot.Sheets.Bound)
		}
	}
}
