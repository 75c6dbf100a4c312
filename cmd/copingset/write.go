package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// listName is the file in which a packet remembers what it wrote, formList the
// one for survey forms: either may be written beside the other.
const (
	listName = "packet-files.txt"
	formList = "form-files.txt"
)

// writeAll writes files below a folder, each whole or not at all: first all of
// them under temporary names in their folders, synced, then renamed. What an
// earlier packet listed and this one does not write is removed.
func writeAll(dir string, files []file) error { return writeListed(dir, listName, files) }

func writeListed(dir, list string, files []file) (err error) {
	old := listed(dir, list)
	var names []string
	for _, f := range files {
		names = append(names, f.name)
	}
	files = append(files, file{list, []byte(strings.Join(names, "\n") + "\n")})
	var temps []string
	defer func() {
		if err != nil {
			for _, t := range temps {
				os.Remove(t)
			}
		}
	}()
	for _, f := range files {
		path := filepath.Join(dir, filepath.FromSlash(f.name))
		t, err := temporary(path, f.data)
		if err != nil {
			return plain(dir, err)
		}
		temps = append(temps, t)
	}
	for i, f := range files {
		if err := os.Rename(temps[i], filepath.Join(dir, filepath.FromSlash(f.name))); err != nil {
			temps = temps[i:]
			return plain(dir, err)
		}
	}
	for _, o := range old {
		if !slices.Contains(names, o) {
			os.Remove(filepath.Join(dir, filepath.FromSlash(o)))
		}
	}
	return nil
}

// listed reads what an earlier packet wrote; only plain names below the folder
// count.
func listed(dir, list string) []string {
	data, err := os.ReadFile(filepath.Join(dir, list))
	if err != nil {
		return nil
	}
	var out []string
	for _, l := range strings.Split(string(data), "\n") {
		if l = strings.TrimSpace(l); l != "" && fs.ValidPath(l) {
			out = append(out, l)
		}
	}
	return out
}

func temporary(path string, data []byte) (string, error) {
	if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
		return "", err
	}
	f, err := os.CreateTemp(filepath.Dir(path), ".copingset-*")
	if err != nil {
		return "", err
	}
	name := f.Name()
	_, err = f.Write(data)
	if err == nil {
		err = f.Chmod(0o666 &^ umask)
	}
	if err == nil {
		err = f.Sync()
	}
	if e := f.Close(); err == nil {
		err = e
	}
	if err != nil {
		os.Remove(name)
		return "", err
	}
	return name, nil
}

// umask is what a plain file is not allowed to others: they may read, not
// write.
const umask = 0o022

// plain says what could not be written in the user's words.
func plain(dir string, err error) error {
	switch {
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("cannot write into %s: not allowed; choose another folder with -o", dir)
	case errors.Is(err, fs.ErrExist), isNotDir(err):
		return fmt.Errorf("cannot write into %s: a file of that name is in the way; choose another folder with -o", dir)
	}
	return fmt.Errorf("cannot write into %s: %w", dir, err)
}

func isNotDir(err error) bool {
	var p *fs.PathError
	return errors.As(err, &p) && strings.Contains(p.Err.Error(), "not a directory")
}
