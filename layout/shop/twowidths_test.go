package shop

import (
	"math"
	"testing"

	"copingset/layout/cap"
	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/length"
	_ "copingset/layout/length/draws"
	"copingset/layout/wall"

	"pgregory.net/rapid"
)

// The metal of two legs, folded and set at their corner, keeps each to its own
// side of the seam: of the vertical plane through the outer and the inner corner
// point on their tops, of the planes that bisect the turn on what hangs below. No
// point stands nearer than half the gap, and on tops, front and rear legs some
// point stands just so far.
func TestLegsKeepToTheirSideOfTheSeam(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		mm := func(name string, lo, hi float64) length.Length { return length.FromMM(f(name, lo, hi)) }
		sys := &job.System{Metal: job.Metal{Thickness: mm("thickness", 0.6, 1.3)}}
		sys.Profile.TopSlope = job.Slope(f("slope", 0, 0.1) * 1e9)
		sys.Profile.HemReturn = mm("hem", 0, 8)
		turn := f("turn", 20, 120)
		if rapid.Bool().Draw(t, "inside") {
			turn = -turn
		}
		pair := cap.Seam{Corner: &wall.Corner{CapTurn: job.Angle(math.Round(turn * float64(job.Degree)))},
			Inside: [2]length.Length{mm("arriving", 150, 600), mm("leaving", 150, 600)}}
		if rapid.IntRange(0, 3).Draw(t, "one width") == 0 {
			pair.Inside[1] = pair.Inside[0]
		}
		turn = pair.Corner.CapTurn.Degrees() * math.Pi / 180
		m := measures{front: f("front", 60, 200), drip: f("drip", 16, 25), dripTurn: f("drip turn", 10, 60), rear: f("rear", 50, 120),
			hook: f("hook", 22, 28), hookTurn: f("hook turn", 100, 150)}
		miter := cap.Miter{Seam: pair, Trim: pair.Trims(sys)}
		gap := mm("gap", 0, 2)
		b := &builder{s: sys, shop: &job.Shop{WeldGap: gap}, bend: fold.Bend{Thickness: sys.Metal.Thickness.MM(), Radius: 0.8, K: 0.4}}
		const long = 4000
		narrow := length.Min(pair.Inside[0], pair.Inside[1])
		// In plan: the corner point of the front mold lines at the origin, x along the
		// arriving run, y to its roof. The leaving run goes on at the turn, to the right.
		sin, cos := math.Sincos(turn)
		w := [2]float64{(pair.Inside[0] + 2*sys.Metal.Thickness).MM(), (pair.Inside[1] + 2*sys.Metal.Thickness).MM()}
		// Where the rear mold lines meet: on y = w0, and w1 to the right of the leaving run.
		inner := fold.Point{X: (w[0]*cos - w[1]) / sin, Y: w[0]}
		bisector := fold.Point{X: -math.Sin(turn / 2), Y: math.Cos(turn / 2)}
		off := func(p, through, along fold.Point) float64 { // to the arriving side
			l := math.Hypot(along.X, along.Y)
			return ((p.Y-through.Y)*along.X - (p.X-through.X)*along.Y) / l
		}
		for i := range 2 {
			m.slope = float64(cap.EqualRise(sys, narrow+2*sys.Metal.Thickness, pair.Inside[i]+2*sys.Metal.Thickness)) / 1e9
			sec := section{w[i], m.slope}
			left, right := b.cutOf(miter, sec, 0, -1), fold.Cut{Seam: square(long)}
			if i == 0 {
				left, right = fold.Cut{Seam: square(0)}, b.cutOf(miter, sec, long, 1)
			}
			r := b.sheet(raw{}, m, sec, left, right)
			if r.err != nil {
				t.Skip(r.err)
			}
			lay := r.metal.Path.Lay()
			least := map[string]float64{}
			for _, s := range lay.Places(0.05) {
				finish, back := lay.Skins(s)
				name := lay.Name(s)
				for _, q := range []fold.Point{finish, back} {
					var p fold.Point
					side := 1.0
					if i == 0 {
						p = fold.Point{X: right.X(lay, s, true) - long, Y: q.X}
					} else {
						x := left.X(lay, s, false)
						p, side = fold.Point{X: x*cos - q.X*sin, Y: x*sin + q.X*cos}, -1
					}
					var d float64
					switch {
					case name == "top":
						d = off(p, fold.Point{}, fold.Point{X: inner.X, Y: inner.Y})
					case q.X > w[i]/2:
						d = off(p, inner, bisector)
					default:
						d = off(p, fold.Point{}, bisector)
					}
					d *= side
					if v, ok := least[name]; !ok || d < v {
						least[name] = d
					}
				}
			}
			for name, d := range least {
				if d < gap.MM()/2-1e-3 {
					t.Fatalf("leg %d, %s: %.4f mm off the seam, want %.4f", i, name, d, gap.MM()/2)
				}
				if (name == "top" || name == "front leg" || name == "rear leg") && d > gap.MM()/2+0.05 {
					t.Fatalf("leg %d, %s: nowhere nearer to the seam than %.4f mm, want %.4f", i, name, d, gap.MM()/2)
				}
			}
		}
	})
}

// Derived from the trims of 12 in and 8 in, MD-21 and MD-22: where the top of
// each leg ends at its rear fold.
func TestPublishedTwoWidthCuts(t *testing.T) {
	for _, c := range []struct {
		source       string
		turn         job.Angle
		trim1, trim2 float64 // in
	}{
		{"derived: turn 90", 90, 8, 12},
		{"derived: turn 60", 60, 2.3094, 9.2376},
		{"derived: turn 45, a rear edge longer than its front", 45, -0.6863, 8.9706},
	} {
		sys := &job.System{} // no thickness: outside is inside
		seam := cap.Seam{Corner: &wall.Corner{CapTurn: c.turn * job.Degree}, Inside: [2]length.Length{12 * length.Inch, 8 * length.Inch}}
		b := &builder{s: sys, shop: &job.Shop{}}
		m := cap.Miter{Seam: seam, Trim: seam.Trims(sys)}
		for i, want := range []float64{c.trim1, c.trim2} {
			w := seam.Inside[i].MM()
			sec := section{w, 1.0 / 32}
			end := b.cutOf(m, sec, 0, 1-2*float64(i)).Seam
			if got := (2*float64(i) - 1) * end(w, -sec.slope*w, 0) / 25.4; math.Abs(got-want) > 0.0001 || end(0, 0, 0) != 0 {
				t.Errorf("%s: leg %d is %.4f shorter at its rear, want %.4f", c.source, i+1, got, want)
			}
		}
	}
}
