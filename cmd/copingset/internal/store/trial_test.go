package store

import (
	"errors"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// trial is a folder whose calls are counted and, at a chosen one, go wrong.
type trial struct {
	disk
	goes  func(t *trial, op, name string) error // what happens to this call; nil: nothing goes wrong
	calls int
	dead  bool // the writer was killed: no call has an effect any more
	log   []string
	locks []io.Closer
}

var (
	errKilled = errors.New("killed")
	errDisk   = errors.New("input/output error")
)

func newTrial(d disk) *trial { return &trial{disk: d} }

// real opens a folder on the disk.
func real(t *testing.T, dir string) disk {
	t.Helper()
	root, err := os.OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = root.Close() })
	return &folder{root, dir}
}

// over closes what the end of a process would close.
func (t *trial) over() {
	for _, l := range t.locks {
		_ = l.Close()
	}
}

func (t *trial) step(op, name string) error {
	t.calls++
	t.log = append(t.log, op+" "+name)
	if t.dead {
		return errKilled
	}
	if t.goes == nil {
		return nil
	}
	return t.goes(t, op, name)
}

// failAt lets call n fail, once.
func failAt(n int) func(*trial, string, string) error {
	return func(t *trial, _, _ string) error {
		if t.calls == n {
			return errDisk
		}
		return nil
	}
}

// killAt kills the writer at call n.
func killAt(n int) func(*trial, string, string) error {
	return func(t *trial, _, _ string) error {
		if t.calls == n {
			t.dead = true
			return errKilled
		}
		return nil
	}
}

// fullAt fills the disk at call n: nothing that needs room works from there on.
func fullAt(n int) func(*trial, string, string) error {
	return func(t *trial, op, _ string) error {
		if t.calls >= n && (op == "create" || op == "write" || op == "mkdir") {
			return &fs.PathError{Op: op, Path: "x", Err: syscall.ENOSPC}
		}
		return nil
	}
}

func (t *trial) Stat(name string) (fs.FileInfo, error) {
	if err := t.step("stat", name); err != nil {
		return nil, err
	}
	return t.disk.Stat(name)
}

func (t *trial) List(name string) ([]string, error) {
	if err := t.step("list", name); err != nil {
		return nil, err
	}
	return t.disk.List(name)
}

func (t *trial) Read(name string) ([]byte, error) {
	if err := t.step("read", name); err != nil {
		return nil, err
	}
	return t.disk.Read(name)
}

func (t *trial) Mkdir(name string) error {
	if err := t.step("mkdir", name); err != nil {
		return err
	}
	return t.disk.Mkdir(name)
}

func (t *trial) Chmod(name string, mode fs.FileMode) error {
	if err := t.step("chmod", name); err != nil {
		return err
	}
	return t.disk.Chmod(name, mode)
}

func (t *trial) Rename(from, to string) error {
	if err := t.step("rename", from+" "+to); err != nil {
		return err
	}
	return t.disk.Rename(from, to)
}

func (t *trial) Remove(name string) error {
	if err := t.step("remove", name); err != nil {
		return err
	}
	return t.disk.Remove(name)
}

func (t *trial) Sync(name string) error {
	if err := t.step("sync", name); err != nil {
		return err
	}
	return t.disk.Sync(name)
}

func (t *trial) Lock(name string) (io.Closer, error) {
	if err := t.step("lock", name); err != nil {
		return nil, err
	}
	l, err := t.disk.Lock(name)
	if err == nil {
		t.locks = append(t.locks, l)
	}
	return l, err
}

func (t *trial) Create(name string) (handle, error) {
	if err := t.step("create", name); err != nil {
		return nil, err
	}
	h, err := t.disk.Create(name)
	return trialFile{h, t, name}, err
}

type trialFile struct {
	handle
	t    *trial
	name string
}

// Write leaves half of the data behind when it goes wrong.
func (f trialFile) Write(data []byte) (int, error) {
	if err := f.t.step("write", f.name); err != nil {
		n, _ := f.handle.Write(data[:len(data)/2])
		return n, err
	}
	return f.handle.Write(data)
}

func (f trialFile) Sync() error {
	if err := f.t.step("sync", f.name); err != nil {
		return err
	}
	return f.handle.Sync()
}

func (f trialFile) Close() error {
	err := f.t.step("close", f.name)
	if e := f.handle.Close(); err == nil {
		err = e
	}
	return err
}

// tree is what stands in a folder: contents by name, folders with a slash.
func tree(t testing.TB, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	err := filepath.WalkDir(dir, func(p string, e fs.DirEntry, err error) error {
		if err != nil || p == dir {
			return err
		}
		rel, _ := filepath.Rel(dir, p)
		name := filepath.ToSlash(rel)
		switch {
		case e.IsDir():
			out[name+"/"] = ""
		case e.Type().IsRegular():
			data, err := os.ReadFile(p)
			if err != nil {
				return err
			}
			out[name] = string(data)
		default:
			out[name] = e.Type().String()
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// outside is a tree without its stage.
func outside(tree map[string]string) map[string]string {
	out := maps.Clone(tree)
	maps.DeleteFunc(out, func(name, _ string) bool { return strings.HasPrefix(name, stageName) })
	return out
}

// files are the files of a tree, without its folders.
func files(tree map[string]string) map[string]string {
	out := maps.Clone(tree)
	maps.DeleteFunc(out, func(name, _ string) bool { return strings.HasSuffix(name, "/") })
	return out
}

// plant writes a tree.
func plant(t testing.TB, dir string, tree map[string]string) {
	t.Helper()
	for name, text := range tree {
		p := filepath.Join(dir, filepath.FromSlash(name))
		if strings.HasSuffix(name, "/") {
			if err := os.MkdirAll(p, 0o777); err != nil {
				t.Fatal(err)
			}
			continue
		}
		if err := os.MkdirAll(filepath.Dir(p), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(p, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
}
