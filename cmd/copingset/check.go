package main

import "github.com/spf13/cobra"

func checkCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "check JOB",
		Short: "Read and solve a job, print what is wrong or on hold",
		Long: `check reads the job file and its survey, solves the layout and prints every
finding: errors, which stop a packet; holds, which are printed on the sheets
they touch and keep pieces from release; and notes. It writes no file and exits
1 when there is an error.`,
		Example: "  copingset check samples/l-shape/job.yaml",
		Args:    cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			_, found, err := open(args[0], "")
			if err != nil {
				return err
			}
			report(cmd.OutOrStdout(), found)
			if found.HasErrors() {
				return errFindings
			}
			return nil
		},
	}
}
