package job

import (
	"fmt"
	"slices"
	"strconv"

	"copingset/layout/finding"
	"copingset/layout/length"
)

// checkRuns checks that what lies along a run lies on it.
func (d *decoder) checkRuns(j *Job) {
	widest := length.Length(0)
	for i := range j.Perimeters {
		for k := range j.Perimeters[i].Runs {
			for _, q := range j.Perimeters[i].Runs[k].Readings {
				widest = max(widest, q.Width)
			}
		}
	}
	shared := &sharedStations{}
	for i := range j.Perimeters {
		p := &j.Perimeters[i]
		for k := range p.Runs {
			c := &runCheck{d: d, p: p, r: &p.Runs[k], path: fmt.Sprintf("perimeters[%d].runs[%d].", i, k),
				shared: shared}
			c.limit, c.exact = c.r.Length, c.r.StationFace == c.r.Face
			if !c.exact {
				// The other face is longer or shorter by what the corners
				// make of the widths, which later rooms work out. At each end
				// that is less than four widths up to a turn of 150 degrees
				// (tan 75° = 3.7); only what lies beyond is a slip.
				c.limit += 8 * widest
			}
			// Without a width nothing is known of the other face's length.
			c.hasLength = d.has(c.path+"length", c.path+"face") && (c.exact || widest > 0 || d.drawn)
			c.parts()
			c.readings(j)
		}
	}
	shared.report(d)
}

// runCheck checks one run.
type runCheck struct {
	d         *decoder
	p         *Perimeter
	r         *Run
	path      string
	shared    *sharedStations // of all runs
	limit     length.Length   // the greatest station that can lie on the run
	exact     bool            // stations and length are on one face
	hasLength bool
}

func (c *runCheck) where() finding.Ref { return finding.Ref{Perimeter: c.p.Name, Run: c.r.Name} }

// on checks that a station lies on the run.
func (c *runCheck) on(what string, station length.Length, at finding.Place) {
	switch {
	case station < 0:
		c.d.errorf("station-range", at, "stations are measured from the left end of the run",
			"run %s: %s at station %s lies before the run", c.r.Name, what, Both(station))
	case c.hasLength && station > c.limit:
		c.d.conflict("station-range", at, c.d.places[c.path+"length"], "check the station and the length of the run",
			"run %s: %s at station %s lies beyond the run, which is %s long", c.r.Name, what, Both(station),
			Both(c.r.Length))
	}
}

func (c *runCheck) parts() {
	for i, o := range c.r.Obstacles {
		if at := fmt.Sprintf("%sobstacles[%d].at", c.path, i); c.d.has(at) {
			c.on("obstacle "+o.Name, o.Station, c.d.places[at])
		}
	}
	seen := map[length.Length]finding.Place{}
	for i, e := range c.r.Expansion {
		at := fmt.Sprintf("%sexpansion_joints[%d].at", c.path, i)
		if !c.d.has(at) {
			continue
		}
		place := c.d.places[at]
		c.on("the expansion joint", e.Station, place)
		if first, twice := seen[e.Station]; twice {
			c.d.conflict("station-twice", place, first, "keep one of the two",
				"run %s: two expansion joints stand at station %s", c.r.Name, Both(e.Station))
		}
		seen[e.Station] = place
	}
	if at := c.path + "datum.at"; c.d.has(at) {
		c.on("the mark", c.r.Datum.At, c.d.places[at])
	}
}

// readings checks the survey of the run.
func (c *runCheck) readings(j *Job) {
	if c.d.drawn {
		c.r.Readings = nil
		c.suppose(j)
		return
	}
	all := c.r.Readings
	for i, q := range all {
		c.on("the reading", q.Station, q.At)
		if i > 0 {
			c.order(all[i-1], q)
		}
		if q.Width <= 0 {
			c.d.errorf("width-range", q.At, "measure the width again",
				"run %s: the width %s at station %s is no width of a wall", c.r.Name, Both(q.Width), Both(q.Station))
		}
		if q.WidthLow != nil && *q.WidthLow <= 0 {
			c.d.errorf("width-range", q.At, "measure the width again",
				"run %s: the width at leg depth %s at station %s is no width of a wall", c.r.Name, Both(*q.WidthLow),
				Both(q.Station))
		}
	}
	c.inline()
	c.low(j)
	c.clearing()
	if c.r.Name == "" || c.d.unsure {
		return
	}
	switch len(all) {
	case 0:
		c.unsurveyed("run %s has not been surveyed")
		c.suppose(j)
	case 1:
		c.unsurveyed("run %s has a single reading, and a line takes two")
	default:
		c.ends()
	}
}

// unsurveyed holds the perimeter: corners, width and set surface of the other
// runs follow from this one too.
func (c *runCheck) unsurveyed(format string) {
	f := finding.New(finding.Hold, "run-unsurveyed", c.r.At, "survey the run and add its readings", format, c.r.Name)
	f.Where = finding.Ref{Perimeter: c.p.Name}
	c.d.add(f)
}

// suppose lays a run that nobody surveyed out as the drawing has it, if the wall
// states how wide it is drawn: level, straight, of that width. It stays on hold.
func (c *runCheck) suppose(j *Job) {
	name := c.r.Wall
	if name == "" {
		name = c.p.Wall
	}
	at := slices.IndexFunc(j.Walls, func(w Wall) bool { return w.Name == name })
	if at < 0 || j.Walls[at].Width <= 0 || !c.hasLength || c.r.Length <= 0 {
		return
	}
	c.r.Supposed = true
	for _, station := range []length.Length{0, c.r.Length} {
		q := Reading{At: c.r.At, Station: station, Width: j.Walls[at].Width}
		if j.Walls[at].MeasureLow {
			wide, level := q.Width, length.Length(0)
			q.WidthLow, q.OffsetLow = &wide, &level
		}
		c.r.Readings = append(c.r.Readings, q)
	}
}

func (c *runCheck) order(before, q Reading) {
	switch {
	case q.Station == before.Station && q.At.File != before.At.File:
		c.shared.add(c.r.Name, before, q)
	case q.Station == before.Station:
		c.d.stationTwice(c.r.Name, before, q)
	case q.Station < before.Station:
		c.d.conflict("station-order", q.At, before.At, "list the readings from left to right, and check both stations",
			"run %s: the reading at station %s stands after the one at %s", c.r.Name, Both(q.Station),
			Both(before.Station))
	}
}

// low asks for the readings at leg depth where the wall calls for them, once a
// run.
func (c *runCheck) low(j *Job) {
	name := c.r.Wall
	if name == "" {
		name = c.p.Wall
	}
	at := slices.IndexFunc(j.Walls, func(w Wall) bool { return w.Name == name })
	if at < 0 || !j.Walls[at].MeasureLow {
		return
	}
	missing, first := 0, finding.Place{}
	for _, q := range c.r.Readings {
		if q.WidthLow == nil || q.OffsetLow == nil {
			if missing == 0 {
				first = q.At
			}
			missing++
		}
	}
	if missing > 0 {
		c.d.conflict("reading-low", first, j.Walls[at].At,
			"measure `width_low` and `offset_low` at the depth of the legs",
			"run %s: %s without the width or the offset at leg depth, which wall %s asks for", c.r.Name,
			plural(missing, "reading"), name)
	}
}

func plural(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return strconv.Itoa(n) + " " + noun + "s"
}

// ends notes a survey that leaves out the stretch at a corner, where the
// pieces are made to fit: a twentieth of the run, or 3 ft (common practice is
// a reading every 2 to 3 ft).
func (c *runCheck) ends() {
	if !c.hasLength || !c.exact {
		return
	}
	all, most := c.r.Readings, min(c.r.Length/20, 3*length.Foot)
	note := func(side string, gap length.Length, at finding.Place) {
		if gap <= most {
			return
		}
		f := finding.New(finding.Note, "survey-end", at, "measure at the end of the run",
			"run %s: the reading nearest the %s end is %s away from it", c.r.Name, side, Both(gap))
		f.Where = c.where()
		c.d.add(f)
	}
	last := all[len(all)-1]
	note("left", all[0].Station, all[0].At)
	note("right", c.r.Length-last.Station, last.At)
}
