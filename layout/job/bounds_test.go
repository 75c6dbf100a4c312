package job

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"
)

// What no job is, is refused in a sentence and not read on.
func TestBoundsOfFiles(t *testing.T) {
	base := goodBase(t)
	survey := strings.Replace(base, "    starts:", "    survey: [SURVEYS]\n    starts:", 1)
	surveys := func(names string) string { return strings.Replace(survey, "SURVEYS", names, 1) }
	blank := strings.Repeat("# nothing to be read here\n", 300_000) // 7.8 MB
	one := "run,station (in),width (in),street_top (in),roof_top (in),offset (in)\n"
	deep := func(n int) string {
		return strings.Replace(base, "Heron Street Archive", strings.Repeat("[", n)+strings.Repeat("]", n), 1)
	}
	for _, tt := range []struct {
		name string
		job  string
		more map[string]string
		want []string
	}{
		{"a large job", base + blank[:4<<20], nil, []string{"the job file `a.yaml` is larger than 4 MB, which no job file is; check that it is the right file [file-size]"}},
		{"a large included file", strings.Replace(base, formatLine, formatLine+"include: b.yaml\n", 1), map[string]string{"b.yaml": formatLine + blank},
			[]string{"the included file `b.yaml` is larger than 4 MB"}},
		{"a large survey", surveys("1.csv"), map[string]string{"1.csv": blank + blank}, []string{"the survey `1.csv` is larger than 8 MB, which no survey is"}},
		{"many large surveys", surveys("1.csv, 2.csv, 3.csv, 4.csv, 5.csv"), map[string]string{"1.csv": one + blank, "2.csv": one + blank, "3.csv": one + blank, "4.csv": one + blank, "5.csv": one + blank},
			[]string{"the survey `5.csv` is one too many: the files of the job are larger than 32 MB together; make a job of each part of the building [file-size]"}},
		{"deep", deep(19), nil, []string{"job.name is a single value"}},
		{"too deep", deep(20), nil, []string{"job.name is a single value", "parts stand in parts more than 20 deep, and those of a job never do; check the brackets and the indentation [yaml-depth]"}},
		{"very deep", deep(9000), nil, []string{"job.name is a single value", "parts stand in parts more than 20 deep"}},
		{"far too deep", deep(100_000), nil, []string{"parts stand in parts far too deep"}},
		{"many columns", surveys("1.csv"), map[string]string{"1.csv": strings.Repeat("x,", 1<<20) + "\n"}, []string{"1.csv:1:201: error: the heading has 1048577 columns, and no survey has more than 100"}},
		{"a long name", strings.Replace(base, "name: FRONT", "name: "+strings.Repeat("FRONT", 17), 1), nil,
			[]string{": name: the name has 85 letters, and titles and tables have room for 80; shorten it; what else is to be said can stand in the notes [name-long]"}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			fsys := fstest.MapFS{"a.yaml": {Data: []byte(tt.job)}}
			for n, s := range tt.more {
				fsys[n] = &fstest.MapFile{Data: []byte(s)}
			}
			j, list := Read(fsys, "a.yaml")
			if j != nil || len(list) != len(tt.want) {
				t.Fatalf("%d findings: %.2000s", len(list), fmt.Sprint(list))
			}
			for i, w := range tt.want {
				if got := list[i].String(); !strings.Contains(got, w) {
					t.Errorf("got %.500s\nwant %s", got, w)
				}
			}
		})
	}
}
