package wall

import (
	"copingset/layout/job"
	"copingset/layout/length"
)

// zones cuts a run into stretches of one build-up. Between two readings the
// number of full plywood layers is what fits under the set surface at both
// ends and both edges; equal neighbours join. What is left over the layers is
// shims. Without layers the run is one zone between building expansion joints.
func zones(r *Run, layered bool) []ShimZone {
	n := len(r.Readings)
	if n == 0 {
		return []ShimZone{{From: 0, To: r.Front}}
	}
	layers := func(a, b Reading) int {
		if !layered || r.packing.Layer <= 0 {
			return 0
		}
		p := length.Min(length.Min(a.PackFront, a.PackRear), length.Min(b.PackFront, b.PackRear))
		if p < 0 {
			return 0
		}
		return int(p / r.packing.Layer)
	}
	var out []ShimZone
	var add func(from, to length.Length)
	add = func(from, to length.Length) {
		if to <= from {
			return
		}
		// No nailer, plywood or shim crosses a building expansion joint.
		for _, e := range r.Job.Expansion {
			if s := r.onFrontFace(e.Station); s > from && s < to {
				add(from, s)
				add(s, to)
				return
			}
		}
		k := layers(r.At(from), r.At(to))
		if m := len(out); m > 0 && out[m-1].Layers == k && !r.expansionAt(from) {
			out[m-1].To = to
			return
		}
		out = append(out, ShimZone{From: from, To: to, Layers: k})
	}
	from := length.Length(0)
	for _, q := range r.Readings {
		to := length.Min(q.Station, r.Front)
		add(from, to)
		from = length.Max(from, to)
	}
	add(from, r.Front)
	r.complete(out)
	return out
}

// BuildUp cuts the run into the zones of one way to pack, with no step between
// two of them under any of the stands, which are stretches of the front face
// that a chair covers.
func (r *Run) BuildUp(by job.PackingMethod, stands [][2]length.Length) []ShimZone {
	out := zones(r, by != job.PackChairs)
	for _, s := range stands {
		out = r.clearStep(out, s[0], s[1])
	}
	return out
}

// clearStep lets no step between two build-ups lie within a stretch, where a
// chair stands: the zone with more layers gives way to the stretch's end, and
// one that has nothing left goes.
func (r *Run) clearStep(zones []ShimZone, lo, hi length.Length) []ShimZone {
	moved := false
	for i := 0; i+1 < len(zones); i++ {
		a, z := &zones[i], &zones[i+1]
		if a.To <= lo || a.To >= hi || r.expansionAt(a.To) {
			continue
		}
		to := length.Min(hi, z.To)
		if a.Layers > z.Layers {
			to = length.Max(lo, a.From)
		}
		a.To, z.From = to, to
		moved = true
	}
	if !moved {
		return zones
	}
	return r.joined(zones)
}

// Lower leaves no more than some full layers within a stretch of the front face, where
// a chair stands on this wall and on another that has no more.
func (r *Run) Lower(zones []ShimZone, lo, hi length.Length, most int) []ShimZone {
	var out []ShimZone
	for _, z := range zones {
		within, after := z, z
		z.To, within.From, within.To, after.From = length.Min(z.To, lo), length.Max(z.From, lo), length.Min(z.To, hi),
			length.Max(z.From, hi)
		within.Layers = min(within.Layers, most)
		out = append(out, z, within, after)
	}
	return r.joined(out)
}

// joined leaves out zones that have nothing left and joins neighbours that are built
// up alike.
func (r *Run) joined(zones []ShimZone) []ShimZone {
	var out []ShimZone
	for _, z := range zones {
		if z.To <= z.From {
			continue
		}
		if n := len(out); n > 0 && out[n-1].Layers == z.Layers && !r.expansionAt(z.From) {
			out[n-1].To = z.To
			continue
		}
		out = append(out, z)
	}
	r.complete(out)
	return out
}

// complete finds what follows from the places of zones: the least and the most
// of the shims over their layers, how they taper, and the nails.
func (r *Run) complete(zones []ShimZone) {
	if len(r.Readings) == 0 {
		return
	}
	k := 0 // first reading past the zone's start
	at := make([]Reading, 0, len(r.Readings)+2)
	for i := range zones {
		z := &zones[i]
		for k < len(r.Readings) && r.Readings[k].Station <= z.From {
			k++
		}
		at = append(at[:0], r.At(z.From))
		at[0].Station = z.From
		for m := k; m < len(r.Readings) && r.Readings[m].Station < z.To; m++ {
			at = append(at, r.Readings[m])
		}
		end := r.At(z.To)
		end.Station = z.To
		at = append(at, end)
		r.shim(z, at)
		z.Nails = 0
		if n := r.packing.Nail; n.Spacing > 0 {
			along := int((z.To-z.From+n.Spacing-1)/n.Spacing) + 1
			z.Nails = along * n.Rows * z.Layers
		}
	}
}

// shim finds the shims of a zone from the readings at its ends and between. A
// taper goes from one to the next, in steps of the thinnest shim; neighbours
// that are level and alike join.
func (r *Run) shim(z *ShimZone, at []Reading) {
	under := r.packing.Layer * length.Length(z.Layers)
	thin := length.Length(1)
	if n := len(r.packing.Shims); n > 0 {
		thin = r.packing.Shims[n-1]
	}
	step := func(t length.Length) length.Length { return length.RoundTo(length.Max(0, t-under), thin) }
	z.Tapers = make([]Taper, 0, len(at)-1)
	for i, q := range at {
		f, b := q.PackFront-under, q.PackRear-under
		if i == 0 {
			z.FrontLeast, z.FrontMost, z.RearLeast, z.RearMost = f, f, b, b
			continue
		}
		z.FrontLeast, z.FrontMost = length.Min(z.FrontLeast, f), length.Max(z.FrontMost, f)
		z.RearLeast, z.RearMost = length.Min(z.RearLeast, b), length.Max(z.RearMost, b)
		a := at[i-1]
		t := Taper{From: a.Station, To: q.Station,
			FrontFrom: step(a.PackFront), FrontTo: step(q.PackFront), RearFrom: step(a.PackRear),
			RearTo: step(q.PackRear)}
		if n := len(z.Tapers); n > 0 && t.Level() && z.Tapers[n-1].Level() &&
			z.Tapers[n-1].FrontTo == t.FrontFrom && z.Tapers[n-1].RearTo == t.RearFrom {
			z.Tapers[n-1].To = t.To
			continue
		}
		z.Tapers = append(z.Tapers, t)
	}
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
