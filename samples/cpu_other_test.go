//go:build !unix

package samples_test

import "time"

// cpu is not known here: the mutants are tried without a limit of time.
func cpu() time.Duration { return 0 }
