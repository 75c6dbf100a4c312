package layout

import (
	"fmt"
	"strconv"

	"copingset/layout/cap"
	"copingset/layout/crate"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/shop"
)

// The types of made parts.
type (
	MadePart = shop.Part    // a small made part of the coping
	PartLot  = shop.PartLot // what parts are cut from one sheet
)

// made makes the small parts: splice and cover plates, chairs, corner supports,
// extenders and the plates over the risers of steps. What keeps a part back
// keeps no piece.
func (l *Layout) made() finding.List {
	parts, found := shop.BuildParts(l.Job, l.needs())
	l.Parts = parts
	return found
}

// servedBy names what of a perimeter takes a part.
func (l *Layout) servedBy(p *Perimeter) func(string) string {
	return func(q string) string {
		if len(l.Perimeters) > 1 {
			return p.Job.Name + " " + q
		}
		return q
	}
}

// kept tells of what takes a part in a perimeter whether that part is on hold itself.
func (l *Layout) kept(p *Perimeter) func(crate.Sort, string) bool {
	name := l.servedBy(p)
	held := map[crate.Sort]map[string]bool{crate.Chair: {}, crate.Support: {}, crate.Plate: {}} // look-up only
	sorts := map[shop.PartKind]crate.Sort{shop.ChairBlank: crate.Chair, shop.SupportBlank: crate.Support,
		shop.SplicePlate: crate.Plate, shop.CoverPlate: crate.Plate}
	for _, q := range l.Parts {
		sort, ok := sorts[q.Kind]
		if !ok || len(q.Holds) == 0 {
			continue
		}
		for _, s := range q.Serves {
			held[sort][s.Name] = true
		}
	}
	return func(sort crate.Sort, q string) bool { return held[sort][name(q)] }
}

// needs is what the joints, chairs, corners, runs and steps take of parts.
func (l *Layout) needs() shop.Needs {
	n := shop.Needs{Families: len(l.Families)}
	for _, f := range l.Families {
		if mark, err := strconv.Atoi(f.Mark); err == nil {
			n.Last = max(n.Last, mark)
		}
	}
	s := &l.Job.System
	for _, p := range l.Perimeters {
		name := l.servedBy(p)
		for _, r := range p.Runs {
			for _, q := range r.Joints {
				plate := shop.Plate{Served: shop.Served{Name: name(q.Name), Pieces: []*cap.Piece{q.Left, q.Right}},
					Inside: r.InsideAt(q.Centre()), Length: s.Splice.Length, Kinked: q.Kind == cap.Kink, Held: q.Held}
				if q.Kind == cap.Expansion {
					plate.Length = q.Plate
					n.Covers = append(n.Covers, plate)
					continue
				}
				n.Splices = append(n.Splices, plate)
			}
			for _, c := range r.Chairs {
				pieces := []*cap.Piece{c.Piece}
				if c.Joint != nil {
					pieces = append(pieces, c.Joint.Left, c.Joint.Right)
				}
				left, right := c.Edges(s)
				n.Chairs = append(n.Chairs, shop.Chair{Served: shop.Served{Name: name(c.Name), Pieces: pieces},
					Inside: c.Inside, Ends: [2]length.Length{left, right}, Assembly: c.Assembly})
			}
		}
		for _, q := range p.Supports {
			n.Supports = append(n.Supports, shop.Served{Name: name(q.Name), Pieces: []*cap.Piece{q.Piece}})
		}
	}
	for _, e := range l.Extenders() {
		n.Extenders = append(n.Extenders, shop.Extender{
			Served: shop.Served{Name: "run " + l.runName(e.Run), Pieces: piecesOf(e.Run)},
			Height: e.Height, Along: e.Along, Roof: e.Face == job.Rear,
		})
	}
	for _, t := range l.steps() {
		if r, ok := t.riser(&l.Job.System, l.Grid); ok {
			r.Name = fmt.Sprintf("step %s to %s", l.runName(t.run), t.next.Name)
			r.Pieces = append(atEnd(t.run, false), atEnd(t.next, true)...)
			n.Risers = append(n.Risers, r)
		}
	}
	return n
}

func (l *Layout) runName(r *Run) string {
	if len(l.Perimeters) > 1 {
		return r.Perimeter.Job.Name + " " + r.Name
	}
	return r.Name
}

func piecesOf(r *Run) []*cap.Piece {
	var out []*cap.Piece
	for _, q := range r.Parts {
		out = append(out, q.Piece)
	}
	return out
}

// atEnd is the piece at one end of a run.
func atEnd(r *Run, left bool) []*cap.Piece {
	if len(r.Parts) == 0 {
		return nil
	}
	if left {
		return []*cap.Piece{r.Parts[0].Piece}
	}
	return []*cap.Piece{r.Parts[len(r.Parts)-1].Piece}
}

// stepAt is a step in the wall top, with the levels its metal stands at.
type stepAt struct {
	run, next *Run // in station order
	low, high *Run
	higher    cap.Hand      // where the higher wall is
	lowFront  length.Length // fold of the lower coping at the street
	foot      length.Length // of the end cap of the higher one
	plate     length.Length // lower edge of that end cap's plate
	upstand   length.Length // top of the lower coping's upstand at the roof, where it is lowest
	highSet   length.Length
	wall      length.Length // width of the higher wall at the step
}

// steps are the steps of the job whose runs are surveyed.
func (l *Layout) steps() []stepAt {
	s := &l.Job.System
	var out []stepAt
	for _, r := range l.Runs() {
		step := r.Right.Step
		if step == nil {
			continue
		}
		next := l.runOf(step.Beyond)
		if next == nil || len(r.Readings) == 0 || len(next.Readings) == 0 {
			continue
		}
		t := stepAt{run: r, next: next, low: r, high: next, higher: cap.RightHand}
		lowSet, highSet := r.SetRight, next.SetLeft
		lowEnd, highEnd := r.Cap, length.Length(0)
		beside := next.Readings[0]
		if !step.Up() {
			t.low, t.high, t.higher = next, r, cap.LeftHand
			lowSet, highSet = highSet, lowSet
			lowEnd, highEnd = highEnd, lowEnd
			beside = r.Readings[len(r.Readings)-1]
		}
		front, rear := t.low.FoldAt(s, lowEnd)
		highFront, _ := t.high.FoldAt(s, highEnd)
		t.lowFront = lowSet + front
		t.foot = highSet + highFront - s.FrontFoot()
		// A plate goes down to what turns in highest at the feet; without its section, to
		// the higher of the two.
		outside := t.high.OutsideAt(highEnd)
		t.plate = length.Max(t.foot, highSet+highFront-s.Profile.TopSlope.Rise(outside)-s.RearFoot())
		if down, ok := shop.PlateFoot(l.Job, outside); ok {
			t.plate = highSet + highFront - down
		}
		t.upstand = lowSet + rear + s.WallEnd.Upstand
		t.highSet, t.wall = highSet, beside.Width
		if w := beside.Job.WidthLow; w != nil {
			t.wall = length.Max(t.wall, *w)
		}
		out = append(out, t)
	}
	return out
}

// bare reports whether the end cap and the upstand do not lap as the job asks.
func (t stepAt) bare(s *job.System) bool { return t.upstand-t.foot < s.Lap.Front }

// open reports whether the end cap's plate, which ends at the higher of its two
// feet, does not lap the upstand as the job asks: a stated riser is made there.
func (t stepAt) open(s *job.System) bool { return t.upstand-t.plate < s.Lap.Front }

// riser is the plate that covers a bare riser: under the end cap's plate by the
// lap of the job's `step_riser:`, and down over the upstand by the same, which
// falls to the roof with the lower coping's top.
func (t stepAt) riser(s *job.System, grid length.Length) (shop.Riser, bool) {
	k := s.StepRiser
	if k == nil || !t.open(s) {
		return shop.Riser{}, false
	}
	thick := s.Metal.Thickness
	if k.Stuff.Thickness > 0 {
		thick = k.Stuff.Thickness
	}
	wide := length.CeilTo(t.wall+2*thick, grid)
	top := t.plate + k.Lap
	// The upstand is highest at the street, and a little lower already where the
	// riser begins, behind the cap's metal and clearance.
	atStreet := t.lowFront + s.WallEnd.Upstand - s.Profile.TopSlope.Rise(s.FrontClearance+s.Metal.Thickness)
	height := length.CeilTo(top-(atStreet-k.Lap), grid)
	return shop.Riser{Width: wide, Height: height, Falls: s.Profile.TopSlope.Rise(wide), Higher: t.higher}, true
}

// riserFault is what keeps a stated riser from covering the step; empty: it
// does.
func (t stepAt) riserFault(s *job.System) string {
	k := s.StepRiser
	switch {
	case k.Lap > t.highSet-t.plate:
		return "the riser goes " + job.Both(k.Lap) + " under the end cap of run " + t.high.Name +
			", and there is only " + job.Both(t.highSet-t.plate) + " of wall behind it"
	case k.Lap > s.WallEnd.Upstand:
		return "the riser laps the upstand of run " + t.low.Name + " by " + job.Both(k.Lap) + ", and it stands " +
			job.Both(s.WallEnd.Upstand)
	case k.Lap < s.Lap.Front:
		return "the riser laps by " + job.Both(k.Lap) + "; the job asks for a lap of " + job.Both(s.Lap.Front)
	}
	return ""
}
