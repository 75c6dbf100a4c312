package main

import (
	"fmt"

	"copingset/layout/finding"
	"copingset/sheets"

	"github.com/spf13/cobra"
)

// checkFlags are the flags of the check command.
type checkFlags struct {
	paper, format         string
	drawings, strict, all bool
}

func checkCommand() *cobra.Command {
	var f checkFlags
	c := &cobra.Command{
		Use:   "check JOB",
		Short: "Read and solve a job, print what is wrong or on hold",
		Long: `check reads the job file and its survey, solves the layout and prints every
finding: errors, which stop a packet; holds, which are printed on the sheets
they touch and keep pieces from release; and notes. Findings go to the standard
output, their count to the standard error. It writes no file and exits 1 when
there is an error, with --strict when there is a hold too. The input line is the beginning of a digest of every
value that was read: the same as on the basis of design of a packet as long as
these files say what they said then, however they are arranged.

With --drawings it also draws every sheet and view and looks them over: texts
that overlap or cross thick lines, marks outside the frame, lettering too small
or without a glyph, dimension chains whose printed parts do not sum.

Of readings in doubt, up to eight, each is taken as its neighbours have it, and the
findings that are then not made are counted under it: it is the first to mend. Of
very many findings alike the first twelve are printed and the others counted. --all
prints each.

--format json prints one object: version 1, the counts, the digest of the input,
and each finding with its code, its place and what it touches; files are named as
seen from the folder of the job. --format github prints what a workflow on GitHub
shows at the lines of a change. copingset explain CODE says what a code means.

A job named - is read from the standard input; what it names lies in the folder
that the command runs in.`,
		Example: `  copingset check samples/l-shape/job.yaml
  copingset check samples/l-shape/job.yaml --drawings --paper A3
  copingset check samples/l-shape/job.yaml --format json --strict`,
		Args: oneJob,
		RunE: func(cmd *cobra.Command, args []string) error { return check(cmd, args[0], f) },
	}
	c.Flags().BoolVar(&f.drawings, "drawings", false, "draw every sheet and view and look them over too")
	c.Flags().StringVar(&f.paper, "paper", "",
		"paper of the drawings, and after a comma of the lists, instead of the job's")
	c.Flags().StringVar(&f.format, "format", asText, "how findings are printed: text, json or github")
	c.Flags().BoolVar(&f.strict, "strict", false, "exit 1 for a hold as for an error")
	c.Flags().BoolVar(&f.all, "all", false,
		"print every finding as a line of its own, those that follow from a doubted reading too")
	offer(c, "format", asText, asJSON, asGitHub)
	return c
}

func check(cmd *cobra.Command, path string, f checkFlags) error {
	if f.format != asText && f.format != asJSON && f.format != asGitHub {
		return fmt.Errorf("--format %s: write text, json or github", f.format)
	}
	o, err := options(packetFlags{audience: sheets.All.String(), paper: f.paper})
	if err != nil {
		return err
	}
	in, err := inputOf(cmd, path)
	if err != nil {
		return err
	}
	l, found, from, err := solve(in, "")
	if err != nil {
		return err
	}
	var faults []string
	if f.drawings && !found.HasErrors() {
		for _, s := range sheets.Check(l, o) {
			faults = append(faults, s.String())
		}
	}
	out := cmd.OutOrStdout()
	switch f.format {
	case asJSON:
		if err := printJSON(out, l, found, faults); err != nil {
			return err
		}
	case asGitHub:
		printGitHub(out, from.relocate(found))
		for _, s := range faults {
			fmt.Fprintln(out, "::error title=drawing::"+s)
		}
	default:
		printText(out, from.relocate(found), f.all)
		for _, s := range faults {
			fmt.Fprintln(out, s)
		}
		if !found.HasErrors() {
			fmt.Fprintln(out, inputLine(l.Job))
		}
	}
	fmt.Fprintln(cmd.ErrOrStderr(), tally(found))
	if f.drawings && !found.HasErrors() {
		fmt.Fprintf(cmd.ErrOrStderr(), "drawings: %s\n", counted(len(faults), "fault"))
	}
	if found.HasErrors() || len(faults) > 0 || f.strict && found.Count(finding.Hold) > 0 {
		return errFindings
	}
	return nil
}
