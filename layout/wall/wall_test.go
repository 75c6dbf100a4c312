package wall

import (
	"testing"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

const in = length.Inch

func run(name string, l length.Length, deg job.Angle) job.Run {
	return jobtest.Run(name, l, deg*job.Degree)
}

func testJob(runs ...job.Run) *job.Job {
	j := jobtest.Job()
	j.Perimeters = []job.Perimeter{jobtest.Perimeter("P", job.Roof, runs...)}
	return j
}

func build(t *testing.T, j *job.Job) ([]*Perimeter, finding.List) {
	t.Helper()
	p, found := Build(j, length.Inch16)
	return p, found
}

// The corner points of the cap lines round a square roof: each side is longer
// than its wall by clearance, metal and bow of its neighbours.
func TestCapLineIsLongerThanTheWall(t *testing.T) {
	j := testJob(run("A", 480*in, 90), run("B", 240*in, 90), run("C", 480*in, 90), run("D", 240*in, 90))
	j.Perimeters[0].Runs[1].Readings[4].Offset = in / 2 // B bows half an inch to the street
	p, found := build(t, j)
	if len(found) > 0 {
		t.Fatal(found)
	}
	// Clearance 1/4 and metal 0.050: 0.30 in, 5/16 on the grid; with B's bow 0.80, 13/16.
	a, b := p[0].Runs[0], p[0].Runs[1]
	if a.Right.Ext != 13*length.Inch16 || a.Left.Ext != 5*length.Inch16 || a.Cap != 480*in+18*length.Inch16 {
		t.Errorf("run A: extensions %v and %v, cap line %v", a.Left.Ext, a.Right.Ext, a.Cap)
	}
	if b.Left.Ext != 5*length.Inch16 || b.ShiftAt(b.Front) != in/2 || b.Need != 12*in+in/2 {
		t.Errorf("run B: extension %v, shift %v, need %v", b.Left.Ext, b.ShiftAt(b.Front), b.Need)
	}
	if a.Need != 12*in {
		t.Errorf("run A: need %v", a.Need)
	}
}

func TestInsideCornerShortensTheCapLine(t *testing.T) {
	j := testJob(run("A", 240*in, 90), run("B", 240*in, 90), run("C", 120*in, -90), run("D", 120*in, 90), run("E", 120*in, 90), run("F", 360*in, 90))
	p, found := build(t, j)
	if len(found) > 0 {
		t.Fatal(found)
	}
	c := p[0].Runs[2]
	if c.Left.Ext != 5*length.Inch16 || c.Right.Ext != -5*length.Inch16 || c.Cap != c.Front {
		t.Errorf("run C: extensions %v, %v, cap line %v", c.Left.Ext, c.Right.Ext, c.Cap)
	}
}

// A length measured on the rear face is brought to the front with both
// neighbours' widths.
func TestRearLengths(t *testing.T) {
	j := testJob(run("A", 480*in, 90), run("B", 240*in, 90), run("C", 480*in, 90), run("D", 240*in, 90))
	a := &j.Perimeters[0].Runs[0]
	a.Face, a.StationFace, a.Length = job.Rear, job.Rear, 480*in-20*in
	for i := range a.Readings {
		a.Readings[i].Station = length.Min(a.Readings[i].Station, a.Length)
	}
	for _, k := range []int{1, 3} { // the neighbours are 10 in thick
		for i := range j.Perimeters[0].Runs[k].Readings {
			j.Perimeters[0].Runs[k].Readings[i].Width = 10 * in
		}
	}
	p, found := build(t, j)
	if len(found) > 0 {
		t.Fatal(found)
	}
	r := p[0].Runs[0]
	if r.Front != 480*in || r.Readings[0].Station != 10*in {
		t.Errorf("front %v, first station %v", r.Front, r.Readings[0].Station)
	}
}

// The survey line's own distance from the corners is taken out where readings
// stand at both of them.
func TestSurveyLineStandsOff(t *testing.T) {
	j := testJob(run("A", 240*in, 90), run("B", 240*in, 90), run("C", 240*in, 90), run("D", 240*in, 90))
	q := j.Perimeters[0].Runs[0].Readings
	for i := range q {
		q[i].Offset = -2*in + length.MulDiv(in, int64(q[i].Station), int64(240*in)) // string 2 in off at one end, 1 in at the other
	}
	q[3].Offset += 3 * in / 8
	p, _ := build(t, j)
	if r := p[0].Runs[0]; r.Line.Left != 3*in/8 || r.Line.Right != 3*in/8 || r.Line.GapMost != 3*in/8 {
		t.Errorf("line %+v", r.Line)
	}
}

func TestLowReadingsCount(t *testing.T) {
	j := testJob(run("A", 240*in, 90), run("B", 240*in, 90), run("C", 240*in, 90), run("D", 240*in, 90))
	low, wide := -in/4, 12*in+in/2
	q := &j.Perimeters[0].Runs[0].Readings[3]
	q.OffsetLow, q.WidthLow = &low, &wide // base flashing: rear face 3/4 in further in at leg depth
	p, _ := build(t, j)
	if r := p[0].Runs[0]; r.Need != 12*in+3*in/4 {
		t.Errorf("need %v", r.Need)
	}
}

func TestKinksShareOneLine(t *testing.T) {
	j := testJob(run("A", 240*in, 5), run("A2", 240*in, 85), run("B", 240*in, 90), run("C", 400*in, 90), run("D", 240*in, 90))
	j.Perimeters[0].MisclosureLength = 1000 * in
	j.Perimeters[0].Runs[0].Readings[3].Offset = in / 2
	p, _ := build(t, j)
	if a, b := p[0].Runs[0], p[0].Runs[1]; a.ShiftAt(0) != in/2 || b.ShiftAt(0) != in/2 {
		t.Errorf("lines %+v and %+v", a.Line, b.Line)
	}
}

// misread is a roof of 17 by 20 ft whose first length was written 71'-0".
func misread() []job.Run {
	a := run("A", 204*in, 90)
	a.Length = 852 * in
	return []job.Run{a, run("B", 240*in, 90), run("C", 204*in, 90), run("D", 240*in, 90)}
}

func TestClosureFindings(t *testing.T) {
	cases := []struct {
		name string
		runs []job.Run
		kind job.Kind
		code string
		word string
	}{
		{"a missing turn", []job.Run{run("A", 240*in, 90), run("B", 240*in, 90), run("C", 240*in, 90), run("D", 240*in, 60)}, job.Roof, "turns-do-not-close", "330°"},
		{"read from the street", []job.Run{run("A", 240*in, -90), run("B", 240*in, -90), run("C", 240*in, -90), run("D", 240*in, -90)}, job.Roof, "turns-do-not-close", "well"},
		{"a roof called a well", []job.Run{run("A", 240*in, 90), run("B", 240*in, 90), run("C", 240*in, 90), run("D", 240*in, 90)}, job.Well, "turns-do-not-close", "roof"},
		{"a side too long", []job.Run{run("A", 240*in, 90), run("B", 240*in, 90), run("C", 246*in, 90), run("D", 240*in, 90)}, job.Roof, "does-not-close", "6\""},
		{"its direction", []job.Run{run("A", 240*in, 90), run("B", 240*in, 90), run("C", 246*in, 90), run("D", 240*in, 90)}, job.Roof, "does-not-close",
			"the end lies south (bearing 180°) of the start, along runs A, C"},
		{"what closes it", []job.Run{run("A", 240*in, 90), run("B", 240*in, 90), run("C", 252*in, 90), run("D", 240*in, 90)}, job.Roof, "does-not-close",
			"it closes with run A 1'-0\" (305 mm) longer, or run C 1'-0\" (305 mm) shorter"},
		{"two digits", []job.Run{run("A", 852*in, 90), run("B", 240*in, 90), run("C", 204*in, 90), run("D", 240*in, 90)}, job.Roof, "does-not-close",
			"it closes with run A with two digits changed over, 17'-0\" (5182 mm), or run C with two digits changed over, 71'-0\""},
		{"two digits, and the survey has it", misread(), job.Roof, "does-not-close",
			"it closes with run A with two digits changed over, 17'-0\" (5182 mm), where its own survey has its corner"},
		{"a turn swapped", []job.Run{run("A", 240*in, 90), run("B", 240*in, 90), run("C", 120*in, 90), run("D", 120*in, 90), run("E", 120*in, 90), run("F", 360*in, 90)},
			job.Roof, "turns-do-not-close", "look at corner C/D: the perimeter closes if right and left are swapped there, `turn: left 90`"},
		{"an included angle", []job.Run{run("A", 240*in, 120), run("B", 300*in, 120), run("C", 240*in, 60), run("D", 300*in, 120)},
			job.Roof, "turns-do-not-close", "look at corner A/B: the perimeter closes if the included angle was written for the turn, `turn: right 60`"},
		{"two turns changed", []job.Run{run("A", 240*in, 60), run("B", 300*in, 120), run("C", 240*in, 120), run("D", 300*in, 60)}, job.Roof, "does-not-close",
			"with the turns of corners"},
	}
	for _, c := range cases {
		j := testJob(c.runs...)
		j.Perimeters[0].Kind = c.kind
		_, found := build(t, j)
		ok := false
		for _, f := range found {
			ok = ok || f.Code == c.code && f.Severity == finding.Error && contains(f.String(), c.word)
		}
		if !ok {
			t.Errorf("%s: %v", c.name, found)
		}
	}
}

func contains(s, w string) bool {
	for i := 0; i+len(w) <= len(s); i++ {
		if s[i:i+len(w)] == w {
			return true
		}
	}
	return false
}

func TestShimZones(t *testing.T) {
	j := testJob(run("A", 240*in, 90), run("B", 240*in, 90), run("C", 240*in, 90), run("D", 240*in, 90))
	q := j.Perimeters[0].Runs[0].Readings
	for _, i := range []int{4, 5, 6} { // a dip of 7/8 in from station 10'-0" to 15'-0"
		q[i].TopOutside, q[i].TopInside = -7*in/8, -7*in/8
	}
	p, found := build(t, j)
	if len(found.Holds()) > 0 || found.HasErrors() {
		t.Fatal(found)
	}
	z := p[0].Runs[0].BuildUp(j.Packing.Method, nil)
	want := []struct {
		from, to length.Length
		layers   int
	}{{0, 120 * in, 0}, {120 * in, 180 * in, 1}, {180 * in, 240 * in, 0}}
	if len(z) != len(want) {
		t.Fatalf("zones %+v", z)
	}
	for i, w := range want {
		if z[i].From != w.from || z[i].To != w.to || z[i].Layers != w.layers {
			t.Errorf("zone %d: %+v, want %+v", i, z[i], w)
		}
	}
	if z[1].FrontLeast != 7*in/8-19*in/32 {
		t.Errorf("shims over the layer: %v", z[1].FrontLeast)
	}
}

func TestPackingOverIsAHoldAtItsStation(t *testing.T) {
	j := testJob(run("A", 240*in, 90), run("B", 240*in, 90), run("C", 240*in, 90), run("D", 240*in, 90))
	for _, i := range []int{3, 4} { // one alone would be a slip, and so would one edge alone
		q := &j.Perimeters[0].Runs[2].Readings[i]
		q.TopOutside, q.TopInside = -4*in, -4*in
	}
	_, all := build(t, j)
	found := all.Holds()
	if len(found) != 2 || found[0].Code != "packing-over" || found[0].Where.Run != "C" || found[0].Where.Station != 90*in {
		t.Errorf("%v", found)
	}
}

// With the slope made by packing the set surface falls towards the roof.
func TestSlopeByPacking(t *testing.T) {
	j := testJob(run("A", 240*in, 90), run("B", 240*in, 90), run("C", 240*in, 90), run("D", 240*in, 90))
	j.System.Profile.SlopeBy = job.SlopeByPacking
	j.System.Profile.TopSlope = 50_000_000 // 1 in 20
	p, _ := build(t, j)
	q := p[0].Runs[0].Readings[0]
	if q.PackFront != 12*in/20 || q.PackRear != 0 {
		t.Errorf("packing %v front, %v rear", q.PackFront, q.PackRear)
	}
}
