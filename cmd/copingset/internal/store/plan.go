package store

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
)

// plan is what a set changes in a folder: a journal, with the content of each
// new file beside its move.
type plan struct {
	journal
	data   [][]byte
	result Result
}

func (p *plan) add(m move, data []byte) {
	p.moves = append(p.moves, m)
	p.data = append(p.data, data)
}

// plan compares a set with what stands in the folder. Files that are as they
// should be are left alone.
func (w *writer) plan(s Set) (plan, error) {
	if _, err := w.digest(s.List); err != nil { // a manifest is no link
		return plan{}, err
	}
	if w.isInput(s, s.List) {
		return plan{}, obstacle{s.List, "is read by the job and is not written over"}
	}
	text, err := w.Read(s.List)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return plan{}, trouble{s.List, err}
	}
	old, next := parseList(text), list{}
	var p plan
	var foreign []string
	for _, f := range s.Files {
		digest := digestOf(f.Data)
		now, err := w.digest(f.Name)
		switch {
		case err != nil:
			return plan{}, err
		case now == digest:
		case now == "", now == old.digest[f.Name] && !w.isInput(s, f.Name):
			p.add(move{f.Name, now, digest}, f.Data)
		case f.Typed:
			p.result.Kept = append(p.result.Kept, f.Name)
			continue
		case w.isInput(s, f.Name):
			return plan{}, obstacle{f.Name, "is read by the job and is not written over"}
		case s.Force:
			p.add(move{f.Name, now, digest}, f.Data)
		default:
			foreign = append(foreign, f.Name)
		}
		next.add(f.Name, digest)
	}
	if len(text) > 0 && string(old.encode()) != string(text) && !s.Force {
		foreign = append(foreign, s.List)
	}
	if len(foreign) > 0 {
		return plan{}, notOurs(foreign)
	}
	if err := w.stale(s, old, &p); err != nil {
		return plan{}, err
	}
	return w.listed(s.List, text, next, p), nil
}

// stale adds the removal of what the set no longer has.
func (w *writer) stale(s Set, old list, p *plan) error {
	for _, n := range old.names {
		if n == s.List || slices.ContainsFunc(s.Files, func(f File) bool { return f.Name == n }) {
			continue
		}
		now, err := w.digest(n)
		var o obstacle
		switch {
		case err != nil && !errors.As(err, &o):
			return err
		case err == nil && now == "":
		case err == nil && now == old.digest[n] && !w.isInput(s, n):
			p.add(move{n, now, ""}, nil)
		default:
			p.result.Left = append(p.result.Left, n)
		}
	}
	return nil
}

// listed puts the manifest before the other moves, if anything is to be changed.
func (w *writer) listed(name string, text []byte, next list, p plan) plan {
	data := next.encode()
	if len(p.moves) == 0 && text != nil && string(text) == string(data) {
		return p
	}
	m := move{name: name, new: digestOf(data)}
	if text != nil {
		m.old = digestOf(text)
	}
	return plan{
		journal: journal{append([]move{m}, p.moves...)},
		data:    append([][]byte{data}, p.data...),
		result:  p.result,
	}
}

// isInput reports whether a file of the folder is one that the command read.
func (w *writer) isInput(s Set, name string) bool {
	info, err := w.Stat(name)
	return err == nil && slices.ContainsFunc(s.Inputs, func(in string) bool {
		other, err := os.Stat(filepath.FromSlash(in))
		return err == nil && os.SameFile(info, other)
	})
}

// digest is that of a file of the folder, empty if there is none. A link, a
// folder or anything else in its place is an obstacle, and so is a link on the
// way to it: nothing is read or written through one.
func (w *writer) digest(name string) (string, error) {
	for _, p := range append(above(name), name) {
		info, err := w.Stat(p)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			return "", nil
		case err != nil:
			return "", trouble{name, err}
		case info.Mode()&fs.ModeSymlink != 0:
			return "", obstacle{p, "is a link, and nothing is written through one"}
		case p != name && !info.IsDir():
			return "", obstacle{p, "is a file where a folder has to be"}
		case p == name && info.IsDir():
			return "", obstacle{p, "is a folder where a file has to be"}
		case p == name && !info.Mode().IsRegular():
			return "", obstacle{p, "is not an ordinary file"}
		}
	}
	data, err := w.Read(name)
	if err != nil {
		return "", trouble{name, err}
	}
	return digestOf(data), nil
}
