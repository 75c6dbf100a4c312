package main

import (
	"bytes"
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"copingset/layout/record"
)

// story is a job in a folder of its own that changes while it is built.
type story struct {
	*testing.T
	dir string // of the job
}

func newStory(t *testing.T) story {
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS("../../samples")); err != nil {
		t.Fatal(err)
	}
	return story{t, filepath.Join(dir, "rectangle")}
}

func (s story) in(name string) string { return filepath.Join(s.dir, filepath.FromSlash(name)) }

func (s story) read(name string) string {
	s.Helper()
	b, err := os.ReadFile(s.in(name))
	if err != nil {
		s.Fatal(err)
	}
	return string(b)
}

func (s story) write(name, text string) {
	s.Helper()
	if err := os.WriteFile(s.in(name), []byte(text), 0o600); err != nil {
		s.Fatal(err)
	}
}

// edit replaces texts in a file, each of which has to be there.
func (s story) edit(name string, pairs ...string) {
	s.Helper()
	text := s.read(name)
	for i := 0; i < len(pairs); i += 2 {
		if !strings.Contains(text, pairs[i]) {
			s.Fatalf("%s has no %q", name, pairs[i])
		}
		text = strings.ReplaceAll(text, pairs[i], pairs[i+1])
	}
	s.write(name, text)
}

// runs runs a command, which has to end with a code, and gives what it says.
func (s story) runs(code int, args ...string) string {
	s.Helper()
	for i, a := range args {
		if strings.Contains(a, ".") || a == "out" {
			args[i] = s.in(a)
		}
	}
	var out, errs bytes.Buffer
	if got := Run(args, strings.NewReader(""), &out, &errs); got != code {
		s.Fatalf("%v: exit %d, want %d: %s%s", args, got, code, out.String(), errs.String())
	}
	return out.String() + errs.String()
}

func (s story) says(text string, words ...string) {
	s.Helper()
	for _, w := range words {
		if !strings.Contains(text, w) {
			s.Errorf("no word of %q in:\n%s", w, text[:min(len(text), 2000)])
		}
	}
}

func (s story) record(mark string) *record.Record {
	s.Helper()
	r, err := record.Decode([]byte(s.read("issued/" + mark + "/record.json")))
	if err != nil {
		s.Fatal(err)
	}
	return r
}

func (s story) sheetOf(r *record.Record, number string) record.Sheet {
	s.Helper()
	i := slices.IndexFunc(r.Sheets, func(q record.Sheet) bool { return q.Number == number })
	if i < 0 {
		s.Fatalf("issue %s has no sheet %s", r.Issue.Mark, number)
	}
	return r.Sheets[i]
}

func fileOf(r *record.Record, name string) string {
	for _, f := range r.Files {
		if f.Name == name {
			return f.Digest
		}
	}
	return ""
}

func metalOf(r *record.Record, mark string) string {
	m, _ := r.MetalOf(mark, "")
	return m.Shop
}

// A job is issued, two of its runs turn out shorter, it is compared and issued again; then
// twelve pieces are made and most of a run is set, the run turns out longer, and it is
// issued once more.
func TestTheJobChangesAfterItWasIssued(t *testing.T) {
	s := newStory(t)
	s.runs(exitFailed, "issue", "job.yaml", "--rev", "C", "-o", "out")
	s.says(s.runs(exitDone, "issue", "job.yaml", "--rev", "B", "-o", "out"), "issue B", "record.json")
	s.says(s.runs(exitDone, "check", "job.yaml"), "0 holds")

	// Two runs were taped wrong.
	s.edit("job.yaml", `37'-2 1/2"`, `36'-11 1/2"`, `37'-2 3/8"`, `36'-11 3/8"`)
	s.edit("heron.csv", `37'-2 1/2`, `36'-11 1/2`, `37'-2 3/8`, `36'-11 3/8`)
	s.says(s.runs(exitErrors, "issue", "job.yaml", "--rev", "B", "-o", "out"), "issued-before", "nothing issued")
	s.edit("job.yaml", "issued: 2026-03-16", "issued: 2026-03-20", "issued for fabrication\n",
		"issued for fabrication\n    - {mark: C, date: 2026-03-20, note: Runs E and W taped again}\n")
	told := s.runs(exitErrors, "compare", "issued/B/record.json", "job.yaml")
	s.says(told, `Run E is 3" shorter: 36'-11 1/2".`, "E-03, W-03 have new lengths",
		`Run E: joints after E-J3 move 3" to the left`,
		"New shop marks", "E-C12, station")
	if strings.Contains(told, "Run N") {
		t.Errorf("run N is told of: %s", told)
	}
	s.says(s.runs(exitDone, "issue", "job.yaml", "--rev", "C", "-o", "out"), "issue C", "unchanged")
	s.says(s.runs(exitDone, "compare", "issued/C/record.json", "job.yaml"), "Nothing that is made or set changes")
	for _, again := range [][]string{{"packet", "job.yaml", "-o", "out"},
		{"issue", "job.yaml", "--rev", "C", "-o", "out"}} {
		if said := s.runs(exitDone, again...); strings.Contains(said, transmittalFile) ||
			s.read("out/"+transmittalFile) != s.read("issued/C/"+transmittalFile) {
			t.Errorf("%v takes the letter of the issue away: %s", again, said)
		}
	}
	s.says(s.runs(exitFailed, "compare", "issued/C/record.json", "../metric/job.yaml"), "two issues of one job")
	s.says(s.runs(exitDone, "check", "job.yaml", "--drawings"), "drawings: 0 faults") // clouds and all
	s.issuedAfterB()

	// Twelve pieces are made, and run N is set up to its fifth joint.
	s.made()
	s.edit("job.yaml", `58'-7 1/4"`, `58'-10 1/4"`, `58'-7 1/8"`, `58'-10 1/8"`, "issued: 2026-03-20",
		"issued: 2026-04-02", "taped again}\n", "taped again}\n    - {mark: D, date: 2026-04-02, note: Run N longer}\n",
		"\nperimeters:", "\nprogress: {made: made.csv, as_built: set.csv, chair_play: 1/4\", gap_play: 1/16\"}\n\nperimeters:")
	s.edit("heron.csv", `58'-7 1/4`, `58'-10 1/4`, `58'-7 1/8`, `58'-10 1/8`)
	s.write("out/dxf/0417_999_A.dxf", "copied here by hand")
	told = s.runs(exitErrors, "compare", "issued/C/record.json", "job.yaml")
	s.says(told, "Run N: 7 joints, before 6.", "Run S: plywood changed.", "S-03, hole-1-from-front: 0'-6 7/8\" (174.5")
	if strings.Contains(told, "Run E: plywood") {
		t.Errorf("the plywood of run E is as it was: %s", told)
	}
	told = s.runs(exitDone, "issue", "job.yaml", "--rev", "D", "-o", "out")
	s.says(told, "built-off", "N-C4 stands at", "built-gap", "W-03 is bent", "off and lay it as W-03",
		"S-03 is bent", "its lengths are still right: hold it against the new drawing",
		"0417_999_A.dxf is not of this packet")
	s.issuedAfterC()
	s.says(s.runs(exitDone, "replace", "job.yaml", "N-04", "--reason", "dented", "-o", "out"), "replacement-N-04")
	s.runs(exitFailed, "replace", "job.yaml", "N-44", "-o", "out")
}

// issuedAfterB looks at what the second issue kept of the first.
func (s story) issuedAfterB() {
	s.Helper()
	b, c := s.record("B"), s.record("C")
	for _, x := range []struct{ number, rev string }{{"3.N.1", "B"}, {"3.E.1", "C"}, {"3.S.1", "B"}, {"3.W.1", "C"},
		{"1.1", "C"}, {"2.1", "B"}} {
		if got := s.sheetOf(c, x.number); got.Rev != x.rev {
			s.Errorf("sheet %s has revision %s, want %s", x.number, got.Rev, x.rev)
		}
	}
	if d := s.sheetOf(c, "3.E.1").Deltas; len(d) == 0 || len(d) > 40 {
		s.Errorf("%d changes on the sheet of run E", len(d))
	}
	const cap102 = "dxf/0417_102_B.dxf"
	if fileOf(b, cap102) == "" || fileOf(b, cap102) != fileOf(c, cap102) {
		s.Errorf("%s is not as it was", cap102)
	}
	was, is := metalOf(b, "E-03"), metalOf(c, "E-03")
	if _, old := b.ShopMark(is); is == was || old {
		s.Errorf("E-03 was %s and is %s", was, is)
	}
	if m, ok := c.ShopMark(was); !ok || m.Made != "" {
		s.Errorf("%s is not withdrawn: %v", was, m)
	}
	if metalOf(c, "N-01") != metalOf(b, "N-01") {
		s.Error("N-01 has another shop mark")
	}
}

// made writes what the shop and the crew report.
func (s story) made() {
	s.Helper()
	made := "mark,state,rev,on\n"
	for _, m := range []string{"E-01,shipped,C", "E-02,shipped,", "E-03,welded,", "W-01,bent,", "W-02,bent,", "W-03,bent,B",
		"N-01,bent,", "N-02,laid,", "N-03,laid,", "N-04,laid,", "N/E,welded,",
		"S-03,bent,"} {
		made += m + ",2026-03-25\n"
	}
	s.write("made.csv", made)
	rows, err := csv.NewReader(strings.NewReader(s.read("out/schedules/asbuilt.csv"))).ReadAll()
	if err != nil {
		s.Fatal(err)
	}
	var out strings.Builder
	w := csv.NewWriter(&out)
	for i, r := range rows {
		if i > 0 {
			r[2] = r[1]
		}
		switch r[0] {
		case "N-C4":
			r[2] = `6'-9 1/2"`
		case "N-J3":
			r[3], r[4] = "9/16", "60"
		}
		_ = w.Write(r)
		if r[0] == "N-C16" {
			break
		}
	}
	w.Flush()
	s.write("set.csv", out.String())
}

// issuedAfterC looks at what the third issue kept of what is set, and of the marks.
func (s story) issuedAfterC() {
	s.Helper()
	c, d := s.record("C"), s.record("D")
	for _, mark := range []string{"N-J1", "N-J2", "N-J3", "N-J4", "N-J5", "N-C1", "N-C9", "N-C16"} {
		if was, is := c.Facts.Value(mark, "station"), d.Facts.Value(mark, "station"); was != is {
			s.Errorf("%s is set and moves from %s to %s", mark, was, is)
		}
	}
	for _, mark := range []string{"N-01", "N-04", "E-03"} {
		if was, is := metalOf(c, mark), metalOf(d, mark); was != is {
			s.Errorf("%s was %s and is %s", mark, was, is)
		}
	}
	if p, ok := d.Piece("N-05A"); !ok || p.Gone {
		s.Error("the piece put in has not the mark of the one before it with a letter")
	}
	if len(d.Earlier) != 2 || d.Earlier[1].Mark != "C" {
		s.Errorf("history: %v", d.Earlier)
	}
	for _, name := range []string{"packet.pdf", "schedules/pieces.csv"} {
		data := s.read("out/" + name)
		if fileOf(d, name) != sha([]byte(data)) {
			s.Errorf("%s is not as the record has it", name)
		}
	}
	if !slices.ContainsFunc(d.Sheets, func(q record.Sheet) bool { return q.Title == "Closing record" }) {
		s.Error("there is no closing record")
	}
}

// A mark that reads as another sign is refused.
func TestIssueRefusesLetters(t *testing.T) {
	s := newStory(t)
	s.edit("job.yaml", "- mark: B", "- mark: O")
	s.says(s.runs(exitFailed, "issue", "job.yaml", "--rev", "O", "-o", "out"), "reads as another sign")
	if _, err := os.Stat(s.in("issued")); err == nil {
		t.Error("something was issued")
	}
}
