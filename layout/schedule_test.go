package layout_test

import (
	"testing"

	"pgregory.net/rapid"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

// The schedules count what the layout holds, each thing once.
func TestSchedulesCountEverythingOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, found := layout.Build(jobtest.Random(t))
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
				grams += q.Grams
				if q.Kind != cap.Straight {
					special++
				}
			}
		}
		for _, g := range l.CornerGroups() {
			grouped += len(g)
			for _, q := range g[1:] {
				if q.Length() != g[0].Length() || q.Kind != g[0].Kind || q.Released() != g[0].Released() {
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
	for _, z := range r.Run.Run.Zones {
		n = max(n, z.Layers)
	}
	return n
}

func TestSectionCasesCoverEveryChair(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, found := layout.Build(jobtest.Random(t))
		if found.HasErrors() {
			t.Skip("not a layout")
		}
		cases := l.SectionCases()
		for _, r := range l.Runs() {
			for _, c := range r.Chairs {
				n := 0
				for _, k := range cases {
					if k.Run.Wall == r.Wall && k.Chair.Assembly == c.Assembly && k.Run.Inside == r.Inside {
						n++
					}
				}
				if n != 1 {
					t.Fatalf("chair %s is shown by %d sections", c.Name, n)
				}
			}
		}
		for _, k := range cases {
			if k.Joint != nil && k.Joint.Run.Name != k.Run.Name {
				t.Fatalf("section of run %s through joint %s", k.Run.Name, k.Joint.Name)
			}
		}
	})
}

func TestStringToFace(t *testing.T) {
	j := jobtest.Job()
	j.Perimeters = append(j.Perimeters, jobtest.Rectangle(300*length.Inch, 200*length.Inch))
	l, _ := layout.Build(j)
	// Front clearance 1/4 in, chairs 1/8 in behind the front leg: the wall's proudest point is 1/8 in behind the string.
	if got := l.StringToFace(0); got != length.Inch/8 {
		t.Errorf("string to face %v, want 1/8 in", got)
	}
	if got := l.StringToFace(length.Inch / 2); got != 5*length.Inch/8 {
		t.Errorf("string to face %v, want 5/8 in", got)
	}
}
