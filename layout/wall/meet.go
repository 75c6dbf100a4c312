package wall

import (
	"math"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// tiltStep is what the tilt of a line is rounded to, a hundredth of a degree:
// over the longest leg a shop welds it moves the leg's end by less than the
// grid of the sheets. Rounded once a run, so that the turns between the lines
// of a closed perimeter sum as its walls' do.
const tiltStep = job.Degree / 100

// Strung is a straight line near a wall's corner.
type Strung struct {
	Out  length.Length // beyond the wall's corner, square to the wall
	Tilt float64       // radians by which it leaves the wall on the way to the corner
}

// Extension is how far the lines of two runs meet beyond the wall's corner,
// measured along the own line from abreast of the corner. With the corner at
// the origin and the wall along x, the own line passes (0, -out) at the angle
// -tilt, and the other's passes its own corner point; they meet at
//
//	(nout cos ntilt - out cos(turn + ntilt)) / sin(turn + tilt + ntilt),
//
// by plane geometry. Without tilt it is the trim of a wall's face. At a kink,
// where the lines run along their walls, the mean of the two distances is
// used, as FaceTrim does.
func Extension(own, other Strung, turn job.Angle) length.Length {
	if abs(turn) < kinkBelow {
		return FaceTrim(own.Out, other.Out, turn)
	}
	t := radians(turn)
	return length.FromMM((other.Out.MM()*math.Cos(other.Tilt) - own.Out.MM()*math.Cos(t+other.Tilt)) /
		math.Sin(t+own.Tilt+other.Tilt))
}

// tilt is the angle by which a run's line leaves its wall, growing stations,
// positive towards the street.
func (r *Run) tilt() float64 {
	if r.Front <= 0 {
		return 0
	}
	return math.Atan2((r.Line.Right - r.Line.Left).MM(), r.Front.MM())
}

// strung is the cap line of a run near one of its corners. The clearance and
// the metal are square to the line.
func (r *Run) strung(left bool) Strung {
	t := r.tilt()
	out := length.FromMM(r.capOut.MM() / math.Cos(t))
	if left {
		return Strung{r.Line.Left + out, -t}
	}
	return Strung{r.Line.Right + out, t}
}

// lengthening is how much longer a tilted line is than the wall line it stands
// before. Stations across are taken along the wall, and each end of the cap
// line takes half of it.
func (r *Run) lengthening() length.Length {
	return length.FromMM(r.Front.MM() * (1/math.Cos(r.tilt()) - 1))
}

func (r *Run) tiltAngle() job.Angle {
	return job.Angle(math.Round(r.tilt()*180/math.Pi*float64(job.Degree/tiltStep))) * tiltStep
}

// turns finds the turn between neighbouring cap lines and the angle each corner
// piece is made to.
func turns(j *job.Job, p *Perimeter, found *finding.Set) {
	for _, c := range p.Corners {
		c.Lines = c.Turn + c.Arrive.tiltAngle() - c.Leave.tiltAngle()
		c.CapTurn = c.Lines
		if c.Pitch != job.NoPitch {
			c.Lines, c.CapTurn = 0, 0 // one line, or a hold of shareAtKinks
			continue
		}
		if abs(c.Lines-c.Turn) <= j.System.Corner.AnglePlay || c.Absorb {
			c.CapTurn = c.Turn
		}
		if c.Lines == 0 || c.Turn > 0 != (c.Lines > 0) || abs(c.Lines) >= 180*job.Degree {
			found.Append(finding.Finding{Code: "lines-do-not-meet", Severity: finding.Error, At: c.Arrive.Job.At,
				Where: ref(c.Arrive),
				What:  "corner " + c.Name + ": the lines of its two runs do not meet",
				Mend:  "check the offsets and the lengths of both runs, and the turn between them"})
			c.Arrive.Line.Left, c.Arrive.Line.Right = 0, 0
			c.Leave.Line.Left, c.Leave.Line.Right = 0, 0
			c.Lines, c.CapTurn = c.Turn, c.Turn
		}
	}
}

// extend is how far the cap line reaches beyond the wall's end.
func extend(s *job.System, r *Run, e End, left bool, grid length.Length) length.Length {
	// A tilted cap's end is square to the cap and swings towards what stands there.
	swing := length.FromMM(r.WidthMost.MM() * math.Abs(math.Tan(r.tilt())))
	switch e.Kind {
	case job.EndTee:
		return 0 // Met sets it once the width of the main's cap is known
	case job.EndFree:
		return length.CeilTo(s.EndCap.Clearance+s.Metal.Thickness+swing, grid)
	case job.EndWall:
		return -length.CeilTo(s.WallEnd.Clearance+swing, grid)
	}
	other := e.Corner.Leave.strung(true)
	if left {
		other = e.Corner.Arrive.strung(false)
	}
	return length.RoundTo(Extension(r.strung(left), other, e.Corner.Turn)+r.lengthening()/2, grid)
}
