//go:build unix

package samples_test

import (
	"syscall"
	"time"
)

// cpu is how much of a processor's time this process has taken.
func cpu() time.Duration {
	var r syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &r) != nil {
		return 0
	}
	return time.Duration(r.Utime.Nano() + r.Stime.Nano())
}
