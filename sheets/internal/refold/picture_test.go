package refold

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"

	"copingset/drawing/dxf"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/sheets"
)

// picture is a shaded view from far along a direction: finish faces light, backs dark,
// cut edges red.
type picture struct {
	img             *image.RGBA
	depth           []float64
	right, up, back Vec // across the picture, up it, and to the viewer
	centre          Vec
	scale           float64 // pixels a millimetre
}

func newPicture(wide, high int, to, centre Vec, scale float64) *picture {
	p := &picture{img: image.NewRGBA(image.Rect(0, 0, wide, high)), centre: centre, scale: scale, back: to.by(1 / to.len())}
	p.right = Vec{Z: 1}.cross(p.back)
	p.right = p.right.by(1 / p.right.len())
	p.up = p.back.cross(p.right)
	p.depth = make([]float64, wide*high)
	for i := range p.depth {
		p.depth[i] = math.Inf(-1)
	}
	for y := range high {
		for x := range wide {
			p.img.Set(x, y, color.White)
		}
	}
	return p
}

// triangle fills one, lit by how it faces the viewer and the sky.
func (p *picture) triangle(a, b, c Vec, base color.RGBA) {
	n := b.sub(a).cross(c.sub(a))
	if n.len() < 1e-12 {
		return
	}
	n = n.by(1 / n.len())
	light := 0.35 + 0.4*math.Abs(n.dot(p.back)) + 0.25*math.Abs(n.dot(Vec{X: 0.3, S: 0.2, Z: 0.93}))
	shade := color.RGBA{uint8(float64(base.R) * light), uint8(float64(base.G) * light), uint8(float64(base.B) * light), 255}
	size := p.img.Bounds().Size()
	var at [3]Vec
	for i, v := range []Vec{a, b, c} {
		d := v.sub(p.centre)
		at[i] = Vec{float64(size.X)/2 + d.dot(p.right)*p.scale, float64(size.Y)/2 - d.dot(p.up)*p.scale, d.dot(p.back)}
	}
	area := (at[1].X-at[0].X)*(at[2].S-at[0].S) - (at[2].X-at[0].X)*(at[1].S-at[0].S)
	if math.Abs(area) < 1e-9 {
		return
	}
	lo := func(f func(Vec) float64) int { return int(math.Floor(min(f(at[0]), f(at[1]), f(at[2])))) }
	hi := func(f func(Vec) float64) int { return int(math.Ceil(max(f(at[0]), f(at[1]), f(at[2])))) }
	x, s := func(v Vec) float64 { return v.X }, func(v Vec) float64 { return v.S }
	for py := max(0, lo(s)); py <= min(size.Y-1, hi(s)); py++ {
		for px := max(0, lo(x)); px <= min(size.X-1, hi(x)); px++ {
			u, v := float64(px)+0.5, float64(py)+0.5
			w1 := ((u-at[0].X)*(at[2].S-at[0].S) - (at[2].X-at[0].X)*(v-at[0].S)) / area
			w2 := ((at[1].X-at[0].X)*(v-at[0].S) - (u-at[0].X)*(at[1].S-at[0].S)) / area
			if w1 < -1e-6 || w2 < -1e-6 || w1+w2 > 1+1e-6 {
				continue
			}
			z := at[0].Z + w1*(at[1].Z-at[0].Z) + w2*(at[2].Z-at[0].Z)
			if i := py*size.X + px; z > p.depth[i] {
				p.depth[i] = z
				p.img.SetRGBA(px, py, shade)
			}
		}
	}
}

// body fills what of a body lies near its seam: both faces in squares of `cell`, those at
// the edge of the blank left out, and its cut edges.
func (p *picture) body(b body, from, to, cell float64, tint color.RGBA) {
	lo, hi := b.Sheet.Bounds()
	dark := color.RGBA{tint.R / 2, tint.G / 2, tint.B / 2, 255}
	for x := math.Max(lo.X, from); x < math.Min(hi.X, to); x += cell {
		for y := lo.Y; y < hi.Y; y += cell {
			q := [4]Pt{{x, y}, {x + cell, y}, {x + cell, y + cell}, {x, y + cell}}
			face := -1
			for i, f := range b.Faces {
				if inside(f.ring, Pt{x + cell/2, y + cell/2}) {
					face = i
				}
			}
			if face < 0 || !inside(b.Sheet.Outline, q[0]) || !inside(b.Sheet.Outline, q[1]) || !inside(b.Sheet.Outline, q[2]) || !inside(b.Sheet.Outline, q[3]) {
				continue
			}
			var f, k [4]Vec
			for i := range q {
				f[i], k[i] = b.Skins(face, q[i])
			}
			p.triangle(f[0], f[1], f[2], tint)
			p.triangle(f[0], f[2], f[3], tint)
			p.triangle(k[0], k[2], k[1], dark)
			p.triangle(k[0], k[3], k[2], dark)
		}
	}
	red := color.RGBA{200, 40, 30, 255}
	for _, e := range b.Edges(cell) {
		if e.At[0].X >= from && e.At[0].X <= to {
			p.triangle(e.Finish[0], e.Finish[1], e.Back[1], red)
			p.triangle(e.Finish[0], e.Back[1], e.Back[0], red)
		}
	}
}

// Corners folded from what is written are drawn where COPINGSET_PICTURES names a folder:
// of three samples a corner from the street, from the roof and from below, and its foot
// at the street and at the roof from close by.
func TestCornersAsPictures(t *testing.T) {
	dir := os.Getenv("COPINGSET_PICTURES")
	if dir == "" {
		t.Skip("COPINGSET_PICTURES names no folder: no pictures are drawn")
	}
	for _, c := range []struct {
		sample  string
		outside bool
	}{{"rectangle", true}, {"l-shape", false}, {"metric", true}} {
		j, found := job.Read(os.DirFS("../../../samples"), c.sample+"/job.yaml")
		if found.HasErrors() {
			t.Fatal(found)
		}
		l, _ := layout.Build(j)
		files := map[string][]byte{}
		for _, m := range sheets.Machines(l) {
			files[m.Name] = dxf.Encode(m.Drawing)
		}
		for _, s := range sheets.MachineLists(l) {
			var b bytes.Buffer
			if err := sheets.WriteCSV(&b, s); err != nil {
				t.Fatal(err)
			}
			files[s.Name] = b.Bytes()
		}
		all, err := Read(files)
		if err != nil {
			t.Fatal(err)
		}
		for _, legs := range pieces(all) {
			if legs[0].Row["kind"] == "corner" && len(legs) == 2 && (numbers(legs[0].Row["turn"])[0] > 0) == c.outside {
				drawCorner(t, filepath.Join(dir, c.sample), legs, l.Job)
				break
			}
		}
	}
}

func drawCorner(t *testing.T, name string, legs []Sheet, j *job.Job) {
	c := &checker{j: j, Report: Report{Seen: map[string]int{}, Drops: map[string]float64{}}}
	a, ok := c.stand(legs[0])
	b, ok2 := c.stand(legs[1])
	if !ok || !ok2 {
		t.Fatal(c.Faults)
	}
	turn := numbers(legs[0].Row["turn"])[0]
	sin, cos := math.Sincos(turn * math.Pi / 180)
	half := turn / 2 * math.Pi / 180
	normal := Vec{X: -math.Cos(half), S: math.Sin(half)}
	ends := [2]float64{a.corner(true, normal), b.corner(false, Vec{-normal.X, normal.S, 0})} // stations of the corner
	p := a.moved(Vec{X: 1}, Vec{S: 1}, Vec{Z: 1}, Vec{X: -ends[0]})
	q := b.moved(Vec{X: 1}, Vec{S: 1}, Vec{Z: 1}, Vec{X: -ends[1]})
	q = q.moved(Vec{X: cos, S: -sin}, Vec{X: sin, S: cos}, Vec{Z: 1}, Vec{})
	r := legs[0].Fold()
	r.Stand()
	rear, _ := r.Straight("rear leg")
	wide := rear.At.X
	at := func(y, z float64) Vec { return Vec{-y * math.Tan(half), -y, z} } // of the seam's plane
	drop, _ := r.Extreme(0, r.End(), func(p Pt) float64 { return p.Y })
	foot, _ := r.Extreme(rear.From, r.End(), func(p Pt) float64 { return p.Y })
	out := Vec{X: math.Sin(half), S: math.Cos(half)} // from the roof to the street along the seam
	for _, v := range []struct {
		what         string
		to, centre   Vec
		scale        float64
		deep, beside float64 // of the legs, what lies so far beside a place of the seam behind the front
		cell         float64
	}{
		{"street", out.add(Vec{Z: 0.45}).add(Vec{X: -0.25}), at(wide*0.3, drop*0.4), 2.6, 0, 260, 1},
		{"roof", out.by(-1).add(Vec{Z: 0.6}), at(wide*0.7, drop*0.4), 2.4, wide, 260, 1},
		{"below", out.by(0.6).add(Vec{Z: -1}), at(wide/2, drop*0.6), 1.9, wide / 2, 420, 1},
		{"street-foot", out.add(Vec{Z: -0.35}).add(Vec{X: -0.1}), at(4, drop+12), 22, 0, 40, 0.3},
		{"roof-foot", out.by(-1).add(Vec{Z: 0.25}), at(wide-4, foot+14), 20, wide, 40, 0.3},
		{"hook-below", out.add(Vec{Z: -0.5}), at(wide-8, foot+14), 20, wide, 40, 0.3},
		{"top-street", out.add(Vec{Z: 1.1}), at(3, -2), 26, 0, 30, 0.25},
	} {
		pic := newPicture(1400, 1000, v.to, v.centre, v.scale)
		off := v.deep * math.Tan(half)
		pic.body(p, ends[0]-off-v.beside, ends[0]-off+v.beside, v.cell, color.RGBA{170, 190, 215, 255})
		pic.body(q, ends[1]+off-v.beside, ends[1]+off+v.beside, v.cell, color.RGBA{215, 200, 160, 255})
		f, err := os.Create(name + "-" + v.what + ".png")
		if err != nil {
			t.Fatal(err)
		}
		if err := png.Encode(f, pic.img); err != nil {
			t.Fatal(err)
		}
		if err := f.Close(); err != nil {
			t.Fatal(err)
		}
	}
}
