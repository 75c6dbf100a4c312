package layout

import (
	"copingset/layout/anchor"
	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
	"copingset/layout/shop"
)

// footKey names chairs that are bent alike.
type footKey struct {
	of     *job.Assembly
	inside length.Length
}

// seater sets the chairs of a layout on their walls. Chairs that are bent alike are
// folded once.
type seater struct {
	l    *Layout
	feet map[footKey]*shop.Footprint // nil: the section is not stated, or cannot be bent; look-up only
}

func (l *Layout) seater() *seater { return &seater{l, map[footKey]*shop.Footprint{}} }

func (q *seater) foot(c *Chair) *shop.Footprint {
	k := footKey{c.Assembly, c.Inside}
	f, known := q.feet[k]
	if !known {
		slope := 0.0
		if p := &q.l.Job.System.Profile; p.SlopeBy == job.SlopeByPacking {
			slope = float64(p.TopSlope) / 1e9
		}
		if m, err := shop.ChairSection(q.l.Job, c.Assembly, c.Inside); err == nil {
			made := m.Footprint(slope)
			f = &made
		}
		q.feet[k] = f
	}
	return f
}

// Seating judges how a chair stands on its wall, at its worst place: how much of its base
// bears, how far the base is back from the nearer face, and how far what hangs of it is
// clear of the wall and its membrane, which must be no less than a chair may be set off its line.
func (l *Layout) Seating(c *Chair) []plan.Check { return l.seater().judge(c) }

// anyOverhang is what a job allows that does not say how far a base may stand out.
const anyOverhang = length.Length(1) << 50

func (q *seater) judge(c *Chair) []plan.Check {
	s := &q.l.Job.System
	least, over, setting := length.Length(0), anyOverhang, length.Length(0)
	if k := s.Chair.Bearing; k != nil {
		least, over = k.Least, k.Overhang
	}
	if t := s.Chair.Tolerance; t != nil {
		setting = t.Setting
	}
	out := []plan.Check{plan.NotMeasured(plan.BaseBears, least), plan.NotMeasured(plan.BaseOver, -over),
		plan.NotMeasured(plan.ChairInPlace, setting)}
	foot := q.foot(c)
	if foot == nil {
		return out
	}
	var bears, back, clear length.Length
	hangs := foot.Hangs[0] || foot.Hangs[1]
	for i, p := range c.Places(s) {
		f := p.Run.FaceAt(s, p.At)
		if !f.Surveyed {
			return out
		}
		has := q.at(foot, f, p.Run.InsideAt(p.At)-c.Inside)
		if i == 0 {
			bears, back, clear = has[0], has[1], has[2]
		}
		bears, back, clear = length.Min(bears, has[0]), length.Min(back, has[1]), length.Min(clear, has[2])
	}
	out[0], out[1] = plan.AtLeast(plan.BaseBears, bears, least), plan.AtLeast(plan.BaseOver, back, -over)
	if out[2] = plan.AtLeast(plan.ChairInPlace, clear, setting); !hangs {
		out[2] = plan.That(plan.ChairInPlace, true)
	}
	return out
}

// at is how much of the base bears at one place of the wall, how far it is back from the
// nearer face, and how far what hangs is clear; wider is what a taper adds to the cap there.
func (q *seater) at(foot *shop.Footprint, f cap.Faces, wider length.Length) [3]length.Length {
	front := cap.ChairLine(&q.l.Job.System)
	at := func(x length.Length, i int) length.Length { // behind the cap line; the rear end follows a taper
		if i == 1 {
			x += wider
		}
		return front + x
	}
	bears := length.Min(at(foot.Flat[1], 1), f.Roof) - length.Max(at(foot.Flat[0], 0), f.Street)
	back := length.Min(at(foot.Base[0], 0)-f.Street, f.Roof-at(foot.Base[1], 1))
	membrane := q.l.Job.Membrane.Thickness
	clear := length.Length(1) << 40
	if foot.Hangs[0] {
		clear = f.Foremost - membrane - at(foot.Inner[0], 0)
	}
	if foot.Hangs[1] {
		clear = length.Min(clear, at(foot.Inner[1], 1)-f.Deepest-membrane)
	}
	return [3]length.Length{bears, back, clear}
}

// seated holds the pieces on chairs that do not stand on their wall as they were tested: a
// finding a cause, which names the chairs and tells the worst.
func (l *Layout) seated() finding.List {
	var out finding.List
	q := l.seater()
	for _, r := range l.Runs() {
		for _, c := range r.Chairs {
			for _, k := range q.judge(c) {
				if k.Fails() || k.Code == plan.BaseOver && k.Has < 0 && k.Asked == -anyOverhang {
					out.Append(l.ill(c, k))
				}
			}
		}
	}
	return out
}

// ill is the finding of a chair that stands ill.
func (l *Layout) ill(c *Chair, k plan.Check) finding.Finding {
	f := finding.Finding{Severity: finding.Hold, At: l.Job.System.Chair.At,
		One: finding.One{Noun: "chair", Name: c.Name, Worse: k.Asked - k.Has},
		Where: finding.Ref{Perimeter: c.Run.Perimeter.Job.Name, Run: c.Run.Name, Station: c.Run.ToFront(c.At),
			HasStation: true}}
	for _, p := range met(c, nil) {
		f.Where.Pieces = append(f.Where.Pieces, p.Mark)
	}
	has, out := length.Max(0, k.Has), length.Max(0, -k.Has)
	const edges = "other edges of the chair or a wider wall, or what the test report allows under `chair: bearing:`"
	switch k.Code {
	case plan.BaseBears:
		f.Code, f.Mend = "chair-bearing", edges
		f.One.Words = job.Both(has) + " of its base bears on the wall, at least " + job.Both(k.Asked) + " is asked"
		f.Why = "a chair that bears on less than was tested turns under its cap"
	case plan.BaseOver:
		f.Code, f.Mend = "chair-overhang", edges
		f.One.Words = "its base stands " + thou(out) + " out over a face of the wall, "
		f.Why = "what stands out over the wall bears on nothing"
		if !k.Pass {
			f.One.Words += thou(-k.Asked) + " is allowed"
			break
		}
		f.One.Words += "and the job does not say how far it may"
		f.Severity, f.Mend = finding.Note, "write `bearing:` under `system.chair` as the chair was tested"
	default:
		f.Code = "chair-not-clear"
		f.One.Words = "what hangs of it is " + thou(has) + " clear of the wall and its membrane"
		if k.Has < 0 {
			f.One.Words = "what hangs of it stands " + thou(out) + " in the wall or its membrane"
		}
		if k.Asked > 0 {
			f.One.Words += ", at least " + thou(k.Asked) + " is asked for a chair set off its line"
		}
		f.Why = "a chair that does not go down beside the wall does not bear on it"
		f.Mend = "more clearance or other edges of the chair with the fabricator, or survey the wall again there"
	}
	f.What = "run " + c.Run.Name + ": chair " + c.Name + ": " + f.One.Words
	return f
}

// SeatRow is how the chairs of one assembly on one run stand on the wall: of each check
// the chair that has the least to spare.
type SeatRow struct {
	Run      *Run
	Assembly *job.Assembly
	Chairs   int
	Worst    []SeatCheck // bearing, base, edge of the screws, what hangs
	Passes   bool
}

// SeatCheck is one check and the chair it is of.
type SeatCheck struct {
	Chair *Chair
	plan.Check
}

// Fact names what it has.
func (k SeatCheck) Fact() string { return Named(k.Chair.Name, string(k.Code)) }

// SeatRows lists them in the order of the runs and their chairs.
func (l *Layout) SeatRows() []SeatRow {
	var out []SeatRow
	q := l.seater()
	for _, r := range l.Runs() {
		first := len(out)
		for _, c := range r.Chairs {
			var row *SeatRow
			for i := range out[first:] {
				if out[first+i].Assembly == c.Assembly {
					row = &out[first+i]
				}
			}
			if row == nil {
				out = append(out, SeatRow{Run: r, Assembly: c.Assembly, Passes: true})
				row = &out[len(out)-1]
			}
			row.Chairs++
			for i, k := range seatChecks(q, c) {
				row.Passes = row.Passes && !k.Fails()
				if i == len(row.Worst) {
					row.Worst = append(row.Worst, SeatCheck{c, k})
				} else if w := plan.Worst(row.Worst[i].Check, k); w != row.Worst[i].Check {
					row.Worst[i] = SeatCheck{c, k}
				}
			}
		}
	}
	return out
}

// seatChecks are those of a chair with the nearer of its rows of screws to a face.
func seatChecks(q *seater, c *anchor.Chair) []plan.Check {
	k := q.judge(c)
	return []plan.Check{k[0], k[1], edgeOf(c), k[2]}
}

// edgeOf is the lesser edge distance of a chair's two rows of screws, against its asked one.
func edgeOf(c *anchor.Chair) plan.Check {
	if c.Rows[0].Fastener == nil { // the job does not describe what fastens it
		return plan.NotMeasured(plan.Edge, 0)
	}
	return plan.Worst(c.Rows[0].Edge, c.Rows[1].Edge)
}
