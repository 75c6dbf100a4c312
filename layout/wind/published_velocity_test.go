package wind

import (
	"math"
	"testing"

	"copingset/layout/job"
)

// near fails on a figure further off than a tolerance.
func near(t *testing.T, source string, got, want, within float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > within {
		t.Errorf("%s: got %.6g, want %.6g ± %g", source, got, want, within)
	}
}

func TestPublishedKz(t *testing.T) {
	const source = "formula of ASCE 7 Table 26.10-1 note 1 (7-10: Table 30.3-1) with the constants of Table 26.11-1, worked by hand"
	heights := []float64{15, 20, 25, 30, 40, 50, 60, 70, 80, 90, 100, 120, 140, 160, 180, 200}
	tables := []struct {
		e        edition
		exposure string
		want     []float64
	}{
		{ed10, "B", []float64{0.5747, 0.6240, 0.6650, 0.7006, 0.7606, 0.8107, 0.8540, 0.8925, 0.9272, 0.9589, 0.9882, 1.0411, 1.0880, 1.1303, 1.1689, 1.2047}},
		{ed10, "C", []float64{0.8489, 0.9019, 0.9453, 0.9823, 1.0436, 1.0938, 1.1366, 1.1741, 1.2075, 1.2379, 1.2656, 1.3151, 1.3585, 1.3973, 1.4323, 1.4645}},
		{ed10, "D", []float64{1.0302, 1.0831, 1.1259, 1.1622, 1.2218, 1.2702, 1.3111, 1.3467, 1.3784, 1.4069, 1.4329, 1.4791, 1.5193, 1.5550, 1.5871, 1.6165}},
		{ed22, "B", []float64{0.5729, 0.6186, 0.6565, 0.6892, 0.7442, 0.7898, 0.8291, 0.8639, 0.8952, 0.9238, 0.9501, 0.9975, 1.0393, 1.0770, 1.1114, 1.1430}},
		{ed22, "C", []float64{0.8512, 0.9026, 0.9447, 0.9805, 1.0398, 1.0882, 1.1295, 1.1656, 1.1978, 1.2269, 1.2536, 1.3011, 1.3427, 1.3798, 1.4133, 1.4441}},
		{ed22, "D", []float64{1.0350, 1.0881, 1.1312, 1.1676, 1.2276, 1.2761, 1.3172, 1.3530, 1.3848, 1.4135, 1.4396, 1.4860, 1.5264, 1.5622, 1.5946, 1.6241}},
	}
	for _, c := range tables {
		for i, z := range heights {
			near(t, source, kz(c.e, c.exposure, z), c.want[i], 0.00006)
			if c.e == ed10 {
				near(t, source+", 7-16 as 7-10", kz(ed16, c.exposure, z), c.want[i], 0.00006)
			}
		}
	}
}

func TestPublishedKzPrinted(t *testing.T) {
	const source = "ASCE 7-10 Table 30.3-1 and 7-16 Table 26.10-1 as printed, from memory; the printed figure is sometimes 0.01 off the rounded formula"
	heights := []float64{15, 20, 25, 30, 40, 50, 60, 70, 80, 90, 100, 120, 140, 160}
	for exposure, want := range map[string][]float64{
		"B": {.57, .62, .66, .70, .76, .81, .85, .89, .93, .96, .99, 1.04, 1.09, 1.13},
		"C": {.85, .90, .94, .98, 1.04, 1.09, 1.13, 1.17, 1.21, 1.24, 1.26, 1.31, 1.36, 1.39},
		"D": {1.03, 1.08, 1.12, 1.16, 1.22, 1.27, 1.31, 1.34, 1.38, 1.40, 1.43, 1.48, 1.52, 1.55},
	} {
		for i, z := range heights {
			near(t, source, kz(ed16, exposure, z), want[i], 0.01)
		}
	}
}

func TestPublishedKzIndependent(t *testing.T) {
	const source = "unit tests of a public encoding of ASCE 7-22 chapter 26, exposure C"
	near(t, source, kz(ed22, "C", 10), 0.8511539011, 5e-10)
	near(t, source, kz(ed22, "C", 100), 1.253581964, 5e-9)
	near(t, source, kz(ed22, "C", 3000), 2.41, 1e-12)
	near(t, "ASCE 7-10 Table 26.9-1, from above the gradient height", kz(ed10, "D", 700), 2.01, 1e-12)
}

func TestPublishedKe(t *testing.T) {
	const source = "ASCE 7-16 Table 26.9-1 note 2, formula worked by hand"
	for i, ze := range []float64{0, 500, 1000, 2000, 3000, 4000, 5000, 6000} {
		near(t, source, ke(ze, false), []float64{1, 0.9821, 0.9644, 0.9302, 0.8971, 0.8652, 0.8344, 0.8048}[i], 0.00006)
	}
	near(t, "unit test of a public encoding of ASCE 7-22", ke(500, false), 0.9820628212, 5e-11)
	near(t, "ASCE 7-16 Table 26.9-1 note 2, metric e^(-0.000119 z), 1000 m", ke(1000/0.3048, true), 0.8878, 0.00005)
}

func TestPublishedKzt(t *testing.T) {
	const source = "unit test of a public encoding of ASCE 7-22 Figure 26.8-1: escarpment, exposure B, H 500, Lh 1500, x 300 downwind, z 50 ft"
	k1, k2, k3, kzt := topographic(job.Escarpment, "B", 500, 1500, 300, true, 50)
	near(t, source, k1, 0.25, 1e-9)
	near(t, source, k2, 0.95, 1e-9)
	near(t, source, k3, 0.92004, 0.000005)
	near(t, source, kzt, 1.48477, 0.00001)

	const steep = "ASCE 7 Figure 26.8-1, H/Lh over 0.5: K1 at 0.5 and Lh = 2H, worked by hand"
	k1, k2, k3, _ = topographic(job.Ridge, "C", 100, 50, 60, false, 40)
	near(t, steep, k1, 1.45*0.5, 1e-12)
	near(t, steep, k2, 1-60.0/(1.5*200), 1e-12)
	near(t, steep, k3, math.Exp(-3*40.0/200), 1e-12)
	_, k2, _, kzt = topographic(job.Hill, "D", 100, 400, 5000, true, 40)
	near(t, "ASCE 7 Figure 26.8-1: no speed-up far from the crest", k2, 0, 0)
	near(t, "ASCE 7 Figure 26.8-1: no speed-up far from the crest", kzt, 1, 0)
}

// The factors of each feature, in the table's own order.
func TestPublishedFeatures(t *testing.T) {
	const source = "ASCE 7 Figure 26.8-1 as two public encodings have it"
	for shape, want := range map[string]feature{
		job.Ridge:      {1.30, 1.45, 1.55, 3, 1.5, 1.5},
		job.Escarpment: {0.75, 0.85, 0.95, 2.5, 1.5, 4},
		job.Hill:       {0.95, 1.05, 1.15, 4, 1.5, 1.5},
	} {
		if got := featureOf(shape); got != want {
			t.Errorf("%s, %s: %v, want %v", source, shape, got, want)
		}
	}
}

func TestPublishedVelocityPressure(t *testing.T) {
	const source = "0.00256 Kz 0.85 V², worked by hand (ASCE 7-16 Eq. 26.10-1; 7-22 Eq. 26.10-1 times Kd)"
	speeds := []float64{90, 105, 115, 120, 150}
	for _, c := range []struct {
		e        edition
		exposure string
		z        float64
		want     []float64
	}{
		{ed16, "B", 30, []float64{12.35, 16.81, 20.16, 21.95, 34.30}},
		{ed16, "C", 30, []float64{17.31, 23.56, 28.27, 30.78, 48.09}},
		{ed10, "C", 33, []float64{17.66, 24.04, 28.84, 31.40, 49.07}},
		{ed16, "C", 60, []float64{20.03, 27.27, 32.71, 35.61, 55.65}},
		{ed16, "D", 30, []float64{20.48, 27.88, 33.45, 36.42, 56.90}},
		{ed22, "B", 30, []float64{12.15, 16.53, 19.83, 21.60, 33.74}},
		{ed22, "C", 30, []float64{17.28, 23.52, 28.22, 30.72, 48.00}},
		{ed22, "C", 33, []float64{17.62, 23.98, 28.77, 31.33, 48.95}},
		{ed22, "D", 30, []float64{20.58, 28.01, 33.60, 36.59, 57.17}},
	} {
		d, _ := kd(c.e)
		for i, v := range speeds {
			near(t, source, velocityPa(false, kz(c.e, c.exposure, c.z)*d, v*mpsPerMPH)/pascalsPerPSF, c.want[i], 0.006)
		}
	}
	near(t, "unit test of a public encoding of ASCE 7-22: Kz 1.21, Ke 0.96, 110 mph, no Kd",
		velocityPa(false, 1.21*0.96, 110*mpsPerMPH)/pascalsPerPSF, 35.9817216, 1e-7)
	near(t, "ASCE 7 Eq. 26.10-1.SI with its constant 0.613: 50 m/s, all factors 1", velocityPa(true, 1, 50), 1532.5, 1e-9)
}
