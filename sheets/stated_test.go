package sheets

import (
	"strings"
	"testing"

	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
)

// drawnOf draws the packet of a rectangle that a test changed.
func drawnOf(t *testing.T, change func(*job.Job)) drawn {
	j := perimeters(jobtest.Rectangle(480*in, 300*in))
	change(j)
	l := build(t, j)
	c := drawn{name: "changed", layout: l, sheets: Packet(l, Options{})}
	if f := faults(c.sheets); len(f) > 0 {
		t.Error(strings.Join(f, "\n"))
	}
	return c
}

// What two persons may not lift says so wherever the others say TWO.
func TestMechanicalLiftIsLettered(t *testing.T) {
	t.Parallel()
	c := drawnOf(t, func(j *job.Job) { j.Site.OnePerson = 900 })
	heavy := 0
	for _, p := range c.layout.Perimeters[0].Pieces {
		if c.layout.Weight(p).Lift == cap.Mechanical {
			heavy++
		}
	}
	if heavy == 0 {
		t.Fatal("no piece is heavy")
	}
	for _, k := range []Kind{PieceSchedule, CornerSheet, CrateList, Safety, Index} {
		if text := flat(ofKind(c, k)); !strings.Contains(text, "MECHANICAL LIFT") {
			t.Errorf("%v does not say it", k)
		}
	}
	n := 0
	for _, s := range Schedules(c.layout) {
		for _, row := range s.Rows {
			for _, cell := range row {
				if cell == "mechanical" {
					n++
				}
			}
		}
	}
	if n != heavy {
		t.Errorf("%d pieces, %d rows in the schedules for programs", heavy, n)
	}
}

// Where no pressure on the rear leg is stated the compliance sheet says that
// nothing is compared; where one is, it is.
func TestRearLegIsLettered(t *testing.T) {
	t.Parallel()
	const said = "nothing is compared with what the assemblies resist there"
	rear := job.Pressure{Pa: 700, Level: job.Allowable}
	for _, stated := range []bool{false, true} {
		c := drawnOf(t, func(j *job.Job) {
			if stated {
				j.Pressures.Edge.Rear, j.Pressures.Corner.Rear = rear, rear
			}
		})
		for _, k := range []Kind{Assemblies, Statement} {
			if strings.Contains(flat(ofKind(c, k)), said) == stated {
				t.Errorf("%v: stated %v", k, stated)
			}
		}
		if text := ofKind(c, Assemblies); strings.Contains(text, newBook(c.layout, Options{}).pressure(700)+" of ") != stated || strings.Contains(text, "not compared") == stated {
			t.Errorf("limits of the tests, stated %v", stated)
		}
	}
}

// No spacing of anchors is lettered that the job does not allow.
func TestAnchorsOfUnstatedSpacing(t *testing.T) {
	t.Parallel()
	c := drawnOf(t, func(j *job.Job) { j.Walls[0].Nailer.Most = 0 })
	if text := flat(ofKind(c, FastenerSchedule)); !strings.Contains(text, "NOT STATED: HOLD") {
		t.Error("fastener schedule")
	}
	if text := flat(ofKind(c, Checklist)); !strings.Contains(text, "SPACING NOT STATED: HOLD") {
		t.Error("checklist")
	}
	c = drawnOf(t, func(j *job.Job) { j.Walls[0].Nailer.Least, j.Walls[0].Nailer.Pull = 12*in, 100 })
	if text := flat(ofKind(c, FastenerSchedule)); !strings.Contains(text, "CLOSER THAN 1′-0″: HOLD") {
		t.Error("fastener schedule: anchors closer than they may stand")
	}
	if text := flat(ofKind(c, Checklist)); !strings.Contains(text, "CLOSER THAN 12″: HOLD") || strings.Contains(text, "not over") && strings.Contains(text, "apart in the corner zone") {
		t.Error("checklist: anchors closer than they may stand")
	}
}

// Where the report gives what hook and snap each held, the load on both has a column.
func TestHookAndSnapAreLettered(t *testing.T) {
	t.Parallel()
	for _, stated := range []bool{false, true} {
		c := drawnOf(t, func(j *job.Job) {
			for i := range j.Assemblies {
				if stated {
					j.Assemblies[i].OneChair = &job.ChairHeld{Up: 4000, Hook: 2400, Snap: 2000}
				}
			}
		})
		text := flat(ofKind(c, Assemblies))
		for _, head := range []string{"at the hook", "at the snap"} {
			if strings.Contains(text, head) != stated {
				t.Errorf("stated %v: %q", stated, head)
			}
		}
		for _, r := range c.layout.ChairLoads() {
			b := newBook(c.layout, Options{})
			if stated && !strings.Contains(text, flat(b.chairLoading(r.Snap))) {
				t.Errorf("run %s: the load on a snap is not lettered: %s", r.Run.Name, b.chairLoading(r.Snap))
			}
		}
	}
}
