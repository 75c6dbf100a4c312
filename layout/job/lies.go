package job

import (
	"fmt"
	"strings"

	"copingset/layout/finding"
	"copingset/layout/length"
)

// Lies is where a perimeter lies from another: the plumbed left corner of its first run,
// on the street face, as somebody taped it from a run of the other.
type Lies struct {
	At             finding.Place
	Perimeter, Run string
	Station        length.Length // along that run's street face, from its plumbed left corner
	Behind         length.Length // from that face towards the roof; negative: towards the street
}

func (l *Lies) keys(k keys) {
	l.At = k.at
	var of runRef
	value(k, "from", &of, withUnit("value-tee", parseRunRef), "the perimeter and the run that it was taped from",
		"ROOF/N")
	l.Perimeter, l.Run = of.perimeter, of.run
	k.signedLength("station", &l.Station,
		"the station on that run's street face, from its plumbed left corner, abreast of the first run's left corner",
		`18'-4"`)
	k.signedLength("behind", &l.Behind,
		"from that face to the first run's left corner, towards the roof; negative if towards the street", `9'-2"`)
}

// runRef names a run of a perimeter.
type runRef struct{ perimeter, run string }

func parseRunRef(s string) (runRef, error) {
	i := strings.LastIndexByte(s, '/')
	if i < 0 {
		return runRef{}, wrong("value-tee", "write the perimeter and the run, like ROOF/N",
			"%s does not name a run of a perimeter", show(s))
	}
	return runRef{strings.TrimSpace(s[:i]), strings.TrimSpace(s[i+1:])}, nil
}

// checkLies looks at where perimeters are said to lie from others.
func (d *decoder) checkLies(j *Job) {
	for i := range j.Perimeters {
		p := &j.Perimeters[i]
		path := fmt.Sprintf("perimeters[%d].at.from", i)
		if p.Lies == nil || !d.has(path) {
			continue
		}
		main := perimeterNamed(j, p.Lies.Perimeter)
		if main == nil {
			d.refers(path, "perimeter "+p.Name, "perimeter", p.Lies.Perimeter,
				known(j.Perimeters, func(q Perimeter) string { return q.Name }))
			continue
		}
		if !d.refers(path, "perimeter "+p.Name, "run of perimeter "+main.Name, p.Lies.Run,
			known(main.Runs, func(r Run) string { return r.Name })) {
			continue
		}
		for q, n := main, 0; q != nil; n++ {
			if q == p || n > len(j.Perimeters) {
				d.errorf("lies-circle", d.places[path], "tape it from a perimeter that is not placed from this one",
					"perimeter %s would be placed from itself", p.Name)
				break
			}
			if q.Lies == nil {
				break
			}
			q = perimeterNamed(j, q.Lies.Perimeter)
		}
	}
}
