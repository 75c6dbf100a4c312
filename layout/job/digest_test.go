package job

import (
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
)

func digestOf(t *testing.T, files map[string]string) string {
	t.Helper()
	fsys := fstest.MapFS{}
	for name, text := range files {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	j, list := Read(fsys, "job.yaml")
	if j == nil {
		t.Fatal(list)
	}
	return j.Digest()
}

// Records rest on the digest: a change of it here makes every record that was
// ever written look like that of another input.
func TestDigestIsPinned(t *testing.T) {
	said := map[string]string{}
	j := readGood(t, "every-key.yaml")
	for _, e := range j.Input() {
		said[e.Path] = e.Value
	}
	want := []Entry{
		{"job.issued", "{Year:2028 Month:2 Day:29 }"},
		{"job.name", `"Sluice House #4"`},
		{"system.metal.density", "7200"},
		{"system.metal.directional", `"yes"`},
		{"system.profile.top_slope", "52407779"},
		{"system.joint.coldest", "-20000"},
		{"system.inside_width.offered[3]", "360000000"},
		{"system.corner.supports[0].at[0]", "550"},
		{"assemblies[0].resistance.up", "{Pa:4200 Level:2 }"},
		{"assemblies[0].rows.rear", "3"},
		{"wind.edition", `"ASCE 7-22"`},
		{"wind.effective_area", "0.9"},
		{"perimeters[0].starts.tee", `{perimeter:"QUAY" run:"D1" }`},
		{"perimeters[0].runs[0].included", "-45000000"},
		{"perimeters[0].runs[0].obstacles[1].does[0]", `"pierce"`},
		{"perimeters[0].runs[0].readings[1].station", "4250000000"},
		{"perimeters[0].runs[0].readings[1].condition[1]", `"fixings"`},
		{"perimeters[0].runs[1].line", `"parallel"`},
		{"perimeters[0].runs[1].readings[0].photo[0]", `"14"`},
		{"perimeters[0].runs[2].grade", "{Most:10000000 Way:1 }"},
	}
	for _, e := range want {
		if said[e.Path] != e.Value {
			t.Errorf("%s: %s, want %s", e.Path, said[e.Path], e.Value)
		}
	}
	for _, unsaid := range []string{"format", "perimeters[0].survey"} {
		if v, is := said[unsaid]; is {
			t.Errorf("%s: %s is taken as part of what the file says", unsaid, v)
		}
	}
	one := &Job{said: want}
	if got, want := one.Digest(), "8f85d687ad78cb93edea595ee91efae2ed5d906ce097632907631d7d5f9d3f83"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

func TestDigestOfTheSameInput(t *testing.T) {
	b, err := os.ReadFile("testdata/good/base.yaml")
	if err != nil {
		t.Fatal(err)
	}
	base := string(b)
	want := digestOf(t, map[string]string{"job.yaml": base})
	rowsA := `        readings:
          - {station: 0, width: 12", street_top: 0, roof_top: -1/8", offset: 0}
          - {station: 10'-0", width: 12 1/8", street_top: 1/8", roof_top: 0, offset: 1/16"}
          - {station: 20'-0", width: 12", street_top: 0, roof_top: -1/8", offset: 0}
`
	rowsB := `        readings:
          - {station: 0, width: 12", street_top: 0, roof_top: -1/8", offset: 0}
          - {station: 15'-0", width: 12", street_top: 0, roof_top: -1/8", offset: 0}
`
	surveyed := strings.Replace(edit(t, edit(t, base, rowsA,
		""), rowsB, ""), "    starts:", "    survey: wall.csv\n    starts:", 1)
	// The runs in another order, a unit in the heading, a comment between.
	csv := "offset,run,station,width (in),street_top,roof_top\n0,B,0,12,0,-1/8\"\n0,A,0,12,0,-1/8\"\n# from here on in the rain\n" +
		"1/16\",A,10'-0\",12.125,1/8\",0\n0,A,20'-0\",12,0,-1/8\"\n0,B,15'-0\",12,0,-1/8\"\n"
	for name, files := range map[string]map[string]string{
		"comments": {"job.yaml": "# a comment\n" + edit(t, base,
			"  stock: 11'-6\"", "  stock: 11'-6\"   # as delivered\n")},
		"order": {"job.yaml": edit(t, edit(t, base,
			"units: imperial               # imperial | metric\n", ""), "\nmembrane:", "\nunits: imperial\nmembrane:")},
		"units": {"job.yaml": edit(t, base, "stock: 11'-6\"", "stock: 138 in")},
		"layout": {"job.yaml": edit(t, base,
			"  lap: {front: 1 1/4\", rear: 1\"}", "  lap:\n    rear: 1\"\n    front: 1.25 in")},
		"words":      {"job.yaml": edit(t, base, "slope_by: chair ", "slope_by: Chair ")},
		"one's list": {"job.yaml": edit(t, base, "at: [55%]", "at: 55%")},
		"survey":     {"job.yaml": surveyed, "wall.csv": csv},
		"name of the survey": {"job.yaml": edit(t, surveyed, "survey: wall.csv", "survey: readings.csv"),
			"readings.csv": csv},
	} {
		if got := digestOf(t, files); got != want {
			t.Errorf("%s: another digest for the same input", name)
		}
	}
	for name, files := range map[string]map[string]string{
		"a length":       {"job.yaml": edit(t, base, "stock: 11'-6\"", "stock: 11'-6 1/16\"")},
		"a word":         {"job.yaml": edit(t, base, "closer: right", "closer: left")},
		"a text":         {"job.yaml": edit(t, base, "T1", "T2")},
		"a key left out": {"job.yaml": edit(t, base, "  measured_by: D. Quill\n", "")},
		"a key added": {"job.yaml": edit(t, base,
			"measure_low: no", "measure_low: no\n    nailer: {anchor: bolt, report: R, allowable: 400 lb}")},
		"a reading":         {"job.yaml": edit(t, base, "width: 12 1/8\"", "width: 12 3/16\"")},
		"a row of a survey": {"job.yaml": surveyed, "wall.csv": edit(t, csv, "12.125", "12.1875")},
		"a photo in a row":  {"job.yaml": surveyed, "wall.csv": photographed(csv)},
		"readings exchanged": {"job.yaml": edit(t, base,
			"street_top: 1/8\", roof_top: 0,", "street_top: 0, roof_top: 1/8\",")},
	} {
		if got := digestOf(t, files); got == want {
			t.Errorf("%s: the same digest for another input", name)
		}
	}
}

// photographed adds a column of photos to the rows of a survey.
func photographed(csv string) string {
	lines := strings.Split(strings.TrimSpace(csv), "\n")
	for i, line := range lines {
		switch {
		case i == 0:
			lines[i] = "photo," + line
		case !strings.HasPrefix(line, "#"):
			lines[i] = "14," + line
		}
	}
	return strings.Join(lines, "\n") + "\n"
}

func edit(t *testing.T, text, old, new string) string {
	t.Helper()
	if !strings.Contains(text, old) {
		t.Fatalf("nothing to change: %s", old)
	}
	return strings.Replace(text, old, new, 1)
}

// Every value of the file with every key is part of its digest.
func TestEveryValueIsSaid(t *testing.T) {
	said := map[string]bool{}
	index := regexp.MustCompile(`\[\d+\]`)
	for _, e := range readGood(t, "every-key.yaml").Input() {
		path := index.ReplaceAllString(e.Path, "[]")
		said[path] = true
		said[strings.TrimSuffix(path, "[]")] = true
	}
	absent := []string{ // see TestEveryKeyIsInTheFile, and TestDigestIsPinned
		"format", "include", "perimeters[].survey", "perimeters[].face", "perimeters[].basis",
		"perimeters[].runs[].turn", "system.inside_width.least", "system.inside_width.most",
		"system.inside_width.step", "wind.kzt", "shop.relief.diameter",
	}
	for _, k := range Keys() {
		out := slices.Contains(absent, k.Path) || strings.HasPrefix(k.Path, takeoffKey+".") || // reaches no sheet
			strings.HasPrefix(k.Path, "progress.") // what is made and set belongs to no issue
		if k.Form != FormGroup && k.Form != FormList && said[k.Path] == out {
			t.Errorf("%s: said %v", k.Path, said[k.Path])
		}
	}
}
