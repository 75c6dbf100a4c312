package wind

import (
	"fmt"
	"math"
	"testing"

	"copingset/layout/internal/published"
	"copingset/layout/job"
	"copingset/layout/length"
)

// The table as printed: public programs carry it as a table, to two places, in
// feet and in metres. The printed figure is sometimes 0.01 under the rounded
// formula. 7-10 prints the same but for its floor.
func TestPublishedKzPrinted(t *testing.T) {
	src := published.From("ASCE 7-16 Table 26.10-1 as printed, read in two public programs that agree", "Kz")
	recalled := published.Recalled("ASCE 7-10 Table 30.3-1 as printed")
	const printed = 0.008
	heights := []float64{500, 200, 60, 15, 20, 25, 30, 40, 50, 70, 80, 90, 100, 120, 140, 160, 250, 300, 350, 400, 450}
	for _, c := range []struct {
		exposure string
		want     []float64
	}{
		{"B", []float64{1.56, 1.20, .85, .57, .62, .66, .70, .76, .81, .89, .93, .96, .99, 1.04, 1.09, 1.13, 1.28, 1.35,
			1.41, 1.47, 1.52}},
		{"C", []float64{1.77, 1.46, 1.13, .85, .90, .94, .98, 1.04, 1.09, 1.17, 1.21, 1.24, 1.26, 1.31, 1.36, 1.39, 1.53,
			1.59, 1.64, 1.69, 1.73}},
		{"D", []float64{1.89, 1.61, 1.31, 1.03, 1.08, 1.12, 1.16, 1.22, 1.27, 1.34, 1.38, 1.40, 1.43, 1.48, 1.52, 1.55,
			1.68, 1.73, 1.78, 1.82, 1.86}},
	} {
		for i, z := range heights {
			what := fmt.Sprintf("exposure %s, %g ft", c.exposure, z)
			published.Near(t, "Kz", src, what, kz(ed16, c.exposure, z), c.want[i], printed)
			if c.exposure != "B" || z >= exposureBFloor {
				published.Near(t, "Kz", recalled, what, kz(ed10, c.exposure, z), c.want[i], printed)
			}
		}
	}
}

// An article works a parapet of 3 ft on 30 ft, exposure C, 120 mph.
func TestPublishedParapetVelocity(t *testing.T) {
	src := published.From("article of a wind-load office on parapets, ASCE 7-16", "120 mph, exposure C, top at 33 ft")
	published.Near(t, "Kz", src, "Kz", kz(ed16, "C", 33), 1.002, 0.0005)
	j := example("ASCE 7-16")
	j.Wind.Speed = 120 * mpsPerMPH
	published.Near(t, "velocity pressure", src, "qp, psf", step(t, mustCompute(t, j), "qp", "").Value, 31.4, 0.05)
	d, _ := kd(ed22)
	signs := published.From("documentation of a public program for signs, ASCE 7-22", "115 mph, 15 ft, exposure C")
	published.Near(t, "velocity pressure", signs, "q, psf", velocityPa(false, kz(ed22, "C", 15)*d,
		115*mpsPerMPH)/pascalsPerPSF, 24.46, 0.05)
}

// A formula cannot see a floor: here the floor and the formula together give
// what a table of cladding prints.
func TestPublishedFloor(t *testing.T) {
	src := published.From("national building code of 2020 that reprints ASCE 7-05 Table 6-3 in metres, Case 1",
		"exposure B")
	for _, m := range []float64{4.6, 6.1, 7.6, 9.1} {
		z := math.Max(m/metresPerFoot, floorOf(ed10, "B", nil, "").feet)
		published.Near(t, "floor of exposure B in 7-10", src, fmt.Sprintf("%g m", m), kz(ed10, "B", z), 0.70, 0.005)
	}
	// The simplified tables of cladding adjust a pressure by height and exposure.
	lambda := published.From("the same code's copy of the simplified tables of cladding",
		"adjustment for height, exposure B: 1.00")
	at30 := mustCompute(t, enclosed("B", 115, 30, 10)).Up[Corner].Pa
	for _, h := range []length.Length{15, 20, 25, 30} {
		is := mustCompute(t, enclosed("B", 115, h, 10)).Up[Corner].Pa
		published.Holds(t, "floor of exposure B in 7-10", lambda, fmt.Sprintf("%d ft", h), math.Abs(is/at30-1) < 0.005)
	}
}

func TestPublishedKzIndependent(t *testing.T) {
	src := published.From(encoding, "Kz, exposure C")
	published.Near(t, "Kz", src, "10 ft", kz(ed22, "C", 10), 0.8511539011, 5e-10)
	published.Near(t, "Kz", src, "100 ft", kz(ed22, "C", 100), 1.253581964, 5e-9)
	published.Near(t, "Kz", src, "3000 ft", kz(ed22, "C", 3000), 2.41, 1e-12)
	hand := published.ByHand("formula of ASCE 7-22 Table 26.10-1 with the constants of Table 26.11-1")
	for _, c := range []struct {
		exposure string
		z, want  float64
	}{{"B", 15, 0.5729}, {"B", 33, 0.7069}, {"B", 100, 0.9501}, {"C", 60, 1.1295}, {"D", 15, 1.0350}, {"D", 200, 1.6241}} {
		published.Near(t, "Kz", hand, fmt.Sprintf("exposure %s, %g ft", c.exposure, c.z), kz(ed22, c.exposure, c.z), c.want,
			0.00006)
	}
}

func TestPublishedKe(t *testing.T) {
	published.Near(t, "Ke", published.From(encoding, "Ke"), "500 ft", ke(500, false), 0.9820628212, 5e-11)
	hand := published.ByHand("ASCE 7-16 Table 26.9-1 note 2")
	for i, ze := range []float64{0, 1000, 2000, 3000, 4000, 5000, 6000} {
		published.Near(t, "Ke", hand, fmt.Sprintf("%g ft", ze), ke(ze, false), []float64{1, 0.9644, 0.9302, 0.8971, 0.8652,
			0.8344, 0.8048}[i], 0.00006)
	}
	published.Near(t, "Ke", hand, "metric, 1000 m", ke(1000/metresPerFoot, true), 0.8878, 0.00005)
}

// The multipliers as printed, to two places: K1 of exposure C, K2 and K3; K1 of
// exposure B as another country's code prints it for its own.
func TestPublishedTopography(t *testing.T) {
	const two = 0.0051
	type row struct {
		shape    string
		at, want float64
	}
	k1 := func(src published.Source, exposure string, rows []row) {
		for _, c := range rows {
			got, _, _, _ := topographic(c.shape, exposure, c.at*1000, 1000, 0, false, 0)
			published.Near(t, "topography", src, fmt.Sprintf("K1, %s, H/Lh %g", c.shape, c.at), got, c.want, two)
		}
	}
	k1(published.From("ASCE 7-16 Figure 26.8-1 as printed, read in four public programs that agree", "K1"), "C",
		[]row{{job.Ridge, 0.20, 0.29}, {job.Ridge, 0.35, 0.51}, {job.Escarpment, 0.30, 0.26}, {job.Escarpment, 0.40, 0.34},
			{job.Hill, 0.30, 0.32}, {job.Hill, 0.45, 0.47}, {job.Ridge, 0.50, 0.72}})
	k1(published.From("national wind code of another country that takes the figure over, table 2.3",
		"K1, its exposures A and B"), "B",
		[]row{{job.Ridge, 0.20, 0.26}, {job.Ridge, 0.30, 0.39}, {job.Ridge, 0.40, 0.52}, {job.Escarpment, 0.25, 0.19},
			{job.Hill, 0.30, 0.29}, {job.Hill, 0.50, 0.48}})
	src := published.From("ASCE 7-16 Figure 26.8-1 as printed, read in four public programs that agree", "K2")
	for _, c := range []struct {
		shape    string
		downwind bool
		x, want  float64
	}{{job.Escarpment, true, 0.5, 0.88}, {job.Escarpment, true, 1.5, 0.63}, {job.Escarpment, true, 2.5, 0.38},
		{job.Ridge, false, 0.5, 0.67}, {job.Hill, true, 1, 0.33}, {job.Escarpment, false, 1.5, 0}} {
		_, got, _, _ := topographic(c.shape, "C", 300, 1000, c.x*1000, c.downwind, 0)
		published.Near(t, "topography", src, fmt.Sprintf("K2, %s, x/Lh %g", c.shape, c.x), got, c.want, two)
	}
	src.Table = "K3"
	for _, c := range []row{{job.Ridge, 0.1, 0.74}, {job.Ridge, 0.3, 0.41}, {job.Escarpment, 0.2, 0.61}, {job.Escarpment,
		0.4, 0.37}, {job.Hill, 0.1, 0.67}, {job.Hill, 0.2, 0.45}} {
		_, _, got, _ := topographic(c.shape, "C", 300, 1000, 0, false, c.at*1000)
		published.Near(t, "topography", src, fmt.Sprintf("K3, %s, z/Lh %g", c.shape, c.at), got, c.want, two)
	}
	src = published.From(encoding, "Kzt: escarpment, exposure B, H 500, Lh 1500, x 300 downwind, z 50 ft")
	a, b, c, kzt := topographic(job.Escarpment, "B", 500, 1500, 300, true, 50)
	published.Near(t, "topography", src, "K1", a, 0.25, 1e-9)
	published.Near(t, "topography", src, "K2", b, 0.95, 1e-9)
	published.Near(t, "topography", src, "K3", c, 0.92004, 0.000005)
	published.Near(t, "topography", src, "Kzt", kzt, 1.48477, 0.00001)

	hand := published.ByHand("ASCE 7 Figure 26.8-1, H/Lh over 0.5: K1 at 0.5 and Lh = 2H")
	a, b, c, _ = topographic(job.Ridge, "C", 100, 50, 60, false, 40)
	published.Near(t, "topography", hand, "K1", a, 0.725, 1e-12)
	published.Near(t, "topography", hand, "K2", b, 0.8, 1e-12)
	published.Near(t, "topography", hand, "K3", c, 0.5488, 0.00005)
}

func TestPublishedVelocityPressure(t *testing.T) {
	psf := func(metric bool, factors, mph float64) float64 {
		return velocityPa(metric, factors, mph*mpsPerMPH) / pascalsPerPSF
	}
	published.Near(t, "velocity pressure", published.From(encoding, "q: Kz 1.21, Ke 0.96, 110 mph, no Kd"), "q",
		psf(false, 1.21*0.96, 110), 35.9817216, 1e-7)
	hand := published.ByHand("0.00256 Kz 0.85 V² (ASCE 7-16 Eq. 26.10-1; 7-22 Eq. 26.10-1 times Kd)")
	for _, c := range []struct {
		e        edition
		exposure string
		z        float64
		mph      float64
		want     float64
	}{{ed16, "B", 30, 115, 20.16}, {ed16, "C", 30, 90, 17.31}, {ed10, "C", 33, 120, 31.40}, {ed16, "C", 60, 150, 55.65},
		{ed16, "D", 30, 105, 27.88}, {ed22, "B", 30, 115, 19.83}, {ed22, "C", 33, 150, 48.95}, {ed22, "D", 30, 120, 36.59}} {
		d, _ := kd(c.e)
		published.Near(t, "velocity pressure", hand, fmt.Sprintf("%s, %s, %g ft, %g mph", c.e, c.exposure, c.z, c.mph),
			psf(false, kz(c.e, c.exposure, c.z)*d, c.mph), c.want, 0.006)
	}
	published.Near(t, "velocity pressure", published.ByHand("ASCE 7 Eq. 26.10-1.SI, its constant 0.613"),
		"50 m/s, all factors 1", velocityPa(true, 1, 50), 1532.5, 1e-9)
}
