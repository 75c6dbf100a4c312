// Package words holds what sheets say, one sentence a row, in every language they
// are printed in, and nothing else: which sentence is said where is for sheets and
// views, and what is put into it comes lettered.
//
// The tables (table/*.csv, one for each kind of sheet) have a key, the reader the
// sentence is for, the English, the British spelling where it differs, the Spanish,
// and who read the Spanish over. A value stands in a sentence as a named slot,
// {station}; a sentence that counts has two forms, of one and of more, with a bar
// between them. Keys are constants (keys_*.go, written from the tables by
// go test ./drawing/words -update), so that a sentence that is not there does not
// compile.
//
// Book.Say says a sentence and Book.Count one that counts. A key or a slot the
// table does not know is a programming error and panics.
package words

import (
	"embed"
	"encoding/csv"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"sync"
	"unicode"
)

// Key names a sentence.
type Key string

// Lang is a language sheets are printed in.
type Lang uint8

// The languages. Longer is nobody's: English with every word a third longer, by
// which drawings are tried for room and sheets for words that are in no table.
const (
	English Lang = iota
	Spanish
	Longer
)

// Reader is who a sentence is for.
type Reader string

// The readers.
const (
	Crew      Reader = "crew"      // who sets the work
	Receiving Reader = "receiving" // who unloads it
	Shop      Reader = "shop"      // who bends it
	Office    Reader = "office"    // who orders, reviews and inspects it
)

// Slot is a value for a sentence, as lettered.
type Slot struct{ Name, Value string }

// In puts a value into the slot of a name.
func In(name, value string) Slot { return Slot{name, value} }

// Row is a sentence of the table.
type Row struct {
	Key                  Key
	Reader               Reader
	English, UK, Spanish string
	Reviewed             string // who read the Spanish over; empty: nobody
	Table                string // the file it stands in
}

//go:embed table/*.csv
var tables embed.FS

// heading is the first line of a table.
var heading = []string{"key", "reader", "en", "uk", "es", "reviewed"}

// rows is every sentence by its key. The tables are part of the program, so a
// fault in one is a programming error.
var rows = sync.OnceValue(func() map[Key]Row {
	out := map[Key]Row{}
	for _, r := range Rows() {
		if _, twice := out[r.Key]; twice {
			panic(fmt.Sprintf("words: %s has two rows", r.Key))
		}
		out[r.Key] = r
	}
	return out
})

// Rows lists the sentences, table by table.
func Rows() []Row {
	files, err := fs.Glob(tables, "table/*.csv")
	if err != nil {
		panic("words: " + err.Error())
	}
	var out []Row
	for _, name := range files {
		f, err := tables.Open(name)
		if err != nil {
			panic("words: " + err.Error())
		}
		lines, err := csv.NewReader(f).ReadAll()
		if err != nil || len(lines) == 0 || !slices.Equal(lines[0], heading) {
			panic(fmt.Sprintf("words: %s cannot be read, or does not begin with %s (%v)", name,
				strings.Join(heading, ","), err))
		}
		for _, l := range lines[1:] {
			out = append(out, Row{Key(l[0]), Reader(l[1]), l[2], l[3], l[4], l[5], name})
		}
	}
	return out
}

// Book says sentences in one language. The zero Book speaks American English.
type Book struct {
	Lang Lang
	UK   bool // British spelling
	// What lies outside the walls that are spoken of, by the codes of outer.csv with a
	// blank between them; empty: the street.
	Outer string
}

// Has says that there is a sentence of that key, for keys made of a code.
func Has(k Key) bool {
	_, ok := rows()[k]
	return ok
}

// Say is a sentence with its slots filled.
func (b Book) Say(k Key, s ...Slot) string { return fill(k, b.text(k), s) }

// Count is a sentence in the form for one or for more, with its slots filled.
func (b Book) Count(k Key, n int, s ...Slot) string {
	one, more, ok := strings.Cut(b.text(k), "|")
	if !ok {
		panic(fmt.Sprintf("words: %s has one form and is asked to count", k))
	}
	if n != 1 {
		one = more
	}
	return fill(k, one, s)
}

// text is a sentence as the table has it: in English where it has no other.
func (b Book) text(k Key) string {
	r, ok := rows()[k]
	if !ok {
		panic(fmt.Sprintf("words: there is no %s", k))
	}
	switch {
	case b.Lang == Spanish && r.Spanish != "":
		return b.outside(r.Spanish)
	case b.Lang == Longer:
		return longer(b.outside(r.English))
	case b.UK && r.UK != "":
		return b.outside(r.UK)
	}
	return b.outside(r.English)
}

// fill puts values into the slots of a sentence: each it has, and no other.
func fill(k Key, text string, s []Slot) string {
	var out strings.Builder
	used := 0
	for {
		before, rest, open := strings.Cut(text, "{")
		out.WriteString(before)
		if !open {
			break
		}
		name, after, closed := strings.Cut(rest, "}")
		i := slices.IndexFunc(s, func(q Slot) bool { return q.Name == name })
		if !closed || i < 0 {
			panic(fmt.Sprintf("words: %s has a slot {%s}, and nothing is put into it", k, name))
		}
		out.WriteString(s[i].Value)
		used |= 1 << i
		text = after
	}
	if used != 1<<len(s)-1 {
		panic(fmt.Sprintf("words: %s is given values it has no slot for: %v", k, s))
	}
	return out.String()
}

// Mark is the letter by which Longer makes a word longer.
const Mark = 'ñ'

// longer is a sentence with every word a third longer, slots as they are.
func longer(text string) string {
	var out strings.Builder
	n, slot := 0, false
	end := func() {
		for range (n + 2) / 3 {
			out.WriteRune(Mark)
		}
		n = 0
	}
	for _, r := range text {
		if !unicode.IsLetter(r) || slot {
			end()
		} else {
			n++
		}
		switch r {
		case '{':
			slot = true
		case '}':
			slot = false
		}
		out.WriteRune(r)
	}
	end()
	return out.String()
}

// Slots are the names of the slots of a text, each once, in their order.
func Slots(text string) []string {
	var out []string
	for {
		_, rest, open := strings.Cut(text, "{")
		if !open {
			return out
		}
		name, after, _ := strings.Cut(rest, "}")
		if !slices.Contains(out, name) {
			out = append(out, name)
		}
		text = after
	}
}
