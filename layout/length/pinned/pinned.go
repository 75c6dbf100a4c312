// Package pinned fixes the draws of the property tests, so that what `go test`
// says depends on the code and not on the day. A test file imports it for its
// effect alone. To look further, draw anew and more often:
//
//	go test ./drawing/view -rapid.seed=0 -rapid.checks=2000
package pinned

import (
	"flag"

	_ "pgregory.net/rapid" // declares the flag set below
)

// The flag's own default draws from the clock. Flags of the command line are
// read after this and win.
func init() {
	if err := flag.Set("rapid.seed", "20261125"); err != nil {
		panic(err)
	}
}
