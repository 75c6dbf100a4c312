package layout

import (
	"fmt"
	"math"
	"strings"

	"copingset/layout/cap"
	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
	"copingset/layout/shop"
)

// endPlate is the sheet that closes an end.
const endPlate = "end plate"

// Patterns are the blanks of a family, from its left hand.
func (l *Layout) Patterns(f *Family) []plan.Pattern {
	p := f.Pieces[0]
	two := p.Wide != p.Narrow && len(p.Miters) > 0
	var out []plan.Pattern
	for i, b := range f.Bodies {
		x := plan.Pattern{Blank: l.blankOf(b, BodyKey(FactOfFamily(f), i)), Held: f.Released(l.Held) == 0, Falls: two &&
			b.Name != endPlate,
			Joined: i > 0 && b.Name != endPlate && f.Bodies[i-1].Name != endPlate}
		if x.Falls {
			x.Faces[0].Slope = p.Parts[LegOf(f, i)].Slope(&l.Job.System)
		}
		if len(f.Bodies) > 1 {
			x.Title = strings.ToUpper(b.Name)
		}
		out = append(out, x)
	}
	return out
}

// LegOf is which part of a piece a body of its family is of; an end plate is of the
// leg before it.
func LegOf(f *Family, body int) int {
	leg := -1
	for i := 0; i <= body; i++ {
		if f.Bodies[i].Name != endPlate {
			leg++
		}
	}
	return max(0, min(leg, len(f.Pieces[0].Parts)-1))
}

// BodyKey begins the names of the facts of a body of a family or of a part, counted
// from nought.
func BodyKey(of string, body int) plan.Key {
	return plan.Key(Named(of, fmt.Sprintf("body-%d-", body+1)))
}

// PartBlank is the blank of a made part.
func (l *Layout) PartBlank(q *MadePart) plan.Blank {
	return l.blankOf(q.Bodies[0], BodyKey(FactOfPart(q), 0))
}

// relief is what the job's shop cuts where bends cross or end.
func (l *Layout) relief() plan.BlankRelief {
	r := l.Job.Shop.Relief
	of := func(what string, v length.Length) plan.Value { return plan.Value{Real: v, Fact: Named("shop", what)} }
	return plan.BlankRelief{Diameter: of("relief-diameter", r.Diameter), Width: of("relief-width", r.Width),
		Depth: of("relief-depth", r.Depth)}
}

// blankOf is a body as it is cut and bent, its distances to the step of the shop's
// rule.
func (l *Layout) blankOf(b Body, k plan.Key) plan.Blank {
	metric := l.Job.Units == job.Metric
	step := shop.Step(metric)
	e := b.Edges()
	out := plan.Blank{Key: k, Metric: metric, Name: b.Name, Length: b.Length, Girth: b.Girth, Outline: b.Flat.Outline,
		Cut: b.Outline(), Square: b.Square(),
		Sides: plan.BlankSides{Top: e.Top, Bottom: e.Bottom, Left: e.Left, Right: e.Right}, Reliefs: b.Reliefs,
		Film:   l.Job.Shop.Film,
		Relief: l.relief()}
	for i, street := range []bool{true, false} {
		out.Edges[i].From, out.Edges[i].To = b.EdgeAt(street)
	}
	for i, q := range b.Bends {
		x := plan.BlankBend{Key: k.Of(fmt.Sprintf("bend-%d-", i+1)), Order: q.Order, Turn: q.Line.Turn,
			Radius: q.Line.Radius, Up: q.Up(), Hem: q.Hem, Level: q.Level(), Across: q.Across(),
			Between:    q.Line.Between,
			FromStreet: q.FromStreet, FromRoof: q.FromRoof, FromLeft: q.FromLeft(step)}
		x.Left, x.Right = q.Ends()
		x.EndsFromStreet = [2]length.Length{b.FromStreetAt(x.Left, step), b.FromStreetAt(x.Right, step)}
		out.Bends = append(out.Bends, x)
	}
	for i, h := range b.Holes {
		s := b.HoleBox(i, step)
		x := plan.BlankHole{Key: k.Of(fmt.Sprintf("hole-%d-", i+1)), Ring: h, Left: s.Left, Right: s.Right,
			Street: s.Street, Roof: s.Roof, Rivet: i >= len(b.Holes)-b.Riveted}
		for _, p := range h {
			x.Centre.X, x.Centre.Y = x.Centre.X+p.X/float64(len(h)), x.Centre.Y+p.Y/float64(len(h))
		}
		out.Holes = append(out.Holes, x)
	}
	for _, d := range b.Drills {
		out.Holes[d.Hole].Centre, out.Holes[d.Hole].Radius = d.At, d.Diameter/2
	}
	for i, f := range b.Solid.Faces {
		out.Faces = append(out.Faces, plan.BlankFace{Key: k.Of(fmt.Sprintf("face-%d-", i+1)), Name: f.Name,
			Ring: b.Flat.Faces[i], Outside: b.Outside(i)})
	}
	for i, c := range b.CutPoints(step) {
		out.Corners = append(out.Corners, plan.BlankCorner{Key: k.Of(fmt.Sprintf("corner-%d-", i+1)), At: c.At,
			FromLeft: c.FromLeft, FromStreet: c.FromStreet})
	}
	return out
}

// FormedPart is the section of a made part.
func (l *Layout) FormedPart(p *MadePart) plan.FormedPart {
	metric := l.Job.Units == job.Metric
	out := plan.FormedPart{Mark: p.Mark, Metric: metric, FromAbove: p.Kind == shop.StepRiser, Path: p.Section}
	for i, name := range p.Names {
		a, b := p.Section[i], p.Section[i+1]
		long := length.RoundTo(length.FromMM(math.Hypot(b.X-a.X, b.Y-a.Y)), shop.Step(metric))
		out.Faces = append(out.Faces, plan.FormedFace{Fact: Named(FactOfPart(p), fmt.Sprintf("face-%d", i+1)),
			Name: name, Long: long})
	}
	if path, ok := p.Across(); ok {
		out.Metal = path.Lay().Ring(chordOff)
		// The lines lie on the finish face; outside lengths go round the outside of each
		// bend, as the job states them.
		n := 0
		for i := range path.Segs {
			if !path.Hem(i) && n < len(out.Faces) {
				out.Faces[n].Long = length.RoundTo(length.FromMM(path.Stated(i)), shop.Step(metric))
				n++
			}
		}
	}
	return out
}

// CutBars are how the formed caps of an order are cut.
func (l *Layout) CutBars(o shop.BarOrder, k plan.Key) []plan.CutBar {
	var out []plan.CutBar
	for i, bar := range o.Plan.Bars {
		x := plan.CutBar{Key: k.Of(fmt.Sprintf("bar-%d", i+1)), Metric: l.Job.Units == job.Metric, N: i + 1,
			Mark: capMark(o.Caps[bar.Stock]), Count: bar.Count, Length: o.Stocks[bar.Stock].Length,
			Kerf: l.Job.Shop.Kerf, Drop: bar.Drop, Kept: bar.Kept}
		for _, c := range bar.Cuts {
			x.Cuts = append(x.Cuts, plan.CutPiece{Mark: o.Closers[c].Mark, Long: o.Closers[c].Shipped(),
				Fact: Named(o.Closers[c].Mark, "shipped")})
		}
		out = append(out, x)
	}
	return out
}

// capMark is that of a formed cap; a drop in hand has none.
func capMark(p *MadePart) string {
	if p == nil {
		return ""
	}
	return p.Mark
}

// CutSheets are how the sheets of a lot are cut.
func (l *Layout) CutSheets(lot *shop.Lot, k plan.Key) []plan.CutSheet {
	blanks := l.CutBlanks(lot, k)
	var out []plan.CutSheet
	for i, r := range lot.Sheets.Sheets {
		size := l.Job.Shop.Sheets[r.Stock]
		bought, used := l.sheetAreas(lot, r)
		x := plan.CutSheet{Key: k.Of(fmt.Sprintf("sheet-%d-", i+1)), Metric: l.Job.Units == job.Metric, N: i + 1,
			Count: r.Count, Width: size.Width, Length: size.Length,
			EdgeTrim: l.Job.Shop.EdgeTrim, EndTrim: l.Job.Shop.EndTrim, Rest: r.Rest, Yield: int(100 * used / bought)}
		for _, s := range r.Strips {
			strip := plan.CutStrip{Width: s.Width}
			for n, c := range s.Cuts {
				b := blanks[c]
				b.Turned = s.TurnedAt(n)
				strip.Cuts = append(strip.Cuts, b)
			}
			x.Strips = append(x.Strips, strip)
		}
		out = append(out, x)
	}
	return out
}

// CutBlanks are the blanks of a lot.
func (l *Layout) CutBlanks(lot *shop.Lot, k plan.Key) []plan.CutBlank {
	var out []plan.CutBlank
	for i, b := range lot.Blanks {
		x := plan.CutBlank{Key: k.Of(fmt.Sprintf("blank-%d-", i+1)), Mark: b.Mark(), Count: b.Count, Girth: b.Girth,
			Length: b.Length, Formed: b.Part != nil && b.Part.Kind == shop.FormedCap}
		if b.Family != nil && len(b.Family.Bodies) > 1 {
			x.Mark += " " + b.Family.Bodies[b.Body].Name
		}
		out = append(out, x)
	}
	return out
}

// Formed is the first piece of a family, finished.
func (l *Layout) Formed(f *Family) plan.Formed {
	p, s := f.Pieces[0], &l.Job.System
	out := plan.Formed{Corner: l.Corner(p), Family: f.Mark, RearFoot: s.RearFoot()}
	switch p.Kind {
	case cap.PitchMiter:
		out.Bend = p.Miters[0].Corner.Bend
	case cap.Tee:
		out.Below = s.Profile.TopSlope.Rise(p.Inside+2*s.Metal.Thickness) + p.Tee.Drop
	}
	if p.Allowance > 0 {
		out.CutAt = plan.LeftHand
		if p.CutAt == cap.RightHand {
			out.CutAt = plan.RightHand
		}
	}
	for i, b := range f.Bodies {
		x := plan.FormedBody{Plate: b.Name == endPlate, Leg: p.Parts[LegOf(f, i)].Length(), Faces: b.Solid.Faces}
		for _, h := range b.Holes {
			var ring []fold.Vec
			for _, v := range h {
				ring = append(ring, b.Flat.Raise(v))
			}
			x.Holes = append(x.Holes, ring)
		}
		out.Bodies = append(out.Bodies, x)
	}
	return out
}
