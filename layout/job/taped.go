package job

import (
	"fmt"
	"math"

	"copingset/layout/finding"
	"copingset/layout/length"
)

// Taped is a corner as a tape finds it: a distance along each wall from the corner,
// and the diagonal between the two marks, all on one face. Left and right are those
// of a person on the roof looking out over the corner.
type Taped struct {
	At                    finding.Place
	Left, Right, Diagonal length.Length
	Face                  Face
	Inside                bool // the wall turns away from the roof
}

func (t *Taped) keys(k keys) {
	t.At = k.at
	k.length("left", &t.Left, "from the corner to a mark on the wall at the left hand", `4'-0"`)
	k.length("right", &t.Right, "from the corner to a mark on the wall at the right hand", `4'-0"`)
	k.length("diagonal", &t.Diagonal, "from mark to mark", `5'-7 7/8"`)
	word(k, "face", &t.Face, faces(), "the face that all three were taped on", "front")
	word(k, "corner", &t.Inside, []choice[bool]{{"outside", false}, {"inside", true}},
		"outside if the wall turns towards the roof, else inside", "outside")
}

// Included is the angle between the two walls, by the law of cosines:
// cos = (left² + right² - diagonal²) / (2·left·right). ok is false where the three
// make no triangle.
func (t *Taped) Included() (a Angle, ok bool) {
	l, r, d := t.Left.MM(), t.Right.MM(), t.Diagonal.MM()
	if !(l > 0 && r > 0) || d >= l+r || d <= math.Abs(l-r) {
		return 0, false
	}
	c := (l*l + r*r - d*d) / (2 * l * r)
	return Angle(math.Round(math.Acos(c) * 180 / math.Pi * float64(Degree))), true
}

// Turn is how the wall turns, positive to the right; ok as of Included.
func (t *Taped) Turn() (a Angle, ok bool) {
	in, ok := t.Included()
	if t.Inside {
		return in - 180*Degree, ok
	}
	return 180*Degree - in, ok
}

// Doubt is by how much the angle can be out when each of the three was read to a
// step of the tape, so to half of it: the sum of the three partial derivatives of
// the law of cosines,
//
//	∂A/∂d = d / (l·r·sin A), ∂A/∂l = (r·cos A - l) / (l·r·sin A), and the same for r.
func (t *Taped) Doubt(step length.Length) Angle {
	in, ok := t.Included()
	if !ok {
		return 180 * Degree
	}
	l, r, d := t.Left.MM(), t.Right.MM(), t.Diagonal.MM()
	sin, cos := math.Sincos(in.Degrees() * math.Pi / 180)
	k := step.MM() / 2 / (l * r * sin)
	sum := k * (d + math.Abs(r*cos-l) + math.Abs(l*cos-r))
	return Angle(math.Round(sum * 180 / math.Pi * float64(Degree)))
}

// Longer is how long both legs would have to be for the angle to be known to within
// so much: the doubt goes down as the legs grow.
func (t *Taped) Longer(step length.Length, to Angle) length.Length {
	least := min(t.Left, t.Right)
	if to <= 0 {
		return least
	}
	return length.CeilTo(length.MulDiv(least, int64(t.Doubt(step)), int64(to)), 100*step)
}

// tapeStep is the step that corners are taped in.
func tapeStep(u Units) length.Length {
	if u == Metric {
		return length.Millimetre
	}
	return length.Inch16
}

// checkTaped sees that taped corners are triangles and are known as finely as a
// corner piece has to be.
func (d *decoder) checkTaped(j *Job) {
	for i := range j.Perimeters {
		p := &j.Perimeters[i]
		for k := range p.Runs {
			t := p.Runs[k].Right.Taped
			if t == nil || t.Left <= 0 || t.Right <= 0 || t.Diagonal <= 0 {
				continue
			}
			what := fmt.Sprintf("run %s: the corner at its right end", p.Runs[k].Name)
			if _, ok := t.Turn(); !ok {
				d.errorf("corner-taped", t.At, "tape all three again, on one face",
					"%s: %s along the left, %s along the right and a diagonal of %s make no triangle", what,
					Both(t.Left), Both(t.Right), Both(t.Diagonal))
				continue
			}
			play, step := j.System.Corner.AnglePlay, tapeStep(j.Units)
			if doubt := t.Doubt(step); play > 0 && doubt > play {
				f := finding.New(finding.Hold, "corner-taped-short", t.At,
					fmt.Sprintf("tape it again over legs of about %s", Both(t.Longer(step, play))),
					"%s is taped to within %s, and its piece may be out by %s", what, FormatAngle(hundredth(doubt)),
					FormatAngle(play))
				f.Where = finding.Ref{Perimeter: p.Name, Run: p.Runs[k].Name,
					Runs: []string{p.Runs[(k+1)%len(p.Runs)].Name}}
				d.add(f)
			}
		}
	}
}

// hundredth is an angle rounded up to hundredths of a degree, for messages.
func hundredth(a Angle) Angle {
	const step = Degree / 100
	return (a + step - 1) / step * step
}
