package shop_test

import (
	"math"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"
	"copingset/layout/shop"

	"pgregory.net/rapid"
)

// lapJob is a job of one corner whose seam is lapped.
func lapJob(turn job.Angle, set func(*job.Job)) *job.Job {
	j := jobtest.Job()
	j.Shop = tools()
	p := jobtest.Perimeter("ANY", job.Open, jobtest.Run("A", 300*in, turn), jobtest.Run("B", 300*in, 0))
	p.Starts = job.End{Kind: job.EndFree}
	p.Runs[1].Right = job.End{Kind: job.EndFree}
	j.Perimeters = []job.Perimeter{p}
	j.Shop.Seam = &job.SeamRules{Process: job.Solder, Lap: &job.SeamLap{Width: in, Clear: in / 8, Jogged: true, Jog: in / 4}}
	j.System.Profile.FrontLeg.Length, j.System.Profile.RearLeg.Length = 6*in, 4*in
	set(j)
	return j
}

func cornerOf(l *layout.Layout) *layout.Family {
	for _, f := range l.Families {
		if f.Kind == cap.Corner {
			return f
		}
	}
	return nil
}

// crossings are where a level line crosses an outline, ascending.
func crossings(ring []fold.Point, y float64) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if (a.Y > y) != (b.Y > y) {
			x := a.X + (y-a.Y)/(b.Y-a.Y)*(b.X-a.X)
			lo, hi = math.Min(lo, x), math.Max(hi, x)
		}
	}
	return lo, hi
}

// wall is a plumb leg in plan, its metal as points on both faces. It runs to the
// corner of the finish faces, which is the origin, along +x, the finish at -y; a tab
// is bent from the pattern's own bend line.
func wall(end, thick, finish float64, tab *fold.BendLine, at func(x float64) float64, tip float64) []fold.Point {
	var out []fold.Point
	add := func(p fold.Point, back fold.Point) {
		for k := range 3 {
			f := float64(k) / 2
			out = append(out, fold.Point{X: p.X + (back.X-p.X)*f, Y: p.Y + (back.Y-p.Y)*f})
		}
	}
	stop := end
	if tab != nil {
		stop = at(tab.From.X) - tab.Arc/2
	}
	for x := stop - 8; x < stop; x += 0.1 {
		add(fold.Point{X: x, Y: 0}, fold.Point{X: x, Y: finish * thick})
	}
	if tab == nil {
		add(fold.Point{X: stop, Y: 0}, fold.Point{X: stop, Y: finish * thick})
		return out
	}
	// DOWN, away from the finish: towards the back, finish outside.
	r, way := tab.Radius, 1.0
	outer, inner := r+thick, r
	if tab.Turn > 0 {
		way = -1
		outer, inner = r, r+thick // of the finish face and of the back
	}
	back := finish // +1: the back lies at +y
	c := fold.Point{X: stop, Y: way * back * outer}
	for k := range 61 {
		a := math.Abs(tab.Turn) * math.Pi / 180 * float64(k) / 60
		u := fold.Point{X: math.Sin(a), Y: -way * back * math.Cos(a)}
		add(fold.Point{X: c.X + u.X*outer, Y: c.Y + u.Y*outer}, fold.Point{X: c.X + u.X*inner, Y: c.Y + u.Y*inner})
	}
	a := math.Abs(tab.Turn) * math.Pi / 180
	u := fold.Point{X: math.Sin(a), Y: -way * back * math.Cos(a)}
	d := fold.Point{X: math.Cos(a), Y: way * back * math.Sin(a)}
	long := tip - at(tab.From.X) - tab.Arc/2
	for x := 0.0; x <= long+1e-9; x += long / 250 {
		add(fold.Point{X: c.X + u.X*outer + d.X*x, Y: c.Y + u.Y*outer + d.Y*x}, fold.Point{X: c.X + u.X*inner + d.X*x, Y: c.Y + u.Y*inner + d.Y*x})
	}
	return out
}

// lapOf folds the written pattern of both legs of a corner at the middle of their
// front or rear legs, and tells their least distance and how far one lies over.
func lapOf(t *rapid.T, f *layout.Family, j *job.Job, face string, cover job.Side) (gap, over float64) {
	thick := j.System.Metal.Thickness.MM()
	turn := f.Pieces[0].Miters[0].Corner.CapTurn.Degrees()
	away := (face == "front leg") == (turn > 0)
	var walls [2][]fold.Point
	var bodies []layout.Body
	for _, b := range f.Bodies {
		if strings.HasSuffix(b.Name, " leg") {
			bodies = append(bodies, b)
		}
	}
	for i, b := range bodies[:2] {
		lay := b.Metal.Path.Lay()
		seg := b.Metal.Path.Root - 1
		if face == "rear leg" {
			seg += 2
		}
		from, to := lay.Span(seg)
		y := b.Metal.Path.Girth() - (from+to)/2
		lo, hi := crossings(b.Flat.Outline, y)
		var at func(x float64) float64
		end, tip := hi, hi
		// The corner of the finish faces, from the top's own butt at that fold.
		skin, _ := lay.Skins((from + to) / 2)
		cut, right := b.Metal.Right, true
		if i == 1 {
			cut, right = b.Metal.Left, false
		}
		corner := cut.Seam(skin.X, skin.Y, 0)
		shift := patternShift(b)
		if right {
			at = func(x float64) float64 { return x - corner - shift }
		} else {
			at = func(x float64) float64 { return -(x - corner - shift) }
			end, tip = lo, lo
		}
		var tab *fold.BendLine
		for k := range b.Flat.Bends {
			if b.Flat.Bends[k].Between[1] == face+" tab" {
				tab = &b.Flat.Bends[k]
			}
		}
		if covers := (i == 0) == (cover == job.Left); covers != (tab == nil) {
			t.Fatalf("%s, leg %d: tab %v, and %v covers", face, i, tab != nil, cover)
		}
		walls[i] = wall(at(end), thick, 1, tab, at, at(tip))
		if !away { // the finish lies the other way
			for k := range walls[i] {
				walls[i][k].Y = -walls[i][k].Y
			}
		}
	}
	// The second leg leaves the corner turned by the angle between the legs: it is
	// told as if it arrived, so it is mirrored and turned.
	a := math.Abs(turn) * math.Pi / 180
	for k, p := range walls[1] {
		// -x runs away from the corner; the back lies at +y for legs that turn away.
		q := fold.Point{X: -p.X, Y: p.Y}
		walls[1][k] = fold.Point{X: q.X*math.Cos(a) - q.Y*math.Sin(a), Y: q.X*math.Sin(a) + q.Y*math.Cos(a)}
	}
	gap = math.Inf(1)
	for _, p := range walls[0] {
		for _, q := range walls[1] {
			gap = math.Min(gap, math.Hypot(p.X-q.X, p.Y-q.Y))
		}
	}
	// Along the covering leg, from where it ends to where the tab ends.
	coverAt, coveredAt := walls[0], walls[1]
	u := fold.Point{X: -1}
	if cover == job.Right {
		coverAt, coveredAt = walls[1], walls[0]
		u = fold.Point{X: math.Cos(a), Y: math.Sin(a)}
	}
	least, most := math.Inf(1), math.Inf(-1)
	for _, p := range coverAt {
		least = math.Min(least, p.X*u.X+p.Y*u.Y)
	}
	for _, p := range coveredAt {
		if c := p.X*u.X + p.Y*u.Y; c > most {
			most = c
		}
	}
	return gap, most - least
}

// patternShift is how far a body's pattern was moved along its length.
func patternShift(b layout.Body) float64 {
	raw, err := b.Metal.Pattern(0.05)
	if err != nil {
		return math.NaN()
	}
	lo, _ := raw.Bounds()
	return -lo.X
}

// Whatever the corner, its hand and the hand that covers, the tabs of a lap stand
// the gap behind the leg that lies over them, no metal stands in other metal, and
// the lap is as wide as the job says.
func TestLapsFoldBehindTheLegOverThem(t *testing.T) {
	seen := 0
	draws.Check(t, 25, func(r *rapid.T) {
		turn := job.Angle(rapid.IntRange(25, 130).Draw(r, "turn")) * job.Degree
		if rapid.Bool().Draw(r, "inside") {
			turn = -turn
		}
		cover := job.Side(rapid.IntRange(0, 1).Draw(r, "cover"))
		j := lapJob(turn, func(j *job.Job) {
			j.Shop.Seam.Lap.Cover = cover
			j.Shop.WeldGap = length.FromMM(float64(rapid.IntRange(0, 8).Draw(r, "gap")) / 10)
			j.Shop.Relief = job.Relief{}
		})
		l, found := layout.Build(j)
		if found.HasErrors() {
			r.Skip("not a layout")
		}
		f := cornerOf(l)
		if f == nil || len(f.Bodies) == 0 {
			r.Skip("no corner")
		}
		if f.Twin != nil || f.Covering == cap.NoHand {
			r.Fatalf("twin %v, covering %v", f.Twin, f.Covering)
		}
		for _, face := range []string{"front leg", "rear leg"} {
			gap, over := lapOf(r, f, j, face, cover)
			if want := j.Shop.WeldGap.MM(); math.Abs(gap-want) > 0.06 {
				r.Errorf("turn %v: the %s stands %.3f mm off, want %.3f", turn.Degrees(), face, gap, want)
			}
			if want := j.Shop.Seam.Lap.Width.MM(); math.Abs(over-want) > 0.06 {
				r.Errorf("turn %v: the %s laps %.3f mm, want %.3f", turn.Degrees(), face, over, want)
			}
		}
		seen++
	})
	t.Logf("%d corners", seen)
	if seen == 0 {
		t.Error("no lap folded")
	}
}

// A front hem of another kind than the report's is a hold on the piece; the report's
// own, whatever its kind, is none.
func TestFrontHemIsTheReports(t *testing.T) {
	for _, c := range []struct {
		hem, tested job.HemKind
		hold        bool
	}{{job.ClosedHem, job.ClosedHem, false}, {job.OpenHem, job.ClosedHem, true}, {job.OpenHem, job.OpenHem, false}, {job.TeardropHem, job.TeardropHem, false}, {job.ClosedHem, job.TeardropHem, true}} {
		j := lapJob(90*job.Degree, func(j *job.Job) {
			j.Shop.Seam = nil
			p := &j.System.Profile
			p.HemReturn, p.HemKind, p.HemInside = 3*in/8, c.hem, in/32
			p.Drip.Length, p.RearHook.Length = in, in
			for i := range j.Assemblies {
				j.Assemblies[i].FrontHem = c.tested
			}
		})
		_, found := layout.Build(j)
		held := false
		for _, f := range found {
			held = held || f.Code == "hem-not-tested"
			if f.Code == "metal-in-metal" || f.Code == "cannot-unfold" {
				t.Errorf("%v hem: %v", c.hem, f)
			}
		}
		if held != c.hold {
			t.Errorf("hem %v, tested %v: held %v\n%v", c.hem, c.tested, held, found)
		}
	}
}

// Where a lap turns square the covered leg ends the thickness short of the outer line,
// and the one that lies over it at the line itself: the flush lap of two plumb sheets,
// as printed for sheets of .040, .050, .063 and .0276 in at 90 degrees, T tan 45.
func TestSquareLapsAreFlush(t *testing.T) {
	for _, c := range []struct{ thick, short float64 }{{.040, .0400}, {.050, .0500}, {.063, .0630}, {.0276, .0276}} {
		cover, covered := shop.LapEnds(c.thick, 90)
		if math.Abs(cover) > 1e-9 || math.Abs(covered-c.short) > 0.00005 {
			t.Errorf("%.4f in: the leg over it ends %.4f short, the covered one %.4f, printed %.4f", c.thick, cover, covered, c.short)
		}
	}
}

// Rivets of a lap meet: as many holes in the tabs as in the leg over them, at the same
// heights, and in the front tab as far from its edge as the lap leaves behind the row.
func TestRivetsOfALapMeet(t *testing.T) {
	j := lapJob(90*job.Degree, func(j *job.Job) {
		j.Shop.Seam.Process = job.RivetAndSeal
		j.Shop.Seam.Rivets = &job.Rivets{Diameter: in / 8, Edge: 3 * in / 8, Pitch: 2 * in}
	})
	l, found := layout.Build(j)
	if found.HasErrors() {
		t.Fatal(found)
	}
	var heights [2][]float64
	var rows [2][]shop.Drill
	for _, b := range cornerOf(l).Bodies {
		k := 0
		switch b.Name {
		case "left leg":
		case "right leg":
			k = 1
		default:
			continue
		}
		if b.Riveted == 0 || b.Riveted != len(b.Drills) {
			t.Fatalf("%s: %d rivets, %d drills", b.Name, b.Riveted, len(b.Drills))
		}
		rows[k] = b.Drills
		lay := b.Metal.Path.Lay()
		from, to := lay.Span(b.Metal.Path.Root - 1)
		for _, d := range b.Drills {
			s := b.Metal.Path.Girth() - d.At.Y
			if s < from || s > to {
				continue
			}
			heights[k] = append(heights[k], s)
			lo, hi := crossings(b.Flat.Outline, d.At.Y)
			off := hi - d.At.X // of the leg that lies over, at its right end
			want := j.Shop.Seam.Rivets.Edge.MM()
			if k == 1 {
				off, want = d.At.X-lo, (j.Shop.Seam.Lap.Width - j.Shop.Seam.Rivets.Edge).MM()
			}
			if math.Abs(off-want) > 0.01 {
				t.Errorf("%s: a rivet %.3f mm from its edge, want %.3f", b.Name, off, want)
			}
		}
	}
	if len(rows[0]) != len(rows[1]) || len(heights[0]) < 3 || len(heights[0]) != len(heights[1]) {
		t.Fatalf("%d and %d rivets, %d and %d of the front", len(rows[0]), len(rows[1]), len(heights[0]), len(heights[1]))
	}
	for i := range heights[0] {
		if math.Abs(heights[0][i]-heights[1][i]) > 1e-6 {
			t.Errorf("rivet %d at %.3f and at %.3f", i, heights[0][i], heights[1][i])
		}
		if i > 0 && math.Abs(heights[0][i]-heights[0][i-1]) > 2*25.4+1e-6 {
			t.Errorf("rivets %.3f mm apart", heights[0][i]-heights[0][i-1])
		}
	}
}
