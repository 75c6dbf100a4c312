package main

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"copingset": main,
	})
}

// The scripts in testdata/script are transcripts of the command line; samples
// are at $SAMPLES.
func TestScripts(t *testing.T) {
	samples, err := filepath.Abs("../../samples")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script",
		Setup: func(e *testscript.Env) error {
			e.Setenv("SAMPLES", samples)
			return nil
		},
	})
}

// Nothing of a packet is left half written when one of its files cannot be.
func TestWriteAllOrNothing(t *testing.T) {
	dir := t.TempDir()
	// A folder stands where a file has to go: the rename of it fails.
	if err := os.MkdirAll(filepath.Join(dir, "sheets", "b.svg", "x"), 0o777); err != nil {
		t.Fatal(err)
	}
	err := writeAll(dir, []file{{"sheets/b.svg", []byte("b")}})
	if err == nil {
		t.Fatal("no error")
	}
	_ = filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err == nil && strings.HasPrefix(d.Name(), ".copingset-") {
			t.Errorf("%s is left behind", path)
		}
		return nil
	})
}

func TestStaleFilesAreRemoved(t *testing.T) {
	dir := t.TempDir()
	mine := filepath.Join(dir, "notes.txt")
	if err := os.WriteFile(mine, []byte("the foreman's own"), 0o666); err != nil {
		t.Fatal(err)
	}
	if err := writeAll(dir, []file{{"sheets/a.svg", []byte("a")}, {"sheets/b.svg", []byte("b")}}); err != nil {
		t.Fatal(err)
	}
	if err := writeAll(dir, []file{{"sheets/a.svg", []byte("a2")}}); err != nil {
		t.Fatal(err)
	}
	if got, err := os.ReadFile(filepath.Join(dir, "sheets", "a.svg")); err != nil || string(got) != "a2" {
		t.Errorf("%q, %v", got, err)
	}
	if _, err := os.Stat(filepath.Join(dir, "sheets", "b.svg")); err == nil {
		t.Error("a sheet of the packet before is still there")
	}
	if _, err := os.Stat(mine); err != nil {
		t.Error("a file of the user's was removed")
	}
}

// A packet list that was tampered with removes nothing outside its folder.
func TestListedNamesStayInside(t *testing.T) {
	dir := t.TempDir()
	outside := filepath.Join(t.TempDir(), "keep.txt")
	if err := os.WriteFile(outside, nil, 0o666); err != nil {
		t.Fatal(err)
	}
	rel, err := filepath.Rel(dir, outside)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, listName), []byte(filepath.ToSlash(rel)+"\n"+outside+"\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	if err := writeAll(dir, []file{{"a.txt", []byte("a")}}); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(outside); err != nil {
		t.Error("a file outside the folder was removed")
	}
}

func TestRunNeverPanicsOnOddArguments(t *testing.T) {
	for _, args := range [][]string{nil, {"nosuch"}, {"packet"}, {"packet", "x"}, {"check"}, {"check", "", ""}, {"packet", "", "-o", ""}} {
		var out, errs bytes.Buffer
		if code := Run(args, strings.NewReader(""), &out, &errs); len(args) > 0 && code == exitDone {
			t.Errorf("%q: exit 0", args)
		}
	}
}
