package layout_test

import (
	"fmt"
	"slices"
	"testing"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

// metricJog is a wall of 240 mm that steps back once: 6 m, a run of the given length and
// 5 m, between two free ends. Chairs 270 mm long, tested 530 mm apart; legs and ends of 480 mm,
// legs on steps of 10 mm up to 1250 mm, stock of 2620 mm and 7 mm at joints.
func metricJog(short length.Length) *job.Job {
	const mm = length.Millimetre
	j := jobtest.Job()
	j.Units = job.Metric
	s := &j.System
	s.Chair.Length, s.Chair.EndChair = 270*mm, 210*mm
	s.EndCap.Leg = 480 * mm
	s.Stock, s.LeastPiece, s.Remainder = 2620*mm, 640*mm, job.Left
	s.Joint.Gap = 7 * mm
	s.Splice.Length, s.Splice.Bearing = 164*mm, 36*mm
	s.Corner.Covered = nil
	s.Corner.Leg, s.Corner.LongestLeg, s.Corner.LegStep = 480*mm, 1250*mm, 10*mm
	s.Corner.Support.Length, s.Corner.Support.Width = 100*mm, 90*mm
	for i := range j.Assemblies {
		j.Assemblies[i].ChairSpacing = 530 * mm
	}
	run := func(name string, l length.Length, turn job.Angle) job.Run {
		r := job.Run{Name: name, Length: l, Right: job.End{Turn: turn}}
		for _, at := range []length.Length{0, l / 2, l} {
			r.Readings = append(r.Readings, job.Reading{Station: at, Width: 240 * mm})
		}
		return r
	}
	p := jobtest.Perimeter("JOG", job.Open, run("A", 6000*mm, 90*job.Degree), run("S", short, -90*job.Degree), run("Z", 5000*mm, 0))
	p.Starts = job.End{Kind: job.EndFree}
	p.Runs[2].Right = job.End{Kind: job.EndFree}
	j.Perimeters = []job.Perimeter{p}
	return j
}

// Jogs of 0.8 to 1.0 m and of 1.2 to 1.4 m were held where those of 1.1 and 1.5 m were
// clean: their one joint lay in the middle, and its chair on another. With supports that
// hold down all stand; with such as only bear, which no legs of this system mend, the
// pieces that turn are held for that, and no chair is in the way of another.
func TestMeasuredMetricJogs(t *testing.T) {
	for _, hooked := range []bool{true, false} {
		for short := 800 * length.Millimetre; short <= 1600*length.Millimetre; short += 100 * length.Millimetre {
			t.Run(fmt.Sprintf("hooked=%v/%v", hooked, short), func(t *testing.T) {
				j := metricJog(short)
				if hooked {
					j.System.Corner.Support.Hook = &job.Hook{Allowable: 4000, By: "Test house", Document: "R-9"}
					j.System.Corner.Support.Fixing = &job.Fixing{Fastener: j.Fasteners[0].Name, Count: 2}
				}
				l := build(t, j)
				for _, f := range l.Findings {
					if f.Severity != finding.Note && !(f.Code == "corner-unheld" && !hooked) {
						t.Error(f)
					}
				}
				for _, r := range l.Runs() {
					for i, c := range r.Chairs {
						if i > 0 && c.At-r.Chairs[i-1].At < j.System.Chair.Length {
							t.Errorf("chairs %s and %s overlap", r.Chairs[i-1].Name, c.Name)
						}
					}
				}
				if unheld := slices.ContainsFunc(l.Findings, func(f finding.Finding) bool { return f.Code == "corner-unheld" }); unheld == hooked {
					t.Errorf("corners unheld: %v", unheld)
				}
			})
		}
	}
}

// imperialRuns are walls of 12 in between two free ends, in the system of the rectangle and
// under its corner pressures all along.
func imperialRuns(t *testing.T, lengths []length.Length, turns []job.Angle) *job.Job {
	j := bareSample(t, "rectangle")
	j.Pressures.Edge = j.Pressures.Corner
	p := jobtest.Perimeter("JOG", job.Open)
	p.Wall = j.Walls[0].Name
	for i, l := range lengths {
		r := job.Run{Name: fmt.Sprint("R", i+1), Length: l}
		for _, at := range []length.Length{0, l / 2, l} {
			r.Readings = append(r.Readings, job.Reading{Station: at, Width: 12 * in})
		}
		if i < len(turns) {
			r.Right.Turn = turns[i]
		}
		p.Runs = append(p.Runs, r)
	}
	p.Starts = job.End{Kind: job.EndFree}
	p.Runs[len(p.Runs)-1].Right = job.End{Kind: job.EndFree}
	j.Perimeters = []job.Perimeter{p}
	return j
}

// A jog between an outside and an inside corner has room for one chair of 14 in. Whatever its
// place it carries half of the rear leg from the nearest chair before the outside corner, which
// stands no nearer than 20 3/8 in on the front and 13.6 in less on the rear, to the nearest
// beyond the inside corner, 6 7/8 in and 13.6 in more: of a jog of 35 in that is 31.1 in where
// 31.97 in was proved, of one of 39 3/8 in 33.3 in, and that is a hold. Evenly spread, the chair
// beyond the inside corner would stand twice as far from it and leave 34 in of the 35 in jog.
func TestMeasuredImperialJogs(t *testing.T) {
	sq := 90 * job.Degree
	for _, c := range []struct {
		jog  length.Length
		held bool
	}{{35 * in, false}, {315 * in / 8, true}} {
		l, _ := solved(imperialRuns(t, []length.Length{470 * in, c.jog, 472 * in}, []job.Angle{sq, -sq}))
		if _, held := coded(l, "chair-overloaded"); held != c.held {
			t.Errorf("a jog of %v: held %v: %v", c.jog, held, l.Holds())
		}
		if at := l.Runs()[2].Chairs[0].At; !c.held && at > 13*in {
			t.Errorf("the chair beyond the inside corner stands %v from it", at)
		}
	}
}

// Bumps whose returns are 23 3/8 in on the cap line are held, and no choice could free them: no
// chair of 14 in stands on a return, between 6 7/8 in from the inside corner and 20 3/8 in from
// the outside one; and those that have room on the face between two outside corners carry
// more of the rear leg than was proved: an assembly tested 27 in apart at 90 psf pulled over
// two holds 27 x 45 / 38 = 31.97 in of it at 38 psf. What each side of a return's rear is
// shorter at its outside corner it is longer at the inside one, so the front's own lengths
// count.
func TestMeasuredImperialBumps(t *testing.T) {
	const (
		back, near, beyond = 187 * in / 8, 163 * in / 8, 55 * in / 8
		proved             = 27.0 * 45 / 38
	)
	if room := back - near - beyond; room >= 0 {
		t.Fatalf("a chair has %v on a return", room)
	}
	for _, face := range []length.Length{47 * in, 51 * in, 55 * in, 59 * in, 63 * in} {
		sq := 90 * job.Degree
		j := imperialRuns(t, []length.Length{470 * in, 189 * in / 8, face, 189 * in / 8, 472 * in},
			[]job.Angle{-sq, sq, sq, -sq})
		l, _ := solved(j)
		run := l.Runs()[2]
		room := run.Cap - 2*near
		n := 1 + int(room/j.System.Chair.Length)
		// Half of what lies between it and the nearest that can stand beyond the return, and half
		// of what lies between it and the other.
		share := (run.Cap/2 + back + beyond).Inch()
		if n > 1 {
			share = (near+back+beyond).Inch()/2 + room.Inch()/2
		}
		if share <= proved {
			t.Errorf("face %v: %d chairs could carry %.1f in each", face, n, share)
		}
		if _, held := coded(l, "chair-overloaded"); !held {
			t.Errorf("face %v: not held", face)
		}
		if _, crowded := coded(l, "chairs-crowded"); crowded {
			t.Errorf("face %v: the longer face of a return is no longer than its front", face)
		}
	}
}

// Beside a corner's leg a straight piece up to the joint of a kink can be over the spacing of
// 27 in and have no room for a chair of 14 in between: the leg takes up half an inch, and the
// piece stands, unless that leaves less than the least piece of 27 in.
func TestMeasuredPieceBesideAKink(t *testing.T) {
	for eighths := length.Length(0); eighths <= 16; eighths++ {
		run := 61*in + eighths*in/8
		l, _ := solved(imperialRuns(t, []length.Length{470 * in, run, 400 * in}, []job.Angle{90 * job.Degree, job.Degree}))
		if f, held := coded(l, "chairs-crowded"); held != (eighths >= 2 && eighths <= 4) {
			t.Errorf("a run of %v: held %v: %v", run, held, f)
		}
	}
}
