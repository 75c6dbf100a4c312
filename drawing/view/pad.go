package view

import (
	"copingset/drawing"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// pad gathers the names of the facts that a sentence letters, while its values are
// lettered one by one.
type pad struct{ names []string }

// is notes a value and gives what it comes to.
func (p *pad) is(v plan.Value) length.Length {
	p.also(v.Fact)
	return v.Real
}

// also notes facts by name.
func (p *pad) also(names ...string) { p.names = append(p.names, names...) }

// said are words with the facts noted since the last ones.
func (p *pad) said(words string) drawing.Said {
	out := drawing.Said{Words: words, Fact: drawing.FactNames(p.names...)}
	p.names = nil
	return out
}
