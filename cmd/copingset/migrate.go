package main

import (
	"fmt"
	"path/filepath"

	"copingset/cmd/copingset/internal/store"
	"copingset/layout/job"

	"github.com/spf13/cobra"
)

func migrateCommand() *cobra.Command {
	var dry bool
	c := &cobra.Command{
		Use:   "migrate JOB",
		Short: "Bring a job file of the form before to the form of today",
		Long: `migrate edits a job file, or a file that jobs include, where the form of today
is written otherwise than the form before: each changed value in its place, so
that comments, order and layout stay as they are. It prints every edit, and
what it could not know and a person has to look at. The file is written whole
or not at all. A file of today's form is left as it is.

Surveys have not changed. Files that a job includes are migrated one by one.`,
		Example: `  copingset migrate old/job.yaml --dry-run
  copingset migrate old/job.yaml`,
		Args: oneJob,
		RunE: func(cmd *cobra.Command, args []string) error { return migrate(cmd, args[0], dry) },
	}
	c.Flags().BoolVar(&dry, "dry-run", false, "print what would be edited and write nothing")
	return c
}

func migrate(cmd *cobra.Command, path string, dry bool) error {
	out := cmd.OutOrStdout()
	if path == pipe {
		return fmt.Errorf("migrate edits a file where it lies: name it, and not what is piped in")
	}
	if !dry { // what an earlier run left goes, whatever becomes of this one
		if err := ready(cmd, filepath.Dir(path)); err != nil {
			return err
		}
	}
	from := openFolder(input{path: path})
	defer from.Close()
	m, found := job.Migrate(from.FS(), from.name)
	if found.HasErrors() {
		report(cmd.ErrOrStderr(), from.relocate(found))
		fmt.Fprintln(cmd.ErrOrStderr(), "nothing changed: correct the errors first")
		return errFindings
	}
	if len(m.Changes) == 0 {
		fmt.Fprintf(out, "%s: of today's form already, nothing changed\n", path)
		return nil
	}
	list := func(all []job.Change) {
		for _, c := range all {
			c.At.File = from.shown(c.At.File)
			fmt.Fprintln(out, c)
		}
	}
	list(m.Changes)
	if len(m.Unsure) > 0 {
		fmt.Fprintln(out, "\nNot known from the file, look at it:")
		list(m.Unsure)
	}
	if dry {
		fmt.Fprintf(out, "\n%s: %s to make, nothing written\n", path, counted(len(m.Changes), "edit"))
		return nil
	}
	if err := store.Replace(path, m.Before, m.Text); err != nil {
		return err
	}
	fmt.Fprintf(out, "\n%s: %s made, %s to look at\n", path, counted(len(m.Changes), "edit"),
		counted(len(m.Unsure), "place"))
	return nil
}
