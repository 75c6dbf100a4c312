package main

import (
	"copingset/layout/job"

	"github.com/spf13/cobra"
)

func schemaCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "schema",
		Short: "Print the JSON Schema of the job file",
		Long: `schema prints the JSON Schema (draft 2020-12) of the job file: every key with what
it means, an example, and the words that can stand there. An editor that knows it
completes keys while they are typed and marks those that are wrong or missing.

Keep it beside the jobs and name it in the first line of a job file:

  # yaml-language-server: $schema=copingset.schema.json

check finds more than the schema can say: what one value asks of another.`,
		Example: `  copingset schema > copingset.schema.json`,
		Args:    nothingElse,
		RunE: func(cmd *cobra.Command, _ []string) error {
			_, err := cmd.OutOrStdout().Write(job.Schema())
			return err
		},
	}
}
