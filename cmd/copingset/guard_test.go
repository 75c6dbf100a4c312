package main

import (
	"bytes"
	"errors"
	"os"
	"strings"
	"testing"
)

// faulty is a stream at which the program breaks.
type faulty struct{}

func (faulty) Write([]byte) (int, error) {
	var none []int
	return none[3], nil
}

// A fault anywhere below a command ends in one plain sentence and exit 2; the
// stack is shown only to who asks for it.
func TestGuard(t *testing.T) {
	for _, args := range [][]string{{"--help"}, {"explain", "angle-bare"}} {
		var errs bytes.Buffer
		if code := Run(args, nil, faulty{}, &errs); code != exitFailed {
			t.Errorf("%v: exit %d", args, code)
		}
		said := errs.String()
		for _, part := range []string{"copingset: the program met a fault of its own", "index out of range [3] with length 0 at guard_test.go:", "nothing was written", "please send the job file"} {
			if !strings.Contains(said, part) {
				t.Errorf("%v: no %q in %q", args, part, said)
			}
		}
		if strings.Count(said, "\n") != 1 || strings.Contains(said, "goroutine") {
			t.Errorf("%v: not one sentence: %q", args, said)
		}
	}
	t.Setenv(stackVariable, "1")
	var errs bytes.Buffer
	if code := guard(&errs, func() int { panic(errors.New("two\nlines")) }); code != exitFailed {
		t.Errorf("exit %d", code)
	}
	if said := errs.String(); !strings.Contains(said, "(two lines at guard_test.go:") || !strings.Contains(said, "goroutine") {
		t.Errorf("%q", said)
	}
}

// A list that could not be printed to its end is no success.
func TestFullStream(t *testing.T) {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Skip("no such stream here:", err)
	}
	defer full.Close()
	var errs bytes.Buffer
	if code := Run([]string{"--help"}, nil, full, &errs); code != exitFailed || !strings.Contains(errs.String(), "could not be") {
		t.Errorf("exit %d, %q", code, errs.String())
	}
}
