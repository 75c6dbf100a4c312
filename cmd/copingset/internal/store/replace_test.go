package store

import (
	"errors"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const (
	oldText = "format: old\n"
	newText = "format: new, and longer\n"
)

func beside() map[string]string {
	return map[string]string{"job.yaml": oldText, "heron.csv": "run,station\n"}
}

// At every call the disk fails once, is full from there on, or the process is
// killed: the file is the old one or the new one, and after the next command
// nothing else stands beside it.
func TestReplaceAtEveryCall(t *testing.T) {
	calls := newTrial(newRAM(beside()))
	if err := replace(calls, "job.yaml", []byte(oldText), []byte(newText)); err != nil {
		t.Fatal(err)
	}
	if calls.over(); calls.calls < 15 {
		t.Fatalf("only %d calls", calls.calls)
	}
	for name, at := range map[string]func(int) func(*trial, string, string) error{"fails": failAt, "is full": fullAt, "is killed": killAt} {
		ends := map[string]int{}
		for n := 1; n <= calls.calls; n++ {
			r := newRAM(beside())
			d := newTrial(r)
			d.goes = at(n)
			err := replace(d, "job.yaml", []byte(oldText), []byte(newText))
			killed := d.dead
			d.over()
			got := r.tree["job.yaml"]
			if !killed && (err == nil) != (got == newText) {
				t.Errorf("%s at call %d: %v, and the file holds %q", name, n, err, got)
			}
			ends[got]++
			want := beside()
			want["job.yaml"] = got
			if now := nextCommand(t, r); !maps.Equal(now, want) {
				t.Errorf("%s at call %d: after the next command: %v", name, n, now)
			}
		}
		if len(ends) != 2 && name != "is full" || ends[oldText]+ends[newText] != calls.calls {
			t.Errorf("%s: %v", name, ends)
		}
	}
}

// What somebody saves while the new text is made, and while it is written, stays.
func TestReplaceKeepsWhatWasSaved(t *testing.T) {
	const saved = "format: old, and a note\n"
	for _, at := range []string{"lock", "write", "chmod"} {
		r := newRAM(beside())
		d := newTrial(r)
		d.goes = func(_ *trial, op, name string) error {
			if op == at {
				r.tree["job.yaml"] = saved
			}
			return nil
		}
		err := replace(d, "job.yaml", []byte(oldText), []byte(newText))
		d.over()
		want := beside()
		want["job.yaml"] = saved
		if !errors.Is(err, errChanged) || !maps.Equal(r.tree, want) {
			t.Errorf("saved at %s: %v, %v", at, err, r.tree)
		}
	}
}

// On a disk it keeps the permissions, and sweeps what a killed run left.
func TestReplaceOnDisk(t *testing.T) {
	dir := t.TempDir()
	plant(t, dir, beside())
	plant(t, dir, map[string]string{newName(0): "half", lockName: ""})
	file := filepath.Join(dir, "job.yaml")
	if err := os.Chmod(file, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := Replace(file, []byte(oldText), []byte(newText)); err != nil {
		t.Fatal(err)
	}
	want := beside()
	want["job.yaml"] = newText
	if got := tree(t, dir); !maps.Equal(got, want) {
		t.Errorf("%v", got)
	}
	info, err := os.Stat(file)
	if err != nil || info.Mode().Perm() != fs.FileMode(0o600) && os.PathSeparator == '/' {
		t.Errorf("%v %v", info, err)
	}
	err = Replace(file, []byte("else"), []byte(newText))
	if err == nil || !strings.HasPrefix(err.Error(), file+" is as it was: ") || !strings.Contains(err.Error(), "it was changed since it was read") {
		t.Error(err)
	}
	if err := Replace(filepath.Join(dir, "nosuch"), nil, nil); err == nil {
		t.Error("a file that is not there was replaced")
	}
	if got := tree(t, dir); !maps.Equal(got, want) {
		t.Errorf("%v", got)
	}
}
