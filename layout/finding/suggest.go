package finding

import "strings"

// Suggest is the known word nearest to a mistyped one, for "did you mean";
// empty if none is near. Near is up to about a third of the word in inserted,
// dropped, changed or swapped letters, small and capital alike. Of two equally
// near words the earlier in the list is taken.
func Suggest(word string, known []string) string {
	w := []rune(strings.ToLower(word))
	best, limit := "", (len(w)+1)/3
	for _, k := range known {
		d := distance(w, []rune(strings.ToLower(k)))
		if d <= limit {
			best, limit = k, d-1
		}
	}
	return best
}

// distance is the Damerau-Levenshtein distance in its optimal string alignment
// form: insertions, deletions, substitutions and swaps of neighbours, no
// letter edited twice.
func distance(a, b []rune) int {
	before, prev, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range prev {
		prev[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			change := prev[j-1]
			if a[i-1] != b[j-1] {
				change++
			}
			row[j] = min(change, prev[j]+1, row[j-1]+1)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, prev, row = prev, row, before
	}
	return prev[len(b)]
}
