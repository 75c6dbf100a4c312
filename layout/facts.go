package layout

import (
	"fmt"
	"strconv"
	"strings"

	"copingset/layout/fact"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// Facts lists every value that the packet prints, by name and exactly. It is
// worked out from the layout alone: the same layout gives the same ledger.
//
// Things with a mark of their own are named by it: a chair N-C7, a joint N-J3, a
// piece E-04, a support N/E-S1. Others say what they are, since a corner is called
// as the piece over it: corner N/E, run ROOF/N, family C2, part P3, crate 2. What
// stands on a run in station order is counted: its obstacles N-O1, its readings
// N-R1, the zones of its build-up N-Z1 and their plywood N-P1.
func (l *Layout) Facts() fact.Ledger {
	b := &facts{l: l, files: l.cutFiles(), alike: map[*Piece]int{}}
	for _, g := range l.CornerGroups() {
		for _, q := range g {
			b.alike[q] = len(g)
		}
	}
	b.ofJob()
	b.ofWind()
	b.about(fact.Run, "levelling")
	b.ofLevelling(&l.Packing)
	for _, p := range l.Perimeters {
		b.ofPerimeter(p)
		for _, r := range p.Runs {
			b.ofRun(r)
			b.ofReadings(r)
			b.ofObstacles(r)
			b.ofBuildUp(r)
			b.ofChairs(r)
			b.ofJoints(r)
		}
		for _, c := range p.Corners {
			b.ofCorner(p, c)
		}
		for _, s := range p.Supports {
			b.ofSupport(s)
		}
		for _, q := range p.Pieces {
			b.ofPiece(q)
			b.ofTurned(q)
		}
	}
	b.ofQuestions()
	b.ofSections()
	b.ofTested()
	b.ofAssemblies()
	b.ofTestedSections()
	b.ofFasteners()
	b.ofFamilies()
	b.ofParts()
	b.ofCutting()
	b.ofPartCutting()
	b.ofTrials()
	b.ofCrates()
	b.ofFindings()
	return fact.Sorted(b.out)
}

// facts gathers them. Facts that follow are of the kind and the thing last named.
type facts struct {
	l     *Layout
	out   []fact.Fact
	kind  fact.Kind
	of    string
	n     int               // things that have been given a place in the lists
	files map[cutKey]string // look-up only: that bodies are cut by
	alike map[*Piece]int    // look-up only: how many of a piece that is no straight one are made
}

func (b *facts) about(kind fact.Kind, of string) { b.kind, b.of = kind, of }

func (b *facts) put(what string, unit fact.Unit, value string) {
	b.out = append(b.out, fact.Fact{Kind: b.kind, Of: b.of, What: what, Unit: unit, Value: value})
}

func (b *facts) words(what, value string)            { b.put(what, fact.Words, value) }
func (b *facts) count(what string, n int)            { b.put(what, fact.Count, strconv.Itoa(n)) }
func (b *facts) length(what string, v length.Length) { b.put(what, fact.Length, fact.Nanometres(v)) }
func (b *facts) grams(what string, n int64)          { b.put(what, fact.Grams, strconv.FormatInt(n, 10)) }
func (b *facts) angle(what string, a job.Angle) {
	b.put(what, fact.Angle, strconv.FormatInt(int64(a), 10))
}
func (b *facts) slope(what string, s job.Slope) {
	b.put(what, fact.Slope, strconv.FormatInt(int64(s), 10))
}
func (b *facts) temp(what string, t job.Temperature) {
	b.put(what, fact.Temperature, strconv.FormatInt(int64(t), 10))
}
func (b *facts) number(what string, v float64)        { b.put(what, fact.Number, exactly(v)) }
func (b *facts) pressure(what string, q job.Pressure) { b.put(what, fact.Pressure, exactly(q.Pa)) }

// said adds words where there are any.
func (b *facts) said(what, value string) {
	if value != "" {
		b.words(what, value)
	}
}

// some adds a length where there is one.
func (b *facts) some(what string, v length.Length) {
	if v != 0 {
		b.length(what, v)
	}
}

func (b *facts) yes(what string, v bool) {
	if v {
		b.words(what, "yes")
	} else {
		b.words(what, "no")
	}
}

func (b *facts) lengths(what string, all []length.Length) {
	words := make([]string, len(all))
	for i, v := range all {
		words[i] = fact.Nanometres(v)
	}
	b.put(what, fact.Lengths, strings.Join(words, " "))
}

// place gives the thing its place among all things, in the order of the lists.
func (b *facts) place() {
	b.n++
	b.count("place", b.n)
}

func exactly(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

// Named is the name of a fact, for a mark that letters it; AllNamed names several
// that one mark letters.
func Named(of, what string) string { return fact.Name(of, what) }

// AllNamed joins names of facts.
func AllNamed(names ...string) string { return fact.Names(names...) }

// FactOfRun is what the facts of a run are of.
func FactOfRun(r *Run) string { return "run " + r.Perimeter.Job.Name + "/" + r.Name }

// FactOfCorner is what the facts of a corner are of.
func FactOfCorner(c *Corner) string { return "corner " + c.Name }

// FactOfObstacle is what the facts of an obstacle of a run are of: obstacles
// have no marks of their own and are counted from the left.
func FactOfObstacle(r *Run, o *job.Obstacle) string {
	n := 1
	for i := range r.Job.Obstacles {
		if q := &r.Job.Obstacles[i]; q.Station < o.Station || q.Station == o.Station && q != o && before(r, q, o) {
			n++
		}
	}
	return fmt.Sprintf("%s-O%d", r.Name, n)
}

// before tells which of two obstacles at one station stands first in the job.
func before(r *Run, q, o *job.Obstacle) bool {
	for i := range r.Job.Obstacles {
		switch &r.Job.Obstacles[i] {
		case q:
			return true
		case o:
			return false
		}
	}
	return false
}

// GapAt is what the gap of a joint at a metal temperature is called.
func GapAt(t job.Temperature) string {
	return "gap-at-" + strconv.FormatFloat(t.Celsius(), 'f', -1, 64) + "C"
}

// FindingNames are what the facts of the findings are of, in their order: their code and
// place in the layout; those alike in both are counted.
func (l *Layout) FindingNames() []string {
	var out []string
	seen := map[string]int{} // look-up only
	for _, f := range l.Findings {
		of := "finding " + f.Code
		if where := whereOf(f.Where); where != "" {
			of += " " + where
		}
		seen[of]++
		if n := seen[of]; n > 1 {
			of += fmt.Sprintf(" #%d", n)
		}
		out = append(out, of)
	}
	return out
}

// ofFindings are what is wrong or on hold, and where.
func (b *facts) ofFindings() {
	names := b.l.FindingNames()
	for i, f := range b.l.Findings {
		b.about(fact.Finding, names[i])
		b.place()
		b.words("severity", f.Severity.String())
		b.words("code", f.Code)
		b.said("file", f.At.File)
		if f.At.Line > 0 {
			b.count("line", f.At.Line)
			b.count("column", f.At.Col)
		}
		b.said("perimeter", f.Where.Perimeter)
		b.said("run", strings.Join(append([]string{f.Where.Run}, f.Where.Runs...), " "))
		b.said("corner", f.Where.Corner)
		if f.Where.HasStation {
			b.length("station", b.l.CrewStation(f.Where))
		}
		b.said("pieces", strings.Join(f.Where.Pieces, " "))
		b.said("chairs", strings.Join(f.Where.Chairs, " "))
		b.said("part", strings.Join(append([]string{f.Where.Part}, f.Where.Parts...), " "))
		b.words("what", f.What)
		b.said("why", f.Why)
		b.said("mend", f.Mend)
	}
}

// CrewStation is where the crew finds the place of a finding; one on no run stays
// on the front face.
func (l *Layout) CrewStation(w finding.Ref) length.Length {
	for _, r := range l.Runs() {
		if r.Name == w.Run && r.Perimeter.Job.Name == w.Perimeter {
			return r.CrewAt(w.Station)
		}
	}
	return w.Station
}

// whereOf is the place of a finding, exactly.
func whereOf(w finding.Ref) string {
	out := w.String()
	if w.HasStation {
		out += " at " + fact.Nanometres(w.Station)
	}
	return out
}
