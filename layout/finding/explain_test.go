package finding

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// raised are the words of the sources that have the form of a code, each with a place. Names of
// facts and of verdicts have that form too and stand in files of their own.
func raised(t *testing.T) map[string]string {
	t.Helper()
	form := regexp.MustCompile(`^[a-z]+(-[a-z0-9]+)+$`)
	none := []string{ // no codes
		"as-pulled", "block-12", "ft-in", "ft-and-in", "hem-fir", "spruce-pine-fir", "across-once", "cut-back",
		"corner-left", "corner-right",
	}
	out := map[string]string{}
	err := filepath.WalkDir("..", func(path string, d fs.DirEntry, err error) error {
		name := d.Name()
		switch {
		case err != nil:
			return err
		case d.IsDir() && (name == "testdata" || name == "plan" || name == "fact" ||
			name == "revise" || name == "internal"):
			return filepath.SkipDir
		case d.IsDir() || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go"),
			strings.HasPrefix(name, "facts_"), strings.HasPrefix(name, "geometry"):
			return nil
		}
		set := token.NewFileSet()
		file, err := parser.ParseFile(set, path, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		ast.Inspect(file, func(n ast.Node) bool {
			if b, is := n.(*ast.BasicLit); is && b.Kind == token.STRING {
				if s, err := strconv.Unquote(b.Value); err == nil && form.MatchString(s) && !slices.Contains(none, s) {
					out[s] = set.Position(b.Pos()).String()
				}
			}
			return true
		})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// Every code that is raised is explained, and none else.
func TestEveryCodeIsExplained(t *testing.T) {
	codes := raised(t)
	if len(codes) < 300 {
		t.Fatalf("%d codes found", len(codes))
	}
	for code, at := range codes {
		if _, _, ok := Explain(code); !ok {
			t.Errorf("%s: code %s is not in codes.txt", at, code)
		}
	}
	all := Explanations()
	for i, e := range all {
		if codes[e.Code] == "" {
			t.Errorf("codes.txt: no finding has the code %s", e.Code)
		}
		if i > 0 && all[i-1].Code >= e.Code {
			t.Errorf("codes.txt: %s stands after %s", e.Code, all[i-1].Code)
		}
		for _, s := range []string{e.Means, e.Mend} {
			if !strings.HasSuffix(s, ".") || len(s) < 8 {
				t.Errorf("codes.txt: %s: %q is no sentence", e.Code, s)
			}
		}
	}
	if n := strings.Count(strings.TrimSpace(codesText), "\n") + 1; n != len(all) {
		t.Errorf("codes.txt: %d lines, %d explanations", n, len(all))
	}
}

func TestExplainNamesTheNearest(t *testing.T) {
	if _, near, ok := Explain("angel-bare"); ok || near != "angle-bare" {
		t.Errorf("%q, %v", near, ok)
	}
	if e, _, ok := Explain("angle-bare"); !ok || !strings.Contains(e.Mend, "turn: right 45") {
		t.Errorf("%+v", e)
	}
}
