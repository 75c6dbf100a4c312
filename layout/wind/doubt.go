package wind

import (
	"fmt"
	"math"
	"strings"

	"copingset/layout/finding"
	"copingset/layout/job"
)

// doubts are the findings that go with computed pressures.
func doubts(j *job.Job, d Demand) finding.List {
	var found finding.List
	f := finding.New(finding.Hold, "pressures-computed", j.Wind.At,
		"have them confirmed and write `confirmed:` with by, on, document and corner_up under `wind:`, or write the "+
			"engineer's `pressures:`",
		"the design pressures are computed from %s and are to be confirmed by a licensed engineer", d.Edition)
	f.Why = "the standards' figures were read in second sources, and some are from memory; the basis of design marks them"
	switch c := j.Wind.Confirmed; {
	case d.Confirmed != nil:
		f.Severity, f.Mend = finding.Note, "keep the confirmation with the submittal"
		f.What = fmt.Sprintf("the design pressures are computed from %s and are confirmed by %s, %s", d.Edition, c.By,
			c.Document)
	case c != nil:
		f.Code, f.At = "confirmation-differs", c.At
		f.What = fmt.Sprintf("%s confirmed %s up in the corner zone (%s), and the wind section now gives %s",
			c.By, letter(c.CornerUp), c.Document, letter(at(d.Up[Corner], c.CornerUp.Level)))
		f.Why = "the wind section or the survey has changed since, or the figure was copied wrongly"
		f.Mend = "have the pressures confirmed anew and write what the confirmation says as `corner_up`, or take the " +
			"change back"
	}
	found.Append(f)
	return found
}

// confirms reports whether a confirmation is of these pressures: its figure is
// the corner zone's upward one, rounded as it is lettered, to a tenth of a psf
// or a hundredth of a kPa.
func (d Demand) confirms(c *job.Confirmed) bool {
	const half = 10.0 / 2 // Pa
	return math.Abs(at(d.Up[Corner], c.CornerUp.Level).Pa-c.CornerUp.Pa) <= half+1e-6
}

// at brings a demand to a level; from the allowable to the strength level none
// is brought.
func at(p job.Pressure, level job.Level) job.Pressure {
	if level == job.Allowable {
		return job.Pressure{Pa: AllowablePa(p), Level: job.Allowable}
	}
	return p
}

// below notes stated pressures that are less than those computed beside them.
func below(j *job.Job, d, c Demand) finding.List {
	var less []string
	for _, q := range []struct {
		what      string
		says, has job.Pressure
	}{
		{"edge up", d.Up[Edge], c.Up[Edge]}, {"edge out", d.Out[Edge], c.Out[Edge]},
		{"corner up", d.Up[Corner], c.Up[Corner]}, {"corner out", d.Out[Corner], c.Out[Corner]},
		{"edge rear leg", d.Rear[Edge], c.Rear[Edge]}, {"corner rear leg", d.Rear[Corner], c.Rear[Corner]},
	} {
		if q.says.Pa == 0 {
			continue // the rear leg, which need not be stated
		}
		if AllowablePa(q.says) < AllowablePa(q.has)*0.995 { // as printed, to half a per cent
			less = append(less, fmt.Sprintf("%s %s against %s computed", q.what,
				letter(job.Pressure{Pa: AllowablePa(q.says), Level: job.Allowable}), letter(job.Pressure{Pa: AllowablePa(q.has),
					Level: job.Allowable})))
		}
	}
	var found finding.List
	if len(less) > 0 {
		f := finding.New(finding.Note, "pressures-below", j.Pressures.At,
			"ask the engineer of record if level and edition are right",
			"stated pressures are less than those computed from the wind section: %s", strings.Join(less, "; "))
		f.Why = "the stated ones stand; a slip between strength and allowable is a factor of 0.6"
		found.Append(f)
	}
	if d.CornerLength < c.CornerLength {
		found.Notef("corner-length-below", j.Pressures.At, "ask the engineer of record if the corner zone may be shorter",
			"the stated corner zone, %s, is shorter than the computed one, %s", job.Both(d.CornerLength),
			job.Both(c.CornerLength))
	}
	return found
}

// asNotes takes the force out of findings on a computation that only checks.
func asNotes(l finding.List) finding.List {
	var out finding.List
	for _, f := range l {
		if f.Severity == finding.Hold {
			f.Severity = finding.Note
			f.Why = "the stated pressures stand; they are not compared with computed ones"
		}
		out.Append(f)
	}
	return out
}

// letter gives a pressure in both systems, for findings.
func letter(p job.Pressure) string {
	return fmt.Sprintf("%.1f psf (%.2f kPa) %s", p.Pa/pascalsPerPSF, p.Pa/1000, levelWord(p.Level))
}
