package setplane

// num is a fraction and a multiple of a number that is less than every
// positive one: x + e·ε. With the height of the cut corner at t + ε, whatever
// depends on it carries its own slope in e.
type num struct{ x, e frac }

func exact(x frac) num { return num{x, integer(0)} }

func (a num) cmp(b num) int {
	if c := a.x.cmp(b.x); c != 0 {
		return c
	}
	return a.e.cmp(b.e)
}

func (a num) less(b num) bool { return a.cmp(b) < 0 }

// plus adds a plain number.
func (a num) plus(x frac) num { return num{a.x.add(x), a.e} }

func (a num) minus(x frac) num { return num{a.x.sub(x), a.e} }

// along is k·a + x.
func (a num) along(k, x frac) num {
	if a.e.sign() == 0 {
		return num{k.mul(a.x).add(x), a.e}
	}
	return num{k.mul(a.x).add(x), k.mul(a.e)}
}

func (a num) add(b num) num { return num{a.x.add(b.x), a.e.add(b.e)} }

func least(a, b num) num {
	if b.less(a) {
		return b
	}
	return a
}

func most(a, b num) num {
	if a.less(b) {
		return b
	}
	return a
}
