// Package outside puts a problem of the layout to a program of somebody else,
// and brings back its answer. It is imported by tests alone.
//
// The programs are python3 with shapely for areas in plan and with scipy for
// linear and whole-number programs, all of them in Debian. A script reads the
// problem as JSON from its standard input and writes its answer as JSON.
package outside

import (
	"bytes"
	"encoding/json"
	"os/exec"
	"strings"
	"testing"
)

// pythons are where an interpreter may be; the one Debian installs knows Debian's
// modules, another one first in the path may not.
func pythons() []string { return []string{"/usr/bin/python3", "python3"} }

// Ask runs a script that needs a module, and skips the test with a message where
// the module is not installed.
func Ask(t *testing.T, module, script string, problem, answer any) {
	t.Helper()
	in, err := json.Marshal(problem)
	if err != nil {
		t.Fatal(err)
	}
	for _, python := range pythons() {
		if exec.Command(python, "-c", "import "+module).Run() != nil {
			continue
		}
		c := exec.Command(python, "-c", "import json, sys\nproblem = json.load(sys.stdin)\n"+script)
		var out, said bytes.Buffer
		c.Stdin, c.Stdout, c.Stderr = bytes.NewReader(in), &out, &said
		if err := c.Run(); err != nil {
			t.Fatalf("%s with %s: %v\n%s", python, module, err, said.String())
		}
		if err := json.Unmarshal(out.Bytes(), answer); err != nil {
			t.Fatalf("%s with %s answered %q: %v", python, module, strings.TrimSpace(out.String()), err)
		}
		return
	}
	t.Skipf("python3-%s is not installed: this check against a program from outside is left out", module)
}
