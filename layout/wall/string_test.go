package wall

import (
	"math"
	"strings"
	"testing"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall/minimax"

	"pgregory.net/rapid"
)

// square is a roof of four sides of 240 in, nine readings each at 30 in.
func square() *job.Job {
	return testJob(run("A", 240*in, 90), run("B", 240*in, 90), run("C", 240*in, 90), run("D", 240*in, 90))
}

// leaning makes run A bow to the street on its left half and from it on its
// right, so that its best line leans by half an inch.
func leaning(j *job.Job) {
	q := j.Perimeters[0].Runs[0].Readings
	for i, v := range []length.Length{0, 8, 8, 8, 0, -8, -8, -8, 0} {
		q[i].Offset = v * length.Inch16
	}
}

func codesOf(found finding.List) string {
	var out []string
	for _, f := range found {
		if len(out) == 0 || out[len(out)-1] != f.Code {
			out = append(out, f.Code)
		}
	}
	return strings.Join(out, " ")
}

func TestLineLeansWithTheWall(t *testing.T) {
	j := square()
	leaning(j)
	p, found := build(t, j)
	if found.Count(finding.Error)+found.Count(finding.Hold) > 0 {
		t.Fatal(found)
	}
	r := p[0].Runs[0]
	// Through (90, 1/2) and (240, 0): 1/2 falls over 150 in, which leaves 0.8 in
	// at (0, 0) and at (150, -1/2) alike; 13/16 on the grid.
	if r.Line.Left != 13*length.Inch16 || r.Line.Right != 0 || r.Line.GapMost != 13*length.Inch16 || r.Line.GapMostAt != 0 {
		t.Errorf("line %+v", r.Line)
	}
	if r.Line.Parallel != in || r.Line.Bow != in/2 {
		t.Errorf("line %+v", r.Line)
	}
	for _, q := range r.Readings {
		if q.Gap < 0 || q.Gap > r.Line.GapMost {
			t.Errorf("gap %v at %v", q.Gap, q.Station)
		}
	}
	// tan(tilt) = 13/16 in 240 in, 0.194 degrees.
	c, d := p[0].Corners[0], p[0].Corners[3]
	if c.CapTurn != 89_810_000 || d.CapTurn != 90_190_000 || c.Turn != 90*job.Degree {
		t.Errorf("turns %v and %v", c.CapTurn, d.CapTurn)
	}
	j.System.Corner.AnglePlay = job.Degree / 4
	p, _ = build(t, j)
	if c := p[0].Corners[0]; c.CapTurn != 90*job.Degree || c.Lines != 89_810_000 {
		t.Errorf("within the play: %v, lines %v", c.CapTurn, c.Lines)
	}
}

func TestLineParallelAndHeld(t *testing.T) {
	j := square()
	leaning(j)
	r := &j.Perimeters[0].Runs[0]
	r.Line.Kind = job.LineParallel
	p, _ := build(t, j)
	if l := p[0].Runs[0].Line; l.Left != in/2 || l.Right != in/2 || l.GapMost != in || l.Held {
		t.Errorf("parallel: %+v", l)
	}
	r.Line = job.Line{Kind: job.LineHeld, Left: in, Right: in / 2}
	p, found := build(t, j)
	if l := p[0].Runs[0].Line; l.Left != in || l.Right != in/2 || !l.Held || len(found.Holds()) > 0 {
		t.Errorf("held: %+v, %v", l, found)
	}
	r.Line = job.Line{Kind: job.LineHeld, Left: in / 2}
	_, found = build(t, j)
	h := found.Holds()
	if codesOf(h) != "line-not-clear" || len(h) != 3 {
		t.Fatalf("%v", found)
	}
	if f := h[0]; f.Where.Station != 30*in || !contains(f.What, `0'-0 1/16"`) {
		t.Errorf("%v", f)
	}
}

func TestHeldLinesAtAKink(t *testing.T) {
	j := testJob(run("A", 240*in, 5), run("A2", 240*in, 85), run("B", 240*in, 90), run("C", 400*in, 90), run("D", 240*in, 90))
	j.Perimeters[0].MisclosureLength = 1000 * in
	j.Perimeters[0].Runs[0].Line = job.Line{Kind: job.LineHeld, Left: in / 4, Right: in / 2}
	p, found := build(t, j)
	if len(found.Holds()) > 0 || p[0].Runs[1].ShiftAt(0) != in/2 {
		t.Errorf("the neighbour's line %+v, %v", p[0].Runs[1].Line, found)
	}
	j.Perimeters[0].Runs[1].Line = job.Line{Kind: job.LineHeld, Left: in, Right: in}
	if _, found = build(t, j); codesOf(found.Holds()) != "line-kink" {
		t.Errorf("%v", found)
	}
}

// Corner points against the plain way: two points on each line, and where the
// lines through them cross.
func TestExtensionAgainstPlainGeometry(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		deg := rapid.Float64Range(20, 150).Draw(t, "turn")
		if rapid.Bool().Draw(t, "left") {
			deg = -deg
		}
		turn := job.Angle(deg * float64(job.Degree))
		own := Strung{length.Length(rapid.IntRange(-32, 64).Draw(t, "out")) * length.Inch16, rapid.Float64Range(-0.05, 0.05).Draw(t, "tilt")}
		other := Strung{length.Length(rapid.IntRange(-32, 64).Draw(t, "other out")) * length.Inch16, rapid.Float64Range(-0.05, 0.05).Draw(t, "other tilt")}
		a := radians(turn)
		// y to the roof. The own wall comes in along x; the other's goes out at the turn.
		x1, y1 := 0.0, -own.Out.MM()
		x2, y2 := -1.0, -own.Out.MM()+math.Tan(own.Tilt)
		x3, y3 := other.Out.MM()*math.Sin(a), -other.Out.MM()*math.Cos(a)
		o := other.Out.MM() - math.Tan(other.Tilt)
		x4, y4 := math.Cos(a)+o*math.Sin(a), math.Sin(a)-o*math.Cos(a)
		den := (x1-x2)*(y3-y4) - (y1-y2)*(x3-x4)
		px := ((x1*y2-y1*x2)*(x3-x4) - (x1-x2)*(x3*y4-y3*x4)) / den
		py := ((x1*y2-y1*x2)*(y3-y4) - (y1-y2)*(x3*y4-y3*x4)) / den
		want := math.Hypot(px-x1, py-y1)
		if px < x1 {
			want = -want
		}
		if got := Extension(own, other, turn).MM(); math.Abs(got-want) > 1e-4 {
			t.Fatalf("%v, plainly %v", got, want)
		}
	})
}

// Every line clears the wall, leaves at most a step more than the exact line
// and never more than the parallel one; the turns between the lines of a closed
// perimeter sum as its walls' do.
func TestLinesOfRandomWalls(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := square()
		for i := range j.Perimeters[0].Runs {
			q := j.Perimeters[0].Runs[i].Readings
			for k := range q[1 : len(q)-1] {
				q[k+1].Offset = length.Length(rapid.IntRange(-16, 16).Draw(t, "offset")) * length.Inch32
			}
		}
		walls, _ := Build(j, length.Inch16)
		var sum job.Angle
		for _, r := range walls[0].Runs {
			var points []minimax.Point
			for _, q := range r.Readings {
				points = append(points, minimax.Point{X: q.Station, Y: q.Offset})
				if q.Gap < 0 {
					t.Fatalf("run %s passes %v inside the wall at %v", r.Name, q.Gap, q.Station)
				}
			}
			var exact length.Length
			best := minimax.Above(points)
			for _, p := range points {
				exact = length.Max(exact, best.Gap(p))
			}
			if r.Line.GapMost > exact+length.Inch16 || r.Line.GapMost > r.Line.Parallel {
				t.Fatalf("run %s: greatest gap %v, the exact line's %v, the parallel's %v", r.Name, r.Line.GapMost, exact, r.Line.Parallel)
			}
			sum += r.Right.Corner.Lines
		}
		if sum != 360*job.Degree {
			t.Fatalf("the lines turn by %v", sum)
		}
	})
}
