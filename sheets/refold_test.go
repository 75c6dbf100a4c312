package sheets

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
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
	t.Log(seen)
	for _, kind := range []string{"caps", "corner of one width", "inside corner", "corner of two widths", "peak", "valley", "double miter", "transition", "tee",
		"end plates", "upstands", "plates in caps", "chairs in caps", "chairs under tapers", "corner support", "step riser", "lapped corner", "flat tabs"} {
		if seen[kind] == 0 {
			t.Errorf("nothing folds that is a %s", kind)
		}
	}
}

// measured is what the other program makes of a layout's files.
type measured struct {
	Caps  map[string]struct{ Inside, Slope, Rear float64 }
	Seams []struct {
		File       string
		Inside     bool `json:"inside corner"`
		Least, Gap float64
	}
}

// otherProgram folds files with libraries of others; without those the test is skipped.
func otherProgram(t *testing.T) func(files map[string][]byte) measured {
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
	return func(files map[string][]byte) (m measured) {
		dir := t.TempDir()
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

// Another program folds the same files, with libraries of others, to the same
// inside widths, slopes and lowest metal.
func TestAnotherProgramFolds(t *testing.T) {
	fold := otherProgram(t)
	j := withShop(named(jobtest.Job()))
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(700*in, 420*in)}
	j.System.Profile.RearHook = job.Kick{Length: in, Angle: 146 * job.Degree}
	j.System.Profile.HemReturn = 3 * in / 8
	j.System.RearClearance = in // more than that hook reaches in
	files := machineFiles(t, build(t, j))
	all, err := refold.Read(files)
	if err != nil {
		t.Fatal(err)
	}
	rows := map[string]refold.Row{}
	for _, w := range all {
		rows[w.Name()] = w.Row
	}
	got := fold(files).Caps
	if len(got) < 3 {
		t.Fatalf("%d caps folded: %v", len(got), got)
	}
	for name, g := range got {
		r := rows[name]
		if math.Abs(g.Inside-r.MM("inside width")) > 0.05 || math.Abs(g.Slope-r.Number("slope")) > 1e-5 || math.Abs(g.Rear-j.System.Profile.RearLeg.Length.MM()) > 0.05 {
			t.Errorf("%s: inside %.3f, slope %.5f, rear leg %.3f; the job says %s, %s, %.3f", name, g.Inside, g.Slope, g.Rear, r["inside width"], r["slope"], j.System.Profile.RearLeg.Length.MM())
		}
	}
}

// Another program turns the folded legs of the samples' corners to one another: the
// least distance from metal to metal along the seam is the gap that the job states,
// at outside corners and at inside ones.
func TestAnotherProgramClosesCorners(t *testing.T) {
	fold := otherProgram(t)
	all, err := sampleLayouts()
	if err != nil {
		t.Fatal(err)
	}
	outside, inside := 0, 0
	for name, l := range all {
		if name != "l-shape" && draws.Times(1) == 1 { // the slowest of the readers: all samples where much is drawn
			continue
		}
		for _, s := range fold(machineFiles(t, l)).Seams {
			if s.Inside {
				inside++
			} else {
				outside++
			}
			want := l.Job.Shop.WeldGap.MM()
			// Points 0.1 mm apart along, a sixth of the metal through it; files have six decimals.
			if math.Abs(s.Gap-want) > 1e-4 || s.Least < want-0.02 || s.Least > want+0.1 {
				t.Errorf("%s: the legs of %s stand %.3f mm apart, the list says %.3f, the job %.3f", name, s.File, s.Least, s.Gap, want)
			}
		}
	}
	if outside == 0 || inside == 0 {
		t.Errorf("%d outside corners and %d inside ones folded", outside, inside)
	}
}
