package wall

import (
	"fmt"
	"slices"
	"testing"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"

	"pgregory.net/rapid"
)

func strips(w length.Length, lengths ...length.Length) []*Strip {
	var out []*Strip
	for _, l := range lengths {
		out = append(out, &Strip{To: l, Width: w})
	}
	return out
}

func TestRipPlan(t *testing.T) {
	sheet := job.Sheet{Width: 48 * in, Length: 96 * in, Kerf: in / 8}
	four := []length.Length{96 * in, 96 * in, 96 * in, 96 * in}
	for _, c := range []struct {
		name               string
		strips             []*Strip
		sheet              job.Sheet
		sheets, cuts, many int
	}{
		// 4 × 11-1/2 and three kerfs are 46-3/8: the fourth is cut off too.
		{"four rips of 11-1/2", strips(23*in/2, four...), sheet, 1, 4, 1},
		// 4 × 12 and three kerfs are 48-3/8, over the sheet.
		{"three rips of 12 and the kerfs", strips(12*in, four...), sheet, 2, 4, 1},
		{"four of 12 by a saw without width", strips(12*in, four...), job.Sheet{Width: 48 * in, Length: 96 * in}, 1, 3, 1},
		// 60 leaves 35-7/8 behind the kerf: too short for 36, and just right for 35-7/8.
		{"lengths behind a kerf", strips(23*in/2, 30*in, 60*in, 287*in/8, 36*in), sheet, 1, 5, 1},
		{"a whole sheet", strips(48*in, 96*in), sheet, 1, 0, 1},
		{"two widths share a sheet", append(strips(20*in, 96*in), strips(23*in/2, 96*in, 96*in)...), sheet, 1, 3, 1},
		{"nothing to lay", nil, sheet, 0, 0, 0},
		{"sheets not stated", strips(12*in, 96*in), job.Sheet{}, 0, 0, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			sheets, cuts, least := RipPlan(c.strips, c.sheet)
			if len(sheets) != c.sheets || cuts != c.cuts || least != c.many {
				t.Errorf("%d sheets, %d cuts, at least %d: %+v", len(sheets), cuts, least, sheets)
			}
		})
	}
}

// A wall that dips 1-1/2 in at its right half takes two layers of 19/32 in there,
// 5/16 in short of it, and none at the left; the second layer begins with half a sheet.
func TestLay(t *testing.T) {
	r := run("A", 480*in, 90)
	for i := range r.Readings {
		q := &r.Readings[i]
		if q.Station > 100*in {
			q.TopOutside, q.TopInside, q.Width = -3*in/2, -3*in/2, 12*in+in/16
		}
	}
	j := testJob(r, run("B", 240*in, 90), run("C", 480*in, 90), run("D", 240*in, 90))
	j.Packing.Sheet = job.Sheet{Width: 48 * in, Length: 96 * in, Kerf: in / 8}
	j.Packing.Nail = job.LayerNail{Name: "ring-shank nail", Spacing: 12 * in, Rows: 2}
	p, _ := build(t, j)
	a := p[0].Runs[0]
	zones := a.BuildUp(job.PackContinuous, nil)
	if len(zones) != 2 || zones[0].To != 120*in || zones[0].Layers != 0 || zones[1].Layers != 2 || zones[1].To != 480*in {
		t.Fatalf("zones %+v", zones)
	}
	// Every 12 in over 30 ft and at the start, two rows, two layers.
	if n := zones[1].Nails; n != 31*2*2 {
		t.Errorf("%d nails", n)
	}
	if got := zones[1].Tapers; len(got) != 1 || !got[0].Level() || got[0].FrontFrom != 3*in/2-2*19*in/32 {
		t.Errorf("tapers %+v", got)
	}
	for _, c := range []struct {
		side   job.Side
		layers [2]string
	}{
		{job.Right, [2]string{"96 96 96 72", "48 96 96 96 24"}},
		{job.Left, [2]string{"72 96 96 96", "24 96 96 96 48"}},
	} {
		var got [2]string
		for _, s := range a.Lay(zones, c.side, length.Inch16) {
			got[s.Layer-1] += fmt.Sprint(" ", int(s.Length()/in))
			if s.Width != 12*in+in/16 {
				t.Errorf("a strip is %v wide", s.Width)
			}
		}
		for i := range got {
			if got[i] != " "+c.layers[i] {
				t.Errorf("layer %d with remainders at the %d: %s, want %s", i+1, c.side, got[i], c.layers[i])
			}
		}
	}
}

func TestCompare(t *testing.T) {
	k := job.Packing{Layer: 23 * in / 32, Sheet: job.Sheet{Width: 48 * in, Length: 96 * in},
		Rates: &job.Rates{Cut: 2000, Piece: 1000, Foot: 500, Hour: 60_000, Sheet: 40_000, Shim: 500}}
	both := func() Packing {
		return Packing{Continuous: Effort{Layers: 40 * length.Foot, Strips: 5, Shims: 10, Cuts: 4, Sheets: 2}, Chairs: Effort{Shims: 90}}
	}
	p := both()
	p.Compare(&k)
	// 4 cuts 8 min, 15 pieces 15 min, 40 ft 20 min: 43 min at 60 an hour, two
	// sheets, ten shims. 90 pieces 90 min, 90 shims.
	if p.Continuous.Minutes != 43_000 || p.Continuous.Money != 43_000+80_000+5_000 || p.Chairs.Money != 90_000+45_000 {
		t.Errorf("%+v", p)
	}
	if !p.Known || p.Recommended != job.PackContinuous || p.Reason != "continuous build-up costs 128.00, build-up under the chairs alone 135.00" {
		t.Errorf("%+v", p)
	}
	k.Method = job.PackChairs
	p = both()
	p.Compare(&k)
	if !p.Overridden() || p.Taken != job.PackChairs {
		t.Errorf("%+v", p)
	}
	k.Rates.Sheet = 50_000
	p = both()
	p.Compare(&k)
	if p.Recommended != job.PackChairs || p.Overridden() {
		t.Errorf("%+v", p)
	}
	// Where no layer fits there is nothing to choose, and nothing overridden.
	p = Packing{Continuous: Effort{Shims: 9}, Chairs: Effort{Shims: 9}}
	p.Compare(&k)
	if !p.Known || p.Overridden() || p.Recommended != job.PackChairs {
		t.Errorf("%+v", p)
	}
	// What cannot be made is not recommended, however cheap.
	p = both()
	p.Chairs.Missing = 1
	p.Compare(&k)
	if p.Recommended != job.PackContinuous {
		t.Errorf("%+v", p)
	}
	k.Rates, k.Sheet = nil, job.Sheet{}
	p = both()
	p.Compare(&k)
	if p.Known || p.Reason != "no recommendation: the job does not state packing: sheet, packing: rates" {
		t.Errorf("%+v", p)
	}
}

// A parapet that falls 2 in over 40 ft: level it takes 2 in of packing at its
// low end, with a grade of 1/16 in 12 none.
func TestGrade(t *testing.T) {
	sloped := func() *job.Job {
		a, b := run("A", 480*in, 90), run("B", 240*in, 90)
		c, d := run("C", 480*in, 90), run("D", 240*in, 90)
		for i := range a.Readings {
			q := &a.Readings[i]
			q.TopOutside = -q.Station / 240
			q.TopInside = q.TopOutside
			o := &c.Readings[i]
			o.TopOutside = -2*in + o.Station/240
			o.TopInside = o.TopOutside
		}
		for i := range b.Readings {
			b.Readings[i].TopOutside, b.Readings[i].TopInside = -2*in, -2*in
		}
		return testJob(a, b, c, d)
	}
	j := sloped()
	p, _ := build(t, j)
	if a := p[0].Runs[0]; a.SetLeft != 0 || a.SetRight != 0 || a.PackMost != 2*in || p[0].Set != 0 {
		t.Errorf("level: %v to %v, packing to %v", a.SetLeft, a.SetRight, a.PackMost)
	}
	j = sloped()
	j.Packing.Grade, j.Packing.Twist = 5_208_333, in/8 // 1/16 in 12, as read
	p, _ = build(t, j)
	for i, want := range [][2]length.Length{{0, -2 * in}, {-2 * in, -2 * in}, {-2 * in, 0}, {0, 0}} {
		if r := p[0].Runs[i]; r.SetLeft != want[0] || r.SetRight != want[1] || r.PackMost != 0 {
			t.Errorf("run %s: %v to %v, packing to %v", r.Name, r.SetLeft, r.SetRight, r.PackMost)
		}
	}
	// With half that grade it sinks 1-1/4 in over 40 ft.
	j.Packing.Grade = 2_604_167
	p, _ = build(t, j)
	if r := p[0].Runs[1]; r.SetLeft != -5*in/4 || r.SetRight != -5*in/4 || r.PackMost != 3*in/4 {
		t.Errorf("half the grade: %v to %v, packing to %v", r.SetLeft, r.SetRight, r.PackMost)
	}
}

// stepped is an open wall whose top is 8 in higher on its second run.
func stepped(rise length.Length) *job.Job {
	a, b := run("A", 240*in, 0), run("B", 240*in, 0)
	a.Right = job.End{Kind: job.EndStep, Step: rise}
	b.Right = job.End{Kind: job.EndFree}
	for i := range b.Readings {
		b.Readings[i].TopOutside, b.Readings[i].TopInside = rise, rise-in/8
	}
	j := jobtest.Job()
	p := jobtest.Perimeter("P", job.Open, a, b)
	p.Starts.Kind = job.EndWall
	j.Perimeters = []job.Perimeter{p}
	return j
}

func TestStep(t *testing.T) {
	for _, c := range []struct {
		rise      length.Length
		low, high job.EndKind
	}{{8 * in, job.EndWall, job.EndFree}, {-8 * in, job.EndFree, job.EndWall}} {
		p, found := build(t, stepped(c.rise))
		a, b := p[0].Runs[0], p[0].Runs[1]
		if len(found) > 0 {
			t.Errorf("found %v", found)
		}
		if a.Right.Kind != c.low || b.Left.Kind != c.high || a.Right.Step.Beyond != b || b.Left.Step.Beyond != a || b.Left.Step.Rise != -c.rise {
			t.Errorf("ends %+v and %+v", a.Right, b.Left)
		}
		if a.SetLeft != 0 || a.SetRight != 0 || b.SetLeft != c.rise || b.SetRight != c.rise || a.PackMost != 0 || b.PackMost != in/8 {
			t.Errorf("set at %v to %v and %v to %v", a.SetLeft, a.SetRight, b.SetLeft, b.SetRight)
		}
		if len(p[0].Corners) != 0 || b.Start.Y != 0 || b.Start.X != 240*in || a.Cap != 240*in-in/8+a.Right.Ext {
			t.Errorf("corners %d, B begins at %v, cap line %v", len(p[0].Corners), b.Start, a.Cap)
		}
	}
	holds := func(j *job.Job) (codes []string) {
		_, found := build(t, j)
		for _, f := range found {
			if f.Severity == finding.Hold && !slices.Contains(codes, f.Code) {
				codes = append(codes, f.Code)
			}
		}
		return codes
	}
	j := stepped(8 * in)
	j.Perimeters[0].Runs[0].Right.Step = 12 * in
	if got := holds(j); !slices.Equal(got, []string{"step-differs"}) {
		t.Errorf("a step the readings do not show: %v", got)
	}
	if got := holds(stepped(3 * in)); !slices.Equal(got, []string{"step-low"}) {
		t.Errorf("a step lower than the upstand: %v", got)
	}
}

// A loop with two steps has two set surfaces, wherever it begins.
func TestStepsInALoop(t *testing.T) {
	high := func(r job.Run) job.Run {
		for i := range r.Readings {
			r.Readings[i].TopOutside, r.Readings[i].TopInside = 10*in, 10*in
		}
		return r
	}
	step := func(r job.Run, rise length.Length) job.Run {
		r.Right = job.End{Kind: job.EndStep, Step: rise}
		return r
	}
	loop := []job.Run{step(run("A", 200*in, 0), 10*in), high(run("E", 280*in, 90)), high(run("B", 240*in, 90)),
		high(step(run("C", 280*in, 0), -10*in)), run("F", 200*in, 90), run("D", 240*in, 90)}
	for k := range loop {
		j := testJob(append(slices.Clone(loop[k:]), loop[:k]...)...)
		p, found := build(t, j)
		if len(found) > 0 {
			t.Fatalf("%v", found)
		}
		for _, r := range p[0].Runs {
			want := length.Length(0)
			if r.Job.Readings[0].TopOutside > 0 {
				want = 10 * in
			}
			if r.SetLeft != want || r.SetRight != want || r.PackMost != 0 {
				t.Errorf("from run %s: run %s is set at %v to %v", loop[k].Name, r.Name, r.SetLeft, r.SetRight)
			}
		}
	}
}

// furnished draws a job with a grade, sheets, nails and perhaps a step.
func furnished(t *rapid.T) *job.Job {
	j := jobtest.Random(t)
	j.Packing.Sheet = job.Sheet{Width: 48 * in, Length: 96 * in, Kerf: in / 8}
	j.Packing.Nail = job.LayerNail{Name: "nail", Spacing: 12 * in, Rows: 2}
	j.Packing.Twist = in
	if rapid.Bool().Draw(t, "grade") {
		j.Packing.Grade = job.Slope(rapid.IntRange(100_000, 20_000_000).Draw(t, "slope"))
	}
	return j
}

// Whatever the wall: it is packed everywhere by the least, its set surface is
// continuous and no steeper than allowed, its zones cover each run once and
// cross no building expansion joint, and every strip is cut from a sheet.
func TestPackingOfRandomWalls(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := furnished(t)
		ps, _ := Build(j, length.Inch16)
		for _, p := range ps {
			n := len(p.Runs)
			var all []*Strip
			for i, r := range p.Runs {
				if next := p.Runs[(i+1)%n]; (i+1 < n || p.Closed()) && r.Right.Step == nil && next.SetLeft != r.SetRight {
					t.Fatalf("the surface jumps from %v to %v behind run %s", r.SetRight, next.SetLeft, r.Name)
				}
				most := j.Packing.Grade.Rise(r.Front) + r.Front/2_000_000_000 + 1
				if g := r.Job.Grade; g != nil {
					most = g.Most.Rise(r.Front)
					if up := r.SetRight - r.SetLeft; g.Way == job.Rising && up < 0 || g.Way == job.Falling && up > 0 {
						t.Fatalf("run %s may go %s and rises by %v", r.Name, g.Way, up)
					}
				}
				if rise := length.Abs(r.SetRight - r.SetLeft); rise > most {
					t.Fatalf("run %s rises by %v over %v", r.Name, rise, r.Front)
				}
				packed(t, j, r)
				covered(t, j, r, r.BuildUp(j.Packing.Method, nil))
				zones := r.BuildUp(job.PackContinuous, [][2]length.Length{{r.Front / 3, r.Front/3 + 13*in}})
				covered(t, j, r, zones)
				laid := r.Lay(zones, j.System.Remainder, length.Inch16)
				lies(t, r, zones, laid)
				for k := range laid {
					all = append(all, &laid[k])
				}
			}
			ripped(t, j.Packing.Sheet, all)
		}
	})
}

func packed(t *rapid.T, j *job.Job, r *Run) {
	for _, q := range r.Readings {
		if q.PackFront < j.Packing.Least || q.PackRear < j.Packing.Least {
			t.Fatalf("run %s at %v: packing %v and %v", r.Name, q.Station, q.PackFront, q.PackRear)
		}
	}
	if len(r.Readings) == 0 {
		return
	}
	for k := range length.Length(40) {
		q := r.At((r.Front+4*in)*k/39 - 2*in)
		if q.PackFront < j.Packing.Least-1 || q.PackRear < j.Packing.Least-1 { // a nanometre for what is between two readings
			t.Fatalf("run %s at %v: packing %v and %v", r.Name, q.Station, q.PackFront, q.PackRear)
		}
	}
}

func covered(t *rapid.T, j *job.Job, r *Run, zones []ShimZone) {
	at := length.Length(0)
	for _, z := range zones {
		if z.From != at || z.To <= z.From {
			t.Fatalf("run %s: a zone from %v to %v follows %v", r.Name, z.From, z.To, at)
		}
		for _, e := range r.Job.Expansion {
			if s := r.FrontStation(e.Station); s > z.From && s < z.To {
				t.Fatalf("run %s: a zone from %v to %v crosses the expansion joint at %v", r.Name, z.From, z.To, s)
			}
		}
		if least := length.Min(z.FrontLeast, z.RearLeast); least < -1 && len(r.Readings) > 0 && z.Layers > 0 && least < -j.Packing.Layer {
			t.Fatalf("run %s: the layers of zone %v stand out of the surface", r.Name, z)
		}
		if len(r.Readings) > 0 {
			end := z.From
			for _, x := range z.Tapers {
				if x.From != end || x.FrontFrom < 0 || x.RearTo < 0 {
					t.Fatalf("run %s: tapers %+v of the zone from %v", r.Name, z.Tapers, z.From)
				}
				end = x.To
			}
			if end != z.To {
				t.Fatalf("run %s: the tapers end at %v, the zone at %v", r.Name, end, z.To)
			}
		}
		at = z.To
	}
	if at != length.Max(r.Front, 0) {
		t.Fatalf("run %s: the zones end at %v of %v", r.Name, at, r.Front)
	}
}

func lies(t *rapid.T, r *Run, zones []ShimZone, laid []Strip) {
	var want, got length.Length
	for _, z := range zones {
		want += (z.To - z.From) * length.Length(z.Layers)
	}
	for i, s := range laid {
		got += s.Length()
		if s.Length() <= 0 || s.Length() > r.packing.Sheet.Length || s.Width > r.At(s.From).Width || s.Width > r.At(s.To).Width {
			t.Fatalf("run %s: strip %+v", r.Name, s)
		}
		if i > 0 && laid[i-1].Layer == s.Layer && laid[i-1].To > s.From {
			t.Fatalf("run %s: strips %+v and %+v overlap", r.Name, laid[i-1], s)
		}
		for _, e := range r.Job.Expansion {
			if x := r.FrontStation(e.Station); x > s.From && x < s.To {
				t.Fatalf("run %s: strip %+v crosses the expansion joint at %v", r.Name, s, x)
			}
		}
	}
	if len(r.Readings) > 0 && got != want {
		t.Fatalf("run %s: strips of %v in all for layers of %v", r.Name, got, want)
	}
}

func ripped(t *rapid.T, s job.Sheet, all []*Strip) {
	sheets, _, least := RipPlan(all, s)
	if len(sheets) < least {
		t.Fatalf("%d sheets, and no plan has fewer than %d", len(sheets), least)
	}
	left := map[[2]int][]length.Length{}
	for _, p := range all {
		left[[2]int{p.Sheet, p.Rip}] = append(left[[2]int{p.Sheet, p.Rip}], p.Length())
	}
	for i, h := range sheets {
		wide := -s.Kerf
		for k, r := range h.Rips {
			wide += r.Width + s.Kerf
			long := length.Sum(r.Cuts...) + s.Kerf*length.Length(len(r.Cuts)-1)
			mine := left[[2]int{i + 1, k + 1}]
			slices.Sort(mine)
			cuts := slices.Clone(r.Cuts)
			slices.Sort(cuts)
			if long > s.Length || !slices.Equal(mine, cuts) {
				t.Fatalf("sheet %d, rip %d: %v, strips %v", i+1, k+1, r.Cuts, mine)
			}
			delete(left, [2]int{i + 1, k + 1})
		}
		if wide > s.Width {
			t.Fatalf("sheet %d: rips of %v in all", i+1, wide)
		}
	}
	if len(left) > 0 {
		t.Fatalf("strips from no sheet: %v", left)
	}
}
