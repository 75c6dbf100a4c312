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

type vec = fold.Vec

func sub(a, b vec) vec            { return vec{X: a.X - b.X, Y: a.Y - b.Y, Z: a.Z - b.Z} }
func scaled(a vec, k float64) vec { return vec{X: a.X * k, Y: a.Y * k, Z: a.Z * k} }
func dot(a, b vec) float64        { return a.X*b.X + a.Y*b.Y + a.Z*b.Z }
func cross(a, b vec) vec {
	return vec{X: a.Y*b.Z - a.Z*b.Y, Y: a.Z*b.X - a.X*b.Z, Z: a.X*b.Y - a.Y*b.X}
}
func unit(a vec) vec { return scaled(a, 1/math.Sqrt(dot(a, a))) }

// foldedBack folds a pattern from its bend lines and angles alone, and sets its
// top where the solid's is: the faces as the brake makes them.
func foldedBack(s fold.Solid, f fold.Flat, b fold.Bend) map[string][]vec {
	up := func(p fold.Point) vec { return vec{X: p.X, Y: p.Y} }
	move := make([]func(vec) vec, len(f.Faces))
	// The top of the pattern lies in the paper; its own corners say where it goes.
	o, ex, ey := up(f.Faces[0][0]), unit(sub(up(f.Faces[0][1]), up(f.Faces[0][0]))), vec{}
	ey = cross(vec{Z: 1}, ex)
	c := s.Faces[0].Corners
	tx := unit(sub(c[1], c[0]))
	tz := unit(cross(tx, sub(c[3], c[0])))
	ty := cross(tz, tx)
	move[0] = func(v vec) vec {
		d := sub(v, o)
		return add(c[0], add(scaled(tx, dot(d, ex)), add(scaled(ty, dot(d, ey)), scaled(tz, d.Z))))
	}
	for i, j := range s.Folds {
		l := f.Bends[i]
		less, _ := b.Deduction(math.Abs(l.Turn))
		p, q := up(l.From), up(l.To)
		u := unit(sub(q, p))
		out := cross(u, vec{Z: 1})
		p = add(p, scaled(out, less/2))
		sin, cos := math.Sincos(l.Turn * math.Pi / 180)
		parent := move[j.A]
		move[j.B] = func(v vec) vec {
			v = sub(add(v, scaled(out, less)), p)
			v = add(scaled(v, cos), add(scaled(cross(u, v), -sin), scaled(u, dot(u, v)*(1-cos))))
			return parent(add(v, p))
		}
	}
	faces := map[string][]vec{}
	for i, face := range f.Faces {
		for _, p := range face {
			faces[s.Faces[i].Name] = append(faces[s.Faces[i].Name], move[i](up(p)))
		}
	}
	return faces
}

// The patterns of two legs, folded back and set at their corner, meet along the
// seam: tops, front and rear legs, drips and hooks.
func TestLegsOfTwoWidthsMeet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		mm := func(name string, lo, hi float64) length.Length { return length.FromMM(f(name, lo, hi)) }
		sys := &job.System{Metal: job.Metal{Thickness: mm("thickness", 0.6, 1.3)}}
		sys.Profile.TopSlope = job.Slope(f("slope", 0, 0.1) * 1e9)
		turn := job.Angle(f("turn", 20, 120) * float64(job.Degree))
		if rapid.Bool().Draw(t, "inside") {
			turn = -turn
		}
		seam := cap.Seam{Corner: &wall.Corner{CapTurn: turn}, Inside: [2]length.Length{mm("arriving", 150, 600), mm("leaving", 150, 600)}}
		if rapid.IntRange(0, 9).Draw(t, "one width") == 0 {
			seam.Inside[1] = seam.Inside[0]
		}
		m := measures{front: f("front", 60, 200), drip: f("drip", 12, 25), dripTurn: f("drip turn", 10, 60), rear: f("rear", 50, 120),
			hook: f("hook", 18, 25), hookTurn: f("hook turn", 100, 150)}
		miter := cap.Miter{Seam: seam, Trim: seam.Trims(sys)}
		bend := fold.Bend{Thickness: sys.Metal.Thickness.MM(), Radius: 0.8, K: 0.4}
		b := &builder{s: sys, shop: &job.Shop{}}
		const long = 4000
		narrow := length.Min(seam.Inside[0], seam.Inside[1])
		var legs [2]map[string][]vec
		for i := range legs {
			w := 2 * sys.Metal.Thickness
			m.slope = float64(cap.EqualRise(sys, narrow+w, seam.Inside[i]+w)) / 1e9
			sec := sectionOf(m, (seam.Inside[i] + w).MM())
			left, right := b.miterOf(miter, sec, 0, -1, 0), square(long)
			if i == 0 {
				left, right = square(0), b.miterOf(miter, sec, long, 1, 0)
			}
			solid := fold.Prism(sec.profile, sec.top, left, right)
			flat, err := fold.Unfold(solid, bend)
			if err != nil {
				t.Fatal(err)
			}
			legs[i] = foldedBack(solid, flat, bend)
		}
		// Both in the frame of the corner point: x along the arriving run, y to its roof.
		sin, cos := math.Sincos(turn.Degrees() * math.Pi / 180)
		arrived := func(v vec) vec { return vec{X: v.X - long, Y: -v.Y, Z: v.Z} }
		left := func(v vec) vec { return vec{X: v.X*cos + v.Y*sin, Y: v.X*sin - v.Y*cos, Z: v.Z} }
		for _, name := range []string{"top", "front leg", "rear leg", "drip", "hook"} {
			p, q := legs[0][name], legs[1][name]
			for _, k := range [][2]int{{1, 0}, {2, 3}} { // roof edge and street edge, at the right end and at the left
				a, z := arrived(p[k[0]]), left(q[k[1]])
				if d := sub(a, z); math.Sqrt(dot(d, d)) > 0.1 {
					t.Fatalf("%s: the arriving leg ends at %.3f, the leaving one begins at %.3f", name, a, z)
				}
			}
		}
	})
}

// The gap of the weld stands square to the seam on both tops.
func TestWeldGapOfTwoWidths(t *testing.T) {
	sys := &job.System{}
	seam := cap.Seam{Corner: &wall.Corner{CapTurn: 60 * job.Degree}, Inside: [2]length.Length{12 * length.Inch, 8 * length.Inch}}
	b := &builder{s: sys, shop: &job.Shop{}}
	m := cap.Miter{Seam: seam, Trim: seam.Trims(sys)}
	for i, w := range seam.Inside {
		sec := sectionOf(cap300(), w.MM())
		side := 1 - 2*float64(i)
		closed, open := b.miterOf(m, sec, 0, side, 0), b.miterOf(m, sec, 0, side, 1)
		angle := math.Atan2(m.Trim[i].MM(), w.MM()) // of the seam off square
		for _, y := range []float64{0, w.MM()} {
			z := -sec.slope * y
			if got := side * (closed(y, z) - open(y, z)) * math.Cos(angle); math.Abs(got-1) > 1e-9 {
				t.Errorf("leg %d at %.0f: half a gap of %.4f, want 1", i, y, got)
			}
		}
	}
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
			sec := sectionOf(cap300(), w)
			end := b.miterOf(m, sec, 0, 1-2*float64(i), 0)
			if got := (2*float64(i) - 1) * end(w, -sec.slope*w) / 25.4; math.Abs(got-want) > 0.0001 || end(0, 0) != 0 {
				t.Errorf("%s: leg %d is %.4f shorter at its rear, want %.4f", c.source, i+1, got, want)
			}
		}
	}
}
