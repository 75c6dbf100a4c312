package sheets

import (
	"bytes"
	"encoding/json"
	"maps"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"copingset/drawing/dxf"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length/draws"
	"copingset/sheets/internal/refold"
)

// machineFiles are the files for machines of a layout, as a packet has them.
func machineFiles(t testing.TB, l *layout.Layout) map[string][]byte {
	t.Helper()
	out := map[string][]byte{}
	for _, m := range Machines(l) {
		out[m.Name] = dxf.Encode(m.Drawing)
	}
	for _, s := range MachineLists(l) {
		var b bytes.Buffer
		if err := WriteCSV(&b, s); err != nil {
			t.Fatal(err)
		}
		out[s.Name] = b.Bytes()
	}
	return out
}

// folded folds what is written of a layout.
func folded(t testing.TB, l *layout.Layout) refold.Report {
	t.Helper()
	all, err := refold.Read(machineFiles(t, l))
	if err != nil {
		t.Fatal(err)
	}
	return refold.Check(all, l.Job)
}

// What is written of every sample and of the test jobs folds to what the job says.
func TestWrittenFilesFold(t *testing.T) {
	seen := map[string]int{}
	look := func(name string, l *layout.Layout) {
		r := folded(t, l)
		for _, f := range r.Faults {
			t.Errorf("%s: %s", name, f)
		}
		for k, n := range r.Seen {
			seen[k] += n
		}
		for _, f := range l.Families {
			if drop, ok := r.Drops[f.Mark]; ok && math.Abs(drop-f.Pieces[0].Tee.Drop.MM()) > 0.05 {
				t.Errorf("%s: %s drops %.3f mm, want %.3f", name, f.Mark, drop, f.Pieces[0].Tee.Drop.MM())
			}
		}
	}
	all, err := sampleLayouts()
	if err != nil {
		t.Fatal(err)
	}
	for name, l := range all {
		look(name, l)
	}
	for _, c := range workshops() {
		look(c.name, c.layout)
	}
	shopJobs(t, look)
	t.Log(seen)
	for _, kind := range []string{"caps", "corner of one width", "inside corner", "corner of two widths", "peak", "valley", "double miter", "transition", "tee",
		"rear folds", "end plates", "upstands", "plates in caps", "chairs in caps", "chairs under tapers", "corner support", "step riser", "lapped corner", "flat tabs"} {
		if seen[kind] == 0 {
			t.Errorf("nothing folds that is a %s", kind)
		}
	}
}

// measured is what the other program makes of a layout's files.
type measured struct {
	Caps  map[string]struct{ Inside, Slope, Rear float64 }
	Seams []struct {
		File, Kind string
		Middle     bool
		Inside     bool `json:"inside corner"`
		Lapped     bool
		Least, Gap float64
	}
	Clashes map[string]float64
	Fits    []struct {
		File, Kind string
		Deep       float64
	}
	Plates []struct {
		File      string
		Wide, Off float64
	}
}

// otherProgram folds what is written of a layout with libraries of others; without those
// the test is skipped. It is told where chairs stand, which no file for machines has.
func otherProgram(t *testing.T) func(l *layout.Layout, files map[string][]byte) measured {
	t.Helper()
	python := ""
	for _, p := range []string{"python3", "/usr/bin/python3"} {
		if python == "" && exec.Command(p, "-c", "import ezdxf, numpy").Run() == nil {
			python = p
		}
	}
	if python == "" {
		t.Skip("python3-ezdxf and python3-numpy are not installed: the patterns are not folded by another program")
	}
	return func(l *layout.Layout, files map[string][]byte) (m measured) {
		dir := t.TempDir()
		s := &l.Job.System
		before := map[string]float64{}
		for _, p := range l.Parts {
			for i := range l.Job.Assemblies {
				a := &l.Job.Assemblies[i]
				blank := s.ChairOf(a).Blank
				if blank == nil || p.Kind.String() != "chair" || p.Tested != "" && !slices.Contains(strings.Split(p.Tested, " and "), a.Name) {
					continue
				}
				for _, f := range blank.Section {
					if f.Across {
						before[p.Mark] = f.Before.MM()
					}
				}
			}
		}
		told, err := json.Marshal(map[string]any{"before": before, "rise": s.Chair.Rise.MM(), "front edge": s.Chair.FrontEdge.MM()})
		if err != nil {
			t.Fatal(err)
		}
		files = maps.Clone(files)
		files["job.json"] = told
		for name, b := range files {
			if err := os.WriteFile(filepath.Join(dir, name), b, 0o600); err != nil {
				t.Fatal(err)
			}
		}
		raw, err := exec.Command(python, "testdata/fold.py", dir).CombinedOutput()
		if err == nil {
			err = json.Unmarshal(raw, &m)
		}
		if err != nil {
			t.Fatalf("%v: %s", err, raw)
		}
		return m
	}
}

// compare sets what the other program measures of a layout's files against its job, and
// counts what was looked at.
func compare(t *testing.T, name string, l *layout.Layout, fold func(*layout.Layout, map[string][]byte) measured, seen map[string]int) {
	t.Helper()
	files := machineFiles(t, l)
	all, err := refold.Read(files)
	if err != nil {
		t.Fatal(err)
	}
	row := map[string]refold.Row{}
	for _, w := range all {
		row[w.Name()] = w.Row
	}
	m, p := fold(l, files), &l.Job.System.Profile
	for file, g := range m.Caps {
		seen["caps"]++
		r := row[file]
		if math.Abs(g.Inside-r.MM("inside width")) > 0.05 || math.Abs(g.Slope-r.Number("slope")) > 1e-5 {
			t.Errorf("%s: inside %.3f, slope %.5f; the list says %s, %s", file, g.Inside, g.Slope, r["inside width"], r["slope"])
		}
		if p.RearLeg.To == job.ToTangent && math.Abs(g.Rear-p.RearLeg.Length.MM()) > 0.05 {
			t.Errorf("%s: its rear leg folds to %.3f mm, the job says %.3f", file, g.Rear, p.RearLeg.Length.MM())
		}
	}
	for _, s := range m.Seams {
		kind, want := s.Kind, l.Job.Shop.WeldGap.MM()
		if s.Inside {
			kind = "inside corner"
		}
		seen[kind]++
		if s.Middle {
			seen["middle"]++
		}
		// Points 0.1 mm apart along, a sixth of the metal through it; files have six
		// decimals. Legs that lap stand the gap apart at their tabs alone.
		if math.Abs(s.Gap-want) > 1e-4 || s.Least < want-0.02 || s.Least > want+0.1 && !s.Lapped {
			t.Errorf("%s: at the %s of %s metal stands %.3f mm apart, the list says %.3f, the job %.3f", name, s.Kind, s.File, s.Least, s.Gap, want)
		}
	}
	for file, deep := range m.Clashes {
		if deep > 0.05 {
			t.Errorf("%s: metal stands %.3f mm in metal", file, deep)
		}
	}
	for _, f := range m.Fits {
		seen[f.Kind]++
		if f.Deep > 0.2 { // a chair is stated to a sixty-fourth
			t.Errorf("%s: %s %s stands %.3f mm in its cap", name, f.Kind, f.File, f.Deep)
		}
	}
	for _, f := range m.Plates {
		seen["end plate"]++
		want := l.Job.Shop.WeldGap.MM()
		if math.Abs(f.Off-want) > 0.06 || math.Abs(f.Wide-(row[f.File].MM("inside width")-2*want)) > 0.05 {
			t.Errorf("%s: %s is %.3f mm wide and stands %.3f mm off its cap, the gap is %.3f", name, f.File, f.Wide, f.Off, want)
		}
	}
}

// shopJobs are the jobs beside the tests, each with a shop.
func shopJobs(t *testing.T, look func(path string, l *layout.Layout)) {
	t.Helper()
	jobs, err := filepath.Glob("testdata/*/job.yaml")
	if err != nil || len(jobs) == 0 {
		t.Fatal(jobs, err)
	}
	for _, path := range jobs {
		j, found := job.Read(os.DirFS("."), filepath.ToSlash(path))
		if found.HasErrors() {
			t.Fatalf("%s: %v", path, found)
		}
		if j.Shop == nil {
			withShop(j)
		}
		look(path, build(t, j))
	}
}

// Another program folds the files of the samples and the test jobs, with libraries of
// others. Widths, slopes and legs are those of the job, metal stands nowhere in metal,
// and turned to one another the bodies of a piece come as near as the gap that the job
// states, and no nearer: outside and inside corners, middles, breaks of slope, tapers,
// tees and laps.
func TestAnotherProgramFolds(t *testing.T) {
	_ = otherProgram(t)
	type folded struct {
		name string
		l    *layout.Layout
	}
	var these []folded
	look := func(name string, l *layout.Layout) { these = append(these, folded{name, l}) }
	all, err := sampleLayouts()
	if err != nil {
		t.Fatal(err)
	}
	for name, l := range all {
		if name != "l-shape" && draws.Times(1) == 1 { // the slowest of the readers: all samples where much is drawn
			continue
		}
		look(name, l)
	}
	shopJobs(t, func(path string, l *layout.Layout) {
		if strings.Contains(path, "two-widths") && draws.Times(1) == 1 { // its kinds of seams are in the others
			return
		}
		look(path, l)
	})
	// A corner and a break of slope that lap.
	for _, path := range []string{"testdata/gable/job.yaml", ""} {
		j := named(perimeters(jobtest.Rectangle(300*in, 200*in)))
		if path != "" {
			j, _ = job.Read(os.DirFS("."), path)
		}
		withShop(j)
		j.Shop.Seam = &job.SeamRules{Process: job.Solder, Backer: "strip", Lap: &job.SeamLap{Width: in, Clear: in / 8, Jogged: true, Jog: in / 4}}
		look("lapped", build(t, j))
	}
	seen := map[string]int{}
	var counting sync.Mutex
	t.Run("folded", func(t *testing.T) { // beside each other: each is a process of its own
		for _, f := range these {
			t.Run(f.name, func(t *testing.T) {
				t.Parallel()
				own := map[string]int{}
				compare(t, f.name, f.l, otherProgram(t), own)
				counting.Lock()
				defer counting.Unlock()
				for kind, n := range own {
					seen[kind] += n
				}
			})
		}
	})
	t.Log(seen)
	for _, kind := range []string{"caps", "corner", "inside corner", "middle", "pitch", "transition", "rear legs of a taper", "tee", "lap", "lap over a break", "splice plate", "chair", "end plate"} {
		if seen[kind] == 0 {
			t.Errorf("the other program folds nothing that is a %s", kind)
		}
	}
}
