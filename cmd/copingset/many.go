package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"copingset/layout/job"

	"github.com/spf13/cobra"
)

// oneOfMany is a job of several, and the folder below the named one that its packet
// goes into.
type oneOfMany struct{ path, folder string }

// jobsOf finds the jobs that arguments name: files, and in folders every job file that
// lies in them or below. A folder that begins with a dot is left out.
func jobsOf(args []string) ([]oneOfMany, error) {
	var paths []string
	for _, a := range args {
		info, err := os.Stat(a)
		if err != nil || !info.IsDir() {
			paths = append(paths, a) // one that is not there is told as a job of its own
			continue
		}
		found, err := jobsBelow(a)
		if err != nil {
			return nil, err
		}
		if len(found) == 0 {
			return nil, fmt.Errorf("%s: no job file lies in this folder or below it", a)
		}
		paths = append(paths, found...)
	}
	var out []oneOfMany
	used := map[string]bool{} // look-up only
	for _, p := range paths {
		clean := filepath.Clean(p)
		if slices.ContainsFunc(out, func(o oneOfMany) bool { return filepath.Clean(o.path) == clean }) {
			continue
		}
		base := packetFolder(clean)
		name := base
		for n := 2; used[strings.ToLower(name)]; n++ {
			name = fmt.Sprintf("%s-%d", base, n)
		}
		used[strings.ToLower(name)] = true
		out = append(out, oneOfMany{p, name})
	}
	return out, nil
}

// packetFolder names the folder of a packet: as its job's own, or as the job file where
// that has a name of its own.
func packetFolder(path string) string {
	name := strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
	if strings.EqualFold(name, "job") {
		if abs, err := filepath.Abs(path); err == nil {
			return filepath.Base(filepath.Dir(abs))
		}
	}
	return name
}

// jobsBelow are the job files of a folder, in the order of their names.
func jobsBelow(folder string) ([]string, error) {
	var out []string
	err := filepath.WalkDir(folder, func(path string, d os.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			if path != folder && strings.HasPrefix(d.Name(), ".") {
				return filepath.SkipDir
			}
			return nil
		}
		if ext := strings.ToLower(filepath.Ext(path)); d.Type().IsRegular() && (ext == ".yaml" || ext == ".yml") &&
			isJobFile(path) {
			out = append(out, path)
		}
		return nil
	})
	return out, err
}

// mostLooked is how much of a file is read to tell a job from other files.
const mostLooked = 4 << 20

// isJobFile tells a job file by its keys: its form, and the walls that no included
// file has.
func isJobFile(path string) bool {
	f, err := os.Open(path)
	if err != nil {
		return false
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, mostLooked))
	if err != nil || !bytes.Contains(data, []byte("copingset/")) {
		return false
	}
	keys, err := job.TopKeys(data)
	if err != nil { // a job with a slip in it is told of, not passed over
		return bytes.HasPrefix(data, []byte("format: copingset/"))
	}
	return slices.Contains(keys, "format") && slices.Contains(keys, "perimeters")
}

// progress tells on a terminal in one line how far many jobs are, and elsewhere a line
// for each that is done.
type progress struct {
	mu    sync.Mutex
	out   io.Writer
	live  bool
	done  int
	all   int
	wrong int
}

func newProgress(out io.Writer, all int) *progress {
	p := &progress{out: out, all: all}
	if f, ok := out.(*os.File); ok {
		info, err := f.Stat()
		p.live = err == nil && info.Mode()&os.ModeCharDevice != 0
	}
	return p
}

// finished tells of one job with what it had to say.
func (p *progress) finished(name string, said []byte, err error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.done++
	if err != nil && !errors.Is(err, errFaults) { // with faults it is printed all the same
		p.wrong++
	}
	if p.live {
		fmt.Fprint(p.out, "\r\x1b[K")
	}
	for line := range strings.Lines(string(said)) {
		fmt.Fprintf(p.out, "%s: %s\n", name, strings.TrimRight(line, "\n"))
	}
	if err != nil && !errors.Is(err, errFindings) && !errors.Is(err, errFaults) {
		fmt.Fprintf(p.out, "%s: %v\n", name, err)
	}
	if p.live && p.done < p.all {
		fmt.Fprintf(p.out, "%d of %d jobs", p.done, p.all)
	}
}

// packets prints the packets of several jobs beside each other, each into a folder of
// its own. One that is wrong does not stop the others.
func packets(cmd *cobra.Command, jobs []oneOfMany, f packetFlags) error {
	if slices.ContainsFunc(jobs, func(j oneOfMany) bool { return j.path == pipe }) {
		return fmt.Errorf("a job on the standard input is printed alone")
	}
	p := newProgress(cmd.ErrOrStderr(), len(jobs))
	errs := make([]error, len(jobs))
	err := onCores(len(jobs), func(i int) error {
		own := f
		own.out = filepath.Join(f.out, jobs[i].folder)
		var out, said bytes.Buffer
		one := &cobra.Command{}
		one.SetOut(&out)
		one.SetErr(&said)
		errs[i] = packet(one, jobs[i].path, own)
		_, _ = said.Write(out.Bytes()) // in memory
		p.finished(jobs[i].path, said.Bytes(), errs[i])
		return nil
	})
	if err != nil {
		return err
	}
	fmt.Fprintf(cmd.OutOrStdout(), "%s: %s, %d not printed\n", f.out, counted(len(jobs), "job"), p.wrong)
	failed := error(nil)
	for _, e := range errs {
		switch {
		case e == nil:
		case errors.Is(e, errFaults):
			if failed == nil {
				failed = errFaults
			}
		case errors.Is(e, errFindings):
			if failed == nil || errors.Is(failed, errFaults) {
				failed = errFindings
			}
		default:
			failed = fmt.Errorf("%d of %d jobs were not printed, and one of them could not be carried out", p.wrong,
				len(jobs))
		}
	}
	return failed
}
