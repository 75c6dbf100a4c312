package stand

import "copingset/layout/length"

// Load is an even load on a stretch of a line, in newtons a millimetre.
type Load struct {
	From, To length.Length
	Per      float64
}

// total is the whole of a load and the sum of its moments about a station, in N
// and N mm.
func total(loads []Load, about length.Length) (force, moment float64) {
	for _, l := range loads {
		f := l.Per * (l.To - l.From).MM()
		force += f
		moment += f * ((l.From - about).MM() + (l.To - about).MM()) / 2
	}
	return force, moment
}

// Cut is what of some loads lies between two stations.
func Cut(loads []Load, from, to length.Length) []Load {
	var out []Load
	for _, l := range loads {
		a, z := length.Max(l.From, from), length.Min(l.To, to)
		if a < z {
			out = append(out, Load{a, z, l.Per})
		}
	}
	return out
}

// Loads gives what each hold-down of a row carries of the loads on its line, in
// newtons: Shares by tributary lengths, and Beam as the reactions of one beam
// over all of them, which stays whole from its first hold-down to its last.
// Stations ascend; loads beyond the outer ones hang over. One hold-down carries
// all of it.
type Carried struct{ Share, Beam float64 }

// Loads works both out.
func Loads(at []length.Length, loads []Load) []Carried {
	out := make([]Carried, len(at))
	for i, f := range shares(at, loads) {
		out[i].Share = f
	}
	for i, f := range reactions(at, loads) {
		out[i].Beam = f
	}
	return out
}

// shares gives each hold-down what lies nearer to it than to another.
func shares(at []length.Length, loads []Load) []float64 {
	out := make([]float64, len(at))
	for i := range at {
		for _, l := range loads {
			a, z := l.From, l.To
			// The middle of a bay may lie on half a nanometre: twice the stations keep it whole.
			from, to := 2*a, 2*z
			if i > 0 {
				from = length.Max(from, at[i-1]+at[i])
			}
			if i+1 < len(at) {
				to = length.Min(to, at[i]+at[i+1])
			}
			if from < to {
				out[i] += l.Per * (to - from).MM() / 2
			}
		}
	}
	return out
}

// reactions are those of a continuous beam of even stiffness on knife edges that
// do not give, by the theorem of three moments (Clapeyron 1857): for the spans l
// and r of two neighbouring bays
//
//	M0 l + 2 M1 (l + r) + M2 r = -6 Al/l - 6 Ar/r
//
// where Al and Ar are the moments of the areas of the bays' simple bending
// moments about their outer ends. Over the outer hold-downs the moment is that
// of what hangs over.
func reactions(at []length.Length, loads []Load) []float64 {
	n := len(at)
	out := make([]float64, n)
	switch n {
	case 0:
		return out
	case 1:
		out[0], _ = total(loads, at[0])
		return out
	}
	var all length.Length // where loads end
	low := at[0]
	for _, l := range loads {
		all, low = length.Max(all, l.To), length.Min(low, l.From)
	}
	all = length.Max(all, at[n-1])
	left, ml := total(Cut(loads, low, at[0]), at[0])
	right, mr := total(Cut(loads, at[n-1], all), at[n-1])
	m := make([]float64, n) // bending moments over the hold-downs, hogging negative
	m[0], m[n-1] = ml, -mr
	bays := make([]bay, n-1)
	for i := range bays {
		bays[i] = newBay(at[i], at[i+1], Cut(loads, at[i], at[i+1]))
	}
	threeMoments(bays, m)
	out[0], out[n-1] = left, right
	for i, b := range bays {
		slope := (m[i+1] - m[i]) / b.span
		out[i] += b.left + slope
		out[i+1] += b.right - slope
	}
	return out
}

// bay is a simply supported span of a beam.
type bay struct {
	span        float64 // mm
	left, right float64 // reactions, N
	fromLeft    float64 // 6 A a / l: moment of the area of its bending moment about its left end, N mm2
	fromRight   float64 // the same about its right end
}

// newBay works out one bay. For an even load w from a to z of a span l, with
// b = l - x the distance from the right end,
//
//	6 A a / l = integral of w x (l2 - x2) / l dx, and about the other end with l - x for x,
//
// by the reciprocal theorem from the slope that a point load gives at an end.
func newBay(from, to length.Length, loads []Load) bay {
	l := (to - from).MM()
	b := bay{span: l}
	if l == 0 {
		return b
	}
	primitive := func(x float64) float64 { return (x*x*l*l/2 - x*x*x*x/4) / l }
	for _, q := range loads {
		a, z := (q.From - from).MM(), (q.To - from).MM()
		f := q.Per * (z - a)
		b.right += f * (a + z) / 2 / l
		b.left += f * (1 - (a+z)/2/l)
		b.fromLeft += q.Per * (primitive(z) - primitive(a))
		b.fromRight += q.Per * (primitive(l-a) - primitive(l-z))
	}
	return b
}

// threeMoments fills the inner moments of m, whose first and last are given, by
// elimination in a band of three, which needs no pivot: its diagonal dominates.
func threeMoments(bays []bay, m []float64) {
	n := len(m) - 2 // unknown
	if n < 1 {
		return
	}
	diag, rest := make([]float64, n), make([]float64, n)
	for i := range n {
		l, r := bays[i], bays[i+1]
		diag[i] = 2 * (l.span + r.span)
		rest[i] = -l.fromLeft - r.fromRight
	}
	rest[0] -= m[0] * bays[0].span
	rest[n-1] -= m[n+1] * bays[n].span
	for i := 1; i < n; i++ {
		k := bays[i].span / diag[i-1]
		diag[i] -= k * bays[i].span
		rest[i] -= k * rest[i-1]
	}
	for i := n - 1; i >= 0; i-- {
		if i < n-1 {
			rest[i] -= bays[i+1].span * m[i+2]
		}
		m[i+1] = rest[i] / diag[i]
	}
}

// Specimen is what the hardest pulled chair of a tested specimen held, as a
// length: its reaction over the load on a unit of length. The specimen is that
// long, with so many chairs the spacing apart, as far from one end as from the
// other.
func Specimen(long, spacing length.Length, chairs int) (share, beam length.Length) {
	first := (long - length.Length(chairs-1)*spacing) / 2
	at := make([]length.Length, chairs)
	for i := range at {
		at[i] = first + length.Length(i)*spacing
	}
	for _, c := range Loads(at, []Load{{0, long, 1}}) {
		share, beam = length.Max(share, length.FromMM(c.Share)), length.Max(beam, length.FromMM(c.Beam))
	}
	return share, beam
}
