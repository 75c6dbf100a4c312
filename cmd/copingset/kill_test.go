package main

import (
	"bytes"
	"io"
	"io/fs"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// contents are the files below a folder.
func contents(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	err := filepath.WalkDir(dir, func(p string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		data, err := os.ReadFile(p)
		out[p[len(dir):]] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// A process that is killed while it writes, as soon as something of its work can
// be seen, leaves a folder in which the next command, whatever becomes of it,
// finds the old files or the new ones whole.
func TestKilledWhileWriting(t *testing.T) {
	binary, err := exec.LookPath("copingset") // TestMain puts this program there
	if err != nil {
		t.Fatal(err)
	}
	job := "../../samples/rectangle/job.yaml"
	top := t.TempDir()
	command := func(dir string, more ...string) []string { return append([]string{"form", job, "-o", dir}, more...) }
	written := func(name string, more ...string) (string, map[string]string) {
		dir := filepath.Join(top, name)
		if code := Run(command(dir, more...), nil, io.Discard, io.Discard); code != exitDone {
			t.Fatalf("exit %d", code)
		}
		return dir, contents(t, dir)
	}
	first, second := []string{"--run", "E"}, []string{"--run", "N", "--csv", "--every", "3'"}
	_, before := written("before", first...)
	_, after := written("after", second...)
	there := func(p ...string) func(dir string) bool {
		return func(dir string) bool {
			_, err := os.Stat(filepath.Join(append([]string{dir}, p...)...))
			return err == nil
		}
	}
	const stage = ".copingset-stage"
	for name, sight := range map[string]func(dir string) bool{
		"stage":    there(stage),
		"staged":   there(stage, "0002.new"),
		"journal":  there(stage, "journal"),
		"manifest": func(dir string) bool { return !there(formList)(dir) },
		"moved":    there("roof-survey.csv"),
	} {
		dir, _ := written("killed-"+name, first...)
		child := exec.Command(binary, command(dir, second...)...)
		if err := child.Start(); err != nil {
			t.Fatal(err)
		}
		ended := make(chan struct{})
		go func() { _ = child.Wait(); close(ended) }()
		for alive := true; alive && !sight(dir); {
			select {
			case <-ended:
				alive = false
			default:
			}
		}
		_ = child.Process.Kill()
		<-ended
		var errs bytes.Buffer
		if code := Run(command(dir, "--run", "none of these"), nil, io.Discard, &errs); code != exitFailed {
			t.Errorf("%s: exit %d", name, code)
		}
		switch got := contents(t, dir); {
		case maps.Equal(got, before):
			t.Logf("%s: the old files: %s", name, errs.String())
		case maps.Equal(got, after):
			t.Logf("%s: the new files: %s", name, errs.String())
		default:
			t.Errorf("%s: neither the old nor the new files: %d of them, %s", name, len(got), errs.String())
		}
		if there(stage)(dir) {
			t.Errorf("%s: the stage is still there", name)
		}
	}
}
