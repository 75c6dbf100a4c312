package shop

import (
	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/length"
)

// capsOf builds caps of a job. Without `shop:` nothing is known of how its metal
// stretches: its middle then stays as long as it was, which weighs it right.
func capsOf(j *job.Job) builder {
	b := builder{j: j, s: &j.System, shop: j.Shop, step: Step(j.Units == job.Metric)}
	if b.shop == nil {
		b.shop = &job.Shop{K: 0.5}
	}
	b.bend = fold.Bend{Thickness: b.s.Metal.Thickness.MM(), Radius: b.s.Profile.InsideR.MM(), K: b.shop.K}
	return b
}

// Girth is the developed width of a cap of an outside width whose top falls so: of
// the sheet it is bent from, between its cut edges, rounded up as blanks are. Where
// the section cannot be bent as stated it is the sum of its outside lengths.
func Girth(j *job.Job, slope job.Slope, outside length.Length) length.Length {
	b := capsOf(j)
	m := b.measures()
	m.slope = float64(slope) / 1e9
	path, err := b.path(m, outside.MM())
	if err == nil {
		return b.up(path.Girth())
	}
	var sum float64
	legs, _ := b.legs(m, outside.MM())
	for _, l := range legs {
		sum += l.Outside
	}
	return b.up(sum)
}
