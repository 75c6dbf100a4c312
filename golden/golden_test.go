package golden

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"copingset/drawing"
	"copingset/drawing/dxf"
	"copingset/drawing/svg"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/sheets"

	"github.com/google/go-cmp/cmp"
	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
)

var update = flag.Bool("update", false, "rewrite the golden files from what is drawn now; look at the sheets before you commit them")

// Each folder of samples is a case; a new case is a new folder there. Pinned
// here, in a folder of the same name:
//
//	scenes/ID.txt    every sheet of the packet as a list of marks
//	svg/ID.svg       the first sheet of each kind
//	svg.sum          a digest of every sheet's and view's SVG
//	pdf/ID.txt       the content stream of the same first sheets
//	pdf.sum          size and digest of every page's content stream
//	csv/NAME.csv     the schedules
//	dxf.sum          a digest of every drawing for machines
//
// A missing file and one that nothing makes any more both fail.
func TestGolden(t *testing.T) {
	for _, name := range samples(t) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			l := solve(t, name)
			pages := sheets.Packet(l, sheets.Options{})
			files := outputs(t, l, pages)
			compare(t, name, files)
			properties(t, l, pages, files)
		})
	}
}

func samples(t *testing.T) []string {
	t.Helper()
	dirs, err := filepath.Glob("../samples/*/job.yaml")
	if err != nil || len(dirs) < 3 {
		t.Fatalf("samples: %v, %v", dirs, err)
	}
	var out []string
	for _, d := range dirs {
		out = append(out, filepath.Base(filepath.Dir(d)))
	}
	return out
}

func solve(t *testing.T, name string) *layout.Layout {
	t.Helper()
	j, found := job.Read(os.DirFS("../samples/"+name), "job.yaml")
	if found.HasErrors() {
		t.Fatal(found)
	}
	l, found := layout.Build(j)
	if found.HasErrors() {
		t.Fatal(found)
	}
	return l
}

// outputs makes everything that is pinned, by name.
func outputs(t *testing.T, l *layout.Layout, pages []sheets.Sheet) map[string][]byte {
	t.Helper()
	out := map[string][]byte{}
	var sums strings.Builder
	first := map[sheets.Kind]bool{}
	pin := map[string]bool{}
	for _, p := range pages {
		out["scenes/"+p.ID+".txt"] = []byte(p.Scene.Dump())
		b := drawn(t, p.Scene)
		fmt.Fprintf(&sums, "%s  sheet %s\n", digest(b), p.ID)
		if !first[p.Kind] {
			first[p.Kind] = true
			pin[p.ID] = true
			out["svg/"+p.ID+".svg"] = b
		}
	}
	for _, v := range sheets.Views(l) {
		fmt.Fprintf(&sums, "%s  view %s\n", digest(drawn(t, v)), v.Name)
	}
	out["svg.sum"] = []byte(sums.String())

	var pdf bytes.Buffer
	if err := sheets.PDF(&pdf, l, pages); err != nil {
		t.Fatal(err)
	}
	sums.Reset()
	for i, s := range streams(t, pdf.Bytes(), pages) {
		fmt.Fprintf(&sums, "%s  %s  %d bytes\n", digest(s), pages[i].ID, len(s))
		if pin[pages[i].ID] {
			out["pdf/"+pages[i].ID+".txt"] = s
		}
	}
	out["pdf.sum"] = []byte(sums.String())
	var machines strings.Builder
	for _, m := range sheets.Machines(l) {
		fmt.Fprintf(&machines, "%s %s\n", m.Name, digest(dxf.Encode(m.Drawing)))
	}
	out["dxf.sum"] = []byte(machines.String())
	for _, s := range sheets.Schedules(l) {
		var b bytes.Buffer
		if err := sheets.WriteCSV(&b, s); err != nil {
			t.Fatal(err)
		}
		out["csv/"+s.Name] = b.Bytes()
	}
	return out
}

func drawn(t *testing.T, s drawing.Scene) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := svg.Write(&b, s, svg.Options{}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func digest(b []byte) string {
	h := sha256.Sum256(b)
	return hex.EncodeToString(h[:8])
}

// streams reads a PDF with an independent reader: it has to be valid, to have
// a page for each sheet of the sheet's size, and gives each page's inflated
// content.
func streams(t *testing.T, pdf []byte, pages []sheets.Sheet) [][]byte {
	t.Helper()
	model.ConfigPath = "disable"
	conf := model.NewDefaultConfiguration()
	conf.ValidationMode = model.ValidationRelaxed
	ctx, err := api.ReadAndValidate(bytes.NewReader(pdf), conf)
	if err != nil {
		t.Fatalf("the independent reader refuses the packet: %v", err)
	}
	if ctx.PageCount != len(pages) {
		t.Fatalf("%d pages for %d sheets", ctx.PageCount, len(pages))
	}
	var out [][]byte
	for i, p := range pages {
		const pt = 72.0 / 2540 // of a hundredth of a millimetre
		_, _, attrs, err := ctx.PageDict(i+1, false)
		if err != nil || attrs.MediaBox == nil {
			t.Fatalf("page %d has no size: %v", i+1, err)
		}
		box := attrs.MediaBox
		if w, h := float64(p.Scene.W)*pt, float64(p.Scene.H)*pt; abs(box.Width()-w) > 0.02 || abs(box.Height()-h) > 0.02 {
			t.Errorf("page %d is %.2f x %.2f pt, its sheet %.2f x %.2f", i+1, box.Width(), box.Height(), w, h)
		}
		r, err := pdfcpu.ExtractPageContent(ctx, i+1)
		if err != nil {
			t.Fatal(err)
		}
		b, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, b)
	}
	return out
}

func abs(x float64) float64 { return max(x, -x) }

// compare holds outputs against the files of the case, or rewrites them.
func compare(t *testing.T, name string, files map[string][]byte) {
	t.Helper()
	if *update {
		if err := os.RemoveAll(name); err != nil {
			t.Fatal(err)
		}
		for _, n := range sorted(files) {
			path := filepath.Join(name, n)
			if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(path, files[n], 0o644); err != nil {
				t.Fatal(err)
			}
		}
		return
	}
	for _, n := range differences(os.DirFS(name), files) {
		t.Error(n)
	}
}

// differences lists what is missing, changed or left over.
func differences(golden fs.FS, files map[string][]byte) []string {
	var out []string
	for _, n := range sorted(files) {
		want, err := fs.ReadFile(golden, n)
		switch {
		case err != nil:
			out = append(out, n+": no golden file; run with -update, look at the sheet, commit it")
		case !bytes.Equal(want, files[n]):
			out = append(out, n+": differs (-golden +now):\n"+shortDiff(string(want), string(files[n])))
		}
	}
	_ = fs.WalkDir(golden, ".", func(path string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			if _, ok := files[path]; !ok {
				out = append(out, path+": nothing makes this file any more; run with -update")
			}
		}
		return nil
	})
	return out
}

func sorted(files map[string][]byte) []string {
	var names []string
	for n := range files {
		names = append(names, n)
	}
	slices.Sort(names)
	return names
}

// shortDiff compares the first lines that differ.
func shortDiff(want, got string) string {
	a, b := strings.Split(want, "\n"), strings.Split(got, "\n")
	i := 0
	for i < len(a) && i < len(b) && a[i] == b[i] {
		i++
	}
	cut := func(l []string) []string {
		l = l[min(i, len(l)):min(i+8, len(l))]
		for k, s := range l {
			if len(s) > 200 {
				l[k] = s[:200] + "..."
			}
		}
		return l
	}
	return fmt.Sprintf("from line %d:\n%s", i+1, cmp.Diff(cut(slices.Clone(a)), cut(slices.Clone(b))))
}

// properties are true of every case, whatever is pinned.
func properties(t *testing.T, l *layout.Layout, pages []sheets.Sheet, files map[string][]byte) {
	t.Helper()
	for _, p := range pages {
		for _, f := range drawing.Check(p.Scene) {
			t.Errorf("sheet %s: %v", p.ID, f)
		}
	}
	for _, v := range sheets.Views(l) {
		for _, f := range drawing.Check(v) {
			t.Errorf("view %s: %v", v.Name, f)
		}
	}
	again := outputs(t, l, sheets.Packet(l, sheets.Options{}))
	for _, n := range sorted(files) {
		if !bytes.Equal(files[n], again[n]) {
			t.Errorf("%s: the same layout gives other bytes the second time", n)
		}
	}
}

// One line of one sheet moved by a millimetre has to be seen, by the scene, the
// SVG and the PDF goldens each.
func TestGoldenSeesAMovedLine(t *testing.T) {
	name := samples(t)[0]
	l := solve(t, name)
	pages := sheets.Packet(l, sheets.Options{})
	if !moveOne(pages[0].Scene.Marks) {
		t.Fatal("the index has no line to move")
	}
	golden := os.DirFS(name)
	seen := strings.Join(differences(golden, outputs(t, l, pages)), "\n")
	id := pages[0].ID
	for _, n := range []string{"scenes/" + id + ".txt", "svg/" + id + ".svg", "svg.sum", "pdf/" + id + ".txt", "pdf.sum"} {
		if !strings.Contains(seen, n+": differs") {
			t.Errorf("%s does not see a line moved by 1 mm", n)
		}
	}
}

// moveOne moves the first line it finds.
func moveOne(marks []drawing.Mark) bool {
	for i, m := range marks {
		switch m := m.(type) {
		case drawing.Line:
			m.Pts = slices.Clone(m.Pts)
			m.Pts[0].X += drawing.MM
			marks[i] = m
			return true
		case drawing.Group:
			if moveOne(m.Marks) {
				return true
			}
		}
	}
	return false
}
