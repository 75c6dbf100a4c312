package drawing

import "strings"

// Said are words, and the names of the facts that they letter, as Text.Fact has them.
type Said struct{ Words, Fact string }

// Plain are words that letter no fact.
func Plain(words ...string) []Said {
	out := make([]Said, len(words))
	for i, w := range words {
		out[i].Words = w
	}
	return out
}

// FactNames joins the names of the facts that one mark letters, as Text.Fact has
// them; none of an empty name.
func FactNames(names ...string) string {
	var out []string
	for _, n := range names {
		if n != "" {
			out = append(out, n)
		}
	}
	return strings.Join(out, "|")
}
