package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"copingset/cmd/copingset/internal/store"
	"copingset/layout"

	"github.com/spf13/cobra"
)

// ours are the folders of a packet, in which nothing else has a place.
var ours = []string{"dxf", "schedules", "sheets", "views"}

// stale names what stands among the files of a packet and is none of them: a drawing of an
// earlier revision that was copied there, or somebody's own. It is not touched; a shop
// that cuts whatever lies in a folder would cut it too.
func stale(cmd *cobra.Command, out string, files []store.File) {
	known := map[string]bool{} // look-up only
	for _, f := range files {
		known[f.Name] = true
	}
	for _, name := range standing(out) {
		if !known[name] {
			fmt.Fprintf(cmd.ErrOrStderr(), "%s is not of this packet: take it away before anybody works by it\n",
				filepath.Join(out, filepath.FromSlash(name)))
		}
	}
}

// withLetter counts the letter of an issue as of the packet while the job is as it was
// issued: it states the digests of that issue's files and of no others.
func withLetter(files []store.File, l *layout.Layout) []store.File {
	if r := l.Job.Issued; r == nil || r.Issue.Digest != l.Job.Digest() {
		return files
	}
	return append(slices.Clone(files), store.File{Name: transmittalFile})
}

// standing are the files in the folders of a packet, and the PDFs beside it.
func standing(out string) []string {
	var all []string
	for _, dir := range ours {
		_ = filepath.WalkDir(filepath.Join(out, dir), func(path string, e fs.DirEntry, err error) error {
			if err != nil || e.IsDir() {
				return nil // what cannot be looked at is nobody's drawing
			}
			if rel, err := filepath.Rel(out, path); err == nil {
				all = append(all, filepath.ToSlash(rel))
			}
			return nil
		})
	}
	entries, err := os.ReadDir(out)
	if err != nil {
		return all
	}
	for _, e := range entries {
		if !e.IsDir() && slices.Contains([]string{".pdf", ".dxf"}, filepath.Ext(e.Name())) {
			all = append(all, e.Name())
		}
	}
	return all
}
