//go:build !(darwin || dragonfly || freebsd || linux || netbsd || openbsd || windows)

package store

import "os"

const (
	foldersSync  = true
	removeLocked = false
)

// openLocked refuses: without a lock that ends with its process two runs could
// work in one folder.
func (d *folder) openLocked(string) (*os.File, error) { return nil, errNoLocks }

func cannotSync(error) bool { return false }

func isFull(error) bool { return false }

func isReadOnly(error) bool { return false }

func isTooLong(error) bool { return false }

func isOpenElsewhere(error) bool { return false }
