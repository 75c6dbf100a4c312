//go:build darwin || dragonfly || freebsd || linux || netbsd || openbsd

package store

import (
	"errors"
	"os"
	"syscall"
)

const (
	foldersSync  = true // a folder can be synced as a file is
	removeLocked = true // an open file can be removed
)

// openLocked opens a file, made if absent, with a lock that ends with the process.
func (d *folder) openLocked(name string) (*os.File, error) {
	f, err := d.root.OpenFile(name, os.O_CREATE|os.O_RDWR, 0o666)
	if err != nil {
		return nil, err
	}
	for {
		err = syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
		if err == nil {
			return f, nil
		}
		if errors.Is(err, syscall.EINTR) {
			continue
		}
		_ = f.Close()
		switch {
		case errors.Is(err, syscall.EWOULDBLOCK):
			return nil, errBusy
		case errors.Is(err, syscall.ENOLCK), errors.Is(err, syscall.ENOTSUP), errors.Is(err, syscall.ENOSYS):
			return nil, errNoLocks
		}
		return nil, &os.PathError{Op: "lock", Path: name, Err: err}
	}
}

// cannotSync reports whether a folder lies on a file system that syncs none.
func cannotSync(err error) bool {
	return errors.Is(err, syscall.EINVAL) || errors.Is(err, syscall.ENOTSUP)
}

func isFull(err error) bool { return errors.Is(err, syscall.ENOSPC) || errors.Is(err, syscall.EDQUOT) }

func isReadOnly(err error) bool { return errors.Is(err, syscall.EROFS) }

func isTooLong(err error) bool { return errors.Is(err, syscall.ENAMETOOLONG) }

func isOpenElsewhere(err error) bool {
	return errors.Is(err, syscall.EBUSY) || errors.Is(err, syscall.ETXTBSY)
}
