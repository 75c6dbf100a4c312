// Package layout solves the coping of a job: Build goes from the wall to the
// crates and returns a Layout, from which every drawing, table and list is
// derived. It knows nothing of paper.
//
// The order is: wall (lines, needs, set surface), wind (demand by zone), cap
// (widths, with assembly: what covers each zone at each width), cap (joints and
// pieces), anchor (chairs and fasteners), crate. The types live where they are solved; this
// package names them in one place.
package layout

import (
	"slices"

	"copingset/layout/anchor"
	"copingset/layout/cap"
	"copingset/layout/crate"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall"
	"copingset/layout/wind"
)

// The solved types, named once for those who draw.
type (
	Run      = anchor.Run
	Corner   = wall.Corner
	Piece    = cap.Piece
	Part     = cap.Part
	Joint    = cap.Joint
	Chair    = anchor.Chair
	Support  = anchor.Support
	ShimZone = wall.ShimZone
	Fastener = job.Fastener
	Crate    = crate.Crate
)

// Perimeter is one solved chain of runs.
type Perimeter struct {
	*wall.Perimeter
	Runs     []*Run
	Pieces   []*Piece // in station order
	Supports []*Support
	Turned   []*anchor.Turned // how the pieces that turn are held down
	Packing  wall.Packing     // both ways to pack, compared
	Ways     cap.Ways         // of the sections that are not laid out in the usual way
}

// Layout is the coping, solved.
type Layout struct {
	Job        *job.Job
	Grid       length.Length // 1/16 in or 1 mm
	Demand     wind.Demand
	Perimeters []*Perimeter
	Crates     []*Crate
	Families   []*Family    // pieces made alike, with their flat patterns; none without `shop:`
	Cutting    *Order       // how the released pieces are cut; nil without `shop:`
	Parts      []*MadePart  // small made parts; none without `shop:`
	PartLots   []*PartLot   // how the released parts are cut
	Held       cap.Held     // what keeps pieces from release
	Withheld   []*Piece     // not released: a hold or an unmeasured length touches them
	Packing    wall.Packing // both ways to pack the whole job, compared
	Findings   finding.List // all rooms', sorted
	Finished   []MadeFit    // what is made, with its use
	Standing   []AsBuilt    // what is set, beside what is asked

	weights map[*Piece]Weight // look-up only
}

// Build solves a job. When the findings hold an error the Layout is not to be
// drawn. A job that leaves the way to pack to us is solved with continuous
// packing, which counts both ways, and again if the other is recommended; the
// Layout's Job then names the one taken.
func Build(j *job.Job) (*Layout, finding.List) {
	l, found := solve(j)
	l.Findings = job.ForReaders(l.Findings, j.Units)
	return l, job.ForReaders(found, j.Units)
}

func solve(j *job.Job) (*Layout, finding.List) {
	if j.Packing.Method != job.PackRecommended {
		return build(j)
	}
	taken := *j
	taken.Packing.Method = job.PackContinuous
	l, found := build(&taken)
	if !l.Packing.Known || l.Packing.Recommended == job.PackContinuous {
		return l, found
	}
	other := *j
	other.Packing.Method = l.Packing.Recommended
	return build(&other)
}

func build(j *job.Job) (*Layout, finding.List) {
	l, ok := stood(j)
	if ok {
		l.tryDoubts()
		l.release()
		l.crate()
		l.cutting()
	}
	return l, l.Findings
}

// stood solves a job up to what is made and how it stands; what is released, crated and
// cut follows from its findings. It tells whether it came that far.
func stood(j *job.Job) (*Layout, bool) {
	l := &Layout{Job: j, Grid: length.Crew(j.Units == job.Metric).Step()}
	var set finding.Set
	keep := func(more finding.List) { set.Append(more...) }
	stop := func() (*Layout, bool) {
		l.Findings = set.List().Gathered()
		l.Findings.Sort()
		return l, false
	}
	keep(j.Findings)
	if len(j.Assemblies) == 0 {
		keep(finding.List{finding.New(finding.Error, "no-assemblies", j.System.At,
			"list under `assemblies:` what the fabricator had tested",
			"no tested assembly is named, so nothing can be fastened")})
	}
	walls, f := wall.Build(j, l.Grid)
	keep(f)
	keep(unsurveyed(walls, set.List()))
	if set.List().HasErrors() {
		return stop()
	}
	l.Demand, f = wind.Build(j, fronts(walls))
	keep(f)
	frames, f := cap.Frame(j, l.Demand, walls, l.Grid)
	confirmed, more := wind.Confirm(j, l.Demand, zoned(walls, frames))
	l.Demand = confirmed
	on := l.standOn(walls, frames, f)
	if next := on.overloaded(); len(next) > 0 {
		// The next assembly, once for each run and zone whose chairs are asked for
		// too much.
		frames, f := cap.Frame(j, l.Demand, walls, l.Grid)
		taken := false
		for _, o := range next {
			taken = frames[o.perimeter][o.run].TakeNext(j, l.Demand, o.zone) || taken
		}
		if taken {
			on = l.standOn(walls, frames, f)
		}
	}
	on = l.settle(on)
	keep(on.found)
	keep(more)
	if slices.ContainsFunc(on.found, teeUnmade) {
		return stop() // a run whose tee is not made has a joint with nothing on one side
	}
	l.Perimeters = on.perimeters
	var packings []wall.Packing
	for _, p := range l.Perimeters {
		packings = append(packings, p.Packing)
	}
	l.Packing = wall.TotalPacking(packings)
	keep(l.unsound())
	keep(l.meeting(set.List()))
	keep(l.families())
	keep(l.barsUnused())
	keep(l.made())
	keep(l.holesFit())
	keep(l.overweight())
	keep(l.chairFindings())
	keep(l.seated())
	keep(l.checks())
	keep(l.progress())
	if set.List().HasErrors() {
		return stop()
	}
	stop()
	return l, true
}

// fronts gives the wind section the front faces as the walls have them.
func fronts(walls []*wall.Perimeter) wind.Fronts {
	return func(of *job.Run) length.Length {
		for _, p := range walls {
			for _, r := range p.Runs {
				if r.Job == of {
					return r.Front
				}
			}
		}
		return 0
	}
}

// zoned gives the confirmation of pressures the zones of the runs.
func zoned(walls []*wall.Perimeter, frames [][]*cap.Run) []wind.Zoned {
	var out []wind.Zoned
	for i, runs := range frames {
		for _, r := range runs {
			out = append(out, wind.Zoned{Perimeter: walls[i].Job.Name, Run: r.Name, Front: r.Front, Zones: r.Zones})
		}
	}
	return out
}

// unsurveyed holds every perimeter with a run that has not the two readings a
// line takes, unless reading the job has said so already: the width, the set
// surface and the corners of the other runs follow from that run too.
func unsurveyed(walls []*wall.Perimeter, said finding.List) finding.List {
	const code = "run-unsurveyed"
	var out finding.List
	for _, p := range walls {
		for _, r := range p.Runs {
			if r.Surveyed {
				continue
			}
			known := slices.ContainsFunc(said, func(f finding.Finding) bool {
				return f.Code == code &&
					f.At == r.Job.At && !f.At.IsZero()
			})
			if known {
				continue
			}
			f := finding.New(finding.Hold, code, r.Job.At, "survey the run and add its readings",
				"run %s has not been surveyed", r.Name)
			f.Where = finding.Ref{Perimeter: p.Job.Name}
			out.Append(f)
		}
	}
	return out
}

// release keeps back every piece a hold touches.
func (l *Layout) release() {
	l.Held = cap.Held{}
	holds := finding.NewCodes(l.Holds())
	for _, p := range l.Perimeters {
		for _, q := range p.Pieces {
			on := make([][2]string, len(q.Parts))
			for i, t := range q.Parts {
				on[i] = [2]string{t.Run.Perimeter.Job.Name, t.Run.Name}
			}
			for _, code := range holds.Touching(q.Mark, on...) {
				if !slices.Contains(l.Held[q], code) {
					l.Held[q] = append(l.Held[q], code)
				}
			}
		}
	}
}

func touches(where finding.Ref, q *Piece) bool {
	return slices.ContainsFunc(q.Parts, func(t cap.Part) bool {
		return where.TouchesPiece(t.Run.Perimeter.Job.Name, t.Run.Name, q.Mark)
	})
}

// crate packs what is released.
func (l *Layout) crate() {
	var found finding.List
	l.Crates, l.Withheld, found = crate.Pack(l.Job, l.loads())
	l.Findings.Append(found...)
	l.Findings.Sort()
}

func (l *Layout) loads() []crate.Load {
	var out []crate.Load
	for _, p := range l.Perimeters {
		load := crate.Load{Name: p.Job.Name, Runs: p.Runs, Supports: p.Supports, Girth: l.GirthOf,
			Kept: l.kept(p)}
		for _, q := range p.Pieces {
			load.Pieces = append(load.Pieces, crate.Freight{Piece: q, Grams: l.Weight(q).Shipped,
				Held: !l.Held.Released(q)})
		}
		out = append(out, load)
	}
	return out
}

// Runs lists the runs of all perimeters in order.
func (l *Layout) Runs() []*Run {
	var out []*Run
	for _, p := range l.Perimeters {
		out = append(out, p.Runs...)
	}
	return out
}

// HoldsOn lists the holds that touch a run: its own, its perimeter's and the
// whole job's.
func (l *Layout) HoldsOn(r *Run) finding.List {
	return l.holds(func(w finding.Ref) bool { return w.TouchesRun(r.Perimeter.Job.Name, r.Name) })
}

// HoldsOnPiece lists the holds that touch a piece.
func (l *Layout) HoldsOnPiece(q *Piece) finding.List {
	return l.holds(func(w finding.Ref) bool { return touches(w, q) })
}

// Holds lists all holds of the job.
func (l *Layout) Holds() finding.List { return l.holds(func(finding.Ref) bool { return true }) }

func (l *Layout) holds(keep func(finding.Ref) bool) finding.List {
	var out finding.List
	for _, f := range l.Findings {
		if f.Severity == finding.Hold && keep(f.Where) {
			out = append(out, f)
		}
	}
	return out
}

// Fasteners counts the fasteners of the job by type and length.
func (l *Layout) Fasteners() []crate.FastenerCount { return crate.Fasteners(l.Runs()) }

// ShimCount is how many shims of one thickness stand under one edge of the
// chairs of a run.
type ShimCount struct {
	Thickness   length.Length
	Front, Rear int
}

// Shims counts the shims of a run by thickness, thickest first.
func (l *Layout) Shims(r *Run) []ShimCount {
	var out []ShimCount
	for _, t := range l.Job.Packing.Shims {
		n := ShimCount{Thickness: t}
		for _, c := range r.Chairs {
			n.Front += count(c.ShimFront, t)
			n.Rear += count(c.ShimRear, t)
		}
		if n.Front+n.Rear > 0 {
			out = append(out, n)
		}
	}
	return out
}

func count(of []length.Length, t length.Length) int {
	n := 0
	for _, l := range of {
		if l == t {
			n++
		}
	}
	return n
}
