package shop_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/shop"
)

func apart(p, q fold.Vec) float64 {
	return math.Sqrt((p.X-q.X)*(p.X-q.X) + (p.Y-q.Y)*(p.Y-q.Y) + (p.Z-q.Z)*(p.Z-q.Z))
}

// teesOf builds a cross wall between two sides of a roof: twins.
func teesOf(t *testing.T, change func(j *job.Job)) (*job.Job, []*shop.Family) {
	j := jobtest.Cross(600*in, 300*in, 240*in, job.TeeLeft)
	j.Shop = tools()
	j.Shop.WeldGap = 0
	change(j)
	l, found := layout.Build(j)
	if found.HasErrors() {
		t.Fatal(found)
	}
	var out []*shop.Family
	for _, f := range l.Families {
		if f.Kind == cap.Tee {
			out = append(out, f)
		}
	}
	if len(out) != 2 || out[0].Twin != out[1] || out[1].Twin != out[0] {
		t.Fatalf("%d families of tees, twins %v", len(out), out)
	}
	return j, out
}

func teeVariants() map[string]func(j *job.Job) {
	return map[string]func(j *job.Job){
		"plain":         func(*job.Job) {},
		"hemmed":        func(j *job.Job) { j.System.Profile.HemReturn = length.Inch / 4 },
		"without hooks": func(j *job.Job) { j.System.Profile.RearHook = job.Kick{} },
		"hemmed without hooks": func(j *job.Job) {
			j.System.Profile.RearHook, j.System.Profile.HemReturn = job.Kick{}, length.Inch/4
		},
		"raw": func(j *job.Job) { j.System.Profile.RearHook, j.System.Profile.Drip = job.Kick{}, job.Kick{} },
		"slope in the packing": func(j *job.Job) {
			j.System.Profile.SlopeBy = job.SlopeByPacking
		},
	}
}

// The pattern of either body is its straights and the strips of its bends, no
// more and no less, no outline crosses itself, and the twins are mirror images.
func TestTeePatterns(t *testing.T) {
	for name, change := range teeVariants() {
		_, fs := teesOf(t, change)
		for _, f := range fs {
			if len(f.Bodies) != 2 {
				t.Fatalf("%s: %s has %d bodies", name, f.Mark, len(f.Bodies))
			}
			for _, body := range f.Bodies {
				want := 0.0
				for _, face := range body.Flat.Faces {
					want += math.Abs(fold.Area(face))
				}
				for _, l := range body.Flat.Bends {
					want += l.Arc * math.Hypot(l.To.X-l.From.X, l.To.Y-l.From.Y)
				}
				for _, p := range hemLeaves(body) { // no faces of their own
					want += p
				}
				if a := body.Area(); math.Abs(a-want) > 1e-6*want {
					t.Errorf("%s: %s, %s: area %.1f, its straights and strips make %.1f", name, f.Mark, body.Name, a, want)
				}
				if fold.Crosses(body.Flat.Outline) {
					t.Errorf("%s: %s, %s crosses itself", name, f.Mark, body.Name)
				}
				if err := body.Solid.Check(); err != nil {
					t.Errorf("%s: %s, %s: %v", name, f.Mark, body.Name, err)
				}
			}
		}
		if a, z := fs[0].Area(), fs[1].Area(); math.Abs(a-z) > 1e-6*a {
			t.Errorf("%s: twins of %.3f and %.3f", name, a, z)
		}
		if mirrorImage(fs[0].Bodies[0].Solid, fs[1].Bodies[0].Solid, fs[0].Pieces[0].Parts[0].Length().MM()) > 1e-9 ||
			mirrorImage(fs[0].Bodies[1].Solid, fs[1].Bodies[1].Solid, fs[0].Pieces[0].Parts[1].Length().MM()) > 1e-9 {
			t.Errorf("%s: the twins are not mirror images", name)
		}
	}
}

// hemLeaves are the areas of a body's hem leaves beyond their folds.
func hemLeaves(b shop.Body) (out []float64) {
	leaf := func(p fold.Path) float64 { return p.Segs[len(p.Segs)-1].Flat }
	for _, q := range b.Bends {
		if !q.Hem {
			continue
		}
		deep := 0.0
		if b.Metal != nil {
			deep = leaf(b.Metal.Path)
		} else {
			deep = leaf(b.Tray.Wings[0].Path)
		}
		out = append(out, deep*math.Hypot(q.Line.To.X-q.Line.From.X, q.Line.To.Y-q.Line.From.Y))
	}
	return out
}

// hand takes the hand off the name of a face.
func hand(name string) string {
	return strings.TrimPrefix(strings.TrimPrefix(name, "left "), "right ")
}

// mirrorImage is how far the corners of two bodies lie from being mirror images
// about the middle of a length.
func mirrorImage(a, b fold.Solid, long float64) float64 {
	if len(a.Faces) != len(b.Faces) {
		return math.Inf(1)
	}
	worst := 0.0
	for _, f := range a.Faces {
		for _, p := range f.Corners {
			best := math.Inf(1)
			for _, g := range b.Faces { // a left hook is the mirror image of a right one
				if hand(f.Name) != hand(g.Name) {
					continue
				}
				for _, q := range g.Corners {
					best = math.Min(best, apart(fold.Vec{X: long - p.X, Y: p.Y, Z: p.Z}, q))
				}
			}
			worst = math.Max(worst, best)
		}
	}
	return worst
}

// Welded together, every edge of the stub's end lies on an edge of the main's
// opening, but for what hangs below the rear leg's foot, and every edge of the
// opening on the stub's end; the gap of the weld stands between.
func TestTeeSeam(t *testing.T) {
	for _, gap := range []length.Length{0, in / 16} {
		_, fs := teesOf(t, func(j *job.Job) { j.Shop.WeldGap = gap })
		for _, f := range fs {
			p := f.Pieces[0]
			main, stub := f.Bodies[0].Solid, f.Bodies[1].Solid
			// The stub's own frame, turned about and brought to the main's: it
			// goes off to the roof, its front to the hand the tee has.
			rear := p.Inside + 2*in/20
			fold0 := main.Faces[0].Corners[0].Z // of the main's rear fold
			place := func(v fold.Vec) fold.Vec {
				side, off := 1.0, v.X
				x := (p.Tee.Edge[1] - p.Tee.From).MM()
				if p.Hand == cap.LeftHand {
					side, x, off = -1, (p.Tee.Edge[0] - p.Tee.From).MM(), p.Parts[1].Length().MM()-v.X
				}
				// y of a solid's frame grows to the street.
				return fold.Vec{X: x + side*v.Y, Y: -rear.MM() - off, Z: fold0 - p.Tee.Drop.MM() + v.Z}
			}
			leg := main.Faces[slices.IndexFunc(main.Faces, func(f fold.Face) bool { return f.Name == "rear leg" })]
			foot := leg.Corners[0].Z
			var seam [][2]fold.Vec // edges of the opening
			for i, c := range leg.Corners {
				d := leg.Corners[(i+1)%len(leg.Corners)]
				inner := func(v fold.Vec) bool { return v.X > 1 && v.X < p.Parts[0].Length().MM()-1 }
				if inner(c) && inner(d) {
					seam = append(seam, [2]fold.Vec{c, d})
				}
			}
			if len(seam) != 3 {
				t.Fatalf("%s: the opening has %d edges", f.Mark, len(seam))
			}
			met := make([]bool, len(seam))
			for _, face := range stub.Faces {
				if face.Name == "drip" || face.Name == "hook" {
					continue
				}
				for i, c := range face.Corners {
					a, z := place(c), place(face.Corners[(i+1)%len(face.Corners)])
					if math.Abs(a.Y+rear.MM()+gap.MM()) > 0.01 || math.Abs(z.Y+rear.MM()+gap.MM()) > 0.01 {
						continue // not at the seam's end
					}
					a.Z, z.Z = math.Max(a.Z, foot), math.Max(z.Z, foot)
					for k, e := range seam {
						near := func(v, w fold.Vec) bool {
							return math.Abs(v.X-w.X) < 0.1 && math.Abs(v.Z-w.Z) < 0.1 && math.Abs(math.Abs(v.Y-w.Y)-gap.MM()) < 0.01
						}
						if near(a, e[0]) && near(z, e[1]) || near(a, e[1]) && near(z, e[0]) {
							met[k] = true
						}
					}
				}
			}
			if slices.Contains(met, false) {
				t.Errorf("%s, weld gap %v: edges of the opening met by the stub: %v", f.Mark, gap, met)
			}
		}
	}
}

func TestTeeSentence(t *testing.T) {
	_, fs := teesOf(t, func(*job.Job) {})
	const want = `Standing on the roof facing the street, the branch comes towards you and its high, street-side edge is at your right hand; each leg is 1'-8" (508 mm) and the branch 1'-8" (508 mm) long. The branch's flat pattern is welded to the main at its L edge.`
	if got := fs[0].Sentence(); got != want {
		t.Error(got)
	}
}

// A branch whose top stands at the main's rear fold or above it leaves nothing of the
// rear leg to bend over it: the tee has no pattern, and a hold says why.
func TestTeeBranchAboveTheRearFold(t *testing.T) {
	for _, up := range []length.Length{2 * in, 6 * in, 20 * in} {
		j := jobtest.Cross(600*in, 300*in, 240*in, job.TeeLeft)
		j.Shop = tools()
		for i := range j.Perimeters {
			if j.Perimeters[i].Kind == job.Open {
				j.Perimeters[i].Raise += up
			}
		}
		l, found := layout.Build(j)
		for _, f := range l.Families {
			if f.Kind == cap.Tee && len(f.Bodies) > 0 {
				t.Errorf("raised by %s: family %s has %d bodies", job.Both(up), f.Mark, len(f.Bodies))
			}
		}
		if !slices.ContainsFunc(found, func(f finding.Finding) bool {
			return f.Severity == finding.Hold && strings.Contains(f.What,
				"the opening for the branch reaches into the roof-side fold")
		}) {
			t.Errorf("raised by %s: no hold in %v", job.Both(up), found)
		}
	}
}
