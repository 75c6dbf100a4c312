package main

import (
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"copingset/layout/length/draws"
)

// What is written follows from the job and the flags alone: not from the number of
// cores, the time zone, the locale, the folder that the command stands in, or the way
// in which the job's path is typed.
func TestSameBytesAnywhere(t *testing.T) {
	binary, err := exec.LookPath("copingset") // TestMain puts this program there
	if err != nil {
		t.Fatal(err)
	}
	samples, err := filepath.Abs("../../samples")
	if err != nil {
		t.Fatal(err)
	}
	linked := filepath.Join(t.TempDir(), "linked")
	if err := os.Symlink(filepath.Join(samples, "rectangle"), linked); err != nil {
		linked = filepath.Join(samples, "rectangle") // a system without links
	}
	zones := []string{"UTC", "Asia/Kathmandu", "America/St_Johns", "Pacific/Kiritimati"}
	locales := []string{"C", "de_DE.UTF-8", "tr_TR.UTF-8", "ar_EG.UTF-8", ""}
	folders := [][2]string{{samples, "rectangle/job.yaml"}, {filepath.Join(samples, "rectangle"), "job.yaml"},
		{linked, "./job.yaml"}, {os.TempDir(), filepath.Join(samples, "rectangle", "job.yaml")}}
	var first map[string]string
	for i := range 2 * draws.Times(2) {
		dir := filepath.Join(t.TempDir(), "out")
		at := folders[i%len(folders)]
		c := exec.Command(binary, "packet", at[1], "-o", dir, "--run", "E", "--for", "crew")
		c.Dir = at[0]
		c.Env = append(os.Environ(), "GOMAXPROCS="+[]string{"1", "2", "7"}[i%3], "TZ="+zones[i%len(zones)],
			"LANG="+locales[i%len(locales)], "LC_ALL="+locales[i%len(locales)])
		if out, err := c.CombinedOutput(); err != nil {
			t.Fatalf("%v in %s: %v\n%s", c.Args, at[0], err, out)
		}
		got := contents(t, dir)
		if first == nil {
			first = got
		}
		if !maps.Equal(first, got) {
			t.Errorf("%v in %s, %v: other bytes than the first time", c.Args, at[0], c.Env[len(c.Env)-4:])
		}
	}
	if len(first) < 2 {
		t.Errorf("%d files were written", len(first))
	}
}
