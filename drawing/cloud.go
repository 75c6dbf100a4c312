package drawing

import "slices"

// Revised is lettering that changed after a sheet was first issued: the revision in
// which it came, and whether that is the sheet's last one.
type Revised struct {
	Text Text
	Mark string
	Now  bool
}

// Measures of the marks of a revision: how far changed letterings stand apart and still
// share a cloud, its bumps, and the triangle with its letter. Source of both forms: ASME
// Y14.35 and common practice.
const (
	cloudAlong  Unit = 700
	cloudAcross Unit = 260
	cloudClear  Unit = 50
	cloudBump   Unit = 320
	deltaWide   Unit = 840
	deltaHigh   Unit = 720
)

// Clouds are the marks of a revision over a scene: a cloud round what came with the last
// one, and a triangle with its letter beside that and beside what came with earlier ones.
// A triangle that finds no free place is left out, never put over lettering.
func Clouds(s Scene, all []Revised) []Mark {
	var out Scene
	b := newBusy(s)
	sheet := Box(0, 0, s.W, s.H).Inset(500)
	for _, c := range clustered(all) {
		if c.now {
			out.cloud(c.box)
			b.boxes = append(b.boxes, c.box)
		}
		if at, ok := b.room(c.box, sheet); ok {
			out.delta(at, c.mark)
			b.boxes = append(b.boxes, deltaBox(at))
		}
	}
	return out.Marks
}

// cluster is what one cloud goes round.
type cluster struct {
	box  Rect
	mark string
	now  bool
}

// clustered joins what lies near, of one revision.
func clustered(all []Revised) []cluster {
	var out []cluster
	for _, r := range all {
		c := cluster{boundsOf(r.Text.Quad()).Inset(-cloudClear), r.Mark, r.Now}
		for {
			i := slices.IndexFunc(out, func(o cluster) bool {
				return o.mark == c.mark && o.now == c.now && o.box.grown(cloudAlong/2, cloudAcross/2).
					Intersects(c.box.grown(cloudAlong/2, cloudAcross/2))
			})
			if i < 0 {
				break
			}
			c.box = c.box.Union(out[i].box)
			out = slices.Delete(out, i, i+1)
		}
		out = append(out, c)
	}
	return out
}

func (r Rect) grown(x, y Unit) Rect {
	return Rect{Point{r.Min.X - x, r.Min.Y - y}, Point{r.Max.X + x, r.Max.Y + y}}
}

// cloud draws bumps round a box, outwards.
func (s *Scene) cloud(r Rect) {
	bumps := func(from, to Point, first int) {
		long := max(to.X-from.X, from.X-to.X, to.Y-from.Y, from.Y-to.Y)
		n := max(1, (long+cloudBump/2)/cloudBump)
		for i := range n {
			a := Point{from.X + (to.X-from.X)*i/n, from.Y + (to.Y-from.Y)*i/n}
			z := Point{from.X + (to.X-from.X)*(i+1)/n, from.Y + (to.Y-from.Y)*(i+1)/n}
			r := max(z.X-a.X, a.X-z.X, z.Y-a.Y, a.Y-z.Y) / 2
			s.Arc(Medium, Point{(a.X + z.X) / 2, (a.Y + z.Y) / 2}, r, first, first+1800)
		}
	}
	c := r.Corners()
	bumps(c[0], c[1], 0)
	bumps(c[1], c[2], 2700)
	bumps(c[2], c[3], 1800)
	bumps(c[3], c[0], 900)
}

// delta draws a triangle with a letter; at is the middle of its base.
func (s *Scene) delta(at Point, mark string) {
	s.Fill(White, Medium, Point{at.X - deltaWide/2, at.Y}, Point{at.X, at.Y - deltaHigh}, Point{at.X + deltaWide/2, at.Y})
	s.Text(Point{at.X, at.Y - 70}, mark, Style{Size: Small, Face: Bold, Align: Middle})
}

func deltaBox(at Point) Rect { return Box(at.X-deltaWide/2, at.Y-deltaHigh, at.X+deltaWide/2, at.Y) }

// busy knows what lies where on a scene.
type busy struct {
	boxes []Rect // lettering, and what was put there since
	lines []Rect // strokes
}

func newBusy(s Scene) *busy {
	b := &busy{}
	s.Walk(func(_ Layer, m Mark) {
		switch m := m.(type) {
		case Text:
			b.boxes = append(b.boxes, boundsOf(m.Quad()))
		case Line:
			for i := 1; i < len(m.Pts); i++ {
				b.lines = append(b.lines, boundsOf(m.Pts[i-1:i+1]).Inset(-10))
			}
		}
	})
	return b
}

func (b *busy) hit(all []Rect, r Rect) bool {
	return slices.ContainsFunc(all, func(o Rect) bool { return o.Intersects(r) })
}

// room finds a place for a triangle beside a box: clear of lines too where there is one.
func (b *busy) room(r, sheet Rect) (Point, bool) {
	const off = cloudBump/2 + 40
	var all []Point
	for _, d := range []Unit{0, 500, 1000} {
		w, h := deltaWide/2+off+d, off+d
		mid := r.Centre()
		for _, y := range []Unit{r.Min.Y + deltaHigh, mid.Y + deltaHigh/2, r.Max.Y} {
			all = append(all, Point{r.Max.X + w, y}, Point{r.Min.X - w, y})
		}
		for _, x := range []Unit{r.Max.X - deltaWide/2, mid.X, r.Min.X + deltaWide/2} {
			all = append(all, Point{x, r.Min.Y - h}, Point{x, r.Max.Y + h + deltaHigh})
		}
	}
	free := func(p Point) bool { q := deltaBox(p); return sheet.Contains(q) && !b.hit(b.boxes, q.Inset(-40)) }
	for _, p := range all {
		if free(p) && !b.hit(b.lines, deltaBox(p)) {
			return p, true
		}
	}
	i := slices.IndexFunc(all, free)
	if i < 0 {
		return Point{}, false
	}
	return all[i], true
}
