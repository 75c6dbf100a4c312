package anchor

import (
	"math"
	"slices"

	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/stand"
)

// footing is a foot of a piece that turns: a chair or a support, where it stands in
// the frame of the piece, and how far along its front.
type footing struct {
	chair   *Chair
	support *Support
	foot    stand.Foot
	along   float64 // mm along the front of the whole piece
	part    int
	hook    bool // the street edge of a chair whose two edges hold each by itself
}

// turnedLoads is what a piece that turns asks of its chairs and supports: the
// greater of what is nearest to each along its front, and of what its balance asks
// in force and moment.
func (b *builder) turnedLoads(p *cap.Piece, seats map[partKey][]seat, carry map[*Chair][]asked,
	sup []*Support) *Turned {
	t := &Turned{Piece: p, Covered: b.covered(p)}
	frames := b.frames(p)
	var feet []footing
	var patches []stand.Patch
	begin := b.begins(p)
	for i, q := range p.Parts {
		if i >= len(frames) {
			break
		}
		zones := b.zonesOf(q.Run)
		patches = append(patches, frames[i].placed(b.patches(b.outline(p, i), zones, math.Inf(-1), math.Inf(1)))...)
		on := seats[partKey{p, i}]
		if p.Kind == cap.Tee && i > 0 && len(on) == 0 {
			feet = append(feet, b.beyond(p, frames[i], begin[i])...)
		}
		for _, s := range on {
			y := (cap.ChairLine(b.sys) + cap.ChairRear(b.sys, s.chair.Inside)) / 2
			if p.Pitched() { // all on one line: what a chair holds across it the test says
				y = q.Run.OutsideAt(q.From) / 2
			}
			f := footing{chair: s.chair, part: i, along: begin[i] + (s.at - q.From).MM(),
				foot: stand.Foot{At: frames[i].place(s.at.MM(), y.MM()), Holds: true}}
			if parted(s.chair, p) { // it holds down at both edges, each by itself
				hook := f
				front, rear := b.edges(s.chair)
				f.foot.At = frames[i].place(s.at.MM(), rear.MM())
				hook.hook, hook.foot.At = true, frames[i].place(s.at.MM(), front.MM())
				feet = append(feet, hook)
			}
			feet = append(feet, f)
		}
		if i < len(p.Miters) {
			c := p.Miters[i].Corner
			for _, s := range onCorner(sup, c) {
				at := frame{frames[i].corner(q), frames[i].turn}.place(s.X.MM(), s.Y.MM())
				feet = append(feet, footing{support: s, part: i, along: begin[i] + q.Length().MM(),
					foot: stand.Foot{At: at, Holds: p.Miters[i].Held(b.sys)}})
			}
		}
	}
	all := make([]stand.Foot, len(feet))
	for i, f := range feet {
		all[i] = f.foot
	}
	held := stand.Balance(all, stand.Uplift(patches))
	if !math.IsInf(held.Off, 1) {
		t.Off = length.FromMM(held.Off)
	}
	t.Bay, t.Spacing = b.roundBay(p, feet, begin)
	t.balanced = held.OK
	t.Held = held.OK && (t.Spacing == 0 || t.Bay <= t.Spacing)
	up := b.upShares(p, feet, begin)
	front, rear := b.legShares(p, feet, begin)
	for i, f := range feet {
		n := max(up[i], held.Forces[i])
		if f.chair == nil && f.support == nil {
			continue // beyond this perimeter
		}
		if f.support != nil {
			if f.support.Load = (Loading{}); f.foot.Holds && b.known {
				f.support.Load = Loading{n, b.sys.Corner.Support.Hook.Allowable}
			}
			continue
		}
		q := asked{by: p, up: n, beam: n, out: front[i], rear: rear[i]}
		switch {
		case f.hook:
			q.hook = n
		case !parted(f.chair, p): // it holds at its middle
			q.hook = n * b.atHook(f.chair, p.Parts[f.part].Run.OutsideAt(p.Parts[f.part].From))
		}
		carry[f.chair] = append(carry[f.chair], q)
	}
	return t
}

// placed are a part's patches in the frame of its piece.
func (f frame) placed(patches []stand.Patch) []stand.Patch {
	for _, k := range patches {
		for n, v := range k.Ring {
			k.Ring[n] = f.place(v.X, v.Y)
		}
	}
	return patches
}

// beyond is the chair under the joint of a tee's stub, which stands on the branch's
// own perimeter.
func (b *builder) beyond(p *cap.Piece, f frame, begin float64) []footing {
	var out []footing
	q := p.Parts[1]
	for _, j := range q.Run.Joints {
		if j.Left != p && j.Right != p {
			continue
		}
		at := j.Centre()
		y := q.Run.OutsideAt(at) / 2
		out = append(out, footing{part: 1, along: begin + (at - q.From).MM(),
			foot: stand.Foot{At: f.place(at.MM(), y.MM()), Holds: true}})
	}
	return out
}

// stubLoads is what the stub of a tee asks of the chair under its joint, seen from
// the branch: its own top on two lines, the chair and the middle of the main.
func (b *builder) stubLoads(p cap.Part, seats []seat, carry map[*Chair][]asked) {
	t := p.Piece.Tee
	half := t.Main.OutsideAt(t.Edge[0]) / 2
	main := p.From - half
	if !t.Starts {
		main = p.To + half
	}
	top, front, rear := b.lines(p)
	for _, s := range seats {
		lever := func(loads []stand.Load) (n float64) {
			for _, l := range loads {
				mid := (l.From + l.To).MM() / 2
				n += l.Per * (l.To - l.From).MM() * math.Abs(mid-main.MM()) / math.Abs((s.at - main).MM())
			}
			return n
		}
		carry[s.chair] = append(carry[s.chair], asked{by: p.Piece, up: lever(top), beam: lever(top), out: lever(front),
			rear: lever(rear),
			hook: lever(top) * b.atHook(s.chair, p.Run.OutsideAt(s.at))})
	}
}

// begins is how far along the front of a piece each of its parts begins, mm. A
// tee's stub begins beside its main, and is counted apart.
func (b *builder) begins(p *cap.Piece) []float64 {
	out := make([]float64, len(p.Parts))
	for i := 1; i < len(p.Parts); i++ {
		out[i] = out[i-1] + p.Parts[i-1].Length().MM()
	}
	return out
}

// roundBay is the longest bay round a miter of a piece, from hold-down to hold-down
// along the longer face, and the least tested spacing of the parts beside it. A
// break of slope keeps half the spacing each side, which its legs see to.
func (b *builder) roundBay(p *cap.Piece, feet []footing, begin []float64) (bay, spacing length.Length) {
	if len(p.Miters) == 0 || p.Pitched() {
		return 0, 0
	}
	// Along the rear each miter takes off what its legs are shorter there, or adds it.
	less := trimmed(p)
	rear := func(along float64) float64 {
		out := along
		for k, m := range p.Miters {
			switch at := begin[k+1]; {
			case along > at+1e-6:
				out = along - less[k+1]
			case along > at-1e-6:
				out = along - less[k] - m.Trim[0].MM()
			}
		}
		return out
	}
	end := begin[len(begin)-1] + p.Parts[len(p.Parts)-1].Length().MM()
	var at []float64
	for _, f := range feet {
		if f.foot.Holds {
			at = append(at, min(end, max(0, f.along)))
		}
	}
	slices.Sort(at)
	most := 0.0
	for i := 1; i < len(at); i++ {
		for k := range p.Miters {
			if m := begin[k+1]; at[i-1] <= m+1e-6 && at[i] >= m-1e-6 {
				most = max(most, at[i]-at[i-1], rear(at[i])-rear(at[i-1]))
			}
		}
	}
	for _, f := range feet {
		if f.chair != nil && f.chair.Assembly != nil {
			if s := f.chair.Assembly.ChairSpacing; f.chair.Piece == p && (spacing == 0 || s < spacing) {
				spacing = s
			}
		}
	}
	if p.Assembly != nil {
		spacing = p.Assembly.ChairSpacing
	}
	return length.FromMM(most), spacing
}

// upShares gives each hold-down the uplift on what of the piece's top is nearer to
// it along the front than to another; those on one place share alike. What only
// bears has none.
func (b *builder) upShares(p *cap.Piece, feet []footing, begin []float64) []float64 {
	out := make([]float64, len(feet))
	if p.Kind == cap.Tee {
		b.teeShares(p, feet, out)
		return out
	}
	for i, f := range feet {
		if !f.foot.Holds {
			continue
		}
		from, to, alike := bounds(feet, i, func(g footing) bool { return g.foot.Holds }, f.along, along)
		for k, q := range p.Parts {
			// From the front's own stations; the outer parts go on over what a miter adds.
			a, z := from-begin[k]+q.From.MM(), to-begin[k]+q.From.MM()
			if a <= q.From.MM() {
				a = math.Inf(-1)
			}
			if z >= q.To.MM() {
				z = math.Inf(1)
			}
			if a >= q.To.MM() || z <= q.From.MM() {
				continue
			}
			out[i] += stand.Uplift(b.patches(b.outline(p, k), b.zonesOf(q.Run), a, z)).N / float64(alike)
		}
	}
	return out
}

func along(f footing) float64 { return f.along }

// bounds are the ends of what lies nearer to a foot than to others of its kind, and
// how many stand on the same place.
func bounds(feet []footing, i int, kind func(footing) bool, at float64, of func(footing) float64) (from, to float64,
	alike int) {
	from, to = math.Inf(-1), math.Inf(1)
	for _, g := range feet {
		if !kind(g) {
			continue
		}
		switch x := of(g); {
		case math.Abs(x-at) < 1e-6:
			alike++
		case x < at:
			from = max(from, (x+at)/2)
		default:
			to = min(to, (x+at)/2)
		}
	}
	return from, to, alike
}

// legShares gives each chair the load on the front and on the rear leg that lies
// nearest to it along each.
func (b *builder) legShares(p *cap.Piece, feet []footing, begin []float64) (front, rear []float64) {
	front, rear = make([]float64, len(feet)), make([]float64, len(feet))
	chair := func(f footing) bool { return f.chair != nil }
	if p.Kind == cap.Tee {
		chair = func(f footing) bool { return f.chair != nil && f.part == 0 }
	}
	less := trimmed(p)
	alongRear := func(f footing) float64 { return f.along - less[f.part] }
	for i, f := range feet {
		if !chair(f) {
			if f.chair != nil { // of a stub
				_, fr, re := b.lines(p.Parts[f.part])
				front[i], rear[i] = sum(fr), sum(re)
			}
			continue
		}
		from, to, alike := bounds(feet, i, chair, f.along, along)
		back, fore, same := bounds(feet, i, chair, alongRear(f), alongRear)
		for k, q := range p.Parts {
			if p.Kind == cap.Tee && k > 0 {
				break
			}
			// Stations of the run, which the rear's go beyond at an inside corner.
			at := func(x float64) length.Length { return q.From + length.FromMM(x-begin[k]) }
			if a, z := max(from, begin[k]), min(to, begin[k]+q.Length().MM()); a < z {
				_, fr, _ := b.lines(q)
				front[i] += sum(stand.Cut(fr, at(a), at(z))) / float64(alike)
			}
			first, last := rearOf(p, k)
			a, z := max(back+less[k], begin[k]+first.MM()), min(fore+less[k], begin[k]+last.MM())
			if a < z {
				rear[i] += sum(b.rearLine(q.Run, at(a), at(z))) / float64(same)
			}
		}
	}
	return front, rear
}

// trimmed is by how much the rear of a piece is shorter than its front from its beginning to
// each of its parts, mm.
func trimmed(p *cap.Piece) []float64 {
	out := make([]float64, len(p.Parts))
	for i := 1; i < len(out) && i <= len(p.Miters); i++ {
		t := p.Miters[i-1].Trim
		out[i] = out[i-1] + (t[0] + t[1]).MM()
	}
	return out
}

// rearOf is where the rear of a part begins and ends, from the beginning of its front.
func rearOf(p *cap.Piece, k int) (from, to length.Length) {
	to = p.Parts[k].Length()
	if p.Kind == cap.Tee {
		return 0, to
	}
	if k > 0 {
		from = p.Miters[k-1].Trim[1]
	}
	if k < len(p.Miters) {
		to -= p.Miters[k].Trim[0]
	}
	return from, to
}

// rearLine is the load on a rear leg between two stations of its run.
func (b *builder) rearLine(r *cap.Run, from, to length.Length) []stand.Load {
	var out []stand.Load
	leg := b.sys.RearLeg(job.ToMoldLine).MM()
	for _, z := range b.zonesOf(r) {
		if a, e := length.Max(from, z.from), length.Min(to, z.to); a < e {
			out = append(out, stand.Load{From: a, To: e, Per: z.rear * 1e-6 * leg})
		}
	}
	return out
}

func sum(loads []stand.Load) (n float64) {
	for _, l := range loads {
		n += l.Per * (l.To - l.From).MM()
	}
	return n
}

// teeShares are those of a tee: its main by itself, and of the stub what is nearer
// to the main goes to the main's two chairs beside the branch.
func (b *builder) teeShares(p *cap.Piece, feet []footing, out []float64) {
	for k, q := range p.Parts {
		var at []length.Length
		var of []int
		for i, f := range feet {
			if f.part == k && f.chair != nil {
				at = append(at, q.From+length.FromMM(f.along-b.begins(p)[k]))
				of = append(of, i)
			}
		}
		top, _, _ := b.lines(q)
		if k > 0 {
			all := sum(top)
			for _, i := range of {
				out[i] += all / 2 / float64(len(of))
			}
			for i, f := range feet {
				if f.part == 0 && f.chair != nil {
					out[i] += all / 2 / 2
				}
			}
			continue
		}
		for i, c := range stand.Loads(at, top) {
			out[of[i]] += c.Share
		}
	}
}
