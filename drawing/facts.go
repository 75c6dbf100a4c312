package drawing

import "strings"

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
