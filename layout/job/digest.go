package job

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"reflect"
	"slices"
	"strconv"
	"strings"
)

// Entry is one value of the input as it was understood: the path of its key
// with the list positions, and the value in one way of writing it.
type Entry struct{ Path, Value string }

// Input is every value that the job file and its surveys state, sorted by
// path. Two inputs that say the same have the same entries, whatever their
// comments, the order of their keys, the units a length is written in, or the
// files they are divided into. A job that was not read from a file has none.
func (j *Job) Input() []Entry { return sortedInput(j.said) }

func sortedInput(said []Entry) []Entry {
	sorted := slices.Clone(said)
	slices.SortFunc(sorted, func(a, b Entry) int { return cmp.Compare(a.Path, b.Path) })
	return sorted
}

// Digest is the SHA-256 of the input in hexadecimal: of a line for each entry,
// path, tab and value.
func (j *Job) Digest() string { return inputDigest(j.said) }

func inputDigest(said []Entry) string {
	h := sha256.New()
	for _, e := range sortedInput(said) {
		_, _ = io.WriteString(h, e.Path+"\t"+e.Value+"\n") // a hash never fails to write
	}
	return hex.EncodeToString(h.Sum(nil))
}

// canonical writes a value in the one way that a digest can rest on: whole
// numbers and the shortest decimals exactly, texts in quotes.
func canonical(v any) string {
	var b strings.Builder
	writeCanonical(&b, reflect.ValueOf(v))
	return b.String()
}

func writeCanonical(b *strings.Builder, v reflect.Value) {
	switch v.Kind() {
	case reflect.Bool:
		b.WriteString(strconv.FormatBool(v.Bool()))
	case reflect.Int, reflect.Int64:
		b.WriteString(strconv.FormatInt(v.Int(), 10))
	case reflect.Float64:
		b.WriteString(strconv.FormatFloat(v.Float(), 'g', -1, 64))
	case reflect.String:
		b.WriteString(strconv.Quote(v.String()))
	case reflect.Struct:
		b.WriteByte('{')
		for i := range v.NumField() {
			b.WriteString(v.Type().Field(i).Name + ":")
			writeCanonical(b, v.Field(i))
			b.WriteByte(' ')
		}
		b.WriteByte('}')
	default:
		panic(fmt.Sprintf("job: a value of type %s has no canonical form", v.Type()))
	}
}
