package wall

import (
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// tops finds the set surface of a perimeter: level along every run, at the
// height of its greatest reading plus the least packing, and with the
// profile's cross slope where the slope comes from the packing. Corner pieces
// stay level, so the surface is one height all the way round.
func tops(j *job.Job, p *Perimeter, found *finding.List) {
	first := true
	for _, r := range p.Runs {
		for _, q := range r.Readings {
			front, rear := fall(p, r, q)
			z := length.Max(q.TopOutside+front, q.TopInside+rear) + j.Packing.Least
			if first || z > p.Set {
				p.Set = z
			}
			for _, t := range []length.Length{q.TopOutside, q.TopInside} {
				if first || t > p.Greatest.Top {
					p.Greatest.Top, p.Greatest.Run, p.Greatest.At = t, r.Name, q.Station
				}
				if first || t < p.Least.Top {
					p.Least.Top, p.Least.Run, p.Least.At = t, r.Name, q.Station
				}
				first = false
			}
		}
	}
	if first {
		found.Errorf("no-survey", p.Job.At, "survey at least one run: station, width, two tops, offset",
			"perimeter %s has no readings at all", p.Job.Name)
		return
	}
	for _, r := range p.Runs {
		for i := range r.Readings {
			q := &r.Readings[i]
			front, rear := fall(p, r, *q)
			q.PackFront = p.Set - front - q.TopOutside
			q.PackRear = p.Set - rear - q.TopInside
			lo, hi := length.Min(q.PackFront, q.PackRear), length.Max(q.PackFront, q.PackRear)
			if i == 0 || lo < r.PackLeast {
				r.PackLeast = lo
			}
			r.PackMost = length.Max(r.PackMost, hi)
			if hi > j.Packing.Most {
				found.Append(finding.Finding{
					Code: "packing-over", Severity: finding.Hold, At: q.Job.At, Where: refAt(r, q.Station),
					What: "run " + r.Name + " at station " + job.Both(q.Station) + ": packing " + job.Both(hi) +
						" is over the greatest the job allows, " + job.Both(j.Packing.Most),
					Why:  "one level set surface serves the perimeter; the highest reading is " + job.Both(p.Greatest.Top) + " on run " + p.Greatest.Run,
					Mend: "measure the high and the low reading again, have the wall top built up, or allow more packing",
				})
			}
		}
		zones(j, r)
	}
}

// ClearStep lets no step between two build-ups lie within a stretch, where a
// chair stands: the zone with more layers gives way to the stretch's end, and
// one that has nothing left goes.
func (r *Run) ClearStep(lo, hi length.Length) {
	for i := 0; i+1 < len(r.Zones); i++ {
		a, z := &r.Zones[i], &r.Zones[i+1]
		if a.To <= lo || a.To >= hi || r.expansionAt(a.To) {
			continue
		}
		to := length.Min(hi, z.To)
		if a.Layers > z.Layers {
			to = length.Max(lo, a.From)
		}
		a.To, z.From = to, to
	}
	var out []ShimZone
	for _, z := range r.Zones {
		if z.To <= z.From {
			continue
		}
		if n := len(out); n > 0 && out[n-1].Layers == z.Layers && !r.expansionAt(z.From) {
			out[n-1].To = z.To
			continue
		}
		out = append(out, z)
	}
	for i := range out {
		r.shimRange(&out[i])
	}
	r.Zones = out
}

// shimRange finds the least and the most of the shims over a zone's layers.
func (r *Run) shimRange(z *ShimZone) {
	under := r.layer * length.Length(z.Layers)
	first := true
	look := func(q Reading) {
		f, b := q.PackFront-under, q.PackRear-under
		if first {
			z.FrontLeast, z.FrontMost, z.RearLeast, z.RearMost = f, f, b, b
			first = false
		}
		z.FrontLeast, z.FrontMost = length.Min(z.FrontLeast, f), length.Max(z.FrontMost, f)
		z.RearLeast, z.RearMost = length.Min(z.RearLeast, b), length.Max(z.RearMost, b)
	}
	look(r.At(z.From))
	for _, q := range r.Readings {
		if q.Station > z.From && q.Station < z.To {
			look(q)
		}
	}
	look(r.At(z.To))
}

// expansionAt reports whether a building expansion joint is centred at a front
// station.
func (r *Run) expansionAt(s length.Length) bool {
	for _, e := range r.Job.Expansion {
		if r.onFrontFace(e.Station) == s {
			return true
		}
	}
	return false
}

// fall is how far the set surface lies below its height at the front-face
// line, at the wall's front face and at its rear face.
func fall(p *Perimeter, r *Run, q Reading) (front, rear length.Length) {
	return p.Cross.Rise(q.Gap), p.Cross.Rise(q.Gap + q.Width)
}

// zones cuts a run into stretches of one build-up. Between two readings the
// number of full plywood layers is what fits under the set surface at both
// ends and both edges; equal neighbours join. What is left over the layers is
// shims. With chair-only packing there are no layers and the run is one zone.
func zones(j *job.Job, r *Run) {
	r.Zones, r.layer = nil, j.Packing.Layer
	n := len(r.Readings)
	if n == 0 {
		r.Zones = []ShimZone{{From: 0, To: r.Front}}
		return
	}
	layers := func(a, b Reading) int {
		if j.Packing.Method == job.PackChairs || j.Packing.Layer <= 0 {
			return 0
		}
		p := length.Min(length.Min(a.PackFront, a.PackRear), length.Min(b.PackFront, b.PackRear))
		if p < 0 {
			return 0
		}
		return int(p / j.Packing.Layer)
	}
	var add func(from, to length.Length, a, b Reading)
	add = func(from, to length.Length, a, b Reading) {
		if to <= from {
			return
		}
		// No nailer, plywood or shim crosses a building expansion joint.
		for _, e := range r.Job.Expansion {
			if s := r.onFrontFace(e.Station); s > from && s < to {
				add(from, s, a, b)
				add(s, to, a, b)
				return
			}
		}
		k := layers(a, b)
		under := length.Length(k) * j.Packing.Layer
		z := ShimZone{From: from, To: to, Layers: k,
			FrontLeast: length.Min(a.PackFront, b.PackFront) - under, FrontMost: length.Max(a.PackFront, b.PackFront) - under,
			RearLeast: length.Min(a.PackRear, b.PackRear) - under, RearMost: length.Max(a.PackRear, b.PackRear) - under}
		if m := len(r.Zones); m > 0 && r.Zones[m-1].Layers == k && !r.expansionAt(from) {
			l := &r.Zones[m-1]
			l.To = to
			l.FrontLeast, l.FrontMost = length.Min(l.FrontLeast, z.FrontLeast), length.Max(l.FrontMost, z.FrontMost)
			l.RearLeast, l.RearMost = length.Min(l.RearLeast, z.RearLeast), length.Max(l.RearMost, z.RearMost)
			return
		}
		r.Zones = append(r.Zones, z)
	}
	first, last := r.Readings[0], r.Readings[n-1]
	from := length.Length(0)
	add(0, length.Min(first.Station, r.Front), first, first)
	from = length.Max(0, first.Station)
	for i := 1; i < n; i++ {
		to := length.Min(r.Readings[i].Station, r.Front)
		add(from, to, r.Readings[i-1], r.Readings[i])
		from = length.Max(from, to)
	}
	add(from, r.Front, last, last)
}
