package layout_test

import (
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/anchor"
	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

// One run's chairs loaded by hand. A straight wall of 30 ft with free ends, 12 in
// wide: a cap of 12 1/2 in inside, 12.6 in outside. Its zones begin 6 ft from each
// end; 1900 Pa up in them and 1200 Pa between, so that a whole width of 12.6 in
// takes 1900 x 0.32004 m = 608.076 N/m and 384.048 N/m.
func TestOneRunByHand(t *testing.T) {
	j := jobtest.Job()
	r := jobtest.Run("A", 360*in, 0)
	r.Right = job.End{Kind: job.EndFree}
	p := jobtest.Perimeter("O", job.Open, r)
	p.Starts = job.End{Kind: job.EndFree}
	j.Perimeters = []job.Perimeter{p}
	l := build(t, j)
	a := l.Runs()[0]
	const gap = 5. / 16
	// By hand: the cap line is 360 in and 1/4 in of clearance and 0.05 in of metal at
	// each end, 0.3 in, on the tape 5/16: 360 5/8 in. End pieces of 24 in; between them 312 5/8
	// less two joints, cut at the right: 138, 138 and 35 3/8 in. The tested spacing in the
	// corner zones is 31 in, between them 46 in.
	var at, pieces []float64
	for _, q := range a.Parts {
		pieces = append(pieces, q.Length().Inch())
	}
	want := []float64{24, 138, 138, 360.625 - 48 - 4*gap - 276, 24}
	for i := range want {
		if i >= len(pieces) || math.Abs(pieces[i]-want[i]) > 1e-6 {
			t.Fatalf("pieces %v, by hand %v", pieces, want)
		}
	}
	for _, c := range a.Chairs {
		at = append(at, c.At.Inch())
	}
	// Corner zone from the wall's end at 5/16 in of the cap line on: to 72 5/16 in, and
	// from 288 5/16 in. The first piece of 138 in touches it and takes 31 in: five bays
	// of 138 5/16 in would be 27.66 in; so do the second and the closer.
	const edge, corner = 384.048 * 0.0254, 608.076 * 0.0254 // N/in
	load := func(from, to float64) float64 {
		n := 0.0
		for _, z := range []struct{ a, z, w float64 }{{0, 72.3125, corner}, {72.3125, 288.3125, edge}, {288.3125, 360.625, corner}} {
			n += max(0, min(to, z.z)-max(from, z.a)) * z.w
		}
		return n
	}
	joints := []float64{24 + gap/2, 162 + gap*3/2, 300 + gap*5/2, 336.625 - gap/2}
	for _, x := range joints {
		found := false
		for _, y := range at {
			found = found || math.Abs(x-y) < 1e-6
		}
		if !found {
			t.Fatalf("no chair under the joint at %v: %v", x, at)
		}
	}
	for i, c := range a.Chairs {
		var n float64
		switch c.Kind {
		case anchor.Between:
			n = load((at[i-1]+at[i])/2, (at[i]+at[i+1])/2)
		case anchor.AtEnd:
			// The end piece balances on its end chair, 9 in from the end, and on that
			// of the joint 24 5/32 in from it: 24 in of 608.076 N/m act at 12 in. The
			// end's share, from the end to the middle of that bay, is less.
			n = 24 * corner * (24 + gap/2 - 12) / (24 + gap/2 - 9)
			if n < 16.5*corner {
				t.Fatal("the balance is not the greater")
			}
		case anchor.AtJoint:
			switch i {
			case 1: // of the end piece the half bay beside it is more than the 4.82 in its balance leaves
				n = (24-(9+24+gap/2)/2)*corner + load(at[i]+gap/2, (at[i]+at[i+1])/2)
			case len(at) - 2:
				n = (24-(9+24+gap/2)/2)*corner + load((at[i-1]+at[i])/2, at[i]-gap/2)
			default:
				n = load((at[i-1]+at[i])/2, at[i]-gap/2) + load(at[i]+gap/2, (at[i]+at[i+1])/2)
			}
		}
		if got := c.Load.Up.Demand; math.Abs(got-n) > 1e-3 {
			t.Errorf("chair %s at %.4f in: %.3f N, by hand %.3f", c.Name, at[i], got, n)
		}
		// T2: 7600 Pa as pulled over 2, on 12.6 in and 31 in: 3800 x .32004 x .7874 N;
		// T1: 1800 x .32004 x 1.1684.
		holds := 3800 * .32004 * .7874
		if c.Assembly.Name == "T1" {
			holds = 1800 * .32004 * 1.1684
		}
		if got := c.Load.Up.Holds; math.Abs(got-holds) > 1e-3 {
			t.Errorf("chair %s holds %.3f N, by hand %.3f", c.Name, got, holds)
		}
		if c.Load.Beam.Holds != 0 {
			t.Errorf("chair %s: a stiff cap is compared, and nobody says how the specimen stood", c.Name)
		}
	}
}

func sampled(t *testing.T, name string) *job.Job {
	t.Helper()
	j, found := job.Read(os.DirFS("../samples"), name+"/job.yaml")
	if found.HasErrors() {
		t.Fatal(found)
	}
	return j
}

// No bay of metal is over the tested spacing of its piece, to the nanometre, as
// laid out and as lettered; the pitch passes it by half a joint, and only beside one.
func TestNoBayOverTheSpacing(t *testing.T) {
	for _, name := range []string{"rectangle", "l-shape", "metric"} {
		l, _ := layout.Build(sampled(t, name))
		for _, r := range l.Runs() {
			tape := l.ChairTape(r)
			for _, b := range r.Bays() {
				if a := b.Piece.Assembly; b.Metal > a.ChairSpacing {
					t.Errorf("%s, piece %s: a bay of %v of metal, tested at %v", name, b.Piece.Mark, b.Metal, a.ChairSpacing)
				}
			}
			for i := 1; i < len(r.Chairs); i++ {
				c, d := r.Chairs[i-1], r.Chairs[i]
				if c.Kind != anchor.Between || d.Kind != anchor.Between || c.Piece != d.Piece {
					continue
				}
				if printed := tape.Round(r.ToCrew(d.At)) - tape.Round(r.ToCrew(c.At)); printed > c.Assembly.ChairSpacing {
					t.Errorf("%s: %s to %s letters %v, tested at %v", name, c.Name, d.Name, printed, c.Assembly.ChairSpacing)
				}
			}
		}
	}
}

// A stock length of three tested spacings keeps three bays: no chair is added for
// the joints' halves, and the chairs stand from the metal's edges.
func TestAStockLengthOfThreeBays(t *testing.T) {
	l := build(t, woodJob())
	n := 0
	for _, r := range l.Runs() {
		for _, p := range r.Parts {
			if p.Piece.Kind != cap.Straight || p.Length() != 138*in || p.Piece.Assembly.ChairSpacing != 46*in {
				continue
			}
			var at []length.Length
			for _, c := range r.Chairs {
				if c.Kind == anchor.Between && c.Piece == p.Piece {
					at = append(at, c.At-p.From)
				}
			}
			n++
			if len(at) != 2 || at[0] != 46*in || at[1] != 92*in || r.Step != length.Inch32 {
				t.Errorf("piece %s: chairs at %v of its metal, on %v", p.Piece.Mark, at, r.Step)
			}
		}
	}
	if n == 0 {
		t.Error("no such piece")
	}
}

// Nothing is asked for more than was proved without a hold: by the measure of the
// job's own samples, chair by chair.
func TestOverloadIsHeld(t *testing.T) {
	for _, name := range []string{"rectangle", "l-shape", "metric"} {
		j := sampled(t, name)
		for i := range j.Assemblies { // 150 N for one chair
			j.Assemblies[i].OneChair = &job.ChairHeld{Up: 150 * j.Assemblies[i].Factor}
			if j.Assemblies[i].Up.Level == job.Allowable {
				j.Assemblies[i].OneChair.Up = 150
			}
		}
		l, _ := layout.Build(j)
		for _, r := range l.Runs() {
			for _, c := range r.Chairs {
				if !c.Load.Over() {
					continue
				}
				ok := false
				for _, f := range l.Findings {
					ok = ok || f.Code == "chair-overloaded" && f.Severity == finding.Hold && f.Where.Run == r.Name &&
						f.Where.Perimeter == r.Perimeter.Job.Name && strings.Contains(f.What, c.Name+" (")
				}
				if !ok {
					t.Errorf("%s: chair %s is asked for %.2f of what is proved, and not held", name, c.Name, c.Load.Ratio())
				}
			}
		}
	}
}

// A chair is added where that brings the load down, before anything is held: with
// what one chair of the report holds cut down, the pieces between stand on more.
func TestChairsAreAdded(t *testing.T) {
	few := build(t, woodJob())
	j := woodJob()
	most := 0.0
	for _, r := range few.Runs() {
		for _, c := range r.Chairs {
			if c.Assembly.Name == "T1" {
				most = max(most, c.Load.Up.Demand)
			}
		}
	}
	j.Assemblies[0].OneChair = &job.ChairHeld{Up: 2 * most * 0.9} // as pulled, over two
	more := build(t, j)
	a, b := 0, 0
	for i, r := range few.Runs() {
		a, b = a+len(r.Chairs), b+len(more.Runs()[i].Chairs)
	}
	if _, held := coded(more, "chair-overloaded"); held || b <= a {
		t.Errorf("%d chairs, %d with less for each; held %v", a, b, held)
	}
}

// A corner held by its two leg-end chairs alone is a hold that names how far out
// its uplift acts; a hooked support clears it, and so does whoever covers it.
func TestCornersAreHeldDown(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*job.Job)
		held   bool
	}{
		{"bearing only", func(j *job.Job) { j.System.Corner.Covered = nil }, true},
		{"covered", func(*job.Job) {}, false},
		{"covered, but for a narrower cap", func(j *job.Job) { j.System.Corner.Covered.WidthMost = 12 * in }, true},
		{"hooked", func(j *job.Job) {
			j.System.Corner.Covered = nil
			j.System.Corner.Support.Hook = &job.Hook{Allowable: 2000, By: "Test house", Document: "R-9"}
			j.System.Corner.Support.Fixing = &job.Fixing{Fastener: "wood screw", Count: 2}
		}, false},
		{"hooked for too little", func(j *job.Job) {
			j.System.Corner.Covered = nil
			j.System.Corner.Support.Hook = &job.Hook{Allowable: 20, By: "Test house", Document: "R-9"}
			j.System.Corner.Support.Fixing = &job.Fixing{Fastener: "wood screw", Count: 2}
		}, true},
	} {
		j := jobtest.Job()
		c.change(j)
		j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*in, 240*in)}
		l := build(t, j)
		_, unheld := coded(l, "corner-unheld")
		_, over := coded(l, "support-overloaded")
		if (unheld || over) != c.held {
			t.Errorf("%s: held %v, %v", c.name, unheld || over, l.Holds())
		}
		if n := l.Findings.Count(finding.Hold); c.held && n != 1 {
			t.Errorf("%s: %d holds for one cause: %v", c.name, n, l.Holds())
		}
	}
}

// The mirrored job has the mirrored chairs and loads.
func TestLoadsMirror(t *testing.T) {
	say := func(l *layout.Layout, back bool) []string {
		var out []string
		for _, r := range l.Runs() {
			for _, c := range r.Chairs {
				at := c.At
				if back {
					at = r.Cap - at
				}
				out = append(out, fmt.Sprintf("%d %.6f %.6f", at, c.Load.Up.Demand, c.Load.Ratio()))
			}
		}
		return out
	}
	// A run with two free ends is its own mirror, but for the closer and remainders.
	solved := func(side job.Side, closer job.Closer) *layout.Layout {
		j := jobtest.Job()
		j.System.Closer, j.System.Remainder = closer, side
		r := jobtest.Run("A", 365*in, 0)
		r.Right = job.End{Kind: job.EndFree}
		p := jobtest.Perimeter("O", job.Open, r)
		p.Starts = job.End{Kind: job.EndFree}
		j.Perimeters = []job.Perimeter{p}
		return build(t, j)
	}
	a, b := say(solved(job.Right, job.CloserRight), false), say(solved(job.Left, job.CloserLeft), true)
	for i := range a {
		if a[i] != b[len(b)-1-i] {
			t.Errorf("%s, mirrored %s", a[i], b[len(b)-1-i])
		}
	}
}

// A short jog closes one piece over three corners on each side of its joint, and the
// last of them begins on the last run: which piece asks the more of a chair does not
// follow from which was loaded first. Chairs were added to one of two like corners, G/H,
// and not to F/G, its mirror.
func TestAddedChairsMirror(t *testing.T) {
	sq := 90 * job.Degree
	j := jobtest.Job()
	s := &j.System
	s.Stock, s.Chair.Length, s.LeastPiece, s.Joint.Gap = 72*in, 6*in, 17*in, in/8
	s.Corner.Leg, s.Corner.LongestLeg, s.EndCap.Leg = 10*in, 10*in, 10*in
	s.Closer, s.Remainder = 0, 0
	jog, width, side := 47*in/4, 71*in/2, 20*in
	j.Perimeters = []job.Perimeter{jobtest.Perimeter("JOG", job.Roof,
		jobtest.Run("A", side, -sq), jobtest.Run("B", jog, sq), jobtest.Run("C", width, sq), jobtest.Run("D", jog, -sq), jobtest.Run("E", side, sq),
		jobtest.Run("F", 30*in+jog, sq), jobtest.Run("G", 2*side+width, sq), jobtest.Run("H", 30*in+jog, sq))}
	chairs := func(l *layout.Layout, name string, flip bool) (out []length.Length) {
		for _, r := range l.Runs() {
			for _, c := range r.Chairs {
				at := c.At
				if flip {
					at = r.Cap - at
				}
				if r.Name == name {
					out = append(out, at)
				}
			}
		}
		slices.Sort(out)
		return out
	}
	a, b := build(t, j), build(t, mirror(j))
	for _, name := range []string{"C", "F", "G", "H"} {
		if x, y := chairs(a, name, false), chairs(b, name, true); len(x) == 0 || !slices.Equal(x, y) {
			t.Errorf("run %s: chairs at %v, in the mirror at %v", name, x, y)
		}
	}
	// The roof is its own mirror too.
	if f, h := chairs(a, "F", true), chairs(a, "H", false); !slices.Equal(f, h) {
		t.Errorf("chairs at %v of F, at %v of H", f, h)
	}
}
