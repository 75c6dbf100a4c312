package main

import (
	"bytes"
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

func TestRunNeverPanicsOnOddArguments(t *testing.T) {
	for _, args := range [][]string{nil, {"nosuch"}, {"packet"}, {"packet", "x"}, {"check"}, {"check", "", ""}, {"packet", "", "-o", ""}} {
		var out, errs bytes.Buffer
		if code := Run(args, strings.NewReader(""), &out, &errs); len(args) > 0 && code == exitDone {
			t.Errorf("%q: exit 0", args)
		}
	}
}
