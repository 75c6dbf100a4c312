package view

import (
	"math"
	"strings"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/drawing/words"
	"copingset/layout/fold"
	"copingset/layout/plan"
)

// CornerGroup is corners of a blank that follow each other at hems and bends, so
// close together that a pattern letters them as one and a detail shows them large.
type CornerGroup struct {
	Of   []int // clockwise
	Name string
}

// groupedWithin is how close to the next a corner of a group stands, millimetres.
const groupedWithin = 38

// lettersApart is the least distance on paper of corners with letters of their own.
const lettersApart drawing.Unit = 300

// CornerGroups are the corners of a blank in groups, those by themselves as well.
func CornerGroups(b plan.Blank) []CornerGroup {
	n := len(b.Corners)
	near := func(i int) bool { // corner i to the next
		p, q := b.Corners[i].At, b.Corners[(i+1)%n].At
		return math.Hypot(p.X-q.X, p.Y-q.Y) <= groupedWithin
	}
	first := 0
	for first < n && near((first+n-1)%n) {
		first++
	}
	if first == n { // a blank so small that all its corners stand together
		first = 0
	}
	var out []CornerGroup
	for k := range n {
		i := (first + k) % n
		if k == 0 || !near((i+n-1)%n) {
			out = append(out, CornerGroup{})
		}
		g := &out[len(out)-1]
		g.Of = append(g.Of, i)
	}
	for i := range out {
		out[i].Name = groupName(out[i].Of)
	}
	return out
}

// Shown reports whether a detail shows a group: two corners are told by their order.
func (g CornerGroup) Shown() bool { return len(g.Of) > 2 }

// groupName is the letters of corners in a row: "g h", "b–f"; round the end of the
// alphabet of a blank "p q, a".
func groupName(of []int) string {
	var parts []string
	for k := 0; k < len(of); {
		j := k + 1
		for j < len(of) && of[j] == of[j-1]+1 {
			j++
		}
		switch j - k {
		case 1:
			parts = append(parts, PointName(of[k]))
		case 2:
			parts = append(parts, PointName(of[k])+" "+PointName(of[k+1]))
		default:
			parts = append(parts, PointName(of[k])+"–"+PointName(of[j-1]))
		}
		k = j
	}
	return strings.Join(parts, ", ")
}

// together reports whether a pattern letters a group as one at its scale.
func (d *flat) together(g CornerGroup) bool {
	for k := 1; k < len(g.Of); k++ {
		p, q := d.m.at(d.Corners[g.Of[k-1]].At), d.m.at(d.Corners[g.Of[k]].At)
		if math.Hypot(float64(p.X-q.X), float64(p.Y-q.Y)) < float64(lettersApart) {
			return true
		}
	}
	return false
}

// detailSizes are the sizes of a detail: paper over metal, and in words.
var detailSizes = []struct {
	by  float64
	key words.Key
}{{4, words.FlatSizeFour}, {2, words.FlatSizeTwo}, {1, words.FlatSizeFull}, {0.5, words.FlatSizeHalf},
	{0.25, words.FlatSizeQuarter}}

// Room in a detail.
const (
	detailHead drawing.Unit = 900 // its words
	detailSide drawing.Unit = 550 // round its corners, for their letters
)

// CornerDetail shows a group of corners of a blank large: the edge, the lines of its
// bends, and each corner with its letter.
func CornerDetail(say words.Book, b plan.Blank, g CornerGroup, w, h drawing.Unit) drawing.Scene {
	s := drawing.Scene{
		Name:  "detail-" + fileName(b.Name+" "+g.Name),
		Title: say.Say(words.FlatDetail, words.In("corners", g.Name), words.In("body", b.Name)),
		W:     w,
		H:     h,
	}
	s.Desc = say.Say(words.FlatDetailAbout, words.In("corners", g.Name))
	var ring []fold.Point
	for _, i := range g.Of {
		ring = append(ring, b.Corners[i].At)
	}
	lo, hi := fold.Flat{Outline: ring}.Bounds()
	box := drawing.Box(50, detailHead, w-50, h-50)
	room := box.Inset(detailSide)
	size := detailSizes[len(detailSizes)-1]
	for _, z := range detailSizes {
		if (hi.X-lo.X)*z.by <= room.Width().Millimetres() && (hi.Y-lo.Y)*z.by <= room.Height().Millimetres() {
			size = z
			break
		}
	}
	c := box.Centre()
	at := func(p fold.Point) drawing.Point {
		return drawing.Pt(
			c.X+drawing.Round((p.X-(lo.X+hi.X)/2)*size.by),
			c.Y-drawing.Round((p.Y-(lo.Y+hi.Y)/2)*size.by),
		)
	}
	pl := place.New(box)
	s.Group(drawing.Caps, "", func(gr *drawing.Scene) {
		line := func(pen drawing.Pen, p, q fold.Point) {
			if a, z, ok := clipped(box.Inset(20), at(p), at(q)); ok {
				gr.Line(pen, a, z)
				pl.Stroke(60, a, z)
			}
		}
		for _, q := range b.Bends {
			pen := drawing.Centre
			if q.Up {
				pen = drawing.Hidden
			}
			line(pen, q.Left, q.Right)
		}
		for i, p := range b.Cut {
			line(drawing.Thick, p, b.Cut[(i+1)%len(b.Cut)])
		}
	})
	s.Rect(drawing.Thin, box)
	var wishes []place.Wish
	for _, i := range g.Of {
		p := at(b.Corners[i].At)
		lab := place.Label{
			Lines: []string{PointName(i)},
			Face:  drawing.Bold,
			About: p,
			Bare:  true,
			Where: say.Say(words.FlatCorner, words.In("name", PointName(i))),
			Note:  say.Say(words.FlatCorner, words.In("name", PointName(i))),
		}
		wishes = append(
			wishes,
			place.Wish{
				Label: lab,
				Spots: lab.Fan(
					place.Fan{Toward: tenths(outward(b, i)), From: 60, To: 2600, Step: 60, Spread: 170, Reach: 250},
				),
			},
		)
	}
	s.Group(drawing.Lettering, "", func(gr *drawing.Scene) {
		name := strings.ToUpper(b.Name)
		gr.Text(drawing.Pt(0, 350), drawing.Letter(name), drawing.Style{Face: drawing.Bold})
		gr.Text(drawing.Pt(0, 750), drawing.Letter(g.Name+", "+say.Say(size.key)), drawing.Style{})
		for _, q := range pl.PlaceAll(wishes) {
			gr.Add(q.Marks...)
		}
	})
	return s
}

// outward is the way off the metal at a corner of a blank, y down the paper.
func outward(b plan.Blank, i int) xy {
	n := len(b.Corners)
	p, a, z := b.Corners[i].At, b.Corners[(i+n-1)%n].At, b.Corners[(i+1)%n].At
	in, out := xy{p.X - a.X, a.Y - p.Y}.unit(), xy{z.X - p.X, p.Y - z.Y}.unit()
	return in.roofward().add(out.roofward()).times(-1) // the metal is at the right of one who goes clockwise
}

// clipped cuts a line to a box.
func clipped(box drawing.Rect, a, z drawing.Point) (from, to drawing.Point, ok bool) {
	t0, t1 := 0.0, 1.0
	dx, dy := float64(z.X-a.X), float64(z.Y-a.Y)
	for _, e := range [][2]float64{{-dx, float64(a.X - box.Min.X)}, {dx, float64(box.Max.X - a.X)},
		{-dy, float64(a.Y - box.Min.Y)}, {dy, float64(box.Max.Y - a.Y)}} {
		switch t := e[1] / e[0]; {
		case e[0] == 0 && e[1] < 0:
			return a, z, false
		case e[0] == 0:
		case e[0] < 0:
			t0 = math.Max(t0, t)
		default:
			t1 = math.Min(t1, t)
		}
	}
	if t0 >= t1 {
		return a, z, false
	}
	on := func(t float64) drawing.Point {
		return drawing.Pt(a.X+drawing.Unit(math.Round(dx*t)), a.Y+drawing.Unit(math.Round(dy*t)))
	}
	return on(t0), on(t1), true
}
