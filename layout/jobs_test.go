package layout_test

import (
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"copingset/layout/job"
)

// jobsFolder is a folder of jobs, each in a folder of its own with its job.yaml.
const jobsFolder = "COPINGSET_JOBS"

// TestJobs lays the walls of the jobs of a folder out in the systems of the samples
// of their units, and lists what holds each and how many are clean.
func TestJobs(t *testing.T) {
	root := os.Getenv(jobsFolder)
	if root == "" {
		t.Skip("no jobs: set " + jobsFolder + " to a folder of jobs, each in a folder of its own")
	}
	all, err := filepath.Glob(filepath.Join(root, "*", "job.yaml"))
	if err != nil || len(all) == 0 {
		t.Fatal("no jobs in ", root, err)
	}
	c := counted{codes: map[string]int{}, holds: map[string]int{}, frees: map[string]int{}, example: map[string]string{}}
	var b strings.Builder
	for _, file := range all {
		dir := filepath.Dir(file)
		j := wallsOf(t, dir)
		if j == nil {
			continue
		}
		before := maps.Clone(c.holds)
		began := time.Now()
		c.count(t, filepath.Base(dir), bare(j))
		took := time.Since(began)
		var codes []string
		for _, code := range slices.Sorted(maps.Keys(c.holds)) {
			if n := c.holds[code] - before[code]; n > 0 {
				codes = append(codes, fmt.Sprintf("%s x%d", code, n))
			}
		}
		fmt.Fprintf(&b, "  %-32s %4d ms  %s\n", filepath.Base(dir), took.Milliseconds(), strings.Join(codes, ", "))
	}
	t.Log("\n" + b.String() + c.table(root))
}

// wallsOf is the sample of a job's units with the walls of that job.
func wallsOf(t *testing.T, dir string) *job.Job {
	t.Helper()
	const perimeters = "\nperimeters:"
	read := func(fsys fs.FS, name string) string {
		data, err := fs.ReadFile(fsys, name)
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	samples := os.DirFS("../samples")
	_, walls, _ := strings.Cut(read(os.DirFS(dir), "job.yaml"), perimeters)
	sample, mark := "rectangle", "block-12"
	if strings.Contains(walls, " mm") {
		sample, mark = "metric", "concrete-240"
	}
	text, _, _ := strings.Cut(read(samples, sample+"/job.yaml"), perimeters)
	files := fstest.MapFS{}
	put := func(fsys fs.FS, from, to string) {
		names, err := fs.ReadDir(fsys, from)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range names {
			if !f.IsDir() {
				files[to+"/"+f.Name()] = &fstest.MapFile{Data: []byte(read(fsys, path.Join(from, f.Name())))}
			}
		}
	}
	put(samples, "systems", "systems")
	put(samples, "firms", "firms")
	put(samples, sample, "job")
	put(os.DirFS(dir), ".", "job")
	files["job/job.yaml"] = &fstest.MapFile{Data: []byte(text + perimeters + walls)}
	j, found := job.Read(files, "job/job.yaml")
	if found.HasErrors() || !strings.Contains(walls, mark) {
		t.Error(dir, found)
		return nil
	}
	return j
}

// bare is a job without what does not bear on where chairs stand: its shop, leave for
// legs, which may be as short as they can be made, and the confirmation of pressures,
// which are taken as they come out.
func bare(j *job.Job) *job.Job {
	j.Shop = nil
	j.System.Corner.ShortLeg = in
	if j.Wind != nil {
		j.Pressures = givenPressures(j)
		j.Wind = nil
	}
	return j
}
