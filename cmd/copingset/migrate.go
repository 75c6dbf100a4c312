package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"

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
		Args: cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error { return migrate(cmd, args[0], dry) },
	}
	c.Flags().BoolVar(&dry, "dry-run", false, "print what would be edited and write nothing")
	return c
}

func migrate(cmd *cobra.Command, path string, dry bool) error {
	out := cmd.OutOrStdout()
	from := openFolder(path)
	defer from.Close()
	m, found := job.Migrate(from.FS(), from.name)
	if found.HasErrors() {
		report(cmd.ErrOrStderr(), from.relocate(found))
		fmt.Fprintln(cmd.ErrOrStderr(), "nothing changed: mend the errors first")
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
	if err := overwrite(path, m.Text); err != nil {
		return err
	}
	fmt.Fprintf(out, "\n%s: %s made, %s to look at\n", path, counted(len(m.Changes), "edit"),
		counted(len(m.Unsure), "place"))
	return nil
}

// overwrite puts new text in place of a file, whole or not at all, and leaves
// it the permissions it had: the text is written beside the file, synced, and
// renamed over it.
func overwrite(path string, text []byte) (err error) {
	defer func() {
		if err != nil {
			err = fmt.Errorf("%s is as it was: the new text cannot be put in its place: %w", path, err)
		}
	}()
	info, err := os.Lstat(path)
	if err != nil {
		return err
	}
	if info.Mode().Perm()&0o222 == 0 { // a rename would not ask
		return errors.New("nobody may write into it")
	}
	f, err := os.CreateTemp(filepath.Dir(path), ".copingset-*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			os.Remove(f.Name())
		}
	}()
	_, err = f.Write(text)
	if err == nil {
		err = f.Chmod(info.Mode().Perm())
	}
	if err == nil {
		err = f.Sync()
	}
	if e := f.Close(); err == nil {
		err = e
	}
	if err != nil {
		return err
	}
	return os.Rename(f.Name(), path)
}
