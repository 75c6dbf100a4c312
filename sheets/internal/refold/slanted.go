package refold

import (
	"math"
	"sort"
	"strconv"
)

// slant is a chair whose rear edge runs at a slant, as its blank tells it: what its base
// measures at its left end and its right, and the rest square to its bends.
type slant struct {
	bends []Row      // from the front edge down
	root  int        // the straight that is the base
	wide  [2]float64 // of the base, between its outer mold lines
	cos   float64    // of the slant
	steps []float64  // from the front edge to the first bend, from bend to bend, to the rear edge; the base's is nought
}

// slanted reports whether the list says that a chair's ends differ.
func (w Sheet) slanted() bool { return w.Row["inside width"] != w.Row["inside width, right end"] }

// slant measures a blank whose rear bends slant: root is which of its straights is the
// base.
func (w Sheet) slant(root int) slant {
	s := slant{bends: append([]Row(nil), w.Bends...), root: root}
	mid := func(b Row) float64 { return b.MM("y1") + b.MM("y2") }
	sort.SliceStable(s.bends, func(i, j int) bool { return mid(s.bends[i]) > mid(s.bends[j]) })
	lo, hi := w.Bounds()
	rear := s.bends[root]
	dx, dy := rear.MM("x2")-rear.MM("x1"), rear.MM("y2")-rear.MM("y1")
	s.cos = math.Abs(dx) / math.Hypot(dx, dy)
	ends := [2]float64{lo.X, hi.X}
	top := hi.Y // of the base
	half, reach := func(b Row) float64 { return b.MM("bend allowance") / 2 }, func(b Row) float64 {
		return (b.MM("inside radius") + w.Thickness()) * math.Tan(b.Number("turn")/2*math.Pi/180)
	}
	add := 0.0
	if root > 0 {
		front := s.bends[root-1]
		ends = [2]float64{math.Min(front.MM("x1"), front.MM("x2")), math.Max(front.MM("x1"), front.MM("x2"))}
		top, add = front.MM("y1"), reach(front)-half(front)
	}
	for i, x := range ends {
		s.wide[i] = top - (rear.MM("y1") + (x-rear.MM("x1"))*dy/dx) + add + (reach(rear)-half(rear))/s.cos
	}
	// Square to the bends: those behind the base are parallel.
	at := func(b Row) float64 { return b.MM("y1") - b.MM("x1")*dy/dx }
	edge := math.Inf(1)
	for _, p := range w.Outline {
		edge = math.Min(edge, p.Y-p.X*dy/dx)
	}
	for i := range len(s.bends) + 1 {
		switch {
		case i == root:
			s.steps = append(s.steps, 0)
		case i == 0:
			s.steps = append(s.steps, hi.Y-s.bends[0].MM("y1"))
		case i < root:
			s.steps = append(s.steps, s.bends[i-1].MM("y1")-s.bends[i].MM("y1"))
		case i == len(s.bends):
			s.steps = append(s.steps, (at(s.bends[i-1])-edge)*s.cos)
		default:
			s.steps = append(s.steps, (at(s.bends[i-1])-at(s.bends[i]))*s.cos)
		}
	}
	return s
}

// end is a chair of one width all along that has the section of this one's left end or
// its right, as wide there as the list says its cap is.
func (s slant) end(w Sheet, right bool) Sheet {
	k, head := 0, "inside width"
	if right {
		k, head = 1, "inside width, right end"
	}
	out := Sheet{Row: Row{}}
	for name, v := range w.Row {
		out.Row[name] = v
	}
	out.Row["inside width"], out.Row["inside width, right end"] = w.Row[head], w.Row[head]
	depth, unit := 0.0, 1.0
	if w.Row["unit"] == "in" {
		unit = 25.4
	}
	for i, b := range s.bends {
		depth += s.steps[i]
		if i == s.root {
			depth += s.wide[k]
			for _, q := range s.bends[max(0, i-1) : i+1] {
				depth -= (q.MM("inside radius")+w.Thickness())*math.Tan(q.Number("turn")/2*math.Pi/180) -
					q.MM("bend allowance")/2
			}
		}
		flat := Row{}
		for name, v := range b {
			flat[name] = v
		}
		y := strconv.FormatFloat(-depth/unit, 'f', -1, 64)
		flat["y1"], flat["y2"] = y, y
		out.Bends = append(out.Bends, flat)
	}
	depth += s.steps[len(s.bends)]
	out.Outline = []Pt{{0, -depth}, {100, -depth}, {100, 0}, {0, 0}}
	return out
}

// slantedChair compares a chair under a taper with the job: at both its ends it is as
// wide as its cap there asks, its faces as long as stated, and stands in the cap's
// metal nowhere. Its rising web is as high as the narrow end asks.
func (c *checker) slantedChair(w Sheet, caps []Sheet) {
	c.Seen["chairs under tapers"]++
	blank, s := c.chair(w), &c.j.System
	root := -1
	for i, f := range blank.Section {
		if f.Across {
			root = i
		}
	}
	if len(w.Bends) != len(blank.Section)-1 || root == len(w.Bends) {
		c.say("%s: %d bends, the job states %d faces", w.Name(), len(w.Bends), len(blank.Section))
		return
	}
	m := w.slant(root)
	f := blank.Section[root]
	insides := [2]float64{w.Row.MM("inside width"), w.Row.MM("inside width, right end")}
	for k, what := range []string{"base at its left end", "base at its right end"} {
		c.near(w.Name(), what, m.wide[k],
			insides[k]-s.Chair.FrontEdge.MM()-s.Chair.RearEdge.MM()-f.Before.MM()-f.Behind.MM()/m.cos)
	}
	narrow := insides[1] < insides[0]
	q := m.end(w, narrow)
	c.section(q, blank.Section, math.Min(insides[0],
		insides[1])-s.Chair.FrontEdge.MM()-s.Chair.RearEdge.MM()-f.Behind.MM()*(1/m.cos-1))
	for _, right := range []bool{false, true} {
		q := m.end(w, right)
		for _, cap := range caps {
			if r := cap.Fold(); math.Abs(cap.Row.Number("slope")-w.slope(c.j)) < 1e-6 && r.Stand() {
				r.widen(q.Row.MM("inside width") - cap.Row.MM("inside width"))
				c.chairIn(q, r)
				break
			}
		}
	}
}

// widen makes the top of a cap that stands wider, or narrower.
func (r *Section) widen(by float64) {
	past := false
	var move Pt
	var along float64
	for i := range r.Spans {
		n := &r.Spans[i]
		if past {
			n.At, n.From, n.To = n.At.add(move), n.From+along, n.To+along
		}
		if n.Name == "top" && n.Turn == 0 {
			along = by / n.Dir.X
			move, past = n.Dir.by(along), true
			n.To += along
		}
	}
}

// chairFor holds a chair against the job and the cap over it.
func (c *checker) chairFor(w Sheet, under func(Sheet) (Section, bool), caps []Sheet) {
	if w.slanted() {
		c.slantedChair(w, caps)
		return
	}
	s := &c.j.System
	c.section(w, c.chair(w).Section, w.Row.MM("inside width")-s.Chair.FrontEdge.MM()-s.Chair.RearEdge.MM())
	if r, ok := under(w); ok {
		c.chairIn(w, r)
	}
}
