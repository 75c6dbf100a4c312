package cap

import (
	"slices"
	"testing"

	"copingset/layout/job"
	"copingset/layout/length"

	"pgregory.net/rapid"
)

// A closer of 27 1/2 in between joints of 3/8 in: one bay is over the 27 in tested, and
// three chairs of 14 in want 27 5/8. The last two pieces share what is left, as they do
// where a closer would be under the least.
func TestClosersThatNoChairsStandUnder(t *testing.T) {
	k := stock{most: 129 * inch, least: 18 * inch, gap: 3 * inch / 8, grid: inch / 16, remainder: job.Right}
	k.unfit = unfit(14*inch, k.gap, k.most, 27*inch, 43*inch)
	if want := []window{{27 * inch, 28*inch - k.gap}}; !slices.Equal(k.unfit, want) {
		t.Fatalf("no chairs stand under %v, by hand %v", k.unfit, want)
	}
	rest := 55 * inch / 2
	p, ok := divide(129*inch+k.gap+rest, k, nil)
	if want := []length.Length{(129*inch + rest) / 2, (129*inch + rest) / 2}; !ok || !slices.Equal(p, want) {
		t.Errorf("pieces %v, want %v", p, want)
	}
	for _, edge := range []length.Length{27 * inch, 28*inch - k.gap} { // these stand
		if p, ok := divide(129*inch+k.gap+edge, k, nil); !ok || p[1] != edge {
			t.Errorf("a closer of %v is shared: %v", edge, p)
		}
	}
	// One piece alone has nothing to share with: it stays, and is held.
	if p, ok := divide(rest, k, nil); !ok || !slices.Equal(p, []length.Length{rest}) {
		t.Errorf("pieces %v", p)
	}
}

// A row has a length that no chairs stand under only where no other row of steps does
// without, under stock lengths of twice that and more: brute force over all rows of
// whole steps.
func TestRowsThatChairsStandUnder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := func(lo, hi int, what string) length.Length {
			return length.Length(rapid.IntRange(lo, hi).Draw(t, what)) * inch
		}
		k := stock{most: n(10, 20, "stock"), least: n(1, 5, "least"), gap: inch, grid: inch, remainder: job.Side(rapid.IntRange(0, 1).Draw(t, "remainder"))}
		from := n(1, int(k.most/2/inch)-1, "spacing")
		k.unfit = []window{{from, min(from+n(1, 4, "window"), k.most/2)}}
		total := n(2, 60, "total")
		p, ok := divide(total, k, nil)
		if !ok {
			return
		}
		sum := length.Length(len(p)-1) * k.gap
		for _, l := range p {
			sum += l
		}
		if sum != total {
			t.Fatalf("pieces %v fill %v of %v", p, sum, total)
		}
		if slices.ContainsFunc(p, func(l length.Length) bool { return !k.fits(l) }) && stands(total, k, len(p)) {
			t.Fatalf("pieces %v of %v: as many stand otherwise", p, total)
		}
	})
}

// stands tells whether some row of so many pieces avoids all lengths that
// no chairs stand under.
func stands(total length.Length, k stock, pieces int) bool {
	if pieces == 1 {
		return total >= k.least && total <= k.most && k.fits(total)
	}
	for l := k.least; l <= k.most; l += k.grid {
		if k.fits(l) && stands(total-l-k.gap, k, pieces-1) {
			return true
		}
	}
	return false
}
