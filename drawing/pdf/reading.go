package pdf

import (
	"cmp"
	"slices"

	"copingset/drawing"
)

// lettered is a text with the layer it lies on.
type lettered struct {
	drawing.Text
	layer drawing.Layer
}

// passage is what is read in one go: a text, or the lines of a paragraph. It stands where its first line stands.
type passage struct {
	lines []lettered
	box   drawing.Rect // of the first line
}

// passages joins lines that were drawn one under the other.
func passages(texts []lettered) []passage {
	var out []passage
	for i, t := range texts {
		if i > 0 && follows(texts[i-1].Text, t.Text) {
			last := &out[len(out)-1]
			last.lines = append(last.lines, t)
			continue
		}
		out = append(out, passage{lines: []lettered{t}, box: drawing.BoundsOf([]drawing.Mark{t.Text})})
	}
	return out
}

// follows says that b is the next line of a's paragraph: lettered alike, from the same margin, one line on.
func follows(a, b drawing.Text) bool {
	if a.Size != b.Size || a.Face != b.Face || a.Align != b.Align || a.Rotate != b.Rotate {
		return false
	}
	cos, sin := drawing.CosSin(a.Rotate)
	dx, dy := float64(b.At.X-a.At.X), float64(b.At.Y-a.At.Y)
	along, on := float64(dx*cos)-float64(dy*sin), float64(dx*sin)+float64(dy*cos)
	const rounding = 2
	return along > -rounding && along < rounding && on > float64(a.Size) && on < float64(2*a.Size)
}

// centre is the height of a passage on the sheet.
func (p passage) centre() drawing.Unit { return (p.box.Min.Y + p.box.Max.Y) / 2 }

// row gathers passages side by side. Top and bottom bound what all of them share, so that a
// word standing on end does not draw the rows beside it together.
type row struct {
	passages    []passage
	top, bottom drawing.Unit
}

// texts are those of a row in turn.
func (r row) texts() []lettered {
	var out []lettered
	for _, p := range r.passages {
		out = append(out, p.lines...)
	}
	return out
}

// take adds a passage whose middle stands in the row.
func (r *row) take(p passage) bool {
	if c := p.centre(); c < r.top || c > r.bottom {
		return false
	}
	r.passages = append(r.passages, p)
	r.top, r.bottom = max(r.top, p.box.Min.Y), min(r.bottom, p.box.Max.Y)
	return true
}

// asDrawn gathers the rows of lettering that was drawn in reading order, as tables and lists are.
func asDrawn(texts []lettered) []row {
	var out []row
	for _, p := range passages(texts) {
		if k := len(out) - 1; k >= 0 {
			last := out[k].passages
			if last[len(last)-1].box.Min.X < p.box.Min.X && out[k].take(p) {
				continue
			}
		}
		out = append(out, row{[]passage{p}, p.box.Min.Y, p.box.Max.Y})
	}
	return out
}

// asStanding gathers the rows of a drawing from the top down, each from left to right.
func asStanding(texts []lettered) []row {
	ps := passages(texts)
	slices.SortStableFunc(ps, func(a, b passage) int { return cmp.Compare(a.centre(), b.centre()) })
	var out []row
	for _, p := range ps {
		if k := len(out) - 1; k >= 0 && out[k].take(p) {
			continue
		}
		out = append(out, row{[]passage{p}, p.box.Min.Y, p.box.Max.Y})
	}
	for _, r := range out {
		slices.SortStableFunc(r.passages, func(a, b passage) int { return cmp.Compare(a.box.Min.X, b.box.Min.X) })
	}
	return out
}
