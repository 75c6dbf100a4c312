package anchor

import (
	"slices"

	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall"
	"copingset/layout/wind"
)

// Trouble is something that cannot stand where it does, which another place of a leg or
// a joint might mend: the pieces that each chair or support it is about carries.
type Trouble struct {
	Code  string
	On    [][]*cap.Piece
	Fixed bool // a chair that could not carry the least bay: no place of a leg or a joint mends it
}

func (b *builder) trouble(code string, on ...[]*cap.Piece) {
	b.crowded = append(b.crowded, Trouble{Code: code, On: on})
}

// troubles are all of a perimeter: what is crowded, and what the wind asks too much of.
func (b *builder) troubles(runs []*Run, sup []*Support, turned []*Turned) []Trouble {
	out := b.crowded
	for _, a := range runs {
		for _, c := range a.Chairs {
			if c.Load.Over() {
				out = append(out, b.overloadOf(c))
			}
		}
	}
	for _, s := range sup {
		if s.Load.Ratio() > full {
			out = append(out, Trouble{Code: supportOverloaded, On: [][]*cap.Piece{{s.Piece}}})
		}
	}
	for _, t := range turned {
		if !t.Held && !t.Covered {
			out = append(out, Trouble{Code: unheld, On: [][]*cap.Piece{{t.Piece}}})
		}
	}
	return out
}

func (b *builder) overloadOf(c *Chair) Trouble {
	return Trouble{overloaded, [][]*cap.Piece{carried(c)}, b.hopeless(c)}
}

const (
	overloaded = "chair-overloaded"
	unheld     = "corner-unheld"

	supportOverloaded = "support-overloaded"
)

// Loaded tells whether the trouble is what the wind asks of a chair or a support.
func (t Trouble) Loaded() bool { return t.Overloaded() || t.Code == supportOverloaded }

// Unheld tells whether the trouble is a piece that turns whose hold-downs do not hold it.
func (t Trouble) Unheld() bool { return t.Code == unheld }

// Overloaded tells whether the trouble is what the wind asks of a chair, which hangs on
// all the pieces that it carries.
func (t Trouble) Overloaded() bool { return t.Code == overloaded }

// beside are the chairs of a run if it is the one beyond a corner: in a part of a
// perimeter the run there may be missing.
func (r *Run) beside(w *wall.Run) []*Chair {
	if r.OnWall() != w {
		return nil
	}
	return r.Chairs
}

// leaveOut takes no more chairs under pieces that are not laid out: the chair under the last
// joint of a part of a perimeter carries one of those too.
func (b *builder) leaveOut(runs []*cap.Run) {
	laid := map[*cap.Piece]bool{} // look-up only
	for _, r := range runs {
		for _, p := range r.Parts {
			laid[p.Piece] = true
		}
	}
	for _, r := range runs {
		for _, j := range r.Joints {
			for _, p := range []*cap.Piece{j.Left, j.Right} {
				for k := range p.Parts {
					if !laid[p] {
						b.tried[partKey{p, k}] = tried{vain: true}
					}
				}
			}
		}
	}
}

// Bench judges pieces laid out in other ways on a part of a perimeter.
type Bench struct {
	j       *job.Job
	d       wind.Demand
	seams   map[*wall.Corner]cap.Seam // look-up only
	nearest map[nearKey]reachOf       // look-up only
	grid    length.Length
	stood   int
}

// NewBench takes the runs of the whole perimeter.
func NewBench(j *job.Job, d wind.Demand, runs []*cap.Run, grid length.Length) *Bench {
	return &Bench{j: j, d: d, seams: cap.Seams(runs), nearest: map[nearKey]reachOf{}, grid: grid}
}

// Stood counts the chairs that were stood so far, as often as they were: the work done.
func (t *Bench) Stood() int { return t.stood }

// Asked is what of pieces laid out in another way is judged.
type Asked struct {
	Counts  func(Trouble) bool // which troubles do
	Partial bool               // what stands beyond is laid out by guess: it is asked again
	Places  bool               // where chairs stand alone, not what they carry
}

// Judge stands the chairs of a part of the perimeter as Build does, and tells whether
// none of what cannot stand counts. Where chairs have no room is asked first: more of
// them, for their load, do not make any.
func (t *Bench) Judge(runs []*cap.Run, pieces []*cap.Piece, by Asked) bool {
	b := newBuilder(t.j, t.d, t.seams, t.grid)
	b.nearest = t.nearest
	defer func() { t.stood += b.work }()
	out := make([]*Run, len(runs))
	for i, r := range runs {
		out[i] = &Run{Run: r}
	}
	b.leaveOut(runs)
	sup := b.supports(pieces)
	b.under = underOf(sup)
	places := func() {
		for _, a := range out {
			b.number(a)
			b.overExpansion(a)
		}
		b.plan(out)
	}
	b.stand(out)
	places()
	if slices.ContainsFunc(b.crowded, by.Counts) {
		return false
	}
	if by.Places {
		return true
	}
	all := b.troubles(out, sup, b.loads(out, sup))
	bad, over := slices.ContainsFunc(all, by.Counts), false
	for _, k := range all { // where it is asked for a part, chairs beyond it are no reason to add any
		over = over || k.Overloaded() && !k.Fixed && (!by.Partial || by.Counts(k))
	}
	if !over || by.Partial && !bad {
		return !bad
	}
	turned, ok := b.eased(out, sup, func(c *Chair) bool { return by.Counts(b.overloadOf(c)) })
	if !ok {
		return false
	}
	places()
	return !slices.ContainsFunc(b.troubles(out, sup, turned), by.Counts)
}
