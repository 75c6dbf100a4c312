package shop_test

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"
	"copingset/layout/shop"

	"pgregory.net/rapid"
)

// withParts states every part there is.
func withParts(j *job.Job) *job.Job {
	j.System.RearClearance = 3 * in / 8 // its hook reaches in so far
	j.Shop = tools()
	r := in / 8
	j.Shop.PartSheets = []job.PartSheet{{Thickness: j.System.Chair.Thickness, ShopSheet: job.ShopSheet{Width: 60 * in, Length: 120 * in}}}
	s := &j.System
	s.Splice.Legs = job.Legs{Front: 2 * in, Rear: 3 * in / 2, Fit: in / 16}
	s.Expansion.Cover = &job.Cover{Over: true, Legs: job.Legs{Front: 3 * in, Rear: 5 * in / 2, Fit: in / 16}}
	s.Chair.Metal, s.Chair.RearEdge = s.Metal.Name, in/8
	s.Chair.Blank = &job.Blank{Stuff: job.Stuff{Metal: s.Metal.Name, Thickness: s.Chair.Thickness, Radius: &r}, HoleDia: 9 * in / 32, Inset: 3 * in / 2,
		Section: []job.Flange{{Name: "front web", Length: in}, {Name: "base", Across: true, Before: in / 8, Behind: in/2 - s.Chair.Thickness, Turn: 90 * job.Degree},
			{Name: "rear web", Length: 3 * in / 4, Turn: 90 * job.Degree}, {Name: "rear flange", Length: in / 2, Turn: -90 * job.Degree}, {Name: "rear leg", Length: 5 * in / 2, Turn: -90 * job.Degree}}}
	s.Corner.Support.Blank = &job.Blank{Section: []job.Flange{{Name: "base", Across: true}, {Name: "foot", Length: in, Turn: -75 * job.Degree}},
		Holes: []job.Hole{{FromLeft: in, FromFront: 2 * in, Diameter: in / 4}}}
	s.Extender = &job.ExtenderRules{Stock: 100 * in, Gap: in / 4, Section: []job.Flange{{Name: "kick", Length: in / 2}, {Name: "face", Across: true, Turn: 40 * job.Degree}}}
	s.RoofExtender = &job.ExtenderRules{Stock: 90 * in, Gap: in / 8, Section: []job.Flange{{Name: "foot", Length: 3 * in / 4}, {Name: "face", Across: true, Turn: 30 * job.Degree}}}
	s.StepRiser = &job.RiserRules{ReturnFront: 5 * in / 2, ReturnRear: 2 * in, Lap: 3 * in / 2}
	return j
}

// The areas of the parts of any job are their straights and the strips of their
// bends less the holes, and they are as many as the crates
// hold.
func TestPartsOfAnyJob(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		j := withParts(jobtest.Random(t))
		l, found := layout.Build(j)
		if found.HasErrors() {
			t.Skip("not a layout")
		}
		joints, chairs := 0, 0
		for _, r := range l.Runs() {
			chairs += len(r.Chairs)
			for _, q := range r.Joints {
				if q.Kind != cap.Expansion {
					joints++
				}
			}
		}
		count := map[shop.PartKind]int{}
		from := 101 + (len(l.Families)+99)/100*100 // the next hundred after the pieces
		for i, p := range l.Parts {
			count[p.Kind] += p.Count()
			if p.Mark != strconv.Itoa(from+i) {
				t.Fatalf("part %d is marked %s", i, p.Mark)
			}
			if len(p.Bodies) == 0 {
				if p.Fails == "" || len(p.Holds) == 0 {
					t.Fatalf("%s has no pattern and no hold", p.Mark)
				}
				continue
			}
			b := p.Bodies[0]
			if p.Kind == shop.FormedCap { // a cap, which is measured with the others
				continue
			}
			want := 0.0
			for _, f := range b.Flat.Faces {
				want += math.Abs(fold.Area(f))
			}
			for _, q := range b.Flat.Bends {
				want += strip(b.Outline(), q)
			}
			for _, h := range b.Holes {
				want -= math.Abs(fold.Area(h))
			}
			if got := p.Area(); math.Abs(got-want) > 1e-6*want || fold.Crosses(b.Outline()) {
				t.Fatalf("%s %s: area %.1f, want %.1f", p.Mark, p.Kind, got, want)
			}
			if want := p.Area() * p.Thickness.MM() * j.System.Metal.Density / 1e6; math.Abs(float64(p.Grams)-want) > 1 {
				t.Fatalf("%s weighs %d g, want %.1f", p.Mark, p.Grams, want)
			}
			if n, _ := p.Make(l.Held); n > p.Count() || len(p.Holds) > 0 && n > 0 {
				t.Fatalf("%s: %d to make of %d, holds %v", p.Mark, n, p.Count(), p.Holds)
			}
		}
		if count[shop.SplicePlate] != joints || count[shop.ChairBlank] != chairs {
			t.Fatalf("%d splice plates for %d joints, %d chairs for %d", count[shop.SplicePlate], joints, count[shop.ChairBlank], chairs)
		}
		for _, lot := range l.PartLots {
			planned := 0
			for _, r := range lot.Plan.Sheets {
				for _, s := range r.Strips {
					planned += r.Count * len(s.Cuts)
				}
			}
			want := 0
			for _, b := range lot.Blanks {
				want += b.Count
			}
			if len(lot.Plan.Sheets) > 0 && planned != want {
				t.Fatalf("%d blanks planned, want %d", planned, want)
			}
		}
	})
}

// strip is the area of the metal in a bend. Its ends follow the curves in which the ends of
// a part cut it, so that on a slant it is not its middle line times its width: it is the
// sum of many lines beside that one, from edge to edge of the outline.
func strip(outline []fold.Point, q fold.BendLine) float64 {
	long := math.Hypot(q.To.X-q.From.X, q.To.Y-q.From.Y)
	u := fold.Point{X: (q.To.X - q.From.X) / long, Y: (q.To.Y - q.From.Y) / long}
	const lines = 60
	var out float64
	for k := range lines {
		off := q.Arc * ((float64(k)+0.5)/lines - 0.5)
		ends := [2]float64{math.Inf(-1), math.Inf(1)} // the edges nearest to both ends of the bend's own line
		for i, a := range outline {
			c := outline[(i+1)%len(outline)]
			ax, ay := (a.X-q.From.X)*u.X+(a.Y-q.From.Y)*u.Y, (a.Y-q.From.Y)*u.X-(a.X-q.From.X)*u.Y-off
			cx, cy := (c.X-q.From.X)*u.X+(c.Y-q.From.Y)*u.Y, (c.Y-q.From.Y)*u.X-(c.X-q.From.X)*u.Y-off
			if ay > 0 == (cy > 0) {
				continue
			}
			if x := ax + (cx-ax)*ay/(ay-cy); x < long/2 {
				ends[0] = math.Max(ends[0], x)
			} else {
				ends[1] = math.Min(ends[1], x)
			}
		}
		out += (ends[1] - ends[0]) * q.Arc / lines
	}
	return out
}

// A released job makes as many parts, with spares, as its crates hold.
func TestPartsAreTheCrates(t *testing.T) {
	j := withParts(jobtest.Job())
	j.Crating.SpareChair, j.Crating.SpareSplice = 7, 11
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(700*in, 420*in)}
	l, found := layout.Build(j)
	if found.HasErrors() || len(l.Withheld) > 0 {
		t.Fatal(found)
	}
	want := map[string][2]int{}
	for _, c := range l.Crates {
		for _, x := range c.Items {
			want[strings.Split(x.What, ",")[0]] = [2]int{x.Count, x.Spare}
		}
	}
	seen := 0
	for _, p := range l.Parts {
		if w, ok := want[p.Kind.String()]; ok {
			seen++
			n, more := p.Make(l.Held)
			if p.Count()+p.Spare() != w[0] || p.Spare() != w[1] || n != p.Count() || more != p.Spare() {
				t.Errorf("%s: %d and %d spares, the crates hold %v", p.Kind, p.Count(), p.Spare(), w)
			}
		}
	}
	if seen != 3 {
		t.Errorf("%d kinds of parts are in the crates, want 3", seen)
	}
}

// Bends worked in print: a part is bent like a cap, to outside dimensions.
func TestPublishedParts(t *testing.T) {
	thou := func(n int64) length.Length { return length.MulDiv(length.Inch, n, 1000) }
	up := 90 * job.Degree
	const empirical = 0.0078 * 180 / math.Pi // FAA's (0.01743 R + 0.0078 T) a degree
	for _, c := range []struct {
		source            string
		thickness, radius length.Length
		section           []job.Flange
		across            length.Length
		flat              float64 // inches
	}{
		{"FAA-H-8083-31, U-channel of 1.00, 2.00 and 1.00 in: T .040, R .16; flats .800, 1.600, .800 and an allowance of .2791 at each bend", thou(40), thou(160),
			[]job.Flange{{Name: "leg", Length: in}, {Name: "base", Across: true, Turn: up}, {Name: "leg", Length: in, Turn: up}}, 2 * in, 3.758},
		{"sheet-metal workbook: outside lengths .740, .420, 1.050, 1.000 with three square bends, T .050, R .032", thou(50), thou(32),
			[]job.Flange{{Name: "a", Length: thou(740)}, {Name: "b", Length: thou(420), Turn: up}, {Name: "c", Across: true, Turn: -up}, {Name: "d", Length: in, Turn: up}}, thou(1050), 2.9739},
	} {
		j := withParts(jobtest.Job())
		j.Shop.LeastFlange = in / 8
		j.System.Corner.Support.Width = c.across
		j.System.Corner.Support.Blank = &job.Blank{Stuff: job.Stuff{Thickness: c.thickness, Radius: &c.radius, K: empirical}, Section: c.section}
		parts, found := shop.BuildParts(j, shop.Needs{Supports: []shop.Served{{Name: "S1"}}})
		if len(found) > 0 || len(parts) != 1 {
			t.Fatalf("%s: %v", c.source, found)
		}
		lo, hi := parts[0].Bodies[0].Flat.Bounds()
		if got := (hi.Y - lo.Y) / 25.4; math.Abs(got-c.flat) > 0.001 { // FAA rounds pi/180 to 0.01743
			t.Errorf("%s: %.4f in, want %.4f", c.source, got, c.flat)
		}
	}
}

// The holes of a chair stand at the rows of the tested assembly: folded back,
// that far from the chair's edges, whatever bends lie before them.
func TestHolesStandAtTheRows(t *testing.T) {
	j := withParts(jobtest.Job())
	a := &j.Assemblies[0]
	a.FrontRow, a.RearRow, a.FrontRowFrom, a.RearRowFrom = 2, 3, 5*in/2, 9*in/4
	inside := 12 * in
	parts, found := shop.BuildParts(j, shop.Needs{Chairs: []shop.Chair{{Served: shop.Served{Name: "C1"}, Inside: inside, Assembly: a}}})
	if len(found) > 0 {
		t.Fatal(found)
	}
	b := parts[0].Bodies[0]
	if len(b.Holes) != 5 {
		t.Fatalf("%d holes", len(b.Holes))
	}
	s := &j.System
	wide := (inside - s.Chair.FrontEdge - s.Chair.RearEdge).MM()
	want := [][2]float64{}
	for _, x := range []float64{1.5, 11.5} {
		want = append(want, [2]float64{x * 25.4, a.FrontRowFrom.MM()})
	}
	for _, x := range []float64{1.5, 6.5, 11.5} {
		want = append(want, [2]float64{x * 25.4, wide - a.RearRowFrom.MM()})
	}
	for i, h := range b.Holes {
		var x, y float64
		for _, q := range h {
			v := b.Flat.Raise(q)
			x, y = x+v.X/float64(len(h)), y-v.Y/float64(len(h))
		}
		y += s.Chair.Blank.Section[1].Before.MM() // the base begins behind the chair's edge
		if math.Abs(x-want[i][0]) > 1e-6 || math.Abs(y-want[i][1]) > 1e-6 {
			t.Errorf("hole %d at %.3f, %.3f, want %.3f", i+1, x, y, want[i])
		}
	}
}

// A chair reaches from the front edge to the rear one that the job lays it out by:
// a flange is told from the far side of its web, so that what lies behind the base
// is the flange less the metal.
func TestChairsReachTheirEdges(t *testing.T) {
	for off, want := range map[length.Length]bool{0: false, in / 25: false, in / 8: true, -in / 8: true} {
		j := withParts(jobtest.Job())
		j.System.Chair.Blank.Section[1].Behind += off
		_, found := shop.BuildParts(j, shop.Needs{Chairs: []shop.Chair{{Served: shop.Served{Name: "C1"}, Inside: 12 * in, Assembly: &j.Assemblies[0]}}})
		if got := slices.ContainsFunc([]finding.Finding(found), func(f finding.Finding) bool { return f.Code == "chair-edges" }); got != want {
			t.Errorf("the rear leg %v from the edge: said %v, want %v", off, got, want)
		}
	}
}

// What cannot be made is a hold that names the part and holds no piece.
func TestBadParts(t *testing.T) {
	for _, c := range []struct {
		name, code, says string
		spoil            func(j *job.Job)
	}{
		{"a leg the brake cannot hold", "flange-too-short", "rear leg is", func(j *job.Job) { j.System.Splice.Legs.Rear = in / 8 }},
		{"two bends that meet", "bends-meet", "its bends take", func(j *job.Job) {
			r := in / 2
			j.System.Chair.Blank.Stuff.Radius = &r
			f := &j.System.Chair.Blank.Section
			*f = append(*f, job.Flange{Name: "lip", Length: 2 * in, Turn: 90 * job.Degree})
		}},
		{"a sheet of its own without a radius", "part-radius", "does not state the inside radius", func(j *job.Job) { j.System.Chair.Blank.Stuff.Radius = nil }},
		{"a hole in a bend", "hole-in-bend", "runs into the bend", func(j *job.Job) {
			j.System.Corner.Support.Blank.Holes[0].FromFront = j.System.Corner.Support.Width - in/16
		}},
		{"a hole off the end", "hole-in-bend", "over the edge", func(j *job.Job) { j.System.Corner.Support.Blank.Holes[0].FromLeft = in / 16 }},
		{"no width left", "part-by-hand", "leaves nothing", func(j *job.Job) { j.System.Chair.Blank.Section[1].Before = 40 * in }},
		{"no sheet takes it", "no-sheet", "no sheet takes it", func(j *job.Job) { j.Shop.PartSheets[0].Width = 10 * in }},
		{"a turn the brake does not make", "bend-over-most", "bends through", func(j *job.Job) {
			j.Shop.MostTurn = 160 * job.Degree
			j.System.Chair.Blank.Section[2].Turn, j.System.Chair.Blank.Section[2].Length = 165*job.Degree, 4*in
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			j := withParts(jobtest.Job())
			j.Perimeters = []job.Perimeter{jobtest.Rectangle(700*in, 420*in)}
			c.spoil(j)
			l, found := layout.Build(j)
			if found.HasErrors() {
				t.Fatal(found)
			}
			n := 0
			for _, f := range found {
				if f.Code == c.code && f.Where.Part != "" && strings.Contains(f.What, c.says) && strings.Contains(f.What, "part "+f.Where.Part) {
					n++
				}
			}
			if n == 0 {
				t.Errorf("no %s among %v", c.code, found)
			}
			if len(l.Withheld) > 0 {
				t.Errorf("%d pieces are held for a part", len(l.Withheld))
			}
		})
	}
}

// plainArea is the area of a body without its reliefs.
func plainArea(b shop.Body) float64 {
	a := math.Abs(fold.Area(b.Flat.Outline))
	for _, h := range b.Holes {
		a -= math.Abs(fold.Area(h))
	}
	return a
}

// Reliefs of any job: they take no more than their own size each, are at bend
// ends, leave the outline plain, and twins stay mirror images.
func TestReliefsOfAnyJob(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		j := jobtest.Random(t)
		j.Shop = tools()
		r := job.Relief{Width: in / 8, Depth: 3 * in / 32}
		most := 4 * r.Depth.MM() * r.Depth.MM() // a square both ways about a corner
		if rapid.Bool().Draw(t, "drilled") {
			r = job.Relief{Diameter: in / 8}
			most = math.Pi * r.Diameter.MM() * r.Diameter.MM() / 4
		}
		j.Shop.Relief = r
		l, found := layout.Build(j)
		if found.HasErrors() {
			t.Skip("not a layout")
		}
		for _, f := range l.Families {
			for _, b := range f.Bodies {
				n := float64(len(b.Reliefs))
				less := plainArea(b) - b.Area()
				if less < -1e-6 || less > n*most+1e-6 || n > 0 && less < n*most/16 || fold.Crosses(b.Outline()) || fold.Area(b.Outline()) <= 0 {
					t.Fatalf("%s %s: %v reliefs take %.3f mm2, one at most %.3f", f.Mark, b.Name, n, less, most)
				}
				for _, p := range b.Reliefs {
					near := math.Inf(1)
					for _, q := range b.Flat.Bends {
						near = math.Min(near, math.Min(math.Hypot(p.X-q.From.X, p.Y-q.From.Y), math.Hypot(p.X-q.To.X, p.Y-q.To.Y)))
					}
					if near > 4 {
						t.Fatalf("%s %s: a relief %.2f mm from the end of a bend", f.Mark, b.Name, near)
					}
				}
			}
			if f.Twin != nil && math.Abs(f.Twin.Area()-f.Area()) > 1e-6*f.Area() {
				t.Fatalf("%s and its twin differ with their reliefs: %.3f and %.3f", f.Mark, f.Area(), f.Twin.Area())
			}
			ends := 0
			for _, b := range f.Bodies {
				ends += len(b.Reliefs)
			}
			if p := f.Pieces[0]; f.Kind == cap.Straight && ends > 0 || len(p.Miters) == 1 && len(f.Bodies) > 0 && p.LeftEnd == job.EndTurn && p.RightEnd == job.EndTurn && ends != 8 {
				t.Fatalf("%s, a %s, has %d reliefs", f.Mark, f.Kind, ends) // a miter: four bends at each leg
			}
		}
	})
}

// Worked by hand: the upstand of a wall end meets the folds of both legs in a
// corner that is open on one quarter, so a square of twice the depth about it
// loses three quarters.
func TestReliefAtAnUpstand(t *testing.T) {
	j := jobtest.Job()
	j.Shop = tools()
	j.System.Profile.TopSlope = 0
	j.Shop.Relief = job.Relief{Width: in / 8, Depth: in / 8}
	a := jobtest.Run("A", 300*in, 0)
	a.Right = job.End{Kind: job.EndWall}
	p := jobtest.Perimeter("O", job.Open, a)
	p.Starts = job.End{Kind: job.EndFree}
	j.Perimeters = []job.Perimeter{p}
	l, _ := layout.Build(j)
	for _, f := range l.Families {
		if f.Kind != cap.WallEnd {
			continue
		}
		b := f.Bodies[0]
		d := j.Shop.Relief.Depth.MM()
		if got, want := plainArea(b)-b.Area(), 2*3*d*d; len(b.Reliefs) != 2 || math.Abs(got-want) > 0.05*want {
			t.Errorf("%d reliefs take %.3f mm2, want %.3f", len(b.Reliefs), got, want)
		}
		return
	}
	t.Error("no wall end")
}

// By hand: lengths of 100 in with gaps of 1/2 in, none under 20 in.
func TestLengthsByHand(t *testing.T) {
	for _, c := range []struct {
		name  string
		along length.Length
		want  []shop.LengthOf
	}{
		{"one", 100 * in, []shop.LengthOf{{Length: 100 * in, Count: 1}}},
		{"two whole, one gap", 200*in + in/2, []shop.LengthOf{{Length: 100 * in, Count: 2}}},
		{"two whole and a rest after the second gap", 231 * in, []shop.LengthOf{{Length: 100 * in, Count: 2}, {Length: 30 * in, Count: 1}}},
		{"a rest under the least is shared", 211 * in, []shop.LengthOf{{Length: 100 * in, Count: 1}, {Length: 55 * in, Count: 2}}},
		{"a gap is left and nothing beyond it: two share a length", 201 * in, []shop.LengthOf{{Length: 100 * in, Count: 1}, {Length: 50 * in, Count: 2}}},
		{"half a gap is left", 200*in + 3*in/4, []shop.LengthOf{{Length: 100 * in, Count: 1}, {Length: 50*in - in/8, Count: 2}}},
		{"a sliver over one length", 100*in + in/4, []shop.LengthOf{{Length: 50*in - in/8, Count: 2}}},
	} {
		if got := shop.Lengths(c.along, 100*in, in/2, 20*in); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v in %v, want %v", c.name, got, c.along, c.want)
		}
	}
}

// A stretch is divided to its last sixty-fourth.
func TestLengthsFillTheStretch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, lo, hi int) length.Length {
			return length.Length(rapid.IntRange(lo, hi).Draw(t, name)) * in / 16
		}
		stock, gap := draw("stock", 800, 2000), draw("gap", 0, 16)
		least, along := draw("least", 100, 600), draw("along", 10, 20000)
		n, sum := 0, -gap
		for _, l := range shop.Lengths(along, stock, gap, least) {
			// Two that share a stretch a little longer than one length lose half a gap each.
			if l.Length <= 0 || l.Length > stock || l.Count < 1 || l.Length < least && along > stock && l.Length < (stock-gap)/2-in/64 {
				t.Fatalf("%v of %v in %v", l, stock, along)
			}
			n += l.Count
			sum += length.Length(l.Count) * (l.Length + gap)
		}
		if sum != along {
			t.Fatalf("%d pieces fill %v of %v", n, sum, along)
		}
	})
}
