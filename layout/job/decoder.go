package job

import (
	"io/fs"
	"maps"
	"path"
	"slices"

	"copingset/layout/finding"
)

// mode is what a walk through the declared keys is for.
type mode int

const (
	reading mode = iota // takes the values of a file
	listing             // collects the keys themselves; there is no file
	showing             // takes the keys' own examples, to show a whole file
)

// decoder walks through the keys of one job. It remembers the place of every
// value it could read, by the full path of its key, so that the checks compare
// only what was read and point at the very value.
type decoder struct {
	mode   mode
	fsys   fs.FS
	dir    string // of the job file in fsys
	file   string // the job file itself; a node's place names the file it stands in
	keys   keyTable
	list   finding.List
	counts map[string]int // findings of a code
	// omitted are the first findings of a code that were too many to list, one a file;
	// more is how many there are, by code and file.
	omitted map[string]finding.List
	more    map[[2]string]int
	places  map[string]finding.Place
	said    []Entry           // the values that were read
	typed   map[string]string // lengths of runs as they were written, by path
	system  *part             // as it stands in the file
	// sources are the files read so far, the job file first.
	sources []Source
	bytes   int64 // of all files
	// unsure says that a survey could not be read in full, so that readings
	// missing from it mean nothing.
	unsure bool
	// unsurveyed says that surveys are not to be read at all.
	unsurveyed bool
	// drawn says that every run lies as drawn, whatever was read on it; instead are
	// the files to include in place of the job's own.
	drawn   bool
	instead []string

	listed []Key           // by a listing walk
	asked  map[string]bool // paths that other parts of a shown file call for
}

// newDecoder begins with the job file of that name.
func newDecoder(fsys fs.FS, name string) *decoder {
	return &decoder{fsys: fsys, dir: path.Dir(name), file: path.Base(name), keys: newKeyTable(),
		places: map[string]finding.Place{}, counts: map[string]int{}, typed: map[string]string{}}
}

// decode reads the whole tree.
func (d *decoder) decode(n *node) *Job {
	root := &part{d: d, n: n, at: n.at}
	root.audit()
	j := &Job{File: d.file}
	j.keys(keys{part: root})
	return j
}

// mostAlike is how many findings of one kind are listed: after these, more of
// them help nobody.
const mostAlike = 60

func (d *decoder) add(f finding.Finding) {
	d.counts[f.Code]++
	if d.counts[f.Code] <= mostAlike {
		d.list.Append(f)
		return
	}
	if d.omitted == nil {
		d.omitted = map[string]finding.List{}
	}
	list := d.omitted[f.Code]
	if i := slices.IndexFunc(list, func(o finding.Finding) bool { return o.At.File == f.At.File }); i >= 0 {
		list[i].Severity = max(list[i].Severity, f.Severity)
		d.more[[2]string{f.Code, f.At.File}]++
		return
	}
	d.omitted[f.Code] = append(list, f)
	if d.more == nil {
		d.more = map[[2]string]int{}
	}
	d.more[[2]string{f.Code, f.At.File}]++
}

// listOmitted says how many findings are not listed, in each file where they are,
// at the first of them.
func (d *decoder) listOmitted() {
	for _, code := range slices.Sorted(maps.Keys(d.omitted)) {
		for _, first := range d.omitted[code] {
			d.list.Append(finding.New(first.Severity, "more-alike", first.At,
				"correct those listed and read the job again",
				"%d more findings of the kind %s are not listed", d.more[[2]string{code, first.At.File}], code))
		}
	}
}

func (d *decoder) errorf(code string, at finding.Place, mend, format string, args ...any) {
	d.add(finding.New(finding.Error, code, at, mend, format, args...))
}

func (d *decoder) notef(code string, at finding.Place, mend, format string, args ...any) {
	d.add(finding.New(finding.Note, code, at, mend, format, args...))
}

// conflict is an error between two places.
func (d *decoder) conflict(code string, at, also finding.Place, mend, format string, args ...any) {
	f := finding.New(finding.Error, code, at, mend, format, args...)
	if !also.IsZero() && also != at {
		f.Also = []finding.Place{also}
	}
	d.add(f)
}

// has says that the values of all these paths were read.
func (d *decoder) has(paths ...string) bool {
	for _, p := range paths {
		if _, ok := d.places[p]; !ok {
			return false
		}
	}
	return true
}
