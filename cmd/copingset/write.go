package main

import (
	"fmt"
	"path/filepath"

	"copingset/cmd/copingset/internal/store"

	"github.com/spf13/cobra"
)

// packetList is the manifest of a packet, formList that of survey forms: either
// may be written beside the other.
const (
	packetList = "packet-files.txt"
	formList   = "form-files.txt"
)

// ready says before the work begins that an output folder cannot be, and mends
// one in which an earlier run was cut off.
func ready(cmd *cobra.Command, out string) error {
	note, err := store.Ready(out)
	if note != "" {
		fmt.Fprintln(cmd.ErrOrStderr(), note)
	}
	return err
}

// write writes a set of files and names those that stay because they are
// somebody's. kept is how many of the set were not written for that.
func write(cmd *cobra.Command, out string, s store.Set) (kept int, err error) {
	r, err := store.Write(out, s)
	if err != nil {
		return 0, err
	}
	in := func(name string) string { return filepath.Join(out, filepath.FromSlash(name)) }
	for _, n := range r.Kept {
		fmt.Fprintf(cmd.ErrOrStderr(),
			"%s is kept: it is not as an earlier run wrote it, so it may have readings in it; "+
				"for an empty one choose another folder with -o\n", in(n))
	}
	for _, n := range r.Left {
		fmt.Fprintf(cmd.ErrOrStderr(),
			"%s is kept: it was changed since an earlier run wrote it, and this one no longer has it; "+
				"remove it if nobody needs it\n", in(n))
	}
	return len(r.Kept), nil
}
