package wall

import (
	"testing"

	"copingset/layout/length"

	"pgregory.net/rapid"
)

// At any station the packing is what lies between the set surface there and the
// wall top there, on a slope too: between readings, beyond them, and where a
// reading lies past the corner at which the surface bends to level.
func TestPackingReachesTheSetSurface(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		some := func(lo, hi int, what string) length.Length {
			return length.Length(rapid.IntRange(lo, hi).Draw(t, what)) * length.Inch16
		}
		r := &Run{Front: some(160, 1600, "front"), SetLeft: some(-100, 100, "left"), SetRight: some(-100, 100, "right")}
		at := some(-200, 100, "first")
		for at < r.Front+200*length.Inch16 {
			q := Reading{Station: at, TopOutside: some(-50, 50, "outside"), TopInside: some(-50, 50, "inside")}
			set := r.SetAt(at)
			q.PackFront, q.PackRear = set-q.TopOutside, set-q.TopInside
			r.Readings = append(r.Readings, q)
			if rapid.IntRange(0, 5).Draw(t, "last") == 0 {
				break
			}
			at += some(1, 500, "next")
		}
		for range 8 {
			s := some(-300, 2000, "station")
			q := r.At(s)
			set := r.SetAt(s)
			// Each is rounded to a nanometre.
			if f, b := q.PackFront-(set-q.TopOutside), q.PackRear-(set-q.TopInside); length.Abs(f) > 3 || length.Abs(b) > 3 {
				t.Fatalf("station %v: packing %v and %v, the set surface is %v over the front face and %v over the rear face",
					s, q.PackFront, q.PackRear, set-q.TopOutside, set-q.TopInside)
			}
		}
	})
}
