package main

import (
	"bytes"
	"fmt"
	"io/fs"

	"copingset/cmd/copingset/internal/store"
	"copingset/drawing/svg"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/takeoff"
	"copingset/sheets"

	"github.com/spf13/cobra"
)

// takeoffList is the manifest of a takeoff.
const takeoffList = "takeoff-files.txt"

// takeoffFlags are the flags of the takeoff command.
type takeoffFlags struct {
	out, units, paper string
	force             bool
}

func takeoffCommand() *cobra.Command {
	var f takeoffFlags
	c := &cobra.Command{
		Use:   "takeoff JOB",
		Short: "Count and price the job before anything is measured",
		Long: `takeoff counts metal, hardware, build-up and labour from the lengths of the
drawing and the widths that walls are drawn with (walls: width:), and prices them
by the job's own rates (takeoff: rates:). Surveys are not looked for, and readings
in the job file are left out. The ways under takeoff: options: stand beside the
job's own: other chair spacings, other lengths of stock, build-up along the whole
wall or under each chair alone, another fabricator's system.

It writes takeoff.pdf, takeoff.svg for each sheet, takeoff.csv and takeoff.xlsx
into DIR. Nothing is released from a takeoff: no drawing for a shop comes of it.`,
		Example: `  copingset takeoff samples/rectangle/job.yaml -o bid`,
		Args:    oneJob,
		RunE:    func(cmd *cobra.Command, args []string) error { return takeOff(cmd, args[0], f) },
	}
	c.Flags().StringVarP(&f.out, "out", "o", "takeoff", "folder to write into (made if absent)")
	c.Flags().StringVar(&f.units, "units", "", "imperial or metric, instead of the job's")
	c.Flags().StringVar(&f.paper, "paper", "", "paper of the sheets: A, B, C, D, A4, A3, A2 (the job's for drawings)")
	c.Flags().BoolVar(&f.force, "force", false, "write over files that were changed or that are not of this program")
	offer(c, "units", "imperial", "metric")
	offer(c, "paper", "A", "B", "C", "D", "A4", "A3", "A2")
	return c
}

func takeOff(cmd *cobra.Command, path string, f takeoffFlags) error {
	o, err := options(packetFlags{audience: sheets.All.String(), paper: f.paper})
	if err != nil {
		return err
	}
	if err := ready(cmd, f.out); err != nil {
		return err
	}
	in, err := inputOf(cmd, path)
	if err != nil {
		return err
	}
	t, found, from, err := takenOff(in, f.units)
	if err != nil {
		return err
	}
	if t == nil {
		report(cmd.ErrOrStderr(), from.relocate(found))
		fmt.Fprintln(cmd.ErrOrStderr(), "no takeoff written: correct the errors first")
		return errFindings
	}
	pages := sheets.Takeoff(t, o)
	files, err := takeoffFiles(t, pages)
	if err != nil {
		return err
	}
	set := store.Set{List: takeoffList, Files: files, Force: f.force, Inputs: inputs(in, t.Job)}
	if _, err := write(cmd, f.out, set); err != nil {
		return err
	}
	fmt.Fprintf(cmd.OutOrStdout(), "%s: %s, %s: nothing is released from a takeoff\n", f.out,
		counted(len(t.Options), "way")+" to build", counted(len(files), "file"))
	return nil
}

// takenOff reads and reckons, with units of the sheets as asked for.
func takenOff(in input, units string) (*takeoff.Takeoff, finding.List, folder, error) {
	var from folder
	var failed error
	t, found := takeoff.Of(func(include []string) (*job.Job, finding.List) {
		j, found, dir, err := read(in, func(fsys fs.FS, name string) (*job.Job, finding.List) {
			return job.ReadTakeoff(fsys, name, include)
		})
		from = dir
		if err == nil && j != nil {
			err = choose(j, units)
		}
		if failed == nil {
			failed = err
		}
		return j, found
	})
	if failed != nil {
		return nil, nil, from, failed
	}
	return t, found, from, nil
}

// takeoffFiles makes every file in memory.
func takeoffFiles(t *takeoff.Takeoff, pages []sheets.Sheet) ([]store.File, error) {
	var pdf, list bytes.Buffer
	if err := sheets.TakeoffPDF(&pdf, t, pages); err != nil {
		return nil, fmt.Errorf("takeoff.pdf: %w", err)
	}
	table := sheets.TakeoffList(t)
	if err := sheets.WriteCSV(&list, table); err != nil {
		return nil, fmt.Errorf("takeoff.csv: %w", err)
	}
	book, err := sheets.Workbook(t.Job, []sheets.Schedule{table})
	if err != nil {
		return nil, fmt.Errorf("takeoff.xlsx: %w", err)
	}
	out := []store.File{{Name: "takeoff.pdf", Data: pdf.Bytes()}, {Name: "takeoff.csv", Data: list.Bytes()},
		{Name: "takeoff.xlsx", Data: book}}
	for _, p := range pages {
		var b bytes.Buffer
		if err := svg.Write(&b, p.Scene, svg.Options{}); err != nil {
			return nil, fmt.Errorf("%s: %w", p.ID, err)
		}
		out = append(out, store.File{Name: p.ID + ".svg", Data: b.Bytes()})
	}
	return out, nil
}
