package revise

import (
	"slices"
	"strings"

	"copingset/layout/fact"
)

// pressures are the quantities of a demand, by zone and face.
func pressures() []string {
	var out []string
	for _, zone := range []string{"edge", "corner"} {
		for _, face := range []string{"up", "out", "rear", "in"} {
			out = append(out, zone+"-"+face)
		}
	}
	return out
}

func (c *comparer) wind() {
	for _, what := range pressures() {
		if a, b := c.was.Value("wind", what), c.is.Value("wind", what); a != b {
			c.add(Change{Kind: Pressure, Of: what, Old: a, Text: b})
		}
	}
	if a, b := c.was.Length("wind", "corner-zone"), c.is.Length("wind", "corner-zone"); a != b {
		c.add(Change{Kind: Pressure, Of: "corner-zone", Was: a, Is: b})
	}
	for _, what := range []string{"check-code", "confirmed-code", "confirmed-by", "confirmed-document"} {
		if a, b := c.was.Value("wind", what), c.is.Value("wind", what); a != b {
			c.add(Change{Kind: Confirmed, Of: what, Old: a, Text: b})
		}
	}
	for _, of := range c.changed(fact.Assembly, func(what string) bool { return what == "assembly" }) {
		a, b := c.was.Value(of, "assembly"), c.is.Value(of, "assembly")
		if a != "" && b != "" && c.is.Value(of, "zone") != "" {
			c.add(Change{Kind: Assembly, Of: of, Old: a, Text: b})
		}
	}
}

// system names the values of the coping system, the shop and the packing that changed.
func (c *comparer) system() {
	var marks []string
	for _, d := range c.diff {
		if either(d).Kind == fact.Job && (d.Of == "system" || d.Of == "shop" || d.Of == "packing") &&
			d.What != "reason" {
			marks = append(marks, d.Of+": "+strings.ReplaceAll(d.What, "-", " "))
		}
	}
	c.listed(System, marks)
}

// holds tells which holds came and which were cleared, each by its code and place.
func (c *comparer) holds() {
	of := func(l fact.Ledger) []string {
		var out []string
		for _, f := range l {
			if f.Kind == fact.Finding && f.What == "severity" && f.Value == "hold" {
				out = append(out, f.Of)
			}
		}
		return out
	}
	was, is := of(c.was), of(c.is)
	for _, x := range []struct {
		kind       Kind
		here       fact.Ledger
		all, other []string
	}{{HoldNew, c.is, is, was}, {HoldCleared, c.was, was, is}} {
		for _, name := range x.all {
			if !slices.Contains(x.other, name) {
				c.add(Change{Kind: x.kind, Of: x.here.Value(name, "code"), Text: x.here.Value(name, "what")})
			}
		}
	}
}

// book are the quantities that only keep books: they change with what stands before in a
// list, and neither the shop nor the crew works by them.
var book = []string{"place", "laying", "twin", "file", "holds", "released", "for", "for-held", "pieces", "number",
	"assembly", "wind-zone", "weight", "weight-shipped", "lift", "perimeter"}

// Worked says that a fact is one that metal is made by or work is set by.
func Worked(f fact.Fact) bool {
	switch f.Kind {
	case fact.Chair, fact.Screw, fact.Shim, fact.Joint, fact.Gap, fact.Piece, fact.Offset, fact.Obstacle, fact.Zone,
		fact.Support, fact.Make, fact.Family, fact.Part:
		return !slices.Contains(book, f.What) && !strings.HasPrefix(f.What, "load")
	}
	return false
}

// Differs says whether anything that is made or set changes.
func Differs(was, is fact.Ledger) bool {
	return slices.ContainsFunc(fact.Diff(was, is), func(d fact.Change) bool { return Worked(either(d)) })
}
