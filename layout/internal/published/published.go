// Package published keeps the cases that the computing packages are held
// against, each with its source, and counts them: how many come from outside,
// and which rules have none. It is imported by tests alone.
//
// A package's published_test.go hands its cases to Near and Holds and its
// TestMain to Run. Run fails where a rule of the list has lost its outside case,
// where a case names a rule that is not listed, or where a package has fewer
// outside cases than it claims.
package published

import (
	"flag"
	"fmt"
	"go/ast"
	"go/constant"
	"go/parser"
	"go/token"
	"math"
	"path/filepath"
	"strings"
	"testing"
)

// Kind is how far a case stands from the code it checks.
type Kind int

// From the farthest. Outside is printed by somebody else; Derived is worked by
// hand from formulas of the source; Practice is what the trade does and nobody
// prints; Memory is what nobody has looked up.
const (
	Outside Kind = iota
	Derived
	Practice
	Memory
	kinds
)

func (k Kind) String() string {
	return [...]string{"outside", "derived", "common practice", "memory"}[k]
}

// Source says where the figure of a case is from. Table is the one table, figure
// or example of it: no more than PerTable of its cases count as outside ones.
type Source struct {
	Kind         Kind
	Where, Table string
}

func (s Source) String() string {
	words := s.Kind.String() + ": " + s.Where
	if s.Table != "" {
		words += ", " + s.Table
	}
	return words
}

// PerTable is how many cases of one table count.
const PerTable = 5

// From is a figure printed in a table, figure or example of a source.
func From(where, table string) Source { return Source{Outside, where, table} }

// ByHand is a figure worked out from a source's formula.
func ByHand(where string) Source { return Source{Derived, where, ""} }

// Trade is what is done and not printed.
func Trade(where string) Source { return Source{Practice, where, ""} }

// Recalled is a figure from memory.
func Recalled(where string) Source { return Source{Memory, where, ""} }

// entry is one case; a figure that also stands in the code is no outside one.
type entry struct {
	rule  string
	src   Source
	what  string
	want  float64
	plain bool // not a figure
}

// book is what the tests of this process have been through.
var book []entry

// Near holds a figure against its source, within a tolerance.
func Near(t testing.TB, rule string, s Source, what string, got, want, within float64) {
	t.Helper()
	book = append(book, entry{rule, s, what, want, false})
	if math.IsNaN(got) || math.Abs(got-want) > within {
		t.Errorf("%s, %s: got %.6g, want %.6g ± %g (%s)", rule, what, got, want, within, s)
	}
}

// Holds holds a finding that is no figure against its source.
func Holds(t testing.TB, rule string, s Source, what string, ok bool) {
	t.Helper()
	book = append(book, entry{rule, s, what, 0, true})
	if !ok {
		t.Errorf("%s: not so: %s (%s)", rule, what, s)
	}
}

// Run runs the tests of a package and then looks at what they were: the exit
// code for TestMain.
func Run(m *testing.M, pkg string) int {
	code := m.Run()
	if code != 0 || partial() {
		return code
	}
	wrong := audit(pkg, book, literals("."))
	for _, w := range wrong {
		fmt.Println(pkg + ": " + w)
	}
	if len(wrong) > 0 {
		return 1
	}
	return code
}

// partial reports whether not every test was run.
func partial() bool {
	for _, name := range []string{"test.run", "test.skip", "test.list", "test.fuzz"} {
		if f := flag.Lookup(name); f != nil && f.Value.String() != "" {
			return true
		}
	}
	return false
}

// count tells a package's cases by kind. Of outside ones no more than PerTable
// of a table count, and none whose figure is a constant of the package itself: a
// table compared with its copy proves nothing.
func count(cases []entry, own map[float64]bool) (by [kinds]int, ofRule map[string]int) {
	seen, perTable := map[entry]bool{}, map[string]int{}
	ofRule = map[string]int{}
	for _, c := range cases {
		if seen[c] {
			continue
		}
		seen[c] = true
		if c.src.Kind == Outside {
			table := c.src.Where + "|" + c.src.Table
			if !c.plain && own[math.Abs(c.want)] || perTable[table] == PerTable {
				continue
			}
			perTable[table]++
			ofRule[c.rule]++
		}
		by[c.src.Kind]++
	}
	return by, ofRule
}

// audit says what is wrong with the cases of a package.
func audit(pkg string, cases []entry, own map[float64]bool) []string {
	var wrong []string
	by, ofRule := count(cases, own)
	claim, known := claims()[pkg]
	if !known {
		return []string{"its cases are not in the list of package published"}
	}
	if by[Outside] < claim.outside {
		wrong = append(wrong, fmt.Sprintf("%d outside cases, and %d are claimed", by[Outside], claim.outside))
	}
	listed := map[string]bool{}
	for _, r := range claim.rules {
		listed[r.name] = true
		switch {
		case r.none == "" && ofRule[r.name] == 0:
			wrong = append(wrong, "rule without a case from outside: "+r.name)
		case r.none != "" && ofRule[r.name] > 0:
			wrong = append(wrong, "a rule said to have no case from outside has one: "+r.name)
		}
	}
	for _, c := range cases {
		if !listed[c.rule] {
			listed[c.rule] = true
			wrong = append(wrong, "a case of a rule that is not listed: "+c.rule)
		}
		if strings.TrimSpace(c.src.Where) == "" {
			wrong = append(wrong, "a case without a source: "+c.what)
		}
	}
	return wrong
}

// literals are the numbers that stand in a package's own code.
func literals(dir string) map[float64]bool {
	out := map[float64]bool{}
	names, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil {
		panic(err)
	}
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		p, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			panic(err)
		}
		ast.Inspect(p, func(n ast.Node) bool {
			if l, ok := n.(*ast.BasicLit); ok && (l.Kind == token.FLOAT || l.Kind == token.INT) {
				v, _ := constant.Float64Val(constant.ToFloat(constant.MakeFromLiteral(l.Value, l.Kind, 0)))
				out[v] = true
			}
			return true
		})
	}
	return out
}
