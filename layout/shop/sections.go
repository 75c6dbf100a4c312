package shop

import (
	"errors"
	"math"

	"copingset/layout/cap"
	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/length"
)

// ErrNotStated says that the job does not state a section.
var ErrNotStated = errors.New("the job does not state the section")

// CapSection is the sheet that a cap of an outside width is bent from, its top at
// a slope: what its pattern is developed from. Its root, the top, begins at the
// origin. It is an error where it cannot be bent as stated.
func CapSection(j *job.Job, outside length.Length, slope job.Slope) (fold.Path, error) {
	b := sections(j)
	b.bend = fold.Bend{Thickness: b.s.Metal.Thickness.MM(), Radius: b.s.Profile.InsideR.MM(), K: b.shop.K}
	m := b.measures()
	m.slope = float64(slope) / 1e9
	return b.path(m, outside.MM())
}

// Made is a small part in section: its sheet, and what its stated section leaves
// before the face that reaches across.
type Made struct {
	Path   fold.Path
	Before length.Length
}

// ChairSection is the chair of an assembly under a cap of an inside width: one body
// for each of both, as the assembly was tested with it. Its root is its base, and x is 0 at
// the outside of the bend before that.
func ChairSection(j *job.Job, of *job.Assembly, inside length.Length) (Made, error) {
	return madeOf(j, func(b *partBuilder) { b.chairs([]Chair{{Inside: inside, Assembly: of}}) })
}

// PlateSection is the splice plate in a cap of an inside width, or the cover plate
// of an expansion joint there. Its root is its top.
func PlateSection(j *job.Job, inside, long length.Length, cover bool) (Made, error) {
	q := []Plate{{Inside: inside, Length: long, Held: cap.LeftHand}}
	if cover {
		return madeOf(j, func(b *partBuilder) { b.covers(q) })
	}
	return madeOf(j, func(b *partBuilder) { b.splices(q) })
}

// ExtenderSection is the extender below a front leg, or below a rear one, of a height.
// Its root stands upright, its finish to the left.
func ExtenderSection(j *job.Job, height length.Length, roof bool) (Made, error) {
	return madeOf(j, func(b *partBuilder) {
		k := b.s.Extender
		if roof {
			k = b.s.RoofExtender
		}
		if k != nil {
			b.extenders([]Extender{{Height: height, Along: k.Stock, Roof: roof}})
		}
	})
}

// sections builds for a job with or without a shop: no outline depends on how far
// the metal stretches.
func sections(j *job.Job) partBuilder {
	b := partBuilder{builder: builder{j: j, s: &j.System, shop: j.Shop, step: Step(j.Units == job.Metric)}}
	if b.shop == nil {
		b.shop = &job.Shop{K: 0.5}
	}
	return b
}

// madeOf is the section of the part that is added.
func madeOf(j *job.Job, add func(*partBuilder)) (Made, error) {
	b := sections(j)
	add(&b)
	if len(b.parts) == 0 {
		return Made{}, ErrNotStated
	}
	p := b.parts[0]
	switch {
	case p.Fails != "":
		return Made{}, errors.New(p.Fails)
	case p.Radius < 0 && len(p.legs) > 1:
		return Made{}, errors.New("its bends have no inside radius")
	}
	b.bend = fold.Bend{Thickness: p.Thickness.MM(), Radius: max(p.Radius, 0).MM(), K: p.K}
	r := b.metalOf(p)
	if r.err != nil {
		return Made{}, r.err
	}
	return Made{r.metal.Path, p.before}, nil
}

// Seated is the part on a seat that falls to the roof: the front of it stands at a
// place across the wall, and the underside of its root on the seat, which lies at
// a height there. Millimetres.
func (m Made) Seated(front, seat, slope float64) fold.Path {
	p := m.Path
	in := m.Before.MM() + p.At.X
	p.Slope = slope
	p.At = fold.Point{X: front + in, Y: seat - slope*in + p.T*math.Hypot(1, slope)}
	return p
}
