package refold

import (
	"math"
	"slices"
	"strings"

	"copingset/layout/job"
)

// parts compares the small parts with the job, and with the caps they lie in.
func (c *checker) parts(all []Sheet) {
	caps := map[string]Sheet{} // look-up only
	var ordered []Sheet
	for _, w := range all {
		if w.Row["street-side leg"] != "" && w.sectioned() {
			key := w.Row["inside width"] + "/" + w.Row["slope"]
			if _, ok := caps[key]; !ok {
				caps[key], ordered = w, append(ordered, w)
			}
		}
	}
	under := func(w Sheet) (Section, bool) {
		slope := w.slope(c.j)
		for _, q := range all {
			if cap, ok := caps[q.Row["inside width"]+"/"+q.Row["slope"]]; ok &&
				q.Row["inside width"] == w.Row["inside width"] && math.Abs(q.Row.Number("slope")-slope) < 1e-6 {
				r := cap.Fold()
				return r, r.Stand()
			}
		}
		return Section{}, false
	}
	s := &c.j.System
	for _, w := range all {
		switch w.Row["kind"] {
		case "splice plate":
			c.plate(w, s.Splice.Legs, w.Row.MM("inside width")-s.Splice.Legs.Fit.MM())
			if r, ok := under(w); ok {
				c.plateIn(w, r)
			}
		case "cover plate of an expansion joint":
			k := s.Expansion.Cover
			wide := w.Row.MM("inside width") - k.Legs.Fit.MM()
			if k.Over {
				wide = w.Row.MM("inside width") + 2*s.Metal.Thickness.MM() + 2*w.Thickness() + k.Legs.Fit.MM()
			}
			c.plate(w, k.Legs, wide)
		case "chair":
			c.chairFor(w, under, ordered)
		case "corner support":
			c.section(w, s.Corner.Support.Blank.Section, s.Corner.Support.Width.MM())
		case "face extender":
			c.section(w, s.Extender.Section, math.NaN())
		case "roof-side extender":
			c.section(w, s.RoofExtender.Section, math.NaN())
		case "step riser":
			c.riser(w, s.StepRiser)
		}
	}
}

func (w Sheet) slope(j *job.Job) float64 { return float64(j.System.Profile.TopSlope) / 1e9 }

// plate compares a plate with the job: its legs plumb under the slope of the top, as
// deep as stated from the fold and as far apart.
func (c *checker) plate(w Sheet, g job.Legs, wide float64) {
	c.Seen["plates"]++
	name := w.Name()
	if g.Front == 0 && g.Rear == 0 {
		return
	}
	r := w.Fold()
	if g.Front == 0 || g.Rear == 0 {
		return
	}
	if !r.Stand() {
		c.say("%s does not stand", name)
		return
	}
	rear, _ := r.Straight("rear leg")
	top, _ := r.Straight("top")
	c.near(name, "width, outside", rear.At.X, wide)
	if math.Abs(rear.Dir.X) > 1e-6 || math.Abs(-top.Dir.Y/top.Dir.X-w.slope(c.j)) > 1e-6 {
		c.say("%s: falls %.6f, its rear leg %.6f out of plumb", name, -top.Dir.Y/top.Dir.X, rear.Dir.X)
	}
	lo, _ := r.Extreme(0, r.Spans[0].To, func(p Pt) float64 { return p.Y })
	c.near(name, "front leg", -lo, g.Front.MM())
	lo, _ = r.Extreme(rear.From, rear.To, func(p Pt) float64 { return p.Y })
	c.near(name, "rear leg", top.At.Y+(rear.At.X-top.At.X)/top.Dir.X*top.Dir.Y-lo, g.Rear.MM())
}

// plateIn lays a splice plate under the top of its cap, its play shared: metal stands
// in metal nowhere.
func (c *checker) plateIn(w Sheet, cap Section) {
	r := w.Fold()
	if !r.Stand() {
		return
	}
	rear, _ := cap.Straight("rear leg")
	own, _ := r.Straight("rear leg")
	top, _ := cap.Straight("top")
	play := (rear.At.X - 2*cap.T - own.At.X) / 2
	slope := -top.Dir.Y / top.Dir.X
	r.move(0, Pt{cap.T + play, -slope*(cap.T+play) - cap.T*math.Hypot(1, slope)})
	c.Seen["plates in caps"]++
	if room, at := Room(r, cap); room < -within {
		c.say("%s stands %.3f mm in the metal of the cap over it, %.1f mm behind its front and %.1f under its front "+
			"fold", w.Name(), -room, at.X, -at.Y)
	}
}

// section compares the faces of a part of a stated section with the job: each as long
// as stated, outside, and turned from the one before it.
func (c *checker) section(w Sheet, section []job.Flange, across float64) {
	c.Seen[w.Row["kind"]]++
	r, name := w.Fold(), w.Name()
	all := r.Straights()
	if len(all) != len(section) {
		c.say("%s: %d faces, the job states %d", name, len(all), len(section))
		return
	}
	var base float64 // of the face that reaches across
	for _, f := range section {
		if f.Across {
			base = across - f.Before.MM() - f.Behind.MM()
		}
	}
	for i, f := range section {
		want := f.Length.MM()
		switch {
		case f.Across:
			want = base
		case f.Rises && c.j.System.Profile.SlopeBy == job.SlopeByChair:
			want += base * float64(c.j.System.Profile.TopSlope) / 1e9
		}
		got, tan := all[i].To-all[i].From, 0.0
		for _, s := range r.Spans {
			if s.Turn != 0 && (math.Abs(s.To-all[i].From) < 1e-6 || math.Abs(s.From-all[i].To) < 1e-6) {
				tan = math.Tan(math.Abs(s.Turn) / 2 * math.Pi / 180)
				got += (s.Radius + r.T) * tan
			}
		}
		if !math.IsNaN(want) {
			c.near(name, f.Name, got, want)
		}
		if i == 0 {
			continue
		}
		a, b := all[i-1].Dir, all[i].Dir
		turn := math.Atan2(a.X*b.Y-a.Y*b.X, a.dot(b)) * 180 / math.Pi
		if math.Abs(turn-f.Turn.Degrees()) > 1e-3 {
			c.say("%s: the %s turns %.4f degrees, the job says %.4f", name, f.Name, turn, f.Turn.Degrees())
		}
	}
}

// chair is the section of the chair that the list's assembly was tested with; where the
// job has one chair the list names none.
func (c *checker) chair(w Sheet) *job.Blank {
	for _, a := range c.j.Assemblies {
		name := w.Row["assembly"]
		if a.Chair != nil && (name == "" || slices.Contains(strings.Split(name, " and "), a.Name)) {
			return a.Chair.Blank
		}
	}
	return c.j.System.Chair.Blank
}

// chairIn stands a chair where the job has it under its cap: the metal of neither
// stands in the other's, and some of the chair hangs over the hook.
func (c *checker) chairIn(w Sheet, cap Section) {
	s := &c.j.System
	r := w.Fold()
	all := r.Straights()
	var base Span
	var before float64
	for i, f := range c.chair(w).Section {
		if f.Across {
			base, before = all[i], f.Before.MM()
		}
	}
	r.move(-math.Atan2(base.Dir.Y, base.Dir.X)*180/math.Pi, Pt{})
	all = r.Straights()
	front := math.Inf(1) // of the base, on its outer mold line
	for i, f := range c.chair(w).Section {
		if f.Across {
			base = all[i]
			front = base.At.X
			for _, n := range r.Spans {
				if n.Turn != 0 && math.Abs(n.To-base.From) < 1e-6 {
					front -= (n.Radius + r.T) * math.Tan(math.Abs(n.Turn)/2*math.Pi/180)
				}
			}
		}
	}
	rear, _ := cap.Straight("rear leg")
	top, _ := cap.Straight("top")
	slope := -top.Dir.Y / top.Dir.X
	set := -slope*(rear.At.X-cap.T) - cap.T*math.Hypot(1, slope) - s.Chair.Rise.MM() // the set surface
	r.move(0, Pt{cap.T + s.Chair.FrontEdge.MM() + before - front, set + r.T - base.At.Y})
	c.Seen["chairs in caps"]++
	if room, at := Room(r, cap); room < -within {
		c.say("%s stands %.3f mm in the metal of the cap over it, %.1f mm behind its front and %.1f under its front "+
			"fold", w.Name(), -room, at.X, -at.Y)
	}
	hook, ok := cap.Straight("hook")
	if !ok {
		return
	}
	tip, _ := cap.Extreme(hook.From, cap.End(), func(p Pt) float64 { return p.X })
	_, reach := r.Extreme(0, r.End(), func(p Pt) float64 { return p.X })
	if reach <= tip {
		c.say("%s ends %.3f mm before the hook of its cap", w.Name(), tip-reach)
	}
}

// riser compares the returns of a riser's plate with the job: square to it, and as
// deep as stated.
func (c *checker) riser(w Sheet, k *job.RiserRules) {
	c.Seen["step riser"]++
	s, err := w.Space(true)
	if err != nil {
		c.say("%v", err)
		return
	}
	root := s.Faces[0].Frame
	for i, f := range s.Faces[1:] {
		want := k.ReturnFront.MM()
		if f.Name == "roof return" {
			want = k.ReturnRear.MM()
		}
		if math.Abs(f.Frame.N.dot(root.N)) > 1e-6 {
			c.say("%s: its %s does not stand square to the riser", w.Name(), f.Name)
		}
		deep := 0.0
		for _, e := range s.Edges(2) {
			if e.Face == i+1 {
				deep = math.Max(deep, math.Abs(e.Finish[0].sub(root.O).dot(root.N)))
			}
		}
		c.near(w.Name(), f.Name, deep, want)
	}
}
