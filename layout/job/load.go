package job

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"strings"
	"unicode/utf8"

	"copingset/layout/finding"
)

// RootFile marks the folder below which the files of its jobs lie: a file of
// this name lets the jobs below it name files upwards as far as its folder.
// Nothing in it is read.
const RootFile = "copingset.root"

// The kinds of files a job is read from, as messages and sheets call them.
const (
	jobFile       = "job file"
	includedFile  = "included file"
	surveyFile    = "survey"
	confirmedList = "confirmed list"
)

// Source is one file that a job was read from.
type Source struct {
	Name   string // as seen from the folder of the job file, with slashes
	Kind   string // job file, included file, survey or confirmed list
	Digest string // SHA-256 of its bytes, 64 hexadecimal digits
}

// Short is the beginning of the digest: enough to
// tell one state of a file from another by eye.
func (s Source) Short() string { return ShortDigest(s.Digest) }

// ShortDigest is the beginning of a digest in two groups of six digits.
func ShortDigest(digest string) string {
	if len(digest) < 12 {
		return digest
	}
	return digest[:6] + " " + digest[6:12]
}

// script is a text file of a job while it is read: places in it are given by
// its name as seen from the folder of the job file.
type script struct {
	*decoder
	path  string // in the file system
	file  string // as findings name it
	raw   []byte // all of the file, a byte order mark included
	lines []string
}

// seen is the name of a file as seen from the folder of the job file.
func (d *decoder) seen(name string) string {
	if d.dir == "." {
		return name
	}
	from, to := strings.Split(d.dir, "/"), strings.Split(name, "/")
	for len(from) > 0 && len(to) > 1 && from[0] == to[0] {
		from, to = from[1:], to[1:]
	}
	return strings.Repeat("../", len(from)) + strings.Join(to, "/")
}

// The largest files that are read: many times the largest job, and small enough
// that a wrong file does not fill the memory or keep the reader busy for minutes.
const (
	mostJobBytes    = 4 << 20
	mostSurveyBytes = 8 << 20
	mostBytes       = 32 << 20 // of all files of a job
)

// mostPath is the longest path that a job names a file by, in letters.
const mostPath = 200

// reach finds a file that another one names: the path is relative to the folder
// of the file that names it. ok is false after a finding.
func (d *decoder) reach(from, written string, at finding.Place, what string) (name string, ok bool) {
	fail := func(mend, why string) (string, bool) {
		d.errorf("file-path", at, mend, "the %s %s %s", what, show(written), why)
		return "", false
	}
	name = path.Join(path.Dir(from), written)
	switch {
	case len([]rune(written)) > mostPath:
		return fail("move it nearer to the file that names it", "has a path that is longer than 200 letters")
	case strings.Contains(written, `\`):
		return fail("write `/` between folders", "is named with a backslash")
	case path.IsAbs(written) || strings.Contains(written, ":"):
		return fail("name it by its path from the folder of this file, like ../shop/"+path.Base(path.Clean(written)),
			"is not named by a path from this file")
	case !fs.ValidPath(name) || name == ".":
		return fail("move it into the folder of the job or below it; or put an empty file "+RootFile+
			" into the folder above that holds all the files of your jobs (the one nearest to the job counts)",
			"does not lie in the folder of the job")
	}
	return name, true
}

// load reads a text file, and checks that it is text. asked is the place that names
// the file; zero if the command line does.
func (d *decoder) load(name string, asked finding.Place, what string) (*script, bool) {
	data, ok := d.fetch(name, asked, what)
	if !ok {
		return nil, false
	}
	text, ok := d.plainText(string(data), d.seen(name))
	if !ok {
		return nil, false
	}
	d.source(name, what, data)
	return &script{decoder: d, path: name, file: d.seen(name), raw: data, lines: splitLines(text)}, true
}

// source notes a file that the job was read from.
func (d *decoder) source(name, what string, data []byte) {
	sum := sha256.Sum256(data)
	d.sources = append(d.sources, Source{Name: d.seen(name), Kind: what, Digest: hex.EncodeToString(sum[:])})
}

// fetch reads a file after looking at its size. Nothing is read through a link, which
// would lead out of sight.
func (d *decoder) fetch(name string, asked finding.Place, what string) ([]byte, bool) {
	at := asked
	if at.IsZero() {
		at = finding.Place{File: d.seen(name)}
	}
	fail := func(code, mend, why string) ([]byte, bool) {
		d.errorf(code, at, mend, "the %s %s %s", what, show(d.seen(name)), why)
		return nil, false
	}
	most := int64(mostJobBytes)
	if what == surveyFile || what == issueRecord {
		most = mostSurveyBytes
	}
	large := func() ([]byte, bool) {
		return fail("file-size", "check that it is the right file",
			fmt.Sprintf("is larger than %d MB, which no %s is", most>>20, what))
	}
	if !fs.ValidPath(name) {
		return fail("file-path", "name a file in the job file's folder or below it",
			"does not lie in the folder of the job")
	}
	info, through, err := lookUp(d.fsys, name)
	switch {
	case through != "":
		return fail("file-link", "name the file where it lies, or put a copy in its place",
			"is reached through the link "+show(d.seen(through))+", and links are not followed")
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
	case info.Mode()&fs.ModeSymlink != 0:
		return fail("file-link", "name the file that it leads to, or put a copy in its place",
			"is a link, and links are not followed")
	case !info.Mode().IsRegular():
		return fail("file-unreadable", "name an ordinary file", "is not an ordinary file")
	case info.Size() > most:
		return large()
	}
	f, err := d.fsys.Open(name)
	if err != nil {
		return fail("file-unreadable", "check the file", "cannot be read")
	}
	data, err := io.ReadAll(io.LimitReader(f, most+1))
	if closed := f.Close(); err == nil {
		err = closed
	}
	if err != nil {
		return fail("file-unreadable", "check the file", "cannot be read to its end")
	}
	if int64(len(data)) > most {
		return large()
	}
	if d.bytes += int64(len(data)); d.bytes > mostBytes {
		return fail("file-size", "make a job of each part of the building",
			fmt.Sprintf("is one too many: the files of the job are larger than %d MB together", mostBytes>>20))
	}
	return data, true
}

// lookUp is what stands at a path, without following links. through is the link
// among the folders of the path, if there is one.
func lookUp(fsys fs.FS, name string) (info fs.FileInfo, through string, err error) {
	for i := 0; i <= len(name); i++ {
		if i < len(name) && name[i] != '/' {
			continue
		}
		info, err = fs.Lstat(fsys, name[:i])
		switch {
		case err != nil:
			return nil, "", err
		case i == len(name):
		case info.Mode()&fs.ModeSymlink != 0:
			return nil, name[:i], nil
		case !info.IsDir():
			return nil, "", fs.ErrNotExist
		}
	}
	return info, "", nil
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
		d.errorf("file-encoding", finding.Place{File: name, Line: 1}, "save it again as UTF-8",
			"the file is saved as UTF-16")
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
			d.errorf("file-control", at, "check that it is the right file",
				"the file is not text: a zero byte stands here")
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
// the direction of writing, joiners and hyphens that are not drawn, and a byte
// order mark inside the text.
func hidden(r rune) bool {
	switch {
	case r == '\t' || r == '\n' || r == '\r':
		return false
	case r < ' ' || 0x7f <= r && r <= 0x9f:
		return true
	case r == 0xad || r == 0x61c || r == 0x180e || r == 0x200e || r == 0x200f || 0x2060 <= r && r <= 0x2064:
		return true
	case r == 0x2028 || r == 0x2029 || 0x202a <= r && r <= 0x202e || 0x2066 <= r && r <= 0x2069:
		return true
	}
	return r == 0xfeff || r == 0x200b || 0xfff0 <= r && r <= 0xfffb || 0xfffe <= r && r <= 0xffff
}
