package shop

import (
	"fmt"
	"math"

	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/length"
)

// overDie checks flanges and webs against what a die bends: outside, to the mold line.
// The root of a body lies on the table, and a hem is folded under a bar.
func overDie(name string, body Body, die length.Length) (code, what, mend string) {
	for _, p := range body.paths {
		for i, g := range p.Segs {
			if i == p.Root || p.Hem(i) {
				continue
			}
			// A flange ends at a cut edge or in the fold of a hem.
			free := i == 0 || i == len(p.Segs)-1 || p.Hem(i-1) || p.Hem(i+1)
			least, of := fold.LeastFlange(die.MM()), "flange"
			if !free {
				least, of = fold.LeastWeb(die.MM(), p.T), "web between two bends"
			}
			if got := p.Outside(i, fold.ToMoldLine, edgeMeasure(p, i)); got < least-1e-6 {
				return "flat-under-tool", fmt.Sprintf("the %s of the %s is %s deep, outside, and over a die of %s a "+
						"%s takes no less than %s",
						g.Name, name, job.Both(length.FromMM(got)), job.Both(die), of, job.Both(length.FromMM(least))),
					"a narrower die, or a deeper " + g.Name
			}
		}
	}
	return "", "", ""
}

// edgeMeasure is to the mold line, and to the tangent where a hem has none.
func edgeMeasure(p fold.Path, i int) fold.Measure {
	if math.Abs(p.Segs[i].Turn) == 180 {
		return fold.ToTangent
	}
	return fold.ToMoldLine
}
