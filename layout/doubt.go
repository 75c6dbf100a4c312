package layout

import (
	"slices"
	"strings"

	"copingset/layout/fact"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// mostTried is how many doubted readings of a job are tried: of more, the survey has
// to be looked at as a whole, and all that they may reach stays held.
const mostTried = 8

// mostStood is how many runs are stood again at most for all that is tried.
const mostStood = 2000

// doubt is a reading in doubt, with what its neighbours lead to.
type doubt struct {
	at       finding.Place
	run      *Run
	reading  *job.Reading
	measures []job.Measure
	expected []length.Length
	limit    []length.Length // what a reading there may stand off its neighbours undoubted
}

// doubted are the readings in doubt that nobody has cleared, each once. A run that is
// doubted as a whole is not among them, nor a station.
func (l *Layout) doubted() []doubt {
	var out []doubt
	for _, r := range l.Runs() {
		for _, s := range r.Suspects {
			if s.Cleared != nil || s.Whole || job.Measure(s.Measure) == job.MeasureStation {
				continue
			}
			q := s.Reading.Job
			i := slices.IndexFunc(out, func(d doubt) bool { return d.reading == q })
			if i < 0 {
				i = len(out)
				out = append(out, doubt{at: q.At, run: r, reading: q})
			}
			out[i].measures = append(out[i].measures, job.Measure(s.Measure))
			out[i].expected = append(out[i].expected, s.Expected)
			out[i].limit = append(out[i].limit, s.Limit)
		}
	}
	return out
}

// tryDoubts looks what of a job follows from each reading in doubt. The job is stood
// again without the reading, with it as its neighbours have it and at both ends of
// what it could mean, the other doubted ones as their neighbours have them; once more
// with all of those as they are read. What comes out alike each time does not follow
// from the reading, and its hold lets go of it. What is found only with it is said to
// follow, and keeps what it holds: with the reading, it would be held.
func (l *Layout) tryDoubts() {
	doubted := l.doubted()
	if n := len(doubted); n == 0 || n > mostTried || 5*n*len(l.Runs()) > mostStood {
		return
	}
	read := l.standing()
	for i, d := range doubted {
		var others []doubt
		others = append(append(others, doubted[:i]...), doubted[i+1:]...)
		alone := l.with(others, 0)
		tried := []*job.Job{with(l.Job, d, 0), with(alone, d, 0), with(alone, d, -1), with(alone, d, 1),
			without(alone, d)}
		if len(others) > 0 {
			tried = append(tried, alone)
		}
		var differ []string
		for k, j := range tried {
			m, ok := stood(j)
			if !ok {
				differ = nil
				break // it does not even stand: nothing is known of what follows
			}
			if k == 0 {
				l.follow(d, m.Findings)
			}
			differ = read.differing(m.standing(), differ)
			if k == len(tried)-1 {
				l.narrow(d, differ)
			}
		}
	}
}

// with is the job with doubted readings as their neighbours have them.
func (l *Layout) with(all []doubt, side length.Length) *job.Job {
	j := l.Job
	for _, d := range all {
		j = with(j, d, side)
	}
	return j
}

// with is a job with a doubted reading as its neighbours have it, side times its limit
// off.
func with(j *job.Job, d doubt, side length.Length) *job.Job {
	return replacing(j, d, func(q job.Reading) []job.Reading {
		for m, measure := range d.measures {
			q = as(q, measure, d.expected[m]+side*d.limit[m])
		}
		return []job.Reading{q}
	})
}

// without is a job in which a doubted reading was never taken. The first and the last
// of a run say where its ends lie: they are as their neighbours have them.
func without(j *job.Job, d doubt) *job.Job {
	all := d.run.Job.Readings
	if d.reading == &all[0] || d.reading == &all[len(all)-1] {
		return with(j, d, 0)
	}
	return replacing(j, d, func(job.Reading) []job.Reading { return nil })
}

// replacing is a job with others in a reading's place.
func replacing(j *job.Job, d doubt, by func(job.Reading) []job.Reading) *job.Job {
	out := *j
	out.Perimeters = slices.Clone(j.Perimeters)
	for i := range out.Perimeters {
		p := &out.Perimeters[i]
		p.Runs = slices.Clone(p.Runs)
		for k := range p.Runs {
			r := &p.Runs[k]
			if p.Name != d.run.Perimeter.Job.Name || r.Name != d.run.Name {
				continue
			}
			at := slices.IndexFunc(r.Readings, func(q job.Reading) bool {
				return q.At == d.reading.At && q.Station == d.reading.Station
			})
			r.Readings = slices.Concat(r.Readings[:at:at], by(r.Readings[at]), r.Readings[at+1:])
		}
	}
	return &out
}

// as is a reading with another value of a measure.
func as(q job.Reading, m job.Measure, v length.Length) job.Reading {
	switch m {
	case job.MeasureWidth:
		q.Width = v
	case job.MeasureTopOutside:
		q.TopOutside = v
	case job.MeasureTopInside:
		q.TopInside = v
	case job.MeasureOffset:
		q.Offset = v
	case job.MeasureWidthLow:
		q.WidthLow = &v
	case job.MeasureOffsetLow:
		q.OffsetLow = &v
	}
	return q
}

// follow says of what is found with a doubted reading, and not with it as its
// neighbours have it, that it follows. Errors, and what is said of readings, follow
// from nothing.
func (l *Layout) follow(d doubt, found finding.List) {
	still := map[[4]string]bool{} // look-up only
	for _, f := range found {
		still[kindOf(f)] = true
	}
	for i := range l.Findings {
		f := &l.Findings[i]
		if f.Severity != finding.Error && f.Code != finding.Slip && f.Follows.IsZero() && !still[kindOf(*f)] {
			f.Follows = d.at
		}
	}
}

// kindOf is what two findings have in common that say the same of one thing, in other
// figures.
func kindOf(f finding.Finding) [4]string {
	return [4]string{f.Code, f.At.String(), f.Where.Perimeter, f.Where.Run}
}

// narrow has the hold on a doubted reading keep what follows from it, told in one
// finding: pieces that come out otherwise, and chairs. Where nothing does, it is a note.
func (l *Layout) narrow(d doubt, differ []string) {
	var pieces, chairs []string
	runs := map[string]bool{}
	p := d.run.Perimeter.Job.Name
	for _, q := range l.Perimeters {
		for _, r := range q.Runs {
			for _, c := range r.Chairs {
				if slices.Contains(differ, c.Name) {
					chairs = append(chairs, c.Name)
					runs[r.Name] = runs[r.Name] || q.Job.Name == p
				}
			}
		}
		for _, piece := range q.Pieces {
			if slices.Contains(differ, piece.Mark) {
				pieces = append(pieces, piece.Mark)
				for _, t := range piece.Parts {
					runs[t.Run.Name] = runs[t.Run.Name] || q.Job.Name == p
				}
			}
		}
	}
	l.Findings = slices.DeleteFunc(l.Findings, func(f finding.Finding) bool {
		// What its hold says of other runs is told with the run's own.
		return f.Code == finding.Slip && f.At == d.at && f.Where.Run != "" && f.Where.Run != d.run.Name
	})
	for i := range l.Findings {
		f := &l.Findings[i]
		if f.Code != finding.Slip || f.At != d.at {
			continue
		}
		f.Where.Run, f.Where.Runs, f.Where.Pieces, f.Where.Chairs = d.run.Name, nil, pieces, chairs
		for _, r := range d.run.Perimeter.Runs {
			if runs[r.Name] && r.Name != d.run.Name {
				f.Where.Runs = append(f.Where.Runs, r.Name)
			}
		}
		if len(pieces)+len(chairs) == 0 {
			f.Severity = finding.Note
		}
		f.Why = strings.TrimPrefix(f.Why+"; "+reaches(pieces, chairs), "; ")
	}
}

// reaches tells what follows from a doubted reading.
func reaches(pieces, chairs []string) string {
	const tried = "with the reading, without it and at both ends of what it could mean"
	var all []string
	if len(pieces) > 0 {
		all = append(all, "pieces "+strings.Join(finding.Ranges(pieces), ", "))
	}
	if len(chairs) > 0 {
		all = append(all, "what stands under chairs "+strings.Join(finding.Ranges(chairs), ", "))
	}
	if len(all) == 0 {
		return "all pieces and chairs come out alike " + tried
	}
	return "from it follow " + strings.Join(all, " and ") + "; all else comes out alike " + tried
}

// stands is how pieces are made and lie, and how chairs stand, by mark.
type stands map[string]string

// seatCodes are what a chair is judged by where it stands.
var seatCodes = []plan.Code{plan.BaseBears, plan.BaseOver, plan.Edge, plan.ChairInPlace}

// standing are the facts of each piece and each chair, as one text.
func (l *Layout) standing() stands {
	b := &facts{l: l}
	for _, p := range l.Perimeters {
		for _, r := range p.Runs {
			b.ofChairs(r)
		}
		for _, q := range p.Pieces {
			b.ofPiece(q)
		}
	}
	out := stands{}
	for _, f := range b.out {
		switch {
		case f.Kind == fact.Piece && f.What == "laying", f.What == "released":
			continue // the order in which pieces are laid is nobody's metal
		case slices.Contains(seatCodes, plan.Code(f.What)):
			continue // where a chair does not stand as it must, that is found
		}
		out[f.Of] += f.What + "=" + f.Value + "\n"
	}
	return out
}

// differing adds to all what does not stand alike, or stands nowhere else.
func (s stands) differing(o stands, all []string) []string {
	for name, is := range s {
		if o[name] != is && !slices.Contains(all, name) {
			all = append(all, name)
		}
	}
	slices.Sort(all)
	return all
}
