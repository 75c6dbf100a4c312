package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"

	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
)

// open reads a job file and solves it. Places in findings are paths as the
// user would type them.
func open(path, units string) (*layout.Layout, finding.List, error) {
	dir, name := filepath.Split(path)
	if dir == "" {
		dir = "."
	}
	j, found := job.Read(os.DirFS(dir), name)
	if found.HasErrors() {
		relocate(found, filepath.Clean(dir))
		return nil, found, nil
	}
	if err := choose(j, units); err != nil {
		return nil, nil, err
	}
	l, all := layout.Build(j)
	relocate(all, filepath.Clean(dir))
	return l, all, nil
}

// choose letters a job in the units asked for.
func choose(j *job.Job, units string) error {
	switch units {
	case "":
	case "imperial":
		j.LetterIn(job.Imperial)
	case "metric":
		j.LetterIn(job.Metric)
	default:
		return fmt.Errorf("--units %s: write imperial or metric", units)
	}
	return nil
}

func relocate(found finding.List, dir string) {
	move := func(p *finding.Place) {
		if p.File != "" && dir != "." {
			p.File = filepath.ToSlash(filepath.Join(dir, p.File))
		}
	}
	for i := range found {
		move(&found[i].At)
		for k := range found[i].Also {
			move(&found[i].Also[k])
		}
	}
}

// report prints every finding and a line that counts them.
func report(w io.Writer, found finding.List) {
	for _, f := range found {
		fmt.Fprintln(w, f)
	}
	fmt.Fprintf(w, "%s, %s, %s\n", counted(found.Count(finding.Error), "error"),
		counted(found.Count(finding.Hold), "hold"), counted(found.Count(finding.Note), "note"))
}

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
