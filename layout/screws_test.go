package layout_test

import (
	"math"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/wind"
	"copingset/layout/withdrawal"
)

// level is a job whose wall needs no packing: its screws pass straight from the
// chair into the wood.
func levelJob() *job.Job {
	j := woodJob()
	j.Packing.Method = job.PackChairs
	return j
}

func TestScrewsPulledAndSheared(t *testing.T) {
	j := levelJob()
	l := build(t, j)
	rows := l.Withdrawals()
	if len(rows) == 0 {
		t.Fatal("no row")
	}
	for _, w := range rows {
		if w.Unsheared != "" || w.Carries != 900*float64(w.Count) {
			t.Fatalf("run %s: carries %v (%s)", w.Run.Name, w.Carries, w.Unsheared)
		}
		if want := w.Pull.Up/w.Allowable + w.Pull.Across/w.Carries; math.Abs(w.Combined()-want) > 1e-12 || w.Combined() <= w.Ratio() {
			t.Errorf("run %s: %.3f together, want %.3f", w.Run.Name, w.Combined(), want)
		}
	}
	// Weak in shear alone, strong in pull: the two together hold the job.
	j.Fasteners[0].Shear = rows[0].Pull.Across / 8
	f, ok := coded(build(t, j), "screws-combined")
	if !ok || f.Severity != finding.Hold || f.Where.Run == "" || !strings.Contains(f.What, "pushed towards") {
		t.Errorf("screws that both together overload pass: %v", f)
	}
	if _, ok := coded(build(t, j), "withdrawal-short"); ok {
		t.Error("the pull alone is within the screws")
	}
	j.Fasteners[0].Shear = 0
	if f, ok := coded(build(t, j), "shear-unchecked"); !ok || f.Severity != finding.Note {
		t.Errorf("the shear is left out silently: %v", f)
	}
	// Without a report, the wood standard reckons it, if the job states what it takes.
	const psi = 4.4482216152605 / 0.00064516
	j.Fasteners[0].Yield = &job.Yield{Root: length.Inch * 13 / 80, Bending: 80_000 * psi, Bearing: 45_000 * psi}
	for _, w := range build(t, j).Withdrawals() {
		one, why := withdrawal.OfLateral(withdrawal.Lateral{Kind: job.WoodScrew, Root: length.Inch * 13 / 80,
			Bending: 80_000 * psi, SideBearing: 45_000 * psi,
			Side: j.System.Chair.Thickness, Depth: w.Thread, Gravity: 0.42}, false)
		if why != "" || math.Abs(w.Carries-one.Newtons*float64(w.Count)) > 1e-9 || len(w.Across) == 0 {
			t.Errorf("run %s: carries %v, %s", w.Run.Name, w.Carries, why)
		}
	}
}

// Screws through packing are not reckoned, and the layout counts them.
func TestScrewsOnPackingAreListed(t *testing.T) {
	j := levelJob()
	p := jobtest.Rectangle(480*length.Inch, 240*length.Inch)
	q := p.Runs[0].Readings
	for i := range q {
		q[i].TopOutside, q[i].TopInside = -length.Inch, -length.Inch
	}
	j.System.Lap = job.Lap{Front: -9 * length.Inch, Rear: -9 * length.Inch}
	j.Perimeters = []job.Perimeter{p}
	l := build(t, j)
	if n := l.OnPacking(); n == 0 {
		t.Error("no chair on packing is counted")
	}
	if n := build(t, levelJob()).OnPacking(); n != 0 {
		t.Errorf("%d chairs on packing of a level wall", n)
	}
}

func TestHolesAndFactors(t *testing.T) {
	const in, psf = length.Inch, 47.88026
	for _, c := range []struct {
		name, code string
		change     func(j *job.Job)
	}{
		{"a screw thicker than its hole", "screw-hole", func(j *job.Job) { j.Fasteners[0].Diameter = 3 * in / 8 }},
		{"a screw of 3 in", "screw-hole", func(j *job.Job) { j.Fasteners[0].Diameter = 3 * in }},
		{"400 screws in one row", "holes-crowded", func(j *job.Job) { j.Assemblies[0].FrontRow = 400 }},
		{"400 screws in the rear row", "holes-crowded", func(j *job.Job) { j.Assemblies[1].RearRow = 400 }},
		{"a factor of 1", "factor-low", func(j *job.Job) { j.Assemblies[0].Factor = 1 }},
		{"a factor of 1.9", "factor-low", func(j *job.Job) { j.Assemblies[1].Factor = 1.9 }},
		{"a resistance of 66 kPa", "resistance-unit", func(j *job.Job) { j.Assemblies[0].Up.Pa = 66_000_000 / 500 }},
		{"a resistance of 0.9 psf", "resistance-unit", func(j *job.Job) { j.Assemblies[0].Out.Pa = 0.9 * psf }},
	} {
		j := woodJob()
		j.System.Chair.Blank = &job.Blank{HoleDia: 9 * in / 32, Inset: 3 * in / 2}
		if f, ok := coded(build(t, j), c.code); ok {
			t.Fatalf("%s: found in a good job: %v", c.name, f)
		}
		c.change(j)
		f, ok := coded(build(t, j), c.code)
		if !ok || f.Severity != finding.Hold || f.Mend == "" || f.Why == "" {
			t.Errorf("%s: %v", c.name, f)
		}
	}
	// Without a stated hole a row is judged by the screw itself.
	j := woodJob()
	j.Assemblies[0].FrontRow = 400
	if _, ok := coded(build(t, j), "holes-crowded"); !ok {
		t.Error("400 screws in a row of a chair without stated holes pass")
	}
	// A named engineer may stand behind a lower factor, and is printed with it.
	j = woodJob()
	j.Assemblies[0].Factor = 1.5
	j.Assemblies[0].FactorSigned = &job.Signed{Factor: 1.5, By: "engineer of record", Document: "L-9"}
	l := build(t, j)
	if f, ok := coded(l, "factor-low"); ok {
		t.Errorf("signed for, and held: %v", f)
	}
	said := false
	for _, c := range l.CodeChecks() {
		said = said || strings.Contains(c.Has, "1.5, chosen by engineer of record: specification; 1.5 and over signed by engineer of record, L-9") && strings.Contains(c.Source, "ES-1")
	}
	if !said {
		t.Error("the factor's signature is not in the table")
	}
	// The signature is under a figure: a lower factor is on hold again.
	for factor, held := range map[float64]bool{1.49: true, 1.6: false} {
		j.Assemblies[0].Factor = factor
		if _, ok := coded(build(t, j), "factor-low"); ok != held {
			t.Errorf("signed for 1.5, the job's is %v: held %v", factor, ok)
		}
	}
	// An allowable has its factor taken; there is none to look at.
	j = woodJob()
	for i := range j.Assemblies {
		a := &j.Assemblies[i]
		a.Up.Level, a.Out.Level, a.Rear.Level, a.Factor = job.Allowable, job.Allowable, job.Allowable, 0
	}
	if f, ok := coded(build(t, j), "factor-low"); ok {
		t.Errorf("an allowable resistance is asked for a factor: %v", f)
	}
}

func TestMetalsOfScrewChairAndCap(t *testing.T) {
	for _, c := range []struct {
		name, cap, chair, screw string
		severity                string // of the worst finding; empty: none
	}{
		{"stainless in aluminum", "aluminum 3003-H14", "aluminum 5052", "stainless steel", ""},
		{"aluminum in stainless", "stainless steel 304", "stainless steel 304", "aluminum", "hold"},
		{"galvanized in stainless", "stainless steel 304", "stainless steel 304", "galvanized steel", "hold"},
		{"galvanized in copper", "copper", "copper", "galvanized steel", "hold"},
		{"stainless in galvanized", "coated steel G90", "coated steel G90", "stainless steel", "note"},
		{"carbon steel under an aluminum cap, chair not stated", "aluminum 3003-H14", "", "carbon steel", "note"},
	} {
		j := woodJob()
		j.System.Metal.Name, j.System.Chair.Metal, j.Fasteners[0].Metal = c.cap, c.chair, c.screw
		for i := range j.Assemblies {
			j.Assemblies[i].Metal = c.cap
		}
		worst := ""
		for _, f := range build(t, j).Findings {
			if f.Code == "metals-dissimilar" && worst != "hold" {
				worst = f.Severity.String()
			}
		}
		if worst != c.severity {
			t.Errorf("%s: %q, want %q", c.name, worst, c.severity)
		}
	}
}

// What is left unsaid is listed, and only that.
func TestNotChecked(t *testing.T) {
	j := levelJob()
	said := strings.Join(build(t, j).NotChecked(), "\n")
	for _, want := range []string{"the chair; wood screw", "holes of the chair", "distance of screws from each other"} {
		if !strings.Contains(said, want) {
			t.Errorf("not listed: %s\n%s", want, said)
		}
	}
	j.System.Chair.Metal, j.Fasteners[0].Metal = "aluminum", "stainless steel"
	j.System.Chair.Blank = &job.Blank{HoleDia: 9 * length.Inch / 32, Inset: length.Inch}
	said = strings.Join(build(t, j).NotChecked(), "\n")
	if strings.Contains(said, "metals") || strings.Contains(said, "holes of the chair") || strings.Contains(said,
		"masonry") {
		t.Errorf("listed, and stated:\n%s", said)
	}
}

// A kink is a corner of the wind unless the engineer sets a greater least turn.
func TestKinksBeginCornerZones(t *testing.T) {
	const ft = length.Foot
	j := woodJob()
	j.Perimeters = []job.Perimeter{jobtest.Perimeter("BOW", job.Open, jobtest.Run("A", 60*ft, 10*job.Degree),
		jobtest.Run("B", 60*ft, 0))}
	p := &j.Perimeters[0]
	p.Starts, p.Runs[1].Right = job.End{Kind: job.EndWall}, job.End{Kind: job.EndWall}
	corners := func() int {
		n := 0
		for _, r := range build(t, j).Runs() {
			for _, z := range r.Zones {
				if z.Zone == wind.Corner {
					n++
				}
			}
		}
		return n
	}
	if n := corners(); n != 2 {
		t.Errorf("%d corner zones beside a kink of 10 degrees", n)
	}
	j.Pressures.CornerTurn = 15 * job.Degree
	if n := corners(); n != 0 {
		t.Errorf("%d corner zones under the engineer's least turn", n)
	}
}

// One length of screw goes into a chair where it fits both rows; a job may allow two,
// and asks for a reserve. By hand: the wall tops lie so that the chair of A's middle
// needs, over chair 0.08 and membrane 0.055, thread 1 and tip 1/4, no packing in front
// and as much as the rear row's place makes of 1/2 in behind: 1.385 in and more.
func TestOneScrewLengthAChair(t *testing.T) {
	tilted := func(change func(f *job.Fastener)) *layout.Layout {
		j := levelJob()
		for i := range j.Perimeters[0].Runs {
			for k := range j.Perimeters[0].Runs[i].Readings {
				j.Perimeters[0].Runs[i].Readings[k].TopInside = -in / 2
			}
		}
		change(&j.Fasteners[0])
		return build(t, j)
	}
	two := func(l *layout.Layout) (differ int, first *layout.Chair) {
		for _, r := range l.Runs() {
			for _, c := range r.Chairs {
				if c.Rows[0].Length != c.Rows[1].Length {
					differ++
				}
				for i, w := range c.Rows {
					if w.Length < w.Above+w.Fastener.Embedment+w.Fastener.Tip+w.Fastener.Reserve || w.Thread.Fails() {
						t.Errorf("chair %s, row %d: %v through %v", c.Name, i, w.Length, w.Above)
					}
				}
			}
		}
		return differ, l.Runs()[0].Chairs[2]
	}
	n, c := two(tilted(func(*job.Fastener) {}))
	if n > 0 || c.Rows[0].Length != 2*in || c.Rows[0].Into != 2*in-c.Rows[0].Above {
		t.Errorf("%d chairs take two lengths; one takes %v and %v", n, c.Rows[0].Length, c.Rows[1].Length)
	}
	n, c = two(tilted(func(f *job.Fastener) { f.TwoLengths = true }))
	if n == 0 || c.Rows[0].Length != 3*in/2 || c.Rows[1].Length != 2*in {
		t.Errorf("%d chairs take two lengths; one takes %v and %v", n, c.Rows[0].Length, c.Rows[1].Length)
	}
	// A reserve of 1/8 in: 1.51 in is needed in front, over the stock of 1 1/2.
	if _, c = two(tilted(func(f *job.Fastener) { f.TwoLengths, f.Reserve = true, in/8 })); c.Rows[0].Length != 2*in {
		t.Errorf("with a reserve the front row takes %v", c.Rows[0].Length)
	}
	// The wood is too shallow in front for the longer: each row keeps its own.
	n, c = two(tilted(func(f *job.Fastener) { f.Cover = 13 * in / 10 }))
	if n == 0 || c.Rows[0].Length != 3*in/2 || c.Rows[1].Length != 2*in {
		t.Errorf("over shallow wood one takes %v and %v", c.Rows[0].Length, c.Rows[1].Length)
	}
}
