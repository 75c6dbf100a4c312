package outline

import "strconv"

// letters that name runs. I, O and Q read as figures, S and C stand before the
// numbers of supports and chairs, J of joints, T of transitions, L and R are hands.
const letters = "ABDEFGHKMNPUVWXYZ"

// mostNamed runs share a letter: a name has four characters at most.
const mostNamed = 999

// name gives every perimeter and every run a name of its own. The runs of a job
// with one short perimeter are letters; else each perimeter has its letter and its
// runs are numbered, A1, A2, and further perimeters number on after the first ones.
func (p *Plan) name() {
	roofs, wells := 0, 0
	used := make([]int, len(letters))
	for i := range p.Perimeters {
		q := &p.Perimeters[i]
		switch q.Kind {
		case Well:
			wells++
			q.Name = "WELL" + suffix(wells)
		default:
			roofs++
			q.Name = "ROOF" + suffix(roofs)
		}
		alone := len(p.Perimeters) == 1 && len(q.Sides) <= len(letters)
		for k := range q.Sides {
			if alone {
				q.Sides[k].Name = letters[k : k+1]
				continue
			}
			l := i % len(letters)
			used[l]++
			q.Sides[k].Name = letters[l:l+1] + strconv.Itoa(used[l])
		}
	}
}

// named says whether every run has a name of at most four characters.
func (p *Plan) named() bool {
	for _, q := range p.Perimeters {
		for _, s := range q.Sides {
			if len(s.Name) > 4 {
				return false
			}
		}
	}
	return true
}

func suffix(n int) string {
	if n == 1 {
		return ""
	}
	return strconv.Itoa(n)
}
