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
func open(in input, units string) (*layout.Layout, finding.List, error) {
	l, found, from, err := solve(in, units)
	return l, from.relocate(found), err
}

// solve is open with the places as seen from the folder of the job.
func solve(in input, units string) (*layout.Layout, finding.List, folder, error) {
	j, found, from, err := read(in, job.Read)
	if err != nil || found.HasErrors() {
		return nil, found, from, err
	}
	if err := choose(j, units); err != nil {
		return nil, nil, from, err
	}
	l, all := layout.Build(j)
	return l, all, from, nil
}

// read opens the folder that the files of a job lie in and reads the job from
// it. The folder is closed again, and names the places of findings. A job file that
// cannot be looked at is an error of the command.
func read(in input, reader func(fs.FS, string) (*job.Job, finding.List)) (*job.Job, finding.List, folder, error) {
	from := openFolder(in)
	defer from.Close()
	j, found := reader(from.FS(), from.name)
	return j, found, from, absent(from, found)
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
	fmt.Fprintln(w, tally(found))
}

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
