package wall

import (
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall/slips"
)

// The judgements of this file look at a whole run, or at several readings of one:
// a slip that a person makes again and again until he has got into another habit.
// Each rests on something that no wall does, and a person can clear it by the
// reading that it names.

// togetherLeast is how far readings stand from the rest of their run together
// before they are doubted: an inch, the least slip of a tape hooked or a rod read
// wrong; and farther than the rest is spread.
const togetherLeast = length.Inch

// together finds readings beside each other that stand out from the rest of their
// run in one measure alone: in the offset, while the width stays as it is, or in one
// top. Where a pier or a bay really stands there, its width and its face, or both its
// tops, change in one place, and nothing is said; nor of a width alone, since a wall
// may be thicker to the roof for a stretch.
func together(all []series) (m job.Measure, found []slips.Found, s series) {
	with := map[job.Measure]job.Measure{ // what changes with it in a wall; look-up only
		job.MeasureOffset:     job.MeasureWidth,
		job.MeasureTopOutside: job.MeasureTopInside, job.MeasureTopInside: job.MeasureTopOutside,
	}
	by := map[job.Measure]series{}
	for _, one := range all {
		by[one.what] = one
	}
	for _, one := range all {
		other, known := with[one.what]
		if !known {
			continue
		}
		f := slips.Together(one.values, togetherLeast)
		if f == nil || changes(by[other].values, one.values, f) {
			continue
		}
		if found != nil {
			return "", nil, series{}
		}
		m, found, s = one.what, f, one
	}
	return m, found, s
}

// changes says whether a group of readings departs in another measure by half as
// much as in the one that it was found in.
func changes(other, v []slips.Value, group []slips.Found) bool {
	from, to := group[0].Index-1, group[len(group)-1].Index+1
	var here, there length.Length
	for _, f := range group {
		here += length.Abs(v[f.Index].V - f.Expected)
		there += length.Abs(2*other[f.Index].V - other[from].V - other[to].V)
	}
	return there >= here
}

// wholeRun is the number of readings from which something is said of a run's
// readings as a whole.
const wholeRun = 8

// negated says whether the offsets of a run have the wrong sign throughout: the
// roof face as they put it, offset less width, departs from a straight line by half
// an inch, and with the other sign by less than a quarter of that; and so it does
// from reading to reading. A mason lays to one line and the other face takes up
// what the block varies, so that a wall is thicker where its street face stands out;
// with the sign turned, it would be thinner there by just as much, all along. Two
// faces that bow each in its way may come near that over a run as a whole, and not
// in what lies between three readings besides.
func negated(r *job.Run) bool {
	rd := r.Readings
	if len(rd) < wholeRun {
		return false
	}
	read, turned := make([]slips.Value, len(rd)), make([]slips.Value, len(rd))
	for i, q := range rd {
		read[i] = slips.Value{At: q.Station, V: q.Offset - q.Width}
		turned[i] = slips.Value{At: q.Station, V: -q.Offset - q.Width}
	}
	d, rough := departs(read), roughness(read)
	return d >= length.Inch/2 && 4*departs(turned) <= d &&
		rough >= length.Length(len(rd))*length.Inch16 && 3*roughness(turned) <= rough
}

// roughness is what values stand off the lines between their neighbours, summed.
func roughness(v []slips.Value) length.Length {
	var sum length.Length
	for _, d := range slips.Residuals(v) {
		sum += d
	}
	return sum
}

// departs is how far values reach to both sides of the line from first to last.
func departs(v []slips.Value) length.Length {
	a, b := v[0], v[len(v)-1]
	if a.At >= b.At {
		return 0
	}
	var lo, hi length.Length
	for _, q := range v {
		d := q.V - a.V - length.MulDiv(b.V-a.V, int64(q.At-a.At), int64(b.At-a.At))
		lo, hi = min(lo, d), max(hi, d)
	}
	return hi - lo
}

// standsOff is the side on which a run's survey line clears its wall at both ends,
// by half an inch at least: +1 where the face lies to the street of the line, -1
// where it lies behind it, 0 where the line lies along the wall.
func standsOff(r *Run) int {
	rd := r.Job.Readings
	if len(rd) < 2 || !tiedToCorners(r) {
		return 0
	}
	a, b := rd[0].Offset, rd[len(rd)-1].Offset
	switch least := length.Length(length.Inch / 2); {
	case a >= least && b >= least:
		return 1
	case a <= -least && b <= -least:
		return -1
	}
	return 0
}

// leans is which way a run's top falls across the wall at every reading but a
// tenth: +1 to the roof, -1 to the street, with the median of the falls.
func leans(r *job.Run) (way int, by length.Length) {
	if len(r.Readings) < wholeRun {
		return 0, 0
	}
	var falls []length.Length
	roof, street := 0, 0
	for _, q := range r.Readings {
		f := q.TopOutside - q.TopInside
		falls = append(falls, f)
		if f > 0 {
			roof++
		} else if f < 0 {
			street++
		}
	}
	by = slips.Median(falls)
	switch n := len(r.Readings); {
	case 10*roof >= 9*n:
		return 1, by
	case 10*street >= 9*n:
		return -1, by
	}
	return 0, by
}

// fallLeast is the fall across a wall from which its top was built to fall: less
// than a quarter of an inch is how block is laid.
const fallLeast = length.Inch / 4

// family finds the run of a perimeter that was read in another way than all the
// others: the two tops in each other's place, or the offsets with the other sign
// where every other survey line stands off its wall on the other side. At least two
// others have to agree, and not one may differ.
func family(p *Perimeter) (tops, offsets *Run) {
	var lean, stand [3][]*Run // by way: -1, 0, +1
	var least, most length.Length
	for _, r := range p.Runs {
		way, by := leans(r.Job)
		if length.Abs(by) < fallLeast {
			way = 0
		}
		lean[way+1] = append(lean[way+1], r)
		if least == 0 || length.Abs(by) < least {
			least = length.Abs(by)
		}
		most = max(most, length.Abs(by))
		stand[standsOff(r)+1] = append(stand[standsOff(r)+1], r)
	}
	odd := func(by [3][]*Run) *Run {
		switch {
		case len(by[1]) > 0:
		case len(by[0]) == 1 && len(by[2]) >= 2:
			return by[0][0]
		case len(by[2]) == 1 && len(by[0]) >= 2:
			return by[2][0]
		}
		return nil
	}
	if tops = odd(lean); most > 2*least { // not the same fall, the other way
		tops = nil
	}
	return tops, odd(stand)
}

// doubtWhole adds what is doubted of a run as a whole to its suspects, each by one
// reading that stands for all: the first for the tops, that of the greatest offset
// for the offsets.
func (r *Run) doubtWhole(tops, offsets bool) {
	if len(r.Readings) == 0 {
		return
	}
	if tops {
		q := &r.Readings[0]
		r.Suspects = append(r.Suspects, Suspect{Reading: q, Measure: string(job.MeasureTopOutside),
			Value: q.Job.TopOutside, Expected: q.Job.TopInside,
			Whole: true, Hint: "its top falls to the other side than that of every other run, by as much: the two " +
				"tops look written in each other's place all along",
			Cleared: r.clearedBy(q.Job, job.MeasureTopOutside)})
	}
	if !offsets && !negated(r.Job) {
		return
	}
	most := &r.Readings[0]
	for i := range r.Readings {
		if q := &r.Readings[i]; length.Abs(q.Job.Offset) > length.Abs(most.Job.Offset) {
			most = q
		}
	}
	why := "with the other sign throughout, the roof face would be straight, and as it reads it is not: the offsets " +
		"look written with the wrong sign"
	if offsets {
		why = "the survey line of every other run stands off its wall on the other side: the offsets look written " +
			"with the wrong sign"
	}
	r.Suspects = append(r.Suspects, Suspect{Reading: most, Measure: string(job.MeasureOffset), Value: most.Job.Offset,
		Expected: -most.Job.Offset,
		Whole:    true, Hint: why, Cleared: r.clearedBy(most.Job, job.MeasureOffset)})
}
