package shop

import (
	"fmt"
	"math"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// arcOf is the flat that a bend of a trial strip took, in mm: what both legs sum to
// from tangent to tangent over the flat, by the measure the strip was taken with.
func (b *builder) arcOf(t job.TakenBend) float64 {
	turn := t.Turn.Degrees()
	both := 2 * b.bend.Setback(turn)
	if t.Turn > 90*job.Degree && t.To == job.ToTangent {
		both = 2 * (b.bend.Radius + b.bend.Thickness)
	}
	return both - t.Deduction.MM()
}

// misread is what the arc of a trial strip may lie outside its metal, in mm: a strip
// read to 1/32 in.
const misread = 25.4 / 32

// taken holds a job whose trial strips say what no bend of its metal can take: the
// neutral line of a bend lies between its two faces, whose arcs are turn x R and
// turn x (R + T). A strip measured to the wrong point is an inch wrong in every blank.
func (b *builder) taken() {
	for i, t := range b.shop.Bends {
		arc, turn := b.arcOf(t), t.Turn.Degrees()*math.Pi/180
		least, most := turn*b.bend.Radius, turn*(b.bend.Radius+b.bend.Thickness)
		if arc > 0 && arc >= least-misread && arc <= most+misread {
			continue
		}
		b.found.Append(finding.Finding{
			Code: "strip-misread", Severity: finding.Hold, At: t.At,
			What: fmt.Sprintf("bend %d: a deduction of %s leaves %s for the arc of the bend, whose faces are %s and "+
				"%s long",
				i+1, job.Both(t.Deduction), job.Both(length.FromMM(arc)), job.Both(length.FromMM(least)),
				job.Both(length.FromMM(most))),
			Why: "every blank with this bend would be as much too long or too short",
			Mend: "measure the strip again: its blank, both legs, and whether they were read to the mold line or to " +
				"the tangent (`to:`)",
		})
	}
}
