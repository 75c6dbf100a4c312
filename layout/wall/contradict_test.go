package wall

import (
	"strings"
	"testing"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"

	"pgregory.net/rapid"
)

func first(found finding.List, code string) (finding.Finding, bool) {
	for _, f := range found {
		if f.Code == code {
			return f, true
		}
	}
	return finding.Finding{}, false
}

// A survey that stands at one corner reads the other one too, where it comes
// within an inch of it.
func TestCornerReading(t *testing.T) {
	last := func(j *job.Job) *job.Reading { q := j.Perimeters[0].Runs[1].Readings; return &q[len(q)-1] }
	cases := []struct {
		name   string
		change func(*job.Job)
		want   string // empty: nothing
	}{
		{"alike", func(j *job.Job) {}, ""},
		{"a sixteenth on the tape", func(j *job.Job) { last(j).Station -= length.Inch16 }, ""},
		{"an eighth", func(j *job.Job) { last(j).Station -= in / 8 }, ""},
		{"seven eighths short", func(j *job.Job) { last(j).Station -= 7 * in / 8 },
			"right corner at station 19'-11 1/8\" (6074 mm), 0'-0 7/8\" (22 mm) short of"},
		{"at the other end", func(j *job.Job) { j.Perimeters[0].Runs[1].Readings[0].Station = in / 2 },
			"left corner at station 0'-0 1/2\""},
		{"read away from both corners", func(j *job.Job) {
			j.Perimeters[0].Runs[1].Readings[0].Station = in / 2
			last(j).Station -= in / 2
		}, ""},
		{"two inches away, where the tape could not be hooked", func(j *job.Job) { last(j).Station -= 2 * in }, ""},
		{"stations on the other face", func(j *job.Job) {
			r := &j.Perimeters[0].Runs[1]
			r.StationFace = job.Rear
			r.Readings = r.Readings[:8]
			r.Readings[7].Station = 216 * in // 240 less 12 in at both ends
		}, ""},
		{"past the corner of the other face", func(j *job.Job) {
			r := &j.Perimeters[0].Runs[1]
			r.StationFace = job.Rear
			r.Readings = r.Readings[:8]
			r.Readings[7].Station = 219 * in
		}, "0'-3\" (76 mm) past"},
	}
	for _, c := range cases {
		j := square()
		c.change(j)
		_, all := build(t, j)
		f, ok := first(all, "corner-reading")
		if ok != (c.want != "") || !strings.Contains(f.What, c.want) {
			t.Errorf("%s: %v", c.name, all)
		}
		if ok && (f.Severity != finding.Hold || f.Where.Run != "B") {
			t.Errorf("%s: %+v", c.name, f)
		}
	}
}

// A wall crosses itself, or only comes near.
func TestWallsCross(t *testing.T) {
	// A figure of eight that closes and whose turns sum to one round.
	j := testJob(run("A", 600*in, 90), run("B", 480*in, 90), run("C", 360*in, 90), run("D", 960*in, 90),
		run("E", 480*in, 90), run("F", 240*in, 90), run("G", 720*in, -90), run("H", 240*in, -90))
	_, all := build(t, j)
	f, ok := first(all, "walls-cross")
	if !ok || f.Severity != finding.Error || !strings.Contains(f.What, "the wall of run D crosses that of run A") {
		t.Errorf("%v", all)
	}
	// A court with a narrow mouth: walls 2 in apart.
	j = testJob(run("A", 480*in, 90), run("B", 480*in, 90), run("C", 239*in, 90), run("D", 240*in, -90), run("E", 2*in,
		-90),
		run("F", 240*in, 90), run("G", 239*in, 90), run("H", 480*in, 90))
	_, all = build(t, j)
	if f, ok := first(all, "walls-cross"); ok {
		t.Errorf("a narrow court: %v", f)
	}
}

// Random perimeters that close are no figure of eight and no roof is too small for
// itself.
func TestHonestWallsAreNotContradicted(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		j := jobtest.Random(t)
		_, all := Build(j, length.Inch16)
		for _, code := range []string{"corner-reading", "well-outside", "tee-opening", "turns-do-not-close",
			"does-not-close"} {
			if f, ok := first(all, code); ok {
				t.Fatalf("%v", f)
			}
		}
	})
}

func TestWellInItsRoof(t *testing.T) {
	well := func(a, b length.Length) *job.Job {
		j := square()
		t := -90 * job.Degree
		j.Perimeters = append(j.Perimeters, jobtest.Perimeter("WELL", job.Well,
			jobtest.Run("E", a, t), jobtest.Run("F", b, t), jobtest.Run("G", a, t), jobtest.Run("H", b, t)))
		return j
	}
	for _, c := range []struct {
		a, b length.Length
		want bool
	}{{120 * in, 120 * in, false}, {230 * in, 230 * in, false}, {600 * in, 600 * in, true}, {400 * in, 40 * in, true},
		{241 * in, 239 * in, true}} {
		_, all := build(t, well(c.a, c.b))
		if f, ok := first(all, "well-outside"); ok != c.want {
			t.Errorf("%v by %v: %v", c.a, c.b, f)
		}
	}
	j := well(600*in, 600*in)
	j.Perimeters = j.Perimeters[1:] // the job is of the well alone
	if _, all := build(t, j); len(all) > 0 {
		t.Errorf("a well without its roof: %v", all)
	}
}

// A cross wall from run A of a roof of 40 by 25 ft to run C, whose roof faces lie
// 23 ft apart.
func TestTeeOpening(t *testing.T) {
	cross := func(long, at, far length.Length, bearing job.Angle) *job.Job {
		j := testJob(run("A", 480*in, 90), run("B", 300*in, 90), run("C", 480*in, 90), run("D", 300*in, 90))
		j.Perimeters[0].Bearing = 90 * job.Degree
		p := jobtest.Perimeter("CROSS", job.Open, jobtest.Run("X", long, 0))
		p.Bearing = bearing
		tee := func(run string, at length.Length) job.End {
			return job.End{Kind: job.EndTee, Tee: &job.Tee{Perimeter: "P", Run: run, At: at, Of: job.TeeCentre}}
		}
		p.Starts, p.Runs[0].Right = tee("A", at), tee("C", far)
		j.Perimeters = append(j.Perimeters, p)
		return j
	}
	for _, c := range []struct {
		name          string
		long, at, far length.Length
		bearing       job.Angle
		want          string
	}{
		{"as built", 276 * in, 240 * in, 240 * in, 180 * job.Degree, ""},
		{"an inch and a half out", 277*in + in/2, 240 * in, 240 * in, 180 * job.Degree, ""},
		{"aside by what a compass leaves", 276 * in, 240 * in, 244 * in, 180 * job.Degree, ""},
		{"40 ft in 23 ft", 480 * in, 240 * in, 240 * in, 180 * job.Degree,
			"is 40'-0\" (12192 mm) long from end to end, and the opening between the roof faces of runs A and C, " +
				"where it stands, is 23'-0\""},
		{"a foot short", 264 * in, 240 * in, 240 * in, 180 * job.Degree, "is 22'-0\""},
		{"ends out of line", 276 * in, 240 * in, 360 * in, 180 * job.Degree, "lie 10'-0\" (3048 mm) out of line"},
	} {
		_, all := build(t, cross(c.long, c.at, c.far, c.bearing))
		f, ok := first(all, "tee-opening")
		if ok != (c.want != "") || !strings.Contains(f.What, c.want) {
			t.Errorf("%s: %v", c.name, all)
		}
	}
}
