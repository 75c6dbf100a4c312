package main

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"copingset/layout/job"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"copingset": main,
	})
}

// The scripts in testdata/script are transcripts of the command line; samples
// are at $SAMPLES. `replace FILE OLD NEW` changes words in a file, each of which
// has to be there; `digests LIST` checks a manifest against the files it names.
func TestScripts(t *testing.T) {
	samples, err := filepath.Abs("../../samples")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:  "testdata/script",
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"replace": replace, "digests": digests},
		Setup: func(e *testscript.Env) error {
			e.Setenv("SAMPLES", samples)
			e.Setenv("GOGC", "400") // packets are drawn and thrown away
			return nil
		},
	})
}

func TestRunNeverPanicsOnOddArguments(t *testing.T) {
	for _, args := range [][]string{nil, {"nosuch"}, {"packet"}, {"packet", "x"}, {"check"}, {"check", "", ""}, {"packet", "", "-o", ""}} {
		var out, errs bytes.Buffer
		if code := Run(args, strings.NewReader(""), &out, &errs); len(args) > 0 && code == exitDone {
			t.Errorf("%q: exit 0", args)
		}
	}
}

// README names every command and flag of the program, and shows the form of job
// file that this release reads.
func TestReadmeNamesCommandsAndFlags(t *testing.T) {
	b, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	readme := string(b)
	named := func(what string) {
		if !strings.Contains(readme, what) {
			t.Errorf("README.md does not name %s", what)
		}
	}
	named("format: " + job.Format + "\n")
	for _, form := range regexp.MustCompile(`format: (copingset/\d+)`).FindAllStringSubmatch(readme, -1) {
		if form[1] != job.Format {
			t.Errorf("README.md shows the form %s", form[1])
		}
	}
	named("copingset --version")
	for _, c := range commands() {
		named("`copingset " + c.Name())
		for _, flag := range regexp.MustCompile(`--[a-z-]+`).FindAllString(c.Flags().FlagUsages(), -1) {
			if flag == "--out" {
				flag = "`copingset " + strings.TrimSuffix(c.Use, " -o DIR") + " -o DIR`"
			}
			named(flag)
		}
	}
}

func replace(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: replace file old new")
	}
	text := ts.ReadFile(args[0])
	if !strings.Contains(text, args[1]) {
		ts.Fatalf("%s has no %q", args[0], args[1])
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(strings.ReplaceAll(text, args[1], args[2])), 0o666))
}

func digests(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: digests list")
	}
	n := 0
	for line := range strings.Lines(ts.ReadFile(args[0])) {
		want, name, _ := strings.Cut(strings.TrimSuffix(line, "\n"), "  ")
		file := filepath.Join(filepath.Dir(args[0]), name)
		if got := fmt.Sprintf("%x", sha256.Sum256([]byte(ts.ReadFile(file)))); got != want {
			ts.Fatalf("%s: %s, listed as %s", file, got, want)
		}
		n++
	}
	if n == 0 {
		ts.Fatalf("%s lists no file", args[0])
	}
}
