package main

import (
	"fmt"
	"io"

	"copingset/layout/job"

	"github.com/spf13/cobra"
)

func templateCommand() *cobra.Command {
	var units string
	c := &cobra.Command{
		Use:   "template",
		Short: "Print a job file to begin from, with every key and what it means",
		Long: `template prints a job file to begin from: every key there is, with what it means
and an example. What a job needs is in use, the rest stands behind a #. Each value
is invented: put the job's own in its place. form takes the file as it is, to
print forms for the survey that it still asks for.`,
		Example: `  copingset template > job.yaml
  copingset template --units metric > job.yaml`,
		Args: nothingElse,
		RunE: func(cmd *cobra.Command, _ []string) error {
			u, err := unitsNamed(units)
			if err != nil {
				return err
			}
			_, err = io.WriteString(cmd.OutOrStdout(), job.Template(u))
			return err
		},
	}
	c.Flags().StringVar(&units, "units", "imperial", "units of the examples: imperial or metric")
	offer(c, "units", "imperial", "metric")
	return c
}

// unitsNamed is the system of units by its name on the command line.
func unitsNamed(word string) (job.Units, error) {
	switch word {
	case "imperial":
		return job.Imperial, nil
	case "metric":
		return job.Metric, nil
	}
	return 0, fmt.Errorf("--units %s: write imperial or metric", word)
}
