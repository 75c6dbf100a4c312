package shop

import (
	"math"
	"testing"

	"copingset/layout/fold"
	_ "copingset/layout/length/draws"

	"pgregory.net/rapid"
)

func minus(a, b fold.Vec) fold.Vec { return fold.Vec{X: a.X - b.X, Y: a.Y - b.Y, Z: a.Z - b.Z} }

func spread(a, b fold.Vec) float64 {
	d := minus(a, b)
	return math.Sqrt(d.X*d.X + d.Y*d.Y + d.Z*d.Z)
}

// foldBack bends a pattern up again from its bend lines: a face moves out by
// what its bend took, then turns about the mold line it shares with its parent.
func foldBack(s fold.Solid, f fold.Flat, b fold.Bend) [][]fold.Vec {
	move := make([]func(fold.Vec) fold.Vec, len(s.Faces))
	move[0] = func(v fold.Vec) fold.Vec { return v }
	for i, j := range s.Folds {
		line := f.Bends[i]
		less, _ := b.Deduction(math.Abs(line.Turn))
		ux, uy := line.To.X-line.From.X, line.To.Y-line.From.Y
		l := math.Hypot(ux, uy)
		ux, uy = ux/l, uy/l
		ox, oy := uy, -ux // away from the parent, which lies to the left
		p := fold.Vec{X: line.From.X + ox*less/2, Y: line.From.Y + oy*less/2}
		sin, cos := math.Sincos(line.Turn * math.Pi / 180)
		parent := move[j.A]
		move[j.B] = func(v fold.Vec) fold.Vec {
			v = minus(fold.Vec{X: v.X + ox*less, Y: v.Y + oy*less, Z: v.Z}, p)
			along, out := v.X*ux+v.Y*uy, v.X*ox+v.Y*oy
			out, up := out*cos-v.Z*sin, out*sin+v.Z*cos
			return parent(add(p, fold.Vec{X: ux*along + ox*out, Y: uy*along + oy*out, Z: up}))
		}
	}
	back := make([][]fold.Vec, len(f.Faces))
	for i, face := range f.Faces {
		for _, q := range face {
			back[i] = append(back[i], move[i](fold.Vec{X: q.X, Y: q.Y}))
		}
	}
	return back
}

// The patterns of any transition, hemmed or raw, wide end at the right or the
// left, fold back to the solid within 0.1 mm, and the two hands are mirrors.
func TestTransitionsFoldBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		m := measures{front: f("front", 60, 200), drip: f("drip", 12, 20), dripTurn: f("drip turn", 10, 60),
			rear: f("rear", 50, 120), hook: f("hook", 12, 20), hookTurn: f("hook turn", 100, 150), slope: f("slope", 0, 0.1)}
		b := fold.Bend{Thickness: f("thickness", 0.5, 1.2), Radius: f("radius", 0, 1), K: f("k", 0.3, 0.5)}
		narrow := f("narrow", 200, 500)
		wide, leg := narrow+f("change", 10, 80), f("leg", 80, 200)
		long := 2*leg + f("taper", 150, 800)
		hem := rapid.SampledFrom([]float64{0, 6, 10}).Draw(t, "hem")
		var outlines [2][][]fold.Point
		for hand, right := range []bool{true, false} {
			for i, s := range taper(m, wide, narrow, long, leg, 0.8, hem, right) {
				flat, err := fold.Unfold(s, b)
				if err != nil {
					t.Fatalf("right %v, body %d: %v", right, i, err)
				}
				hems := 0
				for _, face := range s.Faces {
					if face.Name == "hem" {
						hems++
					}
				}
				if want := 2 + i; hem > 0 && hems != want { // a rear hook under each stretch
					t.Fatalf("body %d has %d hems, want %d", i, hems, want)
				}
				back := foldBack(s, flat, b)
				for j, face := range s.Faces {
					for k, c := range face.Corners {
						for n, other := range s.Faces {
							for o, d := range other.Corners {
								if want, got := spread(c, d), spread(back[j][k], back[n][o]); math.Abs(got-want) > 0.1 {
									t.Fatalf("right %v, body %d: from %s to %s it is %.3f folded back and %.3f in the solid", right, i, face.Name, other.Name, got, want)
								}
							}
						}
					}
				}
				outlines[hand] = append(outlines[hand], flat.Outline)
			}
		}
		for i := range outlines[0] {
			mirrored(t, i, outlines[0][i], outlines[1][i])
		}
	})
}

// mirrored checks that every corner of one outline has its twin in the other,
// left and right swapped about their ends.
func mirrored(t *rapid.T, body int, a, b []fold.Point) {
	ends := func(p []fold.Point) (left, right, low float64) {
		left, right, low = math.Inf(1), math.Inf(-1), math.Inf(1)
		for _, q := range p {
			left, right, low = min(left, q.X), max(right, q.X), min(low, q.Y)
		}
		return left, right, low
	}
	left, _, low := ends(a)
	_, right, base := ends(b)
	if len(a) != len(b) {
		t.Fatalf("body %d: %d corners, and its twin has %d", body, len(a), len(b))
	}
	for _, q := range a {
		x, y := right-(q.X-left), q.Y-low+base
		found := false
		for _, r := range b {
			found = found || math.Hypot(r.X-x, r.Y-y) < 1e-6
		}
		if !found {
			t.Fatalf("body %d: the corner at %.4f, %.4f has no twin", body, q.X, q.Y)
		}
	}
}
