package refold

import (
	"math"
	"slices"
	"strings"
)

// lap sets two legs of a lapped seam against one another: nowhere do their cut edges
// come nearer than the gap. The tabs of faces that go on in one plane, the top round a
// corner and the legs over a break, are looked at by themselves: they are set down by a
// jog, which is no bend, or the leg over them sprung; and they are the covered leg's
// alone. Directions x, s and z are those of the leaving leg.
func (c *checker) lap(a, b body, normal Vec, gap float64, x, s, z Vec) {
	words := [2]string{a.Sheet.lapAt(true), b.Sheet.lapAt(false)}
	if words != [2]string{"over", "under"} && words != [2]string{"under", "over"} {
		c.say("%s lies %q its neighbour, which lies %q it", a.Sheet.Name(), words[0], words[1])
		return
	}
	if w := a.Sheet.Row.MM("lap width"); w <= 0 || w != b.Sheet.Row.MM("lap width") {
		c.say("%s laps %.3f mm, its neighbour %.3f", a.Sheet.Name(), w, b.Sheet.Row.MM("lap width"))
	}
	// The ends of a tab go round its bend: chords of 0.3 mm stand off that by less than 0.01.
	a.edges, b.edges = a.Edges(0.3), b.Edges(0.3)
	flat, seen := []string{"top"}, "lapped corner"
	if z.X != 0 {
		flat, seen = []string{"front leg", "rear leg"}, "lapped break"
	}
	own := gap/2 - 0.01 // from the seam's plane, where a tab is past its leg's own cut
	p := c.untabbed(a, a.end(rightEnd), normal, own, flat, words[0] == "over")
	q := c.untabbed(b, b.end(leftEnd), normal.by(-1), own, flat, words[1] == "over")
	least := Gap{Off: math.Inf(1)}
	name := ""
	for i, way := range [][]Gap{Gaps(p, NewMetal(q)), Gaps(q, NewMetal(p))} {
		for _, g := range way {
			if g.Off < least.Off {
				least, name = g, [2]body{a, b}[i].Faces[g.Edge.Face].Name
			}
		}
	}
	if least.Off < gap-within {
		at := least.Edge.At[0]
		c.say("%s: the %s of its seam stands %.3f mm off the leg it laps with, the gap is %.3f, at %.1f, %.1f on the "+
			"blank", a.Sheet.Name(), name, least.Off, gap, at.X, at.Y)
	}
	c.Seen[seen]++
	for _, face := range flat {
		if words[0] == "under" {
			c.flatTab(a, b.Sheet, face, a.end(rightEnd), normal, gap, func(v Vec) Vec {
				return Vec{v.dot(x), v.dot(s),
					v.dot(z)}
			})
		} else {
			c.flatTab(b, a.Sheet, face, b.end(leftEnd), normal.by(-1), gap, func(v Vec) Vec { return v })
		}
	}
}

// lapAt is how a leg lies with its neighbour at one of its ends.
func (w Sheet) lapAt(right bool) string {
	words := strings.Fields(w.Row["lap"])
	switch {
	case len(words) == 0:
		return ""
	case right:
		return words[len(words)-1]
	}
	return words[0]
}

// flatTab lays the tab of a face behind the same face of the leg over it, dressed to
// that leg's: it reaches behind it as far as the list says, and no metal of it stands
// in that leg's bends. `into` tells places as the covering leg stands.
func (c *checker) flatTab(b body, over Sheet, face string, end []Edge, normal Vec, gap float64, into func(Vec) Vec) {
	r := over.Fold()
	if !r.Stand() {
		return
	}
	of, _ := r.Straight(face)
	mid := r.middle(0.4)
	reach, deep := 0.0, 0.0
	for _, e := range end {
		if b.Faces[e.Face].Name != face {
			continue
		}
		for _, p := range e.Finish {
			past := -p.dot(normal) - gap/2 // beyond the edge of the leg over it
			reach = math.Max(reach, past)
			if past < within {
				continue
			}
			v := into(p)
			along := Pt{-v.S, v.Z}.sub(of.At).dot(of.Dir)
			tab := of.At.add(of.Dir.by(along)).sub(of.Dir.left().by(1.5 * r.T)) // the middle of its metal
			for k := 1; k < len(mid); k++ {
				if apart(tab.X, mid[k-1].X, mid[k].X) > r.T || apart(tab.Y, mid[k-1].Y, mid[k].Y) > r.T {
					continue // not in the metal
				}
				deep = math.Max(deep, r.T-Off(tab, mid[k-1], mid[k]))
			}
		}
	}
	want, lap := b.Sheet.Row.MM("lap width"), c.j.Shop.Seam.Lap
	if lap.Jogged { // the slant of the jog is longer than its run
		want += math.Hypot(lap.Jog.MM(), b.T) - lap.Jog.MM()
	}
	if slope := b.Sheet.Row.Number("slope"); math.Abs(reach-want) > within+want*slope*slope {
		c.say("%s: the tab of its %s reaches %.3f mm under the leg over it, want %.3f", b.Sheet.Name(), face, reach,
			want)
	}
	if deep > within {
		c.say("%s: the tab of its %s stands %.3f mm in the metal over it", b.Sheet.Name(), face, deep)
	}
	c.Seen["flat tabs"]++
}

// untabbed are the edges of a leg's end but for those of some faces that stand less than
// a distance off the seam's plane on their own side. The leg that lies over has none.
func (c *checker) untabbed(b body, all []Edge, into Vec, own float64, flat []string, over bool) []Edge {
	var out []Edge
	for _, e := range all {
		beyond := math.Min(e.Finish[0].dot(into), e.Finish[1].dot(into)) < own
		if beyond && slices.Contains(flat, b.Faces[e.Face].Name) {
			if over {
				c.say("%s: the %s of the leg that lies over goes past the seam", b.Sheet.Name(), b.Faces[e.Face].Name)
			}
			continue
		}
		out = append(out, e)
	}
	return out
}
