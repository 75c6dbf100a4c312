package finding

import (
	_ "embed"
	"strings"
	"sync"
)

// codesText is a line for each code: the code, what it means, what to do.
//
//go:embed codes.txt
var codesText string

// Explained is what a code means, whichever job it is raised in.
type Explained struct{ Code, Means, Mend string }

// Explanations lists all codes, sorted.
var Explanations = sync.OnceValue(func() []Explained {
	var out []Explained
	for line := range strings.Lines(codesText) {
		part := strings.SplitN(strings.TrimSpace(line), " | ", 3)
		if len(part) == 3 {
			out = append(out, Explained{part[0], part[1], part[2]})
		}
	}
	return out
})

// Explain says what a code means. If there is no such code it names the one that is
// nearest, or none.
func Explain(code string) (e Explained, near string, ok bool) {
	var names []string
	for _, e := range Explanations() {
		if e.Code == code {
			return e, "", true
		}
		names = append(names, e.Code)
	}
	return Explained{}, Suggest(code, names), false
}
