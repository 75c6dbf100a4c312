package layout_test

import (
	"slices"
	"testing"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"

	"pgregory.net/rapid"
)

func tees(l *layout.Layout) []*layout.Piece {
	var out []*layout.Piece
	for _, p := range l.Perimeters {
		for _, q := range p.Pieces {
			if q.Kind == cap.Tee {
				out = append(out, q)
			}
		}
	}
	return out
}

// A cross wall whose left face, looking out over run A, stands at 20'-0": the
// branch begins there, so its front looks to the right.
func TestTee(t *testing.T) {
	const in = length.Inch
	l := build(t, jobtest.Cross(600*in, 300*in, 240*in, job.TeeLeft))
	all := tees(l)
	if len(all) != 2 || all[0].Mark != "A/X-TEE" || all[1].Mark != "C/X-TEE" {
		t.Fatalf("tees %v", all)
	}
	p, r := all[0], l.Perimeters[1].Runs[0]
	if p.Hand != cap.RightHand || all[1].Hand != cap.LeftHand {
		t.Errorf("hands %v and %v", p.Hand, all[1].Hand)
	}
	// The cap is 12 1/2 in inside and 12 6/10 in outside; its front mold line
	// stands 3/10 in before the wall, which the sixteenth takes to 5/16 in.
	edge := p.Tee.Edge
	if front := r.ToFront(edge[1]) - (240+12)*in; front != 5*in/16 {
		t.Errorf("the branch's front mold line is %v beyond the wall's face", front)
	}
	if wide := edge[1] - edge[0]; wide != 126*in/10 {
		t.Errorf("the branch is %v wide", wide)
	}
	if p.Parts[0].From != edge[0]-20*in || p.Parts[0].To != edge[1]+20*in || p.Parts[1].Length() != 20*in {
		t.Errorf("parts %v..%v and %v", p.Parts[0].From, p.Parts[0].To, p.Parts[1].Length())
	}
	// The roof is raised by 1 1/4 in and the branch's front fold stands half an
	// inch a foot over 12 1/2 in above its own set surface: 0.73 in are left.
	if p.Tee.Drop != 3*in/4 {
		t.Errorf("drop %v", p.Tee.Drop)
	}
	// Behind the wall, 12 in wide, the cap's rear mold line stands 3/10 in off.
	x := l.Perimeters[0].Runs[0]
	if x.Left.Ext != -5*in/16 || x.Right.Ext != -5*in/16 || x.Cap != 276*in-10*in/16 {
		t.Errorf("the branch's cap line: %v, %v, %v", x.Left.Ext, x.Right.Ext, x.Cap)
	}
	if j := x.Joints[0]; j.Left != p || j.From != 20*in || x.Chairs[0].Joint != j {
		t.Errorf("first joint %+v, first chair %v", j, x.Chairs[0].At)
	}
	for _, c := range r.Chairs {
		if c.At+l.Job.System.Chair.Length/2 > edge[0] && c.At-l.Job.System.Chair.Length/2 < edge[1] {
			t.Errorf("chair %s at %v stands under the opening", c.Name, c.At)
		}
	}
	if n := len(l.Holds()); n != 0 {
		t.Errorf("%d holds: %v", n, l.Holds())
	}
}

func crossInvariants(t *rapid.T, l *layout.Layout) {
	checkTiling(t, l)
	checkJoints(t, l)
	checkBays(t, l)
	checkChairs(t, l)
	checkPieces(t, l)
	checkZones(t, l)
	checkBuildUp(t, l)
	checkCrates(t, l)
	checkWidths(t, l)
	for _, p := range tees(l) {
		if len(p.Parts) != 2 || p.Parts[0].Length() != p.Tee.To-p.Tee.From || p.Parts[1].Length() != l.Job.System.Tee.Branch && !held(l, "X", "no-fit") {
			t.Fatalf("tee %s: parts %v", p.Mark, p.Parts)
		}
	}
}

func teeRoom(found finding.List) bool {
	return slices.ContainsFunc(found, func(f finding.Finding) bool { return f.Code == "tee-room" || f.Code == "tee-place" })
}

func TestTeeInvariants(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		l, found := solved(jobtest.RandomCross(t))
		if teeRoom(found) {
			t.Skip("no room")
		}
		crossInvariants(t, l)
	})
}

func TestTeeMirror(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		j := jobtest.RandomCross(t)
		a, found := layout.Build(j)
		b, twin := layout.Build(mirror(j))
		if teeRoom(found) != teeRoom(twin) {
			t.Fatalf("%v\n%v", found, twin)
		}
		if teeRoom(found) {
			t.Skip("no room")
		}
		checkMirror(t, j)
		x, y := tees(a), tees(b)
		for _, p := range x {
			i := slices.IndexFunc(y, func(q *layout.Piece) bool { return q.Mark == p.Mark })
			if i < 0 || y[i].Hand == p.Hand || y[i].Tee.Drop != p.Tee.Drop || b.Held.Released(y[i]) != a.Held.Released(p) {
				t.Fatalf("tee %s has no mirror image", p.Mark)
			}
		}
	})
}

// What a tee cannot do is said on both runs.
func TestTeeFindings(t *testing.T) {
	const in = length.Inch
	cross := func() *job.Job { return jobtest.Cross(600*in, 300*in, 240*in, job.TeeCentre) }
	at := func(j *job.Job, station length.Length) { // both ends, so that the wall stays square
		p := &j.Perimeters[0]
		p.Starts.Tee.At = station
		if far := p.Runs[len(p.Runs)-1].Right.Tee; far != nil {
			far.At = 600*in - station
		}
	}
	for _, c := range []struct {
		name, code string
		change     func(j *job.Job)
		runs       []string // held; none: an error
	}{
		{"the roof is not raised", "tee-height", func(j *job.Job) { j.Perimeters[1].Raise = 0 }, []string{"A", "X"}},
		{"it is raised too far", "tee-height", func(j *job.Job) { j.Perimeters[1].Raise = 3 * in }, []string{"A", "X"}},
		{"the rear leg does not reach", "tee-low", func(j *job.Job) { j.System.Profile.RearLeg.Length = 5 * in / 4 }, []string{"A", "X"}},
		{"the branch goes to the street", "tee-not-square", func(j *job.Job) { j.Perimeters[0].Bearing = 0 }, []string{"A", "X"}},
		{"the branch is askew", "tee-not-square", func(j *job.Job) { j.Perimeters[0].Bearing = 177 * job.Degree }, []string{"A", "X"}},
		{"a pipe comes through", "tee-pierced", func(j *job.Job) {
			j.Perimeters[1].Runs[0].Obstacles = []job.Obstacle{{Name: "vent", Station: 230 * in, Extent: 3 * in, Does: job.Pierces, FromFace: 4 * in, Depth: 3 * in, Collar: "roofer"}}
		}, []string{"A", "X"}},
		{"a post stands at its joint", "plate-blocked", func(j *job.Job) {
			j.Perimeters[1].Runs[0].Obstacles = []job.Obstacle{{Name: "post", Station: 265 * in, Extent: 3 * in, Does: job.BlocksJoint}}
		}, []string{"A"}},
		{"a corner leg has no room", "no-fit", func(j *job.Job) { at(j, 40*in) }, []string{"A"}},
		{"it reaches past the corner", "tee-place", func(j *job.Job) { at(j, 20*in) }, nil},
		{"the branch lies along its main", "tee-along", func(j *job.Job) { j.Perimeters[0].Bearing = 90 * job.Degree }, nil},
		{"it comes back along its main", "tee-along", func(j *job.Job) { j.Perimeters[0].Bearing = 270 * job.Degree }, nil},
		{"it lies nearly along its main", "tee-along", func(j *job.Job) { j.Perimeters[0].Bearing = (180 - 61) * job.Degree }, nil},
		{"it goes off at a slant", "tee-not-square", func(j *job.Job) { j.Perimeters[0].Bearing = (180 - 59) * job.Degree }, []string{"A", "X"}},
		{"a building joint is in it", "tee-place", func(j *job.Job) {
			m := in / 8
			j.Perimeters[1].Runs[0].Expansion = []job.ExpansionJoint{{Station: 250 * in, Gap: in, Movement: &m}}
		}, nil},
		{"the branch is too short for its free end", "tee-room", func(j *job.Job) {
			x := jobtest.Run("X", 40*in, 0)
			x.Right = job.End{Kind: job.EndFree}
			j.Perimeters[0].Runs[0], j.System.Tee.Branch = x, 36*in
		}, nil},
		{"the branch is too short", "tee-room", func(j *job.Job) { j.System.Tee.Branch = 150 * in }, nil},
	} {
		j := cross()
		c.change(j)
		l, found := layout.Build(j)
		if len(c.runs) == 0 {
			if !found.HasErrors() || !slices.ContainsFunc(found, func(f finding.Finding) bool { return f.Code == c.code }) {
				t.Errorf("%s: %v", c.name, found)
			}
			continue
		}
		for _, run := range c.runs {
			if !slices.ContainsFunc(l.Holds(), func(f finding.Finding) bool { return f.Code == c.code && f.Where.Run == run }) {
				t.Errorf("%s: run %s has no %s: %v", c.name, run, c.code, found)
			}
		}
		if p := tees(l); c.code != "no-fit" && !slices.ContainsFunc(p, func(q *layout.Piece) bool { return slices.Contains(l.Held[q], c.code) }) {
			t.Errorf("%s: no tee is held", c.name)
		}
	}
}

// A doubted width on either side holds both runs and the tee.
func TestTeeFollows(t *testing.T) {
	const in = length.Inch
	for _, c := range []struct{ perimeter, run, other string }{{"CROSS", "X", "A"}, {"ROOF", "A", "X"}} {
		j := jobtest.Cross(600*in, 300*in, 240*in, job.TeeLeft)
		for i := range j.Perimeters {
			if p := &j.Perimeters[i]; p.Name == c.perimeter {
				p.Runs[0].Readings[4].Width += 4 * in // a slip
			}
		}
		l := build(t, j)
		if !slices.ContainsFunc(l.Holds(), func(f finding.Finding) bool { return f.Code == "tee-follows" && f.Where.Run == c.other }) {
			t.Errorf("run %s is not held by run %s: %v", c.other, c.run, l.Holds())
		}
		for _, q := range tees(l) {
			if q.Mark == "A/X-TEE" && l.Held.Released(q) {
				t.Errorf("%s is released", q.Mark)
			}
		}
	}
}
