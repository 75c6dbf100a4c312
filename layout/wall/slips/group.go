package slips

import "copingset/layout/length"

// Together doubts what Find must leave alone, a change that readings share: two or
// three beside each other, with others on both sides, that stand farther from all
// the rest than the rest is spread, and farther than least. A wall that steps stays
// beyond its step, one that slopes or peaks is spread by it, and a bow reaches over
// more readings than three; what is left is a tape hooked over the wrong edge for a
// few readings, or a rod read in another foot. It takes eight readings.
func Together(v []Value, least length.Length) []Found {
	const few, most = 8, 3
	n := len(v)
	if n < few {
		return nil
	}
	// What lies before and beyond a group, as least and greatest value up to there.
	before, beyond := make([][2]length.Length, n), make([][2]length.Length, n)
	for i := range v {
		before[i], beyond[n-1-i] = [2]length.Length{v[i].V, v[i].V}, [2]length.Length{v[n-1-i].V, v[n-1-i].V}
		if i > 0 {
			before[i] = [2]length.Length{min(before[i-1][0], v[i].V), max(before[i-1][1], v[i].V)}
			beyond[n-1-i] = [2]length.Length{min(beyond[n-i][0], v[n-1-i].V), max(beyond[n-i][1], v[n-1-i].V)}
		}
	}
	for i := 2; i+2 <= n; i++ {
		lo, hi := v[i].V, v[i].V
		for k := i + 1; k < i+most && k < n-2; k++ {
			lo, hi = min(lo, v[k].V), max(hi, v[k].V)
			restLo, restHi := min(before[i-1][0], beyond[k+1][0]), max(before[i-1][1], beyond[k+1][1])
			out := max(lo-restHi, restLo-hi)
			limit := max(restHi-restLo, least)
			if out <= limit {
				continue
			}
			var found []Found
			for q := i; q <= k; q++ {
				found = append(found, Found{Index: q, Expected: on(v[i-1], v[k+1], v[q].At), Out: max(v[q].V-restHi,
					restLo-v[q].V), Limit: limit})
			}
			return found
		}
	}
	return nil
}
