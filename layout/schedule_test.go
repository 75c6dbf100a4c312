package layout_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/crate"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"
)

// The schedules count what the layout holds, each thing once.
func TestSchedulesCountEverythingOnce(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		l, found := solved(jobtest.Random(t))
		if found.HasErrors() {
			t.Skip("not a layout")
		}
		want, got := 0, 0
		for _, r := range l.Runs() {
			joints := 0
			for _, q := range r.Joints {
				if q.Kind != cap.Expansion {
					joints++
				}
			}
			for _, c := range l.Gaps(r) {
				joints -= len(c.Joints)
			}
			if joints != 0 {
				t.Fatalf("run %s: %d joints are in no class of gaps or in two", r.Name, joints)
			}
			gap := l.Job.System.Joint.Gap
			for _, p := range l.Pitches(r) {
				// Half a joint at either end of one bay is the most a joint can add.
				if blocked := l.HoldsOn(r); len(blocked) == 0 && p.Most > p.Assembly.ChairSpacing+gap+l.Grid {
					t.Fatalf("run %s: chairs of %s stand %v apart", r.Name, p.Assembly.Name, p.Most)
				}
			}
			for _, c := range r.Chairs {
				for _, w := range c.Rows {
					if w.Length > 0 {
						want += w.Count
					}
				}
			}
			if ply, most := l.Plywood(r), r.Front*length.Length(mostLayers(r)); ply < 0 || ply > most {
				t.Fatalf("run %s: plywood %v of at most %v", r.Name, ply, most)
			}
		}
		for _, f := range l.FastenerSchedule() {
			sum := 0
			for _, n := range f.ByRun {
				sum += n
			}
			if sum != f.Count {
				t.Fatalf("%s: %d by run, %d in all", f.Fastener.Name, sum, f.Count)
			}
			if f.Boxes*f.Fastener.Box < f.Count+f.Spare {
				t.Fatalf("%s: %d boxes hold fewer than %d", f.Fastener.Name, f.Boxes, f.Count+f.Spare)
			}
			got += f.Count
		}
		if got != want {
			t.Fatalf("%d fasteners in the schedule, %d in the chairs", got, want)
		}
		for _, p := range l.Perimeters {
			for _, q := range p.Pieces {
				left, right := l.EndJoints(q)
				if left != nil && left.Right != q || right != nil && right.Left != q {
					t.Fatalf("piece %s has joints that are not its own", q.Mark)
				}
				if n := len(l.ChairsAt(left)); left != nil && (left.Kind == cap.Plain && n != 1 || left.Kind == cap.Expansion && n != 2) {
					t.Fatalf("joint %s has %d chairs", left.Name, n)
				}
			}
		}
		special, grouped := 0, 0
		var grams int64
		for _, p := range l.Perimeters {
			for _, q := range p.Pieces {
				grams += l.Weight(q).Laid
				if q.Kind != cap.Straight {
					special++
				}
			}
		}
		for _, g := range l.CornerGroups() {
			grouped += len(g)
			for _, q := range g[1:] {
				if q.Length() != g[0].Length() || q.Kind != g[0].Kind || l.Held.Released(q) != l.Held.Released(g[0]) {
					t.Fatalf("%s and %s are not alike", g[0].Mark, q.Mark)
				}
			}
		}
		if special != grouped || grams != l.Grams() {
			t.Fatalf("%d special pieces, %d grouped; %d g, %d g", special, grouped, grams, l.Grams())
		}
	})
}

func mostLayers(r *layout.Run) int {
	n := 0
	for _, z := range r.BuildUp {
		n = max(n, z.Layers)
	}
	return n
}

func TestSectionCasesCoverEveryChair(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		l, found := solved(jobtest.Random(t))
		if found.HasErrors() {
			t.Skip("not a layout")
		}
		cases := l.SectionCases()
		for _, r := range l.Runs() {
			for _, c := range r.Chairs {
				// A chair under a taper is shown by those of the widths beside it.
				left, right := c.Edges(&l.Job.System)
				n := 0
				for _, k := range cases {
					if k.Run.Wall == r.Wall && k.Chair.Assembly == c.Assembly && (left != right || k.Chair.Inside == c.Inside) &&
						r.SlopeAt(&l.Job.System, c.At) == k.Run.SlopeAt(&l.Job.System, k.Chair.At) {
						n++
					}
				}
				if n == 0 || n > 1 && left == right {
					t.Fatalf("chair %s is shown by %d sections", c.Name, n)
				}
			}
		}
		for _, k := range cases {
			for i, q := range k.Joints {
				if q.Joint.Run.OnWall() != q.Run.OnWall() || q.Run.Wall != k.Run.Wall {
					t.Fatalf("section of run %s through joint %s", q.Run.Name, q.Joint.Name)
				}
				if i > 0 && k.Joints[i-1].Joint.Kind >= q.Joint.Kind {
					t.Fatalf("run %s: joints of one kind twice or out of order", k.Run.Name)
				}
			}
		}
		// Each kind of joint that a chair stands at is shown.
		for _, r := range l.Runs() {
			for _, c := range r.Chairs {
				if c.Joint == nil {
					continue
				}
				if !slices.ContainsFunc(cases, func(k layout.SectionCase) bool {
					return slices.ContainsFunc(k.Joints, func(q layout.JointCase) bool { return q.Joint.Kind == c.Joint.Kind })
				}) {
					t.Fatalf("no section shows a joint like %s", c.Joint.Name)
				}
			}
		}
	})
}

func TestStringToWall(t *testing.T) {
	j := jobtest.Job()
	j.Perimeters = append(j.Perimeters, jobtest.Rectangle(300*length.Inch, 200*length.Inch))
	l, _ := layout.Build(j)
	// Front clearance 1/4 in, chairs 1/8 in behind the front leg: a straight wall is 1/8 in behind the string.
	if got := l.Runs()[0].StringToWall(&l.Job.System, 100*length.Inch); got != length.Inch/8 {
		t.Errorf("string to face %v, want 1/8 in", got)
	}
}

// A hole stands where the obstacle does: on a rectangle of known corners the
// left corner piece's leg and its gap lie before the first straight piece.
func TestHoleOf(t *testing.T) {
	const in = length.Inch
	j := jobtest.Job()
	p := jobtest.Rectangle(480*in, 300*in)
	p.Runs[0].Obstacles = []job.Obstacle{{Name: "pipe", Station: 100 * in, Extent: 4 * in, Depth: 3 * in, FromFace: 6 * in, Does: job.Pierces, Collar: "plumber"}}
	j.Perimeters = append(j.Perimeters, p)
	l, found := layout.Build(j)
	if found.HasErrors() {
		t.Fatal(found)
	}
	n := 0
	for _, q := range l.Perimeters[0].Pieces {
		for _, o := range q.Cutouts {
			n++
			h := l.HoleOf(q, o)
			r := l.Runs()[0]
			// From the plumbed corner: the cap begins its extension to the left of it.
			if want := 100*in + r.Left.Ext - q.Parts[0].From; h.FromLeft != want || h.FromLeft <= 0 || h.FromLeft >= q.Length() {
				t.Errorf("piece %s: the hole is %v from its left end, want %v", q.Mark, h.FromLeft, want)
			}
			if want := j.System.Metal.Thickness + j.System.FrontClearance + r.At(100*in).Gap + 6*in; h.FromFront != want {
				t.Errorf("the hole is %v behind the front, want %v", h.FromFront, want)
			}
		}
	}
	if n != 1 {
		t.Errorf("%d holes, want 1", n)
	}
}

// A field closer leaves the shop longer at the end to be cut, and heavier by
// that strip; everything else as it is laid.
func TestShipped(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		l, found := solved(jobtest.Random(t))
		if found.HasErrors() {
			t.Skip("not a layout")
		}
		for _, p := range l.Perimeters {
			for _, q := range p.Pieces {
				var front, long length.Length
				for i := range q.Parts {
					f, r := layout.Shipped(q, i)
					front += f
					long = length.Max(long, length.Max(f, r))
				}
				if front != q.Length()+q.Allowance || long > crate.Shipped(q) {
					t.Fatalf("piece %s ships %v long, laid %v with %v over", q.Mark, front, q.Length(), q.Allowance)
				}
				over := l.Weight(q).Shipped - l.Weight(q).Laid
				if over < 0 || q.Allowance == 0 && over != 0 {
					t.Fatalf("piece %s: %d g over", q.Mark, over)
				}
				if q.Kind == cap.Straight && q.Allowance > 0 {
					if want := float64(l.Weight(q).Laid) * float64(q.Allowance) / float64(q.Length()); math.Abs(float64(over)-want) > 1 {
						t.Fatalf("piece %s: %d g over, want %.1f", q.Mark, over, want)
					}
				}
			}
			if g := p.Governs(); g != nil {
				for _, r := range p.Runs {
					if r.Need > g.Need {
						t.Fatalf("run %s needs more than %s, which governs", r.Name, g.Name)
					}
				}
			}
		}
	})
}

// A finer grid tells temperatures apart that the crew's does not, and never
// moves a gap by more than half its step.
func TestGapsTo(t *testing.T) {
	j := jobtest.Job()
	j.Perimeters = append(j.Perimeters, jobtest.Rectangle(960*length.Inch, 480*length.Inch))
	l, _ := layout.Build(j)
	if len(j.Site.InstallMetalT) < 2 {
		t.Fatal("the job has no temperatures")
	}
	fine := l.Grid / 16
	for _, c := range l.GapsTo(l.Runs()[0], fine) {
		if c.Alike() {
			t.Errorf("gaps at all temperatures are %v", c.At[0])
		}
		for i, temp := range j.Site.InstallMetalT {
			if d := length.Abs(c.At[i] - cap.GapAt(&j.System, c.Mean, temp)); d > fine/2 {
				t.Errorf("gap off by %v", d)
			}
		}
	}
}
