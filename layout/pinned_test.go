package layout_test

import (
	"flag"

	_ "copingset/layout/length/pinned" // the same draws every day
)

// A whole layout is solved for every draw, so there are fewer of them; for
// more, `go test ./layout -rapid.checks=1000`.
func init() {
	if err := flag.Set("rapid.checks", "50"); err != nil {
		panic(err)
	}
}
