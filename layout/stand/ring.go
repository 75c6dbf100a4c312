package stand

// cutAt is where a ring is best opened: at the run that is sure to have a joint, if
// there is one, and of those at one with the fewest right legs.
func cutAt(runs []Short) int {
	best := 0
	for k, r := range runs {
		b := runs[best]
		if r.Whole != b.Whole && b.Whole || r.Whole == b.Whole && r.Right < b.Right {
			best = k
		}
	}
	return best
}

// turnedRoom counts the runs of a ring from another one.
type turnedRoom struct {
	Room
	by, n int
}

func (t turnedRoom) Leg(run int, right bool, i int) Cost {
	return t.Room.Leg((run+t.by)%t.n, right, i)
}

func (t turnedRoom) Piece(s Span) Cost {
	s.From, s.To = (s.From+t.by)%t.n, (s.To+t.by)%t.n
	return t.Room.Piece(s)
}

func (t turnedRoom) Pair(run, left, right int) (Cost, bool) {
	return t.Room.Pair((run+t.by)%t.n, left, right)
}

// start is a right leg that a ring's first joint lies at.
type start struct{ run, right int }

// aside is how far from the middle of all that its leg may be a start lies.
func (c *chain) aside(s start) int {
	d := 2*s.right + 1 - c.runs[s.run].Right
	return s.run*1_000_000 + max(d, -d)
}
