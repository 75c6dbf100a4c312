//go:build ignore

// Command mutate asks whether the tests notice when a computing package is wrong: it
// makes small slips in its code, one at a time, runs tests against each, and
// lists those that no test noticed.
//
//	go run layout/internal/mutate/main.go -n 40 -seed 7
//	go run layout/internal/mutate/main.go -only layout/cap -n 20 -timeout 2m
//
// No file of the project is edited: a mutant is laid over its file when the test
// is built. Every third is judged by the tests of package layout alone, through
// layout.Build: what those see is what a sheet would show. The others are judged
// by the tests of their own package, and by those of layout where these notice
// nothing. A mutant that does not compile is not
// counted; one whose tests do not end in time was noticed. The same seed draws
// the same mutants of the same code.
package main

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"
)

// packages that compute what a piece is made to.
var packages = []string{"layout/wall", "layout/wall/minimax", "layout/wall/setplane", "layout/wall/slips",
	"layout/cap", "layout/anchor", "layout/wind",
	"layout/metal", "layout/withdrawal", "layout/assembly", "layout/cut", "layout/fold", "layout/shop", "layout/length"}

// mutant is one slip: a stretch of a file and what stands there instead.
type mutant struct {
	pkg, file string
	line      int
	from, to  int // bytes
	put, what string
}

func main() {
	n := flag.Int("n", 30, "how many mutants to try")
	seed := flag.Uint64("seed", 1, "which of them")
	only := flag.String("only", "", "one package, such as layout/cap")
	limit := flag.Duration("timeout", 90*time.Second, "for the tests of one mutant")
	flag.Parse()
	if err := run(*n, *seed, *only, *limit); err != nil {
		fmt.Fprintln(os.Stderr, "mutate:", err)
		os.Exit(1)
	}
}

func run(n int, seed uint64, only string, limit time.Duration) error {
	var all []mutant
	for _, pkg := range packages {
		if only != "" && pkg != only {
			continue
		}
		more, err := mutants(pkg)
		if err != nil {
			return err
		}
		all = append(all, more...)
	}
	if len(all) == 0 {
		return fmt.Errorf("no code to change; run it in the folder of go.mod, and -only names one of %s",
			strings.Join(packages, ", "))
	}
	rand.New(rand.NewPCG(seed, 0)).Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	dir, err := os.MkdirTemp("", "mutate")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	tried, survived := 0, 0
	for _, m := range all {
		if tried == n {
			break
		}
		judges := []string{m.pkg, "layout"}
		if tried%3 == 0 {
			judges = judges[1:]
		}
		verdict := ""
		for _, judge := range judges {
			if verdict, err = m.try(dir, judge, limit); err != nil {
				return err
			}
			if verdict != "survived" {
				judges = []string{judge}
				break
			}
		}
		if verdict == "does not compile" {
			continue
		}
		tried++
		if verdict == "survived" {
			survived++
		}
		fmt.Printf("%-10s %s:%d: %s (tests of %s)\n", verdict, m.file, m.line, m.what, strings.Join(judges, " and "))
	}
	fmt.Printf("%d of %d mutants survived, of %d that can be made\n", survived, tried, len(all))
	return nil
}

// try builds and runs the tests that judge a mutant.
func (m mutant) try(dir, judge string, limit time.Duration) (string, error) {
	text, err := os.ReadFile(m.file)
	if err != nil {
		return "", err
	}
	path, err := filepath.Abs(m.file)
	if err != nil {
		return "", err
	}
	changed, overlay := filepath.Join(dir, "mutant.go"), filepath.Join(dir, "overlay.json")
	if err := os.WriteFile(changed, []byte(string(text[:m.from])+m.put+string(text[m.to:])), 0o600); err != nil {
		return "", err
	}
	over, err := json.Marshal(map[string]map[string]string{"Replace": {path: changed}})
	if err != nil {
		return "", err
	}
	if err := os.WriteFile(overlay, over, 0o600); err != nil {
		return "", err
	}
	test := filepath.Join(dir, "test")
	build := exec.Command("go", "test", "-overlay", overlay, "-c", "-o", test, "./"+judge)
	if out, err := build.CombinedOutput(); err != nil {
		if strings.Contains(string(out), "mutant.go") || strings.Contains(string(out), filepath.Base(m.file)) {
			return "does not compile", nil
		}
		return "", fmt.Errorf("the tests of %s cannot be built: %s", judge, out)
	}
	ctx, done := context.WithTimeout(context.Background(), limit)
	defer done()
	c := exec.CommandContext(ctx, test, "-test.failfast")
	c.Dir = judge
	switch err := c.Run(); {
	case ctx.Err() != nil:
		return "no end", nil
	case err != nil:
		return "noticed", nil
	}
	return "survived", nil
}

// mutants lists all slips of a package, in the order of its files.
func mutants(pkg string) ([]mutant, error) {
	files, err := filepath.Glob(filepath.Join(pkg, "*.go"))
	if err != nil {
		return nil, err
	}
	var all []mutant
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		text, err := os.ReadFile(file)
		if err != nil {
			return nil, err
		}
		set := token.NewFileSet()
		tree, err := parser.ParseFile(set, file, text, parser.SkipObjectResolution)
		if err != nil {
			return nil, err
		}
		f := &slips{pkg: pkg, file: file, text: string(text), set: set}
		for _, d := range tree.Decls {
			if fn, ok := d.(*ast.FuncDecl); ok && fn.Body != nil {
				ast.Inspect(fn.Body, f.look)
			}
		}
		all = append(all, f.all...)
	}
	return all, nil
}

// slips gathers the mutants of one file.
type slips struct {
	pkg, file, text string
	set             *token.FileSet
	all             []mutant
}

func (f *slips) offset(p token.Pos) int { return f.set.Position(p).Offset }

func (f *slips) src(n ast.Node) string { return f.text[f.offset(n.Pos()):f.offset(n.End())] }

// put adds a slip: other text in place of what stands between two positions.
func (f *slips) put(from, to token.Pos, put, what string) {
	f.all = append(f.all, mutant{pkg: f.pkg, file: f.file, line: f.set.Position(from).Line, from: f.offset(from),
		to: f.offset(to), put: put, what: what})
}

// swapped are the operators that are easily mistaken for one another.
var swapped = map[token.Token][]string{
	token.LSS: {"<=", ">"}, token.LEQ: {"<"}, token.GTR: {">=",
		"<"}, token.GEQ: {">"}, token.EQL: {"!="}, token.NEQ: {"=="},
	token.ADD: {"-"}, token.SUB: {"+"}, token.MUL: {"/"}, token.LAND: {"||"}, token.LOR: {"&&"},
	token.ADD_ASSIGN: {"-="}, token.SUB_ASSIGN: {"+="}, token.INC: {"--"}, token.DEC: {"++"},
}

// twins are the functions that are easily mistaken for one another.
var twins = map[string]string{"Min": "Max", "Max": "Min", "min": "max", "max": "min", "CeilTo": "FloorTo",
	"FloorTo": "CeilTo", "RoundTo": "FloorTo",
	"Sin": "Cos", "Cos": "Sin"}

func (f *slips) look(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.BinaryExpr:
		for _, op := range swapped[n.Op] {
			f.put(n.OpPos, n.OpPos+token.Pos(len(n.Op.String())), op, n.Op.String()+" is "+op+" in "+short(f.src(n)))
		}
		switch n.Op { // a term is dropped
		case token.ADD, token.SUB, token.LAND, token.LOR:
			f.put(n.X.End(), n.Y.End(), "", n.Op.String()+" "+short(f.src(n.Y))+" is dropped")
			if n.Op != token.SUB {
				f.put(n.X.Pos(), n.Y.Pos(), "", short(f.src(n.X))+" "+n.Op.String()+" is dropped")
			}
		}
	case *ast.BasicLit:
		if n.Kind == token.INT || n.Kind == token.FLOAT {
			f.put(n.Pos(), n.End(), "("+n.Value+"+1)", n.Value+" is one more")
		}
	case *ast.IfStmt:
		f.put(n.Cond.Pos(), n.Cond.End(), "!("+f.src(n.Cond)+")", "not "+short(f.src(n.Cond)))
	case *ast.IncDecStmt:
		f.put(n.TokPos, n.TokPos+2, swapped[n.Tok][0], short(f.src(n))+" the other way")
	case *ast.AssignStmt:
		if op := swapped[n.Tok]; op != nil {
			f.put(n.TokPos, n.TokPos+2, op[0], short(f.src(n))+" the other way")
		}
		if n.Tok != token.DEFINE {
			f.put(n.Pos(), n.End(), "", short(f.src(n))+" is left out")
		}
	case *ast.ExprStmt:
		f.put(n.Pos(), n.End(), "", short(f.src(n))+" is left out")
	case *ast.CallExpr:
		name := n.Fun
		if s, ok := name.(*ast.SelectorExpr); ok {
			name = s.Sel
		}
		if id, ok := name.(*ast.Ident); ok && twins[id.Name] != "" {
			f.put(id.Pos(), id.End(), twins[id.Name], id.Name+" is "+twins[id.Name]+" in "+short(f.src(n)))
		}
	}
	return true
}

// short is a piece of code on one line.
func short(s string) string {
	s = strings.Join(strings.Fields(s), " ")
	if len(s) > 60 {
		s = s[:57] + "..."
	}
	return "`" + s + "`"
}
