package shop

import (
	"math"
	"testing"

	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/length"
	_ "copingset/layout/length/draws"

	"pgregory.net/rapid"
)

// A transition, hemmed or raw, wide end at the right or the left: the street edge
// of its two patterns is as long as the piece less the gap of the weld, both keep
// to their side of the seam, and the two hands are mirrors.
func TestTransitionsOfBothHands(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		m := measures{front: f("front", 60, 200), drip: f("drip", 20, 28), dripTurn: f("drip turn", 10, 60),
			rear: f("rear", 50, 120), hook: f("hook", 26, 34), hookTurn: f("hook turn", 100, 150), slope: f("slope", 0, 0.1)}
		sys := &job.System{}
		sys.Profile.HemReturn = length.FromMM(rapid.SampledFrom([]float64{0, 6, 10}).Draw(t, "hem"))
		const gap = 0.8
		b := &builder{s: sys, shop: &job.Shop{WeldGap: length.FromMM(gap)},
			bend: fold.Bend{Thickness: f("thickness", 0.5, 1.2), Radius: f("radius", 0, 1), K: f("k", 0.3, 0.5)}}
		narrow := f("narrow", 200, 500)
		wide, leg := narrow+f("change", 10, 80), f("leg", 80, 200)
		long := 2*leg + f("taper", 150, 800)
		var outlines [2][]fold.Point
		for hand, right := range []bool{true, false} {
			tp := taper{m, wide, narrow, long, leg, right}
			tray, err := tp.tray(b)
			if err != nil {
				t.Fatal(err)
			}
			flat, err := tray.Pattern(chord)
			if err != nil {
				t.Fatal(err)
			}
			if fold.Crosses(flat.Outline) || fold.Area(flat.Outline) <= 0 {
				t.Fatalf("right %v: the outline crosses itself or is inside out", right)
			}
			var lo, hi fold.Point
			lo, hi = flat.Bounds()
			if got, want := hi.X-lo.X, long-leg-gap/2+leans(tray.Wings[0], m.slope, (wide-narrow)/(long-2*leg), gap); math.Abs(got-want) > 2*chord {
				t.Fatalf("right %v: %.3f long, want %.3f", right, got, want)
			}
			street := 0.0
			for _, p := range flat.Outline {
				for _, q := range flat.Outline {
					if hi.Y-p.Y < 1e-6 && hi.Y-q.Y < 1e-6 {
						street = math.Max(street, math.Abs(p.X-q.X))
					}
				}
			}
			if math.Abs(street-(long-leg-gap/2)) > 1e-6 {
				t.Fatalf("right %v: the street edge is %.4f long, want %.4f; %v", right, street, long-leg-gap/2, flat.Outline)
			}
			solid := tray.Solid()
			if err := solid.Check(); err != nil {
				t.Fatalf("right %v: %v", right, err)
			}
			if len(solid.Faces) != len(flat.Faces) || len(flat.Depths) != len(flat.Faces) {
				t.Fatalf("%d faces in the picture, %d on the pattern, %d depths", len(solid.Faces), len(flat.Faces), len(flat.Depths))
			}
			outlines[hand] = flat.Outline
		}
		mirrored(t, 1, outlines[0], outlines[1])
	})
}

// leans is how far the rear leg of a taper leans out on the flat past the seam with
// the narrow end. Its fold runs at an angle a to the front in the plane of the top,
// towards the roof, and the plumb plane that its hanging metal ends in at half of that
// turn in plan: with u along the fold, y away from it and z off the top, a place ends
// where that plane has it, half the gap off, at whichever face reaches farther. Rolled
// out into the top's plane at a developed distance d it lies u cos a - d sin a from the
// seam. In the bend metal keeps off the plane square across as well. `change` is of
// the width, over the taper's length.
func leans(rear fold.Wing, slope, change, gap float64) float64 {
	steep := math.Hypot(1, slope)
	sin, cos := math.Sincos(math.Atan(change * steep))
	sinH, cosH := math.Sincos(math.Atan(change) / 2)
	along, away, up := cos*cosH+sin*sinH/steep, -sin*cosH+cos*sinH/steep, slope*sinH/steep
	p := rear.Path
	p.Segs = append([]fold.Seg(nil), p.Segs...)
	p.Segs[0].Flat = 0
	bend := p.Segs[0].Radius + p.T
	in := bend * math.Tan(math.Abs(p.Segs[0].Turn)/2*math.Pi/180) // to the mold line
	p.At = fold.Point{X: -in}
	l, most := p.Lay(), 0.0
	for _, s := range l.Places(chord) {
		if s == 0 {
			continue // on the top
		}
		u := math.Inf(-1)
		f, b := l.Skins(s)
		for _, q := range []fold.Point{f, b} {
			u = math.Max(u, (gap/2-q.X*away-q.Y*up)/along)
			if q.Y > -bend {
				u = math.Max(u, q.X*sin/cos+gap/2/cos)
			}
		}
		most = math.Max(most, gap/2-u*cos+(s-in)*sin)
	}
	return most
}

// mirrored checks that every corner of one outline lies on the other, left and
// right swapped about their ends.
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
	for _, q := range a {
		x, y := right-(q.X-left), q.Y-low+base
		best := math.Inf(1)
		for i, r := range b {
			s := b[(i+1)%len(b)]
			ux, uy := s.X-r.X, s.Y-r.Y
			k := math.Max(0, math.Min(1, ((x-r.X)*ux+(y-r.Y)*uy)/(ux*ux+uy*uy)))
			best = math.Min(best, math.Hypot(x-r.X-k*ux, y-r.Y-k*uy))
		}
		if best > 1e-4 {
			t.Fatalf("body %d: the corner at %.4f, %.4f stands %.5f off its twin", body, q.X, q.Y, best)
		}
	}
}
