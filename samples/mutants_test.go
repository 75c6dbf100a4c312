package samples_test

import (
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path"
	"path/filepath"
	"runtime/debug"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length/draws"
	"copingset/sheets"

	"gopkg.in/yaml.v3"
)

// A mutant is a sample that was broken as people and programs break files: keys
// taken out, doubled, moved, values of one key at another, cells of a survey of
// another kind. Whatever was done to it, reading and solving end, quickly and without
// a panic, each finding says where, and a job that errs is not solved.
//
// Every mutant has a number, which is all that is kept of one that failed once.

// mutantsUsual is how many are tried where draws are not multiplied. Batches of others
// are tried by COPINGSET_MUTANTS=FIRST,MANY: a hundred thousand are forty of 2,500.
const mutantsUsual = 50

// batch are the numbers of the mutants to try beside those that failed once.
func batch(t *testing.T) []uint64 {
	t.Helper()
	first, many := uint64(0), uint64(draws.Times(mutantsUsual))
	if s := os.Getenv("COPINGSET_MUTANTS"); s != "" {
		if _, err := fmt.Sscanf(s, "%d,%d", &first, &many); err != nil || many == 0 {
			t.Fatalf("COPINGSET_MUTANTS=%s: write the first and how many, as 2500,2500", s)
		}
	}
	out := make([]uint64, many)
	for i := range out {
		out[i] = first + uint64(i)
	}
	return out
}

// mostCPU is how much of a processor's time one mutant may take.
const mostCPU = 2 * time.Second

// onceFailed are numbers of mutants that failed once.
func onceFailed(t *testing.T) []uint64 {
	t.Helper()
	data, err := os.ReadFile("testdata/mutants.txt")
	if err != nil {
		t.Fatal(err)
	}
	var out []uint64
	for _, line := range strings.Split(string(data), "\n") {
		text, _, _ := strings.Cut(line, "#")
		if text = strings.TrimSpace(text); text == "" {
			continue
		}
		var n uint64
		if _, err := fmt.Sscan(text, &n); err != nil {
			t.Fatalf("testdata/mutants.txt: %s: %v", line, err)
		}
		out = append(out, n)
	}
	return out
}

func TestMutants(t *testing.T) {
	files := map[string][]byte{}
	for _, dir := range []string{"systems", "firms", "rectangle", "l-shape", "metric"} {
		all, err := filepath.Glob(dir + "/*")
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range append(all, "copingset.root") {
			data, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			files[filepath.ToSlash(f)] = data
		}
	}
	numbers := append(onceFailed(t), batch(t)...)
	read, solved, drawn := 0, 0, 0
	for _, n := range numbers {
		m := newMutant(files, n)
		spent := cpu()
		outcome := m.try(t)
		if used := cpu() - spent; used > mostCPU && outcome != wasDrawn {
			t.Errorf("mutant %d took %v of CPU: %s", n, used, m.done)
		}
		switch outcome {
		case wasDrawn:
			drawn++
			fallthrough
		case wasSolved:
			solved++
			fallthrough
		case wasRead:
			read++
		}
	}
	t.Logf("%d mutants: %d read without an error, %d solved without one, %d drawn", len(numbers), read, solved, drawn)
	if read == 0 || read == len(numbers) {
		t.Errorf("%d of %d mutants read without an error: they break too little or too much", read, len(numbers))
	}
}

type outcome int

const (
	refused outcome = iota
	wasRead
	wasSolved
	wasDrawn
)

type mutant struct {
	n     uint64
	r     *rand.Rand
	files fstest.MapFS
	job   string
	done  string // what was done to it
}

func newMutant(files map[string][]byte, n uint64) *mutant {
	m := &mutant{n: n, r: rand.New(rand.NewPCG(n, 1)), files: fstest.MapFS{}}
	for name, data := range files {
		m.files[name] = &fstest.MapFile{Data: data}
	}
	m.job = []string{"rectangle", "l-shape", "metric"}[m.r.IntN(3)] + "/job.yaml"
	for range 1 + m.r.IntN(2) {
		if m.r.IntN(3) == 0 {
			m.breakSurvey()
		} else {
			m.breakJob()
		}
	}
	return m
}

// try reads, solves and of a few draws the mutant.
func (m *mutant) try(t *testing.T) (got outcome) {
	defer func() {
		if p := recover(); p != nil {
			t.Errorf("mutant %d panics: %v\n%s\n%s", m.n, p, m.done, debug.Stack())
		}
	}()
	j, found := job.Read(fs.FS(m.files), m.job)
	m.placed(t, found)
	if found.HasErrors() || j == nil {
		return refused
	}
	l, found := layout.Build(j)
	m.placed(t, found)
	if found.HasErrors() {
		return wasRead
	}
	const oneOf = 25 // is drawn: it takes as long as all the others together
	if m.n%oneOf != 0 {
		return wasSolved
	}
	if len(sheets.Packet(l, sheets.Options{For: sheets.Crew})) == 0 {
		t.Errorf("mutant %d has no sheets: %s", m.n, m.done)
	}
	return wasDrawn
}

func (m *mutant) placed(t *testing.T, found finding.List) {
	for _, f := range found {
		if f.At.File == "" || f.What == "" || f.Mend == "" && f.Severity == finding.Error {
			t.Errorf("mutant %d: a finding without its file, its words or what to do: %+v\n%s", m.n, f, m.done)
		}
	}
}

func (m *mutant) did(format string, args ...any) { m.done += fmt.Sprintf(format, args...) + "; " }

// part is one of the files that a job is made of.
func (m *mutant) part() string {
	parts := []string{m.job, m.job, m.job}
	text := string(m.files[m.job].Data)
	systems, err := fs.Glob(m.files, "systems/*")
	if err != nil {
		panic(err)
	}
	for _, name := range systems {
		if strings.Contains(text, path.Base(name)) {
			parts = append(parts, name)
		}
	}
	return parts[m.r.IntN(len(parts))]
}

// strange are values that stand at some key or other.
func (m *mutant) strange() string {
	all := []string{"", "0", "-1", "1e309", "NaN", "yes", "no", "left", "right 90", "left 179.9", "90", "0 in", "1/0\"", "-3/8\"", "99999'", "0.0000001 mm",
		"46030", "2026-02-30", "inside 3", "outside 179", "1:0", "100%", "free", "wall", "N", "ROOF", "./", "../../..", "=1+1", "\u202e", "☃", strings.Repeat("x", 300),
		"12 psf", "12 psf allowable", "5 psf strength", "{", "[", "7 3/8\"", "2400 mm", "up 40'", "peak", "level"}
	return all[m.r.IntN(len(all))]
}

// breakJob changes the tree of a file.
func (m *mutant) breakJob() {
	name := m.part()
	var doc yaml.Node
	if yaml.Unmarshal(m.files[name].Data, &doc) != nil || len(doc.Content) == 0 {
		return
	}
	var all []*yaml.Node // mappings and lists with something in them
	var scalars []*yaml.Node
	var walk func(n *yaml.Node)
	walk = func(n *yaml.Node) {
		if n.Kind == yaml.ScalarNode {
			scalars = append(scalars, n)
		} else if len(n.Content) > 0 && n.Kind != yaml.DocumentNode {
			all = append(all, n)
		}
		for i, c := range n.Content {
			if n.Kind != yaml.MappingNode || i%2 == 1 {
				walk(c)
			}
		}
	}
	walk(&doc)
	if len(all) == 0 || len(scalars) == 0 {
		return
	}
	n := all[m.r.IntN(len(all))]
	step := 1
	if n.Kind == yaml.MappingNode {
		step = 2
	}
	at := m.r.IntN(len(n.Content)/step) * step
	s := scalars[m.r.IntN(len(scalars))]
	switch m.r.IntN(16) {
	case 0:
		m.did("%s: %s taken out", name, n.Content[at].Value)
		n.Content = append(n.Content[:at:at], n.Content[at+step:]...)
	case 1:
		m.did("%s: %s doubled", name, n.Content[at].Value)
		n.Content = append(n.Content, n.Content[at:at+step]...)
	case 2:
		o := scalars[m.r.IntN(len(scalars))]
		m.did("%s: %q and %q change places", name, s.Value, o.Value)
		s.Value, o.Value = o.Value, s.Value
	case 3, 4:
		v := m.strange()
		m.did("%s: %q becomes %.40q", name, s.Value, v)
		s.Value, s.Tag, s.Style = v, "!!str", 0
	case 5:
		o := all[m.r.IntN(len(all))]
		m.did("%s: a part is put in place of %s", name, n.Content[at].Value)
		if o != n {
			n.Content[at+step-1] = copied(o, 12)
		}
	case 6:
		m.did("%s: %s is emptied", name, n.Content[at].Value)
		n.Content[at+step-1] = &yaml.Node{Kind: []yaml.Kind{yaml.SequenceNode, yaml.MappingNode}[m.r.IntN(2)]}
	case 7:
		if n.Kind == yaml.SequenceNode && len(n.Content) > 1 {
			k := m.r.IntN(len(n.Content))
			m.did("%s: items %d and %d change places", name, at, k)
			n.Content[at], n.Content[k] = n.Content[k], n.Content[at]
		}
	default:
		m.did("%s: digits of %q", name, s.Value)
		s.Value = m.digits(s.Value)
	}
	if text, err := yaml.Marshal(&doc); err == nil {
		m.files[name] = &fstest.MapFile{Data: text}
	}
}

// digits changes one digit of a text, or doubles it, as fingers do.
func (m *mutant) digits(s string) string {
	var at []int
	for i := range len(s) {
		if s[i] >= '0' && s[i] <= '9' {
			at = append(at, i)
		}
	}
	if len(at) == 0 {
		return s + "9"
	}
	i, d := at[m.r.IntN(len(at))], string(rune('0'+m.r.IntN(10)))
	switch m.r.IntN(3) {
	case 0:
		return s[:i] + d + s[i+1:]
	case 1:
		return s[:i] + d + s[i:]
	}
	return s[:i] + s[i+1:]
}

// copied is a part of a file, no deeper than depth.
func copied(n *yaml.Node, depth int) *yaml.Node {
	c := *n
	c.Content = nil
	if depth == 0 {
		return &c
	}
	for _, k := range n.Content {
		c.Content = append(c.Content, copied(k, depth-1))
	}
	return &c
}

// breakSurvey changes lines or cells of a survey of the job.
func (m *mutant) breakSurvey() {
	all, err := fs.Glob(m.files, path.Dir(m.job)+"/*.csv")
	if err != nil || len(all) == 0 {
		return
	}
	name := all[m.r.IntN(len(all))]
	lines := strings.Split(strings.TrimRight(string(m.files[name].Data), "\n"), "\n")
	i, k := m.r.IntN(len(lines)), m.r.IntN(len(lines))
	switch m.r.IntN(10) {
	case 0:
		m.did("%s: line %d taken out", name, i+1)
		lines = append(lines[:i:i], lines[i+1:]...)
	case 1:
		m.did("%s: lines %d and %d change places", name, i+1, k+1)
		lines[i], lines[k] = lines[k], lines[i]
	case 2:
		m.did("%s: line %d twice", name, i+1)
		lines = append(lines, lines[i])
	case 4:
		cells := strings.Split(lines[i], ",")
		v := m.strange()
		m.did("%s: a cell of line %d becomes %.40q", name, i+1, v)
		cells[m.r.IntN(len(cells))] = v
		lines[i] = strings.Join(cells, ",")
	case 5:
		m.did("%s: cut off in line %d", name, i+1)
		lines = lines[:i+1]
		lines[i] = lines[i][:len(lines[i])/2]
	default:
		m.did("%s: digits of line %d", name, i+1)
		lines[i] = m.digits(lines[i])
	}
	m.files[name] = &fstest.MapFile{Data: []byte(strings.Join(lines, "\n") + "\n")}
}
