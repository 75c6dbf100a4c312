package wall

import (
	"math"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// Tee is where a run of an open perimeter, the branch, meets the roof side of
// another perimeter's run, the main. The branch's stations begin or end at the
// main wall's roof face.
type Tee struct {
	Job  *job.Tee
	At   finding.Place
	Main *Run // nil only while the perimeters are being read
}

// openEnd is an end of an open perimeter.
func openEnd(e job.End) End {
	out := End{Kind: e.Kind}
	if e.Kind == job.EndTee {
		out.Tee = &Tee{Job: e.Tee, At: e.At}
	}
	return out
}

// meet finds the main of every tee.
func meet(all []*Perimeter) {
	for _, p := range all {
		p.Tees(func(_ *Run, t *Tee, _ bool) {
			for _, q := range all {
				for _, r := range q.Runs {
					if q.Job.Name == t.Job.Perimeter && r.Name == t.Job.Run {
						t.Main = r
					}
				}
			}
		})
	}
}

// teeAlong is how far from square to its main a branch may go off before its
// bearing is taken for a slip: at 60 degrees its wall already covers twice its
// width of the main, beyond that it lies beside the main rather than goes off
// from it, and at 90 it has no place on it.
const teeAlong = 60 * job.Degree

// along reports the branches that lie along their mains. One that goes off a
// little from square, or the wrong way round, has a place and is a hold there.
func along(all []*Perimeter, found *finding.Set) {
	for _, p := range all {
		p.Tees(func(r *Run, t *Tee, starts bool) {
			if t.Main == nil {
				return
			}
			off := math.Asin(math.Min(1, math.Abs(math.Sin(t.offSquare(r, starts)))))
			if off <= radians(teeAlong) {
				return
			}
			lie := "parallel"
			if a := job.Angle(math.Round((90-off*180/math.Pi)*100)) * (job.Degree / 100); a > 0 {
				lie = "within " + job.FormatAngle(a) + " of parallel"
			}
			found.Append(finding.Finding{Code: "tee-along", Severity: finding.Error, At: t.At, Where: ref(r),
				What: "run " + r.Name + " cannot meet run " + t.Main.Name +
					" as a cross wall: by the bearings and turns of their perimeters the two lie " + lie,
				Mend: "name the run that it does meet, or check `bearing:` of perimeters " + r.Perimeter.Job.Name +
					" and " +
					t.Main.Perimeter.Job.Name + " and the turns before these runs"})
		})
	}
}

// offSquare is how far, in radians clockwise, a branch wall going away from its
// main is turned from square to it.
func (t *Tee) offSquare(branch *Run, starts bool) float64 {
	away := branch.bearing()
	if !starts {
		away += math.Pi
	}
	return math.Remainder(away-t.Main.bearing()-math.Pi/2, 2*math.Pi)
}

// Tees goes through the ends of a perimeter that meet another's run; starts
// tells the left end of its first run from the right end of its last.
func (p *Perimeter) Tees(each func(branch *Run, t *Tee, starts bool)) {
	if len(p.Runs) == 0 {
		return
	}
	first, last := p.Runs[0], p.Runs[len(p.Runs)-1]
	if first.Left.Tee != nil {
		each(first, first.Left.Tee, true)
	}
	if last.Right.Tee != nil {
		each(last, last.Right.Tee, false)
	}
}

// Met is a perimeter whose mains have their caps, so that it is known where its
// own cap lines begin: ends tells of each of its tees the main and how far the
// cap line reaches beyond the wall's end. One without tees is returned as it is,
// any other as a copy with runs and corners of its own, which shares nothing but
// what is only read.
func (p *Perimeter) Met(ends func(branch *Run, t *Tee, starts bool) (main *Run, ext length.Length)) *Perimeter {
	met := false
	p.Tees(func(*Run, *Tee, bool) { met = true })
	if !met {
		return p
	}
	out := p.clone()
	out.Tees(func(r *Run, t *Tee, starts bool) {
		main, ext := ends(r, t, starts)
		t.Main = main
		e := &r.Right
		if starts {
			e = &r.Left
			r.Datum += ext - e.Ext
		}
		r.Cap += ext - e.Ext
		e.Ext = ext
	})
	return out
}

// clone copies a perimeter with its runs, corners and ends. Readings, and what
// points at them, stay shared.
func (p *Perimeter) clone() *Perimeter {
	out := *p
	runs, corners := map[*Run]*Run{}, map[*Corner]*Corner{} // look-up only
	out.Runs, out.Corners = nil, nil
	for _, r := range p.Runs {
		own := *r
		own.Perimeter = &out
		runs[r] = &own
		out.Runs = append(out.Runs, &own)
	}
	for _, c := range p.Corners {
		own := *c
		own.Arrive, own.Leave = runs[c.Arrive], runs[c.Leave]
		corners[c] = &own
		out.Corners = append(out.Corners, &own)
	}
	for _, r := range out.Runs {
		for _, e := range []*End{&r.Left, &r.Right} {
			e.Corner = corners[e.Corner]
			if e.Step != nil {
				e.Step = &Step{Beyond: runs[e.Step.Beyond], Rise: e.Step.Rise}
			}
			if e.Tee != nil {
				own := *e.Tee
				e.Tee = &own
			}
		}
	}
	return &out
}

// TeePlace is where a branch stands on its main, in plan.
type TeePlace struct {
	Corner length.Length // front station of the main at which the branch's wall line ends
	Middle length.Length // the same of the middle of the branch wall's top
	// radians by which the branch wall, going away from the main, is turned from square, clockwise
	Walls   float64
	Lines   float64       // the same of the two cap lines
	FrontTo length.Length // +1: the branch's front looks towards growing stations of the main; -1: the other way
}

// Place finds where a branch stands on its main. A branch that begins at the
// main runs away from its roof side, so that its own front looks the way the
// main's stations grow; one that ends there looks the other way.
func (t *Tee) Place(branch *Run, starts bool) TeePlace {
	end, q := branch.Front, TeePlace{FrontTo: -1}
	if starts {
		end, q.FrontTo = 0, 1
	}
	side := q.FrontTo
	r := branch.At(end)
	at := t.Main.FrontStation(t.Job.At)
	front := at // of the branch wall's front face
	switch {
	case t.Job.Of == job.TeeCentre:
		front += side * (r.Width / 2)
	case (t.Job.Of == job.TeeRight) != starts:
		front += side * r.Width
	}
	q.Middle = front - side*(r.Width/2)
	q.Corner = front - side*(branch.ShiftAt(end)-r.Gap)
	q.Walls = t.offSquare(branch, starts)
	q.Lines = math.Remainder(q.Walls-branch.tilt()+t.Main.tilt(), 2*math.Pi)
	return q
}

// bearing of a run's wall line, in radians clockwise from north.
func (r *Run) bearing() float64 { return radians(r.Perimeter.Job.Bearing) + r.Direction*math.Pi/180 }
