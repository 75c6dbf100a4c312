package layout

import (
	"fmt"
	"math"
	"strconv"

	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// Profile is the section of a family's cap, from one of its bodies on: of a
// transition the straight end, for the taper is no one section. It has no faces
// where none of them is one sheet along the run.
func (l *Layout) Profile(f *Family, from int) plan.Profile {
	out := plan.Profile{Name: f.Mark, Title: "Section of " + f.Mark, Metric: l.Job.Units == job.Metric}
	if from > 0 {
		out.Name, out.Title = out.Name+"-"+strconv.Itoa(from+1), out.Title+", "+f.Bodies[from].Name
	}
	for i, b := range f.Bodies[from:] {
		if b.Metal != nil && len(b.Metal.Path.Segs) > 1 {
			profileOf(&out, b, BodyKey(FactOfFamily(f), from+i))
			break
		}
	}
	return out
}

func profileOf(out *plan.Profile, b Body, k plan.Key) {
	p := b.Metal.Path
	out.Metal = ringOf(p.Lay())
	line, root := p.Profile()
	at := func(i int) plan.Pt { return place{line.Y[i], line.Z[i]}.pt() }
	n := 0
	for i, g := range p.Segs {
		if p.Hem(i) {
			continue
		}
		foot := i > 0 && math.Abs(p.Segs[i-1].Turn) != 180 && p.Segs[i-1].To == fold.ToTangent
		out.Faces = append(out.Faces, plan.ProfileFace{Name: g.Name, Fact: faceFact(b, k, g.Name),
			Outside: length.FromMM(p.Stated(i)), Root: n == root,
			Tangent: g.To == fold.ToTangent && math.Abs(g.Turn) != 180 || foot, From: at(n), To: at(n + 1)})
		if i+1 < len(p.Segs) && !p.Hem(i+1) {
			out.Bends = append(out.Bends, plan.ProfileBend{At: at(n + 1), Fact: bendFact(b, k, i),
				Included: 180 - math.Abs(g.Turn)})
		}
		n++
	}
}

// faceFact is the name of the outside dimension of a body's face.
func faceFact(b Body, k plan.Key, name string) string {
	for i, f := range b.Solid.Faces {
		if f.Name == name {
			return k.Fact(fmt.Sprintf("face-%d-outside", i+1))
		}
	}
	return ""
}

// bendFact is the name of the included angle of the bend after a straight of a body's
// section.
func bendFact(b Body, k plan.Key, seg int) string {
	for i, q := range b.Bends {
		if q.Line.Seg == seg && !q.Across() {
			return k.Fact(fmt.Sprintf("bend-%d-included-degrees", i+1))
		}
	}
	return ""
}
