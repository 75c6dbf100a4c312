package window

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/sheets"
)

const host, path = "127.0.0.1:4000", "/secret/"

// sample is a window on a copy of a sample job in a folder of its own.
func sample(t *testing.T) (w *Window, folder string) {
	t.Helper()
	folder = t.TempDir()
	if err := os.CopyFS(folder, os.DirFS("../../../../samples")); err != nil {
		t.Fatal(err)
	}
	return New(func() Solved {
		j, found := job.Read(os.DirFS(folder), "rectangle/job.yaml")
		s := Solved{Findings: found, Files: []File{{"job.yaml", filepath.Join(folder, "rectangle/job.yaml")}}}
		if j != nil {
			s.Layout, s.Findings = layout.Build(j)
			for _, q := range j.Sources[1:] {
				s.Files = append(s.Files, File{q.Name, filepath.Join(folder, "rectangle", q.Name)})
			}
		}
		return s
	}, sheets.Options{For: sheets.Crew}), folder
}

func (w *Window) ask(method, target string, head map[string]string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(method, target, nil)
	r.Host = host
	for k, v := range head {
		if k == "Host" {
			r.Host = v
		} else {
			r.Header.Set(k, v)
		}
	}
	out := httptest.NewRecorder()
	w.Handler(host, path).ServeHTTP(out, r)
	return out
}

func (w *Window) now(t *testing.T) state {
	t.Helper()
	var s state
	if err := json.Unmarshal(w.ask("GET", path+"state", nil).Body.Bytes(), &s); err != nil {
		t.Fatal(err)
	}
	return s
}

func TestOthersAreRefused(t *testing.T) {
	w, _ := sample(t)
	for _, c := range []struct {
		method, target string
		head           map[string]string
		want           int
	}{
		{"GET", path, nil, http.StatusOK},
		{"GET", path + "state", map[string]string{"Origin": "http://" + host}, http.StatusOK},
		{"GET", path + "state", map[string]string{"Origin": "http://elsewhere.example"}, http.StatusForbidden},
		{"GET", path + "state", map[string]string{"Origin": "null"}, http.StatusForbidden},
		{"GET", path + "state", map[string]string{"Host": "elsewhere.example:4000"}, http.StatusForbidden},
		{"GET", path + "state", map[string]string{"Sec-Fetch-Site": "cross-site"}, http.StatusForbidden},
		{"GET", path + "state", map[string]string{"Sec-Fetch-Site": "same-site"}, http.StatusForbidden},
		{"POST", path + "state", nil, http.StatusMethodNotAllowed},
		{"DELETE", path + "sheet/cover", nil, http.StatusMethodNotAllowed},
		{"GET", "/", nil, http.StatusNotFound},
		{"GET", "/state", nil, http.StatusNotFound},
		{"GET", path + "window.go", nil, http.StatusNotFound},
		{"GET", path + "sheet/none", nil, http.StatusNotFound},
	} {
		if got := w.ask(c.method, c.target, c.head); got.Code != c.want {
			t.Errorf("%s %s %v: %d, want %d", c.method, c.target, c.head, got.Code, c.want)
		}
	}
	head := w.ask("GET", path, nil).Header()
	if p := head.Get("Content-Security-Policy"); !strings.HasPrefix(p, "default-src 'none'") {
		t.Errorf("the page may fetch: %q", p)
	}
}

// The page asks for nothing that is not its own.
func TestPageNamesNothingOutside(t *testing.T) {
	for _, name := range []string{"index.html", "window.js", "window.css"} {
		data, err := page.ReadFile("page/" + name)
		if err != nil {
			t.Fatal(err)
		}
		for _, out := range []string{"http:", "https:", "//cdn", "@import", "url("} {
			if strings.Contains(string(data), out) {
				t.Errorf("%s names %s", name, out)
			}
		}
	}
}

// Only what changed is given out anew, only files of the job are shown, and an error
// keeps the sheets of before.
func TestWindowFollowsItsFiles(t *testing.T) {
	w, folder := sample(t)
	w.refresh()
	first := w.now(t)
	if first.Stale || len(first.Sheets) < 10 || first.Changed != len(first.Sheets) {
		t.Fatalf("%d sheets, %d changed, stale %v", len(first.Sheets), first.Changed, first.Stale)
	}
	run := ""
	for _, s := range first.Sheets {
		if s.Number == "3.N.1" {
			run = s.ID
		}
	}
	was := w.ask("GET", path+"sheet/"+run, nil).Body.String()
	if !strings.HasPrefix(was, "<?xml") && !strings.HasPrefix(was, "<svg") {
		t.Fatalf("no drawing: %.40s", was)
	}
	edit := func(name, was, is string) {
		file := filepath.Join(folder, name)
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(string(text), was) {
			t.Fatalf("%s does not say %q", name, was)
		}
		if err := os.WriteFile(file, []byte(strings.Replace(string(text), was, is, 1)), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	before := w.stamps()
	edit("rectangle/job.yaml", "format: copingset/2", "format: copingset/2  # a remark")
	if after := w.stamps(); len(after) != len(before) || after[0] == before[0] {
		t.Error("a save is not seen")
	}
	w.refresh()
	if s := w.now(t); s.Changed != 0 || s.Version != first.Version+1 {
		t.Errorf("a remark changes %d sheets", s.Changed)
	}
	edit("rectangle/job.yaml", "name: lightning rod", "name: flagpole")
	w.refresh()
	now := w.now(t)
	if now.Changed == 0 || now.Changed == len(now.Sheets) {
		t.Errorf("an obstacle of one run changes %d of %d sheets", now.Changed, len(now.Sheets))
	}
	if is := w.ask("GET", path+"sheet/"+run, nil).Body.String(); is == was {
		t.Error("the sheet of its run is as it was")
	}
	edit("rectangle/job.yaml", "kind: roof ", "kind: rof ")
	w.refresh()
	if s := w.now(t); !s.Stale || s.Errors == 0 || len(s.Sheets) != len(now.Sheets) || s.Findings[0].Line == 0 {
		t.Errorf("an error: %+v", s.Findings)
	}
	for name, want := range map[string]int{"job.yaml": 200, "heron.csv": 200, "../copingset.root": 404, "/etc/hosts": 404} {
		if got := w.ask("GET", path+"file?name="+name, nil); got.Code != want {
			t.Errorf("the file %s: %d", name, got.Code)
		}
	}
}

// A finding leads to the sheet that draws its place.
func TestFindingsLeadToTheirPlace(t *testing.T) {
	w, _ := sample(t)
	if s := w.ask("GET", path+"state", nil).Body.String(); strings.Contains(s, "null") {
		t.Errorf("before anything is solved the page is told %s", s)
	}
	w.refresh()
	id := w.live.SheetOf(finding.Ref{Perimeter: "ROOF", Run: "S"})
	if !strings.HasPrefix(id, "run-") || w.live.SheetOf(finding.Ref{}) != "" {
		t.Errorf("run S is on %q", id)
	}
}
