package store

import (
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
)

// disk is all that the write path asks of the output folder, so that a test can
// stand in for a disk that fails, fills up or loses its writer at any call. Names
// are below the folder, with slashes.
type disk interface {
	Stat(name string) (fs.FileInfo, error) // of the entry itself, not of what a link leads to
	List(name string) ([]string, error)    // names in a folder, sorted
	Read(name string) ([]byte, error)
	Mkdir(name string) error
	Create(name string) (handle, error) // a new file; it is an error if there is one
	Chmod(name string, mode fs.FileMode) error
	Rename(from, to string) error
	Remove(name string) error                     // a file, or an empty folder
	Sync(name string) error                       // brings the entries of a folder to the disk
	Lock(name string) (lock io.Closer, err error) // errBusy if another run has it, errGone if the file went meanwhile
}

// handle is a file being written.
type handle interface {
	io.WriteCloser
	Sync() error
}

// folder is the output folder on a real disk. The root keeps every name inside
// it, links or not.
type folder struct {
	root *os.Root
	dir  string // as the user named it
}

func (d *folder) Stat(name string) (fs.FileInfo, error) {
	return d.root.Lstat(filepath.FromSlash(name))
}

func (d *folder) List(name string) ([]string, error) {
	f, err := d.root.Open(filepath.FromSlash(name))
	if err != nil {
		return nil, err
	}
	names, err := f.Readdirnames(-1)
	if e := f.Close(); err == nil {
		err = e
	}
	slices.Sort(names)
	return names, err
}

func (d *folder) Read(name string) ([]byte, error) { return d.root.ReadFile(filepath.FromSlash(name)) }

func (d *folder) Mkdir(name string) error { return d.root.Mkdir(filepath.FromSlash(name), 0o777) }

func (d *folder) Create(name string) (handle, error) {
	return d.root.OpenFile(filepath.FromSlash(name), os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o666)
}

func (d *folder) Chmod(name string, mode fs.FileMode) error {
	return d.root.Chmod(filepath.FromSlash(name), mode)
}

func (d *folder) Rename(from, to string) error {
	return d.root.Rename(filepath.FromSlash(from), filepath.FromSlash(to))
}

func (d *folder) Remove(name string) error { return d.root.Remove(filepath.FromSlash(name)) }

func (d *folder) Sync(name string) error {
	if !foldersSync {
		return nil
	}
	f, err := d.root.Open(filepath.FromSlash(name))
	if err != nil {
		return err
	}
	err = f.Sync()
	if cannotSync(err) {
		err = nil
	}
	if e := f.Close(); err == nil {
		err = e
	}
	return err
}

func (d *folder) Lock(name string) (io.Closer, error) {
	f, err := d.openLocked(filepath.FromSlash(name))
	if err != nil {
		return nil, err
	}
	mine, err := f.Stat()
	if err == nil {
		var now fs.FileInfo
		if now, err = d.Stat(name); err == nil && !os.SameFile(mine, now) {
			err = errGone
		}
	}
	if err != nil {
		_ = f.Close()
		return nil, err
	}
	return f, nil
}
