package store

import (
	"errors"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
)

const testList = "packet-files.txt"

func set(files map[string]string) Set {
	s := Set{List: testList}
	for _, name := range slices.Sorted(maps.Keys(files)) {
		s.Files = append(s.Files, File{Name: name, Data: []byte(files[name])})
	}
	return s
}

// before and after are two packets: files that stay, change, come and go, a
// folder that comes and one that goes.
func before() Set {
	return set(map[string]string{
		"packet.pdf": "old packet", "sheets/cover.svg": "cover", "sheets/run-n.svg": "run N, old", "sheets/run-e.svg": "run E, old", "sheets/run-w.svg": "run W, old",
		"views/key-plan.svg": "old plan", "schedules/a/pieces.csv": "old pieces", "schedules/a/joints.csv": "old joints",
	})
}

func after() Set {
	return set(map[string]string{
		"packet.pdf": "the new packet", "sheets/cover.svg": "cover", "sheets/run-n.svg": "run N, new", "sheets/run-s.svg": "run S, new", "sheets/run-w.svg": "run W, new",
		"views/key-plan.svg": "new plan", "views/elevation.svg": "new elevation", "dxf/flat/f1.dxf": "flat", "dxf/flat/f2.dxf": "flat 2",
	})
}

// stand is a folder with a user's own files in which the first set was written,
// then the second.
func stand(t *testing.T) (first, second map[string]string) {
	t.Helper()
	r := newRAM(map[string]string{"notes/": "", "notes/foreman.txt": "mine", "sheets/": "", "sheets/mine.txt": "mine too"})
	for _, s := range []Set{before(), after()} {
		if _, err := write(r, s); err != nil {
			t.Fatal(err)
		}
		first, second = second, maps.Clone(r.tree)
	}
	for name := range second {
		if strings.HasPrefix(name, stageName) || strings.HasPrefix(name, "schedules") {
			t.Fatalf("%s is a stray", name)
		}
	}
	return first, second
}

// callsOf counts the calls of writing the second set over the first.
func callsOf(t *testing.T, first map[string]string) int {
	t.Helper()
	d := newTrial(newRAM(first))
	if _, err := write(d, after()); err != nil {
		t.Fatal(err)
	}
	return d.calls
}

// nextCommand is what the next command makes of a folder.
func nextCommand(t *testing.T, r *ram) map[string]string {
	t.Helper()
	if _, err := mend(r); err != nil {
		t.Fatalf("the next command: %v", err)
	}
	return r.tree
}

// At every call of the write path the disk fails once, the disk is full from
// there on, or the writer is killed. After the next command the folder holds the
// old files or the new ones, and nothing else.
func TestOldOrNewAtEveryCall(t *testing.T) {
	first, second := stand(t)
	calls := callsOf(t, first)
	if calls < 200 {
		t.Fatalf("only %d calls", calls)
	}
	for _, c := range []struct {
		name string
		at   func(int) func(*trial, string, string) error
	}{{"fails", failAt}, {"is full", fullAt}, {"is killed", killAt}} {
		t.Run(c.name, func(t *testing.T) {
			ends := map[string]int{}
			for n := 1; n <= calls; n++ {
				r := newRAM(first)
				d := newTrial(r)
				d.goes = c.at(n)
				_, err := write(d, after())
				last := d.log[min(n, len(d.log))-1]
				killed := d.dead
				d.over()
				now := outside(r.tree)
				_, listed := now[testList]
				switch {
				case err == nil && !killed && !maps.Equal(now, second):
					t.Fatalf("call %d (%s): no error, and the folder holds %v", n, last, now)
				case err != nil && !killed && !maps.Equal(now, first):
					t.Fatalf("call %d (%s): %v, and what was there is not back: %v", n, last, err, now)
				case listed && !maps.Equal(files(now), files(first)) && !maps.Equal(files(now), files(second)):
					t.Fatalf("call %d (%s): the manifest stands in a folder that is not whole: %v", n, last, now)
				}
				switch end := nextCommand(t, r); {
				case maps.Equal(end, first):
					ends["old"]++
				case maps.Equal(end, second):
					ends["new"]++
				default:
					t.Fatalf("call %d (%s): neither old nor new: %v", n, last, end)
				}
			}
			t.Log(calls, "calls:", ends)
			if ends["old"] == 0 || ends["new"] == 0 {
				t.Errorf("the faults never left one of the two: %v", ends)
			}
		})
	}
}

// cut is a folder whose writer was killed at a call.
func cut(t *testing.T, first map[string]string, n int) map[string]string {
	t.Helper()
	r := newRAM(first)
	d := newTrial(r)
	d.goes = killAt(n)
	if _, err := write(d, after()); err == nil && !d.dead {
		t.Fatalf("call %d was never made", n)
	}
	d.over()
	return r.tree
}

// The command that mends is itself killed, or meets a disk that fails, at every
// one of its calls.
func TestMendingGoesWrong(t *testing.T) {
	first, second := stand(t)
	calls := callsOf(t, first)
	for n := 1; n < calls; n += 3 {
		broken := cut(t, first, n)
		for m := 1; ; m++ {
			r := newRAM(broken)
			d := newTrial(r)
			d.goes = killAt(m)
			if m%2 == 0 {
				d.goes = failAt(m)
			}
			_, _ = mend(d)
			made := d.calls
			d.over()
			if end := nextCommand(t, r); !maps.Equal(end, first) && !maps.Equal(end, second) {
				t.Fatalf("killed at call %d, and mending went wrong at its call %d: %v", n, m, end)
			}
			if made < m {
				break
			}
		}
	}
}

// stuck lets every move onto or off a file fail, as one that is open in another
// program does.
func stuck(name string, from int) func(*trial, string, string) error {
	return func(t *trial, op, what string) error {
		if op == "rename" && strings.Contains(" "+what+" ", " "+name+" ") && t.calls >= from {
			return &os.LinkError{Op: op, Old: what, New: what, Err: syscall.EBUSY}
		}
		return nil
	}
}

// A late move fails: what was moved before it goes back, and the message names
// the file.
func TestLateMoveFails(t *testing.T) {
	first, second := stand(t)
	for _, name := range []string{"views/key-plan.svg", "views/elevation.svg", "schedules/a/pieces.csv", testList} {
		r := newRAM(first)
		d := newTrial(r)
		d.goes = stuck(name, 1)
		_, err := write(d, after())
		d.over()
		if said := said("out", err).Error(); !strings.Contains(said, filepath.FromSlash("out/"+name)+" is open in another program") || !strings.Contains(said, "nothing in it was changed") {
			t.Errorf("%s: %s", name, said)
		}
		if got := r.tree; !maps.Equal(got, first) {
			t.Errorf("%s: the old files are not back: %v", name, got)
		}
	}
	// A file that gets stuck after it was moved: nothing can be done at once, and
	// the journal stays for the next command.
	r := newRAM(first)
	d := newTrial(r)
	moves := 0
	d.goes = func(_ *trial, op, what string) error {
		if op == "rename" && !strings.HasPrefix(what, draftName) {
			if moves++; moves > 4 {
				return &os.LinkError{Op: op, Err: syscall.EBUSY}
			}
		}
		return nil
	}
	_, err := write(d, after())
	d.over()
	if said := said("out", err).Error(); !strings.Contains(said, "stands between its old and its new files") {
		t.Error(said)
	}
	now := r.tree
	if _, listed := now[testList]; listed || now[journalName] == "" {
		t.Errorf("a folder between two sets has a manifest, or no journal: %v", now)
	}
	if end := nextCommand(t, r); !maps.Equal(end, second) {
		t.Errorf("it was not finished: %v", end)
	}
}

// A panic on the way takes the moves back.
func TestPanicTakesMovesBack(t *testing.T) {
	first, _ := stand(t)
	r := newRAM(first)
	d := newTrial(r)
	d.goes = func(_ *trial, op, what string) error {
		if op == "rename" && strings.HasSuffix(what, " views/key-plan.svg") {
			d.goes = nil
			panic("a fault of the program")
		}
		return nil
	}
	func() {
		defer func() {
			if recover() == nil {
				t.Error("the panic was swallowed")
			}
		}()
		_, _ = write(d, after())
	}()
	d.over()
	if got := r.tree; !maps.Equal(got, first) {
		t.Errorf("the old files are not back: %v", got)
	}
}

// What somebody writes into a folder between a cut and the next command is never
// lost, at whatever call the cut was.
func TestWhatIsTypedBetweenStays(t *testing.T) {
	first, _ := stand(t)
	calls := callsOf(t, first)
	const typed = "typed by hand"
	for n := 1; n < calls; n++ {
		broken := cut(t, first, n)
		for _, name := range []string{"packet.pdf", "sheets/run-s.svg", "schedules/a/pieces.csv", testList} {
			r := newRAM(broken)
			for _, dir := range above(name) {
				r.tree[dir+"/"] = ""
			}
			r.tree[name] = typed
			done, err := mend(r)
			if got := r.tree[name]; got != typed {
				t.Fatalf("cut at call %d: %s holds %q (%v, %v)", n, name, got, done, err)
			}
			if err == nil {
				continue
			}
			// It is said what is in the way, and once that is moved the rest is mended.
			var o obstacle
			if !errors.As(err, &o) || o.name != name {
				t.Fatalf("cut at call %d, %s: %v", n, name, err)
			}
			delete(r.tree, name)
			nextCommand(t, r)
		}
	}
}

// Nothing is moved before it and all before it is on the disk, and the journal
// goes after the last move is.
func TestSyncedInOrder(t *testing.T) {
	first, _ := stand(t)
	r := newRAM(first)
	d := newTrial(r)
	if _, err := write(d, after()); err != nil {
		t.Fatal(err)
	}
	d.over()
	index := func(call string) int {
		i := slices.Index(d.log, call)
		if i < 0 {
			t.Fatalf("no call %q in %v", call, d.log)
		}
		return i
	}
	journal := index("rename " + draftName + " " + journalName)
	gone := index("remove " + journalName)
	staged, moved := map[string]int{}, map[string]int{}
	for i, call := range d.log {
		op, name, _ := strings.Cut(call, " ")
		switch {
		case op == "write":
			staged[name] = i
		case op == "sync" && i < journal:
			delete(staged, name)
		case op == "rename" && i > journal:
			for _, p := range strings.Fields(name) {
				moved[filepath.ToSlash(filepath.Dir(p))] = i
			}
		case op == "sync" && i > journal && i < gone:
			delete(moved, name)
		}
	}
	if len(staged) > 0 {
		t.Errorf("not on the disk before the journal: %v", staged)
	}
	delete(moved, "schedules/a") // became empty and was removed
	if len(moved) > 0 {
		t.Errorf("moves not on the disk before the journal goes: %v", moved)
	}
	if after := d.log[journal+1]; after != "sync "+stageName {
		t.Errorf("after the journal comes %q", after)
	}
}

// The folder in memory behaves as one on the disk does, cut off or not.
func TestRealFolder(t *testing.T) {
	first, _ := stand(t)
	calls := callsOf(t, first)
	for n := 10; n <= calls+20; n += 23 {
		dir := t.TempDir()
		plant(t, dir, first)
		r, f := newRAM(first), real(t, dir)
		logs := [2][]string{}
		for i, d := range []*trial{newTrial(r), newTrial(f)} {
			d.goes = killAt(n)
			_, _ = write(d, after())
			d.over()
			logs[i] = d.log
		}
		if !slices.Equal(logs[0], logs[1]) {
			t.Fatalf("killed at call %d: the calls differ:\n%s\n%s", n, strings.Join(logs[0], ", "), strings.Join(logs[1], ", "))
		}
		if got := tree(t, dir); !maps.Equal(got, r.tree) {
			t.Fatalf("killed at call %d: memory has %v, the disk %v", n, r.tree, got)
		}
		nextCommand(t, r)
		if _, err := Ready(dir); err != nil {
			t.Fatal(err)
		}
		if got := tree(t, dir); !maps.Equal(got, r.tree) {
			t.Fatalf("killed at call %d and mended: memory has %v, the disk %v", n, r.tree, got)
		}
	}
}
