package job

import (
	"errors"
	"io"
	"io/fs"
	"path"
	"strings"
	"unicode/utf8"

	"copingset/layout/finding"
)

// formatWord stands at the head of a job file and tells how to read the rest.
const formatWord = "copingset/1"

// mostBytes is the largest file that is read: many times the largest job, and
// small enough that a wrong file does not fill the memory.
const mostBytes = 8 << 20

// Read reads the job file of that name and every survey it names, and checks
// their form. The findings are all there are, in the order of the files. The
// job is nil if any of them is an error: a wrong input never becomes a sheet.
func Read(fsys fs.FS, name string) (*Job, finding.List) { return readJob(fsys, name, false) }

// ReadUnsurveyed reads the job file alone: what it takes to print the forms on
// which the survey is to be written. Surveys are neither looked for nor read.
func ReadUnsurveyed(fsys fs.FS, name string) (*Job, finding.List) {
	return readJob(fsys, name, true)
}

func readJob(fsys fs.FS, name string, unsurveyed bool) (*Job, finding.List) {
	d := newDecoder(fsys, name)
	d.unsure, d.unsurveyed = unsurveyed, unsurveyed
	j := d.read()
	d.listOmitted()
	d.list.Sort()
	if j == nil || d.list.HasErrors() {
		return nil, d.list
	}
	j.Findings, j.said = d.list, d.said
	return j, d.list
}

func (d *decoder) read() *Job {
	text, ok := d.load(d.file, finding.Place{}, "job file")
	if !ok {
		return nil
	}
	root := d.tree(text)
	if root == nil {
		return nil
	}
	if !d.isJob(root) {
		return nil
	}
	j := d.decode(root)
	if !d.unsurveyed {
		d.surveys(j)
		d.confirmedList(j)
	}
	d.check(j)
	return j
}

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
		d.errorf("file-empty", start, "write the job, beginning with `format: copingset/1`", "the file is empty")
		return false
	case root.kind != mappingNode || known == 0:
		d.errorf("file-not-job", start, "give the job file; it begins with `format: copingset/1`, and a survey is named inside it", "this is not a job file")
		return false
	case format == nil || format.value.text == formatWord:
		return true // a missing key is found with the others
	}
	d.errorf("file-format", format.value.at, "write `format: copingset/1`", "the form %s is not known here", show(format.value.text))
	return false
}

// load reads a text file after looking at its size, and checks that it is
// text. asked is the place that names the file; zero if the command line does.
func (d *decoder) load(name string, asked finding.Place, what string) (string, bool) {
	at := asked
	if at.IsZero() {
		at = finding.Place{File: name}
	}
	fail := func(code, mend, why string) (string, bool) {
		d.errorf(code, at, mend, "the %s %s %s", what, show(name), why)
		return "", false
	}
	if !fs.ValidPath(name) {
		return fail("file-path", "name a file in the job file's folder or below it", "does not lie in the folder of the job")
	}
	info, err := fs.Stat(d.fsys, name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		mend := "check the name"
		if near := d.neighbour(name); near != "" {
			mend = "did you mean " + show(near) + "?"
		}
		return fail("file-missing", mend, "is not there")
	case errors.Is(err, fs.ErrPermission):
		return fail("file-permission", "ask for the right to read it", "may not be read")
	case err != nil:
		return fail("file-unreadable", "check the file", "cannot be read")
	case info.IsDir():
		return fail("file-folder", "name the file in it", "is a folder")
	case !info.Mode().IsRegular():
		return fail("file-unreadable", "name an ordinary file", "is not an ordinary file")
	case info.Size() > mostBytes:
		return fail("file-size", "check that it is the right file", "is larger than 8 MB, which no job is")
	}
	f, err := d.fsys.Open(name)
	if err != nil {
		return fail("file-unreadable", "check the file", "cannot be read")
	}
	data, err := io.ReadAll(io.LimitReader(f, mostBytes+1))
	if closed := f.Close(); err == nil {
		err = closed
	}
	if err != nil {
		return fail("file-unreadable", "check the file", "cannot be read to its end")
	}
	if len(data) > mostBytes {
		return fail("file-size", "check that it is the right file", "is larger than 8 MB, which no job is")
	}
	return d.plainText(string(data), name)
}

// neighbour is a file beside a missing one with nearly the same name.
func (d *decoder) neighbour(name string) string {
	entries, err := fs.ReadDir(d.fsys, path.Dir(name))
	if err != nil || len(entries) > 1000 {
		return ""
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return finding.Suggest(path.Base(name), names)
}

// plainText checks that a file is readable text without hidden characters, and
// takes off the byte order mark that some programs put before it.
func (d *decoder) plainText(data, name string) (string, bool) {
	if strings.HasPrefix(data, "\xff\xfe") || strings.HasPrefix(data, "\xfe\xff") {
		d.errorf("file-encoding", finding.Place{File: name, Line: 1}, "save it again as UTF-8", "the file is saved as UTF-16")
		return "", false
	}
	data = strings.TrimPrefix(data, "\uFEFF")
	line, col := 1, 1
	for i := 0; i < len(data); {
		r, size := utf8.DecodeRuneInString(data[i:])
		at := finding.Place{File: name, Line: line, Col: col}
		switch {
		case r == utf8.RuneError && size == 1:
			d.errorf("file-encoding", at, "save it again as UTF-8", "the file is not text in UTF-8 from here on")
			return "", false
		case r == 0:
			d.errorf("file-control", at, "check that it is the right file", "the file is not text: a zero byte stands here")
			return "", false
		case hidden(r):
			d.errorf("file-control", at, "take it out", "a hidden control character (%U) stands here", r)
			return "", false
		}
		col++
		if r == '\n' || r == '\r' && !strings.HasPrefix(data[i+1:], "\n") {
			line, col = line+1, 1
		}
		i += size
	}
	return data, true
}

// hidden says whether a character cannot be seen and is no blank or line end:
// control characters, the line ends only some programs know, marks that turn
// the direction of writing, and a byte order mark inside the text.
func hidden(r rune) bool {
	switch {
	case r == '\t' || r == '\n' || r == '\r':
		return false
	case r < ' ' || 0x7f <= r && r <= 0x9f:
		return true
	case r == 0x2028 || r == 0x2029 || 0x202a <= r && r <= 0x202e || 0x2066 <= r && r <= 0x2069:
		return true
	}
	return r == 0xfeff || r == 0x200b || 0xfff0 <= r && r <= 0xfffb || 0xfffe <= r && r <= 0xffff
}
