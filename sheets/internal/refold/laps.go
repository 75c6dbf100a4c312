package refold

import "math"

// lap sets two legs of a lapped corner against one another: nowhere do their cut
// edges come nearer than the gap. The tab of the top is left out: it is set down by a
// jog, which is no bend, or the leg over it sprung; and it is the covered leg's alone.
func (c *checker) lap(a, b body, normal Vec, gap float64) {
	words := [2]string{a.Sheet.Row["lap"], b.Sheet.Row["lap"]}
	if words != [2]string{"over", "under"} && words != [2]string{"under", "over"} {
		c.say("%s lies %q its neighbour, which lies %q it", a.Sheet.Name(), words[0], words[1])
		return
	}
	if w := a.Sheet.Row.MM("lap width"); w <= 0 || w != b.Sheet.Row.MM("lap width") {
		c.say("%s laps %.3f mm, its neighbour %.3f", a.Sheet.Name(), w, b.Sheet.Row.MM("lap width"))
	}
	p, q := c.untabbed(a, a.end(rightEnd), normal), c.untabbed(b, b.end(leftEnd), normal.by(-1))
	least := math.Inf(1)
	for _, g := range append(Gaps(p, NewMetal(q)), Gaps(q, NewMetal(p))...) {
		least = math.Min(least, g.Off)
	}
	if least < gap-within {
		c.say("%s: its metal stands %.3f mm off that of the leg it laps with, the gap is %.3f", a.Sheet.Name(), least, gap)
	}
	c.Seen["lapped corner"]++
}

// untabbed are the edges of a leg's end but for those of the top beyond the seam's
// plane. The leg that lies over has none there.
func (c *checker) untabbed(b body, all []Edge, into Vec) []Edge {
	var out []Edge
	for _, e := range all {
		beyond := math.Min(e.Finish[0].dot(into), e.Finish[1].dot(into)) < -within
		if beyond && b.Faces[e.Face].Name == "top" {
			if b.Sheet.Row["lap"] == "over" {
				c.say("%s: the top of the leg that lies over goes past the seam", b.Sheet.Name())
			}
			continue
		}
		out = append(out, e)
	}
	return out
}
