package main

import (
	"fmt"

	"copingset/layout/job"
	"copingset/sheets"

	"github.com/spf13/cobra"
)

func checkCommand() *cobra.Command {
	var drawings bool
	var paper string
	c := &cobra.Command{
		Use:   "check JOB",
		Short: "Read and solve a job, print what is wrong or on hold",
		Long: `check reads the job file and its survey, solves the layout and prints every
finding: errors, which stop a packet; holds, which are printed on the sheets
they touch and keep pieces from release; and notes. It writes no file and exits
1 when there is an error. The input line is the beginning of a digest of every
value that was read: the same as on the basis of design of a packet as long as
these files say what they said then, however they are arranged.

With --drawings it also draws every sheet and view and looks them over: texts
that overlap or cross thick lines, marks outside the frame, lettering too small
or without a glyph, dimension chains whose printed parts do not sum.`,
		Example: `  copingset check samples/l-shape/job.yaml
  copingset check samples/l-shape/job.yaml --drawings --paper A3`,
		Args: cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			o, err := options(packetFlags{audience: sheets.All.String(), paper: paper})
			if err != nil {
				return err
			}
			l, found, err := open(args[0], "")
			if err != nil {
				return err
			}
			report(cmd.OutOrStdout(), found)
			if found.HasErrors() {
				return errFindings
			}
			fmt.Fprintf(cmd.OutOrStdout(), "input %s\n", job.ShortDigest(l.Job.Digest()))
			if !drawings {
				return nil
			}
			faults := sheets.Check(l, o)
			for _, f := range faults {
				fmt.Fprintln(cmd.OutOrStdout(), f)
			}
			fmt.Fprintf(cmd.OutOrStdout(), "drawings: %s\n", counted(len(faults), "fault"))
			if len(faults) > 0 {
				return errFindings
			}
			return nil
		},
	}
	c.Flags().BoolVar(&drawings, "drawings", false, "draw every sheet and view and look them over too")
	c.Flags().StringVar(&paper, "paper", "", "paper of the drawings, and after a comma of the lists, instead of the job's")
	return c
}
