package golden

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"encoding/xml"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"copingset/drawing"
	"copingset/drawing/dxf"
	"copingset/drawing/svg"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/sheets"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
)

var update = flag.Bool("update", false,
	"rewrite the golden files from what is drawn now; look at the page it writes before you commit them")

// Each folder of samples is a case; a new case is a new folder there. Pinned
// here, in a folder of the same name:
//
//	scenes/ID.txt    every sheet of the packet as a list of marks, which can be read back
//	svg.sum          a digest of every sheet's and view's SVG
//	pdf.sum          size and digest of every page's content stream
//	dxf.sum          a digest of every drawing for machines
//	csv/NAME.csv     the schedules
//
// and of three sheets of one case svg/ID.svg, and of a run's pdf/ID.txt, to read what a
// back end writes and to show in the README. A missing file and one that nothing makes any more both fail.
func TestGolden(t *testing.T) {
	names := samples(t)
	left := leftOver(t, names)
	var seen *changes
	if *update || *pageDir != "" {
		var err error
		if seen, err = begin(append(left, names...)); err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() {
			path, err := seen.write(*pageDir)
			if err != nil {
				t.Fatal(err)
			}
			t.Logf("what changed, in words and pictures: %s", path)
		})
	}
	for _, name := range left {
		if seen != nil {
			seen.add(name, nil)
		}
		if !*update {
			t.Errorf("%s: no sample of this name any more; run with -update", name)
		} else if err := os.RemoveAll(name); err != nil {
			t.Fatal(err)
		}
	}
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			c := drawn(t, name)
			compare(t, name, c.files)
			if seen != nil {
				seen.add(name, c.files)
			}
		})
	}
}

// TestSamplesHold holds what is drawn of each sample against what every packet has to be.
func TestSamplesHold(t *testing.T) {
	for _, name := range samples(t) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			properties(t, drawn(t, name))
		})
	}
}

// specimenOf is the case whose first run sheet is pinned as SVG and PDF content.
const specimenOf = "rectangle"

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
	if !slices.Contains(out, specimenOf) {
		t.Fatalf("no sample %s, of which a sheet is pinned whole", specimenOf)
	}
	return out
}

// leftOver lists the folders of goldens without a sample.
func leftOver(t *testing.T, names []string) []string {
	t.Helper()
	dirs, err := filepath.Glob("*/svg.sum")
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, d := range dirs {
		if n := filepath.Dir(d); !slices.Contains(names, n) {
			out = append(out, n)
		}
	}
	return out
}

// sample is a case, solved, drawn and written once for all tests.
type sample struct {
	name   string
	layout *layout.Layout
	pages  []sheets.Sheet
	views  []drawing.Scene
	pdf    []byte
	files  map[string][]byte // what is pinned, by name
}

var once sync.Map // name of a sample to the function that draws it

func drawn(t *testing.T, name string) *sample {
	t.Helper()
	draw, _ := once.LoadOrStore(name, sync.OnceValues(func() (*sample, error) { return draw(name) }))
	c, err := draw.(func() (*sample, error))()
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func draw(name string) (*sample, error) {
	j, found := job.Read(os.DirFS("../samples"), name+"/job.yaml")
	if found.HasErrors() {
		return nil, fmt.Errorf("%v", found)
	}
	l, found := layout.Build(j)
	if found.HasErrors() {
		return nil, fmt.Errorf("%v", found)
	}
	c := &sample{name: name, layout: l, pages: sheets.Packet(l, sheets.Options{}), views: sheets.Views(l)}
	var err error
	if c.pdf, err = pdfOf(l, c.pages); err != nil {
		return nil, err
	}
	c.files, err = outputs(c)
	return c, err
}

func pdfOf(l *layout.Layout, pages []sheets.Sheet) ([]byte, error) {
	var b bytes.Buffer
	err := sheets.PDF(&b, l, pages)
	return b.Bytes(), err
}

// outputs makes everything that is pinned, by name.
func outputs(c *sample) (map[string][]byte, error) {
	out := map[string][]byte{}
	var svgs, pdfs, machines strings.Builder
	whole := ""
	// What the README shows; that of a run is pinned as PDF too.
	pictured := map[sheets.Kind]bool{sheets.RunSheet: true, sheets.ShopSheet: true, sheets.CrateList: true}
	for _, p := range c.pages {
		out["scenes/"+p.ID+".txt"] = []byte(p.Scene.Dump())
		b, err := svgOf(p.Scene)
		if err != nil {
			return nil, err
		}
		svgs.WriteString(sum(b, "sheet", p.ID))
		if c.name == specimenOf && whole == "" && p.Kind == sheets.RunSheet {
			whole = p.ID
		}
		if c.name == specimenOf && pictured[p.Kind] {
			delete(pictured, p.Kind) // the first of its kind
			out["svg/"+p.ID+".svg"] = b
		}
	}
	for _, v := range c.views {
		b, err := svgOf(v)
		if err != nil {
			return nil, err
		}
		svgs.WriteString(sum(b, "view", v.Name))
	}
	contents, err := streams(c.pdf, c.pages)
	if err != nil {
		return nil, err
	}
	for i, s := range contents {
		pdfs.WriteString(sum(s, "page", c.pages[i].ID))
		if c.pages[i].ID == whole {
			out["pdf/"+whole+".txt"] = s
		}
	}
	for _, m := range sheets.Machines(c.layout) {
		machines.WriteString(sum(dxf.Encode(m.Drawing), "drawing", m.Name))
	}
	out["svg.sum"] = []byte(svgs.String())
	out["pdf.sum"] = []byte(pdfs.String())
	out["dxf.sum"] = []byte(machines.String())
	for _, s := range sheets.Schedules(c.layout) {
		var b bytes.Buffer
		if err := sheets.WriteCSV(&b, s); err != nil {
			return nil, err
		}
		out["csv/"+s.Name] = b.Bytes()
	}
	return out, nil
}

// sum is a line of a list of digests.
func sum(b []byte, what, name string) string {
	return fmt.Sprintf("%s %7d bytes  %s %s\n", digest(b), len(b), what, name)
}

func svgOf(s drawing.Scene) ([]byte, error) {
	var b bytes.Buffer
	err := svg.Write(&b, s, svg.Options{})
	return b.Bytes(), err
}

func digest(b []byte) string {
	h := sha256.Sum256(b)
	return hex.EncodeToString(h[:8])
}

// streams reads a PDF with an independent reader: it has to be valid, to have
// a page for each sheet of the sheet's size, and gives each page's inflated
// content.
func streams(pdf []byte, pages []sheets.Sheet) ([][]byte, error) {
	model.ConfigPath = "disable"
	conf := model.NewDefaultConfiguration()
	conf.ValidationMode = model.ValidationRelaxed
	ctx, err := api.ReadAndValidate(bytes.NewReader(pdf), conf)
	if err != nil {
		return nil, fmt.Errorf("the independent reader refuses the packet: %w", err)
	}
	if ctx.PageCount != len(pages) {
		return nil, fmt.Errorf("%d pages for %d sheets", ctx.PageCount, len(pages))
	}
	var out [][]byte
	for i, p := range pages {
		const pt = 72.0 / 2540 // of a hundredth of a millimetre
		_, _, attrs, err := ctx.PageDict(i+1, false)
		if err != nil || attrs.MediaBox == nil {
			return nil, fmt.Errorf("page %d has no size: %v", i+1, err)
		}
		box := attrs.MediaBox
		if w, h := float64(p.Scene.W)*pt, float64(p.Scene.H)*pt; abs(box.Width()-w) > 0.02 || abs(box.Height()-h) > 0.02 {
			return nil, fmt.Errorf("page %d is %.2f x %.2f pt, its sheet %.2f x %.2f", i+1, box.Width(), box.Height(), w, h)
		}
		r, err := pdfcpu.ExtractPageContent(ctx, i+1)
		if err != nil {
			return nil, err
		}
		b, err := io.ReadAll(r)
		if err != nil {
			return nil, err
		}
		out = append(out, b)
	}
	return out, nil
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
	const most = 25 // what differs in the frame alone comes last
	seen := differences(os.DirFS(name), files)
	slices.SortStableFunc(seen, func(a, b string) int {
		return cmp.Compare(strings.Count(a, frameAlone), strings.Count(b, frameAlone))
	})
	for _, n := range seen[:min(most, len(seen))] {
		t.Error(n)
	}
	if len(seen) > most {
		var rest []string
		for _, n := range seen[most:] {
			n, _, _ = strings.Cut(n, ": ")
			rest = append(rest, n)
		}
		t.Errorf("and %d more files: %s", len(rest), strings.Join(rest, " "))
	}
	if len(seen) > 0 && *pageDir == "" {
		t.Log("in pictures: go test ./golden -run 'TestGolden$' -page FOLDER")
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
			said := n + ": differs\n\t" + strings.Join(few(describe(n, want, files[n]), 10), "\n\t")
			if !strings.HasSuffix(n, ".sum") { // digests say no more than their names
				said += "\n" + shortDiff(string(want), string(files[n]))
			}
			out = append(out, said)
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

func sorted[V any](files map[string]V) []string {
	var names []string
	for n := range files {
		names = append(names, n)
	}
	slices.Sort(names)
	return names
}

// shortDiff shows the first lines that differ, as they were and as they are.
func shortDiff(want, got string) string {
	plain := func(s string) []string { // a PDF letters in two bytes
		return strings.Split(strings.ReplaceAll(s, "\x00", ""), "\n")
	}
	a, b := plain(want), plain(got)
	i := 0
	for i < len(a) && i < len(b) && a[i] == b[i] {
		i++
	}
	out := fmt.Sprintf("from line %d:", i+1)
	for _, side := range []struct {
		sign  string
		lines []string
	}{{"golden", a}, {"now   ", b}} {
		for _, l := range side.lines[min(i, len(side.lines)):min(i+3, len(side.lines))] {
			if len(l) > 160 {
				l = l[:160] + "..."
			}
			out += "\n\t" + side.sign + " " + l
		}
	}
	return out
}

// properties are true of every case, whatever is pinned.
func properties(t *testing.T, c *sample) {
	t.Helper()
	again, views := sheets.Packet(c.layout, sheets.Options{}), sheets.Views(c.layout)
	if len(again) != len(c.pages) || len(views) != len(c.views) {
		t.Fatalf("the second time %d sheets, %d views, the first time %d and %d",
			len(again), len(views), len(c.pages), len(c.views))
	}
	for i, p := range c.pages {
		for _, f := range drawing.Check(p.Scene) {
			t.Errorf("sheet %s: %v", p.ID, f)
		}
		dump := p.Scene.Dump()
		if back, err := drawing.Read(dump); err != nil || back.Dump() != dump {
			t.Errorf("sheet %s: its text read back is another scene (error %v)", p.ID, err)
		}
		if dump != again[i].Scene.Dump() {
			t.Errorf("sheet %s: the same layout gives another sheet the second time", p.ID)
		}
	}
	for i, v := range c.views {
		for _, f := range drawing.Check(v) {
			t.Errorf("view %s: %v", v.Name, f)
		}
		if v.Dump() != views[i].Dump() {
			t.Errorf("view %s: the same layout gives another view the second time", v.Name)
		}
	}
	if pdf, err := pdfOf(c.layout, again); err != nil || !bytes.Equal(pdf, c.pdf) {
		t.Errorf("the same layout gives another PDF the second time (error %v)", err)
	}
	if c.name != specimenOf { // a back end knows nothing of samples: one tells as much as all
		return
	}
	seen := map[sheets.Kind]bool{}
	for _, p := range again {
		b, err := svgOf(p.Scene)
		if err != nil || !strings.Contains(string(c.files["svg.sum"]), sum(b, "sheet", p.ID)) {
			t.Errorf("sheet %s: the same layout gives another SVG the second time (error %v)", p.ID, err)
		}
		if !seen[p.Kind] {
			seen[p.Kind] = true
			if err := wellFormed(b); err != nil {
				t.Errorf("sheet %s: the SVG is not well formed: %v", p.ID, err)
			}
		}
	}
}

// wellFormed reads XML to its end.
func wellFormed(b []byte) error {
	for d := xml.NewDecoder(bytes.NewReader(b)); ; {
		if _, err := d.Token(); errors.Is(err, io.EOF) {
			return nil
		} else if err != nil {
			return err
		}
	}
}

// One line of one sheet moved by a millimetre has to be seen, by the scene, the
// SVG and the PDF goldens each, and nothing else may seem to have changed.
func TestGoldenSeesAMovedLine(t *testing.T) {
	if *update {
		t.Skip("the goldens are being rewritten")
	}
	c := drawn(t, specimenOf)
	before := differences(os.DirFS(specimenOf), c.files)
	i := slices.IndexFunc(c.pages, func(p sheets.Sheet) bool { return p.Kind == sheets.RunSheet })
	moved := *c
	moved.pages = slices.Clone(c.pages)
	p := &moved.pages[i]
	p.Scene.Marks = slices.Clone(p.Scene.Marks)
	if !moveOne(p.Scene.Marks) {
		t.Fatal("the sheet has no line to move")
	}
	var err error
	if moved.pdf, err = pdfOf(c.layout, moved.pages); err != nil {
		t.Fatal(err)
	}
	files, err := outputs(&moved)
	if err != nil {
		t.Fatal(err)
	}
	want := []string{"scenes/" + p.ID + ".txt", "svg/" + p.ID + ".svg", "svg.sum", "pdf/" + p.ID + ".txt", "pdf.sum"}
	after := differences(os.DirFS(specimenOf), files)
	for _, n := range want {
		if !strings.Contains(strings.Join(after, "\n"), n+": differs") {
			t.Errorf("%s does not see a line moved by 1 mm", n)
		}
	}
	if len(before) == 0 && len(after) != len(want) {
		t.Errorf("one line of one sheet moved, and there differ\n%s", strings.Join(after, "\n"))
	}
	for _, n := range []string{"svg.sum", "pdf.sum"} {
		if got := changedLines(string(c.files[n]), string(files[n])); got != 1 {
			t.Errorf("%s: %d digests changed with one line of one sheet", n, got)
		}
	}
}

// changedLines counts the lines of two lists that differ, place by place.
func changedLines(a, b string) int {
	n, other := 0, strings.Split(b, "\n")
	for i, l := range strings.Split(a, "\n") {
		if i >= len(other) || l != other[i] {
			n++
		}
	}
	return n
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
			m.Marks = slices.Clone(m.Marks)
			if moveOne(m.Marks) {
				marks[i] = m
				return true
			}
		}
	}
	return false
}
