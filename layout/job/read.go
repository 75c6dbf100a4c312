package job

import (
	"io/fs"
	"strconv"
	"strings"

	"copingset/layout/finding"
)

// Read reads the job file of that name, every file it includes and every survey
// it names, and checks their form. The file system is all that may be read:
// paths that lead out of it are refused, and so are links. Findings name files
// as seen from the folder of the job file; they are all there are, in the order
// of the files. The job is nil if any of them is an error: a wrong input never
// becomes a sheet.
func Read(fsys fs.FS, name string) (*Job, finding.List) { return readJob(fsys, name, false) }

// ReadUnsurveyed reads the job file and what it includes: what it takes to print
// the forms on which the survey is to be written. Surveys are neither looked for
// nor read.
func ReadUnsurveyed(fsys fs.FS, name string) (*Job, finding.List) {
	return readJob(fsys, name, true)
}

func readJob(fsys fs.FS, name string, unsurveyed bool) (*Job, finding.List) {
	d := newDecoder(fsys, name)
	d.unsure, d.unsurveyed = unsurveyed, unsurveyed
	return d.job(name)
}

// job reads the job and gathers what was found.
func (d *decoder) job(name string) (*Job, finding.List) {
	j := d.read(name)
	d.listOmitted()
	d.list.Sort()
	if j == nil || d.list.HasErrors() {
		return nil, d.list
	}
	j.Sources, j.Findings, j.said = d.sources, d.list, d.said
	return j, d.list
}

func (d *decoder) read(name string) *Job {
	text, ok := d.load(name, finding.Place{}, jobFile)
	if !ok {
		return nil
	}
	root := text.tree()
	if root == nil || !d.isJob(root) {
		return nil
	}
	root = text.included(root)
	if root == nil {
		return nil
	}
	j := d.decode(root)
	if !d.unsurveyed {
		d.surveys(j)
		d.confirmedList(j)
		d.progress(j)
	}
	d.check(j)
	if !d.unsurveyed {
		d.issued(j)
	}
	d.list = ForReaders(d.list, j.Units)
	return j
}

// formatWord stands at the head of a job file and tells how to read the rest.
const formatWord = "copingset/2"

// Format is the form of the job files that are read.
const Format = formatWord

// isJob tells a job file from a file that only happens to be readable.
func (d *decoder) isJob(root *node) bool {
	start := finding.Place{File: d.file, Line: 1, Col: 1}
	format := root.field("format")
	known := 0
	for _, k := range d.keys.names("") {
		if root.field(k) != nil {
			known++
		}
	}
	switch {
	case root.kind == emptyNode:
		d.errorf("file-empty", start, "write the job, beginning with `format: "+formatWord+"`", "the file is empty")
		return false
	case root.kind != mappingNode || known == 0:
		d.errorf("file-not-job", start,
			"give the job file; it begins with `format: "+formatWord+"`, and a survey is named inside it",
			"this is not a job file")
		return false
	case format == nil:
		return true // a missing key is found with the others
	}
	return d.isFormat(format)
}

// isFormat checks the form that a file says it has.
func (d *decoder) isFormat(format *field) bool {
	if format.value.text == formatWord {
		return true
	}
	at := format.value.at
	if at.Line == 0 {
		at = format.at
	}
	if format.value.text == formatBefore {
		d.errorf("file-format", at,
			"run `copingset migrate JOB` with this file: it edits the keys that changed where they stand and keeps "+
				"the comments",
			"the file is of the form before, "+formatBefore+"; this release reads "+formatWord)
		return false
	}
	mend := "write `format: " + formatWord + "`"
	if isLater(format.value.text) {
		mend = "read it with the release that it was written for; this one reads " + formatWord
	}
	d.errorf("file-format", at, mend, "the form %s is not known here", show(format.value.text))
	return false
}

// isLater tells a form that only a later release reads.
func isLater(form string) bool {
	family, ours, _ := strings.Cut(formatWord, "/")
	number, ok := strings.CutPrefix(form, family+"/")
	theirs, err := strconv.Atoi(number)
	read, _ := strconv.Atoi(ours)
	return ok && err == nil && theirs > read
}
