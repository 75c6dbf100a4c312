package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"
)

// refusal is a sentence for the user, complete as it stands.
type refusal string

func (r refusal) Error() string { return string(r) }

func refuse(format string, args ...any) error { return refusal(fmt.Sprintf(format, args...)) }

// obstacle is what stands where a file of the set would go.
type obstacle struct{ name, what string }

func (o obstacle) Error() string { return o.name + " " + o.what }

// trouble is a failure with one file.
type trouble struct {
	name string
	err  error
}

func (t trouble) Error() string { return t.name + ": " + t.err.Error() }
func (t trouble) Unwrap() error { return t.err }

// between is a journal that can neither be finished nor taken back now.
type between struct{ err error }

func (b between) Error() string { return b.err.Error() }
func (b between) Unwrap() error { return b.err }

// notOurs are files that are not as the manifest says they were written.
type notOurs []string

func (n notOurs) Error() string { return strings.Join(n, ", ") }

var (
	errBusy    = errors.New("another run has the lock")
	errGone    = errors.New("the lock went with the run that had it")
	errNoLocks = errors.New("no locks here")
	errJournal = errors.New("the journal cannot be read")
	errStaged  = errors.New("a staged file is gone")
)

// said makes a sentence of an error for the user who named the folder.
func said(dir string, err error) error {
	var r refusal
	if errors.As(err, &r) {
		return r
	}
	in := func(name string) string { return filepath.Join(dir, filepath.FromSlash(name)) }
	var b between
	if errors.As(err, &b) {
		why, do := reason(in, b.err)
		return refuse("%s stands between its old and its new files, and its manifest is away: %s; %s, "+
			"and any copingset command with `-o %s` puts it right", dir, why, do, dir)
	}
	var foreign notOurs
	switch {
	case errors.Is(err, errBusy):
		return refuse("another copingset is writing into %s; wait until it is done and run this again", dir)
	case errors.Is(err, errNoLocks):
		return refuse("cannot write into %s: its disk has no locks, so two runs could mix their files; "+
			"choose another folder with -o", dir)
	case errors.Is(err, errJournal):
		return refuse("%s is damaged, so an earlier run can neither be finished nor taken back; look at the files "+
			"beside it "+
			"(.old are those from before), delete %s and run this again", in(journalName), in(stageName))
	case errors.As(err, &foreign):
		return refuse("%s; nothing was written: move %s away, choose another folder with -o, or write over with "+
			"--force",
			foreign.sentence(dir), foreign.them())
	}
	why, do := reason(in, err)
	return refuse("cannot write into %s: %s; nothing in it was changed: %s", dir, why, do)
}

// reason says what went wrong and what to do about it.
func reason(in func(string) string, err error) (why, do string) {
	const elsewhere = "choose another folder with -o"
	var o obstacle
	if errors.As(err, &o) {
		return in(o.name) + " " + o.what, "move it away or " + elsewhere
	}
	what := "writing"
	var t trouble
	if errors.As(err, &t) {
		what = in(t.name)
	}
	switch {
	case isFull(err):
		return "the disk is full", "make room or " + elsewhere
	case isReadOnly(err):
		return "the disk can only be read", elsewhere
	case isTooLong(err):
		return "a name is too long for the disk", "choose a shorter folder with -o"
	case isOpenElsewhere(err):
		return what + " is open in another program", "close it and run this again"
	case errors.Is(err, fs.ErrPermission):
		return "not allowed", elsewhere
	case errors.Is(err, errStaged):
		return what + " has left the stage", elsewhere
	}
	if p := (*fs.PathError)(nil); errors.As(err, &p) {
		err = p.Err
	} else if l := (*os.LinkError)(nil); errors.As(err, &l) {
		err = l.Err
	}
	return what + " failed (" + err.Error() + ")", elsewhere
}

// most files are named one by one in a sentence.
const most = 5

func (n notOurs) sentence(dir string) string {
	names := make([]string, 0, most)
	for _, f := range n[:min(len(n), most)] {
		names = append(names, path.Clean(f))
	}
	list := strings.Join(names, ", ")
	if more := len(n) - most; more > 0 {
		list += fmt.Sprintf(" and %d more", more)
	}
	if len(n) == 1 {
		return fmt.Sprintf("%s in %s is not as an earlier run wrote it, so it may be yours", list, dir)
	}
	return fmt.Sprintf("%d files in %s are not as an earlier run wrote them, so they may be yours: %s", len(n), dir,
		list)
}

func (n notOurs) them() string {
	if len(n) == 1 {
		return "it"
	}
	return "them"
}
