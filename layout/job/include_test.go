package job

import (
	"crypto/sha256"
	"encoding/hex"
	"io/fs"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"copingset/layout/finding"
	"copingset/layout/length/draws"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"
)

// parts takes a job file apart at its top-level keys.
func parts(text string) (names []string, body map[string]string) {
	top := regexp.MustCompile(`(?m)^([a-z]+):`)
	starts := top.FindAllStringSubmatchIndex(text, -1)
	body = map[string]string{}
	for i, s := range starts {
		end := len(text)
		if i+1 < len(starts) {
			end = starts[i+1][0]
		}
		name := text[s[2]:s[3]]
		names, body[name] = append(names, name), text[s[0]:end]
	}
	return names, body
}

func goodBase(t testing.TB) string {
	t.Helper()
	data, err := os.ReadFile("testdata/good/base.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

const formatLine = "format: " + formatWord + "\n"

// A job means the same however its parts are spread over files.
func TestIncludedIsTheSame(t *testing.T) {
	names, body := parts(goodBase(t))
	whole, list := Read(fstest.MapFS{"job.yaml": {Data: []byte(goodBase(t))}}, "job.yaml")
	if whole == nil {
		t.Fatal(list)
	}
	draws.Check(t, 25, func(t *rapid.T) {
		files := map[string]string{"job.yaml": formatLine + "include: [a.yaml, shop/b.yaml]\n", "a.yaml": formatLine, "shop/b.yaml": formatLine}
		for _, n := range names {
			switch {
			case n == "format":
			case n == "perimeters":
				files["job.yaml"] += body[n]
			default:
				files[rapid.SampledFrom([]string{"job.yaml", "a.yaml", "shop/b.yaml"}).Draw(t, n)] += body[n]
			}
		}
		fsys := fstest.MapFS{}
		for name, text := range files {
			fsys["here/"+name] = &fstest.MapFile{Data: []byte(text)}
		}
		j, list := Read(fsys, "here/job.yaml")
		if j == nil || len(list) > 0 {
			t.Fatalf("findings %v", list)
		}
		if d := cmp.Diff(whole, j, cmpopts.IgnoreTypes(finding.Place{}), cmpopts.IgnoreFields(Job{}, "Sources"), cmpopts.IgnoreUnexported(Job{}, Perimeter{})); d != "" {
			t.Fatal(d)
		}
		if j.Digest() != whole.Digest() {
			t.Fatal("the digests of what was read differ")
		}
	})
}

func TestIncludes(t *testing.T) {
	_, body := parts(goodBase(t))
	rest := "" // the job without its system
	for _, n := range []string{"job", "units", "paper", "packing", "membrane", "fasteners", "assemblies", "walls", "pressures", "site", "crating", "perimeters"} {
		if body[n] == "" {
			t.Fatal("no", n)
		}
		rest += body[n]
	}
	system := formatLine + body["system"]
	link := &fstest.MapFile{Data: []byte("shop.yaml"), Mode: fs.ModeSymlink}
	tests := []struct {
		name string
		job  string // after the format
		more fstest.MapFS
		want []string // a part of each finding
	}{
		{"one file", "include: shop.yaml\n" + rest, nil, nil},
		{"upwards", "include: [../shop.yaml]\n" + rest, nil, []string{"job.yaml:2:11: error: the included file `../shop.yaml` is not there; check the name [file-missing]"}},
		{"out of reach", "include: [../../shop.yaml]\n" + rest, nil,
			[]string{"job.yaml:2:11: error: the included file `../../shop.yaml` does not lie in the folder of the job; move it into the folder of the job or below it; or put an empty file copingset.root into"}},
		{"absolute", "include: /shop.yaml\n" + rest, nil, []string{"is not named by a path from this file; name it by its path from the folder of this file, like ../shop/shop.yaml [file-path]"}},
		{"a drive", "include: 'C:/shop.yaml'\n" + rest, nil, []string{"is not named by a path from this file"}},
		{"backslash", "include: ..\\shop.yaml\n" + rest, nil, []string{"is named with a backslash; write `/` between folders"}},
		{"long", "include: " + strings.Repeat("x", 201) + "\n" + rest, nil, []string{"has a path that is longer than 200 letters"}},
		{"link", "include: link.yaml\n" + rest, fstest.MapFS{"here/link.yaml": link}, []string{"the included file `link.yaml` is a link, and links are not followed; name the file that it leads to, or put a copy in its place [file-link]"}},
		{"folder", "include: sub\n" + rest, fstest.MapFS{"here/sub/a": {}}, []string{"the included file `sub` is a folder"}},
		{"through a file", "include: shop.yaml/x.yaml\n" + rest, nil, []string{"`shop.yaml/x.yaml` is not there"}},
		{"no file", "include: []\n" + rest, nil, []string{"job.yaml:2:1: error: include names no file; write the path of a file"}},
		{"empty", "include:\n" + rest, nil, []string{"include names no file"}},
		{"a group", "include: {a: b}\n" + rest, nil, []string{"include is a list of files, not a group of keys"}},
		{"a list in it", "include: [[shop.yaml]]\n" + rest, nil, []string{"an item of include is no path of a file"}},
		{"many", "include: [" + strings.Repeat("shop.yaml, ", 21) + "]\n" + rest, nil, []string{"include names 21 files, and 20 are the most"}},
		{"itself", "include: [shop.yaml, ./job.yaml]\n" + rest, nil, []string{"job.yaml:2:22: error: the included file `./job.yaml` would include itself; name another file [include-twice]"}},
		{"twice", "include: [shop.yaml, sub/../shop.yaml]\n" + rest, nil, []string{"`sub/../shop.yaml` is included twice; name it once"}},
		{"includes again", "include: more.yaml\n" + rest, fstest.MapFS{"here/more.yaml": {Data: []byte(formatLine + "include: [shop.yaml]\n")}},
			[]string{"more.yaml:2:1: error: `include`: an included file includes nothing itself; name the file in the job file's own list [include-key]"}},
		{"walls", "include: more.yaml\n" + rest, fstest.MapFS{"here/more.yaml": {Data: []byte(formatLine + body["perimeters"])}},
			[]string{"more.yaml:2:1: error: `perimeters`: the walls stand in the job file; move them there [include-key]"}},
		{"no format", "include: more.yaml\n" + rest, fstest.MapFS{"here/more.yaml": {Data: []byte(body["system"])}}, []string{"more.yaml:1:1: error: the included file does not say its form; begin the file with `format: copingset/"}},
		{"other format", "include: more.yaml\n" + rest, fstest.MapFS{"here/more.yaml": {Data: []byte("format: copingset/9\n" + body["system"])}}, []string{"more.yaml:1:9: error: the form `copingset/9` is not known here"}},
		{"nothing in it", "include: more.yaml\n" + rest, fstest.MapFS{"here/more.yaml": {}}, []string{"more.yaml:1:1: error: the included file is empty"}},
		{"a table", "include: more.yaml\n" + rest, fstest.MapFS{"here/more.yaml": {Data: []byte("run,station\n")}}, []string{"more.yaml:1:1: error: this is no file that a job can include"}},
		{"unreadable", "include: more.yaml\n" + rest, fstest.MapFS{"here/more.yaml": {Data: []byte("format: copingset/2\nsystem: {\n")}}, []string{"more.yaml:"}},
		{"unknown key", "include: [shop.yaml, more.yaml]\n" + rest, fstest.MapFS{"here/more.yaml": {Data: []byte(formatLine + "sites: {}\n")}},
			[]string{"more.yaml:2:1: error: the key `sites` is not known here; did you mean `site`?"}},
		{"a slip in it", "include: [shop.yaml, more.yaml]\n" + strings.Replace(rest, body["crating"], "", 1), fstest.MapFS{
			"here/more.yaml": {Data: []byte(formatLine + strings.Replace(body["crating"], "weight_most:", "weight_most: heavy #", 1))}},
			[]string{"more.yaml:3:16: error: crating.weight_most: "}},
		{"both state it", "include: [shop.yaml, more.yaml]\n" + rest, fstest.MapFS{"here/more.yaml": {Data: []byte(formatLine + "system: {stock: 10'-0\"}\n")}},
			[]string{"more.yaml:2:10: error: system.stock is stated in shop.yaml and in more.yaml, and neither goes before the other (see also shop.yaml:"}},
		{"two halves", "include: [shop.yaml, more.yaml]\nsystem: {least_piece: 2'-6\"}\n" + rest, fstest.MapFS{
			"here/shop.yaml": {Data: []byte(strings.Replace(system, "  stock: ", "  #", 1))},
			"here/more.yaml": {Data: []byte(formatLine + "system: {stock: 10'-0\"}\n")}},
			[]string{"job.yaml:3:10: note: system.least_piece is `2'-6\"` here, in place of `2'-4\"` in shop.yaml (see also shop.yaml:"}},
		{"the same again", "include: shop.yaml\nsystem: {least_piece: 2'-4\"}\n" + rest, nil, nil},
		{"a list", "include: [shop.yaml, more.yaml]\n" + rest, fstest.MapFS{"here/more.yaml": {Data: []byte(formatLine + "site: {metal_temperatures: [30 F]}\n")}},
			[]string{"note: site.metal_temperatures is a list of 6 here, in place of a list of one in more.yaml"}},
		{"widths whole", "include: shop.yaml\nsystem: {inside_width: {offered: [12 1/2\", 13\", 13 1/4\"]}}\n" + rest, nil,
			[]string{"note: system.inside_width is a group of keys here, in place of a group of keys in shop.yaml"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			fsys := fstest.MapFS{"here/shop.yaml": {Data: []byte(system)}, "here/job.yaml": {Data: []byte(formatLine + tt.job)}}
			for n, f := range tt.more {
				fsys[n] = f
			}
			j, list := Read(fsys, "here/job.yaml")
			if (j == nil) != list.HasErrors() {
				t.Errorf("job %v, findings %v", j != nil, list)
			}
			var got []string
			for _, f := range list {
				got = append(got, f.String())
				plainWords(t, f.String())
			}
			if len(got) != len(tt.want) {
				t.Fatalf("got %q\nwant %q", got, tt.want)
			}
			for i, w := range tt.want {
				if !strings.Contains(got[i], w) {
					t.Errorf("got %s\nwant %s", got[i], w)
				}
			}
		})
	}
}

// Every file that is read is named with the digest of its bytes.
func TestSources(t *testing.T) {
	_, body := parts(goodBase(t))
	system := "\uFEFF" + strings.ReplaceAll(formatLine+body["system"], "\n", "\r\n")
	job := strings.Replace(goodBase(t), body["system"], "include: ../system.yaml\n", 1)
	job = strings.Replace(job, "    starts:", "    survey: day/one.csv\n    starts:", 1)
	const csv = "run,station,width,street_top,roof_top,offset\n"
	j, list := Read(fstest.MapFS{"jobs/job.yaml": {Data: []byte(job)}, "system.yaml": {Data: []byte(system)}, "jobs/day/one.csv": {Data: []byte(csv)}}, "jobs/job.yaml")
	if j == nil {
		t.Fatal(list)
	}
	digest := func(s string) string { sum := sha256.Sum256([]byte(s)); return hex.EncodeToString(sum[:]) }
	want := []Source{{"job.yaml", "job file", digest(job)}, {"../system.yaml", "included file", digest(system)}, {"day/one.csv", "survey", digest(csv)}}
	if !slices.Equal(j.Sources, want) {
		t.Errorf("got  %v\nwant %v", j.Sources, want)
	}
	same(t, "short", Source{Digest: "0123456789abcdef"}.Short(), "012345 6789ab")
}
