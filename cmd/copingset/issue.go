package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"path/filepath"
	"slices"

	"copingset/cmd/copingset/internal/store"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/record"
	"copingset/layout/revise"
	"copingset/sheets"

	"github.com/spf13/cobra"
)

// recordList is the manifest beside the record of an issue.
const recordList = "record-files.txt"

// transmittalFile is the letter that goes with an issue. It states the digest of
// packet.pdf, so that it cannot be part of it.
// It has a manifest of its own, so that printing the packet again leaves it where it is.
const (
	transmittalFile = "transmittal.pdf"
	transmittalList = "transmittal-files.txt"
)

// issueFlags are the flags of the issue command.
type issueFlags struct {
	packetFlags
	rev string
}

func issueCommand() *cobra.Command {
	f := issueFlags{packetFlags: packetFlags{audience: sheets.All.String()}}
	c := &cobra.Command{
		Use:   "issue JOB --rev MARK",
		Short: "Issue the packet under a revision and keep its record",
		Long: `issue writes the whole packet into DIR as packet does, with transmittal.pdf: what is
sent, what has to be withdrawn, what changed, the holds that stay open, and every
file with its SHA-256. Beside the job it writes issued/MARK/record.json: every fact
with its exact value, every mark, and digests of inputs, sheets and files.

From then on marks are fixed: a piece keeps its mark whatever its length, a shop
mark is given to no other part, and sheets, labels and files for machines say
PRELIMINARY again as soon as the job is not as it was issued. A sheet on which
nothing changed keeps its own revision. On one that changed, clouds go round what is
new.

MARK is that of the last row under job: revisions:. The letters I, O, Q, S, X and Z
are refused, and so are a mark or a date under which something else was issued, and a
revision of a day before the survey. Keep the folder issued with the job file.`,
		Example: `  copingset issue samples/rectangle/job.yaml --rev B -o out`,
		Args:    oneJob,
		RunE:    func(cmd *cobra.Command, args []string) error { return issue(cmd, args[0], f) },
	}
	c.Flags().StringVar(&f.rev, "rev", "", "mark of the revision, the last of the job")
	c.Flags().StringVarP(&f.out, "out", "o", "packet", "folder to write the packet into (made if absent)")
	c.Flags().StringVar(&f.paper, "paper", "",
		"paper of the run sheets, and after a comma of the lists: A, B, C, D, A4, A3, A2")
	c.Flags().BoolVar(&f.svg, "svg", false, "write each sheet as SVG too, not only the views")
	c.Flags().BoolVar(&f.force, "force", false, "write over files that were changed or that are not of this program")
	return c
}

func issue(cmd *cobra.Command, path string, f issueFlags) error {
	if path == pipe {
		return fmt.Errorf("a job that is piped in has no folder for the record of an issue: name its file")
	}
	o, err := options(f.packetFlags)
	if err != nil {
		return err
	}
	in := input{path: path}
	j, found, from, err := read(in, job.Read)
	if err != nil {
		return err
	}
	if !found.HasErrors() {
		if err := issuable(j, f.rev); err != nil {
			return err
		}
		j.Issuing = true
	}
	l, found := builtOf(j, found)
	report(cmd.ErrOrStderr(), from.relocate(found))
	taken := func(q finding.Finding) bool { return q.Code == "issued-before" }
	if found.HasErrors() || slices.ContainsFunc(found, taken) {
		fmt.Fprintln(cmd.ErrOrStderr(), "nothing issued: correct that first")
		return errFindings
	}
	if err := ready(cmd, f.out); err != nil {
		return err
	}
	return issued(cmd, in, l, o, f)
}

// builtOf solves a job that was read without errors.
func builtOf(j *job.Job, found finding.List) (*layout.Layout, finding.List) {
	if found.HasErrors() {
		return nil, found
	}
	return layout.Build(j)
}

// issuable refuses a mark that the job would not be issued under.
func issuable(j *job.Job, rev string) error {
	n := len(j.Info.Revisions)
	switch {
	case rev == "":
		return fmt.Errorf("issue under which revision? Name the last one of the job with --rev")
	case n == 0:
		return fmt.Errorf("--rev %s: the job has no revision; add a row with mark, date and note to its `revisions:`",
			rev)
	case j.Info.Revisions[n-1].Mark != rev:
		return fmt.Errorf("--rev %s: the last revision of the job is %s; add a row for %s, or issue %s", rev,
			j.Info.Revisions[n-1].Mark, rev, j.Info.Revisions[n-1].Mark)
	}
	if c, bad := record.Misread(rev); bad {
		return fmt.Errorf("--rev %s: the letter %s reads as another sign on a print; I, O, Q, S, X and Z are left "+
			"out: take the next letter", rev, c)
	}
	return nil
}

// issued draws and writes the packet, its letter and its record.
func issued(cmd *cobra.Command, in input, l *layout.Layout, o sheets.Options, f issueFlags) error {
	now, last := l.Record(), l.Job.Issued
	again := last != nil && last.Issue.Digest == now.Issue.Digest
	if again && (last.Issue.Mark != f.rev || revise.Differs(last.Facts, now.Facts)) {
		return fmt.Errorf("%s was issued by another release of the program, which lays the job out otherwise: "+
			"add a revision and issue that", last.Issue.Mark)
	}
	pages := sheets.Packet(l, o)
	files, err := packetFiles(l, pages, o, f.packetFlags)
	if err != nil {
		return err
	}
	for _, p := range pages {
		now.Sheets = append(now.Sheets, p.Issue)
	}
	for _, q := range files {
		if q.Typed { // people write into it
			continue
		}
		now.Files = append(now.Files, record.File{Name: q.Name, Digest: sha(q.Data)})
	}
	before := last
	if again {
		before = nil
	}
	var letter bytes.Buffer
	if err := sheets.PDF(&letter, l, sheets.Transmit(l, now, before, words.English)); err != nil {
		return fmt.Errorf("%s: %w", transmittalFile, err)
	}
	set := store.Set{List: packetList, Files: files, Force: f.force, Inputs: inputs(in, l.Job)}
	if _, err := write(cmd, f.out, set); err != nil {
		return err
	}
	sent := []store.File{{Name: transmittalFile, Data: letter.Bytes()}}
	stale(cmd, f.out, append(slices.Clone(files), sent...))
	if again {
		fmt.Fprintf(cmd.OutOrStdout(), "%s: %s as it was issued, %s\n", f.out, f.rev, counted(len(files), "file"))
		return nil
	}
	set = store.Set{List: transmittalList, Files: sent, Force: f.force, Inputs: inputs(in, l.Job)}
	if _, err := write(cmd, f.out, set); err != nil {
		return err
	}
	dir := filepath.Join(filepath.Dir(in.path), record.Folder, folderOf(f.rev))
	kept := store.Set{List: recordList, Files: []store.File{{Name: record.Name, Data: now.Encode()},
		sent[0]}}
	if _, err := write(cmd, dir, kept); err != nil {
		return err
	}
	fmt.Fprintf(cmd.OutOrStdout(), "%s: issue %s, %s, %s; record: %s\n", f.out, f.rev, sentOf(now),
		counted(len(files)+1, "file"), filepath.Join(dir, record.Name))
	return nil
}

// sentOf counts the sheets of an issue.
func sentOf(r *record.Record) string {
	n := 0
	for _, s := range r.Sheets {
		if s.Rev == r.Issue.Mark {
			n++
		}
	}
	if n == len(r.Sheets) {
		return counted(n, "sheet")
	}
	return fmt.Sprintf("%s sent, %d unchanged", counted(n, "sheet"), len(r.Sheets)-n)
}

// folderOf is a mark as the name of a folder.
func folderOf(mark string) string {
	out := []rune(mark)
	for i, c := range out {
		if !(c >= 'A' && c <= 'Z' || c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c == '-') {
			out[i] = '-'
		}
	}
	return string(out)
}

func sha(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}
