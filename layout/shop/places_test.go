package shop_test

import (
	"io/fs"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"copingset/layout"
	"copingset/layout/job"
)

// What the shop cannot make is said at the line that asks for it, not at the
// whole shop or system.
func TestHoldsStandAtTheirKeys(t *testing.T) {
	read := func(path string) string {
		t.Helper()
		raw, err := os.ReadFile("../../samples/" + path)
		if err != nil {
			t.Fatal(err)
		}
		return string(raw)
	}
	for _, c := range []struct{ code, sample, system, old, new, key string }{
		{"hem-over-bend", "rectangle", "brindle-r8", `hem: 7/16"`, `hem: 31/32"`, "hem:"},
		{"hem-too-deep", "rectangle", "brindle-r8", `hem: 7/16"`, `hem: 1 1/4"`, "hem:"},
		{"hem-over-bend", "rectangle", "brindle-r8", "    # rear_hem: ", "    rear_hem: {return: 1\"}\n    # ", "rear_hem:"},
		{"seam-gap", "l-shape", "ravelin-k4", `weld_gap: 1/64"`, `weld_gap: 3/64"`, "weld_gap:"},
		{"flange-too-short", "rectangle", "brindle-r8", "\n  least_flange:", "\n  least_flange: 31/32\" #", "least_flange:"},
		{"weld-on-coating", "rectangle", "brindle-r8", "  # seam: ", "  seam: {process: weld, finish: before, cut_back: 1/16\"}\n  # ", "seam:"},
	} {
		file := "systems/" + c.system + ".yaml"
		text := read(file)
		if strings.Count(text, c.old) != 1 {
			t.Fatalf("%s: %q stands %d times in the sample", c.code, c.old, strings.Count(text, c.old))
		}
		text = strings.Replace(text, c.old, c.new, 1)
		files := fstest.MapFS{}
		root := os.DirFS("../../samples")
		if err := fs.WalkDir(root, ".", func(path string, e fs.DirEntry, err error) error {
			if err != nil || e.IsDir() {
				return err
			}
			raw, err := fs.ReadFile(root, path)
			files[path] = &fstest.MapFile{Data: raw}
			return err
		}); err != nil {
			t.Fatal(err)
		}
		files[file] = &fstest.MapFile{Data: []byte(text)}
		j, found := job.Read(files, c.sample+"/job.yaml")
		if found.HasErrors() {
			t.Fatal(found)
		}
		_, found = layout.Build(j)
		lines, n := strings.Split(text, "\n"), 0
		for _, f := range found {
			if f.Code != c.code || f.Where.Part != "" { // a part's flange is said at the part
				continue
			}
			if n++; f.At.File != "../"+file || !strings.Contains(lines[f.At.Line-1], c.key) || strings.HasPrefix(strings.TrimSpace(lines[f.At.Line-1]), "#") {
				t.Errorf("%v stands at %v, not at %s", f, f.At, c.key)
			}
		}
		if n == 0 {
			t.Errorf("%s: not found", c.code)
		}
	}
}
