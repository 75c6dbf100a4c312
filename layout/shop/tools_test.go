package shop

import (
	"slices"
	"testing"

	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/length/draws"

	"pgregory.net/rapid"
)

// hitsSlowly folds a section after a hit and asks of many places of it whether they
// stand in a tool: the same question by points instead of lines.
func hitsSlowly(m *job.Machine, p fold.Path, made []int, seg int, last bool) bool {
	l := p.Stage(func(i int) bool { return slices.Contains(made, i) }).Lay()
	_, start := l.Span(seg)
	g := p.Segs[seg]
	f, k := l.Skins(start + g.Arc/2)
	origin, up := f, fold.Point{X: (f.X - k.X) / p.T, Y: (f.Y - k.Y) / p.T}
	if g.Turn < 0 {
		origin, up = k, fold.Point{X: -up.X, Y: -up.Y}
	}
	side := fold.Point{X: -up.Y, Y: up.X}
	end, _ := l.Skins(start + g.Arc + 1)
	if !last {
		end, _ = l.Skins(start - 1)
	}
	if (end.X-origin.X)*side.X+(end.Y-origin.Y)*side.Y < 0 {
		side = fold.Point{X: -side.X, Y: -side.Y}
	}
	near := g.Radius + p.T
	const n = 1200
	for i := range n + 1 {
		s := p.Girth() * float64(i) / n
		if s > start-near && s < start+g.Arc+near {
			continue
		}
		f, k := l.Skins(s)
		for _, v := range []fold.Point{f, k} {
			x := (v.X-origin.X)*side.X + (v.Y-origin.Y)*side.Y
			y := (v.X-origin.X)*up.X + (v.Y-origin.Y)*up.Y
			in := func(ring []job.ToolPoint, y float64) bool {
				odd := false
				for a := range ring {
					p, q := ring[a], ring[(a+1)%len(ring)]
					if (p.Y.MM() > y) != (q.Y.MM() > y) && x < p.X.MM()+(y-p.Y.MM())/(q.Y-p.Y).MM()*(q.X-p.X).MM() {
						odd = !odd
					}
				}
				return odd
			}
			if in(m.Punch, y) || in(m.Die, -(y+p.T)) {
				return true
			}
		}
	}
	return false
}

// channel is a random section of five straights and a body that has it.
func channel(t *rapid.T) (fold.Path, Body) {
	leg := func(name string) float64 { return float64(rapid.IntRange(12, 70).Draw(t, name)) }
	turn := func(name string) float64 {
		return float64(rapid.SampledFrom([]int{-90, -70, 70, 90, 110}).Draw(t, name))
	}
	legs := []fold.Leg{{Name: "a", Outside: leg("a"), Turn: turn("a/b"), Radius: 1}, {Name: "b", Outside: leg("b"), Turn: turn("b/c"), Radius: 1},
		{Name: "c", Outside: leg("c") + 30, Turn: turn("c/d"), Radius: 1}, {Name: "d", Outside: leg("d")}}
	p, err := fold.NewPath(1, 0.4, legs, 2)
	if err != nil {
		t.Skip(err)
	}
	s := fold.Sheet{Path: p, Left: fold.Cut{Seam: fold.Square(0, false)}, Right: fold.Cut{Seam: fold.Square(500, true)}}
	flat, err := s.Pattern(0.05)
	if err != nil {
		t.Skip(err)
	}
	_, hi := flat.Bounds()
	return p, Body{Name: "channel", Metal: &s, Flat: flat, paths: []fold.Path{p}, Length: length.FromMM(hi.X), Girth: length.FromMM(hi.Y)}
}

// An order is found whenever one of all orders keeps folded metal out of punch and
// die at every hit, and one that is found does.
func TestOrderOfBendsKeepsOffTheTools(t *testing.T) {
	moved, none := 0, 0
	draws.Check(t, 200, func(r *rapid.T) {
		p, body := channel(r)
		mm := length.Millimetre
		w := length.Length(rapid.IntRange(4, 40).Draw(r, "punch")) * mm
		back := length.Length(rapid.IntRange(4, 60).Draw(r, "behind")) * mm
		m := &job.Machine{Kind: job.PressBrake, Dies: []length.Length{8 * mm},
			Punch: []job.ToolPoint{{X: 0, Y: mm}, {X: back, Y: 25 * mm}, {X: back, Y: 90 * mm}, {X: -w, Y: 90 * mm}, {X: -w, Y: 25 * mm}},
			Die:   []job.ToolPoint{{X: 6 * mm, Y: 1 * mm}, {X: 12 * mm, Y: 80 * mm}, {X: -12 * mm, Y: 80 * mm}, {X: -6 * mm, Y: 1 * mm}}}
		b := builder{j: &job.Job{}, s: &job.System{}, shop: &job.Shop{Machine: m}, step: mm / 10, bend: fold.Bend{Thickness: 1, Radius: 1, K: 0.4}}
		got := b.bends(body)
		free := func(order []Bend) bool {
			var made []int
			for _, q := range order {
				made = append(made, q.Line.Seg)
				if hitsSlowly(m, p, made, q.Line.Seg, fromLast(body, q)) {
					return false
				}
			}
			return true
		}
		some := false
		for _, k := range [][]int{{0, 1, 2}, {0, 2, 1}, {1, 0, 2}, {1, 2, 0}, {2, 0, 1}, {2, 1, 0}} {
			some = some || free([]Bend{got[k[0]], got[k[1]], got[k[2]]})
		}
		body.Bends = got
		hit := false
		for _, q := range got {
			_, h := b.struck(body, q)
			hit = hit || h
		}
		if !hit && !free(got) {
			r.Errorf("an order is said to be free that is not")
		}
		if hit && some { // points may miss what a line grazes
			none++
		}
		b.shop.Machine = nil
		plain := b.bends(body)
		if !slices.EqualFunc(plain, got, func(x, y Bend) bool { return x.Line.Seg == y.Line.Seg }) {
			moved++
			if free(plain) {
				none++
			}
		}
	})
	t.Logf("%d moved, %d grazed", moved, none)
	if moved == 0 {
		t.Error("no order was ever changed")
	}
	if none > 6*draws.Times(1) {
		t.Errorf("%d orders were not found", none)
	}
}
