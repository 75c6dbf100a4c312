package outline

import (
	"fmt"
	"math"
	"slices"

	"copingset/layout/finding"
	"copingset/layout/length"
)

// loop is a ring being made into a perimeter.
type loop struct {
	of    Ring
	v     []Vertex
	p     []vec // of v
	depth int   // how many others it lies in
}

// Of makes perimeters of rings: points that are one or lie on a line are taken out,
// a ring inside another is a well, one inside a well a roof again. Rings that cross
// themselves or each other and rings without an area are errors at their vertex.
func Of(rings []Ring, o Options) (Plan, finding.List) {
	var out Plan
	var found finding.List
	total := 0
	for _, r := range rings {
		total += len(r.V)
	}
	if total > Most {
		found = append(found, finding.New(finding.Error, "outline-points", rings[0].At,
			"draw the outline alone, or choose its layer",
			"the outline has %d points; at most %d are taken", total, Most))
		return out, found
	}
	var loops []*loop
	for _, r := range rings {
		l := &loop{of: r}
		out.Changes = append(out.Changes, l.clean(o)...)
		if f, bad := l.unfit(o); bad {
			found = append(found, f)
			continue
		}
		loops = append(loops, l)
	}
	found = append(found, between(loops)...)
	if len(found) == 0 && len(loops) == 0 {
		found = append(found, finding.New(finding.Error, "outline-none", finding.Place{},
			"draw the roof's outline as a closed polyline",
			"there is no closed outline"))
	}
	if len(found) > 0 {
		return Plan{Changes: out.Changes}, found
	}
	for _, l := range loops {
		for _, other := range loops {
			if other != l && inside(l.p[0], other.p) {
				l.depth++
			}
		}
	}
	slices.SortStableFunc(loops, func(a, b *loop) int { return a.depth - b.depth })
	for _, l := range loops {
		out.Perimeters = append(out.Perimeters, l.perimeter(len(loops) > 1))
	}
	out.name()
	if !out.named() {
		found = append(found, finding.New(finding.Error, "outline-points", rings[0].At,
			"draw arcs with fewer facets, or make several jobs of it",
			"more than %d runs would share a letter, and a run's name has four characters", mostNamed))
		return Plan{Changes: out.Changes}, found
	}
	return out, nil
}

// clean takes out points that are no corners, and says so.
func (l *loop) clean(o Options) []string {
	near := o.Near.MM()
	l.v = slices.Clone(l.of.V)
	var twice, flat, spikes []Vertex
	at := func(i int) vec { return l.v[(i+len(l.v))%len(l.v)].vec() }
	// One thing at a time: points that are one, then spikes, then points on a line.
	// Taken together, the second of a double point would pass for a spike.
	gone := make([][]vec, len(l.v)) // what was taken out behind each vertex
	take := func(wrong func(i int) int) (Vertex, bool) {
		for i := 0; i < len(l.v) && len(l.v) > 2; i++ {
			if k := wrong(i); k >= 0 {
				v, before := l.v[k], (k+len(l.v)-1)%len(l.v)
				gone[before] = append(append(gone[before], v.vec()), gone[k]...)
				l.v, gone = slices.Delete(l.v, k, k+1), slices.Delete(gone, k, k+1)
				return v, true
			}
		}
		return Vertex{}, false
	}
	double := func(i int) int {
		if i+1 == len(l.v) { // the last point that repeats the first goes
			if at(i).distance(at(0)) <= near {
				return i
			}
			return -1
		}
		if at(i).distance(at(i+1)) > near {
			return -1
		}
		return i + 1
	}
	spike := func(i int) int {
		if at(i-1).distance(at(i+1)) > near {
			return -1
		}
		return i
	}
	onLine := func(i int) int {
		off := func(p vec) bool { return fromSegment(p, at(i-1), at(i+1)) > near }
		before := (i + len(l.v) - 1) % len(l.v)
		// A curve of many points must not be worn down to its chord one by one.
		if l.v[i].Arc || off(at(i)) || slices.ContainsFunc(gone[before], off) || slices.ContainsFunc(gone[i], off) {
			return -1
		}
		return i
	}
	for {
		if v, ok := take(double); ok {
			twice = append(twice, v)
		} else if v, ok := take(spike); ok {
			spikes = append(spikes, v)
		} else if v, ok := take(onLine); ok {
			flat = append(flat, v)
		} else {
			break
		}
	}
	l.p = l.p[:0]
	for _, v := range l.v {
		l.p = append(l.p, v.vec())
	}
	var out []string
	say := func(v []Vertex, one, many string) {
		switch len(v) {
		case 0:
		case 1:
			out = append(out, fmt.Sprintf("%s: %s, %s, is left out", l.of.Name, one, v[0].At))
		default:
			out = append(out, fmt.Sprintf("%s: %d %s, the first %s, are left out", l.of.Name, len(v), many, v[0].At))
		}
	}
	say(twice, "a point within "+o.say(o.Near)+" of the one before it",
		"points within "+o.say(o.Near)+" of the one before them")
	say(flat, "a point within "+o.say(o.Near)+" of the line between its neighbours",
		"points within "+o.say(o.Near)+" of the line between their neighbours")
	say(spikes, "a spike without width", "spikes without width")
	return out
}

// mostTurn is the turn, in degrees, from which no corner can be made: a job refuses it.
const mostTurn = 175

// unfit says why a ring cannot be a perimeter.
func (l *loop) unfit(o Options) (finding.Finding, bool) {
	if len(l.v) < 3 {
		return finding.New(finding.Error, "outline-area", l.of.At, "draw a loop with an area",
			"%s has fewer than three corners that lie apart", l.of.Name), true
	}
	n := len(l.p)
	for i := range n {
		for k := i + 2; k < n; k++ {
			if i == 0 && k == n-1 { // neighbours round the end
				continue
			}
			if x, crossed := meet(l.p[i], l.p[i+1], l.p[k], l.p[(k+1)%n]); crossed {
				f := finding.New(finding.Error, "outline-crosses", l.v[k].At,
					"take the corners in the order in which the wall runs",
					"%s crosses itself %s east and %s north of its origin: the side from this corner meets the one "+
						"from another", l.of.Name,
					o.say(length.FromMM(x.x)), o.say(length.FromMM(x.y)))
				f.Also = []finding.Place{l.v[i].At}
				return f, true
			}
		}
	}
	for i, p := range l.p {
		turn := math.Abs(l.p[(i+1)%n].sub(p).bearing() - p.sub(l.p[(i+n-1)%n]).bearing())
		if turn = math.Min(turn, 360-turn); turn >= mostTurn {
			return finding.New(finding.Error, "outline-spike", l.v[i].At,
				"take the point out, or draw the wall's end as it is, with its width",
				"%s turns back along itself here, by %.1f°", l.of.Name, turn), true
		}
	}
	var round float64
	for i, p := range l.p {
		round += p.distance(l.p[(i+1)%len(l.p)])
	}
	if math.Abs(area(l.p)) <= o.Near.MM()*round {
		return finding.New(finding.Error, "outline-area", l.of.At, "draw a loop with an area", "%s encloses no area",
			l.of.Name), true
	}
	return finding.Finding{}, false
}

// between finds rings that cross or touch each other.
func between(loops []*loop) finding.List {
	var out finding.List
	for i, a := range loops {
		for _, b := range loops[:i] {
			if v, w, crossed := a.crosses(b); crossed {
				f := finding.New(finding.Error, "outline-overlap", v.At,
					"draw each roof and each well as a loop of its own that touches no other",
					"%s meets %s here", a.of.Name, b.of.Name)
				f.Also = []finding.Place{w.At}
				out = append(out, f)
			}
		}
	}
	return out
}

func (l *loop) crosses(o *loop) (v, w Vertex, crossed bool) {
	for i := range l.p {
		for k := range o.p {
			if _, met := meet(l.p[i], l.p[(i+1)%len(l.p)], o.p[k], o.p[(k+1)%len(o.p)]); met {
				return l.v[i], o.v[k], true
			}
		}
	}
	return v, w, false
}

// perimeter turns a ring so that the roof is at the right hand, and begins it at
// the corner from which the wall that faces north most runs.
func (l *loop) perimeter(placed bool) Perimeter {
	out := Perimeter{Kind: Roof, Placed: placed}
	if l.depth%2 == 1 {
		out.Kind = Well
	}
	if anticlockwise := area(l.p) > 0; anticlockwise == (out.Kind == Roof) {
		slices.Reverse(l.v)
		slices.Reverse(l.p)
	}
	first := l.first()
	n := len(l.p)
	point := func(i int) vec { return l.p[(first+i)%n] }
	way := func(i int) vec { return point(i + 1).sub(point(i)) }
	out.Start = point(0).point()
	out.Bearing = tidy(way(0).bearing())
	for i := range n {
		// Directions are rounded and not turns, whose slips would add up along the ring.
		turn := tidy(way((i+1)%n).bearing()) - tidy(way(i).bearing())
		for turn > 180*length.Degree {
			turn -= 360 * length.Degree
		}
		for turn <= -180*length.Degree {
			turn += 360 * length.Degree
		}
		here, next := l.v[(first+i)%n], l.v[(first+i+1)%n]
		out.Sides = append(out.Sides, Side{Length: length.FromMM(way(i).long()), Turn: turn, Facet: here.Arc ||
			next.Arc})
	}
	return out
}

// first is the side whose outside looks most to the north, the longest of those
// that look alike, of these the one that lies farthest north and then west; its left
// end is where a reader of a plan begins.
func (l *loop) first() int {
	var best int
	var score []float64
	for i, p := range l.p {
		if l.v[i].Arc {
			continue
		}
		way := l.p[(i+1)%len(l.p)].sub(p)
		long := way.long()
		// Outside is at the left hand: walking east it looks north.
		s := []float64{math.Round(way.x / long * 1000), math.Round(long), math.Round(p.y), -math.Round(p.x)}
		if score == nil || slices.Compare(s, score) > 0 {
			best, score = i, s
		}
	}
	return best
}

// tidy is an angle in hundredths of a degree; drawings hold no finer one.
func tidy(degrees float64) length.Angle {
	return length.Angle(math.Round(degrees*100)) * (length.Degree / 100)
}
