package anchor

import (
	"sort"

	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall"
)

// spot is what of a chair stands on one run: its middle and its ends, cap stations.
type spot struct {
	run             *cap.Run
	at, left, right length.Length
}

// overKinks tells the chair at each kink which run it reaches onto.
func overKinks(runs []*Run) {
	for i, a := range runs {
		for _, c := range a.Chairs {
			if c.Joint != nil && c.Joint.Kind == cap.Kink && len(runs) > 1 {
				c.next = runs[(i+1)%len(runs)]
			}
		}
	}
}

// Place is a station of a run under a chair.
type Place struct {
	Run *cap.Run
	At  length.Length
}

// Places are where the wall under a chair is looked at: its two ends, its middle, and the
// readings between them, on every run that it stands on.
func (c *Chair) Places(s *job.System) []Place {
	var out []Place
	for _, q := range c.spots(s) {
		for _, x := range q.places() {
			out = append(out, Place{q.run, x})
		}
	}
	return out
}

// spots are where a chair stands: on its run, and of a kink's one half on the next.
func (b *builder) spots(c *Chair) []spot { return c.spots(b.sys) }

func (c *Chair) spots(s *job.System) []spot {
	left, right := c.Left(s), c.Right(s)
	if c.next == nil {
		return []spot{{c.Run, c.At, left, right}}
	}
	return []spot{{c.Run, c.At, left, c.At}, {c.next.Run, 0, 0, right - c.At}}
}

// front are the ends of a spot on the front face of its wall.
func (s spot) front() [2]length.Length {
	return [2]length.Length{s.run.ToFront(s.left), s.run.ToFront(s.right)}
}

// layersBelow is how many full layers lie under the whole of a chair.
func (b *builder) layersBelow(c *Chair, levelled map[*wall.Run][]wall.ShimZone) int {
	least := -1
	for _, s := range b.spots(c) {
		if n := layersUnder(levelled[s.run.OnWall()], s.front()); least < 0 || n < least {
			least = n
		}
	}
	return least
}

// levelled are the zones of one way to pack: no chair stands over a step, nor over a
// kink on more layers of the one wall than of the other.
func (b *builder) levelled(runs []*Run, by job.PackingMethod) map[*wall.Run][]wall.ShimZone {
	out := map[*wall.Run][]wall.ShimZone{} // look-up only
	for i, a := range runs {
		out[a.OnWall()] = a.OnWall().BuildUp(by, b.stood(runs, i))
	}
	for _, a := range runs {
		for _, c := range a.Chairs {
			if c.next == nil {
				continue
			}
			least := b.layersBelow(c, out)
			for _, s := range b.spots(c) {
				w, f := s.run.OnWall(), s.front()
				out[w] = w.Lower(out[w], f[0], f[1], least)
			}
		}
	}
	return out
}

// stood are the stretches of the front face that chairs cover on one of some runs,
// in station order.
func (b *builder) stood(runs []*Run, i int) [][2]length.Length {
	var out [][2]length.Length
	before := runs[(i+len(runs)-1)%len(runs)]
	for _, r := range []*Run{before, runs[i]} {
		for _, c := range r.Chairs {
			for _, s := range b.spots(c) {
				if s.run == runs[i].Run && (r == runs[i] || c.next == runs[i]) {
					out = append(out, s.front())
				}
			}
		}
		if before == runs[i] {
			break
		}
	}
	return out
}

// places are the stations of a spot between which the wall's faces are straight: its
// ends, its middle, and the readings between.
func (s spot) places() []length.Length {
	out := []length.Length{s.left, s.at, s.right}
	all, from := s.run.Readings, s.run.ToFront(s.left)
	for i := sort.Search(len(all), func(i int) bool { return all[i].Station > from }); i < len(all); i++ {
		x := s.run.ToCap(all[i].Station)
		if x >= s.right {
			break
		}
		out = append(out, x)
	}
	return out
}

// lastOf is the chair at the right end of a run; nil without chairs.
func lastOf(a *Run) *Chair {
	if n := len(a.Chairs); n > 0 {
		return a.Chairs[n-1]
	}
	return nil
}
