package words

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// sentence is a text that says something to a reader: two words, or one that is
// put before another.
var sentence = regexp.MustCompile(`\pL{2,}[^\pL]* [^\pL]*\pL{2,}|\pL{2,} $|^ \pL{2,}`)

// literals are files in which sentences still stand as they are lettered, with how
// many at most, or that have them for a reason. The numbers may only fall.
var literals = map[string]int{
	// Names by which other code is found, and figures with their units.
	"sheets/basis.go": 3, "sheets/check.go": 2, "sheets/crate.go": 1, "sheets/csv.go": 1,
	"sheets/kindname.go": 6, "sheets/levelling.go": 1, "sheets/shopparts.go": 2,
	"sheets/shoptables.go": 7, "sheets/twowidths.go": 1, "sheets/shoplabel.go": 3, "sheets/shoplayout.go": 1,
	"drawing/view/formed.go": 2, "drawing/view/view.go": 1, "drawing/view/slope.go": 3, "drawing/view/flat.go": 1,
	"drawing/view/flatlabel.go": 1, "drawing/view/keyed.go": 1, "drawing/view/caption.go": 3,
	// What a PDF says of itself, in one language.
	"sheets/pdf.go": 4,
	// Headings of lists for other programs: names, in one language.
	"sheets/csvrows.go": 78, "sheets/machinelist.go": 22,
	// Corners, sections and what turns.
	"drawing/view/sectionwords.go": 76, "drawing/view/corner.go": 49, "sheets/corner.go": 42, "drawing/view/transition.go": 33,
	"drawing/view/cornerdraw.go": 24, "drawing/view/cornerwords.go": 18, "drawing/view/cornerpitch.go": 14,
	"sheets/sections.go": 9, "drawing/view/tee.go": 11, "drawing/view/section.go": 9, "drawing/view/sectionlist.go": 10,
	"drawing/view/twowidths.go": 6, "drawing/view/cornerinset.go": 5, "drawing/view/sectiondetail.go": 3, "sheets/pitch.go": 3,
	// Runs and the order of work.
	"drawing/view/run.go": 1, "drawing/view/runzone.go": 9, "drawing/view/rundims.go": 6, "sheets/runlist.go": 3, "sheets/runchairs.go": 3,
	"drawing/view/runrow.go": 2, "drawing/view/steps.go": 1, "sheets/stretch.go": 1,
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
		if n > literals[name] {
			t.Errorf("%s has %d sentences of its own, and %d are excused; say them from a table:%s", name, n, literals[name], first[name])
		}
	}
	for name := range literals {
		if found[name] == 0 {
			t.Errorf("%s has no sentence of its own: strike it from the list", name)
		}
	}
}
