package store

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"syscall"
	"testing"

	"copingset/layout/length/draws"

	"pgregory.net/rapid"
)

func mustWrite(t *testing.T, dir string, s Set) Result {
	t.Helper()
	r, err := Write(dir, s)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func packet(pairs ...string) Set {
	files := map[string]string{}
	for i := 0; i < len(pairs); i += 2 {
		files[pairs[i]] = pairs[i+1]
	}
	return set(files)
}

// A set replaces the one before, whose files go with the folders they leave
// empty; a manifest lists it by digest; the same again changes nothing.
func TestWriteReplacesTheSetBefore(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new", "out")
	mustWrite(t, dir, packet("a.txt", "a", "x/y/b.txt", "b"))
	mustWrite(t, dir, packet("a.txt", "a2", "c.txt", "c"))
	want := map[string]string{"a.txt": "a2", "c.txt": "c", testList: digestOf([]byte("a2")) + "  a.txt\n" + digestOf([]byte("c")) + "  c.txt\n"}
	if got := tree(t, dir); !maps.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	d := newTrial(real(t, dir))
	defer d.over()
	if _, err := write(d, packet("a.txt", "a2", "c.txt", "c")); err != nil {
		t.Fatal(err)
	}
	if slices.ContainsFunc(d.log, func(call string) bool { return strings.HasPrefix(call, "rename") }) {
		t.Errorf("files that are as they should be are moved: %v", d.log)
	}
}

// Two sets in one folder leave each other alone.
func TestTwoSetsInOneFolder(t *testing.T) {
	dir := t.TempDir()
	mustWrite(t, dir, packet("packet.pdf", "p", "both/a.svg", "a"))
	form := packet("form.pdf", "f", "both/b.svg", "b")
	form.List = "form-files.txt"
	mustWrite(t, dir, form)
	mustWrite(t, dir, packet("packet.pdf", "p2"))
	got := tree(t, dir)
	if got["form.pdf"] != "f" || got["both/b.svg"] != "b" || got["packet.pdf"] != "p2" {
		t.Errorf("%v", got)
	}
}

// What stands where a file would go: what becomes of it, with and without force.
func TestWhatIsNotOursStays(t *testing.T) {
	const mine = "somebody's own"
	for _, c := range []struct {
		name    string
		written bool // an earlier set has the file
		typed   bool
		force   bool
		there   string // its content now; empty: as written
		want    string
		refused bool
		kept    bool
	}{
		{name: "absent", want: "new"},
		{name: "as written", written: true, want: "new"},
		{name: "foreign", there: mine, want: mine, refused: true},
		{name: "foreign, forced", there: mine, force: true, want: "new"},
		{name: "foreign and the same", there: "new", want: "new"},
		{name: "edited", written: true, there: mine, want: mine, refused: true},
		{name: "edited, forced", written: true, there: mine, force: true, want: "new"},
		{name: "typed, as written", written: true, typed: true, want: "new"},
		{name: "typed", written: true, typed: true, there: mine, want: mine, kept: true},
		{name: "typed, forced", written: true, typed: true, force: true, there: mine, want: mine, kept: true},
		{name: "typed, foreign", typed: true, there: mine, want: mine, kept: true},
		{name: "typed, foreign, forced", typed: true, force: true, there: mine, want: mine, kept: true},
	} {
		dir := t.TempDir()
		if c.written {
			mustWrite(t, dir, packet("packet.pdf", "old"))
		}
		if c.there != "" {
			plant(t, dir, map[string]string{"packet.pdf": c.there})
		}
		first := tree(t, dir)
		s := Set{List: testList, Files: []File{{"packet.pdf", []byte("new"), c.typed}, {"other.txt", []byte("o"), false}}, Force: c.force}
		r, err := Write(dir, s)
		got := tree(t, dir)
		if got["packet.pdf"] != c.want || (err != nil) != c.refused {
			t.Errorf("%s: holds %q, %v", c.name, got["packet.pdf"], err)
		}
		if kept := slices.Contains(r.Kept, "packet.pdf"); kept != c.kept || kept == strings.Contains(got[testList], "packet.pdf") && !c.refused {
			t.Errorf("%s: kept %v, manifest %q", c.name, r.Kept, got[testList])
		}
		if c.refused {
			if !maps.Equal(got, first) {
				t.Errorf("%s: refused, and changed: %v", c.name, got)
			}
			if want := "packet.pdf in " + dir + " is not as an earlier run wrote it"; !strings.HasPrefix(err.Error(), want) || !strings.Contains(err.Error(), "--force") {
				t.Errorf("%s: %v", c.name, err)
			}
		} else if got["other.txt"] != "o" {
			t.Errorf("%s: the rest was not written: %v", c.name, got)
		}
	}
}

// What an earlier set wrote and this one has not is removed only if it is as it
// was written, and no file is removed that no set wrote.
func TestStaleFiles(t *testing.T) {
	dir := t.TempDir()
	mustWrite(t, dir, packet("a.txt", "a", "sheets/b.svg", "b", "sheets/c.svg", "c"))
	plant(t, dir, map[string]string{"sheets/c.svg": "c with a note", "sheets/mine.txt": "mine"})
	r := mustWrite(t, dir, packet("a.txt", "a2"))
	if !slices.Equal(r.Left, []string{"sheets/c.svg"}) {
		t.Errorf("left: %v", r.Left)
	}
	got := tree(t, dir)
	if _, there := got["sheets/b.svg"]; there || got["sheets/c.svg"] != "c with a note" || got["sheets/mine.txt"] != "mine" {
		t.Errorf("%v", got)
	}
}

// Force does not go over what the command itself read, and a manifest that names
// it does not have it removed.
func TestInputsAreNeverWrittenOver(t *testing.T) {
	dir := t.TempDir()
	plant(t, dir, map[string]string{"schedules/pieces.csv": "the survey", testList: digestOf([]byte("the survey")) + "  schedules/pieces.csv\n"})
	s := packet("schedules/pieces.csv", "pieces")
	s.Force, s.Inputs = true, []string{filepath.Join(dir, "schedules", "pieces.csv")}
	if _, err := Write(dir, s); err == nil || !strings.Contains(err.Error(), "is read by the job") {
		t.Error(err)
	}
	own := packet("a.txt", "a") // a job file of the manifest's name
	own.Force, own.Inputs = true, []string{filepath.Join(dir, testList)}
	first := tree(t, dir)
	if _, err := Write(dir, own); err == nil || !strings.Contains(err.Error(), testList+" is read by the job") {
		t.Error(err)
	}
	if got := tree(t, dir); !maps.Equal(got, first) {
		t.Errorf("got %v, want %v", got, first)
	}
	other := packet("a.txt", "a")
	other.Force, other.Inputs = true, s.Inputs
	mustWrite(t, dir, other)
	if got := tree(t, dir)["schedules/pieces.csv"]; got != "the survey" {
		t.Errorf("%q", got)
	}
}

// A manifest that somebody changed is not written over, and what it names outside
// the folder, or in a form that is not a manifest's, counts for nothing.
func TestManifestOfSomebodyElse(t *testing.T) {
	top := t.TempDir()
	dir := filepath.Join(top, "out")
	sum := digestOf([]byte("keep"))
	plant(t, top, map[string]string{"keep.txt": "keep", "out/inside.txt": "keep",
		"out/" + testList: sum + "  ../keep.txt\n" + sum + "  " + filepath.ToSlash(top) + "/keep.txt\n" + sum + "  " + stageName + "/lock\ninside.txt\n"})
	if _, err := Write(dir, packet("a.txt", "a")); err == nil || !strings.Contains(err.Error(), testList) {
		t.Errorf("%v", err)
	}
	s := packet("a.txt", "a")
	s.Force = true
	mustWrite(t, dir, s)
	got := tree(t, top)
	if got["keep.txt"] != "keep" || got["out/inside.txt"] != "keep" || got["out/a.txt"] != "a" {
		t.Errorf("%v", got)
	}
}

// Nothing is written through a link, and none is replaced or removed.
func TestNothingThroughLinks(t *testing.T) {
	for _, c := range []struct{ link, to, said string }{
		{"packet.pdf", "elsewhere/file.txt", "packet.pdf is a link"},
		{"packet.pdf", "elsewhere/nothing", "packet.pdf is a link"},
		{"sheets", "elsewhere", "sheets is a link"},
		{"sheets/a", "elsewhere", "a is a link"},
		{testList, "elsewhere/file.txt", testList + " is a link"},
		{stageName, "elsewhere", stageName + " is not a folder of this program's"},
	} {
		top := t.TempDir()
		plant(t, top, map[string]string{"elsewhere/file.txt": "mine", "out/": ""})
		at := filepath.Join(top, "out", filepath.FromSlash(c.link))
		plant(t, top, map[string]string{"out/" + strings.TrimSuffix(filepath.ToSlash(filepath.Dir(c.link)), ".") + "/": ""})
		if err := os.Symlink(filepath.Join(top, filepath.FromSlash(c.to)), at); err != nil {
			t.Skip("no links here:", err)
		}
		first := tree(t, top)
		s := packet("packet.pdf", "p", "sheets/a/b.svg", "b")
		s.Force = true
		_, err := Write(filepath.Join(top, "out"), s)
		if err == nil || !strings.Contains(err.Error(), c.said) || !strings.Contains(err.Error(), "nothing in it was changed") {
			t.Errorf("%s: %v", c.link, err)
		}
		if got := tree(t, top); !maps.Equal(got, first) {
			t.Errorf("%s: %v", c.link, got)
		}
	}
}

// A folder that a set wrote into and that became a link since is not cleared.
func TestStaleFilesBehindLinks(t *testing.T) {
	top := t.TempDir()
	dir := filepath.Join(top, "out")
	mustWrite(t, dir, packet("a.txt", "a", "sheets/b.svg", "b"))
	plant(t, top, map[string]string{"elsewhere/b.svg": "b"})
	if err := os.RemoveAll(filepath.Join(dir, "sheets")); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(filepath.Join(top, "elsewhere"), filepath.Join(dir, "sheets")); err != nil {
		t.Skip("no links here:", err)
	}
	r := mustWrite(t, dir, packet("a.txt", "a"))
	if got := tree(t, top); got["elsewhere/b.svg"] != "b" || !slices.Equal(r.Left, []string{"sheets/b.svg"}) {
		t.Errorf("%v, left %v", got, r.Left)
	}
}

// Names that can be no output folder, and what stands in the way in one.
func TestFoldersThatCannotBe(t *testing.T) {
	top := t.TempDir()
	plant(t, top, map[string]string{"file": "x", "out/sheets": "a file", "other/packet.pdf/x": ""})
	if err := os.Symlink(filepath.Join(top, "nowhere"), filepath.Join(top, "dangling")); err != nil {
		t.Skip("no links here:", err)
	}
	in := func(p string) string { return filepath.Join(top, p) }
	for _, c := range []struct{ dir, said string }{
		{"", "-o names no folder"},
		{" ", "-o names no folder"},
		{in(stageName), "is where copingset keeps files while it writes"},
		{in("out/" + stageName + "/deeper"), "is where copingset keeps files while it writes"},
		{in("file"), "file is a file, not a folder"},
		{in("file/out"), "file is a file, not a folder"},
		{in("dangling"), "is a link that leads nowhere"},
		{in("dangling/out"), "is a link that leads nowhere"},
		{in("out"), "sheets is a file where a folder has to be"},
		{in("other"), "packet.pdf is a folder where a file has to be"},
	} {
		first := tree(t, top)
		s := packet("packet.pdf", "p", "sheets/a.svg", "a")
		s.Force = true
		_, err := Write(c.dir, s)
		if err == nil || !strings.Contains(err.Error(), c.said) {
			t.Errorf("%s: %v", c.dir, err)
		}
		if _, early := Ready(c.dir); strings.TrimSpace(c.dir) == "" || strings.Contains(c.said, "not a folder") || strings.Contains(c.said, "keeps files") || strings.Contains(c.said, "nowhere") {
			if early == nil || early.Error() != err.Error() {
				t.Errorf("%s: Ready says %v, Write %v", c.dir, early, err)
			}
		} else if early != nil {
			t.Errorf("%s: %v", c.dir, early)
		}
		if got := tree(t, top); !maps.Equal(got, first) {
			t.Errorf("%s: %v", c.dir, got)
		}
	}
}

// Folders that were made for a set that could not be written are taken away.
func TestNoFolderIsLeftOfARefusal(t *testing.T) {
	top := t.TempDir()
	dir := filepath.Join(top, "a", "b")
	if _, err := Write(dir, packet("con.txt", "c")); err == nil {
		t.Fatal("no error")
	}
	if got := tree(t, top); len(got) > 0 {
		t.Errorf("%v", got)
	}
}

func TestUnwritableFolder(t *testing.T) {
	if os.Geteuid() == 0 {
		t.Skip("the superuser may write anywhere")
	}
	dir := t.TempDir()
	if err := os.Chmod(dir, 0o555); err != nil {
		t.Fatal(err)
	}
	for _, d := range []string{dir, filepath.Join(dir, "out")} {
		if _, err := Write(d, packet("a.txt", "a")); err == nil || !strings.Contains(err.Error(), "not allowed") {
			t.Errorf("%s: %v", d, err)
		}
	}
}

// While one run is in the folder another is refused, and a lock that a run left
// as it ended is none.
func TestOneRunAtATime(t *testing.T) {
	dir := t.TempDir()
	mustWrite(t, dir, packet("a.txt", "a"))
	d := newTrial(real(t, dir))
	w, err := enter(d)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Write(dir, packet("a.txt", "b")); err == nil || !strings.HasPrefix(err.Error(), "another copingset is writing into "+dir) {
		t.Errorf("%v", err)
	}
	if _, err := Ready(dir); err == nil {
		t.Error("Ready does not see the other run")
	}
	_ = w.lock.Close() // as the end of its process would
	d.over()
	mustWrite(t, dir, packet("a.txt", "b"))
	if got := tree(t, dir); got["a.txt"] != "b" || len(got) != 2 {
		t.Errorf("%v", got)
	}
}

// Many runs at once: each writes its set whole or is refused as busy.
func TestManyRunsAtOnce(t *testing.T) {
	dir := t.TempDir()
	mustWrite(t, dir, packet("a.txt", "a"))
	var wg sync.WaitGroup
	for i := range 8 {
		wg.Go(func() {
			n := fmt.Sprint(i)
			for range 3 {
				if _, err := Write(dir, packet("a.txt", n, "b.txt", n, n+".txt", n)); err != nil && !strings.HasPrefix(err.Error(), "another copingset") {
					t.Error(err)
				}
			}
		})
	}
	wg.Wait()
	got := tree(t, dir)
	n := got["a.txt"]
	if len(got) != 4 || got["b.txt"] != n || got[n+".txt"] != n {
		t.Errorf("%v", got)
	}
}

// Many commands at once come upon what a killed one left: whichever of them mends it,
// no stage stays when the last has ended, and the folder holds one set whole.
func TestManyRunsAfterACut(t *testing.T) {
	first, second := stand(t)
	calls := callsOf(t, first)
	for k := range draws.Times(6) {
		dir := t.TempDir()
		plant(t, dir, cut(t, first, 1+k*7%(calls-1)))
		var wg sync.WaitGroup
		for i := range 6 {
			wg.Go(func() {
				_, err := Ready(dir)
				if err == nil {
					_, err = Write(dir, []Set{before(), after()}[i%2])
				}
				if err != nil && !strings.Contains(err.Error(), "another copingset") {
					t.Error(err)
				}
			})
		}
		wg.Wait()
		if got := tree(t, dir); !maps.Equal(got, first) && !maps.Equal(got, second) {
			t.Errorf("cut at call %d: %v", 1+k*7%(calls-1), got)
		}
	}
}

// A journal that cannot be read is left for somebody to look at.
func TestDamagedJournal(t *testing.T) {
	dir := t.TempDir()
	mustWrite(t, dir, packet("a.txt", "a"))
	plant(t, dir, map[string]string{journalName: "what?", oldName(1): "old"})
	for range 2 {
		if _, err := Write(dir, packet("a.txt", "b")); err == nil || !strings.Contains(err.Error(), "is damaged") {
			t.Errorf("%v", err)
		}
	}
	if got := tree(t, dir); got["a.txt"] != "a" || got[oldName(1)] != "old" {
		t.Errorf("%v", got)
	}
}

// What is not a run's own stays in the stage.
func TestSweepTakesOnlyItsOwn(t *testing.T) {
	dir := t.TempDir()
	plant(t, dir, map[string]string{stageName + "/mine.txt": "mine", newName(3): "stray", draftName: "stray"})
	if note, err := Ready(dir); err != nil || note != "" {
		t.Errorf("%q, %v", note, err)
	}
	if got, want := tree(t, dir), map[string]string{stageName + "/": "", stageName + "/mine.txt": "mine"}; !maps.Equal(got, want) {
		t.Errorf("%v", got)
	}
}

func TestReadyOfAnAbsentFolderMakesNone(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	if note, err := Ready(dir); note != "" || err != nil {
		t.Errorf("%q, %v", note, err)
	}
	if _, err := os.Stat(dir); err == nil {
		t.Error("the folder was made")
	}
}

// Ready says what it mended.
func TestReadySaysWhatItMended(t *testing.T) {
	first, second := stand(t)
	calls := callsOf(t, first)
	seen := map[string]bool{}
	for n := calls / 3; n < calls; n += 15 {
		dir := t.TempDir()
		plant(t, dir, cut(t, first, n))
		_, journal := tree(t, dir)[journalName]
		note, err := Ready(dir)
		if err != nil {
			t.Fatal(err)
		}
		end := tree(t, dir)
		switch {
		case strings.Contains(note, "all in place") && journal && maps.Equal(end, second):
			seen["finished"] = true
		case note == "" && !journal:
			seen["nothing"] = true
		default:
			t.Errorf("cut at call %d: %q (journal %v): %v", n, note, journal, end)
		}
	}
	if len(seen) != 2 {
		t.Errorf("seen: %v", seen)
	}
}

func TestPortableNames(t *testing.T) {
	for name, good := range map[string]bool{
		"packet.pdf": true, "sheets/run-roof-n.svg": true, "a-1-survey-2.csv": true, "console.svg": true, "com.csv": true,
		"": false, ".": false, "../a": false, "/a": false, "a//b": false, "a/": false, stageName + "/a": false, ".CopingSet-Stage/a": false,
		"con.csv": false, "sheets/AUX": false, "lpt1.svg": false, "a.": false, "a ": false, " a": false, "a:b": false, "a?": false,
		`a\b`: false, "a\x00": false, "a\nb": false, "é.csv": false, strings.Repeat("a", 201): false,
	} {
		if err := portable(packet(name, "x")); (err == nil) != good {
			t.Errorf("%q: %v", name, err)
		}
	}
	if err := portable(packet("A.svg", "x", "a.svg", "x")); err == nil || !strings.Contains(err.Error(), "one file on some disks") {
		t.Errorf("%v", err)
	}
	if err := portable(Set{List: "a.txt", Files: []File{{Name: "a.txt"}}}); err == nil || !strings.Contains(err.Error(), "two files would have the name a.txt") {
		t.Errorf("a file has the manifest's name: %v", err)
	}
}

func TestSentences(t *testing.T) {
	path := func(err error) error { return trouble{"sheets/a.svg", &fs.PathError{Op: "open", Path: "x", Err: err}} }
	for _, c := range []struct {
		err  error
		said string
	}{
		{path(syscall.ENOSPC), "cannot write into out: the disk is full; nothing in it was changed: make room or choose another folder with -o"},
		{path(fs.ErrPermission), "cannot write into out: not allowed; nothing in it was changed: choose another folder with -o"},
		{path(errDisk), "cannot write into out: " + filepath.FromSlash("out/sheets/a.svg") + " failed (input/output error); nothing in it was changed: choose another folder with -o"},
		{errNoLocks, "cannot write into out: its disk has no locks, so two runs could mix their files; choose another folder with -o"},
		{notOurs{"a", "b"}, "2 files in out are not as an earlier run wrote them, so they may be yours: a, b; nothing was written: move them away, choose another folder with -o, or write over with --force"},
		{notOurs{"1", "2", "3", "4", "5", "6", "7"}, "7 files in out are not as an earlier run wrote them, so they may be yours: 1, 2, 3, 4, 5 and 2 more; nothing was written: move them away, choose another folder with -o, or write over with --force"},
		{between{errors.Join(path(syscall.ENOSPC), errDisk)}, "out stands between its old and its new files, and its manifest is away: the disk is full; make room or choose another folder with -o, and any copingset command with `-o out` puts it right"},
	} {
		if got := said("out", c.err).Error(); got != c.said {
			t.Errorf("%v:\n got %s\nwant %s", c.err, got, c.said)
		}
	}
}

// Journals and manifests come back from their text as they were.
func TestTextsComeBack(t *testing.T) {
	digest := rapid.Custom(func(t *rapid.T) string { return digestOf([]byte{rapid.Byte().Draw(t, "byte")}) })
	name := rapid.StringMatching(`[a-z0-9 .-]{1,12}(/[a-z0-9 .-]{1,9}){0,2}`).Filter(ours)
	rapid.Check(t, func(t *rapid.T) {
		var j journal
		var l list
		for _, n := range rapid.SliceOfNDistinct(name, 1, 8, rapid.ID[string]).Draw(t, "names") {
			m := move{name: n, old: digest.Draw(t, "old"), new: digest.Draw(t, "new")}
			l.add(n, m.new)
			switch rapid.IntRange(0, 2).Draw(t, "kind") {
			case 0:
				m.old = ""
			case 1:
				m.new = ""
			}
			j.moves = append(j.moves, m)
		}
		if got, ok := parseJournal(j.encode()); !ok || !slices.Equal(got.moves, j.moves) {
			t.Fatalf("journal: %v, %v", got, ok)
		}
		if got := parseList(l.encode()); !slices.Equal(got.names, l.names) || !maps.Equal(got.digest, l.digest) {
			t.Fatalf("manifest: %v", got)
		}
		text := j.encode()
		at := rapid.IntRange(0, len(text)-1).Draw(t, "at")
		text[at] ^= 1
		if got, ok := parseJournal(text); ok {
			t.Fatalf("a journal with a wrong letter at %d is taken: %v", at, got)
		}
		if got, ok := parseJournal(text[:at]); ok {
			t.Fatalf("a torn journal is taken: %v", got)
		}
	})
}

func FuzzJournal(f *testing.F) {
	f.Add(journal{[]move{{"a", "", digestOf(nil)}}}.encode())
	f.Add([]byte("copingset journal 1\nend \n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		j, ok := parseJournal(text)
		if ok && string(j.encode()) != string(text) {
			t.Errorf("%q is taken for %q", text, j.encode())
		}
	})
}
