package refold

import "math"

// ends holds what the list says of the ends of a piece's legs against one another and
// against their blanks: neighbours tell of one seam alike, the lengths of all legs are
// those of each, and rear folds are what the turns leave of the front ones.
func (c *checker) ends(legs []Sheet) {
	long := numbers(legs[0].Row["street-side fold of each leg"])
	if len(long) != len(legs) {
		c.say("%s: the list has lengths of %d legs, and the piece has %d", legs[0].Name(), len(long), len(legs))
		return
	}
	for i, w := range legs {
		r := w.Row
		if got := r.Number("street-side fold, left end to right end"); got != long[i] ||
			r["street-side fold of each leg"] != legs[0].Row["street-side fold of each leg"] {
			c.say("%s: its street-side fold is %v, that of leg %d is %v", w.Name(), got, i+1, long[i])
		}
		if right := r["right end"]; (right == "corner" || right == "break of slope") != (i < len(legs)-1) {
			c.say("%s: its right end is a %s, and it is leg %d of %d", w.Name(), right, i+1, len(legs))
		}
		if i == 0 {
			continue
		}
		for _, what := range []string{"turn at ", "change of slope at ", ""} {
			if a, b := legs[i-1].Row[what+"right end"], r[what+"left end"]; a != b {
				c.say("%s: %sleft end is %q, and %q at the end of its neighbour", w.Name(), what, b, a)
			}
		}
	}
	for i := range legs {
		c.rearFold(legs, i)
	}
}

// blank holds a blank against its stated size, which is rounded up to what shops letter.
func (c *checker) blank(w Sheet) {
	lo, hi := w.Bounds()
	step := 0.1
	if w.Row["unit"] == "in" {
		step = 25.4 / 64
	}
	for _, q := range []struct {
		what string
		has  float64
	}{{"blank length", hi.X - lo.X}, {"blank width", hi.Y - lo.Y}} {
		if more := w.Row.MM(q.what) - q.has; more < -1e-3 || more > step+1e-3 {
			c.say("%s: %s %.3f mm, cut %.3f", w.Name(), q.what, w.Row.MM(q.what), q.has)
		}
	}
}

// rearFold holds the written rear fold of a leg against its front one, less what the
// turns at its ends take of it. Faces so far apart meet (b - a cos turn) / sin turn
// nearer, a being its own width and b its neighbour's; over a break of slope the fall of
// its top to the rear fold, by half the change.
//
// source: plane geometry.
func (c *checker) rearFold(legs []Sheet, i int) {
	w := legs[i]
	outside := func(w Sheet) float64 { return w.Row.MM("inside width") + 2*w.Thickness() }
	want := w.Row.MM("street-side fold, left end to right end")
	for _, e := range []struct {
		end  string
		next int
	}{{"left end", i - 1}, {"right end", i + 1}} {
		switch w.Row[e.end] {
		case "corner":
			sin, cos := math.Sincos(w.Row.Number("turn at "+e.end) * math.Pi / 180)
			want -= (outside(legs[e.next]) - outside(w)*cos) / sin
		case "break of slope":
			half := w.Row.Number("change of slope at "+e.end) / 2 * math.Pi / 180
			want -= w.Row.Number("slope") * outside(w) * math.Tan(half)
		}
	}
	c.Seen["rear folds"]++
	c.near(w.Name(), "roof-side fold", w.Row.MM("roof-side fold, left end to right end"), want)
}
