package cap

import (
	"slices"

	"copingset/layout/length"
)

// roomy tells whether the leg at one end of the run, and straight pieces
// beside it, fill a room.
func (s *stretch) roomy(end, w int, room length.Length) bool {
	l, g := s.legs[end][w], s.f.sys.Joint.Gap
	if l.least > 0 && room >= l.least && room <= l.longest {
		return true
	}
	return room >= l.least+g+s.least
}

// places gathers the candidates and what can be done at each.
func (s *stretch) places() {
	s.count()
	if !s.f.sys.Transition.Offered() {
		s.whole = s.shares(nil, beyond)
		return
	}
	t, g, grid := &s.f.sys.Transition, s.f.sys.Joint.Gap, s.f.grid
	var base []length.Length
	add := func(x length.Length) {
		for _, y := range []length.Length{length.FloorTo(x, grid), length.CeilTo(x, grid)} {
			if y > 0 && y < s.cap && s.stands(y) {
				base = append(base, y)
			}
		}
	}
	kink := func(x length.Length) {
		add(x - t.Leg)
		add(x - t.Length + t.Leg)
	}
	for i := range s.from {
		add(s.from[i] + g + s.least)
		add(s.to[i] - g - s.least - t.Length)
	}
	for _, w := range s.blocked {
		for _, x := range []length.Length{w.from, w.to} {
			add(x + g - g/2)
			add(x - g/2 - t.Length)
		}
	}
	for w := range s.widths {
		for end := range s.legs {
			l := s.legs[end][w]
			for _, room := range []length.Length{l.least, l.longest, l.least + g + s.least} {
				if end == 0 {
					add(room + g)
				} else {
					add(s.cap - room - g - t.Length)
				}
			}
		}
	}
	for i, x := range s.x {
		kink(x)
		if i == 0 || s.x[i-1] == x {
			continue
		}
		for _, w := range s.widths {
			for _, lines := range [][]length.Length{s.cover, s.loose} {
				p, q := lines[i-1], lines[i]
				if p != q && (p-w < 0) != (q-w < 0) {
					kink(s.x[i-1] + length.MulDiv(x-s.x[i-1], int64(w-p), int64(q-p)))
				}
			}
		}
	}
	for i, x := range s.x {
		for _, w := range s.widths {
			for _, v := range s.widths {
				if w == v || length.Abs(w-v) > t.ChangeMost {
					continue
				}
				for _, h := range []length.Length{s.cover[i], s.loose[i]} {
					if (h-w < 0) != (h-v < 0) {
						add(x - t.Leg - length.MulDiv(t.Length-2*t.Leg, int64(h-w), int64(v-w)))
					}
				}
			}
		}
	}
	base = sorted(base)
	tried := make([][]move, 0, len(base))
	n := 0
	for _, x := range base {
		if m := s.movesAt(x); len(m) > 0 {
			base[n], tried = x, append(tried, m)
			n++
		}
	}
	known := base[:n]
	far := t.Length + 2*g + s.least
	base = slices.Clone(known)
	for _, x := range known {
		for k := length.Length(1); k <= 2; k++ {
			for _, y := range []length.Length{x - k*far, x + k*far} {
				add(y)
			}
		}
	}
	base = sorted(base)
	s.begin, s.end = make([]share, 0, len(base)*len(s.widths)), make([]share, 0, len(base)*len(s.widths))
	for _, x := range base {
		var m []move
		if len(known) > 0 && known[0] == x {
			m, known, tried = tried[0], known[1:], tried[1:]
		} else if m = s.movesAt(x); len(m) == 0 {
			continue
		}
		s.at, s.moves = append(s.at, x), append(s.moves, m)
		s.begin, s.end = s.shares(s.begin, x+t.Leg), s.shares(s.end, x+t.Length-t.Leg)
	}
	s.whole = s.shares(nil, beyond)
}

// sorted lists places once each, ascending.
func sorted(all []length.Length) []length.Length {
	slices.Sort(all)
	return slices.Compact(all)
}

// movesAt tries all pairs of widths at a place. The two readings that a taper
// begins and ends at are the same for all of them, so they are looked up once.
func (s *stretch) movesAt(x length.Length) []move {
	if most := len(s.widths) * len(s.widths); cap(s.block)-len(s.block) < most {
		s.block = make([]move, 0, max(most, 2048))
	}
	first := len(s.block)
	t := s.taper(x, 0, 0)
	from, to := s.needAt(t.From), s.needAt(t.To)
	coverFrom, coverTo := s.f.covering(from), s.f.covering(to)
	for i, w := range s.widths {
		if coverFrom > w {
			continue
		}
		for k, v := range s.widths {
			if i == k || coverTo > v || length.Abs(w-v) > s.f.sys.Transition.ChangeMost {
				continue
			}
			if c, ok := s.taperCost(s.taper(x, w, v), from, to); ok {
				s.block = append(s.block, move{int16(i), int16(k), c})
			}
		}
	}
	return s.block[first:len(s.block):len(s.block)]
}
