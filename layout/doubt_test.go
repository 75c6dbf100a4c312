package layout_test

import (
	"slices"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

// doubtful is a roof with readings out by so much, each at the fourth of a run; the
// lines of its file are those of its readings.
func doubtful(out ...func(*job.Reading)) *job.Job {
	j := jobtest.Job()
	j.System.PlayMost = 7 * length.Inch / 8
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*in, 240*in)}
	line := 0
	for i := range j.Perimeters[0].Runs {
		r := &j.Perimeters[0].Runs[i]
		for k := range r.Readings {
			line++
			r.Readings[k].At = finding.Place{File: "roof.csv", Line: line}
		}
		if i < len(out) {
			out[i](&r.Readings[3])
		}
	}
	return j
}

// grown has the walls grow wider and higher along each run, by an inch in all.
func grown(j *job.Job) *job.Job {
	j.System.PlayMost = 2 * in
	for i := range j.Perimeters[0].Runs {
		r := &j.Perimeters[0].Runs[i]
		for k := range r.Readings {
			more := in * length.Length(k) / length.Length(len(r.Readings)-1)
			r.Readings[k].Width += more
			r.Readings[k].TopInside += more
			r.Readings[k].TopOutside += more
		}
	}
	return j
}

func wider(by length.Length) func(*job.Reading) {
	return func(q *job.Reading) { q.Width += by }
}

// What follows from a doubted reading is what is not found once it is as its
// neighbours have it; what it holds stays held.
func TestWhatFollowsFromADoubt(t *testing.T) {
	for _, c := range []struct {
		name   string
		out    []func(*job.Reading)
		causes int
	}{{"no reading in doubt", nil, 0}, {"one", []func(*job.Reading){wider(4 * in)}, 1},
		{"two", []func(*job.Reading){wider(4 * in), wider(5 * in)}, 2}} {
		_, found := layout.Build(doubtful(c.out...))
		var causes []int
		follow := 0
		for _, f := range found {
			k := found.Cause(f)
			if k < 0 {
				continue
			}
			follow++
			if !slices.Contains(causes, k) {
				causes = append(causes, k)
			}
			if found[k].Code != finding.Slip || f.Code == finding.Slip || f.Severity == finding.Error {
				t.Errorf("%s: %v follows from %v", c.name, f, found[k])
			}
		}
		if len(causes) < min(c.causes, 1) || len(causes) > c.causes {
			t.Errorf("%s: %d causes of %d, in %v", c.name, len(causes), c.causes, found)
		}
		if c.causes == 1 { // all that the job without the slip does not find
			_, plain := layout.Build(doubtful())
			if len(plain)+1+follow != len(found) {
				t.Errorf("%s: %d findings, %d of them follow, %d without the slip", c.name, len(found), follow,
					len(plain))
			}
		}
	}
}

// A piece is released if it comes out alike with a doubted reading, without it and at
// both ends of what it could mean.
func TestReleaseInDoubt(t *testing.T) {
	for _, c := range []struct {
		name             string
		out              func(*job.Reading)
		sev              finding.Severity
		pieces, chairs   bool // that something of the sort is held by the doubt
		others, whatever bool // that pieces of other runs are held
	}{
		{"a width far under the widest", func(q *job.Reading) { q.Width -= in }, finding.Note, false, false, false, false},
		{"a top below the highest", func(q *job.Reading) { q.TopInside -= in; q.TopOutside -= in }, finding.Hold, false,
			true, false, false},
		{"a width over the widest", wider(2 * in), finding.Hold, true, true, true, false},
	} {
		l, found := layout.Build(grown(doubtful(c.out)))
		i := slices.IndexFunc(found, func(f finding.Finding) bool { return f.Code == finding.Slip })
		if i < 0 {
			t.Errorf("%s: not in doubt: %v", c.name, found)
			continue
		}
		f := found[i]
		if f.Severity != c.sev || (len(f.Where.Pieces) > 0) != c.pieces || (len(f.Where.Chairs) > 0) != c.chairs ||
			(len(f.Where.Runs) > 0) != c.others {
			t.Errorf("%s: %v touches %+v", c.name, f, f.Where)
		}
		if !strings.Contains(f.Why, "alike") {
			t.Errorf("%s: does not say what comes out alike: %q", c.name, f.Why)
		}
		for _, p := range l.Perimeters {
			for _, q := range p.Pieces {
				if held := slices.Contains(l.Held[q], finding.Slip); held != slices.Contains(f.Where.Pieces, q.Mark) {
					t.Errorf("%s: piece %s held: %v, where %v are", c.name, q.Mark, held, f.Where.Pieces)
				}
			}
		}
	}
}

// With the reading as its neighbours have it, nothing is held for it, and each piece
// that was released then comes out as it did.
func TestReleasedInDoubtComesOutAlike(t *testing.T) {
	for _, out := range []length.Length{-in, in, 3 * in} {
		l, _ := layout.Build(grown(doubtful(wider(out))))
		plain, _ := layout.Build(grown(doubtful()))
		is := map[string]*layout.Piece{}
		for _, p := range plain.Perimeters {
			for _, q := range p.Pieces {
				is[q.Mark] = q
			}
		}
		for _, p := range l.Perimeters {
			for _, q := range p.Pieces {
				if !l.Held.Released(q) {
					continue
				}
				o := is[q.Mark]
				if o == nil || o.Inside != q.Inside || o.Shipped() != q.Shipped() || o.Kind != q.Kind {
					t.Errorf("out by %v: piece %s is released and comes out otherwise", out, q.Mark)
				}
			}
		}
	}
}
