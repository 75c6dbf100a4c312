package layout_test

import (
	"math"
	"strings"
	"testing"

	"copingset/layout/anchor"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

// Where the report gives what hook and snap hold each, the uplift on a chair is parted
// by levers: a cap 12.6 in outside on a chair from 0.175 to 12.175 in asks of its hook
// (12.175 - 6.3) / 12 of it, of its snap the rest.
func TestHookAndSnapByHand(t *testing.T) {
	j := jobtest.Job()
	wall := jobtest.Run("A", 360*in, 0)
	wall.Right = job.End{Kind: job.EndFree}
	p := jobtest.Perimeter("O", job.Open, wall)
	p.Starts = job.End{Kind: job.EndFree}
	j.Perimeters = []job.Perimeter{p}
	const hook, snap = 900.0, 800.0 // newtons, as pulled, over two
	for i := range j.Assemblies {
		j.Assemblies[i].OneChair = &job.ChairHeld{Up: 4000, Hook: hook, Snap: snap}
	}
	l := build(t, j)
	n := 0
	for _, r := range l.Runs() {
		for _, c := range r.Chairs {
			h, s, up := c.Load.Hook, c.Load.Snap, c.Load.Up
			if h.Holds != hook/2 || s.Holds != snap/2 || math.Abs(h.Demand+s.Demand-up.Demand) > 1e-9 {
				t.Fatalf("chair %s: hook %v and snap %v of %v", c.Name, h, s, up)
			}
			if c.Kind != anchor.Between || len(c.Piece.Miters) > 0 || c.Inside != 25*in/2 {
				continue
			}
			n++
			if want := up.Demand * (12.175 - 6.3) / 12; math.Abs(h.Demand-want) > 1e-6 {
				t.Errorf("chair %s: its hook is asked for %.3f N, by hand %.3f", c.Name, h.Demand, want)
			}
		}
	}
	if n == 0 {
		t.Fatal("no such chair")
	}
	for i := range j.Assemblies {
		j.Assemblies[i].OneChair.Snap = 60
	}
	if f, held := coded(build(t, j), "chair-overloaded"); !held || !strings.Contains(f.What, "at its snap") {
		t.Errorf("a snap that holds too little passes: %v", f)
	}
	for i := range j.Assemblies {
		j.Assemblies[i].OneChair.Hook, j.Assemblies[i].OneChair.Snap = 0, 0
	}
	if c := build(t, j).Runs()[0].Chairs[1]; c.Load.Hook.Holds != 0 || c.Load.Snap.Holds != 0 {
		t.Errorf("a report that does not part them is compared: %v", c.Load)
	}
}

// A chair that holds down at its two edges widens what a corner piece stands on: its
// uplift acts less far outside, and nowhere farther.
func TestHookAndSnapHoldCorners(t *testing.T) {
	off := func(held *job.ChairHeld) []length.Length {
		j := jobtest.Job()
		j.System.Corner.Covered = nil
		for i := range j.Assemblies {
			j.Assemblies[i].OneChair = held
		}
		j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*in, 240*in)}
		var out []length.Length
		for _, q := range build(t, j).Perimeters[0].Turned {
			out = append(out, q.Off)
		}
		return out
	}
	middle, edges := off(&job.ChairHeld{Up: 4000}), off(&job.ChairHeld{Up: 4000, Hook: 2000, Snap: 2000})
	for i, m := range middle {
		if m == 0 || edges[i] >= m {
			t.Errorf("corner %d: %v outside, held at two edges %v", i, m, edges[i])
		}
	}
}
