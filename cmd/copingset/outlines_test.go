package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"copingset/layout/job/jobtest"
)

// A job begun from a real outline passes the check with holds only, in both units; an
// outline that cannot be one says so at its point.
func TestStartOfOutlines(t *testing.T) {
	path := os.Getenv(jobtest.OutlinesFile)
	if path == "" {
		t.Skip("no outlines: set " + jobtest.OutlinesFile + " to a file of them, one JSON object a line")
	}
	systems, err := filepath.Abs("../../samples")
	if err != nil {
		t.Fatal(err)
	}
	begun, refused := 0, 0
	for _, o := range jobtest.ReadOutlines(t, path) {
		for _, c := range [][2]string{{"imperial", "../systems/brindle-r8.yaml"}, {"metric", "../systems/hallin-m139.yaml"}} {
			units := c[0]
			top := t.TempDir()
			if err := os.CopyFS(top, os.DirFS(systems)); err != nil {
				t.Fatal(err)
			}
			var csv strings.Builder
			csv.WriteString("loop,x (m),y (m)\n")
			for i, ring := range append([][][2]float64{o.Ring}, o.Holes...) {
				for _, p := range ring {
					fmt.Fprintf(&csv, "%d,%.4f,%.4f\n", i+1, p[0], p[1])
				}
			}
			points := filepath.Join(top, "points.csv")
			if err := os.WriteFile(points, []byte(csv.String()), 0o600); err != nil {
				t.Fatal(err)
			}
			var out, errs bytes.Buffer
			dir := filepath.Join(top, "begun")
			args := []string{"start", "--points", points, "--units", units, "--issued", "2026-03-16", "--include", c[1],
				"-o", dir}
			if code := Run(args, nil, &out, &errs); code != exitDone {
				refused++
				t.Logf("%s, %s: refused: %s%s", o.ID, units, out.String(), errs.String())
				continue
			}
			out.Reset()
			errs.Reset()
			if code := Run([]string{"check", filepath.Join(dir, "job.yaml")}, nil, &out, &errs); code != exitDone {
				t.Errorf("%s, %s: exit %d: %s%s", o.ID, units, code, out.String(), errs.String())
			}
			begun++
		}
	}
	t.Logf("%d jobs begun, %d refused", begun, refused)
	if begun == 0 {
		t.Error("no job was begun")
	}
}
