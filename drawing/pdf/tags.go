package pdf

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"unicode/utf16"
)

// element is a node of the structure tree (ISO 32000-1, 14.7): a section for each sheet and
// each view, in it a figure for what is drawn, a table, or a paragraph for each row of other
// lettering. It has parts, or marked content of its page by number.
type element struct {
	kind       string
	title, alt string
	parts      []*element
	content    []int
}

// tags is the structure of a document while it is drawn.
type tags struct {
	sheets []*element   // one for each page
	owners [][]*element // by page, whose each piece of marked content is
}

// begin starts a sheet.
func (t *tags) begin(title string) *element {
	e := &element{kind: "Sect", title: title}
	t.sheets = append(t.sheets, e)
	t.owners = append(t.owners, nil)
	return e
}

// own gives the next piece of marked content of the sheet to an element and returns its number.
func (t *tags) own(e *element) int {
	page := len(t.owners) - 1
	n := len(t.owners[page])
	t.owners[page] = append(t.owners[page], e)
	e.content = append(e.content, n)
	return n
}

func (e *element) add(kind, alt string) *element {
	part := &element{kind: kind, alt: alt}
	e.parts = append(e.parts, part)
	return part
}

// bare drops what turned out to hold nothing, but for the cells of a table, which are counted by its reader.
func (e *element) bare() bool {
	e.parts = slices.DeleteFunc(e.parts, (*element).bare)
	return len(e.parts) == 0 && len(e.content) == 0 && e.kind != "TD" && e.kind != "TH"
}

// objects writes the tree as objects numbered from first, which is its root.
func (t *tags) objects(first int) [][]byte {
	out := make([][]byte, 3) // root, parent tree and document, which name what follows them
	numbers := map[*element]int{}
	var write func(e *element, parent, page int) int
	write = func(e *element, parent, page int) int {
		n := first + len(out)
		numbers[e] = n
		out = append(out, nil)
		var b bytes.Buffer
		fmt.Fprintf(&b, "<</S /%s /P %d 0 R /Pg %d 0 R", e.kind, parent, pageObject(page))
		if e.title != "" {
			fmt.Fprintf(&b, " /T %s", textString(e.title))
		}
		if e.alt != "" {
			fmt.Fprintf(&b, " /Alt %s", textString(e.alt))
		}
		if e.kind == "TH" {
			b.WriteString(" /A <</O /Table /Scope /Column>>")
		}
		b.WriteString(" /K [")
		for _, p := range e.parts {
			fmt.Fprintf(&b, "%d 0 R ", write(p, n, page))
		}
		for _, c := range e.content {
			fmt.Fprintf(&b, "%d ", c)
		}
		b.Truncate(b.Len() - min(1, len(e.parts)+len(e.content)))
		b.WriteString("]>>")
		out[n-first] = b.Bytes()
		return n
	}
	var sheets, nums strings.Builder
	for page, e := range t.sheets {
		e.bare()
		fmt.Fprintf(&sheets, "%d 0 R ", write(e, first+2, page))
		fmt.Fprintf(&nums, "%d [", page)
		for _, owner := range t.owners[page] {
			fmt.Fprintf(&nums, "%d 0 R ", numbers[owner])
		}
		nums.WriteString("]\n")
	}
	out[0] = fmt.Appendf(
		nil,
		"<</Type /StructTreeRoot /K %d 0 R /ParentTree %d 0 R /ParentTreeNextKey %d>>",
		first+2,
		first+1,
		len(t.sheets),
	)
	out[1] = fmt.Appendf(nil, "<</Nums [%s]>>", nums.String())
	out[2] = fmt.Appendf(nil, "<</S /Document /P %d 0 R /K [%s]>>", first, sheets.String())
	return out
}

// pageObject is the number the library gives a page, counted from 0, ahead of its content.
func pageObject(page int) int { return 3 + 2*page }

// textString writes words as a string of text: plain ASCII as it is, others as UTF-16.
func textString(words string) string {
	if !strings.ContainsFunc(words, func(r rune) bool { return r < ' ' || r > '~' }) {
		return "(" + strings.NewReplacer(`\`, `\\`, "(", `\(`, ")", `\)`).Replace(words) + ")"
	}
	var b strings.Builder
	b.WriteString("<FEFF")
	for _, u := range utf16.Encode([]rune(words)) {
		fmt.Fprintf(&b, "%04X", u)
	}
	b.WriteByte('>')
	return b.String()
}
