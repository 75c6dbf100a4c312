package stand_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"copingset/layout/length"
	"copingset/layout/stand"
)

const (
	in  = length.Inch
	mm  = length.Millimetre
	g16 = length.Inch16
)

// straight is a straight piece of a metal length between two joints.
func straight(metal, gap, spacing, chair length.Length) stand.Part {
	return stand.Part{Spacing: spacing, Chair: chair, Ends: [2]stand.End{
		{At: -gap / 2, Chair: true}, {Edge: metal, At: metal + gap - gap/2, Chair: true}}}
}

func TestRow(t *testing.T) {
	miter := func(near, far length.Length) stand.End { return stand.End{Near: near, Far: far} }
	for _, c := range []struct {
		name string
		part stand.Part
		want []length.Length
		why  stand.Why
	}{
		{"equal bays within the spacing", straight(120*in, 5*in/16, 46*in, 13*in),
			[]length.Length{-5*in/32 + 641*g16, -5*in/32 + 1283*g16}, stand.Stands}, // 1925 sixteenths: 641, 642, 642
		// The joint's share would make each bay 46.104 in: the chairs stand at 46 in
		// from the metal's edges, and the two bays at the joints are 46 5/32.
		{"a stock length of three bays", straight(138*in, 5*in/16, 46*in, 13*in),
			[]length.Length{46 * in, 92 * in}, stand.Stands},
		{"metric", straight(3600*mm, 8*mm, 1200*mm, 300*mm), []length.Length{1200 * mm, 2400 * mm}, stand.Stands},
		{"one bay and its joint", straight(46*in, 5*in/16, 46*in, 13*in), nil, stand.Stands},
		{"a nanometre more", straight(46*in+1, 5*in/16, 46*in, 13*in), []length.Length{23*in - 5*in/32 + 2*g16}, stand.Stands},
		{"crowded", stand.Part{Spacing: 20 * in, Chair: 13 * in, Ends: [2]stand.End{{Chair: true}, {Edge: 25 * in, At: 25 * in, Chair: true}}},
			nil, stand.Crowded},
		{"a bar moves a chair to its edge", func() stand.Part {
			p := straight(80*in, 0, 46*in, 13*in)
			p.Bars = []stand.Bar{{35 * in, 42 * in}}
			return p
		}(), []length.Length{42 * in}, stand.Stands},
		{"a bar asks for one more", func() stand.Part {
			p := straight(80*in, 0, 46*in, 13*in)
			p.Bars = []stand.Bar{{33 * in, 47 * in}}
			return p
		}(), []length.Length{26*in + 10*in/16, 53*in + 5*in/16}, stand.Stands},
		{"blocked", func() stand.Part {
			p := straight(80*in, 0, 46*in, 13*in)
			p.Bars = []stand.Bar{{10 * in, 70 * in}}
			return p
		}(), nil, stand.Blocked},
		{"a leg whose joint is near enough", stand.Part{Spacing: 46 * in, Chair: 13 * in, Ends: [2]stand.End{miter(19*in, 27*in),
			{Edge: 27 * in, At: 27*in + 5*in/32, Chair: true}}}, nil, stand.Stands},
		{"a leg with a chair at the miter", stand.Part{Spacing: 46 * in, Chair: 13 * in, Ends: [2]stand.End{miter(19*in, 23*in),
			{Edge: 36 * in, At: 36*in + 5*in/32, Chair: true}}}, []length.Length{19 * in}, stand.Stands},
	} {
		step := g16
		if c.name == "metric" {
			step = mm
		}
		r, why := stand.Row(c.part, step)
		if why != c.why || !slices.Equal(r.At, c.want) {
			t.Errorf("%s: %v %v, want %v %v", c.name, r.At, why, c.want, c.why)
		}
	}
}

// draw is any part.
func draw(t *rapid.T) stand.Part {
	l := func(name string, from, to length.Length) length.Length {
		return length.Length(rapid.Int64Range(int64(from), int64(to)).Draw(t, name))
	}
	gap := l("gap", 0, in)
	p := stand.Part{Spacing: l("spacing", 14*in, 60*in), Chair: l("chair", 4*in, 14*in), Left: rapid.Bool().Draw(t, "left"),
		More: rapid.IntRange(0, 2).Draw(t, "more")}
	metal := l("metal", 10*in, 300*in)
	ends := [2]stand.End{{}, {Edge: metal, At: metal}}
	for i := range ends {
		e := &ends[i]
		sign := length.Length(2*i - 1)
		switch rapid.IntRange(0, 2).Draw(t, "end") {
		case 0:
			e.Chair, e.At = true, e.Edge+sign*gap/2
		case 1:
			e.Chair, e.At = true, e.Edge-sign*l("inset", 0, 9*in)
		default:
			e.Near = l("near", 0, 20*in)
			e.Far = e.Near + l("far", 0, 30*in)
		}
	}
	p.Ends = ends
	at := length.Length(0)
	for range rapid.IntRange(0, 3).Draw(t, "bars") {
		from := at + l("free", 0, 60*in)
		at = from + l("bar", in, 20*in)
		p.Bars = append(p.Bars, stand.Bar{From: from, To: at})
	}
	return p
}

// No bay of metal is over the spacing, no two chairs overlap, none stands in a
// bar, and the nearest hold-down to a miter is as near as it must be.
func TestRowKeepsItsBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := draw(t)
		r, why := stand.Row(p, g16)
		if why != stand.Stands {
			return
		}
		for _, x := range r.At {
			for _, b := range p.Bars {
				if x > b.From && x < b.To {
					t.Fatalf("%v in a bar", x)
				}
			}
		}
		all := slices.Clone(r.At)
		l, z := p.Ends[0], p.Ends[1]
		if l.Chair {
			all = append([]length.Length{l.At}, all...)
		}
		if z.Chair {
			all = append(all, z.At)
		}
		for i := range all[:max(0, len(all)-1)] {
			// Of a bay that ends at a joint only what is metal counts.
			metal := length.Min(all[i+1], z.Edge) - length.Max(all[i], l.Edge)
			if metal > p.Spacing {
				t.Fatalf("a bay of %v of metal", metal)
			}
			inner := i > 0 || !l.Chair
			inner = inner && (i+2 < len(all) || !z.Chair)
			if inner && all[i+1]-all[i] > p.Spacing {
				t.Fatalf("an inner bay of %v", all[i+1]-all[i])
			}
			if (i > 0 || !l.Chair || len(r.At) > 0) && all[i+1]-all[i] < p.Chair && len(r.At) > 0 {
				t.Fatalf("chairs %v apart", all[i+1]-all[i])
			}
		}
		if !l.Chair && len(all) > 0 && length.Min(all[0], z.Edge)-l.At > l.Far {
			t.Fatalf("%v from the miter, not %v", all[0]-l.At, l.Far)
		}
		if !z.Chair && len(all) > 0 && z.At-length.Max(all[len(all)-1], l.Edge) > z.Far {
			t.Fatalf("%v from the miter, not %v", z.At-all[len(all)-1], z.Far)
		}
	})
}

// mirror is a part seen from the other side of a line of some length.
func mirror(p stand.Part, total length.Length) stand.Part {
	turn := func(e stand.End) stand.End {
		e.Edge, e.At = total-e.Edge, total-e.At
		return e
	}
	p.Ends = [2]stand.End{turn(p.Ends[1]), turn(p.Ends[0])}
	bars := []stand.Bar{}
	for _, b := range p.Bars {
		bars = append(bars, stand.Bar{From: total - b.To, To: total - b.From})
	}
	slices.Reverse(bars)
	p.Bars, p.Left = bars, !p.Left
	return p
}

func TestRowMirrors(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := draw(t)
		const total = 400 * in
		a, whyA := stand.Row(p, g16)
		b, whyB := stand.Row(mirror(p, total), g16)
		slices.Reverse(b.At)
		if whyA != whyB || len(a.At) != len(b.At) || a.Step != b.Step {
			t.Fatalf("%v %v, mirrored %v %v", a, whyA, b, whyB)
		}
		for i := range a.At {
			if a.At[i] != total-b.At[i] {
				t.Fatalf("%v, mirrored %v", a.At, b.At)
			}
		}
	})
}

// Where a row of fewer chairs on half the step would stand, no more are used.
func TestRowIsFewest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := draw(t)
		p.More, p.Left = 0, false
		span := p.Ends[1].At - p.Ends[0].At
		if span < 0 || span > 90*in {
			return
		}
		const step = in / 2
		r, why := stand.Row(p, step)
		n := len(r.At)
		if why != stand.Stands {
			n = 5
		}
		metal := p.Ends[1].Edge - p.Ends[0].Edge
		for k := max(0, int((metal+p.Spacing-1)/p.Spacing)-1); k < n; k++ {
			// A row without a joint at its ends is counted from its first stand alone.
			from := []length.Length{p.Ends[0].At}
			if l, z := p.Ends[0], p.Ends[1]; l.Chair && l.At < l.Edge || z.Chair && z.At > z.Edge {
				from = append(from, l.Edge)
			}
			for _, from := range from {
				if brute(p, k, from, step/2) {
					t.Fatalf("%d chairs stand, %d are used", k, len(r.At))
				}
			}
		}
	})
}

// brute tries every place on a step for n chairs, whose bays are within the
// spacing as metal.
func brute(p stand.Part, n int, origin, step length.Length) bool {
	l, z := p.Ends[0], p.Ends[1]
	ok := func(a, b length.Length, first, last bool) bool {
		metal := length.Min(b, length.Max(z.Edge, z.At)) - a
		if first && l.Chair && l.At < l.Edge {
			metal = b - l.Edge
		}
		if last && z.Chair && z.At > z.Edge {
			metal -= z.At - z.Edge
		}
		least, most := p.Chair, p.Spacing
		if first && last {
			least = 0
		}
		if first && !l.Chair {
			least, most = l.Near, l.Far
		}
		if last && !z.Chair {
			least, most = z.Near, z.Far
		}
		if first && last && (!l.Chair || !z.Chair) {
			least = 0
			if !l.Chair && !z.Chair {
				most = length.Min(l.Far, z.Far)
			} else if !l.Chair {
				most = l.Far
			}
		}
		return b-a >= least && metal <= most
	}
	var try func(k int, last length.Length) bool
	try = func(k int, last length.Length) bool {
		if k == n {
			return ok(last, z.At, n == 0, true)
		}
		from := length.CeilTo(last-origin, step) + origin
		for x := from; x <= length.Min(z.At, last+p.Spacing+in); x += step {
			if !ok(last, x, k == 0, false) {
				continue
			}
			barred := false
			for _, b := range p.Bars {
				barred = barred || x > b.From && x < b.To
			}
			if !barred && try(k+1, x) {
				return true
			}
		}
		return false
	}
	return try(0, l.At)
}

// A part whose miter lets no chair come near enough has no row, however short a chair
// is taken to be: the search ends.
func TestNoRowWithinNothing(t *testing.T) {
	const in = length.Inch
	for _, chair := range []length.Length{0, 14 * in} {
		p := stand.Part{Spacing: 27 * in, Chair: chair, Ends: [2]stand.End{{Far: 27 * in}, {Edge: 16 * in, At: 16 * in, Far: -15 * in}}}
		for _, left := range []bool{false, true} {
			p.Left = left
			if r, why := stand.Row(p, in/16); why != stand.Crowded || len(r.At) > 0 {
				t.Errorf("chairs of %v: %v, %v", chair, r.At, why)
			}
		}
	}
}

// A row of as many chairs as have room stands within the same bounds: asked for so many,
// Row lays it too, and for more it lays none.
func TestFullestIsTheMost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := draw(t)
		p.More = 0
		few, why := stand.Row(p, g16)
		full, also := stand.Fullest(p, g16)
		if why != also {
			t.Fatalf("%v, at its fullest %v", why, also)
		}
		if why != stand.Stands {
			return
		}
		if len(full.At) < len(few.At) {
			t.Fatalf("%d chairs at its fullest, %d at the fewest", len(full.At), len(few.At))
		}
		p.More = len(full.At) - len(few.At)
		if r, _ := stand.Row(p, g16); !slices.Equal(r.At, full.At) {
			t.Fatalf("at its fullest %v, asked for so many %v", full.At, r.At)
		}
		p.More++
		if r, why := stand.Row(p, g16); why == stand.Stands {
			t.Fatalf("more stand: %v after %v", r.At, full.At)
		}
	})
}

// Between two miters that are held a part may be as long as its longer face allows: of one
// between an inside and an outside corner that is its front. By its ends alone it would
// be a width less, and needs a chair for which it may have no room.
func TestRowBetweenTwoMiters(t *testing.T) {
	p := stand.Part{Spacing: 27 * in, Chair: 14 * in, Ends: [2]stand.End{{Near: 7 * in, Far: 13 * in},
		{Edge: 23 * in, At: 23 * in, Near: 20 * in, Far: 27 * in}}}
	if _, why := stand.Row(p, length.Inch16); why != stand.Crowded {
		t.Errorf("by its ends alone: %v", why)
	}
	p.Alone = 27 * in
	if r, why := stand.Row(p, length.Inch16); why != stand.Stands || len(r.At) > 0 {
		t.Errorf("by its longer face: %v, %v", why, r.At)
	}
	if p.Alone = 22 * in; func() bool { _, why := stand.Row(p, length.Inch16); return why == stand.Stands }() {
		t.Error("it is longer than what is allowed")
	}
}
