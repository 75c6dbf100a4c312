// Package slips tells a slip of the tape from the shape of a wall: a reading
// is held against its neighbours, and one that stands out from them on its own
// is doubted. It knows only lengths.
//
// Find is the entry point; it returns the doubted values. A wall may slope,
// bow, step or peak: a value is only doubted when it lies outside what both its
// neighbours have and does not go on as either side leads up to it, so a change
// that several readings share is never a slip.
package slips

import (
	"slices"

	"copingset/layout/length"
)

// Value is one thing measured along a run.
type Value struct{ At, V length.Length }

// Found is a doubted value.
type Found struct {
	Index    int
	Expected length.Length // what the neighbours lead one to expect there
	Out      length.Length // how far it stands outside of them
	Limit    length.Length // how far it might have
}

// Rule says when to doubt: what stands out by more than Least and by more than
// Times the scatter.
type Rule struct {
	Least   length.Length
	Times   int
	Scatter length.Length // of like runs, for a run too short to have its own; zero: not known
}

// own is the number of readings from which a run has a scatter of its own: one
// slip spoils the residuals of three of them, which leaves the median of eight
// residuals among the sound ones.
const own = 10

// few is the number of readings below which a slip and a bend of the wall are
// hard to tell apart.
const few = 6

// Find doubts values, ascending At. Of fewer than three it doubts none. A run
// of fewer than ten readings is held to the scatter of like runs. In a run of
// fewer than six, and where no scatter is known or shows (half the readings
// stand straight in line to the grid of the tape), twice the least must be
// passed.
func Find(v []Value, r Rule) []Found {
	if len(v) < 3 {
		return nil
	}
	limit := r.limit(v)
	if !doubtful(v, limit) {
		return nil
	}
	left := slices.Clone(v)
	at := make([]int, len(v))
	for i := range at {
		at[i] = i
	}
	var out []Found
	for len(left) > 2 {
		// The farthest from what is expected goes first, with those as far: a slip
		// must not make its neighbours look like one.
		var worst length.Length
		far := make([]length.Length, len(left))
		for i := range left {
			if outside(left, i) > limit {
				far[i] = length.Abs(left[i].V - Expected(left, i))
				worst = length.Max(worst, far[i])
			}
		}
		if worst == 0 {
			break
		}
		for i, f := range far {
			if f == worst {
				out = append(out, Found{Index: at[i], Expected: Expected(left, i), Out: outside(left, i), Limit: limit})
			}
		}
		k := 0
		for i, f := range far {
			if f < worst {
				left[k], at[k] = left[i], at[i]
				k++
			}
		}
		left, at = left[:k], at[:k]
	}
	slices.SortFunc(out, func(a, b Found) int { return a.Index - b.Index })
	return out
}

// doubtful reports whether any value stands out.
func doubtful(v []Value, limit length.Length) bool {
	for i := range v {
		if outside(v, i) > limit {
			return true
		}
	}
	return false
}

func (r Rule) limit(v []Value) length.Length {
	scatter, least := r.Scatter, r.Least
	if Enough(v) {
		scatter = Scatter(Residuals(v))
	}
	if scatter <= 0 || len(v) < few {
		least *= 2
	}
	return length.Max(least, length.Length(r.Times)*scatter)
}

// Fits reports whether a value put in the place of another would not be
// doubted.
func Fits(v []Value, i int, other length.Length, limit length.Length) bool {
	w := slices.Clone(v)
	w[i].V = other
	return outside(w, i) <= limit
}

// Residuals are the distances of the inner values from the straight line
// between their two neighbours, without sign.
func Residuals(v []Value) []length.Length {
	if len(v) < 3 {
		return nil
	}
	out := make([]length.Length, 0, len(v)-2)
	for i := 1; i+1 < len(v); i++ {
		out = append(out, length.Abs(v[i].V-on(v[i-1], v[i+1], v[i].At)))
	}
	return out
}

// Scatter is 1.4826 times the median of residuals: the standard deviation, if
// they are normal, and barely moved by slips among them (Hampel's median
// absolute deviation). It sorts them.
func Scatter(residuals []length.Length) length.Length {
	return length.MulDiv(median(residuals), 14826, 10000)
}

// Enough reports whether there are values enough for a scatter of their own.
func Enough(v []Value) bool { return len(v) >= own }

// Known reports whether there are residuals enough for a scatter.
func Known(residuals []length.Length) bool { return len(residuals) >= own-2 }

// outside is how far a value lies outside what its neighbours have and what
// either side leads up to. At an end it is two thirds of it.
func outside(v []Value, i int) length.Length {
	n := len(v)
	lo, hi := length.Length(0), length.Length(0)
	switch i {
	case 0:
		lo, hi = around(v[1].V, v[2].V, on(v[1], v[2], v[0].At))
	case n - 1:
		lo, hi = around(v[n-2].V, v[n-3].V, on(v[n-3], v[n-2], v[n-1].At))
	default:
		lo, hi = around(v[i-1].V, v[i+1].V, v[i+1].V)
	}
	o := length.Max(length.Max(lo-v[i].V, v[i].V-hi), 0)
	if i > 1 && i < n-1 { // as the left side leads up to it: a peak, or a step beyond
		o = length.Min(o, length.Abs(v[i].V-on(v[i-2], v[i-1], v[i].At)))
	}
	if i > 0 && i < n-2 {
		o = length.Min(o, length.Abs(v[i].V-on(v[i+1], v[i+2], v[i].At)))
	}
	if i == 0 || i == n-1 { // no other side bears it out
		o = length.MulDiv(o, 2, 3)
	}
	return o
}

// Expected is the median of what pairs of the two nearest neighbours on each
// side lead to at a value's place.
func Expected(v []Value, i int) length.Length {
	n := len(v)
	var room [4]length.Length
	all := room[:0]
	switch {
	case n < 2:
		return v[i].V
	case i == 0 || i == n-1:
		step := 1
		if i > 0 {
			step = -1
		}
		a := v[i+step]
		all = append(all, a.V)
		if n > 2 {
			b := v[i+2*step]
			all = append(all, b.V, on(a, b, v[i].At))
		}
	default:
		for _, a := range []int{i - 2, i - 1} {
			for _, b := range []int{i + 1, i + 2} {
				if a >= 0 && b < n {
					all = append(all, on(v[a], v[b], v[i].At))
				}
			}
		}
	}
	return median(all)
}

func around(a, b, c length.Length) (lo, hi length.Length) {
	return min(a, b, c), max(a, b, c)
}

// on is the straight line through two values, at a place. From the lower value
// up, so that a run and its mirror round alike.
func on(a, b Value, at length.Length) length.Length {
	span := b.At - a.At
	if span == 0 {
		return a.V
	}
	if b.V < a.V {
		return b.V + length.MulDiv(a.V-b.V, int64(b.At-at), int64(span))
	}
	return a.V + length.MulDiv(b.V-a.V, int64(at-a.At), int64(span))
}

// Median is the middle one of values, or the mean of the middle two; it sorts them.
func Median(s []length.Length) length.Length { return median(s) }

// median is the middle one, or the mean of the middle two; it sorts.
func median(s []length.Length) length.Length {
	n := len(s)
	if n == 0 {
		return 0
	}
	slices.Sort(s)
	if n%2 == 1 {
		return s[n/2]
	}
	return s[n/2-1] + (s[n/2]-s[n/2-1])/2
}

// Pitch doubts stations: readings are taken at a usual pitch, and one that
// divides two pitches unevenly by a whole slip (a foot, a tenth of a metre) was
// read or written wrong. It takes five readings and three in five of them at
// the pitch.
func Pitch(at []length.Length, slip length.Length) []Found {
	n := len(at)
	if n < 5 {
		return nil
	}
	var steps []length.Length
	for i := 1; i < n; i++ {
		steps = append(steps, at[i]-at[i-1])
	}
	pitch, usual := median(slices.Clone(steps)), 0
	near := func(a, b length.Length) bool { return length.Abs(a-b) <= slip/48 }
	for _, s := range steps {
		if near(s, pitch) {
			usual++
		}
	}
	if 5*usual < 3*len(steps) {
		return nil
	}
	var out []Found
	for i := 1; i+1 < n; i++ {
		mid := at[i-1] + (at[i+1]-at[i-1])/2
		off := length.Abs(at[i] - mid)
		if near(at[i+1]-at[i-1], 2*pitch) && off >= slip/2 && near(length.RoundTo(off, slip), off) {
			out = append(out, Found{Index: i, Expected: mid, Out: off, Limit: slip / 48})
		}
	}
	return out
}
