package shop

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"copingset/layout/fold"
	"copingset/layout/length"
)

// bends lists the bends of a body in the order they are made: hems first, then
// from both edges inwards, the bend nearest an edge before those behind it, the
// street edge first where two stand alike. An upstand comes last. Where the machine's
// tools and reach are stated, the first order near that one that keeps to them.
func (b *builder) bends(body Body) []Bend {
	_, hi := body.Flat.Bounds()
	var out []Bend
	for _, l := range body.Flat.Bends {
		q := Bend{Line: l, Hem: l.Between[1] == "hem"}
		y := (q.Line.From.Y + q.Line.To.Y) / 2
		// From the roof edge of the blank as sheared, so that both distances sum to its girth.
		q.FromStreet = length.RoundTo(length.FromMM(hi.Y-y), b.step)
		q.FromRoof = body.Girth - q.FromStreet
		out = append(out, q)
	}
	rank := func(q Bend) int {
		switch {
		case q.Hem:
			return 0
		case q.Line.Seg < 0: // an upstand; tabs of a seam, over an edge by hand
			return 2
		}
		return 1
	}
	slices.SortStableFunc(out, func(p, q Bend) int {
		return cmp.Or(cmp.Compare(rank(p), rank(q)),
			cmp.Compare(length.Min(p.FromStreet, p.FromRoof), length.Min(q.FromStreet, q.FromRoof)),
			cmp.Compare(p.FromStreet, q.FromStreet))
	})
	if b.ownOrder(out); len(b.shop.BendOrder) == 0 {
		out = b.freeOrder(body, out)
	}
	for i := range out {
		out[i].Order = i + 1
	}
	for i := range out {
		b.gauge(body, out, i)
	}
	return out
}

// gauge finds what the back gauge touches when a bend is made, after those before
// it in the list: on the side whose edge lies nearer on the flat, towards the
// free edge of a body that is no one section.
func (b *builder) gauge(body Body, all []Bend, k int) {
	q := &all[k]
	set := func(mm float64) { q.Gauge = length.RoundTo(length.FromMM(mm), b.step) }
	if q.Line.Seg < 0 && strings.HasSuffix(q.Line.Between[1], " tab") {
		set(tabDepth(body, q.Line))
		q.GaugeAt = []string{"L edge", "R edge"}[q.Line.Wing]
		return
	}
	if q.Line.Seg < 0 { // an upstand: from the cut edge of its own
		t := body.Metal.Tabs[q.Line.Wing]
		bend := fold.Bend{Thickness: b.bend.Thickness, Radius: t.Radius, K: b.bend.K}
		set(t.Height - bend.Setback(90) + bend.Allowance(90)/2)
		q.GaugeAt = []string{"L edge", "R edge"}[q.Line.Wing]
		return
	}
	p := body.paths[q.Line.Wing]
	made := func(seg int) bool {
		return slices.ContainsFunc(all[:k], func(o Bend) bool {
			return o.Line.Wing == q.Line.Wing &&
				o.Line.Seg == seg
		})
	}
	last := fromLast(body, *q)
	street := body.Metal != nil && !last || body.Tray != nil && body.Tray.Wings[q.Line.Wing].Street
	r := p.Reach(q.Line.Seg, made, last)
	set(r.Distance)
	edge := "roof"
	if street {
		edge = "street"
	}
	switch {
	case r.Edge:
		q.GaugeAt = edge + " edge"
	case strings.Contains(r.At, "hem"):
		q.GaugeAt = edge + " hem's fold"
	default:
		q.GaugeAt = r.At
	}
}

// fromLast reports whether a bend is gauged from the last edge of its path: of the
// two the nearer on the flat, the free one of a body that is no one section.
func fromLast(body Body, q Bend) bool { return body.Metal == nil || q.FromRoof < q.FromStreet }

// tabDepth is from the bend line of a seam's tab to its own cut edge.
func tabDepth(body Body, line fold.BendLine) float64 {
	for _, lap := range body.Metal.Laps[line.Wing] {
		if lap.Name == line.Between[1] {
			return lap.Beyond - lap.Fold
		}
	}
	return 0
}

// longest is the length of the longest bend of a body, along the brake.
func longest(body Body) float64 {
	var l float64
	for _, q := range body.Flat.Bends {
		l = math.Max(l, math.Hypot(q.To.X-q.From.X, q.To.Y-q.From.Y))
	}
	return l
}

// narrowest is the least outside depth of a face that a bend must hold, and its
// name: of all but the root, which other faces hang on, and the leaves of hems.
func narrowest(body Body) (string, float64) {
	name, least := "", math.Inf(1)
	for _, p := range body.paths {
		for i, g := range p.Segs {
			if i == p.Root || p.Hem(i) {
				continue
			}
			if d := p.Stated(i); d < least {
				name, least = g.Name, d
			}
		}
	}
	if body.Metal != nil {
		for _, t := range body.Metal.Tabs {
			if t != nil && t.Height < least {
				name, least = t.Name, t.Height
			}
		}
	}
	return name, least
}

func lengthOfEdge(f fold.Face, i int) float64 {
	p, q := f.Corners[i], f.Corners[(i+1)%len(f.Corners)]
	return math.Sqrt((p.X-q.X)*(p.X-q.X) + (p.Y-q.Y)*(p.Y-q.Y) + (p.Z-q.Z)*(p.Z-q.Z))
}
