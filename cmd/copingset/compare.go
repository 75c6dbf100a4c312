package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"copingset/cmd/copingset/internal/store"
	"copingset/drawing/words"
	"copingset/layout/record"
	"copingset/layout/revise"
	"copingset/sheets"

	"github.com/spf13/cobra"
)

// compareList is the manifest of a comparison that is written down.
const compareList = "compare-files.txt"

func compareCommand() *cobra.Command {
	var out string
	c := &cobra.Command{
		Use:   "compare OLD NEW",
		Short: "Tell what changed from one issue or job to another",
		Long: `compare takes two records of issues or two job files, or one of each, and tells what
changed: in sentences first, then every fact with its value before and now.

It exits 0 where nothing changes that is made or set, and 1 where something does. With
-o it writes the facts as changes.csv into DIR.`,
		Example: `  copingset compare issued/A/record.json job.yaml
  copingset compare issued/A/record.json issued/B/record.json -o what-changed`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) != 2 {
				return fmt.Errorf("compare what with what? Name two records or jobs: copingset compare OLD NEW")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error { return compare(cmd, args[0], args[1], out) },
	}
	c.Flags().StringVarP(&out, "out", "o", "", "folder to write changes.csv into (made if absent)")
	return c
}

func compare(cmd *cobra.Command, old, now, dir string) error {
	before, err := recordOf(cmd, old)
	if err != nil {
		return err
	}
	after, err := recordOf(cmd, now)
	if err != nil {
		return err
	}
	if !before.SameJob(after.Job.Number, after.Job.Name) {
		return fmt.Errorf("%s is of job %s and %s of job %s: compare two issues of one job", old, named(before.Job),
			now, named(after.Job))
	}
	was, is := before.Facts, after.Facts
	out := cmd.OutOrStdout()
	for _, line := range sheets.ChangeWords(was, is) {
		fmt.Fprintln(out, line)
	}
	differs := revise.Differs(was, is)
	if !differs {
		fmt.Fprintln(out, words.Book{}.Say(words.ChangeAlike))
	}
	table := sheets.ChangeTable(was, is)
	printChanges(out, table)
	if dir != "" {
		files, err := tables("", []sheets.Schedule{table})
		if err != nil {
			return err
		}
		set := store.Set{List: compareList, Files: files, Inputs: []string{old, now}}
		if _, err := write(cmd, dir, set); err != nil {
			return err
		}
	}
	if differs {
		return errFindings
	}
	return nil
}

// printChanges lists facts under the list that they stand in.
func printChanges(out io.Writer, table sheets.Schedule) {
	kind := ""
	for _, r := range table.Rows {
		if r[0] != kind {
			kind = r[0]
			fmt.Fprintf(out, "\n%s\n", kind)
		}
		fmt.Fprintf(out, "  %s, %s: %s -> %s\n", r[1], r[2], shown(r[3]), shown(r[4]))
	}
}

func shown(value string) string {
	if value == "" {
		return "none"
	}
	return value
}

// named is a job as people call it.
func named(j record.Job) string { return strings.TrimSpace(j.Number + " " + j.Name) }

// recordOf reads a record, or makes that of a job.
func recordOf(cmd *cobra.Command, path string) (*record.Record, error) {
	if filepath.Ext(path) == ".json" {
		text, err := os.ReadFile(path)
		if err != nil {
			return nil, err
		}
		r, err := record.Decode(text)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", path, err)
		}
		return r, nil
	}
	in, err := inputOf(cmd, path)
	if err != nil {
		return nil, err
	}
	l, found, err := open(in, "")
	if err != nil {
		return nil, err
	}
	if found.HasErrors() {
		report(cmd.ErrOrStderr(), found)
		return nil, fmt.Errorf("%s has errors, so there is nothing to compare", path)
	}
	return l.Record(), nil
}
