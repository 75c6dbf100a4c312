package main

import (
	"fmt"
	"os/signal"
	"path/filepath"
	"syscall"

	"copingset/cmd/copingset/internal/window"

	"github.com/spf13/cobra"
)

func viewCommand() *cobra.Command {
	var f packetFlags
	c := &cobra.Command{
		Use:   "view JOB",
		Short: "Show the sheets in a browser, drawn anew whenever a file of the job is saved",
		Long: `view solves the job and prints the address of a window on this machine: its sheets
as they print, the list of them, and the findings, which lead to their line and to
their place. When a file of the job is saved, the sheet that is looked at is drawn
first. The window only shows, nothing is written; it answers on the loopback
address alone, at a port and a path chosen by chance, and fetches nothing from
anywhere else. It ends with Ctrl-C.`,
		Example: `  copingset view samples/rectangle/job.yaml
  copingset view samples/l-shape/job.yaml --for crew`,
		Args: oneJob,
		RunE: func(cmd *cobra.Command, args []string) error { return view(cmd, args[0], f) },
	}
	c.Flags().StringVar(&f.audience, "for", "all", "whose sheets: all, crew, shop, inspector, receiving, pre-bid")
	c.Flags().StringVar(&f.paper, "paper", "",
		"paper of the drawings, and after a comma of the lists, instead of the job's")
	c.Flags().StringVar(&f.units, "units", "", "imperial or metric, instead of the job's")
	offer(c, "for", audienceWords()...)
	offer(c, "units", "imperial", "metric")
	return c
}

func view(cmd *cobra.Command, path string, f packetFlags) error {
	if path == pipe {
		return fmt.Errorf("view watches files: name the job file")
	}
	o, err := options(f)
	if err != nil {
		return err
	}
	l, at, address, err := window.Listen()
	if err != nil {
		return err
	}
	defer l.Close()
	ctx, stop := signal.NotifyContext(cmd.Context(), syscall.SIGINT, syscall.SIGTERM)
	defer stop()
	w := window.New(func() window.Solved { return watched(path, f.units) }, o)
	fault := make(chan any, 1) // of the program; it is told where the command is guarded
	go func() {
		defer func() {
			fault <- recover()
			stop()
		}()
		w.Watch(ctx)
	}()
	fmt.Fprintf(cmd.OutOrStdout(), "%s\nopen this address in a browser; Ctrl-C ends it\n", address)
	err = w.Serve(ctx, l, at)
	stop()
	if f := <-fault; f != nil {
		panic(f)
	}
	return err
}

// watched is the job as its files say it now, with the files to look at.
func watched(path, units string) window.Solved {
	in := input{path: path}
	l, found, from, err := solve(in, units)
	out := window.Solved{Layout: l, Findings: found, Err: err,
		Files: []window.File{{Name: filepath.Base(path), Path: path}}}
	if err != nil || l == nil {
		// What a job that cannot be read is made of is not known: its own file is mended
		// first, or one that a finding names.
		for _, f := range found {
			if f.At.File != "" && f.At.File != out.Files[0].Name {
				out.Files = append(out.Files, window.File{Name: f.At.File, Path: from.shown(f.At.File)})
			}
		}
		return out
	}
	for _, s := range l.Job.Sources {
		if s.Name != out.Files[0].Name {
			out.Files = append(out.Files, window.File{Name: s.Name, Path: from.shown(s.Name)})
		}
	}
	return out
}
