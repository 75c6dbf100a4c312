package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"copingset/layout/finding"
	"copingset/layout/job"
)

// folder is what the files of a job are read from: the nearest folder above the
// job file that holds job.RootFile, else the job file's own. Nothing outside it
// can be opened, whatever links lie in it.
type folder struct {
	root *os.Root
	err  error  // why there is none
	name string // the job file, as the root names it
	// typed is the job's own folder as the user typed it, real where it lies;
	// linked says that he came to it by a link.
	typed, real string
	linked      bool
	piped       []byte // text of a job file that is on no disk
}

// openFolder finds the folder for a job file. The way to the job's own folder is
// as the user typed it, links and all; below the folder found there are none,
// since the job's is looked up by its real path.
func openFolder(in input) folder {
	path := filepath.Clean(in.path)
	f := folder{piped: in.text, typed: filepath.Dir(path), name: filepath.Base(path)}
	dir, err := filepath.Abs(f.typed)
	if err == nil {
		f.real, err = filepath.EvalSymlinks(dir)
	}
	if err != nil {
		f.err = err
		return f
	}
	f.linked = f.real != dir
	top := marked(f.real)
	name, err := filepath.Rel(top, filepath.Join(f.real, f.name))
	if err == nil {
		f.root, err = os.OpenRoot(top)
	}
	if err != nil {
		f.err = err
		return f
	}
	f.name = filepath.ToSlash(name)
	return f
}

// marked is the nearest folder from dir upwards that holds job.RootFile, else dir.
func marked(dir string) string {
	for at := dir; ; at = filepath.Dir(at) {
		if info, err := os.Lstat(filepath.Join(at, job.RootFile)); err == nil && info.Mode().IsRegular() {
			return at
		}
		if at == filepath.Dir(at) {
			return dir
		}
	}
}

// shown names a file, given as seen from the job's folder, as the user would
// type it. Beyond a link that he came by, the way back is not the way he typed.
func (f folder) shown(name string) string {
	dir := f.typed
	if f.linked && strings.HasPrefix(name, "../") {
		dir = f.real
	}
	return filepath.ToSlash(filepath.Join(dir, filepath.FromSlash(name)))
}

// inputs are the files a job was read from, as the user would type them.
func inputs(in input, j *job.Job) []string {
	from := openFolder(in)
	from.Close()
	var out []string
	if in.path != pipe {
		out = append(out, in.path)
	}
	for _, s := range j.Sources {
		out = append(out, from.shown(s.Name))
	}
	return out
}

// relocate names the files of findings as the user would type them.
func (f folder) relocate(found finding.List) finding.List {
	move := func(p finding.Place) finding.Place {
		if p.File != "" {
			p.File = f.shown(p.File)
		}
		return p
	}
	out := slices.Clone(found)
	for i := range out {
		out[i].At, out[i].Follows = move(out[i].At), move(out[i].Follows)
		out[i].Also = slices.Clone(out[i].Also)
		for k := range out[i].Also {
			out[i].Also[k] = move(out[i].Also[k])
		}
	}
	return out
}

// FS is the folder as a file system; of one that could not be opened every file
// says why.
func (f folder) FS() fs.FS {
	if f.root == nil {
		return closed{f.err}
	}
	if f.piped != nil {
		return piped{f.root.FS(), f.name, f.piped}
	}
	return f.root.FS()
}

// Close lets go of the folder.
func (f folder) Close() {
	if f.root != nil {
		f.root.Close()
	}
}

// closed is a file system that cannot be opened.
type closed struct{ err error }

func (c closed) Open(name string) (fs.File, error) {
	return nil, &fs.PathError{Op: "open", Path: name, Err: c.err}
}
