package golden

import (
	"archive/tar"
	"bytes"
	"encoding/base64"
	"errors"
	"flag"
	"fmt"
	"html/template"
	"io"
	"io/fs"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	"copingset/drawing"
	"copingset/drawing/svg"
	"copingset/fonts"
)

var (
	pageDir = flag.String("page", "", "write the page of what changed into this folder, outside the repository; "+
		"-update alone writes it into copingset-golden in the folder for temporary files")
	since = flag.String("since", "HEAD",
		"the revision the page compares with; where git has none, with the files as they were")
)

// changes collects, for the page, what each case was and is.
type changes struct {
	sync.Mutex
	was   map[string]fs.FS
	files map[string]map[string][]byte
	note  string // where "was" comes from
}

// begin reads what the page will compare with, before anything is rewritten.
func begin(names []string) (*changes, error) {
	c := &changes{was: map[string]fs.FS{}, files: map[string]map[string][]byte{}}
	committed, err := revision(*since)
	c.note = "Before: as committed in " + *since + "."
	if err != nil {
		c.note = "Before: the files as they were on disk (" + err.Error() + ")."
	}
	for _, n := range names {
		if err == nil {
			c.was[n] = under(committed, n)
			continue
		}
		onDisk := fstest.MapFS{}
		if err := copyFiles(onDisk, os.DirFS(n)); err != nil {
			return nil, err
		}
		c.was[n] = onDisk
	}
	return c, nil
}

// revision reads this folder as git has it.
func revision(rev string) (fstest.MapFS, error) {
	archive, err := exec.Command("git", "archive", "--format=tar", rev, ".").Output()
	if err != nil {
		return nil, fmt.Errorf("git has no %s here: %w", rev, err)
	}
	out := fstest.MapFS{}
	for r := tar.NewReader(bytes.NewReader(archive)); ; {
		h, err := r.Next()
		if errors.Is(err, io.EOF) {
			return out, nil
		}
		if err != nil {
			return nil, err
		}
		if h.Typeflag == tar.TypeReg {
			b, err := io.ReadAll(r)
			if err != nil {
				return nil, err
			}
			out[h.Name] = &fstest.MapFile{Data: b}
		}
	}
}

// under is the files of one folder, named from there.
func under(files fstest.MapFS, dir string) fstest.MapFS {
	out := fstest.MapFS{}
	for n, f := range files {
		if in, ok := strings.CutPrefix(n, dir+"/"); ok {
			out[in] = f
		}
	}
	return out
}

func copyFiles(to fstest.MapFS, from fs.FS) error {
	err := fs.WalkDir(from, ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		b, err := fs.ReadFile(from, path)
		to[path] = &fstest.MapFile{Data: b}
		return err
	})
	if errors.Is(err, fs.ErrNotExist) { // a new case
		return nil
	}
	return err
}

func (c *changes) add(name string, files map[string][]byte) {
	c.Lock()
	defer c.Unlock()
	c.files[name] = files
}

// write writes the page and returns its path.
func (c *changes) write(dir string) (string, error) {
	if dir == "" {
		dir = filepath.Join(os.TempDir(), "copingset-golden")
	}
	dir, err := filepath.Abs(dir)
	if err != nil {
		return "", err
	}
	root, err := filepath.Abs("..")
	if err != nil {
		return "", err
	}
	if in, err := filepath.Rel(root, dir); err == nil && filepath.IsLocal(in) {
		return "", fmt.Errorf("the page does not belong into the repository: %s lies in %s", dir, root)
	}
	p := page{Note: c.note, Style: template.CSS(pageStyle())}
	for _, n := range sorted(c.files) {
		s, err := sectionOf(n, c.was[n], c.files[n])
		if err != nil {
			return "", err
		}
		p.Cases = append(p.Cases, s)
	}
	var b bytes.Buffer
	if err := pageTemplate.Execute(&b, p); err != nil {
		return "", err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return "", err
	}
	path := filepath.Join(dir, "index.html")
	return path, os.WriteFile(path, b.Bytes(), 0o644)
}

// page is what the template shows.
type page struct {
	Note  string
	Style template.CSS
	Cases []pageCase
}

type pageCase struct {
	Name               string
	Same, New, Removed int
	Sheets, Frames     []pageSheet // changed, new and removed ones; those where the frame alone changed
	Files              []pageFile
}

type pageSheet struct {
	ID, State   string
	Words       []string
	Was, Is, To template.HTML // before, after, the difference
}

type pageFile struct {
	Name, State string
	Words       []string
}

// sectionOf compares what a case was with what it is.
func sectionOf(name string, was fs.FS, files map[string][]byte) (pageCase, error) {
	c := pageCase{Name: name}
	old := fstest.MapFS{}
	if err := copyFiles(old, was); err != nil {
		return c, err
	}
	all := map[string]bool{}
	for n := range maps.Keys(files) {
		all[n] = true
	}
	for n := range maps.Keys(old) {
		all[n] = true
	}
	for _, n := range sorted(all) {
		before, had := old[n]
		after, has := files[n]
		id, isSheet := strings.CutPrefix(n, "scenes/")
		switch {
		case had && has && bytes.Equal(before.Data, after):
			if isSheet {
				c.Same++
			}
		case isSheet:
			var was []byte
			if had {
				was = before.Data
			}
			s, frame, err := sheetOf(strings.TrimSuffix(id, ".txt"), was, after, had, has)
			switch {
			case err != nil:
				return c, err
			case frame:
				c.Frames = append(c.Frames, s)
			default:
				c.Sheets = append(c.Sheets, s)
			}
		case !had:
			c.Files = append(c.Files, pageFile{Name: n, State: "new"})
		case !has:
			c.Files = append(c.Files, pageFile{Name: n, State: "removed"})
		default:
			c.Files = append(c.Files, pageFile{n, "changed", few(describe(n, before.Data, after), 40)})
		}
	}
	for _, s := range c.Sheets {
		switch s.State {
		case "new":
			c.New++
		case "removed":
			c.Removed++
		}
	}
	// One sheet stands for all whose frame alone changed.
	for i := range c.Frames {
		if i > 0 {
			c.Frames[i].Was, c.Frames[i].Is, c.Frames[i].To = "", "", ""
		}
	}
	return c, nil
}

// few keeps the first of many lines and counts the rest.
func few(lines []string, most int) []string {
	if len(lines) <= most {
		return lines
	}
	return append(slices.Clone(lines[:most]), fmt.Sprintf("and %d more", len(lines)-most))
}

// sheetOf draws a sheet as it was, as it is, and one over the other. A sheet
// pinned in a form that cannot be read has no picture of before.
func sheetOf(id string, was, is []byte, had, has bool) (s pageSheet, frame bool, err error) {
	s.ID = id
	var old, now drawing.Scene
	if has {
		if now, err = drawing.Read(string(is)); err != nil {
			return s, false, fmt.Errorf("%s: %w", id, err)
		}
	}
	if had {
		if old, err = drawing.Read(string(was)); err != nil {
			s.Words, had = []string{"no picture of before: " + err.Error()}, false
		}
	}
	switch {
	case !has:
		s.State = "removed"
		s.Was, err = picture(old, nil, "")
	case !had:
		if s.State = "new"; s.Words != nil {
			s.State = "changed"
		}
		s.Is, err = picture(now, nil, "")
	default:
		d := diffScenes(old, now)
		s.State, s.Words = "changed", few(d.words(), 200)
		gone, come := d.touched()
		var errs [3]error
		s.Was, errs[0] = picture(old, gone, "gone")
		s.Is, errs[1] = picture(now, come, "come")
		s.To, errs[2] = difference(d, gone, come)
		return s, d.frameOnly(), errors.Join(errs[:]...)
	}
	return s, false, err
}

// picture draws a scene, what differs marked as with a felt pen.
func picture(s drawing.Scene, differ []leaf, class string) (template.HTML, error) {
	head, inner, err := inline(s)
	if err != nil {
		return "", err
	}
	var felt strings.Builder
	for _, l := range differ {
		r := drawing.BoundsOf([]drawing.Mark{l.mark})
		if link, ok := l.mark.(drawing.Link); ok {
			r = link.Box
		}
		r = r.Inset(-80)
		fmt.Fprintf(&felt, "M%d %dH%dV%dH%dZ", r.Min.X, r.Min.Y, r.Max.X, r.Max.Y, r.Min.X)
	}
	if felt.Len() > 0 { // one path, so that marks over each other do not grow dark
		inner += fmt.Sprintf(`<path class="felt %s" d="%s"/>`, class, &felt)
	}
	return template.HTML(head + inner + "</svg>"), nil
}

// difference draws what stays in grey, what went and what came in their colours.
func difference(d sceneDiff, gone, come []leaf) (template.HTML, error) {
	var b strings.Builder
	size := drawing.Scene{W: max(d.old.W, d.new.W), H: max(d.old.H, d.new.H)}
	for i, part := range []struct {
		class  string
		leaves []leaf
	}{{"stays", d.same}, {"gone", gone}, {"come", come}} {
		s := size
		for _, l := range part.leaves {
			s.Marks = append(s.Marks, l.mark)
		}
		head, inner, err := inline(s)
		if err != nil {
			return "", err
		}
		if i == 0 {
			b.WriteString(head)
		} else {
			inner = strings.Replace(inner, "<rect ", `<rect display="none" `, 1) // the paper
		}
		fmt.Fprintf(&b, `<g class="%s">%s</g>`, part.class, inner)
	}
	b.WriteString("</svg>")
	return template.HTML(b.String()), nil
}

// inline writes a scene to stand in a page: its opening tag and what is in it.
func inline(s drawing.Scene) (head, inner string, err error) {
	var b bytes.Buffer
	if err := svg.Write(&b, s, svg.Options{LiveText: true, SharedFont: true}); err != nil {
		return "", "", err
	}
	_, file, _ := strings.Cut(b.String(), "<svg")
	head, inner, _ = strings.Cut(file, ">")
	return "<svg" + head + ">", strings.TrimSuffix(strings.TrimSpace(inner), "</svg>"), nil
}

// pageStyle brings the lettering along and colours what went and what came:
// red and blue, which eyes that take colours otherwise keep apart.
func pageStyle() string {
	var b strings.Builder
	for f, weight := range map[drawing.Face]int{drawing.Regular: 400, drawing.Bold: 700} {
		fmt.Fprintf(&b, "@font-face{font-family:'%s';font-weight:%d;src:url(data:font/ttf;base64,%s)}\n",
			fonts.Family, weight, base64.StdEncoding.EncodeToString(fonts.TTF(f)))
	}
	for _, c := range []struct{ class, colour string }{{"gone", "#b3261e"}, {"come", "#0b57d0"}} {
		for _, p := range drawing.Pens() {
			fmt.Fprintf(&b, ".%s .cs-%v{stroke:%s}", c.class, p, c.colour)
		}
		for t := drawing.White; t <= drawing.Black; t++ {
			opacity := ".3"
			if t == drawing.White { // what knocks out covers nothing here
				opacity = "0"
			}
			fmt.Fprintf(&b, ".%s .cs-fill-%v{fill:%s;fill-opacity:%s}", c.class, t, c.colour, opacity)
		}
		fmt.Fprintf(&b, ".%[1]s .cs-t,.%[1]s .cs-rt{fill:%[2]s}.felt.%[1]s{fill:%[2]s}\n", c.class, c.colour)
	}
	b.WriteString(`.stays{opacity:.3}.felt{fill-opacity:.2}
body{font:15px/1.4 sans-serif;margin:1.5em;color:#111;background:#f4f4f4}
.row{display:grid;grid-template-columns:repeat(3,1fr);gap:8px;content-visibility:auto;contain-intrinsic-size:auto 24em}
figure{margin:0}figure svg{width:100%;height:auto;border:1px solid #888;background:#fff}
summary{font-weight:bold;cursor:pointer}li{overflow-wrap:anywhere}
`)
	return b.String()
}

var pageTemplate = template.Must(template.New("page").Parse(`<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8"/>
<title>Golden sheets: what changed</title><style>{{.Style}}</style></head><body>
<h1>Golden sheets: what changed</h1>
<p>{{.Note}}
Red was there and is gone, blue is new. What moved or reads otherwise shows as both.</p>
<ul>{{range .Cases}}<li><a href="#case-{{.Name}}">{{.Name}}</a>: {{template "tally" .}}</li>{{end}}</ul>
{{range .Cases}}<h2 id="case-{{.Name}}">{{.Name}}</h2><p>{{template "tally" .}}</p>
{{range .Sheets}}{{template "sheet" .}}{{end}}
{{if .Frames}}<h3>Frame and title block alone</h3>{{range .Frames}}{{template "sheet" .}}{{end}}{{end}}
{{if .Files}}<h3>Other files</h3>
{{range .Files}}<details><summary>{{.Name}}: {{.State}}</summary>
<ul>{{range .Words}}<li>{{.}}</li>{{end}}</ul></details>{{end}}{{end}}
{{end}}</body></html>
{{define "tally"}}{{len .Sheets}} sheets changed ({{.New}} of them new, {{.Removed}} removed), {{/*
*/}}{{len .Frames}} in the frame alone, {{.Same}} as before, {{len .Files}} other files changed{{end}}
{{define "sheet"}}<details open="open"><summary>{{.ID}}: {{.State}}</summary>
<ul>{{range .Words}}<li>{{.}}</li>{{end}}</ul>
{{if or .Was .Is}}<div class="row">
<figure>{{.Was}}<figcaption>{{if .Was}}before{{end}}</figcaption></figure>
<figure>{{.Is}}<figcaption>{{if .Is}}after{{end}}</figcaption></figure>
<figure>{{.To}}<figcaption>{{if .To}}difference{{end}}</figcaption></figure></div>{{end}}
</details>{{end}}`))

// The page of a case with a sheet that changed, a new one, one removed and one
// of another frame names each, draws what there is to draw, and is well formed.
func TestPage(t *testing.T) {
	sheet := func(words, number string) []byte {
		s := drawing.Scene{Name: "s", W: 42000, H: 29700}
		s.Text(drawing.Pt(5000, 5000), words, drawing.Style{})
		s.Line(drawing.Thick, drawing.Pt(100, 100), drawing.Pt(9000, 100))
		s.Group(drawing.Frame, "title", func(g *drawing.Scene) { g.Text(drawing.Pt(9000, 9000), number, drawing.Style{}) })
		return []byte(s.Dump())
	}
	was := fstest.MapFS{}
	for n, b := range map[string][]byte{
		"scenes/changed.txt": sheet("10 & 12", "1"), "scenes/gone.txt": sheet("gone", "2"),
		"scenes/frame.txt": sheet("frame", "3 of 9"),
		"scenes/older.txt": []byte("in a form of long ago"), "scenes/same.txt": sheet("same", "4"),
		"csv/pieces.csv": []byte("mark,length\nE-01,10\n"),
	} {
		was[n] = &fstest.MapFile{Data: b}
	}
	c := &changes{note: "Before: by hand.", was: map[string]fs.FS{"case": was}}
	c.files = map[string]map[string][]byte{"case": {
		"scenes/changed.txt": sheet("10 < 13", "1"), "scenes/new.txt": sheet("new", "2"),
		"scenes/frame.txt": sheet("frame", "3 of 10"),
		"scenes/older.txt": sheet("older", "5"), "scenes/same.txt": sheet("same", "4"),
		"csv/pieces.csv": []byte("mark,length\nE-01,11\n"),
	}}
	path, err := c.write(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	text := string(b)
	for _, want := range []string{
		"4 sheets changed (1 of them new, 1 removed), 1 in the frame alone, 1 as before, 1 other files changed",
		"changed: changed", "gone: removed", "new: new", "frame: changed", "older: changed", "no picture of before: line 1",
		"“10 &amp; 12” is now “10 &lt; 13”", "1 lines removed, 1 added", "E-01,11", "Frame and title block alone",
		`<path class="felt gone"`, `<path class="felt come"`, `<g class="stays">`,
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	if got, want := strings.Count(text, "<svg"), 3+1+1+3+1; got != want {
		t.Errorf("%d pictures, want %d", got, want)
	}
	if err := wellFormed(b); err != nil {
		t.Errorf("the page is not well formed: %v", err)
	}
	if _, err := c.write("page"); err == nil {
		t.Error("the page was written into the repository")
	}
}
