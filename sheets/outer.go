package sheets

import (
	"slices"
	"strings"

	"copingset/drawing/words"
	"copingset/layout/job"
)

// outerKeys are the names of what may lie outside a wall.
var outerKeys = [...]words.Key{job.Street: words.OuterStreet, job.Court: words.OuterCourt,
	job.LightWell: words.OuterWell, job.Yard: words.OuterYard}

// outerOf is what lies outside the walls of some perimeters, as a book of words takes
// it: of several that differ, all of them, for sheets that show all.
func outerOf(all []job.Perimeter) string {
	var codes []string
	for _, o := range []job.Outer{job.Street, job.Court, job.LightWell, job.Yard} {
		if slices.ContainsFunc(all, func(p job.Perimeter) bool { return p.OuterSide == o }) {
			_, code, _ := strings.Cut(string(outerKeys[o]), ".")
			codes = append(codes, code)
		}
	}
	if len(codes) == 1 && codes[0] == job.Street.String() {
		return "" // the tables say it
	}
	return strings.Join(codes, " ")
}

// on is the book that speaks of one perimeter: its outer side has a name of its own.
// All else it shares with the packet's.
func (b *book) on(p *job.Perimeter) *book {
	own := outerOf([]job.Perimeter{*p})
	if own == b.say.Outer {
		return b
	}
	c := *b
	c.say.Outer = own
	return &c
}

// its are pages whose title block and frame speak as the book does.
func (b *book) its(pages []page) []page {
	for i := range pages {
		pages[i].by = b
	}
	return pages
}
