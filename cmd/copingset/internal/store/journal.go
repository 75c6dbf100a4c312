package store

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strconv"
	"strings"
)

// move is the change of one file, by the digests of its content: from old,
// empty if there was none, to new, empty if there is to be none.
type move struct{ name, old, new string }

// journal is the moves of one set, the manifest's first. Where a move stands can
// be seen from the folder, so a journal is never rewritten while it is worked:
//
//	                 stage has new   target is     stage has old
//	not begun        yes             old or none   no
//	old moved out    yes             none          yes
//	done             no              new           yes, if there was one
type journal struct{ moves []move }

const journalHead = "copingset journal 1"

// none stands for an absent file where a digest would be.
const none = "-"

// encode writes a journal as text, with a digest of itself at the end.
func (j journal) encode() []byte {
	var b strings.Builder
	b.WriteString(journalHead + "\n")
	or := func(digest string) string {
		if digest == "" {
			return none
		}
		return digest
	}
	for _, m := range j.moves {
		fmt.Fprintf(&b, "%s %s %s\n", or(m.old), or(m.new), m.name)
	}
	fmt.Fprintf(&b, "end %s\n", digestOf([]byte(b.String())))
	return []byte(b.String())
}

// parseJournal reads a journal; ok if it is whole.
func parseJournal(text []byte) (j journal, ok bool) {
	body, end, found := strings.Cut(string(text), "\nend ")
	body += "\n"
	if !found || end != digestOf([]byte(body))+"\n" {
		return journal{}, false
	}
	lines := strings.Split(strings.TrimSuffix(body, "\n"), "\n")
	if lines[0] != journalHead {
		return journal{}, false
	}
	for _, l := range lines[1:] {
		f := strings.SplitN(l, " ", 3)
		if len(f) != 3 || !ours(f[2]) {
			return journal{}, false
		}
		m := move{name: f[2]}
		for i, to := range []*string{&m.old, &m.new} {
			switch {
			case isDigest(f[i]):
				*to = f[i]
			case f[i] != none:
				return journal{}, false
			}
		}
		j.moves = append(j.moves, m)
	}
	return j, true
}

// newName and oldName are where the files of move i wait in the stage.
func newName(i int) string { return fmt.Sprintf("%s/%04d.new", stageName, i) }
func oldName(i int) string { return fmt.Sprintf("%s/%04d.old", stageName, i) }

// staged reports whether a name in the stage is one of those.
func staged(name string) bool {
	number, kind, _ := strings.Cut(name, ".")
	_, err := strconv.ParseUint(number, 10, 32)
	return err == nil && (kind == "new" || kind == "old")
}

// forward makes every move that is not made: the old manifest out, each old file
// out and its new one in, the new manifest in.
func (w *writer) forward(j journal) error {
	for i, m := range j.moves {
		if err := w.out(i, m); err != nil {
			return trouble{m.name, err}
		}
		if i == 0 {
			continue
		}
		if err := w.in(i, m); err != nil {
			return trouble{m.name, err}
		}
	}
	if err := w.in(0, j.moves[0]); err != nil {
		return trouble{j.moves[0].name, err}
	}
	return nil
}

// back takes every move back, in the opposite order.
func (w *writer) back(j journal) error {
	if err := w.unIn(0, j.moves[0]); err != nil {
		return trouble{j.moves[0].name, err}
	}
	for i, m := range slices.Backward(j.moves) {
		if i > 0 {
			if err := w.unIn(i, m); err != nil {
				return trouble{m.name, err}
			}
		}
		if err := w.unOut(i, m); err != nil {
			return trouble{m.name, err}
		}
	}
	return nil
}

// out moves the old file of a move into the stage.
func (w *writer) out(i int, m move) error {
	if m.old == "" {
		return nil
	}
	if there, err := w.there(oldName(i)); there || err != nil {
		return err
	}
	now, err := w.digest(m.name)
	if err != nil {
		return err
	}
	ready := m.new == ""
	if !ready {
		if ready, err = w.there(newName(i)); err != nil {
			return err
		}
	}
	switch {
	case now == m.old && ready:
	case now == m.new: // done before, and the stage cleared
		return nil
	case now == m.old: // the new file is lost: this can only be taken back
		return errStaged
	default:
		return obstacle{m.name, "was changed in the meantime"}
	}
	return w.Rename(m.name, oldName(i))
}

// in moves the new file of a move to where it belongs.
func (w *writer) in(i int, m move) error {
	if m.new == "" {
		return nil
	}
	return w.outOfStage(newName(i), m.name)
}

// unIn moves the new file of a move back into the stage.
func (w *writer) unIn(i int, m move) error {
	if m.new == "" {
		return nil
	}
	if there, err := w.there(newName(i)); there || err != nil {
		return err
	}
	switch now, err := w.digest(m.name); {
	case err != nil:
		return err
	case now == "", now == m.old: // removed by hand, or taken back before
		return nil
	case now != m.new:
		return obstacle{m.name, "was changed in the meantime"}
	}
	return w.Rename(m.name, newName(i))
}

// unOut moves the old file of a move back to where it was.
func (w *writer) unOut(i int, m move) error {
	if m.old == "" {
		return nil
	}
	return w.outOfStage(oldName(i), m.name)
}

// outOfStage moves a file of the stage, if it is there, to where nothing stands.
func (w *writer) outOfStage(from, name string) error {
	if there, err := w.there(from); !there || err != nil {
		return err
	}
	switch now, err := w.digest(name); {
	case err != nil:
		return err
	case now != "":
		return obstacle{name, "was put there in the meantime"}
	}
	return w.into(from, name)
}

// into moves a file out of the stage and makes the folders above it.
func (w *writer) into(from, name string) error {
	for _, dir := range above(name) {
		if there, err := w.there(dir); err != nil {
			return err
		} else if there {
			continue
		}
		if err := w.Mkdir(dir); err != nil {
			return err
		}
	}
	return w.Rename(from, name)
}

// settle ends a journal whose moves are all made, or all taken back: folders
// that became empty go, what was moved is brought to the disk, the journal goes.
func (w *writer) settle(j journal) error {
	var dirs []string
	for _, m := range j.moves {
		dirs = append(dirs, above(m.name)...)
	}
	slices.Sort(dirs)
	dirs = slices.Compact(dirs)
	for _, dir := range slices.Backward(dirs) {
		switch names, err := w.List(dir); {
		case errors.Is(err, fs.ErrNotExist):
			continue
		case err != nil:
			return err
		case len(names) > 0:
			err = w.Sync(dir)
			if err != nil {
				return err
			}
		default:
			if err := w.Remove(dir); err != nil {
				return err
			}
		}
	}
	for _, dir := range []string{".", stageName} {
		if err := w.Sync(dir); err != nil {
			return err
		}
	}
	if err := w.Remove(journalName); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	_ = w.Sync(stageName) // a journal that comes back after a power cut finds its moves made
	return nil
}

// there reports whether something of that name stands in the folder.
func (w *writer) there(name string) (bool, error) {
	_, err := w.Stat(name)
	if errors.Is(err, fs.ErrNotExist) {
		return false, nil
	}
	return err == nil, err
}

// above are the folders that a name lies in, the outermost first.
func above(name string) []string {
	var out []string
	for dir := path.Dir(name); dir != "."; dir = path.Dir(dir) {
		out = append(out, dir)
	}
	slices.Reverse(out)
	return out
}
