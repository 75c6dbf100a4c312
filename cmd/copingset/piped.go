package main

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"path"
	"slices"
	"time"

	"copingset/layout/finding"

	"github.com/spf13/cobra"
)

// pipe is how the command line names a job that is typed into the program, or
// made by another: its surveys and what it includes are named from the folder the
// command runs in.
const pipe = "-"

// mostPiped is more than the reader of jobs takes, so that it says so itself.
const mostPiped = 5 << 20

// input is a job on the command line: the path of its file, or its text.
type input struct {
	path string
	text []byte // of a pipe
}

// inputOf takes the job that an argument names.
func inputOf(cmd *cobra.Command, arg string) (input, error) {
	if arg != pipe {
		return input{path: arg}, nil
	}
	text, err := io.ReadAll(io.LimitReader(cmd.InOrStdin(), mostPiped))
	if err != nil {
		return input{}, fmt.Errorf("the job cannot be read from what is piped in: %w", err)
	}
	return input{path: pipe, text: text}, nil
}

// oneJob asks for the one job that a command takes.
func oneJob(cmd *cobra.Command, args []string) error {
	switch {
	case len(args) == 1:
		return nil
	case len(args) == 0:
		return fmt.Errorf("%s what? Name the job file: copingset %s", cmd.Name(), cmd.Use)
	}
	return fmt.Errorf("%s takes one job at a time, and %d are named: copingset %s", cmd.Name(), len(args), cmd.Use)
}

// nothingElse refuses what stands behind a command that takes no file.
func nothingElse(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	return fmt.Errorf("%s takes no file, and %s is named: copingset %s", cmd.Name(), args[0], cmd.Use)
}

// absent is why a job could not be looked at, if its file itself could not be: that
// is no finding of the job, but a command that cannot be carried out.
func absent(from folder, found finding.List) error {
	no := []string{"file-missing", "file-permission", "file-unreadable", "file-folder", "file-link", "file-path"}
	if len(found) != 1 || found[0].At.Line > 0 || found[0].At.File != path.Base(from.name) ||
		!slices.Contains(no, found[0].Code) {
		return nil
	}
	return fmt.Errorf("%s: %s; %s", from.shown(found[0].At.File), found[0].What, found[0].Mend)
}

// piped is a folder in which one file more stands, which is on no disk.
type piped struct {
	fs.FS
	name string
	data []byte
}

func (p piped) Open(name string) (fs.File, error) {
	if name != p.name {
		return p.FS.Open(name)
	}
	return &pipedFile{bytes.NewReader(p.data), p.info()}, nil
}

// Lstat looks a file up without following links, as the folder does.
func (p piped) Lstat(name string) (fs.FileInfo, error) {
	if name != p.name {
		return fs.Lstat(p.FS, name)
	}
	return p.info(), nil
}

// ReadLink is the folder's.
func (p piped) ReadLink(name string) (string, error) { return fs.ReadLink(p.FS, name) }

func (p piped) info() pipedInfo { return pipedInfo{path.Base(p.name), int64(len(p.data))} }

type pipedFile struct {
	*bytes.Reader
	info pipedInfo
}

func (f *pipedFile) Stat() (fs.FileInfo, error) { return f.info, nil }
func (f *pipedFile) Close() error               { return nil }

type pipedInfo struct {
	name string
	size int64
}

func (i pipedInfo) Name() string       { return i.name }
func (i pipedInfo) Size() int64        { return i.size }
func (i pipedInfo) Mode() fs.FileMode  { return 0o444 }
func (i pipedInfo) ModTime() time.Time { return time.Time{} }
func (i pipedInfo) IsDir() bool        { return false }
func (i pipedInfo) Sys() any           { return nil }
