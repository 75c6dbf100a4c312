package cap

import (
	"testing"

	"copingset/layout/job"
	"copingset/layout/length"

	"pgregory.net/rapid"
)

func lapSystem(by job.SlopeBy) *job.System {
	const in = length.Inch
	return &job.System{
		Metal:          job.Metal{Thickness: in / 20},
		FrontClearance: in / 4,
		Profile: job.Profile{FrontLeg: job.Leg{Length: 5 * in}, RearLeg: job.Leg{Length: 3 * in}, SlopeBy: by,
			TopSlope: 40_000_000}, // 4 in 100
		Chair: job.Chair{Rise: 7 * in / 8},
	}
}

// Worked by hand, with metal of 0.05 standing 0.05 sqrt(1 + 0.04^2) = 0.05004 plumb
// over its underside. The underside is 0.875 up at the inside of the rear leg, so
// the rear fold, 0.05 beyond, stands 0.875 + 0.05004 - 0.04 x 0.05 = 0.92304 up and
// the front one 0.04 x 12.6 more, 1.42704: 5 - 1.42704 - 0.5 - 1 = 2.07296 and
// 3 - 0.92304 - 0.75 - 0.5 = 0.82696; source: arithmetic, none published.
func TestLapsByHand(t *testing.T) {
	const in = length.Inch
	wall := &job.Wall{CoverFront: in, CoverRear: in / 2}
	cases := []struct {
		name        string
		by          job.SlopeBy
		front, rear length.Length
	}{
		{"slope in the chair", job.SlopeByChair, 207296 * in / 100000, 82696 * in / 100000},
		// Only the metal and the clearance in front of the wall fall: 0.04 x 0.30 = 0.012.
		{"slope in the packing", job.SlopeByPacking, 256296 * in / 100000, 82496 * in / 100000},
	}
	for _, c := range cases {
		f, r := Laps(lapSystem(c.by), wall, 25*in/2, in/2, 3*in/4)
		if length.Abs(f-c.front) > length.Micrometre || length.Abs(r-c.rear) > length.Micrometre {
			t.Errorf("%s: laps %.5f and %.5f in, want %.5f and %.5f", c.name, f.Inch(), r.Inch(), c.front.Inch(), c.rear.Inch())
		}
	}
}

func TestLapMayBeNone(t *testing.T) {
	const in = length.Inch
	f, r := Laps(lapSystem(job.SlopeByChair), &job.Wall{CoverFront: 4 * in, CoverRear: 4 * in}, 12*in, 0, 0)
	if f >= 0 || r >= 0 {
		t.Errorf("legs that end above the joint have laps %v and %v; they must be negative", f, r)
	}
}

// What is packed under a cap, or cut from its leg, is lost from the lap to the
// last nanometre, and one side does not feel the other.
func TestLapsLoseWhatIsPacked(t *testing.T) {
	const in = length.Inch
	rapid.Check(t, func(t *rapid.T) {
		s := lapSystem(job.SlopeBy(rapid.IntRange(0, 1).Draw(t, "by")))
		w := &job.Wall{CoverFront: in, CoverRear: in / 2}
		inside := length.Length(rapid.Int64Range(int64(6*in), int64(30*in)).Draw(t, "inside"))
		a := length.Length(rapid.Int64Range(0, int64(3*in)).Draw(t, "front"))
		b := length.Length(rapid.Int64Range(0, int64(3*in)).Draw(t, "rear"))
		f0, r0 := Laps(s, w, inside, 0, 0)
		f, r := Laps(s, w, inside, a, b)
		if f0-f != a || r0-r != b {
			t.Fatalf("packing %v and %v took %v and %v from the laps", a, b, f0-f, r0-r)
		}
		s.Profile.FrontLeg.Length += in
		if g, q := Laps(s, w, inside, a, b); g-f != in || q != r {
			t.Fatalf("an inch more front leg gave %v more lap in front and %v behind", g-f, q-r)
		}
	})
}
