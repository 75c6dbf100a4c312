package job

import (
	"slices"
	"strings"
)

// stationTwice reports a station with two readings.
func (d *decoder) stationTwice(run string, before, q Reading) {
	d.conflict("station-twice", q.At, before.At, "keep one of the two",
		"run %s: two readings stand at station %s", run, Both(q.Station))
}

// sharedStations are the stations that two survey files have of one run. Many of
// them are one slip: a survey that was copied, or a run that was measured again.
type sharedStations struct{ pairs []filePair }

// filePair is two files and what both have.
type filePair struct {
	files [2]string
	runs  []string // in the order of the job
	all   []sharedStation
}

type sharedStation struct {
	run       string
	before, q Reading
}

// add notes a station that stands in two files.
func (s *sharedStations) add(run string, before, q Reading) {
	files := [2]string{before.At.File, q.At.File}
	i := slices.IndexFunc(s.pairs, func(p filePair) bool {
		return p.files == files || p.files == [2]string{files[1], files[0]}
	})
	if i < 0 {
		i = len(s.pairs)
		s.pairs = append(s.pairs, filePair{files: files})
	}
	p := &s.pairs[i]
	p.all = append(p.all, sharedStation{run, before, q})
	if !slices.Contains(p.runs, run) {
		p.runs = append(p.runs, run)
	}
}

// report says once of each pair of files what they share; a single station is
// named.
func (s *sharedStations) report(d *decoder) {
	for _, p := range s.pairs {
		first := p.all[0]
		if len(p.all) == 1 {
			d.stationTwice(first.run, first.before, first.q)
			continue
		}
		runs := "run " + p.runs[0]
		if len(p.runs) > 1 {
			runs = "runs " + strings.Join(p.runs, ", ")
		}
		d.conflict("survey-twice", first.q.At, first.before.At,
			"if one is a copy of the other, name one of the two; if stations were measured again, take their first "+
				"readings out",
			"the surveys %s and %s both have readings at %d stations of %s", show(p.files[0]), show(p.files[1]),
			len(p.all), runs)
	}
}
