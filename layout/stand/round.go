package stand

import "copingset/layout/length"

// Round sets how far from a miter the nearest hold-down of each leg may lie,
// where nothing holds the piece down at the miter itself, so that the bay round
// it, from hold-down to hold-down along the longer face, is at most what is
// given: with the fewest chairs in the legs, and the room to spare shared. Each
// leg has the miter at one end, which says how near a chair may come; how far is
// what Round fills in. Half a joint is no metal, and is not counted.
//
// extra is a side for what does not share evenly: the first leg with it, else the
// second; swapped legs with the other side get the swapped answer. Without an
// answer no number of chairs is near enough, and closest is the least bay.
func Round(legs [2]Part, most, step length.Length, extra bool) (out [2]Part, closest length.Length, ok bool) {
	var near [2][]length.Length
	for i, p := range legs {
		near[i] = p.nearest(step)
	}
	best, found := [2]int{}, false
	sum := func(n [2]int) length.Length { return near[0][n[0]] + near[1][n[1]] }
	better := func(a, b [2]int) bool {
		if a[0]+a[1] != b[0]+b[1] {
			return a[0]+a[1] < b[0]+b[1]
		}
		da, db := max(a[0]-a[1], a[1]-a[0]), max(b[0]-b[1], b[1]-b[0])
		if da != db {
			return da < db
		}
		return (a[0] > b[0]) == extra
	}
	for i, u := range near[0] {
		for k, v := range near[1] {
			n := [2]int{i, k}
			if u < 0 || v < 0 {
				continue
			}
			if closest == 0 || u+v < closest {
				closest = u + v
			}
			if u+v <= most && (!found || better(n, best)) {
				best, found = n, true
			}
		}
	}
	if !found {
		return legs, closest, false
	}
	slack := most - sum(best)
	share := [2]length.Length{slack / 2, slack / 2}
	switch {
	case best[0] == 0:
		share = [2]length.Length{0, slack}
	case best[1] == 0:
		share = [2]length.Length{slack, 0}
	}
	for i := range legs {
		far := length.Min(legs[i].Spacing, near[i][best[i]]+share[i])
		if best[i] == 0 {
			far = near[i][0] // its own joint's chair is the nearest
		}
		legs[i].miter().Far = far
	}
	return legs, closest, true
}

// miter is the end of a leg without a chair; the right one of two.
func (p *Part) miter() *End {
	if !p.Ends[1].Chair {
		return &p.Ends[1]
	}
	return &p.Ends[0]
}

// nearest gives, by the number of chairs of a leg, how near the miter its nearest
// hold-down can lie; under zero where so many cannot stand.
func (p Part) nearest(step length.Length) []length.Length {
	if p.Left { // as Row turns it
		p = p.mirrored()
	}
	at := 0
	if !p.Ends[1].Chair {
		at = 1
	}
	p.Ends[at].Far = p.Spacing
	other := p.Ends[1-at]
	out := []length.Length{-1}
	if u := p.Span() - other.joint(at == 1); other.Chair && u <= p.Spacing {
		out[0] = u
	}
	for n := 1; length.Length(n)*p.Chair <= p.Span(); n++ {
		u := length.Length(-1)
		for _, w := range p.ways(step) {
			reach, ok := p.reach(n, w)
			if !ok {
				continue
			}
			v := w.origin + length.Length(reach[0][0].from)*w.step - p.Ends[0].At
			if at == 1 {
				last := reach[n-1]
				v = p.Ends[1].At - w.origin - length.Length(last[len(last)-1].to)*w.step
			}
			if u < 0 || v < u {
				u = v
			}
		}
		out = append(out, u)
	}
	return out
}
