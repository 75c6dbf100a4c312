package main

import (
	"bytes"
	"fmt"
	"strings"

	"copingset/cmd/copingset/internal/store"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/finding"
	"copingset/sheets"

	"github.com/spf13/cobra"
)

func replaceCommand() *cobra.Command {
	var out, reason, photo string
	var force bool
	c := &cobra.Command{
		Use:   "replace JOB PIECE",
		Short: "Print the slip by which a piece is made again",
		Long: `replace prints replacement-PIECE.pdf into DIR: the piece by its mark with hand, width,
lengths and finish lot, why it is made again, the number of the photo, the crate it
came in, and which runs can start without it. What is left out can be written in.`,
		Example: `  copingset replace job.yaml E-04 --reason "dented at the street-side leg" --photo 12 -o replace`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) != 2 {
				return fmt.Errorf("replace what? Name the job and the mark of the piece: copingset replace JOB PIECE")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			return replacement(cmd, args[0], args[1], out, reason, photo, force)
		},
	}
	c.Flags().StringVarP(&out, "out", "o", "replace", "folder to write into (made if absent)")
	c.Flags().StringVar(&reason, "reason", "", "what is wrong with the piece that came")
	c.Flags().StringVar(&photo, "photo", "", "number of the photo of it")
	c.Flags().BoolVar(&force, "force", false, "write over files that were changed or that are not of this program")
	return c
}

func replacement(cmd *cobra.Command, path, mark, dir, reason, photo string, force bool) error {
	in, err := inputOf(cmd, path)
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
	q, err := pieceNamed(l, mark)
	if err != nil {
		return err
	}
	if err := ready(cmd, dir); err != nil {
		return err
	}
	var pdf bytes.Buffer
	pages := spoken(l.Job.Language, func(lang words.Lang) []sheets.Sheet {
		return sheets.Slip(l, q, reason, photo, lang)
	})
	if err := sheets.PDF(&pdf, l, pages); err != nil {
		return err
	}
	name := "replacement-" + folderOf(q.Mark) + ".pdf"
	set := store.Set{List: "replacement-" + folderOf(q.Mark) + "-files.txt", Force: force,
		Inputs: inputs(in, l.Job), Files: []store.File{{Name: name, Data: pdf.Bytes()}}}
	if _, err := write(cmd, dir, set); err != nil {
		return err
	}
	fmt.Fprintf(cmd.OutOrStdout(), "%s: %s\n", dir, name)
	return nil
}

// pieceNamed finds a piece by its mark.
func pieceNamed(l *layout.Layout, mark string) (*layout.Piece, error) {
	var marks []string
	for _, p := range l.Perimeters {
		for _, q := range p.Pieces {
			if strings.EqualFold(q.Mark, mark) {
				return q, nil
			}
			marks = append(marks, q.Mark)
		}
	}
	if near := finding.Suggest(mark, marks); near != "" {
		return nil, fmt.Errorf("the job has no piece %s; did you mean %s?", mark, near)
	}
	return nil, fmt.Errorf("the job has no piece %s; the piece schedule lists all marks", mark)
}
