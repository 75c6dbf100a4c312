package main

import (
	"bytes"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"copingset/cmd/copingset/internal/store"
	"copingset/drawing/svg"
	"copingset/drawing/words"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/sheets"

	"github.com/spf13/cobra"
)

// formFlags are the flags of the form command.
type formFlags struct {
	out, every, paper, units string
	runs                     []string
	csv, force               bool
}

func formCommand() *cobra.Command {
	var f formFlags
	c := &cobra.Command{
		Use:   "form JOB",
		Short: "Print blank forms for measuring the wall: survey-form.pdf, SVG",
		Long: `form prints for each run the sheet that is taken up on the roof: its stations at
both corners, at what stands on the wall and every so often between, with boxes
for width, both tops, face offset, condition and photo, a sketch of the run with
its neighbours, and how to measure. Nothing of the job needs to be surveyed: the
survey named in the job file is not read.

It writes survey-form.pdf and one SVG for each page (forms/) into DIR. With --csv
it also writes an empty survey for each perimeter, its stations filled in, into
which the readings are typed; the names of its columns are printed on the form.
The row of a station that was not measured is taken out.

A survey in DIR that is no longer as it was written has readings in it: it is
kept, with or without --force. Any other file that this command did not write, or
that was changed since, stops it before anything is written; --force writes over
it.`,
		Example: `  copingset form samples/rectangle/job.yaml
  copingset form samples/rectangle/job.yaml -o form --every "1'-6\"" --run N --run E
  copingset form samples/metric/job.yaml -o form --every "500 mm" --csv`,
		Args: oneJob,
		RunE: func(cmd *cobra.Command, args []string) error { return form(cmd, args[0], f) },
	}
	c.Flags().StringVarP(&f.out, "out", "o", "form", "folder to write into (made if absent)")
	c.Flags().StringVar(&f.every, "every", "", `distance between stations, with its unit (usually 2'-0" or 600 mm)`)
	c.Flags().StringSliceVar(&f.runs, "run", nil, "name of a run, again for each more; all if none is named")
	c.Flags().BoolVar(&f.csv, "csv", false, "write an empty survey CSV with the same stations too")
	c.Flags().BoolVar(&f.force, "force", false,
		"write over files that were changed or that are not of this program; never over a survey")
	c.Flags().StringVar(&f.paper, "paper", "", "paper of the forms: A, B, C, D, A4, A3, A2 (the job's paper for lists)")
	c.Flags().StringVar(&f.units, "units", "", "imperial or metric, instead of the job's")
	offer(c, "units", "imperial", "metric")
	offer(c, "paper", "A", "B", "C", "D", "A4", "A3", "A2")
	return c
}

// leastStep between stations: a survey every few millimetres is a slip of the
// keyboard.
const leastStep = length.Inch

func form(cmd *cobra.Command, path string, f formFlags) error {
	o := sheets.FormOptions{Runs: f.runs}
	if f.every != "" {
		every, err := length.Parse(f.every)
		if err != nil {
			return fmt.Errorf("--every %s: %w", f.every, err)
		}
		if every < leastStep {
			return fmt.Errorf("--every %s: stations stand an inch or more apart", f.every)
		}
		o.Every = every
	}
	if f.paper != "" {
		p, err := job.ParsePaper(f.paper)
		if err != nil {
			return fmt.Errorf("--paper: %w", err)
		}
		o.Paper = &p
	}
	if err := ready(cmd, f.out); err != nil {
		return err
	}
	in, err := inputOf(cmd, path)
	if err != nil {
		return err
	}
	j, found, from, err := read(in, job.ReadUnsurveyed)
	if err != nil {
		return err
	}
	if found.HasErrors() {
		report(cmd.ErrOrStderr(), from.relocate(found))
		fmt.Fprintln(cmd.ErrOrStderr(), "no form written: correct the errors first")
		return errFindings
	}
	if err := choose(j, f.units); err != nil {
		return err
	}
	if err := known(j, f.runs); err != nil {
		return err
	}
	pages := spoken(j.Language, func(lang words.Lang) []sheets.Sheet {
		in := o
		in.Lang = lang
		return sheets.Forms(j, in)
	})
	var surveys []sheets.Schedule
	if f.csv {
		surveys = sheets.FormCSV(j, o)
	}
	files, err := formFiles(j, pages, surveys)
	if err != nil {
		return err
	}
	kept, err := write(cmd, f.out, store.Set{List: formList, Files: files, Force: f.force, Inputs: inputs(in, j)})
	if err != nil {
		return err
	}
	fmt.Fprintf(cmd.OutOrStdout(), "%s: %s, %s\n", f.out, counted(len(pages), "form"), counted(len(files)-kept, "file"))
	if len(surveys) > 1 {
		for _, s := range surveys {
			fmt.Fprintf(cmd.OutOrStdout(), "perimeter %s: %s\n", s.Of, filepath.Join(f.out, s.Name))
		}
	}
	return nil
}

// known refuses a run that the job does not have.
func known(j *job.Job, runs []string) error {
	var names []string
	for i := range j.Perimeters {
		for k := range j.Perimeters[i].Runs {
			names = append(names, j.Perimeters[i].Runs[k].Name)
		}
	}
	for _, r := range runs {
		if slices.Contains(names, r) {
			continue
		}
		if near := finding.Suggest(r, names); near != "" {
			return fmt.Errorf("--run %s: the job has no such run; did you mean %s?", r, near)
		}
		return fmt.Errorf("--run %s: the runs of the job are %s", r, strings.Join(names, ", "))
	}
	return nil
}

// formFiles makes every file in memory.
func formFiles(j *job.Job, pages []sheets.Sheet, surveys []sheets.Schedule) ([]store.File, error) {
	var pdf bytes.Buffer
	if err := sheets.FormPDF(&pdf, j, pages); err != nil {
		return nil, fmt.Errorf("survey-form.pdf: %w", err)
	}
	out := []store.File{{Name: "survey-form.pdf", Data: pdf.Bytes()}}
	for _, p := range pages {
		var b bytes.Buffer
		if err := svg.Write(&b, p.Scene, svg.Options{}); err != nil {
			return nil, fmt.Errorf("%s: %w", p.ID, err)
		}
		out = append(out, store.File{Name: "forms/" + p.ID + ".svg", Data: b.Bytes()})
	}
	for _, s := range surveys {
		var b bytes.Buffer
		if err := sheets.WriteCSV(&b, s); err != nil {
			return nil, fmt.Errorf("%s: %w", s.Name, err)
		}
		out = append(out, store.File{Name: s.Name, Data: b.Bytes(), Typed: true})
	}
	return out, nil
}
