package sheets

import (
	"fmt"
	"strings"
)

// A sheet's number is its section, its subject and its page: 3.N.1 is the first
// sheet of run N. It depends on no sheet of another subject, so that a sheet put in
// or left out elsewhere renumbers nothing, and one drawn alone has the number it has
// in the packet. How many sheets there are is said by the index alone.

// section of the packet a kind of sheet stands in. Holds and notes stand with the
// cover, the order of work and its plywood with the safety cautions, everything else by
// itself.
func (k Kind) section() int {
	switch k {
	case Index, Findings:
		return 1
	case Safety, WorkSheet, Plywood, Glossary:
		return 2
	}
	return int(k-RunSheet) + 3
}

// longestSubject is how much of the names of a sheet's subject its number takes.
const longestSubject = 10

// subject is what of a section a page is about; empty where the section has one
// subject.
func (b *book) subject(p page) string {
	words := b.subjects[p.id]
	switch {
	case p.kind == Findings:
		return "holds"
	case p.kind == WorkSheet || p.kind == Plywood || p.kind == Glossary:
		return words[0]
	case p.kind == Index && len(words) == 1 && words[0] == "cover":
		return ""
	case p.kind == Index:
		return plainMark(strings.ToLower(words[0]))
	case (p.kind == RunSheet || p.kind == WallReport) && len(words) > 2 && b.runsAreApart():
		words = words[2:]
	default:
		words = words[1:]
	}
	return plainMark(strings.Join(words, "-"))
}

// runsAreApart says that no two perimeters have a run of the same name, so that a
// run's own is enough.
func (b *book) runsAreApart() bool {
	seen := map[string]bool{} // look-up only
	for _, r := range b.l.Runs() {
		if seen[r.Name] {
			return false
		}
		seen[r.Name] = true
	}
	return true
}

// plainMark is a name as part of a number: without what parts a number.
func plainMark(name string) string {
	out := []rune(strings.Join(strings.FieldsFunc(name, func(r rune) bool { return r == ' ' || r == '.' }), "-"))
	return strings.TrimRight(string(out[:min(len(out), longestSubject)]), "-")
}

// numbers gives pages their numbers, in their order.
func (b *book) numbers(pages []page) []string {
	n := map[string]int{} // look-up only: pages of a subject so far
	out := make([]string, len(pages))
	for i, p := range pages {
		of := fmt.Sprint(p.kind.section())
		if s := b.subject(p); s != "" {
			of += "." + s
		}
		n[of+p.tongue]++
		out[i] = fmt.Sprintf("%s.%d", of, n[of+p.tongue])
	}
	return out
}
