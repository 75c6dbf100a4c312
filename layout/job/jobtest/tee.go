package jobtest

import (
	"copingset/layout/job"
	"copingset/layout/length"

	"pgregory.net/rapid"
)

// Cross is a job with a roof of two lengths, its runs named A to D, and a cross
// wall X from run A, at a station of its branch's face, square across to run C.
// The roof is raised so that the cross wall's coping runs under its rear fold.
func Cross(a, b, at length.Length, of job.TeeFace) *job.Job {
	j := Job()
	cross(j, a, b, at, of)
	return j
}

func cross(j *job.Job, a, b, at length.Length, of job.TeeFace) {
	j.System.Tee = job.TeeRules{Leg: 20 * in, Branch: 20 * in, DropLeast: in / 2, DropMost: 2 * in}
	j.System.Profile.RearLeg.Length = 4 * in
	roof := Rectangle(a, b)
	roof.Bearing, roof.Raise = 90*job.Degree, 5*in/4
	x := Run("X", b-24*in, 0)
	x.Right = job.End{Kind: job.EndTee, Tee: &job.Tee{Perimeter: "ROOF", Run: "C", At: a - at, Of: other(of)}}
	p := Perimeter("CROSS", job.Open, x)
	p.Bearing = 180 * job.Degree
	p.Starts = job.End{Kind: job.EndTee, Tee: &job.Tee{Perimeter: "ROOF", Run: "A", At: at, Of: of}}
	j.Perimeters = []job.Perimeter{p, roof}
}

func other(f job.TeeFace) job.TeeFace {
	switch f {
	case job.TeeLeft:
		return job.TeeRight
	case job.TeeRight:
		return job.TeeLeft
	}
	return f
}

// RandomCross draws a job with a cross wall between two sides of a roof, both
// imperfect.
func RandomCross(t *rapid.T) *job.Job {
	j := Job()
	j.System.Closer = job.Closer(rapid.IntRange(0, 2).Draw(t, "closer"))
	j.System.Remainder = job.Side(rapid.IntRange(0, 1).Draw(t, "remainder"))
	if rapid.Bool().Draw(t, "slope by packing") {
		j.System.Profile.SlopeBy = job.SlopeByPacking
	}
	if rapid.Bool().Draw(t, "metric") {
		j.Units = job.Metric
	}
	a, b := sixteenths(t, 300, 1500, "a"), sixteenths(t, 160, 900, "b")
	at := sixteenths(t, 110, int(a/in)-110, "at")
	cross(j, a, b, at, job.TeeFace(rapid.IntRange(0, 2).Draw(t, "of")))
	j.System.Tee.Leg, j.System.Tee.Branch = sixteenths(t, 8, 40, "tee leg"), sixteenths(t, 8, 60, "tee branch")
	j.Perimeters[1].Raise = sixteenths(t, 0, 2, "raise")
	if rapid.Bool().Draw(t, "turned") { // the cross wall goes the other way
		p := &j.Perimeters[0]
		p.Bearing = 0
		p.Starts, p.Runs[0].Right = p.Runs[0].Right, p.Starts
	}
	for i := range j.Perimeters {
		for k := range j.Perimeters[i].Runs {
			survey(t, &j.Perimeters[i].Runs[k])
			furnish(t, &j.Perimeters[i].Runs[k])
		}
	}
	return j
}
