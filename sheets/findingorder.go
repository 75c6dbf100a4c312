package sheets

import "copingset/layout/finding"

// findingOrder are the places of the findings of one severity as they are listed: those
// that follow from a doubted reading stand under it, whatever they are.
func (b *book) findingOrder(sev finding.Severity) []int {
	var out []int
	for i, f := range b.l.Findings {
		if f.Severity != sev || b.l.Findings.Cause(f) >= 0 {
			continue
		}
		out = append(out, i)
		for k, g := range b.l.Findings {
			if b.l.Findings.Cause(g) == i {
				out = append(out, k)
			}
		}
	}
	return out
}

// findingNumbers number all findings as they are listed: those that follow from another
// take its number and one of their own, 3.1.
func (b *book) findingNumbers() []string {
	out := make([]string, len(b.l.Findings))
	n, of, under := 0, "", 0
	for _, sev := range []finding.Severity{finding.Hold, finding.Error, finding.Note} {
		for _, i := range b.findingOrder(sev) {
			if b.l.Findings.Cause(b.l.Findings[i]) < 0 {
				n++
				of, under = itoa(n), 0
				out[i] = of
				continue
			}
			under++
			out[i] = of + "." + itoa(under)
		}
	}
	return out
}
