package sheets

import "copingset/layout"

// testLimitNames are the names of the facts that a row of the limits of a test letters, cell
// by cell.
func testLimitNames(of string, m layout.Limit) []string {
	is := func(what ...string) string {
		var all []string
		for _, w := range what {
			all = append(all, m.Fact(w))
		}
		return factsOf(of, all...)
	}
	switch m.Kind {
	case layout.LimitMetal, layout.LimitSubstrate:
		row := []string{"", "", ""}
		if m.TestedWords != "" {
			row[1] = is("tested")
		}
		if m.HasWords != "" {
			row[2] = is("built")
		}
		return row
	case layout.LimitFasteners:
		tested := is("tested-front", "tested-rear")
		if m.TestedWords != "" {
			tested = layout.AllNamed(tested, is("fastener"))
		}
		return []string{"", tested, is("built-front", "built-rear")}
	case layout.LimitSpacing:
		built := ""
		if m.Built > 0 {
			built = is("built", "pitch")
		}
		return []string{"", is("tested"), built}
	}
	return []string{"", is("tested"), is("built")}
}
