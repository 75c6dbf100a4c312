package shop

import (
	"fmt"
	"math"
	"slices"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// take is the developed length of a bend where the shop's trial strips gave what
// it takes of the outside lengths, by the strip's own measure; zero has it worked
// out from K. Strips are of the caps' metal, bent with the profile's radius.
func (b *builder) take(turn float64) float64 {
	if b.bend.Thickness != b.s.Metal.Thickness.MM() || b.bend.Radius != b.s.Profile.InsideR.MM() {
		return 0
	}
	for _, t := range b.shop.Bends {
		if math.Abs(t.Turn.Degrees()-turn) > strips {
			continue
		}
		if arc := b.arcOf(t); arc > 0 {
			return arc
		}
	}
	return 0
}

// strips is how far a bend may differ from its trial strip, degrees.
const strips = 0.5

// machine checks a body against what the shop bends on: the flat beside every
// bend, the back gauge, the throat, and tools against metal where their outlines
// are stated.
func (b *builder) machine(name string, body Body) (code, what, mend string) {
	m := b.shop.Machine
	if m == nil {
		return "", "", ""
	}
	if m.Longest > 0 && longest(body) > m.Longest.MM()+1e-6 {
		return "longer-than-brake", fmt.Sprintf("the %s bends over %s, and the %s takes %s", name,
			job.Both(length.FromMM(longest(body))), m.Kind, job.Both(m.Longest)), "shorter pieces, or another machine"
	}
	if face, d := narrowest(body); d < m.Flange.MM()-1e-6 {
		return "flange-too-short", fmt.Sprintf("%s of the %s is %s deep, and the %s holds no less than %s", face, name,
			job.Both(length.FromMM(d)), m.Kind, job.Both(m.Flange)), "a deeper flange, or another machine"
	}
	both := func(mm float64) string { return job.Both(length.FromMM(mm)) }
	least, why := m.Nose.MM(), "the folder's nose clamps"
	if m.Kind == job.PressBrake && len(m.Dies) > 0 {
		least, why = slices.Min(m.Dies).MM()/2, "half the opening of the narrowest die spans"
	}
	if m.Kind == job.PressBrake && len(m.Dies) > 0 {
		if code, what, mend := overDie(name, body, slices.Min(m.Dies)); code != "" {
			return code, what, mend
		}
	}
	for _, p := range body.paths {
		for i, g := range p.Segs {
			if g.Turn == 0 || p.Hem(i) || p.Hem(i+1) {
				continue
			}
			for _, k := range []int{i, i + 1} {
				// The die or the nose takes the flat from the middle of the bend on.
				if room := p.Segs[k].Flat + g.Arc/2; k != p.Root && room < least-1e-6 {
					return "flat-under-tool", fmt.Sprintf("the %s of the %s is flat for %s from the middle of its "+
							"bend, and %s %s", p.Segs[k].Name, name, both(room), why, both(least)),
						"a narrower die or nose, or a deeper " + p.Segs[k].Name
				}
			}
		}
	}
	for _, q := range body.Bends {
		at := fmt.Sprintf("bend %d of the %s is gauged %s from its line", q.Order, name, job.Both(q.Gauge))
		switch {
		case m.LeastGage > 0 && q.Gauge < m.LeastGage:
			return "gauge-reach", at + ", and the back gauge comes no nearer than " + job.Both(m.LeastGage),
				"a deeper flange, or another order of bends"
		case m.MostGage > 0 && q.Gauge > m.MostGage:
			return "gauge-reach", at + ", and the back gauge goes no farther than " + job.Both(m.MostGage),
				"bend it from the other edge, by the shop's own order"
		case m.Throat > 0 && q.Gauge > m.Throat:
			return "throat", at + ", and the throat is " + job.Both(m.Throat),
				"bend it from the other edge, by the shop's own order"
		}
		if c, hit := b.struck(body, q); hit {
			why := ", and no other order of bends is free of it"
			if len(b.shop.BendOrder) > 0 {
				why = " in the shop's own order"
			}
			return "hits-tool", fmt.Sprintf("at bend %d of the %s the %s stands in the %s%s", q.Order, name, c[0], c[1],
				why), "another order under `bend_order:`, or a tool with more room"
		}
	}
	return "", "", ""
}

// ownOrder puts bends in the shop's own order, each named by the faces beside it;
// those it does not name come after. A name that is no bend is a finding.
func (b *builder) ownOrder(all []Bend) {
	if len(b.shop.BendOrder) == 0 {
		return
	}
	at := func(q Bend) int {
		x, y := q.Line.Between[0], q.Line.Between[1]
		k := slices.IndexFunc(b.shop.BendOrder, func(s string) bool { return s == x+"/"+y || s == y+"/"+x })
		if k < 0 {
			return len(b.shop.BendOrder)
		}
		return k
	}
	slices.SortStableFunc(all, func(p, q Bend) int { return at(p) - at(q) })
}

// tools checks what is stated once for the job of strips, order and machine.
func (b *builder) tools(families []*Family) {
	note := func(code, what, mend string) {
		b.found.Append(finding.Finding{Code: code, Severity: finding.Hold, At: b.shop.At, What: what, Mend: mend})
	}
	for _, name := range b.shop.BendOrder {
		known := slices.ContainsFunc(families, func(f *Family) bool {
			return slices.ContainsFunc(f.Bodies, func(y Body) bool {
				return slices.ContainsFunc(y.Bends, func(q Bend) bool {
					return name == q.Line.Between[0]+"/"+q.Line.Between[1] ||
						name == q.Line.Between[1]+"/"+q.Line.Between[0]
				})
			})
		})
		if !known && len(families) > 0 {
			note("bend-unknown", "`bend_order:` names "+name+", and no piece has such a bend",
				"name a bend by the two faces beside it, as its sheet does")
		}
	}
	if m := b.shop.Machine; m != nil && len(m.Takes) > 0 {
		b.takes(m)
	}
	if m := b.shop.Machine; m != nil && m.Throat > 0 && b.shop.LeastFlange > m.Throat {
		note("throat", "the least flange is greater than the throat of the machine", "check the two")
	}
}
