package wall

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// misses reports a perimeter whose turns do not make its kind, or whose runs as
// measured do not come back to their start, and what would mend it. Where the
// turns do not sum, the runs cannot close either, and the turns alone are told.
// (x, y) is where the last run ends, in millimetres from the start.
func (p *Perimeter) misses(x, y float64, grid length.Length, found *finding.Set) {
	if !p.Closed() {
		return
	}
	if abs(p.Closure.Angle) > p.Job.MisclosureAngle {
		p.turnsMiss(grid, found)
		return
	}
	if p.Closure.Length <= p.Job.MisclosureLength {
		return
	}
	mend, also := p.closes(x, y, grid)
	found.Append(finding.Finding{
		Code: "does-not-close", Severity: finding.Error, At: p.Job.At, Also: also,
		Where: finding.Ref{Perimeter: p.Job.Name},
		What: fmt.Sprintf("perimeter %s: the runs as measured miss their start by %s, limit %s: the end lies %s of "+
			"the start%s",
			p.Job.Name, job.Both(length.RoundTo(p.Closure.Length, length.Inch16)), job.Both(p.Job.MisclosureLength),
			p.compass(x, y), p.parallelTo(x, y)),
		Mend: mend,
	})
}

func (p *Perimeter) turnsMiss(grid length.Length, found *finding.Set) {
	jp := p.Job
	want := 360 * job.Degree
	if jp.Kind == job.Well {
		want = -want
	}
	sum := p.Closure.Angle + want
	mend := "check each turn; if the roof lies inside this loop it is `kind: roof` (+360°), " +
		"if the loop is a hole in the roof it is `kind: well` (-360°)"
	var also []finding.Place
	if abs(sum+want) <= jp.MisclosureAngle {
		mend = "the turns are right for the other kind: write `kind: " + otherKind(jp.Kind) +
			"`, or every right and left is swapped because the plan was read from the street"
	} else if m, at := p.turnMend(grid); m != "" {
		mend, also = m, at
	}
	f := finding.New(finding.Error, "turns-do-not-close", jp.At, mend,
		"perimeter %s: right turns less left turns sum to %s, but a %s needs %s (limit %s)",
		jp.Name, job.FormatAngle(sum), kindName(jp.Kind), job.FormatAngle(want), job.FormatAngle(jp.MisclosureAngle))
	f.Also, f.Where = also, finding.Ref{Perimeter: jp.Name}
	found.Append(f)
}

// bend is a turn of a perimeter as it might have been meant.
type bend struct {
	corner *Corner
	turn   job.Angle
	words  string
}

// others are what a turn may have been meant for: the other way, the included
// angle in place of the turn, or both.
func (c *Corner) others() []bend {
	if c.Straight() || c.Turn == 0 {
		return nil
	}
	supplement := 180*job.Degree - abs(c.Turn)
	if c.Turn < 0 {
		supplement = -supplement
	}
	way := func(a job.Angle) string {
		if a < 0 {
			return "left " + strings.TrimSuffix(job.FormatAngle(-a), "°")
		}
		return "right " + strings.TrimSuffix(job.FormatAngle(a), "°")
	}
	out := []bend{{c, -c.Turn, "right and left are swapped there, `turn: " + way(-c.Turn) + "`"}}
	if supplement != c.Turn {
		out = append(out, bend{c, supplement, "the included angle was written for the turn, `turn: " + way(supplement) +
			"`"},
			bend{c, -supplement, "the included angle was written for the turn and the way is swapped, `turn: " +
				way(-supplement) + "`"})
	}
	return out
}

// turnMend names the corners at which one turn read otherwise makes the turns
// sum; of several the ones whose runs then close as well.
func (p *Perimeter) turnMend(grid length.Length) (string, []finding.Place) {
	var sums, closes []bend
	for _, c := range p.Corners {
		for _, o := range c.others() {
			if abs(p.Closure.Angle-c.Turn+o.turn) > p.Job.MisclosureAngle {
				continue
			}
			sums = append(sums, o)
		}
	}
	if len(sums) <= mostTurnsTried {
		for _, o := range sums {
			if p.gapIf(grid, func(c *Corner) job.Angle {
				if c == o.corner {
					return o.turn
				}
				return c.Turn
			}) <= p.limitMM() {
				closes = append(closes, o)
			}
		}
	}
	all := closes
	if len(all) == 0 {
		all = sums
	}
	switch {
	case len(all) == 0:
		return "", nil
	case len(all) == 1:
		also := placed(all[0].corner.Arrive.Job.At)
		words := "look at corner " + all[0].corner.Name + ": the turns sum if " + all[0].words
		if len(closes) == 1 {
			words = "look at corner " + all[0].corner.Name + ": the perimeter closes if " + all[0].words
		}
		return words, also
	}
	var names []string
	for _, o := range all {
		if !slices.Contains(names, o.corner.Name) {
			names = append(names, o.corner.Name)
		}
	}
	return "one turn is swapped or an included angle was written for it: look at corners " + few(names), nil
}

// few lists names, the first eight of very many.
func few(names []string) string {
	const most = 8
	if len(names) > most {
		return strings.Join(names[:most], ", ") + fmt.Sprintf(" and %d more", len(names)-most)
	}
	return strings.Join(names, ", ")
}

// limitMM is the misclosure that the job accepts, in millimetres.
func (p *Perimeter) limitMM() float64 { return p.Job.MisclosureLength.MM() }

// gapIf is by how far the perimeter misses its start, in millimetres, if its
// corners turned as told.
func (p *Perimeter) gapIf(grid length.Length, turn func(*Corner) job.Angle) float64 {
	var x, y, dir float64
	for _, r := range p.Runs {
		l := r.InPlan(grid).MM()
		x, y = x+l*math.Cos(dir), y+l*math.Sin(dir)
		if c := r.Right.Corner; c != nil {
			dir += radians(turn(c))
		}
	}
	return math.Hypot(x, y)
}

// compass is the direction of an error in plan: eighths of the compass, and degrees.
func (p *Perimeter) compass(x, y float64) string {
	names := []string{"north", "northeast", "east", "southeast", "south", "southwest", "west", "northwest"}
	deg := math.Mod(math.Atan2(y, x)*180/math.Pi+p.Job.Bearing.Degrees()+720, 360)
	return fmt.Sprintf("%s (bearing %.0f°)", names[int(math.Floor(deg/45+0.5))%8], math.Mod(math.Round(deg), 360))
}

// alongError is how near a run must lie to the direction of an error to be called
// parallel to it.
const alongError = 10 * math.Pi / 180

// parallelTo names the runs that lie along an error.
func (p *Perimeter) parallelTo(x, y float64) string {
	var names []string
	for _, r := range p.Runs {
		if parallel(r, x, y) {
			names = append(names, r.Name)
		}
	}
	switch len(names) {
	case 0:
		return ", along no run: an error of two lengths, or of a turn"
	case 1:
		return ", along run " + names[0]
	}
	return ", along runs " + few(names)
}

func parallel(r *Run, x, y float64) bool {
	off := math.Remainder(math.Atan2(y, x)-r.Direction*math.Pi/180, math.Pi)
	return math.Abs(off) <= alongError
}

// change is one change of a run's length that would close its perimeter.
type change struct {
	run   *Run
	words string
	read  bool // the run's own survey reads its corner there
}

// closes says which single change would close a perimeter, likeliest first: two
// digits of a length changed over, the other face of the wall, a round figure, two
// turns in each other's place. Of several runs those count whose own survey reads its
// corner where the change puts it.
func (p *Perimeter) closes(x, y float64, grid length.Length) (string, []finding.Place) {
	var all []change
	for _, r := range p.Runs {
		if c, ok := r.closes(x, y, p.limitMM()); ok {
			all = append(all, c)
		}
	}
	if slices.ContainsFunc(all, func(c change) bool { return c.read }) {
		all = slices.DeleteFunc(all, func(c change) bool { return !c.read })
	}
	if len(all) > 0 {
		var said []string
		var also []finding.Place
		for _, c := range all {
			words := "run " + c.run.Name + " " + c.words
			if c.read {
				words += ", where its own survey has its corner"
			}
			said = append(said, words)
			also = append(also, placed(c.run.Job.At)...)
		}
		return "measure again; it closes with " + strings.Join(said, ", or "), also
	}
	if a, b := p.turnsChanged(grid); a != nil {
		return fmt.Sprintf("measure again; it closes with the turns of corners %s and %s in each other's place", a.Name,
				b.Name),
			placed(a.Arrive.Job.At, b.Arrive.Job.At)
	}
	return "measure again: a length, a face (front or rear) or a turn is wrong; opposite runs are compared first", nil
}

// closes is the change of a run's length that would take up an error of its
// perimeter, (x, y) in millimetres, to a limit.
func (r *Run) closes(x, y, limit float64) (change, bool) {
	if !parallel(r, x, y) {
		return change{}, false
	}
	fits := func(by length.Length) bool {
		u := r.Direction * math.Pi / 180
		return r.Job.Length+by > 0 && math.Hypot(x+by.MM()*math.Cos(u), y+by.MM()*math.Sin(u)) <= limit
	}
	made := func(by length.Length, words string) (change, bool) {
		n := len(r.Job.Readings)
		return change{r, words, n > 1 && r.Job.StationFace == r.Job.Face &&
			length.Abs(r.Job.Length+by-r.Job.Readings[n-1].Station) <= agreeOneFace}, true
	}
	other := r.Trim.Left + r.Trim.Right
	if l := digitsSwapped(r.Job.Length, fits); l > 0 {
		return made(l-r.Job.Length, "with two digits changed over, "+job.Both(l))
	}
	switch {
	case r.Job.Face == job.Front && other != 0 && fits(other):
		return change{r, "measured on the roof face", false}, true
	case r.Job.Face == job.Rear && other != 0 && fits(-other):
		return change{r, "measured on the street face", false}, true
	}
	switch by := roundFigure(fits); {
	case by > 0:
		return made(by, job.Both(by)+" longer")
	case by < 0:
		return made(by, job.Both(-by)+" shorter")
	}
	return change{}, false
}

// roundFigure is the least slip of a round figure that closes: inches, feet, or
// centimetres and decimetres; zero if none does.
func roundFigure(fits func(length.Length) bool) length.Length {
	for _, by := range []length.Length{
		length.Inch, 2 * length.Inch, 3 * length.Inch, 6 * length.Inch, length.Foot, 2 * length.Foot, 3 * length.Foot,
		5 * length.Foot,
		10 * length.Foot, 20 * length.Foot, 10 * length.Millimetre, 50 * length.Millimetre, 100 * length.Millimetre,
		200 * length.Millimetre,
		500 * length.Millimetre, length.Metre, 2 * length.Metre, 10 * length.Metre,
	} {
		if fits(by) {
			return by
		}
		if fits(-by) {
			return -by
		}
	}
	return 0
}

// digitsSwapped is a length with two neighbouring digits of its feet, its inches
// or its millimetres changed over that fits; zero if there is none.
func digitsSwapped(l length.Length, fits func(by length.Length) bool) length.Length {
	for _, unit := range []length.Length{length.Foot, length.Inch, length.Millimetre} {
		whole := l / unit
		rest := l - whole*unit
		if unit == length.Inch { // the inches of feet and inches have a foot before them
			foot := l / length.Foot * length.Foot
			whole, rest = (l-foot)/unit, foot+(l-foot)%unit
		}
		if unit == length.Millimetre && rest != 0 {
			continue // not written in millimetres
		}
		digits := []byte(strconv.FormatInt(int64(whole), 10))
		for i := 0; i+1 < len(digits); i++ {
			d := slices.Clone(digits)
			d[i], d[i+1] = d[i+1], d[i]
			n, err := strconv.ParseInt(string(d), 10, 64)
			if other := length.Length(n)*unit + rest; err == nil && other != l && fits(other-l) {
				return other
			}
		}
	}
	return 0
}

// mostTurnsTried is the greatest number of corners that are tried otherwise than
// written, one by one or in each other's place: of more, nobody looks at each.
const mostTurnsTried = 60

// turnsChanged are two corners whose turns in each other's place close the runs.
func (p *Perimeter) turnsChanged(grid length.Length) (*Corner, *Corner) {
	if len(p.Corners) > mostTurnsTried {
		return nil, nil
	}
	for i, a := range p.Corners {
		for _, b := range p.Corners[i+1:] {
			if a.Turn == b.Turn || a.Straight() || b.Straight() {
				continue
			}
			gap := p.gapIf(grid, func(c *Corner) job.Angle {
				switch c {
				case a:
					return b.Turn
				case b:
					return a.Turn
				}
				return c.Turn
			})
			if gap <= p.limitMM() {
				return a, b
			}
		}
	}
	return nil, nil
}
