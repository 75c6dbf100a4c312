package layout

import (
	"slices"

	"copingset/layout/cap"
	"copingset/layout/finding"
)

// moving are the holds whose true reading may move where two copings meet: by
// the width or the line of a run.
func moving() []string {
	return []string{"run-unsurveyed", "survey-slip", "survey-not-tied", "width-not-offered", "rear-at-kink",
		"line-kink", "line-not-clear"}
}

// meeting holds the run on the other side of a tee from one whose width or line
// is in doubt: where a tee stands on its main follows from the branch's cap,
// and where the branch's cap line begins from the main's.
func (l *Layout) meeting(found finding.List) finding.List {
	var more finding.List
	for _, p := range l.Perimeters {
		for _, q := range p.Pieces {
			if q.Kind != cap.Tee {
				continue
			}
			main, branch := l.runOf(q.Tee.Main.OnWall()), l.runOf(q.Tee.Run.OnWall())
			for _, side := range [][2]*Run{{main, branch}, {branch, main}} {
				doubted, other := side[0], side[1]
				i := slices.IndexFunc(found, func(f finding.Finding) bool {
					return f.Severity == finding.Hold && len(f.Where.Pieces) == 0 &&
						slices.Contains(moving(), f.Code) &&
						f.Where.TouchesRun(doubted.Perimeter.Job.Name, doubted.Name)
				})
				if i < 0 {
					continue
				}
				f := finding.New(finding.Hold, "tee-follows", q.Tee.At, "run "+doubted.Name+" first: "+found[i].Mend,
					"run %s: where it meets run %s follows from that run, which is on hold", other.Name, doubted.Name)
				f.Where = onRun(other)
				more.Append(f)
			}
		}
	}
	return more
}
