package store

import (
	"cmp"
	"errors"
	"fmt"
	"os"
	"path/filepath"
)

var (
	errChanged = errors.New("it was changed since it was read; run this again")
	errLocked  = errors.New("nobody may write into it")
)

// Replace puts new text in place of one file, whole or not at all, and leaves it
// the permissions it had. The file must still hold what was read from it. The text
// waits in a stage beside the file and is moved over it by one rename; what a run
// that is cut off leaves in the stage goes with the next one (Ready).
func Replace(file string, was, text []byte) error {
	dir, name := filepath.Split(file)
	dir = cmp.Or(dir, ".")
	root, err := os.OpenRoot(dir)
	if err == nil {
		err = replace(&folder{root, dir}, name, was, text)
		_ = root.Close() // it was only looked through
	}
	if err != nil {
		return keeps(file, err)
	}
	return nil
}

// keeps makes a sentence of why a file stays as it is.
func keeps(file string, err error) error {
	why := err.Error()
	switch {
	case errors.Is(err, errChanged), errors.Is(err, errLocked):
	case errors.Is(err, errBusy):
		why = "another copingset is writing into its folder; wait until it is done and run this again"
	case errors.Is(err, errNoLocks):
		why = "its disk has no locks, so two runs could mix their texts; work on a copy on another disk"
	default:
		why, _ = reason(func(name string) string { return filepath.Join(filepath.Dir(file), filepath.FromSlash(name)) },
			err)
	}
	return fmt.Errorf("%s is as it was: the new text cannot be put in its place: %s", file, why)
}

// replace is Replace in an open folder.
func replace(d disk, name string, was, text []byte) error {
	w, err := enter(d)
	if err != nil {
		return err
	}
	defer w.leave()
	if _, err := w.mend(); err != nil {
		return err
	}
	if err := w.holds(name, was); err != nil {
		return err
	}
	info, err := w.Stat(name)
	if err != nil {
		return trouble{name, err}
	}
	if info.Mode().Perm()&0o222 == 0 { // a rename would not ask
		return errLocked
	}
	if err := w.put(newName(0), text); err != nil {
		return trouble{name, err}
	}
	if err := w.Chmod(newName(0), info.Mode().Perm()); err != nil {
		return trouble{name, err}
	}
	if err := w.Sync(stageName); err != nil {
		return err
	}
	if err := w.holds(name, was); err != nil { // somebody may have saved it while the text was written
		return err
	}
	if err := w.Rename(newName(0), name); err != nil {
		return trouble{name, err}
	}
	_ = w.Sync(".") // should the disk forget the rename, the old text is there
	return nil
}

// holds checks that a file is what was read from it.
func (w *writer) holds(name string, was []byte) error {
	switch now, err := w.digest(name); {
	case err != nil:
		return err
	case now != digestOf(was):
		return errChanged
	}
	return nil
}
