package job

import (
	"os"
	"strings"
	"testing"
	"testing/fstest"
)

// Surveys and jobs written with the names of tops of before are read as they stand.
func TestNamesOfBefore(t *testing.T) {
	files := fstest.MapFS{}
	for _, name := range []string{"heron.yaml", "heron.csv", "base.yaml"} {
		b, err := os.ReadFile("testdata/good/" + name)
		if err != nil {
			t.Fatal(err)
		}
		files[name] = &fstest.MapFile{Data: b}
	}
	now, found := Read(files, "heron.yaml")
	if found.HasErrors() {
		t.Fatal(found)
	}
	old := strings.NewReplacer("street_top", "top_outside", "roof_top", "top_inside")
	changed := false
	for name, f := range files {
		before := string(f.Data)
		files[name] = &fstest.MapFile{Data: []byte(old.Replace(before))}
		changed = changed || old.Replace(before) != before
	}
	then, found := Read(files, "heron.yaml")
	if found.HasErrors() || !changed {
		t.Fatal(changed, found)
	}
	if now.Digest() != then.Digest() {
		t.Error("another job by the names of before")
	}
}
