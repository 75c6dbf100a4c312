package shop

import (
	"fmt"
	"math"

	"copingset/layout/cap"
	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/length"
)

// lapFace is how a lap is made on one face of a seam, in millimetres and along the
// seam's own leg: places are outwards from the corner of the finish faces, where
// the legs of an outside corner meet at their front.
type lapFace struct {
	cover float64 // where the covering leg ends
	apex  float64 // the outside mold line of the tab's bend on the covered leg
	tip   float64 // outside length of the tab from there
	turn  float64 // of that bend, positive UP
}

// lapOn takes a lap to a face whose legs turn away from each other, or in. The tab
// stands its own thickness and the gap behind the finish face of the leg that lies
// over it: its finish faces meet d = (T + gap) / sin(turn) before the corner where
// they turn away, and as far beyond it where they turn in. The covering leg ends
// where its metal would pass the covered leg's finish face, and where they turn in
// no nearer than the tangent of the tab's bend, whose fillet it would run into.
//
// source: plane geometry of two plumb sheets that are cut square.
func lapOn(thick, gap, radius, width, turn float64, away bool) lapFace {
	t := math.Abs(turn) * math.Pi / 180
	sin, cos := math.Sincos(t)
	d := (thick + gap) / sin
	if away {
		f := lapFace{cover: -thick * math.Max(0, -cos) / sin, apex: -d, turn: -math.Abs(turn)}
		f.tip = width - f.cover + d*cos
		return f
	}
	back := thick * math.Tan(t/2)
	end := math.Max(gap/sin, d*cos+math.Max(radius, gap)*math.Tan(t/2))
	f := lapFace{cover: -end, apex: d + back, turn: math.Abs(turn)}
	f.tip = width - f.cover - d*cos + back
	return f
}

// lapped reports whether the seam of a miter has the job's lap, and the lap. A seam
// of two widths and one in a transition or a tee have none.
func (b *builder) lapped(m cap.Miter) (*job.SeamLap, bool) {
	if b.shop.Seam == nil || b.shop.Seam.Lap == nil || m.Two() {
		return nil, false
	}
	lap := b.shop.Seam.Lap
	f := b.lapFaceOf(b.lapTurn(m), true)
	return lap, -f.apex <= lap.Width.MM()
}

// lapTurn is how far the tabs of a lapped seam are bent, positive where the front legs
// of a corner, or the tops over a peak, turn away from each other. Tops that fall to the
// roof over a break turn less than the break: their faces meet at 2 asin(sin(bend/2) cos
// (fall)).
//
// source: plane geometry: the normals of both tops lie alike off the plane between them.
func (b *builder) lapTurn(m cap.Miter) float64 {
	if !m.Corner.Straight() {
		return madeTurn(m).Degrees()
	}
	half := m.Corner.Bend.Degrees() / 2 * math.Pi / 180
	return 2 * math.Asin(math.Sin(half)/math.Hypot(1, float64(b.s.Profile.TopSlope)/1e9)) * 180 / math.Pi
}

func (b *builder) lapFaceOf(turn float64, away bool) lapFace {
	return lapOn(b.bend.Thickness, b.shop.WeldGap.MM(), b.bend.Radius, b.shop.Seam.Lap.Width.MM(), turn, away)
}

// covering is the hand of the leg that lies over at the seams of a piece, if one does.
func (b *builder) covering(p *cap.Piece) cap.Hand {
	if p.Kind == cap.Tee || p.Kind == cap.Transition {
		return cap.NoHand
	}
	for _, m := range p.Miters {
		if lap, ok := b.lapped(m); ok {
			if lap.Cover == job.Left {
				return cap.LeftHand
			}
			return cap.RightHand
		}
	}
	return cap.NoHand
}

// Laps says that one of the family's legs lies over the other at its seams.
func (f *Family) Laps() bool { return f.Covering != cap.NoHand }

// covers says which leg lies over; nothing where none does.
func (f *Family) covers() string {
	if f.Covering == cap.NoHand {
		return ""
	}
	return " At the seam the leg at your " + f.Covering.String() + " hand lies over the other."
}

// lap gives the end of a leg at a miter (side +1 where it arrives) its tabs, or
// what of them it lies over, with the rivets of both.
func (b *builder) lap(r raw, m cap.Miter, side float64) raw {
	lap, ok := b.lapped(m)
	if !ok || r.err != nil {
		return b.backed(r, side)
	}
	end, cut := 0, &r.metal.Left
	if side > 0 {
		end, cut = 1, &r.metal.Right
	}
	over := (side > 0) == (lap.Cover == job.Left)
	l := r.metal.Path.Lay()
	root, turn, straight := r.metal.Path.Root, b.lapTurn(m), m.Corner.Straight()
	for _, seg := range []int{root - 1, root, root + 1} {
		from, to := l.Span(seg)
		clear := lap.Clear.MM()
		a, z := from+clear, to-clear
		if z-a < clear {
			r.err = fmt.Errorf("the %s is flat for %s, and its tab ends %s from the bends on both sides of it",
				r.metal.Path.Segs[seg].Name, job.Both(length.FromMM(to-from)), job.Both(lap.Clear))
			return r
		}
		if near, name := b.tabRoom(r.metal.Path, seg, a, z, straight == (seg != root)); near < -chord {
			r.err = fmt.Errorf("the tab behind the %s would stand %s nearer to the %s than its gap: a greater "+
				"`clear:` of the lap", r.metal.Path.Segs[seg].Name, job.Both(length.FromMM(-near)), name)
			return r
		}
		if straight == (seg != root) { // over a break the legs go on in one plane, round a corner the top
			r = b.flatLap(r, end, seg, a, z, over)
			continue
		}
		f := b.lapFaceOf(turn, (seg <= root) == (turn > 0))
		// Stations of the leg's own end, outwards from the corner of the finish faces.
		finish, _ := l.Skins((from + to) / 2)
		corner := side * cut.Seam(finish.X, finish.Y, 0)
		butt := side*cut.X(l, (a+z)/2, side > 0) - corner
		if over {
			n := fold.Notch{From: a, To: z, Back: butt - f.cover}
			if n.Back > 0 { // set back all along: the tab's bend stands beside it at both its ends
				n.From, n.To = from, to
			}
			cut.Notches = append(cut.Notches, n)
			r.rivets = append(r.rivets, rivetRow{end: end, seg: seg, from: a, to: z})
			continue
		}
		bend := b.bend
		set := bend.Setback(math.Abs(f.turn))
		arc := b.take(math.Abs(f.turn))
		if arc == 0 {
			arc = bend.Allowance(math.Abs(f.turn))
		}
		back := math.Max(0, butt-(f.apex-set))
		cut.Notches = append(cut.Notches, fold.Notch{From: from, To: a, Back: back}, fold.Notch{From: z, To: to,
			Back: back})
		r.metal.Laps[end] = append(r.metal.Laps[end], fold.Lap{
			Name: r.metal.Path.Segs[seg].Name + " tab", Seg: seg, From: a, To: z,
			Beyond: f.apex + f.tip - (2*set - arc) - butt,
			Turn:   f.turn, Radius: bend.Radius, Arc: arc, Fold: f.apex - set + arc/2 - butt,
		})
		r.rivets = append(r.rivets, rivetRow{end, seg, a, z, true, f.apex +
			f.tip - (2*set - arc) - butt - lap.Width.MM()})
	}
	return r
}

// tabRoom is by how much the tab behind a straight keeps farther than its gap from the
// other straights of the leg over it, a hook that is turned in behind that straight, and
// which of them is the nearest. A flat tab lies on the metal over it.
func (b *builder) tabRoom(p fold.Path, seg int, from, to float64, flat bool) (room float64, name string) {
	l, gap := p.Lay(), b.shop.WeldGap.MM()
	lies := gap
	if flat {
		lies = 0
	}
	room = math.Inf(1)
	middle := func(s float64) fold.Point {
		f, k := l.Skins(s)
		return fold.Point{X: (f.X + k.X) / 2, Y: (f.Y + k.Y) / 2}
	}
	low, high := l.Span(seg)
	const places = 600
	for i := range places + 1 {
		place := p.Girth() * float64(i) / places
		if place > low-1 && place < high+1 { // where it bends away from the straight
			continue
		}
		q := middle(place)
		// The tab is as straight: the nearest of it lies square to the place, or at its end.
		f, k := l.Skins(from)
		g, _ := l.Skins(to)
		u := fold.Point{X: (g.X - f.X) / (to - from), Y: (g.Y - f.Y) / (to - from)}
		t := math.Max(0, math.Min(to-from, (q.X-f.X)*u.X+(q.Y-f.Y)*u.Y))
		in := (1.5*p.T + lies) / p.T
		at := fold.Point{X: f.X + u.X*t + (k.X-f.X)*in, Y: f.Y + u.Y*t + (k.Y-f.Y)*in}
		if d := math.Hypot(q.X-at.X, q.Y-at.Y) - p.T - lies; d < room {
			room, name = d, l.Name(place)
		}
	}
	return room, name
}

// flatLap is the lap of faces that lie in one plane, the tops of a corner but for their
// fall across it and the legs over a break, so that the tab is no bend. Where it is
// jogged it takes what the slant of the jog is longer than its run.
func (b *builder) flatLap(r raw, end, seg int, from, to float64, over bool) raw {
	if over {
		r.rivets = append(r.rivets, rivetRow{end: end, seg: seg, from: from, to: to})
		return r
	}
	lap := b.shop.Seam.Lap
	past := b.shop.WeldGap.MM()
	if lap.Jogged {
		past += math.Hypot(lap.Jog.MM(), b.bend.Thickness) - lap.Jog.MM()
	}
	r.metal.Laps[end] = append(r.metal.Laps[end], fold.Lap{Name: r.metal.Path.Segs[seg].Name + " tab", Seg: seg,
		From: from, To: to, Beyond: past + lap.Width.MM()})
	r.rivets = append(r.rivets, rivetRow{end, seg, from, to, true, past})
	return r
}

// backed is the end of a leg at a butt with a backer: rivets on all its faces.
func (b *builder) backed(r raw, side float64) raw {
	q := b.shop.Seam
	if q == nil || q.Rivets == nil || q.Backer == "" || r.err != nil || r.metal == nil {
		return r
	}
	end := 0
	if side > 0 {
		end = 1
	}
	l := r.metal.Path.Lay()
	for seg := r.metal.Path.Root - 1; seg <= r.metal.Path.Root+1; seg++ {
		from, to := l.Span(seg)
		r.rivets = append(r.rivets, rivetRow{end: end, seg: seg, from: from, to: to})
	}
	return r
}

// Tabbed reports whether a body carries tabs that another lies over.
func (b Body) Tabbed() bool {
	return b.Metal != nil && len(b.Metal.Laps[0])+len(b.Metal.Laps[1]) > 0
}

// TabbedAt reports whether it carries them at its right end, or at its left.
func (b Body) TabbedAt(right bool) bool {
	end := 0
	if right {
		end = 1
	}
	return b.Metal != nil && len(b.Metal.Laps[end]) > 0
}

// rivetRow is a row of rivets at an end of a body, on the face between two places:
// on a tab whose metal is covered from `past` its cut on, or on the metal that lies
// over.
type rivetRow struct {
	end, seg int
	from, to float64
	tab      bool
	past     float64 // less than nothing where the tab's bend stands before the cut
}

// rivet adds the holes of a body's rivets to its pattern, which has been moved.
func (b *builder) rivet(r raw, body *Body, move fold.Point) {
	q := b.shop.Seam
	if q == nil || q.Rivets == nil || q.Process != job.RivetAndSeal {
		return
	}
	edge, gap := q.Rivets.Edge.MM(), b.shop.WeldGap.MM()
	for _, row := range r.rivets {
		off := -edge
		if row.tab {
			off = row.past + edge
		}
		for _, at := range r.metal.Row(row.end, row.seg, row.from, row.to, edge, off, edge+gap, q.Rivets.Pitch.MM()) {
			at = fold.Point{X: at.X + move.X, Y: at.Y + move.Y}
			body.Drills = append(body.Drills, Drill{len(body.Holes), at, q.Rivets.Diameter.MM()})
			body.Holes = append(body.Holes, circle(at, q.Rivets.Diameter.MM()))
			body.Riveted++
		}
	}
}

// circle is the outline that a round hole is drawn with.
func circle(at fold.Point, diameter float64) []fold.Point {
	out := make([]fold.Point, holeSides)
	for i := range out {
		sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.5) / holeSides)
		out[i] = fold.Point{X: at.X + diameter/2*cos, Y: at.Y + diameter/2*sin}
	}
	return out
}
