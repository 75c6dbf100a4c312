// Package confirm says what a signature stands under: a list of named values as
// they are printed, and a short code over its text that a letter can repeat.
//
// The text is what counts. A program on another processor that prints the same
// values makes the same code, and so does one whose names in code, sentences on
// sheets or order of computing have changed.
package confirm

import (
	"cmp"
	"crypto/sha256"
	"fmt"
	"slices"
	"strings"
)

// Head is the first line of every list: the form of the text. A list of another
// form is never compared.
const Head = "confirm/1"

// Line is one value under the signature: a name that never changes, and the
// value as it is printed.
type Line struct{ Name, Value string }

// List is all that a signature stands under.
type List []Line

// Sorted is the list in the order of its names, each value on one line.
func (l List) Sorted() List {
	out := make(List, len(l))
	for i, x := range l {
		out[i] = Line{Name: plain(x.Name), Value: plain(x.Value)}
	}
	slices.SortFunc(out, func(a, b Line) int {
		return cmp.Or(cmp.Compare(a.Name, b.Name), cmp.Compare(a.Value, b.Value))
	})
	return out
}

func plain(s string) string { return strings.Join(strings.Fields(s), " ") }

// Text is the list as it is signed: the head, and a line "name = value" for each
// value, sorted, each ended by a line feed.
func (l List) Text() string {
	var b strings.Builder
	b.WriteString(Head + "\n")
	for _, x := range l.Sorted() {
		b.WriteString(x.Name + " = " + x.Value + "\n")
	}
	return b.String()
}

// Parse reads a list back from its text. Line ends, blank lines, spaces about a
// line, its order, and lines that begin with # do not count. The error names the
// line, from one.
func Parse(text string) (List, error) {
	var out List
	headed := false
	seen := map[string]bool{}
	text = strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(text)
	for i, line := range strings.Split(text, "\n") {
		line = plain(line)
		switch {
		case line == "" || strings.HasPrefix(line, "#"):
			continue
		case !headed && line != Head:
			return nil, &Fault{i + 1, "the list does not begin with " + Head}
		case !headed:
			headed = true
			continue
		}
		name, value, ok := strings.Cut(line, " =")
		if !ok || name == "" {
			return nil, &Fault{i + 1, "the line is not of the form name = value"}
		}
		if seen[name] {
			return nil, &Fault{i + 1, name + " stands in the list twice"}
		}
		seen[name] = true
		out = append(out, Line{Name: name, Value: plain(value)})
	}
	if !headed {
		return nil, &Fault{1, "the list does not begin with " + Head}
	}
	return out, nil
}

// Fault is what is wrong with the text of a list, and at which line.
type Fault struct {
	Line int
	What string
}

func (f *Fault) Error() string { return fmt.Sprintf("line %d: %s", f.Line, f.What) }

// Code is the check code of the list: the first fifty bits of the SHA-256 of its
// text, in ten characters.
func (l List) Code() Code {
	sum := sha256.Sum256([]byte(l.Text()))
	var out [Long]byte
	var bits, n uint64
	k := 0
	for _, b := range sum[:7] {
		bits, n = bits<<8|uint64(b), n+8
		for n >= 5 && k < Long {
			out[k] = letters[bits>>(n-5)&31]
			n -= 5
			k++
		}
	}
	return Code(out[:])
}

// Code is a check code, capitals and digits without a hyphen.
type Code string

// Long is how many characters a code has.
const Long = 10

// letters of a code: of digits and capitals those four are left out that are
// taken for a digit when they are copied by hand. I is read as 1, O as 0, S as 5
// and Z as 2.
const letters = "0123456789ABCDEFGHJKLMNPQRTUVWXY"

// String is the code as it is printed, in two groups.
func (c Code) String() string {
	if len(c) != Long {
		return string(c)
	}
	return string(c[:Long/2]) + "-" + string(c[Long/2:])
}

// ParseCode reads a code as a person copied it: small letters, spaces and
// hyphens do not count.
func ParseCode(s string) (Code, error) {
	s = strings.NewReplacer("-", "", " ", "", "I", "1", "O", "0", "S", "5", "Z", "2").Replace(strings.ToUpper(s))
	for _, r := range s {
		if !strings.ContainsRune(letters, r) {
			return "", fmt.Errorf("%q is in no check code", r)
		}
	}
	if len(s) != Long {
		return "", fmt.Errorf("a check code has %d characters, and this has %d", Long, len(s))
	}
	return Code(s), nil
}

// Change is a value that is no longer what was signed. A value that is new was
// empty, and so is one that is gone.
type Change struct{ Name, Was, Is string }

// String is the change in words.
func (c Change) String() string {
	switch {
	case c.Was == "":
		return c.Name + ": " + c.Is + ", which was not in the list"
	case c.Is == "":
		return c.Name + ": " + c.Was + ", which is no longer there"
	}
	return c.Name + ": " + c.Was + " -> " + c.Is
}

// Diff lists what changed between what was signed and what is, by name.
func Diff(was, is List) []Change {
	at := map[string]Change{}
	for _, x := range was.Sorted() {
		at[x.Name] = Change{Name: x.Name, Was: x.Value}
	}
	for _, x := range is.Sorted() {
		c := at[x.Name]
		c.Name, c.Is = x.Name, x.Value
		at[x.Name] = c
	}
	var out []Change
	for _, c := range at {
		if c.Was != c.Is {
			out = append(out, c)
		}
	}
	slices.SortFunc(out, func(a, b Change) int { return cmp.Compare(a.Name, b.Name) })
	return out
}
