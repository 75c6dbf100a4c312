package job

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"
)

// want is a finding that a bad file announces.
type want struct {
	file string
	line int
	code string
	text string
	met  bool
}

// wants reads the announcements; see testdata/bad/README.md.
func wants(t *testing.T, file, text string) []*want {
	form := regexp.MustCompile(`# want(?: in (\S+))?(?: at (\d+)| (below))?: (.*)$`)
	lines := strings.Split(text, "\n")
	var all []*want
	for i, line := range lines {
		m := form.FindStringSubmatch(line)
		if m == nil {
			continue
		}
		w := want{file: file, line: i + 1}
		if m[1] != "" {
			w.file = m[1]
		}
		switch {
		case m[2] != "":
			w.line, _ = strconv.Atoi(m[2])
		case m[3] != "":
			for w.line < len(lines) && strings.HasPrefix(strings.TrimSpace(lines[w.line]), "# want") {
				w.line++
			}
			w.line++
		}
		for _, part := range strings.Split(m[4], " | ") {
			one := w
			one.code, one.text, _ = strings.Cut(part, " ")
			all = append(all, &one)
		}
	}
	if len(all) == 0 {
		t.Fatal("the file announces nothing")
	}
	return all
}

// completed adds the parts that a bad file leaves out.
func completed(t *testing.T, bad, base string) string {
	if strings.HasPrefix(bad, "# alone") {
		return bad
	}
	top := regexp.MustCompile(`(?m)^([a-z]+):`)
	var own []string
	for _, m := range top.FindAllStringSubmatch(bad, -1) {
		own = append(own, m[1])
	}
	starts := top.FindAllStringSubmatchIndex(base, -1)
	if len(own) == 0 || len(starts) == 0 {
		t.Fatal("no parts found")
	}
	out := bad
	for i, s := range starts {
		end := len(base)
		if i+1 < len(starts) {
			end = starts[i+1][0]
		}
		if !slices.Contains(own, base[s[2]:s[3]]) {
			out += base[s[0]:end]
		}
	}
	return out
}

func TestBad(t *testing.T) {
	base, err := os.ReadFile("testdata/good/base.yaml")
	if err != nil {
		t.Fatal(err)
	}
	files, err := filepath.Glob("testdata/bad/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatal("no bad files", err)
	}
	for _, file := range files {
		name := filepath.Base(file)
		t.Run(name, func(t *testing.T) {
			bad, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			all := wants(t, name, string(bad))
			fsys := fstest.MapFS{name: {Data: []byte(completed(t, string(bad), string(base)))}}
			csv := strings.TrimSuffix(name, ".yaml") + ".csv"
			if data, err := os.ReadFile("testdata/bad/" + csv); err == nil {
				fsys[csv] = &fstest.MapFile{Data: data}
			}
			j, list := Read(fsys, name)
			if j != nil && list.HasErrors() {
				t.Error("a job with errors was handed out")
			}
			for _, f := range list {
				announced := false
				for _, w := range all {
					if w.file == f.At.File && w.line == f.At.Line && w.code == f.Code && strings.Contains(f.String(), w.text) {
						w.met, announced = true, true
					}
				}
				if !announced {
					t.Errorf("not announced: %v", f)
				}
				plainWords(t, f.String())
			}
			for _, w := range all {
				if !w.met {
					t.Errorf("%s:%d: announced and not found: %s %s", w.file, w.line, w.code, w.text)
				}
			}
		})
	}
}

// plainWords fails on the words of the program's insides.
func plainWords(t *testing.T, s string) {
	t.Helper()
	if w := regexp.MustCompile(`yaml: (line|did|found|unm)|unmarshal|!!|\bu?int\d*\b|\bfloat|\bstring\b|\bstruct\b|\bmapping|\bscalar|strconv|<nil>|%!|parse error|[a-z]\.[A-Z]`).FindString(s); w != "" {
		t.Errorf("the message speaks of %q: %s", w, s)
	}
}

// TestFiles reads what is no job file at all.
func TestFiles(t *testing.T) {
	big := bytes.Repeat([]byte("a"), 50<<20)
	good, err := os.ReadFile("testdata/good/base.yaml")
	if err != nil {
		t.Fatal(err)
	}
	lastLine := strings.Count(string(good), "\n")
	fsys := fstest.MapFS{
		"big.yaml":       {Data: big},
		"growing.yaml":   {Data: big},
		"dir/x.yaml":     {Data: []byte("x")},
		"pipe.yaml":      {Mode: fs.ModeNamedPipe},
		"heron.yaml":     {Data: []byte("x: 1")},
		"empty.yaml":     {},
		"comment.yaml":   {Data: []byte("# nothing\n")},
		"latin.yaml":     {Data: []byte("format: copingset/2\njob: \xe9t\xe9\n")},
		"wide.yaml":      {Data: []byte("\xff\xfef\x00")},
		"zero.yaml":      {Data: []byte("format: copingset/2\na\x00")},
		"bell.yaml":      {Data: []byte("format: copingset/2\r\njob: ä\a")},
		"turn.yaml":      {Data: []byte("format: \u202ecopingset/2")},
		"bom.yaml":       {Data: append([]byte("\uFEFF"), good...)},
		"crlf.yaml":      {Data: []byte(strings.ReplaceAll(string(good), "\n", "\r\n"))},
		"crlf-bad.yaml":  {Data: []byte(strings.ReplaceAll(string(good)+"extra: 1\n", "\n", "\r\n"))},
		"bigsurvey.yaml": {Data: []byte(strings.Replace(string(good), "    starts:", "    survey: big.csv\n    starts:", 1))},
		"big.csv":        {Data: big},
		"absolute.yaml":  {Data: []byte(strings.Replace(string(good), "    starts:", "    survey: /big.csv\n    starts:", 1))},
		"sub/job.yaml":   {Data: []byte(strings.Replace(string(good), "    starts:", "    survey: ../big.csv\n    starts:", 1))},
		"dirsurvey.yaml": {Data: []byte(strings.Replace(string(good), "    starts:", "    survey: dir\n    starts:", 1))},
	}
	tests := []struct{ name, want string }{
		{"big.yaml", "big.yaml: error: the job file `big.yaml` is larger than 4 MB, which no job file is; check that it is the right file [file-size]"},
		{"growing.yaml", "larger than 4 MB"},
		{"dir", "dir: error: the job file `dir` is a folder; name the file in it [file-folder]"},
		{"hern.yaml", "did you mean `heron.yaml`? [file-missing]"},
		{"nowhere/at/all.yaml", "is not there; check the name [file-missing]"},
		{"pipe.yaml", "is not an ordinary file"},
		{"../up.yaml", "[file-path]"},
		{"", "[file-path]"},
		{"heron.yaml", "heron.yaml:1:1: error: this is not a job file"},
		{"empty.yaml", "the file is empty"},
		{"comment.yaml", "the file is empty"},
		{"latin.yaml", "latin.yaml:2:6: error: the file is not text in UTF-8 from here on; save it again as UTF-8"},
		{"wide.yaml", "the file is saved as UTF-16"},
		{"zero.yaml", "zero.yaml:2:2: error: the file is not text: a zero byte"},
		{"bell.yaml", "bell.yaml:2:7: error: a hidden control character (U+0007)"},
		{"turn.yaml", "turn.yaml:1:9: error: a hidden control character (U+202E)"},
		{"bom.yaml", ""},
		{"crlf.yaml", ""},
		{"crlf-bad.yaml", fmt.Sprintf("crlf-bad.yaml:%d:1: error: the key `extra`", lastLine+1)},
		{"bigsurvey.yaml", ": error: the survey `big.csv` is larger than 8 MB"},
		{"absolute.yaml", "the survey `/big.csv` is not named by a path from this file; name it by its path from the folder of this file, like ../shop/big.csv [file-path]"},
		{"sub/job.yaml", "job.yaml:151:13: error: the survey `../big.csv` is larger"},
		{"dirsurvey.yaml", ": error: the survey `dir` is a folder"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var in fs.FS = fsys
			if tt.name == "growing.yaml" {
				in = small{fsys}
			}
			j, list := Read(in, tt.name)
			if tt.want == "" {
				if j == nil || len(list) > 0 {
					t.Errorf("findings: %v", list)
				}
				return
			}
			if len(list) != 1 || j != nil {
				t.Fatalf("job %v, findings %v", j != nil, list)
			}
			if s := list[0].String(); !strings.Contains(s, tt.want) {
				t.Errorf("got %s\nwant %s", s, tt.want)
			}
			plainWords(t, list[0].String())
		})
	}
}

// small is a file system that understates sizes, as a file being written does.
type small struct{ fstest.MapFS }

func (s small) Stat(name string) (fs.FileInfo, error) {
	info, err := s.MapFS.Stat(name)
	return smallInfo{info}, err
}

func (s small) Lstat(name string) (fs.FileInfo, error) {
	info, err := s.MapFS.Lstat(name)
	return smallInfo{info}, err
}

type smallInfo struct{ fs.FileInfo }

func (smallInfo) Size() int64 { return 0 }

// A file with very many slips lists some of each kind and says how many more.
func TestManySlips(t *testing.T) {
	var text bytes.Buffer
	text.WriteString("format: copingset/2\njob:\n")
	for i := range 50_000 {
		fmt.Fprintf(&text, "  extra%d: 1\n", i)
	}
	_, list := Read(fstest.MapFS{"a.yaml": {Data: text.Bytes()}}, "a.yaml")
	unknown, more := 0, ""
	for _, f := range list {
		switch f.Code {
		case "key-unknown":
			unknown++
		case "more-alike":
			more = f.What
		}
	}
	if unknown != mostAlike || more != "49940 more findings of the kind key-unknown are not listed" {
		t.Errorf("%d listed, %q", unknown, more)
	}
}

// TestEdits changes one thing of a good job.
func TestEdits(t *testing.T) {
	data, err := os.ReadFile("testdata/good/base.yaml")
	if err != nil {
		t.Fatal(err)
	}
	base := string(data)
	fsys := func(text string) fstest.MapFS {
		return fstest.MapFS{"a.yaml": {Data: []byte(text)},
			"comments.csv": {Data: []byte("# nothing\n\n")},
			"tabs.csv":     {Data: []byte("run\tstation\n")},
			"heading.csv":  {Data: []byte("run,station,width,street_top,roof_top,offset,\n")},
			"letters.csv":  {Data: []byte("note,run,station,width,street_top,roof_top,offset\nfüü,Ä,0,1,0,0,0\n")},
		}
	}
	tests := []struct {
		old, new string
		want     []string // a part of each finding
	}{
		{"most: 7/8\"}", "most: 1/4\"}", []string{"note: the rear clearance and one step of width together"}},
		{"step: 1/4\"}", "step: 1\"}", []string{"[play-step]"}},
		{"metal_temperatures: [20 F", "metal_temperatures: [-20 F", []string{"note: site.metal_temperatures goes beyond"}},
		{"    starts: free", "    starts: free\n    survey: comments.csv", []string{"comments.csv:1:1: error: the survey has no rows; write the heading run,station,width,"}},
		{"    starts: free", "    starts: free\n    survey: heading.csv", nil},
		{"    starts: free", "    starts: free\n    survey: tabs.csv", []string{"separate the columns by commas or semicolons, not tabs"}},
		{"    starts: free", "    starts: free\n    survey: letters.csv", []string{"letters.csv:2:5: error: the job has no run `Ä`"}},
		{"  end_cap: {leg: 2'-0\", clearance: 1/4\"}\n", "", []string{"system: `end_cap` is missing, and a run has a free end (see also a.yaml:"}},
		{"    starts: free", "    starts: wall", nil},
		{"  wall_end: {leg: 2'-0\", clearance: 1/8\", upstand: 4\"}\n", "", nil},
		{"basis: measured", "basis: drawing", nil}, // a later room holds it
		{"issued: 2026-03-16", "issued:", []string{"job.issued has no value; write the date of issue"}},
		{"pressures:\n", "pressures: #\n", nil},
		{"name: Heron Street Archive", "name: \"Heron\\nStreet\"", nil},
		{"name: Heron Street Archive", "name: " + strings.Repeat("Heron ", 100), []string{"the text is longer than 500 letters"}},
		{"0.050\"", "0.050\u201d", nil},
	}
	for _, tt := range tests {
		t.Run(tt.new[:min(len(tt.new), 30)], func(t *testing.T) {
			text := strings.Replace(base, tt.old, tt.new, 1)
			if text == base {
				t.Fatal("nothing to change")
			}
			_, list := Read(fsys(text), "a.yaml")
			var got []string
			for _, f := range list {
				got = append(got, f.String())
			}
			if len(got) != len(tt.want) {
				t.Fatalf("got %q\nwant %q", got, tt.want)
			}
			for _, w := range tt.want {
				if !slices.ContainsFunc(got, func(g string) bool { return strings.Contains(g, w) }) {
					t.Errorf("got %q\nwant %q", got, w)
				}
			}
		})
	}
}

// Findings that are too many to list are counted in the file where they stand.
func TestManySlipsOfASurvey(t *testing.T) {
	csv := "run,station (in),width (in),street_top (in),roof_top (in),offset (in)\n"
	for i := range 200 {
		csv += fmt.Sprintf("A,%d,12,0,0,oops\n", i)
	}
	for _, f := range surveyedBy(t, csv) {
		if f.Code == "more-alike" {
			if f.At.File != "a.csv" || f.At.Line != 62 || !strings.HasPrefix(f.What, "140 more findings of the kind value-length") {
				t.Errorf("%v", f)
			}
			return
		}
	}
	t.Error("nothing is left out")
}
