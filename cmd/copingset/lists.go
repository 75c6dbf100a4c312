package main

import (
	"fmt"
	"strings"

	"copingset/cmd/copingset/internal/store"
	"copingset/layout"
	"copingset/sheets"

	"github.com/spf13/cobra"
)

// listsList is the manifest of lists that stand without a packet.
const listsList = "lists-files.txt"

// workbookName is the workbook with all lists.
const workbookName = "lists.xlsx"

func listsCommand() *cobra.Command {
	var out, units string
	var force, columns bool
	c := &cobra.Command{
		Use:   "lists JOB",
		Short: "Write the lists alone, CSV and one workbook: pieces, chairs, screws, shims, cutting, crates, findings",
		Long: `lists writes each list as CSV and all of them as the sheets of lists.xlsx into
DIR, without drawing anything. They are the same as in the folder schedules of a
packet. Lengths stand as the sheets letter them, each followed by plain millimetres;
cells of numbers are numbers in the workbook. --columns prints what each column
means: columns are never renamed or moved, new ones go to the end.`,
		Example: `  copingset lists samples/rectangle/job.yaml -o lists
  copingset lists --columns`,
		Args: func(cmd *cobra.Command, args []string) error {
			if columns {
				return nothingElse(cmd, args)
			}
			return oneJob(cmd, args)
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if columns {
				printColumns(cmd)
				return nil
			}
			return lists(cmd, args[0], out, units, force)
		},
	}
	c.Flags().StringVarP(&out, "out", "o", "lists", "folder to write into (made if absent)")
	c.Flags().StringVar(&units, "units", "", "imperial or metric, instead of the job's")
	c.Flags().BoolVar(&force, "force", false, "write over files that were changed or that are not of this program")
	c.Flags().BoolVar(&columns, "columns", false, "print the columns of all lists and what they mean")
	offer(c, "units", "imperial", "metric")
	return c
}

func lists(cmd *cobra.Command, path, out, units string, force bool) error {
	if err := ready(cmd, out); err != nil {
		return err
	}
	in, err := inputOf(cmd, path)
	if err != nil {
		return err
	}
	l, found, err := open(in, units)
	if err != nil {
		return err
	}
	if found.HasErrors() {
		report(cmd.ErrOrStderr(), found)
		fmt.Fprintln(cmd.ErrOrStderr(), "no list written: correct the errors first")
		return errFindings
	}
	files, err := listFiles(l, "")
	if err != nil {
		return err
	}
	set := store.Set{List: listsList, Files: files, Force: force, Inputs: inputs(in, l.Job)}
	if _, err := write(cmd, out, set); err != nil {
		return err
	}
	fmt.Fprintln(cmd.ErrOrStderr(), tally(found))
	fmt.Fprintf(cmd.OutOrStdout(), "%s: %s\n", out, counted(len(files), "file"))
	return nil
}

// listFiles are all lists of a layout in a folder, and the workbook with them.
func listFiles(l *layout.Layout, folder string) ([]store.File, error) {
	all := sheets.Schedules(l)
	out, err := tables(folder, all)
	if err != nil {
		return nil, err
	}
	book, err := sheets.Workbook(l.Job, all)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", workbookName, err)
	}
	return append(out, store.File{Name: folder + workbookName, Data: book}), nil
}

// printColumns prints the columns list by list.
func printColumns(cmd *cobra.Command) {
	last := ""
	for _, c := range sheets.ListColumns() {
		if c.List != last {
			fmt.Fprintf(cmd.OutOrStdout(), "%s.csv\n", c.List)
			last = c.List
		}
		kind := "words"
		if c.Number {
			kind = "number"
		}
		line := fmt.Sprintf("  %-42s %-7s %-16s %s", c.Name, kind, c.Unit, c.Means)
		fmt.Fprintln(cmd.OutOrStdout(), strings.TrimRight(line, " "))
	}
}
