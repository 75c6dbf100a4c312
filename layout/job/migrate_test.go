package job

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"pgregory.net/rapid"
)

const before = "# A job.\r\n" +
	"format: 'copingset/1'   # the form\r\n" +
	"system:\r\n" +
	"  profile:\r\n" +
	"    front_leg: 5 1/4\"            # street side\r\n" +
	"    # rear_leg: 3\"\r\n" +
	"    rear_leg: '3 1/8\"'  # roof side\r\n" +
	"    rear_hook: {length: 3/8\", angle: 150}\r\n" +
	"  splice: {front_leg: 1\"}\r\n" +
	"assemblies:\r\n" +
	"  - {name: T1, front_leg_most: 6\", rear_leg_most: \"4\\\"\"}\r\n" +
	"  - name: Ü, front_leg_most: 7\"\r\n" +
	"    front_leg_most:\r\n" +
	"      7\"\r\n" +
	"    rear_leg_most: {length: 4\"}\r\n"

const after = "# A job.\r\n" +
	"format: 'copingset/2'   # the form\r\n" +
	"system:\r\n" +
	"  profile:\r\n" +
	"    front_leg: {length: 5 1/4\", to: mold line}  # street side\r\n" +
	"    # rear_leg: 3\"\r\n" +
	"    rear_leg: {length: '3 1/8\"', to: mold line}  # roof side\r\n" +
	"    rear_hook: {length: 3/8\", angle: 150}\r\n" +
	"  splice: {front_leg: 1\"}\r\n" +
	"assemblies:\r\n" +
	"  - {name: T1, front_leg_most: {length: 6\", to: mold line}, rear_leg_most: {length: \"4\\\"\", to: mold line}}\r\n" +
	"  - name: Ü, front_leg_most: 7\"\r\n" +
	"    front_leg_most:\r\n" +
	"      {length: 7\", to: mold line}\r\n" +
	"    rear_leg_most: {length: 4\"}\r\n"

func migrated(t testing.TB, text string) *Migration {
	t.Helper()
	m, list := Migrate(fstest.MapFS{"job.yaml": {Data: []byte(text)}}, "job.yaml")
	if m == nil {
		t.Fatal(list)
	}
	return m
}

func TestMigrate(t *testing.T) {
	for _, mark := range []string{"", "\uFEFF"} {
		m := migrated(t, mark+strings.Replace(before, "Ü, front_leg_most: 7\"", "Ü", 1))
		if got, want := string(m.Text), mark+strings.Replace(after, "Ü, front_leg_most: 7\"", "Ü", 1); got != want {
			t.Errorf("got\n%s\nwant\n%s", got, want)
		}
		var said []string
		for _, c := range append(slices.Clone(m.Changes), m.Unsure...) {
			said = append(said, c.String())
		}
		all := strings.Join(said, "\n")
		for _, want := range []string{
			"job.yaml:2:9: format: copingset/2 in place of copingset/1\n",
			"job.yaml:5:16: front_leg: {length: 5 1/4\", to: mold line} in place of 5 1/4\"\n",
			"job.yaml:14:7: front_leg_most: {length: 7\", to: mold line} in place of 7\"\n",
			"job.yaml:6: the comment speaks of `rear_leg` and was left; if it is system.profile.rear_leg, it is written `{length: ..., to: mold line}` now\n",
			"job.yaml:7:15: rear_leg: the leg ends in a turn of 150° and was read to the mold line",
			"job.yaml:11:32: front_leg_most: it was compared with the cap's leg to the mold line",
		} {
			if !strings.Contains(all+"\n", want) {
				t.Errorf("not said: %s\nbut\n%s", want, all)
			}
		}
		if len(m.Changes) != 6 {
			t.Errorf("%d changes", len(m.Changes))
		}
	}
}

func TestMigrateRefuses(t *testing.T) {
	for text, want := range map[string]string{
		"":                              "this is not a job file",
		"run,station\n":                 "this is not a job file",
		"job: {}\n":                     "this is not a job file",
		"format: copingset/7\n":         "the form `copingset/7` is not known here; read it with the release that it was written for",
		"format: copingset/0\n":         "the form `copingset/0` is not known here; write `format: copingset/2`",
		"format: copingset/1\njob: {\n": "[yaml-syntax]",
	} {
		m, list := Migrate(fstest.MapFS{"job.yaml": {Data: []byte(text)}}, "job.yaml")
		if m != nil || len(list) != 1 || !strings.Contains(list[0].String(), want) {
			t.Errorf("%q: %v, %v", text, m, list)
		}
	}
	// What stands over several lines is named and left.
	text := "format: copingset/1\nsystem:\n  profile:\n    front_leg: 5\n      1/4\"\n"
	m := migrated(t, text)
	if want := strings.Replace(text, "/1\n", "/2\n", 1); string(m.Text) != want || len(m.Unsure) != 1 || !strings.Contains(m.Unsure[0].What, "over several lines") {
		t.Errorf("%s %v", m.Text, m.Unsure)
	}
	for _, leg := range []string{"&leg 5\"", "!!str 5\""} {
		m := migrated(t, "format: copingset/1\nsystem: {profile: {front_leg: "+leg+"}}\n")
		if len(m.Changes) != 1 || len(m.Unsure) != 1 || !strings.Contains(m.Unsure[0].What, "with a mark before it, and was left") {
			t.Errorf("%s: %v %v", leg, m.Changes, m.Unsure)
		}
	}
	// So is what stands for something from elsewhere, wherever a leg may be in it.
	for text, want := range map[string]string{
		"shared: &leg 5\"\nsystem: {profile: {rear_leg: *leg}}\n": "3:30: `*` stands for a value from elsewhere and was left; write it out as `{length: ..., to: mold line}`",
		"shared: &one {a: b}\nsystem: {profile: *one}\n":          "3:19: `*` stands for keys from elsewhere and was left; write them out, with `front_leg` as `{length: ...",
		"shared: &one {a: b}\nassemblies: [*one]\n":               "3:14: `*` stands for keys from elsewhere and was left; write them out, with `front_leg_most` as",
	} {
		m := migrated(t, "format: copingset/1\n"+text)
		if len(m.Changes) != 1 || len(m.Unsure) != 1 || !strings.HasPrefix(m.Unsure[0].String(), "job.yaml:"+want) {
			t.Errorf("%s: %v %v", text, m.Changes, m.Unsure)
		}
	}
	if m := migrated(t, "format: copingset/1\nshared: &one {a: b}\njob: *one\n"); len(m.Unsure) > 0 {
		t.Errorf("an alias that no leg can stand in is named: %v", m.Unsure)
	}
	// A file of today's form is left alone.
	if m := migrated(t, string(migrated(t, before[:60]).Text)); len(m.Changes) > 0 || string(m.Text) != strings.Replace(before[:60], "copingset/1", "copingset/2", 1) {
		t.Errorf("%q %v", m.Text, m.Changes)
	}
}

// A leg whose foot is folded flat has no mold line: the limit too is taken to its
// lowest metal, and both are named. What is written is not refused afterwards.
func TestMigrateFoldedFlat(t *testing.T) {
	base := goodBase(t)
	for _, c := range []struct{ hook, to, why string }{
		{"{length: 3/8\", angle: 180}", "tangent", "the leg ends in a turn of 180°, whose faces meet nowhere"},
		{"{length: 3/8\", angle: 179}", "mold line", "the leg ends in a turn of 179° and was read to the mold line"},
		{"{length: 0, angle: 180}", "mold line", ""},
	} {
		text := regexp.MustCompile(`rear_hook: .*`).ReplaceAllString(base, "rear_hook: "+c.hook)
		text = regexp.MustCompile(`\{length: ([^,{}]*), to: [a-z ]*\}`).ReplaceAllString(text, "$1")
		if strings.Contains(text, "to: tangent") || !strings.Contains(text, c.hook) {
			t.Fatal("the base file has changed")
		}
		m := migrated(t, strings.Replace(text, "copingset/2", "copingset/1", 1))
		for _, key := range []string{"rear_leg", "rear_leg_most"} {
			if !regexp.MustCompile(key + `: \{length: [^,]*, to: ` + c.to + `\}`).Match(m.Text) {
				t.Errorf("%s: %s is not to the %s", c.hook, key, c.to)
			}
		}
		said := ""
		for _, u := range m.Unsure {
			if strings.HasPrefix(u.What, "rear_leg: ") {
				said += u.What
			}
		}
		if !strings.Contains(said, c.why) || (c.why == "") != (said == "") {
			t.Errorf("%s: said %q", c.hook, said)
		}
		_, list := Read(fstest.MapFS{"job.yaml": {Data: m.Text}}, "job.yaml")
		for _, f := range list {
			if strings.HasPrefix(f.Code, "leg-") {
				t.Errorf("%s: %v", c.hook, f)
			}
		}
	}
}

// Whatever a file says besides, migrating it edits the form, and the legs of
// the profile, and nothing else: undone by hand it is the file it was.
func TestMigrateEditsInPlace(t *testing.T) {
	files, err := filepath.Glob("testdata/*/*.yaml")
	if err != nil || len(files) < 20 {
		t.Fatal(err, len(files))
	}
	undo := strings.NewReplacer("{length: ", "", ", to: mold line}", "", ", to: tangent}", "")
	rapid.Check(t, func(t *rapid.T) {
		data, err := os.ReadFile(rapid.SampledFrom(files).Draw(t, "file"))
		if err != nil {
			t.Fatal(err)
		}
		lines := strings.SplitAfter(undo.Replace(string(data)), "\n")
		from := rapid.IntRange(0, len(lines)-1).Draw(t, "from")
		lines = lines[from:rapid.IntRange(from, len(lines)).Draw(t, "to")]
		text := "format: copingset/1\nunits: metric\n" + strings.ReplaceAll(strings.Join(lines, ""), "format: copingset", "forms: copingset")
		m, list := Migrate(fstest.MapFS{"job.yaml": {Data: []byte(text)}}, "job.yaml")
		if m == nil {
			if !strings.Contains(list[0].Code, "yaml") {
				t.Fatal(list)
			}
			return
		}
		squeeze := strings.NewReplacer(" ", "", "copingset/2", "copingset/1")
		if got, want := squeeze.Replace(undo.Replace(string(m.Text))), squeeze.Replace(text); got != want {
			t.Fatalf("got\n%s\nwant\n%s", got, want)
		}
		again, _ := Migrate(fstest.MapFS{"job.yaml": {Data: m.Text}}, "job.yaml")
		if again == nil || len(again.Changes) > 0 {
			t.Fatal("a migrated file is migrated again")
		}
	})
}

// FuzzMigrate: any text is refused with a finding or migrated to one that reads
// as today's form.
func FuzzMigrate(f *testing.F) {
	f.Add(before)
	f.Add("format: \"copingset/1\"\nassemblies: [{front_leg_most: 'a''b'}, {rear_leg_most: \"\\u0022\"}]\n")
	f.Fuzz(func(t *testing.T, text string) {
		m, list := Migrate(fstest.MapFS{"job.yaml": {Data: []byte(text)}}, "job.yaml")
		if (m == nil) != list.HasErrors() {
			t.Fatalf("%v %v", m, list)
		}
		if m == nil {
			return
		}
		again, list := Migrate(fstest.MapFS{"job.yaml": {Data: m.Text}}, "job.yaml")
		if again == nil || len(again.Changes) > 0 {
			t.Fatalf("%q: %v", m.Text, list)
		}
	})
}
