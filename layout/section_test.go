package layout_test

import (
	"math"
	"os"
	"slices"
	"testing"

	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"
	"copingset/layout/plan"

	"pgregory.net/rapid"
)

// eachSection goes through the sections of a layout: at every so-manieth chair and
// joint.
func eachSection(l *layout.Layout, every int, look func(r *layout.Run, p plan.Section)) {
	n := 0
	for _, r := range l.Runs() {
		for _, c := range r.Chairs {
			if n++; n%every == 0 {
				look(r, l.Section(r, c.At, c, nil))
			}
		}
		for _, j := range r.Joints {
			if n++; n%every == 0 {
				look(r, l.SectionAtJoint(r, j))
			}
		}
	}
}

// acrossAt are the places across at which a ring's outline crosses a height, in order.
func acrossAt(r plan.Ring, z length.Length) []float64 {
	var out []float64
	for i, p := range r {
		q := r[(i+1)%len(r)]
		if (p.Y > z) != (q.Y > z) {
			out = append(out, p.X.MM()+(z-p.Y).MM()/(q.Y-p.Y).MM()*(q.X-p.X).MM())
		}
	}
	for i := range out {
		for k := i + 1; k < len(out); k++ {
			if out[k] < out[i] {
				out[i], out[k] = out[k], out[i]
			}
		}
	}
	return out
}

// steepest is the longest edge of a ring that stands upright at a place across
// (within a hair), as its two heights.
func uprightAt(r plan.Ring, x length.Length) (lo, hi float64) {
	for i, p := range r {
		q := r[(i+1)%len(r)]
		if math.Abs((p.X-x).MM()) < 0.01 && math.Abs((q.X-x).MM()) < 0.01 {
			if a, b := math.Min(p.Y.MM(), q.Y.MM()), math.Max(p.Y.MM(), q.Y.MM()); b-a > hi-lo {
				lo, hi = a, b
			}
		}
	}
	return lo, hi
}

// What a section letters is measured on its rings: widths between the legs, the
// legs to their stated feet, laps, packing and play.
func checkSection(t interface{ Errorf(string, ...any) }, j *job.Job, r *layout.Run, p plan.Section) {
	const near = 0.06 // mm; a chord of a bend and the rounding of a ring
	is := func(what string, got, want float64) {
		if math.Abs(got-want) > near {
			t.Errorf("section %s at %v: %s is %.3f mm on its rings, %.3f lettered", p.Mark, p.At, what, got, want)
		}
	}
	lettered := func(k plan.DimKind) float64 {
		d, ok := p.Dim(k)
		if !ok {
			t.Errorf("section %s: no distance %d", p.Mark, k)
		}
		is("a distance", math.Hypot((d.To.X-d.From.X).MM(), (d.To.Y-d.From.Y).MM()), math.Abs(d.Real.MM()))
		return d.Real.MM()
	}
	c := p.Of(plan.CapMetal)[0]
	if c.Supposed {
		return // the cap cannot be bent as stated, and the section says so
	}
	lo, hi := c.Ring.Bounds()
	// Half way down the rear leg the outline crosses both legs, each with its two skins.
	_, rearTop := uprightAt(c.Ring, p.Outside)
	rearLow, _ := uprightAt(c.Ring, p.Outside)
	xs := acrossAt(c.Ring, length.FromMM((rearTop+rearLow)/2))
	if len(xs) >= 4 {
		n := len(xs)
		is("the inside width", xs[n-2]-xs[1], lettered(plan.InsideWidth))
		is("the outside width", xs[n-1]-xs[0], lettered(plan.OutsideWidth))
		is("the front clearance", p.Street.MM()-xs[1], lettered(plan.FrontClear))
		is("rear play", xs[n-2]-p.Roof.MM(), lettered(plan.RearClear))
		is("rear play as the layout has it", lettered(plan.RearClear), p.Play.MM())
	}
	// Front fold: where the line of the front leg meets that of the top.
	s := &j.System
	is("the front fold", mold(c.Ring, 0, p), p.FoldFront.MM())
	top := p.FoldFront.MM()
	for i, kick := range []job.Kick{s.Profile.Drip, s.Profile.RearHook} {
		leg := lettered([]plan.DimKind{plan.FrontFoot, plan.RearFoot}[i])
		fold := top
		if i == 1 {
			fold = mold(c.Ring, p.Outside, p)
		}
		foot := fold - leg
		is("the foot", p.Feet[i].Y.MM(), foot)
		if kick.Foot() == job.ToTangent { // the lowest metal near the leg
			low, x := math.Inf(1), []float64{lo.X.MM(), hi.X.MM()}[i]
			for _, q := range c.Ring {
				if math.Abs(q.X.MM()-x) < p.Outside.MM()/3 {
					low = math.Min(low, q.Y.MM())
				}
			}
			is("the lowest metal", low, foot)
		}
		lap := lettered([]plan.DimKind{plan.FrontLapped, plan.RearLapped}[i])
		is("the lap", p.Joints[i].Y.MM()-foot, lap)
	}
	// The packing fills what lies between the wall's top and the set surface.
	wall := p.Of(plan.WallLayer)[0]
	_, wh := wall.Ring.Bounds()
	_ = wh
	is("packing in front", -wall.Ring[0].Y.MM(), lettered(plan.FrontPacked))
	fall := 0.0
	if p.Sheet.ByPacking {
		fall = float64(s.Profile.TopSlope) / 1e9 * (p.Roof - p.Street).MM()
	}
	is("packing behind", -fall-wall.Ring[1].Y.MM(), lettered(plan.RearPacked))
	front, rear := r.LapsAt(s, p.At, p.PackFront, p.PackRear)
	is("the front lap", front.MM(), lettered(plan.FrontLapped))
	is("the rear lap", rear.MM(), lettered(plan.RearLapped))
}

// mold is the height at which the outside of a leg, which stands upright at a
// place across, meets the line of the top's finish face.
func mold(r plan.Ring, x length.Length, p plan.Section) float64 {
	var a, b plan.Pt
	long := 0.0
	for i, q := range r {
		n := r[(i+1)%len(r)]
		if d := (n.X - q.X).MM(); d > long { // the finish face is told from the street to the roof
			a, b, long = q, n, d
		}
	}
	return a.Y.MM() + (b.Y-a.Y).MM()/(b.X-a.X).MM()*(x-a.X).MM()
}

func TestSectionsLetterWhatTheyDraw(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		l, found := solved(anyJob(t))
		if found.HasErrors() {
			t.Skip("not a layout")
		}
		eachSection(l, 3, func(r *layout.Run, p plan.Section) { checkSection(t, l.Job, r, p) })
	})
}

// In the samples no metal stands in other metal: cap, hook, hems, plate and chair,
// at every chair and joint; chairs hang clear of the wall, and every section is
// drawn of what the job states.
func TestMetalOfSamplesStandsClear(t *testing.T) {
	const step, touch = length.Millimetre / 4, length.Millimetre / 20
	for _, name := range []string{"rectangle", "l-shape", "metric"} {
		j, found := job.Read(os.DirFS("../samples"), name+"/job.yaml")
		if found.HasErrors() {
			t.Fatal(found)
		}
		l, _ := solved(j)
		n := 0
		eachSection(l, 4, func(r *layout.Run, p plan.Section) {
			n++
			metal := p.Of(plan.ChairMetal, plan.PlateMetal, plan.CapMetal)
			for i, a := range metal {
				for _, b := range metal[i+1:] {
					if deep := plan.Deep(a.Ring, b.Ring, step); deep > touch {
						t.Errorf("%s, section %s: %v of metal %d in metal %d", name, p.Mark, deep, a.Kind, b.Kind)
					}
				}
			}
			for _, c := range p.Checks {
				if c.Code != plan.Released && c.Fails() && (r.Name != "S" || c.Code != plan.FrontLap) {
					t.Errorf("%s, section %s: %+v", name, p.Mark, c)
				}
			}
			checkSection(t, j, r, p)
		})
		if n < 10 {
			t.Errorf("%s: %d sections", name, n)
		}
	}
}

// A section of the mirrored job is the same section: left and right hand change,
// street and roof do not.
func TestSectionsMirror(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		j := jobtest.Random(t)
		a, b := build(t, j), build(t, mirror(j))
		for i, p := range a.Perimeters {
			back := b.Perimeters[i].Runs
			for k, r := range p.Runs {
				m := back[len(back)-1-k]
				if len(r.Chairs) == 0 || len(m.Chairs) != len(r.Chairs) {
					continue // a kink's chair belongs to the arriving run
				}
				n := len(r.Chairs) / 2
				c, d := r.Chairs[n], m.Chairs[len(m.Chairs)-1-n]
				if r.Cap-c.At != d.At {
					continue
				}
				p, q := a.Section(r, c.At, c, nil), b.Section(m, d.At, d, nil)
				if !slices.EqualFunc(p.Parts, q.Parts, func(x, y plan.Part) bool { return x.Kind == y.Kind && slices.Equal(x.Ring, y.Ring) }) ||
					!slices.EqualFunc(p.Dims, q.Dims, func(x, y plan.Dim) bool {
						return x.What == y.What && x.Real == y.Real && x.From == y.From && x.To == y.To
					}) {
					t.Errorf("run %s: the section at %v is not that of the mirror", r.Name, c.At)
				}
			}
		}
	})
}

// A made part is lettered by the outside lengths that its section states, whichever
// way it is bent at their ends.
func TestFormedPartsAreAsStated(t *testing.T) {
	j, _ := job.Read(os.DirFS("../samples"), "rectangle/job.yaml")
	l, _ := solved(j)
	seen := 0
	for _, p := range l.Parts {
		if p.Kind.String() != "chair" || len(p.Bodies) == 0 {
			continue
		}
		of := l.FormedPart(p)
		for i, f := range j.System.Chair.Blank.Section {
			if f.Across || f.Rises {
				continue
			}
			if seen++; of.Faces[i].Name != f.Name || length.Abs(of.Faces[i].Long-f.Length) > length.Inch/128 {
				t.Errorf("%s is lettered %v, stated %v", f.Name, of.Faces[i].Long, f.Length)
			}
		}
	}
	if seen < 6 {
		t.Errorf("%d faces", seen)
	}
}
