package shop_test

import (
	"math"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

// What the shop's machine, its strips and its seams do not allow is a hold on what
// it touches, and a job within them has none.
func TestMachineStripsAndSeams(t *testing.T) {
	build := func(set func(j *job.Job)) (*layout.Layout, finding.List) {
		j := jobtest.Job()
		j.Shop = tools()
		j.Perimeters = []job.Perimeter{jobtest.Rectangle(700*in, 420*in)}
		set(j)
		l, found := layout.Build(j)
		if found.HasErrors() {
			t.Fatal(found)
		}
		return l, found
	}
	press := func(die length.Length) *job.Machine {
		return &job.Machine{Kind: job.PressBrake, Dies: []length.Length{die}, LeastGage: in / 8, MostGage: 60 * in, Throat: 60 * in}
	}
	for _, c := range []struct {
		name, code, says string // no code: none of all
		set              func(j *job.Job)
	}{
		{"a press brake that makes it", "", "", func(j *job.Job) { j.Shop.Machine = press(in / 4) }},
		{"a die wider than the drip", "flat-under-tool", "over a die of", func(j *job.Job) { j.Shop.Machine = press(3 * in / 2) }},
		{"a folder's nose", "flat-under-tool", "the folder's nose", func(j *job.Job) { j.Shop.Machine = &job.Machine{Kind: job.Folder, Nose: in} }},
		{"a gauge that does not come near", "gauge-reach", "comes no nearer", func(j *job.Job) { j.Shop.Machine = press(in / 4); j.Shop.Machine.LeastGage = 2 * in }},
		{"a gauge that does not go far", "gauge-reach", "goes no farther", func(j *job.Job) { j.Shop.Machine = press(in / 4); j.Shop.Machine.MostGage = 2 * in }},
		{"a throat", "throat", "the throat is", func(j *job.Job) { j.Shop.Machine = press(in / 4); j.Shop.Machine.Throat = 2 * in }},
		{"a punch as wide as the drip is long", "hits-tool", "punch", func(j *job.Job) {
			j.Shop.Machine = press(in / 4)
			j.Shop.Machine.Punch = []job.ToolPoint{{X: -4 * in, Y: in / 4}, {X: 4 * in, Y: in / 4}, {X: 4 * in, Y: 9 * in}, {X: -4 * in, Y: 9 * in}}
		}},
		{"a weld on coating", "weld-on-coating", "finished before", func(j *job.Job) { j.Shop.Seam = &job.SeamRules{Process: job.Weld} }},
		{"a weld finished after", "", "", func(j *job.Job) { j.Shop.Seam = &job.SeamRules{Process: job.Weld, After: true} }},
		{"a weld on zinc", "weld-on-coating", "is zinc", func(j *job.Job) {
			j.System.Metal.Name = "zinc"
			j.Shop.Seam = &job.SeamRules{Process: job.Weld, After: true}
		}},
		{"a gap wider than the metal", "seam-gap", "does", func(j *job.Job) {
			j.Shop.WeldGap = in / 8
			j.Shop.Seam = &job.SeamRules{Process: job.Weld, After: true}
		}},
		{"rivets without a backer", "seam-backer", "no backer", func(j *job.Job) { j.Shop.Seam = &job.SeamRules{Process: job.RivetAndSeal} }},
		{"rivets on a backer", "", "", func(j *job.Job) { j.Shop.Seam = &job.SeamRules{Process: job.RivetAndSeal, Backer: "strip"} }},
		{"solder between two edges", "seam-backer", "soldered", func(j *job.Job) { j.Shop.Seam = &job.SeamRules{Process: job.Solder} }},
		{"solder on a lap", "", "", func(j *job.Job) {
			j.Shop.Seam = &job.SeamRules{Process: job.Solder, Lap: &job.SeamLap{Width: in, Clear: in / 8}}
		}},
		{"a lap narrower than a flange", "lap-narrow", "no flange under", func(j *job.Job) {
			j.Shop.Seam = &job.SeamRules{Process: job.Solder, Lap: &job.SeamLap{Width: in / 8, Clear: in / 8}}
		}},
		{"rivets off the lap", "rivet-off-lap", "from an edge", func(j *job.Job) {
			j.Shop.Seam = &job.SeamRules{Process: job.RivetAndSeal, Lap: &job.SeamLap{Width: in, Clear: in / 8}, Rivets: &job.Rivets{Diameter: in / 8, Edge: 3 * in / 4, Pitch: 2 * in}}
		}},
		{"a metal the machine does not name", "metal-off-machine", "does not name", func(j *job.Job) {
			j.Shop.Machine = press(in / 4)
			j.Shop.Machine.Takes = []job.Taken{{Metal: "lead", Least: in / 50, Most: in / 10}}
		}},
		{"a sheet too thick for it", "metal-off-machine", "takes", func(j *job.Job) {
			j.Shop.Machine = press(in / 4)
			j.Shop.Machine.Takes = []job.Taken{{Metal: j.System.Metal.Name, Least: in / 100, Most: in / 40}}
		}},
		{"a part longer than the machine", "longer-than-brake", "the press brake takes", func(j *job.Job) {
			j.Shop.Machine = press(in / 4)
			j.Shop.Machine.Longest = 40 * in
		}},
		{"a flange narrower than its own", "flange-too-short", "the press brake holds", func(j *job.Job) {
			j.Shop.Machine = press(in / 4)
			j.Shop.Machine.Flange = 2 * in
		}},
		{"a bend that is none", "bend-unknown", "drip/top", func(j *job.Job) { j.Shop.BendOrder = []string{"drip/top"} }},
	} {
		codes := []string{"flat-under-tool", "gauge-reach", "throat", "hits-tool", "weld-on-coating", "seam-gap", "seam-backer", "bend-unknown", "lap-narrow", "rivet-off-lap", "metal-off-machine", "longer-than-brake", "flange-too-short"}
		_, found := build(c.set)
		seen := false
		for _, f := range found {
			for _, code := range codes {
				if f.Code != code {
					continue
				}
				if code != c.code {
					t.Errorf("%s: %v", c.name, f)
					continue
				}
				seen = seen || strings.Contains(f.What+f.Why, c.says)
				if f.Severity != finding.Hold || f.Mend == "" {
					t.Errorf("%s: %v is no hold or says no mend", c.name, f)
				}
			}
		}
		if c.code != "" && !seen {
			t.Errorf("%s: no %s that says %q", c.name, c.code, c.says)
		}
	}
}

// A trial strip stands before the K factor, by the measure it was taken with, and
// the shop's own order before the one found.
func TestStripsAndOrder(t *testing.T) {
	girth := func(set func(j *job.Job)) (length.Length, []shopBend) {
		j := jobtest.Job()
		j.Shop = tools()
		j.Perimeters = []job.Perimeter{jobtest.Rectangle(700*in, 420*in)}
		set(j)
		l, _ := layout.Build(j)
		for _, f := range l.Families {
			if len(f.Bodies) == 1 {
				var out []shopBend
				for _, q := range f.Bodies[0].Bends {
					out = append(out, shopBend{q.Line.Between[0] + "/" + q.Line.Between[1], q.Line.Arc})
				}
				return f.Bodies[0].Girth, out
			}
		}
		t.Fatal("no cap")
		return 0, nil
	}
	_, plain := girth(func(*job.Job) {})
	_, own := girth(func(j *job.Job) { j.Shop.BendOrder = []string{plain[len(plain)-1].name, plain[0].name} })
	if own[0].name != plain[len(plain)-1].name || own[1].name != plain[0].name {
		t.Errorf("the shop's order %v of %v", own, plain)
	}
	_, taken := girth(func(j *job.Job) {
		j.Shop.Bends = []job.TakenBend{{Turn: j.System.Profile.RearHook.Angle, Deduction: in / 50, To: job.ToTangent}}
	})
	for i, q := range taken {
		ro := 2 * (in/16 + in/20).MM()
		if hook := strings.Contains(q.name, "hook"); hook && math.Abs(q.arc-(ro-(in/50).MM())) > 1e-6 || !hook && q.arc != plain[i].arc {
			t.Errorf("%s takes %.4f mm", q.name, q.arc)
		}
	}
}

// A strip that says what its metal cannot take is held at its own line: dropped in
// silence, its blank would follow K while the shop believes in its strip.
func TestStripMisread(t *testing.T) {
	ro := (in/16 + in/20).MM() // of the job's metal
	arc := func(turn, neutral float64) float64 {
		return turn * math.Pi / 180 * (in/16 + length.Length(neutral*float64(in/20))).MM()
	}
	for _, c := range []struct {
		name      string
		turn      job.Angle
		deduction float64 // mm
		to        job.LegMeasure
		held      bool
	}{
		{"as K says, to tangent", 150 * job.Degree, 2*ro - arc(150, 0.4), job.ToTangent, false},
		{"the same to the mold line", 150 * job.Degree, 2*ro*math.Tan(75*math.Pi/180) - arc(150, 0.4), job.ToMoldLine, false},
		{"read to the mold line and written to the tangent", 150 * job.Degree, 2*ro*math.Tan(75*math.Pi/180) - arc(150, 0.4), job.ToTangent, true},
		{"more than both setbacks", 90 * job.Degree, 2*ro + 0.1, job.ToMoldLine, true},
		{"an inch the other way", 90 * job.Degree, 2*ro - arc(90, 0.4) - 25.4, job.ToMoldLine, true},
		{"the neutral line at the inside", 90 * job.Degree, 2*ro - arc(90, 0), job.ToMoldLine, false},
	} {
		j := jobtest.Job()
		j.Shop = tools()
		j.Perimeters = []job.Perimeter{jobtest.Rectangle(700*in, 420*in)}
		at := finding.Place{File: "job.yaml", Line: 61, Col: 7}
		j.Shop.Bends = []job.TakenBend{{At: at, Turn: c.turn, Deduction: length.FromMM(c.deduction), To: c.to}}
		_, found := layout.Build(j)
		n := 0
		for _, f := range found {
			if f.Code == "strip-misread" {
				n++
				if f.At != at || f.Severity != finding.Hold || f.Mend == "" {
					t.Errorf("%s: %v", c.name, f)
				}
			}
		}
		if held := n == 1; held != c.held || n > 1 {
			t.Errorf("%s: held %d times, want %v", c.name, n, c.held)
		}
	}
}

type shopBend struct {
	name string
	arc  float64
}
