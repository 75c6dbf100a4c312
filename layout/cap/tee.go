package cap

import (
	"math"
	"slices"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall"
)

// Branch is a run whose end meets the roof side of a main run, and the tee that
// joins them. The tee is a piece of the main: straight through along its cap
// line, a leg at each side of the branch, with a stub of the branch welded to
// its rear. The branch run's cap line begins at the main's rear mold line; the
// stub is its first or last part.
type Branch struct {
	Main, Run *Run
	At        finding.Place
	Starts    bool          // the branch run's left end meets the main
	From, To  length.Length // of the piece, on the main's cap line
	Edge      [2]length.Length
	Inside    length.Length // of the branch at the tee
	Drop      length.Length // the branch's street-side fold below the main's roof-side fold
	Hand      Hand          // at which the branch's high front edge lies, looking out over the main
	Piece     *Piece        // once the main is laid out
}

// Mark of the tee, known before it is made.
func (t *Branch) Mark() string { return t.Main.Name + "/" + t.Run.Name + "-TEE" }

// MainsFirst is the order in which perimeters are solved: one that meets
// another comes after it, and else they keep their order.
func MainsFirst(perims []*wall.Perimeter) []int {
	var out []int
	var add func(i int)
	add = func(i int) {
		if slices.Contains(out, i) {
			return
		}
		perims[i].Tees(func(_ *wall.Run, t *wall.Tee, _ bool) { add(slices.Index(perims, t.Main.Perimeter)) })
		out = append(out, i)
	}
	for i := range perims {
		add(i)
	}
	return out
}

// stubEnds lets the cap lines of a perimeter's branches begin at their mains: at
// the rear mold line of the main's cap, which has its width by now.
func stubEnds(j *job.Job, p *wall.Perimeter, of map[*wall.Run]*Run, grid length.Length) *wall.Perimeter {
	return p.Met(func(r *wall.Run, t *wall.Tee, starts bool) (*wall.Run, length.Length) {
		s, main := &j.System, of[t.Main]
		at := t.Place(r, starts).Middle
		behind := main.OutsideAt(main.ToCap(at)) - main.FaceAt(s, main.ToCap(at)).Roof
		return main.Run, -length.RoundTo(behind, grid)
	})
}

// tees places the branches on their mains, once all widths are known. What
// cannot stand is an error; what can, but not be made as measured, a hold.
func tees(j *job.Job, perims []*wall.Perimeter, of map[*wall.Run]*Run, grid length.Length, found *finding.List) {
	for _, p := range perims {
		p.Tees(func(r *wall.Run, t *wall.Tee, starts bool) {
			b := branch(&j.System, of[t.Main], of[r], t, starts, grid)
			b.check(j, t.Place(r, starts), grid, found)
			b.Main.Tees, b.Run.Stubs = append(b.Main.Tees, b), append(b.Run.Stubs, b)
		})
	}
	for _, p := range perims {
		for _, w := range p.Runs {
			r := of[w]
			slices.SortStableFunc(r.Tees, func(a, b *Branch) int { return int(min(1, max(-1, a.From-b.From))) })
			room(j, r, found)
		}
	}
}

// branch places one. The stub's front stands where the branch's own cap line
// lies at the stub's joint, rounded to the grid from the side that takes no
// remainders, so that a mirrored wall has the mirrored tee.
func branch(s *job.System, main, r *Run, t *wall.Tee, starts bool, grid length.Length) *Branch {
	b := &Branch{Main: main, Run: r, At: t.At, Starts: starts, Hand: LeftHand, Inside: r.InsideAt(r.Cap)}
	out := s.Tee.Branch + s.Joint.Gap/2 // from the main's rear mold line
	at := r.ToFront(r.Cap - out)
	if starts {
		b.Hand, b.Inside = RightHand, r.InsideAt(0)
		at = r.ToFront(out)
	}
	q := t.Place(r.Run, starts)
	front := main.ToCap(q.Corner) + q.FrontTo*r.CapOutAt(at) - length.FromMM(math.Tan(q.Walls)*out.MM())
	if s.Remainder == job.Left {
		front = main.Cap - length.RoundTo(main.Cap-front, grid)
	} else {
		front = length.RoundTo(front, grid)
	}
	rear := front - q.FrontTo*(b.Inside+2*s.Metal.Thickness)
	b.Edge = [2]length.Length{length.Min(front, rear), length.Max(front, rear)}
	b.From, b.To = b.Edge[0]-s.Tee.Leg, b.Edge[1]+s.Tee.Leg
	b.Drop = length.RoundTo(b.mainFold(s)-b.branchFold(s), grid)
	return b
}

// mainFold is the height of the main's roof-side fold at the branch, branchFold that
// of the branch's street-side fold, both above the job's level datum.
func (t *Branch) mainFold(s *job.System) length.Length {
	r := t.Main
	_, low := Fold(s, r.InsideAt(t.Edge[0]))
	h := r.SetAt(r.ToFront(t.Edge[0]+(t.Edge[1]-t.Edge[0])/2)) + low
	if s.Profile.SlopeBy == job.SlopeByPacking {
		h -= s.Profile.TopSlope.Rise(r.InsideAt(t.Edge[0]) - s.FrontClearance)
	}
	return h
}

func (t *Branch) branchFold(s *job.System) length.Length {
	front, _ := Fold(s, t.Inside)
	if t.Starts {
		return t.Run.SetLeft + front
	}
	return t.Run.SetRight + front
}

// check holds a tee that the two copings do not meet at, on both their runs.
func (t *Branch) check(j *job.Job, at wall.TeePlace, grid length.Length, found *finding.List) {
	s := &j.System
	hold := func(code, what, why, mend string) {
		for _, r := range []*Run{t.Main, t.Run} {
			f := refOf(r)
			f.Pieces = []string{t.Mark()}
			found.Append(finding.Finding{Code: code, Severity: finding.Hold, At: t.At, Where: f,
				What: "the tee of run " + t.Run.Name + " on run " + t.Main.Name + ": " + what, Why: why, Mend: mend})
		}
	}
	absorb := s.Corner.Absorb.Degrees() * math.Pi / 180
	if off := math.Max(math.Abs(at.Walls), math.Abs(at.Lines)); off > absorb {
		a := job.Angle(math.Round(off*180/math.Pi*100)) * (job.Degree / 100)
		hold("tee-not-square", "the branch goes off at "+job.FormatAngle(a)+" from square to the roof side, by the "+
			"bearings and turns of the two perimeters and the lines of the two runs; the joint behind the stub takes "+
			"up "+
			job.FormatAngle(s.Corner.Absorb), "the stub is welded square to the main cap",
			"check both bearings and which end of the branch meets the main; a branch that is not square is detailed "+
				"by hand with the fabricator")
	}
	t.heights(s, grid, hold)
	for _, r := range []*Run{t.Main, t.Run} {
		for i := range r.Job.Obstacles {
			o := &r.Job.Obstacles[i]
			c := r.ToCap(r.FrontStation(o.Station))
			a, z := c-o.Extent/2, c+o.Extent/2
			from, to := t.From, t.To
			if r == t.Run {
				from, to = 0, s.Tee.Branch
				if !t.Starts {
					from, to = r.Cap-to, r.Cap
				}
			}
			if o.Does&job.Pierces != 0 && a < to && z > from {
				hold("tee-pierced", o.Name+" comes through it", "a hole beside its weld is detailed with the tee",
					"move what comes through, or detail the tee by hand with the fabricator")
			}
		}
	}
}

// heights holds a branch whose front fold does not lie under the main's rear
// fold by the job's drop, or whose low edge the main's roof-side leg does not reach.
func (t *Branch) heights(s *job.System, grid length.Length, hold func(code, what, why, mend string)) {
	low := t.Drop + s.Profile.TopSlope.Rise(t.Inside+2*s.Metal.Thickness)
	main, own := t.Main.Perimeter.Job, t.Run.Perimeter.Job
	lies := "lies " + job.Both(t.Drop) + " below"
	if t.Drop < 0 {
		lies = "stands " + job.Both(-t.Drop) + " above"
	}
	what := "the branch's street-side fold " + lies + " the main's roof-side fold; the job asks for a drop of " +
		job.Both(s.Tee.DropLeast) + " to " + job.Both(s.Tee.DropMost)
	why := "the branch's top runs under the main's roof-side fold, and what is left of the roof-side leg over it " +
		"must be bent"
	switch {
	case t.Drop < s.Tee.DropLeast:
		hold("tee-height", what, why, "write `raise: "+length.Inches(main.Raise+length.CeilTo(s.Tee.DropLeast-t.Drop,
			grid), 16)+"` under perimeter "+main.Name+", or have the branch wall cut down")
	case t.Drop > s.Tee.DropMost:
		hold("tee-height", what, why, "write `raise: "+length.Inches(own.Raise+length.CeilTo(t.Drop-s.Tee.DropMost,
			grid), 16)+"` under perimeter "+own.Name+", or have the main wall cut down")
	case low >= s.RearFoot():
		hold("tee-low", "the branch's low edge lies "+job.Both(low)+" below the main's "+
			"roof-side fold, and the roof-side leg "+
			"is "+job.Both(s.RearFoot()), "the branch's top would come out under the main's roof-side leg",
			"raise perimeter "+own.Name+", or ask the fabricator for a longer roof-side leg")
	}
}

// room reports tees that do not stand on their run with their joints, each
// clear of the next and of the building expansion joints.
func room(j *job.Job, r *Run, found *finding.List) {
	g := j.System.Joint.Gap
	quiet := &builder{job: j, sys: &j.System, grid: g}
	joints := []*Joint{}
	if len(r.Tees) > 0 {
		joints = quiet.expansion(r)
	}
	last := length.Length(0)
	for _, t := range r.Tees {
		bad := ""
		switch {
		case last > 0 && t.From-g < last:
			bad = "it would stand on the tee before it"
		case t.From-g <= 0 || t.To+g >= r.Cap:
			bad = "it would reach past the end of the cap line, which is " + job.Both(r.Cap) + " long"
		}
		for _, e := range joints {
			if t.From-g < e.To && t.To+g > e.From {
				bad = "it would stand on a building expansion joint"
			}
		}
		if bad != "" {
			found.Append(finding.Finding{Code: "tee-place", Severity: finding.Error, At: t.At, Where: refOf(r),
				What: "the tee of run " + t.Run.Name + " on run " + r.Name + ", from " + job.Both(t.From) + " to " +
					job.Both(t.To) + " of the cap line: " + bad,
				Mend: "check the station of the tee, or ask the fabricator for a shorter `tee: leg:`"})
		}
		last = t.To + g
	}
}

// teeAt is the branch that a run is at one of its ends; nil where that end
// meets no main.
func teeAt(r *Run, left bool) *Branch {
	e := r.Right
	if left {
		e = r.Left
	}
	if e.Tee == nil {
		return nil
	}
	for _, t := range r.Stubs {
		if t.Starts == left {
			return t
		}
	}
	return nil
}

// stubs gives the stubs of a branch perimeter to the tees of its mains, which
// were laid out before it, and leaves them out of its own pieces. A tee made
// here gets its stub when the branch is laid out.
func (b *builder) stubs(pieces []*Piece) []*Piece {
	for _, r := range b.runs {
		for _, left := range []bool{true, false} {
			t := teeAt(r, left)
			if t == nil || t.Piece == nil {
				continue
			}
			pieces = slices.DeleteFunc(pieces, func(p *Piece) bool {
				q := p.Parts[0]
				if q.Run != r || len(p.Parts) > 1 || left && q.From != 0 || !left && q.To != r.Cap {
					return false
				}
				q.Piece = t.Piece
				t.Piece.Parts = append(t.Piece.Parts, q)
				r.Parts = append(r.Parts, q)
				for _, j := range r.Joints {
					if j.Left == p {
						j.Left = t.Piece
					}
					if j.Right == p {
						j.Right = t.Piece
					}
				}
				return true
			})
			b.shape(t.Piece)
		}
	}
	return pieces
}
