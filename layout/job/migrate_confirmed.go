package job

// unconfirmed puts a confirmation of the form before behind a #: it repeated one
// pressure, and today's is over the whole list by its check code, which only who
// confirmed it can give. The pressures are on hold until then.
func (m *mover) unconfirmed(here string, f *field) bool {
	if here != "wind" || f.key != "confirmed" || f.value.kind != mappingNode || f.value.field("corner_up") == nil ||
		f.value.field("code") != nil {
		return false
	}
	if f.at.Line < 1 || f.at.Line > len(m.lines) {
		return false
	}
	column := len(string([]rune(m.lines[f.at.Line-1])[:f.at.Col-1]))
	for line := f.at.Line; line <= max(f.at.Line, lastLine(f.value)); line++ {
		if line > len(m.lines) || len(m.lines[line-1]) <= column {
			continue
		}
		m.edits = append(m.edits, textEdit{at: m.lineAt[line-1] + column, text: "# "})
	}
	m.changes = append(m.changes, Change{f.at, "wind.confirmed: put behind a #"})
	m.unsure = append(m.unsure, Change{f.at, "the confirmation repeated one pressure; today's is over the whole list " +
		"by its check code: send what `copingset confirm` prints to who confirmed it, and write `code:` as the " +
		"answer has it"})
	return true
}

// lastLine is the last line on which anything of a part of the tree begins.
func lastLine(n *node) int {
	out := n.at.Line
	for _, f := range n.fields {
		out = max(out, f.at.Line, lastLine(f.value))
	}
	for _, i := range n.items {
		out = max(out, lastLine(i))
	}
	return out
}
