package main

import (
	"fmt"

	"copingset/layout/finding"

	"github.com/spf13/cobra"
)

func explainCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "explain CODE",
		Short: "Say what the code of a finding means and what to do",
		Long: `explain says what the code in brackets at the end of a finding means, whichever
job it is raised in, and what is to be done. Without a code it lists all of them.`,
		Example: `  copingset explain survey-slip
  copingset explain`,
		RunE: func(cmd *cobra.Command, args []string) error {
			out := cmd.OutOrStdout()
			if len(args) == 0 {
				for _, e := range finding.Explanations() {
					fmt.Fprintf(out, "%-22s %s\n", e.Code, e.Means)
				}
				return nil
			}
			for _, code := range args {
				e, near, ok := finding.Explain(code)
				switch {
				case ok:
					fmt.Fprintf(out, "%s\n  %s\n  To do: %s\n", e.Code, e.Means, e.Mend)
				case near != "":
					return fmt.Errorf("no finding has the code %s; did you mean %s?", code, near)
				default:
					return fmt.Errorf("no finding has the code %s; copingset explain lists all codes", code)
				}
			}
			return nil
		},
		ValidArgsFunction: func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			var codes []string
			for _, e := range finding.Explanations() {
				codes = append(codes, e.Code)
			}
			return codes, cobra.ShellCompDirectiveNoFileComp
		},
	}
}
