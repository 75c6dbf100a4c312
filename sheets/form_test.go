package sheets

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"pgregory.net/rapid"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

func papers() []job.PaperSize {
	return []job.PaperSize{job.ANSIA, job.ANSIB, job.ANSIC, job.ANSID, job.ISOA4, job.ISOA3, job.ISOA2}
}

func samplesOf(t *testing.T) []string {
	jobs, err := filepath.Glob("../samples/*/job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, j := range jobs {
		out = append(out, filepath.Base(filepath.Dir(j)))
	}
	if len(out) < 3 {
		t.Fatalf("samples: %v", out)
	}
	return out
}

func unsurveyed(t *testing.T, sample string) *job.Job {
	t.Helper()
	j, found := job.ReadUnsurveyed(os.DirFS("../samples"), sample+"/job.yaml")
	if found.HasErrors() {
		t.Fatal(found)
	}
	return j
}

// checkForms looks forms over: nothing a reader stumbles over, every station of
// every run on its forms once, rows that a gloved hand can write in.
func checkForms(t interface{ Errorf(string, ...any) }, j *job.Job, o FormOptions) {
	got := Forms(j, o)
	for _, f := range faults(got) {
		t.Errorf("%s", f)
	}
	f := newForms(j, o)
	for i := range j.Perimeters {
		p := &j.Perimeters[i]
		for k := range p.Runs {
			want, blank := f.stations(p, &p.Runs[k]), 0
			for _, q := range f.run(p, k) {
				rows := len(q.stations) + q.blank
				if high := (f.foot() - f.table(q) - f.head(q)) / drawing.Unit(rows); high < 8*drawing.MM {
					t.Errorf("run %s: rows of %v", p.Runs[k].Name, high)
				}
				for _, s := range q.stations {
					if len(want) == 0 || !reflect.DeepEqual(want[0], s) {
						t.Errorf("run %s: station %v out of place", p.Runs[k].Name, s)
						return
					}
					want = want[1:]
				}
				blank = q.blank
			}
			if len(want) > 0 || blank == 0 {
				t.Errorf("run %s: %d stations on no form, %d empty rows", p.Runs[k].Name, len(want), blank)
			}
		}
	}
}

func TestFormsAreClean(t *testing.T) {
	for _, name := range samplesOf(t) {
		for _, z := range papers() {
			for _, u := range []job.Units{job.Imperial, job.Metric} {
				t.Run(fmt.Sprint(name, z, u), func(t *testing.T) {
					t.Parallel()
					j := unsurveyed(t, name)
					j.Units = u
					checkForms(t, j, FormOptions{Paper: &z})
				})
			}
		}
	}
}

func TestRandomFormsAreClean(t *testing.T) {
	t.Parallel()
	jobs := rapid.Custom(jobtest.Random)
	for seed := range 6 * randomJobs {
		j := named(jobs.Example(seed))
		j.Walls[0].MeasureLow = seed%2 == 0
		z := papers()[seed%7]
		o := FormOptions{Paper: &z}
		if seed%3 == 0 {
			o.Every = length.Length(3+seed) * in
		}
		checkForms(t, j, o)
	}
}

// Nothing of a form is cut off for want of room, in either language.
func TestFormsOfTheSamplesAreNotCut(t *testing.T) {
	t.Parallel()
	for _, name := range samplesOf(t) {
		for _, lang := range []words.Lang{words.English, words.Spanish} {
			for _, f := range Forms(unsurveyed(t, name), FormOptions{Lang: lang}) {
				if text := wordsOf(f.Scene); strings.Contains(text, "…") {
					t.Errorf("%s, language %d, form %s: %s", name, lang, f.Number, text)
				}
			}
		}
	}
}

// The form names the run, its neighbours, the boxes, the columns of the CSV, and
// the readings at leg depth only where they are asked for.
func TestFormSaysWhatItIs(t *testing.T) {
	j := named(jobtest.Job())
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(240*in, 120*in)}
	for i := range j.Perimeters[0].Runs {
		j.Perimeters[0].Runs[i].Readings = nil
	}
	for _, low := range []bool{false, true} {
		j.Walls[0].MeasureLow = low
		var got string
		for _, f := range Forms(j, FormOptions{Runs: []string{"B"}}) {
			got += wordsOf(f.Scene) + " "
		}
		for _, want := range []string{"RUN B", "LEFT: run A", "RIGHT: run C", "outside corner", "MEASURED BY", "DATE", "INSTRUMENTS", "LEVEL DATUM", "SURVEY LINE, FROM", "STREET SIDE",
			"station (ft-in)", "width (in)", "street_top", "roof_top", "offset (in)", "condition", "photo", "10′-0″", "right corner", "form 1 of", "RIGHT CORNER: MARK ON RUN B, LEFT", "MARK ON RUN C, RIGHT", "DIAGONAL", "FACE: STREET", "26-0317"} {
			if !strings.Contains(got, want) {
				t.Errorf("low %v: the form does not say %q", low, want)
			}
		}
		if strings.Contains(got, "width_low") != low {
			t.Errorf("low %v: width_low is asked for: %v", low, !low)
		}
	}
}

// filled types made-up readings into an empty survey as a person would.
func filled(s Schedule, comma rune) string {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	w.Comma = comma
	_ = w.Write(s.Header)
	for i, r := range s.Rows {
		r = slices.Clone(r)
		for k, h := range s.Header {
			name, _, _ := strings.Cut(h, " ")
			metric := strings.HasSuffix(h, "(mm)")
			switch name {
			case "station":
				if r[k] == "" { // an inch beyond the station before
					at, err := length.ParseIn(s.Rows[i-1][k], length.Millimetre)
					if err != nil {
						at, _ = length.Parse(s.Rows[i-1][k])
					}
					r[k] = length.Millimetres(at+in, 0)
					if !metric {
						r[k] += " mm"
					}
				}
			case "width", "width_low":
				r[k] = map[bool]string{true: "301,5", false: "12 1/8"}[metric]
				if comma == ',' && metric {
					r[k] = "301.5"
				}
			case "street_top", "roof_top", "offset", "offset_low":
				r[k] = "0"
			case "condition":
				if i == 1 {
					r[k] = "loose"
				}
			case "photo":
				if i == 1 {
					r[k] = "17"
				}
			}
		}
		_ = w.Write(r)
	}
	w.Flush()
	return b.String()
}

// What the form's CSV asks for is what the reader of surveys takes: filled in
// and saved as spreadsheets do, it reads back station by station.
func TestFormCSVReadsBack(t *testing.T) {
	for _, name := range samplesOf(t) {
		t.Run(name, func(t *testing.T) {
			text, err := os.ReadFile("../samples/" + name + "/job.yaml")
			if err != nil {
				t.Fatal(err)
			}
			included, err := filepath.Glob("../samples/*s/*.yaml") // of systems and firms
			if err != nil {
				t.Fatal(err)
			}
			files := regexp.MustCompile(`(?m)^ +(?:- )?survey: *(\S+)`).FindAllStringSubmatch(string(text), -1)
			j := unsurveyed(t, name)
			forms := FormCSV(j, FormOptions{})
			if len(forms) != len(files) {
				t.Fatalf("%d surveys for %d perimeters", len(forms), len(files))
			}
			for _, comma := range []rune{',', ';'} {
				fs := fstest.MapFS{name + "/job.yaml": {Data: text}}
				for _, f := range included {
					data, err := os.ReadFile(f)
					if err != nil {
						t.Fatal(err)
					}
					fs[strings.TrimPrefix(filepath.ToSlash(f), "../samples/")] = &fstest.MapFile{Data: data}
				}
				if list, err := os.ReadFile("../samples/" + name + "/confirm.txt"); err == nil {
					fs[name+"/confirm.txt"] = &fstest.MapFile{Data: list}
				}
				for i, s := range forms {
					fs[name+"/"+files[i][1]] = &fstest.MapFile{Data: []byte("\ufeff" + strings.ReplaceAll(filled(s, comma), "\n", "\r\n"))}
				}
				got, found := job.Read(fs, name+"/job.yaml")
				if found.HasErrors() {
					t.Fatal(found)
				}
				grid := length.Crew(j.Units == job.Metric).Step()
				for i := range got.Perimeters {
					p := &got.Perimeters[i]
					for k := range p.Runs {
						r := &p.Runs[k]
						want := layout.SurveyStations(p, r, layout.SurveySteps(j.Units == job.Metric), grid)
						if len(want) != len(r.Readings) {
							t.Errorf("run %s: %d stations, %d readings", r.Name, len(want), len(r.Readings))
							continue
						}
						for n, s := range want {
							if s.Known && r.Readings[n].Station != s.At {
								t.Errorf("run %s: station %v reads back as %v", r.Name, s.At, r.Readings[n].Station)
							}
						}
					}
				}
			}
		})
	}
}

// Names that fold to one file name, or to none, have a file each, which does not
// depend on the runs asked for, and no name makes a file that a disk refuses.
func TestFormNamesAreToldApart(t *testing.T) {
	j := unsurveyed(t, "l-shape")
	long := strings.Repeat("very long name ", 30)
	for _, names := range [][2]string{{"A 1", "A-1"}, {"Roof", "ROOF"}, {"屋", "根"}, {"a/b:c", "a*b?c"}, {long + "1", long + "2"}} {
		j.Perimeters[0].Name, j.Perimeters[1].Name = names[0], names[1]
		all := FormCSV(j, FormOptions{})
		if len(all) != 2 || all[0].Name == all[1].Name || all[0].Of != names[0] || all[1].Of != names[1] {
			t.Errorf("%q: %q of %q and %q of %q", names, all[0].Name, all[0].Of, all[1].Name, all[1].Of)
		}
		for i, s := range all {
			if strings.ToLower(s.Name) != s.Name || len(s.Name) > 200 || strings.ContainsAny(s.Name, `/\:*?"<>| `) {
				t.Errorf("%q: %q is no name for every disk", names, s.Name)
			}
			one := FormCSV(j, FormOptions{Runs: []string{j.Perimeters[i].Runs[0].Name}})
			if len(one) != 1 || one[0].Name != s.Name {
				t.Errorf("%q: alone it is %q", names, one[0].Name)
			}
		}
		ids := map[string]bool{}
		for _, p := range Forms(j, FormOptions{}) {
			if ids[p.ID] || len(p.ID) > 150 {
				t.Errorf("%q: sheet %q", names, p.ID)
			}
			ids[p.ID] = true
		}
	}
}

// Short runs that follow each other share sheets: each run stands on one, with all its
// stations, and the first form, which says how to measure, is one run's.
func TestShortRunsShareForms(t *testing.T) {
	for _, z := range papers() {
		j := unsurveyed(t, "l-shape")
		f := newForms(j, FormOptions{Paper: &z})
		for i := range j.Perimeters {
			p := &j.Perimeters[i]
			f := f.on(p)
			var apart []formPage
			for k := range p.Runs {
				apart = append(apart, f.run(p, k)...)
			}
			var got []formPage
			for _, q := range f.shared(apart) {
				got = append(got, q)
				got = append(got, q.with...)
				if high := f.sharedHigh(q); len(q.with) > 0 {
					for _, o := range q.with {
						high += f.sharedHigh(o)
					}
					if f.sharedTop()+high > f.foot() {
						t.Errorf("%v: %s has no room", z, q.names())
					}
				}
			}
			if len(got) != len(apart) {
				t.Fatalf("%v: %d pages of runs, want %d", z, len(got), len(apart))
			}
			for n, q := range got {
				if q.name != apart[n].name || q.n != apart[n].n || len(q.stations) != len(apart[n].stations) {
					t.Errorf("%v: %s page %d with %d stations, want %s page %d with %d", z, q.name, q.n, len(q.stations),
						apart[n].name, apart[n].n, len(apart[n].stations))
				}
			}
		}
	}
	all := Forms(unsurveyed(t, "l-shape"), FormOptions{})
	if !slices.ContainsFunc(all, func(s Sheet) bool { return strings.Contains(s.Title, "ROOF E2, ROOF E3") }) {
		t.Error("runs E2 and E3 have a sheet each")
	}
	if strings.Contains(all[0].Title, "runs ") {
		t.Errorf("the first form is of several runs: %s", all[0].Title)
	}
}
