package wall

import (
	"slices"
	"strconv"
	"strings"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall/slips"
)

// Usual doubt of a reading, where the job states none: a quarter of an inch, and
// four times the run's scatter. On plausible walls without a slip fewer than
// one reading in 2,000 is then doubted, and of readings an inch out 97 in 100
// are found (tests of package slips).
const (
	doubtLeast = length.Inch / 4
	doubtTimes = 4
)

// measured is one thing every reading measures.
type measured struct {
	what  job.Measure
	value func(*job.Reading) (length.Length, bool)
}

// topsApart is the inside top less the outside one, in which two tops written
// in each other's place show twice.
const topsApart job.Measure = "tops apart"

func allMeasured() []measured {
	plain := func(f func(*job.Reading) length.Length) func(*job.Reading) (length.Length, bool) {
		return func(q *job.Reading) (length.Length, bool) { return f(q), true }
	}
	stated := func(f func(*job.Reading) *length.Length) func(*job.Reading) (length.Length, bool) {
		return func(q *job.Reading) (length.Length, bool) {
			if l := f(q); l != nil {
				return *l, true
			}
			return 0, false
		}
	}
	return []measured{
		{job.MeasureWidth, plain(func(q *job.Reading) length.Length { return q.Width })},
		{job.MeasureTopOutside, plain(func(q *job.Reading) length.Length { return q.TopOutside })},
		{job.MeasureTopInside, plain(func(q *job.Reading) length.Length { return q.TopInside })},
		{job.MeasureOffset, plain(func(q *job.Reading) length.Length { return q.Offset })},
		{job.MeasureWidthLow, stated(func(q *job.Reading) *length.Length { return q.WidthLow })},
		{job.MeasureOffsetLow, stated(func(q *job.Reading) *length.Length { return q.OffsetLow })},
		{topsApart, plain(func(q *job.Reading) length.Length { return q.TopInside - q.TopOutside })},
	}
}

// series is one measure along a run, with the readings it stands at.
type series struct {
	measured
	values []slips.Value
	of     []int
}

func seriesOf(r *job.Run) []series {
	all := allMeasured()
	out := make([]series, len(all))
	for i, m := range all {
		out[i].measured = m
		if _, always := m.value(&job.Reading{}); always {
			out[i].values = make([]slips.Value, 0, len(r.Readings))
			out[i].of = make([]int, 0, len(r.Readings))
		}
		for k := range r.Readings {
			if v, ok := m.value(&r.Readings[k]); ok {
				out[i].values = append(out[i].values, slips.Value{At: r.Readings[k].Station, V: v})
				out[i].of = append(out[i].of, k)
			}
		}
	}
	return out
}

// doubt looks for slips of the tape in every run, and holds those that nobody
// has cleared.
func doubt(j *job.Job, walls []*Perimeter) finding.List {
	var found finding.Set
	var runs []*Run
	var all [][]series
	for _, p := range walls {
		for _, r := range p.Runs {
			runs, all = append(runs, r), append(all, seriesOf(r.Job))
		}
	}
	rules := make([]slips.Rule, len(allMeasured()))
	for i := range rules {
		rules[i] = slips.Rule{Least: doubtLeast, Times: doubtTimes}
		if c := j.Survey; c.Least > 0 && c.Times > 0 {
			rules[i].Least, rules[i].Times = c.Least, c.Times
		}
		// The scatter of all runs alike serves those too short for one of their own.
		if !slices.ContainsFunc(all, func(s []series) bool { return !slips.Enough(s[i].values) }) {
			continue
		}
		var like []length.Length
		for _, s := range all {
			like = append(like, slips.Residuals(s[i].values)...)
		}
		if slips.Known(like) {
			rules[i].Scatter = slips.Scatter(like)
		}
	}
	tops, offsets := map[*Run]bool{}, map[*Run]bool{} // look-up only
	for _, p := range walls {
		t, o := family(p)
		tops[t], offsets[o] = true, true
	}
	for i, r := range runs {
		r.doubtOne(j, all[i], rules)
		if len(r.Suspects) == 0 { // one slip at a time: a doubted reading may be why the whole looks odd
			r.doubtWhole(tops[r], offsets[r])
		}
		for k := range r.Suspects {
			r.holdSuspect(j, &r.Suspects[k], &found)
		}
	}
	return found.List()
}

// doubtOne finds the suspects of a run, in the order of its readings.
func (r *Run) doubtOne(j *job.Job, all []series, rules []slips.Rule) {
	add := func(k int, m job.Measure, v, expected, limit length.Length, hint string) {
		r.Suspects = append(r.Suspects, Suspect{Reading: &r.Readings[k], Measure: string(m), Value: v,
			Expected: expected,
			Limit:    limit, Hint: hint, Cleared: r.clearedBy(r.Readings[k].Job, m)})
	}
	swapped := map[int]bool{}
	var out, in, apart series
	for i, s := range all {
		switch s.what {
		case job.MeasureTopOutside:
			out = s
		case job.MeasureTopInside:
			in = s
		case topsApart:
			apart = s
			for _, f := range slips.Find(apart.values, rules[i]) {
				a, b := out.values[f.Index].V, in.values[f.Index].V
				if slips.Fits(apart.values, f.Index, a-b, f.Limit) && slips.Fits(out.values, f.Index, b, f.Limit) &&
					slips.Fits(in.values, f.Index, a, f.Limit) {
					swapped[f.Index] = true
					const hint = "the two tops look written in each other's place"
					add(f.Index, job.MeasureTopOutside, a, slips.Expected(out.values, f.Index), f.Limit, hint)
					add(f.Index, job.MeasureTopInside, b, slips.Expected(in.values, f.Index), f.Limit, hint)
				}
			}
		}
	}
	for i, s := range all {
		if s.what == topsApart {
			continue
		}
		for _, f := range slips.Find(s.values, rules[i]) {
			tops := s.what == job.MeasureTopOutside || s.what == job.MeasureTopInside
			if tops && swapped[s.of[f.Index]] {
				continue
			}
			v := s.values[f.Index].V
			fits := func(other length.Length) bool { return slips.Fits(s.values, f.Index, other, f.Limit) }
			add(s.of[f.Index], s.what, v, f.Expected, f.Limit, hint(j.Units, s.what, v, f.Expected, fits))
		}
	}
	if m, group, s := together(all); len(r.Suspects) == 0 {
		for _, f := range group {
			add(s.of[f.Index], m, s.values[f.Index].V, f.Expected, f.Limit,
				"it and the readings beside it stand together farther from the rest of the run than the rest is spread")
		}
	}
	slip := length.Foot
	if j.Units == job.Metric {
		slip = 100 * length.Millimetre
	}
	stations := make([]length.Length, len(r.Job.Readings))
	for i := range r.Job.Readings {
		stations[i] = r.Job.Readings[i].Station
	}
	for _, f := range slips.Pitch(stations, slip) {
		add(f.Index, job.MeasureStation, stations[f.Index], f.Expected, f.Limit,
			"the readings beside it stand at the usual pitch, and it stands "+job.Both(f.Out)+" from halfway")
	}
}

// hint says what slip a value looks like: a turned sign, two digits changed
// over, whole inches or centimetres.
func hint(u job.Units, m job.Measure, v, expected length.Length, fits func(length.Length) bool) string {
	if m != job.MeasureWidth && m != job.MeasureWidthLow && v != 0 && fits(-v) {
		return "the sign looks turned"
	}
	unit, name := length.Inch, "inch"
	if u == job.Metric {
		unit, name = length.Millimetre, "mm"
	}
	whole := length.Abs(v) / unit
	rest := length.Abs(v) - whole*unit
	digits := []byte(strconv.FormatInt(int64(whole), 10))
	for i := 0; i+1 < len(digits); i++ {
		if digits[i] == digits[i+1] {
			continue
		}
		d := append([]byte(nil), digits...)
		d[i], d[i+1] = d[i+1], d[i]
		n, err := strconv.ParseInt(string(d), 10, 64)
		other := length.Length(n)*unit + rest
		if v < 0 {
			other = -other
		}
		if err == nil && fits(other) {
			return "two digits look changed over"
		}
	}
	if u == job.Metric {
		unit, name = length.Centimetre, "cm"
	}
	off := v - expected
	n := length.RoundTo(length.Abs(off), unit) / unit
	if n == 0 || length.Abs(length.Abs(off)-n*unit) > unit/4 {
		return ""
	}
	side := "too much"
	if off < 0 {
		side = "too little"
	}
	if n > 1 && name == "inch" {
		name = "inches"
	}
	return "it looks " + strconv.FormatInt(int64(n), 10) + " " + name + " " + side
}

// clearedBy is the entry that clears a measure of a reading as it now reads, if
// there is one.
func (r *Run) clearedBy(q *job.Reading, m job.Measure) *job.Cleared {
	for i := range r.Job.Cleared {
		if c := &r.Job.Cleared[i]; c.Station == q.Station && c.Measure == m && c.Reads(q) {
			return c
		}
	}
	return nil
}

// changed holds a run for an entry whose reading is no longer the one that was
// looked at again.
func changed(r *Run, c *job.Cleared, found *finding.Set) bool {
	for _, q := range r.Readings {
		if c.Station != q.Job.Station || c.Reads(q.Job) {
			continue
		}
		was, now := job.Both(c.Value), "nothing"
		if v, ok := q.Job.Value(c.Measure); ok {
			now = job.Both(v)
		}
		if c.Measure == job.MeasureCondition {
			was, now = stated(c.Conditions), stated(q.Job.Conditions)
		}
		found.Append(finding.Finding{Code: "cleared-differs", Severity: finding.Hold, At: c.At, Where: ref(r),
			What: "run " + r.Name + ": " + c.By + " cleared the " + string(c.Measure) + " at station " +
				job.Both(c.Station) + " as " + was + ", and the survey now reads " + now,
			Why:  "the survey has changed since, or the figure was copied wrongly",
			Mend: "look at the reading again and write it as `value`, or take the entry out"})
		return true
	}
	return false
}

func stated(all []job.Condition) string {
	if len(all) == 0 {
		return "sound"
	}
	words := make([]string, 0, len(all))
	for _, c := range all {
		words = append(words, string(c))
	}
	return strings.Join(words, " and ")
}

func key(m job.Measure) string {
	b := []byte(m)
	for i := range b {
		if b[i] == ' ' {
			b[i] = '_'
		}
	}
	return string(b)
}

// idleClearances notes the entries that clear nothing.
func idleClearances(r *Run, found *finding.Set) {
	used := map[*job.Cleared]bool{}
	for _, s := range r.Suspects {
		used[s.Cleared] = true
	}
	for _, u := range r.Unsound {
		used[u.Cleared] = true
	}
	for i := range r.Job.Cleared {
		c := &r.Job.Cleared[i]
		if used[c] || changed(r, c, found) {
			continue
		}
		f := finding.New(finding.Note, "cleared-nothing", c.At, "check its station and measure, or take it out",
			"run %s: the %s at station %s is not in doubt, so the entry clears nothing", r.Name, c.Measure,
			job.Both(c.Station))
		f.Where = ref(r)
		found.Append(f)
	}
}
