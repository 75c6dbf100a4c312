package cap

import (
	"math"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/stand"
	"copingset/layout/wall"
)

// KindName is the kind of a piece in words; of a pitch miter with its break.
func (p *Piece) KindName() string {
	if p.Kind == PitchMiter {
		return p.Kind.String() + ", " + p.Miters[0].Corner.Pitch.String()
	}
	return p.Kind.String()
}

// Pitched reports whether a piece has a weld over a break of slope.
func (p *Piece) Pitched() bool {
	for _, m := range p.Miters {
		if m.Corner.Straight() {
			return true
		}
	}
	return false
}

// Edge is a line of a cap along a run and its depth below the front fold.
type Edge struct {
	Name  string
	Depth length.Length
}

// Edges are the lines of a cap of an outside width along the run, from the
// street to the roof: the free edges of drip and hook, the feet of the legs at
// their mold lines, the folds.
func Edges(s *job.System, outside length.Length) []Edge {
	p, front, rear := &s.Profile, s.FrontLeg(job.ToMoldLine), s.RearLeg(job.ToMoldLine)
	down := func(k job.Kick) length.Length {
		return length.FromMM(k.Length.MM() * math.Cos(k.Angle.Degrees()*math.Pi/180))
	}
	low := p.TopSlope.Rise(outside)
	var out []Edge
	if p.Drip.Length > 0 {
		out = append(out, Edge{"drip edge", front + down(p.Drip)})
	}
	out = append(out, Edge{"front foot", front}, Edge{"front fold", 0}, Edge{"rear fold", low}, Edge{"rear foot", low +
		rear})
	if p.RearHook.Length > 0 {
		out = append(out, Edge{"hook edge", low + rear + down(p.RearHook)})
	}
	return out
}

// EdgeLength is the length of one edge of a leg of a pitch miter: that of the
// front fold, less depth x tan(bend/2) at each weld it ends at.
func (p *Piece) EdgeLength(i int, e Edge) length.Length {
	l := p.Parts[i].Length()
	for _, k := range []int{i - 1, i} {
		if k >= 0 && k < len(p.Miters) && p.Miters[k].Corner.Straight() {
			l -= wall.PitchTrim(e.Depth, p.Miters[k].Corner.Bend)
		}
	}
	return l
}

// lowest is the shortest edge of a leg beside a break.
func (b *builder) lowest(p *Piece, i int) length.Length {
	least := p.Parts[i].Length()
	for _, e := range Edges(b.sys, p.Inside+2*b.sys.Metal.Thickness) {
		least = length.Min(least, p.EdgeLength(i, e))
	}
	return least
}

// pitchFoot is how far from the point over a break, along the cap line, the
// wall's own break lies: no chair reaches past it.
func pitchFoot(s *job.System, c *wall.Corner, inside length.Length) length.Length {
	front, _ := Fold(s, inside)
	return length.Max(0, wall.PitchTrim(front, c.Bend))
}

// pitchLegs are the legs of a pitch miter: the job's, or as short as the trim
// of its lowest edge, half a splice plate and the sealant's bearing allow, the
// joint's chair clear of the break; lengthened by the job's step until the
// chairs between have room.
func pitchLegs(s *job.System, c *wall.Corner, inside, spacing, grid length.Length) Legs {
	deep := length.Length(0)
	for _, e := range Edges(s, inside+2*s.Metal.Thickness) {
		deep = length.Max(deep, wall.PitchTrim(e.Depth, c.Bend))
	}
	up := func(l length.Length) length.Length { return length.CeilTo(l, s.Corner.LegStep) }
	short := up(length.Max(deep+s.Splice.Length/2+s.Splice.Bearing,
		pitchFoot(s, c, inside)+s.Chair.Length/2-s.Joint.Gap/2))
	least := length.Max(short, up(s.PitchMiter.Leg))
	short = length.Max(short, length.Min(least, up(s.Corner.ShortLeg)))
	longest := length.Max(least, s.Corner.LongestLeg)
	first := func(from length.Length) (length.Length, bool) {
		for l := from; l <= longest; l += s.Corner.LegStep {
			if legs, ok := One(c, inside).legs(s, [2]length.Length{l, l}, spacing, grid, true); !ok {
				return from, false
			} else if _, why := stand.Row(legs[1], grid); why == stand.Stands {
				return l, true
			}
		}
		return from, false
	}
	out := Legs{Longest: longest}
	out.Short, _ = first(short)
	out.Least, out.Clear = first(least)
	out.Held = out.Clear
	return out
}

// slopesAndTurns holds a run between a break of slope and a corner that is too
// short for both their legs and a least piece between: a piece that turns and
// one that slopes, hard together, are not fitted from a table.
func (b *builder) slopesAndTurns(r *Run, needs length.Length) {
	var turns, breaks *wall.Corner
	for _, c := range []*wall.Corner{r.Left.Corner, r.Right.Corner} {
		switch {
		case c == nil || c.Absorb:
		case c.Straight():
			breaks = c
		default:
			turns = c
		}
	}
	if turns == nil || breaks == nil || r.Cap >= needs {
		return
	}
	f := refOf(r)
	f.Corner = turns.Name
	b.hold("pitch-near-corner", r.Job.At, f,
		"run "+r.Name+": the "+breaks.Word()+" "+breaks.Name+" and the corner "+turns.Name+" are "+job.Both(r.Cap)+
			" apart along the cap, and their legs with a least piece between take "+job.Both(needs),
		"pieces that slope and turn so near one another are detailed by hand",
		"detail this stretch by hand with the fabricator, or move the break with the wall's builder")
}

// pitchMerged holds a piece that slopes and does something else besides.
func (b *builder) pitchMerged(p *Piece) {
	if p.Kind == PitchMiter || !p.Pitched() {
		return
	}
	for _, q := range p.Parts {
		b.found.Append(finding.Finding{Code: "pitch-and-turn", Severity: finding.Hold, At: q.Run.Job.At,
			Where: refOf(q.Run),
			What:  "piece " + special(p) + " would slope over a break and turn, end or break again",
			Why:   "its runs leave no room for a joint between; one profile does not give plumb legs on both sides",
			Mend:  "detail this stretch by hand with the fabricator"})
	}
}

// sloped holds a piece whose end stands on a slope: its end is square to the
// cap, and over the height of its deepest leg it would leave a plumb end of the
// wall by more than a step of the grid.
func (b *builder) sloped(p *Piece) {
	first, last := p.Parts[0].Run, p.Parts[len(p.Parts)-1].Run
	deep := length.Max(b.sys.FrontFoot(), b.sys.RearFoot())
	for _, e := range []struct {
		end job.EndKind
		r   *Run
	}{{p.LeftEnd, first}, {p.RightEnd, last}} {
		off := length.FromMM(math.Abs(deep.MM() * math.Sin(e.r.Incline().Degrees()*math.Pi/180)))
		if e.end == job.EndTurn || off <= b.grid {
			continue
		}
		f := refOf(e.r)
		f.Pieces = []string{p.Mark}
		b.hold("end-on-slope", e.r.Job.At, f,
			"piece "+p.Mark+" ends on a slope of "+job.FormatAngle(angle(e.r.Incline()))+": its end would stand out "+
				"of plumb by "+job.Both(off),
			"an end is made square to its cap",
			"make the stretch at the end a run of its own with `grade: level`, ended by `pitch:` at the break, or "+
				"have the end detailed by hand")
	}
}

func angle(a job.Angle) job.Angle {
	if a < 0 {
		return -a
	}
	return a
}
