package drawing

import (
	"cmp"
	"slices"

	"copingset/fonts"
)

// label is a text looking for a place along a line.
type label struct {
	at     Unit // where it belongs
	width  Unit
	words  string
	fact   string // that it letters
	placed Unit   // where it stands
}

func sortLabels(labels []label) {
	slices.SortStableFunc(labels, func(a, b label) int { return cmp.Compare(a.at, b.at) })
}

func inkOf(f Face, words string, size Size) (above, below Unit) {
	a, b := fonts.Ink(f, words, int(size))
	return Unit(a), Unit(b)
}

// spread places sorted labels in one row, in order, gap apart, as near as possible to where
// they belong (least squares, by pooling neighbours that would overlap), inside the limits of
// the row if it has any. It returns the largest shift and whether all fit in the limits. Labels
// never overlap, whether they fit or not.
func (r row) spread(labels []label, gap Unit) (shift Unit, fits bool) {
	if len(labels) == 0 {
		return 0, true
	}
	// offset[i] is how far label i stands from label 0 when all touch; the row then only has to
	// keep at-offset from falling.
	offset := make([]int64, len(labels))
	for i := 1; i < len(labels); i++ {
		step := (labels[i-1].width+1)/2 + (labels[i].width+1)/2 + gap
		offset[i] = offset[i-1] + int64(step)
	}
	type block struct {
		sum   int64
		count int64
	}
	mean := func(b block) int64 { return floorDiv(b.sum, b.count) }
	var blocks []block
	for i, l := range labels {
		blocks = append(blocks, block{int64(l.at) - offset[i], 1})
		for k := len(blocks) - 1; k > 0 && mean(blocks[k-1]) > mean(blocks[k]); k-- {
			blocks[k-1].sum += blocks[k].sum
			blocks[k-1].count += blocks[k].count
			blocks = blocks[:k]
		}
	}
	i := 0
	for _, b := range blocks {
		for range b.count {
			labels[i].placed = Unit(mean(b))
			i++
		}
	}
	fits = true
	if r.limited {
		last := len(labels) - 1
		lo := r.lo + (labels[0].width+1)/2
		hi := r.hi - (labels[last].width+1)/2 - Unit(offset[last])
		fits = lo <= hi
		for i := range labels {
			labels[i].placed = max(min(labels[i].placed, hi), lo)
		}
	}
	for i := range labels {
		labels[i].placed += Unit(offset[i])
		d := labels[i].placed - labels[i].at
		shift = max(shift, d, -d)
	}
	return shift, fits
}

// Spread places labels of given widths in one row, in order and gap apart, as near as possible to where each belongs,
// between lo and hi. at grows. It returns their middles, the largest shift, and whether all fit between the limits;
// they never overlap, whether they fit or not.
func Spread(at, width []Unit, gap, lo, hi Unit) (placed []Unit, shift Unit, fits bool) {
	labels := make([]label, len(at))
	for i := range at {
		labels[i] = label{at: at[i], width: width[i]}
	}
	shift, fits = row{limited: true, lo: lo, hi: hi}.spread(labels, gap)
	placed = make([]Unit, len(at))
	for i, l := range labels {
		placed[i] = l.placed
	}
	return placed, shift, fits
}
