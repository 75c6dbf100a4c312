package golden

import (
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// May import, below the module: the design of the house. Everything computes
// towards paper, nothing runs backwards.
func mayImport() map[string]string {
	out := map[string]string{}
	for _, line := range strings.Split(strings.TrimSpace(plan), "\n") {
		pkg, imports, _ := strings.Cut(line, ":")
		out[strings.TrimSpace(pkg)] = imports
	}
	return out
}

// plan of the house: each package and what of the project it may import.
const plan = `
cmd/copingset: cmd/copingset/internal/store cmd/copingset/internal/window drawing drawing/dxf drawing/svg drawing/words layout layout/fact layout/finding layout/job layout/length layout/outline layout/record layout/revise layout/takeoff sheets
cmd/copingset/internal/store:
cmd/copingset/internal/window: drawing/svg layout layout/finding sheets
sheets: drawing drawing/block drawing/dxf drawing/pdf drawing/view drawing/words fonts layout layout/assembly layout/crate layout/fact layout/finding layout/fold layout/job layout/length layout/plan layout/record layout/revise layout/takeoff layout/wind layout/workbook
sheets/internal/refold: layout/job
drawing: fonts layout/length
drawing/internal/specimen: drawing
drawing/place: drawing
drawing/block: drawing
drawing/svg: drawing fonts
drawing/pdf: drawing fonts
drawing/dxf:
drawing/words:
drawing/view: drawing drawing/block drawing/place drawing/words fonts layout/cut layout/fold layout/length layout/plan
fonts:
golden:
samples:
layout: layout/anchor layout/assembly layout/cap layout/confirm layout/crate layout/cut layout/fact layout/finding layout/fold layout/job layout/length layout/metal layout/plan layout/record layout/revise layout/shop layout/short layout/wall layout/wind layout/withdrawal
layout/workbook:
layout/takeoff: layout layout/cap layout/crate layout/finding layout/job layout/length
layout/length:
layout/plan: layout/fold layout/length
layout/stand: layout/length
layout/length/draws:
layout/fact: layout/length
layout/finding: layout/length
layout/record: layout/fact layout/length
layout/revise: layout/fact layout/length layout/record
layout/confirm:
layout/job: layout/confirm layout/finding layout/length layout/record layout/workbook
layout/job/jobtest: layout/job layout/length
layout/outline: layout/finding layout/job layout/length
layout/metal:
layout/withdrawal: layout/job layout/length layout/wind
layout/wall: layout/finding layout/job layout/length layout/wall/minimax layout/wall/setplane layout/wall/slips
layout/wall/setplane: layout/length
layout/wall/minimax: layout/length
layout/wall/slips: layout/length
layout/wind: layout/confirm layout/fact layout/finding layout/job layout/length
layout/assembly: layout/finding layout/job layout/length layout/wind
layout/cap: layout/assembly layout/finding layout/job layout/length layout/record layout/stand layout/wall layout/wind
layout/anchor: layout/assembly layout/cap layout/finding layout/job layout/length layout/plan layout/stand layout/wall layout/wind
layout/short: layout/anchor layout/cap layout/finding layout/job layout/length layout/stand layout/wall layout/wind
layout/crate: layout/anchor layout/cap layout/finding layout/job layout/length
layout/cut: layout/length
layout/fold:
layout/shop: layout/cap layout/cut layout/finding layout/fold layout/job layout/length layout/record
layout/internal/published:
layout/internal/outside:
`

// only lists who may import a library we keep behind one door.
func only() map[string]string {
	return map[string]string{
		"github.com/go-pdf/fpdf":           "drawing/pdf",
		"github.com/ajstarks/svgo":         "drawing/svg",
		"gopkg.in/yaml.v3":                 "layout/job",
		"golang.org/x/image/font/sfnt":     "fonts",
		"github.com/xuri/excelize/v2":      "layout/workbook",
		"github.com/spf13/cobra":           "cmd/copingset",
		"github.com/pdfcpu/pdfcpu/pkg/api": "",
	}
}

// A pure stage has no clock, no environment, no file system and no chance.
func banned() []string { return []string{"time", "os", "math/rand", "math/rand/v2", "net", "net/http"} }

// excused says who may have one of them all the same, and why.
func excused(pkg, imp string) bool {
	switch pkg {
	case "cmd/copingset", "cmd/copingset/internal/window":
		return true
	case "cmd/copingset/internal/store", // files are written there
		"layout/length/draws", // tests are told by a variable how often to draw
		"layout/job/jobtest":  // and which file of outlines to lay out
		return imp == "os"
	case "drawing/pdf", "sheets": // the job's issue date becomes a PDF's
		return imp == "time"
	}
	return false
}

func TestImportsPointOneWay(t *testing.T) {
	out, err := exec.Command("go", "list", "-f", "{{.ImportPath}} {{join .Imports \" \"}}", "copingset/...").Output()
	if err != nil {
		t.Fatal(err)
	}
	rules, doors := mayImport(), only()
	for _, line := range strings.Split(strings.TrimSpace(string(out)), "\n") {
		words := strings.Fields(line)
		pkg := strings.TrimPrefix(words[0], "copingset/")
		allowed, known := rules[pkg]
		if !known {
			t.Errorf("package %s is not in the plan of the house: say in mayImport and in DEVELOPERS.md what it is for", pkg)
			continue
		}
		for _, imp := range words[1:] {
			if door, ok := doors[imp]; ok && door != pkg {
				t.Errorf("%s imports %s, which only %q may: keep the library behind one door", pkg, imp, door)
			}
			for _, b := range banned() {
				if imp == b && !excused(pkg, imp) {
					t.Errorf("%s imports %s: no clock, environment, file system or chance below cmd", pkg, imp)
				}
			}
			if in, ok := strings.CutPrefix(imp, "copingset/"); ok && !contains(strings.Fields(allowed), in) {
				t.Errorf("%s imports %s: imports point from paper to wall, never back (allowed: %s)", pkg, in, allowed)
			}
		}
	}
}

// What will do and what will not is judged in the layout: a view or a sheet that
// compares with what a test or the job asks for judges again.
func TestViewsAndSheetsJudgeNothing(t *testing.T) {
	const asked = `(EdgeDistance|Embedment|PlayLeast|PlayMost|Lap\.Front|Lap\.Rear|ChairSpacing|WidthMost|LegMost\.Length|LeastGap|Resists|CornerLength)`
	judges := regexp.MustCompile(`[<>]=? *[\w.]*\.` + asked + `\b|\.` + asked + ` *[<>]`)
	eachLine(t, func(path string, n int, line string) {
		path = filepath.ToSlash(path)
		if (strings.HasPrefix(path, "../sheets/") || strings.HasPrefix(path, "../drawing/")) && !strings.HasSuffix(path, "_test.go") && judges.MatchString(line) {
			t.Errorf("%s:%d judges: %s", path, n, strings.TrimSpace(line))
		}
	})
}

// eachLine goes through the lines of all files of code, numbered from 1.
func eachLine(t *testing.T, look func(path string, n int, line string)) {
	t.Helper()
	err := filepath.WalkDir("..", func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || filepath.Ext(path) != ".go" {
			return err
		}
		text, err := os.ReadFile(path)
		for n, line := range strings.Split(string(text), "\n") {
			look(path, n+1, line)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

// Where the wall's faces and the chairs' edges lie behind the cap line is said by
// cap.Run.FaceAt, cap.ChairLine and cap.ChairRear; nobody adds it up again but what
// checks the written files against the job, which is to share nothing.
func TestFacesAndChairLineAreWorkedOutOnce(t *testing.T) {
	again := regexp.MustCompile(`FrontClearance \+ .*\.Gap|\.Gap .*\+ .*FrontClearance|[+-] [\w.]*Chair\.(Front|Rear)Edge`)
	eachLine(t, func(path string, n int, line string) {
		if !strings.HasSuffix(path, "_test.go") && filepath.ToSlash(path) != "../layout/cap/face.go" && !strings.Contains(filepath.ToSlash(path), "/refold/") && again.MatchString(line) {
			t.Errorf("%s:%d works out again what layout/cap/face.go knows: %s", path, n, strings.TrimSpace(line))
		}
	})
}

// Nobody reaches through the run of one room for that of another, past values of
// the same name: a run answers for itself.
func TestNobodyReachesThroughRuns(t *testing.T) {
	eachLine(t, func(path string, n int, line string) {
		if strings.Contains(line, ".Run"+".Run") {
			t.Errorf("%s:%d reaches through a run: %s", path, n, strings.TrimSpace(line))
		}
	})
}

func contains(list []string, s string) bool {
	for _, l := range list {
		if l == s {
			return true
		}
	}
	return false
}

// Random tests draw alike every day, and as often as the variable says, only where
// their package imports draws.
func TestRandomTestsDrawAsAsked(t *testing.T) {
	const each = "{{.ImportPath}} {{join .TestImports \" \"}} {{join .XTestImports \" \"}}"
	out, err := exec.Command("go", "list", "-f", each, "copingset/...").Output()
	if err != nil {
		t.Fatal(err)
	}
	random := 0
	for line := range strings.Lines(string(out)) {
		words := strings.Fields(line)
		if !contains(words[1:], "pgregory.net/rapid") || words[0] == "copingset/layout/length/draws" {
			continue
		}
		random++
		if !contains(words[1:], "copingset/layout/length/draws") {
			t.Errorf("the tests of %s use rapid and do not import layout/length/draws", words[0])
		}
	}
	if random < 10 {
		t.Errorf("only %d packages with random tests", random)
	}
}

// Functions of more than eighty lines read badly. Those that are let be say why, and
// the list only grows shorter.
func TestFunctionsAreShort(t *testing.T) {
	const most = 80
	excused := map[string]string{ // look-up only
		"layout/cap/split.go pass":                    "one step of the search over widths, whose cases share its state",
		"layout/cap/places.go places":                 "the list of places where a transition may stand, a case after the other",
		"drawing/view/surveysection.go SurveySection": "one small drawing by hand, mark after mark",
		"drawing/view/keywords.go names":              "where the name of a run may stand, place after place",
		"sheets/internal/refold/space.go grow":        "for tests: one fold of space after the other, with the figures between them",
		"sheets/internal/refold/trays.go tee":         "for tests: measures one kind of piece from its first figure to its last",
	}
	seen := map[string]bool{} // look-up only
	err := filepath.WalkDir("..", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		raw, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		begins, name := 0, ""
		for i, line := range strings.Split(string(raw), "\n") {
			if m := funcName.FindStringSubmatch(line); m != nil {
				begins, name = i, m[1]
			}
			if line != "}" || name == "" {
				continue
			}
			what := strings.TrimPrefix(filepath.ToSlash(path), "../") + " " + name
			if long := i - begins + 1; long > most {
				seen[what] = true
				if excused[what] == "" {
					t.Errorf("%s: %s is %d lines long; %d are enough", path, name, long, most)
				}
			}
			name = ""
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for what := range excused {
		if !seen[what] {
			t.Errorf("%s is short: take it out of the list", what)
		}
	}
}

var funcName = regexp.MustCompile(`^func (?:\([^)]*\) )?(\w+)`)
