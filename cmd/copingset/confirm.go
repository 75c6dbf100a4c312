package main

import (
	"fmt"

	"github.com/spf13/cobra"
)

// confirmFile is the list that an engineer confirms, in a packet.
const confirmFile = "confirm.txt"

func confirmCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "confirm JOB",
		Short: "Print the list that a licensed engineer confirms, with its check code",
		Long: `confirm solves the job and prints every input and result of its computed wind
pressures, and the zones of each run, one to a line as "name = value", under a
check code of ten characters. The engineer's letter repeats the code, and the job
file repeats it under wind: as confirmed: with by, on, document and code.

Keep the list beside the job file as it was confirmed, and name it as list: under
confirmed:. When something changes the job is on hold again, and the finding then
says what changed. The code alone cannot tell.`,
		Example: `  copingset confirm samples/metric/job.yaml > confirm.txt`,
		Args:    oneJob,
		RunE: func(cmd *cobra.Command, args []string) error {
			in, err := inputOf(cmd, args[0])
			if err != nil {
				return err
			}
			l, found, err := open(in, "")
			if err != nil {
				return err
			}
			if found.HasErrors() {
				report(cmd.ErrOrStderr(), found)
				return errFindings
			}
			text := l.ConfirmText()
			if text == "" {
				return fmt.Errorf("%s: no pressures are computed, so there is nothing to confirm", args[0])
			}
			_, err = fmt.Fprint(cmd.OutOrStdout(), text)
			return err
		},
	}
}
