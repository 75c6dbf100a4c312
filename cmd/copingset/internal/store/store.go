// Package store writes the files of one command into its output folder: all of
// them or none, and never over what somebody else wrote.
//
// Files are written and synced in a stage, a folder inside the output folder.
// Then a journal with the digest of each old and new file goes beside them, and
// from there on the set is moved by renames alone: each old file into the stage,
// each new one out of it. A move can be taken back as long as the journal
// stands, so a run that is cut off or meets a file that will not be moved leaves
// a folder that the next command finishes or puts back. The manifest, which says
// what was written and with which content, is taken out first and put in last:
// where it stands, the folder is whole.
//
// One file that a person wrote is put in place of itself by Replace, with the same
// stage and lock.
//
// A file is replaced or removed only while it is as the manifest says it was
// written. Everything else is somebody's: it stays, and is named.
package store

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
)

// File is one file to be written.
type File struct {
	Name string // below the output folder, with slashes
	Data []byte

	// Typed says that people type into it: one that differs from what was
	// written is kept whatever is asked.
	Typed bool
}

// Set is what one command writes. A second command may write another set, with
// a manifest of its own, into the same folder.
type Set struct {
	List   string // name of the manifest
	Files  []File
	Force  bool     // write over files that are not as the manifest says
	Inputs []string // paths that are never written over or removed: what the command read
}

// Result says what became of a set, beside having been written.
type Result struct {
	Kept []string // typed files that hold something else, in place of which nothing was written
	Left []string // files of an earlier set, not of this one, that were changed since and stay
}

// Write writes a set into a folder and makes the folder if it is absent. What an
// earlier set with the same manifest wrote and this one does not have is removed.
// After an error the folder is as it was, or, if the error says so, will be after
// the next command.
func Write(dir string, s Set) (Result, error) {
	d, made, err := open(dir)
	if err != nil {
		return Result{}, err
	}
	defer d.root.Close()
	r, err := write(d, s)
	if err == nil {
		return r, nil
	}
	for _, m := range made {
		if os.Remove(m) != nil { // something is in it
			break
		}
	}
	return Result{}, said(dir, err)
}

// Ready looks at an output folder before the work begins that is to be written
// there: it says early what Write would refuse, and finishes or takes back what
// an earlier run left half done. A folder that is absent is fine. The note, if
// there is one, says what was mended.
func Ready(dir string) (note string, err error) {
	if err := usable(dir); err != nil {
		return "", err
	}
	root, err := os.OpenRoot(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return "", nil
	}
	if err != nil {
		return "", said(dir, err)
	}
	defer root.Close()
	done, err := mend(&folder{root, dir})
	if err != nil {
		return "", said(dir, err)
	}
	switch done {
	case finished:
		return dir + ": an earlier run was cut off while it wrote; its files are now all in place", nil
	case undone:
		return dir + ": an earlier run was cut off while it wrote; the files from before it are back", nil
	}
	return "", nil
}

// open opens the output folder and makes it if it is absent. made are the
// folders that were made, the innermost first.
func open(dir string) (d *folder, made []string, err error) {
	if err := usable(dir); err != nil {
		return nil, nil, err
	}
	for p := filepath.Clean(dir); ; p = filepath.Dir(p) {
		if _, err := os.Lstat(p); !errors.Is(err, fs.ErrNotExist) || p == filepath.Dir(p) {
			break
		}
		made = append(made, p)
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return nil, nil, said(dir, err)
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, nil, said(dir, err)
	}
	return &folder{root, dir}, made, nil
}

// usable refuses a name that can be no output folder.
func usable(dir string) error {
	if strings.TrimSpace(dir) == "" {
		return refusal("-o names no folder; give one to write into (`-o .` is the folder you are in)")
	}
	isStage := func(part string) bool { return strings.EqualFold(part, stageName) }
	if slices.ContainsFunc(strings.Split(filepath.ToSlash(dir), "/"), isStage) {
		return refuse("cannot write into %s: %s is where copingset keeps files while it writes, and is emptied; "+
			"choose another folder with -o", dir, stageName)
	}
	for p := filepath.Clean(dir); ; p = filepath.Dir(p) {
		info, err := os.Stat(p)
		switch {
		case err == nil && info.IsDir():
			return nil
		case err == nil:
			return refuse("cannot write into %s: %s is a file, not a folder; choose another folder with -o", dir, p)
		}
		if _, lerr := os.Lstat(p); lerr == nil && errors.Is(err, fs.ErrNotExist) {
			return refuse("cannot write into %s: %s is a link that leads nowhere; choose another folder with -o", dir,
				p)
		}
		if p == filepath.Dir(p) {
			return nil // opening it will say what is wrong
		}
	}
}

// write is Write on an open folder.
func write(d disk, s Set) (Result, error) {
	if err := portable(s); err != nil {
		return Result{}, err
	}
	w, err := enter(d)
	if err != nil {
		return Result{}, err
	}
	defer w.leave()
	if _, err := w.mend(); err != nil {
		return Result{}, err
	}
	p, err := w.plan(s)
	if err != nil || len(p.moves) == 0 {
		return p.result, err
	}
	if err := w.fill(p); err != nil {
		return Result{}, err
	}
	if err := w.commit(p.journal); err != nil {
		return Result{}, err
	}
	return p.result, nil
}

// The stage and what stands in it: the files of the set by their number in the
// journal, the journal, and the lock of the run that works in it.
const (
	stageName   = ".copingset-stage"
	lockName    = stageName + "/lock"
	journalName = stageName + "/journal"
	draftName   = stageName + "/journal-draft"
)

// writer is a run that holds the lock of a folder.
type writer struct {
	disk
	lock io.Closer
}

// entries are how often a stage may vanish between being made and being locked,
// as the run that had it leaves.
const entries = 20

// enter makes the stage and takes its lock. The lock is the operating system's:
// it goes with the process that held it, however that ended.
func enter(d disk) (*writer, error) {
	for range entries {
		if err := d.Mkdir(stageName); err != nil && !errors.Is(err, fs.ErrExist) {
			return nil, err
		}
		info, err := d.Stat(stageName)
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil {
			return nil, err
		}
		if !info.IsDir() {
			return nil, obstacle{stageName, "is not a folder of this program's"}
		}
		lock, err := d.Lock(lockName)
		switch {
		case err == nil:
			return &writer{d, lock}, nil
		case errors.Is(err, errGone), errors.Is(err, fs.ErrNotExist):
			continue
		default:
			return nil, err
		}
	}
	return nil, errBusy
}

// leave takes the stage away, unless a journal says that it is still needed,
// and lets go of the lock.
func (w *writer) leave() {
	_, err := w.Stat(journalName)
	clean := errors.Is(err, fs.ErrNotExist) && w.sweep() == nil
	if removeLocked {
		_ = w.Remove(lockName)
		_ = w.lock.Close()
	} else {
		_ = w.lock.Close()
		_ = w.Remove(lockName)
	}
	if clean {
		_ = w.Remove(stageName)
	}
}

// sweep removes from the stage what a run put there.
func (w *writer) sweep() error {
	names, err := w.List(stageName)
	if err != nil {
		return err
	}
	for _, n := range names {
		if full := path.Join(stageName, n); full == draftName || staged(n) {
			if err := w.Remove(full); err != nil {
				return err
			}
		}
	}
	return nil
}

// What mend did.
type mended int

const (
	nothing mended = iota
	finished
	undone
)

// mend is Ready on an open folder: where no stage stands there is nothing to do.
func mend(d disk) (mended, error) {
	if _, err := d.Stat(stageName); errors.Is(err, fs.ErrNotExist) {
		return nothing, nil
	}
	w, err := enter(d)
	if err != nil {
		return nothing, err
	}
	defer w.leave()
	return w.mend()
}

// mend finishes the journal that an earlier run left, or takes it back where
// finishing is not possible, and clears the stage.
func (w *writer) mend() (mended, error) {
	text, err := w.Read(journalName)
	if errors.Is(err, fs.ErrNotExist) {
		return nothing, w.sweep()
	}
	if err != nil {
		return nothing, err
	}
	j, ok := parseJournal(text)
	if !ok {
		return nothing, errJournal
	}
	done := finished
	if err := w.forward(j); err != nil {
		if e := w.back(j); e != nil {
			return nothing, between{errors.Join(err, e)}
		}
		done = undone
	}
	if err := w.settle(j); err != nil {
		return nothing, between{err}
	}
	return done, w.sweep()
}

// fill writes the new files of a plan into the stage.
func (w *writer) fill(p plan) error {
	for i, data := range p.data {
		if p.moves[i].new != "" {
			if err := w.put(newName(i), data); err != nil {
				return trouble{p.moves[i].name, err}
			}
		}
	}
	return nil
}

// put writes one new file and brings it to the disk.
func (w *writer) put(name string, data []byte) error {
	f, err := w.Create(name)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if err == nil {
		err = f.Sync()
	}
	if e := f.Close(); err == nil {
		err = e
	}
	return err
}

// commit writes the journal and moves the files by it. If that ends in an error,
// or in a panic, the moves are taken back.
func (w *writer) commit(j journal) (err error) {
	done := false
	defer func() {
		if done {
			return
		}
		e := w.back(j)
		if e == nil {
			e = w.settle(j)
		}
		if e != nil {
			err = between{errors.Join(err, e)}
		}
	}()
	if err := w.put(draftName, j.encode()); err != nil {
		return err
	}
	for _, dir := range []string{stageName, "."} { // the staged files and the stage are on the disk
		if err := w.Sync(dir); err != nil {
			return err
		}
	}
	if err := w.Rename(draftName, journalName); err != nil {
		return err
	}
	if err := w.Sync(stageName); err != nil {
		return err
	}
	if err := w.forward(j); err != nil {
		return err
	}
	if err := w.settle(j); err != nil {
		return err
	}
	done = true
	return nil
}
