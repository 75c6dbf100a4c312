// Package wall turns the survey into lines the coping can follow: the chain of
// runs and corners, the front-face line each cap must clear, the width every
// reading needs, the surface the chairs are set on, and the packing and shim
// zones that bring the wall top up to it.
//
// Frames. On a run, station x grows from the left hand to the right of an
// observer on the roof who looks out over the wall, and is measured along the
// wall's front face from the plumbed left-hand corner; y grows from the street
// towards the roof, z grows up. In plan the same observer's frame is used, x
// to the right and y towards the roof for the first run, so that a right turn
// (towards the roof) is a positive rotation.
//
// Build is the entry point; it returns Perimeters of Runs and Corners. A
// reading the system cannot follow is a hold with its station.
package wall

import (
	"sort"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// Point is a place in plan.
type Point struct{ X, Y length.Length }

// Perimeter is one chain of runs, closed or open.
type Perimeter struct {
	Job             *job.Perimeter
	Runs            []*Run
	Corners         []*Corner // in station order; a closed perimeter's last joins its last run to its first
	Closure         Closure
	Set             length.Length // greatest height of the set surface at the front-face line
	Cross           job.Slope     // fall of the set surface towards the roof
	sloped          bool          // a run states a grade of its own
	widest          length.Length // of all readings of its walls
	Greatest, Least struct {
		Top length.Length // of every reading's outside and inside top
		Run string
		At  length.Length
	}
}

// Closed reports whether the last run joins the first.
func (p *Perimeter) Closed() bool { return p.Job.Kind != job.Open }

// Closure is how far a closed perimeter fails to close as measured. Measured
// lengths and angles are never adjusted; Plan alone is drawn adjusted.
type Closure struct {
	Length length.Length // distance from the last corner to the first
	Angle  job.Angle     // sum of turns less what the kind asks for
}

// Corner joins the arriving run to the leaving run.
type Corner struct {
	Name    string // "N/E"
	Arrive  *Run
	Leave   *Run
	Turn    job.Angle // of the wall, as measured; positive right, towards the roof: an outside corner
	Lines   job.Angle // turn between the two cap lines as strung
	CapTurn job.Angle // what the corner piece is made to: Lines, or Turn within the job's play of it
	Kink    bool      // a small turn; both runs share one front-face line
	Absorb  bool      // a turn or a change of slope that a plain joint absorbs
	Pitch   job.Pitch // the wall goes straight on and its top changes slope: no turn, and no kink in plan
	Bend    job.Angle // change of slope at a break, positive at a peak
	Plan    Point     // wall corner in plan, adjusted for the key plan
	Measure Point     // wall corner in plan as measured
}

// Outside reports whether the wall turns towards the roof.
func (c *Corner) Outside() bool { return c.Turn > 0 }

// Included is the angle between the two runs on the side the corner closes.
func (c *Corner) Included() job.Angle { return 180*job.Degree - abs(c.Turn) }

// CapIncluded is the same of the corner piece.
func (c *Corner) CapIncluded() job.Angle { return 180*job.Degree - abs(c.CapTurn) }

// End is one end of a run.
type End struct {
	Kind   job.EndKind
	Corner *Corner       // when Kind is a turn
	Ext    length.Length // cap line beyond the wall's end; negative short of it
	Step   *Step         // when the wall top steps here; Kind is then a free end above, a wall end below
	Tee    *Tee          // when it meets the roof side of another perimeter's run
}

// Run is a straight stretch of wall, its lines and its survey.
type Run struct {
	Job       *job.Run
	Perimeter *Perimeter
	Wall      *job.Wall
	Name      string
	Index     int           // in its perimeter
	Front     length.Length // wall line: front face between plumbed corners
	Trim      struct{ Left, Right length.Length }
	Left      End
	Right     End
	Readings  []Reading

	Line     Line
	capOut   length.Length // cap line beyond the front-face line
	Cap      length.Length // cap line between its corner points or ends
	Datum    length.Length // cap station of the mark crew stations start at
	Surveyed bool

	Need, NeedAt          length.Length // greatest need and its station
	WidthLeast, WidthMost length.Length
	Suspects              []Suspect     // readings that do not fit those beside them
	Limits                []Limit       // published limits of wall tops beside what was found
	Unsound               []Unsound     // stretches nothing may be fastened to
	PackLeast, PackMost   length.Length // least and greatest packing at any reading, either edge
	SetLeft, SetRight     length.Length // height of the set surface at the front-face line, at the wall's two corners
	packing               *job.Packing
	shares                reached // one width and one set surface with the run

	Start, Plan Point // plan of the wall line's left end, as measured and adjusted
	PlanEnd     Point
	Direction   float64 // degrees of the run's direction in plan, clockwise from x
}

// Reading is a surveyed station brought to the run's own lines.
type Reading struct {
	Job                   *job.Reading
	Station               length.Length // on the front face, from the plumbed left corner
	Offset                length.Length // face beyond the wall line, positive to the street, worst depth
	Gap                   length.Length // front-face line to the face at the top, which is what is drilled and drawn
	Width                 length.Length
	Need                  length.Length // rear face less front-face line, worst depth
	TopOutside, TopInside length.Length
	PackFront, PackRear   length.Length
}

// ShimZone is a stretch of one build-up. Zones cover the wall line of a run
// exactly once. Stations are on the front face.
type ShimZone struct {
	From, To              length.Length
	Layers                int           // full layers of plywood under the whole width
	FrontLeast, FrontMost length.Length // shims over the layers, at the outside edge
	RearLeast, RearMost   length.Length // the same at the inside edge
	Tapers                []Taper       // how the shims over the layers run, from end to end of the zone
	Nails                 int           // nails or screws of its layers
}

// Build solves the walls of a job. grid is the step the sheets letter in;
// each trigonometric result is rounded to it once.
func Build(j *job.Job, grid length.Length) ([]*Perimeter, finding.List) {
	var found finding.Set
	var out []*Perimeter
	for i := range j.Perimeters {
		if p := chain(j, &j.Perimeters[i], &found); p != nil {
			lengths(p, grid, &found)
			lines(j, p, grid, &found)
			tops(j, p, grid, &found)
			traverse(p, grid, &found)
			out = append(out, p)
		}
	}
	meet(out)
	along(out, &found)
	contradictions(j, out, &found)
	overlaps(out, &found)
	levelled(j, &found)
	found.Append(doubt(j, out)...)
	for _, p := range out {
		for _, r := range p.Runs {
			judge(r, &found)
			findUnsound(r)
			idleClearances(r, &found)
		}
	}
	return out, found.List()
}

// ref names a run, and a station when it has one.
func ref(r *Run) finding.Ref { return finding.Ref{Perimeter: r.Perimeter.Job.Name, Run: r.Name} }

func refAt(r *Run, s length.Length) finding.Ref {
	f := ref(r)
	f.Station, f.HasStation = s, true
	return f
}

// At interpolates between readings: packing at the two edges, wall width and
// gap at a station of the front face. Outside the readings the nearest holds.
func (r *Run) At(station length.Length) Reading {
	n := len(r.Readings)
	if n == 0 {
		return Reading{Station: station}
	}
	if station <= r.Readings[0].Station {
		return r.beyond(r.Readings[0], station)
	}
	i := sort.Search(n, func(i int) bool { return r.Readings[i].Station >= station })
	if i == n {
		return r.beyond(r.Readings[n-1], station)
	}
	a, b := &r.Readings[i-1], &r.Readings[i]
	span, d := b.Station-a.Station, station-a.Station
	// From the lower value up, so that a wall and its mirror round alike.
	mix := func(p, q length.Length) length.Length {
		if q < p {
			return q + length.MulDiv(p-q, int64(span-d), int64(span))
		}
		return p + length.MulDiv(q-p, int64(d), int64(span))
	}
	out := Reading{
		Station: station, Offset: mix(a.Offset, b.Offset), Gap: mix(a.Gap, b.Gap),
		Width: mix(a.Width, b.Width), Need: mix(a.Need, b.Need),
		TopOutside: mix(a.TopOutside, b.TopOutside), TopInside: mix(a.TopInside, b.TopInside),
		PackFront: mix(a.PackFront, b.PackFront), PackRear: mix(a.PackRear, b.PackRear),
	}
	// the surface bends between the two, at the corner
	if r.SetLeft != r.SetRight && (a.Station < 0 || b.Station > r.Front) {
		bend := r.SetAt(station) - mix(r.SetAt(a.Station), r.SetAt(b.Station))
		out.PackFront += bend
		out.PackRear += bend
	}
	return out
}

// beyond carries the end reading of a run on to a station past it: the wall is
// taken to go on as it is there, and the set surface keeps its grade.
func (r *Run) beyond(q Reading, station length.Length) Reading {
	rise := r.SetAt(station) - r.SetAt(q.Station)
	q.PackFront += rise
	q.PackRear += rise
	return q
}

// ToCap turns a station of the front face into a station of the cap line.
func (r *Run) ToCap(front length.Length) length.Length { return front + r.Left.Ext }

// ToFront turns a station of the cap line into a station of the front face.
func (r *Run) ToFront(cap length.Length) length.Length { return cap - r.Left.Ext }

// ToCrew turns a station of the cap line into the station the crew tapes.
func (r *Run) ToCrew(cap length.Length) length.Length { return cap - r.Datum }

// CrewAt is a station of the front face as the crew tapes it, which is how what is wrong
// there is told.
func (r *Run) CrewAt(front length.Length) length.Length { return r.ToCrew(r.ToCap(front)) }
