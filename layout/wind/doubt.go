package wind

import (
	"fmt"
	"strings"

	"copingset/layout/finding"
	"copingset/layout/job"
)

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
		if Less(q.says, q.has) {
			less = append(less, fmt.Sprintf(
				"%s %s against %s computed",
				q.what,
				letter(job.Pressure{Pa: AllowablePa(q.says), Level: job.Allowable}),
				letter(job.Pressure{Pa: AllowablePa(q.has),
					Level: job.Allowable}),
			))
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
	if shorter(d, c) {
		found.Notef(
			"corner-length-below",
			j.Pressures.At,
			"ask the engineer of record if the corner zone may be shorter",
			"the stated corner zone, %s, is shorter than the computed one, %s",
			job.Both(d.CornerLength),
			job.Both(c.CornerLength),
		)
	}
	return found
}

// Less tells whether a stated pressure is under a computed one at the allowable
// level, as they are printed: to half a per cent.
func Less(stated, computed job.Pressure) bool {
	return AllowablePa(stated) < AllowablePa(computed)*0.995
}

// CornerShort tells whether the stated corner zone is shorter than the one computed
// beside it.
func (d Demand) CornerShort() bool { return d.Check != nil && shorter(d, *d.Check) }

func shorter(d, c Demand) bool { return d.CornerLength < c.CornerLength }

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
