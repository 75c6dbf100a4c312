package store

import (
	"errors"
	"os"
	"path/filepath"
	"syscall"
)

const (
	foldersSync  = false // Windows writes folders through by itself and syncs none
	removeLocked = false // an open file stays until it is closed
)

// Error codes of Windows that package syscall does not name.
const (
	errnoWriteProtect    syscall.Errno = 19
	errnoSharing         syscall.Errno = 32
	errnoLocked          syscall.Errno = 33
	errnoHandleDiskFull  syscall.Errno = 39
	errnoDiskFull        syscall.Errno = 112
	errnoNameTooLong     syscall.Errno = 206
	errnoDiskQuotaPassed syscall.Errno = 1295
)

// openLocked opens a file, made if absent, which nobody else can open until it
// is closed or the process ends.
func (d *folder) openLocked(name string) (*os.File, error) {
	full := filepath.Join(d.root.Name(), name)
	p, err := syscall.UTF16PtrFromString(full)
	if err != nil {
		return nil, &os.PathError{Op: "lock", Path: name, Err: err}
	}
	h, err := syscall.CreateFile(p, syscall.GENERIC_READ|syscall.GENERIC_WRITE, 0, nil, syscall.OPEN_ALWAYS,
		syscall.FILE_ATTRIBUTE_NORMAL|syscall.FILE_FLAG_OPEN_REPARSE_POINT, 0)
	switch {
	case errors.Is(err, errnoSharing), errors.Is(err, errnoLocked):
		return nil, errBusy
	case err != nil:
		return nil, &os.PathError{Op: "lock", Path: name, Err: err}
	}
	return os.NewFile(uintptr(h), full), nil
}

func cannotSync(error) bool { return false }

func isFull(err error) bool {
	return errors.Is(err, errnoDiskFull) || errors.Is(err, errnoHandleDiskFull) ||
		errors.Is(err, errnoDiskQuotaPassed) ||
		errors.Is(err, syscall.ENOSPC)
}

func isReadOnly(err error) bool { return errors.Is(err, errnoWriteProtect) }

func isTooLong(err error) bool { return errors.Is(err, errnoNameTooLong) }

func isOpenElsewhere(err error) bool {
	return errors.Is(err, errnoSharing) || errors.Is(err, errnoLocked)
}
