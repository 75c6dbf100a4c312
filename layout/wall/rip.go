package wall

import (
	"slices"

	"copingset/layout/job"
	"copingset/layout/length"
)

// Lay cuts the plywood of a run's zones: each layer runs on through every zone
// that is at least so many layers thick, as wide as the wall is at its
// narrowest there, and ends at building expansion joints. Strips are a sheet
// long and the cut one stands at the side that takes remainders; every second
// layer begins with half a sheet, so that joints do not lie over one another.
func (r *Run) Lay(zones []ShimZone, side job.Side, grid length.Length) []Strip {
	if len(r.Readings) == 0 {
		return nil
	}
	most := 0
	for _, z := range zones {
		most = max(most, z.Layers)
	}
	var out []Strip
	for layer := 1; layer <= most; layer++ {
		for i := 0; i < len(zones); i++ {
			if zones[i].Layers < layer {
				continue
			}
			k := i
			for k+1 < len(zones) && zones[k+1].Layers >= layer && !r.expansionAt(zones[k].To) {
				k++
			}
			out = append(out, r.stretch(layer, zones[i].From, zones[k].To, side, grid)...)
			i = k
		}
	}
	return out
}

// stretch cuts one layer of one stretch into strips.
func (r *Run) stretch(layer int, from, to length.Length, side job.Side, grid length.Length) []Strip {
	w := length.Min(r.At(from).Width, r.At(to).Width)
	for i := range r.Readings {
		if q := &r.Readings[i]; q.Station > from && q.Station < to {
			w = length.Min(w, q.Width)
		}
	}
	w = length.FloorTo(w, grid)
	s := r.packing.Sheet
	abreast := length.Length(1)
	if s.Stated() && w > s.Width {
		abreast = (w + s.Width - 1) / s.Width
		w = length.FloorTo(w/abreast, grid)
	}
	var out []Strip
	at := from
	for _, l := range cutLengths(to-from, s.Length, layer%2 == 0, side) {
		for range abreast {
			out = append(out, Strip{Layer: layer, From: at, To: at + l, Width: w})
		}
		at += l
	}
	return out
}

// cutLengths divides a layer into lengths of a sheet at most, from left to
// right.
func cutLengths(total, sheet length.Length, halved bool, side job.Side) []length.Length {
	if sheet <= 0 || total <= sheet {
		return []length.Length{total}
	}
	var out []length.Length
	if halved {
		out = append(out, sheet/2)
		total -= sheet / 2
	}
	for ; total > 0; total -= sheet {
		out = append(out, length.Min(total, sheet))
	}
	if side == job.Left {
		slices.Reverse(out)
	}
	return out
}

// RipPlan cuts strips out of sheets: the widest first, then the longest, each
// from the first rip of its width that has the length left, each rip from the
// first sheet that has the width left (first fit decreasing, D. S. Johnson
// 1973). It names the sheet and the rip of each strip, and counts the cuts of
// the saw: none where nothing is left to cut off. Sheets that are not stated
// give no plan.
func RipPlan(strips []*Strip, s job.Sheet) (sheets []Sheet, cuts, least int) {
	if !s.Stated() || len(strips) == 0 {
		return nil, 0, 0
	}
	order := slices.Clone(strips)
	slices.SortStableFunc(order, func(a, b *Strip) int {
		if a.Width != b.Width {
			return int(b.Width - a.Width)
		}
		return int(b.Length() - a.Length())
	})
	type open struct {
		sheet, rip int
		left       length.Length
	}
	var rips []open
	var wide []length.Length // left of each sheet
	kerf := func(left length.Length) length.Length { return length.Max(0, left-s.Kerf) }
	area := 0.0
	for _, p := range order {
		area += p.Length().MM() * p.Width.MM()
		at := slices.IndexFunc(rips, func(o open) bool {
			return o.left >= p.Length() && sheets[o.sheet].Rips[o.rip].Width == p.Width
		})
		if at < 0 {
			k := slices.IndexFunc(wide, func(left length.Length) bool { return left >= p.Width })
			if k < 0 {
				k = len(sheets)
				sheets = append(sheets, Sheet{N: k + 1})
				wide = append(wide, s.Width)
			}
			if wide[k] -= p.Width; wide[k] > 0 {
				cuts++
				wide[k] = kerf(wide[k])
			}
			at = len(rips)
			rips = append(rips, open{k, len(sheets[k].Rips), s.Length})
			sheets[k].Rips = append(sheets[k].Rips, Rip{Width: p.Width})
		}
		o := &rips[at]
		if o.left -= p.Length(); o.left > 0 {
			cuts++
			o.left = kerf(o.left)
		}
		r := &sheets[o.sheet].Rips[o.rip]
		r.Cuts = append(r.Cuts, p.Length())
		p.Sheet, p.Rip = o.sheet+1, o.rip+1
	}
	one := s.Length.MM() * s.Width.MM()
	least = int(area / one)
	if float64(least)*one < area-1 { // a square millimetre is no sheet
		least++
	}
	return sheets, cuts, least
}
