package words

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

// sentence is a text that says something to a reader: two words, or one that is
// put before another.
var sentence = regexp.MustCompile(`\pL{2,}[^\pL]* [^\pL]*\pL{2,}|\pL{2,} $|^ \pL{2,}`)

// excused are files in which sentences stand as they are lettered, by the reason.
// Whoever moves the last of one into a table strikes its file.
var excused = map[string][]string{
	"names by which other code is found, and figures with their units": {
		"sheets/basis.go", "sheets/basisfacts.go", "sheets/check.go", "sheets/crate.go", "sheets/csv.go", "sheets/kindname.go",
		"sheets/levelling.go", "sheets/shopparts.go", "sheets/shoptables.go", "sheets/twowidths.go", "sheets/shoplabel.go",
		"sheets/shoplayout.go", "drawing/view/formed.go", "drawing/view/view.go", "drawing/view/slope.go",
		"drawing/view/flat.go", "drawing/view/flatlabel.go", "drawing/view/keyed.go", "drawing/view/caption.go",
		"drawing/view/runstripdraw.go",
	},
	"what a PDF says of itself, in one language": {"sheets/pdf.go"},
	"headings and words of lists for other programs: names, in one language": {"sheets/csvcutting.go", "sheets/csvrows.go",
		"sheets/csvtakeoff.go", "sheets/machinelist.go"},
	"figures with their units, and names of edges by which their sentences are found": {
		"drawing/view/sectionwords.go", "drawing/view/corner.go", "drawing/view/cornerpitch.go",
		"drawing/view/transition.go", "drawing/view/steps.go",
	},
}

// isExcused reports whether a file is one of them.
func isExcused(file string) bool {
	for _, files := range excused {
		if slices.Contains(files, file) {
			return true
		}
	}
	return false
}

// Sheets and views letter no sentence of their own: each stands in a table. What is
// only for the programmer (a panic, an error) or for other programs is left out.
func TestNoSentenceIsALiteral(t *testing.T) {
	found := map[string]int{}
	first := map[string]string{}
	for _, dir := range []string{"sheets", "drawing/view"} {
		err := filepath.WalkDir("../../"+dir, func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") ||
				strings.Contains(path, "/internal/") {
				return err
			}
			set := token.NewFileSet()
			f, err := parser.ParseFile(set, path, nil, parser.SkipObjectResolution)
			if err != nil {
				return err
			}
			name := strings.TrimPrefix(filepath.ToSlash(path), "../../")
			ast.Inspect(f, func(n ast.Node) bool {
				switch x := n.(type) {
				case *ast.ImportSpec:
					return false
				case *ast.CallExpr:
					if id, ok := x.Fun.(*ast.Ident); ok && id.Name == "panic" {
						return false
					}
				case *ast.BasicLit:
					text, err := strconv.Unquote(x.Value)
					if x.Kind == token.STRING && err == nil && sentence.MatchString(text) {
						found[name]++
						first[name] += "\n\t" + set.Position(x.Pos()).String() + ": " + x.Value
					}
				}
				return true
			})
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	for name, n := range found {
		if !isExcused(name) {
			t.Errorf("%s has %d sentences of its own; say them from a table:%s", name, n, first[name])
		}
	}
	if len(found) == 0 {
		t.Error("no file of sheets and views was read")
	}
}
