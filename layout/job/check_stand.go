package job

import (
	"fmt"

	"copingset/layout/length"
)

// checkStanding compares what was tested, and what fastens and covers pieces that
// turn, with the rest of the job.
func (d *decoder) checkStanding(j *Job) {
	for i := range j.Assemblies {
		a := &j.Assemblies[i]
		at := fmt.Sprintf("assemblies[%d].", i)
		d.atMost(at+"chair_spacing", a.ChairSpacing, "system.stock", j.System.Stock,
			"no cap that was tested has its chairs farther apart than the longest cap is long")
		s := a.TestedOn
		if s == nil || !d.has(at+"tested_on.chairs", at+"tested_on.length", at+"chair_spacing") {
			continue
		}
		switch {
		case s.Chairs < 2:
			d.errorf("specimen-chairs", d.places[at+"tested_on.chairs"], "write how many chairs the specimen stood on",
				"assembly %s: a specimen on one chair has no spacing", a.Name)
		case a.ChairSpacing*length.Length(s.Chairs-1) > s.Length:
			d.conflict("specimen-short", d.places[at+"tested_on.length"], d.places[at+"chair_spacing"],
				"check the three against the report",
				"assembly %s: %d chairs %s apart do not stand under a specimen of %s", a.Name, s.Chairs,
				Both(a.ChairSpacing), Both(s.Length))
		}
	}
	const fixing = "system.corner.support.fixing.fastener"
	if f := j.System.Corner.Support.Fixing; f != nil && d.has(fixing) {
		d.refers(fixing, "the corner support", "fastener", f.Fastener,
			known(j.Fasteners, func(f Fastener) string { return f.Name }))
	}
}
