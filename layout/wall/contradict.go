package wall

import (
	"fmt"
	"math"
	"slices"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// How well two measurements of one length agree: an eighth of an inch where both
// are taped on one face, which is a sixteenth each; half an inch where one is
// brought over from the other face by the widths and the turns at both ends.
const (
	agreeOneFace  = length.Inch / 8
	agreeTwoFaces = length.Inch / 2
)

// contradictions look for what two measurements of one thing say otherwise.
func contradictions(j *job.Job, all []*Perimeter, found *finding.Set) {
	for _, p := range all {
		for _, r := range p.Runs {
			cornerReading(r, found)
		}
		if p.sound() {
			crossing(p, found)
		}
	}
	wellsInRoofs(all, found)
	for _, p := range all {
		opening(p, j.System.Corner.Absorb, found)
	}
}

// sound says that a perimeter closes as the job accepts it, so that its plan can
// be judged.
func (p *Perimeter) sound() bool {
	return !p.Closed() || abs(p.Closure.Angle) <= p.Job.MisclosureAngle && p.Closure.Length <= p.Job.MisclosureLength
}

// cornerReading holds a run whose survey reads its far corner elsewhere than its
// length has it. A survey that stands at one corner of a run, and within an inch
// of the other, is read at both: what it is out there is the difference of two
// measurements of the same wall.
func cornerReading(r *Run, found *finding.Set) {
	rd := r.Job.Readings
	if len(rd) < 2 || r.Front <= 0 {
		return
	}
	long, agree := r.Front, length.Length(agreeOneFace)
	if r.Job.StationFace == job.Rear {
		long -= r.Trim.Left + r.Trim.Right
	}
	if r.Job.StationFace != r.Job.Face {
		agree = agreeTwoFaces
	}
	first, last := &rd[0], &rd[len(rd)-1]
	left, right := first.Station, long-last.Station
	at, side, off, other := last, "right", right, left
	if length.Abs(left) > length.Abs(right) {
		at, side, off, other = first, "left", left, right
	}
	if length.Abs(other) > agree || length.Abs(off) <= agree || off > atCorner {
		return
	}
	way := "short of"
	if off < 0 {
		way = "past"
	}
	f := finding.New(finding.Hold, "corner-reading", at.At,
		"tape the run again and write its length and the station of its corner alike, or read the survey at both "+
			"corners",
		"run %s: its survey has its %s corner at station %s, %s %s where its length of %s on the %s face puts it",
		r.Name, side, job.Both(at.Station), job.Both(length.Abs(off)), way, job.Both(r.Job.Length), faceOf(r.Job.Face))
	f.Where, f.Also = ref(r), placed(r.Job.LengthAt)
	found.Append(f)
}

// faceOf is a face as sheets call it.
func faceOf(f job.Face) string {
	if f == job.Rear {
		return "roof"
	}
	return "street"
}

// placed lists the places that are known.
func placed(at ...finding.Place) []finding.Place {
	return slices.DeleteFunc(slices.Clone(at), finding.Place.IsZero)
}

// planned is a run in plan, for finding which cross.
type planned struct {
	run      *Run
	from, to Point
}

// crossing reports a perimeter whose wall crosses itself, at the first two runs
// that do. Runs are gone through by where they begin in plan, so that only those
// abreast of each other are compared.
func crossing(p *Perimeter, found *finding.Set) {
	n := len(p.Runs)
	all := make([]planned, n)
	for i, r := range p.Runs {
		all[i] = planned{r, r.Plan, r.PlanEnd}
	}
	slices.SortStableFunc(all, func(a, b planned) int {
		return int(sign(min(a.from.X, a.to.X) - min(b.from.X,
			b.to.X)))
	})
	var open []planned
	var one, two *Run
	for _, s := range all {
		begin := min(s.from.X, s.to.X)
		open = slices.DeleteFunc(open, func(o planned) bool { return max(o.from.X, o.to.X) < begin })
		for _, o := range open {
			a, b := o.run, s.run
			if a.Index > b.Index {
				a, b = b, a
			}
			if b.Index-a.Index <= 1 || p.Closed() && a.Index == 0 && b.Index == n-1 || !cross(o, s) {
				continue
			}
			if one == nil || a.Index < one.Index || a == one && b.Index < two.Index {
				one, two = a, b
			}
		}
		open = append(open, s)
	}
	if one == nil {
		return
	}
	f := finding.New(finding.Error, "walls-cross", two.Job.At,
		"check the lengths and turns of the runs from "+one.Name+" to "+two.Name+"; two roofs are two perimeters",
		"perimeter %s: as measured, the wall of run %s crosses that of run %s", p.Job.Name, two.Name, one.Name)
	f.Where, f.Also = finding.Ref{Perimeter: p.Job.Name}, placed(one.Job.At)
	found.Append(f)
}

func sign(l length.Length) length.Length {
	switch {
	case l < 0:
		return -1
	case l > 0:
		return 1
	}
	return 0
}

// cross says whether two stretches cross, each past the other's line: by an inch
// at least, so that two walls that only meet do not.
func cross(a, b planned) bool {
	return divides(a, b) && divides(b, a)
}

// divides says whether the ends of b lie on both sides of the line of a.
func divides(a, b planned) bool {
	dx, dy := (a.to.X - a.from.X).MM(), (a.to.Y - a.from.Y).MM()
	long := math.Hypot(dx, dy)
	if long == 0 {
		return false
	}
	off := func(p Point) float64 { return ((p.X-a.from.X).MM()*dy - (p.Y-a.from.Y).MM()*dx) / long }
	const clear = 25.4
	from, to := off(b.from), off(b.to)
	return from < -clear && to > clear || from > clear && to < -clear
}

// extent is what can be said of a closed perimeter's size however it lies: its
// area, the farthest two of its corners, and its least width, all in metres.
type extent struct{ area, longest, narrowest float64 }

func (s extent) String() string {
	const feet = 3.28084
	return fmt.Sprintf("%.0f ft2 (%.0f m2), %s from corner to corner at most", s.area*feet*feet, s.area,
		job.Both(length.RoundTo(length.FromMM(s.longest*1000), length.Inch)))
}

// mostCorners is the greatest number of corners whose every two are compared.
const mostCorners = 400

func extentOf(p *Perimeter) (s extent, ok bool) {
	n := len(p.Runs)
	if n < 3 || n > mostCorners || !p.sound() {
		return s, false
	}
	s.narrowest = math.Inf(1)
	for i, r := range p.Runs {
		next := p.Runs[(i+1)%n].Plan
		s.area += (r.Plan.X.MM()*next.Y.MM() - next.X.MM()*r.Plan.Y.MM()) / 2e6
		dx, dy := (next.X - r.Plan.X).MM(), (next.Y - r.Plan.Y).MM()
		long := math.Hypot(dx, dy)
		least, most := math.Inf(1), math.Inf(-1)
		for _, q := range p.Runs {
			x, y := (q.Plan.X - r.Plan.X).MM(), (q.Plan.Y - r.Plan.Y).MM()
			s.longest = math.Max(s.longest, math.Hypot(x, y)/1000)
			if long > 0 {
				off := (x*dy - y*dx) / long / 1000
				least, most = math.Min(least, off), math.Max(most, off)
			}
		}
		if long > 0 {
			s.narrowest = math.Min(s.narrowest, most-least)
		}
	}
	s.area = math.Abs(s.area)
	return s, true
}

// wellsInRoofs reports a well that is larger than every roof of the job: where
// perimeters lie beside each other is not in a job, but a hole has a roof round it,
// and one of greater area, or longer or wider than the roof, has no place in it.
func wellsInRoofs(all []*Perimeter, found *finding.Set) {
	type sized struct {
		p *Perimeter
		s extent
	}
	var roofs []sized
	for _, p := range all {
		if p.Job.Kind == job.Roof {
			s, ok := extentOf(p)
			if !ok {
				return // what is not known may be large enough
			}
			roofs = append(roofs, sized{p, s})
		}
	}
	if len(roofs) == 0 {
		return
	}
	for _, p := range all {
		w, ok := extentOf(p)
		if p.Job.Kind != job.Well || !ok || slices.ContainsFunc(roofs, func(r sized) bool {
			return w.area < r.s.area && w.longest < r.s.longest && w.narrowest < r.s.narrowest
		}) {
			continue
		}
		most := slices.MaxFunc(roofs, func(a, b sized) int {
			return int(math.Round(math.Copysign(1,
				a.s.area-b.s.area)))
		})
		f := finding.New(finding.Error, "well-outside", p.Job.At,
			"check the lengths of both; a wall round a roof of its own is `kind: roof`",
			"perimeter %s is a well of %s, and no roof of the job is large enough to hold it: the largest, %s, is %s",
			p.Job.Name, w, most.p.Job.Name, most.s)
		f.Where, f.Also = finding.Ref{Perimeter: p.Job.Name}, placed(most.p.Job.At)
		found.Append(f)
	}
}

// opening reports a cross wall both of whose ends meet runs of one perimeter, and
// which is not as long as the way between their roof faces, or whose two ends do
// not lie opposite each other as its bearing and turns have them. One that is not
// square to a main, to the angle that a joint absorbs, is held for that.
func opening(p *Perimeter, absorb job.Angle, found *finding.Set) {
	type end struct {
		t      *Tee
		x, y   float64 // of the branch's end on the main's roof face, in the frame of the main's perimeter
		branch *Run
	}
	var ends [2]*end
	p.Tees(func(r *Run, t *Tee, starts bool) {
		if t.Main == nil || len(t.Main.Readings) == 0 || math.Abs(t.offSquare(r, starts)) > radians(absorb) {
			return
		}
		k, at := 0, t.Place(r, starts).Corner
		if !starts {
			k = 1
		}
		q := t.Main.At(at)
		behind, dir := (q.Width - q.Offset).MM(), t.Main.Direction*math.Pi/180
		ends[k] = &end{t: t, branch: r,
			x: t.Main.Plan.X.MM() + at.MM()*math.Cos(dir) - behind*math.Sin(dir),
			y: t.Main.Plan.Y.MM() + at.MM()*math.Sin(dir) + behind*math.Cos(dir)}
	})
	a, b := ends[0], ends[1]
	if a == nil || b == nil || a.t.Main.Perimeter != b.t.Main.Perimeter || !a.t.Main.Perimeter.sound() {
		return
	}
	main := a.t.Main.Perimeter
	last := p.Runs[len(p.Runs)-1]
	// The branch's way from end to end, turned into the frame of the main's perimeter.
	turn := radians(p.Job.Bearing - main.Job.Bearing)
	bx, by := (last.PlanEnd.X - p.Runs[0].Plan.X).MM(), (last.PlanEnd.Y - p.Runs[0].Plan.Y).MM()
	bx, by = bx*math.Cos(turn)-by*math.Sin(turn), bx*math.Sin(turn)+by*math.Cos(turn)
	// Of what it misses the far wall by: along the main, and away from it.
	dir := a.t.Main.Direction * math.Pi / 180
	dx, dy := bx-(b.x-a.x), by-(b.y-a.y)
	aside, away := dx*math.Cos(dir)+dy*math.Sin(dir), -dx*math.Sin(dir)+dy*math.Cos(dir)
	// Bearings are whole degrees off a compass: what the accepted angle lets a wall of
	// its length lie aside is not told.
	limit := (p.Job.MisclosureLength + main.Job.MisclosureLength).MM()
	play := limit + math.Hypot(bx, by)*math.Sin(radians(p.Job.MisclosureAngle+main.Job.MisclosureAngle))
	var what, mend string
	switch between := math.Abs(-(b.x-a.x)*math.Sin(dir) + (b.y-a.y)*math.Cos(dir)); {
	case math.Abs(away) > limit:
		what = fmt.Sprintf("is %s long from end to end, and the opening between the roof faces of runs %s and %s, "+
			"where it stands, is %s",
			reads(math.Abs(-bx*math.Sin(dir)+by*math.Cos(dir))), a.t.Main.Name, b.t.Main.Name, reads(between))
		mend = "tape the cross wall again between the two roof faces, and check the lengths of the runs beside the " +
			"opening"
	case math.Abs(aside) > play:
		what = fmt.Sprintf("meets runs %s and %s at stations that lie %s out of line with each other by the "+
			"bearings of both perimeters",
			a.t.Main.Name, b.t.Main.Name, reads(math.Abs(aside)))
		mend = "tape `at:` of both tees again, each on the run that it names, and check `of:`"
	default:
		return
	}
	f := finding.New(finding.Error, "tee-opening", p.Runs[0].Job.At, mend, "perimeter %s: the cross wall %s",
		p.Job.Name, what)
	if len(p.Runs) == 1 && !p.Runs[0].Job.LengthAt.IsZero() {
		f.At = p.Runs[0].Job.LengthAt
	}
	f.Where, f.Also = finding.Ref{Perimeter: p.Job.Name}, placed(a.t.At, b.t.At)
	found.Append(f)
}

func reads(mm float64) string { return job.Both(length.RoundTo(length.FromMM(mm), length.Inch16)) }
