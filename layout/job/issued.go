package job

import (
	"errors"
	"fmt"
	"io/fs"
	"path"

	"copingset/layout/finding"
	"copingset/layout/record"
)

// issueRecord is what messages call the memory of an issue.
const issueRecord = "issue record"

// issued reads the records of earlier issues, which stand beside the job file, and
// keeps the one of the last: it has the history of all. A record that cannot be relied
// on stops the packet, for marks would be given twice.
func (d *decoder) issued(j *Job) {
	folder := path.Join(d.dir, record.Folder)
	entries, err := fs.ReadDir(d.fsys, folder)
	if err != nil {
		return // nothing was issued
	}
	var all []*record.Record
	for _, e := range entries {
		name := path.Join(folder, e.Name(), record.Name)
		if info, _, err := lookUp(d.fsys, name); err != nil || info == nil || info.IsDir() {
			continue
		}
		if r := d.record(j, name); r != nil {
			all = append(all, r)
		}
	}
	if j.Issued = record.Latest(all); j.Issued != nil {
		d.issuedAgain(j)
	}
}

// record reads one of them. It is no source of the job, whose input it says nothing of.
func (d *decoder) record(j *Job, name string) *record.Record {
	before, bytes := len(d.sources), d.bytes
	text, ok := d.load(name, finding.Place{}, issueRecord)
	d.sources, d.bytes = d.sources[:before], bytes
	if !ok {
		return nil
	}
	at := finding.Place{File: text.file, Line: 1, Col: 1}
	const back = "put back the record as `copingset issue` wrote it"
	r, err := record.Decode(text.raw)
	switch {
	case errors.Is(err, record.ErrLater):
		d.errorf("record-unreadable", at, "read it with the release that wrote it",
			"the record cannot be read: %s", err.Error())
		return nil
	case errors.Is(err, record.ErrEdited):
		d.errorf("record-edited", at, back+"; a mark is fixed by what it says",
			"the record was changed after it was written: its seal does not fit its text")
		return nil
	case err != nil:
		d.errorf("record-unreadable", at, back, "the record cannot be read: %s", err.Error())
		return nil
	case !r.SameJob(j.Info.Number, j.Info.Name):
		d.errorf("record-other-job", at, "take it to the folder of its own job",
			"the record is of another job, %s", show(r.Job.Number+" "+r.Job.Name))
		return nil
	}
	return r
}

// issuedAgain holds a job that changed and still has a mark or a date under which
// other metal was issued.
func (d *decoder) issuedAgain(j *Job) {
	mark, day, at := j.revisionPlace(d)
	was, byMark, taken := j.Issued.Taken(mark, day, inputDigest(d.said))
	if !taken {
		return
	}
	what := fmt.Sprintf("the date %s is that of issue %s, and the job has changed since", day, was.Mark)
	if byMark {
		what = fmt.Sprintf("revision %s was issued on %s, and the job has changed since", mark, was.Date)
	}
	f := finding.New(finding.Hold, "issued-before", at,
		"add a row with a new mark and its own date under `job: revisions:`, and issue it", "%s", what)
	f.Why = "two contents of one mark would be on the site and in the shop"
	d.add(f)
}

// revisionPlace is the mark and date that the job would be issued under, and where they
// are stated.
func (j *Job) revisionPlace(d *decoder) (mark, day string, at finding.Place) {
	if n := len(j.Info.Revisions); n > 0 {
		r := j.Info.Revisions[n-1]
		return r.Mark, dayWords(r.Date), d.places[fmt.Sprintf("job.revisions[%d].mark", n-1)]
	}
	return "0", dayWords(j.Info.Issued), d.places["job.issued"]
}

// checkRevisions looks at the marks and at the day of the last one, which is the one
// that the sheets carry.
func (d *decoder) checkRevisions(j *Job) {
	for i, r := range j.Info.Revisions {
		if c, bad := record.Misread(r.Mark); bad {
			d.notef("revision-letter", d.places[fmt.Sprintf("job.revisions[%d].mark", i)],
				"take the next letter; I, O, Q, S, X and Z are left out",
				"revision %s: the letter %s reads as another sign on a print", show(r.Mark), c)
		}
	}
	n := len(j.Info.Revisions)
	if n == 0 {
		return
	}
	at, survey := fmt.Sprintf("job.revisions[%d].date", n-1), "site.measured_on"
	r, told := j.Info.Revisions[n-1], d.has("job.issued") && j.Info.Issued.before(j.Site.MeasuredOn)
	if d.has(at, survey) && r.Date.before(j.Site.MeasuredOn) && !told {
		d.conflict("revision-before-survey", d.places[at], d.places[survey],
			"write the day on which this revision is issued, or check the day of the survey",
			"revision %s is of %s, and the wall was measured on %s", r.Mark, dayWords(r.Date),
			dayWords(j.Site.MeasuredOn))
	}
}

// Preliminary says that the job is not as it was last issued, so that its shop marks
// are not fixed.
func (j *Job) Preliminary() bool {
	return !j.Issuing && (j.Issued == nil || j.Issued.Issue.Digest != j.Digest())
}
