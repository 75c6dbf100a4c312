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

// byGirth is the weight of a piece as shipped by its girth, in grams: that by mean of
// front and rear length by thickness by density.
func byGirth(l *layout.Layout, p *cap.Piece) float64 {
	j := l.Job
	var area float64
	for i, q := range p.Parts {
		area += l.Girth(q).MM() * (q.Length().MM() + p.RearLength(i).MM()) / 2
	}
	area += l.GirthOf(p).MM() * p.Allowance.MM()
	return area * j.System.Metal.Thickness.MM() * j.System.Metal.Density / 1e6
}

// atMiters is the most that the miters of a part take off its longest mold line.
// At a turn t the miter's plane crosses a leg at t/2 off square, so that half the gap
// g square to it is g/2 / cos(t/2) along the leg; and the edge is square to the sheet,
// of whichever face is the nearer: where the longest leg turns away from its
// neighbour that is the back, T tan(t/2) shorter than the mold line. Over a change
// of slope the same holds of tops, which are T plumb-wise through a metal that falls.
func atMiters(j *job.Job, p *cap.Piece, leg int) float64 {
	var out float64
	thick := j.System.Metal.Thickness.MM() * math.Hypot(1, float64(j.System.Profile.TopSlope)/1e9)
	for _, k := range []int{leg - 1, leg} {
		if k < 0 || k >= len(p.Miters) {
			continue
		}
		turn := p.Miters[k].Corner.CapTurn
		if p.Miters[k].Corner.Straight() {
			turn = p.Miters[k].Corner.Bend
		}
		half := math.Abs(turn.Degrees()) / 2 * math.Pi / 180
		out += j.Shop.WeldGap.MM()/2/math.Cos(half) + thick*math.Tan(half)
	}
	return out
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
				// The longest side is what the piece list says the part is, less what the
				// seams of its miters take.
				long := math.Max(p.Parts[leg].Length().MM(), p.RearLength(leg).MM())
				if got, want := b.Length.MM(), long-atMiters(j, p, leg); got < want-1e-3 {
					t.Fatalf("%s, %s: blank of %.3f for a part of %.3f, whose seams leave %.3f", p.Mark, b.Name, got, long, want)
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
			least, most := 0.9, 1.06 // nor of drips past a corner and hooks short of it
			if f.Kind == cap.Straight && len(p.Cutouts) == 0 {
				least, most = 0.999, 1.001
			}
			if w := byGirth(l, p); plain && (float64(f.Grams) > most*w+30 || float64(f.Grams) < least*w-30) {
				t.Fatalf("%s weighs %d g by its pattern and %.0f by its girth", p.Mark, f.Grams, w)
			}
		}
		if n != pieces {
			t.Fatalf("%d pieces in families, %d in the layout", n, pieces)
		}
		o, _ := shop.Cut(j, fs, 0, l.Held)
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
		o, f2 := shop.Cut(j, fs, 0, l.Held)
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
