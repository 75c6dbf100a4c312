package words

import (
	"flag"
	"fmt"
	"go/ast"
	"go/format"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write keys_*.go from the tables")

// name is the constant of a key: run.start-mark is RunStartMark.
func name(k Key) string {
	var out strings.Builder
	for _, w := range strings.FieldsFunc(string(k), func(r rune) bool { return r == '.' || r == '-' }) {
		out.WriteString(strings.ToUpper(w[:1]) + w[1:])
	}
	return out.String()
}

// The constants are those of the tables, no more and no fewer.
func TestKeysAreThoseOfTheTables(t *testing.T) {
	files := map[string]*strings.Builder{}
	for _, r := range Rows() {
		base := strings.TrimSuffix(filepath.Base(r.Table), ".csv")
		b := files[base]
		if b == nil {
			b = &strings.Builder{}
			files[base] = b
			fmt.Fprintf(b, "// Code generated from %s by go test ./drawing/words -update; DO NOT EDIT.\n\npackage words\n\n// Sentences of %s.csv.\nconst (\n", r.Table, base)
		}
		fmt.Fprintf(b, "\t%s Key = %q\n", name(r.Key), r.Key)
	}
	had, err := filepath.Glob("keys_*.go")
	if err != nil {
		t.Fatal(err)
	}
	for base, b := range files {
		want, err := format.Source([]byte(b.String() + ")\n"))
		if err != nil {
			t.Fatal(err)
		}
		file := "keys_" + base + ".go"
		had = slices.DeleteFunc(had, func(f string) bool { return f == file })
		if *update {
			if err := os.WriteFile(file, want, 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		if got, err := os.ReadFile(file); err != nil || string(got) != string(want) {
			t.Errorf("%s is not what its table says (error %v): run go test ./drawing/words -update", file, err)
		}
	}
	if len(had) > 0 {
		t.Errorf("%v have no table", had)
	}
}

// Every row is one that can be said: a known reader, English, the same slots and
// as many forms in every language, no key twice.
func TestRows(t *testing.T) {
	seen := map[Key]string{}
	for _, r := range Rows() {
		if was := seen[r.Key]; was != "" {
			t.Errorf("%s stands in %s and in %s", r.Key, was, r.Table)
		}
		seen[r.Key] = r.Table
		if !slices.Contains([]Reader{Crew, Receiving, Shop, Office}, r.Reader) {
			t.Errorf("%s: for %q, whom nobody knows", r.Key, r.Reader)
		}
		if r.English == "" {
			t.Errorf("%s has no English", r.Key)
		}
		for _, other := range []string{r.UK, r.Spanish} {
			if other == "" {
				continue
			}
			a, b := slices.Sorted(slices.Values(Slots(r.English))), slices.Sorted(slices.Values(Slots(other)))
			if !slices.Equal(a, b) {
				t.Errorf("%s: %q has other slots than the English", r.Key, other)
			}
			if strings.Count(r.English, "|") != strings.Count(other, "|") {
				t.Errorf("%s: %q has other forms than the English", r.Key, other)
			}
		}
		if n := strings.Count(r.English, "|"); n > 1 {
			t.Errorf("%s has %d forms", r.Key, n+1)
		}
		if strings.Count(r.English, "{") != strings.Count(r.English, "}") {
			t.Errorf("%s: a slot is not closed", r.Key)
		}
		if r.UK == r.English {
			t.Errorf("%s: the British spelling is the American", r.Key)
		}
	}
}

// use is one place where a sentence is said.
type use struct {
	key   string
	slots []string
	count bool
	at    token.Position
	plain bool // with a list of slots that cannot be read here
}

// uses are the places of the project where sentences are said, and the constants
// that are named anywhere.
func uses(t *testing.T) (said []use, named map[string]bool) {
	t.Helper()
	named = map[string]bool{}
	set := token.NewFileSet()
	err := filepath.WalkDir("../..", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") || strings.Contains(path, "drawing/words/") {
			return err
		}
		f, err := parser.ParseFile(set, path, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		ast.Inspect(f, func(n ast.Node) bool {
			if k := keyOf(n); k != "" {
				named[k] = true
			}
			if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
				// A hold is named by the code it is raised under.
				if code, err := strconv.Unquote(lit.Value); err == nil && code != "" && !strings.ContainsAny(code, " .") {
					named[name(Key("hold."+code))] = true
				}
			}
			if c, ok := n.(*ast.CallExpr); ok {
				if u, ok := saying(set, c); ok {
					said = append(said, u)
				}
			}
			return true
		})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return said, named
}

// keyOf is the constant that words.X names.
func keyOf(n ast.Node) string {
	s, ok := n.(*ast.SelectorExpr)
	if !ok {
		return ""
	}
	if p, ok := s.X.(*ast.Ident); ok && p.Name == "words" {
		return s.Sel.Name
	}
	return ""
}

// saying reads a call of Say or Count with a constant key.
func saying(set *token.FileSet, c *ast.CallExpr) (use, bool) {
	f, ok := c.Fun.(*ast.SelectorExpr)
	if !ok || f.Sel.Name != "Say" && f.Sel.Name != "Count" || len(c.Args) == 0 {
		return use{}, false
	}
	u := use{key: keyOf(c.Args[0]), count: f.Sel.Name == "Count", at: set.Position(c.Pos()), plain: c.Ellipsis.IsValid()}
	slots := c.Args[1:]
	if u.count {
		slots = c.Args[min(2, len(c.Args)):]
	}
	for _, a := range slots {
		in, ok := a.(*ast.CallExpr)
		if !ok || keyOf(in.Fun) != "In" || len(in.Args) != 2 {
			u.plain = true
			continue
		}
		if lit, ok := in.Args[0].(*ast.BasicLit); ok {
			if s, err := strconv.Unquote(lit.Value); err == nil {
				u.slots = append(u.slots, s)
				continue
			}
		}
		u.plain = true
	}
	return u, u.key != ""
}

// Every sentence is said somewhere, and wherever one is said it is given the
// values it has slots for.
func TestUses(t *testing.T) {
	said, named := uses(t)
	byName := map[string]Row{}
	for _, r := range Rows() {
		byName[name(r.Key)] = r
		if !named[name(r.Key)] {
			t.Errorf("%s: %s is said nowhere", r.Table, r.Key)
		}
	}
	for _, u := range said {
		r, ok := byName[u.key]
		if !ok {
			continue // not one of ours: the compiler knows
		}
		if strings.Contains(r.English, "|") != u.count {
			t.Errorf("%v: %s: a sentence with two forms is said by Count, one with one by Say", u.at, r.Key)
		}
		if u.plain {
			continue
		}
		a, b := slices.Sorted(slices.Values(u.slots)), slices.Sorted(slices.Values(Slots(r.English)))
		if !slices.Equal(a, b) {
			t.Errorf("%v: %s is given %v and has slots %v", u.at, r.Key, a, b)
		}
	}
}

func TestSay(t *testing.T) {
	rows()["test.plain"] = Row{Key: "test.plain", English: "Color {what} at {where}", UK: "Colour {what} at {where}", Spanish: "{where}: {what}"}
	rows()["test.count"] = Row{Key: "test.count", English: "{n} chair|{n} chairs"}
	for _, c := range []struct {
		b         Book
		want, one string
	}{
		{Book{}, "Color A at B", "1 chair"},
		{Book{UK: true}, "Colour A at B", "1 chair"},
		{Book{Lang: Spanish}, "B: A", "1 chair"},
		{Book{Lang: Longer}, "Colorññ A atñ B", "1 chairññ"},
	} {
		if got := c.b.Say("test.plain", In("what", "A"), In("where", "B")); got != c.want {
			t.Errorf("%v says %q, want %q", c.b, got, c.want)
		}
		if got := c.b.Count("test.count", 1, In("n", "1")); got != c.one {
			t.Errorf("%v counts one as %q, want %q", c.b, got, c.one)
		}
	}
	if got := (Book{}).Count("test.count", 3, In("n", "3")); got != "3 chairs" {
		t.Errorf("three are %q", got)
	}
	for what, f := range map[string]func(){
		"a key nobody knows":     func() { Book{}.Say("test.none") },
		"a slot left empty":      func() { Book{}.Say("test.plain", In("what", "A")) },
		"a value without a slot": func() { Book{}.Say("test.plain", In("what", "A"), In("where", "B"), In("when", "C")) },
		"one form to count":      func() { Book{}.Count("test.plain", 1, In("what", "A"), In("where", "B")) },
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s is no panic", what)
				}
			}()
			f()
		}()
	}
}
