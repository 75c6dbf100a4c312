package main

import (
	"errors"
	"fmt"
	"io"
	"runtime/debug"

	"github.com/spf13/cobra"
)

// Exit codes.
const (
	exitDone   = 0
	exitErrors = 1 // the job has error findings
	exitFailed = 2 // wrong usage, a folder that cannot be written into, a fault of the program
	exitFaults = 3 // a packet was written, and sheets of it have faults that a reader would stumble over
)

// errFindings says that findings were printed and nothing else is to be said.
var errFindings = errors.New("the job has errors")

// errFaults says that a packet was written, and that sheets of it do not read well.
var errFaults = errors.New("sheets have faults")

// Run is the command line: it returns the exit code and touches nothing but
// its streams and the files it is told to.
func Run(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	return guard(stderr, func() int { return run(args, stdin, stdout, stderr) })
}

func run(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	out := &latch{w: stdout}
	root := &cobra.Command{
		Use:   "copingset",
		Short: "Layout, shop drawings and installation sheets for metal parapet coping",
		Long: `copingset reads one job file and its wall survey, solves the coping to the
sixteenth of an inch or the millimetre, and prints the sheets: index and key
plan, an installation sheet for each run, corners, sections, schedules and
crate lists.`,
		Example: `  copingset check samples/rectangle/job.yaml
  copingset form samples/rectangle/job.yaml -o form
  copingset packet samples/rectangle/job.yaml -o out
  copingset packet samples/l-shape/job.yaml -o out --for crew`,
		Version:       version(debug.ReadBuildInfo()),
		SilenceUsage:  true,
		SilenceErrors: true,
	}
	root.AddCommand(commands()...)
	root.SetVersionTemplate("{{.Version}}")
	root.SetArgs(args)
	root.SetIn(stdin)
	root.SetOut(out)
	root.SetErr(stderr)
	switch err := root.Execute(); {
	case out.err != nil:
		fmt.Fprintf(stderr, "copingset: what was to be printed could not be: %v\n", out.err)
		return exitFailed
	case err == nil:
		return exitDone
	case errors.Is(err, errFindings):
		return exitErrors
	case errors.Is(err, errFaults):
		return exitFaults
	default:
		fmt.Fprintf(stderr, "copingset: %v\n", err)
		return exitFailed
	}
}

// commands are all but those that every program of this kind has.
func commands() []*cobra.Command {
	return []*cobra.Command{checkCommand(), explainCommand(), confirmCommand(), formCommand(), packetCommand(),
		issueCommand(), compareCommand(), replaceCommand(),
		migrateCommand(),
		schemaCommand(), templateCommand(), startCommand(), takeoffCommand(), listsCommand(), viewCommand()}
}

// offer lists the words of a flag for shells that complete.
func offer(c *cobra.Command, flag string, words ...string) {
	_ = c.RegisterFlagCompletionFunc(flag, cobra.FixedCompletions(words, cobra.ShellCompDirectiveNoFileComp))
}

// latch keeps the first error of a stream that is printed to: a list of findings
// that was cut short must not look like a short one.
type latch struct {
	w   io.Writer
	err error
}

func (l *latch) Write(p []byte) (int, error) {
	if l.err != nil {
		return 0, l.err
	}
	var n int
	n, l.err = l.w.Write(p)
	return n, l.err
}
