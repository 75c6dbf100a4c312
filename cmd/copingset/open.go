package main

import (
	"fmt"
	"io"
	"io/fs"

	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
)

// open reads a job file and solves it. Places in the findings it hands out are
// paths as the user would type them; those in the layout stay as seen from the
// folder of the job, so that a sheet does not depend on where the command ran.
func open(path, units string) (*layout.Layout, finding.List, error) {
	j, found, from := read(path, job.Read)
	if found.HasErrors() {
		return nil, found, nil
	}
	if err := choose(j, units); err != nil {
		return nil, nil, err
	}
	l, all := layout.Build(j)
	return l, from.relocate(all), nil
}

// read opens the folder that the files of a job lie in and reads the job from
// it. The folder is closed again, and names the places of later findings.
func read(path string, reader func(fs.FS, string) (*job.Job, finding.List)) (*job.Job, finding.List, folder) {
	from := openFolder(path)
	defer from.Close()
	j, found := reader(from.FS(), from.name)
	return j, from.relocate(found), from
}

// choose letters a job in the units asked for.
func choose(j *job.Job, units string) error {
	if units == "" {
		return nil
	}
	u, err := unitsNamed(units)
	if err == nil {
		j.LetterIn(u)
	}
	return err
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
