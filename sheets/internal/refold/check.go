package refold

import (
	"fmt"
	"math"
	"strings"

	"copingset/layout/job"
)

// How near what is folded must come to what the job says, millimetres: lengths are
// written to a millionth of an inch, cuts and arcs in chords of 0.05.
const (
	within  = 0.05
	seamGap = 0.1 // along a seam, over its gap
)

// Report is what folding found: what does not agree, and how much was looked at.
type Report struct {
	Faults []string
	Seen   map[string]int
	Drops  map[string]float64 // of tees by their marks: from the main's rear fold to the branch's front fold
}

// Check folds what is written of a job and compares legs, widths, ends and gaps with
// the job file.
func Check(all []Sheet, j *job.Job) Report {
	c := &checker{j: j, Report: Report{Seen: map[string]int{}, Drops: map[string]float64{}}}
	for _, w := range all {
		c.blank(w)
		if !w.sectioned() {
			continue
		}
		if deep := w.Fold().Clash(); deep > within {
			c.say("%s: metal stands %.3f mm in metal", w.Name(), deep)
		}
		if w.Row["street-side leg"] != "" {
			c.cap(w)
		}
	}
	for _, p := range pieces(all) {
		c.piece(p)
	}
	c.parts(all)
	return c.Report
}

type checker struct {
	Report
	j *job.Job
}

func (c *checker) say(format string, args ...any) {
	c.Faults = append(c.Faults, fmt.Sprintf(format, args...))
}

func (c *checker) near(name, what string, got, want float64) {
	if !(math.Abs(got-want) <= within) {
		c.say("%s: %s folds to %.3f mm, the job says %.3f", name, what, got, want)
	}
}

// pieces are the bodies of each mark, in their order.
func pieces(all []Sheet) [][]Sheet {
	var out [][]Sheet
	for _, w := range all {
		if n := len(out); n > 0 && out[n-1][0].Row["mark"] == w.Row["mark"] {
			out[n-1] = append(out[n-1], w)
		} else {
			out = append(out, []Sheet{w})
		}
	}
	return out
}

// cap compares the section of a cap with the job's profile.
func (c *checker) cap(w Sheet) {
	r, name := w.Fold(), w.Name()
	if !r.Stand() {
		c.say("%s has no front leg or no top", name)
		return
	}
	c.Seen["caps"]++
	c.profile(name, r, w.Row.MM("inside width"), w.Row.Number("slope"))
	for _, b := range w.Bends {
		if b["and"] == "upstand" {
			c.upstand(w)
		}
	}
}

// profile compares a section that stands with the job.
func (c *checker) profile(name string, r Section, inside, slope float64) {
	p := &c.j.System.Profile
	front, _ := r.Straight("front leg")
	rear, ok := r.Straight("rear leg")
	top, _ := r.Straight("top")
	if !ok {
		c.say("%s has no rear leg", name)
		return
	}
	c.near(name, "inside width", rear.At.X-front.At.X-2*r.T, inside)
	if got := -top.Dir.Y / top.Dir.X; math.Abs(got-slope) > 1e-6 {
		c.say("%s: the top falls %.6f, want %.6f", name, got, slope)
	}
	if math.Abs(rear.Dir.X) > 1e-6 {
		c.say("%s: the rear leg is %.5f out of plumb", name, rear.Dir.X)
	}
	rearFold := top.At.Y + (rear.At.X-top.At.X)/top.Dir.X*top.Dir.Y
	c.leg(name, r, "front leg", "drip", p.FrontLeg, p.Drip, 0, true)
	c.leg(name, r, "rear leg", "hook", p.RearLeg, p.RearHook, rearFold, false)
	c.hems(name, r, p.HemReturn.MM())
}

// outer is the outer face of a straight at the bend it shares with a neighbour: the
// finish where that turns DOWN, the back where it turns UP.
func (r Section) outer(n Span, up bool) Pt {
	if up {
		return n.At.sub(n.Dir.left().by(r.T))
	}
	return n.At
}

// leg compares a leg and what turns at its foot with the job. A leg to its tangent is
// its lowest metal, to the mold line where the outer faces of leg and kick cross.
func (c *checker) leg(name string, r Section, leg, kick string, stated job.Leg, foot job.Kick, down float64,
	street bool) {
	n, _ := r.Straight(leg)
	q, has := r.Straight(kick)
	if has != (foot.Length > 0) {
		c.say("%s: a %s is bent and the job says %v", name, kick, foot.Length > 0)
		return
	}
	from, to := n.From, r.End() // leg and what follows it to the edge
	if street {
		from, to = 0, n.To
	}
	lowest := func(a, z float64) float64 {
		lo, _ := r.Extreme(a, z, func(p Pt) float64 { return p.Y })
		return down - lo
	}
	if !has {
		c.near(name, leg, lowest(from, to), stated.Length.MM())
		return
	}
	way := q.Dir // of the kick, to its edge
	if street {
		way = way.by(-1)
	}
	turn := math.Acos(math.Max(-1, math.Min(1, -way.Y))) * 180 / math.Pi
	if math.Abs(turn-foot.Angle.Degrees()) > 1e-3 {
		c.say("%s: the %s turns %.4f degrees from the %s, the job says %.4f", name, kick, turn, leg,
			foot.Angle.Degrees())
	}
	// What lies between leg and kick, and from the kick to the edge.
	bendFrom, bendTo, edgeFrom, edgeTo := n.To, q.From, q.From, r.End()
	if street {
		bendFrom, bendTo, edgeFrom, edgeTo = q.To, n.From, 0, q.To
	}
	_, edge := r.Extreme(edgeFrom, edgeTo, func(p Pt) float64 { return p.dot(way) })
	if stated.To == job.ToTangent {
		a, z := n.From, q.From
		if street {
			a, z = q.To, n.To
		}
		c.near(name, leg+" to tangent", lowest(a, z), stated.Length.MM())
		if turn >= 90-1e-6 {
			lo, _ := r.Extreme(bendFrom, bendTo, func(p Pt) float64 { return p.dot(way) })
			c.near(name, kick+" to tangent", edge-lo, foot.Length.MM())
		}
		return
	}
	up := false
	for _, s := range r.Spans {
		if s.Turn != 0 && s.From >= bendFrom-1e-6 && s.To <= bendTo+1e-6 {
			up = s.Turn > 0
		}
	}
	a, b := r.outer(n, up), r.outer(q, up)
	mold := b.add(q.Dir.by((a.X - b.X) / q.Dir.X))
	c.near(name, leg+" to mold line", down-mold.Y, stated.Length.MM())
	c.near(name, kick+" to mold line", edge-mold.dot(way), foot.Length.MM())
}

// hems compares the returns at both edges: from the raw edge to the outside of the fold.
func (c *checker) hems(name string, r Section, want float64) {
	seen := 0
	all := r.Straights()
	for _, n := range []Span{all[0], all[len(all)-1]} {
		if n.Name != "hem" {
			continue
		}
		seen++
		from, to := n.From, n.To
		for _, s := range r.Spans {
			if s.Turn != 0 && math.Abs(s.To-n.From) < 1e-6 && n.From > 0 {
				from = s.From
			}
			if s.Turn != 0 && math.Abs(s.From-n.To) < 1e-6 {
				to = s.To
			}
		}
		lo, hi := r.Extreme(from, to, func(p Pt) float64 { return p.dot(n.Dir) })
		c.near(name, "hem", hi-lo, want)
	}
	if (want > 0) != (seen == 2) {
		c.say("%s: %d hems, the job's return is %.2f mm", name, seen, want)
	}
}

// upstand compares the flange of a wall end with the job: it stands square up from the
// top, its outer face where the end is.
func (c *checker) upstand(w Sheet) {
	s, err := w.Space(false)
	if err == nil {
		_, err = s.Stand()
	}
	if err != nil {
		c.say("%v", err)
		return
	}
	c.Seen["upstands"]++
	for i, f := range s.Faces {
		if f.Name != "upstand" {
			continue
		}
		if math.Abs(math.Abs(f.Frame.N.X)-1) > 1e-6 {
			c.say("%s: its upstand is not square to the run", w.Name())
		}
		up, top := math.Inf(-1), s.Faces[0].Frame
		for _, e := range s.Edges(2) {
			if e.Face == i {
				for _, p := range append(e.Finish[:], e.Back[:]...) {
					up = math.Max(up, p.sub(top.O).dot(top.N)+s.T)
				}
			}
		}
		c.near(w.Name(), "upstand, outside", up, c.j.System.WallEnd.Upstand.MM())
		// The outer face is the back, at the end of the legs.
		leg, _ := s.Sheet.Fold().Straight("front leg")
		right := f.Frame.N.X < 0
		c.near(w.Name(), "outside of the upstand from the end", f.Frame.O.sub(f.Frame.N.by(s.T)).X,
			w.EndAt((leg.From+leg.To)/2, right))
	}
}

// plates compares an end plate with the section of the body before it: it stands the
// gap off that all round.
func (c *checker) endPlate(w, of Sheet) {
	r := of.Fold()
	if !r.Stand() {
		c.say("%s closes no cap", w.Name())
		return
	}
	c.Seen["end plates"]++
	lo, hi := w.Bounds()
	gap, inside := w.Row.MM("seam gap"), w.Row.MM("inside width")
	c.near(w.Name(), "width between two gaps", hi.X-lo.X, inside-2*gap)
	front, _ := r.Straight("front leg")
	drop := plateDrop(r, gap)
	var skin []Pt
	const n = 3000
	for k := range n {
		f, b := r.Skins(r.End() * float64(k) / n)
		skin = append(skin, f.add(Pt{0, drop}), b.add(Pt{0, drop}))
	}
	best := math.Inf(1)
	for _, flip := range []bool{false, true} { // its street side is the higher
		place := func(p Pt) Pt {
			x := p.X - lo.X
			if flip {
				x = hi.X - p.X
			}
			return Pt{front.At.X + r.T + gap + x, p.Y - hi.Y}
		}
		least := math.Inf(1)
		for i, p := range w.Outline {
			a, b := place(p), place(w.Outline[(i+1)%len(w.Outline)])
			for _, m := range skin {
				least = math.Min(least, Off(m, a, b))
			}
		}
		if math.Abs(least-gap) < math.Abs(best-gap) {
			best = least
		}
	}
	if math.Abs(best-gap) > within+0.01 {
		c.say("%s: the plate stands %.3f mm off the metal, want %.3f", w.Name(), best, gap)
	}
}

// plateDrop is how far the highest point of a plate lies below the mold line of the
// front fold: on the line the gap under the top, where that leaves the fold's own
// radius, or the plate's corner beside the front leg if the gap is the wider.
func plateDrop(r Section, gap float64) float64 {
	front, _ := r.Straight("front leg")
	top, _ := r.Straight("top")
	under := top.At.sub(top.Dir.left().by(r.T + gap))
	x := math.Max(front.At.X+r.T+gap, under.X)
	high := under.Y + (x-under.X)*top.Dir.Y/top.Dir.X
	for _, s := range r.Spans {
		if s.From == front.To && s.Radius > gap { // round the fold the highest point is square over its middle
			c := s.At.sub(s.Dir.left().by(s.Radius + r.T)) // of the bend
			high = math.Max(high, c.Y+s.Radius-gap)
		}
	}
	return -high
}

// numbers are those of a cell that has several.
func numbers(cell string) []float64 {
	var out []float64
	for _, f := range strings.Fields(cell) {
		out = append(out, Row{"v": f}.Number("v"))
	}
	return out
}
