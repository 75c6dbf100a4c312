package store

import (
	"bytes"
	"cmp"
	"io"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"
	"time"
)

// ram is a folder in memory: contents by name, folders with a slash at the end,
// as a tree has them. Thousands of trials on it take no longer than a few on a
// disk; TestRealFolder holds it against one.
type ram struct {
	tree   map[string]string
	modes  map[string]fs.FileMode // of files, if not 0666
	locked bool
}

func newRAM(tree map[string]string) *ram { return &ram{tree: maps.Clone(tree)} }

type ramInfo struct {
	name string
	mode fs.FileMode
}

func (i ramInfo) Name() string       { return path.Base(i.name) }
func (i ramInfo) Size() int64        { return 0 }
func (i ramInfo) Mode() fs.FileMode  { return i.mode }
func (i ramInfo) ModTime() time.Time { return time.Time{} }
func (i ramInfo) IsDir() bool        { return i.mode.IsDir() }
func (i ramInfo) Sys() any           { return nil }

func fault(op, name string, err error) error { return &fs.PathError{Op: op, Path: name, Err: err} }

func (r *ram) isFile(name string) bool {
	_, ok := r.tree[name]
	return ok && !strings.HasSuffix(name, "/")
}

func (r *ram) isFolder(name string) bool { _, ok := r.tree[name+"/"]; return ok || name == "." }

func (r *ram) Stat(name string) (fs.FileInfo, error) {
	switch {
	case r.isFolder(name):
		return ramInfo{name, fs.ModeDir}, nil
	case r.isFile(name):
		return ramInfo{name, cmp.Or(r.modes[name], 0o666)}, nil
	}
	return nil, fault("stat", name, fs.ErrNotExist)
}

func (r *ram) List(name string) ([]string, error) {
	if !r.isFolder(name) {
		return nil, fault("list", name, fs.ErrNotExist)
	}
	var out []string
	for n := range r.tree {
		if n = strings.TrimSuffix(n, "/"); path.Dir(n) == name {
			out = append(out, path.Base(n))
		}
	}
	slices.Sort(out)
	return out, nil
}

func (r *ram) Read(name string) ([]byte, error) {
	if !r.isFile(name) {
		return nil, fault("read", name, fs.ErrNotExist)
	}
	return []byte(r.tree[name]), nil
}

func (r *ram) Mkdir(name string) error {
	switch {
	case r.isFile(name), r.isFolder(name):
		return fault("mkdir", name, fs.ErrExist)
	case !r.isFolder(path.Dir(name)):
		return fault("mkdir", name, fs.ErrNotExist)
	}
	r.tree[name+"/"] = ""
	return nil
}

func (r *ram) Create(name string) (handle, error) {
	switch {
	case r.isFile(name), r.isFolder(name):
		return nil, fault("create", name, fs.ErrExist)
	case !r.isFolder(path.Dir(name)):
		return nil, fault("create", name, fs.ErrNotExist)
	}
	r.tree[name] = ""
	return &ramFile{r: r, name: name}, nil
}

func (r *ram) Chmod(name string, mode fs.FileMode) error {
	if !r.isFile(name) {
		return fault("chmod", name, fs.ErrNotExist)
	}
	if r.modes == nil {
		r.modes = map[string]fs.FileMode{}
	}
	r.modes[name] = mode
	return nil
}

func (r *ram) Rename(from, to string) error {
	if !r.isFile(from) || !r.isFolder(path.Dir(to)) || r.isFolder(to) {
		return fault("rename", from, fs.ErrNotExist)
	}
	r.tree[to] = r.tree[from]
	delete(r.tree, from)
	if mode, ok := r.modes[from]; ok {
		r.modes[to] = mode
		delete(r.modes, from)
	}
	return nil
}

func (r *ram) Remove(name string) error {
	switch names, _ := r.List(name); {
	case r.isFile(name):
		delete(r.tree, name)
	case !r.isFolder(name):
		return fault("remove", name, fs.ErrNotExist)
	case len(names) > 0:
		return fault("remove", name, fs.ErrExist)
	default:
		delete(r.tree, name+"/")
	}
	return nil
}

func (r *ram) Sync(name string) error {
	if !r.isFolder(name) {
		return fault("sync", name, fs.ErrNotExist)
	}
	return nil
}

func (r *ram) Lock(name string) (io.Closer, error) {
	if r.locked {
		return nil, errBusy
	}
	if !r.isFolder(path.Dir(name)) {
		return nil, errGone
	}
	r.tree[name], r.locked = "", true
	return ramLock{r}, nil
}

type ramLock struct{ r *ram }

func (l ramLock) Close() error { l.r.locked = false; return nil }

type ramFile struct {
	bytes.Buffer
	r    *ram
	name string
}

func (f *ramFile) Write(data []byte) (int, error) {
	n, err := f.Buffer.Write(data)
	f.r.tree[f.name] = f.String()
	return n, err
}

func (f *ramFile) Sync() error  { return nil }
func (f *ramFile) Close() error { return nil }
