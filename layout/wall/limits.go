package wall

import (
	"slices"
	"strings"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall/minimax"
)

// Where the published limits stand, as the summaries we could read have them.
// A figure is verified in its document, secondary in a summary of it, or
// memory: common practice, for which no document was at hand.
const (
	tms602    = "TMS 602, site tolerances, as summarized by the mason contractors' association"
	aci117    = "ACI 117-90 4.3.3; UFGS 03700 p. 26"
	ufgs3700  = "UFGS 03700 p. 26"
	framing   = "common practice for wood framing"
	verified  = "verified"
	secondary = "secondary"
	memory    = "memory"
)

// span is one of the lengths limits are stated over; zero is the whole run.
type span = length.Length

// shape is what a limit is held to.
type shape int

const (
	level    shape = iota // departure of the top from level, up or down: half the spread
	sloped                // of a top the job grades, from a slope of its own, up or down: half the least gap
	straight              // departure of the face from straight, out or in: half the least gap
	edged                 // gap under a straightedge laid on the top
	even                  // greatest less least width
)

// published is one row of the tables of limits.
type published struct {
	name, source, sure string
	of                 shape
	over               span
	allowed            length.Length
}

// publishedFor lists the limits of a wall by the material of its top and of
// what carries it. A thickness limit of +a, -b about a nominal width the job
// does not state is held against the spread of the widths: more than a + b, and
// no nominal width agrees with the wall.
func publishedFor(w *job.Wall, least length.Length) []published {
	const (
		in = length.Inch
		ft = length.Foot
	)
	top, body := materials(w)
	var out []published
	switch top {
	case job.Masonry:
		out = append(out,
			published{"masonry top, level in 10 ft (3.05 m), either way", tms602, secondary, level, 10 * ft, in / 4},
			published{"masonry top, level along the run, either way", tms602, secondary, level, 0, in / 2})
	case job.Concrete:
		out = append(out, published{"concrete parapet, level along the run, either way", aci117, verified, level, 0,
			in / 2})
	case job.Wood, job.Plywood:
		out = append(out, published{"wood top, under a straightedge of 10 ft (3.05 m)", framing, memory, edged, 10 * ft,
			in / 4})
	}
	switch body {
	case job.Masonry:
		out = append(out,
			published{"masonry face, true to line in 10 ft (3.05 m), either way", tms602, secondary, straight, 10 * ft,
				in / 4},
			published{"masonry face, true to line in 20 ft (6.10 m), either way", tms602, secondary, straight, 20 * ft,
				3 * in / 8},
			published{"masonry face, true to line along the run, either way", tms602, secondary, straight, 0, in / 2})
	case job.Concrete:
		out = append(out, published{"concrete face, place in plan, either way", ufgs3700, verified, straight, 0, in})
		if least <= 12*in {
			out = append(out, published{"concrete wall to 12 in (305 mm), thickness +3/8 in (9.5 mm) -1/4 in (6.4 " +
				"mm), widest less narrowest", ufgs3700, verified, even, 0, 5 * in / 8})
		} else {
			out = append(out, published{"concrete wall over 12 in (305 mm), thickness +1/2 in (12.7 mm) -3/8 in (9.5 " +
				"mm), widest less narrowest", "common practice for concrete", memory, even, 0, 7 * in / 8})
		}
	}
	return out
}

// materials are those of a wall's top layer and of its thickest.
func materials(w *job.Wall) (top, body string) {
	if w == nil || len(w.Layers) == 0 {
		return "", ""
	}
	thick := w.Layers[0]
	for _, l := range w.Layers {
		if l.Thickness > thick.Thickness {
			thick = l
		}
	}
	return w.Layers[0].Material, thick.Material
}

// judge holds the readings of a run against the published limits. A reading
// that is to be measured again says nothing yet.
func judge(r *Run, found *finding.Set) {
	sound := r.Readings
	if slices.ContainsFunc(r.Suspects, func(s Suspect) bool { return s.Cleared == nil }) {
		sound = nil
		for i := range r.Readings {
			if !r.suspected(&r.Readings[i]) {
				sound = append(sound, r.Readings[i])
			}
		}
	}
	if len(sound) < 2 {
		return
	}
	for _, p := range publishedFor(r.Wall, r.WidthLeast) {
		if g := r.Job.Grade; g != nil && g.Most > 0 && p.of == level {
			p.of, p.name = sloped, strings.Replace(p.name, "level", "true to its slope", 1)
		}
		l := Limit{Name: p.name, Source: p.source, Sure: p.sure, Allowed: p.allowed}
		l.Found, l.At, l.To = worst(sound, p)
		l.Within = l.Found <= l.Allowed
		r.Limits = append(r.Limits, l)
		if l.Within {
			continue
		}
		f := finding.New(finding.Note, "wall-limit", r.Job.At,
			"ask the general contractor to put it right, or to accept it in writing",
			"run %s, stations %s to %s: %s: %s found, %s allowed", r.Name, job.Both(l.At), job.Both(l.To), l.Name,
			fine(l.Found), fine(l.Allowed))
		f.Why = l.Source + " (" + l.Sure + ")"
		f.Where = refAt(r, l.At)
		found.Append(f)
	}
}

func (r *Run) suspected(q *Reading) bool {
	for _, s := range r.Suspects {
		if s.Reading == q && s.Cleared == nil {
			return true
		}
	}
	return false
}

// worst is the greatest departure in any window of a limit's span, and between
// which stations.
func worst(all []Reading, p published) (most, from, to length.Length) {
	from, to = all[0].Station, all[len(all)-1].Station
	mid := from + to
	points := make([]minimax.Point, len(all))
	for _, v := range p.of.values() {
		for i := range all {
			points[i] = minimax.Point{X: all[i].Station, Y: v(&all[i])}
		}
		last := 0
		for i := range points {
			end := len(points)
			if p.over > 0 {
				end = i + 1
				for end < len(points) && points[end].X-points[i].X <= p.over {
					end++
				}
			}
			if end == last {
				continue // lies in the window before
			}
			last = end
			a, b := points[i].X, points[end-1].X
			d := departure(points[i:end], p.of, most)
			// Of windows alike the shortest, then the nearest to the middle of the run.
			shorter := b-a < to-from || b-a == to-from && length.Abs(a+b-mid) < length.Abs(from+to-mid)
			if d > most || d == most && shorter {
				most, from, to = d, a, b
			}
		}
	}
	return most, from, to
}

// values are what a limit is held to of a reading.
func (of shape) values() []func(*Reading) length.Length {
	switch of {
	case straight:
		return []func(*Reading) length.Length{func(q *Reading) length.Length { return -q.Gap }}
	case even:
		return []func(*Reading) length.Length{func(q *Reading) length.Length { return q.Width }}
	}
	return []func(*Reading) length.Length{
		func(q *Reading) length.Length { return q.TopOutside },
		func(q *Reading) length.Length { return q.TopInside },
	}
}

// departure is how far a stretch departs from what a limit is held to. A line
// that may lean leaves no more than the level one, so where that leaves less
// than most already, it is not looked for.
func departure(w []minimax.Point, of shape, most length.Length) length.Length {
	lo, hi := w[0].Y, w[0].Y
	for _, p := range w {
		lo, hi = length.Min(lo, p.Y), length.Max(hi, p.Y)
	}
	d, part := hi-lo, length.Length(1)
	if of == level || of == sloped || of == straight {
		part = 2
	}
	if of != level && of != even && d/part >= most {
		d = 0
		l := minimax.Above(w)
		for _, p := range w {
			d = length.Max(d, l.Gap(p))
		}
	}
	return d / part
}

// findUnsound finds the stretches of a run nothing may be fastened to: from the
// reading before to the reading after one that is loose, rotten or wet.
func findUnsound(r *Run) {
	for i := range r.Readings {
		q := &r.Readings[i]
		u := Unsound{From: 0, To: r.Front, Reading: q}
		for _, c := range q.Job.Conditions {
			if c.Unsound() {
				u.Conditions = append(u.Conditions, c)
			}
		}
		if len(u.Conditions) == 0 {
			continue
		}
		if i > 0 {
			u.From = r.Readings[i-1].Station
		}
		if i+1 < len(r.Readings) {
			u.To = r.Readings[i+1].Station
		}
		u.Cleared = r.clearedBy(q.Job, job.MeasureCondition)
		r.Unsound = append(r.Unsound, u)
	}
}

// fine letters a length to what tells a limit just missed from one just kept.
func fine(l length.Length) string {
	return length.Inches(l, 32) + " (" + length.Millimetres(l, 1) + " mm)"
}
