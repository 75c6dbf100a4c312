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
	cloudBump   Unit = 260
	deltaWide   Unit = 840
	deltaHigh   Unit = 720
)

// Clouds are the marks of a revision over a scene: a cloud round what came with the last
// one, and a triangle with its letter beside that and beside what came with earlier ones.
// A triangle that finds no free place within the room of the sheet's own matter is left
// out, never put over lettering.
func Clouds(s Scene, room Rect, all []Revised) []Mark {
	var out Scene
	b := newBusy(s)
	for _, c := range clustered(all) {
		if c.now {
			out.cloud(c.box)
			b.boxes = append(b.boxes, c.box)
		}
		if at, ok := b.room(c.box, room); ok {
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

// cloud draws bumps round a box, outwards. A bump is a quarter as high as it is wide, so
// that it does not reach the next line: its radius is 5/8 of its width, and it turns by
// 53.1 degrees to each side.
func (s *Scene) cloud(r Rect) {
	const half = 531
	bumps := func(from, to Point, out int) {
		long := max(to.X-from.X, from.X-to.X, to.Y-from.Y, from.Y-to.Y)
		n := max(1, (long+cloudBump/2)/cloudBump)
		for i := range n {
			a := Point{from.X + (to.X-from.X)*i/n, from.Y + (to.Y-from.Y)*i/n}
			z := Point{from.X + (to.X-from.X)*(i+1)/n, from.Y + (to.Y-from.Y)*(i+1)/n}
			wide := max(z.X-a.X, a.X-z.X, z.Y-a.Y, a.Y-z.Y)
			centre := Polar(Point{(a.X + z.X) / 2, (a.Y + z.Y) / 2}, wide*3/8, out+1800)
			s.Arc(Medium, centre, wide*5/8, out-half, out+half)
		}
	}
	c := r.Corners()
	bumps(c[0], c[1], 900)
	bumps(c[1], c[2], 3600)
	bumps(c[2], c[3], 2700)
	bumps(c[3], c[0], 1800)
}

// delta draws a triangle with a letter; at is the middle of its base.
func (s *Scene) delta(at Point, mark string) {
	const half = deltaWide / 2
	s.Fill(White, Medium, Point{at.X - half, at.Y}, Point{at.X, at.Y - deltaHigh}, Point{at.X + half, at.Y})
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
	const off = cloudBump/4 + 40
	var all []Point
	for _, d := range []Unit{0, 250} {
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
